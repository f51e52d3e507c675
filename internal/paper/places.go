package paper

import (
	"strconv"
	"strings"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// places lists what was found where, and draws it on the piece.
func (f *Facts) places() Section {
	p := &f.Record.Piece
	n := f.names()
	s := Section{Heading: "Findings by place", Head: []string{"No.", "What", "Where", "State"}, Widths: []float64{.07, .4, .37, .16}}
	strip := &Strip{Length: p.Length.Millimetres()}
	found := map[string][]string{}
	put := func(at kit.Place, measured bool, what, state string) {
		number := len(s.Table) + 1
		s.Table = append(s.Table, []string{strconv.Itoa(number), what, f.where(at), state})
		switch {
		case at.Part != "":
			found[at.Part] = append(found[at.Part], strconv.Itoa(number))
		case strip.Length > 0 && at.Whole:
			strip.Marks = append(strip.Marks, Mark{number, 0, strip.Length, measured})
		case strip.Length > 0 && !at.Gone && (at.From > 0 || at.To > 0):
			strip.Marks = append(strip.Marks, Mark{number, at.From.Millimetres(), at.To.Millimetres(), measured})
		}
	}
	first := f.firstSeen()
	for i := range f.Exam.Signs {
		x := f.Exam.Signs[i]
		at := seenAt(&x, first)
		what := n.Sign(at.Sign)
		if x.Words != "" {
			what += ": " + x.Words
		}
		put(at.At, false, what, string(x.State))
	}
	for i := range f.Exam.Readings {
		x := &f.Exam.Readings[i]
		put(x.At, true, n.Quantity(x.Quantity)+": "+values(x), "measured")
	}
	k := f.Tables.Kind(p.Kind)
	if k != nil {
		for i := range k.Parts {
			if numbers := found[k.Parts[i].ID]; len(numbers) > 0 || strip.Length == 0 {
				strip.Parts = append(strip.Parts, Part{k.Parts[i].Words, numbers})
			}
		}
	}
	if strip.Length > 0 || len(strip.Parts) > 0 {
		s.Strip = strip
	}
	if len(s.Table) == 0 {
		s.Head, s.Note = nil, "No sign was seen and nothing was measured."
	}
	return s
}

// firstSeen gives the signs on record up to the examination, by their name.
func (f *Facts) firstSeen() map[string]kit.Sign {
	out := map[string]kit.Sign{}
	for i := range f.Record.Examinations {
		e := &f.Record.Examinations[i]
		for n := range e.Signs {
			if x := e.Signs[n]; x.State == kit.FirstSeen && x.Ref != "" {
				out[x.Ref] = x
			}
		}
	}
	return out
}

func values(x *kit.Reading) string {
	out := make([]string, len(x.Values))
	for n, v := range x.Values {
		out[n] = v.String()
	}
	return strings.Join(out, ", ")
}

// annex tells what the tool made of the same record, when the examiner adds it.
func (f *Facts) annex() Section {
	o := f.Outcome
	b := report.Brief(o, f.Tables, f.Record, lang.English())
	s := Section{Heading: "Annex, added by the competent person: what the tool made of the same record", Rows: []Row{{"", "Outcome", b.Verdict}, {"", "Doubt", doubt(o, &b)}}}
	for _, r := range b.Reasons {
		s.Rows = append(s.Rows, Row{"", "Reason", r})
	}
	s.Note = "The tool advises. The competent person's decision is the report. Core " + o.Core + ", tables " + o.Tables + "."
	return s
}

func doubt(o *decide.Outcome, b *report.Short) string {
	if o.Doubt == nil {
		return b.Doubt
	}
	return b.Chance + " that it is unfit somewhere, by all on record (" + strconv.FormatInt(o.Doubt.Millions, 10) + " in a million); the limit is " + b.Limit + ". It speaks of pieces with such a record, not of accidents."
}
