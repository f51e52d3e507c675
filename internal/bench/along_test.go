package bench

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/measure"
	"kernbook/internal/core/num"
)

const folder = "../../testdata/published/readings/"

// published reads the rope of the reference data and writes it in the form of along:
// 60 stations, simulated with 0.06 mm, 0.16 mm thinner at stations 37 to 41 from 0.
func published(t *testing.T) (csvText, tomlText string) {
	t.Helper()
	f, err := os.Open(folder + "c1_rope.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 61 {
		t.Fatal(len(rows), err)
	}
	var c, m strings.Builder
	c.WriteString("# before: tension 150 N; method calliper; wet no\n# now: tension 0.15 kN; method Calliper; wet no\nat m,before mm,before (mm),before [mm],now mm,now mm,now mm\n")
	m.WriteString("at_unit = \"m\"\nunit = \"mm\"\n[before]\ntension = \"150 N\"\nmethod = \"calliper\"\nwet = \"no\"\n[now]\ntension = \"150 N\"\nmethod = \"calliper\"\nwet = \"no\"\n")
	for _, r := range rows[1:] {
		c.WriteString(strings.Join(r[1:], ",") + "\n")
		fmt.Fprintf(&m, "[[station]]\nat = %s\nbefore = [%s]\nnow = [%s]\n", r[1], strings.Join(r[2:5], ", "), strings.Join(r[5:8], ", "))
	}
	return c.String(), m.String()
}

func known() AlongAsk {
	return AlongAsk{Gauge: measure.Gauge{Deviation: 0.06}, From: "said", Level: UsualLevel, Widest: 12}
}

// TestAlong: of the reference rope exactly the place that was made thinner is flagged,
// from both forms of file; what is told of the gauge agrees with other sums.
func TestAlong(t *testing.T) {
	c, m := published(t)
	for name, text := range map[string]string{"x.csv": c, "x.toml": m} {
		r, faults := ReadAlong(name, []byte(text))
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		s, apart, err := Along(r, known())
		if err != nil || len(apart) > 0 {
			t.Fatal(apart, err)
		}
		if len(s.Flagged) != 1 || s.Flagged[0].First != 37 || s.Flagged[0].Count != 5 || s.Flagged[0].From != 9125 || s.Flagged[0].To != 10375 {
			t.Errorf("%s: flagged %+v", name, s.Flagged)
		}
		if p := s.Flagged[0].P; p > 0.001 || s.PError[0] < 0.9*1.96*math.Sqrt(p*(1-p)/Runs) {
			t.Errorf("%s: p %v ± %v", name, p, s.PError[0])
		}
		if s.Sides == nil || s.Sides.N != 30 || len(s.Missing) != 0 || len(s.Unsaid) != 0 || s.Uneven || s.Readings != [2]int{3, 3} {
			t.Errorf("%s: %+v", name, s)
		}
		// The mean of the differences, summed here.
		sum := 0.0
		for _, x := range r.Stations {
			sum += (x.Now[0]+x.Now[1]+x.Now[2])/3 - (x.Base[0]+x.Base[1]+x.Base[2])/3
		}
		if math.Abs(s.Overall.Mean-sum/60) > 1e-12 || math.Abs(s.Overall.Error-0.06*math.Sqrt(2.0/3/60)) > 1e-12 {
			t.Errorf("%s: mean %v ± %v, want %v ± %v", name, s.Overall.Mean, s.Overall.Error, sum/60, 0.06*math.Sqrt(2.0/3/60))
		}
		// One station: (critical + z)·s·√(2/3)·√(1 + 1/59).
		want := (s.Critical + num.NormalQuantile(0.2)) * 0.06 * math.Sqrt(2.0/3) * math.Sqrt(1+1.0/59)
		if f := s.Findable[0]; f.Stations != 1 || f.Long != 250 || math.Abs(f.Loss-want) > 1e-12 {
			t.Errorf("%s: findable %+v, want %v", name, f, want)
		}
		if math.Abs(s.Sides.Margin-1.959963984540054*math.Sqrt2*0.06) > 1e-9 {
			t.Errorf("%s: margin %v", name, s.Sides.Margin)
		}
		if again, _, _ := Along(r, known()); again.Critical != s.Critical || again.Best.P != s.Best.P {
			t.Error("the same readings gave another answer")
		}
	}
}

