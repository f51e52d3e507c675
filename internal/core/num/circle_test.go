package num

import (
	"math"
	"math/big"
	"testing"
)

// bigAtan returns atan(x): halving the angle by atan x = 2 atan(x/(1+√(1+x²))),
// then the series.
func bigAtan(x *big.Float) *big.Float {
	const halvings = 20
	y := zero().Set(x)
	for range halvings {
		root := zero().Mul(y, y)
		root.Add(root, bf(1))
		root.Sqrt(root)
		y.Quo(y, root.Add(root, bf(1)))
	}
	square := zero().Mul(y, y)
	sum, power := zero(), zero().Set(y)
	for k := range 12 { // 2^(-20·25) < 2^-240
		term := zero().Quo(power, bf(float64(2*k+1)))
		if k%2 == 1 {
			term.Neg(term)
		}
		sum.Add(sum, term)
		power.Mul(power, square)
	}
	return sum.SetMantExp(sum, halvings)
}

// bigPi is π by Machin's formula, 16 atan(1/5) - 4 atan(1/239).
func bigPi() *big.Float {
	a, b := bigAtan(zero().Quo(bf(1), bf(5))), bigAtan(zero().Quo(bf(1), bf(239)))
	a.Mul(a, bf(16))
	return a.Sub(a, b.Mul(b, bf(4)))
}

// bigSinCos returns sine and cosine of |x| below 2^21: after taking whole turns
// away, by series of the angle halved, and doubling it.
func bigSinCos(x float64) (*big.Float, *big.Float) {
	turn := bigPi()
	turn.Add(turn, turn)
	y := bf(x)
	n, _ := zero().Quo(y, turn).Int64()
	y.Sub(y, turn.Mul(turn, bf(float64(n))))
	const halvings = 12
	y.SetMantExp(y, -halvings)
	s, c := zero(), zero()
	term := bf(1)
	for k := range 30 {
		part := zero().Set(term)
		if k%4 >= 2 {
			part.Neg(part)
		}
		if k%2 == 0 {
			c.Add(c, part)
		} else {
			s.Add(s, part)
		}
		term.Mul(term, y)
		term.Quo(term, bf(float64(k+1)))
	}
	for range halvings {
		sc := zero().Mul(s, c)
		c.Sub(zero().Mul(c, c), zero().Mul(s, s))
		s.Add(sc, sc)
	}
	return s, c
}

func TestCircleReferences(t *testing.T) {
	// π from memory, as in any table of constants.
	if d := relDiff(bigPi(), mustBig("3.14159265358979323846264338327950288419716939937510582097494459230781640628620899")); d > 1e-66 {
		t.Errorf("π: relative difference %g", d)
	}
	for _, x := range []float64{0.3, 1, 4, -20.5, 12345.678, 1e6} {
		s, c := bigSinCos(x)
		one := zero().Add(zero().Mul(s, s), zero().Mul(c, c))
		if d := relDiff(one, bf(1)); d > 1e-60 {
			t.Errorf("sin²+cos² of %g: off by %g", x, d)
		}
	}
	s, _ := bigSinCos(0.5) // sin 0.5, from memory
	if d := relDiff(s, mustBig("0.479425538604203000273287935215571388081803367940600675188616")); d > 1e-55 {
		t.Errorf("sin 0.5: relative difference %g", d)
	}
	half := zero().Quo(bigPi(), bf(2))
	hi, _ := half.Float64()
	first, _ := zero().SetPrec(33).SetMode(big.ToZero).Set(half).Float64()
	rest := zero().Sub(half, bf(first))
	second, _ := zero().SetPrec(33).SetMode(big.ToZero).Set(rest).Float64()
	third, _ := rest.Sub(rest, bf(second)).Float64()
	if first != quarter1 || second != quarter2 || third != quarter3 {
		t.Errorf("π/2 is split into %x %x %x, should be %x %x %x", quarter1, quarter2, quarter3, first, second, third)
	}
	if back, _ := zero().Quo(bf(1), half).Float64(); back != perTurn {
		t.Errorf("2/π is %x, should be %x", perTurn, back)
	}
	if hi != math.Pi/2 {
		t.Errorf("π/2 is %x", hi)
	}
	for k, got := range atans {
		if want, _ := bigAtan(zero().Quo(bf(float64(k)), bf(16))).Float64(); got != want {
			t.Errorf("atan(%d/16) is %x, should be %x", k, got, want)
		}
	}
}

// TestCircleAccuracy bounds the error against 240-bit arithmetic.
func TestCircleAccuracy(t *testing.T) {
	r := stream(0x63697263)
	var args []float64
	for range *many {
		args = append(args, r.between(-8, 8), r.sized(-30, 19), r.between(-1.6, 1.6))
	}
	for k := -40; k <= 40; k++ {
		args = append(args, around(float64(k)*math.Pi/4)...)
	}
	worst := map[string]float64{}
	see := func(name string, got float64, want *big.Float) {
		worst[name] = max(worst[name], ulps(got, want))
	}
	for _, x := range args {
		s, c := bigSinCos(x)
		see("Sin", Sin(x), s)
		see("Cos", Cos(x), c)
		if x != 0 {
			see("Atan", Atan(x), bigAtan(bf(x)))
			see("Tan", Tan(x), zero().Quo(s, c))
		}
		if v := x / 8; math.Abs(v) < 1 && v != 0 {
			side := zero().Mul(bf(v), bf(v))
			side.Sub(bf(1), side)
			side.Sqrt(side)
			asin := bigAtan(zero().Quo(bf(v), side))
			see("Asin", Asin(v), asin)
			see("Acos", Acos(v), zero().Sub(zero().Quo(bigPi(), bf(2)), asin))
		}
	}
	for name, bound := range map[string]float64{"Sin": 0.9, "Cos": 0.9, "Tan": 2.5, "Atan": 1.5, "Asin": 3, "Acos": 3} {
		t.Logf("%s: worst %.3f ULP", name, worst[name])
		if worst[name] > bound || worst[name] == 0 {
			t.Errorf("%s: worst error %.3f ULP of %d arguments, held is %g", name, worst[name], len(args), bound)
		}
	}
}
