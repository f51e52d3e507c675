package criteria

import (
	"strconv"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// measured is one reading of a quantity in one examination: the values that
// hold (a second measurement replaces the first), in micrometres.
type measured struct {
	q     *table.Quantity
	day   qty.Day
	place kit.Place
	ref   string
	low   int64
	high  int64
	sum   int64
	n     int64
	err   qty.Length // standard error of one value; 0 where nobody says
}

// readings gives all readings of quantities of the kind, by day. A reading
// without a value, or of a quantity that the kind does not have, says nothing.
func (j *judge) readings() []measured {
	n := 0
	for i := range j.exams {
		n += len(j.exams[i].Readings)
	}
	out := make([]measured, 0, n)
	for i := range j.exams {
		e := &j.exams[i]
		for r := range e.Readings {
			x := &e.Readings[r]
			q := j.k.Quantity(x.Quantity)
			values := x.Values
			if len(x.Again) > 0 {
				values = x.Again
			}
			if q == nil || len(values) == 0 {
				continue
			}
			m := measured{q: q, day: e.Day, place: x.At, ref: x.Ref, low: int64(values[0]), high: int64(values[0]), err: x.Error}
			if m.err <= 0 {
				m.err = q.Error
			}
			for _, v := range values {
				m.low, m.high = min(m.low, int64(v)), max(m.high, int64(v))
				m.sum += int64(v)
				m.n++
			}
			out = append(out, m)
		}
	}
	return out
}

// samePlace reports whether two readings are of one place: the same part, both
// of the whole, or stretches that meet.
func samePlace(a, b kit.Place) bool {
	switch {
	case a.Part != "" || b.Part != "":
		return a.Part == b.Part
	case a.Whole || b.Whole:
		return a.Whole && b.Whole
	}
	return a.From <= b.To && b.From <= a.To
}

// along reports whether a reading is of a stretch, not of a part or the whole.
func along(p kit.Place) bool { return p.Part == "" && !p.Whole }

// firsts gives what a reading is compared with: the first record of its own
// place on an earlier day, and, along the piece, the median of the first
// examination that measured the quantity. Never the label (W-07).
func firsts(all []measured, i int) []ratio {
	x := &all[i]
	var out []ratio
	for k := range all {
		if m := &all[k]; m.q == x.q && m.day < x.day && samePlace(m.place, x.place) {
			out = append(out, ratio{m.sum, m.n})
			break
		}
	}
	if !along(x.place) {
		return out
	}
	first := x.day
	for k := range all {
		if m := &all[k]; m.q == x.q && along(m.place) {
			first = min(first, m.day)
		}
	}
	var means []ratio
	for k := range all {
		if m := &all[k]; m.q == x.q && along(m.place) && m.day == first {
			means = append(means, ratio{m.sum, m.n})
		}
	}
	if len(means) > 1 || first < x.day {
		out = append(out, median(means))
	}
	return out
}

// ratio is a value in micrometres as a fraction, top over a positive bottom.
type ratio struct{ top, bottom int64 }

// median gives the middle of the values, of an even number the mean of the two.
func median(v []ratio) ratio {
	for i := 1; i < len(v); i++ {
		for k := i; k > 0 && v[k].top*v[k-1].bottom < v[k-1].top*v[k].bottom; k-- {
			v[k], v[k-1] = v[k-1], v[k]
		}
	}
	m := len(v) / 2
	if len(v)%2 == 1 {
		return v[m]
	}
	a, b := v[m-1], v[m]
	return ratio{a.top*b.bottom + b.top*a.bottom, 2 * a.bottom * b.bottom}
}

// limits enters every reading that is at or beyond a limit of its quantity, or
// so far out of the range of a sound piece that it is an absolute sign. The
// worst value of a reading counts, not the mean: one bad place is enough (W-05).
func (j *judge) limits(all []measured) {
	for i := range all {
		m := &all[i]
		base := firsts(all, i)
		for l := range m.q.Limits {
			lim := &m.q.Limits[l]
			if lim.Verdict > kit.KeepSooner || lim.Verdict == kit.KeepSooner && !again(all, i) {
				j.limit(m, lim, base)
			}
		}
		j.outOfRange(m, base)
	}
}

// again reports whether a place was measured again on a later day.
func again(all []measured, i int) bool {
	for k := range all {
		if m := &all[k]; m.q == all[i].q && m.day > all[i].day && samePlace(m.place, all[i].place) {
			return true
		}
	}
	return false
}

// limit enters a reading that is at a limit or beyond it. One that asks for an
// earlier look holds until the place is measured again: until half the usual
// interval after the reading, then set aside.
func (j *judge) limit(m *measured, lim *table.Limit, base []ratio) {
	worst := m.high
	if lim.Below {
		worst = m.low
	}
	if lim.At > 0 && beyond(worst, int64(lim.At), lim.Below) {
		j.limited(m, lim, "reading.limit", Arg{"value", qty.Length(worst).String()}, Arg{"limit", lim.At.String()})
	}
	for _, b := range base {
		if lim.Share != 0 && changed(worst, b, lim.Share, lim.Below) {
			j.limited(m, lim, "reading.change", Arg{"value", qty.Length(worst).String()}, Arg{"first", qty.Length(b.top / b.bottom).String()},
				Arg{"per-mille", strconv.FormatInt(lim.Share, 10)})
			return
		}
	}
}

func (j *judge) limited(m *measured, lim *table.Limit, key string, args ...Arg) {
	x := Reason{Row: rowOf(lim.Verdict), Verdict: lim.Verdict, Key: key, Words: lim.Words, At: []kit.Place{m.place}, Status: lim.Status}
	x.Args = append(append([]Arg{{"quantity", m.q.ID}, {"day", m.day.String()}}, args...), placed(m.place)...)
	x.ID, x.Lines = cited(lim.Cite, lim.Lines, "-ABS", "-ASIDE")
	if lim.Verdict == kit.KeepSooner {
		if x.Until = j.half(m.day); j.r.AsOf > x.Until {
			x.Row, x.Verdict, x.Until, x.Lines = "2", kit.SetAside, 0, append(x.Lines, lSooner, lNotUsed)
		}
	}
	if x.Verdict == kit.SetAside {
		x.Question, x.To = QMeasure, nameOr(m.ref, m.q.ID)
		if j.answer(m.day, proofFor(x.Lines), m.ref, m.q.ID) != nil {
			return
		}
	}
	j.add(x)
}

// outOfRange enters a reading whose change is out of the range of a sound piece
// where the kind's sign for that withdraws or sets aside by itself.
func (j *judge) outOfRange(m *measured, base []ratio) {
	sign := j.k.Sign(m.q.Sign)
	if m.q.Out == 0 || sign == nil || sign.Class != table.Absolute && sign.Class != table.Aside {
		return
	}
	below := m.q.Out < 0
	worst := m.high
	if below {
		worst = m.low
	}
	// Toward zero, so that rounding never makes the range wider.
	out := int64(float64(m.q.Out * 1000))
	for _, b := range base {
		if !changed(worst, b, out, below) {
			continue
		}
		x := Reason{Row: "1", Verdict: kit.Withdraw, Key: "reading.out-of-range", Words: sign.Words, At: []kit.Place{m.place}, Status: sign.Status,
			Args: append([]Arg{{"quantity", m.q.ID}, {"value", qty.Length(worst).String()}, {"day", m.day.String()},
				{"first", qty.Length(b.top / b.bottom).String()}, {"sign", sign.ID}}, placed(m.place)...)}
		x.ID, x.Lines = cited(sign.Cite, sign.Lines, "-ABS", "-ASIDE")
		if sign.Class == table.Aside {
			x.Row, x.Verdict, x.Asked = "2", kit.SetAside, sign.Question
			x.Question, x.To = QMeasure, nameOr(m.ref, m.q.ID)
			if j.answer(m.day, proofFor(x.Lines), m.ref, m.q.ID) != nil {
				return
			}
		}
		j.add(x)
		return
	}
}

// beyond reports whether a value is at the limit or beyond it.
func beyond(v, limit int64, below bool) bool {
	if below {
		return v <= limit
	}
	return v >= limit
}

// changed reports whether the change from a first value, in parts per thousand
// of it, is at the limit or beyond it. A first value of nothing has no parts.
func changed(v int64, first ratio, perMille int64, below bool) bool {
	if first.top <= 0 {
		return false
	}
	return beyond((v*first.bottom-first.top)*1000, perMille*first.top, below)
}

// rowOf gives the row of the decision for a limit's outcome.
func rowOf(v kit.Verdict) string {
	switch v {
	case kit.Withdraw:
		return "1"
	case kit.SetAside:
		return "2"
	}
	return "6a"
}

// ends enters what the record says of how a rope is made: a nominal diameter at
// or below the limit of the quantity "nominal", a stitch through an end that is
// cut or missing, and a tail at or below the limit of the quantity "tail".
func (j *judge) ends() {
	if d := j.r.Piece.Diameter; d > 0 {
		j.stated("nominal", kit.Place{Whole: true}, d)
	}
	for _, e := range []struct {
		id  string
		end *kit.End
	}{{"A", &j.r.Piece.EndA}, {"B", &j.r.Piece.EndB}} {
		part := kit.Place{Part: "end " + e.id}
		for i := range j.k.Parts {
			if j.k.Parts[i].End == e.id {
				part.Part = j.k.Parts[i].ID
			}
		}
		if s := e.end.Stitch; s == "cut" || s == "missing" {
			j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lStitch, Lines: []string{lRow1}, Key: "end.stitch",
				Args: []Arg{{"end", e.id}, {"stitch", s}}, At: []kit.Place{part}, Status: table.CommonPractice})
		}
		if e.end.How == "knot" && e.end.Tail > 0 {
			j.stated("tail", part, e.end.Tail)
		}
	}
}

// stated holds a value of the piece's own description against the absolute
// limits of a quantity, where the kind has it.
func (j *judge) stated(quantity string, place kit.Place, value qty.Length) {
	q := j.k.Quantity(quantity)
	if q == nil {
		return
	}
	m := measured{q: q, day: j.r.AsOf, place: place, low: int64(value), high: int64(value)}
	for i := range q.Limits {
		if q.Limits[i].At > 0 && q.Limits[i].Verdict > kit.KeepSooner {
			j.limit(&m, &q.Limits[i], nil)
		}
	}
}
