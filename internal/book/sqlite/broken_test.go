package sqlite

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
)

// readAll opens a book, reads all of it and gives the first error.
func readAll(path string) (lines [][]byte, head book.Head, err error) {
	s, err := Open(path, Options{})
	if err != nil {
		return nil, head, err
	}
	defer s.Close()
	if head, err = s.Head(ctx); err != nil {
		return nil, head, err
	}
	lines, err = s.Read(ctx, 0, 1<<20)
	return lines, head, err
}

// TestTampered: with the guards taken off, what was done to the rows is noticed,
// whether or not the guards are put back.
func TestTampered(t *testing.T) {
	off := map[string]string{
		"leaves": `DROP TRIGGER leaves_no_DELETE; DROP TRIGGER leaves_no_UPDATE; DROP TRIGGER leaves_next`,
		"hashes": `DROP TRIGGER hashes_no_DELETE; DROP TRIGGER hashes_no_UPDATE; DROP TRIGGER hashes_next`,
		"heads":  `DROP TRIGGER heads_no_DELETE; DROP TRIGGER heads_no_UPDATE; DROP TRIGGER heads_next`,
	}
	for _, c := range []struct{ name, table, do string }{
		{"nothing, guards off", "leaves", ""},
		{"first line gone", "leaves", `DELETE FROM leaves WHERE idx = 0`},
		{"a line gone", "leaves", `DELETE FROM leaves WHERE idx = 11`},
		{"last line gone", "leaves", `DELETE FROM leaves WHERE idx = 39`},
		{"all lines gone", "leaves", `DELETE FROM leaves`},
		{"a line altered", "leaves", `UPDATE leaves SET line = CAST(replace(CAST(line AS TEXT), 'shock', 'shack') AS BLOB) WHERE idx = 7`},
		{"two lines changed round", "leaves", `UPDATE leaves SET idx = 1000 WHERE idx = 4; UPDATE leaves SET idx = 4 WHERE idx = 5; UPDATE leaves SET idx = 5 WHERE idx = 1000`},
		{"a line too many", "leaves", `INSERT INTO leaves SELECT 40, randomblob(16), sum, line FROM leaves WHERE idx = 3`},
		{"a leaf's hash altered", "hashes", `UPDATE hashes SET hash = randomblob(32) WHERE idx = 0`},
		{"the peak altered", "hashes", `UPDATE hashes SET hash = randomblob(32) WHERE idx = 62`}, // root of the first 32 lines
		{"a hash gone", "hashes", `DELETE FROM hashes WHERE idx = 3`},
		{"last head gone", "heads", `DELETE FROM heads`},
		{"the root altered", "heads", `UPDATE heads SET root = randomblob(32)`},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := written(t, 40)
			by(t, path, off[c.table])
			by(t, path, c.do)
			if _, _, err := readAll(path); !errors.Is(err, book.ErrBroken) {
				t.Errorf("guards off: %v", err)
			}
			for _, statement := range steps[0] {
				if n := triggerName(statement); n != "" && strings.Contains(off[c.table], n) {
					by(t, path, statement)
				}
			}
			_, _, err := readAll(path)
			switch {
			case c.do == "" && err != nil:
				t.Errorf("guards put back and nothing done: %v", err)
			case c.do != "" && !errors.Is(err, book.ErrBroken):
				t.Errorf("guards put back: %v", err)
			}
		})
	}
}

// triggerName is the name in a CREATE TRIGGER, else "".
func triggerName(statement string) string {
	f := strings.Fields(statement)
	if f[1] != "TRIGGER" {
		return ""
	}
	return f[2]
}

// TestWhileOpen: damage done behind the back of a book that is open is noticed
// by the next read, and nothing more is appended.
func TestWhileOpen(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.book")
	s := open(t, path)
	booktest.Add(t, s, 0, 20)
	h, err := s.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	by(t, path, `DROP TRIGGER leaves_no_DELETE`, `DELETE FROM leaves WHERE idx = 19`)
	if _, err := s.Head(ctx); !errors.Is(err, book.ErrBroken) {
		t.Errorf("Head: %v", err)
	}
	if _, err := s.Read(ctx, 3, 2); !errors.Is(err, book.ErrBroken) {
		t.Errorf("Read: %v", err)
	}
	if _, _, err := s.Append(ctx, h, []book.Line{booktest.Line(20, 1)}); !errors.Is(err, book.ErrBroken) {
		t.Errorf("Append: %v", err)
	}
}

// TestFlips flips bytes of the file, one at a time. The store must never give
// other lines or another head than were written: it refuses, or the flip lay
// where nothing is read from. Every flip inside a line is found. (Flips in
// hashes that no read needs are for the second reader to find.)
func TestFlips(t *testing.T) {
	path := written(t, 30)
	want, head, err := readAll(path)
	if err != nil || len(want) != 30 {
		t.Fatal(len(want), err)
	}
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// SQLite leaves old copies of a row where a page was split: a line may stand
	// in the file more than once, and is read from one of these places.
	type place struct{ line, from, to, tried, refused int }
	var places []place
	for n, l := range want {
		for from := 0; ; from++ {
			at := bytes.Index(whole[from:], l)
			if at < 0 {
				break
			}
			from += at
			places = append(places, place{line: n, from: from, to: from + len(l)})
		}
	}
	flipped := filepath.Join(t.TempDir(), "flipped.book")
	found, same := 0, 0
	for i := 0; i < len(whole); i += 13 {
		bad := bytes.Clone(whole)
		bad[i] ^= 1 << (i % 8)
		if err := os.WriteFile(flipped, bad, 0o600); err != nil {
			t.Fatal(err)
		}
		got, h, err := readAll(flipped)
		os.Remove(flipped + "-wal")
		os.Remove(flipped + "-shm")
		in := slices.IndexFunc(places, func(p place) bool { return p.from <= i && i < p.to })
		if in >= 0 {
			places[in].tried++
		}
		switch {
		case err != nil:
			found++
			if in >= 0 {
				places[in].refused++
				if !errors.Is(err, book.ErrBroken) {
					t.Errorf("byte %d, in a line: %v", i, err)
				}
			}
		case h != head:
			t.Errorf("byte %d flipped: head %s, want %s", i, h, head)
		case !slices.EqualFunc(got, want, bytes.Equal):
			t.Errorf("byte %d flipped: other lines than were written", i)
		default:
			same++
		}
	}
	read := make([]int, len(want)) // places a line is read from
	for _, p := range places {
		switch {
		case p.tried < 10:
			t.Errorf("line %d: only %d flips tried", p.line, p.tried)
		case p.refused == p.tried:
			read[p.line]++
		case p.refused > 0:
			t.Errorf("line %d at %d: %d flips of %d found", p.line, p.from, p.refused, p.tried)
		}
	}
	for n, k := range read {
		if k != 1 {
			t.Errorf("flips of line %d were found in %d places, want 1", n, k)
		}
	}
	t.Logf("%d bytes of %d flipped one at a time: %d refused, %d made no difference to what is read", found+same, len(whole), found, same)
}
