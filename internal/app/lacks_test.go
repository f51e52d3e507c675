package app

import (
	"slices"
	"testing"

	"kernbook/internal/core/kit"
)

// TestLacks: what an examination lacks to count as a thorough one is told, each look and
// each measurement; a whole one lacks nothing, and a look before use is none.
func TestLacks(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	var whole kit.Examination
	for _, x := range r.Examinations {
		if x.Kind == kit.Thorough {
			whole = x
		}
	}
	without := func(l kit.LookID) []kit.Look {
		return slices.DeleteFunc(slices.Clone(whole.Looks), func(x kit.Look) bool { return x.Look == l })
	}
	for _, c := range []struct {
		name   string
		change func(*kit.Examination)
		keys   []string // of the reasons
	}{
		{"whole", func(*kit.Examination) {}, nil},
		{"no look at it", func(e *kit.Examination) { e.Looks = without(kit.Eye) }, []string{"look.not-made"}},
		{"nothing measured", func(e *kit.Examination) { e.Readings = nil }, []string{"look.not-measured"}},
		{"nobody signed", func(e *kit.Examination) { e.SignedBy = "" }, []string{"examination.not-signed"}},
		{"before use", func(e *kit.Examination) { e.Kind, e.SignedBy, e.Looks = kit.PreUse, "", without(kit.Eye) }, nil},
	} {
		a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
		if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
			t.Fatal(err)
		}
		e := whole
		e.Ref, e.Day, e.By, e.SignedBy, e.Latest = "t-1", a.Today(), "p1", "p1", r.Examinations[0].Latest
		e.Signs = nil
		c.change(&e)
		must(t)(a.Examine(ctx, Who{Person: "p1"}, r.Piece.ID, e))
		j, err := a.Judge(ctx, r.Piece.ID, a.Today(), false)
		if err != nil {
			t.Fatal(err)
		}
		var keys []string
		for _, i := range Lacks(j.Outcome, &e) {
			keys = append(keys, j.Outcome.Reasons[i].Key)
		}
		slices.Sort(keys)
		if keys = slices.Compact(keys); !slices.Equal(keys, c.keys) {
			t.Errorf("%s: lacks %q, want %q", c.name, keys, c.keys)
		}
	}
}
