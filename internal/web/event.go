package web

import (
	"net/http"
	"net/url"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// eventBody is the form of something that happened.
type eventBody struct {
	F          *form
	Piece      string
	Card       *app.Card
	Events     []option
	Substances []option
	Amounts    []option
	Answers    []option
	Parts      []option
}

// eventForm shows the empty form.
func (s *Site) eventForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	return s.showEvent(w, r, http.StatusOK, f)
}

// fresh gives an empty form for today, with an id for what it will enter.
func (s *Site) fresh() (*form, error) {
	id, err := s.app.NewID()
	return s.form(url.Values{"day": {s.app.Today().Words()}, "id": {id.String()}}), err
}

func (s *Site) showEvent(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	t := s.app.Tables()
	card, err := s.app.CardOf(r.Context(), r.PathValue("id"), s.app.Today())
	if err != nil {
		return err
	}
	b := eventBody{F: f, Piece: card.ID, Card: &card, Amounts: s.options("amount", "suspected", "splash", "soaked"), Answers: s.options("answer", "yes", "no", "not known")}
	for i := range t.Events {
		b.Events = append(b.Events, option{t.Events[i].ID, t.Events[i].Words})
	}
	for i := range t.Contaminants {
		b.Substances = append(b.Substances, option{t.Contaminants[i].ID, t.Contaminants[i].Words})
	}
	if k := t.Kind(card.Kind); k != nil {
		for i := range k.Parts {
			b.Parts = append(b.Parts, option{k.Parts[i].ID, k.Parts[i].Words})
		}
	}
	return s.show(w, r, status, "event", s.say("event.title", "piece", card.ID), &b)
}

// event takes something that happened.
func (s *Site) event(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	e := f.event()
	who, err := s.whoFor(w, r, f)
	if err != nil {
		return err
	}
	status, piece := http.StatusUnprocessableEntity, r.PathValue("id")
	if !f.Bad() {
		written, err := s.app.Happen(r.Context(), who, piece, e)
		if err == nil {
			return s.entered(w, r, piece, written)
		}
		if status, err = f.take(err); err != nil {
			return err
		}
	}
	return s.showEvent(w, r, status, f)
}

// event reads something that happened.
func (f *form) event() kit.Event {
	e := kit.Event{Ref: f.text("ref"), Day: f.day("day"), Event: f.V("event"), Travel: -1, Peak: -1, Substance: f.V("substance"), Amount: f.V("amount"),
		Washed: kit.Yes(f.V("washed")), Injury: f.V("injury") != "", Words: f.text("words")}
	f.choose("event", f.s.say("event.what"))
	if placed(f, "at") {
		e.At, e.PlaceSaid = f.place("at"), true
	}
	if f.text("travel") != "" {
		e.Travel = f.length("travel")
	}
	if f.text("peak") != "" {
		e.Peak = parsed(f, "peak", qty.ParsePercent)
	}
	return e
}
