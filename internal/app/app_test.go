package app

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"kernbook/internal/book"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

var ctx = context.Background()

// yard is an App over an empty book on a day, with a competent person p1.
func yard(t *testing.T, now string) (*App, *mem.Store) {
	t.Helper()
	at, err := time.Parse(time.RFC3339, now)
	if err != nil {
		t.Fatal(err)
	}
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	a := New(Config{Store: store, Keys: keys, Tables: tables.Default(), Yard: "quillbrook", Device: "bench", Clock: func() time.Time { return at }})
	who := Who{Person: "p1"}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p1", Role: "competent person"}, Private: fold.Private{Name: "Maud Ferrant", Mass: "82kg"}, From: day("2025-01-01")}))
	must(t)(a.NameYard(ctx, who, kit.Yard{Name: "Quillbrook Tree Care", Country: "GB"}))
	return a, store
}

func must(t *testing.T) func(Written, error) Written {
	return func(w Written, err error) Written {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
}

func day(s string) qty.Day {
	d, err := qty.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d.Earliest()
}

func example(t *testing.T, name string) *kit.Record {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "examples", name))
	if err != nil {
		t.Fatal(err)
	}
	r, faults := record.Decode(name, b, tables.Default())
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestTakenRecordsComeBack: a record that is taken into the book comes out of
// it the same, and is judged the same.
func TestTakenRecordsComeBack(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*.toml"))
	if err != nil || len(files) < 5 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, f := range files {
		r := example(t, filepath.Base(f))
		a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
		if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
			t.Errorf("%s: %v", f, err)
			continue
		}
		j, err := a.Judge(ctx, r.Piece.ID, r.AsOf, false)
		if err != nil {
			t.Errorf("%s: %v", f, err)
			continue
		}
		want := *r
		want.Yard = kit.Yard{Name: "Quillbrook Tree Care", Country: "GB"}
		want.People = append([]kit.Person{{ID: "p1", Role: "competent person"}}, r.People...)
		for i := range want.Uses { // nobody's body mass is on record
			want.Uses[i].Mass = 0
		}
		if r.Piece.StoredIn == "" || j.Record.Piece.StoredIn == "" {
			want.Piece.StoredIn = j.Record.Piece.StoredIn
		}
		if d := cmp.Diff(&want, j.Record, cmpopts.EquateEmpty(), cmpopts.IgnoreFields(kit.Person{}, "Since"), cmpopts.SortSlices(func(a, b kit.Examination) bool { return a.Day < b.Day })); d != "" {
			t.Errorf("%s (-want +got):\n%s", f, d)
		}
		o := decide.Decide(tables.Default(), &want, decide.Ask{})
		if o.Verdict != j.Outcome.Verdict {
			t.Errorf("%s: %s in the book, %s by itself", f, j.Outcome.Verdict, o.Verdict)
		}
	}
}

// TestTakeKeepsWhenARoleEnded: a role that a record says has ended has ended in
// the book; one that is to end later cannot be entered yet.
func TestTakeKeepsWhenARoleEnded(t *testing.T) {
	take := func(until string) (*kit.Person, error) {
		r := example(t, "bridge-daily.toml")
		id := r.Examinations[len(r.Examinations)-1].SignedBy
		for i := range r.People {
			if r.People[i].ID == id {
				r.People[i].Until = day(until)
			}
		}
		a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
		if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
			return nil, err
		}
		j, err := a.Judge(ctx, r.Piece.ID, r.AsOf, false)
		if err != nil {
			return nil, err
		}
		for i := range j.Record.People {
			if j.Record.People[i].ID == id {
				return &j.Record.People[i], nil
			}
		}
		return nil, errors.New("nobody")
	}
	p, err := take("2026-01-31")
	if err != nil || !p.CompetentOn(day("2026-01-31")) || p.CompetentOn(day("2026-02-01")) {
		t.Errorf("%+v, %v", p, err)
	}
	if _, err := take("2030-01-31"); err == nil || !strings.Contains(err.Error(), "lies ahead") {
		t.Errorf("a role that ends later: %v", err)
	}
}

