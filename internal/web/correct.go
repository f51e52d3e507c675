package web

import (
	"net/http"
	"net/url"

	"kernbook/internal/app"
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
)

// correct takes that an entry was wrong, and what stands instead. The entry
// itself stays in the book.
func (s *Site) correct(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	piece := r.PathValue("id")
	id, err := entry.ParseID(r.PathValue("entry"))
	if err != nil {
		return s.refuse(app.NotFound, "entries.none")
	}
	l, err := s.app.Entry(r.Context(), piece, id)
	if err != nil {
		return err
	}
	why := f.need("why", s.say("correct.no-why"))
	var instead any
	switch f.choose("how", s.say("correct.how")) {
	case "gone":
	case "instead":
		if instead, err = fold.Read(l.Kind, []byte(f.text("instead"))); err != nil {
			f.fault("instead", s.say("correct.cannot", "error", err.Error()))
		} else if string(fold.Encode(instead)) == string(l.Body) && !s.mine(r, f) {
			f.fault("instead", s.say("correct.same"))
		}
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) {
		c, err := s.app.Correct(r.Context(), who, id, instead, why)
		return c.Written, err
	}, func(status int) error { return s.showEntry(w, r, status, f) }, func(written app.Written) error {
		return back(w, r, "/piece/"+url.PathEscape(piece)+"/entry/"+written.ID.String())(written)
	})
}
