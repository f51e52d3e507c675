package web

import (
	"net/url"
	"strings"

	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// kept tells the entries about a piece that are no part of its examinations:
// who held it, what it was fitted to, its use, washings, what was known of it,
// and corrections. What cannot be read, or was taken out, is left out.
func (t *teller) kept(piece string, lines []fold.Line) []happened {
	var out []happened
	for i := range lines {
		l := &lines[i]
		if l.Void {
			continue
		}
		v, err := fold.Decode(l.Kind, l.Version, l.Body)
		if err != nil {
			continue
		}
		h := happened{Day: l.Day, By: t.s.by(t.people, l, l.Author, l.Day), What: t.s.word("entry", string(l.Kind))}
		switch b := v.(type) {
		case *fold.Hang:
			h.What = t.s.say("piece.nobody")
			switch {
			case b.Holder != "":
				h.What = t.s.say("piece.holder", "who", t.who(b.Holder))
			case b.Place != "":
				h.What = t.s.say("piece.place", "place", b.Place)
			}
		case *fold.Fit:
			h.What = t.s.say("history.taken-out")
			if b.In != "" {
				h.What = t.s.say("piece.fitted", "in", b.In)
			}
			if b.Document != "" {
				h.Said = append(h.Said, b.Document)
			}
		case *fold.Use:
			u, faults := record.DecodeUse("", b.Use)
			if len(faults) > 0 {
				continue
			}
			switch {
			case u.Store:
				h.What = t.s.say("history.in-store")
			case u.Week >= 0:
				h.What = t.s.say("history.use", "week", u.Week)
			default:
				h.What = t.s.say("history.use-unknown")
			}
		case *fold.Washing:
			h.Said = append(h.Said, t.s.say("history.washed", "with", b.With, "clean", t.s.word("answer", string(b.Clean))))
			if b.Words != "" {
				h.Said = append(h.Said, b.Words)
			}
		case *fold.Amend:
			h.Said = append(h.Said, b.Why)
		case *fold.Correct:
			h.Said = append(h.Said, b.Why)
			h.Link = "/piece/" + url.PathEscape(piece) + "/entry/" + l.ID.String()
		default:
			if l.Kind != entry.Piece {
				continue
			}
		}
		h.What = strings.TrimSuffix(h.What, ".") // it is a heading here
		out = append(out, h)
	}
	return out
}
