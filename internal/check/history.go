package check

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/record"
	"kernbook/internal/seal"
)

// history is a book sorted by what its entries are about. Nothing is worked out
// in advance: what held at some size of the book is asked of the entries below
// that index, each time anew.
type history struct {
	keys   seal.Keys
	all    map[string]*item
	yard   []*item // kinds yard and limit
	people []*person
	pieces map[string][]*item
	stands map[string]standing // by person and day, as of the last entry about people
}

// person is somebody with everything that was entered about them.
type person struct {
	id    string
	items []*item // kinds person and forget
}

// item is an entry with what corrections made of it.
type item struct {
	index int64
	id    string
	kind  string
	piece string
	whose string // the person it is about
	by    string // who entered it
	on    string // the day of its wall time
	day   qty.Day
	body  json.RawMessage
	fixes []fix
}

// fix is a correction: from its index on the body counts in place of the
// entry's own; none means that the entry counts no more.
type fix struct {
	index int64
	body  json.RawMessage
	day   qty.Day
}

func newHistory(keys seal.Keys) *history {
	return &history{keys: keys, all: map[string]*item{}, pieces: map[string][]*item{}, stands: map[string]standing{}}
}

// at gives what counted of an entry when the book had so many entries.
func (x *item) at(size int64) (body json.RawMessage, day qty.Day) {
	body, day = x.body, x.day
	for _, f := range x.fixes {
		if f.index < size {
			body, day = f.body, f.day
		}
	}
	return body, day
}

// take takes the next entry and gives its body; an error says why it cannot stand
// where it does.
func (h *history) take(index int64, e *envelope) (any, error) {
	if old := h.all[e.ID]; old != nil {
		return nil, fmt.Errorf("its id is that of entry %d", old.index)
	}
	v, err := readBody(e.Kind, e.Body)
	if err != nil {
		return nil, err
	}
	day, err := dayOf(e.Day)
	if err != nil {
		return nil, err
	}
	x := &item{index: index, id: e.ID, kind: e.Kind, piece: e.Piece, day: day, body: e.Body, by: e.Author, on: dateOf(e)}
	switch b := v.(type) {
	case *kit.Yard, *limitBody:
		h.yard = append(h.yard, x)
	case *personBody:
		x.whose = b.block.ID
		if p := h.person(x.whose, index); p != nil {
			p.items = append(p.items, x)
		} else {
			h.people = append(h.people, &person{x.whose, []*item{x}})
		}
		if err := h.opens(x, b); err != nil {
			return nil, err
		}
	case *forgetBody:
		x.whose = b.Person
		p := h.person(x.whose, index)
		if p == nil {
			return nil, fmt.Errorf("it forgets “%s”, of whom no entry before it speaks", b.Person)
		}
		p.items = append(p.items, x)
	case *correctBody:
		if err := h.correct(x, b); err != nil {
			return nil, err
		}
	case *kit.Piece:
		switch {
		case b.ID == "" || b.ID != e.Piece:
			return nil, fmt.Errorf("its head is about “%s”, its body about “%s”", e.Piece, b.ID)
		case h.pieces[b.ID] != nil:
			return nil, fmt.Errorf("the piece “%s” is in the book already, as entry %d", b.ID, h.pieces[b.ID][0].index)
		}
		h.pieces[b.ID] = []*item{x}
	default:
		if h.pieces[e.Piece] == nil {
			return nil, fmt.Errorf("it is about “%s”, and no entry before it registers such a piece", e.Piece)
		}
		if b, ok := v.(*amendBody); ok {
			if err := h.describes(e.Piece, b, index); err != nil {
				return nil, err
			}
		}
		h.pieces[e.Piece] = append(h.pieces[e.Piece], x)
	}
	h.all[x.id] = x
	return v, nil
}

