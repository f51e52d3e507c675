package report_test

import (
	"fmt"
	"slices"
	"sync"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

// sample is a record with what the judgement makes of it.
type sample struct {
	name string
	t    *table.Tables
	r    *kit.Record
	o    *decide.Outcome
}

// change is what a sample has beyond a piece in good order.
type change struct {
	name string
	kind kit.KindID
	do   func(r *kit.Record)
}

func of(f func(p *kit.Piece)) func(*kit.Record) { return func(r *kit.Record) { f(&r.Piece) } }

func happened(e kit.Event) func(*kit.Record) {
	return func(r *kit.Record) {
		e.Ref = "e1"
		if e.Day == 0 {
			e.Day = day("2026-06-20")
		}
		r.Events = []kit.Event{e}
	}
}

func spilled(substance, amount string, washed kit.Yes, fibres ...string) func(*kit.Record) {
	return func(r *kit.Record) {
		happened(kit.Event{Event: "spill", Substance: substance, Amount: amount, Washed: washed, At: at(100, 200), PlaceSaid: true})(r)
		r.Piece.Layers = nil
		for _, f := range fibres {
			r.Piece.Layers = append(r.Piece.Layers, kit.Layer{Name: "cover", Fibre: f})
		}
	}
}

func signs(ids ...string) func(*kit.Record) {
	return func(r *kit.Record) {
		for i, id := range ids {
			see(r, fmt.Sprint("s", i+1), id, at(430, 480))
		}
	}
}

// before adds an examination half a month earlier, with signs, and says of each
// in the examination at hand what became of it ("" says nothing).
func before(state kit.SignState, ids ...string) func(*kit.Record) {
	return func(r *kit.Record) {
		old := exam(r.Piece.Kind, kit.Interim, "2026-06-20")
		for i, id := range ids {
			s := kit.Sign{Ref: fmt.Sprint("s", i+1), Sign: id, State: kit.FirstSeen, At: at(430, 480)}
			old.Signs = append(old.Signs, s)
			if state != "" {
				last(r).Signs = append(last(r).Signs, kit.Sign{Ref: s.Ref, State: state})
			}
		}
		r.Examinations = append([]kit.Examination{old}, r.Examinations...)
	}
}

func measured(quantity string, p kit.Place, values ...int64) func(*kit.Record) {
	return func(r *kit.Record) {
		for i, v := range values {
			if i < len(values)-1 {
				old := exam(r.Piece.Kind, kit.Thorough, fmt.Sprintf("2026-0%d-10", i+2))
				old.Readings = []kit.Reading{{Quantity: quantity, At: p, Values: []qty.Length{qty.Length(v)}}}
				r.Examinations = slices.Insert(r.Examinations, len(r.Examinations)-1, old)
				continue
			}
			last(r).Readings = []kit.Reading{{Quantity: quantity, At: p, Values: []qty.Length{qty.Length(v)}}}
		}
	}
}

func answered(cause string) func(*kit.Record) {
	return func(r *kit.Record) {
		r.Answers = []kit.Answer{{Day: day("2026-07-01"), To: "s1", Cause: cause, By: "E. Example", Verified: "washed off"}}
	}
}

func whole(sign string) func(*kit.Record) {
	return func(r *kit.Record) { see(r, "s1", sign, kit.Place{Whole: true}) }
}

// only leaves, of the examination at hand, the looks named.
func only(ids ...kit.LookID) func(*kit.Record) {
	return func(r *kit.Record) {
		last(r).Looks = slices.DeleteFunc(last(r).Looks, func(l kit.Look) bool { return !slices.Contains(ids, l.Look) })
	}
}

func both(list ...func(*kit.Record)) func(*kit.Record) {
	return func(r *kit.Record) {
		for _, f := range list {
			f(r)
		}
	}
}

// partly makes the look by eye go over some of the piece.
func partly(r *kit.Record) {
	for i := range last(r).Looks {
		if last(r).Looks[i].Look == kit.Eye {
			last(r).Looks[i].Covers = []kit.Stretch{{From: 0, To: 300_000}, {From: 500_000, To: 900_000, Sides: []string{"face"}}, {Part: "end A"}}
		}
	}
}

// usedUnseen is a year of hard use with no look before it on record.
func usedUnseen(r *kit.Record) {
	r.Runs, r.Uses[0].From = nil, day("2025-07-05")
	r.Uses[0].Mass, r.Uses[0].Dirt, r.Uses[0].Hardware, r.Uses[0].Week = 110*qty.Kilogram, "sandy", "rough", 40*qty.Hour
	r.Piece.Made, r.Piece.Bought, r.Piece.FirstUse, r.Piece.Declared = date("2025-05"), date("2025-06"), date("2025-07-05"), date("2025-05")
}

var changes = []change{
	{"in good order", kit.Bridge, func(*kit.Record) {}},
	{"a line in good order", kit.Line, func(*kit.Record) {}},
	{"a connector in good order", kit.Connector, func(*kit.Record) {}},
	{"a helmet in good order", kit.Helmet, func(*kit.Record) {}},
	{"a pulley", kit.Pulley, func(*kit.Record) {}},
	{"other kit", kit.Other, func(*kit.Record) {}},
	{"kind not in the tables", kit.Bridge, of(func(p *kit.Piece) { p.Kind = "odd" })},
	{"kind and law not known", kit.Bridge, func(r *kit.Record) { r.Piece.Kind, r.Yard.Country = "odd", "" }},
	{"proof of identity", kit.Harness, of(func(p *kit.Piece) { p.Marking, p.Proof = "unreadable", "the register" })},
	{"marking in part", kit.Harness, of(func(p *kit.Piece) { p.Marking = "partly" })},
	{"marking not spoken of", kit.Harness, of(func(p *kit.Piece) { p.Marking = "" })},
	{"not allowed there", kit.Bridge, of(func(p *kit.Piece) { p.Fitted.Allowed = kit.SaidNo })},
	{"perhaps allowed there", kit.Connector, of(func(p *kit.Piece) { p.Fitted.Allowed = kit.NotKnown })},
	{"fitted nowhere", kit.Bridge, of(func(p *kit.Piece) { p.Fitted = kit.Fitted{} })},
	{"history unknown", kit.Sling, of(func(p *kit.Piece) { p.History, p.Origin = "not wholly known", "second-hand" })},
	{"history unknown, origin not said", kit.Sling, of(func(p *kit.Piece) { p.History, p.Origin = "", "" })},
	{"found", kit.Sling, of(func(p *kit.Piece) { p.Origin = "found" })},
	{"history traced", kit.Sling, of(func(p *kit.Piece) { p.History, p.Traced = "not wholly known", "letter 7" })},
	{"from another yard", kit.Lanyard, both(only(kit.Eye), of(func(p *kit.Piece) { p.Origin = "other yard" }))},
	{"declaration old", kit.Connector, both(only(kit.Eye), of(func(p *kit.Piece) { p.Declared = date("2024-03") }))},
	{"declaration unknown", kit.Connector, both(only(kit.Eye), of(func(p *kit.Piece) { p.Declared = qty.PartialDate{} }))},
	{"made unknown", kit.Line, of(func(p *kit.Piece) { p.Made = qty.PartialDate{} })},
	{"made unknown, second-hand", kit.Line, of(func(p *kit.Piece) { p.Made, p.Origin = qty.PartialDate{}, "second-hand" })},
	{"no date at all", kit.HitchCord, of(func(p *kit.Piece) {
		p.Made, p.Bought, p.FirstUse, p.Declared = qty.PartialDate{}, qty.PartialDate{}, qty.PartialDate{}, qty.PartialDate{}
	})},
	{"life ended", kit.Bridge, of(func(p *kit.Piece) { p.Made, p.FirstUse = date("2019"), date("2020-02") })},
	{"life by its maker ended", kit.Bridge, of(func(p *kit.Piece) { p.MakerFromUse, p.MakerDocument = 3, "booklet 1" })},
	{"life marked", kit.Helmet, of(func(p *kit.Piece) { p.Obsolete = date("2027-05") })},
	{"life by its maker", kit.Bridge, of(func(p *kit.Piece) { p.MakerFromUse, p.MakerDocument = 24, "booklet 1" })},
	{"long in store", kit.Bridge, of(func(p *kit.Piece) {
		p.Made, p.Bought, p.FirstUse = date("2022-05-31"), date("2022-07-01"), date("2026-07-05")
	})},
	{"overdue", kit.Line, func(r *kit.Record) { r.AsOf = day("2027-02-01") }},
	{"overdue by a scheme", kit.Line, func(r *kit.Record) {
		r.AsOf, r.Yard.Scheme = day("2027-02-01"), kit.Scheme{Every: 3, Document: "scheme 2", By: "C"}
	}},
	{"overdue by an examiner's date", kit.Line, func(r *kit.Record) { r.AsOf, last(r).Latest = day("2026-11-01"), date("2026-10-01") }},
	{"overdue, law not known", kit.Line, func(r *kit.Record) { r.AsOf, r.Yard.Country = day("2027-02-01"), "" }},
	{"never examined, law not known", kit.Line, both(only(kit.Eye), func(r *kit.Record) { r.Piece.Origin, r.Yard.Country = "second-hand", "" })},
	{"examiner's date, law not known", kit.Line, func(r *kit.Record) { last(r).Latest, r.Yard.Country = date("2026-10-01"), "" }},
	{"other kit, law not known", kit.Other, func(r *kit.Record) { r.Yard.Country = "" }},
	{"never examined", kit.Line, both(only(kit.Eye), of(func(p *kit.Piece) { p.Origin = "second-hand" }))},
	{"examiner's date passed", kit.Line, func(r *kit.Record) {
		old := exam(kit.Line, kit.Interim, "2026-05-05")
		old.Latest = date("2026-06")
		r.Examinations = []kit.Examination{old}
	}},
	{"examiner's date", kit.Line, func(r *kit.Record) { last(r).Latest = date("2026-10-01") }},
	{"rigging", kit.Rigging, func(r *kit.Record) { r.Yard.Country = "" }},
	{"absorber in the US", kit.Absorber, func(r *kit.Record) { r.Yard.Country = "US" }},
	{"written scheme", kit.Line, func(r *kit.Record) { r.Yard.Scheme = kit.Scheme{Every: 3, Document: "scheme 2", By: "C"} }},
	{"no examination", kit.Connector, func(r *kit.Record) { r.Examinations = nil }},
	{"a look left out", kit.Bridge, only(kit.Ask, kit.Read, kit.Eye, kit.Hand)},
	{"a stretch left out", kit.Bridge, partly},
	{"length unknown", kit.Bridge, both(partly, of(func(p *kit.Piece) { p.Length = 0 }))},
	{"a question left open", kit.Bridge, func(r *kit.Record) { delete(last(r).Asked, "fall") }},
	{"answer not known", kit.Bridge, func(r *kit.Record) { last(r).Asked["fall"] = kit.NotKnown }},
	{"would not climb", kit.Connector, func(r *kit.Record) { last(r).WouldClimb = kit.SaidNo }},
	{"not sure", kit.Connector, func(r *kit.Record) { last(r).WouldClimb = kit.NotKnown }},
	{"found not fit", kit.Ring, func(r *kit.Record) {
		r.Answers = []kit.Answer{{Day: day("2026-07-01"), To: "x", By: "C", Unfit: true}}
	}},
	{"injury", kit.Connector, happened(kit.Event{Event: "washing", Injury: true})},
	{"event not in the tables", kit.Sling, happened(kit.Event{Event: "odd", At: at(10, 20), PlaceSaid: true})},
	{"a fall", kit.Bridge, happened(kit.Event{Event: "fall", Travel: -1, Peak: -1})},
	{"a fall on metal", kit.Connector, happened(kit.Event{Event: "fall", Travel: qty.Metre, Peak: 0.1})},
	{"a saw", kit.Line, happened(kit.Event{Event: "saw-contact", At: at(12_000, 12_050), PlaceSaid: true})},
	{"a sudden load", kit.Line, both(happened(kit.Event{Event: "sudden-load", Travel: 100_000, Peak: 0.1, Day: day("2026-07-05")}))},
	{"dropped", kit.Connector, happened(kit.Event{Event: "dropped"})},
	{"dropped, not looked at", kit.Connector, happened(kit.Event{Event: "dropped", Day: day("2026-07-05")})},
	{"dropped, date passed", kit.Connector, both(happened(kit.Event{Event: "dropped"}), func(r *kit.Record) { r.AsOf = day("2026-12-30") })},
	{"told of a spill", kit.Line, func(r *kit.Record) { last(r).Asked["spill"] = kit.SaidYes }},
	{"oil on a bridge", kit.Bridge, spilled("chain-oil", "splash", kit.SaidYes, "pes", "pa")},
	{"suspicion on a cord", kit.HitchCord, spilled("fuel", "suspected", kit.NotSaid, "pes")},
	{"acid", kit.Line, spilled("battery-acid", "", kit.SaidYes, "pes", "pa")},
	{"unknown substance", kit.Line, spilled("", "soaked", kit.SaidYes)},
	{"no rule for it", kit.Line, spilled("fuel", "splash", kit.SaidYes, "pes", "unknown")},
	{"fuel not washed out", kit.Line, spilled("fuel", "splash", kit.NotSaid, "pes")},
	{"fuel washed out", kit.Line, spilled("fuel", "splash", kit.SaidYes, "pes")},
	{"fuel washed out, not looked at", kit.Line, both(spilled("fuel", "splash", kit.SaidYes, "pes"), func(r *kit.Record) { r.Events[0].Day = day("2026-07-05") })},
	{"fuel washed out, date passed", kit.Line, both(spilled("fuel", "splash", kit.SaidYes, "pes"), func(r *kit.Record) { r.AsOf = day("2026-12-30") })},
	{"a soft place", kit.Bridge, signs("soft-place")},
	{"a label that cannot be read", kit.Harness, func(r *kit.Record) { see(r, "", "label-unreadable", kit.Place{Part: "labels"}) }},
	{"a sign not in the tables", kit.Harness, func(r *kit.Record) { see(r, "", "odd", kit.Place{Part: "waist", Sides: []string{"face"}}) }},
	{"grey in the travel", kit.Bridge, signs("grey")},
	{"a dip", kit.Bridge, signs("dip")},
	{"resin beyond its end", kit.Bridge, func(r *kit.Record) { see(r, "s1", "resin-stain", at(1000, 1010)) }},
	{"a dip, in a yard with a strict limit", kit.Bridge, both(signs("dip"), func(r *kit.Record) { r.Yard.Limit = 25 })},
	{"a limit that nothing meets", kit.Line, func(r *kit.Record) { r.Yard.Limit = 1 }},
	{"a pair", kit.Bridge, signs("dip", "resin-stain")},
	{"grown", kit.Line, before(kit.Grown, "dent")},
	{"the same", kit.Line, before(kit.Same, "resin-stain")},
	{"the same with an answer", kit.Line, both(before(kit.Same, "resin-stain"), answered("sap"))},
	{"not spoken of", kit.Line, before("", "resin-stain")},
	{"a sign that sets aside", kit.Line, signs("smell")},
	{"many signs in one place", kit.Bridge, signs("heavy-fuzz", "dip", "lump", "limp-stretch", "flattened", "pinch", "bight-uneven", "nick", "shiny",
		"resin-stain", "dirty", "grey", "mildew", "stiff-stretch", "inside-outside")},
	{"a dirty helmet's scratch", kit.Helmet, whole("scratches")},
	{"rough pulley", kit.Pulley, whole("rough-running")},
	{"side play", kit.Pulley, whole("side-play")},
	{"rough pulley, its cause found", kit.Pulley, both(whole("rough-running"), func(r *kit.Record) {
		r.Answers = []kit.Answer{{Day: r.AsOf, To: "s1", Cause: "dry-bearing", By: "E. Example", Verified: "runs smoothly with a drop of oil"}}
	})},
	{"a helmet's scratch, grown", kit.Helmet, both(before(kit.Grown, "scratches"))},
	{"an answer", kit.Bridge, both(before(kit.GoneWash, "resin-stain"), answered("sap"))},
	{"worn metal", kit.Connector, measured("groove", kit.Place{Part: "body"}, 200, 400)},
	{"worn metal, date passed", kit.Connector, both(measured("groove", kit.Place{Part: "body"}, 200, 400), func(r *kit.Record) { r.AsOf = day("2030-01-01") })},
	{"worn metal, at the limit", kit.Connector, measured("groove", kit.Place{Part: "body"}, 200, 1200)},
	{"thin at its groove", kit.Connector, measured("section", kit.Place{Part: "body"}, 10_000, 8_000)},
	{"far from its label", kit.Bridge, both(measured("diameter", at(450, 450), 8_000), func(r *kit.Record) { r.Piece.Diameter = 12_600 })},
	{"thinner", kit.Line, measured("diameter", at(10_000, 10_050), 11_700, 9_360)},
	{"cord of no diameter said", kit.HitchCord, of(func(p *kit.Piece) { p.Diameter = 0 })},
	{"end of nothing said", kit.Bridge, of(func(p *kit.Piece) { p.EndA = kit.End{} })},
	{"knot of no tail said", kit.Bridge, of(func(p *kit.Piece) { p.EndA = kit.End{How: "knot", Stitch: "whole"} })},
	{"knot of no stitch said", kit.Bridge, of(func(p *kit.Piece) { p.EndB = kit.End{How: "knot", Tail: 90 * qty.Millimetre} })},
	{"whether they would climb not said", kit.Bridge, func(r *kit.Record) { last(r).WouldClimb = kit.NotSaid }},
	{"tail too short", kit.Bridge, of(func(p *kit.Piece) { p.EndA = kit.End{How: "knot", Tail: 50 * qty.Millimetre} })},
	{"stitch cut", kit.Bridge, of(func(p *kit.Piece) { p.EndB.Stitch = "cut" })},
	{"no daily looks", kit.Bridge, func(r *kit.Record) {
		r.Runs, r.Examinations = nil, []kit.Examination{exam(kit.Bridge, kit.PreUse, "2026-07-05")}
	}},
	{"no daily looks, a line", kit.Line, func(r *kit.Record) {
		r.Runs, r.Examinations = nil, []kit.Examination{exam(kit.Line, kit.PreUse, "2026-07-05")}
	}},
	{"no looks before use on record", kit.Bridge, usedUnseen},
	{"no looks before use on record, a connector", kit.Connector, usedUnseen},
	{"ten years of hard use with no look", kit.Bridge, func(r *kit.Record) {
		usedUnseen(r)
		r.Uses[0].From, r.Examinations = day("2016-07-05"), []kit.Examination{exam(kit.Bridge, kit.PreUse, "2016-07-05")}
		r.Piece.Made, r.Piece.Bought, r.Piece.FirstUse, r.Piece.Declared = date("2016-05"), date("2016-06"), date("2016-07-05"), date("2016-05")
	}},
	{"uneven to the hand", kit.Line, signs("uneven-feel")},
	{"looks before use, and still over", kit.Connector, func(r *kit.Record) { r.Yard.Limit = 1 }},
	{"use unknown", kit.Bridge, func(r *kit.Record) { r.Uses, r.Piece.Length = nil, 0 }},
	{"use unknown in part", kit.Bridge, func(r *kit.Record) { r.Uses = []kit.Use{{From: day("2026-01-05"), Week: -1}} }},
	{"hard use", kit.Bridge, func(r *kit.Record) {
		r.Uses[0].Mass, r.Uses[0].Dirt, r.Uses[0].Hardware, r.Uses[0].Week = 110*qty.Kilogram, "sandy", "rough", 40*qty.Hour
	}},
	{"examined by a climber", kit.Bridge, func(r *kit.Record) { r.People[0].Role = "climber" }},
	{"not signed", kit.Harness, func(r *kit.Record) { last(r).SignedBy = "" }},
	{"examined by its climber", kit.Line, func(r *kit.Record) { r.People[0].Holds = true }},
	{"answers that lift nothing", kit.Bridge, both(signs("stiffer"), func(r *kit.Record) {
		r.Answers = []kit.Answer{{Day: r.AsOf, To: "s1", Cause: "bedding", Verified: "felt again"}, {Day: r.AsOf, To: "s1", Cause: "bedding", By: "A", Verified: "felt again"}}
	})},
	{"explained, its day passed", kit.Line, both(signs("heavy-fuzz"), answered("use-rub"), func(r *kit.Record) {
		r.Yard.Country, r.Examinations[0].Day = "EU", day("2026-01-05")
		r.Answers[0].Day, r.AsOf = day("2026-01-05"), day("2026-07-10")
		r.Examinations = append(r.Examinations, exam(kit.Line, kit.PreUse, "2026-07-10"))
	})},
	{"in store", kit.Sling, func(r *kit.Record) {
		r.Uses, r.Piece.StoredIn = []kit.Use{{From: day("2026-01-05"), Store: true}}, "store"
	}},
}

// samples judges every change once.
var samples = sync.OnceValue(func() []sample {
	t := tables.Default()
	var out []sample
	put := func(name string, t *table.Tables, r *kit.Record) {
		o := decide.Decide(t, r, decide.Ask{Explain: true})
		out = append(out, sample{name, t, r, &o})
	}
	for _, c := range changes {
		r := piece(c.kind)
		c.do(r)
		put(c.name, t, r)
	}
	// What the built-in tables do not lead to.
	put("no looks named", altered(t, kit.Connector, func(_ *table.Tables, k *table.Kind) { k.Needs = nil }), piece(kit.Connector))
	r := piece(kit.Helmet)
	whole("scratches")(r)
	put("a sign without causes", altered(t, kit.Helmet, func(_ *table.Tables, k *table.Kind) { k.Sign("scratches").Causes = nil }), r)
	r = piece(kit.Line)
	spilled("fuel", "splash", kit.SaidYes, "pes")(r)
	put("no rule for a substance", altered(t, kit.Line, func(t *table.Tables, _ *table.Kind) { t.Effects = nil }), r)
	put("a record that cannot be so", altered(t, kit.Bridge, certain), piece(kit.Bridge))
	return out
})

// altered gives a copy of the tables with something changed about one kind.
func altered(t *table.Tables, id kit.KindID, f func(*table.Tables, *table.Kind)) *table.Tables {
	c := *t
	c.Kinds = slices.Clone(t.Kinds)
	c.Index()
	k := c.Kind(id)
	k.Modes, k.Signs = slices.Clone(k.Modes), slices.Clone(k.Signs)
	f(&c, k)
	return &c
}

// certain makes a piece unfit from the first day, in a way that looks never
// miss: a record on which nothing was seen cannot be so.
func certain(t *table.Tables, k *table.Kind) {
	var m *table.Mode
	for i := range k.Modes {
		if m == nil && k.Modes[i].Scope == "whole" {
			m = &k.Modes[i]
		}
	}
	m.New1, m.New2, m.Hidden = 0, 1, 0
	for i := range k.Signs {
		if s := &k.Signs[i]; len(s.Looks) > 0 && s.Looks[0] == kit.Eye {
			s.Links = []table.Link{{Mode: m.ID, Q1: 1, Q2: 1}}
		}
	}
	t.Looks = slices.Clone(t.Looks)
	for i := range t.Looks {
		l := &t.Looks[i]
		l.Kappa, l.Factors = slices.Clone(l.Kappa), slices.Clone(l.Factors)
		for n := range l.Kappa {
			l.Kappa[n].K = 1
		}
		for n := range l.Factors {
			l.Factors[n].F = 1
		}
	}
}
