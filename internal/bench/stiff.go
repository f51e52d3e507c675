package bench

import (
	"math"

	"kernbook/internal/core/num"
	"kernbook/internal/core/rope"
)

func overhang() Calculator {
	return Calculator{Name: "stiffness overhang", work: overhangSheet, Fields: []Field{
		must("overhang", Length, "30cm", "the overhang"),
		must("angle", Angle, "41.5deg", "the angle"),
		must("weight", Linear, "79g/m", "the mass per metre"),
	}}
}

func loop() Calculator {
	return Calculator{Name: "stiffness loop", work: loopSheet, Fields: []Field{
		must("length", Length, "100cm", "the length of the loop", "the loop"),
		must("height", Length, "16cm", "the height of the loop"),
		must("weight", Linear, "79g/m", "the mass per metre"),
	}}
}

func jaws() Calculator {
	return Calculator{Name: "stiffness jaws", work: jawsSheet, Fields: []Field{
		must("force", Force, "5N", "the force on the jaws"),
		must("gap", Length, "45mm", "the gap"),
		must("rope", Length, "11mm", "the diameter"),
	}}
}

func pinch() Calculator {
	return Calculator{Name: "stiffness pinch", work: pinchSheet, Fields: []Field{
		must("force", Force, "5N", "the force"),
		must("apart", Length, "40mm", "the distance"),
		must("length", Length, "100mm", "the rope between"),
	}}
}

func knot() Calculator {
	return Calculator{Name: "stiffness knot", work: knotSheet, Fields: []Field{
		must("inner", Length, "12.4mm", "the inner width of the knot"),
		must("rope", Length, "11mm", "the diameter"),
	}}
}

// like is said of every stiffness: what it may be held against.
func (j *job) like() {
	j.note("stiff-like", nil)
	j.caution("stiff-no-limit", []string{"E-39"})
}

func overhangSheet(j *job) {
	o, err := rope.Cantilever(j.got["overhang"], j.got["angle"], j.got["weight"])
	if !j.ok(err) {
		return
	}
	j.fig("stiffness", o.B, Stiffness, Near)
	j.fig("bending-length", o.Length, Metre, Near)
	j.fig("tip-slope", o.Tip, Radian, Near)
	closed := rope.Peirce(j.got["overhang"], j.got["angle"])
	ratio := closed / o.Length
	j.fig("by-peirce", float64(o.B*float64(float64(ratio*ratio)*ratio)), Stiffness, Near, "B-31")
	j.note("stiff-exact", []string{"B-31"})
	j.like()
	sc := &Scene{}
	pts := hanging(o, j.got["overhang"])
	edge := Point{0, 0}
	tip := pts[len(pts)-1]
	long := j.got["overhang"]
	sc.Paths = append(sc.Paths, Path{Role: Metal, Closed: true, Points: []Point{{-0.4 * long, 0.02 * long}, {0, 0.02 * long}, {0, 0.3 * long}, {-0.4 * long, 0.3 * long}}})
	sc.path(Rope, append([]Point{{-0.4 * long, 0}}, pts...)...)
	sc.path(Ghost, edge, Point{tip.X, 0})
	sc.path(Ghost, edge, tip)
	sc.label("angle", Point{tip.X * 0.5, tip.Y * 0.5}, -1, Print(j.got["angle"], Radian, Near))
	sc.label("overhang", Point{tip.X * 0.7, 0}, 0, Print(long, Metre, Near))
	j.sheet.Scene = sc
}

