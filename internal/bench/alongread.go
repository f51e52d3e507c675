package bench

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/measure"
	"kernbook/internal/core/qty"
	"kernbook/internal/doc"
)

// Taken says how a set of readings was taken. Empty is not said.
// Checked is when the gauge was last held against a standard.
type Taken struct {
	Day, Tension, Method, Wet, Gauge, Checked, By string
}

// Readings are those along a rope: places in millimetres, readings in one unit,
// millimetres where that is a length.
type Readings struct {
	Stations    []measure.Station
	Unit        string // "mm", or as typed where it is no length
	Before, Now Taken
}

// lengths are the units of length that a header takes, in millimetres.
var lengths = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4}

// Said gives what a set says of itself, in order: the word and its value.
func (t *Taken) Said() (out [][2]string) {
	for _, c := range conditions {
		if v := *t.field(c); v != "" {
			out = append(out, [2]string{c, v})
		}
	}
	return out
}

// conditions are what a set of readings may say of itself.
var conditions = []string{"day", "tension", "method", "wet", "gauge", "checked", "by"}

func (t *Taken) field(name string) *string {
	return map[string]*string{"day": &t.Day, "tension": &t.Tension, "method": &t.Method, "wet": &t.Wet, "gauge": &t.Gauge, "checked": &t.Checked, "by": &t.By}[name]
}

// ReadAlong reads readings along a rope, as TOML where the name ends in .toml, else as
// comma-separated values (docs/along.md has both forms). It gives all faults at once.
func ReadAlong(name string, b []byte) (*Readings, doc.Faults) {
	if strings.HasSuffix(strings.ToLower(name), ".toml") {
		return alongTOML(name, b)
	}
	return alongCSV(name, b)
}

type faults struct {
	file string
	list doc.Faults
}

func (f *faults) add(line int, field, what, mend string) {
	f.list = append(f.list, doc.Fault{File: f.file, Line: line, Field: field, What: what, Mend: mend})
}

// rows reads the lines of a file of comma-separated values, with their numbers; lines
// that begin with # go to remark.
func (f *faults) rows(b []byte, remark func(line int, text string)) (rows [][]string, lines []int) {
	b = bytes.TrimPrefix(b, []byte("\xef\xbb\xbf"))
	text := strings.Split(string(b), "\n")
	for i, l := range text { // remarks are lines of their own, whatever is in them
		if l = strings.TrimSpace(l); strings.HasPrefix(l, "#") {
			remark(i+1, strings.TrimSpace(strings.TrimPrefix(l, "#")))
			text[i] = ""
		}
	}
	b = []byte(strings.Join(text, "\n"))
	r := csv.NewReader(bytes.NewReader(b))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.LazyQuotes = -1, true, false
	if strings.Contains(strings.SplitN(strings.TrimSpace(string(b)), "\n", 2)[0], ";") {
		r.Comma = ';' // as spreadsheets write where the comma is the decimal mark
	}
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			return rows, lines
		}
		if err != nil {
			f.add(0, "", "cannot be read as comma-separated values: "+err.Error(), "give one line for each station, with commas between, and a header above")
			return rows, lines
		}
		line, _ := r.FieldPos(0)
		for i := range row {
			row[i] = strings.TrimSpace(row[i])
		}
		rows, lines = append(rows, row), append(lines, line)
	}
}

// head splits a header such as "before (mm)" or "now mm" into its word and unit.
func head(text string) (word, unit string) {
	text = strings.NewReplacer("(", " ", ")", " ", "[", " ", "]", " ").Replace(text)
	word, unit, _ = strings.Cut(strings.TrimSpace(text), " ")
	return strings.ToLower(word), strings.TrimSpace(unit)
}

