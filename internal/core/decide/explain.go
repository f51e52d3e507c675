package decide

import (
	"slices"

	"kernbook/internal/core/course"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// explain tells how the outcome came about.
func (j *judge) explain() {
	told := &Told{}
	j.out.Told = told
	told.Cautions = j.cautions()
	told.Changes = j.changes()
	if j.c != nil {
		j.followed(told)
	}
	told.Leaned = j.leaned(told)
}

// followed tells what the course of the doubt has to tell.
func (j *judge) followed(told *Told) {
	told.Assumed = append(append([]string(nil), j.c.Model().Assume...), j.c.Assumed...)
	if j.e != nil && unsaid(j.e.Looks) {
		told.Assumed = append(told.Assumed, "conditions")
	}
	if j.out.Doubt == nil {
		return
	}
	j.line(told)
	j.drops(told)
	j.shares(told)
	if j.out.Verdict < kit.Withdraw || j.onlyDoubt() {
		for _, g := range j.c.Gains(j.lim, j.examKind(), j.notMade) {
			told.Gains = append(told.Gains, Gain{Look: g.Look, Nothing: g.Nothing, After: num.CeilMillionths(g.After), Worth: g.Worth, Minutes: g.Minutes,
				At: Place{g.Part, g.From, g.To}})
		}
	}
	from, to, part := j.c.Worst()
	told.Worst = Place{part, from, to}
	told.Checked = j.check()
}

// unsaid says whether a look of the examination at hand leaves one of its
// conditions unsaid, which counts as the worst. Asking and reading have none
// that matter.
func unsaid(looks []kit.Look) bool {
	for i := range looks {
		l := &looks[i]
		c := &l.Conditions
		if l.Look == kit.Ask || l.Look == kit.Read {
			continue
		}
		if c.Light == "" {
			return true
		}
		for _, y := range [...]kit.Yes{c.Cleaned, c.Wet, c.Frozen, c.Muddy, c.Gloves, c.Hurried} {
			if y == kit.NotSaid {
				return true
			}
		}
	}
	return false
}

// onlyDoubt says whether nothing but the doubt withdraws.
func (j *judge) onlyDoubt() bool {
	for i := range j.out.Reasons {
		if r := &j.out.Reasons[i]; r.Verdict == kit.Withdraw && r.Row != "6" {
			return false
		}
	}
	return true
}

// line gives the saw-tooth of the doubt in whole millionths.
func (j *judge) line(told *Told) {
	if j.c.Trace == nil {
		return
	}
	told.Line, told.With, told.Without = points(j.c.Trace.Points), points(j.c.Trace.With), points(j.c.Trace.Without)
}

func points(of []course.Point) []Point {
	out := make([]Point, len(of))
	for i, p := range of {
		out[i] = Point{Day: p.Day, After: p.After, D: num.CeilMillionths(p.D.Unfit()), Hidden: num.CeilMillionths(p.D.Hidden), Mark: p.Mark}
	}
	return out
}

// drops gives what each look of the examination at hand did, in the fixed
// order of looks. The differences of whole millionths add up exactly. What was
// changed on that day, or happened on it, comes before them.
func (j *judge) drops(told *Told) {
	if j.c.Trace == nil || j.e == nil {
		return
	}
	last := int64(-1)
	for _, b := range j.c.Trace.Before {
		if b.Day == j.e.Day {
			last = num.CeilMillionths(b.D.Unfit())
		}
	}
	if last < 0 {
		return
	}
	told.Before = last
	for _, d := range j.c.Trace.Drops {
		if d.Day != j.e.Day {
			continue
		}
		after := num.CeilMillionths(d.After.Unfit())
		told.Drops = append(told.Drops, Drop{Look: d.Look, By: last - after, After: after})
		last = after
	}
}

// shares tells for every sign on record what can have shown it.
func (j *judge) shares(told *Told) {
	m := j.c.Model()
	open := j.c.Open()
	for i := range open {
		o := &open[i]
		s := Sign{Ref: o.Ref, ID: o.Sign.ID, Words: o.Sign.Words, Class: o.Sign.Class, At: o.At, Zone: o.Zone, Day: o.Day, State: o.State,
			Answered: o.Answered, AnswerOf: o.AnswerOf, Why: j.c.Why(i)}
		for _, sh := range j.c.Shares(i) {
			what, id := "leak", ""
			switch {
			case sh.Whole:
				what, id = "whole", m.Kind.Modes[m.Whole[sh.Index]].ID
			case sh.Cause:
				what, id = "cause", j.c.CauseID(sh.Index)
			case !sh.Leak:
				what, id = "mode", m.Kind.Modes[m.Local[sh.Index].Mode].ID
			}
			s.add(what, id, sh.P)
		}
		told.Signs = append(told.Signs, s)
	}
}

// add puts a share to those of the same name: one mode in several cells is one
// line of the explanation.
func (s *Sign) add(what, id string, p float64) {
	for i := range s.Shares {
		if s.Shares[i].What == what && s.Shares[i].ID == id {
			s.Shares[i].P += p
			return
		}
	}
	s.Shares = append(s.Shares, Share{what, id, p})
}

// check works the doubt out by the fired-mask sum where the examination at hand
// meets a belief with no sign on record before it.
func (j *judge) check() *Checked {
	net := j.c.Network()
	if net == nil {
		return nil
	}
	none, some, err := net.Sum(doubt.Query{From: doubt.Unfit})
	if err != nil || !(none+some > 0) {
		return nil
	}
	d := some / (none + some)
	diff := j.out.Doubt.D - d
	if diff < 0 {
		diff = -diff
	}
	if j.out.Doubt.D > 0 {
		diff /= j.out.Doubt.D
	}
	return &Checked{Method: "fired-mask sum", Difference: diff}
}

// changes says what would change the outcome: for every sign to be weighed that
// is not explained, a verified harmless cause; for a doubt over the limit, the
// looks that are left; for what is asked, the answer. Each is worked out, not
// guessed.
func (j *judge) changes() []Change {
	var out []Change
	if j.out.Verdict == kit.Withdraw && !j.onlyDoubtful() {
		return out
	}
	for i := range j.out.Open {
		q := &j.out.Open[i]
		if q.ID == QReplace || q.ID == QUse || q.ID == QRuns {
			continue // another piece changes nothing about this one; how it was used and looked at nobody can guess
		}
		out = append(out, Change{Key: "change.question", Args: []criteria.Arg{{Name: "question", Value: q.ID}, {Name: "to", Value: q.To}, {Name: "asked", Value: q.Asked}}, Verdict: j.without(q)})
	}
	if j.out.Doubt != nil && j.out.Doubt.Millions > j.out.Doubt.Limit && j.looksLeft() {
		if best, ok := j.bestLeft(); ok {
			v := kit.SetAside
			if num.CeilMillionths(best) <= j.lim {
				v = kit.Keep
			}
			out = append(out, Change{Key: "change.looks", Args: []criteria.Arg{{Name: "one-in", Value: count(num.OneIn(num.CeilMillionths(best)))}}, Verdict: v})
		}
	}
	if j.c != nil {
		open := j.c.Open()
		for i := range open {
			if o := &open[i]; o.Sign.Class == table.Weigh && !o.Answered && len(o.Cells) > 0 && j.c.Why(i) < float64(j.t.Rules.Explained) {
				out = append(out, j.ifExplained(i))
			}
		}
	}
	return out
}

// onlyDoubtful says whether nothing withdraws but rows 5 and 6, which a finding
// can still change.
func (j *judge) onlyDoubtful() bool {
	for i := range j.out.Reasons {
		if r := &j.out.Reasons[i]; r.Verdict == kit.Withdraw && r.Row != "6" && r.Row != "5" {
			return false
		}
	}
	return true
}

// without gives the strictest of the reasons that are left when one question is
// settled well. A doubt that cannot be worked out is not settled by that, nor is
// one over the limit that this sign's cause alone does not take under it.
func (j *judge) without(q *criteria.Question) kit.Verdict {
	v := kit.Keep
	for i := range j.out.Reasons {
		r := &j.out.Reasons[i]
		if r.Question == q.ID && r.To == q.To && !(r.Row == "6" && (j.out.Doubt == nil || q.ID == criteria.QSign && !j.enough(q.To))) {
			continue
		}
		v = kit.Stricter(v, r.Verdict)
	}
	return v
}

// enough says whether a harmless cause found for one sign takes the doubt under
// the limit, with no other look or answer.
func (j *judge) enough(ref string) bool {
	open := j.c.Open()
	for i := range open {
		if open[i].Named(ref) {
			d, _ := j.settled(j.c, i)
			f := d.Figures()
			return f != nil && num.CeilMillionths(f.D.Unfit()) <= j.lim
		}
	}
	return false
}

// ifExplained asks what the doubt would be if a harmless cause of a sign had
// been found and verified.
func (j *judge) ifExplained(i int) Change {
	d, cause := j.settled(j.c, i)
	o := &d.Open()[i]
	args := []criteria.Arg{{Name: "sign", Value: o.Sign.ID}, {Name: "ref", Value: o.Ref}, {Name: "cause", Value: cause}}
	v := j.doubtVerdict()
	if f := d.Figures(); f != nil {
		ppm := num.CeilMillionths(f.D.Unfit())
		args = append(args, criteria.Arg{Name: "why", Value: percent(d.Why(i))}, criteria.Arg{Name: "one-in", Value: count(num.OneIn(ppm))})
		if ppm <= j.lim && d.Why(i) >= float64(j.t.Rules.Explained) {
			v = kit.KeepSooner
		}
	}
	return Change{Key: "change.cause", Args: args, Verdict: v}
}

// cautions lists the W-lines that matter for this record, in their order.
func (j *judge) cautions() []string {
	p, e := &j.r.Piece, j.e
	fibre := func(id string) bool {
		for i := range p.Layers {
			if p.Layers[i].Fibre == id {
				return true
			}
		}
		return false
	}
	textile := j.k != nil && j.k.Group == "textile"
	missing := func(d qty.PartialDate) bool { return !d.Exact() }
	readings, signs, people := false, false, false
	if e != nil {
		readings = len(e.Readings) > 0
		signs = len(e.Signs) > 0
		for i := range e.Looks {
			people = people || (e.Looks[i].By != "" && e.Looks[i].By != e.By)
		}
	}
	contaminated := false
	for i := range j.r.Events {
		contaminated = contaminated || j.r.Events[i].Substance != ""
	}
	holder := false
	for i := range j.r.People {
		holder = holder || (e != nil && j.r.People[i].ID == e.By && (j.r.People[i].Holds || slices.Contains(e.HeldBy, e.By)))
	}
	thin := p.Kind == kit.Bridge || p.Kind == kit.HitchCord || p.Kind == kit.Sling
	v := j.out.Verdict
	var out []string
	for _, c := range [...]struct {
		id string
		on bool
	}{
		{"W-01", true},
		{"W-02", true},
		{"W-03", readings || signs},
		{"W-04", textile && (fibre("hmpe") || contaminated || len(p.Layers) == 0 || fibre("unknown"))},
		{"W-05", signs},
		{"W-06", readings},
		{"W-07", readings},
		{"W-08", missing(p.Made) || missing(p.FirstUse)},
		{"W-09", thin},
		{"W-10", true},
		{"W-11", textile},
		{"W-12", fibre("pa")},
		{"W-13", fibre("hmpe") || p.Kind == kit.HitchCord},
		{"W-14", fibre("steel") && p.Kind == kit.Lanyard},
		{"W-15", true},
		{"W-16", e == nil || e.Kind != kit.Thorough},
		{"W-17", v >= kit.SetAside},
		{"W-18", v >= kit.SetAside},
		{"W-19", holder},
		{"W-20", e != nil && e.Kind == kit.Thorough},
		{"W-21", true},
		{"W-22", j.cites("E-30", "E-31", "E-32", "E-33")},
		{"W-23", p.Fitted.In != ""},
		{"W-24", people},
	} {
		if c.on && j.t.Line(c.id) != nil {
			out = append(out, c.id)
		}
	}
	return out
}

func (j *judge) cites(ids ...string) bool {
	for i := range j.out.Reasons {
		for _, l := range j.out.Reasons[i].Lines {
			for _, id := range ids {
				if l == id {
					return true
				}
			}
		}
	}
	return false
}
