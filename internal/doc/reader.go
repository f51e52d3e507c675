package doc

import "slices"

// Whether a getter faults a key that is not there.
const (
	Optional = false
	Required = true
)

// Reader decodes a tree and gathers every fault. It remembers which keys were
// asked for, so that the others can be reported as unknown.
type Reader struct {
	file   string
	root   *Node
	faults Faults
	asked  map[*Node]*asked
	order  []T             // every table given out, in order
	failed map[string]bool // paths that have a fault
}

// asked are the keys of a table that were asked for, in order. They are few.
type asked struct {
	keys []string
	done bool // what was not asked for has been reported
}

// NewReader reads the tree of a file. root may be nil, as after a fault of
// syntax; then every getter gives its zero value and no further fault.
func NewReader(file string, root *Node) *Reader {
	return &Reader{file: file, root: root, asked: map[*Node]*asked{}, failed: map[string]bool{}}
}

// Root gives the cursor on the root table.
func (r *Reader) Root() T { return r.Table(r.root) }

// Table gives the cursor on a table that has no path of its own (the root).
func (r *Reader) Table(n *Node) T { return r.cursor(n, "") }

func (r *Reader) cursor(n *Node, path string) T {
	if n == nil || n.Kind == Bad {
		return T{r: r}
	}
	t := T{r: r, n: n, path: path}
	if n.Kind != Table {
		t.n = nil
		t.fault(n, path, "is "+found(n)+" where a table is wanted", "write it as a table")
		return t
	}
	if r.asked[n] == nil {
		r.asked[n] = &asked{keys: make([]string, 0, len(n.Keys)+4)}
		r.order = append(r.order, t)
	}
	return t
}

// Faults closes every table that was given out (see T.Done) and gives all
// faults in the order of their place.
func (r *Reader) Faults() Faults {
	for _, t := range r.order {
		t.Done()
	}
	r.faults.Sort()
	return r.faults
}

// T is a cursor on one table. The zero table (a key that is absent, or no
// table) answers every question with the zero value and never faults: its
// absence is reported once, where it was required. After any fault a getter
// gives the zero value.
type T struct {
	r    *Reader
	n    *Node
	path string
}

// Present reports whether there is a table under the cursor.
func (t T) Present() bool { return t.n != nil }

// Path gives the dotted path of the table, "" for the root.
func (t T) Path() string { return t.path }

// Pos gives the line and column of the table, 0 and 0 when it is absent.
func (t T) Pos() (line, col int) {
	if t.n == nil {
		return 0, 0
	}
	return t.n.Line, t.n.Col
}

// Keys gives the keys of the table in the order of the file, for tables whose
// keys are names. It does not count as asking for them.
func (t T) Keys() []string {
	if t.n == nil {
		return nil
	}
	return t.n.Keys
}

// Has reports whether the table has the key, and counts as asking for it.
func (t T) Has(key string) bool { return t.ask(key) != nil }

// Fault reports a fault of meaning at the key's place, or at the table's when
// the key is absent or "". Where a getter has already faulted the key, or the
// table is absent, it says nothing: the zero value it speaks of is not what
// stands in the file.
func (t T) Fault(key, what, mend string) {
	if t.n == nil {
		return
	}
	at, path := t.n, t.path
	if key != "" {
		path = join(path, key)
		if n := t.n.Fields[key]; n != nil {
			at = n
		}
	}
	if at.Kind == Bad || t.r.failed[path] {
		return
	}
	t.r.report(at, path, what, mend)
}

// Done reports every key that was not asked for as unknown. Reader.Faults does
// it for every table that was given out; doing it twice reports nothing twice.
func (t T) Done() {
	if t.n == nil {
		return
	}
	asked := t.r.asked[t.n]
	if asked.done {
		return
	}
	asked.done = true
	for _, key := range t.n.Keys {
		if slices.Contains(asked.keys, key) {
			continue
		}
		what, mend := "unknown key “"+key+"”", "take it out"
		if w, ok := nearest(key, asked.keys); ok {
			what, mend = what+"; did you mean “"+w+"”?", "correct the key, or take it out"
		} else if len(asked.keys) > 0 {
			mend += "; the keys here are " + List(asked.keys)
		}
		t.fault(t.n.Fields[key], join(t.path, key), what, mend)
	}
}

// ask notes that the key is known, and gives its node or nil.
func (t T) ask(key string) *Node {
	if t.n == nil {
		return nil
	}
	if a := t.r.asked[t.n]; !slices.Contains(a.keys, key) {
		a.keys = append(a.keys, key)
	}
	return t.n.Fields[key]
}

// get asks for a key and wants one of the kinds given. It gives nil when there
// is nothing to read, after reporting what there is to report.
func (t T) get(key string, required bool, want, mend string, kinds ...Kind) *Node {
	n := t.ask(key)
	if n == nil {
		if required && t.n != nil {
			t.fault(t.n, join(t.path, key), "is missing", "add it: "+mend)
		}
		return nil
	}
	if n.Kind == Bad {
		return nil
	}
	for _, k := range kinds {
		if n.Kind == k {
			return n
		}
	}
	t.fault(n, join(t.path, key), "is "+found(n)+" where "+want+" is wanted", mend)
	return nil
}

// fault reports a value that a getter could not take, once however often it is
// asked for.
func (t T) fault(at *Node, path, what, mend string) {
	if t.r.failed[path] {
		return
	}
	t.r.failed[path] = true
	t.r.report(at, path, what, mend)
}

func (r *Reader) report(at *Node, path, what, mend string) {
	r.faults = append(r.faults, Fault{File: r.file, Line: at.Line, Col: at.Col, Field: path, What: what, Mend: mend})
}

// found names what stands in the file.
func found(n *Node) string {
	switch n.Kind {
	case Integer, Float, Bool, Date:
		return n.Kind.String() + " (" + n.Text + ")"
	case String:
		return n.Kind.String() + " (“" + Short(n.Text) + "”)"
	}
	return n.Kind.String()
}

// Short cuts a text of a file to what a fault can show of it.
func Short(s string) string {
	const longest = 40
	if r := []rune(s); len(r) > longest {
		return string(r[:longest]) + "…"
	}
	return s
}

// List writes words as “a”, “b” or “c”.
func List(words []string) string {
	s := ""
	for i, w := range words {
		switch {
		case i == 0:
		case i == len(words)-1:
			s += " or "
		default:
			s += ", "
		}
		s += "“" + w + "”"
	}
	return s
}
