package qty

import (
	"math/big"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Sizes of units, all from memory: inch 25.4 mm, foot 304.8 mm, pound
// 0.45359237 kg, pound-force 4.4482216152605 N, stone 14 lb, all exact.
func TestParse(t *testing.T) {
	for _, c := range []struct {
		kind, typed string
		want        int64
		prints      string
	}{
		{"length", "58cm", 580_000, "580 mm"},
		{"length", "11.2mm", 11_200, "11.2 mm"},
		{"length", "11,2 mm", 11_200, "11.2 mm"},
		{"length", " 11.2 MM ", 11_200, "11.2 mm"},
		{"length", "11.2\u00a0mm", 11_200, "11.2 mm"},
		{"length", "1/2in", 12_700, "12.7 mm"},
		{"length", "1 1/2 in", 38_100, "38.1 mm"},
		{"length", "7/16 in", 11_112, "11.112 mm"}, // 11112.5 µm, half to even
		{"length", "9/16 in", 14_288, "14.288 mm"}, // 14287.5 µm, half to even
		{"length", "3/2 in", 38_100, "38.1 mm"},
		{"length", "45m", 45_000_000, "45 m"},
		{"length", "0.9 m", 900_000, "900 mm"},
		{"length", "2ft", 609_600, "609.6 mm"},
		{"length", "1.234 m", 1_234_000, "1.234 m"},
		{"length", "1050 mm", 1_050_000, "1.05 m"},
		{"length", "1,23456 m", 1_234_560, "1.23456 m"},
		{"length", "0 mm", 0, "0 mm"},
		{"length", "-0 mm", 0, "0 mm"},
		{"length", "0.0004 mm", 0, "0 mm"},
		{"length", "0.0005 mm", 0, "0 mm"},
		{"length", "0.0015 mm", 2, "0.002 mm"},
		{"length", "1.5000000000 mm", 1500, "1.5 mm"},
		{"length", "999999999999 m", 999_999_999_999_000_000, "999999999999 m"},
		{"force", "15kN", 15_000, "15 kN"},
		{"force", "15,5 kn", 15_500, "15.5 kN"},
		{"force", "200N", 200, "200 N"},
		{"force", "540lbf", 2402, "2.402 kN"},     // 2402.04 N
		{"force", "5000 lbf", 22241, "22.241 kN"}, // 22241.108 N
		{"mass", "92kg", 92_000, "92 kg"},
		{"mass", "92,5kg", 92_500, "92.5 kg"},
		{"mass", "150g", 150, "150 g"},
		{"mass", "200lb", 90_718, "90.718 kg"}, // 90718.474 g
		{"mass", "12st", 76_204, "76.204 kg"},  // 76203.518 g
		{"temp", "60C", 600, "60 °C"},
		{"temp", "60 °C", 600, "60 °C"},
		{"temp", "60°c", 600, "60 °C"},
		{"temp", "140F", 600, "60 °C"},
		{"temp", "32 °F", 0, "0 °C"},
		{"temp", "0F", -178, "-17.8 °C"}, // -17.777…
		{"temp", "-40F", -400, "-40 °C"},
		{"temp", "−5,5 °C", -55, "-5.5 °C"},
		{"temp", "-0.04C", 0, "0 °C"},
		{"temp", "-273.15C", -2732, "-273.2 °C"},
		{"hours", "25h", 1500, "25 h"},
		{"hours", "90min", 90, "90 min"},
		{"hours", "1.5h", 90, "90 min"},
		{"hours", "1/3 hour", 20, "20 min"},
		{"hours", "0.33 h", 20, "20 min"}, // 19.8 min
		{"months", "6 months", 6, "6 months"},
		{"months", "6mo", 6, "6 months"},
		{"months", "1 month", 1, "1 month"},
		{"months", "5 years", 60, "5 years"},
		{"months", "5a", 60, "5 years"},
		{"months", "1 year", 12, "1 year"},
		{"months", "1.5 years", 18, "18 months"},
		{"months", "0 months", 0, "0 months"},
	} {
		got, prints, err := parse(c.kind, c.typed)
		if err != nil || got != c.want || prints != c.prints {
			t.Errorf("%s %q = %d (%s), %v; want %d (%s)", c.kind, c.typed, got, prints, err, c.want, c.prints)
		}
	}
}

func parse(kind, typed string) (int64, string, error) {
	switch kind {
	case "length":
		v, err := ParseLength(typed)
		return int64(v), v.String(), err
	case "force":
		v, err := ParseForce(typed)
		return int64(v), v.String(), err
	case "mass":
		v, err := ParseMass(typed)
		return int64(v), v.String(), err
	case "temp":
		v, err := ParseTemp(typed)
		return int64(v), v.String(), err
	case "hours":
		v, err := ParseHours(typed)
		return int64(v), v.String(), err
	}
	v, err := ParseMonths(typed)
	return int64(v), v.String(), err
}

func TestParseRefuses(t *testing.T) {
	const (
		length  = " — write a length with its unit (mm, cm, m, in, ft), such as “11.2 mm”"
		plain   = " — write the number in figures, with at most one decimal point, such as “1234.5”"
		half    = " — write a fraction as “1/2” or “1 1/2”"
		bothSid = " — write “0.5” or “5”"
	)
	for _, c := range []struct{ kind, typed, want string }{
		{"length", "", "“” does not begin with a number" + length},
		{"length", "   ", "“   ” does not begin with a number" + length},
		{"length", "mm", "“mm” does not begin with a number" + length},
		{"length", "long", "“long” does not begin with a number" + length},
		{"length", "+5mm", "“+5mm” does not begin with a number" + length},
		{"length", "58", "“58” has no unit" + length},
		{"length", "5 furlongs", "“5 furlongs” has a unit that is not taken here: “furlongs”" + length},
		{"length", "5ft 3in", "“5ft 3in” has a unit that is not taken here: “ft 3in”" + length},
		{"length", "1e3mm", "“1e3mm” has a unit that is not taken here: “e3mm”" + length},
		{"length", "5kg", "“5kg” has a unit that is not taken here: “kg”" + length},
		{"length", "-5mm", "“-5mm” is negative, which a length cannot be" + length},
		{"length", "1.234,5mm", "“1.234,5mm” has more than one point or comma, and thousands separators are not taken" + plain},
		{"length", "1,234.5 mm", "“1,234.5 mm” has more than one point or comma, and thousands separators are not taken" + plain},
		{"length", "1,234,567 mm", "“1,234,567 mm” has more than one point or comma, and thousands separators are not taken" + plain},
		{"length", "1,234mm", "“1,234mm” could mean thousands or a decimal — write “1.234” or “1234”"},
		{"mass", "1,234kg", "“1,234kg” could mean thousands or a decimal — write “1.234” or “1234”"},
		{"length", "1 234 mm", "“1 234 mm” has a space inside the number" + plain},
		{"length", "1'234 mm", "“1'234 mm” has a thousands separator" + plain},
		{"length", "1_234 mm", "“1_234 mm” has a thousands separator" + plain},
		{"length", "5-6 mm", "“5-6 mm” has a dash inside the number" + plain},
		{"length", "--5 mm", "“--5 mm” has a dash inside the number" + plain},
		{"length", "- mm", "“- mm” has no number" + plain},
		{"length", ".5mm", "“.5mm” has a decimal mark without a figure on both sides" + bothSid},
		{"length", "5.mm", "“5.mm” has a decimal mark without a figure on both sides" + bothSid},
		{"length", "1/0in", "“1/0in” is divided by nought — write a fraction as “1/2” or “1 1/2”"},
		{"length", "1/2/3in", "“1/2/3in” is not a fraction that can be read" + half},
		{"length", "1.5/2in", "“1.5/2in” is not a fraction that can be read" + half},
		{"length", "1 / 2in", "“1 / 2in” is not a fraction that can be read" + half},
		{"length", "/in", "“/in” is not a fraction that can be read" + half},
		{"length", "1/2 1/2in", "“1/2 1/2in” is not a fraction that can be read" + half},
		{"length", "1 3/2in", "“1 3/2in” is not a fraction that can be read" + half},
		{"length", "1/12345in", "“1/12345in” is not a fraction that can be read" + half},
		{"length", "1000000000000m", "“1000000000000m” is too large — write a number of at most 12 figures before the decimal point"},
		{"length", "1.0000001m", "“1.0000001m” has too many decimals — write at most 6 figures after the decimal point"},
		{"force", "15", "“15” has no unit — write a force with its unit (N, kN, lbf), such as “15 kN”"},
		{"force", "15kg", "“15kg” has a unit that is not taken here: “kg” — write a force with its unit (N, kN, lbf), such as “15 kN”"},
		{"mass", "-1kg", "“-1kg” is negative, which a mass cannot be — write a mass with its unit (g, kg, lb, st), such as “92 kg”"},
		{"temp", "60", "“60” has no unit — write a temperature with its unit (°C, °F), such as “60 °C”"},
		{"temp", "-300C", "“-300C” is colder than anything can be — write a temperature with its unit (°C, °F), such as “60 °C”"},
		{"temp", "-460F", "“-460F” is colder than anything can be — write a temperature with its unit (°C, °F), such as “60 °C”"},
		{"temp", "999999999999C", "“999999999999C” is too large — write a temperature with its unit (°C, °F), such as “60 °C”"},
		{"hours", "25", "“25” has no unit — write a time of use with its unit (h, min), such as “25 h”"},
		{"hours", "-1h", "“-1h” is negative, which a time of use cannot be — write a time of use with its unit (h, min), such as “25 h”"},
		{"months", "6m", "“6m” has a unit that is not taken here: “m” — write a span of time with its unit (months, years), such as “6 months”"},
		{"months", "1.5 months", "“1.5 months” is not a whole number of months — write a span of time with its unit (months, years), such as “6 months”"},
		{"months", "999999999 years", "“999999999 years” is too large — write a span of time with its unit (months, years), such as “6 months”"},
	} {
		if v, _, err := parse(c.kind, c.typed); err == nil || err.Error() != c.want || v != 0 {
			t.Errorf("%s %q = %d, %v\nwant %s", c.kind, c.typed, v, err, c.want)
		}
	}
}

func TestRefusalIsShort(t *testing.T) {
	_, err := ParseLength(strings.Repeat("x", 1000))
	if err == nil || len(err.Error()) > 300 {
		t.Errorf("%v", err)
	}
}

func TestPercent(t *testing.T) {
	for _, c := range []struct {
		typed  string
		want   Share
		prints string
	}{
		{"12%", 0.12, "12%"}, {"0.12", 0.12, "12%"}, {"0,12", 0.12, "12%"}, {"12,5 %", 0.125, "12.5%"},
		{"0%", 0, "0%"}, {"100%", 1, "100%"}, {"1", 1, "100%"}, {"0", 0, "0%"}, {"1/4", 0.25, "25%"},
		{"0.01%", 0.0001, "0.01%"}, {"0.000001%", 0.00000001, "under 0.0001%"}, {"99.99999%", 0.9999999, "over 99.9999%"},
	} {
		got, err := ParsePercent(c.typed)
		if err != nil || got != c.want || got.String() != c.prints {
			t.Errorf("%q = %v (%s), %v; want %v (%s)", c.typed, float64(got), got, err, float64(c.want), c.prints)
		}
	}
	const mend = " — write a percentage such as “12%”, or a share between 0 and 1 such as “0.12”"
	for typed, want := range map[string]string{
		"12":     "“12” is not between 0 and 1 (0% and 100%)" + mend,
		"101%":   "“101%” is not between 0 and 1 (0% and 100%)" + mend,
		"-1%":    "“-1%” is not between 0 and 1 (0% and 100%)" + mend,
		"":       "“” does not begin with a number" + mend,
		"%":      "“%” does not begin with a number" + mend,
		"half":   "“half” does not begin with a number" + mend,
		"12kg":   "“12kg” has a unit that is not taken here: “kg”" + mend,
		"0,125":  "“0,125” could mean thousands or a decimal — write “0.125”",
		"1.2.3%": "“1.2.3%” has more than one point or comma, and thousands separators are not taken — write the number in figures, with at most one decimal point, such as “1234.5”",
	} {
		if v, err := ParsePercent(typed); err == nil || err.Error() != want || v != 0 {
			t.Errorf("%q = %v, %v\nwant %s", typed, v, err, want)
		}
	}
}

func TestFloatViews(t *testing.T) {
	if Length(11_250).Millimetres() != 11.25 || (45*Metre).Metres() != 45 ||
		(92*Kilogram+500).Kilograms() != 92.5 || (90*Minute).Hours() != 1.5 || (60*DegreeC).Celsius() != 60 {
		t.Error("a view in floats is off")
	}
}

// What is printed parses back to the same value, up to the 12 figures before the
// decimal point that a parser takes.
func TestPrintParsesBack(t *testing.T) {
	for kind, most := range map[string]int64{"length": 1e17, "force": 1e14, "mass": 1e14, "temp": 1 << 30, "hours": 1e11, "months": 1 << 30} {
		t.Run(kind, rapid.MakeCheck(func(t *rapid.T) {
			v := rapid.Int64Range(0, rapid.SampledFrom([]int64{10, 1e4, 1e7, most}).Draw(t, "scale")).Draw(t, "v")
			s := map[string]string{"length": Length(v).String(), "force": Force(v).String(), "mass": Mass(v).String(),
				"temp": Temp(v).String(), "hours": Duration(v).String(), "months": Months(v).String()}[kind]
			back, again, err := parse(kind, s)
			if err != nil || back != v || again != s {
				t.Fatalf("%d prints as %q, which is %d (%v)", v, s, back, err)
			}
		}))
	}
	t.Run("cold", rapid.MakeCheck(func(t *rapid.T) {
		v := Temp(rapid.Int32Range(absoluteZero, 0).Draw(t, "v"))
		if back, err := ParseTemp(v.String()); err != nil || back != v {
			t.Fatalf("%d prints as %q, which is %d (%v)", v, v, back, err)
		}
	}))
	t.Run("share", rapid.MakeCheck(func(t *rapid.T) {
		v := Share(float64(rapid.IntRange(0, 1_000_000).Draw(t, "v")) / 1e6)
		if back, err := ParsePercent(v.String()); err != nil || back != v {
			t.Fatalf("%v prints as %q, which is %v (%v)", float64(v), v, float64(back), err)
		}
	}))
}

// Lengths against exact rational arithmetic.
func TestLengthAgainstRationals(t *testing.T) {
	sizes := map[string]string{"mm": "1000", "cm": "10000", "m": "1000000", "in": "25400", "ft": "304800"}
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]string{"mm", "cm", "m", "in", "ft"}).Draw(t, "unit")
		num := rapid.StringMatching(`(0|[1-9][0-9]{0,8})(\.[0-9]{1,6})?|(0|[1-9][0-9]{0,3})/[1-9][0-9]{0,3}`).Draw(t, "num")
		exact, _ := new(big.Rat).SetString(num)
		size, _ := new(big.Rat).SetString(sizes[unit])
		exact.Mul(exact, size)
		got, err := ParseLength(num + unit)
		if err != nil {
			t.Fatal(err)
		}
		if want := halfEven(exact); got != Length(want) {
			t.Fatalf("%s%s = %d, want %d", num, unit, got, want)
		}
	})
}

func halfEven(r *big.Rat) int64 {
	q, rem := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	twice := new(big.Int).Lsh(rem, 1)
	if c := twice.Cmp(r.Denom()); c > 0 || c == 0 && q.Bit(0) == 1 {
		q.Add(q, big.NewInt(1))
	}
	return q.Int64()
}

func FuzzParseLength(f *testing.F) {
	for _, s := range []string{"58cm", "11.2mm", "11,2 mm", "1/2in", "1 1/2 in", "45m", "2ft", "1,234mm", "-5mm", "", "1/0in", "999999999999m", "−1mm"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		v, err := ParseLength(s)
		if err != nil {
			if v != 0 {
				t.Fatalf("%q: refused, yet %d", s, v)
			}
			return
		}
		if v < 0 {
			t.Fatalf("%q is negative: %d", s, v)
		}
		if digits := strings.Count(strconv.FormatInt(int64(v), 10), "") - 1; digits > 18 {
			t.Fatalf("%q: %d is larger than any number taken", s, v)
		}
		if back, err := ParseLength(v.String()); err != nil || back != v {
			t.Fatalf("%q prints as %q, which is %d (%v)", s, v, back, err)
		}
	})
}
