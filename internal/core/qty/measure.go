package qty

import "strings"

// unit is a unit as typed: its spellings, and its size mul/div in the smallest
// unit of its quantity.
type unit struct {
	mul, div uint64
	names    []string
}

// measure is a quantity as people type it.
type measure struct {
	article string // "a length"
	taken   string // the units to show in a refusal
	example string
	units   []unit
}

func (m measure) mend() string {
	return "write " + m.article + " with its unit (" + m.taken + "), such as “" + m.example + "”"
}

// read takes a typed text apart: the exact number and its unit.
func (m measure) read(s string) (number, unit, *Error) {
	t := tidy(s)
	num, name := split(t)
	if num == "" {
		return number{}, unit{}, refuse(s, "does not begin with a number", m.mend())
	}
	n, what, mend := parseNumber(num)
	if what != "" {
		return number{}, unit{}, refuse(s, what, mend)
	}
	if name == "" {
		return number{}, unit{}, refuse(s, "has no unit", m.mend())
	}
	for _, u := range m.units {
		for _, known := range u.names {
			if strings.EqualFold(name, known) {
				return n, u, nil
			}
		}
	}
	return number{}, unit{}, refuse(s, "has a unit that is not taken here: “"+name+"”", m.mend())
}

// count reads a quantity that cannot be negative, in its smallest unit, at most
// limit. whole refuses what is no whole number of smallest units.
func (m measure) count(s string, limit int64, whole bool) (int64, error) {
	n, u, e := m.read(s)
	if e != nil {
		return 0, e
	}
	if n.neg && n.num != 0 {
		return 0, refuse(s, "is negative, which "+m.article+" cannot be", m.mend())
	}
	n.neg = false
	v, exact, ok := n.times(u.mul, u.div)
	if !ok || v > limit {
		return 0, refuse(s, "is too large", m.mend())
	}
	if whole && !exact {
		return 0, refuse(s, "is not a whole number of "+m.units[0].names[0], m.mend())
	}
	return v, nil
}
