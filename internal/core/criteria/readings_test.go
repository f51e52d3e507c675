package criteria_test

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// TestDiameter holds comparison with the first record on whole parts per
// thousand (E-31 SEEN, of marine rope: over 20 %; 10 % PROPOSED in K-LI-ABS):
// at the same place, and along the rope with the median of the first record.
func TestDiameter(t *testing.T) {
	tb := small()
	type reading struct {
		on       string
		from     int
		values   []int
		repeated []int
	}
	cases := []struct {
		name string
		all  []reading
		want kit.Verdict
	}{
		{"first record, one place: nothing to compare with", []reading{{today, 0, []int{8000}, nil}}, kit.Keep},
		{"10 % exactly", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{10800}, nil}}, kit.SetAside},
		{"a micrometre short of 10 %", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{10801}, nil}}, kit.Keep},
		{"20 % exactly", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{9600}, nil}}, kit.Withdraw},
		{"first record is the mean of its values", []reading{{"2025-12-01", 0, []int{11999, 12000, 12002}, nil}, {today, 0, []int{10800}, nil}}, kit.SetAside},
		{"the worst value counts", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{12000, 10800, 12000}, nil}}, kit.SetAside},
		{"measured again: a slip is replaced", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{9000}, []int{11900, 11950}}}, kit.Keep},
		{"measured again by one value: the first stands", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{9000}, []int{11900}}}, kit.Withdraw},
		{"measured again by one value, which is the worse", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{11900}, []int{9000}}}, kit.Withdraw},
		{"measured again: the worst of the second", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{9000}, []int{11900, 10800}}}, kit.SetAside},
		{"first record measured again by one value: against the larger", []reading{{"2025-12-01", 0, []int{12000}, []int{11000}}, {today, 0, []int{10800}, nil}}, kit.SetAside},
		{"first record measured again by one larger value", []reading{{"2025-12-01", 0, []int{11000}, []int{12000}}, {today, 0, []int{10800}, nil}}, kit.SetAside},
		{"measured again: it stands", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 0, []int{9000}, []int{9100}}}, kit.Withdraw},
		{"within the first record: against its median", []reading{{today, 0, []int{12600}, nil}, {today, 300, []int{12600}, nil}, {today, 600, []int{11200}, nil}}, kit.SetAside},
		{"an even number: the mean of the two in the middle",
			[]reading{{today, 0, []int{12000}, nil}, {today, 300, []int{12100}, nil}, {today, 600, []int{12000}, nil}, {today, 900, []int{10800}, nil}}, kit.SetAside},
		{"elsewhere later: against the median of the first record", []reading{{"2025-12-01", 0, []int{12000}, nil}, {today, 5000, []int{10800}, nil}}, kit.SetAside},
		{"thick from the start at one place", []reading{{"2025-12-01", 0, []int{12000}, nil}, {"2025-12-01", 300, []int{12000}, nil}, {"2025-12-01", 600, []int{13400}, nil},
			{today, 600, []int{12000}, nil}}, kit.SetAside},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := good(tb, kit.Line)
			r.Piece.Diameter = qty.Length(c.all[0].values[0]) // so that none is far from it
			r.Examinations = append([]kit.Examination{exam(tb, kit.Line, kit.Thorough, "2025-12-01")}, r.Examinations...)
			for _, x := range c.all {
				e := &r.Examinations[0]
				if x.on == today {
					e = &r.Examinations[1]
				}
				measure(e, "diameter", at(x.from, x.from+50), x.values...)
				m := &e.Readings[len(e.Readings)-1]
				for _, v := range x.repeated {
					m.Again = append(m.Again, qty.Length(v))
				}
			}
			if res := criteria.Judge(tb, r); res.Verdict() != c.want {
				t.Errorf("%v, want %v: %v", res.Verdict(), c.want, told(res))
			}
		})
	}
}

// TestTail holds a limit on a part: each end against its own first record and
// the absolute figure, never one end against the other.
func TestTail(t *testing.T) {
	tb := small()
	cases := []struct {
		endA, endB int // today; 100 mm and 200 mm before
		want       kit.Verdict
		key        string
	}{
		{90000, 190000, kit.Keep, ""},
		{90000, 121000, kit.Keep, ""},
		{90000, 120000, kit.Withdraw, "reading.out-of-range"}, // 40 % of 200 mm gone
		{50000, 190000, kit.Withdraw, "reading.limit"},
	}
	for _, c := range cases {
		r := good(tb, kit.Bridge)
		old := exam(tb, kit.Bridge, kit.Thorough, "2025-12-01")
		measure(&old, "tail", kit.Place{Part: "end A"}, 100000)
		measure(&old, "tail", kit.Place{Part: "end B"}, 200000)
		r.Examinations = append([]kit.Examination{old}, r.Examinations...)
		measure(last(r), "tail", kit.Place{Part: "end A"}, c.endA)
		measure(last(r), "tail", kit.Place{Part: "end B"}, c.endB)
		res := criteria.Judge(tb, r)
		if res.Verdict() != c.want || c.key != "" && find(res, c.key, "K-BR-ABS") == nil {
			t.Errorf("%d and %d: %v", c.endA, c.endB, told(res))
		}
	}
}

