package postgres

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
)

// last reads the last head, and how many lines there are by their indexes.
const last = `SELECT coalesce(max(size), 0), coalesce((SELECT root FROM kernbook.heads WHERE yard = $1 ORDER BY size DESC LIMIT 1), ''::bytea),
	(SELECT coalesce(max(idx) + 1, 0) FROM kernbook.leaves WHERE yard = $1) FROM kernbook.heads WHERE yard = $1`

// querier is a pool or a transaction.
type querier interface {
	Query(context.Context, string, ...any) (pgx.Rows, error)
}

// Head implements book.Store.
func (s *Store) Head(ctx context.Context) (book.Head, error) {
	if err := s.open(ctx); err != nil {
		return book.Head{}, err
	}
	h, err := book.ScanHead(s.pool.QueryRow(ctx, last, s.yard))
	if err == nil {
		_, err = s.kept.Of(h, s.hashes(ctx, s.pool))
	}
	return h, fault(ctx, err)
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
	rows, err := s.pool.Query(ctx, `SELECT idx, line FROM kernbook.leaves WHERE yard = $1 AND idx >= $2 AND idx < $3 ORDER BY idx`, s.yard, from, from+n)
	if err != nil {
		return nil, fault(ctx, err)
	}
	defer rows.Close()
	out, err := book.ScanLines(rows, from, n)
	if err != nil {
		return nil, fault(ctx, err)
	}
	rows.Close() // the connection is free for the hashes
	return out, fault(ctx, book.Hold(from, out, s.hashes(ctx, s.pool)))
}

// Find implements book.Store.
func (s *Store) Find(ctx context.Context, id entry.ID) (int64, error) {
	if err := s.open(ctx); err != nil {
		return 0, err
	}
	var idx int64
	err := s.pool.QueryRow(ctx, `SELECT idx FROM kernbook.leaves WHERE yard = $1 AND id = $2`, s.yard, [16]byte(id)).Scan(&idx)
	if errors.Is(err, pgx.ErrNoRows) {
		return 0, book.ErrNone
	}
	return idx, fault(ctx, err)
}

// Append implements book.Store. It returns once the server has had the commit
// written to its disk (synchronous_commit).
func (s *Store) Append(ctx context.Context, expect book.Head, lines []book.Line) (at []int64, h book.Head, err error) {
	if err := s.open(ctx); err != nil {
		return nil, book.Head{}, err
	}
	var next book.Edge
	err = inTx(ctx, s.pool, func(tx pgx.Tx) (err error) {
		at, next, err = s.append(ctx, tx, expect, lines)
		return err
	})
	switch {
	case errors.Is(err, book.ErrMoved):
		return nil, next.Head, err
	case err != nil:
		return nil, book.Head{}, fault(ctx, err)
	}
	s.kept.Keep(next)
	return at, next.Head, nil
}

type known struct {
	index int64
	sum   []byte
}

// append does what Append does inside its transaction.
func (s *Store) append(ctx context.Context, tx pgx.Tx, expect book.Head, lines []book.Line) ([]int64, book.Edge, error) {
	ids := make([][16]byte, len(lines))
	for i := range lines {
		ids[i] = lines[i].ID
	}
	var head book.Head
	there := map[entry.ID]known{}
	ask := &pgx.Batch{}
	ask.Queue(`SELECT pg_advisory_xact_lock($1, $2)`, class, s.yard) // from here on nobody else writes to this yard
	ask.Queue(last, s.yard).QueryRow(func(row pgx.Row) (err error) {
		head, err = book.ScanHead(row)
		return err
	})
	ask.Queue(`SELECT id, idx, sum FROM kernbook.leaves WHERE yard = $1 AND id = ANY($2)`, s.yard, ids).Query(func(rows pgx.Rows) error {
		for rows.Next() {
			var id [16]byte
			var k known
			if err := rows.Scan(&id, &k.index, &k.sum); err != nil {
				return err
			}
			there[id] = k
		}
		return rows.Err()
	})
	if err := tx.SendBatch(ctx, ask).Close(); err != nil {
		return nil, book.Edge{}, err
	}
	edge, err := s.kept.Of(head, s.hashes(ctx, tx))
	if err != nil {
		return nil, edge, err
	}
	at, fresh, err := book.Plan(lines, edge.Head.Size, func(id entry.ID) (index int64, sum [32]byte, err error) {
		k, ok := there[id]
		if !ok {
			return 0, sum, book.ErrNone
		}
		copy(sum[:], k.sum)
		return k.index, sum, nil
	})
	switch {
	case err != nil || len(fresh) == 0:
		return at, edge, err
	case expect != edge.Head:
		return nil, edge, book.ErrMoved
	}
	more, next, err := edge.Grow(fresh)
	if err != nil {
		return nil, edge, err
	}
	if err := tx.SendBatch(ctx, s.insert(edge.Head.Size, fresh, more, next.Head)).Close(); err != nil {
		return nil, edge, err
	}
	return at, next, nil
}

