package course

import (
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/table"
)

// fact is a sign of the kind as the model meets it on this piece: where it can
// be shown, by which looks, and by which modes.
type fact struct {
	sign   *table.Sign
	looks  []int  // orders of the looks that can show it
	domain []bool // per cell
	metres float64
	local  []strength // by mode of the kind
	whole  []strength // by whole-piece mode of the engine
}

// strength is a link of a mode: Mode is an index of Kind.Modes (local) or of
// Model.Whole (whole).
type strength struct {
	mode   int
	q1, q2 float64
}

func (m *Model) makeFacts() []fact {
	out := make([]fact, len(m.Kind.Signs))
	for i := range m.Kind.Signs {
		s := &m.Kind.Signs[i]
		f := &out[i]
		f.sign = s
		for _, l := range s.Looks {
			f.looks = append(f.looks, l.Order())
		}
		for _, l := range s.Links {
			for k := range m.Kind.Modes {
				if m.Kind.Modes[k].ID != l.Mode || !m.has(&m.Kind.Modes[k]) {
					continue
				}
				if m.Kind.Modes[k].Scope == "whole" {
					for w, mode := range m.Whole {
						if mode == k {
							f.whole = append(f.whole, strength{w, l.Q1, l.Q2})
						}
					}
				} else {
					f.local = append(f.local, strength{k, l.Q1, l.Q2})
				}
			}
		}
		f.domain = make([]bool, len(m.Cells))
		for c := range m.Cells {
			if f.domain[c] = m.shows(f, c); f.domain[c] {
				f.metres += m.Cells[c].Extent.Metres()
			}
		}
	}
	return out
}

// shows says whether a sign can be met in a cell: where a linked local mode
// lives; without one, at the ends for what only the look at the ends shows,
// else along the piece; for a sign of the whole piece, everywhere.
func (m *Model) shows(f *fact, c int) bool {
	cell := &m.Cells[c]
	if f.sign.Whole {
		return true
	}
	if len(f.local) > 0 {
		for l := cell.First; l < cell.Last; l++ {
			for _, s := range f.local {
				if m.Local[l].Mode == s.mode {
					return true
				}
			}
		}
		return false
	}
	if m.Kind.Axis != "length" {
		return true
	}
	onlyEnds := true
	for _, o := range f.looks {
		onlyEnds = onlyEnds && kit.Looks[o] == kit.Ends
	}
	return onlyEnds == (cell.Part != "")
}

// missIn gives what a fact not seen in cell c says of a mode there, which shows it
// at two strengths.
func (f *fact) missIn(set *lookset, c int, q1, q2 float64) doubt.Vec {
	all := blank{1, 1}
	for _, o := range f.looks {
		if set.at[o] != nil {
			q := set.at[o][c]
			all.times(&blank{q.miss(q1), q.miss(q2)})
		}
	}
	return all.vec()
}

// causeLink is a fact that a harmless cause can show, with its strength.
type causeLink struct {
	fact int
	r    float64
}

// modeLink is a fact that a mode can show, with its strengths.
type modeLink struct {
	fact   int
	q1, q2 float64
}

// makeLinks lists, per mode of the kind and look, per whole-piece mode of the
// engine and per harmless cause, the facts that it can show.
func (m *Model) makeLinks() {
	m.links = make([][len(kit.Looks)][]modeLink, len(m.Kind.Modes))
	m.wholeLinks = make([][]modeLink, len(m.Whole))
	m.reach = make([]bool, len(m.Kind.Modes))
	m.causeLinks = make(map[string][]causeLink, len(m.Tables.Causes))
	for i := range m.facts {
		for _, l := range m.facts[i].sign.Causes {
			m.causeLinks[l.Cause] = append(m.causeLinks[l.Cause], causeLink{i, l.R})
		}
		for _, s := range m.facts[i].local {
			for _, o := range m.facts[i].looks {
				m.links[s.mode][o] = append(m.links[s.mode][o], modeLink{i, s.q1, s.q2})
			}
		}
		for _, s := range m.facts[i].whole {
			m.wholeLinks[s.mode] = append(m.wholeLinks[s.mode], modeLink{i, s.q1, s.q2})
		}
		if m.facts[i].sign.Spread > 0 {
			for _, s := range m.facts[i].local {
				m.reach[s.mode] = true
			}
		}
	}
	m.shownBy = make([][]int, len(m.links))
	for mode := range m.links {
		for o := range m.links[mode] {
			if len(m.links[mode][o]) > 0 {
				m.shownBy[mode] = append(m.shownBy[mode], o)
			}
		}
	}
}

// blank is the chance that nothing shows of findable damage: impaired, and
// unfit. Of the other states nothing shows anyhow.
type blank struct{ impaired, unfit float64 }

func (b *blank) times(o *blank) {
	b.impaired = float64(b.impaired * o.impaired)
	b.unfit = float64(b.unfit * o.unfit)
}

// vec gives the likelihood per state.
func (b *blank) vec() doubt.Vec { return doubt.Vec{1, b.impaired, 1, b.unfit, 1} }

