package criteria_test

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Small tables, built here so that the rules are tested on figures that stand
// beside the test. They follow tables/lines.toml: each row names its lines.

func cite(status table.Status, lines ...string) table.Cite {
	return table.Cite{Source: lines, Place: "the lines named", Status: status}
}

func pub(lines ...string) table.Cite { return cite(table.Published, lines...) }

// needs asks for the looks of a kind of examination, everywhere.
func needs(cover float64, exam kit.ExamKind, looks ...kit.LookID) []table.Need {
	var out []table.Need
	for _, l := range looks {
		out = append(out, table.Need{Exam: exam, Look: l, Cover: cover, Cite: pub("D-04")})
	}
	return out
}

func ropeNeeds() []table.Need {
	n := needs(0.8, kit.PreUse, kit.Ask, kit.Eye, kit.Hand, kit.Ends)
	n = append(n, needs(0.8, kit.Partner, kit.Eye, kit.Hand)...)
	n = append(n, needs(1, kit.Interim, kit.Ask, kit.Read, kit.Eye, kit.Hand, kit.Bight, kit.Ends)...)
	return append(n, needs(1, kit.Thorough, kit.Ask, kit.Read, kit.Eye, kit.Hand, kit.Bight, kit.Ends)...)
}

func partNeeds() []table.Need {
	n := needs(1, kit.PreUse, kit.Ask, kit.Eye)
	n = append(n, needs(1, kit.Partner, kit.Eye)...)
	n = append(n, needs(1, kit.Interim, kit.Ask, kit.Read, kit.Eye, kit.Work)...)
	return append(n, needs(1, kit.Thorough, kit.Ask, kit.Read, kit.Eye, kit.Work)...)
}

func asks() []table.Ask {
	return []table.Ask{
		{ID: "fall", Words: "Did it hold a fall?", Yes: "fall", Cite: pub("E-10", "W-10")},
		{ID: "spill", Words: "Did anything get on it?", Yes: "spill", Cite: pub("R-10")},
		{ID: "idle", Words: "Was it long out of use?", Yes: "long-out-of-use", Cite: pub("D-10")},
	}
}

func ends() []table.Part {
	return []table.Part{{ID: "end A", End: "A", Extent: 60 * qty.Millimetre}, {ID: "end B", End: "B", Extent: 60 * qty.Millimetre}}
}

func rope(id kit.KindID, cell, length qty.Length, signs ...table.Sign) table.Kind {
	return table.Kind{ID: id, Group: "textile", Axis: "length", Cell: cell, Length: length, Sides: []string{"top", "under"},
		Parts: ends(), Needs: ropeNeeds(), Asks: asks(), Signs: signs, Reads: []table.Quantity{diameter()}, Cite: pub("K-LI-parts")}
}

func parted(id kit.KindID, group string, parts []string, signs ...table.Sign) table.Kind {
	k := table.Kind{ID: id, Group: group, Axis: "parts", Needs: partNeeds(), Asks: asks(), Signs: signs}
	for _, p := range parts {
		k.Parts = append(k.Parts, table.Part{ID: p})
	}
	return k
}

func sign(id string, class table.Class, lines ...string) table.Sign {
	return table.Sign{ID: id, Words: id, Class: class, Lines: lines, Cite: pub(lines...), Question: "question of " + id}
}

func diameter() table.Quantity {
	return table.Quantity{ID: "diameter", Basis: "own", Error: 100, Out: -60, Sign: "out-of-range", Limits: []table.Limit{
		{Share: -100, Below: true, Verdict: kit.SetAside, Lines: []string{"K-LI-ABS"}, Cite: cite(table.Assumed, "K-LI-ABS")},
		{Share: -200, Below: true, Verdict: kit.Withdraw, Lines: []string{"K-LI-ABS", "E-31"}, Cite: pub("K-LI-ABS", "E-31")},
	}}
}

func groove() table.Quantity {
	return table.Quantity{ID: "groove", Words: "groove", Basis: "absolute", Error: 50, Grows: true, Limits: []table.Limit{
		{At: qty.Millimetre, Verdict: kit.Withdraw, Lines: []string{"K-CO-ABS", "E-35"}, Cite: pub("K-CO-ABS", "E-35")},
	}}
}

