package paper

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kernbook/internal/core/decide"
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
	r.Piece.Serial, r.Piece.Maker = "0417-22", "Maker of the example"
	return &Facts{Tables: tables.Default(), Record: r, Exam: r.Examinations[len(r.Examinations)-1], Decided: r.AsOf + 2, By: "maud",
		Names: map[string]string{"maud": "Maud Ferrant"}, Entry: "01a21327-b886-7df5-82d5-1d6d6aa84236", Position: 41, Recorded: "2026-06-03T07:30:00.000Z",
		Head: "42:" + strings.Repeat("ab", 32), Machine: record.Encode(r),
		Decision: fold.Decision{AsOf: r.AsOf.String(), Verdict: "keep", Latest: "2026-12-01", Report: fold.Report{Number: "Q-0007", Employer: "Quillbrook Tree Care, Mill Lane 4",
			Premises: "the yard's store, Mill Lane 4", Occasion: "six-monthly", Load: "none stated", Tests: "loaded gently at ground level", Authentic: "Wenna Pryce, office",
			Qualified: "Mill Lane 4; examiner since 2019", NotLooked: "the inside of the left eye: thimble in the way"}}}
}

// read gives the words of a PDF as another program reads them.
func read(t *testing.T, pdf []byte) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Fatal("pdftotext is missing: install poppler-utils")
	}
	f := filepath.Join(t.TempDir(), "p.pdf")
	if err := os.WriteFile(f, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", "-enc", "UTF-8", f, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(string(out)), " ")
}

// TestEveryParticular: each particular of the schedule stands in the PDF, as
// another program reads it, and in the HTML, with what was said.
func TestEveryParticular(t *testing.T) {
	f := facts(t)
	d := Examination(f)
	pdf, err := PDF(d, time.Unix(1_780_000_000, 0).UTC())
	if err != nil {
		t.Fatal(err)
	}
	html, err := HTML(d)
	if err != nil {
		t.Fatal(err)
	}
	text, page := read(t, pdf), strings.NewReplacer("&#39;", "'", "&amp;", "&").Replace(string(html))
	for _, want := range []string{"D-30", "Quillbrook Tree Care, Mill Lane 4", "D-31", "the yard's store", "D-32", "0417-22", "Maker of the example", "D-33", "D-34", "none stated",
		"D-36", "within an interval of 6 months", "Would be safe to operate", "D-37", "none found", "D-40", "1 Dec 2026", "D-41", "loaded gently", "D-42", "1 Jun 2026", "D-43",
		"Maud Ferrant", "examiner since 2019", "employed by the employer", "D-44", "Wenna Pryce", "D-45", "3 Jun 2026", "28 days", "thimble in the way", "Q-0007",
		"01a21327-b886-7df5-82d5-1d6d6aa84236", "number 42 of the book", "42:abab"} {
		if !strings.Contains(text, want) {
			t.Errorf("the PDF does not say %q", want)
		}
		if !strings.Contains(page, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	for _, never := range []string{"D-35", "D-38", "D-39", "Annex", "million"} {
		if strings.Contains(text, never) || strings.Contains(page, never) {
			t.Errorf("says %q, which has no place in this one", never)
		}
	}
	if !bytes.Contains(pdf, []byte("BR-07-record.json")) && !strings.Contains(string(pdf), "EmbeddedFile") {
		t.Error("the record is not attached")
	}
	again, err := PDF(d, time.Unix(1_780_000_000, 0).UTC())
	if err != nil || !bytes.Equal(pdf, again) {
		t.Error("made again, it has other bytes")
	}
}

// TestExclusive: a first examination and a later one, a danger there is and one
// that could come, exclude each other; safety is stated only if it is the case.
func TestExclusive(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Facts)
		has    []string
		hasNot []string
	}{
		{"first", func(f *Facts) { f.Decision.Report.Occasion = "first" }, []string{"D-35", "safe to operate"}, []string{"D-36"}},
		{"withdrawn", func(f *Facts) { f.Decision.Verdict, f.Decision.Report.Defect = "withdraw", "core soft at 450 mm" },
			[]string{"D-36", "D-37", "core soft at 450 mm", "D-38", "withdrawn from use", "not stated"}, []string{"D-39", "Would be safe to operate"}},
		{"could become one", func(f *Facts) {
			f.Decision.Verdict, f.Decision.Report.Defect, f.Decision.Report.Repair = "keep, look sooner", "groove grows", "replace the ring"
		},
			[]string{"D-37", "D-39", "replace the ring", "Would be safe to operate"}, []string{"D-38"}},
		{"nothing said", func(f *Facts) { f.Decision.Report = fold.Report{}; f.Record.Piece.Made = qty.PartialDate{} }, []string{"not said", "not known"}, []string{"D-38"}},
		{"with its annex", func(f *Facts) {
			o := decide.Decide(f.Tables, f.Record, decide.Ask{})
			f.Outcome = &o
		}, []string{"Annex, added by the examiner", "in a million", "The tool advises"}, nil},
		{"a look left out", func(f *Facts) { f.Exam.Looks = f.Exam.Looks[1:]; f.Exam.Kind = kit.Interim }, []string{"Not on record"}, nil},
	} {
		f := facts(t)
		c.change(f)
		pdf, err := PDF(Examination(f), time.Unix(1_780_000_000, 0).UTC())
		if err != nil {
			t.Fatal(err)
		}
		text := read(t, pdf)
		for _, w := range c.has {
			if !strings.Contains(text, w) {
				t.Errorf("%s: does not say %q", c.name, w)
			}
		}
		for _, w := range c.hasNot {
			if strings.Contains(text, w) {
				t.Errorf("%s: says %q", c.name, w)
			}
		}
	}
}

// TestCardAndRegister: a card has every column of the record card, a register
// every piece, and names what was not presented.
func TestCardAndRegister(t *testing.T) {
	f := &CardFacts{Facts: *facts(t)}
	pdf, err := PDF(Card(f), time.Unix(1_780_000_000, 0).UTC())
	if err != nil {
		t.Fatal(err)
	}
	text := read(t, pdf)
	for _, want := range []string{"Record card", "Year of manufacture", "Date of purchase", "Date first put into use", "Maker of the example", "Competent person", "Next due", "thorough"} {
		if !strings.Contains(text, want) {
			t.Errorf("the card does not say %q", want)
		}
	}
	var list []Line
	for i := range 60 {
		list = append(list, Line{ID: "P-" + string(rune('A'+i%26)) + string(rune('a'+i/26)), Kind: "line", Stands: "keep", Presented: i != 7})
	}
	pdf, err = PDF(Register("Quillbrook", "25 Nov 2026", "42:abab", list), time.Unix(1_780_000_000, 0).UTC())
	if err != nil {
		t.Fatal(err)
	}
	text = read(t, pdf)
	for i := range list {
		if !strings.Contains(text, list[i].ID) {
			t.Errorf("the register leaves out %s", list[i].ID)
		}
	}
	if !strings.Contains(text, "not presented "+list[7].ID) {
		t.Error("what was not presented is not named")
	}
}
