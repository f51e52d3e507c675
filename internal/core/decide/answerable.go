package decide

import "kernbook/internal/core/criteria"

// Lifts says whether an answer on record can lift a reason; the others are lifted by
// what is said of the piece itself, or by an examination, a look, a measurement or
// another entry.
func Lifts(x *criteria.Reason) bool {
	if x.Fact {
		return false
	}
	switch x.Key {
	case "examiner.not-sure", "examiner.not-said": // the examiner's own word stands for another examination
		return true
	case "wear.date-passed", "sign.nowhere", "sign.not-worked-out":
		return false
	}
	switch x.Question {
	case "", criteria.QThorough, criteria.QExamine, criteria.QLook, criteria.QKind, criteria.QSay, criteria.QWash, QReplace, QUse, QRuns:
		return false
	}
	return true
}

// Answerable says whether an answer on record settles a question: every reason that
// asks it can be lifted by one.
func (o *Outcome) Answerable(q *criteria.Question) bool {
	for i := range o.Reasons {
		if x := &o.Reasons[i]; x.Question == q.ID && x.To == q.To && x.Asked == q.Asked && !Lifts(x) {
			return false
		}
	}
	return true
}
