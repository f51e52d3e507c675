// Package book is the yard's append-only log: leaves in their order, and over
// them a Merkle tree (RFC 6962, by golang.org/x/mod/sumdb/tlog) whose hashes are
// kept beside the leaves. What is in the book is never changed or taken out.
package book

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"strconv"
	"strings"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/core/entry"
)

// Store keeps one yard's book. Every engine passes the suite of book/booktest.
// All methods may be called from several goroutines at once.
type Store interface {
	// Head gives how many leaves there are and the root of their tree.
	Head(ctx context.Context) (Head, error)
	// Read gives the leaves from an index on, at most so many, as they were
	// appended. An index at or behind the end gives none.
	Read(ctx context.Context, from int64, most int) ([][]byte, error)
	// Find gives the index of the leaf whose entry has an id; ErrNone where there is none.
	Find(ctx context.Context, id entry.ID) (int64, error)
	// Append puts lines after the last one, all or none, and gives their
	// indexes and the head after them. When it returns without an error they
	// are on disk. A line whose entry is in the book already, byte for byte, is
	// not put in again: its index is that of the first time. Otherwise the book
	// must stand at the head that is expected, else ErrMoved; an id that is in
	// the book with other bytes is ErrOther.
	Append(ctx context.Context, expect Head, lines []Line) ([]int64, Head, error)
	// Hashes reads the stored hashes of the tree, for proofs.
	Hashes(ctx context.Context) tlog.HashReader
	Close() error
}

// What can go wrong, to be met with errors.Is.
var (
	ErrMoved  = errors.New("the book has moved on: somebody else wrote to it")
	ErrOther  = errors.New("the book has another entry with this id")
	ErrNone   = errors.New("the book has no such entry")
	ErrFull   = errors.New("there is no room left to write the book")
	ErrBroken = errors.New("the book is damaged")
	// ErrForeign comes from opening only.
	ErrForeign = errors.New("this is no book that this version of kernbook can keep")
)

// Head names a state of the book.
type Head struct {
	Size int64
	Root tlog.Hash
}

// String gives "size:root", the root in hexadecimal; "" for an empty book.
func (h Head) String() string {
	if h.Size == 0 {
		return ""
	}
	return strconv.FormatInt(h.Size, 10) + ":" + hex.EncodeToString(h.Root[:])
}

// ParseHead reads what String gives.
func ParseHead(s string) (Head, error) {
	if s == "" {
		return Head{Root: Empty}, nil
	}
	size, root, ok := strings.Cut(s, ":")
	n, err := strconv.ParseInt(size, 10, 64)
	b, bad := hex.DecodeString(root)
	h := Head{Size: n}
	if !ok || err != nil || bad != nil || n <= 0 || len(b) != tlog.HashSize || strconv.FormatInt(n, 10) != size || strings.ToLower(root) != root {
		return Head{}, fmt.Errorf("“%s” is no head of a book, size:root", s)
	}
	copy(h.Root[:], b)
	return h, nil
}

// Empty is the root of a tree without leaves (RFC 6962: the hash of nothing).
var Empty = tlog.Hash(sha256.Sum256(nil))

// Line is a leaf on its way into a store.
type Line struct {
	ID    entry.ID
	Sum   [32]byte // SHA-256 of the entry's own bytes, without the instant it was recorded
	Bytes []byte   // canonical bytes of the leaf, with its line end
}

// NewLine makes the line of an entry that is recorded at an instant, once it is
// seen to be one.
func NewLine(e *entry.Entry, recorded string) (Line, error) {
	own := e.Append(nil)
	l := entry.Leaf{Recorded: recorded, Entry: *e}
	b := l.Append(nil)
	if _, err := entry.ParseLeaf(b); err != nil {
		return Line{}, err
	}
	return Line{ID: e.ID, Sum: sha256.Sum256(own), Bytes: b}, nil
}

// Grow works out, for lines that follow a book of a size, the hashes to store
// beside them, in the order of their index, and the head after them. The reader
// gives the hashes stored before.
func Grow(size int64, lines []Line, r tlog.HashReader) ([]tlog.Hash, Head, error) {
	g := &growing{from: tlog.StoredHashCount(size), old: r}
	for i := range lines {
		h, err := tlog.StoredHashes(size+int64(i), lines[i].Bytes, g)
		if err != nil {
			return nil, Head{}, err
		}
		g.more = append(g.more, h...)
	}
	head := Head{Size: size + int64(len(lines)), Root: Empty}
	if head.Size == 0 {
		return nil, head, nil
	}
	root, err := tlog.TreeHash(head.Size, g)
	head.Root = root
	return g.more, head, err
}

// growing reads stored hashes together with those not stored yet.
type growing struct {
	from int64
	old  tlog.HashReader
	more []tlog.Hash
}

func (g *growing) ReadHashes(indexes []int64) ([]tlog.Hash, error) {
	out := make([]tlog.Hash, len(indexes))
	var ask []int64
	var at []int
	for i, x := range indexes {
		switch {
		case x < g.from:
			ask, at = append(ask, x), append(at, i)
		case x-g.from < int64(len(g.more)):
			out[i] = g.more[x-g.from]
		default:
			return nil, fmt.Errorf("%w: hash %d is not there", ErrBroken, x)
		}
	}
	if len(ask) > 0 {
		old, err := g.old.ReadHashes(ask)
		if err != nil {
			return nil, err
		}
		for i, h := range old {
			out[at[i]] = h
		}
	}
	return out, nil
}

// Plan sorts lines into those that are in the book already and those that are
// new. known gives the index and the sum of an id, or ErrNone. Where the same
// id comes twice among the lines, the second must be the first again.
func Plan(lines []Line, size int64, known func(entry.ID) (int64, [32]byte, error)) (at []int64, fresh []Line, err error) {
	at = make([]int64, len(lines))
	mine := make(map[entry.ID]int, len(lines))
	for i := range lines {
		l := &lines[i]
		if k, twice := mine[l.ID]; twice {
			if lines[k].Sum != l.Sum {
				return nil, nil, fmt.Errorf("%w: %s", ErrOther, l.ID)
			}
			at[i] = at[k]
			continue
		}
		mine[l.ID] = i
		index, sum, err := known(l.ID)
		switch {
		case err == nil && sum == l.Sum:
			at[i] = index
		case err == nil:
			return nil, nil, fmt.Errorf("%w: %s", ErrOther, l.ID)
		case errors.Is(err, ErrNone):
			at[i] = size + int64(len(fresh))
			fresh = append(fresh, *l)
		default:
			return nil, nil, err
		}
	}
	return at, fresh, nil
}
