package course

import (
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// A day's looks of one kind are one examination: in every cell and side each
// person's best quality counts, then persons are put together. Quality is how
// good one kind of look was in one cell: patches of the cell (its sides, and
// stretches of it) with the qualities of the persons who looked there.
type quality struct {
	order   int // of the look
	patches []patch
	beta    float64
	said    []said     // per mode, once asked for
	evenly  []*quality // itself in every cell, where it is of a look that is alike everywhere
}

// patch is a share of a cell with the qualities of those who looked there.
type patch struct {
	share  float64
	kappas []float64
}

// miss gives the chance that a link of strength q shows nothing, as the mean
// over the patches. A nil quality is a look that was not made: 1.
func (q *quality) miss(strength float64) float64 {
	if q == nil || strength == 0 {
		return 1
	}
	if len(q.patches) == 1 {
		return doubt.Miss(q.patches[0].kappas, q.beta, strength)
	}
	m := 0.0
	for i := range q.patches {
		m += float64(q.patches[i].share * doubt.Miss(q.patches[i].kappas, q.beta, strength))
	}
	return m
}

// some says whether anybody looked anywhere in the cell.
func (q *quality) some() bool {
	if q == nil {
		return false
	}
	for i := range q.patches {
		for _, k := range q.patches[i].kappas {
			if k > 0 {
				return true
			}
		}
	}
	return false
}

// given is a look as it was given: with the kind of examination it was part of.
type given struct {
	look *kit.Look
	exam kit.ExamKind
	by   string
}

// lookset holds the quality of every look in every cell, for one set of looks
// that count together. Cells with the same quality share it.
type lookset struct {
	at      [len(kit.Looks)][]*quality // per look, per cell; nil where it did not go
	uniform bool                       // every look made is of one quality everywhere
	by      []*together                // per cell, all looks together, once asked for
	given   []given
}

// looks puts the looks together that were given, cell by cell.
func (m *Model) looks(all []given) *lookset {
	s := &lookset{given: all, uniform: true}
	var few [4]given // as many as are usual of one kind
	room := few[:0]
	for o, id := range kit.Looks {
		of := room[:0]
		for _, g := range all {
			if g.look.Look == id {
				of = append(of, g)
			}
		}
		if len(of) == 0 {
			continue
		}
		def := m.Tables.Look(id)
		if def == nil {
			continue
		}
		if q := m.everywhere(def, of); q != nil {
			s.at[o] = q.evenly
			continue
		}
		s.uniform = false
		s.at[o] = m.cellByCell(def, of)
	}
	return s
}

// everywhere gives the one quality of looks that all went over everything, or nil.
func (m *Model) everywhere(def *table.Look, of []given) *quality {
	for _, g := range of {
		if len(g.look.Covers) != 1 || !g.look.Covers[0].All || len(g.look.Covers[0].Sides) > 0 {
			return nil
		}
	}
	var whoRoom [4]string // for as many persons without memory of its own
	var ksRoom [4]float64
	who, ks := whoRoom[:0], ksRoom[:0]
	for _, g := range of {
		who, ks = best(who, ks, g.by, m.kappa(def, g))
	}
	return m.shared(def.ID.Order(), inOrder(ks), def.Beta)
}

// shared gives the quality of one look that is alike everywhere; the same
// persons looking as well again get the same one, with what it says of each mode.
func (m *Model) shared(order int, ks []float64, beta float64) *quality {
next:
	for _, q := range m.qualities {
		if q.order != order || q.beta != beta || len(q.patches[0].kappas) != len(ks) {
			continue
		}
		for i := range ks {
			if q.patches[0].kappas[i] != ks[i] {
				continue next
			}
		}
		return q
	}
	q := &quality{order: order, patches: []patch{{1, append([]float64(nil), ks...)}}, beta: beta, evenly: make([]*quality, len(m.Cells))}
	for c := range m.Cells {
		if !m.Cells[c].Gone {
			q.evenly[c] = q
		}
	}
	m.qualities = append(m.qualities, q)
	return q
}

// inOrder puts qualities in order, the best first, so that the order in which
// the persons were written down changes nothing, not even in the last bit.
func inOrder(ks []float64) []float64 {
	for i := 1; i < len(ks); i++ {
		for k := i; k > 0 && ks[k] > ks[k-1]; k-- {
			ks[k], ks[k-1] = ks[k-1], ks[k]
		}
	}
	return ks
}

// best keeps each person's best quality.
func best(who []string, ks []float64, by string, k float64) ([]string, []float64) {
	for i := range who {
		if who[i] == by {
			ks[i] = max(ks[i], k)
			return who, ks
		}
	}
	return append(who, by), append(ks, k)
}

// kappa gives the quality of one look: the examiner's own rate or the table's
// for this kind of examination, times what the conditions leave of it.
func (m *Model) kappa(def *table.Look, g given) float64 {
	k := def.At(g.exam)
	if p := m.persons[g.by]; p != nil {
		if own, ok := p.Kappa[def.ID]; ok {
			k = min(k, float64(own.Share))
		}
	}
	for _, f := range FactorRows(def, &g.look.Conditions) {
		if f != nil {
			k *= f.F
		}
	}
	return k
}

// FactorRows gives, for each condition, the row that says what it leaves of a
// look; nil where it takes nothing away.
func FactorRows(def *table.Look, c *kit.Conditions) [7]*table.Factor {
	said := [7]string{c.Light, string(c.Cleaned), string(c.Wet), string(c.Frozen), string(c.Muddy), string(c.Gloves), string(c.Hurried)}
	var rows, worst [7]*table.Factor
	for i := range def.Factors {
		f := &def.Factors[i]
		n := condition(f.Condition)
		switch {
		case n < 0 || rows[n] != nil:
		case f.State == said[n] && said[n] != "":
			rows[n] = f
		case worst[n] == nil || f.F < worst[n].F || (f.F == worst[n].F && f.State == ""):
			worst[n] = f
		}
	}
	for n := range rows { // what was not said, or is not known, leaves as little as the worst state in the table
		if rows[n] == nil && worst[n] != nil && worst[n].F <= 1 {
			rows[n] = worst[n]
		}
	}
	return rows
}

// condition gives the place of a condition in the order of FactorRows, or -1.
func condition(name string) int {
	switch name {
	case "light":
		return 0
	case "cleaned":
		return 1
	case "wet":
		return 2
	case "frozen":
		return 3
	case "muddy":
		return 4
	case "gloves":
		return 5
	case "hurried":
		return 6
	}
	return -1
}

// cellByCell gives the quality of looks in every cell; nil where they did not go.
func (m *Model) cellByCell(def *table.Look, of []given) []*quality {
	out := make([]*quality, len(m.Cells))
	var room [4]float64 // as many as are usual, without memory of their own
	var patchRoom [8]patch
	var kappaRoom [32]float64
	kappas := room[:0]
	for _, g := range of {
		kappas = append(kappas, m.kappa(def, g))
	}
	sides := m.Kind.Sides[:min(1, len(m.Kind.Sides))] // all alike, unless somebody says which
	for _, g := range of {
		for i := range g.look.Covers {
			if len(g.look.Covers[i].Sides) > 0 {
				sides = m.Kind.Sides
			}
		}
	}
	for c := range m.Cells {
		if m.Cells[c].Gone || !wentInto(of, &m.Cells[c]) {
			continue
		}
		patches := m.inCell(patchRoom[:0], kappaRoom[:0], of, kappas, sides, c)
		for b := c - 1; b >= 0 && out[c] == nil; b-- {
			if q := out[b]; q != nil && alike(q.patches, patches) {
				out[c] = q
			}
		}
		if out[c] == nil && len(patches) > 0 {
			out[c] = &quality{order: def.ID.Order(), beta: def.Beta, patches: kept(patches)}
		}
	}
	return out
}

// wentInto says whether some look can have gone into a cell.
func wentInto(of []given, cell *Cell) bool {
	for _, g := range of {
		for i := range g.look.Covers {
			s := &g.look.Covers[i]
			switch {
			case s.All, cell.Part != "" && s.Part == cell.Part:
				return true
			case cell.Part == "" && s.Part == "" && s.From < cell.To && s.To > cell.From:
				return true
			}
		}
	}
	return false
}

// kept copies patches out of the memory they were put together in.
func kept(patches []patch) []patch {
	n := 0
	for i := range patches {
		n += len(patches[i].kappas)
	}
	out, ks := make([]patch, len(patches)), make([]float64, 0, n)
	for i := range patches {
		from := len(ks)
		ks = append(ks, patches[i].kappas...)
		out[i] = patch{patches[i].share, ks[from:len(ks):len(ks)]}
	}
	return out
}

// alike says whether two lists of patches are the same.
func alike(p, o []patch) bool {
	if len(p) != len(o) {
		return false
	}
	for i := range p {
		a, b := &p[i], &o[i]
		if a.share != b.share || len(a.kappas) != len(b.kappas) {
			return false
		}
		for k := range a.kappas {
			if a.kappas[k] != b.kappas[k] {
				return false
			}
		}
	}
	return true
}

// inCell appends the patches of one cell, each with the qualities of the looks
// that reached it: it is cut at every end of a stretch that was gone over, and
// every piece of it has its sides, all of the kind's; those given are told
// apart. Nothing is appended where no look reached. The qualities lie in room, as
// long as there is any.
func (m *Model) inCell(to []patch, room []float64, of []given, kappas []float64, sides []string, c int) []patch {
	cell := &m.Cells[c]
	var few [8]qty.Length
	cuts := append(few[:0], cell.From, cell.To)
	if cell.Part == "" {
		for _, g := range of {
			for i := range g.look.Covers {
				for _, at := range [2]qty.Length{g.look.Covers[i].From, g.look.Covers[i].To} {
					if !g.look.Covers[i].All && at > cell.From && at < cell.To {
						cuts = insert(cuts, at)
					}
				}
			}
		}
	}
	patches, some := to, false
	var ks []float64
	for i := 1; i < len(cuts); i++ {
		share := 1.0
		if cell.Part == "" {
			share = float64(cuts[i]-cuts[i-1]) / float64(cell.To-cell.From)
		}
		for n := range m.Kind.Sides {
			if n < len(sides) {
				var whoRoom [4]string
				who := whoRoom[:0]
				if cap(room)-len(room) < len(of) {
					room = make([]float64, 0, len(of)*(len(cuts)-i)*len(sides))
				}
				ks = room[len(room):]
				for k, g := range of {
					if reached(g.look, cell, cuts[i-1], cuts[i], sides[n]) {
						who, ks = best(who, ks, g.by, kappas[k])
					}
				}
				room = room[:len(room)+len(ks)]
				ks = inOrder(ks)
				some = some || len(ks) > 0 && ks[0] > 0
			}
			patches = append(patches, patch{share / float64(len(m.Kind.Sides)), ks})
		}
	}
	if !some {
		return to
	}
	return patches
}

func insert(sorted []qty.Length, at qty.Length) []qty.Length {
	for i, x := range sorted {
		if x == at {
			return sorted
		}
		if x > at {
			return append(sorted[:i:i], append([]qty.Length{at}, sorted[i:]...)...)
		}
	}
	return append(sorted, at)
}

// reached says whether a look went over a stretch of a cell on a side.
func reached(l *kit.Look, cell *Cell, from, to qty.Length, side string) bool {
	for i := range l.Covers {
		s := &l.Covers[i]
		if len(s.Sides) > 0 && !has(s.Sides, side) {
			continue
		}
		switch {
		case s.All:
			return true
		case cell.Part != "":
			if s.Part == cell.Part {
				return true
			}
		case s.Part == "" && s.From <= from && s.To >= to:
			return true
		}
	}
	return false
}

func has(list []string, x string) bool {
	for _, y := range list {
		if y == x {
			return true
		}
	}
	return false
}
