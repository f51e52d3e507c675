package app

import (
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
)

// may says whether a person may make an entry. In a yard without people anybody
// may say what the yard is called and who is the first of them.
func (a *App) may(s *fold.State, person string, d *draft) error {
	if person == "" {
		return fail(Invalid, "It is not said who enters this.")
	}
	if len(s.People) == 0 {
		if d.kind == entry.Person || d.kind == entry.Yard {
			return nil
		}
		return fail(NotFound, "Nobody is on record in this yard yet: enter a person first.")
	}
	m, err := memberOf(s, person)
	if err != nil {
		return err
	}
	here, err := m.Here(a.Today())
	if err != nil {
		return err
	}
	if !here {
		return fail(Refused, "“%s” is not in the yard today.", person)
	}
	switch d.kind {
	case entry.Decision, entry.Limit, entry.Yard, entry.Forget:
		return a.competent(s, person)
	}
	return nil
}

// competent refuses somebody who is no competent person of the yard today.
func (a *App) competent(s *fold.State, person string) error {
	m, err := memberOf(s, person)
	if err != nil {
		return err
	}
	p, ok, err := m.On(a.Today())
	if err == nil && (!ok || !p.CompetentOn(a.Today())) {
		err = fail(Refused, "“%s” is not on record as a competent person today, and this is for one.", person)
	}
	return err
}
