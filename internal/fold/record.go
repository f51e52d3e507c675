package fold

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/record"
)

// Secrets opens what is sealed. Nil, or an answer of false, is a person who was
// forgotten, or a reader who has no key: then nothing is known.
type Secrets interface {
	// Open gives what stands in the box of an entry about a person.
	Open(person string, id entry.ID, box string) (Private, bool)
}

// block reads the block of a person.
func (b *Person) block() (kit.Person, error) {
	p, faults := record.DecodePerson("person", b.Person)
	return p, faults.Err()
}

// Millions reads the limit in whole millionths, rounded to the stricter side; 0
// stands for the tables' own.
func (b *Limit) Millions() (int64, error) {
	if b.Limit == "" {
		return 0, nil
	}
	n, err := strconv.ParseInt(strings.TrimPrefix(b.Limit, "1 in "), 10, 64)
	if err != nil || n < 1 || n > 1_000_000 || !strings.HasPrefix(b.Limit, "1 in ") {
		return 0, fmt.Errorf("“%s” is no limit of doubt, such as “1 in 1000”", b.Limit)
	}
	return 1_000_000 / n, nil
}

// LimitOn gives the yard's limit of doubt on a day, in whole millionths; 0
// stands for the tables' own.
func (s *State) LimitOn(day qty.Day) int64 {
	limit, from := int64(0), qty.Day(0)
	for _, l := range s.Limits {
		if l.Day <= day && l.Day >= from {
			limit, from = l.Limit, l.Day
		}
	}
	return limit
}

// Record puts together the record of a piece as the judgement takes it, for a
// day. Entries that were corrected count as they were corrected. An entry that
// cannot be read makes an error: what is on record but not understood must not
// be left out. The record shares its lists with the state, and must not be changed.
func (s *State) Record(p *Piece, asOf qty.Day, secrets Secrets) (*kit.Record, error) {
	r := &kit.Record{Yard: s.Yard, AsOf: asOf}
	r.Yard.Limit = s.LimitOn(asOf)
	for i := range s.Faulty {
		if s.Faulty[i].about(p.ID) {
			return nil, s.Faulty[i].unread()
		}
	}
	b := builder{s: s, r: r, secrets: secrets}
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Void || l.Kind == entry.Correct {
			continue
		}
		if err := b.line(p, i); err != nil {
			return nil, fmt.Errorf("entry %d of the book: %w", l.Index, err)
		}
	}
	b.washings()
	if err := b.people(); err != nil {
		return nil, err
	}
	b.independence()
	return r, nil
}

// builder puts one record together.
type builder struct {
	s       *State
	r       *kit.Record
	secrets Secrets
	washed  []washed
	order   []int64 // index in the book of each examination
	fit     qty.Day
	hung    qty.Day
	holder  string
	hands   []handed // who held it, in the order of entry
}

type washed struct {
	day   qty.Day
	index int64
	Washing
}

func (b *builder) line(p *Piece, i int) error {
	l := &p.Lines[i]
	v, err := p.kept.body(p.Lines, i)
	if err != nil {
		return err
	}
	r := b.r
	late := l.Day > r.AsOf
	switch x := v.(type) {
	case *kit.Piece:
		r.Piece = *x
		b.fit, b.hung = l.Day, l.Day
	case *amended:
		if late {
			return nil
		}
		now := x.piece
		now.Fitted, now.StoredIn = r.Piece.Fitted, r.Piece.StoredIn
		r.Piece = now
	case *used:
		u := x.use
		u.Mass = b.mass(x.of, l.Day)
		r.Uses = slices.DeleteFunc(r.Uses, func(o kit.Use) bool { return o.From == u.From }) // said anew
		r.Uses = append(r.Uses, u)
	case *kit.Examination:
		r.Examinations = append(r.Examinations, *x)
		b.order = append(b.order, l.Index)
	case *kit.Run:
		r.Runs = append(r.Runs, *x)
	case *kit.Event:
		r.Events = append(r.Events, *x)
	case *kit.Answer:
		r.Answers = append(r.Answers, *x)
	case *kit.Change:
		r.Changes = append(r.Changes, *x)
	case *Washing:
		b.washed = append(b.washed, washed{l.Day, l.Index, *x})
	case *Fit:
		if !late && l.Day >= b.fit {
			r.Piece.Fitted, b.fit = kit.Fitted{In: x.In, Allowed: x.Allowed, Document: x.Document}, l.Day
		}
	case *Hang:
		b.hands = append(b.hands, handed{l.Day, x.Holder})
		if !late && l.Day >= b.hung {
			b.holder, b.hung = x.Holder, l.Day
			r.Piece.StoredIn = "used"
			if x.Holder == "" {
				r.Piece.StoredIn = "store"
			}
		}
	case *Stop, *Decision:
		// what people did about it is shown beside the judgement, not judged
	default:
		return fmt.Errorf("a body of the kind “%s” has no place in a record", l.Kind)
	}
	return nil
}

