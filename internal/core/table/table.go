// Package table holds the tables of the judgement as the core reads them:
// typed, checked and with the source of every row. It reads no file; the
// loader outside the core fills it.
package table

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Status says how far a value is to be trusted.
type Status string

// The four kinds of standing a value can have.
const (
	Published      Status = "published"
	CommonPractice Status = "common practice"
	FromMemory     Status = "from memory"
	Assumed        Status = "assumed"
)

// Cite carries where a row comes from. Every row has one.
type Cite struct {
	Source []string // ids of lines; may be empty only for common practice and assumed values
	Place  string   // where in the source
	Status Status
	File   string // data file and line of the row, for messages
	Row    int
}

// Line is one statement of a source, with an id that code, tests and records cite.
type Line struct {
	ID      string
	Says    string
	Source  string
	Place   string
	Mark    string // "seen", "seen second-hand", "from memory", "proposed", "computed", "finding", "common practice"
	Note    string
	Caution string   // for W-lines: what a user is shown
	Rests   []string // ids of the lines it is drawn from
	Status  Status
	File    string
	Row     int
}

// Tables is everything the judgement reads besides the record.
type Tables struct {
	Version      string // SHA-256 of the data files, in hexadecimal
	Lines        []Line
	Kinds        []Kind
	Causes       []Cause
	Looks        []Look
	Fibres       []Fibre
	Contaminants []Contaminant
	Effects      []Effect
	Washings     []Washing
	Lives        []Life // those that end a life
	Guidance     []Life // shown beside the date, never used to compute it
	NoLimits     []NoLimit
	Intervals    []Interval // those with a length of time, for every country also those it takes over
	Occasions    []Interval // those without one ("each use"), or that hold only where the record says so: shown
	Countries    []Country
	Groups       []KindGroup
	Laws         []Law
	Principles   []Principle
	Events       []Event
	Dirt         []Level
	Hardware     []Level
	Rules        Rules
	Bench        Bench

	lines map[string]int
	kinds map[kit.KindID]int
}

// Index makes the look-ups work; the loader calls it once.
func (t *Tables) Index() {
	t.lines = make(map[string]int, len(t.Lines))
	for i := range t.Lines {
		t.lines[t.Lines[i].ID] = i
	}
	t.kinds = make(map[kit.KindID]int, len(t.Kinds))
	for i := range t.Kinds {
		t.kinds[t.Kinds[i].ID] = i
	}
}

// Line gives the line with that id, or nil.
func (t *Tables) Line(id string) *Line {
	if i, ok := t.lines[id]; ok {
		return &t.Lines[i]
	}
	return nil
}

// Kind gives the kind with that id, or nil.
func (t *Tables) Kind(id kit.KindID) *Kind {
	if i, ok := t.kinds[id]; ok {
		return &t.Kinds[i]
	}
	return nil
}

// Cause gives the harmless cause with that id, or nil.
func (t *Tables) Cause(id string) *Cause {
	for i := range t.Causes {
		if t.Causes[i].ID == id {
			return &t.Causes[i]
		}
	}
	return nil
}

// Look gives the look with that id, or nil.
func (t *Tables) Look(id kit.LookID) *Look {
	for i := range t.Looks {
		if t.Looks[i].ID == id {
			return &t.Looks[i]
		}
	}
	return nil
}

// Event gives the event with that id, or nil.
func (t *Tables) Event(id string) *Event {
	for i := range t.Events {
		if t.Events[i].ID == id {
			return &t.Events[i]
		}
	}
	return nil
}

// Fibre gives the fibre with that id, or nil.
func (t *Tables) Fibre(id string) *Fibre {
	for i := range t.Fibres {
		if t.Fibres[i].ID == id {
			return &t.Fibres[i]
		}
	}
	return nil
}

// Contaminant gives the contaminant with that id, or nil.
func (t *Tables) Contaminant(id string) *Contaminant {
	for i := range t.Contaminants {
		if t.Contaminants[i].ID == id {
			return &t.Contaminants[i]
		}
	}
	return nil
}

