package report_test

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/tables"
)

func day(s string) qty.Day {
	d, err := qty.ParseDate(s)
	if err != nil || !d.Exact() {
		panic("not a day: " + s)
	}
	return d.Earliest()
}

func date(s string) qty.PartialDate {
	d, err := qty.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

var (
	good     = kit.Conditions{Light: "good", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}
	weekdays = [8]bool{false, true, true, true, true, true}
)

func looks(ids ...kit.LookID) []kit.Look {
	var out []kit.Look
	for _, id := range ids {
		out = append(out, kit.Look{Look: id, Covers: []kit.Stretch{{All: true}}, Conditions: good})
	}
	return out
}

// exam is an examination with every look that the tables require, everywhere,
// and every question answered with no.
func exam(kind kit.KindID, what kit.ExamKind, on string) kit.Examination {
	k := tables.Default().Kind(kind)
	e := kit.Examination{Kind: what, Day: day(on), By: "E. Example", SignedBy: "E. Example", Asked: map[string]kit.Yes{}, WouldClimb: kit.SaidYes}
	for i := range k.Needs {
		if k.Needs[i].Exam == what {
			e.Looks = append(e.Looks, looks(k.Needs[i].Look)...)
		}
	}
	for i := range k.Asks {
		e.Asked[k.Asks[i].ID] = kit.SaidNo
	}
	for _, n := range k.Needs { // what the gauge needs
		for i := 0; n.Exam == what && i < n.Places; i++ {
			mid := k.Length * qty.Length(6*i+1) / qty.Length(6*n.Places)
			e.Readings = append(e.Readings, kit.Reading{Quantity: k.Reads[0].ID, At: kit.Place{From: mid, To: mid}, Values: []qty.Length{12600}, Wet: kit.SaidNo})
		}
		for i := 0; n.Exam == what && i < len(n.Parts); i++ {
			e.Readings = append(e.Readings, kit.Reading{Quantity: k.Reads[0].ID, At: kit.Place{Part: n.Parts[i]}, Values: []qty.Length{100}, Wet: kit.SaidNo})
		}
	}
	return e
}

// piece is a record of a piece of a kind, in use for half a year on clean sites,
// with its daily looks on record and a thorough examination today.
func piece(kind kit.KindID) *kit.Record {
	r := &kit.Record{AsOf: day("2026-07-05")}
	r.Yard = kit.Yard{Country: "GB"}
	r.Piece = kit.Piece{ID: "P1", Kind: kind, Marking: "readable", Origin: "new", History: "known", StoredIn: "used",
		Diameter: 12600, EndA: kit.End{How: "stitched", Stitch: "whole"}, EndB: kit.End{How: "stitched", Stitch: "whole"},
		Made: date("2025-12-02"), Declared: date("2025-12-10"), Bought: date("2025-12-20"), FirstUse: date("2026-01-05"),
		Layers: []kit.Layer{{Name: "cover", Fibre: "pes"}, {Name: "core", Fibre: "pa"}},
		Fitted: kit.Fitted{In: "H1", Allowed: kit.SaidYes, Document: "booklet 1"}}
	k := tables.Default().Kind(kind)
	r.Piece.Length = k.Length
	r.Uses = []kit.Use{{From: day("2026-01-05"), Week: 25 * qty.Hour, Weekdays: weekdays, Mass: 80 * qty.Kilogram, Dirt: "clean", Hardware: "ring"}}
	r.People = []kit.Person{{ID: "E. Example", Role: "examiner", Since: 1}}
	r.Runs = []kit.Run{{Kind: kit.PreUse, By: "A", From: day("2026-01-05"), To: day("2026-07-04"), Weekdays: weekdays, Looks: looks(kit.Eye, kit.Hand, kit.Ends)}}
	r.Examinations = []kit.Examination{exam(kind, kit.Thorough, "2026-07-05")}
	return r
}

func last(r *kit.Record) *kit.Examination { return &r.Examinations[len(r.Examinations)-1] }

// at is a stretch in whole millimetres from end A.
func at(from, to int64) kit.Place {
	return kit.Place{From: qty.Length(from * 1000), To: qty.Length(to * 1000)}
}

// see puts a new sign into the examination at hand.
func see(r *kit.Record, ref, sign string, p kit.Place) {
	e := last(r)
	e.Signs = append(e.Signs, kit.Sign{Ref: ref, Sign: sign, State: kit.FirstSeen, At: p})
}
