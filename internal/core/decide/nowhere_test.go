package decide_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// TestNothingLiesNowhere: what is on record at a place that the piece does not
// have, or no longer, is never dropped: a sign counts as unexplained, whatever
// is said of it later; a reading out of range as one; an event acts on the
// whole piece.
func TestNothingLiesNowhere(t *testing.T) {
	shortened := kit.Change{Day: mustDay("2026-07-06"), What: "shortened at end B", Length: 100 * qty.Millimetre, By: "examiner"}
	beyond := kit.Place{From: 850 * qty.Millimetre, To: 860 * qty.Millimetre}
	for _, x := range []struct {
		name string
		at   kit.Place
		want string
	}{
		{"beyond the end", beyond, "sign.nowhere"},
		{"a part it does not have", kit.Place{Part: "end C"}, "sign.nowhere"},
		{"at its new end", kit.Place{From: 800 * qty.Millimetre, To: 800 * qty.Millimetre}, ""},
		{"on it", kit.Place{From: 400 * qty.Millimetre, To: 420 * qty.Millimetre}, ""},
	} {
		r := sound(kit.Bridge)
		r.Changes = []kit.Change{shortened}
		r.Examinations[0].Signs = []kit.Sign{{Ref: "s", Sign: "resin-stain", State: kit.FirstSeen, At: x.at}}
		check := func(when, want string) {
			o := decide.Decide(tb, r, decide.Ask{Explain: true})
			found := ""
			for i := range o.Reasons {
				if q := &o.Reasons[i]; q.Row == "5" && q.Key != "sign.unexplained" {
					found = q.Key
				}
			}
			if found != want || want != "" && o.Verdict != kit.Withdraw || len(o.Told.Signs) != 1 {
				t.Errorf("%s, %s: %q, want %q: %d signs, %s%s", x.name, when, found, want, len(o.Told.Signs), o.Verdict, reasons(&o))
			}
		}
		check("first seen", x.want)
		again := r.Examinations[0]
		again.Day, again.Signs = mustDay("2026-08-03"), []kit.Sign{{Ref: "s", State: kit.Same}}
		r.Examinations, r.AsOf = append(r.Examinations, again), again.Day
		check("the same later", x.want)
		r.Examinations[1].Signs[0].State = kit.Grown
		check("grown later", "sign.grown")
	}

	r := sound(kit.Bridge)
	r.Examinations[0].Readings = nil
	for _, mm := range []qty.Length{100, 400, 700} {
		r.Examinations[0].Readings = append(r.Examinations[0].Readings, kit.Reading{Quantity: "diameter", At: kit.Place{From: mm * qty.Millimetre, To: mm * qty.Millimetre},
			Values: []qty.Length{12_000}, Wet: kit.SaidNo})
	}
	r.Examinations[0].Readings = append(r.Examinations[0].Readings, kit.Reading{Ref: "thin", Quantity: "diameter", At: kit.Place{From: beyond.From, To: beyond.From},
		Values: []qty.Length{11_200}, Wet: kit.SaidNo})
	at := func(changes []kit.Change) *decide.Outcome {
		c := *r
		c.Changes = changes
		o := decide.Decide(tb, &c, decide.Ask{Explain: true})
		return &o
	}
	there, gone := at(nil), at([]kit.Change{shortened})
	if len(there.Told.Signs) != 1 || len(gone.Told.Signs) != 1 || gone.Told.Signs[0].Why != 0 {
		t.Errorf("a reading out of range: %d signs where it lies on the piece, %d beyond its end\n%s", len(there.Told.Signs), len(gone.Told.Signs), reasons(gone))
	}

	struck := func(at kit.Place, said bool) float64 {
		r := sound(kit.Bridge)
		r.AsOf++
		r.Changes = []kit.Change{shortened}
		r.Changes[0].Day = r.AsOf
		r.Events = []kit.Event{{Ref: "e", Day: r.AsOf, Event: "heat", At: at, PlaceSaid: said, Travel: -1, Peak: -1}}
		return decide.Decide(tb, r, decide.Ask{}).Doubt.D
	}
	r = sound(kit.Bridge)
	r.AsOf++
	r.Changes = []kit.Change{shortened}
	r.Changes[0].Day = r.AsOf
	none := decide.Decide(tb, r, decide.Ask{}).Doubt.D
	whole := struck(kit.Place{}, false)
	if got := struck(beyond, true); got != whole || !(whole > none) {
		t.Errorf("an event beyond the end: D %v, of the whole piece %v, without %v", got, whole, none)
	}
}
