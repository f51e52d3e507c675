package qty

import "testing"

// TestBenchUnits: values worked out with whole numbers from the exact sizes of inch,
// pound and standard gravity (1959 agreement, CGPM 1901; a converter's page, seen).
func TestBenchUnits(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"5400lbf", "24.020396722 kN"}, // 24.020396722407 kN
		{"1 lbf", "4.448222 N"},        // 4.4482216152605 N
		{"23 kgf", "225.55295 N"},
		{"2.5N", "2.5 N"},
		{"22 kN", "22 kN"},
	} {
		if v, err := ParsePull(c.typed); err != nil || v.String() != c.want {
			t.Errorf("%s: %v, %v; want %s", c.typed, v, err, c.want)
		}
	}
	for _, c := range []struct{ typed, want string }{
		{"79 g/m", "79 g/m"}, {"0.0935kg/m", "93.5 g/m"}, {"39.1 kg/100m", "391 g/m"}, {"79ktex", "79 g/m"},
		{"6.96 lb/100ft", "103.57621 g/m"}, // 6.96 × 14.881639435695 g/m
	} {
		if v, err := ParseLinear(c.typed); err != nil || v.String() != c.want {
			t.Errorf("%s: %v, %v; want %s", c.typed, v, err, c.want)
		}
	}
	for _, c := range []struct{ typed, want string }{{"20deg", "20°"}, {"41.5°", "41.5°"}, {"-7 degrees", "-7°"}, {"0deg", "0°"}} {
		if v, err := ParseAngle(c.typed); err != nil || v.String() != c.want {
			t.Errorf("%s: %v, %v; want %s", c.typed, v, err, c.want)
		}
	}
	for _, c := range []struct {
		typed string
		want  float64
	}{{"0.15", 0.15}, {"1/4", 0.25}, {"-3", -3}, {"1,77", 1.77}} {
		if v, err := ParseNumber(c.typed); err != nil || v != c.want {
			t.Errorf("%s: %v, %v; want %v", c.typed, v, err, c.want)
		}
	}
}

// TestBenchUnitsRefused: what is no such quantity gets a sentence.
func TestBenchUnitsRefused(t *testing.T) {
	pull := func(s string) error { _, err := ParsePull(s); return err }
	linear := func(s string) error { _, err := ParseLinear(s); return err }
	angle := func(s string) error { _, err := ParseAngle(s); return err }
	number := func(s string) error { _, err := ParseNumber(s); return err }
	for _, c := range []struct {
		read  func(string) error
		typed string
		says  string
	}{
		{pull, "5", "“5” has no unit — write a force with its unit (N, kN, kgf, lbf), such as “1.2 kN”"},
		{pull, "-5N", "“-5N” is negative, which a force cannot be — write a force with its unit (N, kN, kgf, lbf), such as “1.2 kN”"},
		{pull, "NaN", "“NaN” does not begin with a number — write a force with its unit (N, kN, kgf, lbf), such as “1.2 kN”"},
		{pull, "999999999999kN", "“999999999999kN” is too large — write a force with its unit (N, kN, kgf, lbf), such as “1.2 kN”"},
		{linear, "79 g", "“79 g” has a unit that is not taken here: “g” — write a mass per length with its unit (g/m, kg/m, kg/100m, lb/100ft, ktex), such as “79 g/m”"},
		{angle, "361deg", "“361deg” is more than a whole turn — write an angle with its unit (deg), such as “20deg”"},
		{angle, "0.3rad", "“0.3rad” has a unit that is not taken here: “rad” — write an angle with its unit (deg), such as “20deg”"},
		{number, "0.15 N", "“0.15 N” has a unit where a plain number is wanted: “N” — write a plain number, such as “0.15”"},
		{number, "inf", "“inf” does not begin with a number — write a plain number, such as “0.15”"},
		{number, "", "“” does not begin with a number — write a plain number, such as “0.15”"},
	} {
		if err := c.read(c.typed); err == nil || err.Error() != c.says {
			t.Errorf("%q: %v, want %s", c.typed, err, c.says)
		}
	}
}
