package sqlite

import (
	"path/filepath"
	"syscall"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
)

// TestFullDisk fills a real file system of two megabytes. What was acknowledged
// is there, also after closing and opening, and the book goes on once there is room.
func TestFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=2m"); err != nil {
		t.Skipf("a file system in memory can be mounted by root only (%v); the bound of pages is tried by the suite", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, 0); err != nil {
			t.Error(err)
		}
	})
	path := filepath.Join(dir, "yard.book")
	s := open(t, path)
	in := booktest.Fill(t, s)
	s.Close()
	s = open(t, path)
	if lines, err := s.Read(ctx, 0, 1<<20); err != nil || len(lines) != len(in) {
		t.Fatalf("opened again: %d lines, %v; want %d", len(lines), err, len(in))
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT, "size=8m"); err != nil {
		t.Fatal(err)
	}
	h, err := s.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	if _, h, err = s.Append(ctx, h, []book.Line{booktest.Line(len(in), 20_000)}); err != nil || h.Size != int64(len(in)+1) {
		t.Fatalf("with room again: %v, %v", h, err)
	}
	s.Close()
}
