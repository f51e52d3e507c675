package measure

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"os"
	"strconv"
	"testing"

	"kernbook/internal/core/num"
)

const folder = "../../../testdata/published/readings/"

// table reads a file of figures: its columns by name.
func table(t *testing.T, name string) map[string][]float64 {
	t.Helper()
	f, err := os.Open(folder + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", name, len(rows), err)
	}
	out := map[string][]float64{}
	for _, r := range rows[1:] {
		for i, v := range r {
			x, err := strconv.ParseFloat(v, 64)
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			out[rows[0][i]] = append(out[rows[0][i]], x)
		}
	}
	return out
}

func into(t *testing.T, name string, v any) {
	t.Helper()
	b, err := os.ReadFile(folder + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, v); err != nil {
		t.Fatal(err)
	}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, the reference has %.12g (tolerance %g)", what, got, want, tol)
	}
}

type interval struct {
	Crit, Lo95, Hi95 float64
}

type strongestOf struct {
	Stat         float64
	First, Width int
	PMC          float64  `json:"p_mc"`
	PBonferroni  float64  `json:"p_bonferroni"`
	Crit05       interval `json:"crit05"`
	Crit01       interval `json:"crit01"`
	Bonferroni05 float64  `json:"bonferroni05"`
}

type ropeReference struct {
	W        int
	Z        []float64
	Scan     map[string]json.RawMessage
	Estimate struct {
		Inside  float64 `json:"change_inside_mm"`
		Outside float64 `json:"change_outside_mm"`
		Local   float64 `json:"local_mm"`
		SE      float64 `json:"se_mm"`
	}
	Critical []struct {
		N, W int
		K1   interval `json:"known0_1_05"`
		K2   interval `json:"known0_2_05"`
		S1   interval `json:"shift_1_05"`
		S2   interval `json:"shift_2_05"`
		B1   float64  `json:"bonferroni_1"`
		B2   float64  `json:"bonferroni_2"`
	} `json:"critical_values_05"`
	Paired struct {
		Mean, SD, T, P float64
		CI95           [2]float64
		Tost           struct{ Margin, P float64 }
		Z              float64                  `json:"known_sigma_z"`
		BlandAltman    struct{ Lo, Hi float64 } `json:"bland_altman"`
	}
}

// rope gives the reference rope's stations: simulated, a loss of 0.16 mm planted at
// 37 to 41 and of 0.04 mm everywhere.
func rope(t *testing.T) []Station {
	c := table(t, "c1_rope.csv")
	var out []Station
	for i := range c["station"] {
		out = append(out, Station{At: c["metre"][i] * 1000,
			Base: []float64{c["base1"][i], c["base2"][i], c["base3"][i]}, Now: []float64{c["now1"][i], c["now2"][i], c["now3"][i]}})
	}
	return out
}

// TestRopeReference holds the scan of the reference rope: the same stretch, the same
// statistic, chances within what simulating leaves open.
func TestRopeReference(t *testing.T) {
	var ref ropeReference
	into(t, "c_rope.json", &ref)
	d, missing, err := Differences(rope(t), Gauge{Deviation: 0.06})
	if err != nil || missing != 0 || len(d) != len(ref.Z) {
		t.Fatalf("%d differences of %d, %d missing, %v", len(d), len(ref.Z), missing, err)
	}
	for i := range d {
		near(t, "z of station "+strconv.Itoa(i), d[i].Z, ref.Z[i], 1e-9)
	}
	for _, c := range []struct {
		name, side string
		form       Form
		by         Side
	}{{"known0", "one_sided", Change, Thinner}, {"known0", "two_sided", Change, Either}, {"shift", "one_sided", Contrast, Thinner}, {"shift", "two_sided", Contrast, Either}} {
		var both map[string]strongestOf
		if err := json.Unmarshal(ref.Scan[c.name], &both); err != nil {
			t.Fatal(err)
		}
		want := both[c.side]
		const runs = 20_000
		u, err := NewNull(len(d), ref.W, c.form, c.by, 0, runs, 5)
		if err != nil {
			t.Fatal(err)
		}
		flagged, best, err := Scan(d, u, 0.05)
		if err != nil || len(flagged) == 0 {
			t.Fatalf("%s %s: %d flagged, %v", c.name, c.side, len(flagged), err)
		}
		if best.First != want.First || best.Count != want.Width {
			t.Errorf("%s %s: strongest at %d width %d, the reference has %d width %d", c.name, c.side, best.First, best.Count, want.First, want.Width)
		}
		near(t, c.name+" "+c.side, best.Value, want.Stat, 1e-9)
		// Two simulations differ by their own errors: four standard errors of both.
		near(t, "p of "+c.name+" "+c.side, best.P, want.PMC, 1.0/runs+4*math.Sqrt(want.PMC/runs))
		v, lo, hi := u.Critical(0.05)
		near(t, "critical value of "+c.name+" "+c.side, v, want.Crit05.Crit, (hi-lo)+(want.Crit05.Hi95-want.Crit05.Lo95))
		near(t, "Bonferroni of "+c.name+" "+c.side, Bonferroni(len(d), ref.W, c.by, 0.05), want.Bonferroni05, 1e-9)
	}
	u, _ := NewNull(len(d), ref.W, Contrast, Thinner, 0, 20_000, 5)
	_, best, _ := Scan(d, u, 0.05)
	near(t, "change inside", best.Inside, ref.Estimate.Inside, 1e-12)
	near(t, "change outside", best.Outside, ref.Estimate.Outside, 1e-12)
	near(t, "local change", best.Local, ref.Estimate.Local, 1e-12)
	near(t, "its error", best.Error, ref.Estimate.SE, 1e-12)
	// Stations lie 250 mm apart; the planted loss is stations 37 to 41.
	near(t, "from", best.From, 36.5*250, 1e-9)
	near(t, "to", best.To, 41.5*250, 1e-9)
	if best.BeginLow > 37*250 || best.EndHigh < 41*250 {
		t.Errorf("the limits %g to %g leave some of the planted stretch out", best.BeginLow, best.EndHigh)
	}
}

