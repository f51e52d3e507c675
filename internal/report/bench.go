package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"kernbook/internal/bench"
	"kernbook/internal/core/table"
	"kernbook/internal/report/draw"
)

// BenchFormat names the form of a sheet of the bench as JSON.
const BenchFormat = "kernbook bench 1"

// benchKey is the part of a key that stands for a calculator.
func benchKey(name string) string { return strings.ReplaceAll(name, " ", "-") }

// BenchShort and BenchAbout say what a calculator is for, in a line and in a sentence.
func BenchShort(c Words, name string) string { return c.Say("bench.calc." + benchKey(name)) }

// BenchAbout says what a calculator is for, in a sentence or two.
func BenchAbout(c Words, name string) string {
	return c.Say("bench.about." + benchKey(name))
}

// BenchField says what a field of a calculator takes.
func BenchField(c Words, name, field string) string {
	return c.Say("bench.field." + benchKey(name) + "." + field)
}

func benchArgs(n *bench.Note) []arg {
	out := make([]arg, len(n.Args))
	for i, a := range n.Args {
		out[i] = arg{Name: a[0], Value: a[1]}
	}
	return out
}

func benchName(c Words, f *bench.Figure) string {
	name := c.Say("bench.figure." + f.Key)
	if f.Of == "" {
		return name
	}
	return c.Say("bench.of", arg{Name: "figure", Value: name}, arg{Name: "of", Value: f.Of})
}

func benchShown(c Words, f *bench.Figure) string {
	value, low, high := f.Shown()
	switch {
	case !f.Ranged:
		return value
	case f.Open():
		return c.Say("bench.open", arg{Name: "low", Value: low})
	case low == high:
		return low
	}
	return c.Say("bench.range", arg{Name: "low", Value: low}, arg{Name: "high", Value: high})
}

// benchLines gives every line that a sheet rests on, once, in its order.
func benchLines(s *bench.Sheet) []string {
	var out []string
	add := func(lines []string) {
		for _, id := range lines {
			if !slices.Contains(out, id) {
				out = append(out, id)
			}
		}
	}
	for i := range s.Figures {
		add(s.Figures[i].Lines)
	}
	for _, list := range [][]bench.Note{s.Notes, s.Cautions} {
		for i := range list {
			add(list[i].Lines)
		}
	}
	return out
}

// cited gives the lines behind a sentence, in brackets.
func cited(lines []string) string {
	if len(lines) == 0 {
		return ""
	}
	return " [" + strings.Join(lines, ", ") + "]"
}

// BenchText writes a sheet of the bench as text.
func BenchText(w io.Writer, s *bench.Sheet, t *table.Tables, c Words) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\n\n", BenchShort(c, s.Calculator))
	wide := 0
	for i := range s.Figures {
		wide = max(wide, len([]rune(benchName(c, &s.Figures[i]))))
	}
	for i := range s.Figures {
		f := &s.Figures[i]
		fmt.Fprintf(&b, "%-*s  %s%s\n", wide, benchName(c, f), benchShown(c, f), cited(f.Lines))
	}
	if x := s.Series; x != nil {
		fmt.Fprintf(&b, "\n%s\n", c.Say("bench.series."+x.Key))
		for i, k := range x.Columns {
			fmt.Fprintf(&b, "%s%s", map[bool]string{true: "", false: " | "}[i == 0], c.Say("bench.figure."+k))
		}
		b.WriteString("\n")
		for _, row := range x.Rows {
			for i, v := range row {
				fmt.Fprintf(&b, "%12s", bench.Print(v, x.Units[i], x.Rounds[i]))
			}
			b.WriteString("\n")
		}
	}
	say := func(heading, group string, list []bench.Note) {
		if len(list) == 0 {
			return
		}
		fmt.Fprintf(&b, "\n%s\n", c.Say("bench.heading."+heading))
		for i := range list {
			fmt.Fprintf(&b, "- %s%s\n", c.Say("bench."+group+"."+list[i].Key, benchArgs(&list[i])...), cited(list[i].Lines))
		}
	}
	say("cautions", "caution", s.Cautions)
	say("notes", "note", s.Notes)
	fmt.Fprintf(&b, "\n%s\n", c.Say("bench.heading.given"))
	for _, g := range s.Given {
		v := g.Typed
		if g.Usual {
			v = c.Say("bench.heading.usual", arg{Name: "value", Value: v})
		}
		fmt.Fprintf(&b, "- %s: %s\n", BenchField(c, s.Calculator, g.Name), v)
	}
	if lines := benchLines(s); len(lines) > 0 {
		fmt.Fprintf(&b, "\n%s\n", c.Say("bench.heading.sources"))
		for _, id := range lines {
			if l := t.Line(id); l != nil {
				fmt.Fprintf(&b, "%s\n", benchSource(c, l))
			}
		}
	}
	_, err := w.Write(b.Bytes())
	return err
}

func benchSource(c Words, l *table.Line) string {
	return c.Say("bench.source", arg{Name: "id", Value: l.ID}, arg{Name: "mark", Value: l.Mark}, arg{Name: "says", Value: l.Source + ", " + l.Place})
}

