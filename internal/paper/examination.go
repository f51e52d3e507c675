package paper

import (
	"fmt"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
)

// key explains the numbers beside the particulars. D-30 to D-46 of the sources.
const key = "The numbers on the left are the paragraphs of Schedule 1 to the Lifting Operations and Lifting Equipment Regulations 1998 (S.I. 1998/2307) that ask for the particular. " +
	"Paragraphs 8(d) to 11 are given from memory, not from the statute. “" + NotStated + "” marks a particular that is missing from this report."

// Examination makes the report of a thorough examination, with every particular
// that the schedule asks for (D-30 to D-46). What was not said is left open, and
// says so: an empty line is never filled with a guess.
func Examination(f *Facts) *Doc {
	r := &f.Decision.Report
	title := "Report of thorough examination"
	if f.Exam.Kind != kit.Thorough {
		title = "Report of interim inspection, which is no thorough examination"
	}
	id := f.Record.Piece.ID
	d := &Doc{Title: title, Sub: "Report number " + orOpen(r.Number) + " · piece " + id + " · examined " + f.Exam.Day.Words(), Key: key,
		Running: "Report " + orElse(r.Number, "without a number") + " · piece " + id + " · examined " + f.Exam.Day.Words(),
		Foot:    fmt.Sprintf("Entry %s, number %d of the book. Head of the book when printed: %s", f.Entry, f.Position+1, f.Head),
		Verdict: &Verdict{"Decision of the competent person", f.verdict().String(), f.verdict()},
		Attach:  f.Machine, Name: id + "-record.json"}
	f.outOfUse(d)
	then := f.on(f.Exam.Day, f.Record.Changes) // what was found, where it lay when it was found
	d.Sections = append(d.Sections, f.conclusion(), f.whoAndWhere(), then.piece(), f.occasion())
	d.Sections = append(d.Sections, f.defects()...)
	d.Sections = append(d.Sections, then.places(), then.notExamined(), f.authors(), f.book())
	if f.Outcome != nil {
		d.Sections = append(d.Sections, f.annex())
	}
	d.Sections = append(d.Sections, f.since())
	return d
}

func (f *Facts) whoAndWhere() Section {
	r := &f.Decision.Report
	return Section{Heading: "For whom and where", Rows: []Row{
		{"", "Number of the report", orOpen(r.Number)},
		{"1", "Employer for whom it was made: name and address", orOpen(r.Employer)},
		{"2", "Address of the premises where it was made", orOpen(r.Premises)},
	}}
}

func (f *Facts) piece() Section {
	p := &f.Record.Piece
	var id []string
	for _, x := range [][2]string{{"the yard's number", p.ID}, {"described as", p.Words}, {"made by", p.Maker}, {"trade name", p.Trade}, {"model", p.Model}, {"serial number", p.Serial}, {"batch", p.Batch}, {"marking", p.Marking}, {"identity proved by", p.Proof}} {
		if x[1] != "" {
			id = append(id, x[0]+" "+x[1])
		}
	}
	rows := []Row{
		{"3", "Particulars that identify the equipment", f.kind() + "; " + strings.Join(id, "; ")},
		{"3", "Date of manufacture, where known", known(p.Made)},
	}
	if p.Length > 0 {
		rows = append(rows, Row{"", "Length as measured", p.Length.String()})
	}
	return Section{Heading: "The equipment", Rows: append(rows,
		Row{"4", "Date of the last thorough examination before this one", f.lastThorough()},
		Row{"5", "Safe working load, or that of the last configuration examined", orOpen(f.Decision.Report.Load)})}
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
	r := &f.Decision.Report
	if f.Exam.Kind != kit.Thorough {
		s.Rows = append(s.Rows, Row{"7(a)", "Which thorough examination it was", orElse(strings.TrimSuffix("none: this was an interim inspection; stated with it: "+occasions[r.Occasion], "; stated with it: "), NotStated)})
	} else if r.Occasion == "first" {
		s.Rows = append(s.Rows, Row{"6(a)", "Occasion", "first thorough examination after installation, or after assembly at a new site or location"})
		if f.safe() {
			s.Rows = append(s.Rows, Row{"6(b)", "Installed correctly and would be safe to operate", "yes"})
		}
	} else {
		s.Rows = append(s.Rows, Row{"7(a)", "Which thorough examination it was", orOpen(occasions[r.Occasion])})
		if f.safe() {
			s.Rows = append(s.Rows, Row{"7(b)", "Would be safe to operate", "yes"})
		}
	}
	if !f.safe() {
		s.Note = "That the equipment would be safe to operate is stated only if such is the case; here it is not stated."
	}
	tests := orOpen(r.Tests)
	if t := strings.ToLower(strings.Trim(strings.TrimSpace(r.Tests), ".")); t == "none" || t == "no" || t == "no tests" {
		tests = "no test was part of this examination"
	}
	s.Rows = append(s.Rows, Row{"8(f)", "Date of the " + examWords(f.Exam.Kind), f.Exam.Day.Words()}, Row{"", "Examined by the competent person", f.name(f.Exam.Maker())},
		Row{"8(e)", "Particulars of any test that was part of it", tests})
	return s
}