// hanging follows the overhang from its edge to the tip, by small steps of the same
// equation from the tip, turned round.
func hanging(o rope.Overhang, long float64) []Point {
	const steps = 200
	ds := long / steps
	k := 1 / float64(float64(o.Length*o.Length)*o.Length) // w/B
	angle, rate := o.Tip, 0.0
	x, y := 0.0, 0.0
	back := []Point{{0, 0}}
	for i := range steps {
		s := float64((float64(i) + 0.5) * ds)
		rate -= float64(float64(k*s)*num.Cos(angle)) * ds
		before := angle
		angle += float64(rate * ds)
		sin, cos := num.SinCos((before + angle) / 2)
		x, y = x-float64(cos*ds), y-float64(sin*ds)
		back = append(back, Point{x, y})
	}
	out := make([]Point, 0, len(back))
	for i := len(back) - 1; i >= 0; i-- {
		out = append(out, Point{back[i].X - x, back[i].Y - y})
	}
	return out
}

func loopSheet(j *job) {
	o, err := rope.HeartLoop(j.got["length"], j.got["height"], j.got["weight"])
	if !j.ok(err) {
		return
	}
	j.fig("stiffness", o.B, Stiffness, Near)
	j.fig("bending-length", o.Length, Metre, Near)
	j.note("stiff-loop", nil)
	j.like()
	long, deep := j.got["length"], j.got["height"]
	half := rope.HeartShape(long, o.Weight)
	sc := &Scene{}
	var pts []Point
	for i := len(half) - 1; i >= 0; i-- {
		pts = append(pts, Point{-half[i].X, -half[i].Y})
	}
	for i := range half {
		pts = append(pts, Point{half[i].X, -half[i].Y})
	}
	sc.path(Rope, pts...)
	size := float64(0.02 * long)
	sc.Paths = append(sc.Paths, Path{Role: Metal, Closed: true, Points: []Point{{-size, -deep}, {size, -deep}, {size, -deep + 2*size}, {-size, -deep + 2*size}}})
	far := float64(0.22 * long)
	sc.path(Measure, Point{far, -deep}, Point{far, 0})
	sc.label("height", Point{far, -deep / 2}, 1, Print(deep, Metre, Near))
	sc.label("loop", Point{0, 0}, 2, Print(long, Metre, Near))
	j.sheet.Scene = sc
}

func jawsSheet(j *job) {
	f, gap, d := j.got["force"], j.got["gap"], j.got["rope"]
	b, err := rope.Jaws(f, gap, d)
	if !j.ok(err) {
		return
	}
	j.bight(b)
	apart := gap - d
	sc := &Scene{}
	long := float64(1.2 * apart)
	sc.Paths = append(sc.Paths,
		Path{Role: Metal, Closed: true, Points: []Point{{-long, -gap/2 - 0.15*gap}, {0.2 * long, -gap/2 - 0.15*gap}, {0.2 * long, -gap / 2}, {-long, -gap / 2}}},
		Path{Role: Metal, Closed: true, Points: []Point{{-long, gap/2 + 0.15*gap}, {0.2 * long, gap/2 + 0.15*gap}, {0.2 * long, gap / 2}, {-long, gap / 2}}})
	half := bent(b.B, f, math.Pi/2)
	pts := []Point{{-long, -apart / 2}}
	for _, p := range half {
		pts = append(pts, Point{p.X, -apart/2 + p.Y})
	}
	for i := len(half) - 1; i >= 0; i-- {
		pts = append(pts, Point{half[i].X, apart/2 - half[i].Y})
	}
	sc.thick(d, append(pts, Point{-long, apart / 2})...)
	sc.path(Measure, Point{-0.7 * long, -gap / 2}, Point{-0.7 * long, gap / 2})
	sc.label("gap", Point{-0.7 * long, 0}, 1, Print(gap, Metre, Near))
	sc.label("force", Point{-0.4 * long, -gap/2 - 0.15*gap}, 0, Print(f, Newton, Near))
	j.sheet.Scene = sc
}

