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

// Wash enters a washing. Looks entered after it, of the same day, were made after it.
func (a *App) Wash(ctx context.Context, who Who, piece string, day qty.Day, w fold.Washing) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Washing, piece: piece, day: day, body: &w, check: a.usable(piece, day)})
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
