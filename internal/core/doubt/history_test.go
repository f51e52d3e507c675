package doubt_test

import (
	"fmt"
	"math"
	"testing"

	"kernbook/internal/core/doubt"
)

type chainJSON struct {
	Use  rates `json:"use"`
	Time rates `json:"time"`
}

type rates struct {
	L01 float64 `json:"l01"`
	L12 float64 `json:"l12"`
	L02 float64 `json:"l02"`
	U   float64 `json:"u"`
}

func (r rates) gen() doubt.Gen { return doubt.Generator(r.L01, r.L12, r.L02, r.U) }

func (c chainJSON) step(hours100, years float64) doubt.Step {
	return doubt.Gen{}.Plus(hours100, c.Use.gen()).Plus(years, c.Time.gen()).Exp()
}

func entries(s doubt.Step) [5][5]float64 {
	return [5][5]float64{
		{s.A00, s.A01, s.A02, s.A03, s.A04},
		{0, s.A11, 0, s.A13, 0},
		{0, 0, s.A22, 0, s.A24},
		{0, 0, 0, s.A33, 0},
		{0, 0, 0, 0, s.A44},
	}
}

type chainFile struct {
	Chains []struct {
		chainJSON
		Hours100 float64       `json:"hours_100"`
		Years    float64       `json:"years"`
		P        [5][5]float64 `json:"P"`
	} `json:"chains"`
	Histories []struct {
		Modes []chainJSON `json:"modes"`
		Start []doubt.Vec `json:"start"`
		Steps []struct {
			Hours100 float64 `json:"hours_100"`
			Years    float64 `json:"years"`
			Signs    []struct {
				Kappa float64     `json:"kappa"`
				Leak  float64     `json:"leak"`
				Q     []doubt.Vec `json:"q"`
				Seen  bool        `json:"seen"`
			} `json:"signs"`
		} `json:"steps"`
		Expected []struct {
			Before float64 `json:"D_before_looks"`
			After  float64 `json:"D_after_looks"`
			P      float64 `json:"p_evidence"`
		} `json:"expected"`
	} `json:"histories"`
}

func TestChainsAgainstDecimals(t *testing.T) {
	var file chainFile
	readJSON(t, "chains.json", &file)
	if len(file.Chains) != 14 {
		t.Fatalf("want 14 chains, found %d", len(file.Chains))
	}
	for i, c := range file.Chains {
		got := entries(c.step(c.Hours100, c.Years))
		for a := range got {
			for b := range got[a] {
				near(t, fmt.Sprintf("chain %d, P[%d][%d]", i, a, b), got[a][b], c.P[a][b], 1e-12)
			}
		}
	}
}

func TestOneCellHistoriesAgainstDecimals(t *testing.T) {
	var file chainFile
	readJSON(t, "chains.json", &file)
	if len(file.Histories) != 8 {
		t.Fatalf("want 8 histories, found %d", len(file.Histories))
	}
	for i, h := range file.Histories {
		b := doubt.New(nil, [][]doubt.Vec{h.Start})
		var f doubt.Figures
		for k, s := range h.Steps {
			for m, c := range h.Modes {
				step := c.step(s.Hours100, s.Years)
				b.StepLocal(m, &step)
			}
			if _, err := b.Normalize(); err != nil {
				t.Fatal(err)
			}
			b.Figures(&f)
			near(t, fmt.Sprintf("history %d step %d before", i, k), f.D.Unfit(), h.Expected[k].Before, 1e-9)
			for _, g := range s.Signs {
				sign := doubt.Sign{Leak: 1 - g.Kappa*g.Leak}
				for m := range h.Modes {
					var miss doubt.Vec
					for x := range miss {
						miss[x] = 1 - g.Kappa*g.Q[m][x]
					}
					sign.Local = append(sign.Local, doubt.Parent{Mode: m, Miss: miss})
				}
				if !g.Seen {
					unseen(b, sign)
				} else if _, err := b.See(sign); err != nil {
					t.Fatal(err)
				}
			}
			p, err := b.Normalize()
			if err != nil {
				t.Fatal(err)
			}
			b.Figures(&f)
			near(t, fmt.Sprintf("history %d step %d after", i, k), f.D.Unfit(), h.Expected[k].After, 1e-9)
			near(t, fmt.Sprintf("history %d step %d evidence", i, k), p, h.Expected[k].P, 1e-9)
		}
	}
}

