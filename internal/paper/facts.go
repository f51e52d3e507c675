// Package paper makes what a yard hands over: the report of a thorough
// examination, the record card of a piece, the register of the yard; as PDF for
// paper and as HTML for screens and screen readers, with the same content. It
// shows what was decided and puts nothing to it.
package paper

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
)

// Facts are what a report of one examination is made from.
type Facts struct {
	Tables   *table.Tables
	Record   *kit.Record // as it was decided on
	Exam     kit.Examination
	Decision fold.Decision
	Decided  qty.Day
	By       string            // id of whoever decided
	Names    map[string]string // of persons, by id; a person who was forgotten has none
	Entry    string            // id of the decision's entry
	Position int64             // its index in the book
	Recorded string            // instant at which the book took it
	Head     string            // head of the book when this was made
	Outcome  *decide.Outcome   // for the annex; nil leaves it out
	Machine  []byte            // the machine-readable record, to be attached
	Stopped  fold.Stopped      // what people did about its use, up to when this was made
}

// outOfUse says, before anything else, that the piece has been taken out of use;
// none where it has not.
func (f *Facts) outOfUse() []Section {
	st, what := &f.Stopped, ""
	switch {
	case st.Cut:
		what = "cut up"
	case st.Withdrawn:
		what = "withdrawn"
	case st.Held:
		what = "held back"
	case st.Aside:
		what = "set aside"
	default:
		return nil
	}
	return []Section{{Heading: "This piece is out of use", Rows: []Row{
		{"", "It was " + what, st.Day.Words() + ", by " + f.name(st.By)}, {"", "Because", orOpen(st.Why)}}}}
}

// name gives the name of a person, or what stands for it.
func (f *Facts) name(id string) string {
	if n := f.Names[id]; n != "" {
		return n + " (" + id + ")"
	}
	if id == "" {
		return "not said"
	}
	return id
}

// lastThorough gives the day of the thorough examination before this one, from
// the record, else as it was told when the record began.
func (f *Facts) lastThorough() string {
	best := qty.Day(0)
	for i := range f.Record.Examinations {
		e := &f.Record.Examinations[i]
		if e.Kind == kit.Thorough && e.Day < f.Exam.Day {
			best = max(best, e.Day)
		}
	}
	switch {
	case best != 0:
		return best.Words()
	case f.Record.Piece.Examined.Known():
		return f.Record.Piece.Examined.Words()
	}
	return "none on record"
}
