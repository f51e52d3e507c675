package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// gap is a stretch or part that a required look did not go over.
type gap struct {
	part     string
	from, to qty.Length
	sides    []string // empty means all
	measure  bool     // it was not measured there
}

// atHand gives the kinds of examination on the latest day that has one, each
// once, in the order entered. All looks of a day that are of one kind
// make up a single examination.
func (j *judge) atHand() (qty.Day, []kit.ExamKind) {
	if len(j.exams) == 0 {
		return 0, nil
	}
	day := j.exams[len(j.exams)-1].Day
	var kinds []kit.ExamKind
	for i := range j.exams {
		if e := &j.exams[i]; e.Day == day {
			seen := false
			for _, k := range kinds {
				seen = seen || k == e.Kind
			}
			if !seen {
				kinds = append(kinds, e.Kind)
			}
		}
	}
	return day, kinds
}

// required enters every look that the examination at hand requires and that was
// not made, or not everywhere (row 4). Without an examination nothing was looked at.
func (j *judge) required() {
	day, kinds := j.atHand()
	if len(kinds) == 0 {
		j.add(Reason{Row: "4", Verdict: kit.SetAside, ID: lRow4, Lines: []string{lDoubt}, Key: "look.no-examination", Question: QExamine,
			Status: table.CommonPractice})
		return
	}
	for _, kind := range [...]kit.ExamKind{kit.Interim, kit.Thorough} {
		if old, ok := j.unfinished(kind, day); ok {
			j.ofKind(kind, old)
		}
	}
	for _, kind := range kinds {
		j.ofKind(kind, day)
	}
}

// ofKind enters what one kind of examination on one day left out.
func (j *judge) ofKind(kind kit.ExamKind, day qty.Day) {
	j.standing(kind, day)
	needed := false
	for i := range j.k.Needs {
		n := &j.k.Needs[i]
		if n.Exam == kind {
			needed = true
			j.lookGaps(n, kind, day)
		}
	}
	if !needed && j.known {
		j.add(Reason{Row: "4", Verdict: kit.SetAside, ID: lRow4, Key: "look.none-named", Question: QLook, Status: table.CommonPractice,
			Args: []Arg{{"exam", string(kind)}, {"day", day.String()}}})
	}
}

// unfinished gives the last day before another with an examination of a kind
// that was not complete, and that no complete one of the same or a stricter kind
// has followed: a weaker look does not put right what it left out.
func (j *judge) unfinished(kind kit.ExamKind, before qty.Day) (qty.Day, bool) {
	for i := len(j.exams) - 1; i >= 0; i-- {
		e := &j.exams[i]
		if e.Kind != kind || e.Day >= before {
			continue
		}
		if _, done := j.completed(e.Day-1, atLeast(kind)...); done {
			return 0, false
		}
		return e.Day, true
	}
	return 0, false
}

// counted says whether some examination of a kind on a day is by whom it has to
// be: then only those, and looks by such persons, count.
func (j *judge) counted(kind kit.ExamKind, day qty.Day) bool {
	for i := range j.exams {
		if e := &j.exams[i]; e.Day == day && e.Kind == kind && lacks(j.r, e) == "" {
			return true
		}
	}
	return false
}

func (j *judge) lookGaps(n *table.Need, kind kit.ExamKind, day qty.Day) {
	made, gaps := j.cover(n, kind, day, j.counted(kind, day))
	if made && len(gaps) == 0 {
		return
	}
	_, lines := cited(n.Cite, nil)
	x := Reason{Row: "4", Verdict: kit.SetAside, ID: lRow4, Lines: lines, Question: QLook, To: string(n.Look), Status: n.Status,
		Args: []Arg{{"look", string(n.Look)}, {"exam", string(kind)}, {"day", day.String()}}}
	if !made {
		x.Key = "look.not-made"
		j.add(x)
		return
	}
	base := x.Args
	for _, g := range gaps {
		g, there := j.now(g, day)
		if !there {
			continue
		}
		p := kit.Place{Part: g.part, From: g.from, To: g.to, Sides: g.sides}
		x.Key, x.At = "look.gap", []kit.Place{p}
		if g.measure {
			x.Key = "look.not-measured"
		}
		x.Args = append(append([]Arg{}, base...), placed(p)...)
		if g.part == "" && g.to == 0 {
			x.Key, x.At, x.Args = "look.length-unknown", nil, base
		}
		j.add(x)
	}
}

