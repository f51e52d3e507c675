package course_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/tables"
)

// TestForecastFindsTheFirstDay compares both forecasts with a course that is
// followed day by day, its looks before use going on. The working days lie
// together, so that the doubt is highest in the middle of a week.
func TestForecastFindsTheFirstDay(t *testing.T) {
	tb := tables.Default()
	reached, midweek := 0, 0
	for _, id := range []kit.KindID{kit.Bridge, kit.Sling} {
		k := tb.Kind(id)
		for _, weekdays := range [][8]bool{workdays, {false, true, true}, {6: true}} {
			for _, asOf := range []string{"2026-08-03", "2026-08-04", "2026-08-08"} {
				r := begun(t, tb, k)
				r.Uses[0].Weekdays, r.Uses[0].Dirt = weekdays, "sandy"
				run := daily(t, k, "2026-01-05", "2028-12-31")
				run.Weekdays = weekdays
				r.Runs = []kit.Run{run}
				r.AsOf = day(t, asOf)
				stop := *r // the run as it is on record on the day asked for
				stop.Runs = []kit.Run{run}
				stop.Runs[0].To = r.AsOf - 1
				horizon := r.AsOf + 700

				start := decide.Begin(tb, &stop)
				start.Run(r.AsOf)
				from := num.CeilMillionths(doubt(t, start))
				kept := decide.Begin(tb, r)
				kept.Advance(r.AsOf)
				bare := decide.Begin(tb, &stop)
				bare.Advance(r.AsOf)
				var with, none []int64
				for d := r.AsOf; d <= horizon; d++ {
					kept.Advance(d)
					bare.Advance(d)
					with, none = append(with, num.CeilMillionths(doubt(t, kept))), append(none, num.CeilMillionths(doubt(t, bare)))
				}
				first := func(all []int64, limit int64) (qty.Day, bool) {
					for i, x := range all {
						if x > limit {
							return r.AsOf + qty.Day(i), true
						}
					}
					return horizon, false
				}
				for limit := from; limit < from+60; limit++ {
					w, n, _ := start.Forecasts(limit, horizon)
					for _, x := range []struct {
						what    string
						day     qty.Day
						reached bool
						all     []int64
					}{{"with looks", w.Day, w.Reached, with}, {"without", n.Day, n.Reached, none}} {
						want, is := first(x.all, limit)
						if x.day != want || x.reached != is {
							t.Errorf("%s, %v, from %s, limit %d, %s: %v %v, day by day %v %v", id, weekdays, asOf, limit, x.what, x.day, x.reached, want, is)
						}
						if is {
							reached++
							if x.what == "with looks" && (want-r.AsOf)%7 != 0 {
								midweek++
							}
						}
					}
				}
			}
		}
	}
	if reached < 100 || midweek < 50 {
		t.Errorf("only %d limits reached, %d of them in the middle of a week with looks", reached, midweek)
	}
}
