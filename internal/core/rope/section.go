package rope

import (
	"math"

	"kernbook/internal/core/num"
)

// Oval is what a rope's section comes to when it is taken for an ellipse.
type Oval struct {
	Area   float64 // m²
	Mean   float64 // of the two callipers, m
	Round  float64 // diameter of the circle of the same area, m
	Around float64 // what a tape round it shows, divided by pi, m
	Flat   float64 // how much less the short way is than the long way, as a share
}

// Callipers gives the section from two readings square to each other, in metres.
// The circumference of an ellipse is 4 a E(1 - b²/a²), a its longer half axis, E the
// complete elliptic integral of the second kind.
func Callipers(one, two float64) (Oval, error) {
	if err := first(length("the first reading", one), length("the reading square to it", two)); err != nil {
		return Oval{}, err
	}
	long, short := max(one, two), min(one, two)
	ratio := short / long
	return Oval{
		Area:   float64(float64(math.Pi/4*long) * short),
		Mean:   (one + two) / 2,
		Round:  math.Sqrt(float64(long * short)),
		Around: float64(2*long*num.EllipticE(1-float64(ratio*ratio))) / math.Pi,
		Flat:   1 - ratio,
	}, nil
}

// Longer gives the longer diameter of an oval from its shorter one and from what a
// tape round it shows, divided by pi: that of the same circumference.
func Longer(short, around float64) (float64, error) {
	if err := first(length("the shorter reading", short), length("the tape's reading", around)); err != nil {
		return 0, err
	}
	if short > around {
		return 0, bad("the shorter reading", "is more than the tape's reading divided by pi", "measure both again at one place")
	}
	long, ok := num.Root(func(long float64) float64 {
		r := short / long
		return float64(2*long*num.EllipticE(1-float64(r*r)))/math.Pi - around
	}, short, 2*around)
	if !ok {
		return 0, bad("the two readings", "do not belong to an oval", "measure both again at one place")
	}
	return long, nil
}

// Packing gives the share of a round section that is fibre, from the mass per metre
// in kg/m, the diameter in metres and the density of the fibre in kg/m³:
// 4 q/(pi d² rho). The braid angle is in it.
func Packing(q, d, rho float64) (float64, error) {
	err := first(within("the mass per metre", q, 0, 100, "give it in g/m, such as “79 g/m”"), length("the diameter", d),
		within("the density of the fibre", rho, 0, 30_000, "give it in kg/m³; nylon has 1140"))
	if err != nil {
		return 0, err
	}
	phi := 4 * q / float64(float64(math.Pi*float64(d*d))*rho)
	if phi > 1 {
		return 0, bad("the mass per metre", "is more than solid fibre of this diameter has", "check mass, length and diameter")
	}
	return phi, nil
}

// Tension is a rule for the pull under which a rope is measured.
type Tension int

// The rules for a reference tension.
const (
	NoTension   Tension = iota
	ISO2307             // d²/8 daN, d in mm (from memory)
	CordageInst         // 200 D² lbf, D in inches (from memory)
)

// Reference gives the reference tension in newtons by a rule, for a diameter in
// metres.
func Reference(rule Tension, d float64) (float64, error) {
	if err := length("the diameter", d); err != nil {
		return 0, err
	}
	switch rule {
	case ISO2307:
		mm := d * 1000
		return float64(float64(mm*mm)*10) / 8, nil
	case CordageInst:
		in := d / 0.0254
		return float64(200*float64(in*in)) * 4.4482216152605, nil
	}
	return 0, bad("the rule for the tension", "is not known", "give “ISO 2307” or “200 D²”")
}

// LeastSheath gives the least share of the sheath that EN 1891 asks for, for a
// diameter in metres: (4 d - 4)/d², d in mm (a maker's technical page, seen).
func LeastSheath(d float64) (float64, error) {
	if err := within("the diameter", d, 0.0085, 0.016, "EN 1891 is for 8.5 to 16 mm"); err != nil {
		return 0, err
	}
	mm := d * 1000
	return (float64(4*mm) - 4) / float64(mm*mm), nil
}

// MostSlip gives the most that a sheath may slip by EN 1891 over 2 m and five
// pulls, in metres, for a diameter in metres: type A 20 + 10 (d - 9) mm, d in mm,
// type B 15 mm (a maker's technical page, seen). It is for new rope in the test.
func MostSlip(typeA bool, d float64) (float64, error) {
	if err := within("the diameter", d, 0.0085, 0.016, "EN 1891 is for 8.5 to 16 mm"); err != nil {
		return 0, err
	}
	if !typeA {
		return 0.015, nil
	}
	return 0.020 + float64(10*(d-0.009)), nil
}

// FibreStrain gives the strain that bending a rope of diameter d round a pin of
// diameter pin (surface, both in metres) would put on the outer fibres if none
// could slide: d/(D+d). Braids slide: it ranks bends, and tells no strength.
func FibreStrain(pin, d float64) (float64, error) {
	if err := first(length("the diameter of the pin", pin), length("the diameter of the rope", d)); err != nil {
		return 0, err
	}
	return d / (pin + d), nil
}
