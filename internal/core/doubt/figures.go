package doubt

// Triple is how a set of modes stands: the chance that none is unfit, that
// some is unfit but none hidden so, and that some is hidden unfit. All three
// are built from positive terms only, so small ones keep their precision.
type Triple struct{ None, Findable, Hidden float64 }

// Unfit is the doubt: the chance that some mode of the set is unfit.
func (t Triple) Unfit() float64 { return t.Findable + t.Hidden }

func whole() Triple { return Triple{None: 1} }

// with adds an independent set.
func (t Triple) with(o Triple) Triple {
	return Triple{
		None:     float64(t.None * o.None),
		Findable: float64(t.None*o.Findable) + float64(t.Findable*o.None) + float64(t.Findable*o.Findable),
		Hidden:   t.Hidden + float64((t.None+t.Findable)*o.Hidden),
	}
}

// add adds a weighted triple of another explanation of the same set.
func (t *Triple) add(w float64, o Triple) {
	t.None += float64(w * o.None)
	t.Findable += float64(w * o.Findable)
	t.Hidden += float64(w * o.Hidden)
}

func (t Triple) over(z float64) Triple { return Triple{t.None / z, t.Findable / z, t.Hidden / z} }

func (v *Vec) triple() Triple {
	return Triple{None: v[0] + v[1] + v[2], Findable: v[3], Hidden: v[4]}
}

// Figures is what a belief says.
type Figures struct {
	D     Triple   // some mode, anywhere
	Whole Triple   // some whole-piece mode
	Cell  []Triple // some local mode of the cell
	Wear  float64  // I: some mode impaired or unfit, anywhere
}

// Figures works out D, D(x) and I from a normalized belief. out is reused when
// its slices are large enough.
//
// D over many parts adds up the chances that this part is unfit and all before it
// are not, never one minus a product.
func (b *Belief) Figures(out *Figures) {
	if cap(out.Cell) < b.nCells {
		out.Cell = make([]Triple, b.nCells)
	}
	out.Cell = out.Cell[:b.nCells]
	out.D, out.Whole, out.Wear = Triple{}, Triple{}, 0
	for c := range out.Cell {
		out.Cell[c] = whole()
	}
	free, sound, worn := whole(), 1.0, 0.0
	for m := range b.local {
		if b.tied[m] >= 0 || b.isGone(m) {
			continue
		}
		t := b.local[m].triple()
		out.Cell[b.cellOf[m]] = out.Cell[b.cellOf[m]].with(t)
		p := &b.local[m]
		worn += float64(sound * (p[1] + p[2] + p[3] + p[4]))
		sound *= p[0]
	}
	for c := range out.Cell {
		free = free.with(out.Cell[c])
	}
	sums := b.groupSums()
	cells := b.tiedCells()
	mixed := make([]Triple, len(cells))
	for i := range b.items {
		it := &b.items[i]
		w := b.weight(it)
		if w == 0 {
			continue
		}
		all, s, wr := whole(), sound, worn
		for k := range it.vec {
			p := &it.vec[k]
			all = all.with(p.triple())
			wr += float64(s * (p[1] + p[2] + p[3] + p[4]))
			s *= p[0]
		}
		out.Whole.add(w, all)
		all = all.with(free)
		for g := range sums {
			x := sums[g].at(&b.groups[g], it.mask)
			all = all.with(x.all)
			wr += float64(s * x.worn)
			s *= x.sound
		}
		out.D.add(w, all)
		out.Wear += float64(w * wr)
		for k, c := range cells {
			t := out.Cell[c]
			for g := range sums {
				x := sums[g].at(&b.groups[g], it.mask)
				if j := position(sums[g].cells, c); j >= 0 {
					t = t.with(x.cell[j])
				}
			}
			mixed[k].add(w, t)
		}
	}
	for k, c := range cells {
		out.Cell[c] = mixed[k]
	}
}

// tiedCells lists the cells that have a tied mode, in the order met.
func (b *Belief) tiedCells() []int {
	var cells []int
	for g := range b.groups {
		for _, m := range b.groups[g].members {
			if position(cells, b.cellOf[m]) < 0 {
				cells = append(cells, b.cellOf[m])
			}
		}
	}
	return cells
}

// groupSum holds a group's sums, part by part.
type groupSum struct {
	cells []int
	parts []partSum
}

type partSum struct {
	all         Triple
	cell        []Triple // in the order of groupSum.cells
	sound, worn float64
}

func (s *groupSum) at(g *group, mask uint64) *partSum {
	m := mask & g.all
	for k := range g.parts {
		if g.parts[k].mask == m {
			return &s.parts[k]
		}
	}
	return nil
}

