package pgtest

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// CanMount says whether this process may mount a file system in memory.
func CanMount() bool {
	dir, err := os.MkdirTemp("", "kbmount")
	if err != nil {
		return false
	}
	defer os.Remove(dir)
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=64k"); err != nil {
		return false
	}
	return syscall.Unmount(dir, 0) == nil
}

// Small gives a folder of the server's user on a file system of its own with so
// much room ("8m"), until the test ends.
func (s *Server) Small(t testing.TB, size string) string {
	t.Helper()
	dir := filepath.Join(s.Dir, "small")
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(dir, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	data := filepath.Join(dir, "data") // a folder that is a mount of its own is refused
	if err := os.Mkdir(data, 0o700); err != nil {
		t.Fatal(err)
	}
	i, err := os.Stat(s.Dir)
	if err != nil {
		t.Fatal(err)
	}
	of := i.Sys().(*syscall.Stat_t)
	for _, d := range []string{dir, data} {
		if err := os.Chown(d, int(of.Uid), int(of.Gid)); err != nil {
			t.Fatal(err)
		}
	}
	return data
}
