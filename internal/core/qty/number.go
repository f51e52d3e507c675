package qty

import (
	"math"
	"math/bits"
	"strconv"
	"strings"
)

// number is a typed number as an exact fraction. num < 10^18; den is a power of
// ten up to 10^6 or a typed denominator up to 9999.
type number struct {
	neg      bool
	num, den uint64
}

const (
	maxWhole    = 12 // digits before the decimal mark
	maxDecimals = 6  // digits after it, trailing noughts not counted
	maxFraction = 4  // digits above and below a fraction's stroke
)

// tidy makes the spaces people type into plain ones and trims them.
func tidy(s string) string {
	s = strings.Map(func(r rune) rune {
		switch r {
		case '\u00a0', '\u2009', '\u202f', '\t':
			return ' '
		}
		return r
	}, s)
	return strings.Trim(s, " ")
}

// split cuts a tidied text where the number ends and its unit begins.
func split(t string) (num, unit string) {
	end := len(t)
	for i, r := range t {
		if !strings.ContainsRune("0123456789.,/ -−'’_", r) {
			end = i
			break
		}
	}
	return strings.TrimRight(t[:end], " "), t[end:]
}

// parseNumber reads a whole number, a decimal ("11.2", "11,2"), a fraction
// ("1/2") or a mixed one ("1 1/2"). what is empty when it could; else it is the
// end of a sentence that begins with the typed text, and mend says how to write
// it.
func parseNumber(t string) (n number, what, mend string) {
	if rest, ok := strings.CutPrefix(t, "-"); ok {
		n.neg, t = true, rest
	} else if rest, ok := strings.CutPrefix(t, "−"); ok {
		n.neg, t = true, rest
	}
	const plain = "write the number in figures, with at most one decimal point, such as “1234.5”"
	switch {
	case t == "":
		return n, "has no number", plain
	case strings.ContainsAny(t, "'’_"):
		return n, "has a thousands separator", plain
	case strings.ContainsAny(t, "-−"):
		return n, "has a dash inside the number", plain
	case strings.Contains(t, "/"):
		return fraction(n, t)
	case strings.Contains(t, " "):
		return n, "has a space inside the number", plain
	case strings.Count(t, ".")+strings.Count(t, ",") > 1:
		return n, "has more than one point or comma, and thousands separators are not taken", plain
	}
	whole, dec := t, ""
	if i := strings.IndexAny(t, ".,"); i >= 0 {
		whole, dec = t[:i], t[i+1:]
		switch {
		case whole == "" || dec == "":
			return n, "has a decimal mark without a figure on both sides", "write “0.5” or “5”"
		case t[i] == ',' && len(dec) == 3:
			mend = "write “" + whole + "." + dec + "”"
			if strings.Trim(whole, "0") != "" {
				mend += " or “" + whole + dec + "”"
			}
			return n, "could mean thousands or a decimal", mend
		}
	}
	whole, dec = strings.TrimLeft(whole, "0"), strings.TrimRight(dec, "0")
	if len(whole) > maxWhole {
		return n, "is too large", "write a number of at most " + strconv.Itoa(maxWhole) + " figures before the decimal point"
	}
	if len(dec) > maxDecimals {
		return n, "has too many decimals", "write at most " + strconv.Itoa(maxDecimals) + " figures after the decimal point"
	}
	n.den = 1
	for i := 0; i < len(whole); i++ {
		n.num = n.num*10 + uint64(whole[i]-'0')
	}
	for i := 0; i < len(dec); i++ {
		n.num = n.num*10 + uint64(dec[i]-'0')
		n.den *= 10
	}
	return n, "", ""
}

// fraction reads "1/2" and "1 1/2".
func fraction(n number, t string) (number, string, string) {
	const mend = "write a fraction as “1/2” or “1 1/2”"
	parts := strings.Fields(t)
	top, bottom, _ := strings.Cut(parts[len(parts)-1], "/")
	over, okOver := digits(top)
	under, okUnder := digits(bottom)
	if len(parts) > 2 || !okOver || !okUnder || len(top) > maxFraction || len(bottom) > maxFraction {
		return n, "is not a fraction that can be read", mend
	}
	if under == 0 {
		return n, "is divided by nought", mend
	}
	n.num, n.den = uint64(over), uint64(under)
	if len(parts) == 2 {
		whole, ok := digits(parts[0])
		if !ok || len(parts[0]) > maxWhole || over >= under {
			return n, "is not a fraction that can be read", mend
		}
		n.num += uint64(whole) * n.den
	}
	return n, "", ""
}

// times gives n × mul/div rounded half to even, and whether that is exact. ok
// is false when it does not fit. div is at most 2·10^12.
func (n number) times(mul, div uint64) (v int64, exact, ok bool) {
	d := n.den * div
	hi, lo := bits.Mul64(n.num, mul)
	if hi >= d {
		return 0, false, false
	}
	q, r := bits.Div64(hi, lo, d)
	if 2*r > d || 2*r == d && q%2 == 1 {
		q++
	}
	if q > math.MaxInt64 {
		return 0, false, false
	}
	v = int64(q)
	if n.neg {
		v = -v
	}
	return v, r == 0, true
}

// decimal prints v × 10^-places exactly, without trailing noughts.
func decimal(v int64, places int) string {
	mag := uint64(v)
	sign := ""
	if v < 0 {
		mag, sign = -mag, "-"
	}
	s := strconv.FormatUint(mag, 10)
	for len(s) <= places {
		s = "0" + s
	}
	whole, dec := s[:len(s)-places], strings.TrimRight(s[len(s)-places:], "0")
	if dec != "" {
		dec = "." + dec
	}
	return sign + whole + dec
}
