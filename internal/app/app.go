// Package app holds the use cases: what a person does with the yard's book, one
// in each file. It owns the clock and the ids, knows who may do what, and is
// the only writer to the book. The command line, the pages and the tests all go
// through it.
package app

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"sync"
	"time"

	"kernbook/internal/book"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
	"kernbook/internal/seal"
	"kernbook/internal/view"
)

// App is the yard's book with everything that is done to it.
type App struct {
	*shared
	clock func() time.Time
	pen   *pen // nil: each entry is written by itself
}

// shared is what all have that do something to one book.
type shared struct {
	store    book.Store
	keys     seal.Keys
	tables   *table.Tables
	yard     string
	device   string
	artefact string
	chance   io.Reader
	follow   *view.Follower

	boards sync.Mutex // held while a board is made
	mu     sync.Mutex // of what follows
	pieces map[string]*known
	head   reading // the last record that was read strictly
	pasts  map[entry.ID]past
}

// Config is what an App is made of.
type Config struct {
	Store    book.Store
	Keys     seal.Keys
	Tables   *table.Tables
	Yard     string           // id of the yard
	Device   string           // what this runs on, as the book is to say it
	Artefact string           // SHA-256 of the core's artefact; "" where this build has none
	Clock    func() time.Time // nil means the machine's
	Chance   io.Reader        // nil means the machine's
}

// New opens the use cases over a store. The book may be empty.
func New(c Config) *App {
	a := &App{clock: c.Clock, shared: &shared{store: c.Store, keys: c.Keys, tables: c.Tables, yard: c.Yard, device: c.Device, artefact: c.Artefact, chance: c.Chance,
		follow: view.New(c.Store), pieces: map[string]*known{}, pasts: map[entry.ID]past{}}}
	if a.clock == nil {
		a.clock = time.Now
	}
	if a.chance == nil {
		a.chance = rand.Reader
	}
	return a
}

// Tables gives the tables at hand.
func (a *App) Tables() *table.Tables { return a.tables }

// still gives the same at one instant: whoever does something does it then, and
// all of it on one day, also where midnight passes meanwhile.
func (a *App) still() *App {
	now := a.clock()
	return &App{shared: a.shared, clock: func() time.Time { return now }, pen: a.pen}
}

// Today gives the day it is, where the device stands.
func (a *App) Today() qty.Day {
	y, m, d := a.clock().Date()
	p, err := qty.ParseDate(fmt.Sprintf("%04d-%02d-%02d", y, int(m), d))
	if err != nil {
		panic(err) // the calendar has that day
	}
	return p.Earliest()
}

// Now gives the time it is.
func (a *App) Now() time.Time { return a.clock() }

// Code says what went wrong, for machines; Error says it for people.
type Code string

// The codes, in the order in which they are looked for.
const (
	NotFound Code = "not found"   // no such piece, person, entry
	Invalid  Code = "invalid"     // what was entered cannot be so
	Refused  Code = "not allowed" // this person may not do that
	Conflict Code = "conflict"    // it is there already, with other content
	Full     Code = "full"        // no room left to write
	Broken   Code = "damaged"     // the book does not hold together
	Failed   Code = "failed"      // anything else
)

// Error is what a use case says when it does not do what was asked.
type Error struct {
	Code   Code
	Say    string  // one sentence for a person
	Faults []Fault // each thing wrong with what was entered
	Lacks  string  // of NotFound: "piece" or "person", where one that was named is not there
}

// Fault is one thing wrong with what was entered: where, what, and how to mend it.
type Fault struct {
	Field string // where in the whole record of the piece
	What  string
	Mend  string
	Own   string // where in what was entered itself; "" where it is about something else on record
}

func (e *Error) Error() string {
	s := e.Say
	for _, f := range e.Faults {
		s += "\n  " + f.Field + ": " + f.What
		if f.Mend != "" {
			s += " — " + f.Mend
		}
	}
	return s
}

func fail(code Code, format string, args ...any) *Error {
	return &Error{Code: code, Say: fmt.Sprintf(format, args...)}
}

// wrap gives any error its code.
func wrap(err error) error {
	var own *Error
	switch {
	case err == nil, errors.As(err, &own):
		return err
	case errors.Is(err, book.ErrFull):
		return fail(Full, "Nothing was written: %v.", err)
	case errors.Is(err, book.ErrOther):
		return fail(Conflict, "Nothing was written: %v.", err)
	case errors.Is(err, book.ErrBroken):
		return fail(Broken, "%v. Run kernbook verify, and go on with a copy that holds.", err)
	}
	return fail(Failed, "%v", err)
}

// Look brings the view up to date and shows it. The state must not be kept.
func (a *App) Look(ctx context.Context, see func(s *fold.State, head book.Head) error) error {
	if a.pen != nil {
		return wrap(see(a.pen.state, a.pen.head))
	}
	if err := a.follow.Catch(ctx); err != nil {
		return wrap(err)
	}
	return wrap(a.follow.Look(see))
}

// newID makes an id from the clock and chance.
func (a *App) newID() (entry.ID, error) {
	var chance [10]byte
	if _, err := io.ReadFull(a.chance, chance[:]); err != nil {
		return entry.ID{}, err
	}
	return entry.MakeID(a.clock().UnixMilli(), chance), nil
}

// Open implements fold.Secrets with the keys at hand.
func (a *App) Open(person string, id entry.ID, box string) (fold.Private, bool) {
	k, err := a.keys.Key(person)
	if err != nil {
		return fold.Private{}, false
	}
	plain, err := seal.Open(k, boxPlace(person, id), box)
	if err != nil {
		return fold.Private{}, false
	}
	var p fold.Private
	if json.Unmarshal(plain, &p) != nil {
		return fold.Private{}, false
	}
	return p, true
}

// boxPlace says where a box belongs.
func boxPlace(person string, id entry.ID) string { return "person " + person + " entry " + id.String() }

// instant prints an instant as the book does.
func instant(t time.Time) string { return t.UTC().Format("2006-01-02T15:04:05.000Z") }

// wall prints a device's time with its offset.
func wall(t time.Time) string { return t.Format("2006-01-02T15:04:05-07:00") }

func sum(b []byte) string {
	s := sha256.Sum256(b)
	return hex.EncodeToString(s[:])
}

// judged is an outcome with what it was judged from: it holds while all of that
// stands.
type judged struct {
	last   int64
	asOf   qty.Day
	full   bool
	record *kit.Record
	out    *decide.Outcome
	err    error
}
