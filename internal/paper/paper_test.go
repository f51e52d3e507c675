package paper

import (
	"bytes"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"kernbook/internal/answer"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

func facts(t *testing.T) *Facts {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "examples", "bridge-daily.toml"))
	if err != nil {
		t.Fatal(err)
	}
	r, faults := record.Decode("bridge-daily.toml", b, tables.Default())
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	r.Examinations[len(r.Examinations)-1].Kind = kit.Thorough
	r.Piece.Serial, r.Piece.Maker = "0417-22", "Maker of the example"
	return &Facts{Tables: tables.Default(), Record: r, Exam: r.Examinations[len(r.Examinations)-1], Decided: r.AsOf + 2, By: "maud",
		People: map[string]fold.Private{"maud": {Name: "Maud Ferrant", Address: "Ropewalk 9, Quillbrook", Qualified: "examiner since 2019", Employed: "Ferrant Examinations, Ropewalk 9"}}, Entry: "01a21327-b886-7df5-82d5-1d6d6aa84236", Position: 41, Recorded: "2026-06-03T07:30:00.000Z",
		Head: "42:" + strings.Repeat("ab", 32), Leaf: strings.Repeat("cd", 32), Printed: r.AsOf + 40, Machine: record.Encode(r), Sum: strings.Repeat("ef", 32),
		Decision: fold.Decision{AsOf: r.AsOf.String(), Verdict: "keep", Why: "looked over by three looks", Latest: "2026-12-01", Record: strings.Repeat("ef", 32), Report: fold.Report{Number: "Q-0007", Employer: "Quillbrook Tree Care, Mill Lane 4",
			Premises: "the yard's store, Mill Lane 4", Occasion: "six-monthly", Load: "none stated", Tests: "loaded gently at ground level", Authentic: "Wenna Pryce, office",
			NotLooked: "the inside of the left eye: thimble in the way"}}}
}

