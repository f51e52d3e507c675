package qty

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func day(t *testing.T, iso string) Day {
	t.Helper()
	p, err := ParseDate(iso)
	if err != nil || !p.Exact() {
		t.Fatalf("%s: %v", iso, err)
	}
	return p.Earliest()
}

// Every day of the calendar against the standard library.
func TestDayAgainstTimePackage(t *testing.T) {
	at := time.Date(1, 1, 1, 0, 0, 0, 0, time.UTC)
	n := 0
	for d := FirstDay; d <= LastDay; d++ {
		y, m, dom := d.Date()
		ty, tm, td := at.Date()
		if y != ty || m != int(tm) || dom != td {
			t.Fatalf("day %d is %d-%d-%d, time says %v", d, y, m, dom, at)
		}
		if want := (int(at.Weekday())+6)%7 + 1; d.Weekday() != want {
			t.Fatalf("%v: weekday %d, want %d", d, d.Weekday(), want)
		}
		back, err := NewDay(y, m, dom)
		if err != nil || back != d {
			t.Fatalf("NewDay(%d,%d,%d) = %d, %v, want %d", y, m, dom, back, err, d)
		}
		at = at.AddDate(0, 0, 1)
		n++
	}
	if at.Year() != 10000 || n != 3652059 {
		t.Fatalf("walked %d days, to %v", n, at)
	}
}

func TestDayText(t *testing.T) {
	for _, c := range []struct {
		d          Day
		iso, words string
		weekday    int
	}{
		{0, "1970-01-01", "1 Jan 1970", 4},
		{-1, "1969-12-31", "31 Dec 1969", 3},
		{FirstDay, "0001-01-01", "1 Jan 1", 1},
		{LastDay, "9999-12-31", "31 Dec 9999", 5},
		{day(t, "2027-02-03"), "2027-02-03", "3 Feb 2027", 3},
		{day(t, "2000-02-29"), "2000-02-29", "29 Feb 2000", 2},
	} {
		if c.d.String() != c.iso || c.d.Words() != c.words || c.d.Weekday() != c.weekday {
			t.Errorf("%d: %s, %s, %d; want %s, %s, %d", c.d, c.d, c.d.Words(), c.d.Weekday(), c.iso, c.words, c.weekday)
		}
	}
}

func TestNewDayRefuses(t *testing.T) {
	for _, c := range []struct {
		y, m, d int
		want    string
	}{
		{2026, 2, 29, "“2026-02-29” is not in the calendar: Feb 2026 has days 1 to 28 — write a day as year-month-day, such as “2026-06-01”"},
		{1900, 2, 29, "“1900-02-29” is not in the calendar: Feb 1900 has days 1 to 28 — write a day as year-month-day, such as “2026-06-01”"},
		{2026, 4, 31, "“2026-04-31” is not in the calendar: Apr 2026 has days 1 to 30 — write a day as year-month-day, such as “2026-06-01”"},
		{2026, 13, 1, "“2026-13-01” has no month 1 to 12 — write a day as year-month-day, such as “2026-06-01”"},
		{2026, 6, 0, "“2026-06-00” is not in the calendar: Jun 2026 has days 1 to 30 — write a day as year-month-day, such as “2026-06-01”"},
		{0, 6, 1, "“0-06-01” has a year outside 1 to 9999 — write a day as year-month-day, such as “2026-06-01”"},
		{10000, 6, 1, "“10000-06-01” has a year outside 1 to 9999 — write a day as year-month-day, such as “2026-06-01”"},
		{2026, -1, 1, "“2026--1-01” has no month 1 to 12 — write a day as year-month-day, such as “2026-06-01”"},
	} {
		if _, err := NewDay(c.y, c.m, c.d); err == nil || err.Error() != c.want {
			t.Errorf("NewDay(%d,%d,%d): %v\nwant %s", c.y, c.m, c.d, err, c.want)
		}
	}
}

func TestAddMonths(t *testing.T) {
	for _, c := range []struct {
		from string
		n    int
		want string
	}{
		{"2026-08-31", 6, "2027-02-28"},
		{"2027-08-31", 6, "2028-02-29"}, // leap year
		{"2026-11-30", 3, "2027-02-28"},
		{"2027-11-30", 3, "2028-02-29"},
		{"2026-02-28", 6, "2026-08-28"}, // the same day number, not the last of August
		{"2024-02-29", 12, "2025-02-28"},
		{"2024-02-29", 48, "2028-02-29"},
		{"2096-02-29", 48, "2100-02-28"}, // 2100 is no leap year
		{"2026-03-31", 1, "2026-04-30"},
		{"2026-12-31", 1, "2027-01-31"},
		{"2026-12-31", 2, "2027-02-28"},
		{"2026-01-15", -1, "2025-12-15"},
		{"2026-03-31", -1, "2026-02-28"},
		{"2026-06-01", 0, "2026-06-01"},
		{"2026-06-01", -12, "2025-06-01"},
		{"2026-06-01", 7, "2027-01-01"},
	} {
		if got := day(t, c.from).AddMonths(c.n).String(); got != c.want {
			t.Errorf("%s + %d months = %s, want %s", c.from, c.n, got, c.want)
		}
	}
	for _, c := range []struct {
		from Day
		n    int
		want Day
	}{
		{0, math.MaxInt, LastDay}, {0, math.MinInt, FirstDay}, {LastDay, 1, LastDay},
		{FirstDay, -1, FirstDay}, {math.MaxInt32, 0, LastDay}, {math.MinInt32, 0, FirstDay},
	} {
		if got := c.from.AddMonths(c.n); got != c.want {
			t.Errorf("%d + %d months = %d, want %d", c.from, c.n, got, c.want)
		}
	}
}

