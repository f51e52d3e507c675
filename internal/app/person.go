package app

import (
	"bytes"
	"cmp"
	"context"
	"errors"
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
	Keep bool    // what is empty of Role and Private stays as it is on record
}

// EnterPerson says who somebody is from a day on: for the first time, or anew.
// Who may examine, and how well somebody looks, is for a competent person to say.
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
	if m.Role == "" && m.Keep {             // as it is on record
		if err := a.Look(ctx, func(s *fold.State, _ book.Head) error { return a.sameRole(s, &m) }); err != nil {
			return Written{}, err
		}
	}
	return a.put(ctx, who, draft{kind: entry.Person, day: m.From, same: func(old any) bool { return a.said(&m, who.ID, old) }, check: func(s *fold.State) error {
		if s.Member(m.ID) == nil && Tells(m.ID, m.Name) {
			return fail(Invalid, "“%s” is a part of the name, and a sign stands in the book in the open, for good: take one that says nothing, such as p4.", m.ID)
		}
		if len(s.People) > 0 && (m.Competent() || len(m.Kappa) > 0) { // who examines, and how well somebody looks
			if err := a.competent(s, who.Person); err != nil {
				return err
			}
		}
		if m.Competent() && !m.Left {
			return nil
		}
		return a.oneStays(s, m.ID)
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
		k, err := a.keys.Make(m.ID)
		if errors.Is(err, seal.ErrForgotten) {
			return nil, fail(Refused, "“%s” has been forgotten and stays so: take another sign.", m.ID)
		}
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

// sameRole gives somebody the role that they have on record; who is new climbs.
func (a *App) sameRole(s *fold.State, m *Member) error {
	m.Role = "climber"
	for _, x := range s.People {
		if x.ID != m.ID {
			continue
		}
		p, ok, err := x.On(m.From)
		if err != nil {
			return err
		}
		if ok && p.Role != "" {
			m.Role = p.Role
		}
	}
	return nil
}

// oneStays refuses to take the role from the last competent person of the yard:
// nobody could give it to anybody any more.
func (a *App) oneStays(s *fold.State, id string) error {
	was, others := false, 0
	for _, x := range s.People {
		switch err := a.competent(s, x.ID); {
		case err != nil:
		case x.ID == id:
			was = true
		default:
			others++
		}
	}
	if was && others == 0 {
		return fail(Refused, "“%s” is the last competent person of the yard: say first who else is one.", id)
	}
	return nil
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
