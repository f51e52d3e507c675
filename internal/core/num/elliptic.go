package num

import "math"

// EllipticK returns the complete elliptic integral of the first kind of the
// parameter m = k², m below 1: K(m) = ∫0^{π/2} dt/√(1 - m sin²t). It is
// π/(2 AGM(1, √(1-m))) (Gauss; Abramowitz and Stegun 17.6, from memory). NaN from
// 1 on.
func EllipticK(m float64) float64 {
	k, _ := elliptic(m)
	return k
}

// EllipticE returns the complete elliptic integral of the second kind of the
// parameter m = k², m up to 1: E(m) = ∫0^{π/2} √(1 - m sin²t) dt, by the same
// means (Abramowitz and Stegun 17.6.4, from memory). NaN beyond 1.
func EllipticE(m float64) float64 {
	if m == 1 {
		return 1
	}
	_, e := elliptic(m)
	return e
}

func elliptic(m float64) (k, e float64) {
	if !(m < 1) {
		return nan(), nan()
	}
	a, b, sum, power := 1.0, math.Sqrt(1-m), m/2, 0.5
	for range 40 { // converges in six; the bound only ends what could not
		c := (a - b) / 2
		a, b = (a+b)/2, math.Sqrt(float64(a*b))
		power *= 2
		sum += float64(power * float64(c*c))
		if math.Abs(c) <= float64(1e-17*a) {
			break
		}
	}
	k = 0x1.921fb54442d18p0 / a
	return k, float64(k * (1 - sum))
}
