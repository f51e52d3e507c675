package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// proof is what an answer must bring to lift a question.
type proof int

const (
	// byCompetent: a competent person's word, or a document: what is set aside
	// waits for the answer of one of these, a competent person or the maker.
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
// neither before its cause nor after AsOf, and brings the proof.
func (j *judge) lifts(a *kit.Answer, cause qty.Day, need proof, names []string) bool {
	return a.Day >= cause && a.Day <= j.r.AsOf && !a.Unfit && has(names, a.To) && short(j.r, a, need) == ""
}

// short says what an answer lacks to lift a question: "to", "by", "document",
// "proof" (neither a document nor a competent person's word of how it was
// verified), "competent"; "" when it lacks nothing.
func short(r *kit.Record, a *kit.Answer, need proof) string {
	switch {
	case a.To == "":
		return "to"
	case a.By == "":
		return "by"
	case need != byCompetent && a.Document == "":
		return "document"
	case need == released && !competent(r, a.By, a.Day):
		return "competent"
	case need == byCompetent && a.Document == "" && (a.Verified == "" || !competent(r, a.By, a.Day)):
		return "proof"
	}
	return ""
}

// Settles says whether an answer settles a sign to be weighed that was first
// seen, or had grown, on a day: it names a cause, is not older than the sign,
// says who answers, and brings a document, or a competent person's word of how
// the cause was verified.
func Settles(r *kit.Record, a *kit.Answer, since qty.Day) bool {
	return a.Cause != "" && !a.Unfit && a.Day >= since && a.Day <= r.AsOf && short(r, a, byCompetent) == ""
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
// that says so, and an examination whose maker would not climb on it. Of an
// interim or thorough examination that does not say whether they would, as little
// is known as of one that says "not known".
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
		silent := e.WouldClimb == kit.NotSaid && (e.Kind == kit.Interim || e.Kind == kit.Thorough)
		if e.WouldClimb != kit.SaidNo && e.WouldClimb != kit.NotKnown && !silent {
			continue
		}
		key := "examiner.not-sure"
		if silent {
			key = "examiner.not-said"
		}
		args := []Arg{{"exam", string(e.Kind)}, {"day", e.Day.String()}, {"by", e.By}}
		if e.WouldClimb == kit.SaidNo {
			j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lRow1, Lines: []string{lDoubt}, Key: "examiner.would-not-climb", Args: args,
				Status: table.CommonPractice})
		} else if j.answer(e.Day, byCompetent, nameOr(e.Ref, QExamine)) == nil {
			j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Key: key, Args: args,
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
