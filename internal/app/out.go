package app

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// acts are the stops that take a piece out of use for good, as they are told.
var acts = map[string]string{"withdraw": "withdrawn", "hold": "held back", "cut up": "cut up"}

// how tells by whom and why a piece went out of use for good.
func how(p *fold.Piece, st *fold.Stopped) string {
	return "“" + p.ID + "” is out of use since " + st.Day.Words() + ": it was " + acts[st.What] + " by “" + st.By + "”, because: " + st.Why + "."
}

// inUse refuses what is done with a piece only while it is used, on a day after the
// one on which it went out of use for good. What was done up to that day can still be
// entered.
func inUse(p *fold.Piece, day qty.Day) error {
	st := p.Stopped()
	if !st.ForGood() || day <= st.Day {
		return nil
	}
	return fail(Invalid, "%s After that day nobody looks at it, uses it or changes it. What can still be entered is what was done up to then, what happened to it, "+
		"answers, where it is kept, and that it is held, released or cut up. If it should not have gone out of use, a competent person corrects entry %d.", how(p, &st), st.Index+1)
}

// usable checks that a piece is in the book and, on a day, not out of use for good.
func (a *App) usable(id string, day qty.Day) func(*fold.State) error {
	return func(s *fold.State) error {
		p, err := pieceOf(s, id)
		if err != nil {
			return err
		}
		return inUse(p, day)
	}
}

// examinable is usable, but that a piece that is held is still examined: authority
// and insurer ask for it.
func (a *App) examinable(id string, e *kit.Examination) func(*fold.State) error {
	return func(s *fold.State) error {
		p, err := pieceOf(s, id)
		if err != nil {
			return err
		}
		if st := p.Stopped(); st.Held && (e.Kind == kit.Interim || e.Kind == kit.Thorough) {
			return nil
		}
		return inUse(p, e.Day)
	}
}