// standing enters that an examination at hand is not one of its kind, since of
// all of that kind on the day none is by whom it has to be (row 4).
func (j *judge) standing(kind kit.ExamKind, day qty.Day) {
	var first *kit.Examination
	why := ""
	for i := range j.exams {
		e := &j.exams[i]
		if e.Day != day || e.Kind != kind {
			continue
		}
		w := lacks(j.r, e)
		if w == "" {
			return
		}
		if first == nil {
			first, why = e, w
		}
	}
	x := Reason{Row: "4", Verdict: kit.SetAside, ID: lRow4, Question: QExamine, To: nameOr(first.Ref, QExamine),
		Args: []Arg{{"exam", string(kind)}, {"day", day.String()}, {"by", first.By}}, Status: table.CommonPractice}
	switch why {
	case notCompetent:
		x.Key, x.Lines = "examination.not-competent", []string{lCompetent, lBetween, lDoubt}
	case notSigned:
		x.Key, x.Lines = "examination.not-signed", []string{lSigned, lDoubt}
	case notIndependent:
		x.Key, x.Lines = "examination.not-independent", []string{lIndependent, lGains, lDoubt}
	}
	j.add(x)
}

// complete reports whether the examinations of one kind on one day made every
// look that this kind requires, everywhere, and put every question. One that is
// not by whom it has to be counts for nothing.
func (j *judge) complete(kind kit.ExamKind, day qty.Day) bool {
	for i := range j.whole {
		if w := &j.whole[i]; w.kind == kind && w.day == day {
			return w.is
		}
	}
	is := j.nothingLeft(kind, day)
	j.whole = append(j.whole, whole{kind, day, is})
	return is
}

// nothingLeft works out what complete reports.
func (j *judge) nothingLeft(kind kit.ExamKind, day qty.Day) bool {
	needed := false
	for i := range j.k.Needs {
		n := &j.k.Needs[i]
		if n.Exam != kind {
			continue
		}
		needed = true
		if made, gaps := j.cover(n, kind, day, true); !made || len(gaps) > 0 {
			return false
		}
		for a := range j.k.Asks {
			if n.Look == kit.Ask && j.said(j.k.Asks[a].ID, kind, day) == kit.NotSaid && j.answer(day, byCompetent, j.k.Asks[a].ID) == nil {
				return false
			}
		}
	}
	return needed
}

// said gives the strictest answer to a question in one examination: yes, then
// not known, then no, then nothing.
func (j *judge) said(id string, kind kit.ExamKind, day qty.Day) kit.Yes {
	best := kit.NotSaid
	for i := range j.exams {
		if e := &j.exams[i]; e.Day == day && e.Kind == kind {
			switch y := e.Asked[id]; {
			case y == kit.SaidYes, y == kit.NotKnown && best != kit.SaidYes, y == kit.SaidNo && best == kit.NotSaid:
				best = y
			}
		}
	}
	return best
}

// cover gives whether a look was made at all and where it fell short of the
// share that is needed; with counted, only examinations by whom they have to be
// count.
//
// Which places count: "ask" and "read" are of the piece as a whole. On a piece
// with cells, "ends" goes over its ends and "work" anywhere; every other look
// over each cell and side. On a piece of parts, every look goes over each part
// and side. A gauge has gone only where a reading of a quantity of the kind is
// on record: the tables say in how many equal stretches, or on which parts.
func (j *judge) cover(n *table.Need, kind kit.ExamKind, day qty.Day, counted bool) (made bool, gaps []gap) {
	var few [8]kit.Stretch // as many as are usual, without memory of their own
	went := few[:0]
	measured, all := n.Look == kit.Gauge && (n.Places > 0 || len(n.Parts) > 0), false
	for i := range j.then {
		e := &j.then[i]
		if e.Day != day || e.Kind != kind || counted && lacks(j.r, e) != "" {
			continue
		}
		for l := range e.Looks {
			if e.Looks[l].Look != n.Look || counted && !counts(j.r, e, &e.Looks[l]) {
				continue
			}
			made = true
			for _, s := range e.Looks[l].Covers {
				if all = all || s.All && len(s.Sides) == 0; all && !measured {
					return true, nil
				}
				went = append(went, s)
			}
		}
	}
	switch {
	case !made || n.Look == kit.Ask || n.Look == kit.Read:
		return made, nil
	case len(went) == 0:
		return false, nil
	case measured:
		if gaps = j.unmeasured(n, kind, day, counted); all || n.Cover <= 0 {
			return true, gaps
		}
	case n.Cover <= 0:
		return true, nil
	}
	switch {
	case j.k.Axis == "parts":
		return true, append(gaps, j.partGaps(went, func(*table.Part) bool { return true })...)
	case n.Look == kit.Ends:
		return true, j.partGaps(went, func(p *table.Part) bool { return p.End != "" })
	case n.Look == kit.Work:
		return true, nil
	}
	return true, j.cellGaps(went, millionths(n.Cover), day)
}

