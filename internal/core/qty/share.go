package qty

import (
	"strconv"
	"strings"
)

// Share is a part of a whole, from 0 to 1.
type Share float64

const shareMend = "write a percentage such as “12%”, or a share between 0 and 1 such as “0.12”"

// ParsePercent reads "12%" or "0.12" as the share 0.12. A number without the
// sign must lie between 0 and 1; 12 without it is refused.
func ParsePercent(s string) (Share, error) {
	num, sign := split(tidy(s))
	if num == "" {
		return 0, refuse(s, "does not begin with a number", shareMend)
	}
	n, what, mend := parseNumber(num)
	switch {
	case what != "":
		return 0, refuse(s, what, mend)
	case sign == "%":
		n.den *= 100
	case sign != "":
		return 0, refuse(s, "has a unit that is not taken here: “"+sign+"”", shareMend)
	}
	if n.num > n.den || n.neg && n.num != 0 {
		return 0, refuse(s, "is not between 0 and 1 (0% and 100%)", shareMend)
	}
	// Both are below 2^53, so the quotient is the nearest float to the typed number.
	return Share(float64(n.num) / float64(n.den)), nil
}

// String gives the share in per cent with at most four decimals: "12.5%". What
// would round to none or to all without being so is "under 0.0001%" or "over
// 99.9999%".
func (s Share) String() string {
	text := strconv.FormatFloat(float64(s), 'f', 6, 64)
	switch {
	case s > 0 && text == "0.000000":
		return "under 0.0001%"
	case s < 1 && text == "1.000000":
		return "over 99.9999%"
	}
	i := strings.IndexByte(text, '.')
	if i < 0 {
		return text // not a number, or infinite
	}
	whole := strings.TrimLeft(text[:i]+text[i+1:i+3], "0")
	if whole == "" {
		whole = "0"
	}
	dec := strings.TrimRight(text[i+3:], "0")
	if dec != "" {
		dec = "." + dec
	}
	return whole + dec + "%"
}
