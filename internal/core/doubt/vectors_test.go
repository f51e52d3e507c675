package doubt_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"

	"kernbook/internal/core/doubt"
)

// The vectors go through every combination of states in decimals of 40 and 60
// digits, written by the scripts beside them in testdata/published/doubt; what
// each is and how to write it again says testdata/published/README.md.
// Tolerances: 1e-9 relative in D, every D per cell, why and posterior; 1e-12 in P.

type lookVectors struct {
	Vectors []lookVector `json:"vectors"`
}

type lookVector struct {
	Name  string `json:"name"`
	Whole []struct {
		Mode  string    `json:"mode"`
		Prior doubt.Vec `json:"prior"`
	} `json:"whole"`
	Cells []struct {
		Modes []struct {
			Mode  string    `json:"mode"`
			Prior doubt.Vec `json:"prior"`
		} `json:"modes"`
	} `json:"cells"`
	Causes []struct {
		Cause string  `json:"cause"`
		Prior float64 `json:"prior"`
	} `json:"causes"`
	Signs    []vectorSign `json:"signs"`
	Readings []struct {
		Cell       int       `json:"cell"`
		Mode       int       `json:"mode"`
		Likelihood doubt.Vec `json:"likelihood"`
	} `json:"readings"`
	Expected struct {
		P         float64              `json:"p_evidence"`
		D         float64              `json:"D"`
		Whole     float64              `json:"D_whole"`
		Cell      []float64            `json:"D_cell"`
		I         float64              `json:"I"`
		Why       map[string]float64   `json:"why"`
		Posterior map[string]doubt.Vec `json:"posterior"`
	} `json:"expected"`
}

type vectorSign struct {
	Sign    string  `json:"sign"`
	Leak    float64 `json:"leak"`
	Parents []struct {
		Cell  *int      `json:"cell"`
		Mode  int       `json:"mode"`
		Whole *int      `json:"whole"`
		Q     doubt.Vec `json:"q"`
	} `json:"parents"`
	Harmless []struct {
		Cause string  `json:"cause"`
		R     float64 `json:"r"`
	} `json:"harmless"`
	Kappas []float64 `json:"kappas"`
	Beta   float64   `json:"beta_cc"`
	Seen   bool      `json:"seen"`
}

func readJSON(t testing.TB, name string, into any) {
	t.Helper()
	b, err := os.ReadFile("../../../testdata/published/doubt/" + name)
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b, into); err != nil {
		t.Fatal(err)
	}
}

// near fails unless got is within a relative tolerance of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if d := math.Abs(got - want); !(d <= tol*math.Abs(want)) {
		t.Errorf("%s: got %.17g, want %.17g (relative difference %.3g, tolerance %g)", what, got, want, d/math.Abs(want), tol)
	}
}

func build(v *lookVector) (whole []doubt.Vec, cells [][]doubt.Vec, index map[[2]int]int, names []string) {
	index = map[[2]int]int{}
	for _, w := range v.Whole {
		whole = append(whole, w.Prior)
	}
	n := 0
	for c, cell := range v.Cells {
		var modes []doubt.Vec
		for j, m := range cell.Modes {
			modes = append(modes, m.Prior)
			index[[2]int{c, j}] = n
			names = append(names, m.Mode)
			n++
		}
		cells = append(cells, modes)
	}
	return
}

// sign turns a vector's sign into the engine's.
func (s *vectorSign) sign(index map[[2]int]int, causes map[string]int) doubt.Sign {
	miss := func(q float64) float64 { return doubt.Miss(s.Kappas, s.Beta, q) }
	out := doubt.Sign{Leak: miss(s.Leak)}
	for _, p := range s.Parents {
		var m doubt.Vec
		for x := range m {
			m[x] = miss(p.Q[x])
		}
		if p.Whole != nil {
			out.Whole = append(out.Whole, doubt.Parent{Mode: *p.Whole, Miss: m})
		} else {
			out.Local = append(out.Local, doubt.Parent{Mode: index[[2]int{*p.Cell, p.Mode}], Miss: m})
		}
	}
	for _, h := range s.Harmless {
		out.Causes = append(out.Causes, doubt.CauseParent{Cause: causes[h.Cause], Miss: miss(h.R)})
	}
	return out
}

// unseen puts in the factor of a sign that a look did not show.
func unseen(b *doubt.Belief, s doubt.Sign) {
	for i := range s.Whole {
		b.WeighWhole(s.Whole[i].Mode, &s.Whole[i].Miss)
	}
	for i := range s.Local {
		b.WeighLocal(s.Local[i].Mode, &s.Local[i].Miss)
	}
	for _, c := range s.Causes {
		b.WeighCause(c.Cause, 1, c.Miss)
	}
	b.Scale(s.Leak)
}

