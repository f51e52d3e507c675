package report_test

import (
	"strings"
	"testing"

	"kernbook/internal/report"
)

// TestWhatToDo: what is to be done names the key of the record, or the sort of
// examination and its looks.
func TestWhatToDo(t *testing.T) {
	for name, want := range map[string]string{
		"examined by a climber": `- Have a competent person make and sign it. Where one did, say so in the record: role = "competent person" or "examiner" beside the id “E. Example”, and since = the day from which they have been one.`,
		"not signed":            `- Have it signed by a competent person. Where one signed, say so in the record: signed = that person's id, and role = "competent person" or "examiner" beside the id, and since = the day from which they have been one.`,
		"fitted nowhere":        `- Write in the record what it is fitted to: in = "…", beside allowed.`,
		"perhaps allowed there": "- Have it in writing from its maker that it is allowed there, or take it out.",
		"no examination":        "- Make the examination that is missing; a complete thorough one always does, all over it: asking what happened to it; reading marking and identity; looking at it; feeling it;",
		"never examined":        "- Make a complete thorough examination, all over it: asking what happened to it; reading marking and identity; looking at it; feeling it; rolling a bight along it;",
	} {
		if out := text(t, sampleOf(t, name), report.Options{Width: 10_000}); !strings.Contains(out, want) {
			_, open, _ := strings.Cut(out, "To be answered or done")
			t.Errorf("%s: %q is not said:\n%s", name, want, open)
		}
	}
}
