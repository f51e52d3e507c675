package corpus

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

// drop leaves one thing out of a copy of a record. The outcome then must be no
// looser than before, or at least the floor where a line says so itself.
type drop struct {
	what  string
	floor kit.Verdict
	do    func(*kit.Record)
	tells bool // it may be what tells against the piece: then it is left alone
}

// TestLeavingOutNeverLoosens leaves out of every record, one after the other:
// each look, each stretch that a look covered, each condition it was made
// under, each date, each answer, who gave it and how it was verified, each
// question answered with no, each run, each reading that tells nothing against
// the piece, who made and signed an examination, each fact of the piece's use
// and identity. None may loosen the outcome. A record
// that cannot be read any more, since what was left out is required, has not
// been loosened.
//
// What tells against a piece is not left out here: a sign, an event, a marked
// end of life, a shorter life by its maker. Nobody can miss what nobody wrote.
// The keys of a file that are required are left out by TestRequiredKeys; here
// “unknown” stands in their place.
func TestLeavingOutNeverLoosens(t *testing.T) {
	tb := tables.Default()
	for _, c := range all(t) {
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			before := decide.Decide(tb, c.Record, decide.Ask{})
			drops := dropsOf(c.Record)
			if len(drops) < 10 {
				t.Fatalf("only %d things to leave out", len(drops))
			}
			for _, d := range drops {
				r := copyOf(c.Record)
				if d.do(r); d.tells && measured(&before) {
					continue
				}
				after := decide.Decide(tb, r, decide.Ask{})
				if after.Verdict >= min(before.Verdict, d.floor) || !readable(r, tb) {
					continue
				}
				t.Errorf("%s became %s without %s\nbefore:%s\nafter:%s", before.Verdict, after.Verdict, d.what, reasons(&before), reasons(&after))
			}
		})
	}
}

// measured says whether a reason of an outcome is about something measured.
func measured(o *decide.Outcome) bool {
	for i := range o.Reasons {
		r := &o.Reasons[i]
		if strings.HasPrefix(r.Key, "reading.") || strings.HasPrefix(r.Key, "wear.") {
			return true
		}
		for _, a := range r.Args {
			if (a.Name == "sign" || a.Name == "other") && a.Value == "out-of-range" {
				return true
			}
		}
	}
	return false
}

// readable says whether a record can be written and read again.
func readable(r *kit.Record, tb *table.Tables) bool {
	_, faults := record.DecodeJSON("record", record.Encode(r), tb)
	return len(faults) == 0
}

// copyOf gives a copy of which every part that a drop touches may be changed.
func copyOf(r *kit.Record) *kit.Record {
	c := *r
	c.Piece.Layers = slices.Clone(r.Piece.Layers)
	c.People = slices.Clone(r.People)
	c.Uses = slices.Clone(r.Uses)
	c.Events = slices.Clone(r.Events)
	c.Answers = slices.Clone(r.Answers)
	c.Changes = slices.Clone(r.Changes)
	c.Runs = slices.Clone(r.Runs)
	for i := range c.Runs {
		c.Runs[i].Looks = looksOf(c.Runs[i].Looks)
	}
	c.Examinations = slices.Clone(r.Examinations)
	for i := range c.Examinations {
		e := &c.Examinations[i]
		e.Looks = looksOf(e.Looks)
		e.Asked = maps.Clone(e.Asked)
		e.Signs = slices.Clone(e.Signs)
		e.Readings = slices.Clone(e.Readings)
	}
	return &c
}

func looksOf(looks []kit.Look) []kit.Look {
	looks = slices.Clone(looks)
	for i := range looks {
		looks[i].Covers = slices.Clone(looks[i].Covers)
	}
	return looks
}

// conditions are the fields of kit.Conditions, by name.
var conditions = []struct {
	name string
	of   func(*kit.Conditions) *kit.Yes
}{
	{"cleaned", func(c *kit.Conditions) *kit.Yes { return &c.Cleaned }},
	{"wet", func(c *kit.Conditions) *kit.Yes { return &c.Wet }},
	{"frozen", func(c *kit.Conditions) *kit.Yes { return &c.Frozen }},
	{"muddy", func(c *kit.Conditions) *kit.Yes { return &c.Muddy }},
	{"gloves", func(c *kit.Conditions) *kit.Yes { return &c.Gloves }},
	{"hurried", func(c *kit.Conditions) *kit.Yes { return &c.Hurried }},
}

