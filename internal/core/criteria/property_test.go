package criteria_test

import (
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// drawn is a record on the small tables with several things about it, right or
// wrong. Its dates do not contradict each other: made, declared, bought, first
// use, in that order, and what is known of one in part does not begin before
// the one before it (the earlier would then say more than the later).
func drawn(t *rapid.T, tb *table.Tables) *kit.Record {
	kind := rapid.SampledFrom(tb.Kinds).Draw(t, "kind")
	r := good(tb, kind.ID)
	p := &r.Piece
	r.AsOf = day(today) + qty.Day(rapid.IntRange(-40, 200).Draw(t, "as of"))
	r.Yard.Country = rapid.SampledFrom([]string{"GB", "DE", "EU", "FR", ""}).Draw(t, "country")
	r.Yard.Scheme = kit.Scheme{Every: qty.Months(rapid.SampledFrom([]int{0, 3, 9}).Draw(t, "scheme")), Document: "scheme", By: "cp"}
	years := 1
	if rare(t, "old") {
		years = 12
	}
	on := r.AsOf - qty.Day(rapid.IntRange(100, 400*years).Draw(t, "age"))
	least := on
	next := func(label string) qty.PartialDate {
		on += qty.Day(rapid.IntRange(0, 100).Draw(t, label))
		d := on.Partial()
		switch rapid.IntRange(0, 15).Draw(t, label+" known") {
		case 0:
			return qty.PartialDate{}
		case 1:
			d.DayOfMonth = 0
		case 2:
			d.DayOfMonth, d.Month = 0, 0
		}
		if d.Earliest() < least {
			d = on.Partial()
		}
		least = d.Earliest()
		return d
	}
	p.Made, p.Declared, p.Bought, p.FirstUse = next("made"), next("declared"), next("bought"), next("first use")
	if p.Examined = next("examined"); on > r.AsOf {
		p.Examined = qty.PartialDate{} // it is a date of the past
	}
	p.ExaminedBefore, p.ExaminationFrom = rapid.Bool().Draw(t, "before"), rapid.SampledFrom([]string{"", "report"}).Draw(t, "report")
	if rare(t, "origin") {
		p.Origin = rapid.SampledFrom([]string{"", "other yard", "second-hand", "found"}).Draw(t, "from")
		p.Traced = rapid.SampledFrom([]string{"", "letter"}).Draw(t, "traced")
	}
	if rare(t, "history") {
		p.History = "not wholly known"
	}
	if rare(t, "marking") {
		p.Marking, p.Proof = rapid.SampledFrom([]string{"", "partly", "unreadable"}).Draw(t, "read"), rapid.SampledFrom([]string{"", "register"}).Draw(t, "proof")
	}
	if rare(t, "assembly") {
		p.Fitted.Allowed = rapid.SampledFrom([]kit.Yes{kit.NotKnown, kit.SaidNo}).Draw(t, "allowed")
	}
	p.MakerFromMade = qty.Months(rapid.SampledFrom([]int{0, 0, 60, 144}).Draw(t, "maker"))
	p.MakerDocument = rapid.SampledFrom([]string{"", "booklet"}).Draw(t, "booklet")
	p.Layers = []kit.Layer{{Fibre: rapid.SampledFrom([]string{"pa", "pes", "hmpe", "aluminium", "unknown"}).Draw(t, "fibre")}}
	r.Examinations = nil
	for i := rapid.IntRange(0, 3).Draw(t, "examinations"); i > 0; i-- {
		r.Examinations = append(r.Examinations, drawnExam(t, tb, &kind, r.AsOf))
	}
	if !rare(t, "none today") {
		e := exam(tb, kind.ID, rapid.SampledFrom([]kit.ExamKind{kit.PreUse, kit.Thorough}).Draw(t, "today"), r.AsOf.String())
		e.Looks[0].AfterWash = rapid.Bool().Draw(t, "washed today")
		r.Examinations = append(r.Examinations, e)
	}
	for i := rapid.SampledFrom([]int{0, 0, 1, 2}).Draw(t, "events"); i > 0; i-- {
		r.Events = append(r.Events, drawnEvent(t, tb, r.AsOf))
	}
	for i := rapid.IntRange(0, 4).Draw(t, "answers"); i > 0; i-- {
		r.Answers = append(r.Answers, kit.Answer{Day: r.AsOf - qty.Day(rapid.IntRange(0, 60).Draw(t, "answer day")), By: "cp", Verified: "seen",
			To: rapid.SampledFrom([]string{"e1", "e1", "e1", "e2", "s1", "s1", "fall", criteria.QIdentity, criteria.QHistory, criteria.QManufacture,
				criteria.QDeclaration, criteria.QProof, criteria.QAssembly, criteria.QRelease, criteria.QSubstance, criteria.QStorage}).Draw(t, "to"),
			Document: rapid.SampledFrom([]string{"", "letter", "letter"}).Draw(t, "letter")})
	}
	return r
}

// rare is true once in ten times.
func rare(t *rapid.T, label string) bool { return rapid.IntRange(0, 9).Draw(t, label) == 9 }

func drawnEvent(t *rapid.T, tb *table.Tables, asOf qty.Day) kit.Event {
	return kit.Event{Ref: rapid.SampledFrom([]string{"e1", "e2"}).Draw(t, "ref"),
		Day:       asOf - qty.Day(rapid.IntRange(0, 150).Draw(t, "event day")),
		Event:     rapid.SampledFrom(append([]string{"odd", "spill", "spill", "sudden-load"}, eventIDs(tb)...)).Draw(t, "event"),
		Travel:    qty.Length(rapid.SampledFrom([]int{-1, 0, 0, 499_999, 500_000}).Draw(t, "travel")),
		Peak:      qty.Share(rapid.SampledFrom([]float64{-1, 0, 0, 0.2, 0.25}).Draw(t, "peak")),
		Substance: rapid.SampledFrom([]string{"", "", "fuel", "fuel", "alkali", "battery-acid", "unknown", "water", "chain-oil"}).Draw(t, "substance"),
		Amount:    rapid.SampledFrom([]string{"", "suspected", "splash", "splash", "soaked"}).Draw(t, "amount"),
		Washed:    rapid.SampledFrom([]kit.Yes{kit.SaidYes, kit.SaidYes, kit.NotSaid}).Draw(t, "washed")}
}

func drawnExam(t *rapid.T, tb *table.Tables, kind *table.Kind, asOf qty.Day) kit.Examination {
	sort := rapid.SampledFrom([]kit.ExamKind{kit.PreUse, kit.Partner, kit.Interim, kit.Thorough, kit.Thorough}).Draw(t, "exam")
	e := exam(tb, kind.ID, sort, today)
	e.Day = asOf - qty.Day(rapid.IntRange(0, 200).Draw(t, "exam day"))
	e.AfterEvent = rapid.SampledFrom([]string{"", "e1"}).Draw(t, "after")
	for i := range e.Looks {
		if rapid.IntRange(0, 29).Draw(t, "coverage") == 0 {
			e.Looks[i].Covers = []kit.Stretch{along(0, rapid.IntRange(0, 900).Draw(t, "to")), along(450, 5000, "top")}
		}
		if rapid.IntRange(0, 29).Draw(t, "coverage in pieces") == 0 {
			e.Looks[i].Covers = []kit.Stretch{{Part: kind.Parts[0].ID}, {All: true, Sides: []string{"under"}}, along(0, 60000)}
		}
		e.Looks[i].AfterWash = rare(t, "after wash")
	}
	for _, a := range kind.Asks {
		if rapid.IntRange(0, 29).Draw(t, a.ID) == 0 {
			e.Asked[a.ID] = rapid.SampledFrom([]kit.Yes{kit.SaidYes, kit.NotKnown, kit.NotSaid}).Draw(t, "said")
		}
	}
	if len(kind.Signs) > 0 && rare(t, "sign seen") {
		e.Signs = []kit.Sign{{Ref: "s1", Sign: rapid.SampledFrom(kind.Signs).Draw(t, "sign").ID, At: at(100, 120),
			State: rapid.SampledFrom([]kit.SignState{kit.FirstSeen, kit.Same, kit.Grown, kit.Gone}).Draw(t, "state")}}
	}
	return e
}

func eventIDs(tb *table.Tables) []string {
	var out []string
	for _, e := range tb.Events {
		out = append(out, e.ID)
	}
	return out
}

// TestMissingNeverLoosens drops one fact at a time from random records: a date,
// or what of it is known to the day or month, an answer, a look, a piece of
// its coverage, an answer to a question, an examination before this record.
// The outcome must never become looser.
//
// One exception, and only from "withdraw" because its life has ended: where
// manufacture is not known, a date dropped can be the one that ended it. The
// piece is out of use all the same, set aside to be traced (row 3, L-12). Not
// dropped are limits that others set (the date marked on the piece, an
// examiner's latest date) and bad news (a sign, a yes, an answer that says
// unfit): without them there is nothing to be strict about.
func TestMissingNeverLoosens(t *testing.T) {
	tb := small()
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t, tb)
		before := criteria.Judge(tb, r)
		what := drop(t, r)
		after := criteria.Judge(tb, r)
		floor := before.Verdict()
		if !r.Piece.Made.Known() && find(before, "life.ended", "") != nil {
			floor = kit.SetAside
		}
		if after.Verdict() < floor {
			t.Fatalf("without %s: %v before, %v after\nbefore %v\nafter %v", what, before.Verdict(), after.Verdict(), told(before), told(after))
		}
	})
}

