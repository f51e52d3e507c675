package record

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	"kernbook/internal/tables"
)

// examples reads the records that come with the program.
func examples(t testing.TB) map[string]string {
	t.Helper()
	files, err := filepath.Glob("../../examples/*.toml")
	if err != nil || len(files) < 6 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	out := map[string]string{}
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(f)] = string(b)
	}
	return out
}

func TestExamples(t *testing.T) {
	tb := tables.Default()
	s := compiled(t, tb)
	for name, text := range examples(t) {
		r, faults := Decode(name, []byte(text), tb)
		if faults != nil {
			t.Errorf("%v", faults)
			continue
		}
		typed := asJSON(t, text)
		again, faults := Decode(name+".json", typed, tb)
		if faults != nil {
			t.Errorf("as JSON: %v", faults)
			continue
		}
		if diff := sameRecord(r, again); diff != "" {
			t.Errorf("%s as JSON (-TOML +JSON):\n%s", name, diff)
		}
		if err := valid(s, typed); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		holds(t, s, tb, name, r)
	}
}

// holds is what is true of every record that was accepted: it comes back from
// canonical JSON as it was, and that JSON is valid by the schema.
func holds(t testing.TB, s *jsonschema.Schema, tb *table.Tables, name string, r *kit.Record) {
	t.Helper()
	b := Encode(r)
	again, faults := DecodeJSON(name, b, tb)
	if faults != nil {
		t.Fatalf("%s: what was accepted is refused when written anew: %v\n%s", name, faults, b)
	}
	if diff := sameRecord(r, again); diff != "" {
		t.Fatalf("%s (-accepted +written anew):\n%s", name, diff)
	}
	if err := valid(s, b); err != nil {
		t.Fatalf("%s: %v\n%s", name, err, b)
	}
}

// A record, and every fault, from 1,000 examples changed at random: lines taken
// out, doubled, moved or with a changed word. Nothing panics; there is either a
// record or a fault; each fault has a line and says what and how to mend it.
func TestMutatedLines(t *testing.T) {
	const seed = 20260601
	tb := tables.Default()
	s := compiled(t, tb)
	rnd := rand.New(rand.NewPCG(seed, 1))
	all := examples(t)
	all["filled"] = filled
	names := slices.Sorted(mapKeys(all))
	taken := 0
	for i := range 1000 {
		name := names[i%len(names)]
		lines := strings.Split(all[name], "\n")
		for range 1 + rnd.IntN(3) {
			lines = mutateLines(rnd, lines)
		}
		text := strings.Join(lines, "\n")
		if r := judged(t, name, []byte(text), tb, Decode); r != nil {
			taken++
			holds(t, s, tb, name, r)
		}
	}
	if taken < 50 || taken > 950 {
		t.Errorf("%d of 1000 were accepted: the changes are too mild or too hard to show anything", taken)
	}
}

func mapKeys(m map[string]string) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// words are what a hand may put where something else belongs.
var strayWords = []string{`""`, `"unknown"`, `"0mm"`, `"5m"`, `3`, `-1`, `true`, `"yes"`, `[]`, `{}`, `"all"`, `"whole"`, `2026-02-30`, `2019-01-01`, `"2026"`,
	`["mon", "mon"]`, `[{}]`, `"ß世\u0000"`, `1e400`, `"1,234mm"`, `{part = "end A"}`, `[[[]]]`, `"same"`, `"E-26-06"`}

func mutateLines(rnd *rand.Rand, lines []string) []string {
	i, j := rnd.IntN(len(lines)), rnd.IntN(len(lines))
	out := slices.Clone(lines)
	switch rnd.IntN(6) {
	case 0:
		return slices.Delete(out, i, i+1)
	case 1:
		return slices.Insert(out, j, out[i])
	case 2:
		out[i], out[j] = out[j], out[i]
	case 3, 4:
		if key, _, ok := strings.Cut(out[i], " = "); ok {
			out[i] = key + " = " + strayWords[rnd.IntN(len(strayWords))]
		}
	case 5:
		if n := len(out[i]); n > 0 {
			at := rnd.IntN(n)
			out[i] = out[i][:at] + string(rune(' '+rnd.IntN(95))) + out[i][at+1:]
		}
	}
	return out
}

