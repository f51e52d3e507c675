package criteria_test

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

// kinds are all kinds of the words of the project, in the order of the kit package.
var kinds = []kit.KindID{kit.Bridge, kit.Harness, kit.Line, kit.Lanyard, kit.HitchCord, kit.Sling, kit.Connector, kit.Ring, kit.Swivel, kit.Pulley,
	kit.Device, kit.Helmet, kit.Rescue, kit.Rigging, kit.Ascender, kit.Absorber, kit.Other}

// TestDefaultLines holds that the default tables know every line that the
// package cites by itself, and the ids of events and substances it speaks of.
func TestDefaultLines(t *testing.T) {
	tb := tables.Default()
	for _, id := range criteria.OwnLines {
		if tb.Line(id) == nil {
			t.Errorf("the tables have no line %s", id)
		}
	}
	for _, id := range []string{"fall", "sudden-load", "spill"} {
		if tb.Event(id) == nil {
			t.Errorf("the tables have no event %s", id)
		}
	}
	if tb.Contaminant("unknown") == nil || tb.Fibre("unknown") == nil || tb.Country("other") == nil {
		t.Error("the tables have no word for what is not known")
	}
}

// TestDefaultIntervals holds every country against every kind, with the
// thorough examination made on 31 August 2025. Months by the lines: GB D-07
// (SEEN) for persons and for accessories of rigging, IE D-111 (SEEN 2nd-hand:
// six or twelve; six taken), EU D-72 (SEEN 2nd-hand), DE D-112 (SEEN
// 2nd-hand), US D-103 (from memory), California D-100 (SEEN 2nd-hand),
// Washington D-99 (SEEN) and D-103, AU and NZ D-110 (SEEN 2nd-hand), law not
// known: the strictest (D-113, PROPOSED). Helmets, and rigging outside GB and
// IE, have no line with a figure: twelve months assumed.
func TestDefaultIntervals(t *testing.T) {
	tb := tables.Default()
	months := map[string][3]int{ // persons, rigging, helmet
		"GB": {6, 6, 12}, "IE": {6, 6, 12}, "EU": {12, 12, 12}, "DE": {12, 12, 12}, "US": {12, 12, 12}, "US-CA": {6, 12, 12}, "US-WA": {12, 12, 12},
		"AU": {6, 12, 12}, "NZ": {6, 12, 12}, "other": {6, 6, 12}, "": {6, 6, 12}, "unknown": {6, 6, 12}, "FR": {6, 6, 12}, "US-TX": {6, 6, 12},
	}
	due := map[int]string{6: "2026-02-28", 12: "2026-08-31"}
	for country, m := range months {
		for _, k := range kinds {
			want := due[m[0]]
			switch k {
			case kit.Rigging:
				want = due[m[1]]
			case kit.Helmet:
				want = due[m[2]]
			}
			r := &kit.Record{Yard: kit.Yard{Country: country}, AsOf: day(today)}
			r.Piece = kit.Piece{Kind: k, Origin: "other yard", Examined: date("2025-08-31"), ExaminationFrom: "report"}
			d := criteria.Interval(tb, r, kit.Thorough)
			if !d.Known || d.Day.String() != want {
				t.Errorf("%q, %s: %v (known %v), want %s", country, k, d.Day, d.Known, want)
			}
			if d.Line == "" || tb.Line(d.Line) == nil {
				t.Errorf("%q, %s: line %q", country, k, d.Line)
			}
			if unknown := tb.Country(country) == nil || country == "other"; unknown != hasLine(d.Lines, "D-113") && unknown {
				t.Errorf("%q, %s: it is not said that the law is unknown: %v", country, k, d.Lines)
			}
		}
	}
}

// TestDefaultScheme holds D-09 (wording SEEN): only Great Britain's duty lets a
// written scheme lengthen.
func TestDefaultScheme(t *testing.T) {
	tb := tables.Default()
	for _, country := range []string{"GB", "IE", "EU", "DE", "US", "US-CA", "US-WA", "AU", "NZ", "other"} {
		usual, long, short := qty.Day(0), qty.Day(0), qty.Day(0)
		for every, d := range map[qty.Months]*qty.Day{0: &usual, 24: &long, 2: &short} {
			r := &kit.Record{Yard: kit.Yard{Country: country, Scheme: kit.Scheme{Every: every, Document: "scheme", By: "cp"}}, AsOf: day(today)}
			r.Piece = kit.Piece{Kind: kit.Harness, Origin: "other yard", Examined: date("2026-01-31"), ExaminationFrom: "report"}
			*d = criteria.Interval(tb, r, kit.Thorough).Day
		}
		if short.String() != "2026-03-31" || (long > usual) != (country == "GB") {
			t.Errorf("%s: usual %v, scheme of 24 months %v, of 2 months %v", country, usual, long, short)
		}
	}
}

