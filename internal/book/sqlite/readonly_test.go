package sqlite

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
)

// beside gives what lies in the folder of a file, by name.
func beside(t *testing.T, path string) map[string][]byte {
	t.Helper()
	all, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, x := range all {
		if out[x.Name()], err = os.ReadFile(filepath.Join(filepath.Dir(path), x.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return out
}

// TestReadOnly: a book that is opened to be read is read whole, takes nothing, and
// leaves its folder as it was: no byte of the file, and no file beside it; also one
// that another program has open.
func TestReadOnly(t *testing.T) {
	path := written(t, 40)
	before := beside(t, path)
	want, head, err := readAll(path)
	if err != nil {
		t.Fatal(err)
	}
	check := func(open bool) {
		t.Helper()
		was := beside(t, path)
		s, err := Open(path, Options{ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		got, err := s.Read(ctx, 0, 1<<20)
		if err != nil || len(got) != len(want) || !bytes.Equal(got[39], want[39]) {
			t.Errorf("%d lines, want %d; %v", len(got), len(want), err)
		}
		if h, err := s.Head(ctx); err != nil || h != head {
			t.Errorf("head %v, want %v; %v", h, head, err)
		}
		if _, _, err := s.Append(ctx, head, []book.Line{booktest.Line(41, 10)}); err == nil {
			t.Error("takes a line")
		}
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		for name, b := range beside(t, path) {
			if old, ok := was[name]; !ok || name == filepath.Base(path) && !bytes.Equal(old, b) {
				t.Errorf("open elsewhere %v: %s is not as it was", open, name)
			}
		}
	}
	if after := beside(t, path); len(after) != len(before) {
		t.Fatalf("%d files, and %d before", len(after), len(before))
	}
	check(false)
	other, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	check(true)
	other.Close()

	none := filepath.Join(t.TempDir(), "none")
	if _, err := Open(none, Options{ReadOnly: true}); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("no book: %v", err)
	}
	if _, err := os.Stat(none); err == nil {
		t.Error("made one")
	}
	if err := os.WriteFile(none, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(none, Options{ReadOnly: true}); !errors.Is(err, book.ErrForeign) {
		t.Errorf("an empty file: %v", err)
	}
	if b, _ := os.ReadFile(none); len(b) > 0 {
		t.Error("wrote into it")
	}
}
