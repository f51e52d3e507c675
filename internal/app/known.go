package app

import (
	"context"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// Known is what is on record of somebody today, without what is sealed: of that
// only whether it is there.
type Known struct {
	kit.Person
	Left      bool
	Forgotten bool
	Name      bool
	Mass      bool
	Contact   bool
	Address   bool
	Qualified bool
	Employed  bool
}

// Known gives what is on record of somebody.
func (a *App) Known(ctx context.Context, person string) (Known, error) {
	var out Known
	err := a.Look(ctx, func(s *fold.State, _ book.Head) error {
		m, err := memberOf(s, person)
		if err != nil {
			return err
		}
		out, err = a.known(s, m)
		return err
	})
	return out, err
}

func (a *App) known(s *fold.State, m *fold.Member) (Known, error) {
	day := a.Today()
	p, _, err := m.On(day)
	if err != nil {
		return Known{}, err
	}
	p.ID = m.ID
	left, err := m.Left(day)
	private, _ := s.Private(m.ID, day, a)
	return Known{Person: p, Left: left, Forgotten: m.Gone, Name: private.Name != "", Mass: private.Mass != "", Contact: private.Contact != "",
		Address: private.Address != "", Qualified: private.Qualified != "", Employed: private.Employed != ""}, err
}

// Has says whether an entry with that id is in the book.
func (a *App) Has(ctx context.Context, id string) bool {
	x, err := entry.ParseID(id)
	if err != nil {
		return false
	}
	_, err = a.store.Find(ctx, x)
	return err == nil
}

// Limit gives the limit of doubt that holds today, in whole millionths, and
// whether it is the yard's own.
func (a *App) Limit(ctx context.Context) (millions int64, own bool, err error) {
	err = a.Look(ctx, func(s *fold.State, _ book.Head) error {
		if millions = s.LimitOn(a.Today()); millions != 0 {
			own = true
			return nil
		}
		millions = a.tables.Rules.Limit
		return nil
	})
	return millions, own, err
}
