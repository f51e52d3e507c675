package num

import (
	"math"
	"math/big"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// bigStudent is the density in 240-bit arithmetic, by another way to the
// constant: Γ(n+1/2)/Γ(n) as a product, with Γ(1/2)² = π.
func bigStudent(z float64, nu int) *big.Float {
	pi := mustBig("3.14159265358979323846264338327950288419716939937510582097494459230781640628620899") // from memory
	// For even nu = 2n: Γ(n+1/2)/Γ(n) = √π · Π_{i<n} (i+1/2)/i, the first factor 1/2;
	// for odd nu = 2n+1: Γ(n+1)/Γ(n+1/2) = Π_{0<i<=n} i/(i-1/2) / √π.
	c := bf(1)
	if n := nu / 2; nu%2 == 0 {
		c.Mul(c, bf(0.5))
		for i := 1; i < n; i++ {
			c.Mul(c, bf(float64(i)+0.5))
			c.Quo(c, bf(float64(i)))
		}
	} else {
		for i := 1; i <= n; i++ {
			c.Mul(c, bf(float64(i)))
			c.Quo(c, bf(float64(i)-0.5))
		}
		c.Quo(c, pi)
	}
	c.Quo(c, zero().Sqrt(bf(float64(nu))))
	base := zero().Mul(bf(z), bf(z))
	base.Add(bf(1), base.Quo(base, bf(float64(nu))))
	root := zero().Sqrt(base)
	for range nu + 1 {
		c.Quo(c, root)
	}
	return c
}

// TestStudentClosedForms: densities worked by hand from the definition.
func TestStudentClosedForms(t *testing.T) {
	for _, c := range []struct {
		z    float64
		nu   int
		want float64
	}{
		{0, 1, 1 / math.Pi},
		{1, 1, 1 / (2 * math.Pi)}, // Cauchy: 1/(π(1+z²))
		{3, 1, 1 / (10 * math.Pi)},
		{0, 2, 1 / (2 * math.Sqrt2)}, // 1/(2+z²)^(3/2)
		{1, 2, 1 / (3 * math.Sqrt(3))},
		{0, 3, 2 / (math.Pi * math.Sqrt(3))}, // 6√3/(π(3+z²)²)
		{1, 3, 6 * math.Sqrt(3) / (16 * math.Pi)},
		{0, 4, 3.0 / 8}, // 12/(4+z²)^(5/2)
		{2, 4, 12 / (64 * 2 * math.Sqrt2)},
		{0, 5, 8 / (3 * math.Pi * math.Sqrt(5))}, // 8/(3π√5(1+z²/5)³)
		{math.Sqrt(5), 5, 1 / (3 * math.Pi * math.Sqrt(5))},
	} {
		if got := StudentT(c.z, c.nu); math.Abs(got-c.want) > 2e-15*c.want {
			t.Errorf("StudentT(%v, %d) = %v, want %v", c.z, c.nu, got, c.want)
		}
		if StudentT(c.z, c.nu) != StudentT(-c.z, c.nu) {
			t.Errorf("StudentT(±%v, %d) differ", c.z, c.nu)
		}
	}
}

// TestStudentTable: the mass beyond the two-sided 95 % and 99 % points of the
// standard table of t is 5 % and 1 %. The points are those of any printed t
// table, from memory, three decimals; so the mass is right to about
// density·0.0005 on each side.
func TestStudentTable(t *testing.T) {
	for _, c := range []struct {
		nu       int
		p95, p99 float64
	}{
		{1, 12.706, 63.657}, {2, 4.303, 9.925}, {3, 3.182, 5.841}, {4, 2.776, 4.604}, {5, 2.571, 4.032},
		{6, 2.447, 3.707}, {7, 2.365, 3.499}, {8, 2.306, 3.355}, {9, 2.262, 3.250}, {10, 2.228, 3.169},
		{12, 2.179, 3.055}, {15, 2.131, 2.947}, {20, 2.086, 2.845}, {30, 2.042, 2.750}, {60, 2.000, 2.660}, {120, 1.980, 2.617},
	} {
		for _, q := range []struct{ z, outside float64 }{{c.p95, 0.05}, {c.p99, 0.01}} {
			const n = 20_000 // Simpson's rule; its error is far below the tolerance
			h := q.z / n
			sum := StudentT(0, c.nu) + StudentT(q.z, c.nu)
			for i := 1; i < n; i++ {
				sum += float64(2+2*(i%2)) * StudentT(float64(i)*h, c.nu)
			}
			outside := 1 - 2*sum*h/3
			if tol := 2 * 0.0006 * StudentT(q.z, c.nu); math.Abs(outside-q.outside) > tol {
				t.Errorf("nu %d: beyond ±%v lies %.6f, table says %v (tolerance %.6f)", c.nu, q.z, outside, q.outside, tol)
			}
		}
	}
}

// TestStudentAccuracy measures against 240-bit arithmetic, and against gonum.
func TestStudentAccuracy(t *testing.T) {
	r := stream(4)
	for _, c := range []struct {
		upTo  int
		bound float64
	}{{5, 2e-15}, {30, 5e-15}, {300, 6e-14}} {
		worst, worstGonum, at := 0.0, 0.0, ""
		for range *many {
			nu := 1 + int(r.bits()%uint64(c.upTo))
			z := r.sized(-12, 5)
			got, want := StudentT(z, nu), bigStudent(z, nu)
			if f, _ := want.Float64(); f < 1e-300 {
				continue
			}
			if d := relDiff(bf(got), want); d > worst {
				worst, at = d, formatArgs(z, nu)
			}
			g := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(nu)}.Prob(z)
			worstGonum = math.Max(worstGonum, math.Abs(got-g)/g)
		}
		t.Logf("nu <= %d: worst relative error %.2g at %s; against gonum %.2g", c.upTo, worst, at, worstGonum)
		if !(worst <= c.bound) || worst == 0 {
			t.Errorf("nu <= %d: worst relative error %.2g at %s, bound %.2g and above 0", c.upTo, worst, at, c.bound)
		}
		if c.upTo <= 30 && !(worstGonum <= 1e-13) {
			t.Errorf("nu <= %d: differs from gonum by %.2g, bound 1e-13", c.upTo, worstGonum)
		}
	}
}

// TestStudentRefuses: no density where there is none, and 0 far out.
func TestStudentRefuses(t *testing.T) {
	for _, c := range []struct {
		z    float64
		nu   int
		want float64
	}{
		{0, 0, nan()}, {0, -3, nan()}, {0, MaxFreedom + 1, nan()}, {math.NaN(), 3, nan()},
		{math.Inf(1), 3, 0}, {math.Inf(-1), 4, 0}, {1e200, 1, 0}, {1e60, 9, 0},
	} {
		if got := StudentT(c.z, c.nu); !same(got, c.want) {
			t.Errorf("StudentT(%v, %d) = %v, want %v", c.z, c.nu, got, c.want)
		}
	}
	// With many degrees of freedom it nears the normal density, 1/√(2π) at 0.
	if got, want := StudentT(0, MaxFreedom), 1/math.Sqrt(2*math.Pi); math.Abs(got-want) > want/MaxFreedom {
		t.Errorf("StudentT(0, %d) = %v, should be near %v", MaxFreedom, got, want)
	}
}
