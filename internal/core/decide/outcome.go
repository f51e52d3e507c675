// Package decide is the one entry to the judgement: from a record and the tables
// it makes the outcome with its reasons. It tells what it found as data; words are
// put to it outside.
package decide

import (
	"kernbook/internal/core/course"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Version of the core. It changes whenever an outcome can change.
const Version = "1"

// Outcome is what the judgement comes to.
type Outcome struct {
	Core      string // version of the core
	Tables    string // version of the tables
	Piece     string
	Kind      kit.KindID
	AsOf      qty.Day
	Exam      kit.ExamKind // of the examination at hand; "" when there is none
	ExamDay   qty.Day
	Later     int // entries of the record dated after AsOf, which were left out
	Verdict   kit.Verdict
	Uncounted []criteria.Uncounted // entries that do not count for what they say they are
	Held      bool                 // sealed after an accident: not to be cut until released
	Reasons   []criteria.Reason
	Open      []criteria.Question
	LifeEnd   criteria.Due
	Due       criteria.Due // thorough examination
	Next      Next
	Limit     Limit
	Doubt     *Doubt // nil where the kind has no doubt figure, or it could not be worked out
	NoDoubt   string // why there is none: "kind", "too many", "impossible"; "" when there is one
	Told      *Told  // the explanation; nil when it was not asked for
}

// Limit is the limit of doubt that an outcome was decided under, in whole
// millionths, and the tables' own (line M-36). Both are 0 where the kind has no
// doubt figure.
type Limit struct{ Holds, Default int64 }

// Looser says whether the yard's limit is looser than the tables' own, which
// every outcome under it has to tell (line M-37).
func (l Limit) Looser() bool { return l.Holds > l.Default }

// Doubt is the figure and where it sits. Shares are unrounded; the whole
// millionths, rounded up, are what is compared and printed.
type Doubt struct {
	Limit    int64 // whole millionths
	D        float64
	Hidden   float64 // the part no look can take away
	Millions int64   // D in whole millionths, rounded up
	HiddenUp int64   // the hidden part likewise
	OneIn    int64   // N of "1 in N", rounded down to two figures; 0 when D is 0
	Wear     float64 // I: some mode impaired or unfit
	Whole    float64 // whole-piece modes alone
	Cells    []Cell
	Zones    []kit.ZoneAt // as they lie on the day asked for
	Rest     string       // the zone of what none of them covers
}

// ZoneAt gives the zone that a place lies wholly in, by the one rule that signs
// are weighed with; "" where it lies in more than one.
func (d *Doubt) ZoneAt(p kit.Place) string { return course.ZoneIn(d.Zones, d.Rest, p) }

// Cell is the doubt at one place.
type Cell struct {
	Part     string
	From, To qty.Length
	Zone     string
	D        float64
	Findable float64
	Millions int64
	HiddenUp int64
}

// Next is when the piece must be looked at again, and why then.
type Next struct {
	Day       qty.Day
	Known     bool
	Why       string // "doubt", "examination", "life", "reason", "half the usual interval"
	Hours     qty.Duration
	With      Date    // forecast with pre-use looks kept up
	Without   Date    // forecast without
	KeptShare float64 // of working days with a pre-use look in the last weeks
	KeptUp    bool    // enough of them for the first forecast to count
	KeptLooks []kit.LookID
}

// Date is a forecast: when the doubt is above the limit, before that day's look.
type Date struct {
	Day     qty.Day
	Reached bool // false: not before Day, where the forecast ended
	Hours   qty.Duration
}

// Told is the explanation as data.
type Told struct {
	Drops    []Drop
	Before   int64 // whole millionths before the looks of the examination at hand
	Line     []Point
	With     []Point // the forecast with looks kept up, week by week: up to the limit, or to the day on which it ended
	Without  []Point // the forecast without looks
	Signs    []Sign
	Gains    []Gain
	Worst    Place
	Leaned   []Leaned
	Assumed  []string // facts that were not on record, taken as the table's cautious value
	Changes  []Change
	Cautions []string // ids of W-lines, in order
	Checked  *Checked
}

// Drop is what one look did: the difference of D in whole millionths. Printed
// drops therefore add up. A rise is negative.
type Drop struct {
	Look  kit.LookID
	By    int64
	After int64
}

// Point is the doubt line at one moment, in whole millionths.
type Point struct {
	Day    qty.Day
	After  bool
	D      int64
	Hidden int64
	Mark   string
}

// Sign is a sign on record with the shares of what can have shown it.
type Sign struct {
	Ref      string
	ID       string
	Words    string
	Class    table.Class
	At       kit.Place
	Zone     string
	Day      qty.Day
	State    kit.SignState
	Answered bool
	AnswerOf string
	Why      float64 // share of harmless causes
	Shares   []Share
}

// Share is how likely one parent showed the sign.
type Share struct {
	What string // "mode", "whole", "cause", "leak"
	ID   string
	P    float64
}

// Gain is what a look not yet made would be worth.
type Gain struct {
	Look    kit.LookID
	Nothing float64
	After   int64
	Worth   float64
	Minutes float64
	At      Place
}

// Place is a stretch or a part.
type Place struct {
	Part     string
	From, To qty.Length
}

// Leaned is a row of the tables that the outcome leaned on, with the values of
// it that counted and its standing.
type Leaned struct {
	Group  string   // one of Groups
	What   string   // sort of row: "mode", "figures" (of a sign), "kappa", … as kernbook tables show names it
	ID     string   // its name there
	Also   []string // other names of the same row: one row can hold for several looks
	Values []Value
	Status table.Status
	Source []string
	Place  string
	File   string // where the row is in the tables
	Row    int
}

// Value is one value of a row: a number with its unit, or Text.
type Value struct {
	Of     string // mode, zone, cause or state that it belongs to; "" for the row itself
	Name   string // its column in the tables
	Number float64
	Unit   string
	Text   string
}

// Change is something that would change the outcome, and to what.
type Change struct {
	Key     string
	Args    []criteria.Arg
	Verdict kit.Verdict
}

// Checked compares the doubt with a second method, where that can work.
type Checked struct {
	Method     string
	Difference float64 // relative
}
