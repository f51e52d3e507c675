package course_test

import (
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/anyrecord"
	"kernbook/internal/core/course"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/qty"
	"kernbook/internal/tables"
)

// figures is what a course says at one moment, kept.
type figures struct {
	d, wear float64
	cells   []float64
}

func figuresOf(c *course.Course) (f figures, ok bool) {
	x := c.Figures()
	if x == nil {
		return f, false
	}
	f = figures{d: x.D.Unfit(), wear: x.Wear, cells: make([]float64, len(x.Cell))}
	for i := range x.Cell {
		f.cells[i] = x.Cell[i].Unfit()
	}
	return f, true
}

// TestTimeNeverLowersDoubt: from any belief, with signs on record or without,
// later hours, years, store, events and zones that move never lower D, any D(x)
// or I until something is looked at. Random records and tables.
func TestTimeNeverLowersDoubt(t *testing.T) {
	steps, withSigns, withEvents := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		tb := tables.Default()
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted})
		if rapid.Bool().Draw(t, "drawn tables") {
			tb = anyrecord.Tables(t, tb, r.Piece.Kind)
		}
		for i := range r.Runs {
			r.Runs[i].To = min(r.Runs[i].To, r.AsOf-1) // a look of the day itself is still to come
		}
		until := r.AsOf + qty.Day(rapid.IntRange(1, 900).Draw(t, "until"))
		looked := len(r.Events)
		anyrecord.Later(t, tb, r, until)
		c := decide.Begin(tb, r)
		c.Run(r.AsOf)
		last, ok := figuresOf(c)
		if !ok {
			return // more explanations than are followed, or an impossible record
		}
		if len(c.Open()) > 0 {
			withSigns++
		}
		withEvents += len(r.Events) - looked
		const hair = 1e-13 // of the figures, for the last bits
		for day := r.AsOf; day < until; {
			day += qty.Day(rapid.IntRange(1, 200).Draw(t, "days"))
			c.Run(min(day, until))
			f, ok := figuresOf(c)
			if !ok {
				t.Fatal(c.Err())
			}
			if f.d < last.d*(1-hair) || f.wear < last.wear*(1-hair) {
				t.Fatalf("day %d: D %.17g after %.17g, I %.17g after %.17g", day, f.d, last.d, f.wear, last.wear)
			}
			for i := range f.cells {
				if f.cells[i] < last.cells[i]*(1-hair) {
					t.Fatalf("day %d, cell %d: D %.17g after %.17g", day, i, f.cells[i], last.cells[i])
				}
			}
			last = f
			steps++
		}
	})
	if steps == 0 || withSigns == 0 || withEvents == 0 {
		t.Fatalf("%d steps, %d beliefs with signs on record, %d events", steps, withSigns, withEvents)
	}
}

// TestStopsChangeNothing: following a record in one go, or stopping on drawn
// days on the way, gives the same figures (1e-12 relative).
func TestStopsChangeNothing(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		tb := tables.Default()
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted})
		at, with := decide.Begin(tb, r), decide.Begin(tb, r)
		at.Run(r.AsOf)
		for day := r.Piece.Made.Earliest() + 300; day < r.AsOf; day += qty.Day(rapid.IntRange(1, 300).Draw(t, "days")) {
			with.Run(day)
		}
		with.Run(r.AsOf)
		a, ok1 := figuresOf(at)
		b, ok2 := figuresOf(with)
		if ok1 != ok2 {
			t.Fatalf("in one go %v, with stops %v", at.Err(), with.Err())
		}
		if !ok1 {
			return
		}
		compared++
		near := func(what string, a, b float64) {
			if a < b*(1-1e-12) || b < a*(1-1e-12) {
				t.Fatalf("%s: %.17g in one go, %.17g with stops", what, a, b)
			}
		}
		near("D", a.d, b.d)
		near("I", a.wear, b.wear)
		for i := range a.cells {
			near("D of a cell", a.cells[i], b.cells[i])
		}
	})
	if compared == 0 {
		t.Fatal("nothing was compared")
	}
}
