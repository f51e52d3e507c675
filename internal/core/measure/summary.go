package measure

import (
	"math"
	"slices"
)

// Mean gives the mean; NaN of none.
func Mean(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}

// Deviation gives the standard deviation with n-1; 0 of fewer than two.
func Deviation(v []float64) float64 {
	if len(v) < 2 {
		return 0
	}
	m, s := Mean(v), 0.0
	for _, x := range v {
		s += float64((x - m) * (x - m))
	}
	return math.Sqrt(s / float64(len(v)-1))
}

// Median gives the middle value, of an even number the mean of the two; NaN of
// none.
func Median(v []float64) float64 {
	if len(v) == 0 {
		return math.NaN()
	}
	w := slices.Clone(v)
	slices.Sort(w)
	k := len(w) / 2
	if len(w)%2 == 1 {
		return w[k]
	}
	return float64((w[k-1] + w[k]) * 0.5)
}

// Spread gives the median distance from the median, times 1.4826 so that it is the
// standard deviation of normal values (Hampel, from memory).
func Spread(v []float64) float64 {
	m := Median(v)
	d := make([]float64, len(v))
	for i, x := range v {
		d[i] = math.Abs(x - m)
	}
	return float64(1.4826 * Median(d))
}

// Trend gives the median of the slopes between all pairs of points (Theil and Sen,
// from memory): what the readings do along the rope, not moved by a few odd ones.
// NaN where fewer than two places differ.
func Trend(at, v []float64) float64 {
	var s []float64
	for i := range at {
		for k := i + 1; k < len(at); k++ {
			if at[i] != at[k] {
				s = append(s, (v[k]-v[i])/(at[k]-at[i]))
			}
		}
	}
	return Median(s)
}
