package bench

import (
	"kernbook/internal/core/rope"
)

func fall() Calculator {
	return Calculator{Name: "fall", work: fallSheet, Fields: []Field{
		person(take("mass", Mass, "92kg", "the mass")),
		take("load", Force, "903N", "the mass"),
		must("drop", Length, "30cm", "the free fall"),
		must("rope", Length, "1m", "the rope in play"),
		take("elongation", Share, "3.5%", "the elongation"),
		take("impact", Force, "9kN", "the impact force"),
		usual("test-mass", Mass, "80kg", "the mass of the test"),
		usual("test-factor", Number, "1.77", "the fall factor of the test"),
		take("stretch", Length, "12mm", "the stretch"),
		take("stretch-over", Length, "1m", "the length measured over"),
		take("pull-from", Force, "100N", "the first pull"),
		take("pull-to", Force, "1kN", "the second pull"),
		take("strength", Force, "24kN"),
	}}
}

func fallSheet(j *job) {
	mass, one := j.weighed(), j.exactly("elongation", "impact", "stretch")
	if !one || len(j.faults) > 0 {
		return
	}
	for _, name := range []string{"stretch-over", "pull-from", "pull-to"} {
		if j.has("stretch") && !j.has(name) {
			j.fault(name, "is missing; a measured stretch needs the length it was measured over and both pulls")
		} else if !j.has("stretch") && j.has(name) {
			j.fault(name, "belongs to a measured stretch; give “stretch” as well, or leave it out")
		}
	}
	strength := j.got["strength"]
	if j.has("strength") && strength < 100 {
		j.fault("strength", "is no strength of a rope; give the minimum strength by its paper, such as “24kN”")
	}
	if len(j.faults) > 0 {
		return
	}
	var m rope.Modulus
	var err error
	switch {
	case j.has("elongation"):
		m, err = rope.FromStretch(j.got["elongation"])
	case j.has("impact"):
		m, err = rope.FromImpact(j.got["impact"], j.got["test-mass"], j.got["test-factor"])
	default:
		m, err = rope.FromPull(j.got["pull-from"], j.got["pull-to"], j.got["stretch-over"], j.got["stretch"])
	}
	if !j.ok(err) {
		return
	}
	if !j.has("impact") {
		j.unused("test-mass", "test-factor")
	}
	h, l := j.got["drop"], j.got["rope"]
	g, err := rope.Fall(mass, h, l, m)
	if !j.ok(err) {
		return
	}
	lines := []string{"B-25", "B-26"}
	if m.Static {
		lines = append(lines, "B-27")
	}
	j.span("force", "", g.Lower, g.Upper, Newton, Up, lines...)
	j.fig("factor", h/l, One, Up)
	j.fig("stretch", g.Stretch, Metre, Near, "B-25")
	j.fig("modulus", m.EA, Newton, Near)
	j.caution("fall-no-bound", []string{"B-26", "B-27"})
	j.note("fall-left-out", []string{"B-25", "B-26"})
	travel := j.t.Rules.FallTravel
	if h >= travel.Metres() {
		j.caution("fall-by-travel", []string{"M-31"}, "travel", travel.String())
	} else {
		j.note("fall-short", []string{"M-31"}, "travel", travel.String())
	}
	if j.has("strength") {
		j.fallPeak(g, strength)
	} else {
		j.note("fall-no-strength", []string{"M-32"})
	}
	sc := &Scene{}
	// The anchor above; the climber begins so far below it that the rope is slack by h.
	side := float64(0.12 * l)
	anchor := Point{0, 0}
	start, taut, low := Point{side, l - h}, Point{0, l}, Point{0, l + g.Stretch}
	sc.Paths = append(sc.Paths, Path{Role: Fixed, Points: round(anchor, 0.02*l), Closed: true})
	sc.path(Rope, anchor, low)
	sc.path(Ghost, anchor, start)
	sc.Paths = append(sc.Paths, Path{Role: Ghost, Points: round(start, 0.035*l), Closed: true}, Path{Role: Metal, Points: round(low, 0.035*l), Closed: true})
	if h > 0 {
		sc.path(Measure, Point{3 * side, start.Y}, Point{3 * side, taut.Y})
		sc.label("drop", Point{3 * side, (start.Y + taut.Y) / 2}, 1, Print(h, Metre, Near))
	}
	sc.path(Measure, Point{-2 * side, 0}, Point{-2 * side, taut.Y})
	sc.label("in-play", Point{-2 * side, taut.Y / 2}, -1, Print(l, Metre, Near))
	sc.path(Measure, Point{3 * side, taut.Y}, Point{3 * side, low.Y})
	sc.label("stretch", Point{3 * side, (taut.Y + low.Y) / 2}, 1, Print(g.Stretch, Metre, Near))
	_, lo, hi := j.sheet.Figure("force").Shown()
	sc.label("force", Point{low.X, low.Y + 0.035*l}, 2, lo+"–"+hi)
	j.sheet.Scene = sc
}

// fallPeak adds what share of the strength the force comes to, and what that is by
// the rules.
func (j *job) fallPeak(g rope.Gripped, strength float64) {
	peak := g.Upper / strength
	j.span("peak", "", g.Lower/strength, peak, Part, Up, "M-32")
	enter := Print(min(peak, 1), Part, Up)
	if peak > 1 {
		j.caution("fall-over-strength", nil)
	}
	limit := Print(float64(j.t.Rules.FallPeak), Part, Near)
	if peak >= float64(j.t.Rules.FallPeak) {
		j.caution("fall-by-peak", []string{"M-32"}, "limit", limit)
	} else {
		j.note("fall-below-peak", []string{"M-32"}, "limit", limit)
	}
	j.note("fall-enter", []string{"M-32"}, "peak", enter)
}
