package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
)

// setBody is all that one climber holds.
type setBody struct {
	Holder  string
	Hung    []hung
	OneIn   int64 // 0 where the figure is none to speak of
	Figures int   // pieces with a figure
	Without int   // pieces with none
	Aside   int   // pieces that may not be used
	Out     int   // pieces that are out of use for good and still hang there
}

// set shows a climber's whole set with its own figure.
func (s *Site) set(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("id")
	people, err := s.app.Everybody(r.Context())
	if err != nil {
		return err
	}
	cards, err := s.app.Board(r.Context(), s.app.Today())
	if err != nil {
		return err
	}
	b, known := setBody{Holder: id}, false
	for i := range people {
		known = known || people[i].ID == id
	}
	for i := range cards {
		c := &cards[i]
		if !app.With(cards, c, id) || c.Stopped.ForGood() && !c.OutThere() {
			continue
		}
		h := s.hang(c)
		b.Hung = append(b.Hung, h)
		switch {
		case h.Out:
			b.Out++
		case h.Stand >= kit.SetAside:
			b.Aside++
		}
	}
	if !known && len(b.Hung) == 0 {
		return s.refuse(app.NotFound, "person.unknown")
	}
	var millions int64
	millions, b.Without = app.SetDoubt(cards, id)
	b.Figures = len(b.Hung) - b.Out - b.Without
	b.OneIn = num.OneIn(millions)
	return s.show(w, r, http.StatusOK, "set", s.say("set.title", "who", s.called(people, id)), &b)
}