func drop(t *rapid.T, r *kit.Record) string {
	p := &r.Piece
	dates := map[string]*qty.PartialDate{"made": &p.Made, "declared": &p.Declared, "bought": &p.Bought, "first use": &p.FirstUse, "examined": &p.Examined}
	switch what := rapid.SampledFrom([]string{"date", "part of a date", "answer", "look", "coverage", "asked", "report"}).Draw(t, "drop"); what {
	case "date", "part of a date":
		name := rapid.SampledFrom([]string{"made", "declared", "bought", "first use", "examined"}).Draw(t, "which date")
		d := dates[name]
		switch {
		case what == "date":
			*d = qty.PartialDate{}
		case d.DayOfMonth != 0:
			d.DayOfMonth = 0
		case d.Month != 0:
			d.Month = 0
		}
		return what + " " + name
	case "answer":
		if n := len(r.Answers); n > 0 {
			i := rapid.IntRange(0, n-1).Draw(t, "which answer")
			name := r.Answers[i].To
			r.Answers = append(r.Answers[:i:i], r.Answers[i+1:]...)
			return "the answer to " + name
		}
	case "report":
		p.ExaminationFrom = ""
		return "the report"
	case "look", "coverage", "asked":
		if len(r.Examinations) > 0 {
			e := &r.Examinations[rapid.IntRange(0, len(r.Examinations)-1).Draw(t, "which examination")]
			return dropFrom(t, e, what)
		}
	}
	return "nothing"
}

