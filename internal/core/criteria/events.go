package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Ids of the table of events that rules of this package speak of.
const (
	fall       = "fall"
	suddenLoad = "sudden-load"
	spill      = "spill"
)

// told gives an event for every yes to a question of the look "ask" that no
// event on record accounts for. Nothing is known of it but the day it was told,
// so it is the worst that it can be; an answer to it names the question.
//
// An event accounts for a yes when it happened since the last examination of
// the same or a stricter kind before that day; one that a yes there was about
// does not count twice.
func (j *judge) told() []kit.Event {
	var out []kit.Event
	for n := range j.k.Asks {
		a := &j.k.Asks[n]
		for i := range j.exams {
			e := &j.exams[i]
			if a.Yes == "" || e.Asked[a.ID] != kit.SaidYes {
				continue
			}
			from := qty.FirstDay
			for k := range j.exams[:i] {
				x := &j.exams[k]
				switch {
				case x.Day >= e.Day || x.Kind.Rank() < e.Kind.Rank():
				case x.Asked[a.ID] == kit.SaidYes:
					from = x.Day + 1
				default:
					from = max(from, x.Day)
				}
			}
			if !j.onRecord(a.Yes, from, e.Day) {
				out = append(out, toldOf(a, e.Day))
			}
		}
	}
	return out
}

// toldOf gives the event of a yes of which nothing else is known.
func toldOf(a *table.Ask, day qty.Day) kit.Event {
	x := kit.Event{Ref: a.ID, Day: day, Event: a.Yes, Travel: -1, Peak: -1}
	if a.Yes == spill {
		x.Substance = unknown
	}
	return x
}

// onRecord reports whether an event of that id happened between two days. A
// fall accounts for a sudden load that was asked for, and the other way round.
func (j *judge) onRecord(id string, from, to qty.Day) bool {
	for i := range j.r.Events {
		if e := &j.r.Events[i]; isOf(e, id) && e.Day >= from && e.Day <= to {
			return true
		}
	}
	return false
}

func isLoad(id string) bool { return id == fall || id == suddenLoad }

// asked enters the questions of the look "ask" that are open: not put in the
// last examination that had to put them, or answered there with nobody knows.
// They stay open until an examination or an answer on record settles them.
func (j *judge) asked() {
	for n := range j.k.Asks {
		a := &j.k.Asks[n]
		last, kind, day := kit.SaidNo, kit.ExamKind(""), qty.FirstDay
		for i := range j.exams {
			e := &j.exams[i]
			y := e.Asked[a.ID]
			if y == kit.NotSaid {
				if !j.asks(e.Kind) {
					continue
				}
				y = j.said(a.ID, e.Kind, e.Day)
			}
			if e.Day > day || severity(y) > severity(last) {
				last, kind, day = y, e.Kind, e.Day
			}
		}
		key := "ask.unanswered"
		switch {
		case last == kit.SaidNo || last == kit.SaidYes || j.answer(day, byCompetent, a.ID) != nil:
			continue
		case last == kit.NotKnown:
			key = "ask.not-known"
		}
		j.add(Reason{Row: "4", Verdict: kit.SetAside, ID: lRow4, Lines: append(append([]string{}, a.Source...), lDoubt, lAskedAlways),
			Key: key, Args: []Arg{{"ask", a.ID}, {"exam", string(kind)}, {"day", day.String()}}, Question: QAsk, To: a.ID, Asked: a.Words, Status: a.Status})
	}
}

// asks reports whether a kind of examination has to put the questions.
func (j *judge) asks(kind kit.ExamKind) bool {
	for i := range j.k.Needs {
		if n := &j.k.Needs[i]; n.Exam == kind && n.Look == kit.Ask {
			return true
		}
	}
	return false
}

// severity orders the answers of one day: no, yes (which is an event of its
// own), nothing said, not known.
func severity(y kit.Yes) int {
	switch y {
	case kit.SaidNo:
		return 0
	case kit.SaidYes:
		return 1
	case kit.NotSaid:
		return 2
	}
	return 3
}

// loadOf tells a fall from a sudden load (M-31, M-32): it is a fall where the
// free travel or the top of the computed peak is at the table's figure or
// above it, or where one of the two is not known.
func (j *judge) loadOf(e *kit.Event) string {
	rules := &j.t.Rules
	if e.Travel < 0 || e.Travel >= rules.FallTravel || e.Peak < 0 || millionths(float64(e.Peak)) >= millionths(float64(rules.FallPeak)) {
		return fall
	}
	return suddenLoad
}

// happened enters what events mean by themselves.
func (j *judge) happened() {
	for i := range j.events {
		e := &j.events[i]
		if e.Injury {
			j.held = true
			j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lHeld, Lines: []string{lRow1}, Key: "event.injury",
				Args: []Arg{{"event", e.Event}, {"day", e.Day.String()}}, Status: table.CommonPractice})
		}
		id := e.Event
		if isLoad(id) {
			id = j.loadOf(e)
		}
		args := []Arg{{"event", id}, {"day", e.Day.String()}}
		if isLoad(id) {
			args = append(args, Arg{"travel", lengthOr(e.Travel)}, Arg{"peak", shareOr(e.Peak)})
		}
		if e.PlaceSaid {
			args = append(args, placed(e.At)...)
		}
		row := j.t.Event(id)
		if row == nil {
			if id != "" || e.Substance == "" {
				j.settle(e, Reason{ID: lDoubt, Key: "event.not-in-table", Args: args})
			}
			continue
		}
		met := false
		for n := range row.Effects {
			if f := &row.Effects[n]; j.effectFor(f) {
				met = true
				j.effect(e, id, row, f, args)
			}
		}
		if !met && id == fall {
			j.settle(e, Reason{ID: lFall, Lines: []string{lRelease, lReturned}, Key: "event.aside", Args: args, Words: row.Words})
		}
	}
}

