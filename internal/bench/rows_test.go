package bench

import (
	"math"
	"slices"
	"testing"

	"kernbook/internal/tables"
)

// TestKnotsAsPublished: what the tables give for a knot in a fibre, typed a second time
// from the sources: Cordage Institute figures (seen second-hand), tests of 1946-1970 in
// a book of knots, p. 28 (seen), tests on HMPE of 12 strands (seen second-hand), two
// single pulls on HMPE (seen), a maker's note on PA (seen), CI 1401 (seen), EN 1891
// (ratio worked out of seen values). 0 for an upper end that is not told.
func TestKnotsAsPublished(t *testing.T) {
	rows := tables.Default().Bench.Knots
	seen := 0
	for _, c := range []struct {
		knot, fibre string
		low, high   float64
	}{
		{"bowline", "pa", 67, 75}, {"bowline", "pes", 67, 75}, {"fishermans", "pes", 50, 58}, {"splice", "pa", 90, 90},
		{"any", "pes", 50, 0}, {"any", "general", 40, 80}, {"figure-eight", "pa", 70, 75}, {"figure-eight", "general", 66.7, 68.2},
		{"reef", "general", 43, 47}, {"sheet-bend", "general", 48, 58}, {"carrick", "general", 55, 60}, {"half-hitches", "general", 60, 75}, {"anchor-bend", "general", 55, 90},
		{"anchor-bend", "natural", 70, 70}, {"bowline", "natural", 60, 60}, {"clove", "natural", 75, 75}, {"figure-eight", "natural", 48, 48}, {"overhand", "natural", 45, 45},
		{"reef", "natural", 45, 45}, {"half-hitches", "natural", 75, 75}, {"timber", "natural", 70, 70}, {"splice", "natural", 95, 95}, {"short-splice", "natural", 90, 90},
		{"figure-eight", "hmpe", 33, 33}, {"bowline", "hmpe", 33, 33}, {"taut-line", "hmpe", 39, 39}, {"double-stevedore", "hmpe", 49, 49}, {"cow", "hmpe", 57, 57},
		{"long-splice", "hmpe", 85, 85}, {"double-fishermans", "hmpe", 33, 33}, {"water", "hmpe", 25, 25}, {"turns", "hmpe", 59, 59}, {"buried", "hmpe", 100, 100},
	} {
		e, ok := KnotIn(rows, c.knot, c.fibre)
		high := e.High * 100
		if math.IsNaN(e.High) {
			high = 0
		}
		if !ok || e.Any || math.Abs(e.Low*100-c.low) > 1e-9 || math.Abs(high-c.high) > 1e-9 {
			t.Errorf("%s in %s: %v to %v (%v), published %v to %v", c.knot, c.fibre, e.Low*100, high, ok, c.low, c.high)
		}
		for _, r := range rows {
			if r.Knot == c.knot && slices.Contains(r.Fibres, c.fibre) {
				seen++
			}
		}
	}
	for _, r := range rows { // each row was met once for each of its fibres, but for those of two fibres told once above
		seen -= len(r.Fibres)
	}
	if want := -3; seen != want { // fishermans in pa, splice in pes, any in pa
		t.Errorf("%d rows of the table stand in no source typed here", want-seen)
	}
	// No knot but these has anything to say in a fibre nobody tested.
	for _, knot := range knotIDs(tables.Default()) {
		for _, fibre := range []string{"aramid", "lcp", "pp"} {
			if e, ok := KnotIn(rows, knot, fibre); ok {
				t.Errorf("%s in %s: %+v, though nothing was seen", knot, fibre, e)
			}
		}
	}
}

// TestFrictionAsPublished: from the pulls themselves, mu = ln(raise/lower)/(2 turn) (a
// book on rope technique, 2022, p. 88, seen), typed a second time.
func TestFrictionAsPublished(t *testing.T) {
	mu := func(raise, lower, degrees float64) float64 {
		return math.Log(raise/lower) / (2 * degrees * math.Pi / 180)
	}
	want := map[string][2]float64{
		"pes-aluminium": {0.175, 0.175},
		"aluminium":     {mu(88, 35, 180), mu(98, 50, 90)},
		"anodised":      {mu(92, 53, 90), mu(92, 53, 90)},
		"galvanised":    {mu(103, 47, 90), mu(103, 47, 90)},
		"steel":         {mu(127, 29, 180), mu(140, 31, 180)},
		"timber":        {mu(179, 17, 180), mu(179, 17, 180)},
		"concrete":      {mu(135, 34, 90), mu(135, 34, 90)},
		"hmpe-steel":    {math.Log(1/0.60) / math.Pi, math.Log(1/0.60) / math.Pi},
	}
	rows := tables.Default().Bench.Frictions
	for _, x := range rows {
		w, ok := want[x.ID]
		if !ok || math.Abs(x.Low-w[0]) > 5e-5 || math.Abs(x.High-w[1]) > 5e-5 {
			t.Errorf("%s: %v to %v, published %v", x.ID, x.Low, x.High, w)
		}
	}
	if len(rows) != len(want) {
		t.Errorf("%d rows, %d published", len(rows), len(want))
	}
}
