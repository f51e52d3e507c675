package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
)

// kindsBody is the choice of what sort of piece is registered.
type kindsBody struct{ Kinds []kindOption }

// kindOption is a kind with the drawing it will hang as.
type kindOption struct {
	ID    kit.KindID
	Shape string
	Stand kit.Verdict // for the drawing: as one that is kept
}

// newPieceForm asks for the kind, and then shows the form for it.
func (s *Site) newPieceForm(w http.ResponseWriter, r *http.Request) error {
	t, id := s.app.Tables(), kit.KindID(r.URL.Query().Get("kind"))
	if id == "" {
		var b kindsBody
		for i := range t.Kinds {
			b.Kinds = append(b.Kinds, kindOption{ID: t.Kinds[i].ID, Shape: shapeOf(t.Kinds[i].ID)})
		}
		return s.show(w, r, http.StatusOK, "kinds", s.say("kit.which"), &b)
	}
	k := t.Kind(id)
	if k == nil {
		return s.refuse(app.NotFound, "kit.no-kind")
	}
	f, err := s.fresh()
	if err != nil {
		return err
	}
	f.v.Set("kind", string(id))
	f.v.Set("stored", "store")
	for i, name := range k.Layers { // a row for each layer that it can have
		f.v.Set(key("layer", i)+".name", name)
	}
	f.rows("layers", len(k.Layers))
	return s.showNewPiece(w, r, http.StatusOK, f)
}

func (s *Site) showNewPiece(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	k := s.app.Tables().Kind(kit.KindID(f.V("kind")))
	if k == nil {
		return s.refuse(app.NotFound, "kit.no-kind")
	}
	b := s.kitBody(f, k)
	b.New = true
	if f.Fault("both") != "" || f.V("both") != "" {
		var err error
		if b.second, err = s.beside(r, f, f.text("piece"), k.ID, f.text("fitted.in")); err != nil {
			return err
		}
	}
	title := s.say("kit.new", "kind", s.kind(k.ID))
	if f.Fix != nil {
		b.Piece = r.PathValue("id")
		title = s.say("kit.amend", "piece", b.Piece)
	}
	return s.show(w, r, status, "kit", title, b)
}

// newPiece registers a piece.
func (s *Site) newPiece(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	if f.V("more") != "" { // another row was asked for
		return s.showNewPiece(w, r, http.StatusOK, f)
	}
	f.dropEmptyLayers()
	p := f.kit(f.need("piece", s.say("kit.no-id")), kit.KindID(f.V("kind")))
	there, err := s.beside(r, f, p.ID, p.Kind, p.Fitted.In)
	if err != nil {
		return err
	}
	f.askBeside(there, p.Fitted.In)
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.AddPiece(r.Context(), who, p) },
		func(status int) error { return s.showNewPiece(w, r, status, f) },
		func(written app.Written) error { return s.entered(w, r, p.ID, written) })
}