// Rules are the constants of the decision and of the model.
type Rules struct {
	Limit          int64     // limit of doubt in whole millionths
	LimitMost      int64     // no yard may set it looser
	Explained      qty.Share // why at or above which a sign is explained
	Observation    qty.Share // why at or above which an explained sign of the table is an observation
	HalfUsual      qty.Share // share of the usual interval for row 7
	RunShare       qty.Share // share of working days with a look for "looks kept up"
	RunDays        int       // days before, in which those are counted
	FallTravel     qty.Length
	FallPeak       qty.Share
	CauseFloor     qty.Share
	StoreShare     qty.Share  // intensities in store as a share of those in service, calendar part
	Horizon        int        // days the forecast looks ahead at most
	UsualMonths    qty.Months // usual interval where the law of the place names none for a kind
	DeclaredMonths qty.Months // how old a declaration of conformity may be when new stock goes into service
	LabelFar       int64      // parts per thousand that a diameter may be off the nominal one before it is a question
	GaugeReach     qty.Length // how far to either side a reading along the piece counts as measured
	RepeatSE       int64      // a reading out of range that is within so many hundredths of its standard error of the one on record repeats it
	Cautious       Use        // what a missing fact of use is taken as, and the most that a record may say
	Reference      Use        // the use the rates stand for
	Cites          []RuleCite
}

// RuleCite names one constant of Rules with its source, for printing.
type RuleCite struct {
	Name  string
	Value string
	Words string
	Cite
}

// Use is a use in numbers. Dirt and Hardware are ids of levels.
type Use struct {
	Week     qty.Duration
	Mass     qty.Mass
	Day      qty.Duration // most hours on one working day; 0 on the reference
	Days     int          // working days a week
	Dirt     string
	Hardware string
	Cite
}

// Level is a word for dirt or hardware with its covariate value.
type Level struct {
	ID    string
	Words string
	Z     float64
	Cite
}

// Life is one rule that ends the life of a piece, or, with Store, one that
// keeps it from first use after too long in store.
type Life struct {
	ID         string
	Kinds      []kit.KindID
	CountsFrom string // "manufacture", "first use", "marked date" (then Months is 0: the marked date itself)
	Months     qty.Months
	Country    string // "" means everywhere
	Fibre      string // "" means any
	Unless     bool   // does not apply where the maker's document says otherwise
	Store      bool   // an allowance for storage before first use
	Use        string // on rows of guidance: how often used, "" means always
	Verdict    kit.Verdict
	Question   string
	Words      string
	Cite
}

// NoLimit says that kinds have no limit by the calendar.
type NoLimit struct {
	ID    string
	Kinds []kit.KindID
	Words string
	Cite
}

// For says whether the rule is for a kind.
func (l *Life) For(kind kit.KindID) bool {
	for _, k := range l.Kinds {
		if k == kind {
			return true
		}
	}
	return false
}

// Interval is one duty to examine, for a country.
type Interval struct {
	ID        string // unique within a country
	Country   string
	From      string       // country whose row it is, where Country takes it over
	Kinds     []kit.KindID // as loaded never empty: all kinds of the row's group, narrowed
	Exam      kit.ExamKind
	Months    qty.Months
	Days      int    // instead of months, for interim looks
	SchemeMay string // "shorten", "shorten or lengthen"
	Arduous   bool
	Duty      bool   // of law or standard; otherwise guidance or custom
	Force     string // "law", "standard", "guidance", "custom"
	When      string // on occasions: when
	OnlyIf    string // on occasions: what the record must say
	Words     string
	Cite
}

// Country is a country or state whose rules are in the tables.
type Country struct {
	Code  string
	Words string
	Also  []string // countries whose rules hold too; the loader has copied their intervals, occasions and laws
	Cite
}

// Law is what a country's rules are shown as.
type Law struct {
	ID      string // unique within a country
	Country string
	From    string        // country whose row it is, where Country takes it over
	When    string        // in which case it is shown; "always" for all
	With    []kit.Verdict // outcomes it is shown with
	Words   string
	Lines   []string
	Cite
}

// KindGroup is a group of kinds that the rows of intervals speak of.
type KindGroup struct {
	ID    string
	Words string
	Kinds []kit.KindID
	Cite
}

// Principle is a rule of reading the tables of life and intervals, for
// printing and for citing.
type Principle struct {
	ID       string
	Words    string
	Says     bool        // it names an outcome
	Verdict  kit.Verdict // that outcome
	Question string
	Cite
}

// Principle gives the principle with that id, or nil.
func (t *Tables) Principle(id string) *Principle {
	for i := range t.Principles {
		if t.Principles[i].ID == id {
			return &t.Principles[i]
		}
	}
	return nil
}

// Country gives the country with that code, or nil.
func (t *Tables) Country(code string) *Country {
	for i := range t.Countries {
		if t.Countries[i].Code == code {
			return &t.Countries[i]
		}
	}
	return nil
}
