package doubt

// See puts a newly seen sign into the belief and gives its index. The belief
// falls apart into explanations, by which parent was the first to show it:
// whole-piece modes come first, then local modes, harmless causes and the leak. From then on
// the sign is silent; callers put no more factors of it in.
//
// It gives ErrTooMany or ErrSigns, and then the belief is as it was before.
func (b *Belief) See(s Sign) (int, error) {
	if len(b.signs) >= MostSigns {
		return 0, ErrSigns
	}
	id := len(b.signs)
	items, err := b.splitItems(id, &s)
	if err != nil {
		return 0, err
	}
	rest := group{}
	joined := make([]group, 0, len(b.groups)+1)
	for g := range b.groups {
		if b.groups[g].touches(b, g, &s) {
			if rest, err = join(&rest, &b.groups[g], items); err != nil {
				return 0, err
			}
		} else {
			joined = append(joined, b.groups[g])
		}
	}
	if rest, err = b.split(&rest, id, &s, items); err != nil {
		return 0, err
	}
	b.items = items
	b.groups = append(joined, rest)
	b.signs = append(b.signs, s)
	for g := range b.groups {
		for _, m := range b.groups[g].members {
			b.tied[m] = g
		}
		for _, c := range b.groups[g].causes {
			b.causeG[c] = g
		}
	}
	return id, nil
}

// splitItems sums over which whole-piece mode, if any, showed the sign first.
func (b *Belief) splitItems(id int, s *Sign) ([]item, error) {
	if len(b.items)*(len(s.Whole)+1) > MostExplanations {
		return nil, ErrTooMany
	}
	out := make([]item, 0, len(b.items)*(len(s.Whole)+1))
	room := make([]Vec, 0, cap(out)*b.nWhole) // one stretch of memory for all vectors
	vectors := func(of []Vec) []Vec {
		room = append(room, of...)
		return room[len(room)-len(of) : len(room) : len(room)]
	}
	for i := range b.items {
		it := item{w: b.items[i].w, mask: b.items[i].mask, by: b.items[i].by, vec: vectors(b.items[i].vec)}
		for k := range s.Whole {
			p := &s.Whole[k]
			fired := it
			fired.mask |= shown(id)
			fired.by[id] = uint8(k + 1)
			fired.vec = vectors(it.vec)
			v := &fired.vec[p.Mode]
			fire(v, &p.Miss)
			fired.w *= v.normalize()
			if fired.w > 0 {
				out = append(out, fired)
			}
			it.vec[p.Mode].Times(&p.Miss)
			it.w *= it.vec[p.Mode].normalize()
		}
		if it.w > 0 {
			out = append(out, it)
		}
	}
	return out, nil
}

// fire multiplies in the chance that a link fires: 1 − miss.
func fire(v, miss *Vec) {
	for x := range v {
		v[x] = float64(v[x] * (1 - miss[x]))
	}
}

// touches says whether a sign has a parent in the group.
func (g *group) touches(b *Belief, id int, s *Sign) bool {
	for _, p := range s.Local {
		if b.tied[p.Mode] == id {
			return true
		}
	}
	for _, p := range s.Causes {
		if b.causeG[p.Cause] == id {
			return true
		}
	}
	return false
}

// join makes one group of two, keeping only the parts that some item can meet.
func join(a, c *group, items []item) (group, error) {
	if a.parts == nil {
		return *c, nil
	}
	out := group{
		members: append(append([]int(nil), a.members...), c.members...),
		causes:  append(append([]int(nil), a.causes...), c.causes...),
		signs:   append(append([]int(nil), a.signs...), c.signs...),
		all:     a.all | c.all,
	}
	for i := range a.parts {
		for k := range c.parts {
			p, q := &a.parts[i], &c.parts[k]
			if !met(items, out.all, p.mask|q.mask) {
				continue
			}
			if len(p.w)*len(q.w) > MostExplanations {
				return group{}, ErrTooMany
			}
			r := part{mask: p.mask | q.mask}
			for e := range p.w {
				for f := range q.w {
					r.w = append(r.w, float64(p.w[e]*q.w[f]))
					r.vec = append(append(r.vec, row(p.vec, e, len(a.members))...), row(q.vec, f, len(c.members))...)
					r.cau = append(append(r.cau, row(p.cau, e, len(a.causes))...), row(q.cau, f, len(c.causes))...)
					r.lab = append(append(r.lab, row(p.lab, e, len(a.signs))...), row(q.lab, f, len(c.signs))...)
				}
			}
			out.parts = append(out.parts, r)
		}
	}
	return out, nil
}

func row[T any](x []T, e, n int) []T { return x[e*n : (e+1)*n] }

// met says whether some item shows exactly these of the group's signs.
func met(items []item, all, mask uint64) bool {
	for i := range items {
		if items[i].mask&all == mask {
			return true
		}
	}
	return false
}

