package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// Tried is what a correction would change.
type Tried struct {
	Before, After Said // of the piece, as of today, without it and with it
}

// TryCorrect says what a correction of an entry about a piece would change, and
// writes nothing. It is refused where Correct would refuse it.
func (a *App) TryCorrect(ctx context.Context, who Who, id entry.ID, instead any, why string) (Tried, error) {
	a = a.still()
	var out Tried
	if why == "" {
		return out, fail(Invalid, "Say why the entry was wrong.")
	}
	c := fold.Correct{Entry: id.String(), Why: why}
	if instead != nil {
		c.Instead = fold.Encode(instead)
	}
	own := who.ID
	if own == (entry.ID{}) {
		var err error
		if own, err = a.newID(); err != nil {
			return out, wrap(err)
		}
	}
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, ok := s.Where(id)
		if !ok || p == nil {
			return fail(NotFound, "No entry %s about a piece is in the book.", id)
		}
		e := entry.Entry{Yard: a.yard, ID: own, Kind: entry.Correct, Version: 1, Day: a.Today(), Author: who.Person, Piece: p.ID, Body: fold.Encode(&c)}
		if err := a.may(s, who.Person, &draft{kind: e.Kind, piece: p.ID}); err != nil {
			return err
		}
		if err := a.mayCorrect(s, who.Person, id, c.Instead); err != nil {
			return err
		}
		if err := a.fits(s, &e); err != nil {
			return err
		}
		r, err := s.With(&entry.Leaf{Recorded: "2000-01-01T00:00:00.000Z", Entry: e}, a.Today(), a)
		if err != nil {
			return err
		}
		before, after := a.fresh(s, p, a.Today(), false), judged{record: r}
		a.weigh(&known{}, p.ID, &after)
		out.Before, out.After = before.said(), after.said()
		out.Before.Reasons, out.After.Reasons = a.reasons(&before), a.reasons(&after)
		return nil
	})
	return out, err
}

// reasons gives the reasons of an outcome in words.
func (a *App) reasons(n *judged) []string {
	if n.err != nil {
		return nil
	}
	return report.Brief(n.out, a.tables, n.record, lang.English()).Reasons
}
