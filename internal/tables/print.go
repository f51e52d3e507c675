package tables

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"kernbook/internal/core/table"
)

// assumedWord is what Print takes for the list of assumed rows.
const assumedWord = "assumed"

// Names gives what Print can be asked for: kinds, common files, "lines" and
// "assumed".
func Names(t *table.Tables) []string {
	var out []string
	for i := range t.Kinds {
		out = append(out, string(t.Kinds[i].ID))
	}
	slices.Sort(out)
	for _, p := range parts {
		out = append(out, p.name)
	}
	return append(out, assumedWord)
}

// Print writes the rows of a kind or a common file, each with its values, its
// standing, and its sources as the lines say them. An empty name writes all.
func Print(w io.Writer, t *table.Tables, what string) error {
	names := Names(t)
	if what != "" && !slices.Contains(names, what) {
		return fmt.Errorf("tables show: there is no table “%s”; write one of: %s", what, strings.Join(names, ", "))
	}
	p := &printer{w: w}
	rows := Rows(t)
	switch what {
	case "lines":
		rows = nil
	case assumedWord:
		rows = Assumed(t)
	case "":
	default:
		rows = slices.DeleteFunc(rows, func(r Row) bool { return r.Of != what })
	}
	for _, r := range rows {
		p.row(r)
	}
	if what == "" || what == "lines" {
		for i := range t.Lines {
			p.line(&t.Lines[i])
		}
		return p.err
	}
	p.sources(t, rows)
	return p.err
}

// printer keeps the first fault of writing.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) say(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, args...)
	}
}

func (p *printer) row(r Row) {
	source := strings.Join(r.Source, ", ")
	if source == "" {
		source = "no source"
	}
	p.say("%s %s %s: %s\n    %s; %s; %s; %s\n", r.Of, r.Sort, r.Name, r.Says, r.Status, source, r.Place, r.At())
}

func (p *printer) line(l *table.Line) {
	p.say("%s (%s) %s\n    %s, %s\n", l.ID, l.Mark, l.Says, l.Source, l.Place)
	if l.Note != "" {
		p.say("    %s\n", l.Note)
	}
}

// sources writes the lines that the rows name, each once, in the order of the
// file of lines.
func (p *printer) sources(t *table.Tables, rows []Row) {
	named := map[string]bool{}
	for _, r := range rows {
		for _, id := range r.Source {
			named[id] = true
		}
	}
	p.say("\nSources\n")
	for i := range t.Lines {
		if named[t.Lines[i].ID] {
			p.line(&t.Lines[i])
		}
	}
}

// Count is how many rows of a file have each standing; the figures of a sign
// count apart from the sign.
type Count struct {
	File                                           string
	Published, CommonPractice, FromMemory, Assumed int
}

// Rows gives the number of rows in all.
func (c Count) Rows() int { return c.Published + c.CommonPractice + c.FromMemory + c.Assumed }

func (c *Count) add(s table.Status) {
	switch s {
	case table.Published:
		c.Published++
	case table.CommonPractice:
		c.CommonPractice++
	case table.FromMemory:
		c.FromMemory++
	case table.Assumed:
		c.Assumed++
	}
}

// Counts gives the standing of the rows file by file, in the order of names.
func Counts(t *table.Tables) []Count {
	by := map[string]*Count{}
	add := func(file string, s table.Status) {
		if by[file] == nil {
			by[file] = &Count{File: file}
		}
		by[file].add(s)
	}
	for _, r := range Rows(t) {
		add(r.File, r.Status)
	}
	for i := range t.Lines {
		add(t.Lines[i].File, t.Lines[i].Status)
	}
	out := make([]Count, 0, len(by))
	for _, c := range by {
		out = append(out, *c)
	}
	slices.SortFunc(out, func(a, b Count) int { return strings.Compare(a.File, b.File) })
	return out
}

// Check writes what kernbook tables check shows of tables that have loaded: the
// standing of their rows file by file, the sum, and their version.
func Check(w io.Writer, t *table.Tables) error {
	p := &printer{w: w}
	format := "%-28s %9v %15v %11v %8v %6v\n"
	p.say(format, "file", "published", "common practice", "from memory", "assumed", "all")
	sum := Count{File: "all"}
	for _, c := range append(Counts(t), Count{}) {
		if c.File == "" {
			c = sum
		} else {
			sum.Published += c.Published
			sum.CommonPractice += c.CommonPractice
			sum.FromMemory += c.FromMemory
			sum.Assumed += c.Assumed
		}
		p.say(format, c.File, c.Published, c.CommonPractice, c.FromMemory, c.Assumed, c.Rows())
	}
	p.say("version %s\n", t.Version)
	return p.err
}
