package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// TestPlainly: what the system says of a file is told with what to do, and what
// stood around it stays.
func TestPlainly(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		path string
		err  error
		want string
	}{
		{filepath.Join(dir, "none"), fs.ErrNotExist, "there is no such file"},
		{filepath.Join(dir, "none", "x"), fs.ErrNotExist, "there is no folder " + filepath.Join(dir, "none") + "; make it first"},
		{filepath.Join(file, "x", "y"), syscall.ENOTDIR, file + " is a file where a folder is wanted"},
		{dir, syscall.EISDIR, "is a folder; name a file in it"},
		{file, syscall.EACCES, "you may not read or write there"},
		{file, syscall.EROFS, "read-only"},
		{file, syscall.ENOSPC, "no room left on the disk"},
		{file, errors.New("odd"), "open "},
	} {
		got := plainly(fmt.Errorf("before: %w; behind", &fs.PathError{Op: "open", Path: x.path, Err: x.err}))
		if !strings.HasPrefix(got, "before: ") || !strings.HasSuffix(got, "; behind") || !strings.Contains(got, x.path) || !strings.Contains(got, x.want) {
			t.Errorf("%v of %s: %s", x.err, x.path, got)
		}
	}
	if got := plainly(errors.New("as it is")); got != "as it is" {
		t.Error(got)
	}
}
