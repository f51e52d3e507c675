package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/fold"
)

// hangBody is the form by which a piece changes hands.
type hangBody struct {
	pieceForm
	People []option
}

// hangForm shows the form, empty.
func (s *Site) hangForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	return s.showHang(w, r, http.StatusOK, f)
}

func (s *Site) showHang(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	p, err := s.about(r, f)
	if err != nil {
		return err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, status, "hang", s.say("hang.title", "piece", p.Piece), &hangBody{p, s.peopleOptions(people)})
}

// hanged takes who holds a piece from a day on, or where it hangs.
func (s *Site) hanged(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	h, day := f.hung(), f.day("day")
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.Hang(r.Context(), who, r.PathValue("id"), day, h) },
		func(status int) error { return s.showHang(w, r, status, f) }, s.toPiece(w, r))
}

// hung reads who holds a piece, or where it hangs.
func (f *form) hung() fold.Hang {
	h := fold.Hang{Holder: f.V("holder"), Place: f.text("place")}
	switch {
	case h.Holder == "" && h.Place == "":
		f.fault("holder", f.s.say("hang.nowhere"))
	case h.Holder != "" && h.Place != "":
		f.fault("place", f.s.say("hang.both"))
	}
	return h
}
