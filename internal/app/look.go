package app

import (
	"context"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
)

// Examine enters an examination of a piece: its looks, what was seen and
// measured, and what was asked.
func (a *App) Examine(ctx context.Context, who Who, piece string, e kit.Examination) (Written, error) {
	return a.put(ctx, who, draft{kind: entry.Examination, piece: piece, day: e.Day, body: &e, check: a.there(piece)})
}

// KeepRun enters a run of like looks: each working day between two days.
func (a *App) KeepRun(ctx context.Context, who Who, piece string, r kit.Run) (Written, error) {
	a = a.still()
	if r.To > a.Today() {
		return Written{}, fail(Invalid, "The run ends on %s: enter looks that were made, not those still to come.", r.To.Words())
	}
	return a.put(ctx, who, draft{kind: entry.Run, piece: piece, day: r.From, body: &r, check: a.there(piece)})
}