func TestLooksAgainstBruteForce(t *testing.T) {
	var file lookVectors
	readJSON(t, "looks.json", &file)
	if len(file.Vectors) != 24 {
		t.Fatalf("want 24 vectors, found %d", len(file.Vectors))
	}
	for i := range file.Vectors {
		v := &file.Vectors[i]
		t.Run(v.Name, func(t *testing.T) {
			whole, cells, index, names := build(v)
			b := doubt.New(whole, cells)
			causes := map[string]int{}
			for _, c := range v.Causes {
				causes[c.Cause] = b.AddCause(c.Prior)
			}
			for _, r := range v.Readings {
				b.WeighLocal(index[[2]int{r.Cell, r.Mode}], &r.Likelihood)
			}
			net := network(whole, cells)
			for _, c := range v.Causes {
				net.Causes = append(net.Causes, [2]float64{1 - c.Prior, c.Prior})
			}
			for _, r := range v.Readings {
				net.Local[index[[2]int{r.Cell, r.Mode}]].Times(&r.Likelihood)
			}
			seen := map[string]int{}
			for k := range v.Signs { // seen and unseen in the order given
				s := v.Signs[k].sign(index, causes)
				if v.Signs[k].Seen {
					id, err := b.See(s)
					if err != nil {
						t.Fatal(err)
					}
					seen[v.Signs[k].Sign] = id
					net.Signs = append(net.Signs, s)
				} else {
					unseen(b, s)
					for i := range s.Whole {
						net.Whole[s.Whole[i].Mode].Times(&s.Whole[i].Miss)
					}
					for i := range s.Local {
						net.Local[s.Local[i].Mode].Times(&s.Local[i].Miss)
					}
					for _, c := range s.Causes {
						net.Causes[c.Cause][1] *= c.Miss
					}
					net.Causes = append(net.Causes, [2]float64{s.Leak, 0}) // a constant
				}
			}
			p, err := b.Normalize()
			if err != nil {
				t.Fatal(err)
			}
			var f doubt.Figures
			b.Figures(&f)
			near(t, "P(evidence)", p, v.Expected.P, 1e-12)
			near(t, "D", f.D.Unfit(), v.Expected.D, 1e-9)
			near(t, "D of whole-piece modes", f.Whole.Unfit(), v.Expected.Whole, 1e-9)
			near(t, "I", f.Wear, v.Expected.I, 1e-9)
			for c, want := range v.Expected.Cell {
				near(t, fmt.Sprintf("D of cell %d", c), f.Cell[c].Unfit(), want, 1e-9)
			}
			for name, want := range v.Expected.Why {
				near(t, "why of "+name, b.Why(seen[name]), want, 1e-9)
			}
			for m, name := range names {
				got := b.Local(m)
				for x := range got {
					near(t, fmt.Sprintf("posterior of %s in state %d", name, x), got[x], v.Expected.Posterior[name][x], 1e-9)
				}
			}
			for m, w := range v.Whole {
				got := b.WholeMode(m)
				for x := range got {
					near(t, fmt.Sprintf("posterior of %s in state %d", w.Mode, x), got[x], v.Expected.Posterior[w.Mode][x], 1e-9)
				}
			}
			masks(t, net, v, index, names)
		})
	}
}

func network(whole []doubt.Vec, cells [][]doubt.Vec) *doubt.Network {
	n := &doubt.Network{Whole: append([]doubt.Vec(nil), whole...)}
	for _, c := range cells {
		n.Local = append(n.Local, c...)
	}
	return n
}

// masks asks the second method, the fired-mask sum, for the same figures.
func masks(t *testing.T, n *doubt.Network, v *lookVector, index map[[2]int]int, names []string) {
	t.Helper()
	sum := func(q doubt.Query) (none, some float64) {
		none, some, err := n.Sum(q)
		if err != nil {
			t.Fatal(err)
		}
		return none, some
	}
	none, some := sum(doubt.Query{From: doubt.Unfit})
	z := none + some
	near(t, "mask sum: P(evidence)", z, v.Expected.P, 1e-12)
	near(t, "mask sum: D", some/z, v.Expected.D, 1e-9)
	_, some = sum(doubt.Query{From: doubt.Impaired})
	near(t, "mask sum: I", some/z, v.Expected.I, 1e-9)
	for c, want := range v.Expected.Cell {
		_, some := sum(doubt.Query{From: doubt.Unfit, In: func(whole bool, m int) bool {
			if whole {
				return false
			}
			for j := range v.Cells[c].Modes {
				if index[[2]int{c, j}] == m {
					return true
				}
			}
			return false
		}})
		near(t, fmt.Sprintf("mask sum: D of cell %d", c), some/z, want, 1e-9)
	}
	for m, name := range names {
		for x, want := range v.Expected.Posterior[name] {
			none, some := sum(doubt.Query{Hold: true, Mode: m, State: x})
			near(t, fmt.Sprintf("mask sum: %s in state %d", name, x), (none+some)/z, want, 1e-9)
		}
	}
	for m, w := range v.Whole {
		for x, want := range v.Expected.Posterior[w.Mode] {
			none, some := sum(doubt.Query{HoldWhole: true, Of: m, State: x})
			near(t, fmt.Sprintf("mask sum: %s in state %d", w.Mode, x), (none+some)/z, want, 1e-9)
		}
	}
	k := 0
	for i := range v.Signs {
		if !v.Signs[i].Seen {
			continue
		}
		none, some := sum(doubt.Query{Harmless: true, Sign: k})
		near(t, "mask sum: why of "+v.Signs[i].Sign, (none+some)/z, v.Expected.Why[v.Signs[i].Sign], 1e-9)
		k++
	}
}
