package book

import "fmt"

// What engines on an SQL database read alike.

// Row is a row of a query, and Rows are several, of which one is read after the
// other: both of database/sql and of pgx.
type (
	Row  interface{ Scan(into ...any) error }
	Rows interface {
		Row
		Next() bool
		Err() error
	}
)

// ScanHead reads a head from a row with the size of the last one (0 where there
// is none), its root, and how many lines there are by their indexes; ErrBroken
// where these do not fit together.
func ScanHead(row Row) (Head, error) {
	h := Head{Root: Empty}
	var root []byte
	var lines int64
	if err := row.Scan(&h.Size, &root, &lines); err != nil {
		return h, err
	}
	if lines != h.Size {
		return h, fmt.Errorf("%w: its head counts %d lines, %d are there", ErrBroken, h.Size, lines)
	}
	if h.Size > 0 && copy(h.Root[:], root) != len(h.Root) {
		return h, fmt.Errorf("%w: the root of its head has %d bytes", ErrBroken, len(root))
	}
	return h, nil
}

// ScanLines reads so many lines from an index on, from rows of index and line in
// their order; ErrBroken where one is gone. It does not close the rows.
func ScanLines(rows Rows, from, n int64) ([][]byte, error) {
	out := make([][]byte, 0, n)
	for rows.Next() {
		var idx int64
		var line []byte
		if err := rows.Scan(&idx, &line); err != nil {
			return nil, err
		}
		if idx != from+int64(len(out)) {
			break
		}
		out = append(out, line)
	}
	if err := rows.Err(); err != nil {
		return nil, err
	}
	if int64(len(out)) != n {
		return nil, fmt.Errorf("%w: line %d is gone", ErrBroken, from+int64(len(out)))
	}
	return out, nil
}
