package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
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
		j.Stopped = p.Stopped().On(asOf)
		return err
	})
	return j, err
}

// judge gives the outcome, from memory where nothing has changed since. What was
// read strictly, and how far the belief was followed, are kept for the next day.
func (a *App) judge(s *fold.State, p *fold.Piece, asOf qty.Day, full bool) (Judged, error) {
	a.mu.Lock()
	k := a.pieces[p.ID]
	if k == nil {
		k = &known{}
		a.pieces[p.ID] = k
	}
	a.mu.Unlock()
	k.mu.Lock()
	defer k.mu.Unlock()
	if old := &k.judged; old.last == s.Last(p) && old.asOf == asOf && (old.full || !full) && (old.out != nil || old.err != nil) {
		return Judged{Record: old.record, Outcome: old.out}, old.err
	}
	k.judged = a.judgeBy(k, s, p, asOf, full)
	n := &k.judged
	return Judged{Record: n.record, Outcome: n.out}, n.err
}

// fresh gives the outcome, worked out now and kept nowhere.
func (a *App) fresh(s *fold.State, p *fold.Piece, asOf qty.Day, full bool) judged {
	return a.judgeBy(&known{}, s, p, asOf, full)
}

// judgeBy gives the outcome, with what is known of the piece from before.
func (a *App) judgeBy(k *known, s *fold.State, p *fold.Piece, asOf qty.Day, full bool) judged {
	n := judged{last: s.Last(p), asOf: asOf, full: full}
	n.record, n.err = s.Record(p, asOf, a)
	a.weigh(k, p.ID, &n)
	return n
}

// weigh asks the core about a record.
func (a *App) weigh(k *known, piece string, n *judged) {
	if n.err == nil {
		// What the core is given is what a file would give it, no more and no less.
		var r *kit.Record
		if r, n.err = a.strictly(k, piece, n.record); n.err == nil {
			n.record = r
			var o decide.Outcome
			switch {
			case n.full:
				o = decide.Decide(a.tables, r, decide.Ask{Explain: true})
			case k.leads(a.tables, r):
				o = k.belief.Decide(r)
			default: // a kind without a doubt figure
				o = decide.Decide(a.tables, r, decide.Ask{})
			}
			n.out = &o
		}
	}
	if n.err != nil {
		n.err = fail(Broken, "No outcome can be given for %s, so it is not used: %v", piece, n.err)
	}
}

// leads says whether there is a belief that leads to a record that was just read;
// where there is none, one is begun.
func (k *known) leads(t *table.Tables, r *kit.Record) bool {
	if !k.belief.Leads(t, r) {
		k.belief, k.people = decide.Carry(t, r), r.People
	}
	return k.belief != nil
}