// judged reads a record and checks what must be true of every answer.
func judged(t testing.TB, name string, b []byte, tb *table.Tables, read func(string, []byte, *table.Tables) (*kit.Record, doc.Faults)) *kit.Record {
	t.Helper()
	defer func() {
		if p := recover(); p != nil {
			t.Fatalf("%v\n%s", p, b)
		}
	}()
	r, faults := read(name, b, tb)
	if (r == nil) != (len(faults) > 0) {
		t.Fatalf("record %v, faults %v\n%s", r != nil, faults, b)
	}
	for i, f := range faults {
		if f.Line < 1 || f.Line > bytes.Count(b, []byte("\n"))+1 || f.What == "" || f.Mend == "" {
			t.Fatalf("a fault without place, sentence or mend: %+v\n%s", f, b)
		}
		if i > 0 && f.Line < faults[i-1].Line {
			t.Fatalf("faults out of order: %v\n%s", faults, b)
		}
	}
	return r
}

// The same with the values of JSON: taken out, doubled, exchanged.
func TestMutatedValues(t *testing.T) {
	const seed = 20260602
	tb := tables.Default()
	s := compiled(t, tb)
	rnd := rand.New(rand.NewPCG(seed, 2))
	all := examples(t)
	names := slices.Sorted(mapKeys(all))
	taken := 0
	for i := range 1000 {
		name := names[i%len(names)]
		var v any
		if err := json.Unmarshal(asJSON(t, all[name]), &v); err != nil {
			t.Fatal(err)
		}
		for range 1 + rnd.IntN(2) {
			v = mutateValue(rnd, v)
		}
		b, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		if r := judged(t, name, b, tb, DecodeJSON); r != nil {
			taken++
			holds(t, s, tb, name, r)
			if err := valid(s, b); err != nil {
				t.Fatalf("%s is accepted but not valid by the schema: %v\n%s", name, err, b)
			}
		}
	}
	if taken < 50 || taken > 950 {
		t.Errorf("%d of 1000 were accepted: the changes are too mild or too hard to show anything", taken)
	}
}

// mutateValue changes one thing somewhere below a value.
func mutateValue(rnd *rand.Rand, v any) any {
	stray := func() any {
		return []any{nil, true, 3.0, -0.5, 0.0, "", " ", "unknown", "yes", "all", "whole", "12mm", "2026-06-01", "2026", []any{}, map[string]any{}}[rnd.IntN(16)]
	}
	switch v := v.(type) {
	case map[string]any:
		keys := make([]string, 0, len(v))
		for k := range v {
			keys = append(keys, k)
		}
		if len(keys) == 0 {
			return stray()
		}
		slices.Sort(keys)
		k := keys[rnd.IntN(len(keys))]
		switch rnd.IntN(8) {
		case 0:
			delete(v, k)
		case 1:
			v[keys[rnd.IntN(len(keys))]] = v[k]
		case 2:
			v[k+"x"] = v[k]
		case 3:
			v[k] = stray()
		default:
			v[k] = mutateValue(rnd, v[k])
		}
		return v
	case []any:
		if len(v) == 0 {
			return []any{stray()}
		}
		i := rnd.IntN(len(v))
		switch rnd.IntN(6) {
		case 0:
			return slices.Delete(v, i, i+1)
		case 1:
			return append(v, v[i])
		default:
			v[i] = mutateValue(rnd, v[i])
		}
		return v
	case string:
		if rnd.IntN(2) == 0 && len(v) > 0 {
			i := rnd.IntN(len(v))
			return v[:i] + v[i+1:]
		}
	}
	return stray()
}

