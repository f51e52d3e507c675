package num

import "math"

// Whole is the share 1 in millionths.
const Whole = 1_000_000

// dust is how far, as a share of itself, a figure may lie above a whole number
// of millionths and still count as that number. It is some thousand times the
// rounding of a float64 and below one in 10^12 with room for that rounding.
const dust = 9e-13

// CeilMillionths returns the share p, in [0,1], in whole millionths rounded
// up: the form in which a doubt is compared with its limit and printed.
//
// The rule: 0 stays 0; anything above 0 is at least 1; a p that lies above
// n millionths (n >= 1) by at most 9e-13 of itself is n, because that much can
// come from the rounding of sums and products (0.001 as a float64 is 1000, and
// so is 0.001 plus a few units in the last place); anything else is rounded
// up. So a p above 1 in 1,000 by more than 1e-12 of itself is never 1000.
//
// The rule is strict with what is no share: NaN, p > 1 and p < -1e-12 give
// 1,000,000, certainly unfit, so that a fault upstream can never read as
// "keep". A p in [-1e-12, 0) is the dust of a subtraction and gives 1.
func CeilMillionths(p float64) int64 {
	switch {
	case math.IsNaN(p) || p > 1 || p < -1e-12:
		return Whole
	case p == 0:
		return 0
	case p < 0:
		return 1
	}
	v := float64(p * Whole)
	n := math.Floor(v)
	if n >= 1 && v-n <= float64(n*dust) {
		return int64(n)
	}
	return int64(n) + 1
}

// OneIn returns the N of "1 in N" for a share in whole millionths: 1,000,000
// divided by ppm and rounded down to two significant figures, and to a whole
// number. Rounding down makes the printed chance the larger one, so that a
// piece above the limit never prints as the limit: 1000 gives 1000, 1001 gives
// 990.
//
// 0 gives 0, which the page prints as "none to speak of" and never as "1 in
// 0". What is no share is taken strictly: below 0, or above 1,000,000, gives 1
// ("1 in 1", certain).
func OneIn(ppm int64) int64 {
	switch {
	case ppm == 0:
		return 0
	case ppm < 0 || ppm > Whole:
		return 1
	}
	n := Whole / ppm
	unit := int64(1)
	for n/unit >= 100 {
		unit *= 10
	}
	return n / unit * unit
}
