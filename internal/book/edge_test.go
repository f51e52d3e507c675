package book_test

import (
	"context"
	"errors"
	"testing"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
	"kernbook/internal/book/mem"
)

// TestEdge: an edge that has grown line by line, or by many lines at once, is
// the one read from all stored hashes, and its head is that of the book.
func TestEdge(t *testing.T) {
	ctx := context.Background()
	s := mem.New()
	e := book.Edge{Head: book.Head{Root: book.Empty}}
	for n := 0; n < 140; {
		var lines []book.Line
		for range 1 + n%9 {
			lines = append(lines, booktest.Line(n, 3))
			n++
		}
		_, h, err := s.Append(ctx, e.Head, lines)
		if err != nil {
			t.Fatal(err)
		}
		if _, e, err = e.Grow(lines); err != nil || e.Head != h {
			t.Fatalf("grown to %s, %v; the book says %s", e.Head, err, h)
		}
		if _, err := book.ReadEdge(h, s.Hashes(ctx)); err != nil {
			t.Fatal(err)
		}
	}
	bad := e.Head
	bad.Root[3] ^= 1
	if _, err := book.ReadEdge(bad, s.Hashes(ctx)); !errors.Is(err, book.ErrBroken) {
		t.Errorf("a root that the hashes do not give: %v", err)
	}
	if _, err := book.ReadEdge(book.Head{Root: tlog.Hash{1}}, s.Hashes(ctx)); !errors.Is(err, book.ErrBroken) {
		t.Errorf("an empty book with a root: %v", err)
	}
	if _, err := book.ReadEdge(book.Head{Size: e.Head.Size + 1}, s.Hashes(ctx)); !errors.Is(err, book.ErrBroken) {
		t.Errorf("hashes that are not there: %v", err)
	}
}

func TestHold(t *testing.T) {
	ctx := context.Background()
	s := mem.New()
	for n := range 20 {
		h, _ := s.Head(ctx)
		if _, _, err := s.Append(ctx, h, []book.Line{booktest.Line(n, 3)}); err != nil {
			t.Fatal(err)
		}
	}
	lines, err := s.Read(ctx, 5, 10)
	if err != nil {
		t.Fatal(err)
	}
	if err := book.Hold(5, lines, s.Hashes(ctx)); err != nil {
		t.Fatal(err)
	}
	if err := book.Hold(6, lines, s.Hashes(ctx)); !errors.Is(err, book.ErrBroken) {
		t.Errorf("lines in another place: %v", err)
	}
	for i := range lines[7] {
		lines[7][i] ^= 1
		if err := book.Hold(5, lines, s.Hashes(ctx)); !errors.Is(err, book.ErrBroken) {
			t.Fatalf("byte %d of a line flipped: %v", i, err)
		}
		lines[7][i] ^= 1
	}
}