// dropsOf lists everything that is left out of a record, one after the other.
func dropsOf(r *kit.Record) []drop {
	var out []drop
	add := func(do func(*kit.Record), format string, args ...any) {
		out = append(out, drop{fmt.Sprintf(format, args...), kit.Withdraw, do, false})
	}
	stored := false
	for i := range r.Examinations {
		e := &r.Examinations[i]
		name := fmt.Sprintf("the %s examination of %v", e.Kind, e.Day)
		looks := func(r *kit.Record) *[]kit.Look { return &r.Examinations[i].Looks }
		dropLooks(add, e.Looks, looks, name, e.Day == r.AsOf)
		for _, q := range slices.Sorted(maps.Keys(e.Asked)) {
			if e.Asked[q] == kit.SaidNo {
				add(func(r *kit.Record) { delete(r.Examinations[i].Asked, q) }, "the answer to %s in %s", q, name)
			}
		}
		if e.WouldClimb == kit.SaidYes {
			add(func(r *kit.Record) { r.Examinations[i].WouldClimb = kit.NotSaid }, "that they would climb on it in %s", name)
		}
		for k := range e.Readings {
			if len(e.Readings[k].Again) > 0 {
				add(func(r *kit.Record) { r.Examinations[i].Readings[k].Again = nil }, "the second measurement %d of %s", k+1, name)
			}
			add(func(r *kit.Record) { r.Examinations[i].Readings[k].Wet = kit.NotSaid }, "whether reading %d of %s was wet", k+1, name)
		}
		for k := range e.Readings {
			out = append(out, drop{fmt.Sprintf("reading %d of %s", k+1, name), kit.Withdraw,
				func(r *kit.Record) { r.Examinations[i].Readings = slices.Delete(r.Examinations[i].Readings, k, k+1) }, true})
			for v := range e.Readings[k].Values {
				out = append(out, drop{fmt.Sprintf("value %d of reading %d of %s", v+1, k+1, name), kit.Withdraw, func(r *kit.Record) {
					x := &r.Examinations[i].Readings[k]
					x.Values = slices.Delete(slices.Clone(x.Values), v, v+1)
				}, true})
			}
		}
		add(func(r *kit.Record) { r.Examinations[i].By = "" }, "who made %s", name)
		add(func(r *kit.Record) { r.Examinations[i].SignedBy = "" }, "who signed %s", name)
		add(func(r *kit.Record) { r.Examinations[i].AfterEvent = "" }, "the event that %s answers", name)
		for k := range e.Signs {
			if e.Signs[k].State == kit.Same || e.Signs[k].State == kit.GoneWash || e.Signs[k].State == kit.Gone {
				add(func(r *kit.Record) { r.Examinations[i].Signs = slices.Delete(r.Examinations[i].Signs, k, k+1) },
					"the word “%s” on %s in %s", e.Signs[k].State, e.Signs[k].Ref, name)
			}
		}
	}
	for i := range r.Runs {
		name := fmt.Sprintf("the run from %v", r.Runs[i].From)
		add(func(r *kit.Record) { r.Runs = slices.Delete(r.Runs, i, i+1) }, "%s", name)
		dropLooks(add, r.Runs[i].Looks, func(r *kit.Record) *[]kit.Look { return &r.Runs[i].Looks }, name, false)
	}
	for i := range r.Answers {
		if !r.Answers[i].Unfit {
			add(func(r *kit.Record) { r.Answers = slices.Delete(r.Answers, i, i+1) }, "the answer to %s", r.Answers[i].To)
			add(func(r *kit.Record) { r.Answers[i].By = "" }, "who answered %s", r.Answers[i].To)
			add(func(r *kit.Record) { r.Answers[i].Verified = "" }, "how the answer to %s was verified", r.Answers[i].To)
			add(func(r *kit.Record) { r.Answers[i].Document = "" }, "the document of the answer to %s", r.Answers[i].To)
			add(func(r *kit.Record) { r.Answers[i].Cause = "" }, "the cause in the answer to %s", r.Answers[i].To)
		}
	}
	for i := range r.Events {
		add(func(r *kit.Record) { r.Events[i].Washed = kit.NotSaid }, "whether event %d was washed out", i+1)
		add(func(r *kit.Record) { r.Events[i].Amount = "" }, "the amount of event %d", i+1)
		add(func(r *kit.Record) { r.Events[i].Travel = -1 }, "the free travel of event %d", i+1)
		add(func(r *kit.Record) { r.Events[i].Peak = -1 }, "the peak of event %d", i+1)
		add(func(r *kit.Record) { r.Events[i].PlaceSaid, r.Events[i].At = false, kit.Place{} }, "the place of event %d", i+1)
	}
	for i := range r.Uses {
		if stored = stored || r.Uses[i].Store; !stored { // else it would say that it stayed in store
			add(func(r *kit.Record) { r.Uses = slices.Delete(r.Uses, i, i+1) }, "use %d", i+1)
		}
		add(func(r *kit.Record) { r.Uses[i].Store = false }, "that it was in store in use %d", i+1)
		add(func(r *kit.Record) { r.Uses[i].Week = -1 }, "the hours of use %d", i+1)
		add(func(r *kit.Record) { r.Uses[i].Mass = 0 }, "the mass of use %d", i+1)
		add(func(r *kit.Record) { r.Uses[i].Dirt = "" }, "the dirt of use %d", i+1)
		add(func(r *kit.Record) { r.Uses[i].Hardware = "" }, "the hardware of use %d", i+1)
		add(func(r *kit.Record) { r.Uses[i].Weekdays = [8]bool{} }, "the working days of use %d", i+1)
	}
	// A fibre that nobody knows sets aside, where the one it is withdraws.
	for i := range r.Piece.Layers {
		out = append(out, drop{"the fibre of the layer " + r.Piece.Layers[i].Name, kit.SetAside, func(r *kit.Record) { r.Piece.Layers[i].Fibre = "unknown" }, false})
	}
	out = append(out, drop{"all its layers", kit.SetAside, func(r *kit.Record) { r.Piece.Layers = nil }, false})
	// So does a manufacture that nobody knows and that can be traced (L-12),
	// where the day itself would end its life.
	out = append(out,
		drop{"when it was made", kit.SetAside, func(r *kit.Record) { r.Piece.Made = qty.PartialDate{} }, false},
		drop{"when it was made and bought", kit.SetAside, func(r *kit.Record) { r.Piece.Made, r.Piece.Bought = qty.PartialDate{}, qty.PartialDate{} }, false})
	for i := range r.People {
		add(func(r *kit.Record) { r.People[i].Role = "" }, "the role of %s", r.People[i].ID)
	}
	for _, x := range []struct {
		what string
		do   func(*kit.Piece)
	}{
		{"the date of its declaration", func(p *kit.Piece) { p.Declared = qty.PartialDate{} }},
		{"when it was bought", func(p *kit.Piece) { p.Bought = qty.PartialDate{} }},
		{"its first use", func(p *kit.Piece) { p.FirstUse = qty.PartialDate{} }},
		{"its first use and when it was bought", func(p *kit.Piece) { p.FirstUse, p.Bought = qty.PartialDate{}, qty.PartialDate{} }},
		{"the day it was made", func(p *kit.Piece) { p.Made.DayOfMonth = 0 }},
		{"the month it was made", func(p *kit.Piece) { p.Made.DayOfMonth, p.Made.Month = 0, 0 }},
		{"the day of its first use", func(p *kit.Piece) { p.FirstUse.DayOfMonth = 0 }},
		{"the month of its first use", func(p *kit.Piece) { p.FirstUse.DayOfMonth, p.FirstUse.Month = 0, 0 }},
		{"its last examination", func(p *kit.Piece) { p.Examined = qty.PartialDate{} }},
		{"the document of its last examination", func(p *kit.Piece) { p.ExaminationFrom = "" }},
		{"the maker's document", func(p *kit.Piece) { p.MakerDocument = "" }},
		{"its marking", func(p *kit.Piece) { p.Marking = "" }},
		{"the proof of its identity", func(p *kit.Piece) { p.Proof = "" }},
		{"what traces it", func(p *kit.Piece) { p.Traced = "" }},
		{"its origin", func(p *kit.Piece) { p.Origin = "" }},
		{"its history", func(p *kit.Piece) { p.History = "" }},
		{"whether it is allowed there", func(p *kit.Piece) { p.Fitted.Allowed = kit.NotSaid }},
		{"what it is fitted to", func(p *kit.Piece) { p.Fitted = kit.Fitted{} }},
		{"its length", func(p *kit.Piece) { p.Length = 0 }},
	} {
		add(func(r *kit.Record) { x.do(&r.Piece) }, "%s", x.what)
	}
	if r.Yard.Country != "" {
		add(func(r *kit.Record) { r.Yard.Country = "" }, "the country")
	}
	return out
}