// sides gives the sides to cover; a piece without sides has one without a name.
func (j *judge) sides() []string {
	if len(j.k.Sides) == 0 {
		return []string{""}
	}
	return j.k.Sides
}

// partGaps gives the parts that were not gone over, with the sides missing.
func (j *judge) partGaps(went []kit.Stretch, wanted func(*table.Part) bool) []gap {
	var out []gap
	for i := range j.k.Parts {
		p := &j.k.Parts[i]
		if !wanted(p) {
			continue
		}
		var missing []string
		for _, side := range j.sides() {
			found := false
			for s := range went {
				found = found || (went[s].All || went[s].Part == p.ID) && onSide(&went[s], side)
			}
			if !found {
				missing = append(missing, side)
			}
		}
		if len(missing) > 0 {
			out = append(out, gap{part: p.ID, sides: j.some(missing)})
		}
	}
	return out
}

// onSide reports whether a stretch was gone over on a side.
func onSide(s *kit.Stretch, side string) bool {
	return len(s.Sides) == 0 || side == "" || has(s.Sides, side)
}

// some gives the sides for a message: none where all are meant.
func (j *judge) some(sides []string) []string {
	if len(sides) == len(j.sides()) {
		return nil
	}
	return sides
}

// unmeasured gives where a gauge has no reading that the examination needs: the
// stretches, neighbours joined, or the parts. A reading counts where it lies,
// in the middle of its place, and only where the look went. A length that is
// not on record is a gap of its own, as in cellGaps.
func (j *judge) unmeasured(n *table.Need, kind kit.ExamKind, day qty.Day, counted bool) (gaps []gap) {
	at := j.gauged(kind, day, counted)
	for _, id := range n.Parts {
		found := false
		for i := range at {
			found = found || at[i].Part == id
		}
		if !found {
			gaps = append(gaps, gap{part: id, measure: true})
		}
	}
	if n.Places == 0 {
		return gaps
	}
	length, measured := j.lengthOn(day)
	var out []span
	for s := range n.Places {
		from, to := length*qty.Length(s)/qty.Length(n.Places), length*qty.Length(s+1)/qty.Length(n.Places)
		found := false
		for i := range at {
			if mid := (at[i].From + at[i].To) / 2; along(at[i]) && from <= mid && (mid < to || s == n.Places-1 && mid <= to) {
				found = true
			}
		}
		if !found {
			out = extend(out, span{from, to})
		}
	}
	for _, s := range out {
		gaps = append(gaps, gap{from: s.from, to: s.to, measure: true})
	}
	if !measured {
		gaps = append(gaps, gap{})
	}
	return gaps
}

// gauged gives the places of all readings of one kind of examination on a day
// that lie where its gauge went.
func (j *judge) gauged(kind kit.ExamKind, day qty.Day, counted bool) (out []kit.Place) {
	var few [4]*kit.Examination
	exams := few[:0]
	for i := range j.then {
		if e := &j.then[i]; e.Day == day && e.Kind == kind && !(counted && lacks(j.r, e) != "") {
			exams = append(exams, e)
		}
	}
	for _, e := range exams {
		for k := range e.Readings {
			if x := &e.Readings[k]; j.k.Quantity(x.Quantity) != nil && len(x.Values)+len(x.Again) > 0 && gaugeWent(exams, x.At) {
				out = append(out, x.At)
			}
		}
	}
	return out
}

// gaugeWent reports whether a look with the gauge went over a place.
func gaugeWent(exams []*kit.Examination, at kit.Place) bool {
	for _, e := range exams {
		for l := range e.Looks {
			for s := range e.Looks[l].Covers {
				if c := &e.Looks[l].Covers[s]; e.Looks[l].Look == kit.Gauge && (c.All || samePlace(at, kit.Place{Part: c.Part, From: c.From, To: c.To})) {
					return true
				}
			}
		}
	}
	return false
}
