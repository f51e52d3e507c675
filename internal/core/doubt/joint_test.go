package doubt_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/doubt"
)

// joint is the whole joint of a small piece over modes, causes and the labels of
// the signs on record: what the carried belief must equal.
type joint struct {
	modes, causes int
	cellOf        []int // of local modes; whole-piece modes come first in x
	whole         int
	w             map[string]float64 // key: states, causes, labels
}

func newJoint(whole []doubt.Vec, cells [][]doubt.Vec) *joint {
	j := &joint{whole: len(whole), w: map[string]float64{"": 1}}
	for _, v := range whole {
		j.grow(v)
	}
	for c, modes := range cells {
		for _, v := range modes {
			j.grow(v)
			j.cellOf = append(j.cellOf, c)
		}
	}
	return j
}

func (j *joint) grow(v doubt.Vec) {
	next := map[string]float64{}
	for k, w := range j.w {
		for s, p := range v {
			if p > 0 {
				next[k+string(rune('0'+s))] = w * p
			}
		}
	}
	j.w = next
	j.modes++
}

func (j *joint) addCause(p float64) int {
	next := map[string]float64{}
	for k, w := range j.w {
		head, tail := k[:j.modes+j.causes], k[j.modes+j.causes:]
		next[head+"n"+tail] = w * (1 - p)
		next[head+"y"+tail] = w * p
	}
	j.w = next
	j.causes++
	return j.causes - 1
}

func (j *joint) step(mode int, s doubt.Step) {
	e := entries(s)
	next := map[string]float64{}
	for k, w := range j.w {
		for to, p := range e[k[mode]-'0'] {
			if p > 0 {
				next[k[:mode]+string(rune('0'+to))+k[mode+1:]] += w * p
			}
		}
	}
	j.w = next
}

func (j *joint) weigh(f func(k string) float64) {
	for k, w := range j.w {
		if w *= f(k); w > 0 {
			j.w[k] = w
		} else {
			delete(j.w, k)
		}
	}
}

func (j *joint) miss(k string, s *doubt.Sign) (damage, harmless float64) {
	damage, harmless = 1, 1
	for _, p := range s.Whole {
		damage *= p.Miss[k[p.Mode]-'0']
	}
	for _, p := range s.Local {
		damage *= p.Miss[k[j.whole+p.Mode]-'0']
	}
	for _, c := range s.Causes {
		if k[j.modes+c.Cause] == 'y' {
			harmless *= c.Miss
		}
	}
	return
}

func (j *joint) see(s *doubt.Sign) {
	next := map[string]float64{}
	for k, w := range j.w {
		d, h := j.miss(k, s)
		next[k+"d"] += w * (1 - d)
		next[k+"h"] += w * d * (1 - h)
		next[k+"k"] += w * d * h * (1 - s.Leak)
	}
	j.w = next
}

func (j *joint) share(f func(k string) bool) float64 {
	z, y := 0.0, 0.0
	for k, w := range j.w {
		z += w
		if f(k) {
			y += w
		}
	}
	return y / z
}

func (j *joint) unfit(k string, cell int) bool {
	for m := 0; m < j.modes; m++ {
		if k[m] >= '0'+doubt.Unfit && (cell < 0 || (m >= j.whole && j.cellOf[m-j.whole] == cell)) {
			return true
		}
	}
	return false
}

