package doc

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// The same document in both languages gives the same tree, places apart.
func TestSameTree(t *testing.T) {
	a, faults := ParseTOML("r.toml", []byte(`
# a bridge
format = 1
piece.kind = "bridge"
piece."made by" = "unknown\n"
[piece.layer]
fibre = 'aramid'
share = 0.5
wet = false
[[history]]
day = "2026-06"
looks = [{ kind = "eye", covers = ["0 cm", "58 cm"] }, { kind = "hand" }]
[[history]]
readings = [1, 2.50, -3, [], [4e2]]
nothing = {}
`))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	b, faults := ParseJSON("r.json", []byte(`{
"format": 1,
"piece": {"kind": "bridge", "made by": "unknown\n",
  "layer": {"fibre": "aramid", "share": 0.5, "wet": false}},
"history": [
  {"day": "2026-06", "looks": [{"kind": "eye", "covers": ["0 cm", "58 cm"]}, {"kind": "hand"}]},
  {"readings": [1, 2.50, -3, [], [4e2]], "nothing": {}}]
}`))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(a, b, cmpopts.IgnoreFields(Node{}, "Line", "Col")); d != "" {
		t.Error(d)
	}
	if len(a.Keys) != 3 || a.Fields["history"].Items[0].Fields["looks"].Items[0].Fields["covers"].Items[1].Text != "58 cm" {
		t.Errorf("the tree is not what was written: %v", plain(a))
	}
}
