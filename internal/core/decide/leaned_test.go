package decide_test

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	"kernbook/internal/record"
	"kernbook/internal/tables"
	data "kernbook/tables"
)

// onFile reads the records that the project has: the examples and the corpus.
func onFile(t testing.TB, folders ...string) map[string]*kit.Record {
	t.Helper()
	out := map[string]*kit.Record{}
	for _, folder := range folders {
		files, err := filepath.Glob(filepath.Join("..", "..", "..", folder, "*.toml"))
		if err != nil || len(files) == 0 {
			t.Fatalf("no records in %s: %v", folder, err)
		}
		for _, f := range files {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			if i := strings.Index(string(b), "\n[demand]"); i >= 0 {
				b = b[:i]
			}
			r, faults := record.Decode(f, b, tb)
			if err := faults.Err(); err != nil {
				t.Fatal(err)
			}
			out[filepath.Base(f)] = r
		}
	}
	return out
}

// row finds the row of a data file that begins on a line.
func row(root *doc.Node, line int) (list string, n *doc.Node) {
	for _, key := range root.Keys {
		f := root.Fields[key]
		if f.Line == line && f.Kind == doc.Table {
			return key, f
		}
		for _, x := range f.Items {
			if x.Line == line {
				return key, x
			}
		}
	}
	return "", nil
}

// column finds a value of a row by the names that the explanation gives it.
func column(n *doc.Node, v *decide.Value) *doc.Node {
	switch v.Name {
	case "q1", "q2", "r":
		list, id := "links", "mode"
		if v.Name == "r" {
			list, id = "causes", "cause"
		}
		if f := n.Fields[list]; f != nil {
			for _, x := range f.Items {
				if x.Fields[id].Text == v.Of {
					return x.Fields[v.Name]
				}
			}
		}
		return nil
	case "mu", "sigma":
		for i, state := range []string{"sound", "impaired", "unfit"} {
			if state == v.Of {
				return n.Fields[v.Name].Items[i]
			}
		}
		return nil
	case "shares":
		return n.Fields["shares"].Fields[v.Of]
	}
	return n.Fields[v.Name]
}

