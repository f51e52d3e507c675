// Package measure makes sense of readings along a rope: what has changed since the
// first record, at which place, how surely, and what the gauge in this hand could
// have found at all. It knows no piece and no table: stations, readings and
// standard deviations come in, in one unit throughout (millimetres, by custom).
//
// A scan flags places for the eye. It is not what enters a decision: the worst of
// sixty stations is biased, so there each station speaks for its own place.
//
// Chance enters nowhere: where a null distribution has to be simulated, the stream
// of numbers is fixed, so that the same readings always give the same answer.
package measure

import "math"

// Error says what is wrong with readings that came in.
type Error struct {
	Field string // which of them, in plain words
	What  string // what is wrong
	Mend  string // how to mend it
}

func (e *Error) Error() string { return e.Field + " " + e.What + ": " + e.Mend }

func bad(field, what, mend string) error { return &Error{field, what, mend} }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