func edgeCut() table.Quantity {
	return table.Quantity{ID: "edge-cut", Basis: "absolute", Error: 100, Limits: []table.Limit{
		{At: qty.Millimetre, Verdict: kit.Withdraw, Lines: []string{"K-HA-ABS", "E-02", "E-07"}, Cite: pub("K-HA-ABS", "E-02", "E-07")},
	}}
}

func effect(substance string, verdict kit.Verdict, fibres, amounts []string, lines ...string) table.Effect {
	return table.Effect{Contaminant: substance, Fibres: fibres, Amounts: amounts, Verdict: verdict,
		Wash: verdict != kit.Withdraw, Lines: lines, Cite: pub(lines...)}
}

func onEvent(verdict kit.Verdict, groups []string, lines ...string) table.EventEffect {
	return table.EventEffect{Groups: groups, Verdict: verdict, Lines: lines, Cite: pub(lines...), Question: "what happened then?"}
}

var (
	textile = []string{"textile"}
	hard    = []string{"metal", "device"}
	all     = []string{"textile", "metal", "device", "helmet"}
)

var persons = []kit.KindID{kit.Bridge, kit.Harness, kit.Line, kit.Lanyard, kit.HitchCord, kit.Sling, kit.Connector, kit.Device}

func small() *table.Tables {
	bridge := rope(kit.Bridge, 50*qty.Millimetre, 900*qty.Millimetre,
		sign("soft-place", table.Absolute, "K-BR-ABS", "E-13", "E-64"),
		sign("knot-wrong", table.Aside, "E-20", "D-77"),
		sign("grey", table.Weigh, "M-03"),
		sign("tail-short", table.Absolute, "K-BR-ABS"))
	bridge.Strict, bridge.Fitted = true, true
	bridge.Reads = append(bridge.Reads, table.Quantity{ID: "tail", Basis: "own", Error: 2000, Out: -400, Sign: "tail-short", Limits: []table.Limit{
		{At: 50 * qty.Millimetre, Below: true, Verdict: kit.Withdraw, Lines: []string{"K-BR-ABS"}, Cite: cite(table.Assumed, "K-BR-ABS")}}})
	cord := rope(kit.HitchCord, 50*qty.Millimetre, 800*qty.Millimetre, sign("glazed", table.Absolute, "K-HC-ABS", "E-07"))
	cord.Strict = true
	cord.Reads = append(cord.Reads, table.Quantity{ID: "nominal", Basis: "absolute", Limits: []table.Limit{
		{At: 7999, Below: true, Verdict: kit.Withdraw, Lines: []string{"K-HC-ABS", "D-66"}, Cite: pub("K-HC-ABS", "D-66")}}})
	old := sign("furred", table.Aside, "K-SL-ASIDE", "E-53", "R-03")
	old.ByFibre, old.AfterUse, old.With = []string{"hmpe"}, 36, []string{"darkened"}
	line := rope(kit.Line, 500*qty.Millimetre, 45*qty.Metre)
	line.Reads = append(line.Reads, table.Quantity{ID: "length", Basis: "own", Limits: []table.Limit{
		{Share: 60, Verdict: kit.KeepSooner, Lines: []string{"K-LI-WEIGH", "E-34"}, Cite: pub("K-LI-WEIGH", "E-34")}}})
	sling := rope(kit.Sling, 50*qty.Millimetre, 1200*qty.Millimetre, old, sign("darkened", table.Weigh, "K-SL-WEIGH"))
	harness := parted(kit.Harness, "textile", []string{"waist", "leg left", "leg right"},
		sign("edge-cut", table.Absolute, "K-HA-ABS", "E-02", "E-07", "D-97"), sign("label-unreadable", table.Aside, "K-HA-ASIDE", "R-04"))
	harness.Reads = []table.Quantity{edgeCut()}
	connector := parted(kit.Connector, "metal", []string{"body", "gate"}, sign("crack", table.Absolute, "K-CO-ABS"), sign("sluggish", table.Aside, "K-CO-ASIDE", "R-03"))
	connector.Reads = []table.Quantity{groove(),
		{ID: "section", Basis: "own", Error: 50, Grows: true, Limits: []table.Limit{
			{Share: -100, Below: true, Verdict: kit.Withdraw, Lines: []string{"K-CO-ABS", "E-35"}, Cite: pub("K-CO-ABS", "E-35")}}}}
	t := &table.Tables{
		Kinds: []table.Kind{bridge, cord, sling, harness, connector,
			line, rope(kit.Lanyard, 250*qty.Millimetre, 5*qty.Metre),
			parted(kit.Device, "device", []string{"frame", "cam"}), parted(kit.Helmet, "helmet", []string{"shell", "liner"})},
		Fibres: []table.Fibre{{ID: "pa"}, {ID: "pes"}, {ID: "hmpe"}, {ID: "aramid"}, {ID: "aluminium", Metal: true}, {ID: "steel", Metal: true}},
		Contaminants: []table.Contaminant{{ID: "fuel"}, {ID: "battery-acid"}, {ID: "alkali"}, {ID: "chain-oil"}, {ID: "paint"},
			{ID: "unknown"}, {ID: "water", Harmless: true}, {ID: "resin", Harmless: true}},
		Effects: []table.Effect{
			effect("fuel", kit.KeepSooner, []string{"pa", "pes"}, []string{"suspected", "splash"}, "C-31", "R-10"),
			effect("fuel", kit.SetAside, []string{"pa", "pes"}, []string{"soaked"}, "C-31"),
			effect("battery-acid", kit.Withdraw, []string{"pa", "unknown"}, nil, "C-32", "C-20"),
			effect("battery-acid", kit.SetAside, []string{"pes", "hmpe"}, nil, "C-32"),
			effect("alkali", kit.Withdraw, []string{"pes"}, []string{"soaked"}, "C-33"),
			effect("alkali", kit.SetAside, []string{"pes"}, []string{"suspected", "splash"}, "C-33"),
			effect("alkali", kit.SetAside, []string{"pa", "unknown"}, nil, "C-33"),
			effect("alkali", kit.KeepSooner, []string{"hmpe"}, nil, "C-22"),
			effect("chain-oil", kit.KeepSooner, []string{"pa", "pes", "hmpe"}, []string{"suspected", "splash"}, "C-30", "R-10"),
			effect("unknown", kit.SetAside, nil, nil, "R-10"),
			effect("water", kit.Keep, nil, nil, "M-30"),
			effect("resin", kit.KeepSooner, nil, nil, "R-09"),
		},
		Events: []table.Event{
			{ID: "fall", Effects: []table.EventEffect{onEvent(kit.Withdraw, textile, "R-02", "E-10"), onEvent(kit.SetAside, hard, "R-02", "D-76", "D-92")}},
			{ID: "sudden-load", Effects: []table.EventEffect{onEvent(kit.SetAside, []string{"textile", "metal", "device"}, "R-05", "D-07")}},
			{ID: "load-dropped", Effects: []table.EventEffect{onEvent(kit.Withdraw, textile, "R-02", "E-10"), onEvent(kit.SetAside, hard, "R-02", "D-76")}},
			{ID: "saw-contact", Effects: []table.EventEffect{onEvent(kit.Withdraw, textile, "M-02"), onEvent(kit.SetAside, hard, "M-02", "R-03")}},
			{ID: "altered", Effects: []table.EventEffect{onEvent(kit.SetAside, all, "R-11", "D-77"),
				{Kinds: []kit.KindID{kit.Bridge, kit.HitchCord}, Verdict: kit.Withdraw, Lines: []string{"R-11", "D-77"}, Cite: pub("R-11", "D-77")}}},
			{ID: "long-out-of-use", Effects: []table.EventEffect{onEvent(kit.SetAside, all, "D-10", "R-05")}},
			{ID: "repaired", Effects: []table.EventEffect{onEvent(kit.SetAside, all, "D-10", "D-77", "R-05")}},
			{ID: "flood", Effects: []table.EventEffect{onEvent(kit.SetAside, all, "R-10", "R-03")}},
			{ID: "dropped", Effects: []table.EventEffect{onEvent(kit.KeepSooner, []string{"metal"}, "E-63", "K-CO-WEIGH")}},
			{ID: "spill"}, {ID: "washing"},
		},
		Countries: []table.Country{{Code: "GB"}, {Code: "EU"}, {Code: "DE", Also: []string{"EU"}}, {Code: "other", Also: []string{"GB", "EU", "DE"}}},
		Intervals: []table.Interval{
			{Country: "GB", Kinds: persons, Exam: kit.Thorough, Months: 6, SchemeMay: "shorten or lengthen", Duty: true, Cite: pub("D-07", "D-09")},
			{Country: "GB", Kinds: persons, Exam: kit.Thorough, Months: 3, SchemeMay: "shorten or lengthen", Arduous: true, Cite: pub("E-04")},
			{Country: "GB", Kinds: persons, Exam: kit.Interim, Days: 7, SchemeMay: "shorten or lengthen", Cite: cite(table.CommonPractice, "D-08")},
			{Country: "EU", Kinds: persons, Exam: kit.Thorough, Months: 12, SchemeMay: "shorten", Duty: true, Cite: pub("D-72")},
			{Country: "DE", Kinds: persons, Exam: kit.Thorough, Months: 12, SchemeMay: "shorten", Duty: true, Cite: pub("D-112")},
			{Country: "other", Kinds: persons, Exam: kit.Thorough, Months: 6, SchemeMay: "shorten", Duty: true, Cite: pub("D-113")},
		},
		Lives: []table.Life{
			{Kinds: []kit.KindID{kit.Bridge}, CountsFrom: "first use", Months: 60, Unless: true, Cite: cite(table.CommonPractice, "M-01")},
			{Kinds: []kit.KindID{kit.Bridge}, CountsFrom: "manufacture", Months: 96, Unless: true, Cite: cite(table.CommonPractice, "M-01")},
			{Kinds: []kit.KindID{kit.Bridge}, CountsFrom: "manufacture", Months: 36, Store: true, Verdict: kit.SetAside, Cite: cite(table.CommonPractice, "M-01")},
			{Kinds: []kit.KindID{kit.Harness, kit.Line, kit.Lanyard, kit.Sling}, CountsFrom: "manufacture", Months: 120, Unless: true, Cite: pub("L-06")},
			{Kinds: []kit.KindID{kit.Harness, kit.Line, kit.Lanyard, kit.Sling}, CountsFrom: "first use", Months: 60, Unless: true, Cite: pub("L-06")},
			{Kinds: []kit.KindID{kit.HitchCord}, CountsFrom: "first use", Months: 12, Unless: true, Cite: cite(table.Assumed, "L-08")},
			{Kinds: []kit.KindID{kit.Harness}, CountsFrom: "manufacture", Months: 72, Country: "DE", Cite: pub("L-03")},
			{Kinds: []kit.KindID{kit.Sling}, CountsFrom: "first use", Months: 48, Fibre: "hmpe", Cite: cite(table.Assumed, "E-53")},
		},
		NoLimits: []table.NoLimit{{Kinds: []kit.KindID{kit.Connector, kit.Device}, Cite: cite(table.FromMemory, "L-09")}},
		Rules:    table.Rules{HalfUsual: 0.5, UsualMonths: 6, DeclaredMonths: 12, FallTravel: 500 * qty.Millimetre, FallPeak: 0.25, LabelFar: 150, GaugeReach: 50 * qty.Millimetre, RepeatSE: 200},
	}
	t.Index()
	return t
}