// said gives a value of the data file as a number in the unit of the explanation.
func said(t *testing.T, n *doc.Node, unit string) float64 {
	t.Helper()
	if n.Kind != doc.String {
		return n.Float
	}
	var v float64
	var err error
	switch unit {
	case "mm":
		var l qty.Length
		l, err = qty.ParseLength(n.Text)
		v = l.Millimetres()
	case "kg":
		var m qty.Mass
		m, err = qty.ParseMass(n.Text)
		v = m.Kilograms()
	case "h":
		var d qty.Duration
		d, err = qty.ParseHours(n.Text)
		v = d.Hours()
	case "months":
		var m qty.Months
		m, err = qty.ParseMonths(n.Text)
		v = float64(m)
	default:
		t.Fatalf("%q in %q", n.Text, unit)
	}
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// optional are values that a row may leave out, and what they are then.
var optional = map[string]float64{"leak": 0, "spread": 0, "t02": 0}

// TestLeanedStandsInTheTables: every value that an explanation lists stands in
// the file and row that it names, with that number, unit, standing and place.
func TestLeanedStandsInTheTables(t *testing.T) {
	roots := map[string]*doc.Node{}
	seen := map[string]int{}
	for name, r := range onFile(t, "examples", "testdata/corpus") {
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		rows := map[string]bool{}
		for i := range o.Told.Leaned {
			l := &o.Told.Leaned[i]
			if roots[l.File] == nil {
				b, err := data.Files.ReadFile(l.File)
				if err != nil {
					t.Fatal(err)
				}
				root, faults := doc.ParseTOML(l.File, b)
				if root == nil {
					t.Fatal(faults)
				}
				roots[l.File] = root
			}
			at := fmt.Sprintf("%s: %s %s %s (%s:%d)", name, l.Group, l.What, l.ID, l.File, l.Row)
			if key := fmt.Sprint(l.Group, l.What, l.File, l.Row); rows[key] {
				t.Errorf("%s: listed twice", at)
			} else {
				rows[key] = true
			}
			list, n := row(roots[l.File], l.Row)
			if n == nil {
				t.Errorf("%s: no such row", at)
				continue
			}
			status, place := "", ""
			switch {
			case l.What == "figures" && list == "sign":
				status = string(table.Assumed)
				if f := n.Fields["figures"]; f != nil {
					status = f.Text
				}
				place = l.Place
			case l.What == list:
				status, place = n.Fields["status"].Text, n.Fields["place"].Text
			default:
				t.Errorf("%s: the row is a %s", at, list)
				continue
			}
			if string(l.Status) != status || l.Place != place {
				t.Errorf("%s: %s, %s; the file says %s, %s", at, l.Status, l.Place, status, place)
			}
			for k := range l.Values {
				v := &l.Values[k]
				seen[l.What]++
				f := column(n, v)
				if f == nil {
					if want, ok := optional[v.Name]; !ok || v.Number != want || v.Text != "" {
						t.Errorf("%s: no column %s %s", at, v.Of, v.Name)
					}
					continue
				}
				if v.Text != "" {
					got := f.Text
					for i, x := range f.Items {
						if i > 0 {
							got += ", "
						}
						got += x.Text
					}
					if v.Text != got {
						t.Errorf("%s: %s is “%s”, the file says “%s”", at, v.Name, v.Text, got)
					}
					continue
				}
				if got := said(t, f, v.Unit); v.Number != got {
					t.Errorf("%s: %s %s is %v, the file says %v", at, v.Of, v.Name, v.Number, got)
				}
				if f.Kind != doc.String && v.Unit != "" {
					col := v.Name
					if l.What == "rule" {
						col = l.ID
					}
					units := roots[l.File].Fields["unit"].Fields[col]
					if units == nil || !strings.Contains("|"+units.Text+"|", "|"+v.Unit+"|") {
						t.Errorf("%s: %s in “%s”, the file has %v", at, v.Name, v.Unit, units)
					}
				}
			}
		}
	}
	for _, what := range []string{"rule", "life", "storage", "interval", "need", "ask", "effect", "kernel", "contaminant", "use", "dirt", "hardware", "kind", "zone", "part",
		"mode", "look", "kappa", "factor", "sign", "figures", "cause", "prior", "read", "limit", "time"} {
		if seen[what] == 0 {
			t.Errorf("no value of a row “%s” was met", what)
		}
	}
}

// spot is one value of the tables.
type spot struct {
	file     string
	row      int
	of, name string
}

// listed gives the values that an explanation lists.
func listed(o *decide.Outcome) map[spot]bool {
	out := map[spot]bool{}
	for i := range o.Told.Leaned {
		l := &o.Told.Leaned[i]
		for _, v := range l.Values {
			out[spot{l.File, l.Row, v.Of, v.Name}] = true
		}
	}
	return out
}

// columns are the fields of the core's types whose column has another name than
// theirs in small letters.
var columns = map[string]string{"Life.Months": "limit", "Interval.Months": "every", "ZoneShare.Share": "shares", "Limit.Share": "per_mille",
	"Contaminant.Harmless": "harmless_everywhere", "Life.Verdict": "outcome", "Effect.Verdict": "outcome",
	"Quantity.SlipC": "slip_c", "Mode.BetaDirt": "beta_dirt", "Mode.BetaMass": "beta_mass", "Mode.BetaHardware": "beta_hardware", "Mode.FloorH": "floor_h",
	"Mode.FloorT": "floor_t", "Mode.FloorStore": "floor_store", "Kernel.FromPeak": "from_peak", "Sign.AfterUse": "after_use"}

// structure are fields that are no figures, and the lines and words beside them.
var structure = map[string]bool{"Row": true, "Metal": true, "Melts": true, "Whole": true, "Duty": true, "Arduous": true, "Unless": true, "Store": true, "Below": true,
	"Grows": true, "Strict": true, "Doubt": true, "Fitted": true, "Says": true, "MaxTemp": true, "PHLow": true, "PHHigh": true, "Low": true, "High": true}

// change gives every figure of the tables to f, which says whether to change
// it, and gives how many were, and what changes them back. A changed table could still have been loaded: what was not taken as the
// worst does not become so.
func change(t *table.Tables, f func(spot) bool) (changed int, back func()) {
	w := walker{f: f}
	for _, list := range []any{t.Kinds, t.Causes, t.Looks, t.Contaminants, t.Effects, t.Lives, t.NoLimits, t.Intervals, t.Occasions, t.Events, t.Dirt, t.Hardware} {
		w.walk(reflect.ValueOf(list), "", 0, "")
	}
	rules := reflect.ValueOf(&t.Rules).Elem()
	for _, c := range t.Rules.Cites {
		name := ""
		for _, part := range strings.Split(c.Name, "_") {
			name += strings.ToUpper(part[:1]) + part[1:]
		}
		if name == "RepeatSe" {
			name = "RepeatSE"
		}
		if f(spot{c.File, c.Row, "", "value"}) {
			w.nudge(rules.FieldByName(name), "Rules")
		}
	}
	w.walk(reflect.ValueOf(&t.Rules.Reference).Elem(), "", 0, "")
	w.walk(reflect.ValueOf(&t.Rules.Cautious).Elem(), "", 0, "")
	return len(w.undo), func() {
		for _, u := range w.undo {
			u()
		}
	}
}

type walker struct {
	f    func(spot) bool
	undo []func()
}

func (w *walker) walk(v reflect.Value, file string, row int, of string) {
	switch v.Kind() {
	case reflect.Slice:
		for i := range v.Len() {
			w.walk(v.Index(i), file, row, of)
		}
	case reflect.Struct:
		if c := v.FieldByName("Cite"); c.IsValid() {
			cite := c.Interface().(table.Cite)
			file, row, of = cite.File, cite.Row, ""
		}
		for _, id := range []string{"Mode", "Zone", "Cause"} { // of a link, a share, a cause
			if x := v.FieldByName(id); x.IsValid() && !v.FieldByName("Cite").IsValid() {
				of = x.String()
			}
		}
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			field := v.Field(i)
			switch {
			case name == "Cite" || structure[name]:
			case field.Kind() == reflect.Slice || field.Kind() == reflect.Struct:
				w.walk(field, file, row, of)
			case field.Kind() == reflect.Array:
				for k, state := range []string{"sound", "impaired", "unfit"} {
					w.value(field.Index(k), v.Type().Name(), name, false, spot{file, row, state, ""})
				}
			default:
				x, ok := v.Interface().(table.Life)
				w.value(field, v.Type().Name(), name, ok && x.Store && name == "Months", spot{file, row, of, ""})
			}
		}
	}
}

