package course_test

import (
	"math"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/tables"
)

// TestManyRuns cuts a year of daily looks into as many runs as it has weeks,
// and a run of one day each, more than 64 of them: the belief is the same as
// with one long run, and the last weeks count as kept up.
func TestManyRuns(t *testing.T) {
	tb := tables.Default()
	k := tb.Kind(kit.Bridge)
	whole := begun(t, tb, k)
	whole.AsOf = day(t, "2026-12-31")
	whole.Runs = []kit.Run{daily(t, k, "2026-01-05", "2026-12-30")}
	single := *whole
	single.Runs = nil
	for d := whole.Runs[0].From; d <= whole.Runs[0].To; d++ {
		if workdays[d.Weekday()] {
			r := whole.Runs[0]
			r.From, r.To = d, d
			single.Runs = append(single.Runs, r)
		}
	}
	if len(single.Runs) < 200 {
		t.Fatalf("only %d runs", len(single.Runs))
	}
	a, b := decide.Begin(tb, whole), decide.Begin(tb, &single)
	a.Run(whole.AsOf)
	b.Run(whole.AsOf)
	x, y := doubt(t, a), doubt(t, b)
	if math.Abs(x-y) > 1e-12*x {
		t.Errorf("one run: %v, %d runs: %v", x, len(single.Runs), y)
	}
	none := *whole
	none.Runs = nil
	c := decide.Begin(tb, &none)
	c.Run(whole.AsOf)
	if z := doubt(t, c); !(z > 2*x) {
		t.Errorf("without looks the doubt is %v, with them %v: the looks say nothing", z, x)
	}
	horizon := whole.AsOf + 400
	p, _, pk := a.Forecasts(1000, horizon)
	q, _, qk := b.Forecasts(1000, horizon)
	if p.Day != q.Day || pk.Share != qk.Share {
		t.Errorf("forecast %v, %v of the days, with many runs %v, %v", p.Day, pk.Share, q.Day, qk.Share)
	}
}
