package criteria

import (
	"math"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Reading is one reading of a quantity of the kind, with how it stands against
// the piece's own readings. It is the one rule of comparison: the reasons and
// the doubt both go by it.
//
// A quantity of the basis "own" is compared with (a) the first record of the
// same place on an earlier day, and (b) along the piece the median of the first
// examination that measured it. Each is taken twice: over everything on record,
// and over what is sound alone, which is what was said to be dry, is in range
// and not far from the label. Every comparison can put a reading out of range;
// only those with what is sound can speak for it. Never the label (W-07).
type Reading struct {
	Exam     int // index in Record.Examinations
	Index    int // index in its Readings
	Quantity *table.Quantity
	Out      bool         // out of the range of a sound piece, by the strictest of all comparisons
	Speaks   bool         // it may speak for soundness: dry, in range, not far from the label, and compared
	Base     qty.Length   // what it differs most from; 0 where there is nothing, and for an absolute quantity
	Worst    qty.Length   // the worst of its values; the mean enters the doubt, the worst what is out of range (W-05)
	Values   []qty.Length // those whose mean enters the doubt
}

// measured is a Reading while it is judged: the values that hold (see weigh),
// in micrometres.
type measured struct {
	q     *table.Quantity
	exam  int
	index int
	day   qty.Day
	at    kit.Place
	ref   string
	held  []qty.Length // the values whose mean is the reading's own
	first ratio        // their mean, or that of the other measurement where it tells more: what a later reading is compared with
	low   int64
	high  int64
	err   qty.Length // standard error of one value; 0 where nobody says
	dry   bool
	far   bool     // from the label
	out   bool     // out of range against something
	base  []ratio  // all that it is compared with
	sound []ratio  // those that are sound, of another place or an earlier day
	room  [4]ratio // for as many as are usual
}

// Readings gives every reading of a quantity of the kind up to AsOf, by day,
// with how it stands. A reading without a value, or of a quantity that the kind
// does not have, is left out: it says nothing.
func Readings(t *table.Tables, r *kit.Record) []Reading {
	j := newJudge(t, r)
	all := j.readings()
	out := make([]Reading, len(all))
	for i := range all {
		m := &all[i]
		x := Reading{Exam: m.exam, Index: m.index, Quantity: m.q, Out: m.out, Worst: qty.Length(m.worst(m.q.Out < 0)), Values: m.held}
		of := m.sound
		if m.out || len(of) == 0 {
			of = m.base
		}
		if m.q.Basis != "absolute" {
			x.Base = m.furthest(of)
		}
		x.Speaks = m.dry && !m.out && !m.far && (m.q.Basis == "absolute" || len(m.sound) > 0)
		out[i] = x
	}
	return out
}

// furthest gives the base against which the mean has gone furthest toward what
// is out of range, in micrometres, rounded so that the change is no smaller.
func (m *measured) furthest(of []ratio) qty.Length {
	best := ratio{}
	for _, b := range of {
		if b.top <= 0 {
			continue
		}
		// A fall is larger against a larger base, a rise against a smaller one.
		if best.bottom == 0 || (b.top*best.bottom > best.top*b.bottom) == (m.q.Out < 0) {
			best = b
		}
	}
	switch {
	case best.bottom == 0:
		return 0
	case m.q.Out < 0:
		return qty.Length((best.top + best.bottom - 1) / best.bottom)
	}
	return qty.Length(max(1, best.top/best.bottom))
}

// worst gives the value that tells most against a piece.
func (m *measured) worst(below bool) int64 {
	if below {
		return m.low
	}
	return m.high
}

// readings gives all readings of quantities of the kind, by day, compared.
func (j *judge) readings() []measured {
	n := 0
	for i := range j.r.Examinations {
		n += len(j.r.Examinations[i].Readings)
	}
	out := make([]measured, 0, n)
	for i := range j.r.Examinations {
		e := &j.r.Examinations[i]
		for r := range e.Readings {
			x := &e.Readings[r]
			q := j.k.Quantity(x.Quantity)
			if q == nil || len(x.Values)+len(x.Again) == 0 || e.Day > j.r.AsOf {
				continue
			}
			m := measured{q: q, exam: i, index: r, day: e.Day, at: x.At, ref: x.Ref,
				err: x.Error, dry: x.Wet == kit.SaidNo}
			if m.err <= 0 {
				m.err = q.Error
			}
			m.weigh(x)
			m.far = j.farFromLabel(&m)
			out = append(out, m)
		}
	}
	sortByDay(out, func(m *measured) qty.Day { return m.day })
	compareAll(out)
	return out
}

// enough is the number of values that a second measurement must hold to replace
// the first: one single value is no better than the one it disputes.
const enough = 2

// weigh fills in the values of a reading that hold. A second measurement of
// enough values replaces the first. One with fewer leaves it standing and counts
// beside it: the worst of both, of the two means the one that tells more against
// the piece, and as what a later reading is compared with the one that tells more then.
func (m *measured) weigh(x *kit.Reading) {
	below := m.q.Out < 0
	m.low, m.high = math.MaxInt64, math.MinInt64
	m.held = x.Values
	if len(m.held) == 0 || len(x.Again) >= enough {
		m.held = x.Again
	}
	m.first = m.span(m.held)
	if len(x.Again) == 0 || len(x.Again) >= enough || len(x.Values) == 0 {
		return
	}
	first, second := m.first, m.span(x.Again)
	if first.less(second) != below {
		m.held = x.Again // it has gone further toward what is out of range
	} else {
		m.first = second
	}
}

// span widens what was measured by some values, and gives their mean.
func (m *measured) span(values []qty.Length) ratio {
	var mean ratio
	for _, v := range values {
		m.low, m.high = min(m.low, int64(v)), max(m.high, int64(v))
		mean.top += int64(v)
		mean.bottom++
	}
	return mean
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

// compareAll finds what every reading is compared with and which are out of range:
// first against everything, by which it is known what is sound, then day by day
// against what is sound.
func compareAll(all []measured) {
	sound := make([]bool, len(all))
	for i := range all {
		all[i].base = against(all[i].room[:0], all, i, nil)
		all[i].judge()
		sound[i] = all[i].dry && !all[i].far && !all[i].out
	}
	for from := 0; from < len(all); {
		to := from
		for ; to < len(all) && all[to].day == all[from].day; to++ {
			if m := &all[to]; m.q.Basis != "absolute" {
				n := len(m.base)
				m.base = against(m.base, all, to, sound)
				m.sound = m.base[n:]
				m.judge()
			}
		}
		for ; from < to; from++ { // a day's readings judge each other alike, whichever was written first
			sound[from] = sound[from] && !all[from].out
		}
	}
}

// judge says whether the worst value of a reading is out of the range of a
// sound piece, at its edge or beyond, on whole numbers.
func (m *measured) judge() {
	below := m.q.Out < 0
	if m.q.Basis == "absolute" {
		m.out = m.q.Out != 0 && beyond(m.worst(below), m.q.Out, below)
		return
	}
	for _, b := range m.base {
		m.out = m.out || m.q.Out != 0 && changed(m.worst(below), b, m.q.Out, below)
	}
}

// against appends what a reading is compared with: the first record of its own
// place on an earlier day, and along the piece the median of the first
// examination that measured the quantity. With sound given only readings that
// are sound count, and the median only where it holds another place or an
// earlier day than the reading's own.
func against(out []ratio, all []measured, i int, sound []bool) []ratio {
	x := &all[i]
	counts := func(k int) bool { return all[k].q == x.q && (sound == nil || sound[k]) }
	first, before := qty.Day(0), len(out)
	for k := range all { // by day: of several on the first day, each
		m := &all[k]
		if !counts(k) || m.day >= x.day || !samePlace(m.at, x.at) || len(out) > before && m.day > first {
			continue
		}
		first = m.day
		out = append(out, m.first)
	}
	if !along(x.at) {
		return out
	}
	var few [8]ratio // as many as are usual, without memory of their own
	means := few[:0]
	other := false
	for k := range all {
		m := &all[k]
		if !counts(k) || !along(m.at) || m.day > x.day || len(means) > 0 && m.day > first {
			continue
		}
		first = m.day
		means = append(means, m.first)
		other = other || m.day < x.day || k != i && (sound == nil || !samePlace(m.at, x.at))
	}
	if other {
		out = append(out, median(means, x.q.Out < 0))
	}
	return out
}

// ratio is a value in micrometres as a fraction, top over a positive bottom.
type ratio struct{ top, bottom int64 }

// less reports whether a fraction is smaller than another.
func (a ratio) less(b ratio) bool { return a.top*b.bottom < b.top*a.bottom }

// median gives the middle of the values; of the two in the middle of an even
// number the one that tells more: the larger for a quantity that falls, the
// smaller for one that rises. So one value less never lets a thin place pass by
// drawing the middle toward itself.
func median(v []ratio, falls bool) ratio {
	for i := 1; i < len(v); i++ {
		for k := i; k > 0 && v[k].less(v[k-1]); k-- {
			v[k], v[k-1] = v[k-1], v[k]
		}
	}
	if falls {
		return v[len(v)/2]
	}
	return v[(len(v)-1)/2]
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

// diameter is the quantity that a label speaks of too: the nominal diameter.
const diameter = "diameter"

// farFromLabel reports whether some value of a diameter is so far from the
// nominal one, either way, that it is a question whether this is the part the
// record says, or a worn one (P-45: a new rope differs by some per cent).
func (j *judge) farFromLabel(m *measured) bool {
	label := int64(j.r.Piece.Diameter)
	if m.q.ID != diameter || label <= 0 {
		return false
	}
	far := j.t.Rules.LabelFar
	return (label-m.low)*1000 >= far*label || (m.high-label)*1000 >= far*label
}

// labels asks about every diameter that is far from the label, until answered,
// and, once, for the label itself where a diameter was measured and none is said.
// Where the kind has a limit of the nominal diameter, ends asks for it.
func (j *judge) labels(all []measured) {
	asked := j.r.Piece.Diameter > 0 || j.bounded("nominal") != nil
	for i := range all {
		m := &all[i]
		if m.q.ID == diameter && !asked {
			asked = true
			j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Lines: []string{lOwnFirst, lNewRope}, Key: "diameter.not-said",
				Question: QSay, To: diameter, At: []kit.Place{{Whole: true}}, Status: table.Assumed})
		}
		if !m.far || j.answer(m.day, byCompetent, m.ref, m.q.ID) != nil {
			continue
		}
		worst, label := m.low, int64(j.r.Piece.Diameter)
		if m.high-label > label-m.low {
			worst = m.high
		}
		j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Lines: []string{lOwnFirst, lNewRope}, Key: "reading.far-from-label",
			Question: QMeasure, To: nameOr(m.ref, m.q.ID), At: []kit.Place{m.at}, Status: table.Assumed,
			Args: append([]Arg{{"quantity", m.q.ID}, {"value", qty.Length(worst).String()}, {"label", j.r.Piece.Diameter.String()},
				{"day", m.day.String()}}, placed(m.at)...)})
	}
}
