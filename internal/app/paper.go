package app

import (
	"cmp"
	"context"
	"encoding/hex"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/book"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/paper"
	"kernbook/internal/record"
)

// ReportFacts gives what a report of the last decision on a piece is made from:
// the record as it was decided on, and apart from it what came into the book
// since. With annex, the tool's outcome of that day goes with it.
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
			return fail(Broken, "The decision of entry %d has no day.", last.Index+1)
		}
		then, err := a.until(ctx, s, p, last.Index)
		if err != nil {
			return err
		}
		r, err := then.Record(then.Piece(p.ID), day.Earliest(), a)
		if err != nil {
			return fail(Broken, "%v.", err)
		}
		f = a.facts(s, head, r, last.Day)
		today, err := s.Record(p, a.Today(), nil)
		if err != nil {
			return fail(Broken, "%v.", err)
		}
		f.Changes = append([]kit.Change{}, today.Changes...)
		a.today(s, p, f)
		f.Decision, f.Decided, f.By, f.Entry, f.Position, f.Recorded = *last.Decision, last.Day, last.Author, last.ID.String(), last.Index, last.Recorded
		lines, err := a.store.Read(ctx, last.Index, 1)
		if err != nil {
			return err
		}
		if len(lines) == 1 {
			h := tlog.RecordHash(lines[0])
			f.Leaf = hex.EncodeToString(h[:])
		}
		for i := range p.Lines {
			if p.Lines[i].Index > last.Index {
				f.Since = append(f.Since, p.Lines[i])
			}
		}
		if !examined(f, last.Examination) {
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

// examined finds the examination that a decision names, or for one without a
// name the thorough one of its day.
func examined(f *paper.Facts, ref string) bool {
	found := false
	for i := range f.Record.Examinations {
		if e := &f.Record.Examinations[i]; e.Ref == ref && e.Ref != "" || !found && e.Kind == kit.Thorough && e.Day == f.Decided {
			f.Exam, found = *e, true
		}
	}
	return found
}

// Lacking gives the particulars that the report of a decision would not state,
// were it entered today: in the words of the paper. It refuses what Decide would.
func (a *App) Lacking(ctx context.Context, who Who, piece string, d *Decision) ([]string, error) {
	var out []string
	err := a.Look(ctx, func(s *fold.State, head book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		j, err := a.judge(s, p, a.Today(), false)
		if err != nil {
			return err
		}
		if err := a.competent(s, who.Person); err != nil {
			return err
		}
		if err := d.may(j.Record, j.Outcome, a.Today()); err != nil {
			return err
		}
		f := a.facts(s, head, j.Record, a.Today())
		f.Decided, f.By, f.Leaf = a.Today(), who.Person, "given when it is entered"
		f.Decision = fold.Decision{Verdict: d.Verdict.String(), Why: d.Why, Latest: latest(d.Latest), Report: d.Report}
		if !examined(f, d.Examination) {
			return nil // refused in its own words
		}
		out = paper.Examination(f).Missing()
		return nil
	})
	return out, err
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
		f = &paper.CardFacts{Facts: *a.facts(s, head, r, a.Today()), Lines: p.Lines}
		a.today(s, p, &f.Facts)
		return nil
	})
	return f, err
}

// today tells a paper how its piece stands when it is printed.
func (a *App) today(s *fold.State, p *fold.Piece, f *paper.Facts) {
	f.Stopped = p.Stopped().On(a.Today())
	f.Stands = kit.Stricter(kit.SetAside, f.Stopped.Verdict()) // where no outcome can be given
	if j, err := a.judge(s, p, a.Today(), false); err == nil {
		f.Stands = kit.Stricter(j.Outcome.Verdict, f.Stopped.Verdict())
		f.Today, f.Now = j.Outcome, j.Record
	}
}

// facts gives what any paper about a piece is made from; people are as they were
// on that day, by name also those who came later.
func (a *App) facts(s *fold.State, head book.Head, r *kit.Record, day qty.Day) *paper.Facts {
	f := &paper.Facts{Tables: a.tables, Record: r, People: a.private(s, day), Head: head.String(), Machine: record.Encode(r), Printed: a.Today()}
	f.Sum = sum(f.Machine)
	return f
}

// private gives what is sealed of everybody, as of a day.
func (a *App) private(s *fold.State, day qty.Day) map[string]fold.Private {
	out := map[string]fold.Private{}
	for _, m := range s.People {
		if p, ok := s.Private(m.ID, day, a); ok {
			out[m.ID] = p
		}
	}
	return out
}

// sinceReport tells what came on record of a piece after its last decision.
func (a *App) sinceReport(s *fold.State, head book.Head, p *fold.Piece) []string {
	all := p.Decisions()
	if len(all) == 0 {
		return nil
	}
	last := all[len(all)-1]
	r, err := s.Record(p, a.Today(), a)
	if err != nil {
		return []string{"an entry about it cannot be read"}
	}
	f := a.facts(s, head, r, a.Today())
	for i := range p.Lines {
		if p.Lines[i].Index > last.Index {
			f.Since = append(f.Since, p.Lines[i])
		}
	}
	return f.AfterReport()
}

// RegisterLines gives the register of the yard; presented says which pieces were
// there at a visit, nil that all were.
func (a *App) RegisterLines(ctx context.Context, presented map[string]bool) ([]paper.Line, string, string, error) {
	var out []paper.Line
	yard, at := "", ""
	err := a.Look(ctx, func(s *fold.State, head book.Head) error {
		yard, at = s.Yard.Name, head.String()
		people := a.private(s, a.Today())
		for i, c := range a.cards(s, a.Today()) {
			p := s.Pieces[i]
			l := paper.Line{ID: c.ID, Kind: paper.KindWords(c.Kind), Words: c.Words, Serial: c.Serial, Holder: c.Place, Stands: c.Stands().String(), Since: a.sinceReport(s, head, p), Presented: presented == nil || presented[c.ID]}
			if c.Holder != "" {
				l.Holder = cmp.Or(people[c.Holder].Name, c.Holder)
			}
			if c.Next != 0 && c.Stands() < kit.SetAside { // what is not in use has no next day
				l.Next = c.Next.Words()
			}
			last := qty.Day(0)
			for n := range p.Lines {
				if x := &p.Lines[n]; x.Kind == entry.Examination && !x.Void {
					if v, err := fold.Decode(x.Kind, x.Version, x.Body); err == nil && v.(*kit.Examination).Kind == kit.Thorough {
						last = max(last, v.(*kit.Examination).Day)
					}
				}
			}
			if last != 0 {
				l.Last = last.Words()
			}
			out = append(out, l)
		}
		return nil
	})
	return out, yard, at, err
}
