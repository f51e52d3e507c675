//go:build unix

package decide_test

import (
	"syscall"
	"testing"
)

// spent gives the processor time of the program so far, in nanoseconds.
func spent(b *testing.B) int64 {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return u.Utime.Nano() + u.Stime.Nano()
}
