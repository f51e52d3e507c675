package criteria_test

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// rule is one rule of outcome on a piece with which nothing else is wrong. The
// line is the one that demands it, with its mark in tables/lines.toml, or
// "common practice" for M-lines, which are the decision model.
type rule struct {
	name     string
	line     string
	mark     string
	row      string
	key      string
	want     kit.Verdict
	kind     kit.KindID
	question string
	facts    func(*table.Tables, *kit.Record)
}

func piece(set func(*kit.Piece)) func(*table.Tables, *kit.Record) {
	return func(_ *table.Tables, r *kit.Record) { set(&r.Piece) }
}

func happened(e kit.Event) func(*table.Tables, *kit.Record) {
	return func(_ *table.Tables, r *kit.Record) {
		if e.Day == 0 {
			e.Day = day("2026-05-20")
		}
		e.Ref = "e1"
		r.Events = append(r.Events, e)
		// The thorough examination was made before it; a look before use followed.
		r.Examinations = []kit.Examination{r.Examinations[0], exam(small(), r.Piece.Kind, kit.PreUse, today)}
		r.Examinations[0].Day = day("2026-05-01")
	}
}

func spilled(substance, amount string, washed kit.Yes, fibres ...string) func(*table.Tables, *kit.Record) {
	return func(_ *table.Tables, r *kit.Record) {
		r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: "spill", Substance: substance, Amount: amount, Washed: washed}}
		r.Piece.Layers = nil
		for _, f := range fibres {
			r.Piece.Layers = append(r.Piece.Layers, kit.Layer{Fibre: f})
		}
	}
}

func seen(id string, where kit.Place) func(*table.Tables, *kit.Record) {
	return func(_ *table.Tables, r *kit.Record) { see(r, id, where) }
}

func told1(id string, y kit.Yes) func(*table.Tables, *kit.Record) {
	return func(_ *table.Tables, r *kit.Record) { last(r).Asked[id] = y }
}

const (
	practice = "common practice"
	derived  = "drawn from the lines it rests on"
)

