package web

import (
	"regexp"
	"slices"
	"testing"
)

var (
	ticked = regexp.MustCompile(`name="([^"]*)" value="[^"]*" checked`)
	picked = regexp.MustCompile(`<option value="([^"]+)" selected`)
)

// TestNothingIsPreselected: a form on which somebody says what was looked at, and
// what was found, says none of it by itself, whoever acts.
func TestNothingIsPreselected(t *testing.T) {
	a := yard(t)
	for _, who := range []string{"", "ines"} {
		c := visit(t, a, who)
		for _, path := range []string{"/piece/BR-07/look", "/piece/BR-07/look?kind=partner", "/piece/BR-07/run", "/piece/BR-07/examine", "/piece/BR-07/examine?kind=thorough", "/piece/BR-07/fit", "/piece/BR-07/wash",
			"/piece/BR-07/event", "/piece/BR-07/answer", "/piece/BR-07/stop", "/piece/BR-07/decide", "/piece/BR-07/change"} {
			page := c.get(path).Body.String()
			for _, m := range ticked.FindAllStringSubmatch(page, -1) {
				if m[1] != "kind" { // which form it is
					t.Errorf("%s, as %q: %s is ticked", path, who, m[1])
				}
			}
			for _, m := range picked.FindAllStringSubmatch(page, -1) {
				if !slices.Contains([]string{who}, m[1]) {
					t.Errorf("%s, as %q: %s is chosen", path, who, m[1])
				}
			}
		}
	}
}
