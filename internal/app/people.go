package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Somebody is a person of the yard as they are today.
type Somebody struct {
	ID        string
	Name      string // "" where it is not known, or forgotten
	Role      string // "" for none; of who has left the one that what they did counts by
	Competent bool
	Left      bool
	Forgotten bool
}

// People gives who is in the yard today, in the order in which they came.
func (a *App) People(ctx context.Context) ([]Somebody, error) {
	return a.somebody(ctx, (*fold.Member).Here)
}

// Everybody gives everybody who ever was in the yard, or is said to come, in the
// order in which they were first entered, so that whoever stands in a history has
// a name: also those who left or have no role any more. Only who was forgotten has
// none.
func (a *App) Everybody(ctx context.Context) ([]Somebody, error) {
	return a.somebody(ctx, func(*fold.Member, qty.Day) (bool, error) { return true, nil })
}

// somebody gives those members whom pick picks for today.
func (a *App) somebody(ctx context.Context, pick func(*fold.Member, qty.Day) (bool, error)) ([]Somebody, error) {
	var out []Somebody
	day := a.Today()
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		for _, m := range s.People {
			if ok, err := pick(m, day); err != nil || !ok {
				if err != nil {
					return err
				}
				continue
			}
			p, _, err := m.On(day)
			if err != nil {
				return err
			}
			left, err := m.Left(day)
			if err != nil {
				return err
			}
			private, _ := s.Private(m.ID, day, a)
			out = append(out, Somebody{m.ID, private.Name, p.Role, p.CompetentOn(day), left, m.Gone})
		}
		return nil
	})
	return out, err
}

// About gives what the yard is called, and how many entries its book holds.
func (a *App) About(ctx context.Context) (kit.Yard, int64, error) {
	var y kit.Yard
	size := int64(0)
	err := a.Look(ctx, func(s *fold.State, h book.Head) error {
		y, size = s.Yard, h.Size
		return nil
	})
	return y, size, err
}

// CardOf gives how one piece stands on a day.
func (a *App) CardOf(ctx context.Context, piece string, day qty.Day) (Card, error) {
	var c Card
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		p, err := pieceOf(s, piece)
		if err != nil {
			return err
		}
		c = a.card(s, p, day)
		return nil
	})
	return c, err
}

// NewID makes an id for an entry that is still being written, so that it can
// be handed in twice and counts once.
func (a *App) NewID() (entry.ID, error) {
	id, err := a.newID()
	return id, wrap(err)
}
