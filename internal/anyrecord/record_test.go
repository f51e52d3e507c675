package anyrecord

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"kernbook/internal/core/kit"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

// TestRecordsAreValid: each record drawn can be written and read, and comes
// back as it was. Over all of them, everything that a record can hold is drawn.
func TestRecordsAreValid(t *testing.T) {
	tb := tables.Default()
	met := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		r := Record(t, tb, With{})
		b := record.Encode(r)
		again, faults := record.DecodeJSON("record", b, tb)
		if err := faults.Err(); err != nil {
			t.Fatalf("%v\n%s", err, b)
		}
		if diff := cmp.Diff(r, again, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("(-drawn +read):\n%s", diff)
		}
		count(met, r)
	})
	for _, what := range []string{"first seen", "same", "grown", "gone", "gone after washing", "reading", "again", "event", "event at a place", "answer with a cause",
		"change", "run", "partial coverage", "several on one day", "own rates", "several persons", "after an event"} {
		if met[what] == 0 {
			t.Errorf("no record had: %s", what)
		}
	}
}

func count(met map[string]int, r *kit.Record) {
	add := func(what string, is bool) {
		if is {
			met[what]++
		}
	}
	for i := range r.Examinations {
		e := &r.Examinations[i]
		add("several on one day", i > 0 && e.Day == r.Examinations[i-1].Day)
		add("after an event", e.AfterEvent != "")
		for k := range e.Signs {
			add(string(e.Signs[k].State), true)
		}
		for k := range e.Readings {
			add("reading", true)
			add("again", len(e.Readings[k].Again) > 0)
		}
		for k := range e.Looks {
			add("several persons", e.Looks[k].By != e.By)
			add("partial coverage", len(e.Looks[k].Covers) > 0 && !e.Looks[k].Covers[0].All)
		}
	}
	for i := range r.Events {
		add("event", true)
		add("event at a place", r.Events[i].PlaceSaid)
	}
	for i := range r.Answers {
		add("answer with a cause", r.Answers[i].Cause != "")
	}
	for i := range r.People {
		add("own rates", len(r.People[i].Kappa) > 0)
	}
	add("change", len(r.Changes) > 0)
	add("run", len(r.Runs) > 0)
}

// TestShuffleChangesNothing: what is put in another order is the same record.
func TestShuffleKeepsTheRecord(t *testing.T) {
	tb := tables.Default()
	rapid.Check(t, func(t *rapid.T) {
		r := Record(t, tb, With{})
		s := Shuffle(t, r)
		if len(s.Examinations) != len(r.Examinations) || len(s.Answers) != len(r.Answers) || len(s.Runs) != len(r.Runs) {
			t.Fatal("something was lost")
		}
		for i := range r.Examinations {
			for k := range s.Examinations {
				if a, b := &r.Examinations[i], &s.Examinations[k]; a.Ref == b.Ref && (len(a.Looks) != len(b.Looks) || len(a.Signs) != len(b.Signs) || a.Day != b.Day) {
					t.Fatal("an examination is another one")
				}
			}
		}
	})
}
