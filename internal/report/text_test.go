package report_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

var update = flag.Bool("update", false, "write the golden files anew")

func text(t testing.TB, s *sample, opt report.Options) string {
	t.Helper()
	var b strings.Builder
	if err := report.Text(&b, s.o, s.t, s.r, lang.English(), opt); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func sampleOf(t testing.TB, name string) *sample {
	t.Helper()
	all := samples()
	for i := range all {
		if all[i].name == name {
			return &all[i]
		}
	}
	t.Fatalf("there is no sample %q", name)
	return nil
}

// unfilled fails where a text shows a place without its value or a key without words.
func unfilled(t *testing.T, name, s string) {
	t.Helper()
	if i := strings.IndexAny(s, "{}⟦⟧"); i >= 0 {
		t.Errorf("%s: an unfilled sentence near %q", name, s[max(0, i-60):min(len(s), i+60)])
	}
}

// TestEveryTextIsWhole: no sample leaves a place unfilled, breaks a line twice
// or runs over its width, in short and in full.
func TestEveryTextIsWhole(t *testing.T) {
	for i := range samples() {
		s := &samples()[i]
		for _, opt := range []report.Options{{}, {Full: true}, {Width: 60}, {Width: 120, Full: true}} {
			out := text(t, s, opt)
			unfilled(t, s.name, out)
			width := opt.Width
			if width == 0 {
				width = 80
			}
			for n, line := range strings.Split(out, "\n") {
				if l := utf8.RuneCountInString(line); l > width && strings.Contains(strings.TrimSpace(strings.TrimLeft(line, " -")), " ") {
					t.Errorf("%s: line %d is %d wide, more than %d: %q", s.name, n+1, l, width, line)
				}
				if strings.TrimRight(line, " ") != line {
					t.Errorf("%s: line %d ends in spaces: %q", s.name, n+1, line)
				}
			}
			if strings.Contains(out, "..") || strings.Contains(out, " .") || strings.Contains(out, " ,") {
				t.Errorf("%s: odd punctuation in\n%s", s.name, out)
			}
			if first, _, _ := strings.Cut(out, "\n"); !strings.HasPrefix(strings.ToLower(first), strings.ToLower(s.o.Verdict.String())) || !strings.Contains(first, s.o.Piece) {
				t.Errorf("%s: the first line does not give the outcome and the piece: %q", s.name, first)
			}
		}
	}
}

// TestReasonsInOrder: every reason is told, strictest first, with the ids of
// all its lines.
func TestReasonsInOrder(t *testing.T) {
	heads := map[kit.Verdict]string{kit.Withdraw: "Withdraw, because", kit.SetAside: "Set aside, because", kit.KeepSooner: "Keep and look sooner, because"}
	told := 0
	for i := range samples() {
		s := &samples()[i]
		out := unwrapped(text(t, s, report.Options{Width: 10_000}))
		at := 0
		for _, v := range []kit.Verdict{kit.Withdraw, kit.SetAside, kit.KeepSooner} {
			any := false
			for k := range s.o.Reasons {
				any = any || s.o.Reasons[k].Verdict == v
			}
			n := strings.Index(out[at:], heads[v])
			if any != (n >= 0) {
				t.Fatalf("%s: heading %q there: %v, reasons for it: %v", s.name, heads[v], n >= 0, any)
			}
			if any {
				at += n
			}
		}
		for k := range s.o.Reasons {
			told++
			for _, id := range s.o.Reasons[k].Lines {
				if !strings.Contains(out, id) {
					t.Errorf("%s: the line %s of %s is not told", s.name, id, s.o.Reasons[k].Key)
				}
			}
		}
		if q := strings.Count(out, "Answer it in the record under"); len(s.o.Open) == 0 && q > 0 {
			t.Errorf("%s: asks for answers though nothing is open", s.name)
		}
	}
	if told < 100 {
		t.Errorf("only %d reasons were told in all samples", told)
	}
}

func unwrapped(s string) string { return strings.ReplaceAll(s, "\n    ", " ") }

var row = regexp.MustCompile(`(?m)^  (.+?)  +(<1|[−+]?[\d\x{202f}]+)  +([\d\x{202f}]+)$`)

func figure(t *testing.T, s string) int64 {
	t.Helper()
	if s == "<1" {
		return 0
	}
	n, err := strconv.ParseInt(strings.NewReplacer("\u202f", "", "+", "", "−", "-").Replace(s), 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestPrintedDropsAddUp reads the table of drops back from the text: each
// change is the difference of the figures beside it, and together they are the
// sum, to the last millionth.
func TestPrintedDropsAddUp(t *testing.T) {
	tables, rises := 0, 0
	for i := range samples() {
		s := &samples()[i]
		if s.o.Told == nil || len(s.o.Told.Drops) == 0 {
			continue
		}
		tables++
		out := text(t, s, report.Options{})
		_, out, found := strings.Cut(out, "before the looks")
		if !found {
			t.Fatalf("%s: no table of drops", s.name)
		}
		first, out, _ := strings.Cut(out, "\n")
		now, sum := figure(t, strings.TrimSpace(first)), int64(0)
		if now != s.o.Told.Before {
			t.Errorf("%s: before the looks %d, want %d", s.name, now, s.o.Told.Before)
		}
		rows := row.FindAllStringSubmatch(out, len(s.o.Told.Drops)+1)
		if len(rows) != len(s.o.Told.Drops)+1 {
			t.Fatalf("%s: %d rows, want %d looks and the sum", s.name, len(rows), len(s.o.Told.Drops))
		}
		for k, m := range rows {
			by, after := figure(t, m[2]), figure(t, m[3])
			if k == len(rows)-1 {
				if m[1] != "together" || by != sum || after != now {
					t.Errorf("%s: together %q %d, doubt %d; the rows give %d and %d", s.name, m[1], by, after, sum, now)
				}
				break
			}
			if now+by != after {
				t.Errorf("%s: %s: %d and %d is not %d", s.name, m[1], now, by, after)
			}
			if by > 0 {
				rises++
			}
			now, sum = after, sum+by
		}
		if s.r.AsOf == s.o.ExamDay && now != s.o.Doubt.Millions {
			t.Errorf("%s: the table ends at %d, the doubt is %d millionths", s.name, now, s.o.Doubt.Millions)
		}
	}
	if tables < 20 || rises == 0 {
		t.Errorf("%d tables with %d rises were seen; too few to show anything", tables, rises)
	}
}

// TestDoubtInWords: the figure is told as pieces with such a record, never as
// a chance of an accident.
func TestDoubtInWords(t *testing.T) {
	out := unwrapped(text(t, sampleOf(t, "in good order"), report.Options{Width: 10_000}))
	o := sampleOf(t, "in good order").o
	want := "1 in " + lang.Count(o.Doubt.OneIn) + "; the limit is 1 in 1\u202f000. Of " + lang.Count(o.Doubt.OneIn) + " pieces with a record like this, one would be unfit."
	if !strings.Contains(out, want) {
		t.Errorf("the text does not say %q", want)
	}
	for i := range samples() {
		if s := strings.ToLower(text(t, &samples()[i], report.Options{Full: true})); strings.Contains(s, "accident") || strings.Contains(s, "risk") {
			t.Errorf("%s: speaks of accidents or risk", samples()[i].name)
		}
	}
}

// TestLooserLimit: under a yard's limit that is looser than the default every
// outcome says so, in the text and in the JSON; under any other none does.
func TestLooserLimit(t *testing.T) {
	const words = "This yard's limit of doubt, 1 in 200, is looser than the default of 1 in 1\u202f000."
	r := piece(kit.Bridge)
	for _, c := range []struct {
		limit int64
		says  bool
	}{{0, false}, {500, false}, {1_000, false}, {5_000, true}} {
		r.Yard.Limit = c.limit
		for _, opt := range []report.Options{{Width: 10_000}, {Width: 10_000, Full: true}} {
			o := decide.Decide(tables.Default(), r, decide.Ask{Explain: opt.Full})
			var b bytes.Buffer
			if err := report.Text(&b, &o, tables.Default(), r, lang.English(), opt); err != nil {
				t.Fatal(err)
			}
			if got := strings.Contains(b.String(), words); got != c.says {
				t.Errorf("limit %d: the text says that it is looser: %v, want %v", c.limit, got, c.says)
			}
			j, err := report.JSON(&o, tables.Default(), r, lang.English())
			if err != nil {
				t.Fatal(err)
			}
			if got := bytes.Contains(j, []byte(words)); got != c.says {
				t.Errorf("limit %d: the JSON says that it is looser: %v, want %v", c.limit, got, c.says)
			}
			if want := fmt.Sprintf("\"limit\": {\n    \"millionths\": %d,\n    \"default_millionths\": 1000", o.Doubt.Limit); !bytes.Contains(j, []byte(want)) {
				t.Errorf("limit %d: the JSON does not keep the limit it was decided under", c.limit)
			}
		}
	}
}

// TestShortFitsAScreen: a clean bridge in short is about 50 lines at 80
// characters, with the three cautions that go with readings.
func TestShortFitsAScreen(t *testing.T) {
	out := text(t, sampleOf(t, "in good order"), report.Options{})
	if n := strings.Count(out, "\n"); n > 52 {
		t.Errorf("%d lines", n)
	}
	full := text(t, sampleOf(t, "in good order"), report.Options{Full: true})
	if strings.Count(full, "\n") < 2*strings.Count(out, "\n") {
		t.Error("in full it is hardly longer")
	}
}

// TestLooksTogether: in short, looks that one examination left out stand in one
// sentence, in their fixed order; in full each has its own.
func TestLooksTogether(t *testing.T) {
	s := sampleOf(t, "a look left out")
	want := "Not done at the thorough examination of 5 Jul 2026: rolling a bight along it; measuring it; examining ends, knots, splices and stitching."
	if out := text(t, s, report.Options{Width: 10_000}); strings.Count(out, "Not done at") != 1 || !strings.Contains(out, want) {
		t.Errorf("the text does not say %q once", want)
	}
	if out := text(t, s, report.Options{Width: 10_000, Full: true}); strings.Count(out, "Not done at") != 3 {
		t.Error("in full each look has a sentence of its own")
	}
}

// TestStrip: one mark for each cell of a bridge and its ends, the tallest where
// the doubt is; the cells of a long line are put together to fit.
func TestStrip(t *testing.T) {
	marks := func(name string, width int) (string, []rune) {
		out := text(t, sampleOf(t, name), report.Options{Width: width})
		_, strip, ok := strings.Cut(out, "  end A ")
		strip, _, ok2 := strings.Cut(strip, " end B")
		if !ok || !ok2 {
			t.Fatalf("%s: no strip in\n%s", name, out)
		}
		parts := strings.Split(strip, "│")
		if len(parts) != 3 {
			t.Fatalf("%s: strip %q", name, strip)
		}
		return strip, []rune(parts[1])
	}
	strip, cells := marks("a pair", 80)
	if len(cells) != 18 || cells[8] != '█' || cells[9] != '█' || strings.Count(strip, "█") != 2 {
		t.Errorf("a sign from 430 mm to 480 mm of a bridge of 900 mm gives %q", strip)
	}
	for _, width := range []int{60, 80, 200} {
		n := len(sampleOf(t, "a line in good order").o.Doubt.Cells) - 2
		strip, cells := marks("a line in good order", width)
		if len(cells) > width-24 || len(cells) < min(n, (width-24)/2) || !strings.Contains(strip, "█") {
			t.Errorf("at %d, %d cells give %d marks: %q", width, n, len(cells), strip)
		}
	}
}

// TestWithoutExplanation: an outcome that was not explained is told as far as
// it goes.
func TestWithoutExplanation(t *testing.T) {
	s := *sampleOf(t, "a dip")
	o := *s.o
	o.Told, s.o = nil, &o
	out := text(t, &s, report.Options{Full: true})
	unfilled(t, s.name, out)
	if !strings.Contains(out, "Doubt") || strings.Contains(out, "Keep in mind") {
		t.Error(out)
	}
}

// TestHeld: what is held is said so in the first line.
func TestHeld(t *testing.T) {
	if out := text(t, sampleOf(t, "injury"), report.Options{}); !strings.HasPrefix(out, "Withdraw, held: P1") {
		t.Error(out)
	}
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("no paper") }

func TestWriteFails(t *testing.T) {
	s := sampleOf(t, "in good order")
	if err := report.Text(broken{}, s.o, s.t, s.r, lang.English(), report.Options{}); err == nil || err.Error() != "no paper" {
		t.Errorf("got %v", err)
	}
}

// TestGolden holds the text of some samples, word for word. Run with -update to
// write them anew, and read what changed.
func TestGolden(t *testing.T) {
	// The version of the tables changes with every figure of them; it is no part of the golden text.
	version := regexp.MustCompile(`[0-9a-f]{64}`)
	golden := map[string]struct {
		sample string
		opt    report.Options
	}{
		"bridge-in-good-order.txt": {"in good order", report.Options{}},
		"bridge-with-a-pair.txt":   {"a pair", report.Options{}},
	}
	matched := 0
	for file, g := range golden {
		got := version.ReplaceAll([]byte(text(t, sampleOf(t, g.sample), g.opt)), []byte("VERSION"))
		path := filepath.Join("testdata", file)
		if *update {
			if err := os.WriteFile(path, got, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Error(err)
			continue
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s differs; got:\n%s", file, got)
			continue
		}
		matched++
	}
	if matched == 0 {
		t.Error("no golden file was matched")
	}
	files, err := filepath.Glob(filepath.Join("testdata", "*.txt"))
	if err != nil || len(files) != len(golden) {
		t.Errorf("testdata holds %d texts, %d are known (%v)", len(files), len(golden), err)
	}
}
