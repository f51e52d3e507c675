package bench

import (
	"math"

	"kernbook/internal/core/num"
	"kernbook/internal/core/rope"
)

func bridge() Calculator {
	return Calculator{Name: "bridge", work: bridgeSheet, Fields: []Field{
		must("apart", Length, "40cm", "the distance between the points"),
		take("length", Length, "60cm", "the length of the bridge"),
		take("down", Length, "22cm", "how deep the ring hangs"),
		take("along", Length, "20cm", "how far the ring hangs from the first point"),
		take("load", Force, "1kN", "the load"),
		person(take("mass", Mass, "92kg", "the load", "the mass")),
		usual("tilt", Angle, "0deg", "the direction of the load"),
		usual("lower", Length, "0mm"),
		take("friction", Number, "0.15", "the coefficient of friction"),
		usual("ring", Length, "0mm", "the size of the ring"),
		take("modulus", Force, "30kN", "the modulus of the bridge"),
	}}
}

// series is by how much the bridge of the series is longer than its points are apart.
var series = []float64{1.02, 1.05, 1.1, 1.2, 1.3, 1.5, 1.75, 2, 2.5}

func bridgeSheet(j *job) {
	one, two := j.exactly("length", "down"), j.exactly("load", "mass")
	if j.has("along") && !j.has("down") {
		j.fault("along", "says where the ring hangs and needs “down”, how deep it hangs; give both, or the length alone")
	}
	apart, lower := j.got["apart"], j.got["lower"]
	if apart > 0 && lower >= apart {
		j.fault("lower", "is not less than the distance between the points; give how much lower the second point lies than the first")
	}
	if !one || !two || len(j.faults) > 0 {
		return
	}
	long := j.got["length"]
	if j.has("down") {
		along := apart / 2
		if j.has("along") {
			along = j.got["along"]
		}
		var err error
		if long, err = rope.Sag(apart, along, j.got["down"]); !j.ok(err) {
			return
		}
		j.fig("length", long, Metre, Near)
	}
	w := j.got["load"]
	if j.has("mass") {
		w = float64(j.got["mass"] * rope.Gravity)
		j.fig("load", w, Newton, Up)
	}
	sin, cos := num.SinCos(j.got["tilt"])
	s := rope.Span{B: rope.Vec{X: math.Sqrt(float64(apart*apart) - float64(lower*lower)), Y: lower}, Length: long, Along: rope.Vec{X: sin, Y: cos}, Radius: j.got["ring"]}
	h, err := s.Rest(w)
	if !j.ok(err) {
		return
	}
	j.fig("tension", h.Tension[0], Newton, Up)
	j.fig("tension-share", h.Tension[0]/w, Part, Up)
	j.fig("leg-angle", h.Angle[0], Radian, Near)
	j.fig("between", h.Between, Radian, Near)
	j.fig("leg-first", h.Leg[0], Metre, Near)
	j.fig("leg-second", h.Leg[1], Metre, Near)
	j.fig("inward-first", h.Inward[0], Newton, Up)
	j.fig("inward-second", h.Inward[1], Newton, Up)
	j.note("bridge-across", nil)
	var held *rope.Held
	if j.has("friction") {
		if held = j.friction(s, w); held == nil {
			return
		}
	} else {
		lo, hi := math.Inf(1), 0.0
		var lines []string
		for _, x := range j.t.Bench.Frictions {
			lo, hi = min(lo, x.Low), max(hi, x.High)
			lines = append(lines, x.Source...)
		}
		j.caution("bridge-no-friction", once(lines), "low", Print(lo, One, Near), "high", Print(hi, One, Near))
	}
	if j.has("modulus") {
		soft, under, err := s.Stretched(w, j.got["modulus"])
		if !j.ok(err) {
			return
		}
		j.fig("length-loaded", under, Metre, Near)
		j.fig("tension-stretched", soft.Tension[0], Newton, Up)
		j.note("bridge-stretch", nil)
	}
	j.shorter(s, w)
	j.caution("bridge-at-rest", []string{"B-25"})
	j.caution("bridge-no-strength", []string{"W-03"})
	j.sheet.Scene = bridgeScene(j, s, h, held)
}

// friction adds what friction at the ring allows.
func (j *job) friction(s rope.Span, w float64) *rope.Held {
	held, err := s.Stuck(w, j.got["friction"])
	if !j.ok(err) {
		return nil
	}
	j.span("tension-friction", "", min(held.Ends[0].Tension[0], held.Ends[0].Tension[1], held.Ends[1].Tension[0], held.Ends[1].Tension[1]), held.Most, Newton, Up, "B-24")
	j.fig("tension-over", held.Over, One, Up, "B-24")
	j.span("stick", "", held.Ends[0].Leg[0], held.Ends[1].Leg[0], Metre, Near, "B-24")
	if held.EdgeA || held.EdgeB {
		j.caution("bridge-sticks-anywhere", []string{"B-24"})
	}
	if s.Radius > 0 {
		j.note("bridge-ring-small", []string{"B-24"})
	}
	j.note("bridge-friction", []string{"B-23", "B-24"})
	return &held
}

