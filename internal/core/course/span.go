package course

import (
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"slices"
)

// spanCache keeps the looksets of runs, so that a year of daily looks is built
// once and taken to a power.
type spanCache struct {
	sets []runSet
}

type runSet struct {
	runs []int // which runs, by their index in the record
	set  *lookset
}

// runsOn appends which runs have a look on a day, by their index in the record.
func (c *Course) runsOn(day qty.Day, to []int) []int {
	for i := range c.r.Runs {
		if r := &c.r.Runs[i]; r.From <= day && day <= r.To && r.Weekdays[day.Weekday()] {
			to = append(to, i)
		}
	}
	return to
}

// looksOf gives the looks of one run.
func (c *Course) looksOf(r *kit.Run, to []given) []given {
	for k := range r.Looks {
		to = append(to, c.give(c.gauged(noExam, &r.Looks[k]), r.Kind, r.By))
	}
	return to
}

// setOf gives the set of looks of some runs, by its index in the cache.
func (c *Course) setOf(runs []int) int {
	for i := range c.cache.sets {
		if slices.Equal(c.cache.sets[i].runs, runs) {
			return i
		}
	}
	n := 0
	for _, i := range runs {
		n += len(c.r.Runs[i].Looks)
	}
	all := make([]given, 0, n)
	for _, i := range runs {
		all = c.looksOf(&c.r.Runs[i], all)
	}
	c.cache.sets = append(c.cache.sets, runSet{append([]int(nil), runs...), c.m.looks(all)})
	return len(c.cache.sets) - 1
}

// Advance takes the belief to the start of a day: use and time, and on each day
// the looks of runs before the use.
func (c *Course) Advance(to qty.Day) {
	if c.err != nil { // no belief to take along
		if c.day < to {
			c.day, c.looked = to, false
		}
		return
	}
	if c.looked && c.day < to {
		c.span(c.day, c.day+1, false)
		c.day, c.looked = c.day+1, false
	}
	for c.day < to && c.err == nil {
		end := c.steady(to)
		if c.Trace != nil {
			end = min(end, c.day+c.Trace.every)
		}
		c.span(c.day, end, true)
		c.day = end
		if c.Trace != nil && end < to {
			c.traceBefore()
		}
	}
}

// steady gives the end of the longest stretch from the current day on in which
// use and runs keep their weekly pattern.
func (c *Course) steady(to qty.Day) qty.Day {
	end := to
	cut := func(d qty.Day) {
		if d > c.day && d < end {
			end = d
		}
	}
	for i := range c.r.Uses {
		cut(c.r.Uses[i].From)
	}
	for i := range c.r.Runs {
		cut(c.r.Runs[i].From)
		cut(c.r.Runs[i].To + 1)
	}
	if d, ok := criteria.FirstUse(c.r); ok {
		cut(d)
	}
	if d, ok := c.looksBelie(end); ok {
		cut(d)
	}
	return end
}

// looksBelie gives the day up to another on which the looks before use of the
// record first belie the entry of its use that holds now: that it lies in store,
// or that it is used for no hours.
func (c *Course) looksBelie(to qty.Day) (qty.Day, bool) {
	u, next := c.r.UseOn(c.day)
	if u == nil || !u.Unused() {
		return 0, false
	}
	return c.r.Looked(c.r.UnusedSince(u), min(to, next-1))
}

// useOf gives the use on a day: in store before first use, else the use on
// record. Between first use and the first use on record anything may have been
// done with it; so it may from the day on which a look before use belies that
// it lay in store.
func (c *Course) useOf(day qty.Day) use {
	if d, ok := criteria.FirstUse(c.r); ok && day < d {
		return use{store: true}
	}
	u, _ := c.r.UseOn(day)
	if u != nil && u.Unused() {
		if _, ok := c.r.Looked(c.r.UnusedSince(u), day); ok {
			u = u.Belied()
		}
	}
	out := c.m.use(u)
	for _, a := range out.assumed {
		if !has(c.Assumed, a) {
			c.Assumed = append(c.Assumed, a)
		}
	}
	return out
}

