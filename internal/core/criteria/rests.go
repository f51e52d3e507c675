package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Rests are the rows of the tables that the reasons of a record go by, each at
// most once: those that set its dates, ask for looks, and say what events and
// substances mean. Signs and readings go by the kind's own rows.
type Rests struct {
	Lives       []*table.Life // storage before first use among them
	NoLimits    []*table.NoLimit
	Intervals   []*table.Interval
	Needs       []*table.Need
	Asks        []*table.Ask // answered with yes
	Events      []kit.Event  // all that happened, told ones included
	Effects     []EventRow
	Substances  []*table.Contaminant
	OnFibres    []*table.Effect
	FallOrLoad  bool // a fall was told from a sudden load
	HalfOfUsual bool // half of the usual interval was counted
}

// EventRow is an effect with the event it belongs to.
type EventRow struct {
	Event  string
	Effect *table.EventEffect
}

// RestsOn gives the rows that Judge goes by for the record and its reasons.
func RestsOn(t *table.Tables, r *kit.Record, reasons []Reason) Rests {
	j := newJudge(t, r)
	var out Rests
	counted := r.Piece.Obsolete.Known() || r.Piece.MakerFromMade > 0 || r.Piece.MakerFromUse > 0
	for i := range t.Lives {
		if row := &t.Lives[i]; row.CountsFrom != "marked date" && j.lifeApplies(row) {
			out.Lives = append(out.Lives, row)
			counted = counted || !row.Store
		}
	}
	for i := range t.NoLimits {
		if !counted && hasKind(t.NoLimits[i].Kinds, j.k.ID) {
			out.NoLimits = append(out.NoLimits, &t.NoLimits[i])
		}
	}
	for _, row := range j.rows(kit.Thorough, t.Intervals) {
		if !row.Arduous {
			out.Intervals = append(out.Intervals, row)
		}
	}
	for i := range j.k.Needs {
		if n := &j.k.Needs[i]; j.hadExam(n.Exam) {
			out.Needs = append(out.Needs, n)
		}
	}
	for i := range j.k.Asks {
		if a := &j.k.Asks[i]; j.saidYes(a.ID) {
			out.Asks = append(out.Asks, a)
		}
	}
	out.Events = j.events
	for i := range j.events {
		j.eventRests(&j.events[i], &out)
	}
	for i := range reasons {
		out.HalfOfUsual = out.HalfOfUsual || reasons[i].Until != 0 || has(reasons[i].Lines, lSooner)
	}
	return out
}

func (j *judge) hadExam(kind kit.ExamKind) bool {
	for i := range j.exams {
		if j.exams[i].Kind == kind {
			return true
		}
	}
	return false
}

func (j *judge) saidYes(ask string) bool {
	for i := range j.exams {
		if j.exams[i].Asked[ask] == kit.SaidYes {
			return true
		}
	}
	return false
}

// eventRests adds the rows that one event goes by.
func (j *judge) eventRests(e *kit.Event, out *Rests) {
	id := e.Event
	if isLoad(id) {
		id = j.loadOf(e)
		out.FallOrLoad = true
	}
	if row := j.t.Event(id); row != nil {
		for n := range row.Effects {
			if f := &row.Effects[n]; j.effectFor(f) {
				out.Effects = append(out.Effects, EventRow{id, f})
			}
		}
	}
	if e.Substance == "" && e.Event != spill {
		return
	}
	substance := e.Substance
	if substance == "" || j.t.Contaminant(substance) == nil {
		substance = unknown
	}
	j.substanceRests(substance, e.Amount, out)
	for i := range j.r.Answers { // an unknown substance that an answer names
		a := &j.r.Answers[i]
		if substance == unknown && !j.k.Strict && a.Cause != unknown && j.lifts(a, e.Day, inWriting, []string{e.Ref, QSubstance}) {
			j.substanceRests(a.Cause, e.Amount, out)
		}
	}
}

func (j *judge) substanceRests(id, amount string, out *Rests) {
	c := j.t.Contaminant(id)
	if c == nil {
		return
	}
	out.Substances = append(out.Substances, c)
	for _, fibre := range j.fibres() {
		for n := range j.t.Effects {
			if f := &j.t.Effects[n]; f.Contaminant == id && j.touches(f, fibre, amount) {
				out.OnFibres = append(out.OnFibres, f)
			}
		}
	}
}