// said is what looks say of a mode by showing nothing: in their own cell, and in
// the neighbouring ones that its signs reach into.
type said struct {
	have       bool
	own, reach blank
}

// says gives it for one quality of one look, worked out once per mode.
func (m *Model) says(q *quality, mode int) *said {
	if q.said == nil {
		q.said = make([]said, len(m.Kind.Modes))
	}
	s := &q.said[mode]
	if s.have {
		return s
	}
	s.have, s.own, s.reach = true, blank{1, 1}, blank{1, 1}
	for _, l := range m.links[mode][q.order] {
		f := &m.facts[l.fact]
		s.own.times(&blank{q.miss(l.q1), q.miss(l.q2)})
		if k := f.sign.Spread; k > 0 {
			s.reach.times(&blank{q.miss(float64(l.q1 * k)), q.miss(float64(l.q2 * k))})
		}
	}
	return s
}

// together is what all looks of a set say by showing nothing in cells that were
// looked at alike, per mode.
type together struct {
	of   [len(kit.Looks)]*quality
	said []said
}

// byCell gives it for every cell, worked out once for all that are looked at
// alike: those have the same one. What looks say that are alike everywhere is
// kept beyond the set.
func (m *Model) byCell(set *lookset) []*together {
	if set.by != nil {
		return set.by
	}
	set.by = make([]*together, len(m.Cells))
	var few [8]*together // as many as are usual, without memory of their own
	known := few[:0]
next:
	for c := range m.Cells {
		if m.Cells[c].Gone {
			continue
		}
		if set.uniform && len(known) > 0 {
			set.by[c] = known[0]
			continue
		}
		of := set.in(c)
		for k := len(known) - 1; k >= 0; k-- {
			if known[k].of == of {
				set.by[c] = known[k]
				continue next
			}
		}
		set.by[c] = m.allLooks(of, set.uniform)
		known = append(known, set.by[c])
	}
	return set.by
}

// in gives the quality of each look in a cell.
func (s *lookset) in(cell int) (of [len(kit.Looks)]*quality) {
	for o := range s.at {
		if s.at[o] != nil {
			of[o] = s.at[o][cell]
		}
	}
	return of
}

// allLooks works it out for looks of these qualities.
func (m *Model) allLooks(of [len(kit.Looks)]*quality, everywhere bool) *together {
	if everywhere {
		for _, t := range m.sets {
			if t.of == of {
				return t
			}
		}
	}
	t := &together{of: of, said: make([]said, len(m.Kind.Modes))}
	for mode := range t.said {
		s := &t.said[mode]
		s.own, s.reach = blank{1, 1}, blank{1, 1}
		for _, q := range t.of {
			if q != nil {
				one := m.says(q, mode)
				s.own.times(&one.own)
				s.reach.times(&one.reach)
			}
		}
	}
	if everywhere {
		m.sets = append(m.sets, t)
	}
	return t
}

// unseenLocal gives the likelihood that a set of looks, which showed none of
// the facts not yet on record, has for one local mode.
func (c *Course) unseenLocal(set *lookset, l int) doubt.Vec {
	m := c.m
	cell, mode := m.Local[l].Cell, m.Local[l].Mode
	all := blank{1, 1}
	by := m.byCell(set)
	reach := m.reach[mode] && m.Cells[cell].Part == ""
	for d := -1; d <= 1; d++ {
		n := cell + d
		if d != 0 && !(reach && m.along(n)) {
			continue
		}
		if c.hushedIn(mode, n) == 0 {
			s := &by[n].said[mode]
			if d == 0 {
				all.times(&s.own)
			} else {
				all.times(&s.reach)
			}
			continue
		}
		for _, o := range m.shownBy[mode] {
			if set.at[o] == nil || set.at[o][n] == nil {
				continue
			}
			q := set.at[o][n]
			for _, x := range m.links[mode][o] {
				k := 1.0
				if d != 0 {
					k = m.facts[x.fact].sign.Spread
				}
				if k == 0 || c.isSilent(x.fact, n) || c.speaks(o, x.fact, n) {
					continue
				}
				all.times(&blank{q.miss(float64(x.q1 * k)), q.miss(float64(x.q2 * k))})
			}
		}
	}
	return all.vec()
}

// neighbours counts the cells beside a cell of the stretch; a part has none.
func (m *Model) neighbours(cell int) int {
	n := 0
	if m.Cells[cell].Part == "" {
		if m.along(cell - 1) {
			n++
		}
		if m.along(cell + 1) {
			n++
		}
	}
	return n
}

// along says whether c is a cell of the stretch, not a part and not cut off.
func (m *Model) along(c int) bool {
	return c >= 0 && c < len(m.Cells) && m.Cells[c].Part == "" && !m.Cells[c].Gone
}

