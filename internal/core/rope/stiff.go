package rope

import (
	"math"

	"kernbook/internal/core/num"
)

// fallFrom works out an overhang, in lengths of (B/w)^(1/3), whose free end stands at
// an angle, down to where it is level, and gives how long it is and the state there.
// From the free end theta″ = -s cos theta; the last step is shortened.
func fallFrom(tip float64) (long float64, end state) {
	const step = 1.0 / 256
	slope := func(s float64, o state) state {
		sin, cos := num.SinCos(o.angle)
		return state{o.rate, -float64(s * cos), cos, sin}
	}
	o := state{angle: tip}
	for s := 0.0; s < 20; s += step {
		next := o.step(slope, s, step)
		if next.angle > 0 {
			o = next
			continue
		}
		rest, _ := num.Root(func(h float64) float64 { return o.step(slope, s, h).angle }, 0, step)
		return s + rest, o.step(slope, s, rest)
	}
	return math.NaN(), o
}

// Overhang says of a rope that hangs over an edge how stiff it is.
type Overhang struct {
	B      float64 // bending stiffness, N m²
	Length float64 // bending length c = (B/w)^(1/3), m
	Weight float64 // w l³/B, no unit
	Tip    float64 // slope of the free end, radians below the level
}

// Cantilever gives the bending stiffness from the overhang in metres and the angle
// in radians at which the line from the edge to the tip lies below the level, for a
// rope of q kg/m: the heavy elastica B theta″ = -w s cos theta itself, not a closed
// formula. (Peirce's, which many instruments use, is 5.75 % off in B at 41.5°.)
func Cantilever(long, angle, q float64) (Overhang, error) {
	err := first(length("the overhang", long), within("the mass per metre", q, 0, 100, "give it in g/m, such as “79 g/m”"),
		within("the angle", angle, 0.5*math.Pi/180, 80*math.Pi/180, "choose the overhang so that the line to the tip lies 5° to 70° below the level"))
	if err != nil {
		return Overhang{}, err
	}
	tip, ok := num.Root(func(tip float64) float64 {
		_, o := fallFrom(tip)
		return num.Atan2(o.y, o.x) - angle
	}, angle, math.Pi/2-1e-9)
	if !ok {
		return Overhang{}, bad("the angle", "is more than this rope can hang at", "give an angle of 5° to 70°")
	}
	lengths, _ := fallFrom(tip)
	c := long / lengths
	return Overhang{B: float64(float64(q*Gravity) * float64(float64(c*c)*c)), Length: c, Weight: float64(float64(lengths*lengths) * lengths), Tip: tip}, nil
}

// Peirce gives the bending length by Peirce's closed formula, for comparison with
// instruments that use it: l (cos(t/2)/(8 tan t))^(1/3), seen on lab pages.
func Peirce(long, angle float64) float64 {
	return float64(long * num.Pow(num.Cos(angle/2)/float64(8*num.Tan(angle)), 1.0/3))
}

// jaw is ∫0^{pi/2} √sin t dt = √pi Gamma(3/4)/(2 Gamma(5/4)).
const jaw = 1.19814023473559220744

// Bight is a bight of rope that something holds.
type Bight struct {
	B        float64 // bending stiffness, N m²
	Tightest float64 // smallest radius of the middle line, m
	Depth    float64 // of the bend, m
	Rope     float64 // in the bend, m
}

// Jaws gives the bending stiffness from the force in newtons that holds a bight
// between two flat parallel jaws at an outer gap in metres, for a rope of diameter
// d: B = F D²/(2 I²), D = gap - d between the middle lines. Derived; the constant is
// that of the two-point bend of fibres (Matthewson, Kurkjian, Gulati, J. Am. Ceram.
// Soc. 69, 1986: abstract seen, constant from memory). The weight is left out.
func Jaws(force, gap, d float64) (Bight, error) {
	if err := first(load("the force on the jaws", force), length("the gap", gap), length("the diameter", d)); err != nil {
		return Bight{}, err
	}
	apart := gap - d
	if apart <= d {
		return Bight{}, bad("the gap", "is less than two diameters, where the rope cannot bend freely", "use a smaller force, so that the bight stands wider")
	}
	return Bight{
		B:        float64(force*float64(apart*apart)) / float64(2*jaw*jaw),
		Tightest: apart / (2 * jaw),
		Depth:    apart / jaw,
		Rope:     float64(apart*2.62205755429212) / jaw,
	}, nil
}

// Pinch gives the bending stiffness from the force in newtons that holds a bight
// between two fingers or pins at a distance in metres of the middle lines, the
// rope between them being so many metres long: the pinned elastica, D/l = 2E/K - 1,
// B = F l²/(4 K²) (the first seen in an open script note, McElwain 2014).
func Pinch(force, apart, long float64) (Bight, error) {
	err := first(load("the force", force), within("the distance", apart, 0, mostLength, "give a length of more than nought"), length("the rope between", long))
	if err != nil {
		return Bight{}, err
	}
	if apart >= long {
		return Bight{}, bad("the distance", "is not less than the rope between the two points", "measure the rope along itself, from pin to pin")
	}
	m, ok := num.Root(func(m float64) float64 {
		return 2*num.EllipticE(m)/num.EllipticK(m) - 1 - apart/long
	}, 1e-12, 0.826114766)
	if !ok {
		return Bight{}, bad("the distance", "is so near to the rope between that nothing is bent", "bring the two points closer")
	}
	k := num.EllipticK(m)
	root := math.Sqrt(m)
	return Bight{
		B:        float64(force*float64(long*long)) / float64(4*float64(k*k)),
		Tightest: long / float64(4*float64(root*k)),
		Depth:    float64(long*root) / k,
		Rope:     long,
	}, nil
}

// Knotability gives the inner width of a single overhand knot over the diameter of
// the rope, both in metres (EN 1891: load 10 kg for a minute, reduce to 1 kg; a
// maker's technical page, seen). The standard's limit of 1.2 is for new rope.
func Knotability(inner, d float64) (float64, error) {
	if err := first(length("the inner width of the knot", inner), length("the diameter", d)); err != nil {
		return 0, err
	}
	return inner / d, nil
}
