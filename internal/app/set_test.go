package app

import "testing"

// TestFittedPartsBelongToTheSet: what is fitted to a piece that somebody holds is
// used with it, and counts into the figure of their set, also where it was never
// handed over by itself; parts fitted in a ring end.
func TestFittedPartsBelongToTheSet(t *testing.T) {
	cards := []Card{
		{ID: "HA-1", Holder: "rolf", Doubt: 100}, {ID: "BR-1", In: "HA-1", Doubt: 200}, {ID: "RI-1", In: "BR-1", Doubt: -1},
		{ID: "BR-2", In: "HA-9", Doubt: 400}, {ID: "LI-1", Holder: "ines", Doubt: 800}, {ID: "CO-1", Holder: "ines", In: "HA-1", Doubt: 1600},
		{ID: "X", In: "Y", Doubt: 3200}, {ID: "Y", In: "X", Doubt: 6400}, {ID: "ST", Place: "store", Doubt: 12800},
	}
	// 1 - (1-0.0001)(1-0.0002)(1-0.0016) = 0.001899500..., and 1 - (1-0.0008)(1-0.0016) = 0.00239872: by hand, in millionths rounded up.
	for _, c := range []struct {
		holder        string
		want, without int64
	}{{"rolf", 1900, 1}, {"ines", 2399, 0}, {"nobody", 0, 0}} {
		if got, without := SetDoubt(cards, c.holder); int64(without) != c.without || got != c.want {
			t.Errorf("%s: %d in a million without %d, want %d without %d", c.holder, got, without, c.want, c.without)
		}
	}
}
