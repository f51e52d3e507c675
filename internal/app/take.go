package app

import (
	"context"
	"kernbook/internal/book"
	"sort"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Take enters a whole record, as of a piece that was kept on paper or in a file
// until now: the people it names who are not in the yard yet, the piece, and
// all that is on record of it, in the order of days. It gives what was written.
// When something cannot be entered, what went before it is in the book. The id
// of who, where there is one, becomes that of the entry that registers the
// piece: handed in again, the record is in the book already, and that is all
// that is told.
func (a *App) Take(ctx context.Context, who Who, r *kit.Record) ([]Written, error) {
	var out []Written
	put := func(w Written, err error) error {
		if err == nil {
			out = append(out, w)
		}
		return err
	}
	piece := who
	who.ID = entry.ID{}
	if index, err := a.store.Find(ctx, piece.ID); err == nil && piece.ID != who.ID {
		if l, err := a.leaf(ctx, index); err == nil && l.Entry.Kind == entry.Piece && l.Entry.Piece == r.Piece.ID {
			return []Written{{ID: piece.ID, Index: index}}, nil
		}
	}
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
		return nil, err
	}
	for _, p := range missing {
		from := p.Since
		if from == 0 {
			from = firstDay(r)
		}
		if err := put(a.EnterPerson(ctx, who, Member{Person: p, From: from})); err != nil {
			return out, err
		}
		if p.Until != 0 { // from then on in no role
			none := kit.Person{ID: p.ID, Kappa: p.Kappa}
			if err := put(a.EnterPerson(ctx, who, Member{Person: none, From: p.Until + 1})); err != nil {
				return out, err
			}
		}
	}
	if err := put(a.AddPiece(ctx, piece, r.Piece)); err != nil {
		return out, err
	}
	for _, p := range r.People {
		if p.Holds {
			if err := put(a.Hang(ctx, who, r.Piece.ID, a.Today(), fold.Hang{Holder: p.ID})); err != nil {
				return out, err
			}
		}
	}
	id := r.Piece.ID
	type step struct {
		day  qty.Day
		rank int
		do   func() (Written, error)
	}
	var steps []step
	for _, u := range r.Uses {
		steps = append(steps, step{u.From, 0, func() (Written, error) { return a.PlanUse(ctx, who, id, u, "") }})
	}
	for _, c := range r.Changes {
		steps = append(steps, step{c.Day, 1, func() (Written, error) { return a.Move(ctx, who, id, c) }})
	}
	for _, e := range r.Events {
		steps = append(steps, step{e.Day, 2, func() (Written, error) { return a.Happen(ctx, who, id, e) }})
	}
	for _, x := range r.Runs {
		steps = append(steps, step{x.From, 3, func() (Written, error) { return a.KeepRun(ctx, who, id, x) }})
	}
	for _, e := range r.Examinations {
		steps = append(steps, step{e.Day, 4, func() (Written, error) { return a.Examine(ctx, who, id, e) }})
	}
	for _, x := range r.Answers {
		steps = append(steps, step{x.Day, 5, func() (Written, error) { return a.Answer(ctx, who, id, x) }})
	}
	sort.SliceStable(steps, func(i, k int) bool {
		if steps[i].day != steps[k].day {
			return steps[i].day < steps[k].day
		}
		return steps[i].rank < steps[k].rank
	})
	for _, s := range steps {
		if err := put(s.do()); err != nil {
			return out, err
		}
	}
	return out, nil
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
