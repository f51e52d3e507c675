package main

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

// TestDateAhead: a record that is judged for a day after today is told so beside
// the outcome, which does not change; one that is not, is not.
func TestDateAhead(t *testing.T) {
	defer func(was func() time.Time) { now = was }(now)
	call := func() (code int, out, errs string) {
		var o, e bytes.Buffer
		code = run([]string{"decide", "../../examples/bridge-daily.toml"}, strings.NewReader(""), &o, &e)
		return code, o.String(), e.String()
	}
	now = func() time.Time { return time.Date(2026, 6, 1, 0, 5, 0, 0, time.UTC) } // the day of the record
	code, out, errs := call()
	if code != 0 || errs != "" {
		t.Fatalf("on its day: status %d, %q", code, errs)
	}
	now = func() time.Time { return time.Date(2026, 5, 31, 23, 55, 0, 0, time.UTC) }
	before, same, note := call()
	if before != code || same != out || !strings.Contains(note, "is judged for 1 Jun 2026, which lies after today, 31 May 2026.") {
		t.Errorf("the day before: status %d, the outcome is the same: %v, note %q", before, same == out, note)
	}
}