// weighted gives Π over the cells of miss^(extent / whole extent): what looks
// leave unshown of a fact that a whole-piece mode shows somewhere. Dividing the
// piece more finely changes nothing.
func (m *Model) weighted(f *fact, set *lookset, order int, q float64, in func(cell int) bool) float64 {
	if q == 0 || set.at[order] == nil || f.metres == 0 {
		return 1
	}
	type class struct {
		q *quality
		w float64
	}
	var classes [4]class
	n, prod := 0, 1.0
	for c := range m.Cells {
		if !f.domain[c] || m.Cells[c].Gone || !in(c) {
			continue
		}
		w := m.Cells[c].Extent.Metres() / f.metres
		at := set.at[order][c]
		if at == nil {
			continue
		}
		k := 0
		for k < n && classes[k].q != at {
			k++
		}
		if k < n {
			classes[k].w += w
		} else if n < len(classes) {
			classes[n] = class{at, w}
			n++
		} else {
			prod *= power(at.miss(q), w)
		}
	}
	for k := range n {
		prod *= power(classes[k].q.miss(q), classes[k].w)
	}
	return prod
}

// power is x^w with the exact ends kept: a whole piece looked at alike is x.
func power(x, w float64) float64 {
	if w > 1-1e-9 && w < 1+1e-9 {
		return x
	}
	return num.Pow(x, w)
}

// unseenWhole gives the likelihood of a set of looks that showed none of the
// facts not yet on record, for one whole-piece mode.
func (c *Course) unseenWhole(set *lookset, w int) doubt.Vec {
	m := c.m
	v := doubt.Ones()
	for _, l := range m.wholeLinks[w] {
		f := &m.facts[l.fact]
		everywhere := c.muted[l.fact] == 0 && !m.cut && f.metres > 0
		heard := func(cell int) bool { return !c.isSilent(l.fact, cell) }
		for _, o := range f.looks {
			if set.at[o] == nil || m.measures(o) {
				continue
			}
			if q := set.at[o][0]; everywhere && q != nil && q.evenly != nil {
				v[doubt.Impaired] *= q.miss(l.q1)
				v[doubt.Unfit] *= q.miss(l.q2)
				continue
			}
			v[doubt.Impaired] *= m.weighted(f, set, o, l.q1, heard)
			v[doubt.Unfit] *= m.weighted(f, set, o, l.q2, heard)
		}
	}
	return v
}

// measures says whether a look is one with the gauge on a kind that has
// something to measure. Values taken at places show nothing of a mode of the
// whole piece by being in range.
func (m *Model) measures(o int) bool {
	return kit.Looks[o] == kit.Gauge && len(m.Kind.Reads) > 0
}

// unseenLeak gives the chance that no leak fired in a set of looks.
func (c *Course) unseenLeak(set *lookset) float64 {
	p := 1.0
	for i := range c.m.facts {
		f := &c.m.facts[i]
		if f.sign.Leak == 0 {
			continue
		}
		for cell := range c.m.Cells {
			if f.domain[cell] && !c.m.Cells[cell].Gone && !c.isSilent(i, cell) {
				p *= c.m.leakMiss(f, set, cell)
			}
		}
	}
	return p
}

// leakMiss gives the chance that a fact's leak does not fire in one cell.
func (m *Model) leakMiss(f *fact, set *lookset, cell int) float64 {
	p := 1.0
	leak := min(1, float64(f.sign.Leak*m.Cells[cell].Extent.Metres()))
	for _, o := range f.looks {
		if set.at[o] != nil {
			p *= set.at[o][cell].miss(leak)
		}
	}
	return p
}

// sign builds the engine's sign for a fact seen over some cells, its harmless
// causes apart. What several looks of the set could have shown, at least one
// of them did.
func (m *Model) sign(f *fact, cells []int, set *lookset) doubt.Sign {
	in := func(c int) bool {
		for _, x := range cells {
			if x == c {
				return true
			}
		}
		return false
	}
	out := doubt.Sign{Leak: 1, Local: make([]doubt.Parent, 0, (len(cells)+2)*len(f.local)), Whole: make([]doubt.Parent, 0, len(f.whole))}
	for c := range m.Cells {
		k, at := 1.0, c
		switch {
		case in(c):
			out.Leak *= m.leakMiss(f, set, c)
		case f.sign.Spread > 0 && m.along(c) && m.along(c-1) && in(c-1) && f.domain[c-1]:
			k, at = f.sign.Spread, c-1
		case f.sign.Spread > 0 && m.along(c) && m.along(c+1) && in(c+1) && f.domain[c+1]:
			k, at = f.sign.Spread, c+1
		default:
			continue
		}
		for l := m.Cells[c].First; l < m.Cells[c].Last; l++ {
			for _, s := range f.local {
				if m.Local[l].Mode != s.mode {
					continue
				}
				out.Local = append(out.Local, doubt.Parent{Mode: l, Miss: f.missIn(set, at, float64(s.q1*k), float64(s.q2*k))})
			}
		}
	}
	for _, s := range f.whole {
		v := doubt.Ones()
		for _, o := range f.looks {
			v[doubt.Impaired] *= m.weighted(f, set, o, s.q1, in)
			v[doubt.Unfit] *= m.weighted(f, set, o, s.q2, in)
		}
		out.Whole = append(out.Whole, doubt.Parent{Mode: s.mode, Miss: v})
	}
	return out
}
