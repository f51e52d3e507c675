package web

import (
	"html/template"
	"net/http"

	"kernbook/internal/report"
	"kernbook/internal/report/draw"
)

// whyBody is the explanation of an outcome.
type whyBody struct {
	Piece    string
	Line     template.HTML
	Fall     template.HTML
	Along    template.HTML
	Sections []report.Section
}

// why shows the outcome of a piece with its whole explanation.
func (s *Site) why(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("id")
	j, err := s.app.Judge(r.Context(), id, s.app.Today(), true)
	if err != nil {
		return err
	}
	b := whyBody{id, s.drawing(draw.PartLine, &j), s.drawing(draw.PartFall, &j), s.drawing(draw.PartAlong, &j),
		report.Sections(j.Outcome, s.app.Tables(), j.Record, s.words)}
	return s.show(w, r, http.StatusOK, "why", s.say("why.title", "piece", id), &b)
}