// mass gives the body mass of a person as last said up to a day; 0 where it is
// not known, or was forgotten.
func (b *builder) mass(person string, day qty.Day) qty.Mass {
	if person == "" || b.secrets == nil {
		return 0
	}
	private, ok := b.s.Private(person, day, b.secrets)
	if !ok || private.Mass == "" {
		return 0
	}
	m, err := qty.ParseMass(private.Mass)
	if err != nil {
		return 0
	}
	return m
}

// Private gives what is sealed about a person as last said up to a day.
func (s *State) Private(person string, day qty.Day, secrets Secrets) (Private, bool) {
	m := s.member[person]
	if m == nil || m.Gone || secrets == nil {
		return Private{}, false
	}
	for i := len(m.Lines) - 1; i >= 0; i-- {
		l := &m.Lines[i]
		if l.Kind != entry.Person || l.Void || l.Day > day && i > 0 {
			continue
		}
		v, err := m.kept.body(m.Lines, i)
		if err != nil {
			return Private{}, false
		}
		if x := v.(*somebody); x.Box != "" {
			return secrets.Open(person, l.ID, x.Box)
		}
	}
	return Private{}, false
}

// washings marks what was looked at after a washing on the same day, and the
// spills that were washed out: no washing takes out what came on a later day.
func (b *builder) washings() {
	for _, w := range b.washed {
		for i := range b.r.Examinations {
			e := &b.r.Examinations[i]
			if e.Day != w.day || b.order[i] < w.index {
				continue
			}
			e.Looks, e.Signs = slices.Clone(e.Looks), slices.Clone(e.Signs) // those of the entry stay as it says
			for k := range e.Looks {
				e.Looks[k].AfterWash = true
			}
			for k := range e.Signs {
				e.Signs[k].AfterWash = true
			}
		}
		for i := range b.r.Events {
			if e := &b.r.Events[i]; w.Event != "" && e.Ref == w.Event && e.Washed == kit.NotSaid && w.day >= e.Day {
				e.Washed = w.Clean
			}
		}
	}
}

// people puts in everybody of the yard, with their roles on the day.
func (b *builder) people() error {
	for _, m := range b.s.People {
		p, ok, err := m.On(b.r.AsOf)
		if err != nil {
			return err
		}
		if !ok {
			p = kit.Person{ID: m.ID} // not yet, or no longer, in any role
		}
		p.Holds = p.ID == b.holder && b.holder != ""
		b.r.People = append(b.r.People, p)
	}
	return nil
}

// On gives somebody as they were on a day, with the days from which and up to
// which they held their last competent role: false before they came.
func (m *Member) On(day qty.Day) (kit.Person, bool, error) {
	var out kit.Person
	found := false
	last := kit.Person{} // as a competent person, where they are one no longer
	for i := range m.Lines {
		l := &m.Lines[i]
		if l.Kind != entry.Person || l.Void || l.Day > day {
			continue
		}
		v, err := m.kept.body(m.Lines, i)
		if err != nil {
			return kit.Person{}, false, fmt.Errorf("entry %d of the book: %w", l.Index, err)
		}
		x := v.(*somebody)
		p := x.person
		p.Since, p.Until = l.Day, 0
		switch {
		case x.Left:
			p.Role = ""
		case found && p.Competent() && out.Competent():
			p.Since = out.Since
		}
		if out.Competent() && !p.Competent() {
			last = out
			last.Until = l.Day - 1
		}
		out, found = p, true
	}
	if !out.Competent() && last.Competent() { // what they did as one still counts
		last.ID, last.Kappa = out.ID, out.Kappa
		return last, found, nil
	}
	return out, found, nil
}

