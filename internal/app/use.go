package app

import (
	"context"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// PlanUse says how a piece is used from a day on. Whose body mass it carries is
// said by the person; the mass itself stays sealed.
func (a *App) PlanUse(ctx context.Context, who Who, piece string, u kit.Use, of string) (Written, error) {
	a = a.still()
	u.Mass = 0
	day := min(u.From, a.Today())
	return a.put(ctx, who, draft{kind: entry.Use, piece: piece, day: day, body: &fold.Use{Use: record.EncodeUse(&u), Of: of}, check: func(s *fold.State) error {
		if err := a.carries(s, of); err != nil {
			return err
		}
		return a.usable(piece, u.From)(s)
	}})
}

// carries refuses the body mass of somebody who was never there.
func (a *App) carries(s *fold.State, of string) error {
	if of == "" {
		return nil
	}
	_, err := memberOf(s, of)
	return err
}
