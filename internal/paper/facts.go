// Package paper makes what a yard hands over: the report of a thorough
// examination, the record card of a piece, the register of the yard; as PDF for
// paper and as HTML for screens and screen readers, with the same content. It
// shows what was decided and puts nothing to it.
package paper

import (
	"strings"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// Facts are what a report of one examination is made from.
type Facts struct {
	Tables   *table.Tables
	Record   *kit.Record // as it was decided on
	Exam     kit.Examination
	Decision fold.Decision
	Decided  qty.Day
	By       string                  // id of whoever decided: the person making the report
	People   map[string]fold.Private // what is sealed of persons, by id; nothing of who was forgotten
	Entry    string                  // id of the decision's entry
	Position int64                   // its index in the book
	Leaf     string                  // its hash in the tree
	Recorded string                  // instant at which the book took it
	Head     string                  // head of the book when this was made
	Printed  qty.Day
	Outcome  *decide.Outcome // for the annex; nil leaves it out
	Machine  []byte          // the machine-readable record, to be attached
	Sum      string          // SHA-256 of Machine
	Stopped  fold.Stopped    // what people did about its use, as it is when this is made
	Stands   kit.Verdict     // what it comes to when this is made, with the outcome of that day
	Today    *decide.Outcome // the outcome of that day; nil where none can be given
	Now      *kit.Record     // what Today is of
	Since    []fold.Line     // what came into the book about the piece after the decision
	Changes  []kit.Change    // all that was done to the piece up to when this was made; nil stands for those of Record
}

// names gives the words for the ids of the record.
func (f *Facts) names() report.Namer {
	return report.Names(&decide.Outcome{Kind: f.Record.Piece.Kind}, f.Tables, f.Record, lang.English())
}

// where says a place, and how far it is from the nearer end.
func (f *Facts) where(p kit.Place) string {
	t := f.names().Where(p)
	if l := f.Record.Piece.Length; p.Part == "" && !p.Whole && !p.Gone && l > 0 && p.To <= l && p.From > l/2 {
		t += "; " + (l - p.To).String() + " from end B"
	}
	return orElse(t, "place not stated")
}

// outOfUse says that the piece is out of use when this is made: that people took it
// out, with who did it and why, and what the record of that day says by itself.
func (f *Facts) outOfUse(d *Doc) {
	st, what := &f.Stopped, ""
	switch {
	case st.Cut:
		what = "cut up"
	case st.Withdrawn:
		what = "withdrawn"
	case st.Held:
		what = "held back"
	case f.Stands >= kit.Withdraw:
		what = "to be withdrawn"
	case st.Verdict() >= kit.SetAside || f.Stands >= kit.SetAside:
		what = "set aside"
	default:
		return
	}
	d.Alert = &Verdict{"When printed, on " + f.Printed.Words(), "out of use: " + what, kit.Withdraw}
	var rows []Row
	if st.ForGood() || st.Aside {
		did := map[string]string{"withdraw": "withdrawn", "hold": "held back", "cut up": "cut up"}[st.What]
		rows = append(rows, Row{"", "It was " + orElse(did, "set aside"), st.Day.Words() + ", by " + f.name(st.By)}, Row{"", "Because", orOpen(st.Why)})
	}
	switch {
	case st.Cut && st.What != "cut up":
		rows = append(rows, Row{"", "Since then", "it has been cut up"})
	case st.Held && st.What != "hold":
		rows = append(rows, Row{"", "Since then", "it has been held back"})
	case st.Passed && !st.ForGood():
		rows = append(rows, Row{"", "Passed since it was decided", "the latest date for its next thorough examination, " + st.Latest.Words()})
	}
	if !st.ForGood() {
		rows = append(rows, f.byRecord()...)
	}
	d.Sections = append(d.Sections, Section{Heading: "This piece is out of use, as on record when this was printed", Rows: rows})
}

// byRecord gives what the record of the day by itself keeps a piece from use for.
func (f *Facts) byRecord() []Row {
	if f.Today == nil || f.Now == nil {
		return []Row{{"", "By its record", "no outcome can be given, so it is not used"}}
	}
	if f.Today.Verdict < kit.SetAside {
		return nil
	}
	var out []Row
	for i, t := range report.Brief(f.Today, f.Tables, f.Now, lang.English()).Reasons {
		if f.Today.Reasons[i].Verdict >= kit.SetAside {
			out = append(out, Row{"", "By its record", t})
		}
	}
	return out
}

// name gives the name of a person, or what stands for it.
func (f *Facts) name(id string) string {
	if n := f.People[id].Name; n != "" {
		return n
	}
	if id == "" {
		return NotStated
	}
	return "the person with the sign " + id + " (no name on record)"
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

func (f *Facts) kind() string {
	return KindWords(f.Record.Piece.Kind)
}

// KindWords gives a kind of piece in words.
func KindWords(k kit.KindID) string {
	if c := lang.English(); c.Has("draw.kind." + string(k)) {
		return c.Say("draw.kind." + string(k))
	}
	return string(k)
}

func orOpen(s string) string { return orElse(s, NotStated) }

func orElse(s, otherwise string) string {
	if strings.TrimSpace(s) == "" {
		return otherwise
	}
	return s
}

func known(p qty.PartialDate) string {
	if p.Known() {
		return p.Words()
	}
	return "not known"
}

// words prints the day of a decision as people write it.
func words(day string) string {
	if p, err := qty.ParseDate(day); err == nil && p.Known() {
		return p.Words()
	}
	return day
}
