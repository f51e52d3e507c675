package num

import "math"

// The step of the table, log(2)/32, in two parts. The first has at most 36
// significant bits, so that its product with any step number used here (16
// bits) is exact.
const (
	stepHi  = 0x1.62e42fefap-06
	stepLo  = 0x1.cf79abc9e3b3ap-45
	perStep = 0x1.71547652b82fep5 // 32/log(2)
	shifter = 0x1.8p52            // adding and taking it away rounds to a whole number
)

// Bounds outside which the result is certainly +Inf, or certainly rounds to 0.
// (The exact ones are 709.78… and -745.13…; between, scale does the rounding.)
const (
	expMax = 710
	expMin = -746
)

// reduced is an argument written as n*log(2)/32 + r, n = 32*k + j.
type reduced struct {
	k, j   int     // power of two; row of the table, 0 to 31
	rh, rl float64 // r = rh + rl, |r| <= log(2)/64 and a little
}

// reduce takes h+l with expMin <= h <= expMax and |l| far below 1.
func reduce(h, l float64) reduced {
	fn := float64(h*perStep) + shifter
	fn -= shifter
	n := int(fn)
	return reduced{
		k:  n >> 5,
		j:  n & 31,
		rh: h - float64(fn*stepHi),
		rl: l - float64(fn*stepLo),
	}
}

// quadratic returns exp(r) - 1 - r for |r| <= 0.011 with a relative error of
// about 2^-52. What the Taylor polynomial leaves out is r^8/40320, below 2^-60
// of r.
func quadratic(r float64) float64 {
	const (
		c2 = 1.0 / 2
		c3 = 1.0 / 6
		c4 = 1.0 / 24
		c5 = 1.0 / 120
		c6 = 1.0 / 720
		c7 = 1.0 / 5040
	)
	q := c6 + float64(r*c7)
	q = c5 + float64(r*q)
	q = c4 + float64(r*q)
	q = c3 + float64(r*q)
	q = c2 + float64(r*q)
	return float64(float64(r*r) * q)
}

// expPair returns exp(h+l) for expMin <= h <= expMax.
func expPair(h, l float64) float64 {
	a := reduce(h, l)
	t := expTable[a.j]
	r := a.rh + a.rl
	p := a.rh + (a.rl + quadratic(r))
	return scale(t.hi+(t.lo+float64(t.hi*p)), a.k)
}

// Exp returns e^x. Largest error measured: 0.522 units in the last place (ULP);
// 0.75 where the result is below 2^-1022 and so rounded twice.
//
// Special cases: Exp(NaN) = NaN, Exp(+Inf) = +Inf, Exp(-Inf) = 0, Exp(±0) = 1,
// +Inf above 709.78…, 0 below -745.13….
func Exp(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return nan()
	case x > expMax:
		return math.Inf(1)
	case x < expMin:
		return 0
	}
	return expPair(x, 0)
}
