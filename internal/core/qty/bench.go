package qty

import "math"

// Angle is an angle in whole millionths of a degree.
type Angle int64

// Degree is one degree.
const Degree Angle = 1_000_000

// Degrees gives the angle in degrees.
func (a Angle) Degrees() float64 { return float64(a) / 1e6 }

// Radians gives the angle in radians.
func (a Angle) Radians() float64 { return float64(float64(a)/1e6*math.Pi) / 180 }

// String gives the angle exactly: "41.5°".
func (a Angle) String() string { return decimal(int64(a), 6) + "°" }

// Linear is a mass per length in whole micrograms per metre.
type Linear int64

// KilogramsPerMetre gives it in kg/m.
func (l Linear) KilogramsPerMetre() float64 { return float64(l) / 1e9 }

// String gives it exactly, in grams per metre: "79 g/m".
func (l Linear) String() string { return decimal(int64(l), 6) + " g/m" }

// Pull is a force in whole micronewtons: on the bench a pull of two newtons counts
// to the last figure typed.
type Pull int64

// Newtons gives the pull in newtons.
func (p Pull) Newtons() float64 { return float64(p) / 1e6 }

// String gives it exactly: newtons below one kilonewton, kilonewtons from there on.
func (p Pull) String() string {
	if p > -1e9 && p < 1e9 {
		return decimal(int64(p), 6) + " N"
	}
	return decimal(int64(p), 9) + " kN"
}

// Exact: a pound in 100 feet is 453.59237 g in 30.48 m; one kilogram-force is 9.80665
// N (CGPM 1901), one pound-force 4.4482216152605 N (all from memory).
var (
	angles = measure{"an angle", "deg", "20deg", []unit{
		{1_000_000, 1, []string{"deg", "°", "degree", "degrees"}},
	}}
	linears = measure{"a mass per length", "g/m, kg/m, kg/100m, lb/100ft, ktex", "79 g/m", []unit{
		{1_000_000, 1, []string{"g/m", "ktex"}},
		{1_000_000_000, 1, []string{"kg/m"}},
		{10_000_000, 1, []string{"kg/100m", "kg/100 m"}},
		{45_359_237_000, 3048, []string{"lb/100ft", "lb/100 ft"}},
	}}
	pulls = measure{"a force", "N, kN, kgf, lbf", "1.2 kN", []unit{
		{1_000_000, 1, []string{"N"}},
		{1_000_000_000, 1, []string{"kN"}},
		{9_806_650, 1, []string{"kgf"}},
		{8_896_443_230_521, 2_000_000, []string{"lbf"}},
	}}
)

// ParseAngle reads an angle typed in degrees ("20deg", "41.5°"), rounded half to even
// to a millionth. A minus tells the other way.
func ParseAngle(s string) (Angle, error) {
	n, u, e := angles.read(s)
	if e != nil {
		return 0, e
	}
	v, _, ok := n.times(u.mul, u.div)
	if !ok || v > 360*int64(Degree) || v < -360*int64(Degree) {
		return 0, refuse(s, "is more than a whole turn", angles.mend())
	}
	return Angle(v), nil
}

// ParseLinear reads a mass per length typed with g/m, kg/m, kg/100m, lb/100ft or ktex,
// rounded half to even to a microgram per metre. Negative ones are refused.
func ParseLinear(s string) (Linear, error) {
	v, err := linears.count(s, math.MaxInt64, false)
	return Linear(v), err
}

// ParsePull reads a force typed with N, kN, kgf or lbf, rounded half to even to a
// micronewton. Negative ones are refused.
func ParsePull(s string) (Pull, error) {
	v, err := pulls.count(s, math.MaxInt64, false)
	return Pull(v), err
}

// ParseNumber reads a plain number without a unit, exactly as far as a float holds it.
func ParseNumber(s string) (float64, error) {
	const mend = "write a plain number, such as “0.15”"
	t := tidy(s)
	num, name := split(t)
	if num == "" {
		return 0, refuse(s, "does not begin with a number", mend)
	}
	n, what, m := parseNumber(num)
	switch {
	case what != "":
		return 0, refuse(s, what, m)
	case name != "":
		return 0, refuse(s, "has a unit where a plain number is wanted: “"+name+"”", mend)
	}
	// Numerator below 10^18, denominator at most 10^6: the quotient is off by no more
	// than the last bit.
	v := float64(n.num) / float64(n.den)
	if n.neg {
		v = -v
	}
	return v, nil
}
