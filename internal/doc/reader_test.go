package doc

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/qty"
)

// on parses one TOML document and gives its root cursor.
func on(t *testing.T, text string) (T, *Reader) {
	t.Helper()
	root, faults := ParseTOML("r.toml", []byte(text))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	r := NewReader("r.toml", root)
	return r.Root(), r
}

func TestReaderValues(t *testing.T) {
	c, r := on(t, `
kind = "bridge"
n = 12
x = 1.5
whole = 2
wet = true
made = 2026-06-01
bought = "2026-06"
first-used = 2025
lost = "unknown"
length = "58cm"
mass = "200 lb"
peak = "15kN"
hours = "1.5h"
life = "5 years"
heat = "140F"
covered = "12%"
coverage = 0.25
all = 1
look = "hand"
signs = ["fuzz", "pinch"]
widths = ["11.2mm", "11,4 mm"]
rates = [1, 2.5]
none = []
[layer]
fibre = "aramid"
[[history]]
day = 2026-01-01
[[history]]
looks = [{ kind = "eye" }]
`)
	ok := c.Str("kind", Required) == "bridge" && c.Int("n", Required) == 12 && c.Float("x", Required) == 1.5 &&
		c.Float("whole", Required) == 2 && c.Bool("wet", Required) &&
		c.Date("made", Required) == qty.PartialDate{Year: 2026, Month: 6, DayOfMonth: 1} &&
		c.Date("bought", Required) == qty.PartialDate{Year: 2026, Month: 6} &&
		c.Date("first-used", Required) == qty.PartialDate{Year: 2025} &&
		c.Date("lost", Required) == qty.PartialDate{} && c.Length("length", Required) == 58*qty.Centimetre &&
		c.Mass("mass", Required) == 90_718 && c.Force("peak", Required) == 15*qty.Kilonewton &&
		c.Hours("hours", Required) == 90*qty.Minute && c.Months("life", Required) == 5*qty.Year &&
		c.Temp("heat", Required) == 60*qty.DegreeC && c.Share("covered", Required) == 0.12 &&
		c.Share("coverage", Required) == 0.25 && c.Share("all", Required) == 1 && c.OneOf("look", Required, "eye", "hand") == "hand"
	if !ok {
		t.Error("a value is not what was written")
	}
	if got := c.Strings("signs", Required); !slices.Equal(got, []string{"fuzz", "pinch"}) {
		t.Error(got)
	}
	if got := c.Lengths("widths", Required); !slices.Equal(got, []qty.Length{11_200, 11_400}) {
		t.Error(got)
	}
	if got := c.Floats("rates", Required); !slices.Equal(got, []float64{1, 2.5}) {
		t.Error(got)
	}
	if got := c.Strings("none", Optional); len(got) != 0 {
		t.Error(got)
	}
	layer := c.Sub("layer", Required)
	if !layer.Present() || layer.Path() != "layer" || layer.Str("fibre", Required) != "aramid" || !slices.Equal(layer.Keys(), []string{"fibre"}) {
		t.Error("layer")
	}
	history := c.List("history", Required)
	if len(history) != 2 || history[0].Date("day", Required).Year != 2026 {
		t.Fatal(history)
	}
	looks := history[1].List("looks", Required)
	if len(looks) != 1 || looks[0].Path() != "history[1].looks[0]" || looks[0].Str("kind", Required) != "eye" {
		t.Fatal(looks)
	}
	if line, col := looks[0].Pos(); line != 30 || col != 10 {
		t.Errorf("the look is at %d:%d", line, col)
	}
	wantFaults(t, "no fault", r.Faults())
}

