package app

import (
	"context"
	"slices"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Said is what today's core says of a piece for a day.
type Said struct {
	Verdict  kit.Verdict
	Millions int64 // doubt in whole millionths; -1 where there is none
	Err      error // no outcome can be given

	Reasons []string // in words, strictest first, where a correction is tried; else none
}

// Past is a decision as it was given, with what would be said today where that
// is something else. What was given stays.
type Past struct {
	fold.Decided
	Outcome  kit.Verdict // of the core that decided
	AsOf     qty.Day
	Core     *Said // today's core on the record as it was then; nil where it says the same
	Recorded *Said // today's core on what is on record of that day by now; nil where it says the same
}

// past is what was worked out for a decision.
type past struct {
	last           int64
	core, recorded *Said
}

// Decisions gives the decisions on a piece, in the order of the book, each held
// against what today's core says.
func (a *App) Decisions(ctx context.Context, piece string) ([]Past, error) {
	var out []Past
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		for _, d := range p.Decisions() {
			x := Past{Decided: d}
			asOf, err := qty.ParseDate(d.AsOf)
			given, ok := kit.ParseVerdict(d.Outcome)
			if err != nil || !asOf.Known() || !ok {
				return fail(Broken, "The decision of entry %d says no day or no outcome.", d.Index+1)
			}
			x.AsOf, x.Outcome = asOf.Earliest(), given
			if x.Core, x.Recorded, err = a.past(ctx, s, p, &x); err != nil {
				return err
			}
			out = append(out, x)
		}
		return nil
	})
	return out, err
}

// past holds one decision against today's core, from memory where nothing was
// entered since.
func (a *App) past(ctx context.Context, s *fold.State, p *fold.Piece, x *Past) (core, recorded *Said, err error) {
	a.mu.Lock()
	old, ok := a.pasts[x.ID]
	a.mu.Unlock()
	if ok && old.last == s.Last(p) {
		return old.core, old.recorded, nil
	}
	if ok {
		core = old.core // the core stays the same while this program runs
	} else if core, err = a.otherCore(ctx, s, p, x); err != nil {
		return nil, nil, err
	}
	if since(s, p, x) {
		n := a.fresh(s, p, x.AsOf, false)
		recorded = other(x, n.said())
	}
	a.mu.Lock()
	a.pasts[x.ID] = past{s.Last(p), core, recorded}
	a.mu.Unlock()
	return core, recorded, nil
}

// otherCore asks today's core about the record of a decision as it was then,
// unless it is the very core and tables that decided.
func (a *App) otherCore(ctx context.Context, s *fold.State, p *fold.Piece, x *Past) (*Said, error) {
	l, err := a.leaf(ctx, x.Index)
	if err != nil {
		return nil, err
	}
	if l.Entry.Artefact != "" && l.Entry.Artefact == a.artefact && l.Entry.Tables == a.tables.Version {
		return nil, nil
	}
	then, err := a.until(ctx, s, p, x.Index)
	if err != nil {
		return nil, err
	}
	n := a.fresh(then, then.Piece(p.ID), x.AsOf, false)
	return other(x, n.said()), nil
}

// said gives what an outcome comes to.
func (n *judged) said() Said {
	switch {
	case n.err != nil:
		return Said{Verdict: kit.SetAside, Millions: -1, Err: n.err}
	case n.out.Doubt == nil:
		return Said{Verdict: n.out.Verdict, Millions: -1}
	}
	return Said{Verdict: n.out.Verdict, Millions: n.out.Doubt.Millions}
}

// other gives what is said where it is not what was given.
func other(x *Past, s Said) *Said {
	if s.Err == nil && s.Verdict == x.Outcome && s.Millions == x.Millions {
		return nil
	}
	return &s
}

// since says whether anything was entered after a decision that changes what is
// on record of its day.
func since(s *fold.State, p *fold.Piece, x *Past) bool {
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Index > x.Index && (l.Kind == entry.Correct || l.Day <= x.AsOf && l.Kind != entry.Decision && l.Kind != entry.Stop) {
			return true
		}
	}
	for _, m := range s.People {
		for i := range m.Lines {
			if l := &m.Lines[i]; l.Index > x.Index && (l.Day <= x.AsOf || l.Kind != entry.Person) {
				return true
			}
		}
	}
	return slices.ContainsFunc(s.Own, func(index int64) bool { return index > x.Index })
}

// until gives what the book said of a piece before one of its entries: its own
// entries, those about people and about the yard, and no other piece.
func (a *App) until(ctx context.Context, s *fold.State, p *fold.Piece, index int64) (*fold.State, error) {
	all := slices.Clone(s.Own)
	for i := range p.Lines {
		all = append(all, p.Lines[i].Index)
	}
	for _, m := range s.People {
		for i := range m.Lines {
			all = append(all, m.Lines[i].Index)
		}
	}
	all = append(all, s.FaultsOf(p.ID)...)
	slices.Sort(all)
	then := fold.New()
	for _, at := range slices.Compact(all) {
		if at >= index {
			break
		}
		l, err := a.leaf(ctx, at)
		if err != nil {
			return nil, err
		}
		then.Apply(&l)
	}
	if then.Piece(p.ID) == nil {
		return nil, fail(Broken, "The book has no piece “%s” before its entry %d.", p.ID, index+1)
	}
	return then, nil
}