// TestAlongOddities: a slip, a missing reading and uneven stations are told.
func TestAlongOddities(t *testing.T) {
	c, _ := published(t)
	lines := strings.Split(c, "\n")
	cut := strings.Split(lines[10], ",")
	lines[10] = strings.Join(append(cut[:4], "", "", ""), ",")
	slip := strings.Split(lines[20], ",")
	slip[4] = "11.10"
	lines[20] = strings.Join(slip, ",")
	r, faults := ReadAlong("x.csv", []byte(strings.Join(lines, "\n")))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	s, _, err := Along(r, known())
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Missing) != 1 || s.Missing[0] != 1750 || !s.Uneven || len(s.Differences) != 59 {
		t.Errorf("missing %v, uneven %v", s.Missing, s.Uneven)
	}
	told := 0
	for _, d := range s.Differences {
		for _, v := range d.Slips {
			if told++; d.At != 4250 || v != 11.10 {
				t.Errorf("slip at %v: %v", d.At, v)
			}
		}
	}
	if told != 1 {
		t.Errorf("%d slips", told)
	}
}

// TestNotCompared: other tension, wetness or method, or what one set alone says, is
// not compared; what neither says is named.
func TestNotCompared(t *testing.T) {
	both := Taken{Tension: "150 N", Wet: "no", Method: "calliper"}
	for _, c := range []struct {
		before, now   Taken
		apart, unsaid string
	}{
		{both, both, "", ""},
		{both, Taken{Tension: "0.15kN", Wet: "no", Method: "Calliper"}, "", ""},
		{both, Taken{Tension: "151 N", Wet: "no", Method: "calliper"}, "tension", ""},
		{both, Taken{Tension: "150 N", Wet: "yes", Method: "calliper"}, "wet", ""},
		{both, Taken{Tension: "150 N", Wet: "no", Method: "tape"}, "method", ""},
		{both, Taken{}, "tension wet method", ""},
		{Taken{}, both, "tension wet method", ""},
		{Taken{}, Taken{}, "", "tension wet method"},
	} {
		apart, unsaid := Comparable(&c.before, &c.now)
		var got []string
		for _, x := range apart {
			got = append(got, x.What)
		}
		if strings.Join(got, " ") != c.apart || strings.Join(unsaid, " ") != c.unsaid {
			t.Errorf("%+v, %+v: apart %v, not said %v", c.before, c.now, got, unsaid)
		}
		r := &Readings{Unit: "mm", Before: c.before, Now: c.now}
		for i := range 8 {
			r.Stations = append(r.Stations, measure.Station{At: float64(i) * 50, Base: []float64{11.7}, Now: []float64{11.7 - float64(i%2)/100}})
		}
		if s, apart, err := Along(r, AlongAsk{Gauge: measure.Gauge{Deviation: 0.1}, Level: 0.05}); err != nil || (s == nil) != (c.apart != "") || (len(apart) > 0) != (c.apart != "") {
			t.Errorf("%+v, %+v: %v, %v", c.before, c.now, apart, err)
		}
	}
}

