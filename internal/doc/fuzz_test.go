package doc

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/pelletier/go-toml/v2"
)

// plain turns a tree into the values that other decoders give.
func plain(n *Node) any {
	switch n.Kind {
	case Table:
		m := map[string]any{}
		for k, v := range n.Fields {
			m[k] = plain(v)
		}
		return m
	case Array:
		l := []any{}
		for _, v := range n.Items {
			l = append(l, plain(v))
		}
		return l
	case Integer:
		return n.Int
	case Float:
		return n.Float
	case Bool:
		return n.Bool
	}
	return n.Text
}

// checkTree holds what every tree promises.
func checkTree(t *testing.T, n *Node, lines, depth int) {
	t.Helper()
	if n.Line < 1 || n.Line > lines || n.Col < 1 || depth > depthLimit+1 {
		t.Fatalf("a value at %d:%d of %d lines, depth %d", n.Line, n.Col, lines, depth)
	}
	if len(n.Keys) != len(n.Fields) {
		t.Fatalf("%d keys, %d fields", len(n.Keys), len(n.Fields))
	}
	for _, k := range n.Keys {
		if n.Fields[k].Key != k {
			t.Fatalf("%q under %q", n.Fields[k].Key, k)
		}
		checkTree(t, n.Fields[k], lines, depth+1)
	}
	for _, it := range n.Items {
		checkTree(t, it, lines, depth+1)
	}
}

func checkFaults(t *testing.T, root *Node, faults Faults) {
	t.Helper()
	if root == nil && len(faults) == 0 {
		t.Fatal("neither a tree nor a fault")
	}
	for _, f := range faults {
		if f.Line < 1 || f.Col < 1 || f.What == "" || f.Mend == "" {
			t.Fatalf("an incomplete fault: %+v", f)
		}
	}
}

// FuzzParseTOML: what is taken without a fault is taken by a full decoder too,
// with the same values.
func FuzzParseTOML(f *testing.F) {
	for _, s := range []string{
		"a = 1\n[b]\nc = \"58cm\" # x\n[[d]]\ne = [1, 2.5, {f = true}]\n[[d]]\n", "x.y.z = 2026-06-01\n", "a = 58cm\nb = 1\n",
		"a = \"\"\"\nx\n\"\"\"\nb = '''y'''\n", "[a.b]\n[a]\nb.c = 1\n", "a = {b.c = 1, b.d = 2}\n", "\ufeffa=1", "a = [\n1,\n2\n", "\xff",
		"a = inf\nb = 10:00:00\n[a]\n", "a = 0x1F\nb = 1_0e2\n", "[a]\n[a]\nx=1\nx=1\n", "\"\" = 1\n'' = 2\n", "a.b = 1\n[a.c]\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		root, faults := ParseTOML("f", b)
		checkFaults(t, root, faults)
		if root != nil {
			checkTree(t, root, bytes.Count(b, []byte{'\n'})+1, 0)
			NewReader("f", root).Root().Done()
		}
		if len(faults) > 0 {
			return
		}
		var other map[string]any
		if err := toml.Unmarshal(bytes.TrimPrefix(b, []byte("\ufeff")), &other); err != nil {
			t.Fatalf("taken, but not TOML: %v\n%q", err, b)
		}
		if d := cmp.Diff(dates(other), plain(root)); d != "" {
			t.Fatalf("%q\n%s", b, d)
		}
	})
}

// dates turns the decoder's dates into text.
func dates(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = dates(v[k])
		}
	case []any:
		for i := range v {
			v[i] = dates(v[i])
		}
	case toml.LocalDate:
		return v.AsTime(time.UTC).Format("2006-01-02")
	}
	return v
}

// FuzzParseJSON: what is taken is valid JSON, with the same values; what is
// valid JSON is refused only for the reasons ParseJSON names.
func FuzzParseJSON(f *testing.F) {
	for _, s := range []string{
		`{"a": 1, "b": ["58cm", -2.5e3, true, {"c": {}}], "d": []}`, `{"a":1,"a":2}`, `null`, `"\ud83d\ude00"`, `"\ud800"`, `[1e999]`, `007`,
		`{} x`, "\xff", "\ufeff{}", `[[[[`, `"\u12`, "9223372036854775808", "-0", "[-0.0]", " \n1\t",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		root, faults := ParseJSON("f", b)
		checkFaults(t, root, faults)
		if root != nil {
			checkTree(t, root, bytes.Count(b, []byte{'\n'})+1, 0)
			if !json.Valid(b) {
				t.Fatalf("a tree from what is not JSON: %q", b)
			}
			NewReader("f", root).Root().Done()
		}
		if len(faults) > 0 {
			if json.Valid(b) && root == nil && !known(faults[0].What) {
				t.Fatalf("valid JSON refused: %q: %v", b, faults)
			}
			return
		}
		d := json.NewDecoder(bytes.NewReader(b))
		d.UseNumber()
		var other any
		if err := d.Decode(&other); err != nil {
			t.Fatalf("taken, but not JSON: %v\n%q", err, b)
		}
		if d := cmp.Diff(numbers(other), plain(root)); d != "" {
			t.Fatalf("%q\n%s", b, d)
		}
	})
}

// known are the faults for which valid JSON gives no tree at all.
func known(what string) bool {
	return strings.Contains(what, "not UTF-8") || strings.Contains(what, "nested more than") ||
		strings.Contains(what, "a backslash is followed by") // half a surrogate pair
}

func numbers(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = numbers(v[k])
		}
	case []any:
		for i := range v {
			v[i] = numbers(v[i])
		}
	case json.Number:
		if i, err := v.Int64(); err == nil {
			return i
		}
		x, err := v.Float64()
		if err != nil {
			return err
		}
		return x
	}
	return v
}
