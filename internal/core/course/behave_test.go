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

func without(all []kit.LookID, drop kit.LookID) []kit.LookID {
	var out []kit.LookID
	for _, l := range all {
		if l != drop {
			out = append(out, l)
		}
	}
	return out
}

var workdays = [8]bool{false, true, true, true, true, true}

// begun is a piece of a kind, new on 5 January 2026, at the reference use of
// the tables.
func begun(t testing.TB, tb *table.Tables, k *table.Kind) *kit.Record {
	r := &kit.Record{Yard: kit.Yard{Country: "GB"}, People: []kit.Person{{ID: "e", Role: "competent person", Since: 1}, {ID: "examiner", Role: "examiner", Since: 1}}}
	r.Piece = kit.Piece{ID: "P1", Kind: k.ID, Marking: "readable", Origin: "new", History: "known", Length: k.Length, StoredIn: "used"}
	r.Piece.Made, _ = qty.ParseDate("2026-01-05")
	r.Piece.FirstUse, _ = qty.ParseDate("2026-01-05")
	r.Piece.Fitted = kit.Fitted{In: "H1", Allowed: kit.SaidYes, Document: "maker's list, p. 3"}
	r.Uses = []kit.Use{{From: day(t, "2026-01-05"), Week: tb.Rules.Reference.Week, Weekdays: workdays, Mass: tb.Rules.Reference.Mass, Dirt: "clean", Hardware: reference(tb.Hardware)}}
	return r
}

// reference gives the level whose covariate is 0: what the rates stand for.
func reference(levels []table.Level) string {
	for _, l := range levels {
		if l.Z == 0 {
			return l.ID
		}
	}
	return ""
}

// daily gives the looks of the kind's pre-use check, each working day of a span.
func daily(t testing.TB, k *table.Kind, from, to string, ids ...kit.LookID) kit.Run {
	if len(ids) == 0 {
		for _, n := range k.Needs {
			if n.Exam == kit.PreUse {
				ids = append(ids, n.Look)
			}
		}
	}
	return kit.Run{Kind: kit.PreUse, By: "climber", From: day(t, from), To: day(t, to), Weekdays: workdays, Looks: looks(ids...)}
}

func required(k *table.Kind, e kit.ExamKind) []kit.LookID {
	var out []kit.LookID
	for _, n := range k.Needs {
		if n.Exam == e {
			out = append(out, n.Look)
		}
	}
	return out
}

func doubted(tb *table.Tables) []*table.Kind {
	var out []*table.Kind
	for i := range tb.Kinds {
		if tb.Kinds[i].Doubt {
			out = append(out, &tb.Kinds[i])
		}
	}
	return out
}

func doubt(t testing.TB, c *course.Course) float64 {
	t.Helper()
	f := c.Figures()
	if f == nil {
		t.Fatal("no figures:", c.Err())
	}
	return f.D.Unfit()
}

