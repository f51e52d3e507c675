package qty

import "strconv"

// PartialDate is a date known to the day, to the month, to the year, or not at
// all. What is not known is 0; the zero value is an unknown date.
type PartialDate struct{ Year, Month, DayOfMonth int }

// The years ParseDate takes; a year outside is a slip of the hand.
const (
	firstYear = 1900
	lastYear  = 2199
)

const dateMend = "write year-month-day “2026-06-01”, year-month “2026-06”, the year “2026”, or “unknown”"

// ParseDate reads "2026-06-01", "2026-06", "2026" or "unknown" (years 1900 to
// 2199). Every other form is an *Error, above all those in which day and month
// could be taken for each other, such as "1/6/2026".
func ParseDate(s string) (PartialDate, error) {
	t := tidy(s)
	if t == "unknown" {
		return PartialDate{}, nil
	}
	var p PartialDate
	ok := false
	switch len(t) {
	case 4:
		p.Year, ok = digits(t)
	case 7:
		if t[4] == '-' {
			var a, b bool
			p.Year, a = digits(t[:4])
			p.Month, b = digits(t[5:])
			ok = a && b
		}
	case 10:
		if t[4] == '-' && t[7] == '-' {
			var a, b, c bool
			p.Year, a = digits(t[:4])
			p.Month, b = digits(t[5:7])
			p.DayOfMonth, c = digits(t[8:])
			ok = a && b && c
		}
	}
	switch {
	case t == "":
		return PartialDate{}, refuse(s, "is no date", dateMend)
	case !ok:
		return PartialDate{}, refuse(s, "is not a date in the form taken here", dateMend)
	case p.Year < firstYear || p.Year > lastYear:
		return PartialDate{}, refuse(s, "has a year outside "+strconv.Itoa(firstYear)+" to "+strconv.Itoa(lastYear), dateMend)
	case len(t) > 4 && (p.Month < 1 || p.Month > 12):
		return PartialDate{}, refuse(s, "has no month 01 to 12", dateMend)
	case len(t) > 7 && (p.DayOfMonth < 1 || p.DayOfMonth > daysIn(p.Year, p.Month)):
		return PartialDate{}, refuse(s, "is not in the calendar: "+monthNames[p.Month-1]+" "+strconv.Itoa(p.Year)+
			" has days 1 to "+strconv.Itoa(daysIn(p.Year, p.Month)), dateMend)
	}
	return p, nil
}

// digits reads a text of digits only.
func digits(s string) (int, bool) {
	n := 0
	for i := 0; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, false
		}
		n = n*10 + int(s[i]-'0')
	}
	return n, s != ""
}

// Known reports whether at least the year is known.
func (p PartialDate) Known() bool { return p.Year != 0 }

// Exact reports whether the date is known to the day.
func (p PartialDate) Exact() bool { return p.Year != 0 && p.Month != 0 && p.DayOfMonth != 0 }

// Earliest gives the earliest day the date can be: 1 Jan for a year, the first
// for a month, FirstDay for an unknown date.
func (p PartialDate) Earliest() Day {
	if !p.Known() {
		return FirstDay
	}
	m, d := 1, 1
	if p.Month != 0 {
		m = p.Month
		if p.DayOfMonth != 0 {
			d = p.DayOfMonth
		}
	}
	return civilDay(int64(p.Year), int64(m), int64(d))
}

// Latest gives the latest day the date can be: 31 Dec for a year, the last of
// the month for a month, LastDay for an unknown date.
func (p PartialDate) Latest() Day {
	if !p.Known() {
		return LastDay
	}
	m, d := 12, 31
	if p.Month != 0 {
		m = p.Month
		d = daysIn(p.Year, m)
		if p.DayOfMonth != 0 {
			d = p.DayOfMonth
		}
	}
	return civilDay(int64(p.Year), int64(m), int64(d))
}

// String gives the form that ParseDate reads.
func (p PartialDate) String() string {
	if !p.Known() {
		return "unknown"
	}
	s := four(p.Year)
	if p.Month != 0 {
		s += "-" + two(p.Month)
		if p.DayOfMonth != 0 {
			s += "-" + two(p.DayOfMonth)
		}
	}
	return s
}

// Words gives "3 Feb 2027", "Feb 2027", "2027" or "unknown".
func (p PartialDate) Words() string {
	switch {
	case p.Exact():
		return p.Earliest().Words()
	case p.Known() && p.Month >= 1 && p.Month <= 12:
		return monthNames[p.Month-1] + " " + strconv.Itoa(p.Year)
	case p.Known():
		return strconv.Itoa(p.Year)
	}
	return "unknown"
}
