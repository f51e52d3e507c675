package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/paper"
	"kernbook/internal/record"
)

// ReportFacts gives what a report of the last decision on a piece is made from;
// with annex, the tool's outcome of that day goes with it.
func (a *App) ReportFacts(ctx context.Context, piece string, annex bool) (*paper.Facts, error) {
	var f *paper.Facts
	err := a.Look(ctx, func(s *fold.State, head book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		all := p.Decisions()
		if len(all) == 0 {
			return fail(NotFound, "No decision on “%s” is in the book, so there is nothing to report.", piece)
		}
		last := all[len(all)-1]
		day, err := qty.ParseDate(last.AsOf)
		if err != nil {
			return fail(Broken, "The decision of entry %d has no day.", last.Index)
		}
		r, err := s.Record(p, day.Earliest(), a)
		if err != nil {
			return fail(Broken, "%v.", err)
		}
		f = a.facts(s, head, r)
		f.Stopped = p.Stopped()
		f.Decision, f.Decided, f.By, f.Entry, f.Position, f.Recorded = *last.Decision, last.Day, last.Author, last.ID.String(), last.Index, last.Recorded
		found := false
		for i := range r.Examinations {
			if e := &r.Examinations[i]; e.Ref == last.Examination && e.Ref != "" || !found && e.Kind == kit.Thorough && e.Day == f.Decided {
				f.Exam, found = *e, true
			}
		}
		if !found {
			return fail(NotFound, "The decision on “%s” names the examination “%s”, which is not on record.", piece, last.Examination)
		}
		if annex {
			o := decide.Decide(a.tables, r, decide.Ask{})
			f.Outcome = &o
		}
		return nil
	})
	return f, err
}

// CardFacts gives what a record card of a piece is made from.
func (a *App) CardFacts(ctx context.Context, piece string) (*paper.CardFacts, error) {
	var f *paper.CardFacts
	err := a.Look(ctx, func(s *fold.State, head book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		r, err := s.Record(p, a.Today(), a)
		if err != nil {
			return fail(Broken, "%v.", err)
		}
		f = &paper.CardFacts{Facts: *a.facts(s, head, r), Decisions: p.Decisions()}
		f.Stopped = p.Stopped()
		return nil
	})
	return f, err
}

func (a *App) facts(s *fold.State, head book.Head, r *kit.Record) *paper.Facts {
	f := &paper.Facts{Tables: a.tables, Record: r, Names: map[string]string{}, Head: head.String(), Machine: record.Encode(r)}
	for _, m := range s.People {
		if p, ok := s.Private(m.ID, a.Today(), a); ok {
			f.Names[m.ID] = p.Name
		}
	}
	return f
}

// RegisterLines gives the register of the yard; presented says which pieces were
// there at a visit, nil that all were.
func (a *App) RegisterLines(ctx context.Context, presented map[string]bool) ([]paper.Line, string, string, error) {
	var out []paper.Line
	yard, at := "", ""
	err := a.Look(ctx, func(s *fold.State, head book.Head) error {
		yard, at = s.Yard.Name, head.String()
		for i, c := range a.cards(s, a.Today()) {
			p := s.Pieces[i]
			l := paper.Line{ID: c.ID, Kind: string(c.Kind), Words: c.Words, Serial: c.Serial, Holder: c.Holder, Stands: c.Stands().String(), Presented: presented == nil || presented[c.ID]}
			if k := a.tables.Kind(c.Kind); k != nil {
				l.Kind = k.Words
			}
			if c.Next != 0 && c.Stands() < kit.SetAside { // what is not in use has no next day
				l.Next = c.Next.Words()
			}
			for n := range p.Lines {
				if x := &p.Lines[n]; x.Kind == entry.Examination && !x.Void {
					if v, err := fold.Decode(x.Kind, x.Version, x.Body); err == nil && v.(*kit.Examination).Kind == kit.Thorough {
						l.Last = v.(*kit.Examination).Day.Words()
					}
				}
			}
			out = append(out, l)
		}
		return nil
	})
	return out, yard, at, err
}
