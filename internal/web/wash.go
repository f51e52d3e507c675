package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/report"
)

// washBody is the form of a washing.
type washBody struct {
	pieceForm
	Spills  []option // events of something that was spilt on it
	Answers []option
}

// washForm shows the empty form.
func (s *Site) washForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	return s.showWash(w, r, http.StatusOK, f)
}

func (s *Site) showWash(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	p, err := s.about(r, f)
	if err != nil {
		return err
	}
	j, err := s.app.Judge(r.Context(), p.Piece, s.app.Today(), false)
	if err != nil {
		return err
	}
	b := washBody{pieceForm: p, Answers: s.options("answer", "yes", "no", "not known")}
	n := report.Names(j.Outcome, s.app.Tables(), j.Record, s.told())
	for i := range j.Record.Events {
		if e := &j.Record.Events[i]; e.Ref != "" && e.Substance != "" {
			b.Spills = append(b.Spills, option{e.Ref, s.say("wash.event", "what", n.Substance(e.Substance), "day", e.Day, "ref", e.Ref)})
		}
	}
	return s.show(w, r, status, "wash", s.say("wash.title", "piece", p.Piece), &b)
}

// wash takes a washing.
func (s *Site) wash(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	x, day := f.washing(), f.day("day")
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.Wash(r.Context(), who, r.PathValue("id"), day, x) },
		func(status int) error { return s.showWash(w, r, status, f) }, s.toPiece(w, r))
}

// washing reads a washing.
func (f *form) washing() fold.Washing {
	return fold.Washing{With: f.need("with", f.s.say("wash.no-with")), Event: f.V("event"), Clean: kit.Yes(f.choose("clean", f.s.say("wash.clean"))), Words: f.text("words")}
}
