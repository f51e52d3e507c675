package report

import "kernbook/internal/core/decide"

// toldDoc gives the explanation.
func (j *jsonDoc) toldDoc() *toldDoc {
	x := j.o.Told
	d := &toldDoc{Before: x.Before, Worst: j.place(placed(x.Worst), ""), Drops: []dropDoc{}, Line: pointDocs(x.Line),
		With: pointDocs(x.With), Without: pointDocs(x.Without), Signs: []signDoc{}, Gains: []gainDoc{},
		Changes: []changeDoc{}, Assumed: []assumedDoc{}, Cautions: []cautionDoc{}}
	for _, p := range x.Drops {
		d.Drops = append(d.Drops, dropDoc{string(p.Look), j.look(p.Look), p.By, p.After})
	}
	for i := range x.Signs {
		g := &x.Signs[i]
		s := signDoc{g.Ref, g.ID, j.sign(g.ID), string(g.Class), j.place(g.At, g.Zone), g.Zone, g.Day.String(), string(g.State), g.Answered, g.AnswerOf,
			down(g.Why), []shareDoc{}, j.onRecord(g)}
		for _, sh := range g.Shares {
			s.Shares = append(s.Shares, shareDoc{sh.What, sh.ID, j.origin(sh), down(sh.P)})
		}
		d.Signs = append(d.Signs, s)
	}
	for i := range x.Gains {
		g := &x.Gains[i]
		d.Gains = append(d.Gains, gainDoc{string(g.Look), down(g.Nothing), g.After, g.Worth, g.Minutes, j.place(placed(g.At), ""), j.gain(g)})
	}
	for i := range x.Changes {
		c := &x.Changes[i]
		d.Changes = append(d.Changes, changeDoc{c.Key, argDocs(c.Args), c.Verdict.String(), j.change(c)})
	}
	for _, fact := range x.Assumed {
		d.Assumed = append(d.Assumed, assumedDoc{fact, j.assumed(fact)})
	}
	d.Leaned, d.LeanedGroups = j.leanedDocs(x.Leaned)
	for _, id := range x.Cautions {
		if l := j.t.Line(id); l != nil {
			d.Cautions = append(d.Cautions, cautionDoc{id, l.Caution})
		}
	}
	if x.Checked != nil {
		d.Checked = &checkedDoc{x.Checked.Method, x.Checked.Difference}
	}
	return d
}

func pointDocs(of []decide.Point) []pointDoc {
	out := make([]pointDoc, len(of))
	for i, p := range of {
		out[i] = pointDoc{p.Day.String(), p.After, p.D, p.Hidden, p.Mark}
	}
	return out
}
