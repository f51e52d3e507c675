package doubt

import "errors"

// Limits beyond which the engine does not estimate but says so.
const (
	MostExplanations = 4096 // in a group of tied cells, and of items over whole-piece modes
	MostSigns        = 64   // signs on record at once
)

// Errors of the engine. The caller sets the piece aside and says why.
var (
	ErrTooMany    = errors.New("more explanations of the signs on record than are carried exactly (4,096)")
	ErrSigns      = errors.New("more signs on record than are carried (64)")
	ErrImpossible = errors.New("what was recorded cannot be, by the tables: its probability is 0")
)

// Parent is a mode that can show a sign, with the chance that it does not, per state.
type Parent struct {
	Mode int // index of the whole-piece or local mode
	Miss Vec // P(this link does not fire | state), each in [0,1]
}

// CauseParent is a harmless cause that can show a sign.
type CauseParent struct {
	Cause int
	Miss  float64 // P(this link does not fire | the cause is there)
}

// Sign is one fact: something seen at a place, with all that could have shown it.
type Sign struct {
	Whole  []Parent
	Local  []Parent
	Causes []CauseParent
	Leak   float64 // P(the leak does not fire)
}

// Belief is all that is believed about one piece, exactly: a mixture of
// products. Modes that no seen sign touches are carried alone. Seen signs tie
// local modes and causes into groups, each a mixture of explanations; the set
// of signs that whole-piece modes showed is summed over first, as items.
type Belief struct {
	nWhole int
	cellOf []int // cell of each local mode
	nCells int
	gone   []bool       // cells that were cut off; nil when none was
	local  []Vec        // of free modes; ties of the others are in groups
	tied   []int        // group of a local mode, or -1
	cause  [][2]float64 // of free causes: weights of absent, present
	causeG []int        // group of a cause, or -1
	signs  []Sign
	items  []item
	groups []group
	scale  float64 // product of the constants taken out since the last Normalize
}

// item is one way in which whole-piece modes showed a set of the seen signs.
type item struct {
	w    float64
	mask uint64           // signs shown by whole-piece modes
	by   [MostSigns]uint8 // per seen sign: 1 + index in its whole-piece parents, 0 not shown by one
	vec  []Vec            // one per whole-piece mode
}

// group is a set of local modes and causes tied by signs.
type group struct {
	members []int
	causes  []int
	signs   []int
	all     uint64 // bits of signs
	parts   []part
}

// part is a group's mixture, given which of its signs whole-piece modes showed.
type part struct {
	mask uint64
	w    []float64    // per explanation
	vec  []Vec        // explanation × member
	cau  [][2]float64 // explanation × cause
	lab  []uint16     // explanation × sign: 1 + parent that fired first (local, causes, leak); 0 shown by a whole-piece mode
}

// New starts a belief: one vector per whole-piece mode, and per cell one
// vector for each of its local modes. Local modes are numbered through, cell
// by cell.
func New(whole []Vec, cells [][]Vec) *Belief {
	b := &Belief{nWhole: len(whole), nCells: len(cells), scale: 1}
	for c, modes := range cells {
		for _, v := range modes {
			b.local = append(b.local, v)
			b.cellOf = append(b.cellOf, c)
			b.tied = append(b.tied, -1)
		}
	}
	b.items = []item{{w: 1, vec: append([]Vec(nil), whole...)}}
	return b
}

// Modes gives the number of local modes.
func (b *Belief) Modes() int { return len(b.local) }

// Product says whether the belief is still a plain product, with no sign on record.
func (b *Belief) Product() bool { return len(b.signs) == 0 }

// Clone gives a copy that shares nothing that either may change.
func (b *Belief) Clone() *Belief {
	c := &Belief{}
	c.Become(b)
	return c
}

// Become makes b a copy of another belief, in the memory that b has. They share
// nothing that either may change.
func (b *Belief) Become(o *Belief) {
	c := *o
	c.local = append(b.local[:0], o.local...)
	c.tied = append(b.tied[:0], o.tied...)
	c.cause = append(b.cause[:0], o.cause...)
	c.causeG = append(b.causeG[:0], o.causeG...)
	c.signs = o.signs[:len(o.signs):len(o.signs)]
	c.items = room(b.items, len(o.items))
	for i := range o.items {
		vec := append(c.items[i].vec[:0], o.items[i].vec...)
		c.items[i] = o.items[i]
		c.items[i].vec = vec
	}
	c.groups = room(b.groups, len(o.groups))
	for i := range o.groups {
		parts := room(c.groups[i].parts, len(o.groups[i].parts))
		for k := range parts {
			p, q := &parts[k], &o.groups[i].parts[k]
			w, vec, cau := append(p.w[:0], q.w...), append(p.vec[:0], q.vec...), append(p.cau[:0], q.cau...)
			*p = *q
			p.w, p.vec, p.cau = w, vec, cau
		}
		c.groups[i] = o.groups[i]
		c.groups[i].parts = parts
	}
	*b = c
}

// room gives a list of a length, with what the list given holds, whose memory may
// be used again. What lies behind its end may belong to others.
func room[T any](list []T, n int) []T {
	if cap(list) < n {
		return append(make([]T, 0, n), list...)[:n]
	}
	if n > len(list) {
		clear(list[len(list):n])
	}
	return list[:n]
}

// MakeRoom says that so many causes are about to be added.
func (b *Belief) MakeRoom(causes int) {
	b.cause = append(make([][2]float64, 0, len(b.cause)+causes), b.cause...)
	b.causeG = append(make([]int, 0, len(b.causeG)+causes), b.causeG...)
}

// AddCause adds a harmless cause with its prior and gives its index.
func (b *Belief) AddCause(prior float64) int {
	b.cause = append(b.cause, [2]float64{1 - prior, prior})
	b.causeG = append(b.causeG, -1)
	return len(b.cause) - 1
}

