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
	check := a.there(piece)
	if f.In != "" {
		check = a.usable(piece, day)
	}
	return a.put(ctx, who, draft{kind: entry.Fit, piece: piece, day: day, body: &f, check: check})
}

// Hang says who holds a piece from a day on, or where it hangs unused.
func (a *App) Hang(ctx context.Context, who Who, piece string, day qty.Day, h fold.Hang) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Hang, piece: piece, day: day, body: &h, check: func(s *fold.State) error {
		if h.Holder != "" {
			if _, err := memberOf(s, h.Holder); err != nil {
				return err
			}
			return a.usable(piece, day)(s)
		}
		return a.there(piece)(s)
	}})
}