// shorter shows how tension grows as the bridge is shortened.
func (j *job) shorter(s rope.Span, w float64) {
	out := Series{Key: "bridge-shorter", Columns: []string{"length", "tension", "tension-share"}, Units: []Unit{Metre, Newton, Part}, Rounds: []Round{Near, Up, Up}}
	apart := s.B.Sub(s.A).Size()
	for _, k := range series {
		s.Length = float64(apart * k)
		if h, err := s.Rest(w); err == nil {
			out.Rows = append(out.Rows, []float64{s.Length, h.Tension[0], h.Tension[0] / w})
		}
	}
	j.sheet.Series = &out
}

func at(v rope.Vec) Point { return Point{v.X, v.Y} }

func bridgeScene(j *job, s rope.Span, h rope.Hang, held *rope.Held) *Scene {
	sc := &Scene{}
	a, b, ring := at(s.A), at(s.B), at(h.Ring)
	sin, cos := num.SinCos(j.got["tilt"])
	apart := s.B.Sub(s.A).Size()
	if held != nil && s.Radius == 0 { // what friction allows is worked out for a small ring
		for _, e := range held.Ends {
			sc.path(Ghost, a, at(e.Ring), b)
		}
		sc.path(Reach, reach(s, held)...)
	}
	r := s.Radius
	if r == 0 {
		sc.path(Rope, a, ring, b)
	} else { // from the tangent of one leg round the ring to that of the other
		pts := []Point{a}
		phi := h.Angle[0]
		for k := range 25 {
			// Seen from the ring's middle, the rope runs round the side away from the load.
			turn := -(math.Pi/2 - phi) + float64((math.Pi-float64(2*phi))*float64(k)/24)
			x, y := num.SinCos(turn) // x square to the load, y against it
			pts = append(pts, Point{ring.X + float64(r*(float64(x*cos)+float64(y*sin))), ring.Y + float64(r*(float64(y*cos)-float64(x*sin)))})
		}
		sc.path(Rope, append(pts, b)...)
		sc.Paths = append(sc.Paths, Path{Role: Metal, Points: round(ring, r*0.8), Closed: true})
	}
	size := float64(0.018 * apart)
	sc.Paths = append(sc.Paths, Path{Role: Fixed, Points: round(a, size), Closed: true}, Path{Role: Fixed, Points: round(b, size), Closed: true})
	if r == 0 {
		sc.Paths = append(sc.Paths, Path{Role: Metal, Points: round(ring, size*0.8), Closed: true})
	}
	tip := Point{ring.X + float64(0.3*apart*sin), ring.Y + float64(0.3*apart*cos)}
	sc.path(Load, Point{ring.X + float64(0.06*apart*sin), ring.Y + float64(0.06*apart*cos)}, tip)
	up := float64(-0.12 * apart)
	sc.path(Measure, Point{a.X, a.Y + up}, Point{b.X, b.Y + up})
	sc.label("apart", Point{(a.X + b.X) / 2, (a.Y+b.Y)/2 + up}, 0, Print(apart, Metre, Near))
	t := Print(h.Tension[0], Newton, Up)
	sc.label("tension", Point{(a.X + ring.X) / 2, (a.Y + ring.Y) / 2}, -1, t)
	sc.label("tension", Point{(b.X + ring.X) / 2, (b.Y + ring.Y) / 2}, 1, t)
	w := j.got["load"]
	if f := j.sheet.Figure("load"); f != nil {
		w = f.Value
	}
	sc.label("load", tip, 2, Print(w, Newton, Up))
	return sc
}

// reach gives the places where friction can hold the ring, from end to end.
func reach(s rope.Span, held *rope.Held) []Point {
	var out []Point
	d := s.B.Sub(s.A).Size()
	for k := range 25 {
		leg := held.Ends[0].Leg[0] + float64((held.Ends[1].Leg[0]-held.Ends[0].Leg[0])*float64(k)/24)
		other := s.Length - leg
		// On the ellipse, in the triangle of the three sides; on the side of the load.
		x := (float64(d*d) + float64(leg*leg) - float64(other*other)) / float64(2*d)
		y := math.Sqrt(max(0, float64(leg*leg)-float64(x*x)))
		e := s.B.Sub(s.A).Times(1 / d)
		n := rope.Vec{X: -e.Y, Y: e.X}
		if n.Dot(s.Along) < 0 {
			n = n.Times(-1)
		}
		out = append(out, at(s.A.Add(e.Times(x)).Add(n.Times(y))))
	}
	return out
}

// round gives a circle.
func round(c Point, r float64) []Point {
	out := make([]Point, 36)
	for i := range out {
		sin, cos := num.SinCos(2 * math.Pi * float64(i) / 36)
		out[i] = Point{c.X + float64(r*cos), c.Y + float64(r*sin)}
	}
	return out
}

func once(list []string) []string {
	var out []string
	seen := map[string]bool{}
	for _, s := range list {
		if !seen[s] {
			seen[s] = true
			out = append(out, s)
		}
	}
	return out
}