func alongCSV(name string, b []byte) (*Readings, doc.Faults) {
	f, out := &faults{file: name}, &Readings{}
	rows, lines := f.rows(b, func(line int, text string) { f.remark(out, line, text) })
	if len(f.list) > 0 {
		return nil, f.list
	}
	if len(rows) < 2 {
		f.add(0, "", "has no header and stations", "begin with “at mm,before mm,now mm” and give one line for each station")
		return nil, f.list
	}
	at, scale, unit := -1, 1.0, ""
	var before, now []int
	for i, h := range rows[0] {
		word, u := head(h)
		switch word {
		case "at":
			if scale = lengths[u]; at >= 0 || scale == 0 {
				f.add(lines[0], h, "is no single column of places with its unit of length", "write “at mm” once (mm, cm, m or in)")
			}
			at = i
		case "before", "now":
			if u == "" || unit != "" && u != unit {
				f.add(lines[0], h, "has no unit, or another than the columns before", "write the one unit of all readings in each, such as “"+word+" mm”")
			}
			unit = u
			if word == "now" {
				now = append(now, i)
			} else {
				before = append(before, i)
			}
		default:
			f.add(lines[0], h, "is no column that is known", "write “at mm”, “before mm” and “now mm”; a column may stand several times for readings taken again")
		}
	}
	if at < 0 || len(before) == 0 || len(now) == 0 {
		f.add(lines[0], "", "has not the columns at, before and now", "begin with “at mm,before mm,now mm”")
	}
	if len(f.list) > 0 {
		return nil, f.list
	}
	per := out.in(unit)
	for k, row := range rows[1:] {
		line := lines[k+1]
		if len(row) != len(rows[0]) {
			f.add(line, "", "has "+strconv.Itoa(len(row))+" columns where the header has "+strconv.Itoa(len(rows[0])), "leave the cell of a reading that was not taken empty, and keep its comma")
			continue
		}
		var s measure.Station
		s.At = float64(f.number(line, rows[0][at], row[at], true) * scale)
		for _, i := range before {
			if row[i] != "" {
				s.Base = append(s.Base, float64(f.number(line, rows[0][i], row[i], false)*per))
			}
		}
		for _, i := range now {
			if row[i] != "" {
				s.Now = append(s.Now, float64(f.number(line, rows[0][i], row[i], false)*per))
			}
		}
		out.Stations = append(out.Stations, s)
	}
	return f.end(out)
}

// in takes the unit of the readings and gives what turns one into the unit counted in.
func (r *Readings) in(unit string) float64 {
	if k := lengths[unit]; k != 0 {
		r.Unit = "mm"
		return k
	}
	r.Unit = unit
	return 1
}

// number reads a plain number; place allows nought.
func (f *faults) number(line int, field, text string, place bool) float64 {
	v, err := qty.ParseNumber(text)
	switch {
	case err != nil:
		f.add(line, field, err.Error(), "")
	case v < 0 || v == 0 && !place:
		f.add(line, field, "“"+text+"” is no reading: it must be more than nought", "leave the cell empty where no reading was taken")
	case v > 1e6:
		f.add(line, field, "“"+text+"” is larger than anything measured here", "check the unit in the header")
	}
	return v
}

// remark reads “# before: tension 150 N; method calliper; wet no”.
func (f *faults) remark(out *Readings, line int, text string) {
	which, rest, ok := strings.Cut(text, ":")
	var t *Taken
	switch strings.ToLower(strings.TrimSpace(which)) {
	case "before":
		t = &out.Before
	case "now":
		t = &out.Now
	}
	if !ok || t == nil {
		return // a remark of another sort
	}
	for _, part := range strings.Split(rest, ";") {
		word, value, _ := strings.Cut(strings.TrimSpace(part), " ")
		if word == "" {
			continue
		}
		p := t.field(word)
		if p == nil || strings.TrimSpace(value) == "" {
			f.add(line, which, "says “"+strings.TrimSpace(part)+"”, which is not known", "write words of "+strings.Join(conditions, ", ")+", each with its value and a semicolon between")
			continue
		}
		*p = strings.TrimSpace(value)
	}
}