// dropLooks leaves out each look, each stretch it went over, all conditions it
// was made under, and, where everything is wanted, each of them.
func dropLooks(add func(func(*kit.Record), string, ...any), looks []kit.Look, of func(*kit.Record) *[]kit.Look, name string, everything bool) {
	for l := range looks {
		id := looks[l].Look
		add(func(r *kit.Record) { (*of(r))[l].By = "" }, "who made the look %s of %s", id, name)
		add(func(r *kit.Record) { *of(r) = slices.Delete(*of(r), l, l+1) }, "the look %s of %s", id, name)
		for s := range looks[l].Covers {
			add(func(r *kit.Record) { (*of(r))[l].Covers = slices.Delete((*of(r))[l].Covers, s, s+1) }, "stretch %d of the look %s of %s", s+1, id, name)
		}
		add(func(r *kit.Record) { (*of(r))[l].Conditions = kit.Conditions{} }, "all conditions of the look %s of %s", id, name)
		if !everything {
			continue
		}
		add(func(r *kit.Record) { (*of(r))[l].Conditions.Light = "" }, "the light of the look %s of %s", id, name)
		for _, c := range conditions {
			add(func(r *kit.Record) { *c.of(&(*of(r))[l].Conditions) = kit.NotSaid }, "“%s” of the look %s of %s", c.name, id, name)
		}
	}
}
