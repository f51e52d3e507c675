package report_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kernbook/internal/bench"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// benchAsked reads the source of the bench and gives each key it asks words for:
// figures, notes, cautions, labels of a drawing, bars and marks, series, calculators
// with their fields.
func benchAsked(t *testing.T) []string {
	t.Helper()
	groups := map[string][]string{"fig": {"figure"}, "span": {"figure"}, "note": {"note"}, "caution": {"caution"}, "label": {"label"}}
	files, err := filepath.Glob(filepath.Join("..", "bench", "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no source of the bench: %v", err)
	}
	var out []string
	literal := func(e ast.Expr) string {
		if lit, ok := e.(*ast.BasicLit); ok {
			s, _ := strconv.Unquote(lit.Value)
			return s
		}
		return ""
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				sel, ok := n.Fun.(*ast.SelectorExpr)
				if !ok || groups[sel.Sel.Name] == nil {
					return true
				}
				key := literal(n.Args[0])
				if id, ok := n.Args[0].(*ast.Ident); ok && id.Name == "name" && sel.Sel.Name == "span" {
					out = append(out, "bench.figure.end-a", "bench.figure.end-b")
					return true
				}
				if key == "" {
					t.Errorf("%s asks for words in another way than this test knows", file)
				}
				for _, g := range groups[sel.Sel.Name] {
					out = append(out, "bench."+g+"."+key)
				}
			case *ast.CompositeLit:
				id, _ := n.Type.(*ast.Ident)
				if star, ok := n.Type.(*ast.StarExpr); ok {
					id, _ = star.X.(*ast.Ident)
				}
				if id == nil {
					return true
				}
				group := map[string]string{"Bar": "bar", "Bars": "mark", "Series": "series"}[id.Name]
				for _, e := range n.Elts {
					kv, ok := e.(*ast.KeyValueExpr)
					if !ok {
						continue
					}
					k, _ := kv.Key.(*ast.Ident)
					if s := literal(kv.Value); group != "" && k != nil && k.Name == "Key" && s != "" {
						out = append(out, "bench."+group+"."+s)
					}
					if cols, ok := kv.Value.(*ast.CompositeLit); ok && id.Name == "Series" && k != nil && k.Name == "Columns" {
						for _, c := range cols.Elts {
							out = append(out, "bench.figure."+literal(c))
						}
					}
				}
			}
			return true
		})
	}
	out = append(out, "bench.bar.end-a", "bench.bar.end-b")
	for _, c := range bench.All(tables.Default()) {
		name := strings.ReplaceAll(c.Name, " ", "-")
		out = append(out, "bench.calc."+name, "bench.about."+name)
		for i := range c.Fields {
			out = append(out, "bench.field."+name+"."+c.Fields[i].Name)
		}
	}
	// What this package itself asks for, as it stands.
	for _, file := range []string{"bench.go", "benchpage.go", "along.go"} {
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok {
				s, _ := strconv.Unquote(lit.Value)
				if regexp.MustCompile(`^bench\.[a-z.-]*[a-z]$`).MatchString(s) {
					out = append(out, s)
				}
			}
			return true
		})
	}
	for _, x := range (&bench.Taken{Day: "x", Tension: "x", Method: "x", Wet: "x", Gauge: "x", Checked: "x", By: "x"}).Said() {
		out = append(out, "bench.along.of-"+x[0])
	}
	for _, h := range []string{"cautions", "notes"} {
		out = append(out, "bench.heading."+h)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestEveryPhraseOfTheBench: the catalogue has words for each key that the bench asks
// for, and none in its section for one that it does not.
func TestEveryPhraseOfTheBench(t *testing.T) {
	asked, have := benchAsked(t), lang.English().Bench()
	if len(asked) < 150 {
		t.Fatalf("only %d keys were found in the source", len(asked))
	}
	for _, k := range asked {
		if !slices.Contains(have, k) {
			t.Errorf("the bench asks for %s, which has no words", k)
		}
	}
	for _, k := range have {
		if !slices.Contains(asked, k) {
			t.Errorf("there are words for %s, which the bench does not ask for", k)
		}
	}
}

// benchCalls are calls that between them bring out each calculator and its odd cases.
var benchCalls = []struct{ name, in string }{
	{"bridge", "apart=40cm length=60cm load=1kN"},
	{"bridge", "apart=40cm length=60cm mass=92kg friction=0.15 tilt=15deg lower=5cm modulus=30kN"},
	{"bridge", "apart=40cm down=22cm mass=92kg friction=5 ring=20mm"},
	{"fall", "mass=92kg drop=30cm rope=1m elongation=3.5% strength=24kN"},
	{"fall", "mass=92kg drop=0m rope=1m stretch=12mm stretch-over=1m pull-from=100N pull-to=1kN strength=2kN"},
	{"fall", "mass=92kg drop=1m rope=1m impact=9kN"},
	{"bend", "pin=12mm rope=11.7mm made-of=fibre strength=24kN"},
	{"bend", "pin=900mm rope=12mm made-of=wire strength=24kN"},
	{"ends", "strength=24kN fibre=pes end-a=bowline end-b=splice asked=3kN"},
	{"ends", "strength=24kN fibre=hmpe end-a=figure-eight end-b=reef asked=13kN"},
	{"ends", "strength=24kN fibre=general end-a=reef asked=13kN"},
	{"ends", "strength=24kN fibre=pes end-a=clove"},
	{"heat", "mass=92kg height=150m part=200g material=aluminium"},
	{"damage", "fibre=pa"},
	{"damage", "fibre=pp"},
	{"heat", "mass=92kg height=5m part=200g material=pa"},
	{"stiffness overhang", "overhang=30cm angle=41.5deg weight=80g/m"},
	{"stiffness loop", "length=100cm height=16cm weight=40g/m"},
	{"stiffness jaws", "force=5N gap=45mm rope=11mm"},
	{"stiffness pinch", "force=5N apart=40mm length=100mm"},
	{"stiffness knot", "inner=12.4mm rope=11mm"},
	{"section", "one=11.9mm two=10mm tape=42mm weight=79g/m fibre=pa"},
}

// TestBenchIsSaid: text, JSON and drawing of each sheet come out with words for all,
// the JSON holds the figures of the sheet, the drawing is well formed and every text
// in it lies on the sheet.
func TestBenchIsSaid(t *testing.T) {
	tb, said := tables.Default(), lang.English()
	for _, c := range benchCalls {
		in := map[string]string{}
		for _, w := range strings.Fields(c.in) {
			k, v, _ := strings.Cut(w, "=")
			in[k] = v
		}
		s, faults := bench.Run(tb, c.name, in)
		if len(faults) > 0 {
			t.Errorf("%s %s: %v", c.name, c.in, faults)
			continue
		}
		var text bytes.Buffer
		if err := report.BenchText(&text, s, tb, said); err != nil {
			t.Fatal(err)
		}
		b, err := report.BenchJSON(s, tb, said)
		if err != nil {
			t.Fatal(err)
		}
		svg := report.BenchDrawing(s, said)
		for what, out := range map[string]string{"text": text.String(), "json": string(b), "drawing": string(svg)} {
			if strings.Contains(out, "⟦") || strings.Contains(out, "NaN") {
				t.Errorf("%s %s: %s lacks words or holds no number: %s", c.name, c.in, what, out)
			}
		}
		var back struct {
			Format  string
			Figures []struct {
				Key              string
				Value, Low, High *float64
				Shown            string
			}
			Sources []struct{ ID string }
		}
		if err := json.Unmarshal(b, &back); err != nil || back.Format != report.BenchFormat || len(back.Figures) != len(s.Figures) || len(back.Sources) == 0 {
			t.Errorf("%s %s: %v, %+v", c.name, c.in, err, back)
			continue
		}
		for i, f := range back.Figures {
			want := &s.Figures[i]
			if f.Key != want.Key || !want.Ranged && (f.Value == nil || *f.Value != want.Value) || want.Ranged && (f.Low == nil || *f.Low != want.Low || (f.High == nil) != want.Open()) {
				t.Errorf("%s %s: figure %d is %+v, the sheet has %+v", c.name, c.in, i, f, want)
			}
			if !strings.Contains(text.String(), f.Shown) {
				t.Errorf("%s %s: the text does not show %s, %s", c.name, c.in, f.Key, f.Shown)
			}
		}
		if (svg == nil) != (s.Scene == nil && s.Bars == nil) {
			t.Errorf("%s %s: a drawing without a shape, or a shape without a drawing", c.name, c.in)
		}
		if svg == nil {
			continue
		}
		texts := 0
		for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Errorf("%s %s: the drawing is not well formed: %v", c.name, c.in, err)
				break
			}
			if e, ok := tok.(xml.StartElement); ok && e.Name.Local == "text" {
				texts++
				for _, a := range e.Attr {
					if v, err := strconv.ParseFloat(a.Value, 64); (a.Name.Local == "x" || a.Name.Local == "y") && (err != nil || v < 0 || v > 720) {
						t.Errorf("%s %s: a text lies off the sheet: %s=%s", c.name, c.in, a.Name.Local, a.Value)
					}
				}
			}
		}
		if texts < 3 {
			t.Errorf("%s %s: the drawing says nothing", c.name, c.in)
		}
	}
}
