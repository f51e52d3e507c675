package tables

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	data "kernbook/tables"
)

// smallRing is a kind with parts only and no doubt figure.
func smallRing() string {
	return `[unit]
cover = "share"
minutes = "minutes"
[kind]
id = "ring"
words = "ring"
group = "metal"
axis = "parts"
sides = ["one"]
strict = false
doubt = false
fitted = false
` + cited + `[[part]]
id = "body"
words = "body"
extent = "150 mm"
` + cited + `[[sign]]
id = "crack"
words = "crack"
class = "absolute"
looks = ["eye"]
` + cited + each("pre-use interim thorough", `[[need]]
exam = "%"
look = "eye"
cover = 1
`) + `[[ask]]
id = "fall"
words = "A fall?"
yes = "fall"
` + cited + `[[time]]
look = "eye"
minutes = 1
` + cited
}

func TestSmallSetLoads(t *testing.T) {
	tt, faults := Load(set("kinds/ring.toml", smallRing()))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	k := tt.Kind(kit.Bridge)
	if k == nil || tt.Kind(kit.Ring) == nil || tt.Line("X-1") == nil {
		t.Fatal("kinds or lines cannot be looked up")
	}
	if m := k.Modes[0]; m.File != "kinds/bridge.toml" || m.Row != lineOf(small["kinds/bridge.toml"], "[[mode]]") {
		t.Errorf("the first mode stands at %s:%d", m.File, m.Row)
	}
	if s := k.Sign("cut-seen"); s == nil || !slices.Equal(s.Lines, []string{"X-1"}) || s.Figures != table.Assumed {
		t.Errorf("cut-seen is %+v", s)
	}
	if q := k.Quantity("diameter"); q == nil || len(q.Limits) != 1 || q.Limits[0].Share != -100 || q.Limits[0].Verdict != kit.Withdraw {
		t.Errorf("diameter is %+v", q)
	}
	if p := tt.Cause("dirt").Priors; len(p) != 1 || p[0].Kind != kit.Bridge || p[0].P != 0.1 {
		t.Errorf("priors of dirt are %+v", p)
	}
	if e := tt.Event("fall"); len(e.Kernels) != 1 || e.KernelFor(kit.Bridge, "cut", 0.3) == nil || len(e.Effects) != 1 {
		t.Errorf("the fall is %+v", e)
	}
	if l := tt.Lives; len(l) != 1 || l[0].Months != 60 || l[0].Country != "GB" || !l[0].Unless {
		t.Errorf("lives are %+v", l)
	}
	if f := tt.Fibre("pes").Facts; len(f) != 3 || f[0].Value != "250 °C to 260 °C" || f[1].Low != 1.38 || f[2].High != 0.005 {
		t.Errorf("facts of polyester are %+v", f)
	}
	for _, l := range tt.Looks {
		i := slices.IndexFunc(l.Factors, func(f table.Factor) bool { return f.Condition == "light" && f.State == "" })
		if len(l.Kappa) != 4 || i < 0 || l.Factors[i].F != 0.5 {
			t.Errorf("the look %s has %d qualities, and its factor for light not said is no. %d", l.ID, len(l.Kappa), i)
		}
	}
}

// TestTakenOver holds that a country has the rows of those it takes over.
func TestTakenOver(t *testing.T) {
	tt, faults := Load(set("", ""))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	var of []string
	for _, x := range tt.Intervals {
		of = append(of, x.Country+" from "+x.From)
	}
	if want := []string{"GB from GB", "XX from GB"}; !slices.Equal(of, want) {
		t.Errorf("intervals are %v, wanted %v", of, want)
	}
	if len(tt.Laws) != 2 || tt.Laws[1].Country != "XX" {
		t.Errorf("laws are %+v", tt.Laws)
	}
}

func TestAllFaultsInOneGo(t *testing.T) {
	files := set("causes.toml", strings.Replace(small["causes.toml"], `"X-1"`, `"X-2"`, 1))
	files["kinds/bridge.toml"].Data = []byte(strings.NewReplacer("free = 0.7", "free = 0.6", "minutes = 3", "minutes = -3", "p = 0.1", "p = 2").Replace(smallBridge))
	delete(files, "life.toml")
	_, faults := Load(files)
	for _, want := range []string{"causes.toml", "life.toml", "shares", "minutes", "time[0]", "prior[0]"} {
		if !strings.Contains(faults.Error(), want) {
			t.Errorf("nothing is said of %s in\n%v", want, faults)
		}
	}
	if len(faults) != 5 {
		t.Errorf("%d faults, wanted 5:\n%v", len(faults), faults)
	}
	if !slices.IsSortedFunc(faults, func(a, b doc.Fault) int { return strings.Compare(a.File, b.File) }) {
		t.Errorf("the faults are not in the order of the files:\n%v", faults)
	}
}

