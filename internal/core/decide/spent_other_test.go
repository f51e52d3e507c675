//go:build !unix

package decide_test

import "testing"

// spent is not known here; the clock alone is reported.
func spent(*testing.B) int64 { return 0 }