func TestReaderFaults(t *testing.T) {
	const (
		text   = "write a text in double quotes"
		number = "write a number without quotes, such as 1.5"
		length = "write the number with its unit in quotes, such as \"11.2 mm\""
		date   = "write a date as \"2026-06-01\", \"2026-06\", \"2026\" or \"unknown\""
		share  = "write \"12%\", or a number between 0 and 1"
	)
	for _, c := range []struct {
		name, text string
		ask        func(T)
		want       []string
	}{
		{"text missing", "\n[p]\n", func(c T) { c.Sub("p", Required).Str("a", Required) },
			[]string{"r.toml:2: p.a: is missing — add it: " + text}},
		{"asked twice", "", func(c T) { c.Str("a", Required); c.Str("a", Required) },
			[]string{"r.toml:1: a: is missing — add it: " + text}},
		{"text wrong", "a = 1", func(c T) { c.Str("a", Required) },
			[]string{"r.toml:1: a: is a whole number (1) where a text is wanted — " + text}},
		{"text empty", "a = \" \\n\u00a0\"", func(c T) { c.Str("a", Required) },
			[]string{"r.toml:1: a: is an empty text — write something, or leave the key out"}},
		{"whole number with decimals", "a = 1.5", func(c T) { c.Int("a", Required) },
			[]string{"r.toml:1: a: is a number with decimals (1.5) where a whole number is wanted — write a number without decimals and without quotes, such as 12"}},
		{"number in quotes", "a = \"1.5\"", func(c T) { c.Float("a", Required) },
			[]string{"r.toml:1: a: is a text (“1.5”) where a number is wanted — " + number}},
		{"true in quotes", "a = \"true\"", func(c T) { c.Bool("a", Required) },
			[]string{"r.toml:1: a: is a text (“true”) where true or false is wanted — write true or false, without quotes"}},
		{"number for a text", "a = [true, {}]\nb = 2026-06-01", func(c T) { c.Str("a", Required); c.Str("b", Required) },
			[]string{"r.toml:1: a: is a list where a text is wanted — " + text,
				"r.toml:2: b: is a date (2026-06-01) where a text is wanted — " + text}},
		{"date", "a = \"1/6/2026\"\nb = 26\nc = 1.5", func(c T) { c.Date("a", Required); c.Date("b", Required); c.Date("c", Required) },
			[]string{
				"r.toml:1: a: “1/6/2026” is not a date in the form taken here — write year-month-day \"2026-06-01\", year-month \"2026-06\", the year \"2026\", or \"unknown\"",
				"r.toml:2: b: “26” is not a date in the form taken here — write year-month-day \"2026-06-01\", year-month \"2026-06\", the year \"2026\", or \"unknown\"",
				"r.toml:3: c: is a number with decimals (1.5) where a date is wanted — " + date}},
		{"date missing", "", func(c T) { c.Date("a", Required) }, []string{"r.toml:1: a: is missing — add it: " + date}},
		{"length without unit", "a = 58\nb = \"58\"\nc = \"1,234mm\"", func(c T) {
			c.Length("a", Required)
			c.Length("b", Required)
			c.Length("c", Required)
		}, []string{
			"r.toml:1: a: is a whole number (58) where a length with its unit is wanted — " + length,
			"r.toml:2: b: “58” has no unit — write a length with its unit (mm, cm, m, in, ft), such as \"11.2 mm\"",
			"r.toml:3: c: “1,234mm” could mean thousands or a decimal — write \"1.234\" or \"1234\""}},
		{"other quantities missing", "", func(c T) {
			c.Mass("a", Required)
			c.Force("b", Required)
			c.Hours("c", Required)
			c.Months("d", Required)
			c.Temp("e", Required)
			c.Share("f", Required)
		}, []string{
			"r.toml:1: a: is missing — add it: write the number with its unit in quotes, such as \"92 kg\"",
			"r.toml:1: b: is missing — add it: write the number with its unit in quotes, such as \"15 kN\"",
			"r.toml:1: c: is missing — add it: write the number with its unit in quotes, such as \"25 h\"",
			"r.toml:1: d: is missing — add it: write the number with its unit in quotes, such as \"6 months\"",
			"r.toml:1: e: is missing — add it: write the number with its unit in quotes, such as \"60 °C\"",
			"r.toml:1: f: is missing — add it: " + share}},
		{"share", "a = 12\nb = \"12\"\nc = -0.1\nd = true", func(c T) {
			c.Share("a", Required)
			c.Share("b", Required)
			c.Share("c", Required)
			c.Share("d", Required)
		}, []string{
			"r.toml:1: a: 12 is not between 0 and 1 — " + share,
			"r.toml:2: b: “12” is not between 0 and 1 (0% and 100%) — write a percentage such as \"12%\", or a share between 0 and 1 such as \"0.12\"",
			"r.toml:3: c: -0.1 is not between 0 and 1 — " + share,
			"r.toml:4: d: is true or false (true) where a share is wanted — " + share}},
		{"word", "a = \"hnad\"\nb = \"nose\"\nc = 1", func(c T) {
			for _, k := range []string{"a", "b", "c"} {
				c.OneOf(k, Required, "eye", "hand", "bight")
			}
		}, []string{
			"r.toml:1: a: “hnad” is not a word taken here; did you mean “hand”? — write one of \"eye\", \"hand\" or \"bight\"",
			"r.toml:2: b: “nose” is not a word taken here — write one of \"eye\", \"hand\" or \"bight\"",
			"r.toml:3: c: is a whole number (1) where a word is wanted — write one of \"eye\", \"hand\" or \"bight\""}},
		{"word missing", "", func(c T) { c.OneOf("a", Required, "eye") }, []string{"r.toml:1: a: is missing — add it: write one of \"eye\""}},
		{"unknown keys", "lenght = 1\nzzz = 2\n\"a b\" = 3\n[p]\nq = 1", func(c T) {
			c.Length("length", Optional)
			c.Has("width")
			c.Sub("p", Required)
		}, []string{
			"r.toml:1: lenght: unknown key “lenght”; did you mean “length”? — correct the key, or take it out",
			"r.toml:2: zzz: unknown key “zzz” — take it out; the keys here are \"length\", \"width\" or \"p\"",
			"r.toml:3: \"a b\": unknown key “a b” — take it out; the keys here are \"length\", \"width\" or \"p\"",
			"r.toml:5: p.q: unknown key “q” — take it out"}},
		{"done twice", "a = 1", func(c T) { c.Done(); c.Done() }, []string{"r.toml:1: a: unknown key “a” — take it out"}},
		{"no table", "a = 1\nb = [{}, 2]", func(c T) {
			c.Sub("a", Required).Str("x", Required)
			for _, it := range c.List("b", Required) {
				it.Str("x", Optional)
			}
			c.Sub("c", Required).Str("x", Required)
			c.Sub("d", Optional).Str("x", Required)
		}, []string{
			"r.toml:1: a: is a whole number (1) where a table is wanted — write a table [a]",
			"r.toml:1: c: is missing — add it: write a table [c]",
			"r.toml:2: b[1]: is a whole number (2) where a table is wanted — write it as a table"}},
		{"lists", "a = 1\nb = []\nc = [\"x\", 1, \"\", \"y\"]\nd = [\"5mm\",\n\"5\"]\ne = [1, \"2\"]", func(c T) {
			c.List("a", Required)
			c.List("b", Required)
			if got := c.Strings("c", Required); !slices.Equal(got, []string{"x", "y"}) {
				panic(got)
			}
			c.Lengths("d", Required)
			c.Floats("e", Required)
			c.Strings("f", Required)
			c.Strings("g", Optional)
		}, []string{
			"r.toml:1: a: is a whole number (1) where a list of tables is wanted — write each as [[a]], in double brackets",
			"r.toml:1: f: is missing — add it: write a list in square brackets, each item a text",
			"r.toml:2: b: is an empty list — write each as [[b]], in double brackets",
			"r.toml:3: c[1]: is a whole number (1) where a text is wanted — write a text there, or take it out",
			"r.toml:3: c[2]: is an empty text — write something, or take it out",
			"r.toml:5: d[1]: “5” has no unit — write a length with its unit (mm, cm, m, in, ft), such as \"11.2 mm\"",
			"r.toml:6: e[1]: is a text (“2”) where a number is wanted — write a number there, or take it out"}},
		{"faults of meaning", "a = 1\n[p]\nx = 1\ny = \"z\"", func(c T) {
			c.Int("a", Required)
			c.Fault("a", "is too small", "make it larger")
			p := c.Sub("p", Required)
			p.Int("x", Required)
			p.Int("y", Required)
			p.Fault("y", "is nought", "correct it")     // y was no number at all: already said
			p.Fault("w", "is wanted with x", "add it")  // not there: the table's place
			p.Fault("", "does not add up", "add it up") // the table as a whole
			c.Sub("absent", Optional).Fault("x", "never said", "")
		}, []string{
			"r.toml:1: a: is too small — make it larger",
			"r.toml:2: p.w: is wanted with x — add it",
			"r.toml:2: p: does not add up — add it up",
			"r.toml:4: p.y: is a text (“z”) where a whole number is wanted — write a number without decimals and without quotes, such as 12"}},
		{"long text", "a = \"" + "abcdefghijabcdefghijabcdefghijabcdefghij" + "k\"", func(c T) { c.Int("a", Required) },
			[]string{"r.toml:1: a: is a text (“abcdefghijabcdefghijabcdefghijabcdefghij…”) where a whole number is wanted — write a number without decimals and without quotes, such as 12"}},
	} {
		cur, r := on(t, c.text)
		c.ask(cur)
		wantFaults(t, c.name, r.Faults(), c.want...)
	}
}

