package web

import (
	"context"
	"net/url"
	"slices"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// gone is what the page of a piece says once it is out of use for good.
type gone struct {
	Day   qty.Day // on which it went out of use
	How   string  // and by whom
	Why   string  // the first reason a person gave
	Next  string  // what comes next
	Do    *link   // where that is entered; nil for nothing
	Was   string  // where it was last
	Place string  // what came into its place, or what can
	Spare []link
}

// allowedOut are the deeds, by the last part of their address, that are still
// done to a piece that is out of use: nobody looks at it before use any more.
var allowedOut = []string{"hang", "fit", "event", "stop", "amend", "entries"}

// stillDone says whether a deed is offered for a piece.
func stillDone(c *app.Card, last string) bool {
	return !c.Stopped.ForGood() || slices.Contains(allowedOut, last) || last == "decide" && c.Undecided
}

// goneOf tells how a piece went out of use and what comes next; nil for one that
// is not out of use for good.
func (s *Site) goneOf(ctx context.Context, c *app.Card, people []app.Somebody) (*gone, error) {
	st := &c.Stopped
	if !st.ForGood() {
		return nil, nil
	}
	g := &gone{Day: st.Day, Why: st.Why, How: s.say("out.how", "what", s.word("gone", st.What), "day", st.Day, "who", s.called(people, st.By))}
	if c.Holder != "" || c.In != "" {
		who := ""
		if c.Holder != "" {
			who = s.called(people, c.Holder)
		}
		g.Was = s.say("out.was", "who", who, "in", c.In)
	}
	stop := "/piece/" + url.PathEscape(c.ID) + "/stop?what="
	switch {
	case st.Cut:
		g.Next = s.say("out.cut")
		return g, s.replace(ctx, g, c, people)
	case st.Held:
		g.Next, g.Do = s.say("out.held"), &link{stop + "release", s.say("out.release-do")}
		return g, nil
	}
	g.Next, g.Do = s.say("out.cut-up"), &link{stop + "cut+up", s.say("out.cut-do")}
	return g, s.replace(ctx, g, c, people)
}

// replace says what of its kind stands in the place of a piece by now, or which
// spares could.
func (s *Site) replace(ctx context.Context, g *gone, c *app.Card, people []app.Somebody) error {
	if c.In == "" && c.Holder == "" {
		return nil
	}
	cards, err := s.app.Board(ctx, s.app.Today())
	if err != nil {
		return err
	}
	var there []string
	deed := "/hang"
	if c.In != "" {
		deed = "/fit"
	}
	for i := range cards {
		x := &cards[i]
		switch {
		case x.ID == c.ID || x.Kind != c.Kind || x.Stands() >= kit.SetAside:
		case c.In != "" && x.In == c.In, c.In == "" && x.Holder == c.Holder:
			there = append(there, x.ID)
		case x.Holder == "" && x.In == "":
			g.Spare = append(g.Spare, link{"/piece/" + url.PathEscape(x.ID) + deed, s.say("out.spare", "piece", x.ID)})
		}
	}
	where := c.In
	if where == "" {
		where = s.called(people, c.Holder)
	}
	switch {
	case len(there) > 0:
		g.Place, g.Spare = s.say("out.replaced", "list", s.words.List(there), "where", where), nil
	case len(g.Spare) > 0:
		g.Place = s.say("out.replace", "where", where)
	default:
		g.Place = s.say("out.no-spare", "where", where)
		g.Spare = []link{{"/new/piece?kind=" + url.QueryEscape(string(c.Kind)), s.say("do.new")}}
	}
	return nil
}

// whole gives a piece with its outcome and the whole explanation: of today, and
// of one that is out of use of the day on which it went out, where an outcome can
// be given for that day. What has fallen due since took nothing out.
func (s *Site) whole(ctx context.Context, c *app.Card, g *gone) (app.Judged, error) {
	if g != nil {
		if j, err := s.app.Judge(ctx, c.ID, g.Day, true); err == nil {
			return j, nil
		}
	}
	return s.app.Judge(ctx, c.ID, s.app.Today(), true)
}
