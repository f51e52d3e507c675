package num

import "math"

// nan is the one NaN this package returns, so that even "no answer" has the
// same bits everywhere (the NaN made by 0/0 differs between machines).
func nan() float64 { return math.Float64frombits(0x7FF8000000000001) }

// twoSum returns s = a+b rounded, and the rounding error e, so that s+e is
// exactly a+b (Knuth). No condition on the sizes of a and b.
func twoSum(a, b float64) (s, e float64) {
	s = a + b
	t := s - a
	e = (a - (s - t)) + (b - t)
	return s, e
}

// fastTwoSum is twoSum for |a| >= |b| or a == 0 (Dekker).
func fastTwoSum(a, b float64) (s, e float64) {
	s = a + b
	return s, b - (s - a)
}

// split cuts a into h+l with at most 26 significant bits each (Veltkamp).
// |a| must be below 2^996.
func split(a float64) (h, l float64) {
	t := float64(134217729 * a) // 2^27 + 1
	h = t - (t - a)
	return h, a - h
}

// twoProd returns p = a*b rounded, and the rounding error e, so that p+e is
// exactly a*b, provided nothing overflows or is subnormal (Dekker).
func twoProd(a, b float64) (p, e float64) {
	p = float64(a * b)
	ah, al := split(a)
	bh, bl := split(b)
	e = float64(ah*bh) - p
	e += float64(ah * bl)
	e += float64(al * bh)
	e += float64(al * bl)
	return p, e
}

// pow2 returns 2^k for -1022 <= k <= 1023, exactly.
func pow2(k int) float64 { return math.Float64frombits(uint64(k+1023) << 52) }

// scale returns s*2^k for s in [0.5, 4) and -1080 <= k <= 1030, rounded once
// where the result is subnormal, and +Inf where it is too large.
func scale(s float64, k int) float64 {
	switch {
	case k > 1022:
		return float64(float64(s*0x1p1022) * pow2(k-1022))
	case k < -1020:
		return float64(float64(s*pow2(k+1000)) * 0x1p-1000)
	}
	return float64(s * pow2(k))
}
