package decide_test

import (
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

var tb = tables.Default()

func mustDay(s string) qty.Day {
	d, err := qty.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d.Earliest()
}

func mustDate(s string) qty.PartialDate {
	d, err := qty.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d
}

var good = kit.Conditions{Light: "good", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}

func needed(k *table.Kind, e kit.ExamKind) []kit.Look {
	var out []kit.Look
	for _, n := range k.Needs {
		if n.Exam == e {
			out = append(out, kit.Look{Look: n.Look, Covers: []kit.Stretch{{All: true}}, Conditions: good})
		}
	}
	return out
}

var workdays = [8]bool{false, true, true, true, true, true}

// sound is a piece of a kind in use since 5 January 2026 with its daily looks
// on record and a full thorough examination on 6 July, at which nothing was seen.
func sound(id kit.KindID) *kit.Record {
	k := tb.Kind(id)
	r := &kit.Record{Yard: kit.Yard{Country: "GB"}, AsOf: mustDay("2026-07-06"), People: []kit.Person{{ID: "examiner", Role: "examiner", Since: 1}}}
	r.Piece = kit.Piece{ID: "P1", Kind: id, Marking: "readable", Origin: "new", History: "known", Length: k.Length, StoredIn: "used", Diameter: 12 * qty.Millimetre}
	r.Piece.Made, r.Piece.FirstUse, r.Piece.Bought = mustDate("2025-12-01"), mustDate("2026-01-05"), mustDate("2025-12-20")
	r.Piece.Declared = mustDate("2025-12-01")
	r.Piece.Layers = []kit.Layer{{Name: "cover", Fibre: "pes"}, {Name: "core", Fibre: "pa"}}
	if k.Axis != "length" {
		r.Piece.Layers = nil
	}
	r.Piece.EndA = kit.End{How: "stitched", Stitch: "whole"}
	r.Piece.EndB = kit.End{How: "stitched", Stitch: "whole"}
	r.Piece.Fitted = kit.Fitted{In: "H1", Allowed: kit.SaidYes, Document: "list of parts, p. 3"}
	r.Uses = []kit.Use{{From: mustDay("2026-01-05"), Week: tb.Rules.Reference.Week, Weekdays: workdays, Mass: tb.Rules.Reference.Mass, Dirt: "clean", Hardware: plainest(tb.Hardware)}}
	r.Runs = []kit.Run{{Kind: kit.PreUse, By: "climber", From: mustDay("2026-01-05"), To: mustDay("2026-07-05"), Weekdays: workdays, Looks: needed(k, kit.PreUse)}}
	asked := map[string]kit.Yes{}
	for _, a := range k.Asks {
		asked[a.ID] = kit.SaidNo
	}
	r.Examinations = []kit.Examination{{Kind: kit.Thorough, Day: r.AsOf, By: "examiner", SignedBy: "examiner", Looks: needed(k, kit.Thorough), Asked: asked, WouldClimb: kit.SaidYes, Readings: readings(k)}}
	return r
}

// readings gives what the gauge of a thorough examination needs.
func readings(k *table.Kind) (out []kit.Reading) {
	for _, n := range k.Needs {
		if n.Exam != kit.Thorough || n.Look != kit.Gauge {
			continue
		}
		for i := range n.Places {
			mid := k.Length * qty.Length(2*i+1) / qty.Length(2*n.Places)
			out = append(out, kit.Reading{Quantity: k.Reads[0].ID, At: kit.Place{From: mid, To: mid}, Values: []qty.Length{12600}, Wet: kit.SaidNo})
		}
		for _, p := range n.Parts {
			out = append(out, kit.Reading{Quantity: k.Reads[0].ID, At: kit.Place{Part: p}, Values: []qty.Length{100}, Wet: kit.SaidNo})
		}
	}
	return out
}

func plainest(l []table.Level) string {
	for i := range l {
		if l[i].Z == 0 {
			return l[i].ID
		}
	}
	return ""
}

func reasons(o *decide.Outcome) string {
	s := ""
	for _, r := range o.Reasons {
		s += "\n\t" + r.Row + " " + r.Verdict.String() + " " + r.ID + " " + r.Key
		for _, a := range r.Args {
			s += " " + a.Name + "=" + a.Value
		}
	}
	return s
}

// at gives a place for a sign of a kind: mid in the ring's travel on a bridge.
func at(k *table.Kind) kit.Place {
	if k.Axis == "length" {
		return kit.Place{From: k.Length / 2, To: k.Length / 2}
	}
	return kit.Place{Part: k.Parts[0].ID}
}

func TestSoundPiecesStayInUse(t *testing.T) {
	for i := range tb.Kinds {
		id := tb.Kinds[i].ID
		o := decide.Decide(tb, sound(id), decide.Ask{Explain: true})
		if o.Verdict != kit.Keep {
			t.Errorf("%s: %s%s", id, o.Verdict, reasons(&o))
		}
	}
}

// TestGreyAndPinch holds, with the default tables, that a bridge stays in use with a
// pinch in its bend, or with grey where the ring travels, and not with either elsewhere.
func TestGreyAndPinch(t *testing.T) {
	mm := func(from, to qty.Length) kit.Place {
		return kit.Place{From: from * qty.Millimetre, To: to * qty.Millimetre}
	}
	for _, c := range []struct {
		what string
		sign string
		at   kit.Place
		keep bool
	}{
		{"grey under the ring's travel", "grey", mm(430, 470), true},
		{"pinch in a fitting's bend", "pinch", mm(5, 40), true},
		{"grey elsewhere", "grey", mm(100, 120), false},
		{"pinch elsewhere", "pinch", mm(430, 470), false},
		{"a stiff stretch in the travel", "stiff-stretch", mm(430, 470), false},
	} {
		r := sound(kit.Bridge)
		if tb.Kind(kit.Bridge).Sign(c.sign) == nil {
			t.Errorf("no sign %q on a bridge", c.sign)
			continue
		}
		r.Examinations[0].Signs = []kit.Sign{{Ref: "s1", Sign: c.sign, State: kit.FirstSeen, At: c.at}}
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		why := o.Told.Signs[0].Why
		if got := o.Verdict <= kit.KeepSooner; got != c.keep {
			t.Errorf("%s: %s, why %.4f%s", c.what, o.Verdict, why, reasons(&o))
		}
		t.Logf("%s: why %.4f, %s", c.what, why, o.Verdict)
	}
}

// drawRecord makes a record of any kind with signs, looks left out, events.
func drawRecord(t *rapid.T) *kit.Record {
	k := &tb.Kinds[rapid.IntRange(0, len(tb.Kinds)-1).Draw(t, "kind")]
	r := sound(k.ID)
	e := &r.Examinations[0]
	e.Kind = rapid.SampledFrom([]kit.ExamKind{kit.PreUse, kit.Partner, kit.Interim, kit.Thorough}).Draw(t, "examination")
	if rapid.Bool().Draw(t, "no runs") {
		r.Runs = nil
	}
	for i := len(e.Looks) - 1; i >= 0; i-- {
		if rapid.IntRange(0, 4).Draw(t, "leave out") == 0 {
			e.Looks = append(e.Looks[:i], e.Looks[i+1:]...)
		}
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "signs") {
		s := &k.Signs[rapid.IntRange(0, len(k.Signs)-1).Draw(t, "sign")]
		e.Signs = append(e.Signs, kit.Sign{Ref: "s" + string(rune('1'+i)), Sign: s.ID, State: kit.FirstSeen, At: drawPlace(t, k)})
	}
	if rapid.IntRange(0, 3).Draw(t, "event") == 0 {
		v := &tb.Events[rapid.IntRange(0, len(tb.Events)-1).Draw(t, "which event")]
		r.Events = append(r.Events, kit.Event{Ref: "v1", Day: e.Day - qty.Day(rapid.IntRange(0, 90).Draw(t, "days before")), Event: v.ID, Travel: -1, Peak: -1})
	}
	if len(e.Signs) > 0 && rapid.Bool().Draw(t, "answer") {
		r.Answers = append(r.Answers, kit.Answer{Day: e.Day, To: "s1", Cause: rapid.SampledFrom(tb.Causes).Draw(t, "cause").ID, Verified: "washed off", By: "examiner"})
	}
	return r
}

func drawPlace(t *rapid.T, k *table.Kind) kit.Place {
	if k.Axis != "length" || rapid.IntRange(0, 3).Draw(t, "at an end") == 0 {
		return kit.Place{Part: k.Parts[rapid.IntRange(0, len(k.Parts)-1).Draw(t, "part")].ID}
	}
	from := qty.Length(rapid.IntRange(0, int(k.Length/qty.Millimetre)-1).Draw(t, "from")) * qty.Millimetre
	return kit.Place{From: from, To: min(k.Length, from+qty.Length(rapid.IntRange(0, 200).Draw(t, "long"))*qty.Millimetre)}
}

// TestLeavingOutNeverLoosens drops looks, coverage, conditions and answers.
func TestLeavingOutNeverLoosens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRecord(t)
		a := decide.Decide(tb, r, decide.Ask{})
		e := &r.Examinations[0]
		what := rapid.IntRange(0, 6).Draw(t, "drop")
		switch what {
		case 0, 1, 2:
			if len(e.Looks) == 0 {
				return
			}
			i := rapid.IntRange(0, len(e.Looks)-1).Draw(t, "which look")
			switch what {
			case 0:
				e.Looks = append(e.Looks[:i:i], e.Looks[i+1:]...)
			case 1:
				e.Looks[i].Covers = nil
			case 2:
				e.Looks[i].Conditions = kit.Conditions{}
			}
		case 3:
			r.Answers = nil
		case 4:
			r.Runs = nil
		case 5:
			r.Piece.FirstUse = qty.PartialDate{}
		case 6:
			r.Piece.Made = qty.PartialDate{}
		}
		b := decide.Decide(tb, r, decide.Ask{})
		if b.Verdict < a.Verdict {
			t.Fatalf("%s became %s when %d was dropped\nbefore:%s\nafter:%s", a.Verdict, b.Verdict, what, reasons(&a), reasons(&b))
		}
	})
}
