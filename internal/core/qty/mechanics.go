package qty

import "math"

// Length is a length in whole micrometres.
type Length int64

// Lengths to multiply by.
const (
	Micrometre Length = 1
	Millimetre Length = 1000
	Centimetre Length = 10_000
	Metre      Length = 1_000_000
)

// Force is a force in whole newtons.
type Force int64

// Forces to multiply by.
const (
	Newton     Force = 1
	Kilonewton Force = 1000
)

// Mass is a mass in whole grams.
type Mass int64

// Masses to multiply by.
const (
	Gram     Mass = 1
	Kilogram Mass = 1000
)

// The inch is 25.4 mm, the pound 0.45359237 kg, both exactly, by the
// international yard and pound of 1959; the pound-force is that pound times
// 9.80665 m/s² (standard gravity, CGPM 1901), 4.4482216152605 N exactly (all
// from memory).
var (
	lengths = measure{"a length", "mm, cm, m, in, ft", "11.2 mm", []unit{
		{1000, 1, []string{"mm", "millimetre", "millimetres", "millimeter", "millimeters"}},
		{10_000, 1, []string{"cm", "centimetre", "centimetres", "centimeter", "centimeters"}},
		{1_000_000, 1, []string{"m", "metre", "metres", "meter", "meters"}},
		{25_400, 1, []string{"in", "inch", "inches"}},
		{304_800, 1, []string{"ft", "foot", "feet"}},
	}}
	forces = measure{"a force", "N, kN, lbf", "15 kN", []unit{
		{1, 1, []string{"N"}},
		{1000, 1, []string{"kN"}},
		{8_896_443_230_521, 2_000_000_000_000, []string{"lbf"}},
	}}
	masses = measure{"a mass", "g, kg, lb, st", "92 kg", []unit{
		{1, 1, []string{"g", "gram", "grams"}},
		{1000, 1, []string{"kg"}},
		{45_359_237, 100_000, []string{"lb", "lbs"}},
		{14 * 45_359_237, 100_000, []string{"st", "stone"}},
	}}
)

// ParseLength reads a length typed with mm, cm, m, in or ft, exactly, rounded
// half to even to the micrometre. Negative lengths are refused.
func ParseLength(s string) (Length, error) {
	v, err := lengths.count(s, math.MaxInt64, false)
	return Length(v), err
}

// ParseForce reads a force typed with N, kN or lbf, rounded half to even to the
// newton. Negative forces are refused.
func ParseForce(s string) (Force, error) {
	v, err := forces.count(s, math.MaxInt64, false)
	return Force(v), err
}

// ParseMass reads a mass typed with g, kg, lb or st, rounded half to even to the
// gram. Negative masses are refused.
func ParseMass(s string) (Mass, error) {
	v, err := masses.count(s, math.MaxInt64, false)
	return Mass(v), err
}

// String gives the length exactly: millimetres below one metre ("11.2 mm",
// "900 mm"), metres from there on ("45 m", "1.05 m").
func (l Length) String() string {
	if l > -Metre && l < Metre {
		return decimal(int64(l), 3) + " mm"
	}
	return decimal(int64(l), 6) + " m"
}

// Millimetres gives the length in millimetres.
func (l Length) Millimetres() float64 { return float64(l) / 1000 }

// Metres gives the length in metres.
func (l Length) Metres() float64 { return float64(l) / 1e6 }

// String gives the force exactly: newtons below one kilonewton ("200 N"),
// kilonewtons from there on ("15 kN").
func (f Force) String() string {
	if f > -Kilonewton && f < Kilonewton {
		return decimal(int64(f), 0) + " N"
	}
	return decimal(int64(f), 3) + " kN"
}

// String gives the mass exactly: grams below one kilogram ("150 g"), kilograms
// from there on ("92.5 kg").
func (m Mass) String() string {
	if m > -Kilogram && m < Kilogram {
		return decimal(int64(m), 0) + " g"
	}
	return decimal(int64(m), 3) + " kg"
}

// Kilograms gives the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) / 1000 }