// TestCriticalReference holds simulated critical values to the reference's, over
// numbers of stations and widths.
func TestCriticalReference(t *testing.T) {
	var ref ropeReference
	into(t, "c_rope.json", &ref)
	if len(ref.Critical) < 12 {
		t.Fatalf("%d rows", len(ref.Critical))
	}
	for _, r := range ref.Critical {
		if r.N > 60 && testing.Short() {
			continue
		}
		for _, c := range []struct {
			form Form
			side Side
			want interval
		}{{Change, Thinner, r.K1}, {Change, Either, r.K2}, {Contrast, Thinner, r.S1}, {Contrast, Either, r.S2}} {
			u, err := NewNull(r.N, r.W, c.form, c.side, 0, 10_000, uint64(17*r.N+r.W))
			if err != nil {
				t.Fatal(err)
			}
			v, lo, hi := u.Critical(0.05)
			near(t, "critical value, n "+strconv.Itoa(r.N)+", W "+strconv.Itoa(r.W), v, c.want.Crit, (hi-lo)+(c.want.Hi95-c.want.Lo95))
		}
		near(t, "Bonferroni", Bonferroni(r.N, r.W, Thinner, 0.05), r.B1, 1e-8)
		near(t, "Bonferroni, either side", Bonferroni(r.N, r.W, Either, 0.05), r.B2, 1e-8)
	}
	// W = 1 with the mean known has a closed form (Sidak).
	u, _ := NewNull(60, 1, Change, Thinner, 0, 50_000, 3)
	v, lo, hi := u.Critical(0.05)
	near(t, "one station of 60", v, num.NormalQuantile(1-math.Pow(0.95, 1.0/60)), 1.5*(hi-lo))
}

func TestPairsReference(t *testing.T) {
	var ref ropeReference
	into(t, "c_rope.json", &ref)
	c := table(t, "c2_pairs.csv")
	p, err := Paired(c["left"], c["right"], ref.Paired.Tost.Margin, 0.06)
	if err != nil {
		t.Fatal(err)
	}
	w := ref.Paired
	near(t, "mean", p.Mean, w.Mean, 1e-12)
	near(t, "deviation", p.Deviation, w.SD, 1e-12)
	near(t, "t", p.T, w.T, 1e-10)
	near(t, "p", p.P, w.P, 1e-10)
	near(t, "low", p.Low, w.CI95[0], 1e-10)
	near(t, "high", p.High, w.CI95[1], 1e-10)
	near(t, "p of equality", p.PEqual, w.Tost.P, 1e-10)
	near(t, "z", p.Z, w.Z, 1e-10)
	near(t, "single low", p.LowOne, w.BlandAltman.Lo, 1e-10)
	near(t, "single high", p.HighOne, w.BlandAltman.Hi, 1e-10)
}

type summary struct {
	Repeat   float64 `json:"var_repeatability"`
	Repro    float64 `json:"var_reproducibility"`
	Gauge    float64 `json:"var_grr"`
	Part     float64 `json:"var_part"`
	Total    float64 `json:"var_total"`
	Percent  float64 `json:"pct_contribution_grr"`
	Study    float64 `json:"pct_study_grr"`
	Classes  float64 `json:"ndc"`
	SDCSame  float64 `json:"sdc95_repeatability"`
	SDCOther float64 `json:"sdc95_grr"`
}