// TestAlongRefused: each fault of a file is told with its line.
func TestAlongRefused(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"x.csv", "", "x.csv: has no header and stations"},
		{"x.csv", "at mm,now mm\n0,1\n", "x.csv:1: has not the columns at, before and now"},
		{"x.csv", "at,before mm,now mm\n0,1,1\n", "x.csv:1: at: is no single column of places with its unit of length"},
		{"x.csv", "at mm,before mm,now cm\n0,1,1\n", "x.csv:1: now cm: has no unit, or another than the columns before"},
		{"x.csv", "at mm,before,now\n0,1,1\n", "x.csv:1: before: has no unit"},
		{"x.csv", "at mm,before mm,now mm,colour\n0,1,1,red\n", "x.csv:1: colour: is no column that is known"},
		{"x.csv", "at mm,before mm,now mm\n0,1\n", "x.csv:2: has 2 columns where the header has 3"},
		{"x.csv", "at mm,before mm,now mm\n0,NaN,1\n", "x.csv:2: before mm: “NaN” does not begin with a number"},
		{"x.csv", "at mm,before mm,now mm\n0,-1,1\n", "x.csv:2: before mm: “-1” is no reading"},
		{"x.csv", "at mm,before mm,now mm\n0,0,1\n", "x.csv:2: before mm: “0” is no reading"},
		{"x.csv", "at mm,before mm,now mm\n0,1,99999999\n", "x.csv:2: now mm: “99999999” is larger than anything"},
		{"x.csv", "# now: wet perhaps\nat mm,before mm,now mm\n0,1,1\n", "x.csv: now.wet: “perhaps” is not a word"},
		{"x.csv", "# now: tension 5\nat mm,before mm,now mm\n0,1,1\n", "x.csv: now.tension: “5” has no unit"},
		{"x.csv", "# now: mood good\nat mm,before mm,now mm\n0,1,1\n", "x.csv:1: now: says “mood good”, which is not known"},
		{"x.csv", "at mm,before mm,now mm\n0,\"1,1\n", "x.csv: cannot be read as comma-separated values"},
		{"x.toml", "unit = \"mm\"\n", "x.toml:1: at_unit: is missing"},
		{"x.toml", "at_unit = \"mm\"\nunit = \"mm\"\ncolour = 1\n[[station]]\nat = 1\n", "unknown key “colour”"},
		{"x.toml", "at_unit = \"mm\"\nunit = \"mm\"\n[[station]]\nat = 1\nnow = [0]\n", "holds a reading that is none"},
		{"x.toml", "at_unit = \"mm\"\nunit = \"mm\"\n[[station]]\nat = -1\n", "lies before end A"},
	} {
		r, faults := ReadAlong(c.name, []byte(c.text))
		var all []string
		for _, f := range faults {
			all = append(all, f.Error())
		}
		if got := strings.Join(all, "\n"); r != nil || !strings.Contains(got, c.want) {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
	}
	few, _ := ReadAlong("x.csv", []byte("at mm,before mm,now mm\n0,1,1\n50,1,\n"))
	if _, _, err := Along(few, known()); err == nil || !strings.Contains(err.Error(), "5 to 2000 stations, not 1") {
		t.Errorf("one station: %v", err)
	}
	back, _ := ReadAlong("x.csv", []byte("at mm,before mm,now mm\n50,1,1\n0,1,1\n"))
	if _, _, err := Along(back, known()); err == nil || !strings.Contains(err.Error(), "station 2 does not lie beyond the one before") {
		t.Errorf("stations in the wrong order: %v", err)
	}
}

// TestSemicolons: the form that spreadsheets write where the comma is the decimal mark.
func TestSemicolons(t *testing.T) {
	r, faults := ReadAlong("x.csv", []byte("# now: method calliper, two square; wet no\nat mm;before mm;now mm\n0;11,70;11,65\n50;11,70;11,65\n"))
	if len(faults) > 0 || r.Now.Method != "calliper, two square" || len(r.Stations) != 2 || r.Stations[1].Base[0] != 11.7 || r.Stations[1].Now[0] != 11.65 {
		t.Errorf("%+v, %v", r, faults)
	}
}

