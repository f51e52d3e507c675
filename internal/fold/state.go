// Package fold turns the entries of a book into what the yard knows: its
// people, its pieces, and the record of each piece that the judgement takes. It
// is told the entries in their order and nothing else; the same entries always
// give the same state. Nothing here decides.
package fold

import (
	"bytes"
	"fmt"
	"slices"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/record"
)

// State is what a book says up to one of its leaves.
type State struct {
	Size   int64 // leaves told so far
	Pieces []*Piece
	People []*Member
	Yard   kit.Yard // as last said; Limit apart
	Limits []LimitFrom
	Own    []int64 // indexes of the leaves that speak of the yard itself

	all    int64 // index of the last leaf that can matter to every piece
	byID   map[string]*Piece
	member map[string]*Member
	at     map[entry.ID]where
	Faulty []Fault // entries that could not be taken
}

// LimitFrom is a limit of doubt and the day from which it holds.
type LimitFrom struct {
	Day   qty.Day
	Limit int64 // whole millionths; 0 means the tables'
}

// Fault is an entry that could not be taken, and why. What is not understood
// never makes anything looser: the piece it is about is set aside, and where it is
// about the yard or its people, every piece.
type Fault struct {
	Index int64
	ID    entry.ID
	Piece string // "" where it is about none: then it can matter to any
	Why   string
}

// about says whether a fault can matter to what is known of a piece.
func (f *Fault) about(piece string) bool { return f.Piece == piece || f.Piece == "" }

// unread is the error that a piece has by a fault.
func (f *Fault) unread() error {
	if f.Piece == "" {
		return fmt.Errorf("entry %d of the book, about the yard or its people, cannot be read: %s", f.Index, f.Why)
	}
	return fmt.Errorf("entry %d of the book, about this piece, cannot be read: %s", f.Index, f.Why)
}

// FaultsOf gives the indexes of the leaves that could not be taken and can matter
// to a piece.
func (s *State) FaultsOf(piece string) []int64 {
	var out []int64
	for i := range s.Faulty {
		if s.Faulty[i].about(piece) {
			out = append(out, s.Faulty[i].Index)
		}
	}
	return out
}

// Line is one entry about a piece, as it counts now.
type Line struct {
	Index    int64
	ID       entry.ID
	Kind     entry.Kind
	Version  int
	Day      qty.Day
	Wall     string
	Recorded string
	Author   string
	Body     []byte
	By       entry.ID // the correction it was last changed by
	Void     bool     // a correction says that it should not be there
	Was      []byte   // the body before the first correction
}

// Piece is a piece with everything that was entered about it.
type Piece struct {
	ID    string
	Kind  kit.KindID
	Lines []Line
	last  int64 // index of the last leaf that is about it
	kept  kept
}

// Member is somebody of the yard, with every entry about them.
type Member struct {
	ID    string
	Lines []Line
	Gone  bool // the key was destroyed
	kept  kept
}

type where struct {
	piece *Piece
	who   *Member
	line  int
}

// New gives the state of an empty book.
func New() *State {
	return &State{byID: map[string]*Piece{}, member: map[string]*Member{}, at: map[entry.ID]where{}}
}

// Piece gives a piece by its id, or nil.
func (s *State) Piece(id string) *Piece { return s.byID[id] }

// Member gives somebody by their id, or nil.
func (s *State) Member(id string) *Member { return s.member[id] }

// Last gives the index of the last leaf that can change what is known of a
// piece: one about it, about somebody, or about the yard.
func (s *State) Last(p *Piece) int64 { return max(p.last, s.all) }

// Apply takes the next leaf. It never fails: what cannot be taken is among Faulty.
func (s *State) Apply(l *entry.Leaf) {
	e := &l.Entry
	index := s.Size
	s.Size++
	if err := s.take(index, l); err != nil {
		s.Faulty = append(s.Faulty, Fault{index, e.ID, e.Piece, err.Error()})
		if p := s.byID[e.Piece]; p != nil {
			p.last = index
		} else if e.Piece == "" {
			s.all = index
		}
	}
}