// TestLostFileIsOneFault holds that a file that cannot be read is not followed
// by a fault for every name it would have held.
func TestLostFileIsOneFault(t *testing.T) {
	for _, name := range []string{"lines.toml", "fibres.toml", "causes.toml", "events.toml", "intervals.toml", "contaminants.toml", "use.toml"} {
		for _, text := range []string{"", "\xff"} {
			_, faults := Load(set(name, text))
			if len(faults) != 1 || faults[0].File != name {
				t.Errorf("%s lost: %v", name, faults)
			}
		}
	}
}

func TestVersion(t *testing.T) {
	version := func(f fs.FS) string {
		tt, faults := Load(f)
		if err := faults.Err(); err != nil {
			t.Fatal(err)
		}
		return tt.Version
	}
	a := version(set("", ""))
	if len(a) != 64 || a != version(set("", "")) {
		t.Errorf("the version of the same files is %s and then another", a)
	}
	if b := version(set("causes.toml", small["causes.toml"]+"\n")); a == b {
		t.Error("one byte more leaves the version as it was")
	}
	// the same bytes in all, moved from the end of one file to the start of the next
	x := set("causes.toml", small["causes.toml"]+"#\n")
	y := set("", "")
	y["contaminants.toml"].Data = append([]byte("#\n"), y["contaminants.toml"].Data...)
	if version(x) == version(y) {
		t.Error("bytes moved from one file to the next leave the version as it was")
	}
}

func TestDefaultLoads(t *testing.T) {
	tt, faults := Load(data.Files)
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	if d := Default(); d.Version != tt.Version || d.Kind(kit.Bridge) == nil {
		t.Errorf("the default tables are %s, the files %s", d.Version, tt.Version)
	}
	if a, b := Default(), Default(); a != b {
		t.Error("the default tables are read more than once")
	}
}

// TestBridgeFinds holds that the signs of the bridge, put together look by look,
// find what the tried default tables of the model find (q for findable impaired
// and findable unfit). The figures are assumed: no source has them.
func TestBridgeFinds(t *testing.T) {
	type q map[string][2]float64
	tried := map[kit.LookID]q{
		kit.Ask: {"cut": {.1, .2}, "heat": {.1, .2}, "chemical": {.3, .4}, "overload": {.4, .6}},
		kit.Eye: {"cover": {.6, .9}, "cut": {.5, .8}, "heat": {.5, .8}, "chemical": {.4, .6}, "ageing": {.15, .4}, "core-slip": {.2, .5}, "end": {.3, .5}},
		kit.Hand: {"cover": {.3, .6}, "core": {.3, .8}, "cut": {.4, .7}, "heat": {.5, .8}, "chemical": {.2, .4}, "overload": {.15, .4},
			"ageing": {.1, .3}, "core-slip": {.3, .6}, "end": {.3, .6}},
		kit.Bight: {"core": {.4, .85}, "cut": {.3, .7}, "heat": {.4, .7}, "chemical": {.2, .5}, "overload": {.3, .6}, "ageing": {.2, .5}, "core-slip": {.3, .6}},
		kit.Gauge: {"core": {.3, .7}, "overload": {.2, .4}, "core-slip": {.2, .4}},
		kit.Ends:  {"core-slip": {.4, .8}, "end": {.6, .95}},
	}
	k := Default().Kind(kit.Bridge)
	for _, look := range kit.Looks {
		miss := q{}
		for _, s := range k.Signs {
			if !slices.Contains(s.Looks, look) {
				continue
			}
			for _, l := range s.Links {
				m, ok := miss[l.Mode]
				if !ok {
					m = [2]float64{1, 1}
				}
				miss[l.Mode] = [2]float64{m[0] * (1 - l.Q1), m[1] * (1 - l.Q2)}
			}
		}
		for _, mode := range slices.Sorted(maps.Keys(miss)) {
			want := tried[look][mode]
			for x, m := range miss[mode] {
				if math.Abs(1-m-want[x]) > 0.005 {
					t.Errorf("%s finds %.4f of %s in state %d, the tried tables %g", look, 1-m, mode, x+1, want[x])
				}
			}
		}
		for mode := range tried[look] {
			if _, ok := miss[mode]; !ok {
				t.Errorf("%s finds nothing of %s", look, mode)
			}
		}
	}
}

