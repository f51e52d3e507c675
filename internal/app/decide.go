package app

import (
	"context"
	"slices"
	"strings"

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
		if err := d.may(j.Record, o, day); err != nil {
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

// may refuses a decision that its record, its outcome or itself speaks against.
func (d *Decision) may(r *kit.Record, o *decide.Outcome, today qty.Day) error {
	e, err := d.on(r)
	if err != nil {
		return err
	}
	if err := d.against(o); err != nil {
		return err
	}
	if err := d.dated(e, o); err != nil {
		return err
	}
	if err := reported(&d.Report); err != nil {
		return err
	}
	return d.endangers(r, today)
}

// on gives the examination of a record that a decision is on: an interim or thorough
// one, by its name.
func (d *Decision) on(r *kit.Record) (*kit.Examination, error) {
	if d.Examination == "" {
		return nil, fail(Invalid, "Say which examination of “%s” is decided on: an interim or thorough one, by its name.", r.Piece.ID)
	}
	for i := range r.Examinations {
		switch e := &r.Examinations[i]; {
		case e.Ref != d.Examination:
		case e.Kind != kit.Interim && e.Kind != kit.Thorough:
			return nil, fail(Invalid, "“%s” is a %s look; a decision is on an interim or thorough examination.", e.Ref, e.Kind)
		default:
			return e, nil
		}
	}
	return nil, fail(NotFound, "No examination “%s” of “%s” is on record, so nothing can be decided on it.", d.Examination, r.Piece.ID)
}

// dated refuses a latest date for the next examination that does not lie after this
// one, or lies behind the day on which the next thorough one is due: of a month the
// first day is held against the one, the last against the other. Where the decision
// names none, its report names the one that was set with the examination, which is due
// on its first day.
func (d *Decision) dated(e *kit.Examination, o *decide.Outcome) error {
	date, whose, last := d.Latest, "", d.Latest.Latest()
	if !date.Known() {
		date, whose, last = e.Latest, " that was set with the examination", e.Latest.Earliest()
	}
	switch due := &o.Due; {
	case !date.Known() || d.Verdict == kit.Withdraw && !d.Latest.Known(): // there is no next one
	case date.Earliest() <= e.Day:
		return fail(Invalid, "The latest date for the next examination%s, %s, does not lie after this one of %s.", whose, date.Words(), e.Day.Words())
	case due.Known && last > due.Day:
		return fail(Invalid, "The latest date for the next examination%s, %s, lies later than it is due: %s is the date that holds. Set that or an earlier one.", whose, date.Words(), due.Day.Words())
	}
	return nil
}

// Occasions are the words for which thorough examination it was (D-35, D-36).
var Occasions = [...]string{"first", "six-monthly", "twelve-monthly", "scheme", "exceptional"}

// reported refuses a report that the schedule has no place for: another occasion than
// its own; a repair or a danger of no defect; a defect that is a danger now and has a
// time by which it could become one (D-46).
func reported(r *fold.Report) error {
	if r.Occasion != "" && !slices.Contains(Occasions[:], r.Occasion) {
		return fail(Invalid, "“%s” is no occasion of a thorough examination: it is one of %s.", r.Occasion, strings.Join(Occasions[:], ", "))
	}
	first := fold.Defect{Defect: r.Defect, Repair: r.Repair, Immediate: r.Immediate, DangerBy: r.DangerBy}
	for _, x := range append([]fold.Defect{first}, r.More...) {
		switch {
		case x.Defect == "" && (x != fold.Defect{} || len(r.More) > 0):
			return fail(Invalid, "Name the defect that is to be put right.")
		case x.Immediate && x.DangerBy != "":
			return fail(Invalid, "The defect “%s” is a danger now, or could become one by a time: not both.", x.Defect)
		}
	}
	return nil
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
