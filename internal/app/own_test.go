package app

import (
	"slices"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// thorough is a thorough examination like the last one of a record, made and
// signed by one person.
func thorough(r *kit.Record, ref string, on qty.Day, by string) kit.Examination {
	e := kit.Examination{Ref: ref, Kind: kit.Thorough, Day: on, By: by, SignedBy: by, WouldClimb: kit.SaidYes}
	for _, x := range r.Examinations {
		if x.Kind == kit.Thorough {
			e.Looks, e.Readings, e.Asked = slices.Clone(x.Looks), slices.Clone(x.Readings), x.Asked
		}
	}
	for i := range e.Looks {
		e.Looks[i].By = by
	}
	for i := range e.Readings {
		e.Readings[i].Ref = ""
	}
	return e
}

func notIndependent(o *decide.Outcome) bool {
	return slices.ContainsFunc(o.Reasons, func(r criteria.Reason) bool { return r.Key == "examination.not-independent" })
}

// TestIndependence: whose own kit a piece was on the day of a thorough examination,
// or who repaired it before with no examination by others since, does not make it
// count (D-23, from memory), whoever holds the piece afterwards.
func TestIndependence(t *testing.T) {
	for name, c := range map[string]struct {
		tell func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day)
		own  bool
	}{
		"nobody's": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {}, false},
		"held, and handed over after it": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.Hang(ctx, Who{Person: "p1"}, id, today-10, fold.Hang{Holder: "p1"}))
			must(t)(a.Hang(ctx, Who{Person: "p1"}, id, today, fold.Hang{Holder: "rolf"}))
		}, true},
		"held for an hour of the day": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.Hang(ctx, Who{Person: "p1"}, id, today, fold.Hang{Holder: "p1"}))
			must(t)(a.Hang(ctx, Who{Person: "p1"}, id, today, fold.Hang{Place: "store"}))
		}, true},
		"held up to the day before": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.Hang(ctx, Who{Person: "p1"}, id, today-10, fold.Hang{Holder: "p1"}))
			must(t)(a.Hang(ctx, Who{Person: "p1"}, id, today-1, fold.Hang{Holder: "rolf"}))
		}, false},
		"re-tied by the examiner": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.Move(ctx, Who{Person: "p1"}, id, kit.Change{Day: today - 5, What: "re-tied end A", By: "p1"}))
		}, true},
		"re-tied by another": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.Move(ctx, Who{Person: "p1"}, id, kit.Change{Day: today - 5, What: "re-tied end A", By: "rolf"}))
		}, false},
		"re-tied by the examiner, examined by them before": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.Move(ctx, Who{Person: "p1"}, id, kit.Change{Day: today - 5, What: "re-tied end A", By: "p1"}))
			must(t)(a.Examine(ctx, Who{Person: "p1"}, id, thorough(r, "t-0", today-2, "p1")))
		}, true},
		"re-tied by the examiner, examined by another before": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.EnterPerson(ctx, Who{Person: "p1"}, Member{Person: kit.Person{ID: "p9", Role: "examiner"}, From: today - 30}))
			must(t)(a.Move(ctx, Who{Person: "p1"}, id, kit.Change{Day: today - 5, What: "re-tied end A", By: "p1"}))
			must(t)(a.Examine(ctx, Who{Person: "p9"}, id, thorough(r, "t-0", today-2, "p9")))
		}, false},
		"re-tied by the examiner, examined by a climber before": {func(t *testing.T, a *App, r *kit.Record, id string, today qty.Day) {
			must(t)(a.Move(ctx, Who{Person: "p1"}, id, kit.Change{Day: today - 5, What: "re-tied end A", By: "p1"}))
			must(t)(a.Examine(ctx, Who{Person: "rolf"}, id, thorough(r, "t-0", today-2, "rolf")))
		}, true},
	} {
		t.Run(name, func(t *testing.T) {
			r := example(t, "bridge-daily.toml")
			a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
			if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
				t.Fatal(err)
			}
			id, today := r.Piece.ID, r.AsOf
			c.tell(t, a, r, id, today)
			must(t)(a.Examine(ctx, Who{Person: "p1"}, id, thorough(r, "t-1", today, "p1")))
			j, err := a.Judge(ctx, id, today, true)
			if err != nil {
				t.Fatal(err)
			}
			if got := notIndependent(j.Outcome); got != c.own || got && j.Outcome.Verdict < kit.SetAside {
				t.Errorf("not independent: %v, want %v; %v", got, c.own, j.Outcome.Verdict)
			}
		})
	}
}

// TestOwnKitOfATakenRecord: of a record that says that the piece is somebody's own
// kit their examinations do not count either when it has changed hands in the book.
func TestOwnKitOfATakenRecord(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	for i := range r.People {
		r.People[i].Holds = r.People[i].ID == "p1"
	}
	r.Examinations = append(r.Examinations, thorough(r, "t-1", r.AsOf, "p1"))
	if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
		t.Fatal(err)
	}
	for _, holder := range []string{"p1", "rolf"} {
		must(t)(a.Hang(ctx, Who{Person: "p1"}, r.Piece.ID, r.AsOf, fold.Hang{Holder: holder}))
		j, err := a.Judge(ctx, r.Piece.ID, r.AsOf, true)
		if err != nil {
			t.Fatal(err)
		}
		if !notIndependent(j.Outcome) {
			t.Errorf("held by %s: the examination of p1 counts: %v", holder, j.Outcome.Verdict)
		}
	}
}

// TestNothingIsWashedOutBefore: a washing takes out nothing that came on a later
// day, nor what is not on record.
func TestNothingIsWashedOutBefore(t *testing.T) {
	r := example(t, "line.toml")
	a, _ := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	who, id, today := Who{Person: "p1"}, r.Piece.ID, r.AsOf
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	w := fold.Washing{With: "water", Event: "oil-9", Clean: kit.SaidYes}
	if _, err := a.Wash(ctx, who, id, today-30, w); err == nil {
		t.Error("washed out what is not on record")
	}
	must(t)(a.Happen(ctx, who, id, kit.Event{Ref: "oil-9", Day: today - 5, Event: "spill", Substance: "chain-oil", Amount: "splash", Travel: -1, Peak: -1}))
	before, err := a.Judge(ctx, id, today, false)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := a.Wash(ctx, who, id, today-30, w); err == nil {
		t.Error("washed out what came later")
	}
	must(t)(a.Wash(ctx, who, id, today-5, w))
	after, err := a.Judge(ctx, id, today, false)
	if err != nil {
		t.Fatal(err)
	}
	if last := len(after.Record.Events) - 1; before.Record.Events[last].Washed != kit.NotSaid || after.Record.Events[last].Washed != kit.SaidYes {
		t.Errorf("washed: %q before, %q after", before.Record.Events[last].Washed, after.Record.Events[last].Washed)
	}
}