// A value that the parser has reported is not reported again, and what is
// missing because of it is not either.
func TestReaderAfterParserFaults(t *testing.T) {
	root, faults := ParseTOML("r.toml", []byte("length = 58cm\npart = bridge\nlooks = [10:00:00]\n"))
	r := NewReader("r.toml", root)
	c := r.Root()
	if !c.Has("length") || c.Length("length", Required) != 0 || c.Sub("part", Required).Present() {
		t.Error("a bad value is there, and nothing")
	}
	c.Fault("length", "is nought", "measure it")
	c.Strings("looks", Required)
	c.Lengths("looks", Required)
	c.List("looks", Required)
	c.Int("width", Required)
	all := append(faults, r.Faults()...)
	all.Sort()
	wantFaults(t, "together", all,
		"r.toml:1: length: 58cm is not in quotes — write \"58cm\"",
		"r.toml:1: width: is missing — add it: write a number without decimals and without quotes, such as 12",
		"r.toml:2: part: bridge is not in quotes — write \"bridge\"",
		"r.toml:3: looks[0]: has a time of day (10:00:00), which is not taken — write the day alone, such as 2026-06-01")
}

// Nothing to read: every question is answered, nothing is said, nothing panics.
func TestReaderOfNothing(t *testing.T) {
	r := NewReader("r.toml", nil)
	for _, c := range []T{r.Root(), r.Table(&Node{}), r.Root().Sub("x", Required), {}} {
		line, col := c.Pos()
		if c.Present() || c.Has("a") || c.Str("a", Required) != "" || c.Int("a", Required) != 0 || c.Float("a", Required) != 0 ||
			c.Bool("a", Required) || c.Date("a", Required).Known() || c.Length("a", Required) != 0 || c.Mass("a", Required) != 0 ||
			c.Force("a", Required) != 0 || c.Hours("a", Required) != 0 || c.Months("a", Required) != 0 || c.Temp("a", Required) != 0 ||
			c.Share("a", Required) != 0 || c.OneOf("a", Required, "b") != "" || c.Sub("a", Required).Present() ||
			c.List("a", Required) != nil || c.Strings("a", Required) != nil || c.Floats("a", Required) != nil ||
			c.Lengths("a", Required) != nil || c.Keys() != nil || line != 0 || col != 0 {
			t.Errorf("%+v answers", c)
		}
		c.Fault("a", "b", "c")
		c.Done()
	}
	wantFaults(t, "nothing", r.Faults())
	list := NewReader("r.json", &Node{Kind: Array, Line: 1, Col: 1})
	list.Root()
	wantFaults(t, "a list for a root", list.Faults(), "r.json:1: is a list where a table is wanted — write it as a table")
}

