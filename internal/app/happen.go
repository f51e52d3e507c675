package app

import (
	"context"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Happen enters something that happened to a piece.
func (a *App) Happen(ctx context.Context, who Who, piece string, e kit.Event) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Event, piece: piece, day: e.Day, body: &e, check: a.there(piece)})
}

// Wash enters a washing. Looks entered after it, of the same day, were made after
// it. What it is to have washed out is on record already, of no later day.
func (a *App) Wash(ctx context.Context, who Who, piece string, day qty.Day, w fold.Washing) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Washing, piece: piece, day: day, body: &w, check: func(s *fold.State) error {
		if err := a.usable(piece, day)(s); err != nil || w.Event == "" {
			return err
		}
		r, err := s.Record(s.Piece(piece), a.Today(), nil)
		if err != nil {
			return err
		}
		for i := range r.Events {
			switch e := &r.Events[i]; {
			case e.Ref != w.Event:
			case e.Day > day:
				return fail(Invalid, "“%s” happened on %s, after this washing: only a washing of that day or a later one can wash it out.", w.Event, e.Day.Words())
			default:
				return nil
			}
		}
		return fail(Invalid, "No event “%s” of this piece is on record: enter what happened first, or leave out what was washed out.", w.Event)
	}})
}

// Move enters a change of the datum: zones that lie elsewhere, an end re-tied or
// cut, the piece turned.
func (a *App) Move(ctx context.Context, who Who, piece string, c kit.Change) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Change, piece: piece, day: c.Day, body: &c, check: a.usable(piece, c.Day)})
}

// Answer settles a question. It is refused where what the piece's outcome asks for under
// that name is nothing that an answer could settle: it would change nothing.
func (a *App) Answer(ctx context.Context, who Who, piece string, x kit.Answer) (Written, error) {
	if err := a.lifts(ctx, piece, &x); err != nil {
		return Written{}, err
	}
	return a.answer(ctx, who, piece, x)
}

func (a *App) answer(ctx context.Context, who Who, piece string, x kit.Answer) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Answer, piece: piece, day: x.Day, body: &x, check: a.there(piece)})
}