// TestCarriedBeliefAgainstJoint lets small pieces live: chains, event kernels,
// unseen and seen signs, readings, late answers, an end made anew, in any order.
func TestCarriedBeliefAgainstJoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		nw := rapid.IntRange(0, 2).Draw(t, "whole")
		whole := make([]doubt.Vec, nw)
		for i := range whole {
			whole[i] = drawPrior(t, true)
		}
		var cells [][]doubt.Vec
		for left := rapid.IntRange(1, 3).Draw(t, "local"); left > 0; {
			n := rapid.IntRange(1, left).Draw(t, "in cell")
			var modes []doubt.Vec
			for range n {
				modes = append(modes, drawPrior(t, true))
			}
			cells = append(cells, modes)
			left -= n
		}
		b := doubt.New(whole, cells)
		j := newJoint(whole, cells)
		nl := b.Modes()
		signs := 0
		for i := range rapid.IntRange(0, 2).Draw(t, "causes") {
			p := rapid.Float64Range(1e-5, .95).Draw(t, "prior")
			if got := b.AddCause(p); got != j.addCause(p) || got != i {
				t.Fatal("causes are numbered differently")
			}
		}
		sign := func() doubt.Sign {
			s := doubt.Sign{Leak: 1 - rapid.Float64Range(.0005, .02).Draw(t, "leak")}
			for m := range nl {
				if rapid.Bool().Draw(t, "parent") {
					s.Local = append(s.Local, doubt.Parent{Mode: m, Miss: drawMiss(t)})
				}
			}
			for m := range nw {
				if rapid.Bool().Draw(t, "whole parent") {
					s.Whole = append(s.Whole, doubt.Parent{Mode: m, Miss: drawMiss(t)})
				}
			}
			for c := range j.causes {
				if rapid.Bool().Draw(t, "cause") {
					s.Causes = append(s.Causes, doubt.CauseParent{Cause: c, Miss: 1 - rapid.Float64Range(.3, .95).Draw(t, "r")})
				}
			}
			return s
		}
		for range rapid.IntRange(1, 10).Draw(t, "steps") {
			switch rapid.IntRange(0, 5).Draw(t, "what") {
			case 0, 1: // time passes
				for m := range nw + nl {
					g := doubt.Generator(rapid.Float64Range(0, .05).Draw(t, "l01"), rapid.Float64Range(0, .05).Draw(t, "l12"), rapid.Float64Range(0, .002).Draw(t, "l02"), rapid.Float64Range(.001, .05).Draw(t, "u"))
					s := g.Exp()
					if rapid.IntRange(0, 4).Draw(t, "kernel") == 0 {
						s = doubt.Kernel(.1, .2, .05, .01)
					}
					j.step(m, s)
					if m < nw {
						b.StepWhole(m, &s)
					} else {
						b.StepLocal(m-nw, &s)
					}
				}
			case 2: // a look finds nothing
				s := sign()
				unseen(b, s)
				j.weigh(func(k string) float64 { d, h := j.miss(k, &s); return d * h * s.Leak })
			case 3: // a sign is seen
				if signs == 3 {
					continue
				}
				s := sign()
				if _, err := b.See(s); err != nil {
					t.Fatal(err)
				}
				j.see(&s)
				signs++
			case 4: // a late answer
				if j.causes == 0 {
					continue
				}
				c := rapid.IntRange(0, j.causes-1).Draw(t, "answer")
				b.WeighCause(c, 0, 1)
				j.weigh(func(k string) float64 {
					if k[j.modes+c] == 'y' {
						return 1
					}
					return 0
				})
			case 5: // a reading, or a part made anew
				m := rapid.IntRange(0, nl-1).Draw(t, "mode")
				if rapid.Bool().Draw(t, "reading") {
					l := doubt.Vec{rapid.Float64Range(.05, 3).Draw(t, "l0"), rapid.Float64Range(.05, 3).Draw(t, "l1"), 0, rapid.Float64Range(.05, 3).Draw(t, "l2"), 0}
					l[2], l[4] = l[0], l[0]
					b.WeighLocal(m, &l)
					j.weigh(func(k string) float64 { return l[k[nw+m]-'0'] })
				} else {
					v := drawPrior(t, true)
					b.Renew(m, v)
					j.renew(nw+m, v)
				}
			}
		}
		if _, err := b.Normalize(); err != nil {
			t.Fatal(err)
		}
		var f doubt.Figures
		b.Figures(&f)
		close9(t, "D", f.D.Unfit(), j.share(func(k string) bool { return j.unfit(k, -1) }))
		for c := range cells {
			close9(t, fmt.Sprintf("D of cell %d", c), f.Cell[c].Unfit(), j.share(func(k string) bool { return j.unfit(k, c) }))
		}
		for s := range signs {
			got, want := b.Why(s), j.share(func(k string) bool { return k[j.modes+j.causes+s] == 'h' })
			if math.Abs(got-want) > 1e-9*want+1e-300 {
				t.Fatalf("why of sign %d: got %.17g, want %.17g", s, got, want)
			}
		}
		for c := range j.causes {
			close9(t, "cause", b.Cause(c), j.share(func(k string) bool { return k[j.modes+c] == 'y' }))
		}
	})
}

func (j *joint) renew(mode int, v doubt.Vec) {
	next := map[string]float64{}
	for k, w := range j.w {
		for s, p := range v {
			next[k[:mode]+string(rune('0'+s))+k[mode+1:]] += w * p
		}
	}
	j.w = next
}