// StepWhole moves a whole-piece mode one step on.
func (b *Belief) StepWhole(mode int, s *Step) {
	for i := range b.items {
		s.Apply(&b.items[i].vec[mode])
		b.items[i].w *= b.items[i].vec[mode].normalize()
	}
}

// StepLocal moves a local mode one step on. The step may hold likelihoods.
func (b *Belief) StepLocal(mode int, s *Step) {
	g := b.tied[mode]
	if g < 0 { // made to sum to 1 again by Normalize
		s.Apply(&b.local[mode])
		return
	}
	b.groups[g].each(mode, func(v *Vec) float64 {
		s.Apply(v)
		return v.normalize()
	})
}

// WeighWhole multiplies a likelihood into a whole-piece mode.
func (b *Belief) WeighWhole(mode int, like *Vec) {
	for i := range b.items {
		v := &b.items[i].vec[mode]
		v.Times(like)
		b.items[i].w *= v.normalize()
	}
}

// WeighLocal multiplies a likelihood (an unseen sign's factor, or a reading)
// into a local mode.
func (b *Belief) WeighLocal(mode int, like *Vec) {
	g := b.tied[mode]
	if g < 0 {
		b.local[mode].Times(like)
		return
	}
	b.groups[g].each(mode, func(v *Vec) float64 {
		v.Times(like)
		return v.normalize()
	})
}

// WeighCause multiplies weights for absent and present into a cause. An answer
// that names the cause is (0, 1).
func (b *Belief) WeighCause(cause int, absent, present float64) {
	turn := func(v *[2]float64) float64 {
		v[0] = float64(v[0] * absent)
		v[1] = float64(v[1] * present)
		s := v[0] + v[1]
		if s > 0 {
			v[0] /= s
			v[1] /= s
		}
		return s
	}
	g := b.causeG[cause]
	if g < 0 {
		b.scale *= turn(&b.cause[cause])
		return
	}
	gr := &b.groups[g]
	j := position(gr.causes, cause)
	n := len(gr.causes)
	for k := range gr.parts {
		p := &gr.parts[k]
		for e := range p.w {
			p.w[e] *= turn(&p.cau[e*n+j])
		}
	}
}

// Scale multiplies a constant into the evidence: a factor that no mode changes.
func (b *Belief) Scale(k float64) { b.scale *= k }

// each applies f to the vector of a member in every explanation and weighs the
// explanation by what f gives.
func (g *group) each(mode int, f func(*Vec) float64) {
	j := position(g.members, mode)
	n := len(g.members)
	for k := range g.parts {
		p := &g.parts[k]
		for e := range p.w {
			p.w[e] *= f(&p.vec[e*n+j])
		}
	}
}

func position(list []int, x int) int {
	for i, y := range list {
		if y == x {
			return i
		}
	}
	return -1
}

// part gives the group's mixture for the signs that an item's mask shows.
func (g *group) part(mask uint64) *part {
	m := mask & g.all
	for k := range g.parts {
		if g.parts[k].mask == m {
			return &g.parts[k]
		}
	}
	return nil
}

// total gives the weight of a part: the sum over its explanations.
func (p *part) total() float64 {
	s := 0.0
	for _, w := range p.w {
		s += w
	}
	return s
}

// Normalize makes the weights sum to 1 and gives the probability of all that
// was put in since the last call, up to the likelihoods' own constants.
// It gives ErrImpossible when that is 0.
func (b *Belief) Normalize() (float64, error) {
	for m := range b.local {
		if b.tied[m] < 0 {
			b.scale *= b.local[m].normalize()
		}
	}
	for g := range b.groups {
		top := 0.0
		for k := range b.groups[g].parts {
			top = max(top, b.groups[g].parts[k].total())
		}
		if !(top > 0) {
			return 0, ErrImpossible
		}
		for k := range b.groups[g].parts {
			p := &b.groups[g].parts[k]
			for e := range p.w {
				p.w[e] /= top
			}
		}
		b.scale *= top
	}
	z := 0.0
	for i := range b.items {
		z += b.weight(&b.items[i])
	}
	if !(z > 0) {
		return 0, ErrImpossible
	}
	keep := b.items[:0]
	for i := range b.items {
		b.items[i].w /= z
		if b.items[i].w > 0 {
			keep = append(keep, b.items[i])
		}
	}
	b.items = keep
	p := float64(z * b.scale)
	b.scale = 1
	if !(p > 0) {
		return 0, ErrImpossible
	}
	return p, nil
}

// weight gives an item's weight with its groups summed over.
func (b *Belief) weight(it *item) float64 {
	w := it.w
	for g := range b.groups {
		if p := b.groups[g].part(it.mask); p != nil {
			w *= p.total()
		} else {
			w = 0
		}
	}
	return w
}

// shown gives the bit of a sign.
func shown(sign int) uint64 { return 1 << uint(sign) }

// Renew starts a local mode anew, whatever it was: a part was made new.
func (b *Belief) Renew(mode int, start Vec) {
	if g := b.tied[mode]; g >= 0 {
		b.groups[g].each(mode, func(v *Vec) float64 {
			*v = start
			return 1
		})
		return
	}
	b.local[mode] = start
}

// Drop takes a cell out of the figures: it was cut off. What it explains of
// signs on record stays.
func (b *Belief) Drop(cell int) {
	b.gone = append([]bool(nil), b.gone...)
	for len(b.gone) < b.nCells {
		b.gone = append(b.gone, false)
	}
	b.gone[cell] = true
}

// isGone says whether a local mode's cell was cut off.
func (b *Belief) isGone(mode int) bool { return b.gone != nil && b.gone[b.cellOf[mode]] }
