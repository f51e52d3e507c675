package app

import (
	"reflect"
	"slices"
	"sync"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/record"
)

// known is what is kept of a piece: its outcome, and what that was worked out from,
// so that another day begins where this one ended.
type known struct {
	mu     sync.Mutex
	judged judged
	reading
	belief *decide.Carried // as far as what was read leads; nil where there is none
	people []kit.Person    // that the belief was followed with
}

// reading is a record as the entries give it, and as it reads from the form of a file.
type reading struct{ raw, read *kit.Record }

// strictly gives a record as it reads from the form of a file. Where only the day is
// a later one, or the yard and its people are said otherwise, which were read with
// another piece already, it is put together from what was read before.
func (a *App) strictly(k *known, id string, raw *kit.Record) (*kit.Record, error) {
	a.mu.Lock()
	head := a.head
	a.mu.Unlock()
	r := k.again(raw, head)
	if r == nil {
		r = k.again(raw, k.reading)
	}
	if r == nil {
		var err error
		if r, err = strict(id, raw, a.tables); err != nil {
			k.reading, k.belief = reading{}, nil
			return nil, err
		}
		k.belief = nil
		a.mu.Lock()
		a.head = reading{raw, r}
		a.mu.Unlock()
	}
	k.reading = reading{raw, r}
	if len(r.People) < len(k.people) || !reflect.DeepEqual(r.People[:len(k.people)], k.people) {
		k.belief = nil // who looked, and how well, matters to it
	}
	return r, nil
}

// strict reads a record as from a file.
func strict(id string, raw *kit.Record, t *table.Tables) (*kit.Record, error) {
	r, faults := record.DecodeJSON(id, record.Encode(raw), t)
	if err := faults.Err(); err != nil {
		return nil, err
	}
	r.AsOf = raw.AsOf
	return r, nil
}

// again gives a record from what was read before of the same piece, and of the yard
// and its people with any piece; nil where something else is said. The reader holds
// nothing of the piece against the yard and its people but that whoever is named is
// there, and against the day only that it is not before the piece was made.
func (x *reading) again(raw *kit.Record, head reading) *kit.Record {
	if x.raw == nil || head.raw == nil || raw.AsOf < x.raw.AsOf || raw.Yard != head.raw.Yard || !samePeople(raw.People, head.raw.People) ||
		!everyoneOf(x.raw.People, raw.People) || !reflect.DeepEqual(ofPiece(raw), ofPiece(x.raw)) {
		return nil
	}
	r := *x.read
	r.AsOf, r.Yard, r.People = raw.AsOf, head.read.Yard, slices.Clone(head.read.People)
	for i := range r.People {
		r.People[i].Holds = raw.People[i].Holds
	}
	return &r
}

// ofPiece gives what a record says of its piece alone.
func ofPiece(r *kit.Record) *kit.Record {
	x := *r
	x.AsOf, x.Yard, x.People, x.Said = 0, kit.Yard{}, nil, nil
	return &x
}

// samePeople says whether two lists say the same of the same people, but for who
// holds the piece.
func samePeople(a, b []kit.Person) bool {
	return slices.EqualFunc(a, b, func(x, y kit.Person) bool {
		x.Holds = y.Holds
		return reflect.DeepEqual(x, y)
	})
}

// everyoneOf says whether everybody of one list is in another.
func everyoneOf(some, all []kit.Person) bool {
	for i := range some {
		if !slices.ContainsFunc(all, func(x kit.Person) bool { return x.ID == some[i].ID }) {
			return false
		}
	}
	return true
}
