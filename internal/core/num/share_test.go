package num

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestCeilMillionths(t *testing.T) {
	up := func(x float64, steps int) float64 {
		for range steps {
			x = math.Nextafter(x, math.Inf(1))
		}
		return x
	}
	for _, c := range []struct {
		name string
		p    float64
		want int64
	}{
		{"nothing", 0, 0},
		{"minus nothing", math.Copysign(0, -1), 0},
		{"the smallest", 0x1p-1074, 1},
		{"one in 10^9", 1e-9, 1},
		{"a millionth", 1e-6, 1},
		{"a millionth and a step", up(1e-6, 1), 1},
		{"above a millionth", 1.0001e-6, 2},
		{"the limit", 0.001, 1000},
		{"the limit as a sum", 0.0001 + 0.0002 + 0.0003 + 0.0004, 1000},
		{"the limit by subtraction", 1 - 0.999, 1000},
		{"the limit and ten steps", up(0.001, 10), 1000},
		{"the limit and 0.8e-12 of it", 0.001 * (1 + 0.8e-12), 1000},
		{"the limit and 1.01e-12 of it", 0.001 * (1 + 1.01e-12), 1001},
		{"the limit and 1e-9 of it", 0.001 * (1 + 1e-9), 1001},
		{"just below the limit", 0.001 * (1 - 1e-12), 1000},
		{"below the limit", 0.0009989, 999},
		{"a half", 0.5, 500_000},
		{"a third", 1.0 / 3, 333_334},
		{"certain", 1, Whole},
		{"nearly certain", math.Nextafter(1, 0), Whole},
		{"more than certain", up(1, 1), Whole},
		{"not a number", math.NaN(), Whole},
		{"infinite", math.Inf(1), Whole},
		{"minus infinite", math.Inf(-1), Whole},
		{"negative", -0.001, Whole},
		{"dust below nothing", -1e-17, 1},
	} {
		if got := CeilMillionths(c.p); got != c.want {
			t.Errorf("%s: CeilMillionths(%v) = %d, want %d", c.name, c.p, got, c.want)
		}
	}
	// Every whole number of millionths, as the nearest float64, is itself.
	for n := int64(0); n <= Whole; n++ {
		if got := CeilMillionths(float64(n) / Whole); got != n {
			t.Fatalf("CeilMillionths(%d/1e6) = %d", n, got)
		}
		if got := CeilMillionths(float64(n) * 1e-6); got != n {
			t.Fatalf("CeilMillionths(%d*1e-6) = %d", n, got)
		}
	}
}

// TestCeilMillionthsHolds: against exact fractions, n millionths are never more
// than a millionth too many, nor too few by more than 1e-12 of themselves; and
// a larger share never gives fewer.
func TestCeilMillionthsHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p float64
		if rapid.Bool().Draw(t, "near a whole millionth") {
			n := rapid.Int64Range(1, Whole-1).Draw(t, "n")
			p = float64(n) / Whole * (1 + rapid.Float64Range(-3e-12, 3e-12).Draw(t, "off"))
		} else {
			p = math.Pow(10, rapid.Float64Range(-12, 0).Draw(t, "power"))
		}
		n := CeilMillionths(p)
		exact := new(big.Rat).Mul(new(big.Rat).SetFloat64(p), big.NewRat(Whole, 1)) // in millionths
		if exact.Cmp(big.NewRat(n-1, 1)) <= 0 {
			t.Fatalf("%v gave %d: a millionth too many", p, n)
		}
		most := new(big.Rat).Mul(big.NewRat(n, 1), new(big.Rat).Add(big.NewRat(1, 1), big.NewRat(1, 1_000_000_000_000)))
		if exact.Cmp(most) > 0 {
			t.Fatalf("%v gave %d: too few", p, n)
		}
		if more := CeilMillionths(math.Nextafter(p, 1)); more < n {
			t.Fatalf("%v gave %d, and the next larger %d", p, n, more)
		}
	})
}

func TestOneIn(t *testing.T) {
	for _, c := range []struct{ ppm, want int64 }{
		{0, 0}, {1, 1_000_000}, {2, 500_000}, {3, 330_000}, {7, 140_000}, {22, 45_000}, {23, 43_000},
		{99, 10_000}, {101, 9900}, {999, 1000}, {1000, 1000}, {1001, 990}, {5882, 170}, {10_000, 100}, {10_101, 99}, {10_102, 98},
		{250_000, 4}, {300_000, 3}, {500_000, 2}, {500_001, 1}, {Whole, 1}, {Whole + 1, 1}, {-1, 1},
	} {
		if got := OneIn(c.ppm); got != c.want {
			t.Errorf("OneIn(%d) = %d, want %d", c.ppm, got, c.want)
		}
	}
	// What prints as "1 in N" is never rarer than it is, at most two figures
	// long, and no two-figure number between it and the truth was passed over.
	last := int64(math.MaxInt64)
	for ppm := int64(1); ppm <= Whole; ppm++ {
		n := OneIn(ppm)
		figures := n
		unit := int64(1)
		for figures%10 == 0 {
			figures /= 10
		}
		for n/unit >= 100 {
			unit *= 10
		}
		if n*ppm > Whole || figures >= 100 || (n+unit)*ppm <= Whole || n > last {
			t.Fatalf("OneIn(%d) = %d, after %d", ppm, n, last)
		}
		last = n
	}
}
