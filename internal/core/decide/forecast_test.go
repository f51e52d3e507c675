package decide_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// TestWayOfAForecast: the points of each forecast go from the day judged for,
// at most a week apart, to the day that the forecast tells; only the last may
// be above the limit, and is where the forecast says so.
func TestWayOfAForecast(t *testing.T) {
	reached, open := 0, 0
	for _, id := range []kit.KindID{kit.Bridge, kit.HitchCord, kit.Line, kit.Harness, kit.Connector} {
		for _, limit := range []int64{100, 300, 1000} {
			r := sound(id)
			r.Yard.Limit = limit
			o := decide.Decide(tb, r, decide.Ask{Explain: true})
			if o.Doubt == nil || o.Told == nil {
				t.Fatalf("%s: no doubt or no explanation", id)
			}
			for _, f := range []struct {
				name string
				to   decide.Date
				way  []decide.Point
			}{{"with", o.Next.With, o.Told.With}, {"without", o.Next.Without, o.Told.Without}} {
				n := len(f.way)
				if n == 0 {
					t.Errorf("%s, limit %d, %s: no points", id, limit, f.name)
					continue
				}
				was := r.AsOf
				for i, p := range f.way {
					if p.Day < was || p.Day > was+7 || i > 0 && p.Day == was {
						t.Errorf("%s, limit %d, %s: a point on %s after %s", id, limit, f.name, p.Day, was)
					}
					if over := p.D > o.Doubt.Limit; over != (f.to.Reached && i == n-1) {
						t.Errorf("%s, limit %d, %s: %d millionths on %s, point %d of %d; reached: %v", id, limit, f.name, p.D, p.Day, i+1, n, f.to.Reached)
					}
					was = p.Day
				}
				if was != f.to.Day {
					t.Errorf("%s, limit %d, %s: ends on %s, want %s", id, limit, f.name, was, f.to.Day)
				}
				if f.to.Reached && n > 2 {
					reached++
				} else if !f.to.Reached {
					open++
				}
			}
		}
	}
	if reached < 3 || open < 3 {
		t.Errorf("only %d forecasts over weeks that reach the limit and %d that do not", reached, open)
	}
}