func dropFrom(t *rapid.T, e *kit.Examination, what string) string {
	if what == "asked" {
		for id, y := range e.Asked {
			if y == kit.SaidNo && rapid.Bool().Draw(t, "not "+id) {
				delete(e.Asked, id)
			}
		}
		return "what was asked"
	}
	if len(e.Looks) == 0 {
		return "nothing"
	}
	i := rapid.IntRange(0, len(e.Looks)-1).Draw(t, "which look")
	l := &e.Looks[i]
	if what == "look" {
		name := string(l.Look)
		e.Looks = append(e.Looks[:i:i], e.Looks[i+1:]...)
		return "the look " + name
	}
	if len(l.Covers) > 0 {
		l.Covers = l.Covers[1:]
	}
	return "coverage of " + string(l.Look)
}

// TestLaterNeverLoosensDates holds that life and interval never move later when
// a rule or a row is added: the earliest of all holds.
func TestLaterNeverLoosensDates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tb := small()
		r := drawn(t, tb)
		life, due := criteria.Life(tb, r), criteria.Interval(tb, r, kit.Thorough)
		months := qty.Months(rapid.IntRange(1, 200).Draw(t, "months"))
		tb.Lives = append(tb.Lives, table.Life{CountsFrom: rapid.SampledFrom([]string{"manufacture", "first use"}).Draw(t, "from"), Months: months, Cite: pub("L-10")})
		tb.Intervals = append(tb.Intervals, table.Interval{Country: rapid.SampledFrom([]string{"GB", "DE", "EU", "other"}).Draw(t, "row"),
			Exam: kit.Thorough, Months: months, SchemeMay: "shorten", Cite: pub("D-07")})
		for name, pair := range map[string][2]criteria.Due{"life": {life, criteria.Life(tb, r)}, "interval": {due, criteria.Interval(tb, r, kit.Thorough)}} {
			if pair[0].Known && (!pair[1].Known || pair[1].Day > pair[0].Day) {
				t.Fatalf("%s: %v, with one more rule %v", name, pair[0].Day, pair[1].Day)
			}
		}
	})
}

