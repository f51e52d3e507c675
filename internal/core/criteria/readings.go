package criteria

import (
	"strconv"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// limits enters every reading that is at or beyond a limit of its quantity, or
// so far out of the range of a sound piece that it is an absolute sign. The
// worst value of a reading counts, not the mean: one bad place is enough (W-05).
func (j *judge) limits(all []measured) {
	for i := range all {
		m := &all[i]
		for l := range m.q.Limits {
			lim := &m.q.Limits[l]
			if lim.Verdict > kit.KeepSooner || lim.Verdict == kit.KeepSooner && !again(all, i) {
				j.limit(m, lim)
			}
		}
		j.outOfRange(m)
	}
}

// again reports whether a place was measured again on a later day.
func again(all []measured, i int) bool {
	for k := range all {
		if m := &all[k]; m.q == all[i].q && m.day > all[i].day && samePlace(m.at, all[i].at) {
			return true
		}
	}
	return false
}

// limit enters a reading that is at a limit or beyond it. One that asks for an
// earlier look holds until the place is measured again: until half the usual
// interval after the reading, then set aside.
func (j *judge) limit(m *measured, lim *table.Limit) {
	worst := m.worst(lim.Below)
	if lim.At > 0 && beyond(worst, int64(lim.At), lim.Below) {
		j.limited(m, lim, "reading.limit", Arg{"value", qty.Length(worst).String()}, Arg{"limit", lim.At.String()})
	}
	for _, b := range m.base {
		if lim.Share != 0 && changed(worst, b, lim.Share, lim.Below) {
			j.limited(m, lim, "reading.change", Arg{"value", qty.Length(worst).String()}, Arg{"first", qty.Length(b.top / b.bottom).String()},
				Arg{"per-mille", strconv.FormatInt(lim.Share, 10)})
			return
		}
	}
}

func (j *judge) limited(m *measured, lim *table.Limit, key string, args ...Arg) {
	x := Reason{Row: rowOf(lim.Verdict), Verdict: lim.Verdict, Key: key, Words: lim.Words, At: []kit.Place{m.at}, Status: lim.Status}
	x.Args = append(append([]Arg{{"quantity", m.q.ID}, {"day", m.day.String()}}, args...), placed(m.at)...)
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
func (j *judge) outOfRange(m *measured) {
	sign := j.k.Sign(m.q.Sign)
	if !m.out || sign == nil || sign.Class != table.Absolute && sign.Class != table.Aside {
		return
	}
	worst, first := qty.Length(m.worst(m.q.Out < 0)), m.furthest(m.base)
	x := Reason{Row: "1", Verdict: kit.Withdraw, Key: "reading.out-of-range", Words: sign.Words, At: []kit.Place{m.at}, Status: sign.Status,
		Args: append([]Arg{{"quantity", m.q.ID}, {"value", worst.String()}, {"day", m.day.String()},
			{"first", first.String()}, {"sign", sign.ID}}, placed(m.at)...)}
	x.ID, x.Lines = cited(sign.Cite, sign.Lines, "-ABS", "-ASIDE")
	if sign.Class == table.Aside {
		x.Row, x.Verdict, x.Asked = "2", kit.SetAside, sign.Question
		x.Question, x.To = QMeasure, nameOr(m.ref, m.q.ID)
		if j.answer(m.day, proofFor(x.Lines), m.ref, m.q.ID) != nil {
			return
		}
	}
	j.add(x)
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
// cut or missing, and a tail at or below the limit of the quantity "tail". An end
// of which nobody says how it is made can be a knot. What settles it and the record
// does not say keeps the piece out of use until it is said.
func (j *judge) ends() {
	if d := j.r.Piece.Diameter; d > 0 {
		j.stated("nominal", kit.Place{Whole: true}, d)
	} else if q := j.bounded("nominal"); q != nil {
		j.unsaid("diameter.not-said", diameter, q, kit.Place{Whole: true}, nil)
	}
	for _, e := range []struct {
		id  string
		end *kit.End
	}{{"A", &j.r.Piece.EndA}, {"B", &j.r.Piece.EndB}} {
		part, has := kit.Place{Part: "end " + e.id}, false
		for i := range j.k.Parts {
			if j.k.Parts[i].End == e.id {
				part.Part, has = j.k.Parts[i].ID, true
			}
		}
		switch s := e.end.Stitch; {
		case s == "" && has:
			j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Lines: []string{lStitch}, Key: "end.stitch-not-said",
				Args: []Arg{{"end", e.id}}, At: []kit.Place{part}, Question: QSay, To: "stitch of end " + e.id, Status: table.CommonPractice})
		case s == "cut" || s == "missing":
			j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lStitch, Lines: []string{lRow1}, Key: "end.stitch",
				Args: []Arg{{"end", e.id}, {"stitch", s}}, At: []kit.Place{part}, Status: table.CommonPractice})
		}
		if (e.end.How == "knot" || e.end.How == "") && e.end.Tail > 0 {
			j.stated("tail", part, e.end.Tail)
		}
		j.endUnsaid(e.id, e.end, part)
	}
}

// endUnsaid enters what the record does not say of an end, on a kind whose
// tables limit the tail of a knot: how the end is made, and of a knot its tail.
func (j *judge) endUnsaid(id string, end *kit.End, part kit.Place) {
	tail := j.bounded("tail")
	if tail == nil || end.How != "knot" && end.How != "" {
		return
	}
	args := []Arg{{"end", id}}
	switch {
	case end.How == "":
		j.unsaid("end.not-said", "end "+id, tail, part, args)
	case end.Tail <= 0:
		j.unsaid("end.tail-not-said", "tail of end "+id, tail, part, args)
	}
}

// bounded gives a quantity that the tables hold an absolute limit of against
// what the record says of the piece itself, or nil.
func (j *judge) bounded(quantity string) *table.Quantity {
	q := j.k.Quantity(quantity)
	if q == nil {
		return nil
	}
	for i := range q.Limits {
		if q.Limits[i].At > 0 && q.Limits[i].Verdict > kit.KeepSooner {
			return q
		}
	}
	return nil
}

// unsaid enters that the record does not say what a limit of a quantity needs.
// Only saying it lifts that, since no answer is a measure.
func (j *judge) unsaid(key, what string, q *table.Quantity, place kit.Place, args []Arg) {
	_, lines := cited(q.Cite, nil, "-ABS", "-ASIDE")
	j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Lines: lines, Key: key, Args: args, At: []kit.Place{place},
		Question: QSay, To: what, Status: q.Status})
}

// stated holds a value of the piece's own description against the absolute
// limits of a quantity, where the kind has it.
func (j *judge) stated(quantity string, place kit.Place, value qty.Length) {
	q := j.bounded(quantity)
	if q == nil {
		return
	}
	m := measured{q: q, day: j.r.AsOf, at: place, low: int64(value), high: int64(value)}
	for i := range q.Limits {
		if q.Limits[i].At > 0 && q.Limits[i].Verdict > kit.KeepSooner {
			j.limit(&m, &q.Limits[i])
		}
	}
}
