package criteria_test

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// TestIntervalMonthEnds holds that an interval runs from the day of the
// examination (D-120, PROPOSED) and ends right where a month is short.
func TestIntervalMonthEnds(t *testing.T) {
	tb := small()
	for from, want := range map[string]string{
		"2025-08-31": "2026-02-28", "2023-08-31": "2024-02-29", "2025-08-30": "2026-02-28", "2025-08-28": "2026-02-28",
		"2026-02-28": "2026-08-28", "2025-12-31": "2026-06-30", "2026-05-31": "2026-11-30", "2026-03-01": "2026-09-01",
	} {
		r := good(tb, kit.Line)
		r.Examinations = nil
		r.Piece.Origin, r.Piece.Examined, r.Piece.ExaminationFrom = "other yard", date(from), "report"
		if d := criteria.Interval(tb, r, kit.Thorough); !d.Known || d.Day.String() != want {
			t.Errorf("six months from %s: %v, want %s", from, d.Day, want)
		}
	}
}

// TestIntervalStart holds what an interval runs from.
func TestIntervalStart(t *testing.T) {
	tb := small()
	cases := []struct {
		name string
		set  func(*kit.Record)
		want string
		key  string
	}{
		{"the latest thorough examination", func(r *kit.Record) {
			r.Examinations = append([]kit.Examination{exam(tb, kit.Line, kit.Thorough, "2026-01-15")}, exam(tb, kit.Line, kit.PreUse, today))
		}, "2026-07-15", "interval.row"},
		{"looks before use do not replace it (W-16)", func(r *kit.Record) {
			r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-01-15"), "report"
			r.Examinations = []kit.Examination{exam(tb, kit.Line, kit.PreUse, today), exam(tb, kit.Line, kit.Interim, today)}
		}, "2026-07-15", "interval.row"},
		{"one with a look missing does not count (M-24)", func(r *kit.Record) {
			r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-01-15"), "report"
			last(r).Looks = last(r).Looks[1:]
		}, "2026-07-15", "interval.row"},
		{"an examination before first use shortens nothing", func(r *kit.Record) {
			r.Examinations, r.Piece.Examined, r.Piece.ExaminationFrom = nil, date("2025-02-10"), "report"
		}, "2025-10-01", "interval.row"},
		{"nor one with a question not answered", func(r *kit.Record) {
			r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-01-15"), "report"
			delete(last(r).Asked, "idle")
		}, "2026-07-15", "interval.row"},
		{"one after the day asked for is not yet made", func(r *kit.Record) {
			r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-01-15"), "report"
			r.AsOf = day("2026-05-31")
		}, "2026-07-15", "interval.row"},
		{"before this record, known to the month", func(r *kit.Record) {
			r.Examinations, r.Piece.Examined, r.Piece.ExaminationFrom = nil, date("2026-01"), "report"
		}, "2026-07-01", "interval.row"},
		{"new and within 12 months of its declaration: first use (D-05)", func(r *kit.Record) { r.Examinations = nil }, "2025-10-01", "interval.row"},
		{"the same, first use unknown: purchase (L-11)", func(r *kit.Record) {
			r.Examinations, r.Piece.FirstUse, r.Runs = nil, qty.PartialDate{}, []kit.Run{{From: day("2025-05-01"), To: day("2025-05-09")}}
		}, "2025-08-20", "interval.row"},
		{"new, declared too long ago: never examined", func(r *kit.Record) {
			r.Examinations, r.Piece.Declared = nil, date("2024-03-31")
		}, "", "interval.never-examined"},
		{"declared exactly 12 months before first use", func(r *kit.Record) {
			r.Examinations, r.Piece.Declared = nil, date("2024-04-01")
		}, "2025-10-01", "interval.row"},
		{"declaration known to the month counts from its first day", func(r *kit.Record) {
			r.Examinations, r.Piece.Declared, r.Piece.FirstUse = nil, date("2024-04"), date("2025-04-02")
		}, "", "interval.never-examined"},
		{"from another yard, never examined", func(r *kit.Record) { r.Examinations, r.Piece.Origin = nil, "other yard" }, "", "interval.never-examined"},
		{"new, first use planned for a later day: from today", func(r *kit.Record) {
			r.Examinations, r.Piece.FirstUse, r.Piece.Declared = nil, date("2026-06-20"), date("2025-12-01")
		}, "2026-12-01", "interval.row"},
		{"an examiner's date that a later examination has answered", func(r *kit.Record) {
			e := exam(tb, kit.Line, kit.Thorough, "2026-03-01")
			e.Latest = date("2026-04-01")
			r.Examinations = append(r.Examinations, e)
		}, "2026-12-01", "interval.row"},
		{"the examiner's own date is earlier (D-40, from memory)", func(r *kit.Record) { last(r).Latest = date("2026-07") }, "2026-07-01", "interval.examiner"},
		{"the examiner's own date is later", func(r *kit.Record) { last(r).Latest = date("2027-07") }, "2026-12-01", "interval.row"},
		{"a kind without a row", func(r *kit.Record) { r.Piece.Kind = kit.Helmet }, "", "interval.none"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := good(tb, kit.Line)
			c.set(r)
			d := criteria.Interval(tb, r, kit.Thorough)
			if d.Known != (c.want != "") || c.want != "" && d.Day.String() != c.want || d.Key != c.key {
				t.Errorf("%v (known %v, %s), want %q, %s", d.Day, d.Known, d.Key, c.want, c.key)
			}
		})
	}
}

