package record

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// faultCase is one change to the filled record, and all that is said of it,
// each with its line.
type faultCase struct {
	old, new string
	want     []string
}

func TestFaults(t *testing.T) {
	tables := fixture()
	for _, c := range slices.Concat(faultsOfPiece, faultsOfEntries) {
		if strings.Count(filled, c.old) != 1 {
			t.Fatalf("%q is not there once", c.old)
		}
		changed := strings.Replace(filled, c.old, c.new, 1)
		r, faults := Decode("r.toml", []byte(changed), tables)
		if r != nil {
			t.Errorf("%q for %q: a record came back", c.new, c.old)
		}
		var got []string
		for _, f := range faults {
			got = append(got, strings.TrimPrefix(f.Error(), "r.toml:"))
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q for %q (-want +got):\n%s", c.new, c.old, diff)
		}
	}
}
