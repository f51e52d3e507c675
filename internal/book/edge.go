package book

import (
	"bytes"
	"fmt"
	"sync"

	"golang.org/x/mod/sumdb/tlog"
)

// Edge is a head together with the stored hashes that make up its root, which
// are also all that a store needs of the old tree to append to it: at most one
// for each power of two. An engine keeps the edge of the last head it saw, so
// that an append reads no hashes.
type Edge struct {
	Head   Head
	hashes map[int64]tlog.Hash
}

// Kept is the edge of the last head that an engine saw, its root proven. The
// zero value holds none. It may be used from several goroutines at once.
type Kept struct {
	mu   sync.Mutex
	edge Edge
}

// Of gives the edge of a head: the one that is kept where the book has not
// moved, else read from the stored hashes, proven, and kept.
func (k *Kept) Of(h Head, r tlog.HashReader) (Edge, error) {
	k.mu.Lock()
	e := k.edge
	k.mu.Unlock()
	if e.Head == h {
		return e, nil
	}
	e, err := ReadEdge(h, r)
	if err == nil {
		k.Keep(e)
	}
	return e, err
}

// Keep remembers an edge, unless a later one is known.
func (k *Kept) Keep(e Edge) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if e.Head.Size >= k.edge.Head.Size {
		k.edge = e
	}
}

// ReadEdge reads the edge of a head and sees that the hashes give its root;
// ErrBroken where they do not.
func ReadEdge(h Head, r tlog.HashReader) (Edge, error) {
	if h.Size == 0 {
		if h.Root != Empty {
			return Edge{}, fmt.Errorf("%w: an empty book with the root %x", ErrBroken, h.Root[:])
		}
		return Edge{Head: h}, nil
	}
	e := Edge{Head: h, hashes: map[int64]tlog.Hash{}}
	root, err := tlog.TreeHash(h.Size, tlog.HashReaderFunc(func(indexes []int64) ([]tlog.Hash, error) {
		got, err := r.ReadHashes(indexes)
		for i := range got {
			e.hashes[indexes[i]] = got[i]
		}
		return got, err
	}))
	if err != nil {
		return Edge{}, err
	}
	if root != h.Root {
		return Edge{}, fmt.Errorf("%w: the head says %s, the stored hashes give the root %x", ErrBroken, h, root[:])
	}
	return e, nil
}

// Grow is Grow for lines that follow this edge; it gives the hashes to store
// and the edge after them.
func (e Edge) Grow(lines []Line) ([]tlog.Hash, Edge, error) {
	more, head, err := Grow(e.Head.Size, lines, e)
	if err != nil {
		return nil, Edge{}, err
	}
	next, err := ReadEdge(head, &growing{from: tlog.StoredHashCount(e.Head.Size), old: e, more: more})
	return more, next, err
}

// ReadHashes gives hashes of the edge; others are not there.
func (e Edge) ReadHashes(indexes []int64) ([]tlog.Hash, error) {
	out := make([]tlog.Hash, len(indexes))
	for i, x := range indexes {
		h, ok := e.hashes[x]
		if !ok {
			return nil, fmt.Errorf("hash %d is not on the edge of a tree of %d lines", x, e.Head.Size)
		}
		out[i] = h
	}
	return out, nil
}

// Hold holds lines read from an index on against the hashes stored for them;
// ErrBroken names the first that is not what was appended.
func Hold(from int64, lines [][]byte, r tlog.HashReader) error {
	if len(lines) == 0 {
		return nil
	}
	indexes := make([]int64, len(lines))
	for i := range indexes {
		indexes[i] = tlog.StoredHashIndex(0, from+int64(i))
	}
	stored, err := r.ReadHashes(indexes)
	if err != nil {
		return err
	}
	for i := range lines {
		if h := tlog.RecordHash(lines[i]); !bytes.Equal(h[:], stored[i][:]) {
			return fmt.Errorf("%w: line %d is not the one that was written: its hash is %x, the stored one %x", ErrBroken, from+int64(i), h[:6], stored[i][:6])
		}
	}
	return nil
}
