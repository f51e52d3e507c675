//go:build unix && !linux

package pgtest

import "testing"

// CanMount says whether this process may mount a file system in memory.
func CanMount() bool { return false }

// Small is not to be had here.
func (s *Server) Small(t testing.TB, _ string) string {
	t.Fatal("no file system in memory here")
	return ""
}