// safe says whether the report states that the equipment would be safe to
// operate: it is kept, and no defect is named that is a danger.
func (f *Facts) safe() bool {
	for _, d := range f.Decision.Report.Defects() {
		if d.Immediate {
			return false
		}
	}
	return f.verdict() <= kit.KeepSooner
}

func (f *Facts) verdict() kit.Verdict {
	v, ok := kit.ParseVerdict(f.Decision.Verdict)
	if !ok {
		return kit.Withdraw
	}
	return v
}

// defects has, for each defect, either what a present danger asks for or what one
// that could come asks for: the two exclude each other (D-46).
func (f *Facts) defects() []Section {
	all := f.Decision.Report.Defects()
	if len(all) == 0 {
		s := Section{Heading: "Defects", Rows: []Row{{"8(a)", "Parts with a defect that is or could become a danger to persons", "none found"}}}
		if f.verdict() >= kit.SetAside {
			s.Rows[0].Value = "none named by the competent person"
			s.Note = "The piece does not stay in use, and no defect is named: the reasons stand with the decision."
		}
		return []Section{s}
	}
	var out []Section
	for i := range all {
		x := &all[i]
		s := Section{Heading: "Defect"}
		if len(all) > 1 {
			s.Heading = "Defect " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(all))
		}
		s.Rows = []Row{{"8(a)", "Part found to have a defect, and the defect", x.Defect}}
		repair := orOpen(x.Repair)
		if repair == NotStated && f.verdict() == kit.Withdraw {
			repair = "to be replaced; withdrawn from use"
		}
		if said := x.Immediate || x.DangerBy != ""; x.Immediate || !said && f.verdict() == kit.Withdraw {
			danger := "it is one"
			if !said { // nobody said so
				danger = NotStated
			}
			s.Rows = append(s.Rows, Row{"8(a)", "Danger to persons", danger}, Row{"8(b)", "Repair, renewal or alteration required to remedy it", repair})
			s.Note = "Where a defect involves an existing or imminent risk of serious personal injury, a copy of this report goes to the enforcing authority as soon as is practicable (regulation 10(1)(c))."
		} else {
			s.Rows = append(s.Rows, Row{"8(a)", "Danger to persons", "not yet; it could become one"}, Row{"8(c)(i)", "Time by which it could become a danger", orOpen(words(x.DangerBy))},
				Row{"8(c)(ii)", "Repair, renewal or alteration required to remedy it", repair})
		}
		out = append(out, s)
	}
	return out
}

func (f *Facts) conclusion() Section {
	s := Section{Heading: "Decision and reasons", Rows: []Row{{"", "Decision", f.verdict().String()}, {"", "Reasons, in the competent person's words", orOpen(f.Decision.Why)}}}
	latest := orOpen(words(f.Decision.Latest))
	if latest == NotStated && f.Exam.Latest.Known() {
		latest = f.Exam.Latest.Words()
	}
	switch {
	case f.verdict() >= kit.Withdraw:
		latest = "none: withdrawn, not to be used again"
	case f.verdict() >= kit.SetAside && latest == NotStated:
		latest = "before it is used again"
	case f.verdict() >= kit.SetAside:
		latest += "; and not to be used until what set it aside is settled"
	}
	s.Rows = append(s.Rows, Row{"8(d)", "Latest date by which the next thorough examination must be carried out", latest})
	return s
}

