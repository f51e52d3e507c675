package criteria_test

import (
	"slices"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// TestFallOrLoad holds the edge between a fall and a sudden load, on a device:
// 0.5 m free travel (M-31, from memory) and 25 % of minimum strength (M-32,
// assumed) are a fall, just below both is not, and what is not known is one.
func TestFallOrLoad(t *testing.T) {
	tb := small()
	cases := []struct {
		travel qty.Length
		peak   qty.Share
		want   string
	}{
		{500_000, 0, "fall"}, {499_999, 0.249999, "sudden-load"}, {0, 0.25, "fall"}, {-1, 0, "fall"}, {0, -1, "fall"}, {-1, -1, "fall"}, {0, 0, "sudden-load"},
	}
	for _, name := range []string{"fall", "sudden-load"} {
		for _, c := range cases {
			r := good(tb, kit.Device)
			r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: name, Travel: c.travel, Peak: c.peak}}
			r.Examinations[0].Day = day("2026-05-01")
			r.Examinations = append(r.Examinations, exam(tb, kit.Device, kit.PreUse, today))
			x := find(criteria.Judge(tb, r), "event.aside", "")
			if x == nil || x.Args[0].Value != c.want {
				t.Errorf("%s, travel %v, peak %v: %+v, want %s", name, c.travel, c.peak, x, c.want)
			}
		}
	}
}

// TestExaminedSince holds what lifts something out of the ordinary (R-05; D-07
// SEEN): a complete thorough examination on a later day, or on the same day
// naming it; after a sudden load an interim one too; looks before use never.
func TestExaminedSince(t *testing.T) {
	tb := small()
	cases := []struct {
		event, kind, on, after string
		cut                    bool
		want                   kit.Verdict
	}{
		{"long-out-of-use", "thorough", "2026-05-21", "", false, kit.Keep},
		{"long-out-of-use", "thorough", "2026-05-20", "", false, kit.SetAside},
		{"long-out-of-use", "thorough", "2026-05-20", "e1", false, kit.Keep},
		{"long-out-of-use", "thorough", "2026-05-19", "e1", false, kit.SetAside},
		{"long-out-of-use", "thorough", "2026-05-21", "", true, kit.SetAside},
		{"long-out-of-use", "interim", "2026-05-21", "e1", false, kit.SetAside},
		{"sudden-load", "interim", "2026-05-21", "", false, kit.Keep},
		{"sudden-load", "pre-use", "2026-05-21", "e1", false, kit.SetAside},
	}
	for _, c := range cases {
		r := good(tb, kit.Line)
		r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-04-01"), "report"
		r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: c.event}}
		e := exam(tb, kit.Line, kit.ExamKind(c.kind), c.on)
		e.AfterEvent = c.after
		if c.cut {
			e.Looks = e.Looks[1:]
		}
		r.Examinations = []kit.Examination{e, exam(tb, kit.Line, kit.PreUse, today)}
		if res := criteria.Judge(tb, r); res.Verdict() != c.want {
			t.Errorf("%+v: %v", c, told(res))
		}
	}
}

// TestRepaired holds that a repair needs both: an examination since (R-05,
// D-10) and the maker's procedure in writing (D-77).
func TestRepaired(t *testing.T) {
	tb := small()
	for i, want := range []kit.Verdict{kit.SetAside, kit.SetAside, kit.SetAside, kit.Keep} {
		r := good(tb, kit.Line)
		r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-04-01"), "report"
		r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: "repaired"}}
		if i&1 == 0 {
			r.Examinations = []kit.Examination{exam(tb, kit.Line, kit.PreUse, today)}
		}
		if i&2 != 0 {
			answer(r, "2026-05-25", "e1", "maker's procedure 4")
		}
		if res := criteria.Judge(tb, r); res.Verdict() != want {
			t.Errorf("case %d: %v, want %v: %v", i, res.Verdict(), want, told(res))
		}
	}
}

