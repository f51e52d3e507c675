package course

import (
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// seen is a sign newly seen in a set of looks.
type seen struct {
	ref   string
	also  []string // other refs of the same sign
	fact  int
	cells []int
	at    kit.Place
	order int // the look it is told with
	exam  kit.ExamKind
	mean  float64
	err   float64
}

// examine puts in the looks of one day that count together: what was not seen,
// what was newly seen, what was measured; looks after a washing are a second set.
// The looks of the first exams, as many as are spent, show signs alone: what they
// did not show was put in before.
func (c *Course) examine(exams []exam, spent int, runs []given) {
	if len(exams) == 0 && len(runs) == 0 {
		return
	}
	n := len(runs)
	for _, e := range exams {
		n += len(e.Looks)
	}
	room := make([]given, 0, n)
	for _, washed := range [2]bool{false, true} {
		all := room[:0:0] // few are made after a washing
		if !washed {
			all = append(room, runs...)
		}
		anything, old := len(all) > 0, 0
		for n, e := range exams {
			if n == spent && spent > 0 {
				old = len(all)
			}
			for i := range e.Looks {
				if e.Looks[i].AfterWash == washed {
					all = append(all, c.give(c.gauged(e.at, &e.Looks[i]), e.Kind, e.By))
					anything = true
				}
			}
			for i := range e.Signs {
				anything = anything || e.Signs[i].AfterWash == washed
			}
			anything = anything || (!washed && len(e.Readings) > 0)
		}
		if spent > 0 && spent >= len(exams) {
			old = len(all)
		}
		if anything {
			c.oneSet(exams, all, old, washed)
		}
	}
}

// oneSet puts in one set of looks, in the fixed order of the looks, so that the
// order in which they were written down changes nothing. The first looks, old of
// them, show signs alone.
func (c *Course) oneSet(exams []exam, all []given, old int, washed bool) {
	set := c.m.looks(all)
	quiet := set
	if old > 0 {
		quiet = c.m.looks(all[old:])
	}
	c.turn++
	var news []seen
	for _, e := range exams {
		for i := range e.Signs {
			if s := &e.Signs[i]; s.AfterWash == washed {
				news = c.meet(news, exams, e, s, set)
			}
		}
	}
	var reads []measured
	if !washed {
		for _, e := range exams {
			if m := c.measure(e); reads == nil {
				reads = m
			} else {
				reads = append(reads, m...)
			}
		}
		news = c.outOfRange(news, reads)
	}
	sortSeen(news)
	news = c.silence(news)
	c.washed()
	if c.Trace == nil { // all looks at once: nobody asks what each of them did
		c.nothingElse(quiet, reads)
	}
	c.makeRoom(news)
	for o := range kit.Looks {
		if c.Trace != nil && quiet.at[o] != nil {
			c.nothingElse(quiet.only(o), reads)
		}
		for i := range news {
			if news[i].order == o {
				c.see(&news[i])
			}
		}
		if kit.Looks[o] == kit.Gauge {
			c.weigh(reads)
		}
		c.tell(kit.Looks[o], quiet.at[o] != nil || told(news, o) || (kit.Looks[o] == kit.Gauge && len(reads) > 0))
	}
	c.regrown(exams, washed)
}

// nothingElse puts in that the looks showed none of the facts that are not on
// record. At the gauge, the sign "out of range" says nothing in the cells whose
// readings enter as likelihoods: what they say must not count twice.
func (c *Course) nothingElse(set *lookset, reads []measured) {
	c.spoken = make([]placedFact, 0, len(reads))
	for k := range reads {
		m := &reads[k]
		if !m.enters() {
			continue
		}
		for f := range c.m.facts {
			if c.m.facts[f].sign.ID == m.quantity.Sign {
				c.spoken = append(c.spoken, placedFact{f, m.cell})
			}
		}
	}
	c.aside(1)
	c.unseen(set)
	c.aside(-1)
	c.spoken = nil
}

// aside takes the cells in which a reading speaks out of those that are looked
// at alike (by = 1), or puts them back (by = -1).
func (c *Course) aside(by int) {
	for _, s := range c.spoken {
		for _, p := range c.m.facts[s.fact].local {
			c.hushed[p.mode*len(c.m.Cells)+s.cell] += uint16(by)
		}
	}
}

// speaks says whether a reading says at the gauge what a fact would say in a cell.
func (c *Course) speaks(look, fact, cell int) bool {
	for _, s := range c.spoken {
		if s.fact == fact && s.cell == cell && kit.Looks[look] == kit.Gauge {
			return true
		}
	}
	return false
}

func told(news []seen, o int) bool {
	for i := range news {
		if news[i].order == o {
			return true
		}
	}
	return false
}

// only gives the set with one look left in it.
func (s *lookset) only(o int) *lookset {
	out := &lookset{given: s.given, uniform: s.uniform}
	out.at[o] = s.at[o]
	return out
}

// meet takes one sign of an examination: a new fact, or word of one on record.
func (c *Course) meet(news []seen, exams []exam, e exam, s *kit.Sign, set *lookset) []seen {
	if s.State != kit.FirstSeen {
		found := s.Sign == ""
		for i := range c.open {
			if o := &c.open[i]; o.Named(s.Ref) {
				c.hear(o, s.State)
				found = true
			}
		}
		if found || introduced(exams, s) {
			return news
		} // else nobody introduced it: it is new
	}
	for f := range c.m.facts {
		fact := &c.m.facts[f]
		if fact.sign.ID != s.Sign {
			continue
		}
		at := s.At
		if fact.sign.Whole {
			at = kit.Place{Whole: true}
		}
		cells := c.m.met(fact, at)
		return append(news, seen{ref: s.Ref, fact: f, cells: cells, at: at, order: fact.toldBy(s.Look, set), exam: e.Kind})
	}
	return news
}

// introduced says whether an entry of the same examinations first sees a sign.
func introduced(exams []exam, s *kit.Sign) bool {
	for _, e := range exams {
		for i := range e.Signs {
			if x := &e.Signs[i]; x.State == kit.FirstSeen && x.Ref == s.Ref && x.Ref != "" {
				return true
			}
		}
	}
	return false
}

// hear takes word of a sign on record. Of several words in one set of looks the
// strictest holds, whoever wrote first; what has grown stays so until an answer.
func (c *Course) hear(o *Open, state kit.SignState) {
	again := o.turn == c.turn
	o.Said, o.turn = c.day, c.turn
	switch {
	case state == kit.Grown, !again && o.State == kit.GoneWash && criteria.Outweighs(state, kit.Gone): // or back again after washing
		o.State, o.Worse = kit.Grown, c.day
	case o.State == kit.Grown, again && !criteria.Outweighs(state, o.State):
	default:
		o.State = state
	}
}

// washed enters what was found gone after washing in this set of looks. What no
// washing takes away is not explained by one.
func (c *Course) washed() {
	for i := range c.open {
		o := &c.open[i]
		if o.turn != c.turn || o.State != kit.GoneWash {
			continue
		}
		if cause := criteria.Washes(c.m.Tables, o.Sign); cause != "" {
			c.settle(o, cause)
		} else {
			o.State = kit.Gone
		}
	}
}

// regrown marks the signs first seen in this set of looks that another word of
// the same set calls grown.
func (c *Course) regrown(exams []exam, washed bool) {
	for _, e := range exams {
		for i := range e.Signs {
			if s := &e.Signs[i]; s.AfterWash == washed && s.State == kit.Grown {
				for k := range c.open {
					if c.open[k].Named(s.Ref) {
						c.hear(&c.open[k], kit.Grown)
					}
				}
			}
		}
	}
}

// met gives the cells in which a sign seen at a place is met: those of the
// place in which a mode lives that can show it; where there are none, the
// nearest that have one, so that no sign escapes its causes by the name of its
// place; where there are none at all, the place itself.
func (m *Model) met(f *fact, at kit.Place) []int {
	cells := m.CellsOf(at)
	n := 0
	for _, c := range cells {
		if f.domain[c] {
			n++
		}
	}
	if n == len(cells) {
		return cells
	}
	in := make([]int, 0, n)
	for _, c := range cells {
		if f.domain[c] {
			in = append(in, c)
		}
	}
	if len(in) > 0 || len(cells) == 0 {
		return in
	}
	near, gap := -1, qty.Length(0)
	for c := range m.Cells {
		if !f.domain[c] || m.Cells[c].Gone {
			continue
		}
		for _, x := range cells {
			g := max(m.Cells[c].From-m.Cells[x].To, m.Cells[x].From-m.Cells[c].To, 0)
			if near < 0 || g < gap {
				near, gap = c, g
			}
		}
	}
	if near < 0 {
		return cells
	}
	return []int{near}
}

// toldBy gives the look that a sign is told with: the one named, else the
// first that can show it and was made, else the first that can show it.
func (f *fact) toldBy(named kit.LookID, set *lookset) int {
	for _, o := range f.looks {
		if kit.Looks[o] == named {
			return o
		}
	}
	for _, o := range f.looks {
		if set.at[o] != nil {
			return o
		}
	}
	if len(f.looks) > 0 {
		return f.looks[0]
	}
	return kit.Eye.Order()
}

// sortSeen orders signs by where they lie and what they are.
func sortSeen(s []seen) {
	for i := 1; i < len(s); i++ {
		for k := i; k > 0 && before(&s[k], &s[k-1]); k-- {
			s[k], s[k-1] = s[k-1], s[k]
		}
	}
}

func before(a, b *seen) bool {
	if len(a.cells) == 0 || len(b.cells) == 0 {
		return len(a.cells) < len(b.cells)
	}
	if a.cells[0] != b.cells[0] {
		return a.cells[0] < b.cells[0]
	}
	if a.fact != b.fact {
		return a.fact < b.fact
	}
	if x, y := a.cells[len(a.cells)-1], b.cells[len(b.cells)-1]; x != y {
		return x < y
	}
	return a.ref < b.ref
}

// silence marks where new signs are seen, so that they are no unseen signs
// there. A sign that is on record in all its cells already is the same one; one
// at a place that is not there is kept.
func (c *Course) silence(news []seen) []seen {
	out := news[:0]
	for _, s := range news {
		var fresh []int
		for _, cell := range s.cells {
			if !c.isSilent(s.fact, cell) {
				fresh = append(fresh, cell)
				c.hush(s.fact, cell, true)
			}
		}
		if len(fresh) == 0 && len(s.cells) > 0 {
			c.again(out, &s)
			continue
		}
		s.cells = fresh
		out = append(out, s)
	}
	return out
}

// again takes a sign that is on record in all its cells as word of the one that
// is there, under its own name too.
func (c *Course) again(news []seen, s *seen) {
	for i := range news {
		if n := &news[i]; n.fact == s.fact && len(s.cells) > 0 && contains(n.cells, s.cells[0]) {
			n.also = append(n.also, s.ref)
			return
		}
	}
	for i := range c.open {
		if o := &c.open[i]; o.fact == s.fact && len(s.cells) > 0 && contains(o.Cells, s.cells[0]) {
			c.hear(o, kit.Same)
			o.also = append(o.also[:len(o.also):len(o.also)], s.ref)
			return
		}
	}
}

// unseen puts in what one set of looks says by showing none of the facts that
// are not on record.
func (c *Course) unseen(set *lookset) {
	if c.err != nil {
		return
	}
	for w := range c.m.Whole {
		v := c.unseenWhole(set, w)
		c.weighWhole(w, &v)
	}
	for l := range c.m.Local {
		if c.m.Cells[c.m.Local[l].Cell].Gone {
			continue
		}
		v := c.unseenLocal(set, l)
		c.weighLocal(l, &v)
	}
}

// unshown gives the chance that a harmless cause shows none of the other signs
// that it could explain at its place. They are taken as looked for as well as an
// examination looks, whether or not anybody did: so a look left out never makes
// a cause more likely, and one made again and again never less.
func (c *Course) unshown(p *placedCause) float64 {
	miss := 1.0
	for _, l := range c.m.causeLinks[p.cause] {
		f := &c.m.facts[l.fact]
		if f.sign.Whole != p.whole || !f.domain[p.cells[0]] || c.isSilent(l.fact, p.cells[0]) {
			continue
		}
		for _, o := range f.looks {
			miss *= 1 - float64(c.m.Tables.Look(kit.Looks[o]).At(kit.Thorough)*l.r)
		}
	}
	return miss
}

// causeMiss gives the chance that a cause's link shows nothing at a place: the
// quality of each look is that of the first of the cells it reached.
func (f *fact) causeMiss(set *lookset, cells []int, r float64) float64 {
	miss := 1.0
	for _, o := range f.looks {
		if set.at[o] == nil {
			continue
		}
		for _, cell := range cells {
			if q := set.at[o][cell]; q.some() {
				miss *= q.miss(r)
				break
			}
		}
	}
	return miss
}

// makeRoom makes room for new signs and their causes at once.
func (c *Course) makeRoom(news []seen) {
	if len(news) == 0 {
		return
	}
	causes := len(news)
	for i := range news {
		causes += len(c.m.facts[news[i].fact].sign.Causes)
	}
	c.open = append(make([]Open, 0, len(c.open)+len(news)), c.open...)
	c.causes = append(make([]placedCause, 0, len(c.causes)+causes), c.causes...)
	c.b.MakeRoom(causes)
}

// see puts one new sign in: its parents, its causes at the place, its leak.
func (c *Course) see(s *seen) {
	f := &c.m.facts[s.fact]
	if len(s.cells) == 0 { // it lies nowhere on the piece: on record, and nothing explains it
		c.open = append(c.open, Open{Ref: s.ref, also: s.also, Sign: f.sign, At: s.at, Day: c.day, Said: c.day, Worse: c.day, turn: c.turn,
			State: kit.FirstSeen, fact: s.fact, id: -1, Mean: s.mean, Error: s.err})
		return
	}
	set := c.lookedFor(f)
	sign := c.m.sign(f, s.cells, set)
	zone := c.m.ZoneAt(s.at)
	links := f.sign.Causes
	of := make([]int, 0, len(links)+1)
	sign.Causes = make([]doubt.CauseParent, 0, len(links)+1)
	for i := -1; i < len(links); i++ {
		cause, r := otherCause, 1.0
		if i >= 0 {
			cause, r = links[i].Cause, links[i].R
		}
		p := c.causeAt(cause, zone, s.cells, f.sign.Whole)
		of = append(of, p)
		sign.Causes = append(sign.Causes, doubt.CauseParent{Cause: c.causes[p].index, Miss: f.causeMiss(set, s.cells, r)})
	}
	id := c.seeSign(sign)
	c.open = append(c.open, Open{Ref: s.ref, also: s.also, Sign: f.sign, At: s.at, Cells: s.cells, Day: c.day, Said: c.day,
		State: kit.FirstSeen, Worse: c.day, turn: c.turn, Zone: zone, fact: s.fact, id: id, causes: of, Mean: s.mean, Error: s.err})
}

// lookedFor gives the looks that a sign is weighed with: every look that can show
// it, made where it was seen as well as an examination makes it, whatever looks
// are on record there. Looks of a poorer quality, or fewer of them, would let a
// strong harmless link explain the sign better than weak links of damage, so
// that a look left out would speak for the piece.
func (c *Course) lookedFor(f *fact) *lookset {
	out := &lookset{}
	for _, o := range f.looks {
		out.at[o] = c.m.shared(o, []float64{c.m.Tables.Look(kit.Looks[o]).At(kit.Thorough)}, 1).evenly
	}
	return out
}

// causeAt gives the variable of a harmless cause at a place: one that is there
// already, or a new one with the prior of the place's zone.
func (c *Course) causeAt(cause, zone string, cells []int, whole bool) int {
	for i := range c.causes {
		if c.causes[i].cause != cause || c.causes[i].whole != whole || cause == otherCause {
			continue
		}
		for _, cell := range cells {
			if contains(c.causes[i].cells, cell) {
				return i
			}
		}
	}
	c.causes = append(c.causes, placedCause{cause: cause, cells: cells, whole: whole, index: c.addCause(c.m.Prior(cause, zone))})
	p := &c.causes[len(c.causes)-1]
	if miss := c.unshown(p); miss < 1 {
		c.weighCause(p.index, 1, miss)
	}
	return len(c.causes) - 1
}

// Prior gives how often a harmless cause is there, by zone; never below the floor.
func (m *Model) Prior(cause, zone string) float64 {
	p := float64(m.Tables.Rules.CauseFloor)
	if row := m.PriorRow(cause, zone); row != nil {
		p = max(p, row.P)
	}
	return p
}

// PriorRow gives the row that says how often a harmless cause is there: that of
// the zone, else the one for anywhere; nil where there is none.
func (m *Model) PriorRow(cause, zone string) *table.Prior {
	def := m.Tables.Cause(cause)
	if def == nil {
		return nil
	}
	var anywhere *table.Prior
	for i := range def.Priors {
		switch r := &def.Priors[i]; {
		case r.Kind != m.Kind.ID:
		case r.Zone == "":
			anywhere = r
		case r.Zone == zone:
			return r
		}
	}
	return anywhere
}

// tell notes what a look did to the doubt, when somebody wants to know.
func (c *Course) tell(look kit.LookID, made bool) {
	if c.Trace == nil || !made {
		return
	}
	if f := c.Figures(); f != nil {
		c.Trace.Drops = append(c.Trace.Drops, Drop{Day: c.day, Look: look, After: f.D})
	}
}

// autoRef names a sign that came from a reading without a ref of its own.
func autoRef(quantity string, day qty.Day, cell int, at kit.Place) string {
	if cell == nowhere {
		return quantity + " " + day.String() + " " + at.Part + at.From.String()
	}
	return quantity + " " + day.String() + " " + digits(cell)
}

func digits(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return digits(n/10) + digits(n%10)
}
