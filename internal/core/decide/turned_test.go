package decide_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/anyrecord"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// mirror says the places of a record from the other end, from a day on. It knows
// nothing of the datum: places are turned by hand, a run is cut in two.
func mirror(r *kit.Record, from qty.Day) {
	long := r.Piece.Length
	swap := map[string]string{"end A": "end B", "end B": "end A"}
	place := func(p *kit.Place) {
		if other, ok := swap[p.Part]; ok {
			p.Part = other
		} else if p.Part == "" && !p.Whole {
			p.From, p.To = long-p.To, long-p.From
		}
	}
	looks := func(in []kit.Look) []kit.Look {
		out := append([]kit.Look(nil), in...)
		for i := range out {
			out[i].Covers = append([]kit.Stretch(nil), out[i].Covers...)
			for k := range out[i].Covers {
				if s := &out[i].Covers[k]; !s.All {
					p := kit.Place{Part: s.Part, From: s.From, To: s.To}
					place(&p)
					s.Part, s.From, s.To = p.Part, p.From, p.To
				}
			}
		}
		return out
	}
	for i := range r.Examinations {
		e := &r.Examinations[i]
		if e.Day < from {
			continue
		}
		e.Looks = looks(e.Looks)
		for k := range e.Signs {
			place(&e.Signs[k].At)
		}
		for k := range e.Readings {
			place(&e.Readings[k].At)
		}
	}
	var runs []kit.Run
	for _, x := range r.Runs {
		if x.From < from && from <= x.To {
			before := x
			before.To, x.From = from-1, from
			runs = append(runs, before)
		}
		if x.From >= from {
			x.Looks = looks(x.Looks)
		}
		runs = append(runs, x)
	}
	r.Runs = runs
	for i := range r.Events {
		if e := &r.Events[i]; e.Day >= from && e.PlaceSaid {
			place(&e.At)
		}
	}
}

// symmetric says whether the usual zones of a kind lie alike from either end.
func symmetric(k *table.Kind) bool { return k.ID == kit.Bridge || k.ID == kit.Sling }

// TestTurnedIsTheSamePiece: a record in which the piece was turned end for end,
// its places said from the other end from then on, judges as the one in which it
// was not: the verdict, the doubt, and the doubt at each place of the piece.
func TestTurnedIsTheSamePiece(t *testing.T) {
	judged, turned, lopsided := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: symmetric, NoChanges: true})
		if r.Piece.Length <= 0 {
			t.Skip("no length on record")
		}
		r.Piece.Zones = nil
		s := anyrecord.Copy(r)
		day := max(r.AsOf-qty.Day(rapid.IntRange(0, 400).Draw(t, "turned so long ago")), decide.Born(tb, r))
		mirror(s, day)
		s.Changes = append(s.Changes, kit.Change{Day: day, What: kit.Turned, By: "examiner"})
		if decide.Born(tb, s) != decide.Born(tb, r) {
			t.Skip("turned before it was there")
		}
		a, b := decide.Decide(tb, r, decide.Ask{Figures: true}), decide.Decide(tb, s, decide.Ask{Figures: true})
		even := r.Piece.Length%tb.Kind(r.Piece.Kind).Cell == 0 // else the stretches to go over begin elsewhere
		if even && (a.Verdict != b.Verdict || len(a.Reasons) != len(b.Reasons)) || (a.Doubt == nil) != (b.Doubt == nil) {
			t.Fatalf("%s with %d reasons, turned %s with %d", a.Verdict, len(a.Reasons), b.Verdict, len(b.Reasons))
		}
		if even {
			judged++
		}
		if a.Doubt == nil {
			return
		}
		turned++
		if !alike(a.Doubt.D, b.Doubt.D) {
			t.Fatalf("doubt %g, turned %g", a.Doubt.D, b.Doubt.D)
		}
		n := 0
		for ; n < len(a.Doubt.Cells) && a.Doubt.Cells[n].Part == ""; n++ {
		}
		for i := range n {
			x, y := &a.Doubt.Cells[i], &b.Doubt.Cells[n-1-i]
			if y.From != r.Piece.Length-x.To || y.To != r.Piece.Length-x.From || !alike(x.D, y.D) {
				t.Fatalf("at %s to %s the doubt is %g; turned, at %s to %s, %g", x.From, x.To, x.D, y.From, y.To, y.D)
			}
			if !alike(x.D, b.Doubt.Cells[i].D) {
				lopsided++
			}
		}
		for i := n; i < len(a.Doubt.Cells); i++ { // the two ends
			x, y := &a.Doubt.Cells[i], &b.Doubt.Cells[n+len(a.Doubt.Cells)-1-i]
			if x.Part == y.Part || !alike(x.D, y.D) {
				t.Fatalf("%s: doubt %g; turned, %s: %g", x.Part, x.D, y.Part, y.D)
			}
		}
	})
	if judged == 0 || turned == 0 || lopsided == 0 {
		t.Errorf("%d outcomes and %d doubts compared, %d places where it made a difference", judged, turned, lopsided)
	}
}

// TestTurnedTwice: turning a piece and turning it back changes nothing, whatever
// else was done to it.
func TestTurnedTwice(t *testing.T) {
	moved := 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted})
		if r.Piece.Length <= 0 || tb.Kind(r.Piece.Kind).Axis != "length" {
			t.Skip("no length on record")
		}
		s := anyrecord.Copy(r)
		day := max(r.AsOf-qty.Day(rapid.IntRange(0, 400).Draw(t, "turned so long ago")), decide.Born(tb, r))
		twice := []kit.Change{{Day: day, What: kit.Turned, By: "examiner"}, {Day: day, What: kit.Turned, By: "examiner"}}
		s.Changes = append(twice, s.Changes...)
		if decide.Born(tb, s) != decide.Born(tb, r) {
			t.Skip("turned before it was there")
		}
		a, b := decide.Decide(tb, r, decide.Ask{Figures: true}), decide.Decide(tb, s, decide.Ask{Figures: true})
		if a.Verdict != b.Verdict || len(a.Reasons) != len(b.Reasons) || (a.Doubt == nil) != (b.Doubt == nil) {
			t.Fatalf("%s with %d reasons, turned twice %s with %d", a.Verdict, len(a.Reasons), b.Verdict, len(b.Reasons))
		}
		if a.Doubt != nil && !alike(a.Doubt.D, b.Doubt.D) {
			t.Fatalf("doubt %g, turned twice %g", a.Doubt.D, b.Doubt.D)
		}
		if len(r.Changes) > 0 {
			moved++
		}
	})
	if moved == 0 {
		t.Error("no record had another change")
	}
}

// alike says whether two figures are the same but for rounding.
func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(a, b)+1e-15 }
