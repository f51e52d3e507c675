package web

import (
	"net/http"

	"kernbook/internal/app"
)

// amendForm shows what is known of a piece, to be changed.
func (s *Site) amendForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	j, err := s.app.Judge(r.Context(), r.PathValue("id"), s.app.Today(), false)
	if err != nil {
		return err
	}
	f.kitOut(&j.Record.Piece)
	return s.showAmend(w, r, http.StatusOK, f)
}

func (s *Site) showAmend(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	card, err := s.app.CardOf(r.Context(), r.PathValue("id"), s.app.Today())
	if err != nil {
		return err
	}
	k := s.app.Tables().Kind(card.Kind)
	if k == nil {
		return s.refuse(app.NotFound, "kit.no-kind")
	}
	b := s.kitBody(f, k)
	b.Piece = card.ID
	return s.show(w, r, status, "kit", s.say("kit.amend", "piece", card.ID), b)
}

// amend takes what is known of a piece now. What it is fitted to and where it
// hangs are said by entries of their own, and stay as they are.
func (s *Site) amend(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	if f.V("more") != "" { // another row was asked for
		return s.showAmend(w, r, http.StatusOK, f)
	}
	j, err := s.app.Judge(r.Context(), r.PathValue("id"), s.app.Today(), false)
	if err != nil {
		return err
	}
	was := &j.Record.Piece
	p := f.kit(was.ID, was.Kind)
	p.Fitted, p.StoredIn = was.Fitted, was.StoredIn
	why := f.need("why", s.say("kit.no-why"))
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.AmendPiece(r.Context(), who, p, why) },
		func(status int) error { return s.showAmend(w, r, status, f) }, s.toPiece(w, r))
}
