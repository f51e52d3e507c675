package report

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// object is a JSON object with its keys in order.
type object []struct {
	key   string
	value any
}

func (o *object) put(key string, value any) {
	*o = append(*o, struct {
		key   string
		value any
	}{key, value})
}

func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(m.key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(m.value)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// schema makes the JSON Schema of a type from its tags.
type schema struct {
	t    *testing.T
	defs object
	done map[string]bool
}

func (s *schema) of(typ reflect.Type, is string) object {
	var o object
	switch typ.Kind() {
	case reflect.Pointer:
		return s.of(typ.Elem(), is)
	case reflect.Struct:
		name := strings.TrimSuffix(typ.Name(), "Doc")
		s.define(name, typ)
		o.put("$ref", "#/$defs/"+name)
	case reflect.Slice:
		o.put("type", "array")
		o.put("items", s.of(typ.Elem(), is))
	case reflect.Map:
		o.put("type", "object")
		o.put("additionalProperties", s.of(typ.Elem(), is))
	case reflect.Bool:
		o.put("type", "boolean")
	case reflect.Float64:
		o.put("type", "number")
		if is == "share" {
			o.put("minimum", 0)
		}
	case reflect.Int64:
		o.put("type", "integer")
		if is == "millionths" {
			o.put("minimum", 0)
			o.put("maximum", 1_000_000)
		}
	case reflect.String:
		s.words(&o, is)
	default:
		s.t.Fatalf("the shape has a %s", typ)
	}
	return o
}

// words says which texts a key takes.
func (s *schema) words(o *object, is string) {
	enum := func(words ...string) { o.put("enum", words) }
	verb, rest, _ := strings.Cut(is, "=")
	switch verb {
	case "const":
		o.put("const", rest)
	case "enum":
		enum(strings.Split(rest, "|")...)
	case "day":
		o.put("type", "string")
		o.put("pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$")
	case "hex":
		o.put("type", "string")
		o.put("pattern", "^[0-9a-f]{64}$")
	case "outcome":
		enum(kit.Keep.String(), kit.KeepSooner.String(), kit.SetAside.String(), kit.Withdraw.String())
	case "exam":
		enum(string(kit.PreUse), string(kit.Partner), string(kit.Interim), string(kit.Thorough))
	case "status":
		enum(string(table.Published), string(table.CommonPractice), string(table.FromMemory), string(table.Assumed))
	case "look":
		var looks []string
		for _, l := range kit.Looks {
			looks = append(looks, string(l))
		}
		enum(looks...)
	case "":
		o.put("type", "string")
	default:
		s.t.Fatalf("no schema for %q", is)
	}
}

// define adds a struct to the definitions.
func (s *schema) define(name string, typ reflect.Type) {
	if s.done[name] {
		return
	}
	s.done[name] = true
	at := len(s.defs)
	s.defs.put(name, nil)
	s.defs[at].value = s.object(typ, nil)
}

func (s *schema) object(typ reflect.Type, head object) object {
	var props object
	var required []string
	var fields func(typ reflect.Type)
	fields = func(typ reflect.Type) {
		for i := range typ.NumField() {
			f := typ.Field(i)
			if f.Anonymous {
				fields(f.Type)
				continue
			}
			key, opt, _ := strings.Cut(f.Tag.Get("json"), ",")
			doc := f.Tag.Get("doc")
			if key == "" || doc == "" {
				s.t.Errorf("%s.%s has no key or no word of what it holds", typ.Name(), f.Name)
			}
			if opt == "" {
				required = append(required, key)
			}
			p := s.of(f.Type, f.Tag.Get("is"))
			if f.Name == "Sentence" {
				p.put("minLength", 1)
			}
			p.put("description", doc)
			props.put(key, p)
		}
	}
	fields(typ)
	head.put("type", "object")
	head.put("required", required)
	head.put("properties", props)
	head.put("additionalProperties", false)
	return head
}

// TestSchemaIsOfTheShape: docs/outcome.schema.json is what the types say. Run
// with -update to write it anew.
func TestSchemaIsOfTheShape(t *testing.T) {
	s := &schema{t: t, done: map[string]bool{}}
	var head object
	head.put("$schema", "https://json-schema.org/draft/2020-12/schema")
	head.put("$id", "urn:kernbook:outcome:1")
	head.put("title", Format)
	head.put("description", "What the judgement of one record comes to. docs/outcome.md explains every key.")
	root := s.object(reflect.TypeFor[outcomeDoc](), head)
	root.put("$defs", s.defs)
	var want bytes.Buffer
	enc := json.NewEncoder(&want)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(root); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join("..", "..", "docs", "outcome.schema.json")
	if f := flag.Lookup("update"); f != nil && f.Value.String() == "true" {
		if err := os.WriteFile(path, want.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want.Bytes()) {
		t.Error("docs/outcome.schema.json is not what the types say: run the tests of this package with -update, and read what changed")
	}
}

// TestPageExplainsEveryKey: docs/outcome.md names every key of the shape.
func TestPageExplainsEveryKey(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("..", "..", "docs", "outcome.md"))
	if err != nil {
		t.Fatal(err)
	}
	seen, keys := map[reflect.Type]bool{}, 0
	var walk func(typ reflect.Type)
	walk = func(typ reflect.Type) {
		switch typ.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Map:
			walk(typ.Elem())
			return
		case reflect.Struct:
		default:
			return
		}
		if seen[typ] {
			return
		}
		seen[typ] = true
		for i := range typ.NumField() {
			f := typ.Field(i)
			walk(f.Type)
			if f.Anonymous {
				continue
			}
			key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			keys++
			if !bytes.Contains(page, []byte("`"+key+"`")) {
				t.Errorf("docs/outcome.md does not explain `%s` of %s", key, typ.Name())
			}
		}
	}
	walk(reflect.TypeFor[outcomeDoc]())
	if keys < 100 {
		t.Errorf("only %d keys were walked", keys)
	}
}