// day reads a day of the tests; a slip in one is a fault of the test itself.
func day(s string) qty.Day { return date(s).Earliest() }

func date(s string) qty.PartialDate {
	p, err := qty.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return p
}

// today is the day of the vignettes.
const today = "2026-06-01"

// good is a piece that nothing is wrong with: 14 months in use, identified, a
// thorough examination today in which every look was made and nothing seen.
func good(t *table.Tables, kind kit.KindID) *kit.Record {
	r := &kit.Record{
		Yard: kit.Yard{Country: "GB"},
		Piece: kit.Piece{ID: "p1", Kind: kind, Marking: "readable", Origin: "new", History: "known", StoredIn: "used", Diameter: 12 * qty.Millimetre, EndA: kit.End{How: "stitched", Stitch: "whole"}, EndB: kit.End{How: "stitched", Stitch: "whole"},
			Made: date("2025-01-10"), Declared: date("2025-02-03"), Bought: date("2025-02-20"), FirstUse: date("2025-04-01"),
			Fitted: kit.Fitted{In: "h1", Allowed: kit.SaidYes, Document: "maker's list"}},
		People: []kit.Person{{ID: "cp", Role: "competent person", Since: 1}, {ID: "cl", Role: "climber"}},
		AsOf:   day(today),
	}
	k := t.Kind(kind)
	r.Piece.Length = k.Length
	r.Piece.Layers = []kit.Layer{{Name: "cover", Fibre: "pes"}, {Name: "core", Fibre: "pa"}}
	if k.Group == "metal" || k.Group == "device" {
		r.Piece.Layers = []kit.Layer{{Name: "body", Fibre: "aluminium"}}
	}
	r.Examinations = []kit.Examination{exam(t, kind, kit.Thorough, today)}
	return r
}

