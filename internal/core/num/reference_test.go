package num

import (
	"math"
	"math/big"
	"testing"
)

// Reference functions in 240-bit arithmetic, by methods other than those of
// the package: exp by Taylor after halving, log by Newton's rule on that exp.

const refBits = 240

func bf(x float64) *big.Float { return new(big.Float).SetPrec(refBits).SetFloat64(x) }
func zero() *big.Float        { return new(big.Float).SetPrec(refBits) }

// bigExp returns e^x for |x| < 2^11.
func bigExp(x *big.Float) *big.Float {
	const halvings = 24
	r := zero().SetMantExp(x, -halvings)
	sum, term := bf(1), bf(1)
	for i := 1; i < 18; i++ { // 2^(-13·18)/18! < 2^-280
		term.Mul(term, r)
		term.Quo(term, bf(float64(i)))
		sum.Add(sum, term)
	}
	for range halvings {
		sum.Mul(sum, sum)
	}
	return sum
}

// bigLog returns log(x) for x > 0. It takes x = m·2^k with m in [1/2, 1), and
// y ← y + 2(m-e^y)/(m+e^y), which triples the correct bits each time.
func bigLog(x *big.Float) *big.Float {
	m := zero()
	k := x.MantExp(m)
	if v, _ := m.Float64(); v < 0.71 { // keep |log m| small where k is 0
		m.SetMantExp(m, 1)
		k--
	}
	v, _ := m.Float64()
	y := bf(math.Log(v))
	for range 3 {
		e := bigExp(y)
		d := zero().Sub(m, e)
		d.Quo(d, zero().Add(m, e))
		y.Add(y, d.SetMantExp(d, 1))
	}
	if k == 0 {
		return y
	}
	return y.Add(y, zero().Mul(bigLn2, bf(float64(k))))
}

// log(2) to 99 places, from memory; TestReferences checks it against bigExp.
var bigLn2 = mustBig("0.693147180559945309417232121458176568075500134360255254120680009493393621969694715605863326996418687")

func mustBig(s string) *big.Float {
	v, ok := zero().SetString(s)
	if !ok {
		panic("not a number: " + s)
	}
	return v
}

// relDiff returns |a-b|/|b| as a float64.
func relDiff(a, b *big.Float) float64 {
	d := zero().Sub(a, b)
	if d.Sign() == 0 {
		return 0
	}
	d.Quo(d, b)
	v, _ := d.Float64()
	return math.Abs(v)
}

// ulps returns |got - want| in units in the last place of a float64 of the
// size of want, or +Inf where got is not finite.
func ulps(got float64, want *big.Float) float64 {
	if math.IsNaN(got) || math.IsInf(got, 0) {
		return math.Inf(1)
	}
	d := zero().Sub(bf(got), want)
	if d.Sign() == 0 {
		return 0
	}
	exp := -1021
	if want.Sign() != 0 {
		exp = max(want.MantExp(nil), exp)
	}
	d.SetMantExp(d, -(exp - 53))
	v, _ := d.Float64()
	return math.Abs(v)
}

// TestReferences holds the reference itself to digits that come from outside:
// e and log(10), from memory (they are in any table of constants), and to the
// rule log(e^x) = x.
func TestReferences(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want *big.Float
	}{
		{"e", bigExp(bf(1)), mustBig("2.71828182845904523536028747135266249775724709369995957496696763")},
		{"e^log 2", bigExp(bigLn2), bf(2)},
		{"log 10", bigLog(bf(10)), mustBig("2.30258509299404568401799145468436420760110148862877297603332790")},
		{"1/e", bigExp(bf(-1)), zero().Quo(bf(1), bigExp(bf(1)))},
	} {
		if d := relDiff(c.got, c.want); d > 1e-58 {
			t.Errorf("%s: relative difference %g", c.name, d)
		}
	}
	for _, x := range []float64{-700.3, -3, -0.7, 0x1p-50, 0.3, 1, 20.5, 709} {
		if d := relDiff(bigLog(bigExp(bf(x))), bf(x)); d > 1e-50 {
			t.Errorf("log(exp(%g)): relative difference %g", x, d)
		}
	}
	if u := ulps(math.Nextafter(1, 2), bf(1)); u != 1 {
		t.Errorf("one step above 1 counts as %g ULP", u)
	}
	if u := ulps(0x1p-1074, zero()); u != 1 {
		t.Errorf("one subnormal step above 0 counts as %g ULP", u)
	}
}

// TestTables computes every constant of the tables again.
func TestTables(t *testing.T) {
	check := func(name string, row twoPart, want *big.Float) {
		t.Helper()
		hi, _ := want.Float64()
		lo, _ := zero().Sub(want, bf(hi)).Float64()
		if row.hi != hi || row.lo != lo {
			t.Errorf("%s is {%x, %x}, should be {%x, %x}", name, row.hi, row.lo, hi, lo)
		}
	}
	for j, row := range expTable {
		want := bf(1)
		if j > 0 {
			want = bigExp(zero().Quo(zero().Mul(bigLn2, bf(float64(j))), bf(32)))
		}
		check("expTable", row, want)
	}
	for i, row := range logTable {
		want := zero()
		if j := i + logTableFirst; j != 128 {
			want = bigLog(bf(float64(j) / 128))
		}
		check("logTable", row, want)
	}
	step := zero().Quo(bigLn2, bf(32))
	for _, c := range []struct {
		name   string
		hi, lo float64
		want   *big.Float
		bits   uint
	}{
		{"ln2", ln2Hi, ln2Lo, bigLn2, 42},
		{"step", stepHi, stepLo, step, 36},
	} {
		if got := bf(c.hi).MinPrec(); got > c.bits {
			t.Errorf("%s: first part has %d bits, may have %d", c.name, got, c.bits)
		}
		if lo, _ := zero().Sub(c.want, bf(c.hi)).Float64(); c.lo != lo {
			t.Errorf("%s: second part is %x, should be %x", c.name, c.lo, lo)
		}
	}
}
