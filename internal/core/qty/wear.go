package qty

import "math"

// Duration is a time of use in whole minutes.
type Duration int64

// Durations to multiply by.
const (
	Minute Duration = 1
	Hour   Duration = 60
)

// Months is a span of the calendar in whole months.
type Months int32

// Spans to multiply by.
const (
	Month Months = 1
	Year  Months = 12
)

var (
	durations = measure{"a time of use", "h, min", "25 h", []unit{
		{1, 1, []string{"min", "minute", "minutes"}},
		{60, 1, []string{"h", "hr", "hrs", "hour", "hours"}},
	}}
	spans = measure{"a span of time", "months, years", "6 months", []unit{
		{1, 1, []string{"months", "month", "mo"}},
		{12, 1, []string{"years", "year", "yr", "yrs", "y", "a"}},
	}}
)

// ParseHours reads a time of use typed with h or min, rounded half to even to
// the minute. Negative times are refused.
func ParseHours(s string) (Duration, error) {
	v, err := durations.count(s, math.MaxInt64, false)
	return Duration(v), err
}

// ParseMonths reads a calendar span typed with months (mo) or years (a). What
// is no whole number of months is refused, and so is a negative span.
func ParseMonths(s string) (Months, error) {
	v, err := spans.count(s, math.MaxInt32, true)
	return Months(v), err
}

// String gives whole hours as "25 h", anything else as "90 min".
func (d Duration) String() string {
	if d%Hour == 0 {
		return decimal(int64(d/Hour), 0) + " h"
	}
	return decimal(int64(d), 0) + " min"
}

// Hours gives the time of use in hours.
func (d Duration) Hours() float64 { return float64(d) / 60 }

// String gives whole years as "5 years", anything else as "6 months".
func (m Months) String() string {
	n, word := int64(m), "month"
	if m != 0 && m%Year == 0 {
		n, word = n/12, "year"
	}
	if n != 1 {
		word += "s"
	}
	return decimal(n, 0) + " " + word
}