func TestStudyReference(t *testing.T) {
	var ref struct {
		Houf struct {
			Table struct {
				DF, SS []float64
				F      float64 `json:"F_interaction"`
				P      float64 `json:"p_interaction"`
			}
			Raw     struct{ Repeatability, Interaction, Operator, Part float64 } `json:"components_raw"`
			With    summary                                                      `json:"with_interaction"`
			Without summary                                                      `json:"pooled_without_interaction"`
			CI      [2]float64                                                   `json:"ci95_repeatability_sd"`
		}
		Nist map[string]struct {
			L1  float64 `json:"level1_sd"`
			F1  float64 `json:"df1"`
			L2  float64 `json:"level2_sd"`
			F2  float64 `json:"df2"`
			L3  float64 `json:"level3_sd"`
			F3  float64 `json:"df3"`
			Day float64 `json:"var_days"`
			Run float64 `json:"var_runs"`
			One float64 `json:"combined_sd_one_reading"`
		} `json:"nist_mpc61"`
	}
	into(t, "d_gauge.json", &ref)
	c := table(t, "d1_houf_gauge.csv")
	var trials []Trial
	for i := range c["y"] {
		trials = append(trials, Trial{strconv.Itoa(int(c["part"][i])), strconv.Itoa(int(c["op"][i])), c["y"][i]})
	}
	s, err := Crossed(trials)
	if err != nil || s.Parts != 10 || s.Hands != 3 || s.Times != 3 {
		t.Fatalf("%d × %d × %d, %v", s.Parts, s.Hands, s.Times, err)
	}
	h := ref.Houf
	for i := range s.SumSquares {
		near(t, "sum of squares", s.SumSquares[i], h.Table.SS[i], 1e-8)
		near(t, "degrees of freedom", s.Freedom[i], h.Table.DF[i], 0)
	}
	near(t, "F", s.F, h.Table.F, 1e-9)
	near(t, "p", s.P, h.Table.P, 1e-14)
	near(t, "raw repeat", s.Raw.Repeat, h.Raw.Repeatability, 1e-10)
	near(t, "raw interaction", s.Raw.Interaction, h.Raw.Interaction, 1e-10)
	near(t, "raw hand", s.Raw.Hand, h.Raw.Operator, 1e-10)
	near(t, "raw part", s.Raw.Part, h.Raw.Part, 1e-10)
	near(t, "lower limit of what repeats", s.RepeatLow, h.CI[0], 1e-9)
	near(t, "upper limit of what repeats", s.RepeatHigh, h.CI[1], 1e-9)
	for name, c := range map[string]struct {
		got  Components
		want summary
	}{"with": {s.With, h.With}, "without": {s.Without, h.Without}} {
		near(t, name+": repeat", c.got.Repeat, c.want.Repeat, 1e-10)
		near(t, name+": other hands", c.got.Reproducible(), c.want.Repro, 1e-10)
		near(t, name+": gauge", c.got.Gauge(), c.want.Gauge, 1e-10)
		near(t, name+": part", c.got.Part, c.want.Part, 1e-9)
		near(t, name+": total", c.got.Total(), c.want.Total, 1e-9)
		near(t, name+": share", 100*c.got.Share(), c.want.Percent, 1e-9)
		near(t, name+": share of deviation", 100*math.Sqrt(c.got.Share()), c.want.Study, 1e-9)
		near(t, name+": classes", c.got.Classes(), c.want.Classes, 0)
		near(t, name+": detectable, same hand", c.got.Detectable(true), c.want.SDCSame, 1e-9)
		near(t, name+": detectable, any hand", c.got.Detectable(false), c.want.SDCOther, 1e-9)
	}
	if s.Pooled(0.25) || s.Pooled(0.05) {
		t.Error("an interaction with p of 5e-7 was pooled")
	}
	n := table(t, "d2_nist_mpc61.csv")
	for name, want := range ref.Nist {
		var groups []Group
		for i := range n["average"] {
			if name == "probe2362" && n["probe"][i] != 2362 {
				continue
			}
			part := strconv.Itoa(int(n["wafer"][i])) + "/" + strconv.Itoa(int(n["probe"][i]))
			groups = append(groups, Group{Run: strconv.Itoa(int(n["run"][i])), Part: part, Mean: n["average"][i], Dev: n["stddev"][i]})
		}
		got, err := Levels(groups, 6)
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+": within", got.Within, want.L1, 1e-12)
		near(t, name+": days", got.Days, want.L2, 1e-12)
		near(t, name+": runs", got.Runs, want.L3, 1e-12)
		near(t, name+": days alone", got.DayVariance, want.Day, 1e-12)
		near(t, name+": runs alone", got.RunVariance, want.Run, 1e-12)
		near(t, name+": one reading", got.OneReading, want.One, 1e-12)
		if got.Freedom != [3]float64{want.F1, want.F2, want.F3} {
			t.Errorf("%s: degrees of freedom %v, the reference has %v %v %v", name, got.Freedom, want.F1, want.F2, want.F3)
		}
	}
	if len(ref.Nist) != 2 {
		t.Errorf("%d nested studies", len(ref.Nist))
	}
}