func (w *walker) value(v reflect.Value, typ, name string, store bool, at spot) {
	if name == "ID" || (v.Kind() == reflect.String && v.Type() != reflect.TypeFor[table.Class]()) {
		return
	}
	if at.name = columns[typ+"."+name]; at.name == "" {
		at.name = strings.ToLower(name)
	}
	if store {
		at.name = "allowance"
	}
	if w.f(at) {
		w.nudge(v, typ)
	}
}

func (w *walker) nudge(v reflect.Value, typ string) {
	if v.CanInt() && v.IsZero() && v.Type() != reflect.TypeFor[kit.Verdict]() {
		return // a column that the row does not have
	}
	was := reflect.New(v.Type()).Elem()
	was.Set(v)
	w.undo = append(w.undo, func() { v.Set(was) })
	switch {
	case v.Type() == reflect.TypeFor[kit.Verdict]():
		if kit.Verdict(v.Int()) == kit.Withdraw {
			v.SetInt(int64(kit.Keep))
		} else {
			v.SetInt(int64(kit.Withdraw))
		}
	case v.Type() == reflect.TypeFor[table.Class]():
		if v.String() == string(table.Absolute) {
			v.SetString(string(table.Weigh))
		} else {
			v.SetString(string(table.Absolute))
		}
	case v.Kind() == reflect.Bool:
		v.SetBool(!v.Bool())
	case v.CanInt():
		v.SetInt(v.Int()*2 + 1)
	case v.CanFloat() && typ == "Factor":
		v.SetFloat(v.Float() + (1-v.Float())/2)
	case v.CanFloat() && typ == "Need":
		v.SetFloat(v.Float() / 10)
	case v.CanFloat():
		v.SetFloat(v.Float() * 0.9)
	default:
		panic("a figure of type " + v.Type().String())
	}
}

// bare is an outcome without what it leaned on, and without rules only shown.
func bare(o decide.Outcome) decide.Outcome {
	told := *o.Told
	told.Leaned = nil
	o.Told, o.Tables, o.LifeEnd.Others, o.Due.Others = &told, "", nil, nil
	return o
}

func fresh(t testing.TB) *table.Tables {
	t.Helper()
	c, faults := tables.Load(data.Files)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	return c
}