// TestDroppedViewIsTheSame: a fold that is dropped and made again from the
// first leaf gives the same records.
func TestDroppedViewIsTheSame(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, store := yard(t, "2026-06-01T17:00:00+01:00")
	if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
		t.Fatal(err)
	}
	before, err := a.Judge(ctx, "BR-07", a.Today(), true)
	if err != nil {
		t.Fatal(err)
	}
	b := New(Config{Store: store, Keys: a.keys, Tables: a.tables, Yard: a.yard, Device: "another", Clock: a.clock})
	after, err := b.Judge(ctx, "BR-07", a.Today(), true)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(before, after); d != "" {
		t.Error(d)
	}
}

// TestSealed: a name and a body mass never stand in the book, count while the
// key is there, and are unknown once it is destroyed.
func TestSealed(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, store := yard(t, "2026-06-01T17:00:00+01:00")
	who := Who{Person: "p1"}
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	u := r.Uses[len(r.Uses)-1]
	must(t)(a.PlanUse(ctx, who, "BR-07", u, "p1"))
	mass := func() qty.Mass {
		j, err := a.Judge(ctx, "BR-07", a.Today(), false)
		if err != nil {
			t.Fatal(err)
		}
		return j.Record.Uses[len(j.Record.Uses)-1].Mass
	}
	if m := mass(); m != 82*qty.Kilogram {
		t.Errorf("mass %s, want 82 kg", m)
	}
	h, _ := store.Head(ctx)
	lines, _ := store.Read(ctx, 0, int(h.Size))
	for _, l := range lines {
		for _, word := range []string{"Ferrant", "82kg", "82 kg"} {
			if strings.Contains(string(l), word) {
				t.Errorf("%q stands in the book: %s", word, l)
			}
		}
	}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p9", Role: "competent person"}}))
	must(t)(a.ForgetPerson(ctx, Who{Person: "p9"}, "p1", "has left, and asked for it"))
	if m := mass(); m != 0 {
		t.Errorf("mass %s after forgetting", m)
	}
	if _, err := a.EnterPerson(ctx, Who{Person: "p9"}, Member{Person: kit.Person{ID: "p1"}, Private: fold.Private{Name: "again"}}); code(err) != Refused {
		t.Errorf("a forgotten person is entered again: %v", err)
	}
}

func code(err error) Code {
	var e *Error
	if errors.As(err, &e) {
		return e.Code
	}
	return ""
}

// TestRefusals: what cannot be so is refused with a sentence, and nothing is written.
func TestRefusals(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, store := yard(t, "2026-06-01T17:00:00+01:00")
	who := Who{Person: "p1"}
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p2", Role: "climber"}}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p4", Role: "climber"}}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p4", Role: "climber"}, Left: true}))
	aside := must(t)(a.Stop(ctx, Who{Person: "p2"}, "BR-07", a.Today(), fold.Stop{What: "set aside", Why: "w"}))
	never := r.Piece
	never.ID = "BR-08"
	must(t)(a.AddPiece(ctx, who, never))
	last := r.Examinations[len(r.Examinations)-1]
	for _, c := range []struct {
		name string
		do   func() error
		code Code
		says string
	}{
		{"nobody", func() error { _, err := a.Examine(ctx, Who{}, "BR-07", last); return err }, Invalid, "who enters"},
		{"a stranger", func() error { _, err := a.Examine(ctx, Who{Person: "x"}, "BR-07", last); return err }, NotFound, "x"},
		{"no such piece", func() error { _, err := a.Examine(ctx, who, "BR-99", last); return err }, NotFound, "BR-99"},
		{"a piece twice", func() error { _, err := a.AddPiece(ctx, who, r.Piece); return err }, Conflict, "already"},
		{"the future", func() error { e := last; e.Day += 9; _, err := a.Examine(ctx, who, "BR-07", e); return err }, Invalid, "future"},
		{"no such sign", func() error {
			e := last
			e.Ref, e.Signs = "", []kit.Sign{{Ref: "z", Sign: "glow", State: kit.FirstSeen, At: kit.Place{Whole: true}}}
			_, err := a.Examine(ctx, who, "BR-07", e)
			return err
		}, Invalid, "glow"},
		{"beyond the end", func() error {
			_, err := a.Happen(ctx, who, "BR-07", kit.Event{Day: a.Today(), Event: "saw-contact", At: kit.Place{From: 9 * qty.Metre, To: 9 * qty.Metre}, PlaceSaid: true, Travel: -1, Peak: -1})
			return err
		}, Invalid, "beyond the end"},
		{"a climber decides", func() error {
			_, err := a.Decide(ctx, Who{Person: "p2"}, "BR-07", Decision{Verdict: kit.Withdraw, Why: "w"})
			return err
		}, Refused, "competent"},
		{"a climber makes themselves competent", func() error {
			_, err := a.EnterPerson(ctx, Who{Person: "p2"}, Member{Person: kit.Person{ID: "p2", Role: "competent person"}})
			return err
		}, Refused, "competent"},
		{"a climber corrects a stop", func() error { _, err := a.Correct(ctx, Who{Person: "p2"}, aside.ID, nil, "a slip"); return err }, Refused, "competent"},
		{"a climber takes it back into use", func() error {
			_, err := a.Stop(ctx, Who{Person: "p2"}, "BR-07", a.Today(), fold.Stop{What: "back in use", Why: "w"})
			return err
		}, Refused, "competent"},
		{"who has left", func() error { _, err := a.Examine(ctx, Who{Person: "p4"}, "BR-07", last); return err }, Refused, "not in the yard"},
		{"looser limit", func() error { _, err := a.SetLimit(ctx, who, "1 in 50", "why not"); return err }, Invalid, "looser"},
		{"back in use, never set aside", func() error {
			_, err := a.Stop(ctx, who, "BR-08", a.Today(), fold.Stop{What: "back in use", Why: "w"})
			return err
		}, Invalid, "not set aside"},
	} {
		before, _ := store.Head(ctx)
		err := c.do()
		if code(err) != c.code || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v (%s), want %s with %q", c.name, err, code(err), c.code, c.says)
		}
		if after, _ := store.Head(ctx); after != before {
			t.Errorf("%s: something was written", c.name)
		}
	}
}

