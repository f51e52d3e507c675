package paper

import (
	"fmt"

	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// CardFacts are what a record card is made from.
type CardFacts struct {
	Facts
	Decisions []fold.Decided
}

// Card makes a record card of one piece (D-79, from memory): what it is, and
// every examination with its result.
func Card(f *CardFacts) *Doc {
	p := &f.Record.Piece
	d := &Doc{Title: "Record card", Sub: p.ID, Foot: "Head of the book when printed: " + f.Head, Attach: f.Machine, Name: p.ID + "-record.json"}
	known := func(s string) string { return orOpen(s) }
	date := func(s string, ok bool) string {
		if !ok {
			return "not known"
		}
		return s
	}
	kind := string(p.Kind)
	if k := f.Tables.Kind(p.Kind); k != nil {
		kind = k.Words
	}
	d.Sections = append(f.outOfUse(), Section{Heading: "The product", Rows: []Row{
		{"D-79", "Product", kind}, {"D-79", "Model and identification", known(p.Model) + "; serial " + known(p.Serial) + "; batch " + known(p.Batch)},
		{"D-79", "Trade name", known(p.Words)}, {"D-79", "Maker and address", known(p.Maker)}, {"D-79", "Year of manufacture", date(p.Made.Words(), p.Made.Known())},
		{"D-79", "Date of purchase", date(p.Bought.Words(), p.Bought.Known())}, {"D-79", "Date first put into use", date(p.FirstUse.Words(), p.FirstUse.Known())},
		{"D-79", "Other", known(p.MakerDocument)},
	}})
	s := Section{Heading: "Examinations and repairs", Head: []string{"Date", "Reason", "Defects, repairs, other", "Competent person", "Next due"},
		Widths: []float64{.14, .16, .36, .2, .14}}
	decided := map[string]*fold.Decision{}
	for i := range f.Decisions {
		decided[f.Decisions[i].Examination] = f.Decisions[i].Decision
	}
	for i := range f.Record.Examinations {
		e := &f.Record.Examinations[i]
		if e.Kind != kit.Interim && e.Kind != kit.Thorough {
			continue
		}
		found, next := fmt.Sprintf("%d signs, %d readings", len(e.Signs), len(e.Readings)), open
		if x := decided[e.Ref]; x != nil {
			found = x.Verdict + "; " + orElse(x.Report.Defect, "no defect named")
			if x.Latest != "" {
				next = words(x.Latest)
			}
		}
		if e.Latest.Known() {
			next = e.Latest.Words()
		}
		s.Table = append(s.Table, []string{e.Day.Words(), string(e.Kind), found, f.name(orElse(e.SignedBy, e.By)), next})
	}
	if len(s.Table) == 0 {
		s.Head, s.Note = nil, "No examination is on record."
	}
	d.Sections = append(d.Sections, s)
	return d
}

// Line is a piece as the register lists it.
type Line struct {
	ID, Kind, Words, Serial, Holder, Stands, Last, Next string
	Presented                                           bool // at the examiner's visit
}

// Register makes the register of the yard: every piece, and which were not
// presented at a visit.
func Register(yard, day, head string, list []Line) *Doc {
	d := &Doc{Title: "Register of kit", Sub: yard + " · " + day, Foot: "Head of the book when printed: " + head}
	s := Section{Heading: "Pieces", Head: []string{"Piece", "Kind", "Serial", "Held by", "Stands", "Last thorough", "Next"}, Widths: []float64{.11, .19, .14, .12, .16, .14, .14}}
	missing := Section{Heading: "On the register and not presented"}
	for _, l := range list {
		s.Table = append(s.Table, []string{l.ID, l.Kind, orElse(l.Serial, "—"), orElse(l.Holder, "—"), l.Stands, orElse(l.Last, "—"), orElse(l.Next, "—")})
		if !l.Presented {
			missing.Rows = append(missing.Rows, Row{"", l.ID, l.Kind + " " + l.Words})
		}
	}
	if len(missing.Rows) == 0 {
		missing.Note = "None."
	}
	d.Sections = append(d.Sections, s, missing)
	return d
}
