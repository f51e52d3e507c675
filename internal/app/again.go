package app

import (
	"bytes"
	"context"
	"errors"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
)

// again says whether an entry that is handed in is in the book already. The
// same thing said twice under one id, as by a form that was sent twice, is the
// entry it was the first time; another thing under that id is refused.
func (a *App) again(ctx context.Context, e *entry.Entry, d *draft) (Written, bool, error) {
	index, err := a.store.Find(ctx, e.ID)
	if errors.Is(err, book.ErrNone) {
		return Written{}, false, nil
	}
	if err != nil {
		return Written{}, false, err
	}
	l, err := a.leaf(ctx, index)
	if err != nil {
		return Written{}, false, err
	}
	old := &l.Entry
	same := old.Kind == e.Kind && old.Piece == e.Piece && old.Day == e.Day && old.Author == e.Author
	switch {
	case !same:
	case d.make == nil:
		same = bytes.Equal(old.Body, fold.Encode(d.body))
	default:
		body, err := fold.Decode(old.Kind, old.Version, old.Body)
		same = err == nil && d.same != nil && d.same(body)
	}
	if !same {
		return Written{}, true, fail(Conflict, "Nothing was written: under the same id something else is in the book. Begin it anew.")
	}
	head, err := a.store.Head(ctx)
	return Written{ID: e.ID, Index: index, Head: head}, true, err
}

// leaf reads one leaf of the book.
func (a *App) leaf(ctx context.Context, index int64) (entry.Leaf, error) {
	lines, err := a.store.Read(ctx, index, 1)
	switch {
	case err != nil:
		return entry.Leaf{}, err
	case len(lines) != 1:
		return entry.Leaf{}, fail(NotFound, "The book has no entry number %d.", index+1)
	}
	return entry.ParseLeaf(lines[0])
}
