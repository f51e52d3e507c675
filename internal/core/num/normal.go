package num

import "math"

// NormalTail returns the chance that a standard normal value is above x, with a
// relative error below 1e-13 down to where the result underflows (x about 38).
// Method: up to x = 2 the series of the distribution function about 0
// (G. Marsaglia, J. Stat. Software 11(4), 2004, from memory), beyond it Laplace's
// continued fraction (Abramowitz and Stegun 26.2.14, from memory). NaN for NaN.
func NormalTail(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return nan()
	case x < -40:
		return 1
	case x > 40:
		return 0
	case x < -2:
		return 1 - NormalTail(-x)
	case x <= 2:
		s, t := x, x
		for i := 3.0; math.Abs(t) > 1e-18; i += 2 {
			t = float64(t*float64(x*x)) / i
			s += t
		}
		return 0.5 - float64(s*normalDensity(x))
	}
	// The fraction is worked out from its far end; 12 + 300/x² steps are enough
	// for the digits of a float64 (held by the tests).
	f := x
	for k := 12 + int(300/float64(x*x)); k > 0; k-- {
		f = x + float64(k)/f
	}
	return normalDensity(x) / f
}

func normalDensity(x float64) float64 {
	return float64(0.3989422804014326779 * Exp(-float64(x*x)/2))
}

// NormalQuantile returns the x that a standard normal value lies above with chance
// p, 0 < p < 1; NaN for any other p.
func NormalQuantile(p float64) float64 {
	if !(p > 0 && p < 1) {
		return nan()
	}
	x, _ := Root(func(x float64) float64 { return NormalTail(x) - p }, -40, 40)
	return x
}
