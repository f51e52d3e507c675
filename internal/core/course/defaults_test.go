package course

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/tables"
)

// TestDefaultRates holds the default tables, at the use that their rates stand
// for, against the limit of doubt; every figure takes in all modes, cells
// and ends. Hidden unfit at the end of life without looks is at most half the limit; so is the life-mean of unfit
// arriving per working day over the share of it that the day's looks find.
// Every mode shows in some required look already when impaired.
func TestDefaultRates(t *testing.T) {
	tb := tables.Default()
	limit := float64(tb.Rules.Limit) / 1e6
	checked := 0
	for i := range tb.Kinds {
		k := &tb.Kinds[i]
		if !k.Doubt {
			continue
		}
		checked++
		first, err := qty.NewDay(2026, 1, 5)
		if err != nil {
			t.Fatal(err)
		}
		r := &kit.Record{Yard: kit.Yard{Country: "GB"}, AsOf: first}
		r.Piece = kit.Piece{ID: "P1", Kind: k.ID, Marking: "readable", Origin: "new", History: "known", Length: k.Length}
		r.Piece.Made, r.Piece.FirstUse = first.Partial(), first.Partial()
		work := [8]bool{false, true, true, true, true, true}
		hardware := ""
		for _, l := range tb.Hardware {
			if l.Z == 0 {
				hardware = l.ID
			}
		}
		r.Uses = []kit.Use{{From: first, Week: tb.Rules.Reference.Week, Weekdays: work, Mass: tb.Rules.Reference.Mass, Dirt: "clean", Hardware: hardware}}
		end := criteria.Judge(tb, r).LifeEnd
		last := first.AddMonths(120) // no rule ends a metal piece by date: ten years are looked at
		if end.Known {
			last = end.Day
		}
		c := Begin(NewModel(tb, k, r), r, first)
		c.Advance(last)
		if _, err := c.b.Normalize(); err != nil {
			t.Fatal(err)
		}
		hidden := c.Figures().D.Hidden
		if hidden > limit/2 {
			t.Errorf("%s: hidden unfit at the end of life %.3g, want at most %.3g", k.ID, hidden, limit/2)
		}
		var all []given
		for n := range k.Needs {
			if k.Needs[n].Exam == kit.PreUse {
				all = append(all, given{&kit.Look{Look: k.Needs[n].Look, Covers: []kit.Stretch{{All: true}}, Conditions: kit.Conditions{Light: "good",
					Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}}, kit.PreUse, "a"})
			}
		}
		set := c.m.looks(all)
		days := float64(last-first) * 5 / 7
		standing := 0.0
		for l := range c.m.Local {
			v := c.unseenLocal(set, l)
			standing += c.b.Local(l)[doubt.Unfit] / days / (1 - v[doubt.Unfit])
		}
		for w := range c.m.Whole {
			v := c.unseenWhole(set, w)
			standing += c.b.WholeMode(w)[doubt.Unfit] / days / (1 - v[doubt.Unfit])
		}
		if !(standing <= limit/2) {
			t.Errorf("%s: life-mean unfit per working day over the share found %.3g, want at most %.3g", k.ID, standing, limit/2)
		}
		for m := range k.Modes {
			if !c.shows(&k.Modes[m].ID) {
				t.Errorf("%s: mode %s, when impaired, shows in no required look", k.ID, k.Modes[m].ID)
			}
		}
		t.Logf("%s: hidden %.2g, standing %.2g, over %d years", k.ID, hidden, standing, int(last-first)/365)
	}
	if checked == 0 {
		t.Fatal("no kind has a doubt figure")
	}
}

// shows says whether a mode has q(1f) > 0 in a sign of a look that some
// examination of the kind requires.
func (c *Course) shows(mode *string) bool {
	for s := range c.m.Kind.Signs {
		sign := &c.m.Kind.Signs[s]
		for _, l := range sign.Links {
			if l.Mode != *mode || !(l.Q1 > 0) {
				continue
			}
			for _, look := range sign.Looks {
				for _, n := range c.m.Kind.Needs {
					if n.Look == look {
						return true
					}
				}
			}
		}
	}
	return false
}
