package anyrecord

import (
	"fmt"
	"io/fs"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
	data "kernbook/tables"
)

// TestTablesLoad writes drawn tables back into the text of the data files and
// lets the loader read them: it takes them, and reads what was drawn. (Of the
// looks, whose rows stand for several at a time, it holds the kappas and
// factors to the loader's rule by themselves.)
func TestTablesLoad(t *testing.T) {
	tb := tables.Default()
	rapid.Check(t, func(t *rapid.T) {
		k := &tb.Kinds[rapid.IntRange(0, len(tb.Kinds)-1).Draw(t, "kind")]
		drawn := Tables(t, tb, k.ID)
		files := fstest.MapFS{}
		if err := fs.WalkDir(data.Files, ".", func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			b, err := fs.ReadFile(data.Files, path)
			if path == "kinds/"+string(k.ID)+".toml" {
				b = []byte(written(t, string(b), drawn, k.ID))
			}
			files[path] = &fstest.MapFile{Data: b}
			return err
		}); err != nil {
			t.Fatal(err)
		}
		got, faults := tables.Load(files)
		if err := faults.Err(); err != nil {
			t.Fatal(err)
		}
		if a, b := figures(drawn, k.ID), figures(got, k.ID); a != b {
			t.Fatalf("drawn and read differ:\n%s\n%s", a, b)
		}
		for i := range drawn.Looks {
			heldLook(t, &drawn.Looks[i])
		}
	})
}

// heldLook holds a look to what the loader asks of one.
func heldLook(t *rapid.T, l *table.Look) {
	for _, k := range l.Kappa {
		if k.K < 0 || k.K > 1 {
			t.Fatalf("kappa %g", k.K)
		}
	}
	for _, f := range l.Factors {
		for _, s := range l.Factors {
			if f.F < 0 || f.F > 1 || (f.Condition == s.Condition && (s.State == "" || s.State == string(kit.NotKnown)) && f.State != "" && f.State != string(kit.NotKnown) && s.F > f.F) {
				t.Fatalf("%s: silence leaves %g, “%s” %g", f.Condition, s.F, f.State, f.F)
			}
		}
	}
}

// figures prints what Tables draws of a kind, without places in files.
func figures(tb *table.Tables, kind kit.KindID) string {
	var b strings.Builder
	k := tb.Kind(kind)
	for i := range k.Modes {
		m := k.Modes[i]
		m.Cite, m.Words = table.Cite{}, ""
		fmt.Fprintln(&b, m)
	}
	for i := range k.Signs {
		s := &k.Signs[i]
		fmt.Fprintln(&b, s.ID, s.Leak, s.Spread, s.Links, s.Causes)
	}
	for i := range tb.Causes {
		for _, p := range tb.Causes[i].Priors {
			if p.Kind == kind {
				fmt.Fprintln(&b, tb.Causes[i].ID, p.Zone, p.P)
			}
		}
	}
	for i := range tb.Events {
		for _, x := range tb.Events[i].Kernels {
			if len(x.Kinds) == 1 && x.Kinds[0] == kind {
				fmt.Fprintln(&b, tb.Events[i].ID, x.Mode, x.FromPeak, x.J01, x.J02, x.J12)
			}
		}
	}
	return b.String()
}

// written puts the drawn figures into the text of the kind's file, row by row.
func written(t *rapid.T, text string, tb *table.Tables, kind kit.KindID) string {
	lines := strings.Split(text, "\n")
	row := 0
	set := func(key string, v float64) {
		p := regexp.MustCompile(`^(\s*` + key + ` = )[-0-9.e+]+`)
		for i := row; i < len(lines) && (i == row || !strings.HasPrefix(lines[i], "[[")); i++ {
			if p.MatchString(lines[i]) {
				lines[i] = p.ReplaceAllString(lines[i], "${1}"+strconv.FormatFloat(v, 'g', -1, 64))
				return
			}
		}
		if v != 0 {
			t.Fatalf("no %s in the row of line %d", key, row)
		}
	}
	inline := func(name, key string, n int, v float64) { // the n-th key of an inline list
		seen := 0
		p := regexp.MustCompile(`\b` + key + ` = [-0-9.e+]+`)
		in := false
		for i := row; i < len(lines) && !strings.HasPrefix(lines[i], "[["); i++ {
			if strings.HasPrefix(lines[i], name+" = ") {
				in = true
			}
			if !in {
				continue
			}
			lines[i] = p.ReplaceAllStringFunc(lines[i], func(old string) string {
				if seen++; seen == n+1 {
					return key + " = " + strconv.FormatFloat(v, 'g', -1, 64)
				}
				return old
			})
			if seen > n {
				return
			}
		}
		t.Fatalf("no %s of %s in the row of line %d", key, name, row)
	}
	k := tb.Kind(kind)
	for i := range k.Modes {
		m := &k.Modes[i]
		row = m.Row
		for key, v := range map[string]float64{"t01": m.T01, "t02": m.T02, "t12": m.T12, "h01": m.H01, "h02": m.H02, "h12": m.H12, "hidden": m.Hidden,
			"beta_dirt": m.BetaDirt, "beta_mass": m.BetaMass, "beta_hardware": m.BetaHardware, "new1": m.New1, "new2": m.New2,
			"floor_h": m.FloorH, "floor_t": m.FloorT, "floor_store": m.FloorStore} {
			set(key, v)
		}
		for _, s := range m.Shares {
			name := regexp.QuoteMeta(s.Zone)
			if strings.ContainsAny(s.Zone, " ") {
				name = `"` + name + `"`
			}
			for j := row; j < len(lines) && !strings.HasPrefix(lines[j], "[["); j++ {
				if strings.HasPrefix(lines[j], "shares = ") {
					lines[j] = regexp.MustCompile(`([{ ]`+name+` = )[-0-9.e+]+`).ReplaceAllString(lines[j], "${1}"+strconv.FormatFloat(s.Share, 'g', -1, 64))
				}
			}
		}
	}
	for i := range k.Signs {
		s := &k.Signs[i]
		row = s.Row
		set("leak", s.Leak)
		set("spread", s.Spread)
		for n, l := range s.Links {
			inline("links", "q1", n, l.Q1)
			inline("links", "q2", n, l.Q2)
		}
		for n, c := range s.Causes {
			inline("causes", "r", n, c.R)
		}
	}
	for i := range tb.Causes {
		for _, p := range tb.Causes[i].Priors {
			if row = p.Row; p.Kind == kind {
				set("p", p.P)
			}
		}
	}
	for i := range tb.Events {
		for _, x := range tb.Events[i].Kernels {
			if row = x.Row; len(x.Kinds) == 1 && x.Kinds[0] == kind {
				set("j01", x.J01)
				set("j02", x.J02)
				set("j12", x.J12)
			}
		}
	}
	return strings.Join(lines, "\n")
}
