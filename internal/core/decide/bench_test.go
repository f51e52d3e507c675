package decide_test

import (
	"testing"
	"time"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// examined is the record of the benchmarks: a bridge of 18 cells, a run of 130
// daily looks before the examination at hand, six looks, three readings, two
// seen signs.
func examined() *kit.Record {
	r := sound(kit.Bridge)
	r.Examinations[0].Readings = nil
	second := r.Examinations[0]
	second.Day = mustDay("2027-01-04")
	second.Signs = []kit.Sign{
		{Ref: "s1", Sign: "grey", State: kit.FirstSeen, At: kit.Place{From: 430 * qty.Millimetre, To: 460 * qty.Millimetre}},
		{Ref: "s2", Sign: "pinch", State: kit.FirstSeen, At: kit.Place{From: 5 * qty.Millimetre, To: 30 * qty.Millimetre}},
	}
	second.Looks = nil
	for _, l := range []kit.LookID{kit.Ask, kit.Eye, kit.Hand, kit.Bight, kit.Gauge, kit.Ends} {
		second.Looks = append(second.Looks, kit.Look{Look: l, Covers: []kit.Stretch{{All: true}}, Conditions: good})
	}
	for _, mm := range []qty.Length{100, 450, 800} {
		second.Readings = append(second.Readings, kit.Reading{Quantity: "diameter", At: kit.Place{From: mm * qty.Millimetre, To: mm * qty.Millimetre},
			Values: []qty.Length{11_900, 12_000}, Wet: kit.SaidNo})
	}
	r.Examinations = append(r.Examinations, second)
	r.Runs = append(r.Runs, kit.Run{Kind: kit.PreUse, By: "climber", From: mustDay("2026-07-06"), To: mustDay("2027-01-01"), Weekdays: workdays, Looks: needed(tb.Kind(kit.Bridge), kit.PreUse)})
	r.AsOf = second.Day
	return r
}

// BenchmarkOutcome goes from the carried belief and the parsed record to the
// outcome with D and D(x). decide-ns/op leaves out the copy of the carried
// belief that each decision uses up.
func BenchmarkOutcome(b *testing.B) { carriedOn(b, decide.Ask{Figures: true}) }

// BenchmarkExplained adds the explanation and the next looks.
func BenchmarkExplained(b *testing.B) { carriedOn(b, decide.Ask{Explain: true}) }

func carriedOn(b *testing.B, ask decide.Ask) {
	r := examined()
	carried := decide.Begin(tb, r)
	carried.Run(mustDay("2026-07-06"))
	b.ResetTimer()
	start, deciding := spent(b), time.Duration(0)
	for range b.N {
		c := carried.Clone()
		t := time.Now()
		o := decide.From(tb, r, c, ask)
		deciding += time.Since(t)
		if o.Doubt == nil || (ask.Explain && o.Told == nil) {
			b.Fatal("no outcome")
		}
	}
	b.ReportMetric(float64(spent(b)-start)/float64(b.N), "cpu-ns/op")
	b.ReportMetric(float64(deciding.Nanoseconds())/float64(b.N), "decide-ns/op")
}

// BenchmarkWhole follows the whole record from the first day.
func BenchmarkWhole(b *testing.B) {
	r := examined()
	for range b.N {
		decide.Decide(tb, r, decide.Ask{Explain: true})
	}
}
