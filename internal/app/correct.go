package app

import (
	"context"
	"errors"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// Corrected says what a correction changed.
type Corrected struct {
	Written
	Before, After kit.Verdict // of the piece, as of today
	Millions      [2]int64    // doubt before and after, in whole millionths; -1 where there is none
}

// Correct says that an earlier entry was wrong, and what should stand instead:
// a body as fold.Encode takes it, nil for nothing. The entry itself stays in the
// book. What it touched is worked out anew. It is for a competent person, but for a
// slip of one's own of the same day: see ownSlip.
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
	out.Written, err = a.put(ctx, who, draft{kind: entry.Correct, piece: piece, day: a.Today(), body: &c, check: func(s *fold.State) error { return a.mayCorrect(s, who.Person, id, c.Instead) }})
	if err != nil {
		return out, err
	}
	out.After, out.Millions[1] = a.stand(ctx, piece)
	return out, nil
}

// mayCorrect refuses a correction that its author may not make, that there is none of,
// or that has something stand which could not be entered.
func (a *App) mayCorrect(s *fold.State, person string, id entry.ID, instead []byte) error {
	l, ok := s.Line(id)
	switch {
	case !ok:
		return fail(Invalid, "A correction, and what is said of the yard itself, is not corrected: say anew what is right.")
	case l.Kind == entry.Forget:
		return fail(Refused, "Whoever was forgotten stays so: that is not taken back.")
	}
	if err := a.competent(s, person); err != nil && !a.ownSlip(person, &l, instead) {
		var e *Error
		if errors.As(err, &e) && e.Code == Refused {
			return fail(Refused, "%s Who is none corrects what they entered themselves on the same day: where a piece hangs, its use, a run of looks, or a look before use or by a partner that found nothing.", e.Say)
		}
		return err
	}
	if len(instead) == 0 {
		return nil
	}
	return a.stands(s, &l, instead)
}

// stands refuses a body instead of that of an entry where its use case would refuse
// it. What cannot be read is refused where the whole is tried.
func (a *App) stands(s *fold.State, l *fold.Line, instead []byte) error {
	now, err := fold.Decode(l.Kind, l.Version, instead)
	if err != nil {
		return nil
	}
	was, err := fold.Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		was = nil // as it was it counts for nothing
	}
	p, _ := s.Where(l.ID)
	on := func(day qty.Day, check func(*fold.State) error) error {
		switch {
		case day > a.Today()+1:
			return ahead(day)
		case day <= l.Day && was != nil: // where it stands already
			return nil
		}
		return check(s)
	}
	switch b := now.(type) {
	case *fold.Decision:
		return fail(Invalid, "A decision is not written anew: take it out, and decide again.")
	case *kit.Examination:
		return on(b.Day, a.examinable(p.ID, b))
	case *kit.Run:
		if b.To > a.Today() {
			return runAhead(b.To)
		}
		if r, ok := was.(*kit.Run); ok && b.To <= r.To {
			return nil
		}
		return a.usable(p.ID, b.To)(s)
	case *kit.Event:
		return on(b.Day, a.there(p.ID))
	case *kit.Answer:
		return on(b.Day, a.there(p.ID))
	case *kit.Change:
		return on(b.Day, a.usable(p.ID, b.Day))
	case *fold.Use:
		if err := a.carries(s, b.Of); err != nil {
			return err
		}
		from, faults := record.DecodeUse("", b.Use)
		if u, ok := was.(*fold.Use); ok && len(faults) == 0 {
			if old, _ := record.DecodeUse("", u.Use); from.From <= old.From {
				return nil
			}
		}
		return a.usable(p.ID, from.From)(s)
	case *fold.Fit:
		if f, ok := was.(*fold.Fit); ok && f.In == b.In {
			return nil
		}
		return a.fittable(s, p.ID, l.Day, b)
	case *fold.Hang:
		if h, ok := was.(*fold.Hang); ok && h.Holder == b.Holder {
			return nil
		}
		return a.holdable(s, p.ID, l.Day, b)
	case *fold.Stop:
		return restop(p, l, was, b)
	}
	return nil
}

// restop refuses a stop instead of another where it could not have been entered in
// that place, and one that lets go also where it could not be entered today.
func restop(p *fold.Piece, l *fold.Line, was any, b *fold.Stop) error {
	if old, ok := was.(*fold.Stop); ok && old.What == b.What && (b.What != "release" || b.Document != "") {
		return nil // another reason or document alone
	}
	then := p.Without(l.ID, false).Stopped()
	if err := stoppable(p, &then, b); err != nil || !letsGo(b) {
		return err
	}
	rest := p.Without(l.ID, true).Stopped()
	return stoppable(p, &rest, b)
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
