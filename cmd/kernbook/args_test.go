package main

import (
	"strings"
	"testing"
)

// TestWrongArguments: a call with a word too few, too many or misspelt says so
// in a sentence that tells what to write.
func TestWrongArguments(t *testing.T) {
	for _, c := range []struct{ call, want string }{
		{"decid x.toml", "there is no command “kernbook decid”; did you mean “decide”?"},
		{"yard nw", "there is no command “kernbook yard nw”; did you mean “new”?"},
		{"record zzzzzz", "there is no command “kernbook record zzzzzz”\n"},
		{"yard new", "yard new: which folder? Write kernbook yard new FOLDER"},
		{"piece show", "piece show: which piece? Write kernbook piece show PIECE"},
		{"yard new a b", "yard new: takes one FOLDER, and there are 2 (a, b); put a name that has spaces in quotes"},
		{"version x", "version: takes no argument, and there is “x”"},
		{"decide .", ".: is a folder; name the record in it"},
		{"decide --svg-width wide --svg x.svg x.toml", "decide: --svg-width wide: write sheet or phone"},
		{"decide --svg-width phone x.toml", "name its file with --svg FILE"},
	} {
		var out, errs strings.Builder
		code := run(strings.Fields(c.call), strings.NewReader(""), &out, &errs)
		want := exitUsage
		if c.call == "decide ." {
			want = exitFailed
		}
		if code != want || !strings.Contains(errs.String(), c.want) || out.Len() > 0 {
			t.Errorf("kernbook %s: status %d, %q, %q", c.call, code, errs.String(), out.String())
		}
	}
}
