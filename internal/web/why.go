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
	Gone     *gone // out of use for good; the explanation is of that day
	Line     template.HTML
	Fall     template.HTML
	Along    template.HTML
	Sections []report.Section
}

// why shows the outcome of a piece with its whole explanation.
func (s *Site) why(w http.ResponseWriter, r *http.Request) error {
	ctx, id := r.Context(), r.PathValue("id")
	card, err := s.app.CardOf(ctx, id, s.app.Today())
	if err != nil {
		return err
	}
	people, err := s.app.Everybody(ctx)
	if err != nil {
		return err
	}
	g, err := s.goneOf(ctx, &card, people)
	if err != nil {
		return err
	}
	j, err := s.whole(ctx, &card, g)
	if err != nil {
		return err
	}
	b := whyBody{id, g, s.drawing(draw.PartLine, &j), s.drawing(draw.PartFall, &j), s.drawing(draw.PartAlong, &j),
		report.Sections(j.Outcome, s.app.Tables(), j.Record, s.told())}
	return s.show(w, r, http.StatusOK, "why", s.say("why.title", "piece", id), &b)
}
