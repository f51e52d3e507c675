package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// start is a day that a rule counts from, and which date of the record gave it.
type start struct {
	day   qty.Day
	known bool
	from  string // "made", "first use", "bought", "used", "declared", "marked"
}

// made gives the earliest day of manufacture.
func (j *judge) made() start {
	p := j.r.Piece.Made
	return start{p.Earliest(), p.Known(), "made"}
}

// firstUse gives the earliest day of first use; not known: the purchase, else
// the manufacture (L-11). What others had before may have been used before it
// was bought here, so only new stock counts from its purchase. A use or a look
// before use that is on record still earlier is believed before the date.
func (j *judge) firstUse() start {
	p := &j.r.Piece
	s := j.made()
	switch {
	case p.FirstUse.Known():
		s = start{p.FirstUse.Earliest(), true, "first use"}
	case p.Bought.Known() && p.Origin == "new":
		s = start{p.Bought.Earliest(), true, "bought"}
	}
	if s.known {
		if d, ok := j.r.Used(min(s.day, j.r.AsOf)); ok && d < s.day {
			s.day, s.from = d, "used"
		}
	}
	return s
}

// FirstUse gives the earliest day of first use as the life is counted from it;
// ok is false where no date tells of it.
func FirstUse(r *kit.Record) (day qty.Day, ok bool) {
	s := (&judge{r: r}).firstUse()
	return s.day, s.known
}

// intoService gives the latest day on which the piece can have gone into
// service, at most AsOf: what is not known was only today.
func (j *judge) intoService() qty.Day {
	day := j.r.AsOf
	if p := j.r.Piece.FirstUse; p.Known() {
		return min(day, p.Latest())
	}
	for i := range j.r.Runs {
		day = min(day, j.r.Runs[i].From)
	}
	for i := range j.r.Uses {
		if !j.r.Uses[i].Store {
			day = min(day, j.r.Uses[i].From)
		}
	}
	return day
}

// before reports whether a date of the piece is known and not after AsOf.
func (j *judge) before(p qty.PartialDate) bool { return p.Known() && p.Earliest() <= j.r.AsOf }

// tooOld reports whether the piece went into service longer after its
// declaration of conformity than Rules.DeclaredMonths allows (R-12, D-05). A
// declaration whose date is not on record is too old: only the date itself can
// show that it is not.
func (j *judge) tooOld() bool {
	p := j.r.Piece.Declared
	return !p.Known() || j.intoService() > p.Earliest().AddMonths(int(j.t.Rules.DeclaredMonths))
}

// proven reports whether a thorough examination before this record is on record
// with its document.
func (j *judge) proven() bool {
	p := &j.r.Piece
	if p.ExaminationFrom != "" && (p.ExaminedBefore || j.before(p.Examined)) {
		return true
	}
	return j.answer(qty.FirstDay, inWriting, QProof) != nil
}

// documented reports whether a document says that the piece was examined on the
// day it is said to have been before this record: a date alone proves nothing.
func (j *judge) documented() bool {
	return j.r.Piece.ExaminationFrom != "" || j.answer(qty.FirstDay, inWriting, QProof) != nil
}

// thorough gives the day of the latest complete thorough examination of the
// record. One with a required look missing does not count (row 4).
func (j *judge) thorough() (qty.Day, bool) {
	return j.completed(qty.FirstDay, kit.Thorough)
}

// completed gives the latest complete examination of one of the kinds after a day.
func (j *judge) completed(after qty.Day, kinds ...kit.ExamKind) (qty.Day, bool) {
	for i := len(j.exams) - 1; i >= 0; i-- {
		e := &j.exams[i]
		if e.Day <= after {
			return 0, false
		}
		for _, k := range kinds {
			if e.Kind == k && j.complete(k, e.Day) {
				return e.Day, true
			}
		}
	}
	return 0, false
}

// since reports whether a complete examination of one of the kinds answers
// what happened: on a later day, or on the same day naming it.
func (j *judge) since(e *kit.Event, kinds ...kit.ExamKind) bool {
	if _, ok := j.completed(e.Day, kinds...); ok {
		return true
	}
	n := j.naming(e)
	for _, k := range kinds {
		if len(n.exams) > 0 && n.complete(k, e.Day) {
			return true
		}
	}
	return false
}

// naming gives the judge of those examinations alone that were made on the day
// of an event and name it. Any other of that day can have come before it, and
// adds nothing to them.
func (j *judge) naming(e *kit.Event) *judge {
	only := *j
	only.exams, only.then, only.whole = nil, nil, nil
	for i := range j.exams {
		if x := &j.exams[i]; e.Ref != "" && x.Day == e.Day && x.AfterEvent == e.Ref {
			only.exams, only.then = append(only.exams, *x), append(only.then, j.then[i])
		}
	}
	return &only
}