// TestSooner follows a fuel splash, washed out (C-31 SEEN, R-10, R-07): set
// aside until examined again, kept until half the usual interval after that
// (92 of 184 days from 1 March are 1 June), set aside past that day, ended by a
// further interim or thorough examination.
func TestSooner(t *testing.T) {
	tb := small()
	cases := []struct {
		name  string
		asOf  string
		exams []string
		want  kit.Verdict
		key   string
	}{
		{"not examined since", "2026-03-02", []string{"thorough 2026-02-27"}, kit.SetAside, "contaminant.washed-not-examined"},
		{"examined on the day, naming it", "2026-03-01", []string{"named 2026-03-01"}, kit.KeepSooner, "contaminant.washed"},
		{"examined on the day, not said to be after", "2026-03-01", []string{"thorough 2026-03-01"}, kit.SetAside, "contaminant.washed-not-examined"},
		{"examined on the day, after some washing", "2026-03-01", []string{"washed 2026-03-01"}, kit.SetAside, "contaminant.washed-not-examined"},
		{"what names it is not complete, what is does not", "2026-03-01", []string{"thorough 2026-03-01", "nothing 2026-03-01"}, kit.SetAside, "contaminant.washed-not-examined"},
		{"on the last day", "2026-06-01", []string{"named 2026-03-01"}, kit.KeepSooner, "contaminant.washed"},
		{"the day after", "2026-06-02", []string{"named 2026-03-01"}, kit.SetAside, "contaminant.washed-passed"},
		{"looks before use do not end it", "2026-06-02", []string{"named 2026-03-01", "pre-use 2026-06-02"}, kit.SetAside, "contaminant.washed-passed"},
		{"a further examination ends it", "2026-06-02", []string{"named 2026-03-01", "interim 2026-06-02"}, kit.Keep, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := good(tb, kit.Line)
			r.AsOf, r.Piece.Examined, r.Examinations = day(c.asOf), date("2026-01-15"), nil
			r.Events = []kit.Event{{Ref: "e1", Day: day("2026-03-01"), Event: "spill", Substance: "fuel", Amount: "splash", Washed: kit.SaidYes}}
			for _, x := range c.exams {
				sort, on := x[:len(x)-11], x[len(x)-10:]
				how := sort
				if how == "washed" || how == "named" || how == "nothing" {
					sort = "thorough"
				}
				e := exam(tb, kit.Line, kit.ExamKind(sort), on)
				e.Looks[0].AfterWash = how == "washed"
				if how == "named" || how == "nothing" {
					e.AfterEvent = "e1"
				}
				if how == "nothing" {
					e.Looks = nil
				}
				r.Examinations = append(r.Examinations, e)
			}
			res := criteria.Judge(tb, r)
			if res.Verdict() != c.want || c.key != "" && find(res, c.key, "C-31") == nil {
				t.Errorf("%v, want %v, %s: %v", res.Verdict(), c.want, c.key, told(res))
			}
		})
	}
}

// TestSubstanceNamed holds that an answer that names the substance lets the
// rule of that substance hold, whichever way it goes.
func TestSubstanceNamed(t *testing.T) {
	tb := small()
	for cause, want := range map[string]kit.Verdict{"battery-acid": kit.Withdraw, "fuel": kit.KeepSooner, "water": kit.Keep, "unknown": kit.KeepSooner} {
		r := good(tb, kit.Line)
		r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: "spill", Substance: "unknown", Amount: "splash", Washed: kit.SaidYes}}
		answer(r, "2026-05-25", "e1", "safety sheet")
		r.Answers[0].Cause = cause
		if res := criteria.Judge(tb, r); res.Verdict() != want {
			t.Errorf("named as %s: %v, want %v: %v", cause, res.Verdict(), want, told(res))
		}
	}
}

