package web

import (
	"net/http"
	"net/url"
	"slices"

	"kernbook/internal/app"
)

// timed is what is done at one time of the day.
type timed struct {
	Words string
	Links []link
}

// link is something to be done, or a page.
type link struct{ Path, Words string }

// deeds are what is done to a piece, by the last part of its address, in the
// order of a day.
func (s *Site) deeds() [][]link {
	return [][]link{
		{{"look", s.say("do.look")}, {"look?kind=partner", s.say("do.partner")}, {"hang", s.say("do.hang")}, {"fit", s.say("do.fit")}},
		{{"event", s.say("do.event")}, {"stop", s.say("do.stop")}},
		{{"run", s.say("do.run")}, {"wash", s.say("do.wash")}, {"change", s.say("do.change")}, {"use", s.say("do.use")}, {"examine?kind=interim", s.say("do.interim")}},
		{{"examine?kind=thorough", s.say("do.examine")}, {"decide", s.say("do.decide")}, {"answer", s.say("do.answer")}, {"amend", s.say("do.amend")}, {"entries", s.say("do.correct")}},
	}
}

// times gives the four times of a day with what is done then: to one piece, or,
// without one, to a piece that is still to be chosen.
func (s *Site) times(piece *app.Card) []timed {
	out := []timed{{Words: s.say("day.morning")}, {Words: s.say("day.work")}, {Words: s.say("day.evening")},
		{Words: s.say("day.visit")}}
	for i, list := range s.deeds() {
		for _, l := range list {
			u := url.URL{Path: "/do/"}
			if piece != nil {
				if !stillDone(piece, l.Path) {
					continue
				}
				u.Path = "/piece/" + piece.ID + "/"
			}
			out[i].Links = append(out[i].Links, link{u.EscapedPath() + l.Path, l.Words})
		}
	}
	if piece == nil {
		out[2].Links = append(out[2].Links, link{"/new/piece", s.say("do.new")})
		out[3].Links = append(out[3].Links, link{"/register", s.say("register.title")}, link{"/people", s.say("people.title")}, link{"/bench", s.say("bench.title")}, link{"/yard", s.say("yard.title")})
	}
	return slices.DeleteFunc(out, func(t timed) bool { return len(t.Links) == 0 })
}

// chooseBody is the choice of a piece for something that is to be done.
type chooseBody struct {
	Rails []rail
	Last  string // of the address
	Out   []hung
}

// choose asks to which piece something is done: first what whoever acts holds.
func (s *Site) choose(w http.ResponseWriter, r *http.Request) error {
	last, title := r.PathValue("what"), ""
	if r.URL.RawQuery != "" {
		last += "?" + r.URL.RawQuery
	}
	for _, list := range s.deeds() {
		for _, l := range list {
			if l.Path == last {
				title = l.Words
			}
		}
	}
	if title == "" {
		return s.refuse(app.NotFound, "fail.nowhere")
	}
	cards, err := s.app.Board(r.Context(), s.app.Today())
	if err != nil {
		return err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	b := chooseBody{Last: last}
	mine := acting(r, people)
	var others []rail
	for _, x := range s.rails(cards, false) {
		switch {
		case x.Out:
			if stillDone(x.Hung[0].Card, r.PathValue("what")) { // decisions apart, alike for all of them
				b.Out = x.Hung
			}
		case mine != nil && x.Holder == mine.ID:
			b.Rails = append(b.Rails, x)
		default:
			others = append(others, x)
		}
	}
	b.Rails = append(b.Rails, others...)
	return s.show(w, r, http.StatusOK, "choose", title, &b)
}