// Here says whether somebody is in the yard on a day: they have come, and have
// not left.
func (m *Member) Here(day qty.Day) (bool, error) {
	x, err := m.said(day)
	return x != nil && !x.Left, err
}

// Left says whether somebody has left the yard by a day.
func (m *Member) Left(day qty.Day) (bool, error) {
	x, err := m.said(day)
	return x != nil && x.Left, err
}

// said gives what was last said of somebody up to a day; nil for nothing.
func (m *Member) said(day qty.Day) (*Person, error) {
	for i := len(m.Lines) - 1; i >= 0; i-- {
		l := &m.Lines[i]
		if l.Kind != entry.Person || l.Void || l.Day > day {
			continue
		}
		v, err := m.kept.body(m.Lines, i)
		if err != nil {
			return nil, fmt.Errorf("entry %d of the book: %w", l.Index, err)
		}
		return v.(*somebody).Person, nil
	}
	return nil, nil
}

// Branch gives a copy of the state to try entries on that are about one piece,
// which may be a new one, about people, or about the yard. It shares all other
// pieces with the state: it must be told nothing about them.
func (s *State) Branch(piece string) *State {
	t := &State{Size: s.Size, Pieces: slices.Clone(s.Pieces), People: slices.Clone(s.People), Yard: s.Yard, Limits: slices.Clone(s.Limits), Own: slices.Clone(s.Own),
		all: s.all, byID: maps.Clone(s.byID), member: maps.Clone(s.member), at: maps.Clone(s.at), Faulty: slices.Clone(s.Faulty)}
	for i, m := range s.People {
		x := &Member{ID: m.ID, Lines: slices.Clone(m.Lines), Gone: m.Gone}
		x.kept.of = m.kept.copy()
		t.People[i], t.member[m.ID] = x, x
		for n := range x.Lines {
			if t.at[x.Lines[n].ID].who != nil { // a correction is about nothing
				t.at[x.Lines[n].ID] = where{who: x, line: n}
			}
		}
	}
	for i, p := range s.Pieces {
		if p.ID != piece {
			continue
		}
		x := &Piece{ID: p.ID, Kind: p.Kind, Lines: slices.Clone(p.Lines), last: p.last}
		x.kept.of = p.kept.copy()
		t.Pieces[i], t.byID[p.ID] = x, x
		for n := range x.Lines {
			if t.at[x.Lines[n].ID].piece != nil {
				t.at[x.Lines[n].ID] = where{piece: x, line: n}
			}
		}
	}
	return t
}

// With gives the record of a leaf's piece as it would be with that leaf, which
// the state does not take. The leaf must be about a piece.
func (s *State) With(l *entry.Leaf, asOf qty.Day, secrets Secrets) (*kit.Record, error) {
	t := &State{Size: s.Size, Yard: s.Yard, Limits: s.Limits, People: s.People, member: s.member, byID: map[string]*Piece{}, at: map[entry.ID]where{}}
	id := l.Entry.Piece
	if old := s.byID[id]; old != nil {
		p := &Piece{ID: old.ID, Kind: old.Kind, Lines: slices.Clone(old.Lines)}
		p.kept.of = old.kept.copy()
		t.Pieces, t.byID[id] = []*Piece{p}, p
		for i := range p.Lines {
			t.at[p.Lines[i].ID] = where{piece: p, line: i}
		}
	}
	for i := range s.Faulty {
		if s.Faulty[i].about(id) {
			t.Faulty = append(t.Faulty, s.Faulty[i])
		}
	}
	if err := t.take(t.Size, l); err != nil {
		return nil, err
	}
	if t.byID[id] == nil {
		return nil, fmt.Errorf("no piece “%s” is in the book", id)
	}
	return t.Record(t.byID[id], asOf, secrets)
}