// TestNeverLooser: an examiner's decision may be stricter than the outcome, and
// never looser.
func TestNeverLooser(t *testing.T) {
	r := example(t, "bridge-soft-place.toml")
	a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	who := Who{Person: "p1"}
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	j, err := a.Judge(ctx, r.Piece.ID, a.Today(), false)
	if err != nil || j.Outcome.Verdict == kit.Keep {
		t.Fatalf("%v, %v", j.Outcome.Verdict, err)
	}
	on := r.Examinations[len(r.Examinations)-1].Ref
	if _, err := a.Decide(ctx, who, r.Piece.ID, Decision{Examination: on, Verdict: kit.Keep, Why: "it will do"}); code(err) != Refused {
		t.Errorf("a looser decision: %v", err)
	}
	must(t)(a.Decide(ctx, who, r.Piece.ID, Decision{Examination: on, Verdict: kit.Withdraw, Why: "cheap to replace"}))
}

// TestCorrection: a wrong entry stays, counts as corrected, and what changed is told.
func TestCorrection(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, store := yard(t, "2026-06-01T17:00:00+01:00")
	who := Who{Person: "p1"}
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	saw := kit.Event{Ref: "e1", Day: a.Today(), Event: "saw-contact", Travel: -1, Peak: -1}
	w := must(t)(a.Happen(ctx, who, "BR-07", saw))
	j, _ := a.Judge(ctx, "BR-07", a.Today(), false)
	if j.Outcome.Verdict != kit.Withdraw {
		t.Fatalf("%s after a saw touched it", j.Outcome.Verdict)
	}
	c, err := a.Correct(ctx, who, w.ID, nil, "it was the other bridge, BR-08")
	if err != nil {
		t.Fatal(err)
	}
	if c.Before != kit.Withdraw || c.After >= kit.SetAside || c.Millions[1] <= 0 {
		t.Errorf("told %s → %s, doubt %v", c.Before, c.After, c.Millions)
	}
	if at, err := store.Find(ctx, w.ID); err != nil || at != w.Index {
		t.Errorf("the wrong entry is not in the book any more: %d, %v", at, err)
	}
	if _, err := a.Correct(ctx, who, w.ID, nil, ""); code(err) != Invalid {
		t.Errorf("without a reason: %v", err)
	}
}

// TestSomebodyElseWrote: two openings of one book both get their entries in.
func TestSomebodyElseWrote(t *testing.T) {
	a, store := yard(t, "2026-06-01T17:00:00+01:00")
	b := New(Config{Store: store, Keys: a.keys, Tables: a.tables, Yard: a.yard, Device: "another", Clock: a.clock})
	if err := b.Look(ctx, func(*fold.State, book.Head) error { return nil }); err != nil {
		t.Fatal(err)
	}
	p := example(t, "bridge-daily.toml").Piece
	must(t)(a.AddPiece(ctx, Who{Person: "p1"}, p))
	if _, err := b.AddPiece(ctx, Who{Person: "p1"}, p); code(err) != Conflict {
		t.Errorf("the same piece from another device: %v", err)
	}
	p.ID = "BR-08"
	must(t)(b.AddPiece(ctx, Who{Person: "p1"}, p))
}