// TestTold holds when a yes is an event of its own: only where no event on
// record accounts for it since the question was last answered.
func TestTold(t *testing.T) {
	tb := small()
	type at struct {
		on string
		y  kit.Yes
	}
	cases := []struct {
		name   string
		said   []at
		events []string
		want   []string
	}{
		{"a bare yes", []at{{"2026-05-01", kit.SaidYes}}, nil, []string{"2026-05-01"}},
		{"the event is on record", []at{{"2026-05-01", kit.SaidYes}}, []string{"2026-04-20"}, nil},
		{"it was on record before the last no", []at{{"2026-04-25", kit.SaidNo}, {"2026-05-01", kit.SaidYes}}, []string{"2026-04-20"}, []string{"2026-05-01"}},
		{"on the day of the last no", []at{{"2026-04-25", kit.SaidNo}, {"2026-05-01", kit.SaidYes}}, []string{"2026-04-25"}, nil},
		{"a second yes is a second event", []at{{"2026-04-25", kit.SaidYes}, {"2026-05-01", kit.SaidYes}}, []string{"2026-04-20"}, []string{"2026-05-01"}},
		{"an event that a yes was about does not count twice", []at{{"2026-04-25", kit.SaidYes}, {"2026-05-01", kit.SaidYes}}, []string{"2026-04-25"}, []string{"2026-05-01"}},
		{"two on one day are one", []at{{"2026-05-01", kit.SaidYes}, {"2026-05-01", kit.SaidYes}}, []string{"2026-05-01"}, nil},
		{"after the yes", []at{{"2026-05-01", kit.SaidYes}}, []string{"2026-05-02"}, []string{"2026-05-01"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := good(tb, kit.Device)
			r.Examinations = nil
			for _, s := range c.said {
				e := exam(tb, kit.Device, kit.Thorough, s.on)
				e.Asked["fall"] = s.y
				r.Examinations = append(r.Examinations, e)
			}
			for _, on := range c.events {
				r.Events = append(r.Events, kit.Event{Day: day(on), Event: "sudden-load"})
			}
			var got []string
			for _, e := range criteria.Told(tb, r) {
				if e.Event != "fall" || e.Ref != "fall" || e.Travel >= 0 || e.Peak >= 0 {
					t.Errorf("told event %+v", e)
				}
				got = append(got, e.Day.String())
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// TestSignConditions holds K-SL-ASIDE (E-53 SEEN): HMPE, furred and darkened at
// one place, after three years of use; what is not known counts as so.
func TestSignConditions(t *testing.T) {
	tb := small()
	cases := []struct {
		name  string
		fibre string
		use   string
		dark  *kit.Place
		want  kit.Verdict
	}{
		{"all of it", "hmpe", "2023-06-01", &kit.Place{From: 0, To: 1000_000}, kit.SetAside},
		{"a day short of three years", "hmpe", "2023-06-02", &kit.Place{From: 0, To: 1000_000}, kit.Keep},
		{"another fibre", "pa", "2023-06-01", &kit.Place{From: 0, To: 1000_000}, kit.Keep},
		{"fibre not known", "", "2023-06-01", &kit.Place{From: 0, To: 1000_000}, kit.SetAside},
		{"not darkened", "hmpe", "2023-06-01", nil, kit.Keep},
		{"darkened elsewhere", "hmpe", "2023-06-01", &kit.Place{From: 900_000, To: 1000_000}, kit.Keep},
		{"darkened as a whole", "hmpe", "2023-06-01", &kit.Place{Whole: true}, kit.SetAside},
		{"darkened at the end it reaches", "hmpe", "2023-06-01", &kit.Place{Part: "end A"}, kit.SetAside},
		{"darkened at the other end", "hmpe", "2023-06-01", &kit.Place{Part: "end B"}, kit.Keep},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := good(tb, kit.Sling)
			r.Piece.Made, r.Piece.Declared, r.Piece.FirstUse = date("2023-01-01"), date("2023-02-01"), date(c.use)
			r.Piece.Layers = []kit.Layer{{Fibre: c.fibre}}
			see(r, "furred", at(20, 300))
			if c.dark != nil {
				see(r, "darkened", *c.dark)
			}
			res := criteria.Judge(tb, r)
			if res.Verdict() != c.want || c.want == kit.SetAside && find(res, "sign.aside", "K-SL-ASIDE") == nil {
				t.Errorf("%v, want %v: %v", res.Verdict(), c.want, told(res))
			}
		})
	}
}

// TestSignStates holds what later entries make of a sign: one that sets aside
// is lifted when gone after washing, not when merely gone; growing again asks
// anew; an absolute one stays.
func TestSignStates(t *testing.T) {
	tb := small()
	tb.Causes = append(tb.Causes, table.Cause{ID: "gummed", Washable: true})
	tb.Kind(kit.Connector).Sign("sluggish").Causes = []table.CauseLink{{Cause: "gummed", R: 0.5}}
	tb.Index()
	later := func(r *kit.Record, on, ref string, state kit.SignState) {
		e := exam(tb, kit.Connector, kit.Thorough, on)
		e.Signs = []kit.Sign{{Ref: ref, State: state}}
		r.Examinations = append(r.Examinations, e)
	}
	build := func(id string) *kit.Record {
		r := good(tb, kit.Connector)
		r.Examinations = []kit.Examination{exam(tb, kit.Connector, kit.Thorough, "2026-05-01")}
		see(r, id, kit.Place{Part: "gate"})
		return r
	}
	check := func(name string, r *kit.Record, want kit.Verdict) {
		t.Helper()
		if res := criteria.Judge(tb, r); res.Verdict() != want {
			t.Errorf("%s: %v, want %v: %v", name, res.Verdict(), want, told(res))
		}
	}
	r := build("sluggish")
	later(r, "2026-05-10", "s-sluggish", kit.Same)
	check("same", r, kit.SetAside)
	later(r, "2026-05-11", "s-sluggish", kit.Gone)
	check("merely gone", r, kit.SetAside)
	later(r, "2026-05-12", "s-sluggish", kit.GoneWash)
	check("gone after washing", r, kit.Keep)
	later(r, "2026-05-20", "s-sluggish", kit.Grown)
	check("grown again", r, kit.SetAside)
	answer(r, "2026-05-15", "s-sluggish", "")
	check("answered before it grew", r, kit.SetAside)
	answer(r, "2026-05-21", "s-sluggish", "")
	check("answered since", r, kit.Keep)
	r = build("crack")
	later(r, "2026-05-12", "s-crack", kit.GoneWash)
	check("absolute, gone after washing", r, kit.Withdraw)
	r = build("sluggish")
	later(r, today, "no-such", kit.Same)
	check("a ref that is not on record", r, kit.SetAside)
	if find(criteria.Judge(tb, r), "sign.not-in-table", "R-03") == nil {
		t.Error("a ref that is not on record is not told")
	}
}

// TestToldSince holds that a yes in a thorough examination reaches back over
// lesser looks: the event on record before them accounts for it; a yes in a
// look before use reaches back to the last look of any kind.
func TestToldSince(t *testing.T) {
	tb := small()
	for sort, want := range map[kit.ExamKind]int{kit.Thorough: 0, kit.PreUse: 1} {
		r := good(tb, kit.Device)
		e := exam(tb, kit.Device, sort, "2026-05-01")
		e.Asked["fall"] = kit.SaidYes
		r.Examinations = []kit.Examination{exam(tb, kit.Device, kit.Thorough, "2026-03-01"), exam(tb, kit.Device, kit.PreUse, "2026-04-25"), e}
		r.Events = []kit.Event{{Ref: "e1", Day: day("2026-04-20"), Event: "fall"}}
		if got := len(criteria.Told(tb, r)); got != want {
			t.Errorf("%s: %d told events, want %d", sort, got, want)
		}
	}
}