// poppler runs one of its tools on a PDF.
func poppler(t *testing.T, tool string, pdf []byte, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(tool)
	if err != nil {
		t.Fatalf("%s is missing: install poppler-utils", tool)
	}
	f := filepath.Join(t.TempDir(), "p.pdf")
	if err := os.WriteFile(f, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	for i := range args {
		if args[i] == "FILE" {
			args[i] = f
		}
	}
	out, err := exec.Command(path, args...).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// raw gives the words of a PDF as another program reads them, in the order in
// which they were written.
func raw(t *testing.T, pdf []byte) string {
	return poppler(t, "pdftotext", pdf, "-raw", "-enc", "UTF-8", "FILE", "-")
}

func pageCount(t *testing.T, pdf []byte) int {
	m := regexp.MustCompile(`Pages:\s+(\d+)`).FindStringSubmatch(poppler(t, "pdfinfo", pdf, "FILE"))
	n, err := strconv.Atoi(m[1])
	if err != nil {
		t.Fatal(err)
	}
	return n
}

var made = time.Unix(1_780_000_000, 0).UTC()

// both gives a paper's words as another program reads them from the PDF, in the
// order in which they were written and without the feet of pages, and those of
// the HTML; without any space, since lines are broken elsewhere.
func both(t *testing.T, d *Doc) (pdf, page string) {
	t.Helper()
	b, err := PDF(d, made)
	if err != nil {
		t.Fatal(err)
	}
	h, err := HTML(d)
	if err != nil {
		t.Fatal(err)
	}
	page = html.UnescapeString(regexp.MustCompile(`(?s)<style>.*?</style>|<title>.*?</title>|<svg.*?</svg>|<[^>]*>`).ReplaceAllString(string(h), " "))
	pdf = tight(raw(t, b))
	pages := regexp.MustCompile(regexp.QuoteMeta(tight(d.Running)) + `Page(\d+)of(\d+)` + regexp.QuoteMeta(tight(d.Foot)))
	feet := pages.FindAllStringSubmatch(pdf, -1)
	for i, m := range feet {
		if m[1] != strconv.Itoa(i+1) || m[2] != strconv.Itoa(len(feet)) {
			t.Errorf("the foot of page %d of %d says page %s of %s", i+1, len(feet), m[1], m[2])
		}
	}
	if n := pageCount(t, b); n != len(feet) {
		t.Errorf("%d pages have %d feet that name the paper and its page: %s", n, len(feet), pdf)
	}
	return pages.ReplaceAllString(pdf, ""), tight(page)
}

func tight(s string) string { return strings.Join(strings.Fields(s), "") }

// particulars gives each line of a paper: of rows, tables, notes, signatures.
func particulars(d *Doc) []string {
	out := []string{d.Title, d.Sub, d.Key}
	for _, v := range []*Verdict{d.Alert, d.Verdict} {
		if v != nil {
			out = append(out, v.Label, strings.ToUpper(v.Words))
		}
	}
	for i := range d.Sections {
		s := &d.Sections[i]
		out = append(append(append(out, s.Heading, s.Note), s.Sign...), s.Head...)
		for _, r := range s.Rows {
			out = append(out, r.Ref, r.Label, r.Value)
		}
		for _, cells := range s.Table {
			out = append(out, cells...)
		}
		if s.Strip != nil {
			out = append(out, s.Strip.Caption())
			for _, p := range s.Strip.Parts {
				out = append(out, p.Words)
			}
		}
	}
	return out
}

// same holds that every line of a paper stands whole in its PDF and its HTML.
func same(t *testing.T, name string, d *Doc) (pdf, page string) {
	t.Helper()
	pdf, page = both(t, d)
	for _, want := range particulars(d) {
		if !strings.Contains(pdf, tight(want)) {
			t.Errorf("%s: the PDF does not say %q", name, want)
		}
		if !strings.Contains(page, tight(want)) {
			t.Errorf("%s: the page does not say %q", name, want)
		}
	}
	return pdf, page
}

// TestEveryParticular: each particular of the schedule, with its paragraph, its
// words and what was said, stands in PDF and HTML: of a full report and of one
// for which nothing was said. Paragraphs as D-30 to D-45 of the sources.
func TestEveryParticular(t *testing.T) {
	type line struct{ ref, label, full, sparse string }
	lines := []line{
		{"1", "Employer for whom it was made: name and address", "Quillbrook Tree Care, Mill Lane 4", NotStated},                           // D-30
		{"2", "Address of the premises where it was made", "the yard's store, Mill Lane 4", NotStated},                                     // D-31
		{"3", "Particulars that identify the equipment", "rope bridge; the yard's number BR-07;", "rope bridge; the yard's number BR-07;"}, // D-32
		{"3", "Date of manufacture, where known", "Feb 2025", "not known"},                                                                 // D-32
		{"4", "Date of the last thorough examination before this one", "20 Mar 2026", "20 Mar 2026"},                                       // D-33
		{"5", "Safe working load, or that of the last configuration examined", "none stated", NotStated},                                   // D-34
		{"7(a)", "Which thorough examination it was", "within an interval of 6 months", NotStated},                                         // D-36
		{"7(b)", "Would be safe to operate", "yes", ""},                                                                                    // D-36
		{"8(a)", "Part found to have a defect, and the defect", "groove in the ring", ""},                                                  // D-37
		{"8(c)(i)", "Time by which it could become a danger", "1 Oct 2026", ""},                                                            // D-39
		{"8(c)(ii)", "Repair, renewal or alteration required to remedy it", "a new ring", ""},                                              // D-39
		{"8(a)", "Parts with a defect that is or could become a danger to persons", "", "none named"},                                      // D-37
		{"8(d)", "Latest date by which the next thorough examination must be carried out", "1 Dec 2026", "none: withdrawn"},                // D-40
		{"8(e)", "Particulars of any test that was part of it", "loaded gently at ground level", NotStated},                                // D-41
		{"8(f)", "Date of the thorough examination", "1 Jun 2026", "1 Jun 2026"},                                                           // D-42
		{"9", "Person making the report: name", "Maud Ferrant", NotStated},                                                                 // D-43
		{"9", "Address", "Ropewalk 9, Quillbrook", NotStated},                                                                              // D-43
		{"9", "Qualifications", "examiner since 2019", NotStated},                                                                          // D-43
		{"9", "Self-employed, or else employer's name and address", "employed by Ferrant Examinations, Ropewalk 9", NotStated},             // D-43
		{"10", "Person signing or authenticating on behalf of the author: name and address", "Wenna Pryce, office", ""},                    // D-44
		{"10", "Person signing or authenticating on behalf of the author", "", "nobody: the author signs"},                                 // D-44
		{"11", "Date of the report", "3 Jun 2026", "3 Jun 2026"},                                                                           // D-45
		{"", "Number of the report", "Q-0007", NotStated},                                                                                  // found again by
		{"", "Reasons, in the competent person's words", "looked over by three looks", NotStated},                                          // the report is the competent person's
		{"", "In the competent person's words", "the inside of the left eye: thimble in the way", "nothing named"},                         // what was not examined
		{"", "Position in the tree", "leaf 41, which is entry number 42", "leaf 41, which is entry number 42"},                             //
		{"", "Hash of that leaf", strings.Repeat("cd", 32), strings.Repeat("cd", 32)},                                                      //
		{"", "From examination to report", "2 days", "2 days"},                                                                             // D-22
	}
	full := facts(t)
	r := &full.Decision.Report
	r.Defect, r.DangerBy, r.Repair = "groove in the ring", "2026-10-01", "a new ring"
	sparse := facts(t)
	sparse.Decision.Verdict, sparse.Decision.Why, sparse.Decision.Latest, sparse.Decision.Report, sparse.People = "withdraw", "", "", fold.Report{}, nil
	sparse.Record.Piece.Made = qty.PartialDate{}
	for name, f := range map[string]*Facts{"full": full, "sparse": sparse} {
		d := Examination(f)
		pdf, page := same(t, name, d)
		for _, l := range lines {
			want, other := l.full, l.sparse
			if name == "sparse" {
				want, other = other, want
			}
			text := tight(l.ref + l.label + want)
			if want == "" { // has no place in this one
				text += tight(other)
			}
			if found := strings.Contains(pdf, text); found != (want != "") {
				t.Errorf("%s: PDF, %s %s: %q found: %v", name, l.ref, l.label, want, found)
			}
			if found := strings.Contains(page, text); found != (want != "") {
				t.Errorf("%s: page, %s %s: %q found: %v", name, l.ref, l.label, want, found)
			}
		}
		for _, want := range []string{"within28days", "ApprovedCodeofPractice'sreading", "S.I.1998/2307", "frommemory", "signatureofthepersonmakingthereport"} {
			if !strings.Contains(strings.ToLower(pdf), strings.ToLower(want)) {
				t.Errorf("%s: the PDF does not say %q", name, want)
			}
		}
		for _, never := range []string{"D-3", "D-4", "Annex", "inamillion", "6(a)"} {
			if strings.Contains(pdf, never) || strings.Contains(page, never) {
				t.Errorf("%s: says %q, which has no place in this one", name, never)
			}
		}
		missing := d.Missing()
		for _, l := range lines {
			if got, want := slices.Contains(missing, l.label), name == "sparse" && l.sparse == NotStated; got != want {
				t.Errorf("%s: %s is told as missing: %v", name, l.label, got)
			}
		}
	}
	one, _ := PDF(Examination(full), made)
	two, _ := PDF(Examination(full), made)
	if !bytes.Equal(one, two) {
		t.Error("made again, it has other bytes")
	}
}

// TestExclusive: a first examination and a later one, a danger there is and one
// that could come, exclude each other; safety is stated only if it is the case.
func TestExclusive(t *testing.T) {
	for _, c := range []struct {
		name        string
		change      func(*Facts)
		has, hasNot []string
	}{
		{"first", func(f *Facts) { f.Decision.Report.Occasion = "first" }, []string{"6(a)Occasion", "6(b)Installed correctly and would be safe to operate yes"}, []string{"7(a)", "7(b)"}},
		{"withdrawn", func(f *Facts) { f.Decision.Verdict, f.Decision.Report.Defect = "withdraw", "core soft at 450 mm" },
			[]string{"7(a)", "core soft at 450 mm", "8(b)", "to be replaced; withdrawn from use", "here it is not stated"}, []string{"8(c)", "7(b)"}},
		{"withdrawn, and nobody said that it is a danger", func(f *Facts) { f.Decision.Verdict, f.Decision.Report.Defect = "withdraw", "core soft at 450 mm" },
			[]string{"8(a)Danger to persons not stated"}, []string{"8(a)Danger to persons it is one", "8(c)"}},
		{"withdrawn, and could become one", func(f *Facts) {
			f.Decision.Verdict, f.Decision.Report.Defect, f.Decision.Report.DangerBy = "withdraw", "core soft at 450 mm", "2027-01-01"
		}, []string{"8(a)Danger to persons not yet; it could become one", "8(c)(i)Time by which it could become a danger 1 Jan 2027", "8(c)(ii)"}, []string{"it is one", "8(b)"}},
		{"could become one", func(f *Facts) {
			f.Decision.Verdict, f.Decision.Report.Defect, f.Decision.Report.Repair = "keep, look sooner", "groove grows", "replace the ring"
		}, []string{"8(c)(i)Time by which it could become a danger not stated", "replace the ring", "7(b)Would be safe to operate yes"}, []string{"8(b)"}},
		{"one is, one could become", func(f *Facts) {
			f.Decision.Report.Defect, f.Decision.Report.Immediate, f.Decision.Report.Repair = "stitch cut", true, "sewn anew by the maker"
			f.Decision.Report.More = []fold.Defect{{Defect: "groove grows", DangerBy: "when it is 1 mm deep", Repair: "new ring"}}
		}, []string{"Defect 1 of 2", "8(b)Repair, renewal or alteration required to remedy it sewn anew", "Defect 2 of 2", "8(c)(i)Time by which it could become a danger when it is 1 mm deep", "8(c)(ii)Repair, renewal or alteration required to remedy it new ring", "enforcing authority"}, []string{"7(b)"}},
		{"no test", func(f *Facts) { f.Decision.Report.Tests = "None." }, []string{"no test was part of this examination"}, nil},
		{"late", func(f *Facts) { f.Decided = f.Exam.Day + 29 }, []string{"29 days: later than the Code's reading"}, nil},
		{"self-employed", func(f *Facts) { f.Decision.Report.SelfEmploy = true }, []string{"employer's name and address self-employed"}, nil},
		{"signed by somebody of the yard", func(f *Facts) {
			f.People["p6"] = fold.Private{Name: "Wenna Pryce", Address: "Mill Lane 4"}
			f.Decision.Report.Authentic = "p6"
		}, []string{"10 Person signing or authenticating on behalf of the author: name Wenna Pryce", "10 Address Mill Lane 4", "signature on behalf of the author"}, nil},
		{"with its annex", func(f *Facts) {
			o := decide.Decide(f.Tables, f.Record, decide.Ask{})
			f.Outcome = &o
		}, []string{"Annex, added by the competent person", "in a million", "The tool advises"}, nil},
		{"a look left out", func(f *Facts) { f.Exam.Looks = nil }, []string{"Belongs to this examination and is not on record"}, nil},
		{"a look in part", func(f *Facts) {
			f.Exam.Looks = slices.Clone(f.Exam.Looks)
			for i := range f.Exam.Looks {
				f.Exam.Looks[i].Covers = []kit.Stretch{{From: 0, To: 300 * qty.Millimetre}}
			}
		}, []string{"Went over these places only", "from 0 mm to 300 mm from end A"}, nil},
		{"out of use", func(f *Facts) {
			f.Stopped = fold.Stopped{Withdrawn: true, Cut: true, Act: fold.Act{What: "withdraw", Day: f.Decided + 9, By: "maud", Why: "a saw touched it"}}
		},
			[]string{"OUT OF USE: CUT UP", "It was withdrawn", "a saw touched it", "Since then", "it has been cut up"}, nil},
		{"seen since", func(f *Facts) {
			e := kit.Examination{Ref: "E-9", Kind: kit.Interim, Day: f.Decided + 8, By: "maud", SignedBy: "maud", WouldClimb: kit.SaidNo, Signs: []kit.Sign{{Ref: "cut-9", Sign: "cut", State: kit.FirstSeen, By: "maud", At: kit.Place{From: 600 * qty.Millimetre, To: 610 * qty.Millimetre}}}}
			f.Since = []fold.Line{{Kind: entry.Examination, Version: 1, Day: e.Day, Author: "maud", Body: fold.Encode(&e)},
				{Kind: entry.Stop, Version: 1, Day: e.Day, Author: "maud", Body: fold.Encode(&fold.Stop{What: "set aside", Why: "a cut"})},
				{Kind: entry.Hang, Version: 1, Day: e.Day, Author: "maud", Body: fold.Encode(&fold.Hang{Place: "van"})}}
		}, []string{"Not part of the report: what came on record after it", "11 Jun 2026 interim inspection: ", "from 600 mm to 610 mm from end A; 290 mm from end B", "would not climb", "set aside; a cut"}, []string{"van"}},
		{"a long line", func(f *Facts) {
			f.Record.Piece.Length = 45 * qty.Metre
			f.Exam.Signs = []kit.Sign{{Ref: "x", Sign: "cut", State: kit.FirstSeen, At: kit.Place{From: 43 * qty.Metre, To: 43500 * qty.Millimetre}}}
		}, []string{"end B, at 45 m", "from 43 m to 43.5 m from end A; 1.5 m from end B"}, []string{"45000"}},
	} {
		f := facts(t)
		c.change(f)
		pdf, _ := same(t, c.name, Examination(f))
		for _, w := range c.has {
			if !strings.Contains(pdf, tight(w)) {
				t.Errorf("%s: does not say %q", c.name, w)
			}
		}
		for _, w := range c.hasNot {
			if strings.Contains(pdf, tight(w)) {
				t.Errorf("%s: says %q", c.name, w)
			}
		}
	}
}

// TestLongAndForeign: what is very long is broken and nothing of it is lost, over
// as many pages as it takes; names in Polish, Greek and Cyrillic letters are
// printed; a character the font does not have is a box, and that is told.
func TestLongAndForeign(t *testing.T) {
	f := facts(t)
	var long strings.Builder
	for i := range 900 {
		fmt.Fprintf(&long, "finding%d ", i)
	}
	f.Decision.Why = long.String() + strings.Repeat("Wort", 90)
	f.Decision.Report.Defect = long.String()
	f.Decision.Report.Number = strings.Repeat("Q7", 20)
	f.People["maud"] = fold.Private{Name: "Żółć Gęślą-Jaźń, Ευγενία Παπαδοπούλου, Щербакова Ґалина", Address: strings.Repeat("long street ", 40), Qualified: "q", Employed: "self-employed"}
	pdf, _ := same(t, "long", Examination(f))
	if n := strings.Count(pdf, "finding899"); n != 2 {
		t.Errorf("the last of the long findings stands %d times", n)
	}
	if strings.Contains(pdf, "□") {
		t.Error("a letter the font has is shown as a box")
	}
	f = facts(t)
	f.People["maud"] = fold.Private{Name: "山田 Maud 😀"}
	b, err := PDF(Examination(f), made)
	if err != nil {
		t.Fatal(err)
	}
	text := tight(raw(t, b))
	for _, want := range []string{"□□Maud□", "standsforacharacterthatthefontofthispaperdoesnothave"} {
		if !strings.Contains(text, want) {
			t.Errorf("does not say %q", want)
		}
	}
}

// TestAttached: the record is in the PDF as a file, byte for byte, and the core
// gives of it the outcome that it gave of the record decided on.
func TestAttached(t *testing.T) {
	tool, err := exec.LookPath("pdfdetach")
	if err != nil {
		t.Fatal("pdfdetach is missing: install poppler-utils")
	}
	f := facts(t)
	b, err := PDF(Examination(f), made)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	in, out := filepath.Join(dir, "p.pdf"), filepath.Join(dir, "r.json")
	if err := os.WriteFile(in, b, 0o600); err != nil {
		t.Fatal(err)
	}
	if list, err := exec.Command(tool, "-list", in).Output(); err != nil || !strings.Contains(string(list), "BR-07-record.json") {
		t.Errorf("attached: %s %v", list, err)
	}
	if said, err := exec.Command(tool, "-save", "1", "-o", out, in).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	got, err := os.ReadFile(out)
	if err != nil || !bytes.Equal(got, f.Machine) {
		t.Fatalf("what is attached is not the record: %v", err)
	}
	want, ok := answer.Decide(f.Tables, "record", record.Encode(f.Record))
	back, ok2 := answer.Decide(f.Tables, "record", got)
	if !ok || !ok2 || !bytes.Equal(want, back) {
		t.Errorf("the attached record gives another outcome:\n%s\n%s", want, back)
	}
}

// TestCardAndRegister: a card has every particular of the record card (D-79) and
// tells what was seen; a register has every piece, what came since its report,
// and names what was not presented.
func TestCardAndRegister(t *testing.T) {
	f := &CardFacts{Facts: *facts(t)}
	f.Record.Piece.Trade, f.Record.Piece.MakerAt = "Example Ridge", "Ropewalk 1"
	f.Exam.Signs = []kit.Sign{{Ref: "cut-9", Sign: "cut", State: kit.FirstSeen, By: "maud", At: kit.Place{From: 600 * qty.Millimetre, To: 610 * qty.Millimetre}}}
	f.Exam.Ref = "E-1"
	f.Decision.Examination, f.Decision.Outcome = "E-1", "keep"
	f.Lines = []fold.Line{{Kind: entry.Examination, Version: 1, Day: f.Exam.Day, Author: "maud", Body: fold.Encode(&f.Exam)}, {Kind: entry.Decision, Version: 1, Day: f.Decided, Author: "maud", Body: fold.Encode(&f.Decision)},
		{Kind: entry.Event, Version: 1, Day: f.Decided + 5, Author: "maud", Body: fold.Encode(&kit.Event{Day: f.Decided + 5, Event: "saw-contact", Travel: -1, Peak: -1, Words: "on the ground"})}}
	pdf, _ := same(t, "card", Card(f))
	for _, want := range []string{"Product rope bridge", "Model or type", "Identification the yard's number BR-07; serial number 0417-22", "Trade name, as its maker sells it Example Ridge", "Maker: name Maker of the example", "Maker: address Ropewalk 1",
		"Year of manufacture Feb 2025", "Expiry", "Date of purchase", "Date first put into use", "Other: maker's document", "Competent person; signature", "Next due", "periodic: thorough examination", "(first seen); from 600 mm",
		"report Q-0007, decided: keep", "Maud Ferrant", "1 Dec 2026", "it happened event:", "on the ground"} {
		if !strings.Contains(pdf, tight(want)) {
			t.Errorf("the card does not say %q:\n%s", want, pdf)
		}
	}
	if strings.Contains(pdf, "1signs") || strings.Contains(pdf, "1readings") {
		t.Error("one is not many")
	}
	var list []Line
	for i := range 60 {
		list = append(list, Line{ID: "P-" + string(rune('A'+i%26)) + string(rune('a'+i/26)), Kind: "line", Stands: "keep", Presented: i != 7})
	}
	list[3].Since = []string{"3 Nov 2026: event: saw contact"}
	pdf, _ = same(t, "register", Register("Quillbrook", "25 Nov 2026", "42:abab", list, true))
	_, missing, _ := strings.Cut(pdf, "Ontheregisterandnotpresented")
	for i := range list {
		if !strings.Contains(pdf, list[i].ID) || strings.Contains(missing, list[i].ID) != (i == 7) {
			t.Errorf("the register leaves out %s, or says wrongly whether it was presented", list[i].ID)
		}
	}
}

// TestCardOfNamelessExamination: a decision without a name is that of no examination.
func TestCardOfNamelessExamination(t *testing.T) {
	f := &CardFacts{Facts: *facts(t)}
	look := kit.Examination{Kind: kit.PreUse, Day: f.Decided, By: "rolf", WouldClimb: kit.SaidNo, Looks: []kit.Look{{Look: kit.Eye, By: "rolf", Covers: []kit.Stretch{{All: true}}}}}
	d := f.Decision
	d.Outcome, d.Examination, d.Report.Number = "keep", "", "N-1"
	f.Lines = []fold.Line{{Kind: entry.Examination, Version: 1, Day: look.Day, Body: fold.Encode(&look)}, {Kind: entry.Decision, Version: 1, Day: look.Day, Body: fold.Encode(&d)}}
	rows := 0
	for _, s := range Card(f).Sections {
		for _, r := range s.Table {
			rows++
			if strings.Contains(strings.Join(r, " "), "N-1") {
				t.Errorf("a look before use has a report: %q", r)
			}
		}
	}
	if rows != 1 {
		t.Errorf("%d rows", rows)
	}
}
