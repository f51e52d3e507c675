package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// proof is what an answer must bring to lift a question.
type proof int

const (
	// byCompetent: a competent person's word, or a document (the sheet's
	// definition of set aside: answered by a competent person or the maker).
	byCompetent proof = iota
	// inWriting: a document.
	inWriting
	// released: a competent person's written release (D-76, D-92).
	released
)

// answer gives the first answer that lifts what began on the day of its cause,
// or nil.
func (j *judge) answer(cause qty.Day, need proof, names ...string) *kit.Answer {
	for i := range j.r.Answers {
		if a := &j.r.Answers[i]; j.lifts(a, cause, need, names) {
			return a
		}
	}
	return nil
}

// lifts reports whether an answer names one of the refs or questions, is dated
// neither before its cause nor after AsOf, is signed, and brings the proof.
func (j *judge) lifts(a *kit.Answer, cause qty.Day, need proof, names []string) bool {
	if a.Day < cause || a.Day > j.r.AsOf || a.Unfit || a.By == "" || a.To == "" || !has(names, a.To) {
		return false
	}
	switch need {
	case inWriting:
		return a.Document != ""
	case released:
		return a.Document != "" && j.competent(a.By)
	}
	return a.Document != "" || a.Verified != "" && j.competent(a.By)
}

// competent reports whether a person on record is a competent person: by that
// role, or as an examiner (D-04: the one who examines is competent).
func (j *judge) competent(id string) bool {
	for i := range j.r.People {
		p := &j.r.People[i]
		if p.ID == id && (p.Role == "competent person" || p.Role == "examiner") {
			return true
		}
	}
	return false
}

// proofFor says what an answer must bring for a rule that rests on these lines.
func proofFor(lines []string) proof {
	switch {
	case hasAny(lines, lFall, lRelease, lReturned):
		return released
	case hasAny(lines, lMarking, lMarked, lAltered, lConsent, lSubstance, lSecondHand, lUntraced):
		return inWriting
	}
	return byCompetent
}

// questionFor gives the Q word for a rule that rests on these lines.
func questionFor(lines []string, otherwise string) string {
	switch {
	case hasAny(lines, lFall, lRelease, lReturned):
		return QRelease
	case hasAny(lines, lMarking, lMarked):
		return QIdentity
	case hasAny(lines, lSubstance):
		return QSubstance
	}
	return otherwise
}

// refused enters every word on record that the piece is not fit: an answer
// that says so, and an examination whose maker would not climb on it.
func (j *judge) refused() {
	for i := range j.r.Answers {
		a := &j.r.Answers[i]
		if a.Unfit && a.Day <= j.r.AsOf {
			j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lDoubt, Lines: []string{lRelease}, Key: "answer.unfit",
				Args: []Arg{{"to", a.To}, {"day", a.Day.String()}, {"by", a.By}}})
		}
	}
	for i := range j.exams {
		e := &j.exams[i]
		if e.WouldClimb != kit.SaidNo && e.WouldClimb != kit.NotKnown {
			continue
		}
		args := []Arg{{"exam", string(e.Kind)}, {"day", e.Day.String()}, {"by", e.By}}
		if e.WouldClimb == kit.SaidNo {
			j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lRow1, Lines: []string{lDoubt}, Key: "examiner.would-not-climb", Args: args,
				Status: table.CommonPractice})
		} else if j.answer(e.Day, byCompetent, nameOr(e.Ref, QExamine)) == nil {
			j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Key: "examiner.not-sure", Args: args,
				Question: QExamine, To: nameOr(e.Ref, QExamine)})
		}
	}
}

// nameOr gives the ref that an answer has to name, else the Q word.
func nameOr(ref, question string) string {
	if ref != "" {
		return ref
	}
	return question
}
