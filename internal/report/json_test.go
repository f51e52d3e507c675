package report_test

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

func asJSON(t testing.TB, s *sample) []byte {
	t.Helper()
	b, err := report.JSON(s.o, s.t, s.r, lang.English())
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func compiled(t testing.TB) *jsonschema.Schema {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "docs", "outcome.schema.json"))
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("outcome.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("outcome.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// tree reads JSON with its numbers as they are written.
func tree(t testing.TB, b []byte) map[string]any {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return v.(map[string]any)
}

// TestOneLine: the outcome on one line is the other form without its white space.
func TestOneLine(t *testing.T) {
	for i := range samples() {
		x := &samples()[i]
		var want bytes.Buffer
		if err := json.Compact(&want, asJSON(t, x)); err != nil {
			t.Fatal(err)
		}
		got, err := report.JSONLine(x.o, x.t, x.r, lang.English())
		if err != nil || !bytes.Equal(got, want.Bytes()) || bytes.ContainsRune(got, '\n') {
			t.Errorf("%s: %v, %d bytes, want %d", x.name, err, len(got), want.Len())
		}
	}
}

// TestOutcomesFitTheSchema: every sample is as the schema says, and no sentence
// in it has an unfilled place.
func TestOutcomesFitTheSchema(t *testing.T) {
	s := compiled(t)
	for i := range samples() {
		x := &samples()[i]
		b := asJSON(t, x)
		doc := tree(t, b)
		if err := s.Validate(doc); err != nil {
			t.Errorf("%s: %v", x.name, err)
		}
		each(doc, "", func(path string, v any) {
			if text, ok := v.(string); ok {
				unfilled(t, x.name+path, text)
			}
		})
	}
	plain := *sampleOf(t, "in good order")
	o := decide.Decide(plain.t, plain.r, decide.Ask{})
	plain.o = &o
	if err := s.Validate(tree(t, asJSON(t, &plain))); err != nil {
		t.Errorf("without explanation: %v", err)
	}
}

// each calls f for every value of a tree.
func each(v any, path string, f func(path string, v any)) {
	f(path, v)
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			each(x, path+"/"+k, f)
		}
	case []any:
		for _, x := range v {
			each(x, path+"/…", f)
		}
	}
}

// TestSchemaIsStrict: the schema refuses what is not of the format.
func TestSchemaIsStrict(t *testing.T) {
	s := compiled(t)
	for _, c := range []struct {
		name   string
		damage func(d map[string]any)
	}{
		{"another format", func(d map[string]any) { d["format"] = "kernbook outcome 2" }},
		{"a fifth outcome", func(d map[string]any) { d["outcome"] = "good" }},
		{"no tables", func(d map[string]any) { delete(d, "tables") }},
		{"a date in words", func(d map[string]any) { d["as_of"] = "5 Jul 2026" }},
		{"an unknown key", func(d map[string]any) { d["odd"] = 1 }},
		{"an unknown key below", func(d map[string]any) { d["piece"].(map[string]any)["odd"] = 1 }},
		{"no sentence", func(d map[string]any) { d["reasons"].([]any)[0].(map[string]any)["sentence"] = "" }},
		{"half a millionth", func(d map[string]any) {
			d["doubt"].(map[string]any)["figure"].(map[string]any)["millionths"] = json.Number("0.5")
		}},
		{"more than all", func(d map[string]any) {
			d["doubt"].(map[string]any)["figure"].(map[string]any)["millionths"] = json.Number("1000001")
		}},
		{"a status of its own", func(d map[string]any) { d["reasons"].([]any)[0].(map[string]any)["status"] = "sure" }},
	} {
		doc := tree(t, asJSON(t, sampleOf(t, "a pair")))
		c.damage(doc)
		if s.Validate(doc) == nil {
			t.Errorf("%s passes", c.name)
		}
	}
}

