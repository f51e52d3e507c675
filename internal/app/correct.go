package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// Corrected says what a correction changed.
type Corrected struct {
	Written
	Before, After kit.Verdict // of the piece, as of today
	Millions      [2]int64    // doubt before and after, in whole millionths; -1 where there is none
}

// Correct says that an earlier entry was wrong, and what should stand instead:
// a body as fold.Encode takes it, nil for nothing. The entry itself stays in the
// book. What it touched is worked out anew.
func (a *App) Correct(ctx context.Context, who Who, id entry.ID, instead any, why string) (Corrected, error) {
	a = a.still()
	out := Corrected{Before: kit.SetAside, After: kit.SetAside, Millions: [2]int64{-1, -1}}
	if why == "" {
		return out, fail(Invalid, "Say why the entry was wrong.")
	}
	piece := ""
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, ok := s.Where(id)
		if !ok {
			return fail(NotFound, "No entry %s is in the book.", id)
		}
		if p != nil {
			piece = p.ID
		}
		return nil
	})
	if err != nil {
		return out, err
	}
	c := fold.Correct{Entry: id.String(), Why: why}
	if instead != nil {
		c.Instead = fold.Encode(instead)
	}
	out.Before, out.Millions[0] = a.stand(ctx, piece)
	out.Written, err = a.put(ctx, who, draft{kind: entry.Correct, piece: piece, day: a.Today(), body: &c, check: func(s *fold.State) error { return a.mayCorrect(s, who.Person, id) }})
	if err != nil {
		return out, err
	}
	out.After, out.Millions[1] = a.stand(ctx, piece)
	return out, nil
}

// mayCorrect refuses a correction that its author may not make, or that there is none of.
func (a *App) mayCorrect(s *fold.State, person string, id entry.ID) error {
	switch s.KindOf(id) {
	case "":
		return fail(Invalid, "A correction, and what is said of the yard itself, is not corrected: say anew what is right.")
	case entry.Forget:
		return fail(Refused, "Whoever was forgotten stays so: that is not taken back.")
	case entry.Decision, entry.Stop, entry.Person: // or else a stop would be lifted, a role taken, by who may not
		return a.competent(s, person)
	}
	return nil
}

// stand gives how a piece stands today; set aside where that cannot be said.
func (a *App) stand(ctx context.Context, piece string) (kit.Verdict, int64) {
	if piece == "" {
		return kit.SetAside, -1
	}
	j, err := a.Judge(ctx, piece, a.Today(), false)
	if err != nil {
		return kit.SetAside, -1
	}
	if j.Outcome.Doubt == nil {
		return j.Outcome.Verdict, -1
	}
	return j.Outcome.Verdict, j.Outcome.Doubt.Millions
}