// correct puts a correction to the entry that it speaks of.
func (h *history) correct(x *item, b *correctBody) error {
	old := h.all[b.Entry]
	switch {
	case old == nil:
		return fmt.Errorf("it corrects %s, which is no entry before it", b.Entry)
	case old.kind == kYard || old.kind == kLimit || old.kind == kCorrect:
		return fmt.Errorf("it corrects entry %d of the kind “%s”, which is not corrected but said anew", old.index, old.kind)
	case old.piece != x.piece:
		return fmt.Errorf("it is about “%s” and corrects entry %d, which is about “%s”", x.piece, old.index, old.piece)
	case len(b.Instead) == 0 && old.kind == kPiece:
		return fmt.Errorf("it takes the piece “%s” out of the book", old.piece)
	}
	f := fix{index: x.index, body: b.Instead}
	_, f.day = old.at(x.index)
	if len(b.Instead) > 0 {
		v, err := readBody(old.kind, b.Instead)
		if err != nil {
			return fmt.Errorf("what is to stand instead of entry %d: %w", old.index, err)
		}
		switch n := v.(type) {
		case *kit.Piece:
			if n.ID != old.piece {
				return fmt.Errorf("it gives the piece “%s” another id", old.piece)
			}
			was, err := h.kindOf(old.piece, x.index)
			if err != nil {
				return err
			}
			for _, y := range h.pieces[old.piece] {
				if body, _ := y.at(x.index); y.kind == kAmend && body != nil && n.Kind != was {
					return fmt.Errorf("it makes a “%s” of “%s”, which entry %d describes as “%s”", n.Kind, old.piece, y.index, was)
				}
			}
		case *amendBody:
			if err := h.describes(old.piece, n, x.index); err != nil {
				return err
			}
		// these say their day themselves
		case *kit.Examination:
			f.day = n.Day
		case *kit.Event:
			f.day = n.Day
		case *kit.Answer:
			f.day = n.Day
		case *kit.Change:
			f.day = n.Day
		case *kit.Run:
			f.day = n.From
		}
	}
	old.fixes = append(old.fixes, f)
	return nil
}

// kindOf gives the kind of which a piece was registered, as a book of a size had it.
func (h *history) kindOf(piece string, size int64) (kit.KindID, error) {
	body, _ := h.pieces[piece][0].at(size)
	v, err := readBody(kPiece, body)
	if err != nil {
		return "", err
	}
	return v.(*kit.Piece).Kind, nil
}

// describes says why a description cannot be that of a piece: it has another id, or
// another kind, which has other reasons.
func (h *history) describes(piece string, b *amendBody, size int64) error {
	kind, err := h.kindOf(piece, size)
	switch {
	case err != nil:
		return err
	case b.block.ID != piece:
		return fmt.Errorf("it is about “%s”, and describes “%s”", piece, b.block.ID)
	case b.block.Kind != kind:
		return fmt.Errorf("it makes a “%s” of “%s”, which is registered as “%s”", b.block.Kind, piece, kind)
	}
	return nil
}

// dateOf gives the day of the wall time of an entry.
func dateOf(e *envelope) string { return e.Wall[:len("2006-01-02")] }

// person gives somebody of whom an entry below an index speaks.
func (h *history) person(id string, below int64) *person {
	for _, p := range h.people {
		if p.id == id && p.items[0].index < below {
			return p
		}
	}
	return nil
}

// forgotten says whether an entry below an index forgets somebody.
func (p *person) forgotten(below int64) bool {
	return slices.ContainsFunc(p.items, func(x *item) bool { return x.kind == kForget && x.index < below })
}

// opens sees that a box opens with its person's key, where there is one.
func (h *history) opens(x *item, b *personBody) error {
	if b.Box == "" {
		return nil
	}
	_, err := h.unseal(x, b.Box)
	if errors.As(err, new(missing)) || errors.As(err, new(keyless)) {
		return nil
	}
	return err
}

// missing says that something which is kept beside the book is not there, so
// that part of it can be neither held nor refuted.
type missing string

func (m missing) Error() string { return string(m) }

// keyless is a missing key: that of the person.
type keyless string

func (k keyless) Error() string { return "the key of " + string(k) + " is not here" }

