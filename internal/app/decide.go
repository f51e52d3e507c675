package app

import (
	"context"

	"kernbook/internal/answer"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// Decision is what an examiner decides on an examination in the book.
type Decision struct {
	Examination string // its ref; one that is on record
	Verdict     kit.Verdict
	Why         string
	Latest      qty.PartialDate // the latest date for the next examination
	Report      fold.Report
}

// Decide enters an examiner's decision on a piece, beside what the core says of
// the same record. The decision is the examiner's; it may be stricter than the
// outcome, never looser. What it sets aside or withdraws is out of use with it.
func (a *App) Decide(ctx context.Context, who Who, piece string, d Decision) (Written, error) {
	a = a.still()
	day := a.Today()
	return a.put(ctx, who, draft{kind: entry.Decision, piece: piece, day: day, artefact: true, same: func(old any) bool {
		b, ok := old.(*fold.Decision)
		return ok && b.Examination == d.Examination && b.Verdict == d.Verdict.String() && b.Why == d.Why && b.Report.Same(&d.Report) && b.Latest == latest(d.Latest)
	}, make: func(s *fold.State, _ entry.ID) (any, error) {
		p, err := pieceOf(s, piece)
		if err != nil {
			return nil, err
		}
		j, err := a.judge(s, p, day, true) // as the artefact gives it, so that the entry tells what its sum is of
		if err != nil {
			return nil, err
		}
		o, asked := j.Outcome, record.Encode(j.Record)
		out, ok := answer.Decide(a.tables, "record", asked)
		if !ok {
			return nil, fail(Broken, "No outcome can be given for %s: its record has faults.", piece)
		}
		if err := onRecord(j.Record, &d); err != nil {
			return nil, err
		}
		if err := d.against(o); err != nil {
			return nil, err
		}
		if err := d.endangers(j.Record, day); err != nil {
			return nil, err
		}
		b := &fold.Decision{AsOf: day.String(), Examination: d.Examination, Verdict: d.Verdict.String(), Why: d.Why, Record: sum(asked),
			Outcome: o.Verdict.String(), OutcomeSum: sum(out), Millions: -1, Report: d.Report, Latest: latest(d.Latest)}
		if o.Doubt != nil {
			b.Millions = o.Doubt.Millions
		}
		for i := range o.Reasons {
			b.Reasons = append(b.Reasons, o.Reasons[i].ID)
		}
		return b, nil
	}})
}

// onRecord refuses a decision on an examination that is not on record, or one
// that sets the next before it.
func onRecord(r *kit.Record, d *Decision) error {
	if d.Examination == "" {
		return nil
	}
	for i := range r.Examinations {
		switch e := &r.Examinations[i]; {
		case e.Ref != d.Examination:
		case d.Latest.Known() && d.Latest.Latest() <= e.Day:
			return fail(Invalid, "The latest date for the next examination, %s, does not lie after this one of %s.", d.Latest.Words(), e.Day.Words())
		default:
			return nil
		}
	}
	return fail(NotFound, "No examination “%s” of “%s” is on record, so nothing can be decided on it.", d.Examination, r.Piece.ID)
}

// against holds a decision against the outcome.
func (d *Decision) against(o *decide.Outcome) error {
	switch {
	case d.Verdict < o.Verdict:
		return fail(Refused, "The outcome is “%s”. A decision may be stricter, never looser than that.", o.Verdict)
	case d.Verdict > o.Verdict && d.Why == "":
		return fail(Invalid, "Say why you decide “%s” where the outcome is “%s”.", d.Verdict, o.Verdict)
	case d.Verdict >= kit.SetAside && d.Why == "":
		return fail(Invalid, "Say why you decide “%s”: the decision takes it out of use, and this is the reason that stays.", d.Verdict)
	}
	return nil
}

// latest prints a date as a decision keeps it; "" where none was set.
func latest(d qty.PartialDate) string {
	if !d.Known() {
		return ""
	}
	return d.String()
}