// TestNothingElseWasLeanedOn: all figures of the tables that an explanation does
// not list are changed at once, and the outcome is the same to the last bit:
// figures, reasons, dates, explanation. Its list is complete.
func TestNothingElseWasLeanedOn(t *testing.T) {
	other := fresh(t)
	for name, r := range onFile(t, "examples", "testdata/corpus") {
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		known := listed(&o)
		a := bare(o)
		same := func(which func(spot) bool) (bool, string, int) {
			n, back := change(other, func(s spot) bool { return !known[s] && which(s) })
			defer back()
			b := bare(decide.Decide(other, r, decide.Ask{Explain: true}))
			return reflect.DeepEqual(a, b), differ(&a, &b), n
		}
		ok, how, n := same(func(spot) bool { return true })
		if n < 2000 {
			t.Fatalf("%s: only %d figures were changed", name, n)
		}
		if ok {
			continue
		}
		var guilty []string
		rows := map[spot]bool{}
		_, back := change(other, func(s spot) bool { rows[spot{file: s.file, row: s.row}] = true; return false })
		back()
		for at := range rows {
			if ok, _, _ := same(func(s spot) bool { return s.file == at.file && s.row == at.row }); !ok {
				guilty = append(guilty, fmt.Sprintf("%s:%d", at.file, at.row))
			}
		}
		t.Errorf("%s: figures that are not listed changed the outcome: %v: %s", name, guilty, how)
	}
}

// brief shows two values, each cut short.
func brief(a, b reflect.Value) string {
	return fmt.Sprintf(" %.300s | %.300s", fmt.Sprint(a), fmt.Sprint(b))
}

func differ(a, b *decide.Outcome) string {
	var out []string
	x, y := reflect.ValueOf(a).Elem(), reflect.ValueOf(b).Elem()
	for i := range x.NumField() {
		if n := x.Type().Field(i).Name; n != "Told" && !reflect.DeepEqual(x.Field(i).Interface(), y.Field(i).Interface()) {
			out = append(out, n+brief(x.Field(i), y.Field(i)))
		}
	}
	x, y = reflect.ValueOf(a.Told).Elem(), reflect.ValueOf(b.Told).Elem()
	for i := range x.NumField() {
		if !reflect.DeepEqual(x.Field(i).Interface(), y.Field(i).Interface()) {
			out = append(out, "told "+x.Type().Field(i).Name+brief(x.Field(i), y.Field(i)))
		}
	}
	return strings.Join(out, "; ")
}

// TestEveryGroupCanMatter: of every group that explanations list, some value,
// changed alone, changes an outcome of a record of the project: the list holds
// what counts, and not the tables as a whole.
func TestEveryGroupCanMatter(t *testing.T) {
	other := fresh(t)
	matters := map[string]bool{}
	for _, r := range onFile(t, "examples", "testdata/corpus") {
		if len(matters) == len(decide.Groups) {
			break
		}
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		a := bare(o)
		for i := range o.Told.Leaned {
			l := &o.Told.Leaned[i]
			for k := 0; k < len(l.Values) && !matters[l.Group]; k++ {
				v := &l.Values[k]
				_, back := change(other, func(s spot) bool { return s.file == l.File && s.row == l.Row && s.name == v.Name && s.of == v.Of })
				b := bare(decide.Decide(other, r, decide.Ask{Explain: true}))
				if !reflect.DeepEqual(a, b) {
					matters[l.Group] = true
				}
				back()
			}
		}
	}
	for _, g := range decide.Groups {
		if !matters[g] {
			t.Errorf("nothing of the group “%s” changed any outcome", g)
		}
	}
}

// TestMostOfItMatters: of the values listed for one bridge with readings and
// signs, at least two in three change its outcome or its explanation when they
// alone are changed by a tenth. The others are floors that were not reached,
// figures of 0, and covariates at their reference.
func TestMostOfItMatters(t *testing.T) {
	r := examined()
	o := decide.Decide(tb, r, decide.Ask{Explain: true})
	a, other := bare(o), fresh(t)
	all, some := 0, 0
	for i := range o.Told.Leaned {
		l := &o.Told.Leaned[i]
		for _, v := range l.Values {
			if v.Text != "" || v.Number == 0 {
				continue
			}
			n, back := change(other, func(s spot) bool { return s.file == l.File && s.row == l.Row && s.name == v.Name && s.of == v.Of })
			b := bare(decide.Decide(other, r, decide.Ask{Explain: true}))
			if all++; !reflect.DeepEqual(a, b) {
				some++
			} else if testing.Verbose() {
				t.Log(n, l.Group, l.What, l.ID, v.Of, v.Name, v.Number)
			}
			back()
		}
	}
	t.Logf("%d of %d", some, all)
	if 3*some < 2*all {
		t.Errorf("only %d of %d values listed matter", some, all)
	}
}
