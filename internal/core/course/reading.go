package course

import (
	"math"

	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// measured is one quantity in one cell in one examination: the mean of all its
// values, and how it stands by the rule of comparison (criteria.Readings).
type measured struct {
	quantity *table.Quantity
	cell     int // nowhere for a place that is not there
	at       kit.Place
	ref      string
	exam     kit.ExamKind
	mean     qty.Length
	n        int
	error    qty.Length // of one value
	base     qty.Length // what it is compared with; 0 when there is nothing yet
	speaks   bool       // all its readings may speak for soundness
	out      bool       // one of its readings is out of range
}

// nowhere is the cell of what was measured at a place that is not there, or no
// longer: it says nothing for soundness, but counts where it is out of range.
const nowhere = -1

// measure gathers the readings of an examination by cell, by the values that the
// rule of comparison holds.
func (c *Course) measure(e exam) []measured {
	if len(e.Readings) == 0 {
		return nil
	}
	out := make([]measured, 0, len(e.Readings))
	sums := make([]int64, 0, len(e.Readings))
	for i := range c.reads {
		x := &c.reads[i]
		if x.Exam != e.at {
			continue
		}
		r := &e.Readings[x.Index]
		q := x.Quantity
		at, cell := r.At, nowhere
		if cells := c.m.CellsOf(at); len(cells) > 0 {
			cell = cells[0]
		}
		k := -1
		for j := range out {
			if out[j].quantity == q && out[j].cell == cell && (cell != nowhere || samePlace(out[j].at, at)) {
				k = j
			}
		}
		if k < 0 {
			k = len(out)
			out = append(out, measured{quantity: q, cell: cell, at: at, exam: e.Kind, base: x.Base, speaks: cell != nowhere})
			sums = append(sums, 0)
		}
		m := &out[k]
		if r.Ref != "" {
			m.ref = r.Ref
		}
		m.out = m.out || x.Out
		m.speaks = m.speaks && x.Speaks
		if x.Base > 0 && (m.base == 0 || (x.Base > m.base) == (q.Out < 0)) {
			m.base = x.Base
		}
		err := r.Error
		if err <= 0 {
			err = q.Error
		}
		m.error = max(m.error, err)
		for _, v := range x.Values {
			sums[k] += int64(v)
			m.n++
		}
	}
	kept := out[:0]
	for k := range out {
		m := out[k]
		m.mean = qty.Length(sums[k] / int64(m.n))
		if e.reads == everyReading || m.out == (e.reads == outOfRange) {
			kept = append(kept, m)
		}
	}
	return kept
}

// noExam stands for a look that is part of no examination, but of a run.
const noExam = -1

// gauged gives a look with the gauge as it counts: it went only where a reading
// that may speak for soundness is on record, and so far to either side of it as
// the tables say. Other looks, and those on a kind that has nothing to measure,
// are as they were.
func (c *Course) gauged(e int, l *kit.Look) *kit.Look {
	if l.Look != kit.Gauge || len(c.m.Kind.Reads) == 0 {
		return l
	}
	out := *l
	out.Covers = make([]kit.Stretch, 0, len(c.reads)*len(l.Covers))
	reach := c.m.Tables.Rules.GaugeReach
	for i := range c.reads {
		x := &c.reads[i]
		if x.Exam != e || !x.Speaks {
			continue
		}
		at := c.r.Examinations[e].Readings[x.Index].At
		if len(c.m.CellsOf(at)) == 0 {
			continue
		}
		for _, s := range l.Covers {
			switch {
			case at.Whole:
			case at.Part != "":
				if s.All || s.Part == at.Part {
					out.Covers = append(out.Covers, kit.Stretch{Part: at.Part, Sides: s.Sides})
				}
			case s.All:
				out.Covers = append(out.Covers, kit.Stretch{From: max(0, at.From-reach), To: at.To + reach, Sides: s.Sides})
			case s.Part == "":
				if from, to := max(s.From, at.From-reach), min(s.To, at.To+reach); from < to {
					out.Covers = append(out.Covers, kit.Stretch{From: from, To: to, Sides: s.Sides})
				}
			}
		}
	}
	return &out
}

// stands gives the change that the likelihood is about, and its standard error:
// relative to the base, or in millimetres for an absolute quantity.
func (m *measured) stands() (y, se float64) {
	err := m.error.Millimetres() / math.Sqrt(float64(m.n))
	if m.quantity.Basis == "absolute" {
		return m.mean.Millimetres(), math.Sqrt(float64(err*err) + float64(m.quantity.Shared*m.quantity.Shared))
	}
	base := m.base.Millimetres()
	rel := err / base
	return float64(m.mean-m.base) / float64(m.base), math.Sqrt(float64(rel*rel) + float64(m.quantity.Shared*m.quantity.Shared))
}

// outOfRange turns readings that are out of range into the sign they are. One
// that repeats the reading on record within the tables' number of standard errors is
// the same; the error counts there as the tables give it at most, so that no gauge is
// said to be so poor that growth cannot be told.
func (c *Course) outOfRange(news []seen, all []measured) []seen {
	for k := range all {
		m := &all[k]
		if !m.out || (m.base == 0 && m.quantity.Basis != "absolute") {
			continue
		}
		known := *m
		known.error = min(known.error, known.quantity.Error)
		y, se := known.stands()
		fact := c.m.factOf(m.quantity.Sign)
		if fact < 0 {
			continue
		}
		repeated := false
		for i := range c.open {
			o := &c.open[i]
			if o.fact != fact || !c.isAt(o, m) {
				continue
			}
			repeated = true
			state := kit.Same
			width := float64(c.m.Tables.Rules.RepeatSE) / 100
			if !(math.Abs(y-o.Mean) <= float64(width*math.Sqrt(float64(se*se)+float64(o.Error*o.Error)))) {
				state = kit.Grown
			}
			c.hear(o, state)
		}
		if repeated {
			continue
		}
		ref := m.ref
		if ref == "" {
			ref = autoRef(m.quantity.ID, c.day, m.cell, m.at)
		}
		news = append(news, seen{ref: ref, fact: fact, cells: c.m.met(&c.m.facts[fact], m.at), at: m.at, order: kit.Gauge.Order(), exam: m.exam, mean: y, err: se})
	}
	return news
}

// isAt says whether a sign on record lies where something was measured.
func (c *Course) isAt(o *Open, m *measured) bool {
	if m.cell == nowhere {
		return len(o.Cells) == 0 && samePlace(o.At, m.at)
	}
	return contains(o.Cells, m.cell) || contains(o.Cells, c.m.met(&c.m.facts[o.fact], m.at)[0])
}

func samePlace(a, b kit.Place) bool {
	return a.Whole == b.Whole && a.Part == b.Part && a.From == b.From && a.To == b.To
}

// enters says whether a reading enters as a likelihood.
func (m *measured) enters() bool {
	return !m.out && m.speaks && (m.base > 0 || m.quantity.Basis == "absolute")
}

// weigh puts readings in range into the mode of their own cell. A reading that
// was not said to be taken dry, or that has nothing sound to be compared with,
// is not evidence for soundness and is left out.
func (c *Course) weigh(all []measured) {
	for k := range all {
		m := &all[k]
		if !m.enters() {
			continue
		}
		y, se := m.stands()
		like := Likelihood(m.quantity, y, se)
		for l := c.m.Cells[m.cell].First; l < c.m.Cells[m.cell].Last; l++ {
			if c.m.Kind.Modes[c.m.Local[l].Mode].ID == m.quantity.Mode {
				c.weighLocal(l, &like)
			}
		}
	}
}

// Likelihood gives what a value y, with the standard error se, says of a mode:
// heavy-tailed about what each state shows, with a share of slips, so that one
// slip of the gauge cannot decide alone. A hidden state reads as sound.
//
//	L(x) = (1−ε)·t_ν((y − μ_x)/s_x)/s_x + ε·c,   s_x = √(σ_x² + se²)
func Likelihood(q *table.Quantity, y, se float64) doubt.Vec {
	var l [3]float64
	for x := range l {
		s := math.Sqrt(float64(q.Sigma[x]*q.Sigma[x]) + float64(se*se))
		l[x] = float64((1-q.Slip)*num.StudentT((y-q.Mu[x])/s, q.Nu))/s + float64(q.Slip*q.SlipC)
	}
	top := max(l[0], l[1], l[2])
	if !(top > 0) {
		return doubt.Ones()
	}
	for x := range l {
		l[x] /= top
	}
	return doubt.Vec{l[0], l[1], l[0], l[2], l[0]}
}