// groupSums sums every part of every group over its explanations.
func (b *Belief) groupSums() []groupSum {
	out := make([]groupSum, len(b.groups))
	for gi := range b.groups {
		g := &b.groups[gi]
		s := &out[gi]
		slot := make([]int, len(g.members))
		for j, m := range g.members {
			c := b.cellOf[m]
			if slot[j] = position(s.cells, c); slot[j] < 0 {
				slot[j] = len(s.cells)
				s.cells = append(s.cells, c)
			}
		}
		per := make([]Triple, len(s.cells))
		s.parts = make([]partSum, len(g.parts))
		for k := range g.parts {
			p := &g.parts[k]
			x := &s.parts[k]
			x.cell = make([]Triple, len(s.cells))
			z := 0.0
			for e, w := range p.w {
				for c := range per {
					per[c] = whole()
				}
				sound, worn := 1.0, 0.0
				vecs := row(p.vec, e, len(g.members))
				for j := range vecs {
					if b.isGone(g.members[j]) {
						continue
					}
					v := &vecs[j]
					per[slot[j]] = per[slot[j]].with(v.triple())
					worn += float64(sound * (v[1] + v[2] + v[3] + v[4]))
					sound *= v[0]
				}
				all := whole()
				for c := range per {
					x.cell[c].add(w, per[c])
					all = all.with(per[c])
				}
				x.all.add(w, all)
				x.sound += float64(w * sound)
				x.worn += float64(w * worn)
				z += w
			}
			if z > 0 {
				x.all = x.all.over(z)
				x.sound /= z
				x.worn /= z
				for c := range x.cell {
					x.cell[c] = x.cell[c].over(z)
				}
			}
		}
	}
	return out
}

// Share is how much of a seen sign one parent is responsible for.
type Share struct {
	Whole bool // a whole-piece mode
	Cause bool // a harmless cause
	Leak  bool
	Index int // mode or cause
	P     float64
}

// Shares splits a seen sign over the parents that can have fired first; they
// sum to 1. The shares of causes sum to why_s, the chance that no damage link
// fired and a harmless one did.
func (b *Belief) Shares(sign int) []Share {
	s := &b.signs[sign]
	out := make([]Share, 0, len(s.Whole)+len(s.Local)+len(s.Causes)+1)
	for _, p := range s.Whole {
		out = append(out, Share{Whole: true, Index: p.Mode})
	}
	local := len(out)
	for _, p := range s.Local {
		out = append(out, Share{Index: p.Mode})
	}
	for _, p := range s.Causes {
		out = append(out, Share{Cause: true, Index: p.Cause})
	}
	out = append(out, Share{Leak: true})
	g := b.groupOf(sign)
	at := position(b.groups[g].signs, sign)
	n := len(b.groups[g].signs)
	for i := range b.items {
		it := &b.items[i]
		w := b.weight(it)
		if w == 0 {
			continue
		}
		if it.by[sign] > 0 {
			out[it.by[sign]-1].P += w
			continue
		}
		p := b.groups[g].part(it.mask)
		z := p.total()
		for e, we := range p.w {
			out[local+int(p.lab[e*n+at])-1].P += float64(w*we) / z
		}
	}
	return out
}

// Why gives why_s of a seen sign: the chance that of its links one or more of
// the harmless fired and none of damage, given everything put in.
func (b *Belief) Why(sign int) float64 {
	y := 0.0
	for _, s := range b.Shares(sign) {
		if s.Cause {
			y += s.P
		}
	}
	return y
}

func (b *Belief) groupOf(sign int) int {
	for g := range b.groups {
		if b.groups[g].all&shown(sign) != 0 {
			return g
		}
	}
	return -1
}

// Local gives the posterior of a local mode from a normalized belief.
func (b *Belief) Local(mode int) Vec {
	gi := b.tied[mode]
	if gi < 0 {
		return b.local[mode]
	}
	g := &b.groups[gi]
	j, n := position(g.members, mode), len(g.members)
	var out Vec
	for i := range b.items {
		w := b.weight(&b.items[i])
		if w == 0 {
			continue
		}
		p := g.part(b.items[i].mask)
		z := p.total()
		for e, we := range p.w {
			k := float64(w*we) / z
			for x := range out {
				out[x] += float64(k * p.vec[e*n+j][x])
			}
		}
	}
	return out
}

// WholeMode gives the posterior of a whole-piece mode from a normalized belief.
func (b *Belief) WholeMode(mode int) Vec {
	var out Vec
	for i := range b.items {
		w := b.weight(&b.items[i])
		for x := range out {
			out[x] += float64(w * b.items[i].vec[mode][x])
		}
	}
	return out
}

// Cause gives P(the cause is there) from a normalized belief.
func (b *Belief) Cause(cause int) float64 {
	gi := b.causeG[cause]
	if gi < 0 {
		return b.cause[cause][1]
	}
	g := &b.groups[gi]
	j, n := position(g.causes, cause), len(g.causes)
	y := 0.0
	for i := range b.items {
		w := b.weight(&b.items[i])
		if w == 0 {
			continue
		}
		p := g.part(b.items[i].mask)
		z := p.total()
		for e, we := range p.w {
			y += float64((float64(w*we) / z) * p.cau[e*n+j][1])
		}
	}
	return y
}