// exam is an examination with every look that it requires made everywhere and
// every question answered with no.
func exam(t *table.Tables, kind kit.KindID, sort kit.ExamKind, on string) kit.Examination {
	e := kit.Examination{Kind: sort, Day: day(on), By: "cp", WouldClimb: kit.SaidYes, SignedBy: "cp", Asked: map[string]kit.Yes{}}
	k := t.Kind(kind)
	for _, n := range k.Needs {
		if n.Exam == sort {
			e.Looks = append(e.Looks, kit.Look{Look: n.Look, By: "cp", Covers: []kit.Stretch{{All: true}}})
		}
	}
	for _, a := range k.Asks {
		e.Asked[a.ID] = kit.SaidNo
	}
	return e
}

// gauged gives an examination with the readings that its gauge needs: one in
// the middle of each stretch, or on each part that the tables name.
func gauged(t *table.Tables, kind kit.KindID, e kit.Examination) kit.Examination {
	k := t.Kind(kind)
	for _, n := range k.Needs {
		if n.Exam != e.Kind || n.Look != kit.Gauge {
			continue
		}
		for i := range n.Places {
			mid := int(k.Length/qty.Millimetre) * (2*i + 1) / (2 * n.Places)
			measure(&e, k.Reads[0].ID, at(mid, mid), 12000)
		}
		for _, p := range n.Parts {
			measure(&e, k.Reads[0].ID, kit.Place{Part: p}, 100)
		}
	}
	return e
}