// TestSameBytes: the same record gives the same bytes, judged anew.
func TestSameBytes(t *testing.T) {
	for i := range samples() {
		x := samples()[i]
		o := decide.Decide(x.t, x.r, decide.Ask{Explain: true})
		again := x
		again.o = &o
		if a, b := asJSON(t, &x), asJSON(t, &again); !bytes.Equal(a, b) {
			t.Errorf("%s: two runs differ", x.name)
		}
	}
}

type figures struct {
	Outcome string
	Reasons []struct {
		Key, Sentence string
		Args          []struct{ Name, Value string }
	}
	Doubt *struct {
		Figure, Hidden struct {
			Exact      float64
			Millionths int64
		}
		OneIn int64 `json:"one_in"`
		Cells []struct {
			Figure struct{ Exact float64 }
		}
	}
	Explanation struct {
		Before int64 `json:"before_millionths"`
		Drops  []struct {
			By    int64 `json:"by_millionths"`
			After int64 `json:"after_millionths"`
		}
	}
	Lines map[string]struct{ Source string }
}

// TestFiguresAreExact: what is written reads back as the figures of the
// outcome, to the last bit, and the drops add up.
func TestFiguresAreExact(t *testing.T) {
	for i := range samples() {
		x := &samples()[i]
		var got figures
		if err := json.Unmarshal(asJSON(t, x), &got); err != nil {
			t.Fatal(err)
		}
		if v, ok := kit.ParseVerdict(got.Outcome); !ok || v != x.o.Verdict {
			t.Errorf("%s: outcome %q", x.name, got.Outcome)
		}
		if len(got.Reasons) != len(x.o.Reasons) {
			t.Fatalf("%s: %d reasons, want %d", x.name, len(got.Reasons), len(x.o.Reasons))
		}
		for k := range got.Reasons {
			r, want := got.Reasons[k], x.o.Reasons[k]
			if r.Key != want.Key || r.Sentence == "" || len(r.Args) != len(want.Args) {
				t.Errorf("%s: reason %d is %+v, want %s", x.name, k, r, want.Key)
			}
			for _, id := range want.Lines {
				if x.t.Line(id) != nil && got.Lines[id].Source == "" {
					t.Errorf("%s: line %s of %s is not listed", x.name, id, want.Key)
				}
			}
		}
		if (got.Doubt == nil) != (x.o.Doubt == nil) {
			t.Fatalf("%s: doubt there: %v", x.name, got.Doubt != nil)
		}
		if d := got.Doubt; d != nil {
			if d.Figure.Exact != x.o.Doubt.D || d.Figure.Millionths != x.o.Doubt.Millions || d.Hidden.Exact != x.o.Doubt.Hidden || d.OneIn != x.o.Doubt.OneIn {
				t.Errorf("%s: doubt %+v, want %+v", x.name, d, x.o.Doubt)
			}
			for k := range d.Cells {
				if d.Cells[k].Figure.Exact != x.o.Doubt.Cells[k].D {
					t.Errorf("%s: cell %d is %g, want %g", x.name, k, d.Cells[k].Figure.Exact, x.o.Doubt.Cells[k].D)
				}
			}
		}
		now := got.Explanation.Before
		for _, d := range got.Explanation.Drops {
			if now-d.By != d.After {
				t.Errorf("%s: %d less %d is not %d", x.name, now, d.By, d.After)
			}
			now = d.After
		}
	}
}

// TestNoNumber: a figure that is no number is an error, never a document.
func TestNoNumber(t *testing.T) {
	s := *sampleOf(t, "in good order")
	o, d := *s.o, *s.o.Doubt
	d.D = math.NaN()
	o.Doubt, s.o = &d, &o
	b, err := report.JSON(s.o, s.t, s.r, lang.English())
	if err == nil || b != nil || !strings.Contains(err.Error(), "P1") {
		t.Errorf("got %d bytes, error %v", len(b), err)
	}
}
