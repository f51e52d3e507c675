package app

import (
	"context"
	"errors"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
)

// pen holds entries that are written together or not at all. Each is tried on a
// copy of the book's state that has those before it.
type pen struct {
	head  book.Head // behind which they are to be written
	state *fold.State
	lines []book.Line
	ids   []entry.ID
}

// put tries an entry, and holds it.
func (p *pen) put(ctx context.Context, a *App, e entry.Entry, d *draft) (Written, error) {
	if _, there, err := a.again(ctx, &e, d); err != nil {
		return Written{}, err
	} else if there {
		return Written{}, fail(Conflict, "Nothing was written: part of this is in the book already, under the id %s.", e.ID)
	}
	if err := a.ready(p.state, p.head, &e, d); err != nil {
		return Written{}, err
	}
	l, err := a.line(&e)
	if err != nil {
		return Written{}, err
	}
	leaf, err := entry.ParseLeaf(l.Bytes)
	if err != nil {
		return Written{}, err
	}
	faults := len(p.state.Faulty)
	if p.state.Apply(&leaf); len(p.state.Faulty) > faults {
		return Written{}, fail(Invalid, "This cannot be entered: %s.", p.state.Faulty[faults].Why)
	}
	p.lines, p.ids = append(p.lines, l), append(p.ids, e.ID)
	return Written{ID: e.ID, Index: p.state.Size - 1}, nil
}

// together does something that enters several things about one piece, new people
// and the yard, and writes all of it in one append: all or, where one of them is
// refused, nothing. do may be called again when others wrote meanwhile.
func (a *App) together(ctx context.Context, piece string, do func(a *App) error) ([]Written, error) {
	a = a.still()
	for range tries {
		if err := a.follow.Catch(ctx); err != nil {
			return nil, wrap(err)
		}
		p := &pen{}
		if err := a.follow.Look(func(s *fold.State, h book.Head) error {
			p.state, p.head = s.Branch(piece), h
			return nil
		}); err != nil {
			return nil, wrap(err)
		}
		if err := do(&App{shared: a.shared, clock: a.clock, pen: p}); err != nil {
			return nil, wrap(err)
		}
		at, head, err := a.store.Append(ctx, p.head, p.lines)
		if errors.Is(err, book.ErrMoved) {
			continue
		}
		if err != nil {
			return nil, wrap(err)
		}
		out := make([]Written, len(at))
		for i := range at {
			out[i] = Written{ID: p.ids[i], Index: at[i], Head: head}
		}
		return out, wrap(a.follow.Catch(ctx))
	}
	return nil, moved()
}
