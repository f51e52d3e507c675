package check

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"
	"time"

	"kernbook/internal/artefact"
	"kernbook/internal/book"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/entry"
	"kernbook/internal/demo"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// TestDemoYard: the invented yard holds, and every outcome in it comes out the
// same by the core that gave it, but for those of people who were forgotten.
func TestDemoYard(t *testing.T) {
	keys, err := seal.NewFolder(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	core := mustCore(t)
	store := mem.New()
	if err := demo.BuildBy(ctx, core.hash, store, keys, "invented", demo.Seed, time.Date(2026, 11, 20, 16, 0, 0, 0, time.FixedZone("", 0))); err != nil {
		t.Fatal(err)
	}
	r, err := Run(ctx, Options{Store: store, Keys: keys, Cores: core.cores, Tables: tables.Default(), Yard: "invented"})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d entries, %d decisions, %d rebuilt, %d recomputed, not: %v, otherwise: %v, notes: %v", r.Entries, r.Decisions, r.Rebuilt, r.Recomputed, r.Not, r.Otherwise, r.Notes)
	head, err := store.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if !r.Holds || r.Entries != head.Size || r.Head != head.String() {
		t.Fatalf("%+v; %d of %d entries, head %s, want %s", r.Fault, r.Entries, head.Size, r.Head, head)
	}
	if r.Decisions < 30 || r.Recomputed < r.Decisions/2 || r.Recomputed != r.Rebuilt || r.Recomputed+len(r.Not) != r.Decisions {
		t.Errorf("of %d decisions %d were rebuilt, %d recomputed, %d not", r.Decisions, r.Rebuilt, r.Recomputed, len(r.Not))
	}
	for _, n := range r.Not {
		if !strings.Contains(n.Say, "the person was forgotten") {
			t.Errorf("entry %d: %s", n.Index, n.Say)
		}
	}
	if len(r.Otherwise)+len(r.Notes) > 0 {
		t.Errorf("the same core says otherwise: %v %v", r.Otherwise, r.Notes)
	}
}

// TestSmallHolds: the small book holds, its decision is recomputed, and it goes
// back to each head that somebody may have kept.
func TestSmallHolds(t *testing.T) {
	b := makeSmall(t)
	r := b.read(t, b.shelf)
	if !r.Holds || r.Entries != 8 || r.Decisions != 1 || r.Rebuilt != 1 || r.Recomputed != 1 || len(r.Not)+len(r.Otherwise)+len(r.Notes) > 0 {
		t.Fatalf("%+v, %+v", r, r.Fault)
	}
	for i, l := range b.leaves(t) {
		if h, err := book.ParseHead(l.Entry.Base); err != nil || h.Size != int64(i) {
			t.Fatal(h, err)
		} else if r := b.read(t, b.shelf, func(o *Options) { o.Kept, o.Cores = h, nil }); !r.Holds {
			t.Errorf("against the head before entry %d: %+v", i, r.Fault)
		}
	}
}

// TestEveryFlip: each byte of the book is changed by itself; each change is
// found at its entry, by the stored hashes. Then the same with all hashes and
// the head worked out anew: it is found at the entry, or at the next, which
// names another head; at the last entry, by a head that somebody kept.
func TestEveryFlip(t *testing.T) {
	b := makeSmall(t)
	kept := b.head
	n := 0
	for i, line := range b.lines {
		for at := range line {
			n++
			s := b.clone()
			s.lines[i][at] ^= []byte{1, 2, 4, 0x20, 0x80}[n%5]
			if r := b.read(t, s); r.Holds || r.Fault.Index != int64(i) {
				t.Fatalf("byte %d of entry %d: %+v", at, i, r.Fault)
			}
			s.rehash(t)
			r := b.read(t, s, func(o *Options) { o.Kept = kept })
			if r.Holds || r.Fault.Index != int64(i) && r.Fault.Index != int64(i)+1 && (r.Fault.Index != -1 || i != len(b.lines)-1) {
				t.Fatalf("byte %d of entry %d, written anew: %+v", at, i, r.Fault)
			}
		}
	}
	t.Logf("%d bytes", n)
}

// TestTampered: each way to change the book, made up, is found at its place.
func TestTampered(t *testing.T) {
	b := makeSmall(t)
	swap := func(s *shelf, i, k int) { s.lines[i], s.lines[k] = s.lines[k], s.lines[i] }
	for _, c := range []struct {
		name  string
		do    func(s *shelf)
		kept  bool
		index int64
		want  string
	}{
		{"swapped", func(s *shelf) { swap(s, 4, 5) }, false, 4, "not the one that was written"},
		{"swapped, written anew", func(s *shelf) { swap(s, 4, 5); s.rehash(t) }, false, 4, "counts 5 entries, and 4 stand before it"},
		{"dropped in the middle, written anew", func(s *shelf) { s.lines = append(s.lines[:3], s.lines[4:]...); s.rehash(t) }, false, 3, "counts 4 entries, and 3 stand"},
		{"dropped at the end", func(s *shelf) { s.lines = s.lines[:7] }, false, -1, ""},
		{"dropped at the end, written anew", func(s *shelf) { s.lines = s.lines[:7]; s.rehash(t) }, true, 7, "entries are gone from its end"},
		{"all gone", func(s *shelf) { s.lines = nil; s.rehash(t) }, true, 0, "entries are gone from its end"},
		{"put in twice", func(s *shelf) { s.lines = append(s.lines, s.lines[6]); s.rehash(t) }, false, 8, "its id is that of entry 6"},
		{"another root", func(s *shelf) { s.head.Root[0] ^= 1 }, false, -1, "the entries give the root"},
		{"no line end", func(s *shelf) { s.lines[2] = bytes.TrimSuffix(s.lines[2], []byte("\n")); s.rehash(t) }, false, 2, "no line end"},
		{"a space", func(s *shelf) {
			s.lines[2] = bytes.Replace(s.lines[2], []byte(`,"v"`), []byte(`, "v"`), 1)
			s.rehash(t)
		}, false, 2, "canonical form"},
		{"a key in capitals", func(s *shelf) {
			s.lines[2] = bytes.Replace(s.lines[2], []byte(`"day"`), []byte(`"Day"`), 1)
			s.rehash(t)
		}, false, 2, "canonical form"},
		{"a needless escape", func(s *shelf) {
			s.lines[2] = bytes.Replace(s.lines[2], []byte(`“1”`), []byte(`“\u0031”`), 1)
			s.rehash(t)
		}, false, 2, "canonical form"},
	} {
		s := b.clone()
		c.do(s)
		if c.name == "dropped at the end" { // the head still counts it
			r, err := Run(ctx, Options{Store: s, Keys: b.keys, Tables: b.t})
			if err != nil || r.Holds || r.Fault.Index != 0 && r.Fault.Index != 7 {
				t.Errorf("%s: %+v, %v", c.name, r, err)
			}
			continue
		}
		r := b.read(t, s, func(o *Options) {
			if c.kept {
				o.Kept = b.head
			}
		})
		if r.Holds || r.Fault.Index != c.index || !strings.Contains(r.Fault.Why, c.want) {
			t.Errorf("%s: %+v, want %d, %q", c.name, r.Fault, c.index, c.want)
		}
	}
	for i := range b.hashes {
		s := b.clone()
		s.hashes[i][i%32] ^= 1
		r := b.read(t, s)
		at := int64(0)
		for storedFor(at+1) <= int64(i) {
			at++
		}
		if r.Holds || r.Fault.Index != at {
			t.Errorf("stored hash %d: %+v, want entry %d", i, r.Fault, at)
		}
	}
}

// TestRewritten: a book that was written anew as a whole and fits together, but
// says what cannot be.
func TestRewritten(t *testing.T) {
	b := makeSmall(t)
	const decided = 7
	body := func(i int, from, to string) func([]entry.Leaf) []entry.Leaf {
		return func(l []entry.Leaf) []entry.Leaf {
			old := string(l[i].Entry.Body)
			if l[i].Entry.Body = []byte(strings.Replace(old, from, to, 1)); string(l[i].Entry.Body) == old {
				t.Fatalf("%q is not in %s", from, old)
			}
			return l
		}
	}
	was := func(i int) string { return b.leaves(t)[i].Entry.ID.String() }
	correct := func(id, instead string) func([]entry.Leaf) []entry.Leaf {
		return func(l []entry.Leaf) []entry.Leaf {
			c := l[6]
			c.Entry.ID, c.Entry.Kind = entry.MakeID(1, [10]byte{1}), entry.Correct
			c.Entry.Body = []byte(`{"entry":"` + id + `","why":"a slip"` + instead + `}`)
			return append(l[:decided:decided], c, l[decided])
		}
	}
	var d decisionBody
	if err := strictly(b.leaves(t)[decided].Entry.Body, &d); err != nil {
		t.Fatal(err)
	}
	if d.Outcome == "keep" || len(d.Reasons) == 0 || d.Millions <= 1 {
		t.Fatalf("the small book's outcome has too little in it to be changed: %+v", d)
	}
	for _, c := range []struct {
		name  string
		do    func([]entry.Leaf) []entry.Leaf
		index int64
		want  string // part of the fault; "" where the book holds
	}{
		{"nothing changed", func(l []entry.Leaf) []entry.Leaf { return l }, 0, ""},
		{"record's sum", body(decided, d.Record, strings.Repeat("0", 64)), decided, "the entries before it give a record with the SHA-256 " + d.Record},
		{"outcome's sum", body(decided, d.OutcomeSum, strings.Repeat("0", 64)), decided, "the core that decided gives “" + d.Outcome},
		{"doubt", body(decided, fmt.Sprintf(`"millions":%d`, d.Millions), `"millions":1`), decided, "gives a doubt of"},
		{"a reason", body(decided, d.Reasons[0], "other"), decided, "gives the reasons"},
		{"outcome", body(decided, `"outcome":"`+d.Outcome+`"`, `"outcome":"keep"`), decided, "the decision says it gave “keep”"},
		{"looser than the outcome", body(decided, `"verdict":"withdraw"`, `"verdict":"keep"`), decided, "looser than the outcome"},
		{"hours of use", body(3, `"20 h"`, `"10 h"`), decided, "the decision names " + d.Record},
		{"a look fewer", body(5, `"eye"`, `"hand"`), decided, "the decision names " + d.Record},
		{"washed another day", func(l []entry.Leaf) []entry.Leaf { l[4].Entry.Day--; return l }, decided, "the decision names " + d.Record},
		{"role", body(0, "competent person", "examiner"), decided, "the decision names " + d.Record},
		{"a role that may not name the yard", body(0, "competent person", "climber"), 0, "the first person of the yard and no competent person"},
		{"box of another entry", func(l []entry.Leaf) []entry.Leaf { l[0].Entry.ID[15] ^= 1; return l }, 0, "does not open with the key"},
		{"holder", body(6, `"holder":"p1"`, `"place":"van"`), decided, "the decision names " + d.Record},
		{"corrected before", correct(was(6), ""), decided + 1, "the decision names " + d.Record},
		{"corrected to the same", correct(was(6), `,"instead":{"holder":"p1"}`), 0, ""},
		{"corrects what comes later", correct(was(decided), ""), decided, "no entry before it"},
		{"corrects with another kind", correct(was(6), `,"instead":{"limit":""}`), decided, "unknown field"},
		{"no such piece", func(l []entry.Leaf) []entry.Leaf { l[4].Entry.Piece = "BR-2"; return l }, 4, "no entry before it registers"},
		{"another yard", func(l []entry.Leaf) []entry.Leaf { l[4].Entry.Yard = "other"; return l }, 4, "of the yard “other”"},
		{"an unknown kind", func(l []entry.Leaf) []entry.Leaf { l[4].Entry.Kind = "party"; return l }, 4, "the kind “party” is not known"},
		{"a later version", func(l []entry.Leaf) []entry.Leaf { l[4].Entry.Version = 2; return l }, 4, "version 2"},
		{"no author", func(l []entry.Leaf) []entry.Leaf { l[4].Entry.Author = ""; return l }, 4, "no author"},
		{"a body of another kind", func(l []entry.Leaf) []entry.Leaf { l[4].Entry.Body = []byte(`{"holder":"p1"}`); return l }, 4, "unknown field"},
		{"a body in another order", func(l []entry.Leaf) []entry.Leaf {
			l[4].Entry.Body = []byte(`{"clean":"yes","with":"water"}`)
			return l
		}, 4, "not in the one form"},
		{"the clock an hour back", func(l []entry.Leaf) []entry.Leaf { l[4].Recorded = "2026-06-30T07:30:00.000Z"; return l }, 0, ""},
		{"the clock a day back", func(l []entry.Leaf) []entry.Leaf { l[4].Recorded = "2026-06-29T08:00:05.000Z"; return l }, 4, "before an entry that stands before it"},
	} {
		s := rewritten(t, c.do(b.leaves(t)))
		r := b.read(t, s)
		switch {
		case c.want == "" && (!r.Holds || r.Recomputed != 1):
			t.Errorf("%s: %+v", c.name, r.Fault)
		case c.want != "" && (r.Holds || r.Fault.Index != c.index || !strings.Contains(r.Fault.Why, c.want)):
			t.Errorf("%s: %+v, want %d, %q", c.name, r.Fault, c.index, c.want)
		}
	}
	s := rewritten(t, b.leaves(t))
	for i := range s.lines { // the last entry is made on top of a head that never was
		l := s.leaves(t)
		l[i].Entry.Base = "1:" + strings.Repeat("0", 64)
		s := s.clone()
		s.lines[i] = l[i].Append(nil)
		if r := b.read(t, s.rehash(t)); r.Holds || r.Fault.Index != int64(i) || i > 0 && !strings.Contains(r.Fault.Why, "never a head of this book") {
			t.Errorf("base of entry %d: %+v", i, r.Fault)
		}
	}
}

// TestNotRecomputed: what cannot be recomputed is told, counted and never good.
func TestNotRecomputed(t *testing.T) {
	b := makeSmall(t)
	core := mustCore(t)
	other := func(hash string, file []byte) func(o *Options) {
		dir := t.TempDir()
		if file != nil {
			if err := os.WriteFile(artefact.File(dir, hash), file, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		cores, err := NewCores(dir)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { cores.Close() })
		return func(o *Options) { o.Cores = cores }
	}
	nameless := b.leaves(t)
	nameless[7].Entry.Artefact = ""
	for _, c := range []struct {
		name   string
		s      *shelf
		change func(o *Options)
		want   string
	}{
		{"no core is named", rewritten(t, nameless), func(*Options) {}, "names no core that decided; today's core gives the same outcome, byte for byte"},
		{"its core is gone", b.shelf, other(core.hash, nil), core.hash + ", is not in the yard's folder"},
		{"no cores", b.shelf, func(o *Options) { o.Cores = nil }, "the yard's cores are not here"},
		{"no keys", b.shelf, func(o *Options) { o.Keys = nil }, "cannot be rebuilt: the yard's keys are not here"},
	} {
		r := b.read(t, c.s, c.change)
		if !r.Holds || r.Recomputed != 0 || len(r.Not) != 1 || r.Not[0].Index != 7 || !strings.Contains(r.Not[0].Say, c.want) {
			t.Errorf("%s: %+v %+v", c.name, r, r.Fault)
		}
	}
	packed, err := os.ReadFile(artefact.File(core.dir, core.hash))
	if err != nil {
		t.Fatal(err)
	}
	packed[len(packed)/2] ^= 1
	if r := b.read(t, b.shelf, other(core.hash, packed)); r.Holds || r.Fault.Index != 7 || !strings.Contains(r.Fault.Why, artefact.ErrOther.Error()) {
		t.Errorf("a core that was changed: %+v", r.Fault)
	}
	l := b.leaves(t)
	f := l[6]
	f.Entry.ID, f.Entry.Kind, f.Entry.Piece, f.Entry.Body = entry.MakeID(1, [10]byte{1}), entry.Forget, "", []byte(`{"person":"p1","why":"has left"}`)
	s := rewritten(t, append(l, f))
	if r := b.read(t, s); !r.Holds || r.Recomputed != 1 || len(r.Notes) != 1 || !strings.Contains(r.Notes[0].Say, "the key is still here") {
		t.Errorf("to be forgotten: %+v %+v", r, r.Fault)
	}
	if err := b.keys.Destroy("p1"); err != nil {
		t.Fatal(err)
	}
	if r := b.read(t, s); !r.Holds || r.Recomputed != 0 || len(r.Not) != 1 || !strings.Contains(r.Not[0].Say, "cannot be rebuilt: the person was forgotten") || len(r.Notes) > 0 {
		t.Errorf("forgotten: %+v %+v", r, r.Fault)
	}
}
