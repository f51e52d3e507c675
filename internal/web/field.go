package web

import (
	"slices"
	"strings"
)

// field is one line of a form as its template takes it.
type field struct {
	F           *form
	Name, Label string
	Hint        string
	Empty       string // what choosing nothing means, where it is not "not said"
	Options     []option
}

// option is one of a choice.
type option struct{ ID, Words string }

func makeField(f *form, name, label string, hint ...string) field {
	x := field{F: f, Name: name, Label: label}
	if len(hint) > 0 {
		x.Hint = hint[0]
	}
	return x
}

func makeChoice(f *form, name, label string, options []option, empty ...string) field {
	x := field{F: f, Name: name, Label: label, Options: options}
	if len(empty) > 0 {
		x.Empty = empty[0]
	}
	if f.Fix != nil { // what is on record can be chosen, also where it would not be today
		for _, v := range f.v[name] {
			if v != "" && !slices.ContainsFunc(options, func(o option) bool { return o.ID == v }) {
				x.Options = append(slices.Clone(x.Options), option{v, v})
			}
		}
	}
	return x
}

// Value gives what stands in the field.
func (x field) Value() string { return x.F.V(x.Name) }

// Fault gives what is wrong with it.
func (x field) Fault() string { return x.F.Fault(x.Name) }

// About names what describes the field, for a screen reader.
func (x field) About() string {
	var out []string
	if x.Hint != "" {
		out = append(out, x.Name+"-hint")
	}
	if x.Fault() != "" {
		out = append(out, x.Name+"-fault")
	}
	return strings.Join(out, " ")
}
