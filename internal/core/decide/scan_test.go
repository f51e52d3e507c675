package decide_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// TestAnAnswerExplains holds that every sign to be weighed of the default
// tables is explained once a harmless cause that the table lists for it has
// been found and verified: otherwise the question could never be answered.
func TestAnAnswerExplains(t *testing.T) {
	tried := 0
	for i := range tb.Kinds {
		k := &tb.Kinds[i]
		if !k.Doubt {
			continue
		}
		for n := range k.Signs {
			s := &k.Signs[n]
			if s.Class != table.Weigh {
				continue
			}
			for _, l := range s.Causes {
				r := sound(k.ID)
				e := &r.Examinations[0]
				e.Signs = []kit.Sign{{Ref: "s", Sign: s.ID, State: kit.FirstSeen, At: at(k)}}
				r.Answers = []kit.Answer{{Day: r.AsOf, To: "s", Cause: l.Cause, Verified: "matched", By: "examiner"}}
				o := decide.Decide(tb, r, decide.Ask{Explain: true})
				if len(o.Told.Signs) != 1 {
					t.Fatalf("%s %s: %d signs on record", k.ID, s.ID, len(o.Told.Signs))
				}
				tried++
				if why := o.Told.Signs[0].Why; why < float64(tb.Rules.Explained) {
					t.Errorf("%s: %s is explained only to %.3f by %s, found and verified", k.ID, s.ID, why, l.Cause)
				}
			}
		}
	}
	if tried == 0 {
		t.Fatal("nothing was tried")
	}
}
