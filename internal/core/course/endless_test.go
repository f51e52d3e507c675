package course

import (
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/anyrecord"
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/tables"
)

// TestAnyLooksWithoutEnd: what is left of D, and of each D(x), after ever more
// looks that find nothing is the hidden part and not nought. Random histories without a sign on
// record, default and drawn tables.
//
// So that looks can be without end, the tables let nothing begin or get worse:
// what harm there is was there when the piece was new; thorough examinations of
// every day are what is looked at. The hidden part is worked out from the single
// modes: of a mode that no look shows there remains hidden unfit over what is
// sound or hidden.
func TestAnyLooksWithoutEnd(t *testing.T) {
	tried, drawn := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		tb := tables.Default()
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted, NoSigns: true, NoReadings: true, NoChanges: true, NoEvents: true})
		if rapid.Bool().Draw(t, "drawn tables") {
			tb = anyrecord.Tables(t, tb, r.Piece.Kind)
			drawn++
		}
		tb = anyrecord.Still(tb, r.Piece.Kind)
		k := tb.Kind(r.Piece.Kind)
		r.Piece.FirstUse = qty.PartialDate{} // else it would lie in store before
		for i := range r.Runs {
			r.Runs[i].To = min(r.Runs[i].To, r.AsOf)
		}
		var uses []kit.Use
		for _, u := range r.Uses {
			if u.From <= r.AsOf {
				uses = append(uses, u)
			}
		}
		r.Uses = uses
		end := r.AsOf + 20_000
		r.Uses = append(r.Uses, kit.Use{From: r.AsOf + 1, Store: true})
		run := kit.Run{Kind: kit.Thorough, By: "examiner", From: r.AsOf + 2, To: end, Weekdays: [8]bool{false, true, true, true, true, true, true, true}}
		for _, n := range k.Needs {
			if n.Exam == kit.Thorough {
				run.Looks = append(run.Looks, kit.Look{Look: n.Look, Covers: []kit.Stretch{{All: true}}, Conditions: anyrecord.Good})
			}
		}
		r.People = append(r.People, kit.Person{ID: "examiner", Role: "examiner", Since: 1})
		r.Runs = append(r.Runs, run)
		c := Begin(NewModel(tb, k, r), r, r.AsOf-2500)
		c.Run(r.AsOf + 2)
		at := c.Figures()
		if at == nil {
			return // by drawn rates what was looked at before cannot have shown nothing
		}
		before := *at
		unseen := 1.0 // the chance that no mode has anything that looks can show
		hidden := func(v doubt.Vec) float64 {
			unseen *= v[0] + v[doubt.ImpairedHidden] + v[doubt.UnfitHidden]
			return v[doubt.UnfitHidden] / (v[0] + v[doubt.ImpairedHidden] + v[doubt.UnfitHidden])
		}
		none, cells := 1.0, make([]float64, len(c.m.Cells))
		for w := range c.m.Whole {
			none *= 1 - hidden(c.b.WholeMode(w))
		}
		for i := range cells {
			one := 1.0
			for l := c.m.Cells[i].First; l < c.m.Cells[i].Last; l++ {
				one *= 1 - hidden(c.b.Local(l))
			}
			cells[i] = 1 - one
			none *= one
		}
		was := make([]float64, len(cells))
		for i := range was {
			was[i] = before.Cell[i].Unfit()
		}
		hiddenD, whole := 1-none, before.D.Unfit()
		c.Run(end)
		after := c.Figures()
		if unseen < 0.1 {
			return // harmed before, all but surely: that looks show nothing for 20,000 days is not to be
		}
		if after == nil {
			t.Fatal(c.Err())
		}
		tried++
		// 20,000 days leave at most a fifth of what looks can find, by whatever tables are drawn.
		same := func(what string, got, want, from float64) {
			if got < want*0.9-1e-12 || got > want+1e-12+1e-7*want+max(0, from-want)/5 {
				t.Fatalf("%s: %s is %.12g after looks without end, its hidden part %.12g; before them it was %.12g", k.ID, what, got, want, from)
			}
		}
		same("D", after.D.Unfit(), hiddenD, whole)
		same("the hidden share", after.D.Hidden, hiddenD, whole)
		for i := range cells {
			same("D of a cell", after.Cell[i].Unfit(), cells[i], was[i])
		}
		if after.D.Unfit() > whole*(1+1e-9) && before.D.Hidden == 0 {
			t.Fatalf("%s: D rose from %.12g to %.12g with nothing hidden", k.ID, whole, after.D.Unfit())
		}
	})
	if tried == 0 || drawn == 0 {
		t.Fatalf("%d beliefs, %d of them on drawn tables", tried, drawn)
	}
}