// TestDefaultLife holds the ends of life of every kind for a piece made on 31
// January 2024 and first used on 29 February 2024, in Great Britain and in
// Germany. Lines: M-01 (common practice), L-06 (SEEN), carried over to other
// textiles and the year of a hitch cord (assumed), L-03 (SEEN) with its strict
// end, L-09 (SEEN for helmets, from memory for metal).
func TestDefaultLife(t *testing.T) {
	tb := tables.Default()
	use5, made4, made6 := "2029-02-28", "2028-01-31", "2030-01-31"
	want := map[kit.KindID][2]string{
		kit.Bridge: {use5, made4}, kit.Harness: {use5, use5}, kit.Line: {use5, made4}, kit.Lanyard: {use5, made4}, kit.Sling: {use5, made4},
		kit.HitchCord: {"2025-02-28", "2025-02-28"}, kit.Helmet: {"2034-01-31", "2034-01-31"}, kit.Rescue: {use5, use5}, kit.Rigging: {use5, use5},
		kit.Absorber: {use5, made4}, kit.Other: {use5, use5}, kit.Connector: {}, kit.Ring: {}, kit.Swivel: {}, kit.Pulley: {}, kit.Device: {}, kit.Ascender: {},
	}
	for _, k := range kinds {
		for i, country := range []string{"GB", "DE"} {
			r := &kit.Record{Yard: kit.Yard{Country: country}, AsOf: day("2024-03-01")}
			r.Piece = kit.Piece{Kind: k, Origin: "new", Made: date("2024-01-31"), FirstUse: date("2024-02-29"), Layers: []kit.Layer{{Fibre: "pa"}}}
			d := criteria.Life(tb, r)
			if d.Known != (want[k][i] != "") || d.Known && d.Day.String() != want[k][i] {
				t.Errorf("%s in %s: %v (known %v), want %q", k, country, d.Day, d.Known, want[k][i])
			}
		}
	}
	// With the maker's document for ten years from manufacture, Germany's figure for harnesses stays.
	r := &kit.Record{Yard: kit.Yard{Country: "DE"}, AsOf: day("2024-03-01")}
	r.Piece = kit.Piece{Kind: kit.Harness, Made: date("2024-01-31"), FirstUse: date("2024-02-29"), MakerFromMade: 120, MakerDocument: "booklet"}
	if d := criteria.Life(tb, r); d.Day.String() != made6 || d.Line != "L-03" {
		t.Errorf("harness in DE with the maker's document: %v by %s", d.Day, d.Line)
	}
}

// TestDefaultNothingWrong holds that a piece of every kind, completely looked
// at with nothing seen and every question answered with no, has no reason
// against it, in each kind of examination.
func TestDefaultNothingWrong(t *testing.T) {
	tb := tables.Default()
	for _, k := range kinds {
		if tb.Kind(k) == nil {
			t.Errorf("the tables have no kind %s", k)
			continue
		}
		for _, sort := range []kit.ExamKind{kit.PreUse, kit.Partner, kit.Interim, kit.Thorough} {
			r := recent(tb, k)
			r.Examinations = append(r.Examinations, gauged(tb, k, exam(tb, k, sort, today)))
			if res := criteria.Judge(tb, r); len(res.Reasons) != 0 {
				t.Errorf("%s, %s: %v", k, sort, told(res))
			}
			// One look less, whichever, sets aside.
			for i := range last(r).Looks {
				x := *r
				x.Examinations = append([]kit.Examination{}, r.Examinations...)
				e := &x.Examinations[1]
				e.Looks = append(append([]kit.Look{}, e.Looks[:i]...), e.Looks[i+1:]...)
				if res := criteria.Judge(tb, &x); res.Verdict() < kit.SetAside || find(res, "look.not-made", "M-24") == nil {
					t.Errorf("%s, %s without the look %s: %v", k, sort, r.Examinations[1].Looks[i].Look, told(res))
				}
			}
		}
	}
}

// recent is a good piece that is three months in use, with a thorough
// examination a month ago.
func recent(tb *table.Tables, k kit.KindID) *kit.Record {
	r := good(tb, k)
	r.Piece.Made, r.Piece.Declared, r.Piece.Bought, r.Piece.FirstUse = date("2026-01-10"), date("2026-01-20"), date("2026-02-10"), date("2026-03-01")
	r.Examinations = []kit.Examination{gauged(tb, k, exam(tb, k, kit.Thorough, "2026-05-01"))}
	return r
}

