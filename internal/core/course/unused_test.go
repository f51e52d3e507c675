package course_test

import (
	"slices"
	"testing"

	"kernbook/internal/core/course"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/tables"
)

// TestUseNotOnRecord holds that a stretch of use of which the record says
// nothing, or nothing that its own looks before use do not belie, is followed as
// the hardest use and named as assumed.
func TestUseNotOnRecord(t *testing.T) {
	tb := tables.Default()
	for _, k := range doubted(tb) {
		run := func(change func(*kit.Record)) (*course.Course, float64) {
			r := begun(t, tb, k)
			r.AsOf = day(t, "2026-07-06")
			r.Runs = []kit.Run{daily(t, k, "2026-01-06", "2026-07-04")}
			change(r)
			c := decide.Begin(tb, r)
			c.Run(r.AsOf)
			return c, doubt(t, c)
		}
		_, told := run(func(*kit.Record) {})
		_, silent := run(func(r *kit.Record) { r.Uses = nil })
		if !(told < silent) {
			t.Fatalf("%s: doubt %.6g with its use on record, %.6g without", k.ID, told, silent)
		}
		work := begun(t, tb, k).Uses[0]
		for _, x := range []struct {
			what    string
			change  func(*kit.Record)
			assumed string
			least   float64
		}{
			{"the use of the last day alone", func(r *kit.Record) { r.Uses[0].From = r.AsOf }, "use", silent},
			{"store from the last day on alone", func(r *kit.Record) { r.Uses = []kit.Use{{From: r.AsOf, Store: true, Week: -1}} }, "use", silent},
			{"store", func(r *kit.Record) { r.Uses = []kit.Use{{From: day(t, "2026-01-06"), Store: true, Week: -1}} }, "use", silent},
			{"store in two entries", func(r *kit.Record) {
				r.Uses = []kit.Use{{From: day(t, "2026-01-06"), Store: true, Week: -1}, {From: day(t, "2026-07-05"), Store: true, Week: -1}}
			}, "use", silent},
			{"no hours", func(r *kit.Record) { r.Uses[0].Week = 0 }, "hours", told},
			{"a first use on the last day", func(r *kit.Record) { r.Piece.FirstUse, r.Uses = r.AsOf.Partial(), nil }, "use", told},
			{"a first use on the last day, and its use", func(r *kit.Record) {
				r.Piece.FirstUse, r.Uses = r.AsOf.Partial(), []kit.Use{work}
				r.Uses[0].From = r.AsOf
			}, "use", told},
		} {
			c, d := run(x.change)
			if !slices.Contains(c.Assumed, x.assumed) {
				t.Errorf("%s, %s: assumed %q, want %q among it", k.ID, x.what, c.Assumed, x.assumed)
			}
			if !(d >= x.least*(1-1e-9)) {
				t.Errorf("%s, %s: doubt %.6g, want %.6g or more", k.ID, x.what, d, x.least)
			}
		}
		// what is truly in store stays there until the first look before use
		_, stored := run(func(r *kit.Record) {
			r.Runs = nil
			r.Uses = []kit.Use{{From: day(t, "2026-01-05"), Store: true, Week: -1}}
		})
		_, came := run(func(r *kit.Record) {
			r.Runs = []kit.Run{daily(t, k, "2026-07-03", "2026-07-05")}
			r.Uses = []kit.Use{{From: day(t, "2026-01-05"), Store: true, Week: -1}}
		})
		if !(stored < came && came < silent) {
			t.Errorf("%s: doubt %.6g in store, %.6g after some days of use, %.6g in use throughout", k.ID, stored, came, silent)
		}
	}
}

// TestFirstUseBelied holds that the life counts from the first use or look
// before use on record, where the stated first use comes later.
func TestFirstUseBelied(t *testing.T) {
	tb := tables.Default()
	k := tb.Kind(kit.Bridge)
	for _, x := range []struct {
		what, want string
		change     func(*kit.Record)
	}{
		{"as stated", "2026-06-01", func(*kit.Record) {}},
		{"a run", "2026-03-02", func(r *kit.Record) { r.Runs = []kit.Run{daily(t, k, "2026-02-28", "2026-03-06")} }}, // from a Saturday on, with looks on working days
		{"a look before use", "2026-04-01", func(r *kit.Record) {
			r.Examinations = []kit.Examination{{Kind: kit.Partner, Day: day(t, "2026-04-01"), By: "a"}}
		}},
		{"an examination", "2026-06-01", func(r *kit.Record) {
			r.Examinations = []kit.Examination{{Kind: kit.Thorough, Day: day(t, "2026-04-01"), By: "a"}}
		}},
		{"a use", "2026-02-01", func(r *kit.Record) { r.Uses[0].From = day(t, "2026-02-01") }},
		{"store", "2026-06-01", func(r *kit.Record) { r.Uses = []kit.Use{{From: day(t, "2026-02-01"), Store: true, Week: -1}} }},
	} {
		r := begun(t, tb, k)
		r.AsOf = day(t, "2026-07-06")
		r.Piece.FirstUse = day(t, "2026-06-01").Partial()
		r.Uses[0].From = day(t, "2026-06-01")
		x.change(r)
		var from qty.Day
		from, ok := criteria.FirstUse(r)
		if !ok || from.String() != x.want {
			t.Errorf("%s: first use %v (%v), want %s", x.what, from, ok, x.want)
		}
		if c := decide.Begin(tb, r); c.Err() != nil {
			t.Errorf("%s: %v", x.what, c.Err())
		}
		due := criteria.Judge(tb, r).LifeEnd
		if want := from.AddMonths(60); !due.Known || due.Day > want {
			t.Errorf("%s: its life ends %v, want %v or earlier (M-01: five years from first use)", x.what, due.Day, want)
		}
	}
}