func (s *State) take(index int64, l *entry.Leaf) error {
	e := &l.Entry
	if _, twice := s.at[e.ID]; twice {
		return fmt.Errorf("its id stands in the book twice")
	}
	// The body is copied, so that the rest of the line it was read from is let go.
	line := Line{Index: index, ID: e.ID, Kind: e.Kind, Version: e.Version, Day: e.Day, Wall: e.Wall, Recorded: l.Recorded, Author: e.Author, Body: bytes.Clone(e.Body)}
	switch e.Kind {
	case entry.Yard, entry.Limit:
		s.at[e.ID], s.Own = where{}, append(s.Own, index)
		return s.yard(&line)
	case entry.Person, entry.Forget:
		return s.person(&line)
	case entry.Correct:
		return s.correct(&line)
	}
	if e.Piece == "" {
		return fmt.Errorf("it says of no piece what it is about")
	}
	p := s.byID[e.Piece]
	switch {
	case p == nil && e.Kind != entry.Piece:
		return fmt.Errorf("no piece “%s” is in the book before it", e.Piece)
	case p != nil && e.Kind == entry.Piece:
		return fmt.Errorf("the piece “%s” is in the book already", e.Piece)
	case p == nil:
		v, err := Decode(e.Kind, e.Version, e.Body)
		if err != nil {
			return err
		}
		piece := v.(*kit.Piece)
		if piece.ID != e.Piece {
			return fmt.Errorf("its body is about “%s”, its head about “%s”", piece.ID, e.Piece)
		}
		p = &Piece{ID: piece.ID, Kind: piece.Kind}
		s.Pieces, s.byID[p.ID] = append(s.Pieces, p), p
	case e.Kind == entry.Amend:
		if err := p.describes(e.Version, e.Body); err != nil {
			return err
		}
	}
	s.at[e.ID] = where{piece: p, line: len(p.Lines)}
	p.Lines, p.last = append(p.Lines, line), index
	return nil
}

// yard takes what is said of the yard itself.
func (s *State) yard(l *Line) error {
	v, err := Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		return err
	}
	switch b := v.(type) {
	case *kit.Yard:
		s.Yard = *b
	case *Limit:
		n, err := b.Millions()
		if err != nil {
			return err
		}
		s.Limits = append(s.Limits, LimitFrom{l.Day, n})
	}
	s.all = l.Index
	return nil
}

// person takes what is said of somebody.
func (s *State) person(l *Line) error {
	v, err := Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		return err
	}
	id := ""
	switch b := v.(type) {
	case *Person:
		p, err := b.block()
		if err != nil {
			return err
		}
		id = p.ID
	case *Forget:
		id = b.Person
		if s.member[id] == nil {
			return fmt.Errorf("nobody “%s” is in the book before it", id)
		}
	}
	m := s.member[id]
	if m == nil {
		m = &Member{ID: id}
		s.People, s.member[id] = append(s.People, m), m
	}
	m.Gone = m.Gone || l.Kind == entry.Forget
	s.at[l.ID] = where{who: m, line: len(m.Lines)}
	m.Lines = append(m.Lines, *l)
	s.all = l.Index // a role or a body mass can matter to any piece
	return nil
}

// correct changes how an earlier entry counts. The entry itself stays.
func (s *State) correct(l *Line) error {
	v, err := Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		return err
	}
	c := v.(*Correct)
	id, err := entry.ParseID(c.Entry)
	if err != nil {
		return err
	}
	at, ok := s.at[id]
	if !ok {
		return fmt.Errorf("no entry %s is in the book before it", c.Entry)
	}
	var old *Line
	switch {
	case at.piece != nil:
		old = &at.piece.Lines[at.line]
	case at.who != nil:
		old = &at.who.Lines[at.line]
	default:
		return fmt.Errorf("what is said of the yard itself is not corrected, but said anew")
	}
	switch {
	case old.Kind == entry.Piece && len(c.Instead) == 0:
		return fmt.Errorf("a piece cannot be taken out of the book again: withdraw it, with the reason")
	case len(c.Instead) > 0:
		body, err := Decode(old.Kind, old.Version, c.Instead)
		if err != nil {
			return fmt.Errorf("what is to stand instead: %w", err)
		}
		switch b := body.(type) {
		case *kit.Piece:
			if b.ID != at.piece.ID {
				return fmt.Errorf("a correction cannot give a piece another id")
			}
			if b.Kind != at.piece.Kind && at.piece.amended() {
				return fmt.Errorf("the piece has been described anew as “%s” since: strike those entries first, correct the kind, and describe it anew then", at.piece.Kind)
			}
			at.piece.Kind = b.Kind
		case *Amend:
			if err := at.piece.describes(old.Version, c.Instead); err != nil {
				return err
			}
		}
	}
	if old.Was == nil {
		old.Was = old.Body
	}
	old.By, old.Void = l.ID, len(c.Instead) == 0
	if !old.Void {
		old.Body = c.Instead
		if day, ok := dayOf(old.Kind, old.Version, c.Instead); ok {
			old.Day = day
		}
	}
	s.at[l.ID] = where{}
	if at.piece != nil {
		at.piece.kept.forget(at.line)
		at.piece.Lines, at.piece.last = append(at.piece.Lines, *l), l.Index
		return nil
	}
	at.who.kept.forget(at.line)
	at.who.Lines = append(at.who.Lines, *l)
	s.all = l.Index
	return nil
}

