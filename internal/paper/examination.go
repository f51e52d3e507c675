package paper

import (
	"fmt"
	"strconv"
	"strings"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Examination makes the report of a thorough examination, with every particular
// that the schedule asks for (D-30 to D-46). What was not said is left open, and
// says so: an empty line is never filled with a guess.
func Examination(f *Facts) *Doc {
	r := &f.Decision.Report
	title := "Report of thorough examination"
	if f.Exam.Kind != kit.Thorough {
		title = "Report of interim inspection, which is no thorough examination"
	}
	d := &Doc{Title: title, Sub: "Report " + orOpen(r.Number) + " · " + f.Record.Piece.ID + " · examined " + f.Exam.Day.Words(),
		Foot:   fmt.Sprintf("Entry %s, number %d of the book, recorded %s. Head of the book when printed: %s", f.Entry, f.Position+1, f.Recorded, f.Head),
		Attach: f.Machine, Name: f.Record.Piece.ID + "-record.json"}
	d.Sections = append(f.outOfUse(), f.whoAndWhere(), f.piece(), f.occasion(), f.findings(), f.conclusion(), f.authors(), f.notExamined())
	if s, strip := f.places(); strip != nil {
		d.Strip = strip
		d.Sections = append(d.Sections, s)
	}
	if f.Outcome != nil {
		d.Sections = append(d.Sections, f.annex(f.Outcome))
	}
	return d
}

// open stands where something was not said.
const open = "not said"

func orOpen(s string) string {
	if s == "" {
		return open
	}
	return s
}

func (f *Facts) whoAndWhere() Section {
	r := &f.Decision.Report
	return Section{Heading: "For whom and where", Rows: []Row{
		{"D-30", "Employer for whom it was made: name and address", orOpen(r.Employer)},
		{"D-31", "Address of the premises where it was made", orOpen(r.Premises)},
	}}
}

func (f *Facts) piece() Section {
	p := &f.Record.Piece
	var id []string
	for _, x := range [][2]string{{"number", p.ID}, {"", p.Words}, {"maker", p.Maker}, {"model", p.Model}, {"serial", p.Serial}, {"batch", p.Batch}, {"marking", p.Marking}, {"identity proved by", p.Proof}} {
		if x[1] != "" {
			id = append(id, strings.TrimSpace(x[0]+" "+x[1]))
		}
	}
	made := "not known"
	if p.Made.Known() {
		made = p.Made.Words()
	}
	kind := string(p.Kind)
	if k := f.Tables.Kind(p.Kind); k != nil {
		kind = k.Words
	}
	return Section{Heading: "The equipment", Rows: []Row{
		{"D-32", "Identification", kind + "; " + strings.Join(id, "; ")},
		{"D-32", "Date of manufacture, where known", made},
		{"D-33", "Date of the last thorough examination", f.lastThorough()},
		{"D-34", "Safe working load", orOpen(f.Decision.Report.Load)},
	}}
}

// occasions are those of the schedule, by the word in the book.
var occasions = map[string]string{
	"six-monthly": "within an interval of 6 months", "twelve-monthly": "within an interval of 12 months", "scheme": "in accordance with an examination scheme",
	"exceptional": "after the occurrence of exceptional circumstances",
}

// occasion has either what is asked of a first examination or what is asked of
// every other one: the two exclude each other (D-46).
func (f *Facts) occasion() Section {
	s := Section{Heading: "The examination"}
	safe := f.verdict() <= kit.KeepSooner
	if f.Decision.Report.Occasion == "first" {
		s.Rows = append(s.Rows, Row{"D-35", "Occasion", "first examination after installation or assembly at a new place"})
		if safe {
			s.Rows = append(s.Rows, Row{"D-35", "Installed correctly, and safe to operate", "yes"})
		}
	} else {
		words := occasions[f.Decision.Report.Occasion]
		s.Rows = append(s.Rows, Row{"D-36", "Which examination", orOpen(words)})
		if safe {
			s.Rows = append(s.Rows, Row{"D-36", "Would be safe to operate", "yes"})
		}
	}
	if !safe {
		s.Note = "That it would be safe to operate is stated only if such is the case; here it is not stated."
	}
	s.Rows = append(s.Rows, Row{"D-42", "Date of the examination", f.Exam.Day.Words()}, Row{"D-41", "Tests, where testing was part of it", orOpen(f.Decision.Report.Tests)})
	return s
}

func (f *Facts) verdict() kit.Verdict {
	v, ok := kit.ParseVerdict(f.Decision.Verdict)
	if !ok {
		return kit.Withdraw
	}
	return v
}

// findings has, for a defect, either what a present danger asks for or what one
// that could come asks for: the two exclude each other (D-46).
func (f *Facts) findings() Section {
	r := &f.Decision.Report
	s := Section{Heading: "Defects"}
	if r.Defect == "" {
		s.Rows = []Row{{"D-37", "Parts with a defect that is or could become a danger to persons", "none found"}}
		return s
	}
	s.Rows = []Row{{"D-37", "Part and defect that is or could become a danger to persons", r.Defect}}
	if r.Immediate || f.verdict() == kit.Withdraw {
		s.Rows = append(s.Rows, Row{"D-38", "It is a danger: repair, renewal or alteration required", orElse(r.Repair, f.defaultRepair())})
		return s
	}
	s.Rows = append(s.Rows, Row{"D-39", "It could become a danger: by when", orElse(f.Decision.Latest, open)},
		Row{"D-39", "Repair, renewal or alteration required", orElse(r.Repair, f.defaultRepair())})
	return s
}

func (f *Facts) defaultRepair() string {
	if f.verdict() == kit.Withdraw {
		return "to be replaced; withdrawn from use"
	}
	return open
}

func orElse(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

func (f *Facts) conclusion() Section {
	s := Section{Heading: "The examiner's decision", Rows: []Row{{"", "Decision", f.verdict().String()}}}
	if f.Decision.Why != "" {
		s.Rows = append(s.Rows, Row{"", "Reason", f.Decision.Why})
	}
	latest := open
	switch {
	case f.verdict() >= kit.SetAside:
		latest = "not to be used until this is settled"
	case f.Decision.Latest != "":
		latest = words(f.Decision.Latest)
	case f.Exam.Latest.Known():
		latest = f.Exam.Latest.Words()
	}
	s.Rows = append(s.Rows, Row{"D-40", "Latest date for the next thorough examination", latest})
	return s
}

func words(day string) string {
	if p, err := qty.ParseDate(day); err == nil && p.Known() {
		return p.Words()
	}
	return day
}

func (f *Facts) authors() Section {
	r := &f.Decision.Report
	employed := "employed by the employer named above"
	if r.SelfEmploy {
		employed = "self-employed"
	}
	return Section{Heading: "Who made the report", Rows: []Row{
		{"D-43", "Author", f.name(f.By)}, {"D-43", "Address and qualifications", orOpen(r.Qualified)}, {"D-43", "Employment", employed},
		{"D-44", "Signed or authenticated by", orElse(r.Authentic, f.name(f.Exam.SignedBy))}, {"D-45", "Date of the report", f.Decided.Words()},
	}, Note: "The report is to be made as soon as is practicable; the Code of practice reads that as within 28 days (D-22). From examination to report: " +
		strconv.Itoa(int(f.Decided-f.Exam.Day)) + " days."}
}

// notExamined says what was left out: the examiner's own words, and the looks
// of this kind of examination that are not on record.
func (f *Facts) notExamined() Section {
	s := Section{Heading: "What was not examined, and why", Rows: []Row{{"", "In the examiner's words", orElse(f.Decision.Report.NotLooked, "nothing said")}}}
	k := f.Tables.Kind(f.Record.Piece.Kind)
	if k == nil {
		return s
	}
	for i := range k.Needs {
		n := &k.Needs[i]
		made := n.Exam != f.Exam.Kind
		for l := range f.Exam.Looks {
			made = made || f.Exam.Looks[l].Look == n.Look && len(f.Exam.Looks[l].Covers) > 0
		}
		if made {
			continue
		}
		look := string(n.Look)
		if def := f.Tables.Look(n.Look); def != nil {
			look = def.Words
		}
		s.Rows = append(s.Rows, Row{"", "Not on record", look})
	}
	return s
}

// places lists what was found where, and draws it on the piece.
func (f *Facts) places() (Section, *Strip) {
	p := &f.Record.Piece
	k := f.Tables.Kind(p.Kind)
	s := Section{Heading: "Findings by place", Head: []string{"No.", "What", "Where", "State"}, Widths: []float64{.07, .5, .28, .15}}
	strip := &Strip{Length: p.Length.Millimetres()}
	known := map[string]kit.Sign{}
	for i := range f.Record.Examinations {
		e := &f.Record.Examinations[i]
		if e.Day > f.Exam.Day {
			continue
		}
		for n := range e.Signs {
			if x := e.Signs[n]; x.State == kit.FirstSeen && x.Ref != "" {
				known[x.Ref] = x
			}
		}
	}
	for i := range f.Exam.Signs {
		x := f.Exam.Signs[i]
		at := x
		if x.State != kit.FirstSeen {
			at = known[x.Ref]
		}
		name := at.Sign
		if k != nil {
			if def := k.Sign(at.Sign); def != nil {
				name = def.Words
			}
		}
		number := len(s.Table) + 1
		s.Table = append(s.Table, []string{strconv.Itoa(number), name, place(at.At), string(x.State)})
		if at.At.Part == "" && !at.At.Whole && strip.Length > 0 {
			strip.Marks = append(strip.Marks, Mark{number, at.At.From.Millimetres(), at.At.To.Millimetres(), name})
		}
	}
	for i := range f.Exam.Readings {
		x := &f.Exam.Readings[i]
		values := make([]string, len(x.Values))
		for n, v := range x.Values {
			values[n] = v.String()
		}
		number := len(s.Table) + 1
		s.Table = append(s.Table, []string{strconv.Itoa(number), x.Quantity + ": " + strings.Join(values, ", "), place(x.At), "measured"})
		if x.At.Part == "" && !x.At.Whole && strip.Length > 0 {
			strip.Marks = append(strip.Marks, Mark{number, x.At.From.Millimetres(), x.At.To.Millimetres(), x.Quantity})
		}
	}
	if len(s.Table) == 0 {
		s.Head, s.Note = nil, "Nothing was found or measured."
	}
	if strip.Length == 0 {
		strip = nil
	}
	return s, strip
}

func place(p kit.Place) string {
	switch {
	case p.Whole:
		return "the whole piece"
	case p.Part != "":
		return p.Part
	case p.From == p.To:
		return "at " + p.From.String() + " from end A"
	}
	return p.From.String() + " to " + p.To.String() + " from end A"
}

// annex tells what the tool made of the same record, when the examiner adds it.
func (f *Facts) annex(o *decide.Outcome) Section {
	s := Section{Heading: "Annex, added by the examiner: what the tool made of the same record", Rows: []Row{{"", "Outcome", o.Verdict.String()}}}
	if o.Doubt != nil {
		s.Rows = append(s.Rows, Row{"", "Doubt", fmt.Sprintf("%d in a million; the yard's limit is %d. It speaks of pieces with such a record, not of accidents.", o.Doubt.Millions, o.Doubt.Limit)})
	}
	for i := range o.Reasons {
		s.Rows = append(s.Rows, Row{o.Reasons[i].ID, "Reason, " + o.Reasons[i].Verdict.String(), orElse(o.Reasons[i].Words, o.Reasons[i].Key)})
	}
	s.Note = "The tool advises. The examiner's decision above is the report. Core " + o.Core + ", tables " + o.Tables + "."
	return s
}
