package report_test

import (
	"fmt"
	"strings"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

func section(out, title string) string {
	_, s, _ := strings.Cut(out, "\n"+title+"\n")
	s, _, _ = strings.Cut(s, "\n\n")
	return s
}

// TestFewCautions: in short at most five cautions, each on a line of its own,
// with how many more there are; those that every text has are there, and each is
// one that the outcome names. In full all are.
func TestFewCautions(t *testing.T) {
	tb, special := tables.Default(), map[string]bool{}
	for i := range samples() {
		s := &samples()[i]
		items := strings.Split(strings.TrimSpace(section(text(t, s, report.Options{Width: 10_000}), "Keep in mind")), "\n")
		more := len(s.o.Told.Cautions) - (len(items) - 1)
		if want := fmt.Sprintf("- %d more with --full.", more); len(items) < 3 || len(items) > 6 || items[len(items)-1] != want {
			t.Errorf("%s: %q, want at most five and then %q", s.name, items, want)
			continue
		}
		known := map[string]string{}
		for _, id := range s.o.Told.Cautions {
			known["- "+tb.Line(id).Caution] = id
		}
		for _, item := range items[:len(items)-1] {
			if known[item] == "" {
				t.Errorf("%s: %q is none of its cautions", s.name, item)
			}
			special[known[item]] = true
		}
		if known[items[0]] != "W-01" || known[items[1]] != "W-02" {
			t.Errorf("%s: begins with %q", s.name, items[:2])
		}
		if full := strings.TrimSpace(section(text(t, s, report.Options{Width: 10_000, Full: true}), "Keep in mind")); strings.Count(full, "\n")+1 != len(s.o.Told.Cautions) {
			t.Errorf("%s: in full not all of %v", s.name, s.o.Told.Cautions)
		}
	}
	for _, id := range []string{"W-04", "W-05", "W-06", "W-08", "W-10", "W-16", "W-18"} {
		if !special[id] {
			t.Errorf("%s leads no sample", id)
		}
	}
}

// TestMoreThanHalf: from a doubt of more than a half on no text says 1 in 1, nor
// that every such piece is unfit where it is not certain.
func TestMoreThanHalf(t *testing.T) {
	met := 0
	for i := range samples() {
		s := &samples()[i]
		if s.o.Doubt == nil || s.o.Doubt.OneIn != 1 {
			continue
		}
		met++
		out := section(text(t, s, report.Options{Width: 10_000}), "Doubt")
		want := "  more than 1 in 2; the limit is 1 in 1\u202f000. Of all pieces with a record like this, more than half would be unfit."
		if s.o.Doubt.Millions < 1_000_000 && !strings.HasPrefix(out, want) {
			t.Errorf("%s: %d millionths are told as %q", s.name, s.o.Doubt.Millions, out)
		}
	}
	if met == 0 {
		t.Error("no sample has a doubt of more than a half")
	}
	zero := 0
	for i := range samples() {
		s := &samples()[i]
		out := text(t, s, report.Options{Width: 10_000})
		if strings.Contains(out, "explain it only to 0 %") {
			t.Errorf("%s: says “only to 0 %%”", s.name)
		}
		if strings.Contains(out, "no harmless cause explains even one part in a hundred of it.") {
			zero++
		}
	}
	if zero == 0 {
		t.Error("no sample has a sign that nothing harmless explains")
	}
}

// TestOnTheDay: a table of looks made earlier says of which day it is, and the
// figure on the day asked for; on the day that is due anyhow no forecast is told,
// and a plain keep says that it is due.
func TestOnTheDay(t *testing.T) {
	r := piece(kit.Line)
	r.AsOf, r.Runs[0].To = day("2027-01-05"), day("2027-01-04") // half a year after the examination: due under LOLER (line D-07, SEEN)
	o := decide.Decide(tables.Default(), r, decide.Ask{Explain: true})
	out := text(t, &sample{"", tables.Default(), r, &o}, report.Options{Width: 10_000})
	want := "What each look of 5 Jul 2026 did, in millionths (on 5 Jan 2027 the doubt is " + lang.Count(o.Doubt.Millions) + "):"
	if !strings.Contains(out, want) {
		t.Errorf("%q is not said in\n%s", want, out)
	}
	if strings.Contains(out, "With looks before use kept up") {
		t.Errorf("a forecast up to tomorrow is told:\n%s", out)
	}
	if !strings.Contains(out, "Due on 5 Jan 2027 at the latest") {
		t.Errorf("what is due that day is not said:\n%s", out)
	}
	if o.Verdict != kit.Keep || o.Next.Day != r.AsOf || o.Next.With.Reached || o.Next.Without.Reached {
		t.Fatalf("%s, %+v: nothing was tried", o.Verdict, o.Next)
	}
	if now := text(t, sampleOf(t, "in good order"), report.Options{Width: 10_000}); !strings.Contains(now, "What each look did, in millionths:") {
		t.Errorf("on the day itself:\n%s", now)
	}
}

// TestDrawingOfWhatDoesNotCount: the sheet says of an examination that does not
// count as one that it does not, and gives it the mark of a look before use.
func TestDrawingOfWhatDoesNotCount(t *testing.T) {
	for name, counts := range map[string]bool{"in good order": true, "examined by a climber": false} {
		s := sampleOf(t, name)
		svg := string(report.Drawing(s.o, s.t, s.r, lang.English()))
		if strings.Contains(svg, "thorough examination of 5 Jul 2026, not counted as one") == counts {
			t.Errorf("%s: counts: %v, and the sheet says the opposite", name, counts)
		}
		if strings.Contains(svg, ">thorough<") != counts {
			t.Errorf("%s: counts: %v, and its mark is that of the opposite", name, counts)
		}
	}
	for name, unsaid := range map[string]bool{"no looks before use on record": true, "a soft place": false} {
		s := sampleOf(t, name)
		if svg := string(report.Drawing(s.o, s.t, s.r, lang.English())); strings.Contains(svg, "out of use until the rest is said") != unsaid {
			t.Errorf("%s: what can still be said is told: %v, want %v", name, !unsaid, unsaid)
		}
	}
}

// TestFirstDayTaken: where only a month is on record, the text says that its
// first day was taken.
func TestFirstDayTaken(t *testing.T) {
	for made, says := range map[string]bool{"2025-03": true, "2025-03-01": false} {
		r := piece(kit.Bridge)
		r.Yard.Country = "DE" // 4 years from manufacture: what the sentence counts from is shown in it
		r.Piece.Made, r.Piece.FirstUse = date(made), date(made)
		o := decide.Decide(tables.Default(), r, decide.Ask{Explain: true})
		out := text(t, &sample{"", tables.Default(), r, &o}, report.Options{Width: 10_000, Full: true})
		if !strings.Contains(out, ", 1 Mar 2025.") || strings.Contains(out, "Only Mar 2025 is on record, so its first day was taken.") != says {
			t.Errorf("%s: says that the first day was taken: %v, want %v\n%s", made, !says, says, section(out, "Next look"))
		}
	}
}
