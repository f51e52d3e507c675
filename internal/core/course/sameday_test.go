package course_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

// TestSameDayExamination: an examination on the day of an event that does not
// name it counts as made before it. Naming it is what makes the doubt smaller,
// and what is seen is never better explained for want of the name.
func TestSameDayExamination(t *testing.T) {
	tb := tables.Default()
	smaller, explained := 0, 0
	for _, k := range doubted(tb) {
		for i := range tb.Events {
			for _, kind := range []kit.ExamKind{kit.Interim, kit.Thorough, kit.PreUse} {
				for _, sees := range []string{"nothing", "a sign", "a reading out of range"} {
					q := relative(k)
					if sees == "a reading out of range" && q == nil {
						continue
					}
					sign := sees != "nothing"
					course := func(named string, event bool) (float64, float64) {
						r := begun(t, tb, k)
						r.AsOf = day(t, "2026-07-06")
						r.Runs = []kit.Run{daily(t, k, "2026-01-05", "2026-07-05")}
						e := kit.Examination{Kind: kind, Day: r.AsOf, By: "examiner", AfterEvent: named, Looks: looks(required(k, kit.Thorough)...)}
						first := e
						first.Day, first.AfterEvent = day(t, "2026-03-02"), ""
						switch sees {
						case "a sign":
							e.Signs = []kit.Sign{{Ref: "s", Sign: weighed(k), State: kit.FirstSeen, At: somewhere(k)}}
						case "a reading out of range":
							first.Readings, e.Readings = measured(k, q, 0), measured(k, q, q.Out)
						}
						r.Examinations = []kit.Examination{first, e}
						r.People = []kit.Person{{ID: "examiner", Role: "examiner", Since: 1}, {ID: "climber", Role: "climber"}}
						if event {
							r.Events = []kit.Event{{Ref: "e1", Day: r.AsOf, Event: tb.Events[i].ID, Travel: -1, Peak: -1}}
						}
						c := decide.Begin(tb, r)
						c.Run(r.AsOf)
						if sign {
							return doubt(t, c), c.Why(0)
						}
						return doubt(t, c), 1
					}
					none, _ := course("", false)
					named, why := course("e1", true)
					silent, blind := course("", true)
					if silent < named*(1-1e-9) || blind > why*(1+1e-9) {
						t.Errorf("%s, %s, %s, %s: unnamed D %v why %v, named D %v why %v", k.ID, tb.Events[i].ID, kind, sees, silent, blind, named, why)
					}
					if silent > named*1.01 && named > none {
						smaller++
					}
					if sign && blind < why*(1-1e-9) {
						explained++
					}
				}
			}
		}
	}
	if smaller < 20 || explained < 5 {
		t.Errorf("naming the event made the doubt smaller only %d times, and a sign better explained %d times", smaller, explained)
	}
}

// relative gives a quantity of a kind along the piece that is compared with its
// first record, or nil.
func relative(k *table.Kind) *table.Quantity {
	for i := range k.Reads {
		if q := &k.Reads[i]; k.Axis == "length" && q.Basis != "absolute" && q.Out < 0 {
			return q
		}
	}
	return nil
}

// measured gives three readings along a piece, the middle one changed by so many
// parts in a thousand.
func measured(k *table.Kind, q *table.Quantity, changed int64) (out []kit.Reading) {
	for n, perMille := range []int64{0, changed, 0} {
		at := k.Length * qty.Length(2*n+1) / 6
		out = append(out, kit.Reading{Quantity: q.ID, At: kit.Place{From: at, To: at}, Values: []qty.Length{qty.Length(12 * (1000 + perMille))}, Wet: kit.SaidNo})
	}
	return out
}

// weighed gives a sign to be weighed at a place.
func weighed(k *table.Kind) string {
	for i := range k.Signs {
		if s := &k.Signs[i]; s.Class == table.Weigh && !s.Whole && len(s.Links) > 0 {
			return s.ID
		}
	}
	return ""
}

func somewhere(k *table.Kind) kit.Place {
	if k.Axis == "length" {
		return kit.Place{From: k.Length / 2, To: k.Length / 2}
	}
	return kit.Place{Part: k.Parts[0].ID}
}
