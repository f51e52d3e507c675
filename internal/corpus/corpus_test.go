package corpus

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

const dir = "../../testdata/corpus"

// least is how many cases there must be at least: the ten vignettes, common
// practice, and sixty more.
const least = 80

var load = sync.OnceValues(func() ([]Case, []string) { return Load(dir, tables.Default()) })

// all gives every case, and fails where one cannot be read.
func all(t *testing.T) []Case {
	t.Helper()
	cases, faults := load()
	for _, f := range faults {
		t.Error(f)
	}
	if len(cases) < least {
		t.Fatalf("%d cases in %s, want %d or more", len(cases), dir, least)
	}
	return cases
}

// reasons tells what an outcome rests on, for messages.
func reasons(o *decide.Outcome) string {
	var b strings.Builder
	for i := range o.Reasons {
		r := &o.Reasons[i]
		b.WriteString("\n\trow " + r.Row + ", " + r.Verdict.String() + ", " + r.Key + " " + strings.Join(r.Lines, " "))
		for _, a := range r.Args {
			b.WriteString(" " + a.Name + "=" + a.Value)
		}
	}
	if o.Doubt != nil {
		b.WriteString("\n\tdoubt in millionths: " + fmt.Sprint(o.Doubt.Millions))
	}
	return b.String()
}

// TestDemands runs every case natively. The outcome must be the one demanded,
// and, unless that is to keep it, the reasons that ask for this outcome must
// cite the lines that demand it.
func TestDemands(t *testing.T) {
	tb := tables.Default()
	for _, c := range all(t) {
		t.Run(c.Name, func(t *testing.T) {
			o := decide.Decide(tb, c.Record, decide.Ask{})
			if o.Verdict != c.Demand || o.Held != c.Held {
				t.Fatalf("%s (held: %v), but %s demands %s (held: %v): %s%s", o.Verdict, o.Held, strings.Join(c.Lines, ", "), c.Demand, c.Held, c.Because, reasons(&o))
			}
			if c.Demand == kit.Keep {
				return
			}
			for _, id := range c.Lines {
				if !slices.ContainsFunc(o.Reasons, func(r criteria.Reason) bool { return r.Verdict == c.Demand && slices.Contains(r.Lines, id) }) {
					t.Errorf("%s, as demanded, but no reason for it cites %s%s", o.Verdict, id, reasons(&o))
				}
			}
		})
	}
}

// TestLinesOfReasons holds that whatever a reason of any case cites is a line
// of the tables, so that its source can be shown.
func TestLinesOfReasons(t *testing.T) {
	tb := tables.Default()
	told := map[string]bool{}
	for _, c := range all(t) {
		o := decide.Decide(tb, c.Record, decide.Ask{})
		for _, r := range o.Reasons {
			if len(r.Lines) == 0 {
				t.Errorf("%s: the reason %s cites no line", c.Name, r.Key)
			}
			for _, id := range r.Lines {
				if tb.Line(id) == nil && !told[id] {
					told[id] = true
					t.Errorf("%s: the reason %s cites %s, which is no line of the tables", c.Name, r.Key, id)
				}
			}
		}
	}
}

// TestWhatIsCovered holds that the corpus has a case for every kind, for each
// of the four outcomes of every kind that can have it, for every line of the
// sheet that lists the signs of a kind, and for the lines on contaminants, life,
// outcomes and common practice.
func TestWhatIsCovered(t *testing.T) {
	tb := tables.Default()
	cases := all(t)
	kinds, lines := map[kit.KindID][4]int{}, map[string]bool{}
	for _, c := range cases {
		n := kinds[c.Record.Piece.Kind]
		n[c.Demand]++
		kinds[c.Record.Piece.Kind] = n
		for _, id := range c.Lines {
			lines[id] = true
		}
	}
	for i := range tb.Kinds {
		k := &tb.Kinds[i]
		n := kinds[k.ID]
		t.Logf("%-11s keep %3d, sooner %3d, set aside %3d, withdraw %3d", k.ID, n[kit.Keep], n[kit.KeepSooner], n[kit.SetAside], n[kit.Withdraw])
		for v := kit.Keep; v <= kit.Withdraw; v++ {
			weighs := slices.ContainsFunc(k.Signs, func(s table.Sign) bool { return s.Class == table.Weigh })
			if n[v] == 0 && (v != kit.KeepSooner || weighs) {
				t.Errorf("no case in which a %s is demanded to be: %s", k.ID, v)
			}
		}
	}
	for i := range tb.Lines {
		id := tb.Lines[i].ID
		if strings.HasPrefix(id, "K-") && (strings.HasSuffix(id, "-ABS") || strings.HasSuffix(id, "-ASIDE") || strings.HasSuffix(id, "-WEIGH")) && !lines[id] {
			t.Errorf("no case rests on %s", id)
		}
	}
	for _, x := range []struct {
		letter   string
		from, to int
	}{{"C-", 30, 39}, {"L-", 3, 12}, {"R-", 1, 13}, {"M-", 1, 9}} { // contaminants, life, outcomes, common practice
		for n := x.from; n <= x.to; n++ {
			if id := fmt.Sprintf("%s%02d", x.letter, n); !lines[id] {
				t.Errorf("no case rests on %s", id)
			}
		}
	}
	total := [4]int{}
	for _, n := range kinds {
		for v := range n {
			total[v] += n[v]
		}
	}
	t.Logf("%d cases: keep %d, keep, look sooner %d, set aside %d, withdraw %d", len(cases), total[kit.Keep], total[kit.KeepSooner], total[kit.SetAside], total[kit.Withdraw])
}

// TestHeads holds that the heads of cases are read strictly.
func TestHeads(t *testing.T) {
	record, err := os.ReadFile(filepath.Join(dir, "a2-line-light-fuzz.toml"))
	if err != nil {
		t.Fatal(err)
	}
	_, body, _ := strings.Cut(string(record), "\n\n")
	for _, c := range []struct{ head, want string }{
		{"# demand: keep\n# line: R-08\n# because: sound\n", ""},
		{"# line: R-08\n# because: sound\n", "“# demand: …” is missing"},
		{"# demand: keep\n# because: sound\n", "“# line: …” is missing"},
		{"# demand: keep\n# line: R-08\n", "“# because: …” is missing"},
		{"# demand: keep\n# line: R-08\n# because:\n", "says nothing"},
		{"# demand: stay\n# line: R-08\n# because: sound\n", "is no outcome"},
		{"# demand: keep\n# line: R-08, X-01\n# because: sound\n", "“X-01” is not in the tables"},
		{"# demand: keep\n# line: R-08\n# because: sound\n# held\n", "only what is withdrawn can be"},
		{"# demand: keep\n# demand: withdraw\n# line: R-08\n# because: sound\n", "is there twice"},
		{"# demand: keep\n# line: R-08\n# because: sound\n# mark: seen\n", "is no head of a case"},
	} {
		d := t.TempDir()
		if err := os.WriteFile(filepath.Join(d, "case.toml"), []byte(c.head+"\n"+body), 0o600); err != nil {
			t.Fatal(err)
		}
		cases, faults := Load(d, tables.Default())
		got := strings.Join(faults, "\n")
		if (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("head %q: faults %q, want %q", c.head, got, c.want)
		}
		if len(cases) != 1 {
			t.Errorf("head %q: %d cases, want 1", c.head, len(cases))
		}
	}
	if _, faults := Load(filepath.Join(dir, "none"), tables.Default()); len(faults) != 0 {
		t.Errorf("an empty directory has faults: %v", faults)
	}
}
