package qty

import (
	"strconv"
)

// Day is a day of the proleptic Gregorian calendar, counted in whole days from
// 1970-01-01, which is 0. It knows neither time of day nor zone.
type Day int32

// The first and the last day that NewDay gives and AddMonths can reach.
const (
	FirstDay Day = -719162 // 0001-01-01
	LastDay  Day = 2932896 // 9999-12-31
)

var monthNames = [...]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// NewDay gives the day of a year (1 to 9999), month (1 to 12) and day of the
// month. A day that the calendar does not have, such as 30 February, is an
// *Error.
func NewDay(y, m, d int) (Day, error) {
	typed := strconv.Itoa(y) + "-" + two(m) + "-" + two(d)
	const mend = "write a day as year-month-day, such as “2026-06-01”"
	switch {
	case y < 1 || y > 9999:
		return 0, refuse(typed, "has a year outside 1 to 9999", mend)
	case m < 1 || m > 12:
		return 0, refuse(typed, "has no month 1 to 12", mend)
	case d < 1 || d > daysIn(y, m):
		return 0, refuse(typed, "is not in the calendar: "+monthNames[m-1]+" "+strconv.Itoa(y)+
			" has days 1 to "+strconv.Itoa(daysIn(y, m)), mend)
	}
	return civilDay(int64(y), int64(m), int64(d)), nil
}

// civilDay counts days by years that begin on 1 March, so that the leap day is
// the last of its year, in eras of 400 years (146,097 days).
func civilDay(y, m, d int64) Day {
	if m <= 2 {
		y--
		m += 12
	}
	era := floorDiv(y, 400)
	yoe := y - era*400
	doy := (153*(m-3)+2)/5 + d - 1
	doe := yoe*365 + yoe/4 - yoe/100 + doy
	return Day(era*146097 + doe - 719468)
}

// Date gives year, month (1 to 12) and day of the month.
func (d Day) Date() (year, month, day int) {
	z := int64(d) + 719468
	era := floorDiv(z, 146097)
	doe := z - era*146097
	yoe := (doe - doe/1460 + doe/36524 - doe/146096) / 365
	doy := doe - (365*yoe + yoe/4 - yoe/100)
	mp := (5*doy + 2) / 153
	day = int(doy - (153*mp+2)/5 + 1)
	month = int(mp + 3)
	y := yoe + era*400
	if month > 12 {
		month -= 12
		y++
	}
	return int(y), month, day
}

// Weekday gives Monday = 1 to Sunday = 7, as in ISO 8601. 1970-01-01 was a
// Thursday.
func (d Day) Weekday() int {
	n := (int64(d) + 3) % 7
	if n < 0 {
		n += 7
	}
	return int(n) + 1
}

// AddMonths moves by n calendar months (n may be negative) to the same day
// number, or to the last day of the month reached where it has no such day:
// 31 Aug + 6 months is 28 or 29 Feb; 30 Nov + 3 months likewise; 28 Feb + 6
// months is 28 Aug. The result stays within FirstDay and LastDay. To count
// several periods, add their sum to the first day: month ends are lost
// otherwise.
func (d Day) AddMonths(n int) Day {
	y, m, day := d.Date()
	total := int64(y)*12 + int64(m-1)
	// Anything beyond this is out of the calendar anyway; it keeps the sum in range.
	const far = 1 << 40
	total += min(max(int64(n), -far), far)
	ny := floorDiv(total, 12)
	switch {
	case ny < 1:
		return FirstDay
	case ny > 9999:
		return LastDay
	}
	nm := total - ny*12 + 1
	return civilDay(ny, nm, int64(min(day, daysIn(int(ny), int(nm)))))
}

// String gives the day in ISO 8601: "2026-06-01".
func (d Day) String() string {
	y, m, day := d.Date()
	if y >= 0 && y <= 9999 {
		return string([]byte{digit(y / 1000), digit(y / 100), digit(y / 10), digit(y), '-', digit(m / 10), digit(m), '-', digit(day / 10), digit(day)})
	}
	return four(y) + "-" + two(m) + "-" + two(day)
}

// Words gives the day so that nobody can misread it: "3 Feb 2027".
func (d Day) Words() string {
	y, m, day := d.Date()
	return strconv.Itoa(day) + " " + monthNames[m-1] + " " + strconv.Itoa(y)
}

// Partial gives the day as a date known to the day.
func (d Day) Partial() PartialDate {
	y, m, day := d.Date()
	return PartialDate{Year: y, Month: m, DayOfMonth: day}
}

func daysIn(y, m int) int {
	switch m {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if y%4 == 0 && (y%100 != 0 || y%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// digit gives the last digit of a whole number that is not negative.
func digit(n int) byte { return byte('0' + n%10) }

func two(n int) string {
	if n >= 0 && n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

func four(n int) string {
	s := strconv.Itoa(n)
	for n >= 0 && len(s) < 4 {
		s = "0" + s
	}
	return s
}