var rules = []rule{
	// Row 1.
	{"absolute sign", "K-BR-ABS", "E-13 SEEN", "1", "sign.absolute", kit.Withdraw, kit.Bridge, "", seen("soft-place", at(100, 120))},
	{"would not climb on it", "M-21", practice, "1", "examiner.would-not-climb", kit.Withdraw, kit.Connector, "",
		func(_ *table.Tables, r *kit.Record) { last(r).WouldClimb = kit.SaidNo }},
	{"not sure whether to climb on it", "R-03", derived, "2", "examiner.not-sure", kit.SetAside, kit.Connector, criteria.QExamine,
		func(_ *table.Tables, r *kit.Record) { last(r).WouldClimb = kit.NotKnown }},
	{"whether they would climb on it is not said", "R-03", derived, "2", "examiner.not-said", kit.SetAside, kit.Connector, criteria.QExamine,
		func(_ *table.Tables, r *kit.Record) { last(r).WouldClimb = kit.NotSaid }},
	{"an answer says unfit", "R-03", derived, "1", "answer.unfit", kit.Withdraw, kit.Connector, "",
		func(_ *table.Tables, r *kit.Record) {
			r.Answers = []kit.Answer{{Day: day("2026-01-01"), To: "x", By: "cp", Unfit: true}}
		}},
	{"saw contact, no mark", "M-02", practice, "1", "event.withdraw", kit.Withdraw, kit.Line, "", happened(kit.Event{Event: "saw-contact"})},
	{"fall on textile", "R-02", "E-10 SEEN", "1", "event.withdraw", kit.Withdraw, kit.Harness, "", happened(kit.Event{Event: "fall", Travel: qty.Metre, Peak: 0.3})},
	{"free travel of 0.5 m is a fall, whatever it is called", "R-02", "M-31 from memory", "1", "event.withdraw", kit.Withdraw, kit.Line, "",
		happened(kit.Event{Event: "sudden-load", Travel: 500 * qty.Millimetre, Peak: 0.1})},
	{"a peak of 25 % is a fall", "R-02", "M-32 assumed", "1", "event.withdraw", kit.Withdraw, kit.Line, "",
		happened(kit.Event{Event: "sudden-load", Travel: 100 * qty.Millimetre, Peak: 0.25})},
	{"travel not known is a fall", "R-02", "M-31 from memory", "1", "event.withdraw", kit.Withdraw, kit.Line, "",
		happened(kit.Event{Event: "sudden-load", Travel: -1, Peak: 0.1})},
	{"peak not known is a fall", "R-02", "M-31 from memory", "1", "event.withdraw", kit.Withdraw, kit.Line, "",
		happened(kit.Event{Event: "sudden-load", Travel: 0, Peak: -1})},
	{"load dropped on textile", "R-02", "E-10 SEEN", "1", "event.withdraw", kit.Withdraw, kit.Lanyard, "", happened(kit.Event{Event: "load-dropped"})},
	{"altered bridge", "R-11", "D-77 from memory", "1", "event.withdraw", kit.Withdraw, kit.Bridge, "", happened(kit.Event{Event: "altered"})},
	{"injury: withdrawn and held", "M-39", practice, "1", "event.injury", kit.Withdraw, kit.Connector, "", happened(kit.Event{Event: "washing", Injury: true})},
	{"told of a fall, nothing else known", "R-02", "W-10, E-10 SEEN", "1", "event.withdraw", kit.Withdraw, kit.Harness, "", told1("fall", kit.SaidYes)},
	{"told of a spill on a bridge", "M-03", practice, "1", "contaminant.any", kit.Withdraw, kit.Bridge, "", told1("spill", kit.SaidYes)},
	{"any contaminant on a bridge, washed or not", "M-03", practice, "1", "contaminant.any", kit.Withdraw, kit.Bridge, "",
		spilled("chain-oil", "splash", kit.SaidYes, "pes", "pa")},
	{"suspicion of one on a hitch cord", "M-03", practice, "1", "contaminant.any", kit.Withdraw, kit.HitchCord, "", spilled("fuel", "suspected", kit.SaidYes, "pes")},
	{"harmful to the inner layer alone", "C-32", "C-20 SEEN", "1", "contaminant.harms", kit.Withdraw, kit.Line, "", spilled("battery-acid", "splash", kit.SaidYes, "pes", "pa")},
	{"amount not said counts as the worst", "C-33", "C-21 SEEN", "1", "contaminant.harms", kit.Withdraw, kit.Line, "", spilled("alkali", "", kit.SaidYes, "pes")},
	{"stitch through the end cut", "M-06", practice, "1", "end.stitch", kit.Withdraw, kit.Bridge, "", piece(func(p *kit.Piece) { p.EndB.Stitch = "cut" })},
	{"cord of which no diameter is said", "R-03", derived, "2", "diameter.not-said", kit.SetAside, kit.HitchCord, criteria.QSay,
		piece(func(p *kit.Piece) { p.Diameter = 0 })},
	{"diameter measured where none is said", "R-03", derived, "2", "diameter.not-said", kit.SetAside, kit.Bridge, criteria.QSay,
		func(_ *table.Tables, r *kit.Record) {
			r.Piece.Diameter = 0
			measure(last(r), "diameter", at(0, 50), 12000)
		}},
	{"end of which nobody says how it is made", "R-03", derived, "2", "end.not-said", kit.SetAside, kit.Bridge, criteria.QSay,
		piece(func(p *kit.Piece) { p.EndA = kit.End{} })},
	{"knot of which no tail is said", "R-03", derived, "2", "end.tail-not-said", kit.SetAside, kit.Bridge, criteria.QSay,
		piece(func(p *kit.Piece) { p.EndB = kit.End{How: "knot", Stitch: "whole"} })},
	{"knot of which no stitch is said", "R-03", derived, "2", "end.stitch-not-said", kit.SetAside, kit.Bridge, criteria.QSay,
		piece(func(p *kit.Piece) { p.EndA = kit.End{How: "knot", Tail: 90 * qty.Millimetre} })},
	{"stitched end of which no stitch is said", "R-03", derived, "2", "end.stitch-not-said", kit.SetAside, kit.Bridge, criteria.QSay,
		piece(func(p *kit.Piece) { p.EndB.Stitch = "" })},
	{"stitched end of a line of which no stitch is said", "R-03", derived, "2", "end.stitch-not-said", kit.SetAside, kit.Line, criteria.QSay,
		piece(func(p *kit.Piece) { p.EndA.Stitch = "" })},
	{"sling of which nothing is said of an end", "R-03", derived, "2", "end.stitch-not-said", kit.SetAside, kit.Sling, criteria.QSay,
		piece(func(p *kit.Piece) { p.EndA = kit.End{} })},
	{"stitch of a lanyard's sewn eye cut", "M-06", practice, "1", "end.stitch", kit.Withdraw, kit.Lanyard, "", piece(func(p *kit.Piece) { p.EndB.Stitch = "cut" })},
	{"short tail of an end of which nobody says how it is made", "K-BR-ABS", "K-BR-ABS", "1", "reading.limit", kit.Withdraw, kit.Bridge, "",
		piece(func(p *kit.Piece) { p.EndA = kit.End{Tail: 5 * qty.Millimetre} })},
	{"stitch through the end missing", "M-06", practice, "1", "end.stitch", kit.Withdraw, kit.Bridge, "", piece(func(p *kit.Piece) { p.EndA.Stitch = "missing" })},
	{"tail of a knot at the limit", "K-BR-ABS", "figure assumed", "1", "reading.limit", kit.Withdraw, kit.Bridge, "",
		piece(func(p *kit.Piece) { p.EndA = kit.End{How: "knot", Tail: 50 * qty.Millimetre} })},
	{"diameter down 20 % on its first record", "K-LI-ABS", "E-31 SEEN, of marine rope", "1", "reading.change", kit.Withdraw, kit.Line, "", thinner(9360)},
	{"hitch cord under 8 mm nominal", "K-HC-ABS", "D-66 SEEN", "1", "reading.limit", kit.Withdraw, kit.HitchCord, "",
		piece(func(p *kit.Piece) { p.Diameter = 7990 })},
	{"life from first use ended", "R-06", "M-01 " + practice, "1", "life.ended", kit.Withdraw, kit.Bridge, "",
		piece(func(p *kit.Piece) {
			p.Made, p.Declared, p.Bought, p.FirstUse = date("2021-01"), date("2021-02-01"), date("2021-03-01"), date("2021-06-01")
		})},
	{"marked end of life, known to the month", "R-06", "D-81 SEEN 2nd-hand", "1", "life.ended", kit.Withdraw, kit.Connector, "", piece(func(p *kit.Piece) { p.Obsolete = date("2026-06") })},
	{"maker's shorter life", "R-06", "L-10 PROPOSED", "1", "life.ended", kit.Withdraw, kit.Line, "", piece(func(p *kit.Piece) { p.MakerFromUse = 14 })},
	// Row 2.
	{"marking unreadable, identity provable", "R-04", "D-75 SEEN 2nd-hand", "2", "identity.provable", kit.SetAside, kit.Harness, criteria.QIdentity,
		piece(func(p *kit.Piece) { p.Marking, p.Proof = "unreadable", "register" })},
	{"marking unreadable, nothing proves it", "R-04", "D-98 SEEN 2nd-hand, L-12 SEEN", "2", "identity.unproven", kit.Withdraw, kit.Harness, criteria.QIdentity,
		piece(func(p *kit.Piece) { p.Marking = "unreadable" })},
	{"marking read in part", "R-04", "D-75 SEEN 2nd-hand", "2", "identity.partly", kit.SetAside, kit.Harness, criteria.QIdentity, piece(func(p *kit.Piece) { p.Marking = "partly" })},
	{"marking not spoken of", "R-04", "R-03", "2", "identity.unproven", kit.Withdraw, kit.Harness, criteria.QIdentity, piece(func(p *kit.Piece) { p.Marking = "" })},
	{"sign that sets aside", "K-HA-ASIDE", "R-04", "2", "sign.aside", kit.SetAside, kit.Harness, criteria.QIdentity, seen("label-unreadable", kit.Place{Whole: true})},
	{"sign that the tables do not hold", "R-03", "D-76 from memory", "2", "sign.not-in-table", kit.SetAside, kit.Harness, criteria.QSign, seen("odd", kit.Place{Whole: true})},
	{"not allowed where it is fitted", "D-77", "M-07 " + practice, "2", "assembly.not-allowed", kit.SetAside, kit.Bridge, criteria.QAssembly,
		piece(func(p *kit.Piece) { p.Fitted.Allowed = kit.SaidNo })},
	{"nobody knows whether it is allowed there", "D-77", "M-07 " + practice, "2", "assembly.not-known", kit.SetAside, kit.Connector, criteria.QAssembly,
		piece(func(p *kit.Piece) { p.Fitted.Allowed = kit.NotKnown })},
	{"bridge of which no assembly is said", "D-77", "M-07 " + practice, "2", "assembly.not-said", kit.SetAside, kit.Bridge, criteria.QAssembly,
		piece(func(p *kit.Piece) { p.Fitted = kit.Fitted{} })},
	{"history not wholly known", "L-12", "SEEN", "2", "history.unknown", kit.Withdraw, kit.Harness, criteria.QHistory, piece(func(p *kit.Piece) { p.History = "not wholly known" })},
	{"history not wholly known, but traced", "L-12", "PROPOSED", "2", "history.traced", kit.SetAside, kit.Harness, criteria.QHistory,
		piece(func(p *kit.Piece) { p.History, p.Traced = "not wholly known", "seller's letter" })},
	{"found", "L-12", "SEEN", "2", "history.unknown", kit.Withdraw, kit.Connector, criteria.QHistory, piece(func(p *kit.Piece) { p.Origin = "found" })},
	{"overdue by a day", "R-05", "D-07 SEEN", "2", "interval.overdue", kit.SetAside, kit.Line, criteria.QThorough, examined("2025-11-30")},
	{"declared more than 12 months before first use", "R-12", "D-05 SEEN", "2", "declaration.old", kit.SetAside, kit.Connector, criteria.QThorough,
		func(_ *table.Tables, r *kit.Record) {
			examined("")(nil, r)
			r.Piece.Declared, r.Piece.FirstUse = date("2025-04-30"), date("2026-05-01")
		}},
	{"declaration not known", "R-12", "D-05 SEEN", "2", "declaration.unknown", kit.SetAside, kit.Connector, criteria.QDeclaration,
		func(_ *table.Tables, r *kit.Record) {
			examined("")(nil, r)
			r.Piece.Declared = qty.PartialDate{}
		}},
	{"from another yard without proof", "R-13", "D-05 SEEN, D-55 SEEN 2nd-hand", "2", "origin.no-proof", kit.SetAside, kit.Connector, criteria.QProof,
		func(_ *table.Tables, r *kit.Record) {
			examined("2026-03-01")(nil, r)
			r.Piece.Origin, r.Piece.ExaminationFrom = "other yard", ""
		}},
	{"examiner's own date has passed", "R-07", "D-17 SEEN, D-39 SEEN", "2", "interval.examiner-passed", kit.SetAside, kit.Connector, criteria.QExamine,
		func(t *table.Tables, r *kit.Record) {
			e := exam(t, kit.Connector, kit.Interim, "2026-05-01")
			e.Latest = date("2026-05-31")
			r.Examinations[0].Day = day("2026-04-01")
			r.Examinations = append(r.Examinations, e, exam(t, kit.Connector, kit.PreUse, today))
		}},
	{"fall on metal", "R-02", "D-92 SEEN 2nd-hand", "2", "event.aside", kit.SetAside, kit.Connector, criteria.QRelease, happened(kit.Event{Event: "fall", Travel: qty.Metre, Peak: 0.1})},
	{"fall on a kind without a row for it", "R-02", "R-02: unsure", "2", "event.aside", kit.SetAside, kit.Helmet, criteria.QRelease,
		func(t *table.Tables, r *kit.Record) {
			happened(kit.Event{Event: "fall", Travel: qty.Metre, Peak: 0.1})(t, r)
			r.Piece.Layers = nil
		}},
	{"sudden load, not examined since", "R-05", "D-07 SEEN", "2", "event.aside", kit.SetAside, kit.Line, criteria.QExamine,
		happened(kit.Event{Event: "sudden-load", Travel: 499 * qty.Millimetre, Peak: 0.24})},
	{"long out of use, not examined since", "D-10", "SEEN 2nd-hand", "2", "event.aside", kit.SetAside, kit.Line, criteria.QExamine, happened(kit.Event{Event: "long-out-of-use"})},
	{"flood", "R-10", derived, "2", "event.aside", kit.SetAside, kit.Connector, criteria.QSubstance, happened(kit.Event{Event: "flood"})},
	{"altered, other kinds", "R-11", "D-77 from memory", "2", "event.aside", kit.SetAside, kit.Sling, criteria.QEvent, happened(kit.Event{Event: "altered"})},
	{"event that the tables do not hold", "R-03", derived, "2", "event.not-in-table", kit.SetAside, kit.Sling, criteria.QEvent, happened(kit.Event{Event: "odd"})},
	{"unknown substance", "R-10", derived, "2", "contaminant.aside", kit.SetAside, kit.Line, criteria.QSubstance, spilled("", "splash", kit.SaidYes, "pes")},
	{"unknown fibre", "C-33", "R-10", "2", "contaminant.aside", kit.SetAside, kit.Line, criteria.QSubstance, spilled("alkali", "splash", kit.SaidYes)},
	{"substance and fibre without a row", "R-10", derived, "2", "contaminant.no-rule", kit.SetAside, kit.Line, criteria.QSubstance, spilled("paint", "splash", kit.SaidYes, "pes")},
	{"harmless, but one layer is not known", "R-10", derived, "2", "contaminant.no-rule", kit.SetAside, kit.Line, criteria.QSubstance,
		spilled("fuel", "splash", kit.SaidYes, "pes", "unknown")},
	{"harmless, not washed", "C-31", "SEEN", "2", "contaminant.wash", kit.SetAside, kit.Line, criteria.QWash, spilled("fuel", "splash", kit.NotSaid, "pes")},
	{"diameter down 10 % on its first record", "K-LI-ABS", "PROPOSED", "2", "reading.change", kit.SetAside, kit.Line, criteria.QMeasure, thinner(10530)},
	{"kind that the tables do not hold", "R-03", derived, "2", "kind.unknown", kit.SetAside, kit.Connector, criteria.QKind, piece(func(p *kit.Piece) { p.Kind = "odd" })},
	// Row 3.
	{"manufacture not known", "L-12", "PROPOSED", "3", "manufacture.unknown", kit.SetAside, kit.Line, criteria.QManufacture, piece(func(p *kit.Piece) { p.Made = qty.PartialDate{} })},
	{"manufacture not known, second-hand", "L-12", "SEEN", "3", "manufacture.untraced", kit.Withdraw, kit.Line, criteria.QManufacture,
		piece(func(p *kit.Piece) { p.Made, p.Origin = qty.PartialDate{}, "second-hand" })},
	{"manufacture not known, second-hand, traced", "L-12", "PROPOSED", "3", "manufacture.unknown", kit.SetAside, kit.Line, criteria.QManufacture,
		piece(func(p *kit.Piece) { p.Made, p.Origin, p.Traced = qty.PartialDate{}, "second-hand", "maker's letter" })},
	{"no date at all", "L-12", "SEEN", "3", "manufacture.untraced", kit.Withdraw, kit.Line, criteria.QManufacture,
		piece(func(p *kit.Piece) {
			p.Made, p.Bought, p.FirstUse = qty.PartialDate{}, qty.PartialDate{}, qty.PartialDate{}
		})},
	{"too long in store before first use", "M-01", practice, "3", "life.stored", kit.SetAside, kit.Bridge, criteria.QStorage,
		piece(func(p *kit.Piece) { p.Made, p.Bought, p.FirstUse = date("2023-05-31"), date("2023-07-01"), date(today) })},
	// Row 4: more in looks_test.go.
	{"a required look not made", "M-24", practice, "4", "look.not-made", kit.SetAside, kit.Bridge, criteria.QLook,
		func(_ *table.Tables, r *kit.Record) { last(r).Looks = last(r).Looks[:5] }},
	{"a question not answered", "M-24", "W-10", "4", "ask.unanswered", kit.SetAside, kit.Bridge, criteria.QAsk,
		func(_ *table.Tables, r *kit.Record) { delete(last(r).Asked, "fall") }},
	{"a question that nobody can answer", "M-24", "R-03", "4", "ask.not-known", kit.SetAside, kit.Bridge, criteria.QAsk, told1("fall", kit.NotKnown)},
	{"no examination on record", "M-24", "R-03", "4", "look.no-examination", kit.SetAside, kit.Connector, criteria.QExamine,
		func(_ *table.Tables, r *kit.Record) {
			r.Examinations, r.Piece.Examined, r.Piece.ExaminationFrom = nil, date("2026-05-01"), "report"
		}},
	// Row 6a.
	{"washed out and harmless", "C-31", "SEEN; R-10", "6a", "contaminant.washed", kit.KeepSooner, kit.Line, "", spilled("fuel", "splash", kit.SaidYes, "pes", "pa")},
	{"resin on a bridge is no contaminant", "R-09", "M-30 " + practice, "6a", "contaminant.washed", kit.KeepSooner, kit.Bridge, "", spilled("resin", "splash", kit.NotSaid, "pes")},
	{"water is none", "", "M-30 " + practice, "", "", kit.Keep, kit.Bridge, "", spilled("water", "soaked", kit.NotSaid, "pes")},
	{"connector dropped", "E-63", "SEEN 2nd-hand", "6a", "event.sooner", kit.KeepSooner, kit.Connector, "",
		func(_ *table.Tables, r *kit.Record) {
			r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: "dropped"}}
		}},
	{"hitch cord of 8 mm nominal", "", "D-66 SEEN", "", "", kit.Keep, kit.HitchCord, "", piece(func(p *kit.Piece) { p.Diameter = 8000 })},
	{"line 6 % longer", "K-LI-WEIGH", "E-34 SEEN", "6a", "reading.change", kit.KeepSooner, kit.Line, "",
		func(t *table.Tables, r *kit.Record) {
			old := exam(t, kit.Line, kit.Thorough, "2025-12-01")
			measure(&old, "length", kit.Place{Whole: true}, 45_000_000)
			r.Examinations = append([]kit.Examination{old}, r.Examinations...)
			measure(last(r), "length", kit.Place{Whole: true}, 47_700_000)
		}},
	// Signs only to be weighed, and conditions not met, are no reason here.
	{"sign to be weighed", "", "M-03 " + practice, "", "", kit.Keep, kit.Bridge, "", seen("grey", at(400, 500))},
}

