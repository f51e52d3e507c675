package num

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.17g, want %.17g (relative difference %.2g, held is %.2g)", what, got, want, math.Abs(got-want)/math.Abs(want), rel)
	}
}

// TestChancePublished: values of the tables everybody has, from memory.
func TestChancePublished(t *testing.T) {
	for _, c := range []struct {
		what      string
		got, want float64
		rel       float64
	}{
		{"normal tail at 1.959963984540054", NormalTail(1.959963984540054), 0.025, 1e-14},
		{"normal tail at 1", NormalTail(1), 0.15865525393145707, 1e-13},
		{"normal tail at 6", NormalTail(6), 9.865876450376981e-10, 1e-12},
		{"normal tail at -3", NormalTail(-3), 0.9986501019683699, 1e-15},
		{"normal quantile of 0.05", NormalQuantile(0.05), 1.6448536269514722, 1e-14},
		{"normal quantile of 1-0.95^(1/60)", NormalQuantile(1 - math.Pow(0.95, 1.0/60)), 3.136625, 2e-7}, // computed by scipy to these digits
		{"t of 5 % either side, 11", StudentQuantile(0.025, 11), 2.20098516009164, 1e-12},                // by the closed form for an odd number of degrees
		{"t, 1 degree, 0.25", StudentQuantile(0.25, 1), 1, 1e-13},
		{"chi-squared of 5 %, 10", ChiSquaredQuantile(0.05, 10), 18.307038053275146, 1e-12},
		{"F 4.9646, 1 and 10", FisherTail(4.964602743730711, 1, 10), 0.05, 1e-12},
		{"log gamma of 1/2", LogGamma(0.5), 0.5723649429247001, 1e-13},
		{"log gamma of 100", LogGamma(100), 359.1342053695754, 1e-14},
		{"K(0)", EllipticK(0), math.Pi / 2, 1e-16},
		{"K(1/2)", EllipticK(0.5), 1.8540746773013719, 1e-15},
		{"E(1/2)", EllipticE(0.5), 1.3506438810476755, 1e-15},
		{"E(1)", EllipticE(1), 1, 0},
	} {
		near(t, c.what, c.got, c.want, c.rel)
	}
}

// TestChanceAgainstGonum holds every function to another library's, over a grid.
func TestChanceAgainstGonum(t *testing.T) {
	r := stream(0x70726f62)
	for range 400 {
		x := r.between(-7, 7)
		near(t, "NormalTail", NormalTail(x), math.Erfc(x/math.Sqrt2)/2, 2e-13)
		a, b := r.between(0.1, 40), r.between(0.1, 40)
		y := r.between(0, 80)
		near(t, "LogGamma", Exp(LogGamma(a)), math.Gamma(a), 2e-12)
		if q := mathext.GammaIncRegComp(a, y); q > 1e-200 {
			near(t, "GammaTail", GammaTail(a, y), q, 1e-9)
		}
		u := r.between(0, 1)
		if p := mathext.RegIncBeta(a, b, u); p > 1e-200 {
			near(t, "BetaPart", BetaPart(u, a, b), p, 1e-9)
		}
		z, f := r.between(-8, 8), r.between(1, 200)
		near(t, "StudentTail", StudentTail(z, f), distuv.StudentsT{Mu: 0, Sigma: 1, Nu: f}.Survival(z), 1e-9)
		near(t, "FisherTail", FisherTail(y, f, a), mathext.RegIncBeta(a/2, f/2, a/(a+f*y)), 1e-9)
		near(t, "NormalTail of NormalQuantile", NormalTail(NormalQuantile(u)), u, 1e-12)
		near(t, "StudentTail of StudentQuantile", StudentTail(StudentQuantile(u, f), f), u, 1e-10)
		near(t, "GammaTail of ChiSquaredQuantile", GammaTail(f/2, ChiSquaredQuantile(u, f)/2), u, 1e-10)
		m := r.between(-3, 0.99)
		near(t, "EllipticK by quadrature", EllipticK(m), midpoints(func(s float64) float64 { return 1 / math.Sqrt(1-m*s*s) }), 1e-12)
		near(t, "EllipticE by quadrature", EllipticE(m), midpoints(func(s float64) float64 { return math.Sqrt(1 - m*s*s) }), 1e-12)
	}
	for name, got := range map[string]float64{"normal quantile of 0": NormalQuantile(0), "of 1": NormalQuantile(1), "gamma tail of a < 0": GammaTail(-1, 1),
		"beta part beyond 1": BetaPart(1.1, 1, 1), "t quantile without freedom": StudentQuantile(0.5, 0), "log gamma of 0": LogGamma(0), "K(1)": EllipticK(1), "E(1.1)": EllipticE(1.1),
		"Asin(1.1)": Asin(1.1), "Acos(-1.1)": Acos(-1.1), "Sin(2^21)": Sin(1 << 21), "Cos(Inf)": Cos(math.Inf(1)), "Atan2(NaN, 1)": Atan2(math.NaN(), 1)} {
		if !math.IsNaN(got) {
			t.Errorf("%s is %g, want no number", name, got)
		}
	}
}

// midpoints integrates a function of the sine over a quarter turn; for a periodic
// one that is as exact as can be.
func midpoints(f func(sin float64) float64) float64 {
	const n = 400
	s := 0.0
	for i := range n {
		s += f(math.Sin((float64(i) + 0.5) * math.Pi / 2 / n))
	}
	return s * math.Pi / 2 / n
}

func TestRoot(t *testing.T) {
	for _, c := range []struct {
		f      func(float64) float64
		lo, hi float64
		want   float64
	}{
		{func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		{func(x float64) float64 { return 2 - x*x }, 2, 0, math.Sqrt2},
		{func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607}, // from memory
		{func(x float64) float64 { return math.Exp(x) - 1e-9 }, -100, 100, math.Log(1e-9)},
		{func(x float64) float64 { return x - 3 }, 3, 9, 3},
		{func(x float64) float64 { return x * x * x }, -1, 2, 0},
	} {
		got, ok := Root(c.f, c.lo, c.hi)
		if !ok || math.Abs(got-c.want) > 4e-16*math.Max(1, math.Abs(c.want))*4 {
			t.Errorf("root between %g and %g is %.17g (%v), want %.17g", c.lo, c.hi, got, ok, c.want)
		}
	}
	for name, f := range map[string]func(float64) float64{
		"no change of sign": func(x float64) float64 { return 1 + x*x },
		"no number":         func(float64) float64 { return math.NaN() },
		"no number inside":  func(x float64) float64 { return map[bool]float64{true: math.NaN(), false: x}[x > -1 && x < 1] },
	} {
		if x, ok := Root(f, -2, 2); ok || !math.IsNaN(x) {
			t.Errorf("%s: %g, %v", name, x, ok)
		}
	}
}