// span takes the belief over [from, to), in which the weekly pattern is steady.
func (c *Course) span(from, to qty.Day, withRuns bool) {
	c.net = nil
	u := c.useOf(from)
	var sets [8]*runSet
	var at [8]int // index in the cache and one, which may still grow; 0 is none
	var few [16]int
	for d := from; withRuns && d < to && d < from+7; d++ {
		if on := c.runsOn(d, few[:0]); len(on) > 0 {
			at[d.Weekday()] = c.setOf(on) + 1
		}
	}
	for wd, i := range at {
		if i > 0 {
			sets[wd] = &c.cache.sets[i-1]
		}
	}
	c.weeks(from, int(to-from), &u, &sets)
}

// weeks takes every mode over n days whose pattern repeats weekly.
func (c *Course) weeks(from qty.Day, n int, u *use, sets *[8]*runSet) {
	c.over(from, n, u, sets, c.b.StepWhole, c.b.StepLocal)
}

// over gives the step of every mode over n days whose pattern repeats weekly. It
// does not depend on the belief. A step is valid until the next one.
func (c *Course) over(from qty.Day, n int, u *use, sets *[8]*runSet, whole, local func(int, *doubt.Step)) {
	c.m.useSteps(u)
	days := planOf(from, n, u, sets)
	looked := false
	for _, s := range sets {
		looked = looked || s != nil
	}
	for w, k := range c.m.Whole {
		d := c.m.steps(k, 1, u)
		if n < 7 && !looked {
			whole(w, d.few(from.Weekday(), n, u))
			continue
		}
		s := days.pattern(d, func(r *runSet) doubt.Vec { return c.unseenWhole(r.set, w) })
		whole(w, &s)
	}
	known := c.m.scratch()
	for l := range c.m.Local {
		loc := &c.m.Local[l]
		if c.m.Cells[loc.Cell].Gone {
			continue
		}
		if n < 7 && !looked {
			local(l, c.m.steps(loc.Mode, loc.Scale, u).few(from.Weekday(), n, u))
			continue
		}
		plain := c.plain(loc.Mode, loc.Cell)
		if plain {
			if k := c.alikeIn(known[loc.Mode], sets, loc); k != nil {
				local(l, &k.step)
				continue
			}
		}
		d := c.m.steps(loc.Mode, loc.Scale, u)
		s := days.pattern(d, func(r *runSet) doubt.Vec { return c.unseenLocal(r.set, l) })
		local(l, &s)
		if plain {
			known[loc.Mode] = append(known[loc.Mode], done{cell: loc.Cell, scale: loc.Scale, step: s})
		}
	}
}

// done is what was worked out for one cell and holds for those that are alike.
type done struct {
	cell  int
	scale float64
	step  doubt.Step
}

// scratch gives an empty list of what is worked out, per mode of the kind.
func (m *Model) scratch() [][]done {
	if m.work == nil {
		m.work = make([][]done, len(m.Kind.Modes))
	}
	for i := range m.work {
		m.work[i] = m.work[i][:0]
	}
	return m.work
}

// alikeIn finds what was worked out for a cell that is met like this one.
func (c *Course) alikeIn(known []done, sets *[8]*runSet, loc *Local) *done {
	for i := range known {
		if k := &known[i]; k.scale == loc.Scale && c.alike(sets, loc.Mode, k.cell, loc.Cell) {
			return k
		}
	}
	return nil
}

// plain says whether no sign of a mode is on record in a cell, nor in the
// neighbours from which its signs reach into it.
func (c *Course) plain(mode, cell int) bool {
	if c.hushedIn(mode, cell) > 0 {
		return false
	}
	if !c.m.reach[mode] || c.m.Cells[cell].Part != "" {
		return true
	}
	return !(c.m.along(cell-1) && c.hushedIn(mode, cell-1) > 0) && !(c.m.along(cell+1) && c.hushedIn(mode, cell+1) > 0)
}

