package corpus

import (
	"slices"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

// TestAnswersLift: of every reason that the corpus has a question for, an answer with all
// that one can bring lifts it exactly where decide.Lifts says so. Else an answer would be
// asked for of which nothing comes, or one refused that counts.
func TestAnswersLift(t *testing.T) {
	tb := tables.Default()
	tried, ids := map[string]bool{}, map[string]bool{}
	for _, c := range all(t) {
		o := decide.Decide(tb, c.Record, decide.Ask{})
		for i := range o.Reasons {
			x := &o.Reasons[i]
			if x.Question == "" || tried[x.Key+" "+x.Question] {
				continue
			}
			tried[x.Key+" "+x.Question], ids[x.Question] = true, true
			if got, want := lifted(tb, c.Record, &o, x), decide.Lifts(x); got != want {
				t.Errorf("%s: an answer to “%s” lifts %s: %v, but it is said: %v", c.Name, x.To, x.Key, got, want)
			}
		}
		for i := range o.Open {
			q := &o.Open[i]
			settles := !slices.ContainsFunc(o.Reasons, func(x criteria.Reason) bool {
				return x.Question == q.ID && x.To == q.To && x.Asked == q.Asked && !decide.Lifts(&x)
			})
			if o.Answerable(q) != settles {
				t.Errorf("%s: “%s” under “%s” is answerable: %v", c.Name, q.ID, q.To, !settles)
			}
		}
	}
	for _, id := range []string{criteria.QIdentity, criteria.QAssembly, criteria.QHistory, criteria.QManufacture, criteria.QDeclaration, criteria.QProof,
		criteria.QStorage, criteria.QThorough, criteria.QExamine, criteria.QLook, criteria.QAsk, criteria.QSign, criteria.QEvent, criteria.QRelease,
		criteria.QSubstance, criteria.QWash, criteria.QMeasure, criteria.QSay, decide.QReplace, decide.QUse} {
		if !ids[id] {
			t.Errorf("no case asks “%s”, so nothing is held of it", id)
		}
	}
}

// lifted says whether an answer to a reason takes it away: one without a cause or, of a
// sign, with one of the causes; where the doubt could not be worked out, also of every other
// sign that is open.
func lifted(tb *table.Tables, r *kit.Record, o *decide.Outcome, x *criteria.Reason) bool {
	causes := []string{""}
	if x.Question == criteria.QSign {
		for i := range tb.Causes {
			causes = append(causes, tb.Causes[i].ID)
		}
	}
	for _, cause := range causes {
		with := *r
		with.People = append(slices.Clone(r.People), kit.Person{ID: "answers", Role: "competent person", Since: 1})
		with.Answers = slices.Clone(r.Answers)
		for i := range o.Open {
			if q := &o.Open[i]; q.To == x.To || x.Key == "sign.not-worked-out" && q.ID == criteria.QSign {
				with.Answers = append(with.Answers, kit.Answer{Day: r.AsOf, To: q.To, Cause: cause, By: "answers", Verified: "seen", Document: "letter"})
			}
		}
		after := decide.Decide(tb, &with, decide.Ask{})
		if !slices.ContainsFunc(after.Reasons, func(y criteria.Reason) bool {
			return y.Key == x.Key && y.Question == x.Question && y.To == x.To && slices.Equal(y.Args, x.Args)
		}) {
			return true
		}
	}
	return false
}
