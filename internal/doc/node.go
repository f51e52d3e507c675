// Package doc reads TOML and JSON into one tree in which every value knows its
// line and column, and decodes that tree strictly: unknown keys, wrong types,
// missing units and unknown words are faults, each with file, line, field, what
// is wrong and how to mend it, and all faults of a file are found in one go.
//
// A caller parses with ParseTOML or ParseJSON, wraps the root in a Reader, asks
// for what it knows, and then takes the faults of both together.
package doc

// Kind is the kind of a value.
type Kind uint8

// The kinds of values. Bad is a value that could not be read and has been
// reported; a Reader treats it as present and says no more about it.
const (
	Bad     Kind = iota
	Table        // a TOML table or a JSON object
	Array        // a list
	String       // a text
	Integer      // a number written without point and exponent
	Float        // any other number; never infinite, never "not a number"
	Bool         // true or false
	Date         // a TOML local date; Text holds it as written
)

// String names the kind as a fault says it.
func (k Kind) String() string {
	switch k {
	case Table:
		return "a table"
	case Array:
		return "a list"
	case String:
		return "a text"
	case Integer:
		return "a whole number"
	case Float:
		return "a number with decimals"
	case Bool:
		return "true or false"
	case Date:
		return "a date"
	}
	return "an unreadable value"
}

// Node is one value of a document. Line and Col count from 1, columns in
// characters; they are those of the key, and of the value itself where it has
// no key (items of a list, the root).
type Node struct {
	Kind      Kind
	Line, Col int
	Key       string           // the last part of the key, "" for items and the root
	Keys      []string         // Table: keys in the order of the file
	Fields    map[string]*Node // Table: values by key
	Items     []*Node          // Array: values in order
	Text      string           // String: its value; numbers, Bool and Date: as written
	Int       int64            // Integer
	Float     float64          // Float, and the nearest to Int for Integer
	Bool      bool             // Bool
}

// depthLimit is how deep tables and lists may lie inside each other.
const depthLimit = 64

func newTable(key string, line, col int) *Node {
	return &Node{Kind: Table, Key: key, Line: line, Col: col, Fields: map[string]*Node{}}
}

// add puts a value into a table under its key, which must be free.
func (n *Node) add(v *Node) {
	n.Keys = append(n.Keys, v.Key)
	n.Fields[v.Key] = v
}
