package doubt_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/doubt"
)

// TestWhatALookMightShow holds that a look can only tell what was there: D after
// it, averaged over whatever it could show, is D before it. A look without a
// finding, and no sign on record, leaves the findable unfit share no larger, nor
// D and each D(x) where nothing is hidden; and D after it is never more than D
// before it over P(nothing found).
func TestWhatALookMightShow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t)
		w.seen = w.seen[:min(len(w.seen), rapid.IntRange(0, 2).Draw(t, "on record"))]
		b := doubt.New(w.whole, w.cells)
		for _, p := range w.causes {
			b.AddCause(p)
		}
		for i := range w.seen {
			if _, err := b.See(w.seen[i]); err != nil {
				return
			}
		}
		if _, err := b.Normalize(); err != nil {
			t.Fatal(err)
		}
		var before, after doubt.Figures
		b.Figures(&before)
		look := w.unseen[:min(len(w.unseen), 3)]
		meanD, total := 0.0, 0.0
		for shown := range 1 << len(look) {
			c := b.Clone()
			for i := range look {
				if shown>>i&1 == 0 {
					unseen(c, look[i])
				} else if _, err := c.See(look[i]); err != nil {
					return // too many explanations to go through
				}
			}
			p, err := c.Normalize()
			if err != nil {
				t.Fatal(err)
			}
			c.Figures(&after)
			total += p
			meanD += p * after.D.Unfit()
			if shown != 0 {
				continue
			}
			const hair = 1 + 1e-12
			if after.D.Unfit() > before.D.Unfit()/p*hair {
				t.Fatalf("nothing found: D %.17g, before %.17g, P(nothing) %.17g", after.D.Unfit(), before.D.Unfit(), p)
			}
			if len(w.seen) > 0 {
				continue
			}
			if after.D.Findable > before.D.Findable*hair {
				t.Fatalf("nothing found: findable share %.17g, before %.17g", after.D.Findable, before.D.Findable)
			}
			if before.D.Hidden == 0 && w.soundHidden() {
				if after.D.Unfit() > before.D.Unfit()*hair {
					t.Fatalf("nothing found, nothing hidden: D %.17g, before %.17g", after.D.Unfit(), before.D.Unfit())
				}
				for i := range after.Cell {
					if after.Cell[i].Unfit() > before.Cell[i].Unfit()*hair {
						t.Fatalf("nothing found, nothing hidden: D of cell %d %.17g, before %.17g", i, after.Cell[i].Unfit(), before.Cell[i].Unfit())
					}
				}
			}
		}
		if math.Abs(total-1) > 1e-12 {
			t.Fatalf("the results of a look have probability %.17g together", total)
		}
		if math.Abs(meanD-before.D.Unfit()) > 1e-12*math.Max(before.D.Unfit(), 1e-3) {
			t.Fatalf("mean of D over what the look might show %.17g, before it %.17g", meanD, before.D.Unfit())
		}
	})
}

// soundHidden says whether no mode has any hidden share.
func (w *world) soundHidden() bool {
	local, _ := w.locals()
	for _, v := range append(append([]doubt.Vec(nil), w.whole...), local...) {
		if v[doubt.ImpairedHidden] > 0 || v[doubt.UnfitHidden] > 0 {
			return false
		}
	}
	return true
}
