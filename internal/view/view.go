// Package view follows a book: it folds every new leaf once and remembers its
// place. It can be dropped at any time; opened again it reads the book from the
// first leaf and comes to the same.
package view

import (
	"context"
	"fmt"
	"sync"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
)

// step is how many leaves are read at a time.
const step = 4096

// Follower is a fold of a store that is kept up to date.
type Follower struct {
	store book.Store
	mu    sync.RWMutex
	state *fold.State
	head  book.Head
}

// New follows a store from its first leaf.
func New(store book.Store) *Follower {
	return &Follower{store: store, state: fold.New(), head: book.Head{Root: book.Empty}}
}

// Catch reads what is new in the book, up to the head that it has now.
func (f *Follower) Catch(ctx context.Context) error {
	head, err := f.store.Head(ctx)
	if err != nil {
		return err
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	for f.state.Size < head.Size {
		lines, err := f.store.Read(ctx, f.state.Size, int(min(step, head.Size-f.state.Size)))
		if err != nil {
			return err
		}
		if len(lines) == 0 {
			return fmt.Errorf("%w: it says %d leaves and has %d", book.ErrBroken, head.Size, f.state.Size)
		}
		for _, b := range lines {
			l, err := entry.ParseLeaf(b)
			if err != nil {
				return fmt.Errorf("%w: leaf %d: %v", book.ErrBroken, f.state.Size, err)
			}
			f.state.Apply(&l)
		}
	}
	if head.Size >= f.head.Size {
		f.head = head
	}
	return nil
}

// Look calls see with the state as it stands and the head it stands for; the
// state must not be kept or changed. A book that could be read in part only has
// neither: that is an error until Catch comes to its end.
func (f *Follower) Look(see func(*fold.State, book.Head) error) error {
	f.mu.RLock()
	defer f.mu.RUnlock()
	if f.state.Size != f.head.Size {
		return fmt.Errorf("the book was read up to entry %d and no further: try again", f.state.Size)
	}
	return see(f.state, f.head)
}
