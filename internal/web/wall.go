package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
)

// rail is what hangs side by side: a climber's kit, or what hangs in one place.
type rail struct {
	Holder string // id of a person; "" for a place
	Place  string
	Out    bool // withdrawn for good: it hangs with nobody
	Hung   []hung
}

// wall shows all kit as it hangs: by climber, and by the place in the store.
func (s *Site) wall(w http.ResponseWriter, r *http.Request) error {
	cards, err := s.app.Board(r.Context(), s.app.Today())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, "wall", s.say("wall.title"), s.rails(cards, true))
}

// rails sorts pieces by who holds them and where they hang; what is out of use
// for good comes last; with there, once nobody holds it any more.
func (s *Site) rails(cards []app.Card, there bool) []rail {
	var held, stored []rail
	out := rail{Out: true}
	for i := range cards {
		c := &cards[i]
		if c.Stopped.ForGood() && !(there && c.OutThere() && c.Holder != "") {
			out.Hung = append(out.Hung, s.hang(c))
			continue
		}
		list := &held
		if c.Holder == "" {
			list = &stored
		}
		at := -1
		for k := range *list {
			if x := &(*list)[k]; x.Holder == c.Holder && x.Place == c.Place {
				at = k
			}
		}
		if at < 0 {
			*list = append(*list, rail{Holder: c.Holder, Place: c.Place})
			at = len(*list) - 1
		}
		(*list)[at].Hung = append((*list)[at].Hung, s.hang(c))
	}
	all := append(held, stored...)
	if len(out.Hung) > 0 {
		all = append(all, out)
	}
	return all
}

// hung is a piece as it hangs on the wall.
type hung struct {
	*app.Card
	Stand kit.Verdict
	Words string // how it stands
	Shape string // which drawing
	Out   bool   // of use for good: neither doubt nor life is of use any more
	Bar   bar
	Life  string
	Rungs []rung
}

// hang makes a drawing of a card.
func (s *Site) hang(c *app.Card) hung {
	h := hung{Card: c, Stand: c.Stands(), Shape: shapeOf(c.Kind), Out: c.Stopped.ForGood(), Bar: s.bar(c.Doubt, c.Limit), Life: s.say("life.unknown")}
	h.Words = s.verdict(h.Stand)
	switch {
	case c.Stopped.Held:
		h.Words = s.shared("verdict.held")
	case c.OutThere() && c.Holder != "":
		h.Words = s.say("wall.hand-in")
	}
	if c.LifeEnd != 0 {
		h.Life, h.Rungs = s.life(c.LifeEnd)
	}
	return h
}