func TestFaultText(t *testing.T) {
	for want, f := range map[string]Fault{
		"a.toml:3: x: b — c": {File: "a.toml", Line: 3, Col: 1, Field: "x", What: "b", Mend: "c"},
		"a.toml: b":          {File: "a.toml", What: "b"},
	} {
		if f.Error() != want {
			t.Errorf("%q, want %q", f.Error(), want)
		}
	}
	if (Faults{}).Err() != nil || (Faults(nil)).Err() != nil || (Faults{{What: "x"}}).Err() == nil {
		t.Error("Err")
	}
	fs := Faults{{File: "b", Line: 1}, {File: "a", Line: 2, Col: 3}, {File: "a", Line: 2, Col: 1, What: "1"}, {File: "a", Line: 2, Col: 1, What: "2"}, {File: "a", Line: 1, Col: 9}}
	fs.Sort()
	got := ""
	for _, f := range fs {
		got += f.Error() + "\n"
	}
	if want := "a:1: \na:2: 1\na:2: 2\na:2: \nb:1: \n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestNearest(t *testing.T) {
	words := []string{"length", "width", "eye", "hand", "to"}
	for typed, want := range map[string]string{
		"lenght": "length", "lengths": "length", "lngth": "length", "Length": "length", "wdith": "width", "hans": "hand",
		"eyes": "eye", "ear": "", "": "", "too": "", "breadth": "", "lneght": "length", "ength": "length", "gth": "",
	} {
		if got, ok := nearest(typed, words); got != want || ok != (want != "") {
			t.Errorf("%q is nearest to %q, want %q", typed, got, want)
		}
	}
}

// edits against the definition, without its shortcut for far words.
func TestEdits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := []rune(rapid.StringMatching(`[abä]{0,5}`).Draw(t, "a"))
		b := []rune(rapid.StringMatching(`[abä]{0,5}`).Draw(t, "b"))
		want := slow(a, b)
		if d := len(a) - len(b); d > 2 || d < -2 {
			want = 3
		}
		if got := edits(string(a), string(b)); got != want {
			t.Fatalf("%q to %q: %d, want %d", string(a), string(b), got, want)
		}
	})
}

func slow(a, b []rune) int {
	if len(a) == 0 || len(b) == 0 {
		return len(a) + len(b)
	}
	x, y := a[len(a)-1], b[len(b)-1]
	best := min(slow(a[:len(a)-1], b)+1, slow(a, b[:len(b)-1])+1)
	change := 1
	if x == y {
		change = 0
	}
	best = min(best, slow(a[:len(a)-1], b[:len(b)-1])+change)
	if len(a) > 1 && len(b) > 1 && x == b[len(b)-2] && y == a[len(a)-2] {
		best = min(best, slow(a[:len(a)-2], b[:len(b)-2])+1)
	}
	return best
}
