package record

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	"kernbook/internal/tables"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with a file, or writes it with -update.
func golden(t *testing.T, file string, got []byte) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, got) {
		t.Errorf("%s is stale (-want +got); look at the difference, then: go test ./internal/record -update\n%s", file, cmp.Diff(string(want), string(got)))
	}
}

func compiled(t testing.TB, tb *table.Tables) *jsonschema.Schema {
	t.Helper()
	s, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema(tb)))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("urn:kernbook:record:1", s); err != nil {
		t.Fatal(err)
	}
	out, err := c.Compile("urn:kernbook:record:1")
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// valid holds a record that DecodeJSON accepted against the schema.
func valid(s *jsonschema.Schema, b []byte) error {
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		return err
	}
	return s.Validate(v)
}

// plainValue turns a tree read from TOML into values that encoding/json writes.
func plainValue(n *doc.Node) any {
	switch n.Kind {
	case doc.Table:
		m := map[string]any{}
		for k, v := range n.Fields {
			m[k] = plainValue(v)
		}
		return m
	case doc.Array:
		l := make([]any, len(n.Items))
		for i, v := range n.Items {
			l[i] = plainValue(v)
		}
		return l
	case doc.Integer:
		return n.Int
	case doc.Float:
		return n.Float
	case doc.Bool:
		return n.Bool
	}
	return n.Text
}

