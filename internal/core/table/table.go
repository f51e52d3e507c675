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
	Caution string // for W-lines: what a user is shown
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
	Lives        []Life
	Intervals    []Interval
	Laws         []Law
	Events       []Event
	Dirt         []Level
	Hardware     []Level
	Rules        Rules

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
	Limit       int64     // limit of doubt in whole millionths
	LimitMost   int64     // no yard may set it looser
	Explained   qty.Share // why at or above which a sign is explained
	Observation qty.Share // why at or above which an explained sign of the table is an observation
	HalfUsual   qty.Share // share of the usual interval for row 7
	RunShare    qty.Share // share of working days with a look for "looks kept up"
	RunDays     int       // days before, in which those are counted
	FallTravel  qty.Length
	FallPeak    qty.Share
	CauseFloor  qty.Share
	StoreShare  qty.Share // intensities in store as a share of those in service, calendar part
	Horizon     int       // days the forecast looks ahead at most
	Cautious    Use       // what a missing fact of use is taken as
	Reference   Use       // the use the rates stand for
	Cites       []RuleCite
}

// RuleCite names one constant of Rules with its source, for printing.
type RuleCite struct {
	Name  string
	Value string
	Cite
}

// Use is a use in numbers.
type Use struct {
	Week qty.Hours
	Mass qty.Mass
	Days int // working days a week
}

// Level is a word for dirt or hardware with its covariate value.
type Level struct {
	ID    string
	Words string
	Z     float64
	Cite
}

// Life is one rule that ends the life of a piece.
type Life struct {
	Kinds      []kit.KindID
	CountsFrom string // "manufacture", "first use"
	Months     qty.Months
	Country    string // "" means everywhere
	Fibre      string // "" means any
	Unless     bool   // does not apply where the maker's document says otherwise
	Store      bool   // an allowance for storage before first use
	Words      string
	Cite
}

// Interval is one duty to examine, for a country.
type Interval struct {
	Country   string
	Kinds     []kit.KindID // empty means all that lift persons
	Exam      kit.ExamKind
	Months    qty.Months
	Days      int    // instead of months, for interim looks
	SchemeMay string // "shorten", "shorten or lengthen"
	Arduous   bool
	Duty      bool // a duty of law; otherwise good practice
	Words     string
	Cite
}

// Law is what a country's rules are shown as.
type Law struct {
	Country string
	Words   string
	Lines   []string
	Cite
}
