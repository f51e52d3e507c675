package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
)

// Entries gives every entry about a piece as it counts now, in the order of the
// book.
func (a *App) Entries(ctx context.Context, piece string) ([]fold.Line, error) {
	var out []fold.Line
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		out = append(out, p.Lines...)
		return nil
	})
	return out, err
}

// Entry gives one entry about a piece, as it counts now.
func (a *App) Entry(ctx context.Context, piece string, id entry.ID) (fold.Line, error) {
	all, err := a.Entries(ctx, piece)
	if err != nil {
		return fold.Line{}, err
	}
	for i := range all {
		if all[i].ID == id {
			return all[i], nil
		}
	}
	return fold.Line{}, fail(NotFound, "No entry %s about “%s” is in the book.", id, piece)
}

// Correction is a correction in the book, and what it changed.
type Correction struct {
	fold.Line
	Why           string
	Entry         fold.Line // what it corrects, as that counts now
	Before, After Said      // of the piece, as of today, without it and with it, by today's core
	Gone          bool      // it took the entry out, and put nothing in its place
}

// Corrected gives a correction with what it changed, worked out from the book
// as it was before it and right after it.
func (a *App) Corrected(ctx context.Context, piece string, id entry.ID) (Correction, error) {
	var c Correction
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		var body *fold.Correct
		for i := range p.Lines {
			l := &p.Lines[i]
			if l.ID != id || l.Kind != entry.Correct {
				continue
			}
			v, err := fold.Decode(l.Kind, l.Version, l.Body)
			if err != nil {
				return fail(Broken, "Entry %d: %v.", l.Index+1, err)
			}
			c.Line, body = *l, v.(*fold.Correct)
		}
		if body == nil {
			return fail(NotFound, "No correction %s about “%s” is in the book.", id, piece)
		}
		c.Why, c.Gone = body.Why, len(body.Instead) == 0
		for i := range p.Lines {
			if p.Lines[i].ID.String() == body.Entry {
				c.Entry = p.Lines[i]
			}
		}
		for _, x := range []struct {
			before int64
			into   *Said
		}{{c.Index, &c.Before}, {c.Index + 1, &c.After}} {
			then, err := a.until(ctx, s, p, x.before)
			if err != nil {
				return err
			}
			n := a.fresh(then, then.Piece(piece), a.Today(), false)
			*x.into = n.said()
		}
		return nil
	})
	return c, err
}

// Looser says whether the correction made the piece's outcome looser.
func (c *Correction) Looser() bool { return c.After.Err == nil && c.After.Verdict < c.Before.Verdict }