// alike says whether two cells, with their neighbours, have the same quality in
// every set of the week.
func (c *Course) alike(sets *[8]*runSet, mode, a, b int) bool {
	var last *runSet
	if c.m.reach[mode] && c.m.neighbours(a) != c.m.neighbours(b) {
		return false
	}
	for _, s := range sets {
		if s == nil || s == last || s.set.uniform {
			continue
		}
		last = s
		by := c.m.byCell(s.set)
		if !c.m.reach[mode] {
			if by[a] != by[b] {
				return false
			}
			continue
		}
		for d := -1; d <= 1; d++ {
			x, y := a+d, b+d
			if d != 0 && !(c.m.along(x) && c.m.along(y)) {
				if c.m.along(x) || c.m.along(y) {
					return false
				}
				continue
			}
			if by[x] != by[y] {
				return false
			}
		}
	}
	return true
}

// plan is what the days of a span are: which sorts of day there are, by use and
// looks, and their order over a week from the first day on.
type plan struct {
	n     int
	sorts int
	sort  [7]daySort
	order [7]int
	day   [7]doubt.Step // per sort, of the mode at hand
}

// daySort is a day with or without use, and with the looks of a set or none.
type daySort struct {
	work bool
	set  *runSet
}

func planOf(from qty.Day, n int, u *use, sets *[8]*runSet) (p plan) {
	p.n = n
	for k := range min(n, 7) {
		wd := (from.Weekday()+k-1)%7 + 1
		s := daySort{u.days[wd], sets[wd]}
		at := 0
		for at < p.sorts && p.sort[at] != s {
			at++
		}
		if at == p.sorts {
			p.sort[at] = s
			p.sorts++
		}
		p.order[k] = at
	}
	return p
}

// pattern gives a mode's step over the days of a plan: on each day the look,
// then the use and the day; whole weeks are taken to a power, and the days that
// are left are the beginning of a week.
func (p *plan) pattern(d *dayStep, look func(*runSet) doubt.Vec) doubt.Step {
	for i := range p.sorts {
		step := &d.idle
		if p.sort[i].work {
			step = &d.work
		}
		if p.sort[i].set == nil {
			p.day[i] = *step
			continue
		}
		v := look(p.sort[i].set)
		p.day[i] = step.Seen(&v)
	}
	left := p.n % 7
	var rest doubt.Step
	week := p.day[p.order[0]]
	for i := 1; i < min(p.n, 7); i++ {
		if i == left {
			rest = week
		}
		week.Then(&p.day[p.order[i]])
	}
	if p.n < 7 {
		return week
	}
	all := week.Times(p.n / 7)
	if left > 0 {
		all.Then(&rest)
	}
	return all
}

// kept gives which share of the working days of the last weeks had a look on
// record, and the looks of the last such day, with which a forecast goes on.
func (c *Course) kept(asOf qty.Day) (share float64, looks []given) {
	days := c.m.Tables.Rules.RunDays
	u := c.useOf(asOf)
	if has(u.assumed, "weekdays") { // nobody knows which looks came before a day's work
		return 0, nil
	}
	worked, with := 0, 0
	var last []given
	for d := asOf - qty.Day(days); d < asOf; d++ {
		if !u.days[d.Weekday()] {
			continue
		}
		worked++
		day := c.runLooks(d)
		for i := range c.r.Examinations {
			e := &c.r.Examinations[i]
			if e.Day == d && (e.Kind == kit.PreUse || e.Kind == kit.Partner) && len(e.Signs) == 0 {
				for k := range e.Looks {
					day = append(day, c.give(c.gauged(i, &e.Looks[k]), e.Kind, e.By))
				}
			}
		}
		if len(day) > 0 {
			with++
			last = day
		}
	}
	if worked == 0 {
		return 0, nil
	}
	return float64(with) / float64(worked), last
}