func at(from, to int) kit.Place {
	return kit.Place{From: qty.Length(from) * qty.Millimetre, To: qty.Length(to) * qty.Millimetre}
}

// last gives the examination at hand.
func last(r *kit.Record) *kit.Examination { return &r.Examinations[len(r.Examinations)-1] }

func see(r *kit.Record, id string, where kit.Place) {
	last(r).Signs = append(last(r).Signs, kit.Sign{Ref: "s-" + id, Sign: id, State: kit.FirstSeen, At: where})
}

func measure(e *kit.Examination, quantity string, where kit.Place, micrometres ...int) {
	x := kit.Reading{Quantity: quantity, At: where}
	for _, v := range micrometres {
		x.Values = append(x.Values, qty.Length(v))
	}
	e.Readings = append(e.Readings, x)
}

func answer(r *kit.Record, on, to, document string) {
	r.Answers = append(r.Answers, kit.Answer{Day: day(on), To: to, By: "cp", Verified: "looked it up", Document: document})
}

// find gives the first reason with that key and, unless it is empty, that line.
func find(res criteria.Result, key, line string) *criteria.Reason {
	for i := range res.Reasons {
		x := &res.Reasons[i]
		if x.Key == key && (line == "" || x.ID == line) {
			return x
		}
	}
	return nil
}

func told(res criteria.Result) []string {
	var out []string
	for _, x := range res.Reasons {
		out = append(out, x.Row+" "+x.Verdict.String()+" "+x.ID+" "+x.Key)
	}
	return out
}

// TestNothingWrong holds that the piece the other tests start from is kept, so
// that each of them shows what its own change does.
func TestNothingWrong(t *testing.T) {
	tb := small()
	for i := range tb.Kinds {
		k := tb.Kinds[i].ID
		r := good(tb, k)
		if k == kit.HitchCord {
			r.Piece.FirstUse = date("2025-12-01")
		}
		if k == kit.Helmet {
			r.Piece.Layers = nil
		}
		if res := criteria.Judge(tb, r); res.Verdict() != kit.Keep || len(res.Reasons) != 0 {
			t.Errorf("%s: %v", k, told(res))
		}
	}
}
