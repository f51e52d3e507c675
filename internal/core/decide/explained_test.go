package decide_test

import (
	"math"
	"testing"

	"kernbook/internal/core/decide"
)

// TestExplainingChangesNothing: the doubt of a record is the same whether its
// explanation is asked for or not, for every kind with a figure, readings and all.
func TestExplainingChangesNothing(t *testing.T) {
	tried := 0
	for i := range tb.Kinds {
		k := &tb.Kinds[i]
		if !k.Doubt {
			continue
		}
		r := sound(k.ID)
		short, full := decide.Decide(tb, r, decide.Ask{}), decide.Decide(tb, r, decide.Ask{Explain: true})
		if short.Doubt == nil || full.Doubt == nil || short.Verdict != full.Verdict {
			t.Fatalf("%s: %s and %s", k.ID, short.Verdict, full.Verdict)
		}
		if a, b := short.Doubt.D, full.Doubt.D; math.Abs(a-b) > 1e-9*a {
			t.Errorf("%s: doubt %.12g, explained %.12g", k.ID, a, b)
		}
		tried += len(r.Examinations[0].Readings)
	}
	if tried == 0 {
		t.Fatal("no reading was tried")
	}
}