// The form of a sheet as JSON. Figures have their value in SI units, unrounded, and
// as shown; a range has low and high, the latter left out where no source tells it.
type (
	benchSheet struct {
		Format     string        `json:"format"`
		Calculator string        `json:"calculator"`
		Title      string        `json:"title"`
		Given      []benchGiven  `json:"given"`
		Figures    []benchFigure `json:"figures"`
		Series     *benchSeries  `json:"series,omitempty"`
		Cautions   []benchNote   `json:"cautions"`
		Notes      []benchNote   `json:"notes"`
		Sources    []benchLine   `json:"sources"`
		Tables     string        `json:"tables"`
	}
	benchGiven struct {
		Field string `json:"field"`
		Words string `json:"words"`
		Typed string `json:"typed"`
		Usual bool   `json:"usual,omitempty"`
	}
	benchFigure struct {
		Key   string   `json:"key"`
		Of    string   `json:"of,omitempty"`
		Words string   `json:"words"`
		Unit  string   `json:"unit"`
		Value *float64 `json:"value,omitempty"`
		Low   *float64 `json:"low,omitempty"`
		High  *float64 `json:"high,omitempty"`
		Shown string   `json:"shown"`
		Round string   `json:"round"`
		Lines []string `json:"lines,omitempty"`
	}
	benchSeries struct {
		Key     string      `json:"key"`
		Words   string      `json:"words"`
		Columns []string    `json:"columns"`
		Units   []string    `json:"units"`
		Rows    [][]float64 `json:"rows"`
	}
	benchNote struct {
		Key   string            `json:"key"`
		Words string            `json:"words"`
		Args  map[string]string `json:"args,omitempty"`
		Lines []string          `json:"lines,omitempty"`
	}
	benchLine struct {
		ID     string `json:"id"`
		Mark   string `json:"mark"`
		Says   string `json:"says"`
		Source string `json:"source"`
		Place  string `json:"place"`
	}
)

// number is a figure as JSON takes it: nothing where it is none.
func benchNumber(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return &v
}

// BenchJSON gives a sheet of the bench as JSON on one line.
func BenchJSON(s *bench.Sheet, t *table.Tables, c Words) ([]byte, error) {
	out := benchSheet{Format: BenchFormat, Calculator: s.Calculator, Title: BenchShort(c, s.Calculator), Tables: t.Version,
		Given: []benchGiven{}, Figures: []benchFigure{}, Cautions: []benchNote{}, Notes: []benchNote{}, Sources: []benchLine{}}
	for _, g := range s.Given {
		out.Given = append(out.Given, benchGiven{g.Name, BenchField(c, s.Calculator, g.Name), g.Typed, g.Usual})
	}
	for i := range s.Figures {
		f := &s.Figures[i]
		x := benchFigure{Key: f.Key, Of: f.Of, Words: benchName(c, f), Unit: string(f.Unit), Shown: benchShown(c, f), Round: string(f.Round), Lines: f.Lines}
		if f.Ranged {
			x.Low, x.High = benchNumber(f.Low), benchNumber(f.High)
		} else {
			x.Value = benchNumber(f.Value)
		}
		out.Figures = append(out.Figures, x)
	}
	if x := s.Series; x != nil {
		out.Series = &benchSeries{Key: x.Key, Words: c.Say("bench.series." + x.Key), Columns: x.Columns, Rows: x.Rows}
		for _, u := range x.Units {
			out.Series.Units = append(out.Series.Units, string(u))
		}
	}
	notes := func(group string, list []bench.Note) []benchNote {
		out := []benchNote{}
		for i := range list {
			n := benchNote{Key: list[i].Key, Words: c.Say("bench."+group+"."+list[i].Key, benchArgs(&list[i])...), Lines: list[i].Lines}
			for _, a := range list[i].Args {
				if n.Args == nil {
					n.Args = map[string]string{}
				}
				n.Args[a[0]] = a[1]
			}
			out = append(out, n)
		}
		return out
	}
	out.Cautions, out.Notes = notes("caution", s.Cautions), notes("note", s.Notes)
	for _, id := range benchLines(s) {
		if l := t.Line(id); l != nil {
			out.Sources = append(out.Sources, benchLine{l.ID, l.Mark, l.Says, l.Source, l.Place})
		}
	}
	return json.Marshal(out)
}

// BenchDrawing draws a sheet of the bench, to scale where it has a shape. It gives
// nil where there is nothing to draw.
func BenchDrawing(s *bench.Sheet, c Words) []byte {
	title, about := BenchShort(c, s.Calculator), BenchAbout(c, s.Calculator)
	switch {
	case s.Scene != nil:
		return draw.Scene(s.Scene, title, about, benchLabels(c))
	case s.Bars != nil:
		return draw.Bars(s.Bars, title, about, benchBars(s.Bars, c))
	}
	return nil
}

func benchLabel(c Words, group, key, n string) string {
	return c.Say("bench."+group+"."+key, arg{Name: "n", Value: n}, arg{Name: "words", Value: n})
}

func benchLabels(c Words) func(*bench.Label) string {
	return func(l *bench.Label) string { return benchLabel(c, "label", l.Key, l.Value) }
}

func benchBars(b *bench.Bars, c Words) draw.BarWords {
	return draw.BarWords{
		Called: func(b *bench.Bar) string {
			if b.Key == "" {
				return b.Words
			}
			return benchLabel(c, "bar", b.Key, b.Words)
		},
		None: c.Say("bench.bar.none"),
		Mark: func(n string) string { return benchLabel(c, "mark", b.Key, n) },
	}
}