// takeIn gives the group with the sign and its free modes and causes, which
// come after those that it has; its parts are not made yet.
func (b *Belief) takeIn(g *group, id int, s *Sign) group {
	out := group{
		members: append(make([]int, 0, len(g.members)+len(s.Local)), g.members...),
		causes:  append(make([]int, 0, len(g.causes)+len(s.Causes)), g.causes...),
		signs:   append(append(make([]int, 0, len(g.signs)+1), g.signs...), id),
		all:     g.all | shown(id),
	}
	for _, p := range s.Local {
		if b.tied[p.Mode] < 0 && position(out.members, p.Mode) < 0 {
			out.members = append(out.members, p.Mode)
			b.scale *= b.local[p.Mode].normalize() // as vectors in explanations are
		}
	}
	for _, p := range s.Causes {
		if b.causeG[p.Cause] < 0 && position(out.causes, p.Cause) < 0 {
			out.causes = append(out.causes, p.Cause)
		}
	}
	return out
}

// unfold appends an explanation of a part of the group, with the free modes and
// causes that the larger group has besides.
func (b *Belief) unfold(vec []Vec, cau [][2]float64, g, larger *group, p *part, e int) ([]Vec, [][2]float64) {
	vec = append(vec, row(p.vec, e, len(g.members))...)
	for _, m := range larger.members[len(g.members):] {
		vec = append(vec, b.local[m])
	}
	cau = append(cau, row(p.cau, e, len(g.causes))...)
	for _, c := range larger.causes[len(g.causes):] {
		cau = append(cau, b.cause[c])
	}
	return vec, cau
}

// split makes, of every part of a group, one in which a whole-piece mode showed
// the sign and one in which the group's own parents did, explanation by
// explanation.
func (b *Belief) split(g *group, id int, s *Sign, items []item) (group, error) {
	out := b.takeIn(g, id, s)
	parts := g.parts
	if parts == nil {
		parts = []part{{w: []float64{1}}}
	}
	vec, cau := make([]Vec, 0, len(out.members)), make([][2]float64, 0, len(out.causes)) // of one explanation
	out.parts = make([]part, 0, len(parts))
	for k := range parts {
		p := &parts[k]
		if met(items, out.all, p.mask|shown(id)) {
			r := part{mask: p.mask | shown(id), w: append([]float64(nil), p.w...)}
			for e := range p.w {
				r.vec, r.cau = b.unfold(r.vec, r.cau, g, &out, p, e)
				r.lab = append(append(r.lab, row(p.lab, e, len(g.signs))...), 0)
			}
			out.parts = append(out.parts, r)
		}
		if !met(items, out.all, p.mask) {
			continue
		}
		n := len(p.w) * (len(s.Local) + len(s.Causes) + 1)
		if n > 2*MostExplanations { // most of which may have no weight; they need no room
			n = 2 * MostExplanations
		}
		r := part{mask: p.mask, w: make([]float64, 0, n), vec: make([]Vec, 0, n*len(out.members)),
			cau: make([][2]float64, 0, n*len(out.causes)), lab: make([]uint16, 0, n*len(out.signs))}
		for e := range p.w {
			vec, cau = b.unfold(vec[:0], cau[:0], g, &out, p, e)
			r.explain(&out, s, p.w[e], vec, cau, row(p.lab, e, len(g.signs)))
			if len(r.w) > MostExplanations {
				return group{}, ErrTooMany
			}
		}
		if len(r.w) > 0 {
			out.parts = append(out.parts, r)
		}
	}
	return out, nil
}

// explain appends one explanation per parent that can have fired first. The
// vectors given are used up.
func (r *part) explain(g *group, s *Sign, w float64, vec []Vec, cau [][2]float64, lab []uint16) {
	label := uint16(0)
	for i := range s.Local {
		label++
		j := position(g.members, s.Local[i].Mode)
		old := vec[j]
		fire(&vec[j], &s.Local[i].Miss)
		r.put(float64(w*vec[j].normalize()), vec, cau, lab, label)
		vec[j] = old
		vec[j].Times(&s.Local[i].Miss)
		w *= vec[j].normalize()
	}
	for i := range s.Causes {
		label++
		j := position(g.causes, s.Causes[i].Cause)
		old := cau[j]
		// only a cause that is there can fire
		cau[j] = [2]float64{0, 1}
		r.put(float64(w*float64(old[1]*(1-s.Causes[i].Miss))), vec, cau, lab, label)
		cau[j] = old
		kept := float64(old[1] * s.Causes[i].Miss)
		t := old[0] + kept
		if t > 0 {
			cau[j] = [2]float64{old[0] / t, kept / t}
		}
		w *= t
	}
	r.put(float64(w*(1-s.Leak)), vec, cau, lab, label+1)
}

// put appends an explanation that has any weight. No two are ever equal, since
// each keeps which parent showed which sign.
func (r *part) put(w float64, vec []Vec, cau [][2]float64, lab []uint16, label uint16) {
	if !(w > 0) {
		return
	}
	r.w = append(r.w, w)
	r.vec = append(r.vec, vec...)
	r.cau = append(r.cau, cau...)
	r.lab = append(append(r.lab, lab...), label)
}
