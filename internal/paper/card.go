package paper

import (
	"fmt"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// CardFacts are what a record card is made from.
type CardFacts struct {
	Facts
	Lines []fold.Line // all that is in the book about the piece
}

// Card makes a record card of one piece (D-79, from memory): what it is, and
// every examination, event and repair with its result.
func Card(f *CardFacts) *Doc {
	p := &f.Record.Piece
	f.Since = f.Lines
	d := &Doc{Title: "Record card", Sub: "piece " + p.ID + " · printed " + f.Printed.Words(), Running: "Record card · piece " + p.ID, Foot: "Head of the book when printed: " + f.Head, Attach: f.Machine, Name: p.ID + "-record.json",
		Key: "With the particulars that the annex of EN 365:2004 lists for the record of equipment, given from memory, not from the standard. “" + NotStated + "” marks what is missing."}
	f.outOfUse(d)
	d.Sections = append(d.Sections, Section{Heading: "The product", Rows: []Row{
		{"", "Product", f.kind()}, {"", "Model or type", orOpen(p.Model)},
		{"", "Identification", "the yard's number " + p.ID + "; serial number " + orOpen(p.Serial) + "; batch " + orOpen(p.Batch)},
		{"", "Trade name, as its maker sells it", orOpen(p.Trade)}, {"", "Described in the yard's own words", orOpen(p.Words)},
		{"", "Maker: name", orOpen(p.Maker)}, {"", "Maker: address", orOpen(p.MakerAt)},
		{"", "Year of manufacture", known(p.Made)}, {"", "Expiry", expiry(p)},
		{"", "Date of purchase", known(p.Bought)}, {"", "Date first put into use", known(p.FirstUse)},
		{"", "Other: maker's document", orOpen(p.MakerDocument)},
	}})
	s := Section{Heading: "Examinations, repairs and what happened", Head: []string{"Date", "Reason for the entry", "Defects found, repairs made, other", "Competent person; signature", "Next due"},
		Widths: []float64{.12, .17, .38, .19, .14}}
	decided := map[string]*fold.Decision{}
	for i := range f.Lines {
		if l := &f.Lines[i]; l.Kind == entry.Decision && !l.Void {
			if v, err := fold.Decode(l.Kind, l.Version, l.Body); err == nil {
				if x := v.(*fold.Decision); x.Examination != "" {
					decided[x.Examination] = x
				}
			}
		}
	}
	for i := range f.Lines {
		l := &f.Lines[i]
		t := f.tell(l)
		if t == "" || l.Kind == entry.Decision { // told with its examination
			continue
		}
		row := []string{l.Day.Words(), cardReason(l.Kind), t, "entered by " + f.name(l.Author), "—"}
		if v, err := fold.Decode(l.Kind, l.Version, l.Body); err == nil {
			if e, ok := v.(*kit.Examination); ok {
				f.cardExam(row, e, decided[e.Ref])
			}
		}
		s.Table = append(s.Table, row)
	}
	if len(s.Table) == 0 {
		s.Head, s.Note = nil, "No examination is on record."
	} else {
		s.Note = "Entries stand in the order in which the book took them. The book holds no signatures yet: sign on paper beside the name, or rely on the reports named."
	}
	d.Sections = append(d.Sections, s)
	return d
}

// cardExam fills the line of an examination: what was found and decided, who
// signed, what is due next.
func (f *CardFacts) cardExam(row []string, e *kit.Examination, x *fold.Decision) {
	row[1] = "check before use"
	if !e.Kind.BeforeUse() {
		row[1] = "periodic: " + examWords(e.Kind)
	}
	row[2] = orElse(f.found(e), "nothing seen")
	row[3] = f.name(orElse(e.SignedBy, e.By))
	row[4] = NotStated
	if e.Kind.BeforeUse() {
		row[4] = "—"
	}
	if e.Latest.Known() {
		row[4] = e.Latest.Words()
	}
	if x == nil {
		return
	}
	t := "decided: " + x.Verdict
	if x.Report.Number != "" {
		t = "report " + x.Report.Number + ", " + t
	}
	for _, d := range x.Report.Defects() {
		t = join(t, "defect: "+d.Defect, d.Repair)
	}
	row[2] = join(row[2], t)
	if x.Latest != "" {
		row[4] = words(x.Latest)
	}
	switch v, _ := kit.ParseVerdict(x.Verdict); {
	case v >= kit.Withdraw:
		row[4] = "none: withdrawn"
	case v >= kit.SetAside && x.Latest == "":
		row[4] = "before it is used again"
	}
}

func cardReason(k entry.Kind) string {
	switch k {
	case entry.Event:
		return "it happened"
	case entry.Change:
		return "repair or change"
	case entry.Washing:
		return "cleaning"
	case entry.Stop:
		return "its use"
	case entry.Correct:
		return "correction"
	}
	return "other"
}

// expiry gives what the maker says of its end: the date marked on it, or its life.
func expiry(p *kit.Piece) string {
	t := ""
	if p.Obsolete.Known() {
		t = "marked " + p.Obsolete.Words()
	}
	if p.MakerFromMade > 0 {
		t = join(t, fmt.Sprintf("%s from manufacture, as its maker says", p.MakerFromMade))
	}
	if p.MakerFromUse > 0 {
		t = join(t, fmt.Sprintf("%s from first use, as its maker says", p.MakerFromUse))
	}
	return orOpen(t)
}
