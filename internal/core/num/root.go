package num

import "math"

// Root finds where f changes its sign between lo and hi, to the last bits that
// halving reaches, by the method of Ridders (IEEE Trans. Circuits Syst. 26, 1979,
// from memory) kept inside a bracket that is halved at least every other step. ok
// is false where f has the same sign at both ends, or is NaN.
func Root(f func(float64) float64, lo, hi float64) (x float64, ok bool) {
	a, b := f(lo), f(hi)
	switch {
	case a == 0:
		return lo, true
	case b == 0:
		return hi, true
	case !(a < 0 && b > 0) && !(a > 0 && b < 0):
		return nan(), false
	}
	for range 200 {
		mid := lo + float64((hi-lo)*0.5)
		if mid == lo || mid == hi {
			break
		}
		c := f(mid)
		if c == 0 {
			return mid, true
		}
		if math.IsNaN(c) {
			return nan(), false
		}
		// Ridders' point, at which f is looked at as well.
		s := math.Sqrt(float64(c*c) - float64(a*b))
		next := mid
		if s > 0 {
			step := float64((mid - lo) * (c / s))
			if a < b {
				step = -step
			}
			next = mid + step
		}
		if (c < 0) == (a < 0) {
			lo, a = mid, c
		} else {
			hi, b = mid, c
		}
		if next > math.Min(lo, hi) && next < math.Max(lo, hi) {
			d := f(next)
			switch {
			case d == 0:
				return next, true
			case math.IsNaN(d):
				return nan(), false
			case (d < 0) == (a < 0):
				lo, a = next, d
			default:
				hi, b = next, d
			}
		}
	}
	return lo + float64((hi-lo)*0.5), true
}
