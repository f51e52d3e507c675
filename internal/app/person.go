package app

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/seal"
)

// Member is somebody as a use case takes them: the sign that stands in the
// book, and what is sealed.
type Member struct {
	kit.Person
	fold.Private
	Left bool
	From qty.Day // 0 means today
	Keep bool    // what is empty of Role and Private, and Kappa where it is nil, stays as it is on record
}

// EnterPerson says who somebody is from a day on: for the first time, or anew.
// Who examines, how well somebody looks, another role, and who has left or is back, is
// for a competent person to say; the first person of a yard is one.
// Name, body mass and contact are sealed under a key of that person.
func (a *App) EnterPerson(ctx context.Context, who Who, m Member) (Written, error) {
	a = a.still()
	if m.ID == "" {
		return Written{}, fail(Invalid, "Give the person a short sign, such as p1; the name itself is sealed.")
	}
	if m.Mass != "" {
		if _, err := qty.ParseMass(m.Mass); err != nil {
			return Written{}, fail(Invalid, "The body mass: %v.", err)
		}
	}
	if m.From == 0 {
		m.From = a.Today()
	}
	m.Holds, m.Since, m.Until = false, 0, 0 // the entry's day says since when
	if m.Keep {                             // as it is on record
		if err := a.Look(ctx, func(s *fold.State, _ book.Head) error { return a.asOnRecord(s, &m) }); err != nil {
			return Written{}, err
		}
	}
	return a.put(ctx, who, draft{kind: entry.Person, day: m.From, same: func(old any) bool { return a.said(&m, who.ID, old) }, check: func(s *fold.State) error {
		if s.Member(m.ID) == nil && Tells(m.ID, m.Name) {
			return fail(Invalid, "“%s” is a part of the name, and a sign stands in the book in the open, for good: take one that says nothing, such as p4.", m.ID)
		}
		return a.mayTell(s, who.Person, &m)
	}, make: func(s *fold.State, id entry.ID) (any, error) {
		if m.Keep {
			known, _ := s.Private(m.ID, m.From, a)
			m.Private = fold.Private{Name: cmp.Or(m.Name, known.Name), Mass: cmp.Or(m.Mass, known.Mass), Contact: cmp.Or(m.Contact, known.Contact),
				Address: cmp.Or(m.Address, known.Address), Qualified: cmp.Or(m.Qualified, known.Qualified), Employed: cmp.Or(m.Employed, known.Employed)}
		}
		p := &fold.Person{Person: record.EncodePerson(&m.Person), Left: m.Left}
		plain := fold.EncodePrivate(&m.Private)
		if string(plain) == "{}" {
			return p, nil
		}
		k, err := a.keyOf(s.Member(m.ID), m.ID)
		if err == nil {
			p.Box, err = seal.Seal(k, boxPlace(m.ID, id), plain)
		}
		return p, err
	}})
}

// Tells says whether a sign gives a name away: it is the name, or one of its
// parts, whatever the case of its letters. A single letter tells nothing.
func Tells(sign, name string) bool {
	letters := func(s string) []string {
		return strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) })
	}
	parts, said := letters(name), strings.Join(letters(sign), "")
	if utf8.RuneCountInString(said) < 2 {
		return false
	}
	return strings.EqualFold(said, strings.Join(parts, "")) || slices.ContainsFunc(parts, func(p string) bool { return strings.EqualFold(p, said) })
}

// asOnRecord gives somebody the role and the rates that they have on record where
// none are said; who is new climbs.
func (a *App) asOnRecord(s *fold.State, m *Member) error {
	var now kit.Person
	if x := s.Member(m.ID); x != nil {
		all, err := x.Tells(m.From)
		if err != nil {
			return err
		}
		if n := len(all); n > 0 && all[n-1].Day <= m.From {
			now = all[n-1].Person
		}
	}
	m.Role = cmp.Or(m.Role, now.Role, "climber")
	if m.Kappa == nil {
		m.Kappa = now.Kappa
	}
	return nil
}

