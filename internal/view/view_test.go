package view

import (
	"context"
	"errors"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
	"kernbook/internal/book/mem"
	"kernbook/internal/fold"
)

// odd is a store to which somebody writes, or which fails, just before a read.
type odd struct {
	*mem.Store
	before func(from int64) error
}

func (o *odd) Read(ctx context.Context, from int64, most int) ([][]byte, error) {
	if err := o.before(from); err != nil {
		return nil, err
	}
	return o.Store.Read(ctx, from, most)
}

var ctx = context.Background()

// stands gives the state's size once it is seen to stand for the head it is shown with.
func stands(t *testing.T, f *Follower, s book.Store) int64 {
	t.Helper()
	var size int64
	err := f.Look(func(st *fold.State, h book.Head) error {
		size = st.Size
		r, err := book.ReadEdge(h, s.Hashes(ctx))
		if err != nil || r.Head.Size != st.Size {
			t.Errorf("a state of %d entries is shown with the head %s (%v)", st.Size, h, err)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return size
}

// TestStandsForItsHead: what is written while the book is read waits for the
// next time, so that the state is always that of the head beside it.
func TestStandsForItsHead(t *testing.T) {
	s := &odd{mem.New(), func(int64) error { return nil }}
	f := New(s)
	if got := stands(t, f, s); got != 0 {
		t.Errorf("nothing read, and %d entries are there", got)
	}
	booktest.Add(t, s, 0, 5)
	s.before = func(int64) error { booktest.Add(t, s, 5, 8); return nil }
	if err := f.Catch(ctx); err != nil {
		t.Fatal(err)
	}
	if got := stands(t, f, s); got != 5 {
		t.Errorf("%d entries were read, want the 5 that the head counted", got)
	}
	s.before = func(int64) error { return nil }
	if err := f.Catch(ctx); err != nil {
		t.Fatal(err)
	}
	if got := stands(t, f, s); got != 8 {
		t.Errorf("%d entries were read, want 8", got)
	}
}

// TestReadInPart: a book of which a part could be read is not shown, and is
// read to its end the next time.
func TestReadInPart(t *testing.T) {
	s := &odd{mem.New(), nil}
	booktest.Add(t, s, 0, step+3)
	torn := errors.New("torn")
	s.before = func(from int64) error {
		if from > 0 {
			return torn
		}
		return nil
	}
	f := New(s)
	if err := f.Catch(ctx); !errors.Is(err, torn) {
		t.Fatal(err)
	}
	if err := f.Look(func(*fold.State, book.Head) error { return nil }); err == nil {
		t.Error("a part of the book is shown as if it were all")
	}
	s.before = func(int64) error { return nil }
	if err := f.Catch(ctx); err != nil {
		t.Fatal(err)
	}
	if got := stands(t, f, s); got != step+3 {
		t.Errorf("%d entries were read", got)
	}
}
