// Package doubt is the engine of the decision model: beliefs about modes of
// damage, the chains that let them grow, the looks that shrink them and the
// exact sums that answer how likely it is that some part is unfit.
//
// It knows no table and no record: numbers in, numbers out. The model is set
// out in docs/model.md.
package doubt

import "kernbook/internal/core/num"

// The five states of a mode. Damage is findable or hidden from its beginning.
const (
	Sound          = iota // as new for this purpose
	Impaired              // real damage, findable, still above what the job requires
	ImpairedHidden        // the same, but no look shows it
	Unfit                 // must not carry a person, findable
	UnfitHidden           // the same, but no look shows it
	States                // how many there are
)

// Vec is a weight for each state of one mode, in the order of the constants.
// A belief's vectors sum to 1; likelihoods need not.
type Vec [States]float64

// Sum gives the total weight.
func (v *Vec) Sum() float64 { return v[0] + v[1] + v[2] + v[3] + v[4] }

// Times multiplies v by o, state by state.
func (v *Vec) Times(o *Vec) {
	v[0] = float64(v[0] * o[0])
	v[1] = float64(v[1] * o[1])
	v[2] = float64(v[2] * o[2])
	v[3] = float64(v[3] * o[3])
	v[4] = float64(v[4] * o[4])
}

// normalize scales v to sum 1 and gives the sum it had. A zero vector stays.
func (v *Vec) normalize() float64 {
	s := v.Sum()
	if s > 0 {
		r := 1 / s
		v[0] = float64(v[0] * r)
		v[1] = float64(v[1] * r)
		v[2] = float64(v[2] * r)
		v[3] = float64(v[3] * r)
		v[4] = float64(v[4] * r)
	}
	return s
}

// Ones is the likelihood that says nothing.
func Ones() Vec { return Vec{1, 1, 1, 1, 1} }

// Start is the belief about a new piece: p1 impaired and p2 unfit, each split
// into findable and hidden by the hidden share u.
func Start(p1, p2, u float64) Vec {
	return Vec{1 - (p1 + p2), float64(p1 * (1 - u)), float64(p1 * u), float64(p2 * (1 - u)), float64(p2 * u)}
}

// Gen is a generator (or its integral over time): the allowed off-diagonal
// intensities 0→1f, 0→1h, 0→2f, 0→2h, 1f→2f, 1h→2h.
type Gen struct{ G01, G02, G03, G04, G13, G24 float64 }

// Generator builds a Gen from the intensities 0→1, 1→2, 0→2 and the share u
// of what leaves 0 that is hidden.
func Generator(l01, l12, l02, u float64) Gen {
	return Gen{
		G01: float64(l01 * (1 - u)), G02: float64(l01 * u),
		G03: float64(l02 * (1 - u)), G04: float64(l02 * u),
		G13: l12, G24: l12,
	}
}

// Plus gives g + k·o, entry by entry.
func (g Gen) Plus(k float64, o Gen) Gen {
	return Gen{
		g.G01 + float64(k*o.G01), g.G02 + float64(k*o.G02),
		g.G03 + float64(k*o.G03), g.G04 + float64(k*o.G04),
		g.G13 + float64(k*o.G13), g.G24 + float64(k*o.G24),
	}
}

// Step is a matrix of the form that chains, event kernels and looks share:
// from 0 to anywhere, from 1f to 1f and 2f, from 1h to 1h and 2h, 2f and 2h to
// themselves. The form is closed under multiplication.
type Step struct {
	A00, A01, A02, A03, A04 float64
	A11, A13                float64
	A22, A24                float64
	A33, A44                float64
}

// Identity is the step that changes nothing.
func Identity() Step { return Step{A00: 1, A11: 1, A22: 1, A33: 1, A44: 1} }

// Kernel is the step of an event: j01, j12, j02 are chances at one stroke, u
// the hidden share of what leaves 0. It needs j01 + j02 <= 1 and j12 <= 1.
func Kernel(j01, j12, j02, u float64) Step {
	return Step{
		A00: 1 - (j01 + j02),
		A01: float64(j01 * (1 - u)), A02: float64(j01 * u),
		A03: float64(j02 * (1 - u)), A04: float64(j02 * u),
		A11: 1 - j12, A13: j12, A22: 1 - j12, A24: j12, A33: 1, A44: 1,
	}
}

// Apply moves v one step on: v·s.
func (s *Step) Apply(v *Vec) {
	v0, v1, v2 := v[0], v[1], v[2]
	v[0] = float64(v0 * s.A00)
	v[1] = float64(v0*s.A01) + float64(v1*s.A11)
	v[2] = float64(v0*s.A02) + float64(v2*s.A22)
	v[3] = float64(v0*s.A03) + float64(v1*s.A13) + float64(v[3]*s.A33)
	v[4] = float64(v0*s.A04) + float64(v2*s.A24) + float64(v[4]*s.A44)
}

