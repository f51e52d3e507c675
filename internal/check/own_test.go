package check

import (
	"os"
	"testing"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

// TestIndependenceIsReadTwice: of a piece that changed hands, was repaired by who
// examined it, and was washed before what was spilt on it, the second reader gives
// the very record that was decided on, and the record says so.
func TestIndependenceIsReadTwice(t *testing.T) {
	b, err := os.ReadFile("../../examples/bridge-daily.toml")
	if err != nil {
		t.Fatal(err)
	}
	r, faults := record.Decode("bridge", b, tables.Default())
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	c := &stepping{at: time.Date(2026, 7, 1, 9, 0, 0, 0, time.UTC), step: time.Second}
	a, _, verify := quillbrook(t, c.now)
	who, id := app.Who{Person: "p1"}, r.Piece.ID
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	did := func(w app.Written, err error) app.Written {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return w
	}
	did(a.EnterPerson(ctx, who, app.Member{Person: kit.Person{ID: "p9", Role: "examiner"}, From: day(t, "2026-01-01")}))
	exam := func(ref, by, on string) {
		t.Helper()
		e := kit.Examination{Ref: ref, Kind: kit.Thorough, Day: day(t, on), By: by, SignedBy: by, WouldClimb: kit.SaidYes}
		e.Looks = []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}
		did(a.Examine(ctx, who, id, e))
	}
	did(a.Hang(ctx, who, id, day(t, "2026-06-10"), fold.Hang{Holder: "p9"}))
	did(a.Move(ctx, who, id, kit.Change{Day: day(t, "2026-06-11"), What: "re-tied end A", By: "p1"}))
	exam("t-1", "p9", "2026-06-12") // their own kit, with a look of who re-tied it
	did(a.Hang(ctx, who, id, day(t, "2026-06-12"), fold.Hang{Holder: "rolf"}))
	exam("t-2", "p1", "2026-06-14")
	exam("t-3", "p9", "2026-06-15")
	e := kit.Event{Ref: "oil-9", Day: day(t, "2026-06-15"), Event: "spill", Substance: "chain-oil", Amount: "splash", Travel: -1, Peak: -1}
	w := did(a.Happen(ctx, who, id, e))
	did(a.Wash(ctx, who, id, e.Day, fold.Washing{With: "water", Event: "oil-9", Clean: kit.SaidYes}))
	e.Day++
	if _, err := a.Correct(ctx, who, w.ID, &e, "it was the day after"); err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct{ ref, held string }{{"t-1", "p1 p9 "}, {"t-2", ""}, {"t-3", ""}} {
		j, err := a.Judge(ctx, id, day(t, "2026-07-01"), false)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range j.Record.Examinations {
			held := ""
			for _, id := range e.HeldBy {
				held += id + " "
			}
			if e.Ref == x.ref && held != x.held {
				t.Errorf("%s: held by %q, want %q", e.Ref, held, x.held)
			}
		}
		for _, e := range j.Record.Events {
			if e.Ref == "oil-9" && e.Washed != kit.NotSaid {
				t.Errorf("what came after the washing was washed out: %q", e.Washed)
			}
		}
	}
	did(a.Decide(ctx, who, id, app.Decision{Examination: "t-3", Verdict: kit.Withdraw, Why: "oil on it"}))
	if got := verify(); !got.Holds || got.Fault != nil {
		t.Errorf("%+v", got.Fault)
	}
}
