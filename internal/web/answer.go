package web

import (
	"net/http"
	"slices"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/report"
)

// answerBody is the form of an answer.
type answerBody struct {
	F      *form
	Piece  string
	Card   *app.Card
	Open   []option
	Causes []option
}

// answerForm shows the form, with the question that was chosen.
func (s *Site) answerForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	f.v.Set("to", r.URL.Query().Get("to"))
	return s.showAnswer(w, r, http.StatusOK, f)
}

func (s *Site) showAnswer(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	ctx, id, day, t := r.Context(), r.PathValue("id"), s.app.Today(), s.app.Tables()
	card, err := s.app.CardOf(ctx, id, day)
	if err != nil {
		return err
	}
	j, err := s.app.Judge(ctx, id, day, true)
	if err != nil {
		return err
	}
	b := answerBody{F: f, Piece: id, Card: &card}
	for _, q := range report.Brief(j.Outcome, t, j.Record, s.told()).Open {
		if q.Answer {
			b.Open = append(b.Open, option{q.To, s.question(q)})
		}
	}
	if to := f.V("to"); f.Fix != nil && !slices.ContainsFunc(b.Open, func(o option) bool { return o.ID == to }) {
		b.Open = append(b.Open, option{to, s.say("history.answer", "to", to)}) // settled by the very answer
	}
	for i := range t.Causes {
		b.Causes = append(b.Causes, option{t.Causes[i].ID, t.Causes[i].Words})
	}
	return s.show(w, r, status, "answer", s.say("answer.title", "piece", id), &b)
}

// question gives what is asked, without where that is answered: for a form, or
// beside a link to it.
func (s *Site) question(q report.Open) string {
	return strings.TrimSuffix(q.Say, " "+s.told().Say("open.to", criteria.Arg{Name: "to", Value: q.To}))
}

// answer takes an answer.
func (s *Site) answer(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	who, err := s.whoFor(w, r, f)
	if err != nil {
		return err
	}
	a := f.answer(who.Person)
	status, piece := http.StatusUnprocessableEntity, r.PathValue("id")
	if !f.Bad() {
		written, err := s.app.Answer(r.Context(), who, piece, a)
		if err == nil {
			return s.entered(w, r, piece, written)
		}
		if status, err = f.take(err); err != nil {
			return err
		}
	}
	return s.showAnswer(w, r, status, f)
}

// answer reads an answer of somebody.
func (f *form) answer(by string) kit.Answer {
	return kit.Answer{Day: f.day("day"), To: f.choose("to", f.s.say("answer.to")), Cause: f.V("cause"), Verified: f.text("verified"), By: by, Document: f.text("document"), Unfit: f.V("unfit") != ""}
}