// thinner measures a line at 11.7 mm and later, at the same place, thinner.
func thinner(micrometres int) func(*table.Tables, *kit.Record) {
	return func(t *table.Tables, r *kit.Record) {
		old := exam(t, r.Piece.Kind, kit.Thorough, "2025-12-01")
		measure(&old, "diameter", at(5000, 5050), 11700)
		r.Examinations = append([]kit.Examination{old}, r.Examinations...)
		measure(last(r), "diameter", at(5000, 5050), micrometres)
	}
}

// examined leaves only a look before use today, with the last thorough
// examination on that day before the record, or never.
func examined(on string) func(*table.Tables, *kit.Record) {
	return func(_ *table.Tables, r *kit.Record) {
		r.Examinations = []kit.Examination{exam(small(), r.Piece.Kind, kit.PreUse, today)}
		r.Piece.Examined = qty.PartialDate{}
		if on != "" {
			r.Piece.Examined, r.Piece.ExaminationFrom = date(on), "report"
		}
	}
}

func TestRules(t *testing.T) {
	for _, c := range rules {
		t.Run(c.name, func(t *testing.T) {
			tb := small()
			r := good(tb, c.kind)
			if c.kind == kit.HitchCord {
				r.Piece.FirstUse = date("2026-01-10")
			}
			c.facts(tb, r)
			res := criteria.Judge(tb, r)
			if res.Verdict() != c.want {
				t.Fatalf("outcome %v, want %v by %s (%s): %v", res.Verdict(), c.want, c.line, c.mark, told(res))
			}
			if c.key == "" {
				if len(res.Reasons) != 0 {
					t.Fatalf("reasons where there should be none: %v", told(res))
				}
				return
			}
			x := find(res, c.key, c.line)
			if x == nil || x.Verdict != c.want || x.Row != c.row || x.Question != c.question {
				t.Fatalf("want row %s %s by %s asking %q, got %v", c.row, c.key, c.line, c.question, told(res))
			}
			if x.Lines[0] != c.line {
				t.Errorf("lines %v do not begin with %s", x.Lines, c.line)
			}
			if res.Held != (c.key == "event.injury") {
				t.Errorf("held is %v", res.Held)
			}
		})
	}
}

