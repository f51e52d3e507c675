package app

import (
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
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
	case entry.Decision, entry.Limit, entry.Yard, entry.Forget, entry.Amend:
		return a.competent(s, person)
	}
	return nil
}

// ownSlip says whether somebody who is no competent person may correct an entry, or
// have a body stand instead: it is their own, of the same day, and holds nothing that
// makes an outcome stricter by itself: where a piece hangs, its use, a run of looks,
// or a look before use or by a partner that found nothing.
func (a *App) ownSlip(person string, l *fold.Line, instead []byte) bool {
	date := len("2006-01-02")
	if l.Void || l.Author != person || l.Wall[:date] != wall(a.clock())[:date] {
		return false
	}
	switch l.Kind {
	case entry.Hang, entry.Use, entry.Run:
		return true
	case entry.Examination:
		was, err := fold.Decode(l.Kind, l.Version, l.Body)
		if err != nil || !foundNothing(was.(*kit.Examination)) {
			return false
		}
		if len(instead) == 0 {
			return true
		}
		now, err := fold.Decode(l.Kind, l.Version, instead)
		return err != nil || now.(*kit.Examination).Kind.BeforeUse() // what cannot be read is refused after this
	}
	return false
}

// foundNothing says whether a look is one before use or by a partner with nothing in it but where was
// looked, and that its maker would climb.
func foundNothing(e *kit.Examination) bool {
	return e.Kind.BeforeUse() && e.WouldClimb == kit.SaidYes && len(e.Signs) == 0 && len(e.Readings) == 0 && len(e.Asked) == 0 && e.AfterEvent == ""
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
