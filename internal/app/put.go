package app

import (
	"context"
	"errors"
	"strconv"
	"strings"

	"kernbook/internal/book"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/doc"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// Who does something: the person, and, where an entry comes from another device
// or a file, the id it was given there.
type Who struct {
	Person string
	ID     entry.ID // zero: a new one
	Device string   // "" means this one
}

// Written is an entry that is in the book.
type Written struct {
	ID    entry.ID
	Index int64
	Head  book.Head
}

// draft is an entry under way.
type draft struct {
	kind     entry.Kind
	piece    string
	day      qty.Day
	body     any // as fold.Encode takes it; nil where make gives it
	make     func(s *fold.State, id entry.ID) (any, error)
	artefact bool // the core decided: say which
	check    func(s *fold.State) error
	same     func(old any) bool // of what make gives: whether a body in the book says the same
}

// tries is how often an entry is tried again when somebody else wrote in between.
const tries = 16

// put checks an entry against the book as it stands, and appends it. When
// somebody else wrote in between, it is checked again against what they wrote. All
// of it is done at one instant.
func (a *App) put(ctx context.Context, who Who, d draft) (Written, error) {
	a = a.still()
	e := entry.Entry{Yard: a.yard, ID: who.ID, Kind: d.kind, Version: 1, Day: d.day, Wall: wall(a.clock()), Author: who.Person, Device: who.Device,
		Tables: a.tables.Version, Core: decide.Version, Piece: d.piece}
	if e.Device == "" {
		e.Device = a.device
	}
	if d.artefact {
		e.Artefact = a.artefact
	}
	if e.ID == (entry.ID{}) {
		var err error
		if e.ID, err = a.newID(); err != nil {
			return Written{}, wrap(err)
		}
	}
	if d.day > a.Today()+1 { // a day of grace for whoever is a day ahead
		return Written{}, ahead(d.day)
	}
	if a.pen != nil {
		w, err := a.pen.put(ctx, a, e, &d)
		return w, wrap(err)
	}
	for range tries {
		w, err := a.once(ctx, e, &d)
		if !errors.Is(err, book.ErrMoved) {
			return w, wrap(err)
		}
	}
	return Written{}, moved()
}

// ahead refuses a day that has not come.
func ahead(day qty.Day) error {
	return fail(Invalid, "%s lies in the future: enter what has happened.", day.Words())
}

func moved() error {
	return fail(Conflict, "Nothing was written: others kept writing to the book. Try again.")
}

func (a *App) once(ctx context.Context, e entry.Entry, d *draft) (Written, error) {
	if err := a.follow.Catch(ctx); err != nil {
		return Written{}, err
	}
	if w, there, err := a.again(ctx, &e, d); there || err != nil {
		return w, err
	}
	var head book.Head
	err := a.follow.Look(func(s *fold.State, h book.Head) error {
		head = h
		return a.ready(s, h, &e, d)
	})
	if err != nil {
		return Written{}, err
	}
	l, err := a.line(&e)
	if err != nil {
		return Written{}, err
	}
	at, head, err := a.store.Append(ctx, head, []book.Line{l})
	if err != nil {
		return Written{}, err
	}
	return Written{ID: e.ID, Index: at[0], Head: head}, a.follow.Catch(ctx)
}

// ready makes an entry ready to be written behind a head: its author may enter it,
// it has its body, and goes with what is on record.
func (a *App) ready(s *fold.State, h book.Head, e *entry.Entry, d *draft) error {
	if err := a.may(s, e.Author, d); err != nil {
		return err
	}
	if d.check != nil {
		if err := d.check(s); err != nil {
			return err
		}
	}
	body := d.body
	if d.make != nil {
		var err error
		if body, err = d.make(s, e.ID); err != nil {
			return err
		}
	}
	e.Body, e.Base = fold.Encode(body), h.String()
	return a.fits(s, e)
}

// line gives the line of an entry that is ready.
func (a *App) line(e *entry.Entry) (book.Line, error) {
	l, err := book.NewLine(e, instant(a.clock()))
	if err != nil {
		return l, fail(Invalid, "This cannot be entered: %v.", err)
	}
	return l, nil
}

// fits tries the entry on a copy of what the book says of its piece: the whole
// record must read without a fault, as if it had come from a file.
func (a *App) fits(s *fold.State, e *entry.Entry) error {
	if _, err := fold.Decode(e.Kind, e.Version, e.Body); err != nil {
		var faults doc.Faults
		if errors.As(err, &faults) {
			out := &Error{Code: Invalid, Say: "This cannot be entered: it says what cannot be."}
			for _, f := range faults {
				out.Faults = append(out.Faults, Fault{f.Field, f.What, f.Mend, f.Field})
			}
			return out
		}
		return fail(Invalid, "This cannot be entered: %v.", err)
	}
	if e.Piece == "" {
		return a.fitsPeople(s, e)
	}
	r, err := s.With(&entry.Leaf{Recorded: "2000-01-01T00:00:00.000Z", Entry: *e}, a.Today(), a)
	if err != nil {
		return fail(Invalid, "This cannot be entered: %v.", err)
	}
	_, faults := record.DecodeJSON("", record.Encode(r), a.tables)
	if len(faults) == 0 {
		return nil
	}
	out := &Error{Code: Invalid, Say: "This cannot be entered: it does not go with what is on record."}
	for _, f := range faults {
		out.Faults = append(out.Faults, Fault{f.Field, f.What, f.Mend, own(e.Kind, r, f.Field)})
	}
	return out
}

// fitsPeople tries an entry about somebody, or about the yard, on a copy of the state:
// the people must read without a fault in every record, today and tomorrow.
func (a *App) fitsPeople(s *fold.State, e *entry.Entry) error {
	t := s.Branch("")
	before := len(t.Faulty)
	if t.Apply(&entry.Leaf{Recorded: "2000-01-01T00:00:00.000Z", Entry: *e}); len(t.Faulty) > before {
		return fail(Invalid, "This cannot be entered: %s.", t.Faulty[before].Why)
	}
	for _, day := range [...]qty.Day{a.Today(), a.Today() + 1} {
		if err := a.oneStays(s, t, day); err != nil {
			return err
		}
		r, err := t.Record(&fold.Piece{}, day, nil)
		if err != nil {
			return fail(Invalid, "This cannot be entered: %v.", err)
		}
		out := &Error{Code: Invalid, Say: "This cannot be entered: it does not go with what is on record of the people. What is said of somebody is entered in the order of days; what was wrong is corrected."}
		_, faults := record.DecodeJSON("", record.Encode(r), a.tables)
		for _, f := range faults {
			if strings.HasPrefix(f.Field, "person[") {
				out.Faults = append(out.Faults, Fault{f.Field, f.What, f.Mend, ""})
			}
		}
		if len(out.Faults) > 0 {
			return out
		}
	}
	return nil
}

// own gives where a field of a record lies in the entry that was put in last;
// "" where it belongs to something else.
func own(k entry.Kind, r *kit.Record, field string) string {
	block := ""
	last := func(name string, n int) { block = name + "[" + strconv.Itoa(n-1) + "]." }
	switch k {
	case entry.Piece, entry.Amend:
		block = "piece."
	case entry.Fit:
		block = "piece.fitted."
	case entry.Use:
		last("use", len(r.Uses))
	case entry.Run:
		last("run", len(r.Runs))
	case entry.Examination:
		last("examination", len(r.Examinations))
	case entry.Event:
		last("event", len(r.Events))
	case entry.Answer:
		last("answer", len(r.Answers))
	case entry.Change:
		last("change", len(r.Changes))
	}
	rest, ok := strings.CutPrefix(field, block)
	if !ok || block == "" {
		return ""
	}
	return rest
}
