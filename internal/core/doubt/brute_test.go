package doubt_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/doubt"
)

// world is a random small problem: everything the engine can be asked about one
// examination, solved by going through every state of the whole joint.
type world struct {
	whole  []doubt.Vec
	cells  [][]doubt.Vec
	causes []float64
	seen   []doubt.Sign
	unseen []doubt.Sign
}

type truth struct {
	z, d, hidden, worn float64
	cell               []float64
	why                []float64
}

func (w *world) locals() (v []doubt.Vec, cell []int) {
	for c, modes := range w.cells {
		for _, m := range modes {
			v = append(v, m)
			cell = append(cell, c)
		}
	}
	return
}

// brute sums over every state of every mode and cause.
func (w *world) brute() truth {
	local, cell := w.locals()
	all := append(append([]doubt.Vec(nil), w.whole...), local...)
	nw := len(w.whole)
	x := make([]int, len(all))
	t := truth{cell: make([]float64, len(w.cells)), why: make([]float64, len(w.seen))}
	var walk func(i int, p float64)
	walk = func(i int, p float64) {
		if i < len(all) {
			for s, q := range all[i] {
				if q > 0 {
					x[i] = s
					walk(i+1, p*q)
				}
			}
			return
		}
		for b := 0; b < 1<<len(w.causes); b++ {
			q := p
			for k, c := range w.causes {
				if b>>k&1 == 1 {
					q *= c
				} else {
					q *= 1 - c
				}
			}
			miss := func(s *doubt.Sign) (damage, harmless float64) {
				damage, harmless = 1, 1
				for _, a := range s.Whole {
					damage *= a.Miss[x[a.Mode]]
				}
				for _, a := range s.Local {
					damage *= a.Miss[x[nw+a.Mode]]
				}
				for _, a := range s.Causes {
					if b>>a.Cause&1 == 1 {
						harmless *= a.Miss
					}
				}
				return
			}
			for k := range w.unseen {
				d, h := miss(&w.unseen[k])
				q *= d * h * w.unseen[k].Leak
			}
			each := make([]float64, len(w.seen))
			harm := make([]float64, len(w.seen))
			for k := range w.seen {
				d, h := miss(&w.seen[k])
				each[k] = 1 - d*h*w.seen[k].Leak
				harm[k] = d * (1 - h)
				q *= each[k]
			}
			if q == 0 {
				continue
			}
			t.z += q
			unfit, hid, worn := false, false, false
			bad := make([]bool, len(w.cells))
			for i, s := range x {
				if s >= doubt.Unfit {
					unfit = true
					if i >= nw {
						bad[cell[i-nw]] = true
					}
				}
				hid = hid || s == doubt.UnfitHidden
				worn = worn || s != doubt.Sound
			}
			if unfit {
				t.d += q
			}
			if hid {
				t.hidden += q
			}
			if worn {
				t.worn += q
			}
			for c := range bad {
				if bad[c] {
					t.cell[c] += q
				}
			}
			for k := range w.seen {
				t.why[k] += q / each[k] * harm[k]
			}
		}
	}
	walk(0, 1)
	t.d /= t.z
	t.hidden /= t.z
	t.worn /= t.z
	for c := range t.cell {
		t.cell[c] /= t.z
	}
	for k := range t.why {
		t.why[k] /= t.z
	}
	return t
}

func drawPrior(t *rapid.T, hidden bool) doubt.Vec {
	scale := math.Pow(10, rapid.Float64Range(-9, -0.7).Draw(t, "scale"))
	share := func(lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, "share") * scale }
	v := doubt.Vec{0, share(.2, 1), 0, share(.01, .5), 0}
	if hidden {
		v[doubt.ImpairedHidden], v[doubt.UnfitHidden] = share(.001, .02), share(.0001, .01)
	}
	v[0] = 1 - v[1] - v[2] - v[3] - v[4]
	return v
}

func drawMiss(t *rapid.T) doubt.Vec {
	k := rapid.Float64Range(.05, 1).Draw(t, "kappa")
	a := rapid.Float64Range(.02, .6).Draw(t, "q1")
	b := rapid.Float64Range(a, .98).Draw(t, "q2")
	return doubt.Vec{1, 1 - k*a, 1, 1 - k*b, 1}
}

