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
// standing of their rows file by file, the sum, their version, and what is
// assumed: by file and sort of row with the names of the rows, or, with every
// set, each row with its values.
func Check(w io.Writer, t *table.Tables, every bool) error {
	p := &printer{w: w}
	format := "%-28s %9v %15v %11v %8v %6v\n"
	p.say(format, "file", "published", "common practice", "from memory", "assumed", "all")
	counts, sum := Counts(t), Count{File: "all"}
	for _, c := range append(counts, Count{}) {
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
	p.say("\nAssumed: %d rows, chosen by this project\n", sum.Assumed)
	rows := Assumed(t)
	for _, c := range counts {
		if c.Assumed == 0 {
			continue
		}
		p.say("\n%s: %d of %d\n", c.File, c.Assumed, c.Rows())
		if every {
			for _, r := range rows {
				if r.File == c.File {
					p.row(r)
				}
			}
		} else {
			p.sorts(rows, c.File)
		}
		p.assumedLines(t, c.File, every)
	}
	if !every {
		p.say("\nkernbook tables check --all prints each with its values, kernbook tables show NAME a whole table with its sources.\n")
	}
	return p.err
}

// sorts writes the assumed rows of a file by their sort, with their number and
// names.
func (p *printer) sorts(rows []Row, file string) {
	var order []string
	names := map[string][]string{}
	for _, r := range rows {
		if r.File != file {
			continue
		}
		if names[r.Sort] == nil {
			order = append(order, r.Sort)
		}
		names[r.Sort] = append(names[r.Sort], r.Name)
	}
	for _, sort := range order {
		p.wrapped(fmt.Sprintf("  %d %s: ", len(names[sort]), sort), once(names[sort]), "; ")
	}
}

// once gives each name once, in order, with how often it was there.
func once(names []string) []string {
	var out []string
	times := map[string]int{}
	for _, n := range names {
		if times[n]++; times[n] == 1 {
			out = append(out, n)
		}
	}
	for i, n := range out {
		if times[n] > 1 {
			out[i] = fmt.Sprintf("%s (%d)", n, times[n])
		}
	}
	return out
}

// assumedLines writes the assumed statements of the file of lines.
func (p *printer) assumedLines(t *table.Tables, file string, every bool) {
	var ids []string
	for i := range t.Lines {
		l := &t.Lines[i]
		if l.File != file || l.Status != table.Assumed {
			continue
		}
		ids = append(ids, l.ID)
		if every {
			p.line(l)
		}
	}
	if !every && len(ids) > 0 {
		p.wrapped(fmt.Sprintf("  %d line: ", len(ids)), ids, ", ")
	}
}

// wide is how many letters a wrapped line has at most.
const wide = 100

// wrapped writes a list behind a first part, broken into lines between entries.
func (p *printer) wrapped(first string, list []string, between string) {
	line := first
	for i, s := range list {
		if i < len(list)-1 {
			s += between
		}
		if len([]rune(line+strings.TrimRight(s, " "))) > wide && strings.TrimSpace(line) != "" && line != first {
			p.say("%s\n", strings.TrimRight(line, " "))
			line = "      "
		}
		line += s
	}
	p.say("%s\n", line)
}
