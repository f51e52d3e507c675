// Package rope holds the mechanics of the bench: what load does to a bridge, what
// a slip or fall comes to, how bends and ends weaken, how stiff a rope is, what its
// section and mass say, how warm a part gets. All of it is in SI units: metres,
// newtons, kilograms, kelvins, angles in radians. It knows no piece and no table:
// figures from publications come in from outside.
//
// Every function refuses what cannot be (a bridge shorter than its points are
// apart, a negative length, what is no number) with an *Error that says which
// value, what is wrong with it and how to mend it.
//
// The formulas and their sources stand beside each function. Those without a
// source were derived for this project; the tests hold each to another method.
package rope

import "math"

// Gravity is the standard acceleration of free fall in m/s² (CGPM 1901, exact).
const Gravity = 9.80665

// Error says what is wrong with a value that came in.
type Error struct {
	Field string // which value, in plain words
	What  string // what is wrong with it
	Mend  string // how to mend it
}

func (e *Error) Error() string { return e.Field + " " + e.What + ": " + e.Mend }

func bad(field, what, mend string) error { return &Error{field, what, mend} }

// Bounds on what the bench takes: far beyond what any climber's kit or bench has,
// so that a slip of the unit is found and nothing overflows.
const (
	mostLength = 1000   // m
	mostForce  = 1e6    // N
	mostMass   = 10_000 // kg
	mostEA     = 1e9    // N
)

// within refuses what is no number, not above least or above most. unit is said
// after the numbers.
func within(field string, v, least, most float64, mend string) error {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return bad(field, "is no number", mend)
	case v <= least && least == 0:
		return bad(field, "must be more than nought", mend)
	case v < least:
		return bad(field, "is too small", mend)
	case v > most:
		return bad(field, "is larger than anything the bench takes", mend)
	}
	return nil
}

// first gives the first error there is.
func first(errs ...error) error {
	for _, e := range errs {
		if e != nil {
			return e
		}
	}
	return nil
}

func length(field string, v float64) error {
	return within(field, v, 0, mostLength, "give a length with its unit, such as “58 cm”")
}

func load(field string, v float64) error {
	return within(field, v, 0, mostForce, "give a force with its unit, such as “1.2 kN”")
}

func mass(field string, v float64) error {
	return within(field, v, 0, mostMass, "give a mass with its unit, such as “92 kg”")
}
