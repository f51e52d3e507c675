package report_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/lang"
	"kernbook/internal/record"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// TestSectionsSayTheSame: every word of the sections stands in the full text, in the
// same order, and the text has no more than they have, but for the strip along
// the piece.
func TestSectionsSayTheSame(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.toml")
	if err != nil || len(files) < 5 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r, faults := record.Decode(f, src, tables.Default())
		if err := faults.Err(); err != nil {
			t.Fatal(err)
		}
		o := decide.Decide(tables.Default(), r, decide.Ask{Explain: true})
		var b strings.Builder
		if err := report.Text(&b, &o, tables.Default(), r, lang.English(), report.Options{Width: 100000, Full: true}); err != nil {
			t.Fatal(err)
		}
		var want []string
		for _, line := range strings.Split(b.String(), "\n") {
			if !strings.ContainsAny(line, "▁▂▃▄▅▆▇█") {
				want = append(want, strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), "- "))...)
			}
		}
		var got []string
		add := func(s string) { got = append(got, strings.Fields(s)...) }
		for _, s := range report.Sections(&o, tables.Default(), r, lang.English()) {
			add(s.Title)
			for _, x := range s.Blocks {
				add(x.Para)
				add(x.Item)
				for _, n := range x.Notes {
					add(n)
				}
				for _, row := range x.Rows {
					add(strings.Join(row, " "))
				}
			}
		}
		if len(got) < 100 || strings.Join(got, " ") != strings.Join(want, " ") {
			for i := range min(len(got), len(want)) {
				if got[i] != want[i] {
					t.Errorf("%s: the sections say %q where the text says %q", f, strings.Join(got[max(0, i-5):min(len(got), i+10)], " "), strings.Join(want[max(0, i-5):min(len(want), i+10)], " "))
					break
				}
			}
			t.Errorf("%s: %d words, the text has %d", f, len(got), len(want))
		}
	}
}