func (j *judge) effectFor(f *table.EventEffect) bool {
	if len(f.Kinds) > 0 {
		return hasKind(f.Kinds, j.k.ID)
	}
	return has(f.Groups, j.k.Group)
}

// effect enters one effect of an event by its outcome.
func (j *judge) effect(e *kit.Event, id string, row *table.Event, f *table.EventEffect, args []Arg) {
	x := Reason{Args: args, Words: row.Words, Asked: f.Question, Status: f.Status}
	x.ID, x.Lines = cited(f.Cite, f.Lines)
	if id == fall {
		x.Lines = append(x.Lines, lFallTravel, lFallPeak)
	}
	switch f.Verdict {
	case kit.Withdraw:
		x.Row, x.Verdict, x.Key, x.Asked = "1", kit.Withdraw, "event.withdraw", ""
		j.add(x)
	case kit.SetAside:
		x.Key = "event.aside"
		if has(x.Lines, lOverdue) {
			j.unexamined(e, id, x)
			return
		}
		j.settle(e, x)
	case kit.KeepSooner:
		x.Key = "event.sooner"
		j.sooner(e, x)
	}
}

// settle sets aside until an answer to the event brings what its lines ask for.
func (j *judge) settle(e *kit.Event, x Reason) {
	x.Row, x.Verdict = "2", kit.SetAside
	x.Question = questionFor(append([]string{x.ID}, x.Lines...), QEvent)
	x.To = nameOr(e.Ref, x.Question)
	if j.answer(e.Day, proofFor(append([]string{x.ID}, x.Lines...)), e.Ref, x.Question) == nil {
		j.add(x)
	}
}

// unexamined sets aside after something out of the ordinary until it was
// examined (R-05, D-07): thoroughly, after a sudden load that was no fall at
// least by an interim inspection. Where the maker's procedure is asked for as
// well (D-77), an answer in writing is needed besides.
func (j *judge) unexamined(e *kit.Event, id string, x Reason) {
	kinds := []kit.ExamKind{kit.Thorough}
	if id == suddenLoad {
		kinds = append(kinds, kit.Interim)
	}
	x.Row, x.Verdict, x.Question = "2", kit.SetAside, QExamine
	x.To = nameOr(e.Ref, QExamine)
	if !j.since(e, kinds...) {
		j.add(x)
		return
	}
	if proofFor(x.Lines) != byCompetent && j.answer(e.Day, proofFor(x.Lines), e.Ref, QEvent) == nil {
		x.Question, x.To = QEvent, nameOr(e.Ref, QEvent)
		j.add(x)
	}
}

// sooner keeps until half the usual interval after what happened, once a
// complete examination has followed; a further one, interim or thorough, on a
// later day ends it. Before the first: set aside until examined. After the
// date: set aside until examined again (R-07, D-17).
func (j *judge) sooner(e *kit.Event, x Reason) {
	first, found := qty.Day(0), false
	named := j.naming(e)
	for i := range named.exams {
		found = found || named.complete(named.exams[i].Kind, e.Day)
		first = e.Day
	}
	for i := range j.exams {
		if s := &j.exams[i]; !found && s.Day > e.Day && j.complete(s.Kind, s.Day) {
			first, found = s.Day, true
		}
	}
	x.To = nameOr(e.Ref, QExamine)
	x.Row, x.Verdict, x.Question = "2", kit.SetAside, QExamine
	x.Lines = append(x.Lines, lSooner)
	if !found {
		x.Key += "-not-examined"
		j.add(x)
		return
	}
	if _, again := j.completed(first, kit.Interim, kit.Thorough); again {
		return
	}
	until := j.half(e.Day)
	x.Args = append(append([]Arg{}, x.Args...), Arg{"until", until.String()})
	if j.r.AsOf > until {
		x.Key, x.Lines = x.Key+"-passed", append(x.Lines, lNotUsed)
		j.add(x)
		return
	}
	x.Row, x.Verdict, x.Question, x.To, x.Asked, x.Until = "6a", kit.KeepSooner, "", "", "", until
	j.add(x)
}

// After says whether an examination on the day of an event was made after it: it
// names the event, or tells of it in answer to a question.
func After(k *table.Kind, x *kit.Examination, e *kit.Event) bool {
	if e.Ref != "" && x.AfterEvent == e.Ref {
		return true
	}
	for i := range k.Asks {
		if a := &k.Asks[i]; a.Yes != "" && x.Asked[a.ID] == kit.SaidYes && isOf(e, a.Yes) {
			return true
		}
	}
	return false
}

// isOf says whether an event is the one that a question asks for. A fall stands
// for a sudden load, and the other way round.
func isOf(e *kit.Event, id string) bool {
	return e.Event == id || isLoad(e.Event) && isLoad(id) || id == spill && e.Substance != ""
}

func lengthOr(l qty.Length) string {
	if l < 0 {
		return string(kit.NotKnown)
	}
	return l.String()
}

func shareOr(s qty.Share) string {
	if s < 0 {
		return string(kit.NotKnown)
	}
	return s.String()
}
