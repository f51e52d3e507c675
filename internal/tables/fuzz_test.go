package tables

import (
	"bytes"
	"maps"
	"slices"
	"testing"
)

// FuzzLoad puts any bytes in the place of one file of the small set: the loader
// never panics, says where and what whenever it refuses, and what it takes can
// be printed.
func FuzzLoad(f *testing.F) {
	names := slices.Sorted(maps.Keys(small))
	for i, name := range names {
		f.Add(uint8(i), []byte(small[name]))
	}
	f.Add(uint8(0), []byte("[unit]\n[[cause]]\n"))
	f.Add(uint8(len(names)-1), []byte("[kind]\nid = 3\n[[mode]]\nshares = [1]\n[[sign]]\nlinks = {}\n[[need]]\n[[prior]]\n"))
	f.Fuzz(func(t *testing.T, which uint8, text []byte) {
		name := names[int(which)%len(names)]
		files := set("", "")
		files[name].Data = text
		tt, faults := Load(files)
		if (tt == nil) == (len(faults) == 0) {
			t.Fatalf("tables %v with %d faults", tt != nil, len(faults))
		}
		for _, x := range faults {
			if x.File == "" || x.What == "" {
				t.Errorf("a fault without file or sentence: %+v", x)
			}
		}
		if tt != nil {
			if err := Print(&bytes.Buffer{}, tt, ""); err != nil {
				t.Error(err)
			}
		}
	})
}
