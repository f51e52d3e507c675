package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/fold"
)

// stopBody is the form by which a piece goes out of use, or comes back.
type stopBody struct {
	F     *form
	Piece string
	Card  *app.Card
	Stops []option
}

// stopForm shows the empty form.
func (s *Site) stopForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	f.v.Set("what", r.URL.Query().Get("what"))
	return s.showStop(w, r, http.StatusOK, f)
}

func (s *Site) showStop(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	card, err := s.app.CardOf(r.Context(), r.PathValue("id"), s.app.Today())
	if err != nil {
		return err
	}
	return s.show(w, r, status, "stop", s.say("stop.title", "piece", card.ID), &stopBody{f, card.ID, &card, s.options("stop", fold.Stops[:]...)})
}

// stop takes what a person did about the use of a piece.
func (s *Site) stop(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	b, day := f.stop(), f.day("day")
	who, err := s.whoFor(w, r, f)
	if err != nil {
		return err
	}
	status, piece := http.StatusUnprocessableEntity, r.PathValue("id")
	if !f.Bad() {
		written, err := s.app.Stop(r.Context(), who, piece, day, b)
		if err == nil {
			return s.entered(w, r, piece, written)
		}
		if status, err = f.take(err); err != nil {
			return err
		}
	}
	return s.showStop(w, r, status, f)
}

// stop reads what a person did about the use of a piece.
func (f *form) stop() fold.Stop {
	return fold.Stop{What: f.choose("what", f.s.say("stop.what")), Why: f.need("why", f.s.say("stop.no-why")), Document: f.text("document")}
}
