// Package entry is one line of the book: its envelope, its one canonical form
// as bytes, and a strict reader. It knows when something happened, who says so
// and what kind of thing it is; what the body of each kind means is known by
// the packages that fold the book.
package entry

import (
	"errors"
	"strconv"

	"kernbook/internal/core/qty"
)

// Form is the first thing every entry says.
const Form = "kernbook entry 1"

// Largest is how many bytes an entry may have.
const Largest = 1 << 20

// Entry is one line of the book, as whoever made it wrote it down. It is frozen
// when it is made: the same id always has the same bytes.
type Entry struct {
	Yard     string  // id of the yard whose book it is
	ID       ID      // made where the entry is made, so that the same entry sent twice is the same entry
	Kind     Kind    // what sort of entry
	Version  int     // of the form of the body, from 1
	Day      qty.Day // the day it happened, as a person says
	Wall     string  // wall time of the device with its offset, "2026-06-01T07:31:00+01:00"
	Author   string  // id of the person who says so
	Device   string  // what it was made on
	Base     string  // head of the book it was made on top of: "size:hash"; "" at the very beginning
	Tables   string  // version of the tables at hand
	Core     string  // version of the core at hand
	Artefact string  // SHA-256 of the core's artefact that decided, in hexadecimal; "" where nothing was decided
	Piece    string  // id of the piece it is about; "" where it is about none
	Body     []byte  // canonical JSON object, see Canonical
	Sign     string  // signature over all that stands before it; "" until there are accounts
}

// Leaf is an entry as the book holds it: with the instant at which the book
// took it.
type Leaf struct {
	Recorded string // instant, UTC, "2026-06-01T06:31:02.123Z"
	Entry    Entry
}

// Kind names a sort of entry.
type Kind string

// The kinds of entry. Each has a body of its own.
const (
	Yard        Kind = "yard"        // name, country, written scheme of the yard
	Limit       Kind = "limit"       // the yard's limit of doubt changed
	Person      Kind = "person"      // somebody joins, or changes role; what is personal is sealed
	Forget      Kind = "forget"      // a person's key is destroyed
	Piece       Kind = "piece"       // a piece is registered
	Amend       Kind = "amend"       // what is known of a piece changed
	Use         Kind = "use"         // use plan from a day on: hours, site, mass, weekdays
	Run         Kind = "run"         // a run of like looks
	Examination Kind = "examination" // looks, signs, readings of one examination
	Event       Kind = "event"       // something happened to a piece
	Answer      Kind = "answer"      // a question settled
	Washing     Kind = "washing"     // the piece was washed
	Change      Kind = "change"      // datum moved: zones, re-tied, shortened, turned end for end
	Fit         Kind = "fit"         // fitted into another piece, or taken out
	Hang        Kind = "hang"        // who holds the piece, or where it hangs
	Decision    Kind = "decision"    // what the examiner decided, beside what the core said
	Stop        Kind = "stop"        // set aside or withdrawn by a person, held, released, cut up
	Correct     Kind = "correct"     // an earlier entry was wrong
)

// Kinds lists every kind, in the order of this page.
var Kinds = [...]Kind{Yard, Limit, Person, Forget, Piece, Amend, Use, Run, Examination, Event, Answer, Washing, Change, Fit, Hang, Decision, Stop, Correct}

// Known says whether a kind is one of Kinds.
func (k Kind) Known() bool {
	for _, x := range Kinds {
		if x == k {
			return true
		}
	}
	return false
}

// Check says what is wrong with an entry, or nil: a field that is missing, or
// not of its form. The error names the field.
func (e *Entry) Check() error {
	if err := e.head(); err != nil {
		return err
	}
	if err := Canonical(e.Body); err != nil {
		return fault("body", err.Error())
	}
	return e.object()
}

// object says that a body, which is canonical, is no object.
func (e *Entry) object() error {
	if len(e.Body) == 0 || e.Body[0] != '{' {
		return fault("body", "is no object")
	}
	return nil
}

// head says what is wrong with all but the body.
func (e *Entry) head() error {
	switch {
	case e.Yard == "":
		return fault("yard", "is missing")
	case e.ID == ID{}:
		return fault("id", "is missing")
	case !e.Kind.Known():
		return fault("kind", "“"+string(e.Kind)+"” is not known")
	case e.Version < 1:
		return fault("v", "is not a version")
	case e.Author == "":
		return fault("author", "is missing")
	case !wall(e.Wall):
		return fault("wall", "“"+e.Wall+"” is no time with an offset, such as 2026-06-01T07:31:00+01:00")
	case e.Artefact != "" && !hexadecimal(e.Artefact, 64):
		return fault("artefact", "is no SHA-256 in hexadecimal")
	case e.Base != "" && !base(e.Base):
		return fault("base", "“"+e.Base+"” is no head, size:hash")
	}
	for _, f := range [...]struct{ name, text string }{
		{"yard", e.Yard}, {"author", e.Author}, {"device", e.Device}, {"tables", e.Tables}, {"core", e.Core}, {"piece", e.Piece}, {"sign", e.Sign},
	} {
		if !plain(f.text) {
			return fault(f.name, "holds a control character, or is no UTF-8")
		}
	}
	return nil
}

func fault(field, what string) error { return errors.New(field + " " + what) }

// wall reads a time of the form 2026-06-01T07:31:00+01:00, seconds included.
func wall(s string) bool {
	if len(s) != 25 || !pattern(s, "dddd-dd-ddTdd:dd:dd±dd:dd") {
		return false
	}
	return clock(s[:19]) && two(s, 20) <= 14 && two(s, 23) < 60
}

// instant reads a time of the form 2026-06-01T06:31:02.123Z.
func instant(s string) bool {
	return len(s) == 24 && pattern(s, "dddd-dd-ddTdd:dd:dd.dddZ") && clock(s[:19])
}

// clock says whether 2026-06-01T07:31:00 is a day of the calendar and a time.
func clock(s string) bool {
	d, err := qty.ParseDate(s[:10])
	return err == nil && d.Known() && two(s, 11) < 24 && two(s, 14) < 60 && two(s, 17) < 60
}

func two(s string, at int) int { return int(s[at]-'0')*10 + int(s[at+1]-'0') }

func pattern(s, form string) bool {
	i := 0
	for _, f := range form {
		c := s[i]
		switch {
		case f == 'd' && c >= '0' && c <= '9', f == '±' && (c == '+' || c == '-'), f != 'd' && f != '±' && c == byte(f):
		default:
			return false
		}
		i++
	}
	return i == len(s)
}

func hexadecimal(s string, n int) bool {
	if len(s) != n {
		return false
	}
	for i := range len(s) {
		if c := s[i]; (c < '0' || c > '9') && (c < 'a' || c > 'f') {
			return false
		}
	}
	return true
}

// base reads "size:hash", the hash in hexadecimal.
func base(s string) bool {
	for i := range len(s) {
		if s[i] != ':' {
			continue
		}
		n, err := strconv.ParseInt(s[:i], 10, 64)
		return err == nil && n > 0 && strconv.FormatInt(n, 10) == s[:i] && hexadecimal(s[i+1:], 64)
	}
	return false
}