// TestStudy: the published study of ten parts by three hands (Houf and Berman 1988, as
// the SAS sample library has it, seen): what repeats 0.511111, interaction 0.727984,
// hands 0.564609, parts 48.292593; and along takes the first two of it.
func TestStudy(t *testing.T) {
	b, err := os.ReadFile(folder + "d1_houf_gauge.csv")
	if err != nil {
		t.Fatal(err)
	}
	trials, unit, faults := ReadStudy("s.csv", []byte(strings.Replace(string(b), `"part","op","y"`, "part,hand,value mm", 1)))
	if len(faults) > 0 || unit != "mm" || len(trials) != 90 {
		t.Fatal(len(trials), unit, faults)
	}
	s, err := measure.Crossed(trials)
	if err != nil {
		t.Fatal(err)
	}
	for what, c := range map[string][2]float64{"repeat": {s.With.Repeat, 0.511111111111114}, "interaction": {s.With.Interaction, 0.727983539094653}, "hand": {s.With.Hand, 0.564609053497944}, "part": {s.With.Part, 48.2925925925926}} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s: %v, published %v", what, c[0], c[1])
		}
	}
	g := GaugeOf(&s, 0)
	if math.Abs(g.Deviation-math.Sqrt(0.511111111111114+0.727983539094653)) > 1e-9 || g.Freedom != 60 {
		t.Errorf("the gauge: %+v", g)
	}
	for text, want := range map[string]string{
		"part,hand\n1,2\n":                 "s.csv:1: has not the columns part, hand and value",
		"part,hand,value\n1,2,3\n":         "s.csv:1: value: has no unit",
		"part,hand,value mm\n1,,3\n":       "s.csv:2: has not a part, a hand and a value",
		"part,hand,value mm\n1,p1,three\n": "s.csv:2: value mm: “three” does not begin with a number",
		"part,hand,value mm,x\n1,p1,3,4\n": "s.csv:1: x: is no column that is known",
		"":                                 "s.csv: has no header and readings",
	} {
		_, _, faults := ReadStudy("s.csv", []byte(text))
		if len(faults) == 0 || !strings.Contains(faults[0].Error(), want) {
			t.Errorf("%q: %v, want %q", text, faults, want)
		}
	}
}

// TestAnyFile: whatever a file holds is read or refused with a sentence, and what was
// read is worked out or refused.
func TestAnyFile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cell := rapid.SampledFrom([]string{"", "0", "50", "100", "150", "200", "250", "11.7", "11,65", "-1", "NaN", "at mm", "before mm", "now mm", "# now: wet yes", "\"", "1e9"})
		var b strings.Builder
		b.WriteString(rapid.SampledFrom([]string{"at mm,before mm,now mm\n", "at mm;before mm;now mm\n", "part,hand,value mm\n", "", "[[station]]\n"}).Draw(t, "head"))
		for range rapid.IntRange(0, 9).Draw(t, "rows") {
			for k := range rapid.IntRange(1, 4).Draw(t, "cells") {
				if k > 0 {
					b.WriteString(rapid.SampledFrom([]string{",", ",", ";"}).Draw(t, "comma"))
				}
				b.WriteString(cell.Draw(t, "cell"))
			}
			b.WriteString("\n")
		}
		name := rapid.SampledFrom([]string{"x.csv", "x.toml"}).Draw(t, "name")
		r, faults := ReadAlong(name, []byte(b.String()))
		if (r == nil) == (len(faults) == 0) {
			t.Fatalf("%q: read and refused, or neither", b.String())
		}
		if r != nil {
			if s, apart, err := Along(r, AlongAsk{Gauge: measure.Gauge{Deviation: 0.06}, Level: 0.05}); s == nil && apart == nil && err == nil {
				t.Fatalf("%q: neither a sheet nor why not", b.String())
			}
		}
		_, _, _ = ReadStudy(name, []byte(b.String()))
	})
}

// TestMiddle: the middle is that of the rope that was read at all, also where an end
// station lacks a reading.
func TestMiddle(t *testing.T) {
	r := &Readings{Unit: "mm"}
	for i := range 11 {
		r.Stations = append(r.Stations, measure.Station{At: float64(i) * 100, Base: []float64{11.7}, Now: []float64{11.7 - float64(i*i)/1000}})
	}
	r.Stations[0].Now = nil
	s, _, err := Along(r, AlongAsk{Gauge: measure.Gauge{Deviation: 0.1}, Level: 0.05})
	if err != nil || s.Sides == nil {
		t.Fatal(err)
	}
	// Pairs 1-9, 2-8, 3-7, 4-6: right minus left -(81-1), -(64-4), -(49-9), -(36-16) over 1000, mean -0.050.
	if s.Sides.N != 4 || math.Abs(s.Sides.Mean+0.050) > 1e-12 {
		t.Errorf("%+v", s.Sides)
	}
}