func (f *Facts) authors() Section {
	r := &f.Decision.Report
	me := f.People[f.By]
	qualified, employed := orElse(me.Qualified, r.Qualified), me.Employed
	address := me.Address
	if address == "" && r.Qualified != "" && me.Qualified == "" {
		address = "as with the qualifications below"
	}
	switch {
	case r.SelfEmploy || strings.EqualFold(strings.TrimSpace(employed), "self-employed"):
		employed = "self-employed"
	case employed != "":
		employed = "employed by " + employed
	}
	s := Section{Heading: "Who made the report", Rows: []Row{
		{"9", "Person making the report: name", orOpen(me.Name)}, {"9", "Address", orOpen(address)}, {"9", "Qualifications", orOpen(qualified)},
		{"9", "Self-employed, or else employer's name and address", orOpen(employed)}}}
	other := strings.TrimSpace(r.Authentic)
	sign := []string{"signature of the person making the report"}
	switch x, ok := f.People[other]; {
	case other == "" || other == f.By:
		s.Rows = append(s.Rows, Row{"10", "Person signing or authenticating on behalf of the author", "nobody: the author signs"})
	case ok:
		s.Rows = append(s.Rows, Row{"10", "Person signing or authenticating on behalf of the author: name", f.name(other)}, Row{"10", "Address", orOpen(x.Address)})
		sign = append(sign, "signature on behalf of the author")
	default:
		s.Rows = append(s.Rows, Row{"10", "Person signing or authenticating on behalf of the author: name and address", other})
		sign = append(sign, "signature on behalf of the author")
	}
	days := int(f.Decided - f.Exam.Day)
	took := strconv.Itoa(days) + " days"
	switch {
	case days < 0:
		took = "the report is dated before the examination"
	case days == 0:
		took = "the same day"
	case days == 1:
		took = "1 day"
	case days > 28:
		took += ": later than the Code's reading"
	}
	s.Rows = append(s.Rows, Row{"11", "Date of the report", f.Decided.Words()}, Row{"", "From examination to report", took})
	s.Note = "The regulation asks for the report “as soon as is practicable”. “Within 28 days” is the Approved Code of Practice's reading of that, as training literature gives it, not the regulation's words. " +
		"The report is authenticated by the signature below or by equally secure means; the book itself holds none yet."
	s.Sign = sign
	return s
}

// notExamined says what was left out: the examiner's own words, and the looks
// of this kind of examination that are not on record, or went over a part alone.
func (f *Facts) notExamined() Section {
	s := Section{Heading: "What was not examined, and why", Rows: []Row{{"", "In the competent person's words", orElse(f.Decision.Report.NotLooked, "nothing named")}}}
	k := f.Tables.Kind(f.Record.Piece.Kind)
	if k == nil {
		return s
	}
	for i := range k.Needs {
		n := &k.Needs[i]
		if n.Exam != f.Exam.Kind {
			continue
		}
		look := string(n.Look)
		if def := f.Tables.Look(n.Look); def != nil {
			look = def.Words
		}
		all, part := false, []string{}
		for l := range f.Exam.Looks {
			if f.Exam.Looks[l].Look != n.Look {
				continue
			}
			for _, c := range f.Exam.Looks[l].Covers {
				all = all || c.All
				if !c.All {
					part = append(part, f.where(kit.Place{Part: c.Part, From: c.From, To: c.To, Sides: c.Sides}))
				}
			}
		}
		switch {
		case all:
		case len(part) > 0:
			s.Rows = append(s.Rows, Row{"", "Went over these places only: " + look, strings.Join(part, "; ")})
		default:
			s.Rows = append(s.Rows, Row{"", "Belongs to this examination and is not on record", look})
		}
	}
	return s
}

// book says where the decision stands, by what anybody can find it again.
func (f *Facts) book() Section {
	attached := "byte for byte the record that was decided on"
	if f.Sum != f.Decision.Record {
		attached = "today's reading of that record, with other bytes: SHA-256 " + f.Sum + " (what was sealed of a person may have been forgotten since)"
	}
	return Section{Heading: "This report in the book", Rows: []Row{
		{"", "Entry of the decision", f.Entry}, {"", "Position in the tree", fmt.Sprintf("leaf %d, which is entry number %d; recorded %s", f.Position, f.Position+1, f.Recorded)},
		{"", "Hash of that leaf", orOpen(f.Leaf)}, {"", "Head of the book when printed: size and root", f.Head},
		{"", "SHA-256 of the record decided on", f.Decision.Record}, {"", "File attached inside the PDF: " + f.Record.Piece.ID + "-record.json", attached},
	}}
}
