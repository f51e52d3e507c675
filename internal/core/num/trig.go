package num

import "math"

// Bound on the arguments of Sin and Cos: beyond it the reduction by quarter turns
// would lose digits, and they give NaN.
const trigMax = 1 << 20

// A quarter turn, pi/2, in three parts. The first two have 33 significant bits,
// so that their products with a number of turns below 2^20 are exact (the
// splitting of fdlibm, from memory; the parts are computed again by the tests).
const (
	quarter1 = 0x1.921fb544p0
	quarter2 = 0x1.0b4611a6p-34
	quarter3 = 0x1.3198a2e037073p-69
	perTurn  = 0x1.45f306dc9c883p-1 // 2/pi
)

// quarters writes x as n quarter turns and a rest hi+lo of at most an eighth turn.
func quarters(x float64) (n int, hi, lo float64) {
	fn := float64(x*perTurn) + shifter
	fn -= shifter
	r := x - float64(fn*quarter1)
	w := float64(fn * quarter2)
	t := r
	r = t - w
	w = float64(fn*quarter3) - ((t - r) - w)
	hi = r - w
	return int(fn), hi, (r - hi) - w
}

// sine gives sin(hi+lo) for at most an eighth turn: the Taylor polynomial, whose
// next term is below 2^-60 of the result.
func sine(hi, lo float64) float64 {
	z := float64(hi * hi)
	p := taylor(z, -1.0/6, 1.0/120, -1.0/5040, 1.0/362880, -1.0/39916800, 1.0/6227020800, -1.0/1307674368000, 1.0/355687428096000)
	// sin(hi+lo) = sin hi + lo cos hi, and cos hi is 1 - z/2 for so small a lo.
	return hi + (float64(float64(hi*z)*p) + float64(lo*(1-float64(z*0.5))))
}

// cosine gives cos(hi+lo) for at most an eighth turn.
func cosine(hi, lo float64) float64 {
	z := float64(hi * hi)
	p := taylor(z, 1.0/24, -1.0/720, 1.0/40320, -1.0/3628800, 1.0/479001600, -1.0/87178291200, 1.0/20922789888000, -1.0/6402373705728000)
	half := float64(z * 0.5)
	w := 1 - half
	return w + (((1 - w) - half) + (float64(float64(z*z)*p) - float64(hi*lo)))
}

// taylor gives c[0] + c[1]·z + c[2]·z² + …
func taylor(z float64, c ...float64) float64 {
	s := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		s = c[i] + float64(s*z)
	}
	return s
}

// Sin returns the sine of x radians, |x| up to 2^20. Special cases: NaN for NaN,
// ±Inf and whatever lies beyond.
func Sin(x float64) float64 {
	s, _ := SinCos(x)
	return s
}

// Cos returns the cosine of x radians, |x| up to 2^20; NaN as Sin.
func Cos(x float64) float64 {
	_, c := SinCos(x)
	return c
}

// SinCos returns sine and cosine of x radians, |x| up to 2^20; NaN as Sin.
func SinCos(x float64) (sin, cos float64) {
	if !(x >= -trigMax && x <= trigMax) {
		return nan(), nan()
	}
	if x == 0 {
		return x, 1
	}
	n, hi, lo := quarters(x)
	s, c := sine(hi, lo), cosine(hi, lo)
	switch n & 3 {
	case 1:
		return c, -s
	case 2:
		return -s, -c
	case 3:
		return -c, s
	}
	return s, c
}

// Tan returns the tangent of x radians, |x| up to 2^20; NaN as Sin.
func Tan(x float64) float64 {
	s, c := SinCos(x)
	return s / c
}

// atanStep is how far apart the arguments lie that atan is reduced to.
const atanStep = 1.0 / 16

// Atan returns the angle in radians, from -pi/2 to pi/2, whose tangent is x.
func Atan(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return nan()
	case x < 0:
		return -Atan(-x)
	case x == 0:
		return x
	case x > 1:
		// pi/2 - atan(1/x), pi/2 in two parts
		return 0x1.921fb54442d18p0 - (Atan(1/x) - 0x1.1a62633145c07p-54)
	}
	// atan x = atan a + atan((x-a)/(1+xa)), a the multiple of 1/16 below: the rest
	// is below 1/16, where eight terms of the series leave out less than 2^-60.
	k := int(x / atanStep)
	a := float64(float64(k) * atanStep)
	r := (x - a) / (1 + float64(x*a))
	z := float64(r * r)
	p := taylor(z, -1.0/3, 1.0/5, -1.0/7, 1.0/9, -1.0/11, 1.0/13, -1.0/15)
	return atans[k] + (r + float64(float64(r*z)*p))
}

// Atan2 returns the angle of the point (x, y) from the x axis, from -pi to pi. Of
// the origin it returns 0.
func Atan2(y, x float64) float64 {
	const pi = 0x1.921fb54442d18p1
	switch {
	case math.IsNaN(x) || math.IsNaN(y):
		return nan()
	case x > 0:
		return Atan(y / x)
	case x == 0 && y == 0:
		return 0
	case x == 0 && y > 0:
		return pi / 2
	case x == 0:
		return -pi / 2
	case y < 0:
		return Atan(y/x) - pi
	}
	return Atan(y/x) + pi
}

// Asin returns the angle in radians whose sine is x; NaN beyond ±1.
func Asin(x float64) float64 {
	if !(x >= -1 && x <= 1) {
		return nan()
	}
	return Atan2(x, math.Sqrt(float64((1-x)*(1+x))))
}

// Acos returns the angle in radians, from 0 to pi, whose cosine is x; NaN beyond
// ±1.
func Acos(x float64) float64 {
	if !(x >= -1 && x <= 1) {
		return nan()
	}
	return Atan2(math.Sqrt(float64((1-x)*(1+x))), x)
}
