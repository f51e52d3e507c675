package course

import (
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Gain is what one more look is worth.
type Gain struct {
	Look    kit.LookID
	Nothing float64 // P(it finds nothing that damage or a leak shows)
	After   float64 // doubt after finding nothing
	Worth   float64 // expected loss it saves, in units of one replacement
	Minutes float64
	From    qty.Length // where it helps most: the stretch with most doubt
	To      qty.Length
	Part    string
}

// Gains works out, for each look of the kind, what making it now over the whole
// piece would be worth, by the two results it can have. The loss of keeping is
// the doubt over the limit, of not keeping one replacement. Looks that cannot
// change the doubt are left out. The best by worth per minute comes first.
func (c *Course) Gains(limit int64, exam kit.ExamKind, left func(kit.LookID) bool) []Gain {
	now := c.Figures()
	if now == nil {
		return nil
	}
	loss := func(d float64) float64 { return min(1, d/(float64(limit)/1e6)) }
	before := loss(now.D.Unfit())
	from, to, part := c.Worst()
	var out []Gain
	for i := range c.m.Kind.Times {
		t := &c.m.Kind.Times[i]
		if !left(t.Look) {
			continue
		}
		p, after, ok := c.ifNothing([]kit.LookID{t.Look}, exam)
		if !ok || p > 1-1e-12 {
			continue
		}
		g := Gain{Look: t.Look, Nothing: p, After: after, Minutes: t.Minutes, From: from, To: to, Part: part}
		g.Worth = before - (float64(p*loss(after)) + (1 - p))
		out = append(out, g)
	}
	for i := 1; i < len(out); i++ {
		for k := i; k > 0 && out[k].rate() > out[k-1].rate(); k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	return out
}

func (g *Gain) rate() float64 {
	if g.Minutes <= 0 {
		return g.Worth
	}
	return g.Worth / g.Minutes
}

// ifNothing gives the chance that looks made well over the whole piece show
// nothing that damage or a leak would, and the doubt then.
func (c *Course) ifNothing(looks []kit.LookID, exam kit.ExamKind) (p, after float64, ok bool) {
	d := c.Clone()
	if _, err := d.b.Normalize(); err != nil {
		return 0, 0, false
	}
	var all []given
	made := make([]kit.Look, len(looks))
	for i, l := range looks {
		made[i] = kit.Look{Look: l, Covers: []kit.Stretch{{All: true}}, Conditions: kit.Conditions{Light: "good",
			Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}}
		all = append(all, given{&made[i], exam, "?"})
	}
	set := d.m.looks(all)
	leak := d.unseenLeak(set)
	d.unseen(set)
	p, err := d.b.Normalize()
	if err != nil {
		return 0, 0, false
	}
	var f doubt.Figures
	d.b.Figures(&f)
	return float64(p * leak), f.D.Unfit(), true
}

// IfAllNothing gives the doubt that would be left after all looks that are still
// open, each over the whole piece and without a finding.
func (c *Course) IfAllNothing(exam kit.ExamKind, left func(kit.LookID) bool) (float64, bool) {
	var looks []kit.LookID
	for i := range c.m.Kind.Times {
		if left(c.m.Kind.Times[i].Look) {
			looks = append(looks, c.m.Kind.Times[i].Look)
		}
	}
	if len(looks) == 0 {
		f := c.Figures()
		if f == nil {
			return 1, false
		}
		return f.D.Unfit(), true
	}
	_, after, ok := c.ifNothing(looks, exam)
	return after, ok
}

// Worst gives the stretch, or the part, that has most of the findable doubt:
// the cell with most, with its neighbours that have at least half as much.
func (c *Course) Worst() (from, to qty.Length, part string) {
	f := c.Figures()
	if f == nil {
		return 0, 0, ""
	}
	best := -1
	for i := range f.Cell {
		if !c.m.Cells[i].Gone && (best < 0 || f.Cell[i].Findable > f.Cell[best].Findable) {
			best = i
		}
	}
	if best < 0 {
		return 0, 0, ""
	}
	if c.m.Cells[best].Part != "" {
		return 0, 0, c.Now(kit.Place{Part: c.m.Cells[best].Part}).Part
	}
	lo, hi := best, best
	half := f.Cell[best].Findable / 2
	for c.m.along(lo-1) && f.Cell[lo-1].Findable >= half {
		lo--
	}
	for c.m.along(hi+1) && f.Cell[hi+1].Findable >= half {
		hi++
	}
	at := c.Now(kit.Place{From: c.m.Cells[lo].From, To: c.m.Cells[hi].To})
	return at.From, at.To, ""
}