// TestEdgeCut holds the edge of an absolute figure (E-02 SEEN: cuts of 1 mm).
func TestEdgeCut(t *testing.T) {
	tb := small()
	for v, want := range map[int]kit.Verdict{999: kit.Keep, 1000: kit.Withdraw, 1500: kit.Withdraw} {
		r := good(tb, kit.Harness)
		measure(last(r), "edge-cut", kit.Place{Part: "waist"}, v)
		if res := criteria.Judge(tb, r); res.Verdict() != want {
			t.Errorf("cut of %d µm: %v", v, told(res))
		}
	}
}

// TestLonger follows a line that has become 6 % longer (K-LI-WEIGH, E-34 SEEN):
// kept until half the usual interval after it was measured (1 Dec 2025 and 91
// of 182 days are 2 Mar 2026), set aside after, judged anew when measured again.
func TestLonger(t *testing.T) {
	tb := small()
	cases := []struct {
		asOf  string
		again int
		want  kit.Verdict
	}{
		{"2026-03-02", 0, kit.KeepSooner}, {"2026-03-03", 0, kit.SetAside}, {"2026-03-03", 47_700_000, kit.KeepSooner}, {"2026-03-03", 47_699_999, kit.Keep},
	}
	for _, c := range cases {
		r := good(tb, kit.Line)
		r.AsOf = day(c.asOf)
		r.Examinations = []kit.Examination{exam(tb, kit.Line, kit.Thorough, "2025-06-01"), exam(tb, kit.Line, kit.Thorough, "2025-12-01")}
		measure(&r.Examinations[0], "length", kit.Place{Whole: true}, 45_000_000)
		measure(&r.Examinations[1], "length", kit.Place{Whole: true}, 47_700_000)
		if c.again > 0 {
			r.Examinations = append(r.Examinations, exam(tb, kit.Line, kit.PreUse, c.asOf))
			measure(last(r), "length", kit.Place{Whole: true}, c.again)
		}
		if res := criteria.Judge(tb, r); res.Verdict() != c.want {
			t.Errorf("%+v: %v", c, told(res))
		}
	}
}

// TestWear holds what growing wear of a connector asks for (R-07; E-35 SEEN: 1 mm,
// or 10 % of the section), with the sums of TestReachesByHand's kind.
//
// Groove 0.2 mm and 0.4 mm a year apart, from the last on: 801 days, 10 Aug 2028.
//
// Section 10 mm and 9.8 mm: the limit is 9 mm. 200 µm in 365 days and the
// gauge's 0.1631 a day: 0.7110; the line is at 9900 − 129.8 = 9770.2 µm on the
// last day, 770.2 above the limit: 1083.2 days, so 1083 after 1 June 2026:
// 1096 to 1 June 2029 less 13, 19 May 2029.
func TestWear(t *testing.T) {
	tb := small()
	body := kit.Place{Part: "body"}
	cases := []struct {
		name     string
		quantity string
		before   int
		now      int
		place    kit.Place
		asOf     string
		want     kit.Verdict
		until    string
	}{
		{"groove", "groove", 200, 400, body, today, kit.KeepSooner, "2028-08-10"},
		{"the day before", "groove", 200, 400, body, "2028-08-09", kit.KeepSooner, "2028-08-10"},
		{"the date has come", "groove", 200, 400, body, "2028-08-10", kit.SetAside, ""},
		{"section", "section", 10000, 9800, body, today, kit.KeepSooner, "2029-05-19"},
		{"section that does not fall", "section", 10000, 10000, body, today, kit.Keep, ""},
		{"another place: nothing grows", "groove", 200, 400, kit.Place{Part: "gate"}, today, kit.Keep, ""},
		{"at the limit", "groove", 200, 1000, body, today, kit.Withdraw, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := good(tb, kit.Connector)
			r.AsOf = day(c.asOf)
			old := exam(tb, kit.Connector, kit.Thorough, "2025-06-01")
			measure(&old, c.quantity, c.place, c.before)
			measure(last(r), c.quantity, body, c.now)
			r.Examinations = append([]kit.Examination{old}, r.Examinations...)
			if c.asOf != today {
				r.Examinations = append(r.Examinations, exam(tb, kit.Connector, kit.Thorough, c.asOf))
			}
			res := criteria.Judge(tb, r)
			if res.Verdict() != c.want {
				t.Fatalf("%v, want %v: %v", res.Verdict(), c.want, told(res))
			}
			if x := find(res, "wear.grows", "R-07"); (x != nil) != (c.until != "") || x != nil && x.Until.String() != c.until {
				t.Errorf("until %+v, want %s", x, c.until)
			}
			if c.want == kit.SetAside && find(res, "wear.date-passed", "R-07") == nil {
				t.Errorf("%v", told(res))
			}
		})
	}
}

