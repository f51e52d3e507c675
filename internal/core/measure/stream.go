package measure

import (
	"math"

	"kernbook/internal/core/num"
)

// stream is the splitmix64 generator (Steele, Lea and Flood, OOPSLA 2014, from
// memory): the same numbers on every machine.
type stream uint64

func (s *stream) bits() uint64 {
	*s += 0x9E3779B97F4A7C15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xBF58476D1CE4E5B9
	z = (z ^ z>>27) * 0x94D049BB133111EB
	return z ^ z>>31
}

// open gives a number strictly between 0 and 1.
func (s *stream) open() float64 {
	return float64((float64(s.bits()>>11) + 0.5) * 0x1p-53)
}

// normal gives a standard normal number, by the polar method (Marsaglia and Bray,
// SIAM Review 6, 1964, from memory). Of the pair only one is used: what is kept back
// would be a state to carry.
func (s *stream) normal() float64 {
	for {
		u, v := float64(2*s.open())-1, float64(2*s.open())-1
		r := float64(u*u) + float64(v*v)
		if r > 0 && r < 1 {
			return float64(u * math.Sqrt(float64(-2*num.Log(r))/r))
		}
	}
}

// chiSquared gives a number of that law with f > 0 degrees of freedom, twice a gamma
// of f/2 (Marsaglia and Tsang, ACM TOMS 26, 2000, from memory).
func (s *stream) chiSquared(f float64) float64 {
	shape := float64(f * 0.5)
	boost := 1.0
	if shape < 1 {
		boost = num.Pow(s.open(), 1/shape)
		shape++
	}
	d := shape - 1.0/3
	c := 1 / math.Sqrt(float64(9*d))
	for {
		x := s.normal()
		v := 1 + float64(c*x)
		if v <= 0 {
			continue
		}
		v = float64(float64(v*v) * v)
		u := s.open()
		if num.Log(u) < float64(float64(x*x)*0.5)+float64(d*(1-v+num.Log(v))) {
			return float64(2 * float64(float64(d*v)*boost))
		}
	}
}
