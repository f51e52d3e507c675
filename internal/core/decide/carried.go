package decide

import (
	"slices"

	"kernbook/internal/core/course"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Carried is the belief about a piece as far as its record leads it on some day,
// kept to go on from on a later one. It belongs to one caller at a time.
type Carried struct {
	c    *course.Course
	t    *table.Tables
	asOf qty.Day
	born qty.Day
}

// Carry follows a record to its day AsOf and keeps how far that leads. It gives nil
// where the kind has no doubt figure.
func Carry(t *table.Tables, r *kit.Record) *Carried {
	k := t.Kind(r.Piece.Kind)
	if k == nil || !k.Doubt {
		return nil
	}
	c := Begin(t, r)
	c.Hold(r.AsOf)
	return &Carried{c, t, r.AsOf, Born(t, r)}
}

// Leads says whether the belief can be gone on with for a record, which must be the
// same as that of Carry but for its yard, its day AsOf, and people that it says
// nothing more of: not where the day is an earlier one, nor where something was
// entered for a day between the two.
func (k *Carried) Leads(t *table.Tables, r *kit.Record) bool {
	if k == nil || k.t != t || r.AsOf < k.asOf || Born(t, r) != k.born {
		return false
	}
	if r.AsOf == k.asOf {
		return true
	}
	since := func(d qty.Day) bool { return k.asOf < d && d <= r.AsOf }
	return !slices.ContainsFunc(r.Examinations, func(x kit.Examination) bool { return since(x.Day) }) &&
		!slices.ContainsFunc(r.Events, func(x kit.Event) bool { return since(x.Day) }) &&
		!slices.ContainsFunc(r.Answers, func(x kit.Answer) bool { return since(x.Day) }) &&
		!slices.ContainsFunc(r.Changes, func(x kit.Change) bool { return since(x.Day) }) &&
		!slices.ContainsFunc(r.Uses, func(x kit.Use) bool { return since(x.From) }) &&
		!slices.ContainsFunc(r.Runs, func(x kit.Run) bool { return since(x.From) })
}

// Decide gives the outcome that Decide gives for a record that the belief leads to,
// without the explanation.
func (k *Carried) Decide(r *kit.Record) Outcome {
	return From(k.t, r, k.c.GoOn(r), Ask{})
}
