package check

import (
	"fmt"
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/record"
)

// rebuild gives the record of a piece for a day as a book of a size had it, in
// its canonical bytes. Missing or keyless says that it cannot be
// had any more.
func (h *history) rebuild(piece string, asOf qty.Day, size int64, t *table.Tables) ([]byte, error) {
	r := &kit.Record{AsOf: asOf}
	var err error
	if r.Yard, err = h.named(size); err != nil {
		return nil, err
	}
	if r.Yard.Limit, err = h.limit(asOf, size); err != nil {
		return nil, err
	}
	hands, holder, err := h.facts(r, piece, size)
	if err != nil {
		return nil, err
	}
	for _, p := range h.people {
		if p.items[0].index >= size {
			continue
		}
		k, _, err := p.role(asOf, size)
		if err != nil {
			return nil, err
		}
		k.Holds = holder != "" && k.ID == holder
		r.People = append(r.People, k)
	}
	dependents(r, hands, holder)
	// The judgement reads a record as a file would give it.
	again, faults := record.DecodeJSON("the record", record.Encode(r), t)
	if err := faults.Err(); err != nil {
		return nil, fmt.Errorf("the record that the entries give has faults: %w", err)
	}
	again.AsOf = asOf
	return record.Encode(again), nil
}

// facts puts in what the entries about a piece say, and gives who held it when, and
// who holds it.
func (h *history) facts(r *kit.Record, piece string, size int64) (hands []handing, holder string, err error) {
	type wash struct {
		day   qty.Day
		index int64
		*washingBody
	}
	var washes []wash
	var examined []int64 // the index of each examination
	var fitted, hung struct {
		kit.Fitted
		stored string
		since  qty.Day
	}
	for _, x := range h.pieces[piece] {
		body, day := x.at(size)
		if x.index >= size || body == nil {
			continue
		}
		v, err := readBody(x.kind, body)
		if err != nil {
			return nil, "", fmt.Errorf("entry %d: %w", x.index, err)
		}
		known := day <= r.AsOf
		switch b := v.(type) {
		case *kit.Piece:
			r.Piece = *b
			fitted.Fitted, hung.stored = b.Fitted, b.StoredIn
			fitted.since, hung.since = day, day
		case *amendBody:
			if known {
				r.Piece = b.block
			}
		case *fitBody:
			if known && day >= fitted.since {
				fitted.Fitted, fitted.since = kit.Fitted{In: b.In, Allowed: kit.Yes(b.Allowed), Document: b.Document}, day
			}
		case *hangBody:
			hands = append(hands, handing{day, b.Holder})
			if known && day >= hung.since {
				holder, hung.stored, hung.since = b.Holder, "used", day
				if holder == "" {
					hung.stored = "store"
				}
			}
		case *useBody:
			u := b.block
			u.Mass = 0
			if b.Of != "" {
				if u.Mass, err = h.mass(b.Of, day, size); err != nil {
					return nil, "", err
				}
			}
			if i := slices.IndexFunc(r.Uses, func(o kit.Use) bool { return o.From == u.From }); i >= 0 {
				r.Uses = slices.Delete(r.Uses, i, i+1) // said anew
			}
			r.Uses = append(r.Uses, u)
		case *kit.Examination:
			r.Examinations, examined = append(r.Examinations, *b), append(examined, x.index)
		case *kit.Run:
			r.Runs = append(r.Runs, *b)
		case *kit.Event:
			r.Events = append(r.Events, *b)
		case *kit.Answer:
			r.Answers = append(r.Answers, *b)
		case *kit.Change:
			r.Changes = append(r.Changes, *b)
		case *washingBody:
			washes = append(washes, wash{day, x.index, b})
		}
	}
	if r.Piece.ID == "" {
		return nil, "", fmt.Errorf("no piece “%s” was in the book then", piece)
	}
	r.Piece.Fitted, r.Piece.StoredIn = fitted.Fitted, hung.stored
	for _, w := range washes {
		for i := range r.Examinations { // of that day, entered after the washing
			if e := &r.Examinations[i]; e.Day == w.day && examined[i] > w.index {
				for k := range e.Looks {
					e.Looks[k].AfterWash = true
				}
				for k := range e.Signs {
					e.Signs[k].AfterWash = true
				}
			}
		}
		for i := range r.Events {
			if e := &r.Events[i]; w.Event != "" && e.Ref == w.Event && e.Washed == kit.NotSaid && e.Day <= w.day {
				e.Washed = kit.Yes(w.Clean)
			}
		}
	}
	return hands, holder, nil
}
