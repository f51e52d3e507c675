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
// values, and how it stands against the first record and the piece's own median.
type measured struct {
	quantity *table.Quantity
	cell     int
	at       kit.Place
	ref      string
	exam     kit.ExamKind
	mean     qty.Length
	n        int
	error    qty.Length // of one value
	base     qty.Length // what it is compared with; 0 when there is nothing yet
	compared bool       // dry, and so usable as evidence for soundness
	out      bool
}

// measure gathers the readings of an examination. A second measurement, where
// there was one, replaces the first.
func (c *Course) measure(e *kit.Examination) []measured {
	var out []measured
	var sums []int64
	for i := range e.Readings {
		r := &e.Readings[i]
		q := c.m.Kind.Quantity(r.Quantity)
		values := r.Values
		if len(r.Again) > 0 {
			values = r.Again
		}
		cells := c.m.CellsOf(c.onPiece(r.At))
		if q == nil || len(values) == 0 || len(cells) == 0 {
			continue
		}
		k := -1
		for j := range out {
			if out[j].quantity == q && out[j].cell == cells[0] {
				k = j
			}
		}
		if k < 0 {
			k = len(out)
			out = append(out, measured{quantity: q, cell: cells[0], at: c.onPiece(r.At), exam: e.Kind, compared: true})
			sums = append(sums, 0)
		}
		m := &out[k]
		if r.Ref != "" {
			m.ref = r.Ref
		}
		m.compared = m.compared && r.Wet == kit.SaidNo
		err := r.Error
		if err <= 0 {
			err = q.Error
		}
		m.error = max(m.error, err)
		for _, v := range values {
			sums[k] += int64(v)
			m.n++
		}
	}
	for k := range out {
		out[k].mean = qty.Length(sums[k] / int64(out[k].n))
	}
	c.against(out)
	return out
}

// against compares readings with the first record of their cell, else with the
// piece's own median of the day, and finds which are out of range. The
// comparison of what is out of range is made on whole micrometres.
func (c *Course) against(all []measured) {
	for k := range all {
		m := &all[k]
		if m.quantity.Basis == "absolute" {
			m.base = 0
			m.out = beyond(m.mean, 0, m.quantity.Out, true)
			continue
		}
		median, n := median(all, m.quantity)
		first := c.firstOf(m.quantity.ID, m.cell)
		if n >= 3 {
			m.base = median
			m.out = beyond(m.mean, median, m.quantity.Out, false)
		}
		if first > 0 {
			m.base = first
			m.out = m.out || beyond(m.mean, first, m.quantity.Out, false)
		} else {
			c.first = append(c.first, baseline{m.quantity.ID, m.cell, m.mean, c.day})
		}
	}
}

// beyond says whether a value is out of range: against a base by a share of it,
// or absolutely in millimetres.
func beyond(value, base qty.Length, out float64, absolute bool) bool {
	if out == 0 {
		return false
	}
	millionths := int64(math.Floor(float64(out*1e6) + 0.5))
	if absolute {
		return (out > 0 && int64(value)*1000 > millionths) || (out < 0 && int64(value)*1000 < -millionths)
	}
	change := int64(value-base) * 1e6
	edge := int64(base) * millionths
	return (out < 0 && change < edge) || (out > 0 && change > edge)
}

func median(all []measured, q *table.Quantity) (qty.Length, int) {
	var v []qty.Length
	for k := range all {
		if all[k].quantity == q {
			v = append(v, all[k].mean)
			for i := len(v) - 1; i > 0 && v[i] < v[i-1]; i-- {
				v[i], v[i-1] = v[i-1], v[i]
			}
		}
	}
	n := len(v)
	if n == 0 {
		return 0, 0
	}
	return (v[(n-1)/2] + v[n/2]) / 2, n
}

func (c *Course) firstOf(quantity string, cell int) qty.Length {
	for i := range c.first {
		if c.first[i].quantity == quantity && c.first[i].cell == cell && c.first[i].day < c.day {
			return c.first[i].mean
		}
	}
	return 0
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
// that repeats the reading on record within two standard errors is the same.
func (c *Course) outOfRange(news []seen, all []measured) []seen {
	for k := range all {
		m := &all[k]
		if !m.out || (m.base == 0 && m.quantity.Basis != "absolute") {
			continue
		}
		y, se := m.stands()
		fact := -1
		for f := range c.m.facts {
			if c.m.facts[f].sign.ID == m.quantity.Sign {
				fact = f
			}
		}
		if fact < 0 {
			continue
		}
		repeated := false
		for i := range c.open {
			o := &c.open[i]
			if o.fact != fact || !(contains(o.Cells, m.cell) || contains(o.Cells, c.m.met(&c.m.facts[fact], m.at)[0])) {
				continue
			}
			repeated = true
			state := kit.Same
			if !(math.Abs(y-o.Mean) <= 2*math.Sqrt(float64(se*se)+float64(o.Error*o.Error))) {
				state = kit.Grown
			}
			c.hear(o, state)
		}
		if repeated {
			continue
		}
		ref := m.ref
		if ref == "" {
			ref = autoRef(m.quantity.ID, c.day, m.cell)
		}
		news = append(news, seen{ref: ref, fact: fact, cells: c.m.met(&c.m.facts[fact], m.at), at: m.at, order: kit.Gauge.Order(), exam: m.exam, mean: y, err: se})
	}
	return news
}

// enters says whether a reading enters as a likelihood.
func (m *measured) enters() bool {
	return !m.out && m.compared && (m.base > 0 || m.quantity.Basis == "absolute")
}

// weigh puts readings in range into the mode of their own cell. A reading that
// was not said to be taken dry is not evidence for soundness and is left out.
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
