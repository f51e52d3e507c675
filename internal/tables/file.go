package tables

import (
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// file is one data file being read: its reader, and the units its columns have.
type file struct {
	name  string
	root  doc.T
	want  map[string]string // unit that each column must have
	said  map[string]bool   // columns named in [unit]
	short map[string]bool   // columns already reported as missing there
	rows  map[string]string // key of a row → its line, for duplicates
}

// newFile reads [unit]: each column named there must be one of the file's, with
// the very unit that the judgement counts in.
func newFile(name string, r *doc.Reader, want map[string]string) *file {
	f := &file{name: name, root: r.Root(), want: want, said: map[string]bool{}, short: map[string]bool{}, rows: map[string]string{}}
	u := f.root.Sub("unit", doc.Required)
	for _, col := range u.Keys() {
		unit := u.Str(col, doc.Required)
		f.said[col] = true
		w, ok := want[col]
		switch {
		case !ok:
			u.Fault(col, "is no column of numbers in this file", "take it out of [unit]")
		case unit != w:
			u.Fault(col, "has the unit “"+unit+"” where “"+w+"” is wanted", "give the numbers in “"+w+"” and write "+col+" = \""+w+"\"")
		}
	}
	return f
}

// num reads a number of a column, which must have its unit in [unit].
func (f *file) num(t doc.T, col string, required bool) float64 {
	f.unit(t, col)
	return t.Float(col, required)
}

// share reads a number of a column that must lie in [0,1].
func (f *file) share(t doc.T, col string, required bool) float64 {
	v := f.num(t, col, required)
	if v < 0 || v > 1 {
		t.Fault(col, "is not between 0 and 1", "write a share of the whole, such as 0.25")
	}
	return v
}

// rate reads a number of a column that must not be negative.
func (f *file) rate(t doc.T, col string, required bool) float64 {
	v := f.num(t, col, required)
	if v < 0 {
		t.Fault(col, "is negative", "write 0 or more")
	}
	return v
}

// whole reads a whole number of a column.
func (f *file) whole(t doc.T, col string, required bool) int64 {
	f.unit(t, col)
	return t.Int(col, required)
}

// unit reports a column of numbers that is used and has no unit in [unit].
func (f *file) unit(t doc.T, col string) {
	if !t.Has(col) || f.said[col] || f.short[col] {
		return
	}
	f.short[col] = true
	f.root.Fault("unit", "has no unit for the column “"+col+"”", "write "+col+" = \""+f.want[col]+"\" under [unit]")
}

// cite reads where a row comes from.
func (l *loader) cite(f *file, t doc.T) table.Cite {
	c := table.Cite{File: f.name}
	c.Row, _ = t.Pos()
	if !t.Has("source") {
		t.Fault("", "has no source", "add source = [\"…\"], a list of ids of lines; [] only for what is assumed or common practice")
	}
	c.Source = t.Strings("source", doc.Optional)
	for _, id := range c.Source {
		l.ref(t, "source", "line", id)
	}
	c.Place = t.Str("place", doc.Required)
	c.Status = status(t)
	if len(c.Source) == 0 && (c.Status == table.Published || c.Status == table.FromMemory) {
		t.Fault("source", "is empty on a row that is "+string(c.Status), "name the line it rests on, or call the row assumed")
	}
	return c
}

func status(t doc.T) table.Status { return statusIn(t, "status") }

func statusIn(t doc.T, key string) table.Status {
	return table.Status(t.OneOf(key, doc.Required,
		string(table.Published), string(table.CommonPractice), string(table.FromMemory), string(table.Assumed)))
}

// once refuses a second row with the same key.
func (f *file) once(t doc.T, key string, parts ...string) {
	for _, p := range parts {
		if p == "" {
			return // its absence is reported elsewhere
		}
	}
	id := t.Path()[:strings.LastIndexByte("["+t.Path(), '[')] + "\x00" + strings.Join(parts, "\x00")
	line, _ := t.Pos()
	if at, ok := f.rows[id]; ok {
		t.Fault(key, "is the same row as in line "+at+" ("+strings.Join(parts, ", ")+")", "take one of the two out")
		return
	}
	f.rows[id] = strconv.Itoa(line)
}

// know makes an id known to later references, and refuses it twice.
func (l *loader) know(f *file, t doc.T, sort string) string {
	id := t.Str("id", doc.Required)
	f.once(t, "id", id)
	if l.ids[sort] == nil {
		l.ids[sort] = map[string]bool{}
	}
	l.ids[sort][id] = true
	return id
}

// lost notes that a file could not be read at all, so that nobody is told that
// what it would have held does not exist.
func (l *loader) lost(part string) {
	for _, sort := range map[string][]string{
		"lines": {"line"}, "fibres": {"fibre"}, "causes": {"cause"}, "events": {"event"}, "looks": {"look"},
		"contaminants": {"contaminant"}, "use": {"dirt", "hardware"}, "intervals": {"country"},
	}[part] {
		l.ids[sort] = map[string]bool{"*": true}
	}
}

// ref refuses an id that no row has. An id given as "" was reported already.
func (l *loader) ref(t doc.T, key, sort, id string) bool {
	set := l.ids[sort]
	if id == "" || set[id] || set["*"] {
		return true
	}
	t.Fault(key, "names the "+sort+" “"+id+"”, which is nowhere in the tables", "correct it, or add the "+sort)
	return false
}

// kindIDs are the kinds that a row may name; each may have a file under kinds/.
var kindIDs = []string{
	string(kit.Bridge), string(kit.Harness), string(kit.Line), string(kit.Lanyard), string(kit.HitchCord), string(kit.Sling),
	string(kit.Connector), string(kit.Ring), string(kit.Swivel), string(kit.Pulley), string(kit.Device), string(kit.Helmet),
	string(kit.Rescue), string(kit.Rigging), string(kit.Ascender), string(kit.Absorber), string(kit.Other),
}

// kinds reads a list of kinds.
func kinds(t doc.T, key string, required bool) []kit.KindID {
	words := words(t, key, required, kindIDs...)
	out := make([]kit.KindID, len(words))
	for i, w := range words {
		out[i] = kit.KindID(w)
	}
	return out
}

// words reads a list of words, each one of those allowed and none twice.
func words(t doc.T, key string, required bool, allowed ...string) []string {
	list := t.Strings(key, required)
	for i, w := range list {
		if !slices.Contains(allowed, w) {
			t.Fault(key, "holds “"+w+"”, which is not a word taken here", "take words from: "+strings.Join(allowed, ", "))
		}
		if slices.Contains(list[:i], w) {
			t.Fault(key, "holds “"+w+"” twice", "take one of the two out")
		}
	}
	return list
}

// verdict reads an outcome.
func verdict(t doc.T, key string, required bool) kit.Verdict {
	w := t.OneOf(key, required, kit.Keep.String(), kit.KeepSooner.String(), kit.SetAside.String(), kit.Withdraw.String())
	v, _ := kit.ParseVerdict(w)
	return v
}

// question reads the question of a row; what sets aside must have one.
func question(t doc.T, v kit.Verdict) string {
	q := t.Str("question", doc.Optional)
	if v == kit.SetAside && q == "" {
		t.Fault("question", "is missing on a row that sets aside", "say what has to be answered before the piece may come back")
	}
	return q
}

var exams = []string{string(kit.PreUse), string(kit.Partner), string(kit.Interim), string(kit.Thorough)}

var lookIDs = func() []string {
	var out []string
	for _, l := range kit.Looks {
		out = append(out, string(l))
	}
	return out
}()