// TestTakeIsAllOrNothing: a record of which one part is refused leaves the book as it
// was, and says which; entered twice under one id it is in the book once.
func TestTakeIsAllOrNothing(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, store := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	before, _ := store.Head(ctx)
	wrong := *r
	wrong.Answers = append(slices.Clone(r.Answers), kit.Answer{Day: r.AsOf, To: "never seen", Cause: "sap", By: "p1", Verified: "seen"})
	_, err := a.Take(ctx, Who{Person: "p1"}, &wrong)
	if code(err) != Invalid || !strings.Contains(err.Error(), "Nothing of the record was entered. Of it, the answer of "+r.AsOf.Words()) {
		t.Fatalf("%v", err)
	}
	if after, _ := store.Head(ctx); after != before {
		t.Fatalf("%d entries were written", after.Size-before.Size)
	}
	if err := a.Look(ctx, func(s *fold.State, h book.Head) error {
		if h != before || s.Piece(r.Piece.ID) != nil || len(s.People) != 1 || s.Size != before.Size {
			t.Errorf("the state was changed: %d people, %d entries", len(s.People), s.Size)
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	id, err := a.NewID()
	if err != nil {
		t.Fatal(err)
	}
	all, err := a.Take(ctx, Who{Person: "p1", ID: id}, r)
	if err != nil {
		t.Fatal(err)
	}
	after, _ := store.Head(ctx)
	if after.Size != before.Size+int64(len(all)) {
		t.Errorf("%d entries told, %d written", len(all), after.Size-before.Size)
	}
	if again, err := a.Take(ctx, Who{Person: "p1", ID: id}, r); err != nil || len(again) != 1 || again[0].ID != id {
		t.Errorf("handed in again: %v, %v", again, err)
	}
	if twice, _ := store.Head(ctx); twice != after {
		t.Errorf("%d entries more", twice.Size-after.Size)
	}
	if _, err := a.Take(ctx, Who{Person: "p1"}, r); code(err) != Conflict {
		t.Errorf("under another id: %v", err)
	}
}

// TestExaminationsHaveNames: an interim or thorough examination that nobody named has
// a name, another than all on record, and is decided on by it; handed in twice under
// one id it is entered once. A look before use needs none.
func TestExaminationsHaveNames(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, store := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	who, id := Who{Person: "p1"}, r.Piece.ID
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	e := kit.Examination{Kind: kit.Thorough, Day: a.Today(), By: "p1", WouldClimb: kit.SaidNo, SignedBy: "p1", Looks: []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}}
	form, err := a.NewID()
	if err != nil {
		t.Fatal(err)
	}
	first := must(t)(a.Examine(ctx, Who{Person: "p1", ID: form}, id, e))
	size, _ := store.Head(ctx)
	if again := must(t)(a.Examine(ctx, Who{Person: "p1", ID: form}, id, e)); again.Index != first.Index {
		t.Errorf("entered twice: %v, %v", first, again)
	}
	other := e
	other.WouldClimb = kit.SaidYes
	if _, err := a.Examine(ctx, Who{Person: "p1", ID: form}, id, other); code(err) != Conflict {
		t.Errorf("something else under the same id: %v", err)
	}
	if after, _ := store.Head(ctx); after != size {
		t.Errorf("%d entries more", after.Size-size.Size)
	}
	must(t)(a.Examine(ctx, who, id, e))
	look := e
	look.Kind, look.SignedBy = kit.PreUse, ""
	must(t)(a.Examine(ctx, who, id, look))
	var names []string
	j, err := a.Judge(ctx, id, a.Today(), false)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range j.Record.Examinations {
		if x.Day == a.Today() && len(x.Looks) == 1 {
			names = append(names, x.Ref)
		}
	}
	name := "thorough " + a.Today().String()
	if want := []string{name, name + ", 2", ""}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
	must(t)(a.Decide(ctx, who, id, Decision{Examination: name + ", 2", Verdict: kit.Withdraw, Why: "would not climb on it"}))
}
