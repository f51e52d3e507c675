package num

import (
	"math"
	"testing"
)

// same compares bits, so that 0 and -0 differ and NaN equals this package's NaN.
func same(a, b float64) bool { return math.Float64bits(a) == math.Float64bits(b) }

// TestSpecial holds the special cases the doc comments promise. They are those
// of IEEE 754-2019 section 9.2.1 (from memory), except for Pow with NaN and
// with negative x, where the doc comment says what differs and why.
func TestSpecial(t *testing.T) {
	inf, negZero := math.Inf(1), math.Copysign(0, -1)
	// A NaN with other bits must not get through.
	other := math.Float64frombits(0xFFF8000000000123)
	for _, c := range []struct {
		name string
		f    func(float64) float64
		x, y float64
	}{
		{"Exp", Exp, other, nan()},
		{"Exp", Exp, inf, inf},
		{"Exp", Exp, -inf, 0},
		{"Exp", Exp, 0, 1},
		{"Exp", Exp, negZero, 1},
		{"Exp", Exp, 709.7827128933841, inf},
		{"Exp", Exp, math.MaxFloat64, inf},
		{"Exp", Exp, -745.1332191019412, 0x0p0},
		{"Exp", Exp, -745.133219101941, 0x1p-1074},
		{"Exp", Exp, -math.MaxFloat64, 0},
		{"Exp", Exp, 0x1p-1074, 1},
		{"Log", Log, other, nan()},
		{"Log", Log, -0x1p-1074, nan()},
		{"Log", Log, -inf, nan()},
		{"Log", Log, inf, inf},
		{"Log", Log, 0, -inf},
		{"Log", Log, negZero, -inf},
		{"Log", Log, 1, 0},
	} {
		if got := c.f(c.x); !same(got, c.y) {
			t.Errorf("%s(%v) = %v, want %v", c.name, c.x, got, c.y)
		}
	}
	for _, c := range []struct{ x, y, want float64 }{
		{other, 0, nan()}, {other, 2, nan()}, {2, other, nan()}, {1, other, nan()}, {0, other, nan()},
		{-2, 2, nan()}, {-2, 0, nan()}, {-0x1p-1074, 1, nan()}, {-inf, 2, nan()},
		{0, 0, 1}, {negZero, 0, 1}, {inf, 0, 1}, {inf, negZero, 1}, {7, 0, 1},
		{1, inf, 1}, {1, -inf, 1}, {1, 1e300, 1},
		{0, 2, 0}, {negZero, 3, 0}, {0, inf, 0}, {0, -2, inf}, {negZero, -3, inf}, {0, -inf, inf},
		{inf, 2, inf}, {inf, inf, inf}, {inf, -2, 0}, {inf, -inf, 0},
		{1.5, inf, inf}, {1.5, -inf, 0}, {0.5, inf, 0}, {0.5, -inf, inf},
		{10, 309, inf}, {10, -324, 0}, {2, 1e308, inf}, {0.5, 1e308, 0},
		{math.Nextafter(1, 2), math.MaxFloat64, inf}, {math.Nextafter(1, 0), math.MaxFloat64, 0},
		{2, 0x1p-1074, 1}, {math.MaxFloat64, 1, math.MaxFloat64}, {0x1p-1074, 1, 0x1p-1074},
	} {
		if got := Pow(c.x, c.y); !same(got, c.want) {
			t.Errorf("Pow(%v, %v) = %v, want %v", c.x, c.y, got, c.want)
		}
	}
}
