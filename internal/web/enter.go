package web

import (
	"net/http"

	"kernbook/internal/app"
)

// pieceForm is what the form of any entry about a piece shows.
type pieceForm struct {
	F     *form
	Piece string
	Card  *app.Card
}

// about gives the piece that a form is about.
func (s *Site) about(r *http.Request, f *form) (pieceForm, error) {
	card, err := s.app.CardOf(r.Context(), r.PathValue("id"), s.app.Today())
	return pieceForm{f, card.ID, &card}, err
}

// freshBy gives an empty form for today on which whoever acts stands as the one
// who did it.
func (s *Site) freshBy(r *http.Request) (*form, error) {
	f, err := s.fresh()
	if err != nil {
		return nil, err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return nil, err
	}
	if p := acting(r, people); p != nil {
		f.v.Set("by", p.ID)
	}
	return f, nil
}

// enter enters what a form says, unless something is wrong with it: then the
// form is shown again as it was typed. done sends on whoever entered it.
func (s *Site) enter(w http.ResponseWriter, r *http.Request, f *form, do func(app.Who) (app.Written, error), show func(status int) error, done func(app.Written) error) error {
	who, err := s.whoFor(w, r, f)
	if err != nil {
		return err
	}
	status := http.StatusUnprocessableEntity
	if !f.Bad() {
		written, err := do(who)
		if err == nil {
			return done(written)
		}
		if status, err = f.take(err); err != nil {
			return err
		}
	}
	return show(status)
}

// toPiece sends whoever entered something back to the piece.
func (s *Site) toPiece(w http.ResponseWriter, r *http.Request) func(app.Written) error {
	return func(written app.Written) error { return s.entered(w, r, r.PathValue("id"), written) }
}
