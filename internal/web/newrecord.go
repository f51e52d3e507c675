package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/doc"
	"kernbook/internal/record"
)

// recordBody is the form that takes a whole record as text.
type recordBody struct{ F *form }

// newRecordForm shows the empty form, or an empty record of a kind to fill in.
func (s *Site) newRecordForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	if id := kit.KindID(r.URL.Query().Get("kind")); id != "" {
		b, err := record.New(id, s.app.Tables(), s.app.Today().Partial())
		if err != nil {
			return s.refuse(app.NotFound, "kit.no-kind")
		}
		f.v.Set("record", string(b))
	}
	return s.showNewRecord(w, r, http.StatusOK, f)
}

func (s *Site) showNewRecord(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	return s.show(w, r, status, "record", s.say("record.title"), &recordBody{f})
}

// newRecord registers a piece with all that its record holds.
func (s *Site) newRecord(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	text := f.need("record", s.say("record.none"))
	rec, faults := &kit.Record{}, doc.Faults(nil)
	if text != "" {
		rec, faults = record.Decode("", []byte(text), s.app.Tables())
	}
	for _, x := range faults {
		f.Top = append(f.Top, s.say("record.fault", "line", x.Line, "field", x.Field, "what", x.What, "mend", x.Mend))
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) {
		all, err := s.app.Take(r.Context(), who, rec)
		if err != nil {
			return app.Written{}, err
		}
		return all[len(all)-1], nil
	}, func(status int) error { return s.showNewRecord(w, r, status, f) },
		func(written app.Written) error { return s.entered(w, r, rec.Piece.ID, written) })
}