// TestDefaultSigns holds that every sign of the default tables comes out as its
// class says, whatever the kind: absolute withdraws, set aside sets aside and
// asks, and nothing else is a reason by itself.
func TestDefaultSigns(t *testing.T) {
	tb := tables.Default()
	for _, k := range kinds {
		kind := tb.Kind(k)
		for i := range kind.Signs {
			s := &kind.Signs[i]
			r := recent(tb, k)
			if s.AfterUse > 0 || len(s.With) > 0 {
				r.Piece.Layers, r.Piece.Made, r.Piece.FirstUse, r.Piece.Bought = nil, date("2022-08-01"), date("2022-09-01"), date("2022-08-10")
				r.Piece.Declared = date("2022-08-01")
			}
			for _, other := range s.With {
				see(r, other, kit.Place{Whole: true})
			}
			see(r, s.ID, kit.Place{Whole: true})
			res := criteria.Judge(tb, r)
			want, key := kit.Keep, ""
			switch s.Class {
			case table.Absolute:
				want, key = kit.Withdraw, "sign.absolute"
			case table.Aside:
				want, key = kit.SetAside, "sign.aside"
			}
			if res.Verdict() != want || key != "" && (find(res, key, "") == nil || tb.Line(find(res, key, "").ID) == nil) {
				t.Errorf("%s, %s (%s): %v", k, s.ID, s.Class, told(res))
			}
		}
	}
}

// TestDefaultVignettes holds the vignettes on the default tables, by the line
// that each names.
func TestDefaultVignettes(t *testing.T) {
	tb := tables.Default()
	for _, v := range vignettes {
		t.Run(v.name, func(t *testing.T) {
			r := good(tb, v.kind)
			v.facts(tb, r)
			for i := range r.Examinations {
				for s := range r.Examinations[i].Signs {
					if tb.Kind(v.kind).Sign(r.Examinations[i].Signs[s].Sign) == nil {
						t.Fatalf("the default tables do not know the sign %s", r.Examinations[i].Signs[s].Sign)
					}
				}
			}
			res := criteria.Judge(tb, r)
			if res.Verdict() != v.want {
				t.Fatalf("outcome %v, want %v (%s): %v", res.Verdict(), v.want, v.mark, told(res))
			}
			if v.key == "" {
				return
			}
			if x := find(res, v.key, ""); x == nil || x.Verdict != v.want || !hasLine(x.Lines, v.line) {
				t.Fatalf("no reason %s by %s: %v", v.key, v.line, told(res))
			}
		})
	}
}

// TestDefaultContaminants holds for every kind, substance, fibre and amount of
// the default tables that a bridge or hitch cord is withdrawn by whatever is a
// contaminant (M-03, M-30, common practice), that nothing unwashed stays in
// use without a word, and that an amount not said is never looser.
func TestDefaultContaminants(t *testing.T) {
	tb := tables.Default()
	for _, k := range kinds {
		for _, c := range tb.Contaminants {
			for _, f := range tb.Fibres {
				r := recent(tb, k)
				r.Piece.Layers = []kit.Layer{{Fibre: f.ID}}
				worst := kit.Keep
				for _, amount := range []string{"suspected", "splash", "soaked", ""} {
					r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: "spill", Substance: c.ID, Amount: amount}}
					res := criteria.Judge(tb, r)
					v := res.Verdict()
					switch strict := tb.Kind(k).Strict; {
					case strict && !c.Harmless && v != kit.Withdraw,
						!c.Harmless && v < kit.SetAside,
						amount == "" && v != worst:
						t.Errorf("%s, %s on %s, amount %q, not washed: %v", k, c.ID, f.ID, amount, told(res))
					}
					worst = kit.Stricter(worst, v)
				}
			}
		}
	}
}

// TestDefaultEvents holds for every kind and event that a fall withdraws
// textile and sets everything else at least aside (R-02; E-10 SEEN), and that
// a saw that touched withdraws textile (M-02, common practice).
func TestDefaultEvents(t *testing.T) {
	tb := tables.Default()
	for _, k := range kinds {
		textile := tb.Kind(k).Group == "textile"
		for _, e := range tb.Events {
			r := recent(tb, k)
			r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-20"), Event: e.ID, Travel: -1, Peak: -1}}
			if e.ID == "spill" {
				r.Events[0].Substance = "unknown"
			}
			res := criteria.Judge(tb, r)
			least := kit.Keep
			switch e.ID {
			case "fall", "sudden-load", "load-dropped", "saw-contact":
				least = kit.SetAside
				if textile {
					least = kit.Withdraw
				}
			case "spill", "flood", "lent-out", "altered", "repaired", "long-out-of-use":
				least = kit.SetAside
			}
			if res.Verdict() < least {
				t.Errorf("%s, %s: %v, at least %v: %v", k, e.ID, res.Verdict(), least, told(res))
			}
		}
	}
}