// AddMonths keeps the day number or stops at the month's last day, as the time
// package shows by its own way of overflowing.
func TestAddMonthsRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Day(rapid.Int32Range(-40000, 90000).Draw(t, "day"))
		n := rapid.IntRange(-600, 600).Draw(t, "n")
		y, m, dom := d.Date()
		want := time.Date(y, time.Month(m+n), dom, 0, 0, 0, 0, time.UTC)
		if want.Day() != dom { // ran over into the next month: its day 0 is the last of the one meant
			want = time.Date(want.Year(), want.Month(), 0, 0, 0, 0, 0, time.UTC)
		}
		if got := d.AddMonths(n).String(); got != want.Format("2006-01-02") {
			t.Fatalf("%v + %d = %s, want %v", d, n, got, want)
		}
	})
}

func TestPartialDate(t *testing.T) {
	for _, c := range []struct {
		typed, prints, words string
		known, exact         bool
		earliest, latest     string
	}{
		{"2026-06-01", "2026-06-01", "1 Jun 2026", true, true, "2026-06-01", "2026-06-01"},
		{"2026-06", "2026-06", "Jun 2026", true, false, "2026-06-01", "2026-06-30"},
		{"2028-02", "2028-02", "Feb 2028", true, false, "2028-02-01", "2028-02-29"},
		{"2026", "2026", "2026", true, false, "2026-01-01", "2026-12-31"},
		{" 2026 ", "2026", "2026", true, false, "2026-01-01", "2026-12-31"},
		{"unknown", "unknown", "unknown", false, false, "0001-01-01", "9999-12-31"},
	} {
		p, err := ParseDate(c.typed)
		if err != nil {
			t.Errorf("%q: %v", c.typed, err)
			continue
		}
		if p.String() != c.prints || p.Words() != c.words || p.Known() != c.known || p.Exact() != c.exact ||
			p.Earliest().String() != c.earliest || p.Latest().String() != c.latest {
			t.Errorf("%q: %s, %s, %v, %v, %v, %v", c.typed, p, p.Words(), p.Known(), p.Exact(), p.Earliest(), p.Latest())
		}
	}
}

func TestParseDateRefuses(t *testing.T) {
	const mend = " — write year-month-day “2026-06-01”, year-month “2026-06”, the year “2026”, or “unknown”"
	for typed, what := range map[string]string{
		"":           "is no date",
		"1/6/2026":   "is not a date in the form taken here",
		"01.06.2026": "is not a date in the form taken here",
		"2026/06/01": "is not a date in the form taken here",
		"01-06-2026": "is not a date in the form taken here",
		"2026-6-1":   "is not a date in the form taken here",
		"20260601":   "is not a date in the form taken here",
		"26":         "is not a date in the form taken here",
		"1 Jun 2026": "is not a date in the form taken here",
		"2026-06-0１": "is not a date in the form taken here",
		"+202":       "is not a date in the form taken here",
		"2026-13":    "has no month 01 to 12",
		"2026-00":    "has no month 01 to 12",
		"2026-00-10": "has no month 01 to 12",
		"2026-06-31": "is not in the calendar: Jun 2026 has days 1 to 30",
		"2026-02-29": "is not in the calendar: Feb 2026 has days 1 to 28",
		"2026-06-00": "is not in the calendar: Jun 2026 has days 1 to 30",
		"0206-06-01": "has a year outside 1900 to 2199",
		"2200":       "has a year outside 1900 to 2199",
	} {
		p, err := ParseDate(typed)
		if want := "“" + typed + "” " + what + mend; err == nil || err.Error() != want || p != (PartialDate{}) {
			t.Errorf("%q: %v, %v\nwant %s", typed, p, err, want)
		}
	}
}

func TestPartialDateRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Day(rapid.Int32Range(int32(civilDay(1900, 1, 1)), int32(civilDay(2199, 12, 31))).Draw(t, "day")).Partial()
		switch rapid.IntRange(0, 3).Draw(t, "known to") {
		case 1:
			p.DayOfMonth = 0
		case 2:
			p.DayOfMonth, p.Month = 0, 0
		case 3:
			p = PartialDate{}
		}
		back, err := ParseDate(p.String())
		if err != nil || back != p {
			t.Fatalf("%v came back as %v, %v", p, back, err)
		}
		if p.Earliest() > p.Latest() || p.Exact() != (p.Earliest() == p.Latest()) {
			t.Fatalf("%v: %v to %v", p, p.Earliest(), p.Latest())
		}
	})
}

func FuzzParseDate(f *testing.F) {
	for _, s := range []string{"2026-06-01", "2026-06", "2026", "unknown", "1/6/2026", "2024-02-29", "", "2026-06-0x"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		p, err := ParseDate(s)
		if err != nil {
			if p != (PartialDate{}) {
				t.Fatalf("%q: refused, yet %v", s, p)
			}
			return
		}
		if p.Exact() {
			if at, err := time.Parse("2006-01-02", p.String()); err != nil || at.Unix()/86400 != int64(p.Earliest()) && at.Unix() >= 0 {
				t.Fatalf("%q: %v, %v", s, p, err)
			}
		}
		if p.String() != tidy(s) {
			t.Fatalf("%q prints as %q", s, p)
		}
	})
}