// drawWorld makes networks up to 8 modes, 4 causes and 20 signs, 6 of them seen.
func drawWorld(t *rapid.T) *world {
	w := &world{}
	small := rapid.Bool().Draw(t, "with hidden states") // five states a mode, then fewer modes
	most := 8
	if small {
		most = 5
	}
	nw := rapid.IntRange(0, 2).Draw(t, "whole-piece modes")
	for range nw {
		w.whole = append(w.whole, drawPrior(t, small))
	}
	left := rapid.IntRange(1, most-nw).Draw(t, "local modes")
	for left > 0 {
		n := rapid.IntRange(1, min(3, left)).Draw(t, "modes of a cell")
		var modes []doubt.Vec
		for range n {
			modes = append(modes, drawPrior(t, small))
		}
		w.cells = append(w.cells, modes)
		left -= n
	}
	for range rapid.IntRange(0, 4).Draw(t, "causes") {
		w.causes = append(w.causes, rapid.Float64Range(1e-5, .95).Draw(t, "prior"))
	}
	local, _ := w.locals()
	sign := func() doubt.Sign {
		s := doubt.Sign{Leak: 1 - rapid.Float64Range(.0005, .02).Draw(t, "leak")}
		for m := range local {
			if rapid.IntRange(0, 2).Draw(t, "parent") == 0 {
				s.Local = append(s.Local, doubt.Parent{Mode: m, Miss: drawMiss(t)})
			}
		}
		for m := range w.whole {
			if rapid.IntRange(0, 2).Draw(t, "whole parent") == 0 {
				s.Whole = append(s.Whole, doubt.Parent{Mode: m, Miss: drawMiss(t)})
			}
		}
		for c := range w.causes {
			if rapid.IntRange(0, 2).Draw(t, "cause") == 0 {
				s.Causes = append(s.Causes, doubt.CauseParent{Cause: c, Miss: 1 - rapid.Float64Range(.3, .95).Draw(t, "r")})
			}
		}
		return s
	}
	for range rapid.IntRange(0, 6).Draw(t, "seen") {
		w.seen = append(w.seen, sign())
	}
	for range rapid.IntRange(0, 14).Draw(t, "unseen") {
		w.unseen = append(w.unseen, sign())
	}
	return w
}

func close9(t *rapid.T, what string, got, want float64) {
	if want == 0 && got == 0 {
		return
	}
	if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
		t.Fatalf("%s: got %.17g, want %.17g", what, got, want)
	}
}

// TestAgainstBruteForce compares both methods of the engine with the whole
// joint, down to doubts of 1e-9.
func TestAgainstBruteForce(t *testing.T) {
	smallest, tooMany, compared := 1.0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t)
		want := w.brute()
		b := doubt.New(w.whole, w.cells)
		local, _ := w.locals()
		net := &doubt.Network{Whole: append([]doubt.Vec(nil), w.whole...), Local: local, Signs: w.seen}
		for _, p := range w.causes {
			b.AddCause(p)
			net.Causes = append(net.Causes, [2]float64{1 - p, p})
		}
		for i := range w.unseen {
			unseen(b, w.unseen[i])
			for _, p := range w.unseen[i].Whole {
				net.Whole[p.Mode].Times(&p.Miss)
			}
			for _, p := range w.unseen[i].Local {
				net.Local[p.Mode].Times(&p.Miss)
			}
			for _, c := range w.unseen[i].Causes {
				net.Causes[c.Cause][1] *= c.Miss
			}
		}
		none, some, err := net.Sum(doubt.Query{From: doubt.Unfit})
		if err != nil {
			t.Fatal(err)
		}
		close9(t, "mask sum: D", some/(none+some), want.d)
		for k := range w.seen {
			n, s, err := net.Sum(doubt.Query{Harmless: true, Sign: k})
			if err != nil {
				t.Fatal(err)
			}
			close9(t, "mask sum: why", (n+s)/(none+some), want.why[k])
		}
		for i := range w.seen {
			if _, err := b.See(w.seen[i]); err == doubt.ErrTooMany {
				tooMany++
				return
			} else if err != nil {
				t.Fatal(err)
			}
		}
		z, err := b.Normalize()
		if err != nil {
			t.Fatal(err)
		}
		compared++
		var f doubt.Figures
		b.Figures(&f)
		close9(t, "P", z, want.z)
		close9(t, "D", f.D.Unfit(), want.d)
		close9(t, "hidden part of D", f.D.Hidden, want.hidden)
		close9(t, "I", f.Wear, want.worn)
		for c := range want.cell {
			close9(t, fmt.Sprintf("D of cell %d", c), f.Cell[c].Unfit(), want.cell[c])
		}
		for k := range w.seen {
			close9(t, fmt.Sprintf("why of %d", k), b.Why(k), want.why[k])
			total := 0.0
			for _, s := range b.Shares(k) {
				total += s.P
			}
			close9(t, "sum of the shares of a sign", total, 1)
		}
		smallest = min(smallest, want.d)
	})
	t.Logf("%d networks compared by both methods, %d more by the mask sum alone; smallest doubt %.3g", compared, tooMany, smallest)
	if compared == 0 {
		t.Fatal("no network was compared")
	}
}