func TestCarriedBeliefsAgainstDecimals(t *testing.T) {
	var file struct {
		Vectors []struct {
			Name   string        `json:"name"`
			Whole  []chainJSON   `json:"whole"`
			Cells  [][]chainJSON `json:"cells"`
			Start  doubt.Vec     `json:"start"`
			Causes []struct {
				Cause string  `json:"cause"`
				Prior float64 `json:"prior"`
			} `json:"causes"`
			Signs []vectorSign `json:"signs"`
			Steps []struct {
				Hours100 float64 `json:"hours_100"`
				Years    float64 `json:"years"`
				Looks    []struct {
					Sign  string  `json:"sign"`
					Kappa float64 `json:"kappa"`
					Seen  bool    `json:"seen"`
				} `json:"looks"`
				Answers []string `json:"answers"`
			} `json:"steps"`
			Expected []struct {
				D    float64            `json:"D"`
				I    float64            `json:"I"`
				Cell []float64          `json:"D_cell"`
				Why  map[string]float64 `json:"why"`
			} `json:"expected"`
		} `json:"vectors"`
	}
	readJSON(t, "histories.json", &file)
	if len(file.Vectors) != 16 {
		t.Fatalf("want 16 vectors, found %d", len(file.Vectors))
	}
	worst := 0.0
	for _, v := range file.Vectors {
		t.Run(v.Name, func(t *testing.T) {
			var whole []doubt.Vec
			for range v.Whole {
				whole = append(whole, v.Start)
			}
			var cells [][]doubt.Vec
			var chains []chainJSON
			index := map[[2]int]int{}
			for c, cell := range v.Cells {
				var modes []doubt.Vec
				for j, ch := range cell {
					index[[2]int{c, j}] = len(chains)
					chains = append(chains, ch)
					modes = append(modes, v.Start)
				}
				cells = append(cells, modes)
			}
			b := doubt.New(whole, cells)
			causes := map[string]int{}
			for _, c := range v.Causes {
				causes[c.Cause] = b.AddCause(c.Prior)
			}
			byName := map[string]*vectorSign{}
			for i := range v.Signs {
				byName[v.Signs[i].Sign] = &v.Signs[i]
			}
			seen := map[string]int{}
			var f doubt.Figures
			for k, s := range v.Steps {
				for m, c := range v.Whole {
					step := c.step(s.Hours100, s.Years)
					b.StepWhole(m, &step)
				}
				for m, c := range chains {
					step := c.step(s.Hours100, s.Years)
					b.StepLocal(m, &step)
				}
				for _, l := range s.Looks {
					def := byName[l.Sign]
					def.Kappas, def.Beta = []float64{l.Kappa}, 1
					sign := def.sign(index, causes)
					if !l.Seen {
						unseen(b, sign)
						continue
					}
					id, err := b.See(sign)
					if err != nil {
						t.Fatal(err)
					}
					seen[l.Sign] = id
				}
				for _, a := range s.Answers {
					b.WeighCause(causes[a], 0, 1)
				}
				if _, err := b.Normalize(); err != nil {
					t.Fatal(err)
				}
				b.Figures(&f)
				e := v.Expected[k]
				near(t, fmt.Sprintf("step %d: D", k), f.D.Unfit(), e.D, 1e-9)
				near(t, fmt.Sprintf("step %d: I", k), f.Wear, e.I, 1e-9)
				worst = max(worst, math.Abs(f.D.Unfit()-e.D)/e.D)
				for c, want := range e.Cell {
					near(t, fmt.Sprintf("step %d: D of cell %d", k, c), f.Cell[c].Unfit(), want, 1e-9)
				}
				for name, want := range e.Why {
					if want == 0 {
						if got := b.Why(seen[name]); got != 0 {
							t.Errorf("step %d: why of %s: got %g, want 0", k, name, got)
						}
						continue
					}
					near(t, fmt.Sprintf("step %d: why of %s", k, name), b.Why(seen[name]), want, 1e-9)
				}
			}
		})
	}
	t.Logf("largest relative difference in D: %.3g", worst)
}
