package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// fitBody is the form of what a piece is fitted to.
type fitBody struct {
	pieceForm
	Answers []option
	Others  []option // pieces of the yard
	second
}

// second is what a piece is asked about that would be fitted beside another of
// its kind.
type second struct{ Beside []string }

// beside gives what of the kind is fitted already in what a form names: for a
// bridge alone, of which a harness is seldom meant to have two.
func (s *Site) beside(r *http.Request, f *form, piece string, kind kit.KindID, in string) (second, error) {
	var out second
	if kind != kit.Bridge || in == "" {
		return out, nil
	}
	cards, err := s.app.Board(r.Context(), s.app.Today())
	for i := range cards {
		c := &cards[i]
		if c.ID != piece && c.Kind == kind && c.In == in && !c.Stopped.Withdrawn {
			out.Beside = append(out.Beside, c.ID)
		}
	}
	return out, err
}

// askBeside asks whether both are to be fitted there, until that was said.
func (f *form) askBeside(x second, in string) {
	if len(x.Beside) > 0 && f.V("both") == "" {
		f.fault("both", f.s.say("fit.beside", "in", in, "list", f.s.words.List(x.Beside)))
	}
}

// fitForm shows the form with the piece that it is fitted to now.
func (s *Site) fitForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	j, err := s.app.Judge(r.Context(), r.PathValue("id"), s.app.Today(), false)
	if err != nil {
		return err
	}
	now := &j.Record.Piece.Fitted
	f.v.Set("in", now.In) // whether it is allowed elsewhere is said anew
	return s.showFit(w, r, http.StatusOK, f)
}

func (s *Site) showFit(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	p, err := s.about(r, f)
	if err != nil {
		return err
	}
	cards, err := s.app.Board(r.Context(), s.app.Today())
	if err != nil {
		return err
	}
	b := fitBody{pieceForm: p, Answers: s.options("answer", "yes", "no", "not known")}
	if f.Fault("both") != "" || f.V("both") != "" {
		if b.second, err = s.beside(r, f, p.Piece, p.Card.Kind, f.text("in")); err != nil {
			return err
		}
	}
	for i := range cards {
		if c := &cards[i]; c.ID != p.Piece && !c.Stopped.Withdrawn {
			b.Others = append(b.Others, option{c.ID, s.kind(c.Kind)})
		}
	}
	return s.show(w, r, status, "fit", s.say("fit.title", "piece", p.Piece), &b)
}

// fit takes what a piece is fitted to from a day on.
func (s *Site) fit(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	x, day := f.fitted(), f.day("day")
	card, err := s.app.CardOf(r.Context(), r.PathValue("id"), s.app.Today())
	if err != nil {
		return err
	}
	there, err := s.beside(r, f, card.ID, card.Kind, x.In)
	if err != nil {
		return err
	}
	if card.In != x.In { // what is there already is not asked again
		f.askBeside(there, x.In)
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.Fit(r.Context(), who, r.PathValue("id"), day, x) },
		func(status int) error { return s.showFit(w, r, status, f) }, s.toPiece(w, r))
}

// fitted reads what a piece is fitted to.
func (f *form) fitted() fold.Fit {
	x := fold.Fit{In: f.text("in"), Allowed: kit.Yes(f.V("allowed")), Document: f.text("document")}
	switch {
	case x.In != "" && f.V("out") != "":
		f.fault("out", f.s.say("fit.both-said"))
	case x.In != "":
		f.choose("allowed", f.s.say("kit.allowed"))
	case f.V("out") == "": // nothing said does not take it out
		f.fault("in", f.s.say("fit.nothing"))
	case x.Allowed == kit.NotSaid && f.Fix == nil:
		x.Allowed = kit.NotKnown // a record says of a kind that is fitted whether it may be, also where it is to none
	}
	return x
}
