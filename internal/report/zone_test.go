package report_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// TestOneZoneOfAPlace: a place has one zone wherever the text speaks of it, in
// a reason that withdraws, in a reading and among the signs on record, also
// beside the edge of a zone that lies within a cell.
func TestOneZoneOfAPlace(t *testing.T) {
	zones := map[string]bool{}
	for mm := int64(20); mm < 900; mm += 11 {
		r := piece(kit.Bridge)
		r.Piece.Diameter = 12_600
		see(r, "s1", "soft-place", at(mm, mm))
		see(r, "s2", "grey", at(mm, mm))
		last(r).Readings = []kit.Reading{{Quantity: "diameter", At: at(mm, mm), Values: []qty.Length{8_000}}}
		o := decide.Decide(tables.Default(), r, decide.Ask{Explain: true})
		out := unwrapped(text(t, &sample{"", tables.Default(), r, &o}, report.Options{Width: 10_000, Full: true}))
		said := regexp.MustCompile(fmt.Sprintf(`at %d mm from end A, ([a-z' ]+)`, mm)).FindAllStringSubmatch(out, -1)
		if len(said) < 4 || strings.Count(out, fmt.Sprintf("at %d mm", mm)) != len(said) {
			t.Fatalf("%d mm: %d of its mentions have a zone:\n%s", mm, len(said), out)
		}
		for _, m := range said {
			zones[m[1]] = true
			if m[1] != said[0][1] {
				t.Errorf("%d mm: %q and %q", mm, said[0][1], m[1])
			}
		}
	}
	if len(zones) != 3 {
		t.Errorf("the places met the zones %v, want all three of a bridge", zones)
	}
}