// TestWearLimits holds that of several limits the one reached first sets the
// date, whatever their order, and that one that only asks for an earlier look
// sets none.
func TestWearLimits(t *testing.T) {
	for _, order := range [][]int{{0, 1, 2}, {2, 1, 0}} {
		tb := small()
		rows := []table.Limit{
			{At: 450, Verdict: kit.KeepSooner, Cite: pub("E-35")}, {At: 600, Verdict: kit.SetAside, Cite: pub("E-35")}, {At: 1000, Verdict: kit.Withdraw, Cite: pub("E-35")}}
		q := tb.Kind(kit.Connector).Quantity("groove")
		q.Limits = nil
		for _, i := range order {
			q.Limits = append(q.Limits, rows[i])
		}
		r := good(tb, kit.Connector)
		old := exam(tb, kit.Connector, kit.Thorough, "2025-06-01")
		measure(&old, "groove", kit.Place{Part: "body"}, 200)
		measure(last(r), "groove", kit.Place{Part: "body"}, 400)
		r.Examinations = append([]kit.Examination{old}, r.Examinations...)
		// (600 − 429.8) / 0.7110 = 239.4 days after 1 June 2026: 26 Jan 2027.
		if x := find(criteria.Judge(tb, r), "wear.grows", "R-07"); x == nil || x.Until.String() != "2027-01-26" {
			t.Errorf("%v: %+v", order, x)
		}
	}
}

// TestPartAgainstStretch holds that a part is never compared with stretches.
func TestPartAgainstStretch(t *testing.T) {
	tb := small()
	r := good(tb, kit.Line)
	r.Piece.Diameter = 10500 // neither reading is far from it
	old := exam(tb, kit.Line, kit.Thorough, "2025-12-01")
	measure(&old, "diameter", at(0, 50), 12000)
	r.Examinations = append([]kit.Examination{old}, r.Examinations...)
	measure(last(r), "diameter", kit.Place{Part: "end A"}, 9000)
	if res := criteria.Judge(tb, r); res.Verdict() != kit.Keep {
		t.Errorf("%v", told(res))
	}
}

// TestAbsoluteMeasuredAgain holds a groove at its absolute limit of 1 mm
// against second measurements: one value leaves it standing, two replace it, and
// the worst of them counts.
func TestAbsoluteMeasuredAgain(t *testing.T) {
	tb := small()
	for _, c := range []struct {
		values, again []int
		want          kit.Verdict
	}{
		{[]int{1200}, nil, kit.Withdraw},
		{[]int{1200}, []int{100}, kit.Withdraw},
		{[]int{1200, 1200}, []int{0}, kit.Withdraw},
		{[]int{0}, []int{1200}, kit.Withdraw},
		{[]int{1200}, []int{100, 1000}, kit.Withdraw},
		{[]int{1200}, []int{100, 100}, kit.Keep},
	} {
		r := good(tb, kit.Connector)
		measure(last(r), "groove", kit.Place{Part: "body"}, c.values...)
		m := &last(r).Readings[len(last(r).Readings)-1]
		for _, v := range c.again {
			m.Again = append(m.Again, qty.Length(v))
		}
		if res := criteria.Judge(tb, r); res.Verdict() != c.want {
			t.Errorf("%v, again %v: %v, want %v: %v", c.values, c.again, res.Verdict(), c.want, told(res))
		}
	}
}

// TestWearWhicheverIsWrittenFirst holds growing wear of which two readings of a
// day are on record: the outcome and its date are the same in either order, for
// the last day and for the first, and never later than by the worse one alone.
func TestWearWhicheverIsWrittenFirst(t *testing.T) {
	tb := small()
	until := func(first, now []int) qty.Day {
		r := good(tb, kit.Connector)
		r.Examinations = append([]kit.Examination{exam(tb, kit.Connector, kit.Thorough, "2025-06-01")}, r.Examinations...)
		for _, v := range first {
			measure(&r.Examinations[0], "groove", kit.Place{Part: "body"}, v)
		}
		for _, v := range now {
			measure(last(r), "groove", kit.Place{Part: "body"}, v)
		}
		x := find(criteria.Judge(tb, r), "wear.grows", "R-07")
		if x == nil {
			t.Fatalf("%v, then %v: does not grow: %v", first, now, told(criteria.Judge(tb, r)))
		}
		return x.Until
	}
	a, b := until([]int{100}, []int{300, 750}), until([]int{100}, []int{750, 300})
	if a != b || a > until([]int{100}, []int{750}) {
		t.Errorf("two today: until %v or %v, by the worse alone %v", a, b, until([]int{100}, []int{750}))
	}
	if a, b := until([]int{100, 200}, []int{400}), until([]int{200, 100}, []int{400}); a != b {
		t.Errorf("two on the first day: until %v or %v", a, b)
	}
}