// TestBetweenTheVignettes is what the default tables must do for a bridge
// between its extremes (limit 1 in 1,000).
func TestBetweenTheVignettes(t *testing.T) {
	tb := tables.Default()
	k := tb.Kind(kit.Bridge)
	limit := float64(tb.Rules.Limit) / 1e6
	exam := func(ids ...kit.LookID) kit.Examination {
		return kit.Examination{Kind: kit.Thorough, Day: day(t, "2026-07-05"), By: "examiner", Looks: looks(ids...)}
	}
	all := required(k, kit.Thorough)

	r := begun(t, tb, k)
	r.AsOf = day(t, "2026-07-05")
	r.Runs = []kit.Run{daily(t, k, "2026-01-05", "2026-07-04")}
	r.Examinations = []kit.Examination{exam(all...)}
	c := decide.Begin(tb, r)
	c.Run(r.AsOf)
	passed := doubt(t, c)
	if passed > limit/10 {
		t.Errorf("daily looks on record, all looks made, nothing seen: doubt %.3g, want well under the limit", passed)
	}
	for _, l := range all {
		r.Examinations = []kit.Examination{exam(without(all, l)...)}
		c := decide.Begin(tb, r)
		c.Run(r.AsOf)
		if d := doubt(t, c); d < passed {
			t.Errorf("%s left out: doubt %.6g is lower than with it, %.6g", l, d, passed)
		}
	}

	r.Runs = nil
	r.Examinations = nil
	c = decide.Begin(tb, r)
	c.Run(r.AsOf)
	never := doubt(t, c)
	r.Examinations = []kit.Examination{exam(kit.Eye)}
	c = decide.Begin(tb, r)
	c.Run(r.AsOf)
	if eyes := doubt(t, c); !(never > limit && eyes > limit) {
		t.Errorf("six months without a look: doubt %.3g, after eyes alone %.3g; want both over the limit %.3g", never, eyes, limit)
	}

	// a stretch that nobody felt stands out in the findable part of D(x)
	r.Runs = []kit.Run{daily(t, k, "2026-01-05", "2026-07-04")}
	e := exam(all...)
	for i := range e.Looks {
		if e.Looks[i].Look == kit.Hand || e.Looks[i].Look == kit.Bight {
			e.Looks[i].Covers = []kit.Stretch{{From: 0, To: 400_000}, {From: 600_000, To: 900_000}, {Part: "end A"}, {Part: "end B"}}
		}
	}
	r.Examinations = []kit.Examination{e}
	c = decide.Begin(tb, r)
	c.Run(r.AsOf)
	f := c.Figures()
	in, next := f.Cell[9].Findable, f.Cell[13].Findable // both in the ring's travel
	if in < 5*next {
		t.Errorf("findable doubt per cell where nobody felt: %.3g, beside it %.3g; want it to stand out", in, next)
	}
	if from, to, _ := c.Worst(); from < 400_000 || to > 600_000 {
		t.Errorf("the place to feel next is %v to %v, want it inside 400 mm to 600 mm", from, to)
	}

	// a heavy climber on sand is due earlier than a light one on clean sites
	due := func(mass qty.Mass, dirt string, hours int) qty.Day {
		r := begun(t, tb, k)
		r.AsOf = day(t, "2026-01-05")
		r.Uses[0].Mass, r.Uses[0].Dirt, r.Uses[0].Week = mass, dirt, qty.Duration(hours)*qty.Hour
		c := decide.Begin(tb, r)
		c.Run(r.AsOf)
		_, f, _ := c.Forecasts(tb.Rules.Limit, r.AsOf+1000)
		return f.Day - r.AsOf
	}
	heavy, light := due(110_000, "sandy", 25), due(60_000, "clean", 5)
	if !(heavy < light/2) {
		t.Errorf("days to the limit without looks: heavy on sand %d, light on clean sites %d", heavy, light)
	}
	t.Logf("passed %.3g; never looked %.3g; heavy on sand %d days, light on clean %d days", passed, never, heavy, light)
}

// TestLooksWithoutEnd holds that the hidden part is what is left of D after looks
// without end, and not 0.
func TestLooksWithoutEnd(t *testing.T) {
	tb := tables.Default()
	for _, k := range doubted(tb) {
		r := begun(t, tb, k)
		r.AsOf = day(t, "2027-01-04")
		for i := range 200 {
			r.People = append(r.People, kit.Person{ID: "e" + string(rune('a'+i)), Role: "examiner", Since: 1})
			r.Examinations = append(r.Examinations, kit.Examination{Kind: kit.Thorough, Day: r.AsOf, By: "e" + string(rune('a'+i)), Looks: looks(required(k, kit.Thorough)...)})
		}
		// on one day they would count as one examination: give them all to a
		// piece in store, where a day changes next to nothing
		r.Uses = append(r.Uses, kit.Use{From: r.AsOf, Store: true})
		for i := range r.Examinations {
			r.Examinations[i].Day = r.AsOf + qty.Day(i)
		}
		c := decide.Begin(tb, r)
		c.Run(r.AsOf)
		before := c.Figures().D
		c.Run(r.AsOf + 200)
		after := c.Figures().D
		if after.Hidden < before.Hidden || after.Hidden == 0 {
			t.Errorf("%s: the hidden part went from %.3g to %.3g", k.ID, before.Hidden, after.Hidden)
		}
		if after.Findable > before.Findable/20 {
			t.Errorf("%s: 200 examinations left a findable doubt of %.3g of %.3g", k.ID, after.Findable, before.Findable)
		}
	}
}

// TestCellLength holds that the length of the cells matters little: while no sign
// is on record, cells of half the length move D by under 2 % (default tables).
func TestCellLength(t *testing.T) {
	tb := tables.Default()
	for _, k := range doubted(tb) {
		if k.Axis != "length" {
			continue
		}
		figure := func(cell qty.Length) float64 {
			fine := *k
			fine.Cell = cell
			r := begun(t, tb, k)
			r.AsOf = day(t, "2026-07-06")
			r.Runs = []kit.Run{daily(t, k, "2026-01-05", "2026-07-04")}
			r.Examinations = []kit.Examination{{Kind: kit.Thorough, Day: r.AsOf, By: "e", Looks: looks(required(k, kit.Thorough)...)}}
			c := course.Begin(course.NewModel(tb, &fine, r), r, decide.Born(tb, r))
			c.Run(r.AsOf)
			return doubt(t, c)
		}
		whole, half := figure(k.Cell), figure(k.Cell/2)
		if half > whole*1.02 || half < whole*0.98 {
			t.Errorf("%s: doubt %.6g with cells of %v, %.6g with half of that", k.ID, whole, k.Cell, half)
		}
	}
}