// insert makes the three statements of an append to a book of a size.
func (s *Store) insert(size int64, fresh []book.Line, more []tlog.Hash, head book.Head) *pgx.Batch {
	ids, sums, bytes := make([][16]byte, len(fresh)), make([][]byte, len(fresh)), make([][]byte, len(fresh))
	for i := range fresh {
		l := &fresh[i]
		ids[i], sums[i], bytes[i] = l.ID, l.Sum[:], l.Bytes
	}
	hashes := make([][]byte, len(more))
	for i := range more {
		hashes[i] = more[i][:]
	}
	b := &pgx.Batch{}
	b.Queue(`INSERT INTO kernbook.leaves (yard, idx, id, sum, line)
		SELECT $1, $2 + n - 1, id, sum, line FROM unnest($3::uuid[], $4::bytea[], $5::bytea[]) WITH ORDINALITY AS u (id, sum, line, n)`,
		s.yard, size, ids, sums, bytes)
	b.Queue(`INSERT INTO kernbook.hashes (yard, idx, hash)
		SELECT $1, $2 + n - 1, hash FROM unnest($3::bytea[]) WITH ORDINALITY AS u (hash, n)`,
		s.yard, tlog.StoredHashCount(size), hashes)
	b.Queue(`INSERT INTO kernbook.heads (yard, size, root) VALUES ($1, $2, $3)`, s.yard, head.Size, head.Root[:])
	return b
}

// Hashes implements book.Store.
func (s *Store) Hashes(ctx context.Context) tlog.HashReader {
	return tlog.HashReaderFunc(func(indexes []int64) ([]tlog.Hash, error) {
		if err := s.open(ctx); err != nil {
			return nil, err
		}
		out, err := s.hashes(ctx, s.pool)(indexes)
		return out, fault(ctx, err)
	})
}

// hashes reads stored hashes, those of one call by one query.
func (s *Store) hashes(ctx context.Context, q querier) tlog.HashReaderFunc {
	return func(indexes []int64) ([]tlog.Hash, error) {
		rows, err := q.Query(ctx, `SELECT idx, hash FROM kernbook.hashes WHERE yard = $1 AND idx = ANY($2)`, s.yard, indexes)
		if err != nil {
			return nil, err
		}
		defer rows.Close()
		got := make(map[int64]tlog.Hash, len(indexes))
		for rows.Next() {
			var idx int64
			var b []byte
			if err := rows.Scan(&idx, &b); err != nil {
				return nil, err
			}
			if len(b) == tlog.HashSize {
				got[idx] = tlog.Hash(b)
			}
		}
		if err := rows.Err(); err != nil {
			return nil, err
		}
		out := make([]tlog.Hash, len(indexes))
		for i, x := range indexes {
			h, ok := got[x]
			if !ok {
				return nil, fmt.Errorf("%w: hash %d is gone", book.ErrBroken, x)
			}
			out[i] = h
		}
		return out, nil
	}
}
