package app

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Take enters a whole record, as of a piece that was kept on paper or in a file
// until now: the people it names who are not in the yard yet, the piece, and
// all that is on record of it, in the order of days. It gives what was written:
// all of it, or, where one part is refused, nothing. The id of who, where there is
// one, becomes that of the entry that registers the piece: handed in again, the
// record is in the book already, and that is all that is told.
func (a *App) Take(ctx context.Context, who Who, r *kit.Record) ([]Written, error) {
	if who.ID != (entry.ID{}) {
		if index, err := a.store.Find(ctx, who.ID); err == nil {
			if l, err := a.leaf(ctx, index); err == nil && l.Entry.Kind == entry.Piece && l.Entry.Piece == r.Piece.ID {
				return []Written{{ID: who.ID, Index: index}}, nil
			}
		}
	}
	return a.together(ctx, r.Piece.ID, func(a *App) error { return a.take(ctx, who, r) })
}

// take enters the parts of a record, one after the other.
func (a *App) take(ctx context.Context, piece Who, r *kit.Record) error {
	who := piece
	who.ID = entry.ID{}
	var missing []kit.Person
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		if s.Piece(r.Piece.ID) != nil {
			return fail(Conflict, "The piece “%s” is in the book already: enter its examinations one by one.", r.Piece.ID)
		}
		for _, p := range r.People {
			if s.Member(p.ID) == nil {
				missing = append(missing, p)
				if p.Until > a.Today() {
					return fail(Invalid, "“%s” is said to hold the role until %s, which lies ahead: take that out of the record, and enter the person anew when it has come.", p.ID, p.Until.Words())
				}
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	type step struct {
		what string // of the record, as it is told
		day  qty.Day
		rank int
		do   func() (Written, error)
	}
	var steps []step
	for _, p := range missing {
		from := p.Since
		if from == 0 {
			from = firstDay(r)
		}
		what := "the person “" + p.ID + "”"
		steps = append(steps, step{what, from, 0, func() (Written, error) { return a.EnterPerson(ctx, who, Member{Person: p, From: from}) }})
		if p.Until != 0 { // from then on in no role
			none := kit.Person{ID: p.ID, Kappa: p.Kappa}
			steps = append(steps, step{what, p.Until + 1, 0, func() (Written, error) {
				return a.EnterPerson(ctx, who, Member{Person: none, From: p.Until + 1})
			}})
		}
	}
	steps = append(steps, step{"the piece", 0, 0, func() (Written, error) { return a.AddPiece(ctx, piece, r.Piece) }})
	for _, p := range r.People {
		if p.Holds {
			steps = append(steps, step{"who holds it", 0, 0, func() (Written, error) {
				return a.Hang(ctx, who, r.Piece.ID, a.Today(), fold.Hang{Holder: p.ID})
			}})
		}
	}
	id, first := r.Piece.ID, len(steps)
	on := func(what string, day qty.Day) string { return what + " " + day.Words() }
	for _, u := range r.Uses {
		steps = append(steps, step{on("the use from", u.From), u.From, 0, func() (Written, error) { return a.PlanUse(ctx, who, id, u, "") }})
	}
	for _, c := range r.Changes {
		steps = append(steps, step{on("the change of", c.Day), c.Day, 1, func() (Written, error) { return a.Move(ctx, who, id, c) }})
	}
	for _, e := range r.Events {
		steps = append(steps, step{on("what happened on", e.Day), e.Day, 2, func() (Written, error) { return a.Happen(ctx, who, id, e) }})
	}
	for _, x := range r.Runs {
		steps = append(steps, step{on("the run from", x.From), x.From, 3, func() (Written, error) { return a.KeepRun(ctx, who, id, x) }})
	}
	for _, e := range named(r) {
		for _, p := range r.People {
			if p.Holds && e.Kind == kit.Thorough && !slices.Contains(e.HeldBy, p.ID) { // also when it has changed hands
				e.HeldBy = append(slices.Clone(e.HeldBy), p.ID)
			}
		}
		steps = append(steps, step{on("the examination of", e.Day), e.Day, 4, func() (Written, error) { return a.Examine(ctx, who, id, e) }})
	}
	for _, x := range r.Answers {
		steps = append(steps, step{on("the answer of", x.Day), x.Day, 5, func() (Written, error) { return a.answer(ctx, who, id, x) }})
	}
	slices.SortStableFunc(steps[first:], func(x, y step) int {
		return cmp.Or(cmp.Compare(x.day, y.day), cmp.Compare(x.rank, y.rank))
	})
	for _, s := range steps {
		if _, err := s.do(); err != nil {
			var e *Error
			if errors.As(err, &e) && e.Code != Failed {
				return &Error{Code: e.Code, Say: "Nothing of the record was entered. Of it, " + s.what + ": " + e.Say, Faults: e.Faults}
			}
			return err
		}
	}
	return nil
}

// firstDay gives the first day that a record speaks of.
func firstDay(r *kit.Record) qty.Day {
	day := r.AsOf
	for i := range r.Examinations {
		day = min(day, r.Examinations[i].Day)
	}
	for i := range r.Runs {
		day = min(day, r.Runs[i].From)
	}
	for i := range r.Answers {
		day = min(day, r.Answers[i].Day)
	}
	for i := range r.Changes {
		day = min(day, r.Changes[i].Day)
	}
	return day
}
