package num

import "math"

// log(2) in two parts. The first has at most 42 significant bits, so that its
// product with an exponent of two (11 bits) is exact.
const (
	ln2Hi = 0x1.62e42fefa38p-01
	ln2Lo = 0x1.ef35793c7673p-45
)

// sqrtHalfBits are the bits of a number just below sqrt(1/2): mantissas are
// taken from there up to twice that, so that arguments near 1 have exponent 0
// and nothing cancels.
const sqrtHalfBits = 0x3FE6A09E00000000

// parts returns m in [0.7071, 1.4143) and k with x = m*2^k, for finite x > 0.
func parts(x float64) (m float64, k int) {
	if x < 0x1p-1022 {
		x = float64(x * 0x1p54)
		k = -54
	}
	b := math.Float64bits(x)
	e := int64(b-sqrtHalfBits) >> 52
	return math.Float64frombits(b - uint64(e)<<52), k + int(e)
}

// logPair returns log(2^k * (m + ml)) as hi + lo, for m as parts gives it and
// |ml| at most half a unit in the last place of m or so. The relative error of
// hi + lo is below 2^-64.
func logPair(k int, m, ml float64) (hi, lo float64) {
	// m = F + f with F = j/128: f is exact. Then z = f/F, in two parts.
	j := int(float64(m*128) + 0.5)
	row := logTable[j-logTableFirst]
	F := float64(float64(j) * (1.0 / 128))
	fh, fl := twoSum(m-F, ml)
	z := fh / F
	zp, ze := twoProd(z, F)
	zl := (((fh - zp) - ze) + fl) / F

	// log(1+z) = z - z²/2 + z³*c: the first two in two parts. |z| < 0.0055, so
	// what the Taylor polynomial leaves out is below 2^-70 of z.
	sq, sqe := twoProd(z, z)
	const (
		c3 = 1.0 / 3
		c4 = -1.0 / 4
		c5 = 1.0 / 5
		c6 = -1.0 / 6
		c7 = 1.0 / 7
		c8 = -1.0 / 8
		c9 = 1.0 / 9
	)
	c := c8 + float64(z*c9)
	c = c7 + float64(z*c)
	c = c6 + float64(z*c)
	c = c5 + float64(z*c)
	c = c4 + float64(z*c)
	c = c3 + float64(z*c)
	low := float64(float64(z*sq)*c) - (float64(0.5*sqe) + float64(z*zl)) + zl

	fk := float64(k)
	s, e1 := twoSum(float64(fk*ln2Hi), row.hi)
	s, e2 := twoSum(s, z)
	s, e3 := twoSum(s, -float64(0.5*sq))
	low += (e1 + (float64(fk*ln2Lo) + row.lo)) + (e2 + e3)
	return fastTwoSum(s, low)
}

// Log returns the natural logarithm of x. Largest error measured: 0.5001
// ULP.
//
// Special cases: Log(NaN) = NaN, Log(x < 0) = NaN, Log(±0) = -Inf,
// Log(+Inf) = +Inf, Log(1) = 0.
func Log(x float64) float64 {
	switch {
	case math.IsNaN(x) || x < 0:
		return nan()
	case x == 0:
		return math.Inf(-1)
	case math.IsInf(x, 1):
		return x
	}
	m, k := parts(x)
	hi, _ := logPair(k, m, 0)
	return hi
}
