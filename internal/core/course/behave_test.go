package course_test

import (
	"testing"

	"kernbook/internal/core/course"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

func day(t testing.TB, s string) qty.Day {
	t.Helper()
	d, err := qty.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d.Earliest()
}

var good = kit.Conditions{Light: "good", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}

func looks(ids ...kit.LookID) []kit.Look {
	var out []kit.Look
	for _, id := range ids {
		out = append(out, kit.Look{Look: id, Covers: []kit.Stretch{{All: true}}, Conditions: good})
	}
	return out
}

var allLooks = []kit.LookID{kit.Ask, kit.Read, kit.Eye, kit.Hand, kit.Bight, kit.Gauge, kit.Ends, kit.Work}

func bridge(t testing.TB) *kit.Record {
	r := &kit.Record{}
	r.Yard = kit.Yard{Country: "GB"}
	r.Piece = kit.Piece{ID: "B1", Kind: kit.Bridge, Marking: "readable", Origin: "new", History: "known", Length: 900_000, StoredIn: "used"}
	r.Piece.Made, _ = qty.ParseDate("2026-01-02")
	r.Piece.FirstUse, _ = qty.ParseDate("2026-01-05")
	r.Piece.Fitted = kit.Fitted{In: "H1", Allowed: kit.SaidYes, Document: "doc 1"}
	r.Uses = []kit.Use{{From: day(t, "2026-01-05"), Week: 25 * 60, Weekdays: [8]bool{false, true, true, true, true, true}, Mass: 80_000, Dirt: "clean", Hardware: "ring"}}
	return r
}

func daily(t testing.TB, from, to string, ids ...kit.LookID) kit.Run {
	return kit.Run{Kind: kit.PreUse, By: "A", From: day(t, from), To: day(t, to), Weekdays: [8]bool{false, true, true, true, true, true}, Looks: looks(ids...)}
}

func TestTry(t *testing.T) {
	tb := tables.Default()
	for _, ids := range [][]kit.LookID{nil, {kit.Eye}, {kit.Eye, kit.Hand, kit.Ends}} {
		r := bridge(t)
		if ids != nil {
			r.Runs = []kit.Run{daily(t, "2026-01-05", "2030-12-31", ids...)}
		}
		r.AsOf = day(t, "2026-07-05")
		r.Examinations = []kit.Examination{{Kind: kit.Thorough, Day: r.AsOf, By: "E", Looks: looks(allLooks...)}}
		c := decide.Begin(tb, r)
		c.Trace = course.NewTrace(14)
		c.Run(r.AsOf)
		for _, p := range c.Trace.Points {
			t.Log(p.Day, p.After, p.D.Unfit(), p.D.Hidden, p.Mark)
		}
		t.Log(c.Trace.Drops)
		w, wo, kept := c.Forecasts(1000, r.AsOf+1000)
		t.Log(w.Day-r.AsOf, w.Reached, wo.Day-r.AsOf, wo.Reached, kept)
		for _, g := range c.Gains(1000, kit.Interim, func(kit.LookID) bool { return true }) {
			t.Log(g)
		}
	}
	_ = table.Weigh
}