// Then makes s the step s followed by t, in place; t may be s itself. No entry
// is written before all that need it have been worked out.
func (s *Step) Then(t *Step) {
	s.A03 = float64(s.A00*t.A03) + float64(s.A01*t.A13) + float64(s.A03*t.A33)
	s.A04 = float64(s.A00*t.A04) + float64(s.A02*t.A24) + float64(s.A04*t.A44)
	s.A01 = float64(s.A00*t.A01) + float64(s.A01*t.A11)
	s.A02 = float64(s.A00*t.A02) + float64(s.A02*t.A22)
	s.A00 *= t.A00
	s.A13 = float64(s.A11*t.A13) + float64(s.A13*t.A33)
	s.A24 = float64(s.A22*t.A24) + float64(s.A24*t.A44)
	s.A11 *= t.A11
	s.A22 *= t.A22
	s.A33 *= t.A33
	s.A44 *= t.A44
}

// Seen gives the step "likelihood f, then s": a look, then use.
func (s *Step) Seen(f *Vec) Step {
	return Step{
		A00: float64(f[0] * s.A00), A01: float64(f[0] * s.A01), A02: float64(f[0] * s.A02),
		A03: float64(f[0] * s.A03), A04: float64(f[0] * s.A04),
		A11: float64(f[1] * s.A11), A13: float64(f[1] * s.A13),
		A22: float64(f[2] * s.A22), A24: float64(f[2] * s.A24),
		A33: float64(f[3] * s.A33), A44: float64(f[4] * s.A44),
	}
}

// Times gives the step taken n times, by squaring.
func (s *Step) Times(n int) Step {
	b := *s
	for n > 0 && n&1 == 0 {
		b.Then(&b)
		n >>= 1
	}
	if n <= 0 {
		return Identity()
	}
	r := b
	for n >>= 1; n > 0; n >>= 1 {
		b.Then(&b)
		if n&1 == 1 {
			r.Then(&b)
		}
	}
	return r
}

// seriesMost is how large an exit rate one series takes before the interval is
// halved instead.
const seriesMost = 1.0

// seriesLeast is the exit rate up to which nothing happens: its reciprocal, which the
// jump chain needs, would be no number below. Rates of the tables are 300 powers of
// ten above it.
const seriesLeast = 1e-300

// Exp gives the transition matrix of a generator by uniformisation: all terms
// are positive, so every entry, however small, keeps its relative precision.
// A Taylor series in math/big agrees to 1e-12 relative in every entry (tests).
func (g Gen) Exp() Step {
	out := g.G01 + g.G02 + g.G03 + g.G04
	rate := max(out, g.G13, g.G24)
	if !(rate > seriesLeast) {
		return Identity()
	}
	n := 0
	for rate > seriesMost {
		rate /= 2
		n++
	}
	half := 1.0
	for range n {
		half /= 2
	}
	// jump chain J = I + A/rate; its entries are all in [0,1]
	k := half / rate
	j := Step{
		A01: float64(g.G01 * k), A02: float64(g.G02 * k), A03: float64(g.G03 * k), A04: float64(g.G04 * k),
		A13: float64(g.G13 * k), A24: float64(g.G24 * k), A33: 1, A44: 1,
	}
	j.A00 = max(0, 1-float64(out*k))
	j.A11 = 1 - j.A13
	j.A22 = 1 - j.A24
	w := num.Exp(-rate)
	sum := Identity().scaled(w)
	p := j
	second := 0.0
	for i := 1; i <= seriesTerms; i++ {
		w = float64(w*rate) / float64(i)
		sum.add(w, &p)
		if i == 2 {
			second = w
		}
		if i > 2 && float64(w*float64(i*i)) < float64(seriesDust*second) {
			break
		}
		p.Then(&j)
	}
	for range n {
		sum.Then(&sum)
	}
	return sum
}

// seriesTerms is where the series is cut. At an exit rate of at most 1 the
// terms left out are below 1/25! of the ones that first reach an entry (at
// i = 1 or 2), far below one unit in the last place.
const seriesTerms = 24

// seriesDust ends the series earlier: every entry is reached at i = 1 or 2,
// and at term i it grows by at most about i² of that, so what is left out is
// below this share of every entry.
const seriesDust = 1e-19

func (s Step) scaled(w float64) Step {
	var r Step
	r.add(w, &s)
	return r
}

func (s *Step) add(w float64, t *Step) {
	s.A00 += float64(w * t.A00)
	s.A01 += float64(w * t.A01)
	s.A02 += float64(w * t.A02)
	s.A03 += float64(w * t.A03)
	s.A04 += float64(w * t.A04)
	s.A11 += float64(w * t.A11)
	s.A13 += float64(w * t.A13)
	s.A22 += float64(w * t.A22)
	s.A24 += float64(w * t.A24)
	s.A33 += float64(w * t.A33)
	s.A44 += float64(w * t.A44)
}
