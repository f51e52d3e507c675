package corpus

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/criteria"
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
}

// TestLeavingOutNeverLoosens leaves out of every record, one after the other:
// each look, each stretch that a look covered, each condition it was made
// under, each date, each answer, who gave it and how it was verified, each
// question answered with no, each run, each reading and each value of one that
// tells nothing against the piece, who made and signed an examination, each fact
// of the piece's use, identity and make. None may loosen the outcome. A record that
// cannot be read any more, since what was left out is required, has not been
// loosened.
//
// What tells against a piece is not left out here: a sign, an event, a marked
// end of life, a shorter life by its maker, and of a person until when a role is
// held and that the kit is theirs. Nobody can miss what nobody wrote.
// The keys of a file that are required are left out by TestRequiredKeys; here
// “unknown” stands in their place.
func TestLeavingOutNeverLoosens(t *testing.T) {
	tb := tables.Default()
	for i, c := range all(t) {
		if raced && i%8 != 0 {
			continue // the detector looks at how it runs, not at what it finds, and takes ten times as long
		}
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			before := decide.Decide(tb, c.Record, decide.Ask{})
			drops := dropsOf(tb, c.Record)
			if len(drops) < 10 {
				t.Fatalf("only %d things to leave out", len(drops))
			}
			for _, d := range drops {
				r := copyOf(c.Record)
				d.do(r)
				after := decide.Decide(tb, r, decide.Ask{})
				if after.Verdict >= min(before.Verdict, d.floor) || !readable(r, tb) {
					continue
				}
				t.Errorf("%s became %s without %s\nbefore:%s\nafter:%s", before.Verdict, after.Verdict, d.what, reasons(&before), reasons(&after))
			}
		})
	}
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

// standing gives the outcome that must stand without a reading, or a value of
// it: the whole, but for two that tell against the piece themselves. A reading
// out of range, at a limit or far from the label is such a one; and so is the
// only earlier reading of a place, where nothing else measured could stand in
// for it and a change or a growth is told from it.
func standing(tb *table.Tables, r *kit.Record, exam, index int) kit.Verdict {
	x := &r.Examinations[exam].Readings[index]
	j := criteria.Judge(tb, r)
	for i := range j.Reasons {
		reason := &j.Reasons[i]
		if len(reason.At) != 1 || !strings.HasPrefix(reason.Key, "reading.") && !strings.HasPrefix(reason.Key, "wear.") {
			continue
		}
		day, quantity := "", ""
		for _, a := range reason.Args {
			switch a.Name {
			case "day":
				day = a.Value
			case "quantity":
				quantity = a.Value
			}
		}
		here := reflect.DeepEqual(reason.At[0], x.At) && quantity == x.Quantity
		if here && (day == r.Examinations[exam].Day.String() || x.At.Part != "") {
			return kit.Keep
		}
	}
	for _, m := range criteria.Readings(tb, r) {
		if m.Exam == exam && m.Index == index && m.Out {
			return kit.Keep
		}
	}
	return kit.Withdraw
}

// without gives a list without its i-th value, and leaves the list as it was.
func without(list []qty.Length, i int) []qty.Length {
	return slices.Delete(slices.Clone(list), i, i+1)
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
func dropsOf(tb *table.Tables, r *kit.Record) []drop {
	var out []drop
	add := func(do func(*kit.Record), format string, args ...any) {
		out = append(out, drop{fmt.Sprintf(format, args...), kit.Withdraw, do})
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
		// A "no" withdraws; that it is not known whether they would sets aside.
		if e.WouldClimb == kit.SaidYes || e.WouldClimb != kit.NotSaid && (e.Kind == kit.Interim || e.Kind == kit.Thorough) {
			out = append(out, drop{"whether they would climb on it in " + name, kit.SetAside, func(r *kit.Record) { r.Examinations[i].WouldClimb = kit.NotSaid }})
		}
		for k := range e.Readings {
			stays := standing(tb, r, i, k)
			some := func(do func(*kit.Record), format string, args ...any) {
				out = append(out, drop{fmt.Sprintf(format, args...), stays, do})
			}
			x := &e.Readings[k]
			some(func(r *kit.Record) { r.Examinations[i].Readings = slices.Delete(r.Examinations[i].Readings, k, k+1) },
				"reading %d of %s", k+1, name)
			for v := range x.Values {
				some(func(r *kit.Record) { x := &r.Examinations[i].Readings[k]; x.Values = without(x.Values, v) }, "value %d of reading %d of %s", v+1, k+1, name)
			}
			for v := range x.Again {
				some(func(r *kit.Record) { x := &r.Examinations[i].Readings[k]; x.Again = without(x.Again, v) }, "second value %d of reading %d of %s", v+1, k+1, name)
			}
			if len(e.Readings[k].Again) > 0 {
				add(func(r *kit.Record) { r.Examinations[i].Readings[k].Again = nil }, "the second measurement %d of %s", k+1, name)
			}
			add(func(r *kit.Record) { r.Examinations[i].Readings[k].Wet = kit.NotSaid }, "whether reading %d of %s was wet", k+1, name)
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
		out = append(out, drop{"the fibre of the layer " + r.Piece.Layers[i].Name, kit.SetAside, func(r *kit.Record) { r.Piece.Layers[i].Fibre = "unknown" }})
	}
	out = append(out, drop{"all its layers", kit.SetAside, func(r *kit.Record) { r.Piece.Layers = nil }})
	// So does a manufacture that nobody knows and that can be traced (L-12),
	// where the day itself would end its life.
	out = append(out,
		drop{"when it was made", kit.SetAside, func(r *kit.Record) { r.Piece.Made = qty.PartialDate{} }},
		drop{"when it was made and bought", kit.SetAside, func(r *kit.Record) { r.Piece.Made, r.Piece.Bought = qty.PartialDate{}, qty.PartialDate{} }})
	// A nominal diameter, a tail and a stitch that nobody says set aside, where
	// what is said would withdraw.
	aside := func(what string, do func(*kit.Piece)) {
		out = append(out, drop{what, kit.SetAside, func(r *kit.Record) { do(&r.Piece) }})
	}
	if r.Piece.Diameter > 0 {
		aside("its nominal diameter", func(p *kit.Piece) { p.Diameter = 0 })
	}
	for i, of := range []func(*kit.Piece) *kit.End{
		func(p *kit.Piece) *kit.End { return &p.EndA },
		func(p *kit.Piece) *kit.End { return &p.EndB },
	} {
		id, end := string(rune('A'+i)), of(&r.Piece)
		if end.How != "" {
			aside("how end "+id+" is made", func(p *kit.Piece) { of(p).How = "" })
		}
		if end.Tail > 0 {
			aside("the tail of end "+id, func(p *kit.Piece) { of(p).Tail = 0 })
		}
		if end.Stitch != "" {
			aside("the stitch of end "+id, func(p *kit.Piece) { of(p).Stitch = "" })
		}
	}
	for i := range r.People {
		add(func(r *kit.Record) { r.People[i].Role = "" }, "the role of %s", r.People[i].ID)
		add(func(r *kit.Record) { r.People[i].Since = 0 }, "since when %s holds the role", r.People[i].ID)
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
