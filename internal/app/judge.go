package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// Judged is a piece with the outcome for a day.
type Judged struct {
	Record  *kit.Record
	Outcome *decide.Outcome
	Stopped fold.Stopped // what people did about its use
}

// Stands gives what the piece comes to: the stricter of the outcome and of what
// people did about it.
func (j *Judged) Stands() kit.Verdict { return kit.Stricter(j.Outcome.Verdict, j.Stopped.Verdict()) }

// Judge gives the outcome for a piece on a day, with its explanation where full
// is asked for. What it gives must not be changed.
func (a *App) Judge(ctx context.Context, piece string, asOf qty.Day, full bool) (Judged, error) {
	var j Judged
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		j, err = a.judge(s, p, asOf, full)
		j.Stopped = p.Stopped()
		return err
	})
	return j, err
}

// judge gives the outcome, from memory where nothing has changed since.
func (a *App) judge(s *fold.State, p *fold.Piece, asOf qty.Day, full bool) (Judged, error) {
	a.mu.Lock()
	old, ok := a.outcomes[p.ID]
	a.mu.Unlock()
	if ok && old.last == s.Last(p) && old.asOf == asOf && (old.full || !full) {
		return Judged{Record: old.record, Outcome: old.out}, old.err
	}
	n := a.fresh(s, p, asOf, full)
	a.mu.Lock()
	a.outcomes[p.ID] = n
	a.mu.Unlock()
	return Judged{Record: n.record, Outcome: n.out}, n.err
}

// fresh gives the outcome, worked out now and kept nowhere.
func (a *App) fresh(s *fold.State, p *fold.Piece, asOf qty.Day, full bool) judged {
	n := judged{last: s.Last(p), asOf: asOf, full: full}
	n.record, n.err = s.Record(p, asOf, a)
	a.weigh(p.ID, &n, asOf, full)
	return n
}

// weigh asks the core about a record.
func (a *App) weigh(piece string, n *judged, asOf qty.Day, full bool) {
	if n.err == nil {
		// What the core is given is what a file would give it, no more and no less.
		r, faults := record.DecodeJSON(piece, record.Encode(n.record), a.tables)
		if n.err = faults.Err(); n.err == nil {
			r.AsOf = asOf
			n.record = r
			o := decide.Decide(a.tables, r, decide.Ask{Explain: full})
			n.out = &o
		}
	}
	if n.err != nil {
		n.err = fail(Broken, "No outcome can be given for %s, so it is not used: %v", piece, n.err)
	}
}
