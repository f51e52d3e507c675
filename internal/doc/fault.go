package doc

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
)

// Fault is one thing wrong with a file: where, what, and how to mend it.
type Fault struct {
	File      string
	Line, Col int    // from 1; 0 when the place is not known
	Field     string // dotted path such as history[2].looks[0].covers; "" for the file itself
	What      string // what is wrong
	Mend      string // how to mend it
}

// Error gives "record.toml:12: history[2].looks[0].covers: what — mend".
func (f Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		b.WriteString(":" + strconv.Itoa(f.Line))
	}
	b.WriteString(": ")
	if f.Field != "" {
		b.WriteString(f.Field + ": ")
	}
	b.WriteString(f.What)
	if f.Mend != "" {
		b.WriteString(" — " + Straight(f.Mend))
	}
	return b.String()
}

// Straight puts what is to be written into the quotes that a file takes, so that
// it can be copied from a message as it stands.
func Straight(mend string) string { return straight.Replace(mend) }

var straight = strings.NewReplacer("“", `"`, "”", `"`)

// Faults are all faults of one or more files.
type Faults []Fault

// Error gives one fault a line.
func (fs Faults) Error() string {
	lines := make([]string, len(fs))
	for i, f := range fs {
		lines[i] = f.Error()
	}
	return strings.Join(lines, "\n")
}

// Err gives the faults as an error, or nil when there are none.
func (fs Faults) Err() error {
	if len(fs) == 0 {
		return nil
	}
	return fs
}

// Sort puts the faults in the order of their place, file by file; faults at one
// place keep the order in which they were found.
func (fs Faults) Sort() {
	slices.SortStableFunc(fs, func(a, b Fault) int {
		return cmp.Or(strings.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
}

// join adds a key to a dotted path, in quotes where it is no bare word.
func join(path, key string) string {
	bare := key != ""
	for i := 0; i < len(key); i++ {
		c := key[i]
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_') {
			bare = false
		}
	}
	if !bare {
		key = strconv.Quote(key)
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

func index(path string, i int) string { return path + "[" + strconv.Itoa(i) + "]" }
