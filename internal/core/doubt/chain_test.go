package doubt_test

import (
	"math"
	"math/big"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"kernbook/internal/core/doubt"
)

func generatorOf(g doubt.Gen) [5][5]float64 {
	a := [5][5]float64{0: {1: g.G01, 2: g.G02, 3: g.G03, 4: g.G04}, 1: {3: g.G13}, 2: {4: g.G24}}
	for i := range a {
		out := 0.0
		for k := range a[i] {
			out += a[i][k]
		}
		a[i][i] = -out
	}
	return a
}

// taylor is exp of a 5×5 matrix by the plain Taylor series in 400-bit floats.
func taylor(a [5][5]float64) [5][5]*big.Float {
	const prec = 400
	num := func(x float64) *big.Float { return new(big.Float).SetPrec(prec).SetFloat64(x) }
	var m, term, sum [5][5]*big.Float
	for i := range a {
		for k := range a[i] {
			m[i][k] = num(a[i][k])
			if i == k && i < 3 { // the diagonal as the exact negative of the row
				d := num(0)
				for q := range a[i] {
					if q != i {
						d.Add(d, num(a[i][q]))
					}
				}
				m[i][k] = d.Neg(d)
			}
			term[i][k], sum[i][k] = num(0), num(0)
			if i == k {
				term[i][k], sum[i][k] = num(1), num(1)
			}
		}
	}
	for n := 1; n < 400; n++ {
		var next [5][5]*big.Float
		for i := range term {
			for k := range term {
				s := num(0)
				for q := range term {
					s.Add(s, new(big.Float).SetPrec(prec).Mul(term[i][q], m[q][k]))
				}
				next[i][k] = s.Quo(s, num(float64(n)))
			}
		}
		term = next
		for i := range sum {
			for k := range sum {
				sum[i][k].Add(sum[i][k], term[i][k])
			}
		}
	}
	return sum
}

func drawGen(t *rapid.T, most float64) doubt.Gen {
	rate := func(name string) float64 {
		if rapid.IntRange(0, 5).Draw(t, name+" is none") == 0 {
			return 0
		}
		return math.Pow(10, rapid.Float64Range(-12, most).Draw(t, name))
	}
	a := rate("l01")
	b := rate("l12")
	if rapid.IntRange(0, 3).Draw(t, "nearly equal") == 0 { // where the closed form cancels
		b = a * (1 + 1e-12)
	}
	// a share that makes an intensity smaller than the smallest normal number has
	// no relative precision to hold; 0 and shares from a millionth on do
	u := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(1e-6, .1)).Draw(t, "u")
	return doubt.Generator(a, b, rate("l02"), u)
}

// TestUniformisationAgainstTaylor holds every entry to 1e-12 relative.
func TestUniformisationAgainstTaylor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGen(t, 1)
		got, want := entries(g.Exp()), taylor(generatorOf(g))
		for i := range got {
			for k := range got[i] {
				w, _ := want[i][k].Float64()
				if math.Abs(got[i][k]-w) > 1e-12*w {
					t.Fatalf("P[%d][%d] of %+v: got %.17g, want %.17g", i, k, g, got[i][k], w)
				}
			}
		}
	})
}

// TestUniformisationAgainstGonum holds every entry to 1e-14 absolute against a
// general matrix exponential (gonum's mat.Dense.Exp), at the rates of the tables.
func TestUniformisationAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGen(t, -1)
		a := generatorOf(g)
		flat := make([]float64, 0, 25)
		for i := range a {
			flat = append(flat, a[i][:]...)
		}
		var e mat.Dense
		e.Exp(mat.NewDense(5, 5, flat))
		got := entries(g.Exp())
		for i := range got {
			for k := range got[i] {
				if math.Abs(got[i][k]-e.At(i, k)) > 1e-14 {
					t.Fatalf("P[%d][%d]: got %.17g, gonum %.17g", i, k, got[i][k], e.At(i, k))
				}
			}
		}
	})
}

// TestSplittingAPeriod holds that a period cut in two gives what it gives whole, to
// 1e-12 relative.
// Rates that are next to nothing, subnormal ones among them, give a matrix of
// chances: each row adds up to one.
func TestNextToNoRate(t *testing.T) {
	for _, r := range []float64{0, 5e-324, 6.953355807835e-310, 2.3e-308, 1e-300, 1e-299, 1e-100} {
		for _, g := range []doubt.Gen{doubt.Generator(r, 0, 0, 0.05), doubt.Generator(0, r, 0, 0.05), doubt.Generator(r, r, r, 0.5)} {
			s := g.Exp()
			for row, sum := range []float64{s.A00 + s.A01 + s.A02 + s.A03 + s.A04, s.A11 + s.A13, s.A22 + s.A24, s.A33, s.A44} {
				if !(math.Abs(sum-1) < 1e-15) {
					t.Errorf("rate %g: row %d adds up to %g", r, row, sum)
				}
			}
			if !(s.A01 >= 0 && s.A01 <= r) {
				t.Errorf("rate %g: the first step has %g", r, s.A01)
			}
		}
	}
}

func TestSplittingAPeriod(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawGen(t, -1)
		n := rapid.IntRange(1, 400).Draw(t, "days")
		whole := doubt.Gen{}.Plus(float64(n), g).Exp()
		one := g.Exp()
		got, want := entries(one.Times(n)), entries(whole)
		for i := range got {
			for k := range got[i] {
				if math.Abs(got[i][k]-want[i][k]) > 1e-12*want[i][k] {
					t.Fatalf("P[%d][%d] over %d days: in steps %.17g, at once %.17g", i, k, n, got[i][k], want[i][k])
				}
			}
		}
	})
}

// TestLowDemandFormula compares with the low-demand formula of functional
// safety (from memory: IEC 61508-6, annex B): one mode that goes from sound to
// unfit at rate λ, perfect looks at interval T. The time average of the doubt is
// 1 − (1 − e^(−λT))/(λT), about λT/2 for small λT.
func TestLowDemandFormula(t *testing.T) {
	for _, lt := range []float64{1e-6, 1e-4, .01, .3, 2} {
		const steps = 4096
		b := doubt.New([]doubt.Vec{{1, 0, 0, 0, 0}}, nil)
		s := doubt.Generator(0, 0, lt/(2*steps), 0).Exp() // half a step, so that the mid-point rule is used
		seenNothing := doubt.Vec{1, 0, 1, 0, 1}
		var f doubt.Figures
		for round := range 3 {
			mean := 0.0
			for range steps {
				b.StepWhole(0, &s)
				b.Figures(&f)
				mean += f.D.Unfit() / steps
				b.StepWhole(0, &s)
			}
			want := 1 + math.Expm1(-lt)/lt
			if math.Abs(mean-want) > 2e-8*want+1e-15 {
				t.Errorf("λT = %g, interval %d: mean doubt %.12g, formula %.12g", lt, round, mean, want)
			}
			if lt < 1e-3 && math.Abs(mean-lt/2) > lt*lt {
				t.Errorf("λT = %g: mean doubt %.12g is not about λT/2", lt, mean)
			}
			b.WeighWhole(0, &seenNothing) // a perfect look that finds nothing
			if _, err := b.Normalize(); err != nil {
				t.Fatal(err)
			}
		}
	}
}
