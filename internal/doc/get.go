package doc

import (
	"regexp"
	"slices"
)

// Str reads a text. An empty one, or one of spaces only, is a fault.
func (t T) Str(key string, required bool) string {
	n := t.get(key, required, "a text", "write a text in double quotes", String)
	if n == nil {
		return ""
	}
	if blank(n.Text) {
		t.fault(n, join(t.path, key), "is an empty text", "write something, or leave the key out")
		return ""
	}
	return n.Text
}

// Int reads a whole number.
func (t T) Int(key string, required bool) int64 {
	n := t.get(key, required, "a whole number", "write a number without decimals and without quotes, such as 12", Integer)
	if n == nil {
		return 0
	}
	return n.Int
}

// Float reads any number.
func (t T) Float(key string, required bool) float64 {
	n := t.get(key, required, "a number", "write a number without quotes, such as 1.5", Integer, Float)
	if n == nil {
		return 0
	}
	return n.Float
}

// Bool reads true or false.
func (t T) Bool(key string, required bool) bool {
	n := t.get(key, required, "true or false", "write true or false, without quotes", Bool)
	return n != nil && n.Bool
}

// OneOf reads a text that must be one of the allowed words.
func (t T) OneOf(key string, required bool, allowed ...string) string {
	if n := t.ask(key); n != nil && n.Kind == String && slices.Contains(allowed, n.Text) {
		return n.Text // as a rule; what the words are is put together only for a fault
	}
	n := t.get(key, required, "a word", "write one of "+List(allowed), String)
	if n == nil {
		return ""
	}
	what := "“" + Short(n.Text) + "” is not a word taken here"
	if w, ok := nearest(n.Text, allowed); ok {
		what += "; did you mean “" + w + "”?"
	}
	t.fault(n, join(t.path, key), what, "write one of "+List(allowed))
	return ""
}

// Sub gives the cursor on the table under the key; see T for an absent one.
func (t T) Sub(key string, required bool) T {
	path := join(t.path, key)
	n := t.get(key, required, "a table", "write a table "+header(path, "[", "]"), Table)
	if n == nil {
		return T{r: t.r, path: path}
	}
	return t.r.cursor(n, path)
}

// List gives cursors on the tables of a list, in order. Required means that
// there is the key and at least one table.
func (t T) List(key string, required bool) []T {
	path := join(t.path, key)
	n := t.items(key, required, "a list of tables", "write each as "+header(path, "[[", "]]")+", in double brackets")
	if n == nil {
		return nil
	}
	out := make([]T, len(n.Items))
	for i, it := range n.Items {
		out[i] = t.r.cursor(it, index(path, i))
	}
	return out
}

// header gives the line that begins a table in TOML: its path without the places
// in lists.
func header(path, open, end string) string {
	return open + inList.ReplaceAllString(path, "") + end
}

var inList = regexp.MustCompile(`\[\d+\]`)

// Strings gives the texts of a list, in order; items that are no text, or an
// empty one, are faults and left out. Required means at least one.
func (t T) Strings(key string, required bool) []string {
	return each(t, key, required, "a text", String, func(n *Node) (string, string, string) {
		if blank(n.Text) {
			return "", "is an empty text", "write something, or take it out"
		}
		return n.Text, "", ""
	})
}

// Floats gives the numbers of a list, in order; items that are no number are
// faults and left out. Required means at least one.
func (t T) Floats(key string, required bool) []float64 {
	return each(t, key, required, "a number", Float, func(n *Node) (float64, string, string) {
		return n.Float, "", ""
	})
}

// items asks for a list; an empty one is a fault where it is required.
func (t T) items(key string, required bool, want, mend string) *Node {
	n := t.get(key, required, want, mend, Array)
	if n != nil && required && len(n.Items) == 0 {
		t.fault(n, join(t.path, key), "is an empty list", mend)
		return nil
	}
	return n
}

// each reads a list of like values. A whole number passes where a Float is wanted.
func each[V any](t T, key string, required bool, want string, kind Kind, read func(*Node) (v V, what, mend string)) []V {
	n := t.items(key, required, "a list", "write a list in square brackets, each item "+want)
	if n == nil {
		return nil
	}
	var out []V
	for i, it := range n.Items {
		path := index(join(t.path, key), i)
		switch {
		case it.Kind == Bad:
		case it.Kind != kind && !(kind == Float && it.Kind == Integer):
			t.fault(it, path, "is "+found(it)+" where "+want+" is wanted", "write "+want+" there, or take it out")
		default:
			v, what, mend := read(it)
			if what != "" {
				t.fault(it, path, what, mend)
				continue
			}
			out = append(out, v)
		}
	}
	return out
}

func blank(s string) bool {
	for _, r := range s {
		if r != ' ' && r != '\t' && r != '\n' && r != '\r' && r != '\u00a0' {
			return false
		}
	}
	return true
}