// unseal opens the box of an entry about a person. Where there is no key it is
// keyless, or missing; a box that does not open with its key is another error.
func (h *history) unseal(x *item, box string) (sealed, error) {
	var s sealed
	if h.keys == nil {
		return s, missing("the yard's keys are not here")
	}
	k, err := h.keys.Key(x.whose)
	switch {
	case errors.Is(err, seal.ErrForgotten):
		return s, keyless(x.whose)
	case err != nil:
		return s, missing(err.Error())
	}
	plain, err := seal.Open(k, "person "+x.whose+" entry "+x.id, box)
	if err != nil {
		return s, fmt.Errorf("the box of “%s” does not open with the key that is kept: box or key is not what it was", x.whose)
	}
	return s, strictly(plain, &s)
}

// mass gives the body mass of somebody as it was known on a day to a book of a
// size; 0 where it was not known. Missing or keyless says that it was known and
// is not to be had any more.
func (h *history) mass(id string, day qty.Day, size int64) (qty.Mass, error) {
	p := h.person(id, size)
	if p == nil || p.forgotten(size) {
		return 0, nil
	}
	for i := len(p.items) - 1; i >= 0; i-- {
		x := p.items[i]
		body, from := x.at(size)
		if x.index >= size || x.kind != kPerson || body == nil || from > day && i > 0 {
			continue
		}
		b := personBody{}
		if err := strictly(body, &b); err != nil {
			return 0, err
		}
		if b.Box == "" {
			continue
		}
		s, err := h.unseal(x, b.Box)
		if err != nil {
			return 0, err
		}
		m, err := qty.ParseMass(s.Mass)
		if err != nil {
			return 0, nil // none was said
		}
		return m, nil
	}
	return 0, nil
}

func dayOf(s string) (qty.Day, error) {
	d, err := qty.ParseDate(s)
	if err != nil || !d.Exact() {
		return 0, fmt.Errorf("“%s” is no day", s)
	}
	return d.Earliest(), nil
}

// role gives somebody as they were on a day to a book of a size: false before
// they came. Since and until when is told by the days of their entries, for the
// last role in which they could examine.
func (p *person) role(on qty.Day, size int64) (kit.Person, bool, error) {
	stays, err := p.stays(on, size)
	if err != nil {
		return kit.Person{}, false, err
	}
	if len(stays) == 0 {
		return kit.Person{ID: p.id}, false, nil
	}
	for i := 1; i < len(stays); i++ { // a role in which they examine goes on where the next entry leaves it so
		if stays[i].examines && stays[i-1].examines {
			stays[i].Since = stays[i-1].Since
		}
	}
	now := stays[len(stays)-1]
	for i := len(stays) - 2; i >= 0 && !now.examines; i-- { // what they did as examiners still counts
		if then := stays[i]; then.examines {
			then.ID, then.Kappa, then.Until = now.ID, now.Kappa, stays[i+1].Since-1
			return then.Person, true, nil
		}
	}
	return now.Person, true, nil
}

// limit gives the yard's limit of doubt on a day, in whole millionths; 0 stands
// for the tables' own.
func (h *history) limit(on qty.Day, size int64) (int64, error) {
	limit, since := int64(0), qty.FirstDay
	for _, x := range h.yard {
		if x.kind != kLimit || x.index >= size || x.day > on || x.day < since {
			continue
		}
		var b limitBody
		if err := strictly(x.body, &b); err != nil {
			return 0, err
		}
		n, err := b.millionths()
		if err != nil {
			return 0, err
		}
		limit, since = n, x.day
	}
	return limit, nil
}

// named gives what the yard was called.
func (h *history) named(size int64) (kit.Yard, error) {
	for i := len(h.yard) - 1; i >= 0; i-- {
		if x := h.yard[i]; x.kind == kYard && x.index < size {
			y, faults := record.DecodeYard("the yard", x.body)
			return y, faults.Err()
		}
	}
	return kit.Yard{}, nil
}