// TestAnswers holds which answers lift which question, and that rows 1 to 4
// take no other one. Every answer is by a competent person unless said.
func TestAnswers(t *testing.T) {
	cases := []struct {
		rule string
		to   string
		doc  string
		on   string
		want kit.Verdict
	}{
		{"marking unreadable, nothing proves it", criteria.QIdentity, "letter", today, kit.Keep},
		{"marking unreadable, nothing proves it", criteria.QHistory, "letter", today, kit.Withdraw},
		{"nobody knows whether it is allowed there", criteria.QAssembly, "maker's letter", today, kit.Keep},
		{"nobody knows whether it is allowed there", criteria.QAssembly, "", today, kit.SetAside},
		{"not allowed where it is fitted", criteria.QAssembly, "maker's letter", today, kit.SetAside},
		{"history not wholly known", criteria.QHistory, "seller's letter", today, kit.Keep},
		{"declaration not known", criteria.QDeclaration, "declaration of 3 Feb 2025", today, kit.SetAside}, // the interval then runs from first use, and is over
		{"declared more than 12 months before first use", criteria.QDeclaration, "declaration", today, kit.SetAside},
		{"from another yard without proof", criteria.QProof, "report", today, kit.Keep},
		{"fall on metal", "e1", "release", today, kit.Keep},
		{"fall on metal", criteria.QRelease, "release", "2026-05-19", kit.SetAside},
		{"fall on textile", "e1", "release", today, kit.Withdraw},
		{"flood", "e1", "", today, kit.SetAside},
		{"flood", "e1", "laboratory's letter", today, kit.Keep},
		{"altered, other kinds", "e1", "", today, kit.SetAside},
		{"altered, other kinds", "e1", "maker's letter", today, kit.Keep},
		{"altered bridge", "e1", "maker's letter", today, kit.Withdraw},
		{"unknown substance", criteria.QSubstance, "safety sheet and maker's letter", today, kit.KeepSooner}, // known harmless, no better
		{"unknown substance", criteria.QSubstance, "", today, kit.SetAside},
		{"told of a spill on a bridge", "spill", "safety sheet", today, kit.Withdraw},
		{"absolute sign", "s-soft-place", "letter", today, kit.Withdraw},
		{"sign that sets aside", "s-label-unreadable", "register", today, kit.Keep},
		{"sign that sets aside", "s-label-unreadable", "", today, kit.SetAside},
		{"sudden load, not examined since", "e1", "release", today, kit.SetAside},
		{"a required look not made", criteria.QLook, "letter", today, kit.SetAside},
		{"a question that nobody can answer", "fall", "", today, kit.Keep},
		{"a question that nobody can answer", "spill", "", today, kit.SetAside},
		{"manufacture not known", criteria.QManufacture, "maker's letter", today, kit.SetAside}, // the date itself has to be entered
		{"too long in store before first use", criteria.QStorage, "maker's letter", today, kit.Keep},
		{"overdue by a day", criteria.QThorough, "letter", today, kit.SetAside},
	}
	for _, c := range cases {
		found := false
		for _, x := range rules {
			if x.name != c.rule {
				continue
			}
			found = true
			tb := small()
			r := good(tb, x.kind)
			x.facts(tb, r)
			answer(r, c.on, c.to, c.doc)
			if res := criteria.Judge(tb, r); res.Verdict() != c.want {
				t.Errorf("%s, answer to %s (document %q, %s): %v, want %v: %v", c.rule, c.to, c.doc, c.on, res.Verdict(), c.want, told(res))
			}
		}
		if !found {
			t.Errorf("there is no rule %q", c.rule)
		}
	}
}