// asJSON writes a TOML record as JSON, in the very forms in which it was typed.
func asJSON(t testing.TB, toml string) []byte {
	t.Helper()
	root, faults := doc.ParseTOML("r.toml", []byte(toml))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(plainValue(root))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestSchemaFile(t *testing.T) {
	golden(t, "../../docs/record.schema.json", Schema(tables.Default()))
	compiled(t, tables.Default())
}

func TestSchemaTakesTheFilled(t *testing.T) {
	tb := fixture()
	s := compiled(t, tb)
	typed := asJSON(t, filled)
	r, faults := DecodeJSON("r.json", typed, tb)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	for _, b := range [][]byte{typed, Encode(r)} {
		if err := valid(s, b); err != nil {
			t.Errorf("%v", err)
		}
	}
}

func TestSchemaTakesEveryRecord(t *testing.T) {
	tb := fixture()
	s := compiled(t, tb)
	rapid.Check(t, func(t *rapid.T) {
		b := Encode(anyRecord(t, tb))
		if err := valid(s, b); err != nil {
			t.Fatalf("%v\n%s", err, b)
		}
	})
}

// The schema refuses on its own what one value shows to be wrong.
func TestSchemaRefuses(t *testing.T) {
	s := compiled(t, fixture())
	for _, c := range []struct{ old, new string }{
		{`format = "kernbook record 1"`, `format = "kernbook record 2"`},
		{`country = "GB"`, `country = "UK"`},
		{`id = "B7"`, `idd = "B7"`},
		{`id = "B7"`, ``},
		{`kind = "bridge"`, `kind = "brige"`},
		{`kind = "bridge"`, `kind = "connector"`},
		{`length = "90cm"`, `length = 900`},
		{`length = "90cm"`, `length = "90"`},
		{`length = "90cm"`, ``},
		{"[piece.fitted]\nin = \"H2\"\nallowed = \"yes\"\ndocument = \"leaflet 2\"\n", ``},
		{`made = "2025-01"`, `made = "1/2/2025"`},
		{`made = "2025-01"`, `made = 25`},
		{`hand = {share = "35%", from = "practice board 2026-03"}`, `hands = {share = "35%", from = "x"}`},
		{`share = 0.4`, `share = 4`},
		{`week = "25h"`, `week = 25`},
		{`weekdays = ["mon", "wed"]` + "\nmass", `weekdays = ["mon", "mon"]` + "\nmass"},
		{`look = [{look = "eye", covers = "all"}]`, `look = [{look = "eye"}]`},
		{`sign = "grey"`, `sign = "gate-stuck"`},
		{`sign = "grey"`, ``},
		{`ref = "g1"` + "\n" + `state = "same"`, `state = "same"`},
		{`at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`, `at = {from = "300mm"}`},
		{`at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`, `at = {at = "300mm", part = "end A"}`},
		{`spill = "not known"`, `spil = "no"`},
		{`quantity = "diameter"`, `quantity = "groove"`},
		{`values = ["11.2mm", "11.3mm"]`, `values = []`},
		{`day = 2026-01-15`, `day = "2026-01"`},
		{`kind = "partner"`, `kind = "thorough"`},
		{`looks = ["eye", "hand"]`, ``},
		{`verified = "laboratory"`, `verified = " "`},
	} {
		if strings.Count(filled, c.old) != 1 {
			t.Fatalf("%q is not there once", c.old)
		}
		if err := valid(s, asJSON(t, strings.Replace(filled, c.old, c.new, 1))); err == nil {
			t.Errorf("%q for %q is valid by the schema", c.new, c.old)
		}
	}
}

// The keys of the schema are those that Decode knows, table by table: a key
// that nobody knows is put into each table of the filled record, and the fault
// says which are known there.
func TestSchemaKeysAreThoseOfDecode(t *testing.T) {
	tb := fixture()
	var all map[string]any
	if err := json.Unmarshal(Schema(tb), &all); err != nil {
		t.Fatal(err)
	}
	defs := all["$defs"].(map[string]any)
	resolve := func(s map[string]any) map[string]any {
		for {
			ref, ok := s["$ref"].(string)
			if !ok {
				return s
			}
			s = defs[strings.TrimPrefix(ref, "#/$defs/")].(map[string]any)
		}
	}
	root, _ := doc.ParseTOML("r.toml", []byte(filled))
	loose := regexp.MustCompile(`(at|covers\[\d+\]|kappa)$`)
	checked := 0
	var walk func(n *doc.Node, s map[string]any, path string)
	walk = func(n *doc.Node, s map[string]any, path string) {
		s = resolve(s)
		for _, o := range anys(s["anyOf"]) {
			o = resolve(o)
			if n.Kind == doc.Array && o["type"] == "array" || n.Kind == doc.Table && fits(n, o) {
				walk(n, o, path)
				return
			}
		}
		if n.Kind == doc.Array {
			items, _ := s["items"].(map[string]any)
			for i, it := range n.Items {
				walk(it, items, fmt.Sprintf("%s[%d]", path, i))
			}
			return
		}
		props, ok := s["properties"].(map[string]any)
		if n.Kind != doc.Table || !ok {
			return
		}
		n.Keys, n.Fields["zzzz"] = append(n.Keys, "zzzz"), &doc.Node{Kind: doc.Bool, Key: "zzzz", Line: 1, Col: 1}
		_, faults := decode("r.toml", root, nil, tb)
		n.Keys = n.Keys[:len(n.Keys)-1]
		delete(n.Fields, "zzzz")
		field := strings.TrimPrefix(path+".zzzz", ".")
		i := slices.IndexFunc(faults, func(f doc.Fault) bool { return f.Field == field })
		if i < 0 {
			t.Errorf("%s: an unknown key is no fault", field)
			return
		}
		_, says, _ := strings.Cut(faults[i].Mend, "the keys here are ")
		known := strings.FieldsFunc(says, func(r rune) bool { return r == '“' || r == '”' })
		known = slices.DeleteFunc(known, func(s string) bool { return s == ", " || s == " or " })
		// Of the ways to tell a place the schema shows one at a time, and the keys of
		// kappa are names.
		if !loose.MatchString(path) {
			checked++
			keys := slices.Sorted(maps.Keys(props))
			slices.Sort(known)
			if diff := cmp.Diff(keys, known); diff != "" {
				t.Errorf("%s (-schema +Decode):\n%s", path, diff)
			}
		}
		for k, v := range n.Fields {
			if p, ok := props[k].(map[string]any); ok {
				walk(v, p, strings.TrimPrefix(path+"."+k, "."))
			}
		}
	}
	walk(root, all, "")
	if checked < 30 {
		t.Errorf("only %d tables were compared", checked)
	}
}

func anys(v any) (out []map[string]any) {
	l, _ := v.([]any)
	for _, x := range l {
		if m, ok := x.(map[string]any); ok {
			out = append(out, m)
		}
	}
	return out
}

// fits reports whether a schema of a table knows every key of a node.
func fits(n *doc.Node, s map[string]any) bool {
	props, ok := s["properties"].(map[string]any)
	for _, k := range n.Keys {
		if props[k] == nil {
			ok = false
		}
	}
	return ok
}

// The words under which an answer can speak of a question are those of package
// criteria, all of them.
func TestQuestionsAreThoseOfTheCriteria(t *testing.T) {
	f, err := parser.ParseFile(token.NewFileSet(), "../core/criteria/reason.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var want []string
	for _, d := range f.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST {
			continue
		}
		for _, s := range g.Specs {
			v := s.(*ast.ValueSpec)
			if strings.HasPrefix(v.Names[0].Name, "Q") {
				want = append(want, strings.Trim(v.Values[0].(*ast.BasicLit).Value, `"`))
			}
		}
	}
	if len(want) == 0 {
		t.Fatal("no question found")
	}
	got := slices.Clone(questions)
	slices.Sort(got)
	slices.Sort(want)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-criteria +record):\n%s", diff)
	}
}
