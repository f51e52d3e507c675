// Package mem keeps a book in memory, for tests and for trying things out.
package mem

import (
	"context"
	"fmt"
	"sync"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
)

// Store is a book in memory.
type Store struct {
	mu     sync.Mutex
	lines  [][]byte
	sums   [][32]byte
	index  map[entry.ID]int64
	hashes []tlog.Hash
	head   book.Head
	room   int64 // bytes left; below 0 means without end
	closed bool
}

// New gives an empty book.
func New() *Store { return Limited(-1) }

// Limited gives an empty book with room for so many bytes of lines; below 0
// means without end.
func Limited(room int64) *Store {
	return &Store{index: map[entry.ID]int64{}, head: book.Head{Root: book.Empty}, room: room}
}

var _ book.Store = (*Store)(nil)

func (s *Store) open(ctx context.Context) error {
	if s.closed {
		return fmt.Errorf("the book in memory is closed")
	}
	return ctx.Err()
}

// Head implements book.Store.
func (s *Store) Head(ctx context.Context) (book.Head, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.head, s.open(ctx)
}

// Read implements book.Store.
func (s *Store) Read(ctx context.Context, from int64, most int) ([][]byte, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.open(ctx); err != nil || from < 0 || from >= int64(len(s.lines)) || most <= 0 {
		return nil, err
	}
	to := min(from+int64(most), int64(len(s.lines)))
	out := make([][]byte, 0, to-from)
	for _, l := range s.lines[from:to] {
		out = append(out, append([]byte(nil), l...))
	}
	return out, nil
}

// Find implements book.Store.
func (s *Store) Find(ctx context.Context, id entry.ID) (int64, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.open(ctx); err != nil {
		return 0, err
	}
	i, ok := s.index[id]
	if !ok {
		return 0, book.ErrNone
	}
	return i, nil
}

// Append implements book.Store.
func (s *Store) Append(ctx context.Context, expect book.Head, lines []book.Line) ([]int64, book.Head, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.open(ctx); err != nil {
		return nil, book.Head{}, err
	}
	at, fresh, err := book.Plan(lines, s.head.Size, func(id entry.ID) (int64, [32]byte, error) {
		i, ok := s.index[id]
		if !ok {
			return 0, [32]byte{}, book.ErrNone
		}
		return i, s.sums[i], nil
	})
	switch {
	case err != nil:
		return nil, book.Head{}, err
	case len(fresh) == 0:
		return at, s.head, nil
	case expect != s.head:
		return nil, s.head, book.ErrMoved
	}
	room := s.room
	for i := range fresh {
		room -= int64(len(fresh[i].Bytes))
	}
	if s.room >= 0 && room < 0 {
		return nil, book.Head{}, book.ErrFull
	}
	more, head, err := book.Grow(s.head.Size, fresh, s.reader())
	if err != nil {
		return nil, book.Head{}, err
	}
	for i := range fresh {
		s.index[fresh[i].ID] = int64(len(s.lines))
		s.lines = append(s.lines, append([]byte(nil), fresh[i].Bytes...))
		s.sums = append(s.sums, fresh[i].Sum)
	}
	if s.room >= 0 {
		s.room = room
	}
	s.hashes, s.head = append(s.hashes, more...), head
	return at, head, nil
}

// reader reads hashes while the lock is held.
func (s *Store) reader() tlog.HashReader {
	return tlog.HashReaderFunc(func(indexes []int64) ([]tlog.Hash, error) {
		out := make([]tlog.Hash, len(indexes))
		for i, x := range indexes {
			if x < 0 || x >= int64(len(s.hashes)) {
				return nil, fmt.Errorf("%w: hash %d is not there", book.ErrBroken, x)
			}
			out[i] = s.hashes[x]
		}
		return out, nil
	})
}

// Hashes implements book.Store.
func (s *Store) Hashes(ctx context.Context) tlog.HashReader {
	return tlog.HashReaderFunc(func(indexes []int64) ([]tlog.Hash, error) {
		s.mu.Lock()
		defer s.mu.Unlock()
		if err := s.open(ctx); err != nil {
			return nil, err
		}
		return s.reader().ReadHashes(indexes)
	})
}

// Close implements book.Store. What was kept is still there when it is opened again.
func (s *Store) Close() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed = true
	return nil
}

// Reopen opens a closed book again.
func (s *Store) Reopen() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.closed = false
}
