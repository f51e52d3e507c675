package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
)

// last reads the last head, and how many lines there are by their indexes.
const last = `SELECT coalesce(max(size), 0), coalesce((SELECT root FROM heads ORDER BY size DESC LIMIT 1), x''),
	(SELECT coalesce(max(idx) + 1, 0) FROM leaves) FROM heads`

// edgeOf reads the head from a row of last and gives its edge.
func (s *Store) edgeOf(row book.Row, r tlog.HashReader) (book.Edge, error) {
	h, err := book.ScanHead(row)
	if err != nil {
		return book.Edge{}, err
	}
	return s.kept.Of(h, r)
}

// Head implements book.Store.
func (s *Store) Head(ctx context.Context) (book.Head, error) {
	e, err := s.edgeOf(s.last.QueryRowContext(ctx), hashes(ctx, s.read))
	return e.Head, s.fault(ctx, err)
}

// Read implements book.Store. Each line is held against its stored hash: one
// that is not what was appended, or is gone, is ErrBroken.
func (s *Store) Read(ctx context.Context, from int64, most int) ([][]byte, error) {
	// A book only grows, so what the head counts is there for every later query.
	h, err := s.Head(ctx)
	if err != nil || from < 0 || from >= h.Size || most <= 0 {
		return nil, err
	}
	n := min(int64(most), h.Size-from)
	rows, err := s.read.QueryContext(ctx, `SELECT idx, line FROM leaves WHERE idx >= ? AND idx < ? ORDER BY idx`, from, from+n)
	if err != nil {
		return nil, s.fault(ctx, err)
	}
	defer rows.Close()
	out, err := book.ScanLines(rows, from, n)
	if err = errors.Join(err, rows.Close()); err != nil {
		return nil, s.fault(ctx, err)
	}
	return out, s.fault(ctx, book.Hold(from, out, hashes(ctx, s.read)))
}

// Find implements book.Store.
func (s *Store) Find(ctx context.Context, id entry.ID) (int64, error) {
	var idx int64
	err := s.find.QueryRowContext(ctx, id[:]).Scan(&idx)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, book.ErrNone
	}
	return idx, s.fault(ctx, err)
}

// Append implements book.Store. It returns once SQLite has had the log of the
// commit written to the disk (synchronous=FULL).
func (s *Store) Append(ctx context.Context, expect book.Head, lines []book.Line) ([]int64, book.Head, error) {
	at, h, err := s.append(ctx, expect, lines)
	if errors.Is(err, book.ErrMoved) || errors.Is(err, book.ErrOther) {
		return nil, h, err
	}
	return at, h, s.fault(ctx, err)
}

func (s *Store) append(ctx context.Context, expect book.Head, lines []book.Line) ([]int64, book.Head, error) {
	var none book.Head
	tx, err := s.write.BeginTx(ctx, nil) // immediate: from here on nobody else writes
	if err != nil {
		return nil, none, err
	}
	defer tx.Rollback() // does nothing after a commit
	edge, err := s.edgeOf(tx.StmtContext(ctx, s.lastly).QueryRowContext(ctx), hashes(ctx, tx))
	if err != nil {
		return nil, none, err
	}
	known := tx.StmtContext(ctx, s.known)
	at, fresh, err := book.Plan(lines, edge.Head.Size, func(id entry.ID) (idx int64, sum [32]byte, err error) {
		var b []byte
		err = known.QueryRowContext(ctx, id[:]).Scan(&idx, &b)
		if errors.Is(err, sql.ErrNoRows) {
			err = book.ErrNone
		}
		copy(sum[:], b)
		return idx, sum, err
	})
	switch {
	case err != nil:
		return nil, none, err
	case len(fresh) == 0:
		return at, edge.Head, nil
	case expect != edge.Head:
		return nil, edge.Head, book.ErrMoved
	}
	more, next, err := edge.Grow(fresh)
	if err != nil {
		return nil, none, err
	}
	leaf, hash := tx.StmtContext(ctx, s.leaf), tx.StmtContext(ctx, s.hash)
	for i := range fresh {
		l := &fresh[i]
		if _, err := leaf.ExecContext(ctx, edge.Head.Size+int64(i), l.ID[:], l.Sum[:], l.Bytes); err != nil {
			return nil, none, err
		}
	}
	first := tlog.StoredHashCount(edge.Head.Size)
	for i := range more {
		if _, err := hash.ExecContext(ctx, first+int64(i), more[i][:]); err != nil {
			return nil, none, err
		}
	}
	if _, err := tx.StmtContext(ctx, s.head).ExecContext(ctx, next.Head.Size, next.Head.Root[:]); err != nil {
		return nil, none, err
	}
	if err := tx.Commit(); err != nil {
		return nil, none, err
	}
	s.kept.Keep(next)
	return at, next.Head, nil
}

// Hashes implements book.Store.
func (s *Store) Hashes(ctx context.Context) tlog.HashReader {
	r := hashes(ctx, s.read)
	return tlog.HashReaderFunc(func(indexes []int64) ([]tlog.Hash, error) {
		out, err := r(indexes)
		return out, s.fault(ctx, err)
	})
}

// dense is how many rows may be read for one hash that is wanted before each is
// asked for by itself.
const dense = 4

// hashes reads stored hashes, by one query where they lie close together.
func hashes(ctx context.Context, q querier) tlog.HashReaderFunc {
	return func(indexes []int64) ([]tlog.Hash, error) {
		out := make([]tlog.Hash, len(indexes))
		if len(indexes) == 0 {
			return out, nil
		}
		low, high := slices.Min(indexes), slices.Max(indexes)
		if high-low >= dense*int64(len(indexes)) {
			for i, x := range indexes {
				got, err := span(ctx, q, x, x)
				if err != nil {
					return nil, err
				}
				out[i] = got[0]
			}
			return out, nil
		}
		got, err := span(ctx, q, low, high)
		if err != nil {
			return nil, err
		}
		for i, x := range indexes {
			out[i] = got[x-low]
		}
		return out, nil
	}
}

// span reads all hashes from one index to another, both included.
func span(ctx context.Context, q querier, low, high int64) ([]tlog.Hash, error) {
	rows, err := q.QueryContext(ctx, `SELECT idx, hash FROM hashes WHERE idx BETWEEN ? AND ? ORDER BY idx`, low, high)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	out := make([]tlog.Hash, 0, high-low+1)
	for rows.Next() {
		var idx int64
		var b sql.RawBytes
		if err := rows.Scan(&idx, &b); err != nil {
			return nil, err
		}
		var h tlog.Hash
		if idx != low+int64(len(out)) || copy(h[:], b) != len(h) {
			break
		}
		out = append(out, h)
	}
	if err := errors.Join(rows.Err(), rows.Close()); err != nil {
		return nil, err
	}
	if int64(len(out)) != high-low+1 {
		return nil, fmt.Errorf("%w: hash %d is gone", book.ErrBroken, low+int64(len(out)))
	}
	return out, nil
}