// mayTell refuses what only a competent person says of somebody: that they examine, or
// anything about who does; another role, other rates, that they have left or are back,
// as against each entry that it would count in place of.
func (a *App) mayTell(s *fold.State, person string, m *Member) error {
	if len(s.People) == 0 {
		if !m.Competent() || m.Left {
			return fail(Invalid, "The first person of a yard is a competent person or an examiner: nobody else could ever say who is one.")
		}
		return nil
	}
	known := false
	for _, x := range s.People {
		if x.ID != m.ID {
			continue
		}
		all, err := x.Tells(m.From)
		if err != nil {
			return err
		}
		for _, y := range all {
			if known = true; y.Role != m.Role || y.Left != m.Left || !maps.Equal(y.Kappa, m.Kappa) {
				return a.competent(s, person)
			}
		}
	}
	if m.Competent() || m.Left || !known && len(m.Kappa) > 0 {
		return a.competent(s, person)
	}
	return nil
}

// oneStays refuses what leaves a yard that has a competent person on a day without
// one: nobody could say any more who is. Without and with it are the states.
func (a *App) oneStays(without, with *fold.State, day qty.Day) error {
	last := ""
	for _, s := range [...]*fold.State{without, with} {
		was := last
		last = ""
		for _, x := range s.People {
			here, err := x.Here(day)
			if err != nil {
				return err
			}
			p, ok, err := x.On(day)
			if err != nil {
				return err
			}
			if here && ok && p.CompetentOn(day) {
				last = x.ID
			}
		}
		if s == with && was != "" && last == "" {
			return fail(Refused, "“%s” is the last competent person of the yard: say first who else is one.", was)
		}
	}
	return nil
}

// keyOf gives the key of somebody, and makes it where nothing of theirs was ever
// sealed. A new one would leave what is sealed closed for good.
func (a *App) keyOf(m *fold.Member, id string) (seal.Key, error) {
	key := a.keys.Make
	if m != nil && (m.Gone || m.Boxed()) {
		key = a.keys.Key
	}
	k, err := key(id)
	switch {
	case errors.Is(err, seal.ErrNone) && m != nil && !m.Gone:
		return k, fail(Refused, "The key of “%s” is not in the folder of the yard, and the book holds what is sealed with it: put the file back from a copy of the folder. If it is lost for good, have “%s” forgotten, and take another sign.", id, id)
	case errors.Is(err, seal.ErrForgotten):
		return k, fail(Refused, "“%s” has been forgotten and stays so: take another sign.", id)
	case err == nil && m != nil && m.Gone:
		return k, fail(Refused, "“%s” has been forgotten and stays so: take another sign.", id)
	}
	return k, err
}

// said says whether an entry in the book says of somebody what a new one would.
func (a *App) said(m *Member, id entry.ID, old any) bool {
	p, ok := old.(*fold.Person)
	if !ok || p.Left != m.Left || !bytes.Equal(p.Person, record.EncodePerson(&m.Person)) {
		return false
	}
	private, _ := a.Open(m.ID, id, p.Box)
	match := func(said, kept string) bool { return said == kept || m.Keep && said == "" }
	return match(m.Name, private.Name) && match(m.Mass, private.Mass) && match(m.Contact, private.Contact) &&
		match(m.Address, private.Address) && match(m.Qualified, private.Qualified) && match(m.Employed, private.Employed)
}

// ForgetPerson destroys a person's key, so that name, body mass and contact can
// never be read again. All else in the book stays as it is.
func (a *App) ForgetPerson(ctx context.Context, who Who, person, why string) (Written, error) {
	a = a.still()
	if why == "" {
		return Written{}, fail(Invalid, "Say why the person is forgotten.")
	}
	w, err := a.put(ctx, who, draft{kind: entry.Forget, day: a.Today(), body: &fold.Forget{Person: person, Why: why}, check: func(s *fold.State) error {
		_, err := memberOf(s, person)
		return err
	}})
	if err != nil {
		return w, err
	}
	return w, wrap(a.keys.Destroy(person))
}