// TestAbsoluteAlwaysWithdraws holds row 1 of the decision model: whatever
// else is recorded, an absolute sign withdraws.
func TestAbsoluteAlwaysWithdraws(t *testing.T) {
	tb := small()
	rapid.Check(t, func(t *rapid.T) {
		r := drawn(t, tb)
		var ids []string
		for _, s := range tb.Kind(r.Piece.Kind).Signs {
			if s.Class == table.Absolute {
				ids = append(ids, s.ID)
			}
		}
		if len(ids) == 0 || len(r.Examinations) == 0 {
			t.Skip("no absolute sign, or nobody looked")
		}
		e := &r.Examinations[rapid.IntRange(0, len(r.Examinations)-1).Draw(t, "which")]
		e.Signs = append(e.Signs, kit.Sign{Ref: "abs", Sign: rapid.SampledFrom(ids).Draw(t, "absolute"), At: at(10, 20)})
		r.Answers = append(r.Answers, kit.Answer{Day: r.AsOf, To: "abs", By: "cp", Verified: "seen", Document: "letter"})
		res := criteria.Judge(tb, r)
		if res.Verdict() != kit.Withdraw || find(res, "sign.absolute", "") == nil {
			t.Fatalf("%v", told(res))
		}
	})
}

// TestReasonsAreWhole holds that every reason names its line first, and that a
// set-aside asks for something.
func TestReasonsAreWhole(t *testing.T) {
	tb := small()
	rapid.Check(t, func(t *rapid.T) {
		res := criteria.Judge(tb, drawn(t, tb))
		for i, x := range res.Reasons {
			switch {
			case x.ID == "" || len(x.Lines) == 0 || x.Lines[0] != x.ID || x.Key == "" || x.Status == "":
				t.Fatalf("reason without its line: %+v", x)
			case x.Verdict == kit.SetAside && (x.Question == "" || x.To == ""):
				t.Fatalf("a set-aside that asks for nothing: %+v", x)
			case x.Verdict == kit.KeepSooner && x.Until == 0:
				t.Fatalf("look sooner without a date: %+v", x)
			case x.Verdict == kit.Keep:
				t.Fatalf("a reason for keeping: %+v", x)
			case i > 0 && res.Reasons[i-1].Verdict < x.Verdict:
				t.Fatalf("not strictest first: %v", told(res))
			}
			if x.Question != "" && !isOpen(res, x.Question, x.To) {
				t.Fatalf("question %s is not among the open ones", x.Question)
			}
		}
	})
}

func isOpen(res criteria.Result, id, to string) bool {
	for _, q := range criteria.Questions(res.Reasons) {
		if q.ID == id && q.To == to {
			return true
		}
	}
	return false
}
