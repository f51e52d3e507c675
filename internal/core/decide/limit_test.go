package decide_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// TestYardsLimit: the default is 1 in 1,000 (line M-36), a yard may set another,
// nothing looser than 1 in 100 is ever used, and the outcome states its
// limit and knows when that is looser than the default (M-37). The figures stand in those lines, assumed.
func TestYardsLimit(t *testing.T) {
	for _, c := range []struct {
		set, holds int64 // whole millionths
		looser     bool
	}{
		{0, 1_000, false},
		{1, 1, false},
		{500, 500, false},
		{1_000, 1_000, false},
		{1_001, 1_001, true},
		{10_000, 10_000, true},
		{10_001, 10_000, true},
		{1_000_000, 10_000, true},
	} {
		for _, id := range []kit.KindID{kit.Bridge, kit.Connector} {
			r := sound(id)
			r.Yard.Limit = c.set
			o := decide.Decide(tb, r, decide.Ask{})
			if want := (decide.Limit{Holds: c.holds, Default: 1_000}); o.Limit != want || o.Doubt.Limit != c.holds || o.Limit.Looser() != c.looser {
				t.Errorf("%s, yard's limit %d: decided under %+v and %d, looser %v; want %+v, looser %v",
					id, c.set, o.Limit, o.Doubt.Limit, o.Limit.Looser(), want, c.looser)
			}
			if over := o.Doubt.Millions > c.holds; over != (o.Verdict >= kit.SetAside) {
				t.Errorf("%s, yard's limit %d: doubt %d, outcome %s", id, c.set, o.Doubt.Millions, o.Verdict)
			}
		}
		r := sound(kit.Helmet) // has no doubt figure
		r.Yard.Limit = c.set
		if o := decide.Decide(tb, r, decide.Ask{}); o.Limit != (decide.Limit{}) {
			t.Errorf("helmet: decided under a limit of doubt, %+v", o.Limit)
		}
	}
}
