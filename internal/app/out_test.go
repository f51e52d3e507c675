package app

import (
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// TestOutOfUse: what is done with a piece only while it is used is refused for days
// after the one on which it went out of use for good, in a sentence that says since
// when, by whom and why. What was done up to that day is still entered, and what
// happens to a piece whether it is used or not.
func TestOutOfUse(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	today := r.AsOf
	gone := today - 1
	looks := []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}
	every := [8]bool{false, true, true, true, true, true, true, true}
	who, id := Who{Person: "p1"}, r.Piece.ID
	exam := func(a *App, k kit.ExamKind, d qty.Day) error {
		e := kit.Examination{Kind: k, Day: d, By: "p1", WouldClimb: kit.SaidYes, Looks: looks}
		if k == kit.Thorough {
			e.SignedBy = "p1"
		}
		_, err := a.Examine(ctx, who, id, e)
		return err
	}
	deeds := []struct {
		name string
		do   func(a *App, d qty.Day) error
	}{
		{"look", func(a *App, d qty.Day) error { return exam(a, kit.PreUse, d) }},
		{"thorough examination", func(a *App, d qty.Day) error { return exam(a, kit.Thorough, d) }},
		{"run", func(a *App, d qty.Day) error {
			_, err := a.KeepRun(ctx, who, id, kit.Run{Kind: kit.PreUse, By: "p1", From: gone - 6, To: d, Weekdays: every, Looks: looks})
			return err
		}},
		{"use", func(a *App, d qty.Day) error {
			_, err := a.PlanUse(ctx, who, id, kit.Use{From: d, Week: 20 * qty.Hour, Weekdays: every}, "")
			return err
		}},
		{"fitting", func(a *App, d qty.Day) error {
			_, err := a.Fit(ctx, who, id, d, fold.Fit{In: "HA-03", Allowed: kit.SaidYes})
			return err
		}},
		{"handing over", func(a *App, d qty.Day) error {
			_, err := a.Hang(ctx, who, id, d, fold.Hang{Holder: "p1"})
			return err
		}},
		{"washing", func(a *App, d qty.Day) error {
			_, err := a.Wash(ctx, who, id, d, fold.Washing{With: "water", Clean: kit.SaidYes})
			return err
		}},
		{"change", func(a *App, d qty.Day) error {
			_, err := a.Move(ctx, who, id, kit.Change{Day: d, What: "re-tied end A", By: "p1"})
			return err
		}},
	}
	always := []struct {
		name string
		do   func(a *App) error
	}{
		{"event", func(a *App) error {
			_, err := a.Happen(ctx, who, id, kit.Event{Day: today, Event: "dropped", Travel: -1, Peak: -1})
			return err
		}},
		{"in the store", func(a *App) error {
			_, err := a.Hang(ctx, who, id, today, fold.Hang{Place: "bin, sealed"})
			return err
		}},
		{"taken out", func(a *App) error { _, err := a.Fit(ctx, who, id, today, fold.Fit{Allowed: kit.NotKnown}); return err }},
		{"held", func(a *App) error {
			_, err := a.Stop(ctx, who, id, today, fold.Stop{What: "hold", Why: "an injury goes with it"})
			return err
		}},
		{"released", func(a *App) error {
			_, err := a.Stop(ctx, who, id, today, fold.Stop{What: "release", Why: "looked at", Document: "letter of the authority"})
			return err
		}},
		{"cut up", func(a *App) error {
			_, err := a.Stop(ctx, who, id, today, fold.Stop{What: "cut up", Why: "so that nobody uses it again"})
			return err
		}},
	}
	a, store := yard(t, today.String()+"T17:00:00+01:00")
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	harness := r.Piece
	harness = kit.Piece{ID: "HA-03", Kind: "harness", Marking: harness.Marking, Origin: harness.Origin, History: harness.History, Made: harness.Made, FirstUse: harness.FirstUse}
	must(t)(a.AddPiece(ctx, who, harness))
	out := must(t)(a.Stop(ctx, who, id, gone, fold.Stop{What: "withdraw", Why: "a saw touched it"}))
	says := []string{"“" + id + "” is out of use since " + gone.Words(), "withdrawn by “p1”, because: a saw touched it"}
	refused := func(name string, err error) {
		t.Helper()
		for _, want := range says {
			if code(err) != Invalid || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: %v, want “%s”", name, err, want)
			}
		}
	}
	for _, d := range deeds {
		head, _ := store.Head(ctx)
		refused(d.name, d.do(a, today))
		if after, _ := store.Head(ctx); after != head {
			t.Errorf("%s: something was written", d.name)
		}
		if err := d.do(a, gone); err != nil && strings.Contains(err.Error(), "out of use") || err != nil && d.name != "run" { // the record has a run of those days
			t.Errorf("%s, of the day itself: %v", d.name, err)
		}
	}
	for _, what := range []string{"withdraw", "set aside"} {
		_, err := a.Stop(ctx, who, id, today, fold.Stop{What: what, Why: "another reason"})
		refused(what, err)
	}
	for _, d := range always {
		if err := d.do(a); err != nil {
			t.Errorf("%s: %v", d.name, err)
		}
		if d.name == "held" { // authority and insurer ask for it
			if err := exam(a, kit.Thorough, today); err != nil {
				t.Errorf("examination of a held piece: %v", err)
			}
			refused("a look at a held piece", exam(a, kit.PreUse, today))
		}
		if c, err := a.CardOf(ctx, id, today); err != nil || c.Stopped.Why != "a saw touched it" || c.Stopped.Day != gone || c.Stopped.What != "withdraw" {
			t.Errorf("%s: the reason is %+v, %v", d.name, c.Stopped, err)
		}
	}
	// The withdrawal was of another piece: the next reason is the first now.
	if _, err := a.Correct(ctx, who, out.ID, nil, "it was another piece"); err != nil {
		t.Fatal(err)
	}
	if c, err := a.CardOf(ctx, id, today); err != nil || c.Stopped.What != "hold" || c.Stopped.Why != "an injury goes with it" {
		t.Errorf("without the withdrawal: %+v, %v", c.Stopped, err)
	}
}

// TestBackInUse: a withdrawal that was a mistake is corrected, and the piece is looked
// at and used again; what is set aside is looked at all along.
func TestBackInUse(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	who, id, today := Who{Person: "p1"}, r.Piece.ID, r.AsOf
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	wash := func() error {
		_, err := a.Wash(ctx, who, id, today, fold.Washing{With: "water", Clean: kit.SaidYes})
		return err
	}
	must(t)(a.Stop(ctx, who, id, today-1, fold.Stop{What: "set aside", Why: "to be looked at"}))
	if err := wash(); err != nil {
		t.Errorf("set aside: %v", err)
	}
	w := must(t)(a.Stop(ctx, who, id, today-1, fold.Stop{What: "withdraw", Why: "a saw touched it"}))
	if err := wash(); code(err) != Invalid {
		t.Errorf("withdrawn: %v", err)
	}
	if _, err := a.Correct(ctx, who, w.ID, nil, "it was another piece"); err != nil {
		t.Fatal(err)
	}
	if err := wash(); err != nil {
		t.Errorf("the withdrawal taken back: %v", err)
	}
	if _, err := a.Stop(ctx, who, id, today, fold.Stop{What: "back in use", Why: "looked at"}); err != nil {
		t.Errorf("back in use: %v", err)
	}
}
