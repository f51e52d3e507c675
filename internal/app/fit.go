package app

import (
	"context"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Fit says what a piece is fitted to from a day on, and whether its maker
// allows it there; with In empty it was taken out.
func (a *App) Fit(ctx context.Context, who Who, piece string, day qty.Day, f fold.Fit) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Fit, piece: piece, day: day, body: &f, check: func(s *fold.State) error { return a.fittable(s, piece, day, &f) }})
}

// fittable refuses to fit a piece to itself, to one that is not there, or when it is
// out of use.
func (a *App) fittable(s *fold.State, piece string, day qty.Day, f *fold.Fit) error {
	if f.In == "" {
		return a.there(piece)(s)
	}
	if f.In == piece {
		return fail(Invalid, "“%s” cannot be fitted to itself.", piece)
	}
	if s.Piece(f.In) == nil {
		return fail(Invalid, "No piece “%s” is in the book: register what it is fitted to first, so that its own state counts too.", f.In)
	}
	return a.usable(piece, day)(s)
}

// Hang says who holds a piece from a day on, or where it hangs unused.
func (a *App) Hang(ctx context.Context, who Who, piece string, day qty.Day, h fold.Hang) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Hang, piece: piece, day: day, body: &h, check: func(s *fold.State) error { return a.holdable(s, piece, day, &h) }})
}

// holdable refuses to hand a piece to who had left the yard on the day, or has left
// it by now and would hold it still.
func (a *App) holdable(s *fold.State, piece string, day qty.Day, h *fold.Hang) error {
	if h.Holder == "" {
		return a.there(piece)(s)
	}
	m, err := memberOf(s, h.Holder)
	if err != nil {
		return err
	}
	if err := a.usable(piece, day)(s); err != nil {
		return err
	}
	p, _ := pieceOf(s, piece)
	on := day
	if !p.HungAfter(day) { // then they hold it today
		on = max(day, a.Today())
	}
	left, err := m.Left(on)
	if err == nil && left {
		err = fail(Refused, "“%s” has left the yard: hand the piece to somebody who is there, or say where it hangs.", h.Holder)
	}
	return err
}