// bent follows half a bight that starts at an angle to the line of the force square
// to it (0 of slope along the jaw) to its apex: curvature √(2 F sin θ/B), θ from 0 to
// the given angle. By steps of θ, taken as u³ so that the flat beginning is fine.
func bent(b, f, to float64) []Point {
	const steps = 120
	x, y := 0.0, 0.0
	out := []Point{{0, 0}}
	last := 0.0
	for i := 1; i <= steps; i++ {
		u := float64(i) / steps
		th := float64(to * float64(u*u))
		mid := (th + last) / 2
		sin, cos := num.SinCos(mid)
		ds := (th - last) / math.Sqrt(2*f*sin/b)
		x, y = x+float64(ds*cos), y+float64(ds*sin)
		out = append(out, Point{x, y})
		last = th
	}
	return out
}

func pinchSheet(j *job) {
	b, err := rope.Pinch(j.got["force"], j.got["apart"], j.got["length"])
	if !j.ok(err) {
		return
	}
	j.bight(b)
	sc := &Scene{}
	pts := pinched(b, j.got["force"], j.got["length"])
	sc.path(Rope, pts...)
	a, z := pts[0], pts[len(pts)-1]
	size := float64(0.03 * j.got["length"])
	sc.Paths = append(sc.Paths, Path{Role: Metal, Points: round(a, size), Closed: true}, Path{Role: Metal, Points: round(z, size), Closed: true})
	low := float64(0.15 * j.got["length"])
	sc.path(Measure, Point{a.X, low}, Point{z.X, low})
	sc.label("apart", Point{(a.X + z.X) / 2, low}, 2, Print(j.got["apart"], Metre, Near))
	sc.label("force", Point{z.X + 2*size, 0}, 1, Print(j.got["force"], Newton, Near))
	j.sheet.Scene = sc
}

// pinched follows the pinned elastica from one pin to the other: the curvature is
// F y/B, y the height over the line of the force. The angle at the pin is found from
// the tightest curvature: cos of it is 1 - F ymax²/(2 B).
func pinched(b rope.Bight, f, long float64) []Point {
	const steps = 600
	ds := long / steps
	start := num.Acos(max(-1, 1-f*b.Depth*b.Depth/(2*b.B)))
	angle, x, y := start, 0.0, 0.0
	out := []Point{{0, 0}}
	for range steps {
		angle -= float64(f*y/b.B) * ds / 2
		sin, cos := num.SinCos(angle)
		x, y = x+float64(cos*ds), y+float64(sin*ds)
		angle -= float64(f*y/b.B) * ds / 2
		out = append(out, Point{x, -y})
	}
	return out
}

// bight adds what a bight that something holds tells.
func (j *job) bight(b rope.Bight) {
	j.fig("stiffness", b.B, Stiffness, Near)
	j.fig("tightest", b.Tightest, Metre, Near)
	j.fig("depth", b.Depth, Metre, Near)
	j.fig("in-bend", b.Rope, Metre, Near)
	j.note("stiff-bight", nil)
	j.like()
}

func knotSheet(j *job) {
	k, err := rope.Knotability(j.got["inner"], j.got["rope"])
	if !j.ok(err) {
		return
	}
	if k > 20 {
		j.fault("inner", "is more than twenty times the diameter; measure the hole inside the tightened knot")
		return
	}
	j.fig("knotability", k, One, Near, "P-06")
	j.note("stiff-knot", []string{"P-06"})
	j.caution("stiff-no-limit", []string{"E-39"})
	d, w := j.got["rope"], j.got["inner"]
	sc := &Scene{}
	ring := round(Point{0, 0}, (w+d)/2)
	sc.Paths = append(sc.Paths, Path{Role: Rope, Points: ring, Closed: true, Width: d})
	sc.path(Measure, Point{-w / 2, 0}, Point{w / 2, 0})
	sc.label("inner", Point{0, 0}, 2, Print(w, Metre, Near))
	sc.label("rope-diameter", Point{w/2 + d, 0}, 1, Print(d, Metre, Near))
	j.sheet.Scene = sc
}

func turned(r, a float64) Point {
	sin, cos := num.SinCos(a)
	return Point{float64(r * cos), -float64(r * sin)}
}
