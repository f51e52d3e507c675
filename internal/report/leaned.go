package report

import (
	"path"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// sum is what a group of the rows leaned on comes to: rows, and values by
// their standing.
type sum struct {
	group    string
	rows     int
	values   int
	standing [4]int   // values, in the order of standings
	tables   []string // the tables they stand in, as kernbook tables show takes them
}

var standings = [...]table.Status{table.Published, table.CommonPractice, table.FromMemory, table.Assumed}

func (s *sum) add(l *decide.Leaned) {
	s.rows++
	s.values += len(l.Values)
	for i, st := range standings {
		if l.Status == st {
			s.standing[i] += len(l.Values)
		}
	}
	if name := tableOf(l.File); !slices.Contains(s.tables, name) {
		s.tables = append(s.tables, name)
	}
}

// tableOf gives the name under which kernbook tables show prints a file.
func tableOf(file string) string { return strings.TrimSuffix(path.Base(file), ".toml") }

// sums gives the sum of every group that has rows, in the order of the groups.
func sums(rows []decide.Leaned) []sum {
	var out []sum
	for _, group := range decide.Groups {
		s := sum{group: group}
		for i := range rows {
			if rows[i].Group == group {
				s.add(&rows[i])
			}
		}
		if s.rows > 0 {
			out = append(out, s)
		}
	}
	return out
}

// leaned writes what the outcome rests on: how many values of the tables, by
// standing, and which of their groups are assumed; in full every value.
func (x *text) leaned() {
	rows := x.o.Told.Leaned
	if len(rows) == 0 {
		return
	}
	x.title(x.Say("title.leaned"))
	all := sum{}
	for i := range rows {
		all.add(&rows[i])
	}
	args := []arg{{Name: "n", Value: number(int64(all.values))}, {Name: "rows", Value: number(int64(all.rows))}, {Name: "parts", Value: x.standing(&all)}}
	if x.full {
		x.para(x.Say("leaned.count", args...))
		x.everyRow(rows)
		return
	}
	var assumed []string
	for _, s := range sums(rows) {
		if n := s.standing[len(standings)-1]; n > 0 {
			assumed = append(assumed, x.name("leaned-short", s.group, s.group)+" "+number(int64(n)))
		}
	}
	x.para(x.Say("leaned.short", append(args, arg{Name: "assumed", Value: strings.Join(assumed, ", ")})...))
}

// everyRow writes each group with its sum, its rows and their values.
func (x *text) everyRow(rows []decide.Leaned) {
	for _, s := range sums(rows) {
		x.para(x.groupSentence(&s))
		for i := range rows {
			l := &rows[i]
			if l.Group != s.group {
				continue
			}
			source := ""
			if len(l.Source) > 0 {
				source = x.cite(l.Source)
			}
			x.item(x.Say("leaned.row", arg{Name: "what", Value: l.What}, arg{Name: "id", Value: strings.Join(append([]string{l.ID}, l.Also...), "; ")},
				arg{Name: "name", Value: x.row(l.What, l.ID)}, arg{Name: "values", Value: values(l.Values)}, arg{Name: "status", Value: x.status(l.Status)},
				arg{Name: "source", Value: source}, arg{Name: "place", Value: l.Place}, arg{Name: "at", Value: l.File + ":" + strconv.Itoa(l.Row)}))
		}
	}
	x.para(x.Say("versions", arg{Name: "core", Value: x.o.Core}, arg{Name: "tables", Value: x.o.Tables}))
}

// groupSentence says what a group is, how much of it was leaned on, and where
// its values are printed.
func (s *speaker) groupSentence(g *sum) string {
	return s.Say("leaned.group", arg{Name: "group", Value: s.group(g.group)}, arg{Name: "n", Value: number(int64(g.values))},
		arg{Name: "parts", Value: s.standing(g)}, arg{Name: "tables", Value: s.List(g.tables)})
}

// group names a group.
func (s *speaker) group(id string) string { return s.name("leaned-group", id, id) }

// standing gives the number of values of each standing.
func (s *speaker) standing(g *sum) string {
	var parts []string
	for i, st := range standings {
		if n := g.standing[i]; n > 0 {
			parts = append(parts, s.Say("leaned.part", arg{Name: "n", Value: number(int64(n))}, arg{Name: "status", Value: s.status(st)}))
		}
	}
	return s.List(parts)
}

// values writes the values of a row by the names of their columns.
func values(list []decide.Value) string {
	var out []string
	for i := range list {
		v := &list[i]
		name, value := v.Name, v.Text
		if v.Of != "" {
			name = v.Of + " " + name
		}
		if v.Text == "" {
			value = decimal(v.Number)
			if v.Unit != "1" && v.Unit != "" {
				value += " " + v.Unit
			}
		}
		out = append(out, name+" "+value)
	}
	return strings.Join(out, ", ")
}

// row names a row of the tables that the outcome leaned on.
func (s *speaker) row(what, id string) string {
	first, _, _ := strings.Cut(id, ",")
	switch what {
	case "mode":
		return s.mode(id)
	case "sign", "figures":
		return s.sign(id)
	case "look", "time":
		return s.look(kit.LookID(id))
	case "read", "limit":
		return s.quantity(id)
	case "cause", "prior":
		return s.cause(first)
	case "contaminant":
		return s.substance(id)
	case "part":
		return s.part(id)
	case "kind":
		return s.kind(kit.KindID(id))
	case "ask":
		return s.ask(id)
	case "kernel":
		return s.event(first)
	case "zone":
		if z := s.k.Zone(id); z != nil {
			return s.name("zone", id, z.Words)
		}
	case "rule":
		for i := range s.t.Rules.Cites {
			if s.t.Rules.Cites[i].Name == id {
				return s.t.Rules.Cites[i].Words
			}
		}
	case "life", "storage":
		for i := range s.t.Lives {
			if s.t.Lives[i].ID == id {
				return strings.TrimSuffix(s.t.Lives[i].Words, ".")
			}
		}
	case "interval":
		for i := range s.t.Intervals {
			if s.t.Intervals[i].ID == id {
				return strings.TrimSuffix(s.t.Intervals[i].Words, ".")
			}
		}
	}
	return ""
}

// leanedDocs gives the rows and their sums by group.
func (j *jsonDoc) leanedDocs(rows []decide.Leaned) (out []leanedDoc, groups []leanedGroupDoc) {
	out, groups = make([]leanedDoc, 0, len(rows)), []leanedGroupDoc{}
	for i := range rows {
		l := &rows[i]
		d := leanedDoc{Group: l.Group, What: l.What, ID: l.ID, Also: l.Also, Words: j.row(l.What, l.ID), Values: make([]valueDoc, 0, len(l.Values)),
			Status: string(l.Status), Source: j.cited(l.Source), Place: l.Place, File: l.File, Row: int64(l.Row)}
		for n := range l.Values {
			v := &l.Values[n]
			x := valueDoc{Of: v.Of, Name: v.Name, Text: v.Text, Unit: v.Unit}
			if v.Text == "" {
				x.Value = &v.Number
			}
			d.Values = append(d.Values, x)
		}
		out = append(out, d)
	}
	for _, s := range sums(rows) {
		groups = append(groups, leanedGroupDoc{s.group, j.group(s.group), int64(s.rows), int64(s.values), int64(s.standing[0]), int64(s.standing[1]),
			int64(s.standing[2]), int64(s.standing[3]), s.tables, j.groupSentence(&s)})
	}
	return out, groups
}