// TestEveryRowIsShown counts the rows of the files apart from the loader, and
// holds that each is printed, with its standing and its place.
func TestEveryRowIsShown(t *testing.T) {
	tt := Default()
	figures := map[string]int{}
	for _, r := range Rows(tt) {
		if r.Sort == "figures" {
			figures[r.File]++
		}
	}
	for _, c := range Counts(tt) {
		b, err := fs.ReadFile(data.Files, c.File)
		if err != nil {
			t.Fatal(err)
		}
		if n := strings.Count("\n"+string(b), "\n[") - strings.Count("\n"+string(b), "\n[unit]"); n+figures[c.File] != c.Rows() {
			t.Errorf("%s has %d rows and %d with figures, shown are %d", c.File, n, figures[c.File], c.Rows())
		}
	}
	for _, what := range append(Names(tt), "") {
		var out bytes.Buffer
		if err := Print(&out, tt, what); err != nil || out.Len() == 0 {
			t.Errorf("tables show %s: %v, %d bytes", what, err, out.Len())
		}
	}
	var out bytes.Buffer
	err := Print(&out, tt, "brige")
	if err == nil || !strings.Contains(err.Error(), "“brige”") || !strings.Contains(err.Error(), "bridge") {
		t.Errorf("tables show brige: %v", err)
	}
}

func TestAssumed(t *testing.T) {
	tt, faults := Load(set("", ""))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range Assumed(tt) {
		got = append(got, r.Sort+" "+r.Name)
		if line := strings.Split(small[r.File], "\n")[r.Row-1]; !strings.HasPrefix(line, "[[") || !strings.HasPrefix(r.At(), r.File+":") {
			t.Errorf("%s is said to stand at %s, where there is %q", r.Name, r.At(), line)
		}
	}
	// every row of the small set is published; the figures of its signs are nobody's
	if want := []string{"figures cut-seen", "figures thin", "figures long"}; !slices.Equal(got, want) {
		t.Errorf("assumed are %v, wanted %v", got, want)
	}
	for every, want := range map[bool]string{
		false: "\nAssumed: 4 rows, chosen by this project\n\nkinds/bridge.toml: 3 of 24\n  3 figures: cut-seen; thin; long\n\nlines.toml: 1 of 2\n  1 line: W-1\n",
		true:  "\nbridge figures thin: links age 0.4/0.6; leak 0.002 per metre; causes dirt 0.5\n    assumed; ",
	} {
		var out bytes.Buffer
		if err := Check(&out, tt, every); err != nil || !strings.Contains(out.String(), tt.Version) || !strings.Contains(out.String(), want) {
			t.Errorf("tables check, all %v: %v, without %q\n%s", every, err, want, &out)
		}
	}
}

// TestCheckListsWhatIsAssumed: of the built-in tables, check counts as many
// assumed rows in each file as the file itself has, and names each; with every
// row wanted, each stands there with its place.
func TestCheckListsWhatIsAssumed(t *testing.T) {
	tt := Default()
	var short, long bytes.Buffer
	if err := errors.Join(Check(&short, tt, false), Check(&long, tt, true)); err != nil {
		t.Fatal(err)
	}
	sum := 0
	for _, c := range Counts(tt) {
		b, err := data.Files.ReadFile(c.File)
		if err != nil {
			t.Fatal(err)
		}
		n := strings.Count("\n"+string(b), "\nstatus = \"assumed\"")
		for _, sign := range strings.Split(string(b), "\n[[sign]]\n")[1:] {
			sign, _, _ = strings.Cut(sign, "\n[[")
			if !strings.Contains(sign, "\nfigures = ") && (strings.Contains(sign, "\nlinks = ") || strings.Contains(sign, "\ncauses = ") || strings.Contains(sign, "\nleak = ")) {
				n++ // its figures
			}
		}
		if c.Assumed != n {
			t.Errorf("%s: %d assumed are counted, the file has %d", c.File, c.Assumed, n)
		}
		sum += n
		if head := fmt.Sprintf("\n%s: %d of %d\n", c.File, n, c.Rows()); n > 0 && (!strings.Contains(short.String(), head) || !strings.Contains(long.String(), head)) {
			t.Errorf("check does not say %q", head)
		}
	}
	if head := fmt.Sprintf("\nAssumed: %d rows, ", sum); sum < 1000 || !strings.Contains(short.String(), head) {
		t.Errorf("check does not say %q", head)
	}
	for _, r := range Assumed(tt) {
		if !strings.Contains(short.String(), strings.Split(r.Name, "; ")[0]) {
			t.Errorf("check does not name %s %s", r.Sort, r.Name)
		}
		if row := r.Of + " " + r.Sort + " " + r.Name + ": " + r.Says + "\n    assumed; "; !strings.Contains(long.String(), row) || !strings.Contains(long.String(), "; "+r.At()+"\n") {
			t.Errorf("check --all has not %q at %s", row, r.At())
		}
	}
	for i := range tt.Lines {
		if l := &tt.Lines[i]; l.Status == table.Assumed && (!strings.Contains(short.String(), l.ID) || !strings.Contains(long.String(), "\n"+l.ID+" (")) {
			t.Errorf("check does not name the line %s", l.ID)
		}
	}
}