// describes says why the body of an amend cannot be about a piece. What a piece is
// stays what it was registered as: another kind has other reasons.
func (p *Piece) describes(version int, body []byte) error {
	v, err := Decode(entry.Amend, version, body)
	if err != nil {
		return err
	}
	now, faults := record.DecodePiece("piece", v.(*Amend).Piece)
	switch {
	case len(faults) > 0:
		return faults.Err()
	case now.ID != p.ID:
		return fmt.Errorf("it describes “%s”, and is about “%s”: an id stays", now.ID, p.ID)
	case now.Kind != p.Kind:
		return fmt.Errorf("it makes a “%s” of “%s”, which is registered as “%s”: a kind stays. Where it was wrong from the beginning, a competent person corrects the entry that registers the piece", now.Kind, p.ID, p.Kind)
	}
	return nil
}

// amended says whether an entry that counts describes the piece anew.
func (p *Piece) amended() bool {
	return slices.ContainsFunc(p.Lines, func(l Line) bool { return l.Kind == entry.Amend && !l.Void })
}

// HungAfter says whether it is on record who held a piece, or where it hung, from a
// day after a day on.
func (p *Piece) HungAfter(day qty.Day) bool {
	return slices.ContainsFunc(p.Lines, func(l Line) bool { return l.Kind == entry.Hang && !l.Void && l.Day > day })
}

// Line gives an entry about a piece or somebody, as it counts now; false for any other.
func (s *State) Line(id entry.ID) (Line, bool) {
	switch w := s.at[id]; {
	case w.piece != nil:
		return w.piece.Lines[w.line], true
	case w.who != nil:
		return w.who.Lines[w.line], true
	}
	return Line{}, false
}

// Without gives the piece as people's acts left it before one of its entries, or,
// where also later is said, without that entry alone. It is for Stopped.
func (p *Piece) Without(id entry.ID, later bool) *Piece {
	x := &Piece{ID: p.ID, Kind: p.Kind}
	for i := range p.Lines {
		if p.Lines[i].ID != id {
			x.Lines = append(x.Lines, p.Lines[i])
		} else if !later {
			break
		}
	}
	return x
}

// Told is what an entry says of somebody.
type Told struct {
	kit.Person
	Left bool
	Day  qty.Day
}

// Tells gives what the entries about somebody say that can count on a day or after
// it, the last entry first: up to the one that counts on that day.
func (m *Member) Tells(day qty.Day) ([]Told, error) {
	var out []Told
	for i := len(m.Lines) - 1; i >= 0; i-- {
		l := &m.Lines[i]
		if l.Kind != entry.Person || l.Void {
			continue
		}
		v, err := m.kept.body(m.Lines, i)
		if err != nil {
			return nil, fmt.Errorf("entry %d of the book: %w", l.Index, err)
		}
		x := v.(*somebody)
		out = append(out, Told{x.person, x.Left, l.Day})
		if l.Day <= day {
			break
		}
	}
	return out, nil
}

// Boxed says whether anything was ever sealed about somebody.
func (m *Member) Boxed() bool {
	return slices.ContainsFunc(m.Lines, func(l Line) bool {
		for _, body := range [...][]byte{l.Body, l.Was} {
			if v, err := Decode(l.Kind, l.Version, body); err == nil {
				if p, ok := v.(*Person); ok && p.Box != "" {
					return true
				}
			}
		}
		return false
	})
}

// dayOf gives the day that the body of an entry says itself.
func dayOf(k entry.Kind, version int, body []byte) (qty.Day, bool) {
	v, err := Decode(k, version, body)
	if err != nil {
		return 0, false
	}
	switch b := v.(type) {
	case *kit.Examination:
		return b.Day, true
	case *kit.Event:
		return b.Day, true
	case *kit.Answer:
		return b.Day, true
	case *kit.Change:
		return b.Day, true
	case *kit.Run:
		return b.From, true
	}
	return 0, false
}
