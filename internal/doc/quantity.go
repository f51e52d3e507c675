package doc

import (
	"errors"
	"strconv"

	"kernbook/internal/core/qty"
)

// Date reads a date known to the day, the month, the year or not at all: a TOML
// date, a text ("2026-06-01", "2026-06", "2026", "unknown") or a year as a
// whole number. An absent one is unknown.
func (t T) Date(key string, required bool) qty.PartialDate {
	n := t.get(key, required, "a date", "write a date as \"2026-06-01\", \"2026-06\", \"2026\" or \"unknown\"", String, Date, Integer)
	if n == nil {
		return qty.PartialDate{}
	}
	text := n.Text
	if n.Kind == Integer {
		text = strconv.FormatInt(n.Int, 10)
	}
	v, err := qty.ParseDate(text)
	t.refused(n, join(t.path, key), err)
	return v
}

// Length reads a length typed with its unit, such as "11.2mm".
func (t T) Length(key string, required bool) qty.Length {
	return quantity(t, key, required, "a length", "11.2 mm", qty.ParseLength)
}

// Lengths reads a list of lengths typed with their units; what is no length is
// a fault and left out. Required means at least one.
func (t T) Lengths(key string, required bool) []qty.Length {
	return each(t, key, required, "a length with its unit in quotes", String, func(n *Node) (qty.Length, string, string) {
		v, err := qty.ParseLength(n.Text)
		what, mend := sentence(err)
		return v, what, mend
	})
}

// Mass reads a mass typed with its unit, such as "92kg".
func (t T) Mass(key string, required bool) qty.Mass {
	return quantity(t, key, required, "a mass", "92 kg", qty.ParseMass)
}

// Force reads a force typed with its unit, such as "15kN".
func (t T) Force(key string, required bool) qty.Force {
	return quantity(t, key, required, "a force", "15 kN", qty.ParseForce)
}

// Hours reads a time of use typed with its unit, such as "25h".
func (t T) Hours(key string, required bool) qty.Duration {
	return quantity(t, key, required, "a time of use", "25 h", qty.ParseHours)
}

// Months reads a calendar span typed with its unit, such as "6 months".
func (t T) Months(key string, required bool) qty.Months {
	return quantity(t, key, required, "a span of time", "6 months", qty.ParseMonths)
}

// Temp reads a temperature typed with its unit, such as "60 °C".
func (t T) Temp(key string, required bool) qty.Temp {
	return quantity(t, key, required, "a temperature", "60 °C", qty.ParseTemp)
}

// Share reads a part of a whole: "12%", "0.12", or a number between 0 and 1.
func (t T) Share(key string, required bool) qty.Share {
	n := t.get(key, required, "a share", "write \"12%\", or a number between 0 and 1", String, Integer, Float)
	if n == nil {
		return 0
	}
	if n.Kind == String {
		v, err := qty.ParsePercent(n.Text)
		t.refused(n, join(t.path, key), err)
		return v
	}
	if n.Float < 0 || n.Float > 1 {
		t.fault(n, join(t.path, key), n.Text+" is not between 0 and 1", "write \"12%\", or a number between 0 and 1")
		return 0
	}
	return qty.Share(n.Float)
}

// quantity reads a text that holds a number with its unit.
func quantity[V any](t T, key string, required bool, want, example string, parse func(string) (V, error)) V {
	var zero V
	n := t.get(key, required, want+" with its unit", "write the number with its unit in quotes, such as \""+example+"\"", String)
	if n == nil {
		return zero
	}
	v, err := parse(n.Text)
	if err != nil {
		t.refused(n, join(t.path, key), err)
		return zero
	}
	return v
}

func (t T) refused(n *Node, path string, err error) {
	if err != nil {
		what, mend := sentence(err)
		t.fault(n, path, what, mend)
	}
}

// sentence takes a refusal of package qty apart for a Fault.
func sentence(err error) (what, mend string) {
	if err == nil {
		return "", ""
	}
	var e *qty.Error
	if errors.As(err, &e) {
		return "“" + Short(e.Typed) + "” " + e.What, e.Mend
	}
	return err.Error(), ""
}
