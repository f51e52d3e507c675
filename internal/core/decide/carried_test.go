package decide_test

import (
	"encoding/json"
	"path/filepath"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/anyrecord"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/corpus"
	"kernbook/internal/tables"
)

// sameCarried holds the outcome of a belief that is carried from the day of a record
// to some later days against that of the whole record, to the last bit.
func sameCarried(t interface {
	Helper()
	Fatalf(string, ...any)
}, r *kit.Record, days []qty.Day) (led int) {
	t.Helper()
	tb := tables.Default()
	k := decide.Carry(tb, r)
	for i, d := range days {
		later := *r
		later.AsOf = r.AsOf + d
		if i > 0 && days[i-1] == d { // the same day again, in another yard
			later.Yard.Limit, later.Yard.Country = 500, "unknown"
		}
		if !k.Leads(tb, &later) {
			continue
		}
		led++
		got, want := k.Decide(&later), decide.Decide(tb, &later, decide.Ask{})
		a, err := json.Marshal(got)
		b, err2 := json.Marshal(want)
		if err != nil || err2 != nil || string(a) != string(b) {
			t.Fatalf("%s, %d days later:\ncarried %s\nscratch %s", r.Piece.ID, d, a, b)
		}
	}
	return led
}

// TestCarriedIsFromScratch: over random records, a belief that is carried gives the
// very outcome of one that begins on the piece's first day.
func TestCarriedIsFromScratch(t *testing.T) {
	tb, led, tried := tables.Default(), 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted})
		r.AsOf -= qty.Day(rapid.SampledFrom([]int{0, 0, 1, 20, 200}).Draw(t, "as of earlier"))
		days := []qty.Day{0, 1, 2, qty.Day(rapid.IntRange(3, 400).Draw(t, "later")), 0, 0, 0, 7, 7}
		led, tried = led+sameCarried(t, r, days), tried+len(days)
	})
	if led < tried/2 {
		t.Errorf("%d of %d days could be carried to", led, tried)
	}
}

// TestCarriedOverCorpus: the same over the corpus, from the day asked for and from
// half a year before it.
func TestCarriedOverCorpus(t *testing.T) {
	cases, faults := corpus.Load(filepath.Join("..", "..", "..", "testdata", "corpus"), tables.Default())
	if len(faults) > 0 || len(cases) < 100 {
		t.Fatalf("%d cases, %v", len(cases), faults)
	}
	led := 0
	for _, c := range cases {
		r := *c.Record
		led += sameCarried(t, &r, []qty.Day{0, 0, 0, 1, 1, 9, 30, 400, 400})
		r.AsOf -= 183
		led += sameCarried(t, &r, []qty.Day{0, 1, 60, 183})
	}
	if led < 2*len(cases) {
		t.Errorf("%d days could be carried to, of %d cases", led, len(cases))
	}
}

// TestCarriedStopsAtWhatIsNew: something entered for a day between makes the belief
// begin anew, and an earlier day does.
func TestCarriedStopsAtWhatIsNew(t *testing.T) {
	tb := tables.Default()
	r := rapid.Custom(func(t *rapid.T) *kit.Record { return anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Celled}) }).Example(1)
	k := decide.Carry(tb, r)
	later := anyrecord.Copy(r)
	later.AsOf += 30
	if !k.Leads(tb, later) {
		t.Fatal("nothing is new, and the belief does not lead on")
	}
	for name, change := range map[string]func(*kit.Record){
		"event":       func(r *kit.Record) { r.Events = append(r.Events, kit.Event{Day: r.AsOf - 3}) },
		"examination": func(r *kit.Record) { r.Examinations = append(r.Examinations, kit.Examination{Day: r.AsOf}) },
		"answer":      func(r *kit.Record) { r.Answers = append(r.Answers, kit.Answer{Day: r.AsOf - 29}) },
		"change":      func(r *kit.Record) { r.Changes = append(r.Changes, kit.Change{Day: r.AsOf}) },
		"use":         func(r *kit.Record) { r.Uses = append(r.Uses, kit.Use{From: r.AsOf}) },
		"run":         func(r *kit.Record) { r.Runs = append(r.Runs, kit.Run{From: r.AsOf, To: r.AsOf}) },
		"earlier":     func(r *kit.Record) { r.AsOf -= 31 },
	} {
		x := anyrecord.Copy(later)
		if change(x); k.Leads(tb, x) {
			t.Errorf("%s: the belief leads on", name)
		}
	}
}