func alongTOML(name string, b []byte) (*Readings, doc.Faults) {
	root, list := doc.ParseTOML(name, b)
	if root == nil {
		return nil, list
	}
	f, out := &faults{file: name, list: list}, &Readings{}
	r := doc.NewReader(name, root)
	t := r.Root()
	scale := lengths[t.OneOf("at_unit", doc.Required, "mm", "cm", "m", "in")]
	per := out.in(t.Str("unit", doc.Required))
	for which, to := range map[string]*Taken{"before": &out.Before, "now": &out.Now} { // order does not matter: each has its own table
		sub := t.Sub(which, doc.Optional)
		for _, c := range conditions {
			*to.field(c) = sub.Str(c, doc.Optional)
		}
	}
	for _, s := range t.List("station", doc.Required) {
		x := measure.Station{At: float64(s.Float("at", doc.Required) * scale), Base: s.Floats("before", doc.Optional), Now: s.Floats("now", doc.Optional)}
		for _, set := range [][]float64{x.Base, x.Now} {
			for i := range set {
				if set[i] = float64(set[i] * per); !(set[i] > 0) || set[i] > 1e7 {
					s.Fault("now", "or before holds a reading that is none", "give readings of more than nought, and leave out what was not taken")
				}
			}
		}
		if x.At < 0 {
			s.Fault("at", "lies before end A", "measure places from end A")
		}
		out.Stations = append(out.Stations, x)
	}
	f.list = append(f.list, r.Faults()...)
	return f.end(out)
}

// most is how many stations and readings are taken.
const most = 2000

// end holds what was read against what can be worked with.
func (f *faults) end(out *Readings) (*Readings, doc.Faults) {
	if len(out.Stations) > most {
		f.add(0, "", "has more than "+strconv.Itoa(most)+" stations", "give fewer at once")
	}
	for which, t := range map[string]*Taken{"before": &out.Before, "now": &out.Now} { // order does not matter: sorted below
		if _, err := qty.ParsePull(t.Tension); t.Tension != "" && err != nil {
			f.add(0, which+".tension", err.Error(), "")
		}
		if t.Wet != "" && !slices.Contains([]string{"yes", "no"}, t.Wet) {
			f.add(0, which+".wet", "“"+t.Wet+"” is not a word taken here", "write yes or no")
		}
	}
	if len(f.list) > 0 {
		f.list.Sort()
		return nil, f.list
	}
	return out, nil
}

// ReadStudy reads a study of a gauge: columns part, hand and value with its unit.
func ReadStudy(name string, b []byte) (trials []measure.Trial, unit string, list doc.Faults) {
	f := &faults{file: name}
	rows, lines := f.rows(b, func(int, string) {})
	if len(f.list) > 0 {
		return nil, "", f.list
	}
	if len(rows) < 2 {
		f.add(0, "", "has no header and readings", "begin with “part,hand,value mm” and give one line for each reading")
		return nil, "", f.list
	}
	part, hand, value, per := -1, -1, -1, 1.0
	for i, h := range rows[0] {
		switch word, u := head(h); word {
		case "part":
			part = i
		case "hand":
			hand = i
		case "value":
			if value, unit = i, u; u == "" {
				f.add(lines[0], h, "has no unit", "write “value mm”")
			}
			if k := lengths[u]; k != 0 {
				unit, per = "mm", k
			}
		default:
			f.add(lines[0], h, "is no column that is known", "write “part,hand,value mm”")
		}
	}
	if part < 0 || hand < 0 || value < 0 {
		f.add(lines[0], "", "has not the columns part, hand and value", "begin with “part,hand,value mm”")
	}
	if len(f.list) > 0 {
		return nil, "", f.list
	}
	for k, row := range rows[1:] {
		if len(row) != len(rows[0]) || row[part] == "" || row[hand] == "" {
			f.add(lines[k+1], "", "has not a part, a hand and a value", "fill every cell")
			continue
		}
		trials = append(trials, measure.Trial{Part: row[part], Hand: row[hand], Value: float64(f.number(lines[k+1], rows[0][value], row[value], false) * per)})
	}
	if len(trials) > 10*most {
		f.add(0, "", "has more readings than are taken at once", "give fewer")
	}
	return trials, unit, f.list
}
