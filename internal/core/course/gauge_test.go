package course_test

import (
	"testing"

	"kernbook/internal/core/course"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/tables"
)

// TestGaugeSpeaksOnlyWhereItRead holds that a look with the gauge says nothing
// of a bridge without a reading, by a reading that is wet or has nothing to be
// compared with, nor in cells that no reading is near (rule gauge_reach).
func TestGaugeSpeaksOnlyWhereItRead(t *testing.T) {
	tb := tables.Default()
	k := tb.Kind(kit.Bridge)
	at := func(mm int64, wet kit.Yes) kit.Reading {
		p := qty.Length(mm) * qty.Millimetre
		return kit.Reading{Quantity: "diameter", At: kit.Place{From: p, To: p}, Values: []qty.Length{12_600}, Wet: wet}
	}
	follow := func(l []kit.Look, readings ...kit.Reading) *course.Course {
		r := begun(t, tb, k)
		r.AsOf = day(t, "2026-07-05")
		r.Examinations = []kit.Examination{{Kind: kit.Thorough, Day: r.AsOf, By: "examiner", Looks: l, Readings: readings}}
		c := course.Begin(course.NewModel(tb, k, r), r, day(t, "2026-01-05"))
		c.Run(r.AsOf)
		return c
	}
	none := follow(nil)
	before := doubt(t, none)
	dry := []kit.Reading{at(175, kit.SaidNo), at(475, kit.SaidNo), at(775, kit.SaidNo)}
	for _, c := range []struct {
		name     string
		readings []kit.Reading
	}{
		{"no reading", nil},
		{"one reading, and nothing to compare it with", dry[:1]},
		{"wet", []kit.Reading{at(175, kit.SaidYes), at(475, kit.SaidYes), at(775, kit.SaidYes)}},
		{"not said to be dry", []kit.Reading{at(175, kit.NotSaid), at(475, kit.NotSaid), at(775, kit.NotSaid)}},
	} {
		if d := doubt(t, follow(looks(kit.Gauge), c.readings...)); d != before {
			t.Errorf("%s: the doubt went from %v to %v", c.name, before, d)
		}
	}
	with := follow(looks(kit.Gauge), dry...)
	if d := doubt(t, with); d >= before {
		t.Errorf("three dry readings alike: the doubt went from %v to %v", before, d)
	}
	was, is := none.Figures().Cell, with.Figures().Cell
	cells := with.Model().Cells
	lower := 0
	for i := range cells {
		near := false
		for _, r := range dry {
			// 50 mm to either side, and a cell more for signs that reach into a neighbour.
			near = near || cells[i].Part == "" && cells[i].To >= r.At.From-100*qty.Millimetre && cells[i].From <= r.At.To+100*qty.Millimetre
		}
		switch less := is[i].Unfit() < was[i].Unfit()*(1-1e-9); {
		case less && !near:
			t.Errorf("cell from %v to %v (%s), which no reading is near: from %v to %v", cells[i].From, cells[i].To, cells[i].Part, was[i].Unfit(), is[i].Unfit())
		case less:
			lower++
		}
	}
	if lower < len(dry) {
		t.Errorf("only %d cells have less doubt after %d readings", lower, len(dry))
	}
}

// TestPoorGaugeHidesNoGrowth holds a reading out of range that is repeated a month
// later: the same within two standard errors, grown beyond, and no gauge that is
// said to be poorer than the tables' makes it the same.
func TestPoorGaugeHidesNoGrowth(t *testing.T) {
	tb := tables.Default()
	k := tb.Kind(kit.Bridge)
	state := func(then qty.Length, error qty.Length) kit.SignState {
		r := begun(t, tb, k)
		r.AsOf = day(t, "2026-07-05")
		for i, v := range []qty.Length{12_600, 11_700, then} {
			reading := kit.Reading{Quantity: "diameter", At: kit.Place{From: 475_000, To: 475_000}, Values: []qty.Length{v}, Wet: kit.SaidNo, Error: error}
			r.Examinations = append(r.Examinations, kit.Examination{Kind: kit.Thorough, Day: day(t, "2026-05-05") + qty.Day(i*30), By: "examiner",
				Looks: looks(kit.Gauge), Readings: []kit.Reading{reading}})
		}
		c := course.Begin(course.NewModel(tb, k, r), r, day(t, "2026-01-05"))
		c.Run(r.AsOf)
		if len(c.Open()) != 1 {
			t.Fatalf("%d signs on record after %v: want the reading out of range alone", len(c.Open()), then)
		}
		return c.Open()[0].State
	}
	for _, c := range []struct {
		then, error qty.Length
		want        kit.SignState
	}{
		{11_700, 0, kit.Same},
		{9_000, 0, kit.Grown},
		{9_000, 5_000, kit.Grown},
		{11_700, 5_000, kit.Same},
	} {
		if got := state(c.then, c.error); got != c.want {
			t.Errorf("11.7 mm, then %v with an error of %v: %v, want %v", c.then, c.error, got, c.want)
		}
	}
}