// TestOverdue holds that the day itself is in time, the day after overdue
// (D-07 SEEN: at least every six months), and that examining cures it.
func TestOverdue(t *testing.T) {
	tb := small()
	for from, want := range map[string]kit.Verdict{"2025-12-01": kit.Keep, "2025-11-30": kit.SetAside} {
		r := good(tb, kit.Line)
		examined(from)(tb, r)
		if res := criteria.Judge(tb, r); res.Verdict() != want {
			t.Errorf("examined %s: %v", from, told(res))
		}
		r.Examinations = append(r.Examinations, exam(tb, kit.Line, kit.Thorough, today))
		if res := criteria.Judge(tb, r); res.Verdict() != kit.Keep {
			t.Errorf("examined %s and again today: %v", from, told(res))
		}
	}
	// Proof of an earlier examination without its date gives no day to count from.
	r := good(tb, kit.Line)
	examined("")(tb, r)
	r.Piece.ExaminedBefore, r.Piece.ExaminationFrom, r.Piece.Declared = true, "report 7", date("2023-01-01")
	if res := criteria.Judge(tb, r); find(res, "interval.never-examined", "R-05") == nil || res.Verdict() != kit.SetAside {
		t.Errorf("proof without a date: %v", told(res))
	}
}

// TestScheme holds that a written scheme shortens anywhere and lengthens only
// where the row lets it (D-09: SEEN; that it is written down, with reasons: from memory).
func TestScheme(t *testing.T) {
	tb := small()
	cases := []struct {
		country       string
		every         qty.Months
		document, who string
		want          string
	}{
		{"GB", 3, "scheme 1", "cp", "2026-09-01"},
		{"GB", 3, "", "", "2026-09-01"}, // shorter needs no paper
		{"GB", 9, "scheme 1", "cp", "2027-03-01"},
		{"GB", 9, "", "cp", "2026-12-01"},
		{"GB", 9, "scheme 1", "", "2026-12-01"},
		{"DE", 18, "scheme 1", "cp", "2027-06-01"},
		{"DE", 9, "scheme 1", "cp", "2027-03-01"},
		{"", 9, "scheme 1", "cp", "2026-12-01"}, // law not known: never longer
	}
	for _, c := range cases {
		r := good(tb, kit.Line)
		r.Yard = kit.Yard{Country: c.country, Scheme: kit.Scheme{Every: c.every, Document: c.document, By: c.who}}
		if d := criteria.Interval(tb, r, kit.Thorough); d.Day.String() != c.want {
			t.Errorf("%+v: %v, want %s", c, d.Day, c.want)
		}
	}
}

// TestLawUnknown holds that an unknown law is the strictest of all and said so
// (D-113, PROPOSED), with and without rows for it in the tables.
func TestLawUnknown(t *testing.T) {
	for _, without := range []bool{false, true} {
		tb := small()
		if without {
			tb.Countries = tb.Countries[:3]
			tb.Intervals = tb.Intervals[:len(tb.Intervals)-1]
		}
		for _, c := range []string{"", "unknown", "other", "FR"} {
			r := good(tb, kit.Line)
			r.Yard.Country = c
			d := criteria.Interval(tb, r, kit.Thorough)
			if d.Day.String() != "2026-12-01" || !hasLine(d.Lines, "D-113") || d.Args[len(d.Args)-1].Value != "strictest" {
				t.Errorf("country %q: %v %v %v", c, d.Day, d.Lines, d.Args)
			}
		}
	}
}

// TestShownOnly holds that rows for arduous use and occasions are listed among
// the rules and set no day.
func TestShownOnly(t *testing.T) {
	tb := small()
	tb.Occasions = []table.Interval{{Country: "GB", Exam: kit.PreUse, When: "each use", Cite: pub("E-04")}}
	r := good(tb, kit.Line)
	shown := 0
	for _, o := range criteria.Interval(tb, r, kit.Thorough).Others {
		if o.Line == "E-04" && !o.Counts && o.Day.String() == "2026-09-01" {
			shown++
		}
	}
	if d := criteria.Interval(tb, r, kit.PreUse); d.Known || len(d.Others) != 1 || d.Others[0].Key != "interval.occasion" {
		t.Errorf("each use: %+v", d)
	}
	if shown != 1 {
		t.Errorf("the row for arduous use is shown %d times", shown)
	}
}

// TestExaminersDate holds that a date an examiner set is answered by a complete
// examination of the same or a stricter kind, and by no lesser one (D-17 SEEN).
func TestExaminersDate(t *testing.T) {
	tb := small()
	cases := []struct {
		then string
		cut  bool
		want kit.Verdict
	}{
		{"interim", false, kit.Keep}, {"thorough", false, kit.Keep}, {"pre-use", false, kit.SetAside}, {"interim", true, kit.SetAside},
	}
	for _, c := range cases {
		r := good(tb, kit.Connector)
		e := exam(tb, kit.Connector, kit.Interim, "2026-05-01")
		e.Latest = date("2026-05-31")
		then := exam(tb, kit.Connector, kit.ExamKind(c.then), "2026-05-20")
		if c.cut {
			then.Looks = then.Looks[1:]
		}
		r.Examinations[0].Day = day("2026-04-01")
		r.Examinations = append(r.Examinations, e, then, exam(tb, kit.Connector, kit.PreUse, today))
		res := criteria.Judge(tb, r)
		if res.Verdict() != c.want || c.want == kit.SetAside && find(res, "interval.examiner-passed", "R-07") == nil {
			t.Errorf("%+v: %v", c, told(res))
		}
	}
}
