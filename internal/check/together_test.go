package check

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/record"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// stepping is a clock that goes on by a step each time it is asked.
type stepping struct {
	at   time.Time
	step time.Duration
}

func (c *stepping) now() time.Time {
	c.at = c.at.Add(c.step)
	return c.at
}

// quillbrook is a yard with a competent person p1, entered by a clock.
func quillbrook(t *testing.T, clock func() time.Time) (*app.App, *mem.Store, func() *Result) {
	t.Helper()
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	a := app.New(app.Config{Store: store, Keys: keys, Tables: tables.Default(), Yard: "quillbrook", Device: "bench", Clock: clock})
	if _, err := a.EnterPerson(ctx, app.Who{Person: "p1"}, app.Member{Person: kit.Person{ID: "p1", Role: "competent person"}, From: day(t, "2024-01-01")}); err != nil {
		t.Fatal(err)
	}
	if _, err := a.NameYard(ctx, app.Who{Person: "p1"}, kit.Yard{Name: "Quillbrook Tree Care", Country: "GB"}); err != nil {
		t.Fatal(err)
	}
	return a, store, func() *Result {
		t.Helper()
		r, err := Run(ctx, Options{Store: store, Keys: keys, Tables: tables.Default(), Yard: "quillbrook"})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
}

// TestTakenTogetherHolds: a record taken into a book in one append holds, and so
// does what comes behind it.
func TestTakenTogetherHolds(t *testing.T) {
	c := &stepping{at: time.Date(2026, 7, 1, 9, 0, 0, 0, time.UTC), step: time.Second}
	a, store, verify := quillbrook(t, c.now)
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*.toml"))
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r, faults := record.Decode(f, b, tables.Default())
		if err := faults.Err(); err != nil {
			t.Fatal(err)
		}
		before, _ := store.Head(ctx)
		all, err := a.Take(ctx, app.Who{Person: "p1"}, r)
		if err != nil {
			t.Fatalf("%s: %v", f, err)
		}
		after, _ := store.Head(ctx)
		if after.Size != before.Size+int64(len(all)) || all[0].Index != before.Size || all[len(all)-1].Head != after {
			t.Errorf("%s: %d entries from %d to %d", f, len(all), before.Size, after.Size)
		}
		if _, err := a.Happen(ctx, app.Who{Person: "p1"}, r.Piece.ID, kit.Event{Day: a.Today(), Event: "dropped", Travel: -1, Peak: -1}); err != nil {
			t.Fatal(err)
		}
	}
	head, _ := store.Head(ctx)
	if r := verify(); !r.Holds || r.Entries != head.Size {
		t.Errorf("%+v", r.Fault)
	}
}

// TestMidnight: whoever enters something at midnight enters all of it on one day:
// its wall time, the day it is judged for and the day on which its author may do it
// are one, so that the second reader finds it as it should be.
func TestMidnight(t *testing.T) {
	noon := time.Date(2026, 7, 1, 12, 0, 0, 0, time.UTC)
	for name, before := range map[string]time.Duration{"before midnight": 1, "soon after": 2, "later": 3, "last": 4} {
		c := &stepping{at: noon}
		a, store, verify := quillbrook(t, c.now)
		who := app.Who{Person: "p1"}
		must := func(_ app.Written, err error) {
			t.Helper()
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
		// p2 is a competent person from tomorrow on, p3 up to today.
		must(a.EnterPerson(ctx, who, app.Member{Person: kit.Person{ID: "p2", Role: "climber"}, From: day(t, "2026-01-01")}))
		must(a.EnterPerson(ctx, who, app.Member{Person: kit.Person{ID: "p2", Role: "competent person"}, From: day(t, "2026-07-02")}))
		must(a.EnterPerson(ctx, who, app.Member{Person: kit.Person{ID: "p3", Role: "competent person"}, From: day(t, "2026-01-01")}))
		must(a.EnterPerson(ctx, who, app.Member{Person: kit.Person{ID: "p3", Role: "climber"}, From: day(t, "2026-07-02")}))
		must(a.AddPiece(ctx, who, kit.Piece{ID: "BR-1", Kind: kit.Bridge, Marking: "readable", Origin: "new", History: "known", Length: 900 * qty.Millimetre, Fitted: kit.Fitted{In: "HA-1", Allowed: kit.SaidYes}}))
		for _, by := range []string{"p2", "p3"} {
			c.at, c.step = noon.Add(12*time.Hour-time.Minute*before), time.Minute
			size, _ := store.Head(ctx)
			_, err := a.SetLimit(ctx, app.Who{Person: by}, "1 in 2000", "stricter")
			after, _ := store.Head(ctx)
			if (err == nil) != (after.Size == size.Size+1) {
				t.Errorf("%s, %s: %v, and %d entries more", name, by, err, after.Size-size.Size)
			}
			c.step = 0
		}
		c.at, c.step = noon.Add(12*time.Hour-time.Minute*before), time.Minute
		must(a.KeepRun(ctx, who, "BR-1", kit.Run{Kind: kit.PreUse, By: "p1", From: day(t, "2026-06-29"), To: day(t, "2026-07-01"), Weekdays: [8]bool{1: true, 2: true, 3: true},
			Looks: []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}}))
		if r := verify(); !r.Holds {
			t.Errorf("%s: %+v", name, r.Fault)
		}
	}
}
