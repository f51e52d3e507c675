package tables

import (
	"os"
	"regexp"
	"testing"
)

// TestSourcesPage holds that docs/sources.md names every line of lines.toml and
// no other.
func TestSourcesPage(t *testing.T) {
	page, err := os.ReadFile("../../docs/sources.md")
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{}
	for _, id := range regexp.MustCompile(`\b(?:[A-Z]-[0-9]+a?|K-[A-Z]{2}-[A-Za-z]+|F-[A-Z]+)\b`).FindAllString(string(page), -1) {
		named[id] = true
	}
	tb := Default()
	for i := range tb.Lines {
		if id := tb.Lines[i].ID; !named[id] {
			t.Errorf("docs/sources.md does not name line %s", id)
		}
	}
	for id := range named {
		if tb.Line(id) == nil {
			t.Errorf("docs/sources.md names %s, which is no line", id)
		}
	}
}
