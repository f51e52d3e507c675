package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
)

// engine is what the suite tries. The file's name holds what an address may
// not hold as it is.
var engine = booktest.Engine{
	Fresh:   func(t testing.TB) string { return filepath.Join(t.TempDir(), "a yard's 100%41 #1?.book") },
	Open:    func(place string) (book.Store, error) { return Open(place, Options{}) },
	Durable: true,
	Shared:  true,
	Full: func(t testing.TB) book.Store {
		s, err := Open(filepath.Join(t.TempDir(), "small.book"), Options{MostPages: 256})
		if err != nil {
			t.Fatal(err)
		}
		return s
	},
}

func TestSuite(t *testing.T) { booktest.Run(t, engine) }

func TestChild(t *testing.T) { booktest.Child(t, engine) }

var ctx = context.Background()

func open(t testing.TB, path string) *Store {
	t.Helper()
	s, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// written makes a book of n lines, each about 400 bytes, and closes it.
func written(t testing.TB, n int) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "yard.book")
	s := open(t, path)
	booktest.Add(t, s, 0, n)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// by opens a file without any of our settings, as another tool would.
func by(t testing.TB, path string, statements ...string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	for _, s := range statements {
		if _, err := db.Exec(s); err != nil {
			t.Fatalf("%s: %v", s, err)
		}
	}
}

// TestSettings: the settings that durability hangs on are those in force, on
// the very connections that are used.
func TestSettings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.book")
	s := open(t, path)
	for _, c := range []struct {
		db           *sql.DB
		pragma, want string
	}{
		{s.write, "journal_mode", "wal"}, {s.write, "synchronous", "2"}, {s.write, "busy_timeout", "10000"},
		{s.write, "application_id", fmt.Sprint(application)}, {s.write, "user_version", fmt.Sprint(len(steps))},
		{s.read, "query_only", "1"}, {s.read, "journal_mode", "wal"}, {s.read, "trusted_schema", "0"},
	} {
		var got string
		if err := c.db.QueryRow("PRAGMA " + c.pragma).Scan(&got); err != nil || got != c.want {
			t.Errorf("%s is %q (%v), want %q", c.pragma, got, err, c.want)
		}
	}
	booktest.Add(t, s, 0, 3)
	for _, name := range []string{path, path + "-wal"} {
		if i, err := os.Stat(name); err != nil || i.Mode().Perm()&0o077 != 0 {
			t.Errorf("%s: others may read it: %v %v", name, i.Mode(), err)
		}
	}
}

// TestAppendOnly: whoever opens the file, its own triggers keep what is in it.
func TestAppendOnly(t *testing.T) {
	path := written(t, 5)
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	for _, s := range []string{
		`UPDATE leaves SET line = x'00' WHERE idx = 2`,
		`DELETE FROM leaves WHERE idx = 4`,
		`DELETE FROM leaves`,
		`UPDATE hashes SET idx = idx + 100`,
		`DELETE FROM hashes WHERE idx = 0`,
		`UPDATE heads SET root = zeroblob(32)`,
		`DELETE FROM heads`,
		`INSERT INTO leaves (idx, id, sum, line) VALUES (9, zeroblob(16), zeroblob(32), x'00')`,
		`REPLACE INTO leaves (idx, id, sum, line) VALUES (2, zeroblob(16), zeroblob(32), x'00')`,
		`REPLACE INTO leaves (idx, id, sum, line) SELECT 5, id, sum, line FROM leaves WHERE idx = 1`,
		`REPLACE INTO hashes (idx, hash) VALUES (1, zeroblob(32))`,
		`INSERT INTO heads (size, root) VALUES (6, zeroblob(32))`,
		`REPLACE INTO heads (size, root) VALUES (5, zeroblob(32))`,
	} {
		_, err := db.Exec(s)
		if err == nil || !strings.Contains(err.Error(), "1811") { // SQLITE_CONSTRAINT_TRIGGER
			t.Errorf("%s: %v", s, err)
		}
	}
	s := open(t, path)
	booktest.Add(t, s, 5, 7)
	if lines, err := s.Read(ctx, 0, 100); err != nil || len(lines) != 7 {
		t.Errorf("%d lines, %v", len(lines), err)
	}
}

// TestForeign: what is not ours, or newer, is refused in a sentence and left
// byte for byte as it was.
func TestForeign(t *testing.T) {
	dir := t.TempDir()
	other := filepath.Join(dir, "other.db")
	by(t, other, `CREATE TABLE birds (name TEXT)`)
	marked := filepath.Join(dir, "marked.db")
	by(t, marked, `PRAGMA application_id = 77`)
	newer := written(t, 2)
	by(t, newer, fmt.Sprintf(`PRAGMA user_version = %d`, len(steps)+1))
	text := filepath.Join(dir, "text.book")
	if err := os.WriteFile(text, []byte(strings.Repeat("no database at all\n", 300)), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		path, says string
		is         error
	}{
		{other, "another program", book.ErrForeign}, {marked, "another program", book.ErrForeign},
		{newer, "use the version of kernbook that wrote it", book.ErrForeign},
		{text, "not a database", book.ErrBroken},
	} {
		before, err := os.ReadFile(c.path)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Open(c.path, Options{})
		if !errors.Is(err, c.is) || !strings.Contains(err.Error(), c.says) || !strings.Contains(err.Error(), c.path) {
			t.Errorf("%s: %v", c.path, err)
		}
		if err == nil {
			s.Close()
		}
		if after, err := os.ReadFile(c.path); err != nil || string(after) != string(before) {
			t.Errorf("%s was changed (%v)", c.path, err)
		}
	}
	if _, err := Open(filepath.Join(dir, "no", "folder.book"), Options{}); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no folder: %v", err)
	}
}

// TestMakeAtOnce: many openings of a file that is not there yet make one book.
func TestMakeAtOnce(t *testing.T) {
	for range 5 {
		path := filepath.Join(t.TempDir(), "yard.book")
		var wg sync.WaitGroup
		stores := make([]*Store, 6)
		for i := range stores {
			wg.Add(1)
			go func() {
				defer wg.Done()
				var err error
				if stores[i], err = Open(path, Options{}); err != nil {
					t.Error(err)
				}
			}()
		}
		wg.Wait()
		if t.Failed() {
			return
		}
		for i, s := range stores {
			booktest.Add(t, s, i, i+1)
			s.Close()
		}
	}
}

// TestCopy: a copy made with VACUUM INTO while the book is open is a book.
func TestCopy(t *testing.T) {
	path := filepath.Join(t.TempDir(), "yard.book")
	s := open(t, path)
	booktest.Add(t, s, 0, 50)
	h, err := s.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "copy.book")
	by(t, path, fmt.Sprintf(`VACUUM INTO '%s'`, to))
	c := open(t, to)
	if got, err := c.Head(ctx); err != nil || got != h {
		t.Errorf("the copy stands at %s (%v), the book at %s", got, err, h)
	}
	booktest.Add(t, c, 50, 60)
}