// Whatever the schema says is needed, DecodeJSON asks for: taken out of the
// example one by one, each is a fault.
func TestNeededIsNeeded(t *testing.T) {
	tb := fixture()
	var schema map[string]any
	if err := json.Unmarshal(Schema(tb), &schema); err != nil {
		t.Fatal(err)
	}
	defs := schema["$defs"].(map[string]any)
	var whole any
	if err := json.Unmarshal(asJSON(t, filled), &whole); err != nil {
		t.Fatal(err)
	}
	tried := 0
	var walk func(v any, s map[string]any, path string)
	walk = func(v any, s map[string]any, path string) {
		for ref, ok := s["$ref"].(string); ok; ref, ok = s["$ref"].(string) {
			s = defs[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any)
		}
		switch v := v.(type) {
		case map[string]any:
			needed, _ := s["required"].([]any)
			for _, k := range needed {
				k := k.(string)
				old, there := v[k]
				if !there {
					continue
				}
				delete(v, k)
				b, err := json.Marshal(whole)
				if err != nil {
					t.Fatal(err)
				}
				if r, faults := DecodeJSON("r.json", b, tb); r != nil || !slices.ContainsFunc(faults, func(f doc.Fault) bool { return f.What == "is missing" }) {
					t.Errorf("without %s.%s: %v", path, k, faults)
				}
				v[k] = old
				tried++
			}
			props, _ := s["properties"].(map[string]any)
			for k, x := range v {
				if p, ok := props[k].(map[string]any); ok {
					walk(x, p, path+"."+k)
				}
			}
		case []any:
			if items, ok := s["items"].(map[string]any); ok {
				for i, x := range v {
					walk(x, items, fmt.Sprintf("%s[%d]", path, i))
				}
			}
		}
	}
	walk(whole, schema, "")
	if tried < 60 {
		t.Errorf("only %d keys were tried", tried)
	}
}

func TestSizeIsLimited(t *testing.T) {
	for _, read := range []func(string, []byte, *table.Tables) (*kit.Record, doc.Faults){DecodeJSON, DecodeTOML} {
		_, faults := read("r", make([]byte, MaxSize+1), fixture())
		if len(faults) != 1 || faults[0].What != "is larger than 8 MB" {
			t.Errorf("%v", faults)
		}
	}
}

// By extension, and where that says nothing by the first byte.
func TestTOMLOrJSON(t *testing.T) {
	tb := fixture()
	typed := string(asJSON(t, filled))
	for _, c := range []struct {
		file, text string
		ok         bool
	}{
		{"r.toml", filled, true},
		{"r.TOML", filled, true},
		{"r.json", typed, true},
		{"r.json", filled, false},
		{"r.toml", typed, false},
		{"-", filled, true},
		{"-", "\n  " + typed, true},
		{"record", typed, true},
	} {
		if r, faults := Decode(c.file, []byte(c.text), tb); (r != nil) != c.ok {
			t.Errorf("%s beginning with %q: %v", c.file, c.text[:10], faults)
		}
	}
}

func TestNotATable(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{`[1]`, "r.json:1: is a list where a table is wanted — write it as a table"},
		{`{"format": null}`, "r.json:1: format: is null — leave the key out, or write \"unknown\" where that is taken"},
	} {
		_, faults := DecodeJSON("r.json", []byte(c.text), fixture())
		if !strings.Contains(faults.Error(), c.want) {
			t.Errorf("%s: got %s, want %s", c.text, faults.Error(), c.want)
		}
	}
}

func FuzzDecode(f *testing.F) {
	for _, text := range examples(f) {
		f.Add([]byte(text))
		f.Add(asJSON(f, text))
	}
	f.Add([]byte(filled))
	f.Add([]byte(`{"format":"kernbook record 1","piece":{"kind":"bridge"}}`))
	invented, standard := fixture(), tables.Default()
	si, ss := compiled(f, invented), compiled(f, standard)
	f.Fuzz(func(t *testing.T, b []byte) {
		if r := judged(t, "r", b, invented, Decode); r != nil {
			holds(t, si, invented, "r", r)
		}
		if r := judged(t, "r", b, standard, Decode); r != nil {
			holds(t, ss, standard, "r", r)
		}
	})
}
