package bench

import (
	"maps"
	"testing"

	"kernbook/internal/tables"
)

// TestLoaded: a person's mass goes out as the load it is, in whole newtons, rounded
// up; one that cannot be read, or stands beside a load, stays for Run to refuse.
func TestLoaded(t *testing.T) {
	for _, c := range []struct{ name, in, want string }{
		{"bridge", "apart=40cm length=60cm mass=92kg", "apart=40cm length=60cm load=903N"}, // 92 kg times 9.80665 m/s² is 902.21 N
		{"fall", "mass=100kg drop=30cm", "load=981N drop=30cm"},                            // 980.665 N
		{"heat", "mass=200lb", "load=890N"},                                                // 90.718474 kg, 889.64 N
		{"bridge", "mass=92", "mass=92"},
		{"bridge", "mass=0kg", "mass=0kg"},
		{"bridge", "mass=92kg load=1kN", "mass=92kg load=1kN"},
		{"heat", "part=200g mass=", "part=200g mass="}, // the part's is nobody's
		{"kite", "mass=92kg", "mass=92kg"},
	} {
		if got := Loaded(tables.Default(), c.name, typed(c.in)); !maps.Equal(got, typed(c.want)) {
			t.Errorf("%s %s: %v, want %s", c.name, c.in, got, c.want)
		}
	}
	private := 0
	for _, c := range All(tables.Default()) {
		if c.Private() {
			private++
			if f := c.Field(LoadField); f == nil || f.Kind != Force {
				t.Errorf("%s takes a person's mass, and no load instead", c.Name)
			}
		}
	}
	if private < 3 {
		t.Errorf("only %d calculators take a person's mass", private)
	}
}
