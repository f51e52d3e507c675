package app

import (
	"context"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Stop enters what a person did about the use of a piece: set it aside,
// withdrew it, holds it sealed, released it, cut it up, took it back into use.
// Anybody may stop; only a competent person lets go again.
func (a *App) Stop(ctx context.Context, who Who, piece string, day qty.Day, b fold.Stop) (Written, error) {
	a = a.still()
	return a.put(ctx, who, draft{kind: entry.Stop, piece: piece, day: day, body: &b, check: func(s *fold.State) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		if letsGo(&b) {
			if err := a.competent(s, who.Person); err != nil {
				return err
			}
		}
		st := p.Stopped()
		return stoppable(p, &st, &b)
	}})
}

// letsGo says whether a stop lets go of what was stopped.
func letsGo(b *fold.Stop) bool {
	return b.What == "back in use" || b.What == "release" || b.What == "cut up"
}

// stoppable refuses what cannot be done about a piece as it stands.
func stoppable(p *fold.Piece, st *fold.Stopped, b *fold.Stop) error {
	switch {
	case (b.What == "withdraw" || b.What == "set aside") && st.ForGood():
		return fail(Invalid, "%s That stays the reason. If it is wrong, a competent person corrects entry %d.", how(p, st), st.Index+1)
	case b.What == "back in use" && st.Withdrawn:
		return fail(Refused, "“%s” is withdrawn for good: it does not come back into use.", p.ID)
	case b.What == "back in use" && !st.Aside:
		return fail(Invalid, "“%s” is not set aside.", p.ID)
	case b.What == "release" && !st.Held:
		return fail(Invalid, "“%s” is not held.", p.ID)
	case b.What == "release" && b.Document == "":
		return fail(Invalid, "Name the document by which authority and insurer release it.")
	case b.What == "cut up" && st.Held:
		return fail(Refused, "“%s” is held: it is not cut until authority and insurer have released it.", p.ID)
	case b.What == "cut up" && !st.Withdrawn:
		return fail(Invalid, "“%s” is not withdrawn: withdraw it first.", p.ID)
	case st.Cut:
		return fail(Invalid, "“%s” has been cut up.", p.ID)
	}
	return nil
}
