package course

import (
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Course is the belief about one piece on its way through the record. It stands
// at the start of a day, or after that day's looks.
type Course struct {
	m        *Model
	r        *kit.Record
	b        *doubt.Belief
	happened []kit.Event // on record, and told in answer to a question
	day      qty.Day
	looked   bool         // the day's own looks are in; its use is not
	silent   []bool       // per fact and cell: on record there, so no unseen sign any more
	hushed   []uint16     // per mode of the kind and cell: how many facts of the mode are silent there
	muted    []int        // per fact: in how many cells it is silent
	spoken   []placedFact // what readings say at the gauge, in the set of looks at hand
	open     []Open
	causes   []placedCause
	reads    []criteria.Reading // all of the record, compared
	turn     int                // counts the sets of looks
	cache    spanCache
	figs     doubt.Figures
	net      *doubt.Network
	told     *foretold // shared by all that go on from one course of Hold; nil for others
	err      error

	Assumed []string // facts of use that were not on record
	Trace   *Trace   // filled while going, when not nil
}

// Open is a sign on record.
type Open struct {
	Ref      string
	Sign     *table.Sign
	At       kit.Place
	Cells    []int   // none for a place that is not there, or no longer
	Day      qty.Day // first seen
	Said     qty.Day // last day on which something was said of it
	State    kit.SignState
	Worse    qty.Day // day on which it was last found new or grown: an answer must not be older
	Zone     string
	Answered bool
	AnswerOf string   // cause of the answer
	also     []string // other refs of the same sign
	turn     int      // set of looks in which something was last said of it
	fact     int
	id       int // of the engine; -1 when the belief could not take it in, or it lies nowhere on the piece
	causes   []int
	Mean     float64 // for a reading out of range: its mean and standard error, relative
	Error    float64
}

// Named says whether an entry that names a ref speaks of this sign: by a ref of
// it, or, of a sign without one, by its id.
func (o *Open) Named(ref string) bool {
	return ref != "" && (o.Ref == ref || has(o.also, ref) || o.Ref == "" && o.Sign.ID == ref)
}

// Name gives what an answer has to name.
func (o *Open) Name() string {
	if o.Ref == "" {
		return o.Sign.ID
	}
	return o.Ref
}

// placedCause is a harmless cause that is a variable now, since a sign it
// explains was seen at its place.
type placedCause struct {
	cause string
	cells []int
	whole bool // of a sign of the whole piece: it explains no sign at a place
	index int
}

// placedFact is a fact in a cell.
type placedFact struct{ fact, cell int }

// Begin starts a course on the day the piece was made, or as early as the
// record lets it.
func Begin(m *Model, r *kit.Record, first qty.Day) *Course {
	r = m.Kind.New(r)
	c := &Course{m: m, r: r, b: m.Start(), day: first}
	c.silent = make([]bool, len(m.facts)*len(m.Cells))
	c.happened = criteria.Events(m.Tables, r)
	c.reads = criteria.Readings(m.Tables, r)
	c.hushed = make([]uint16, len(m.Kind.Modes)*len(m.Cells))
	c.muted = make([]int, len(m.facts))
	return c
}

// Clone gives a copy that shares nothing that either may change.
func (c *Course) Clone() *Course {
	d := *c
	d.b = c.b.Clone()
	d.silent = append([]bool(nil), c.silent...)
	d.hushed = append([]uint16(nil), c.hushed...)
	d.muted = append([]int(nil), c.muted...)
	d.open = append([]Open(nil), c.open...)
	d.causes = append([]placedCause(nil), c.causes...)
	d.Assumed = append([]string(nil), c.Assumed...)
	d.cache = spanCache{sets: c.cache.sets[:len(c.cache.sets):len(c.cache.sets)]}
	d.figs = doubt.Figures{}
	d.Trace, d.net, d.spoken, d.told = nil, nil, nil, nil
	return &d
}

// Err says why the figures can no longer be worked out exactly, or nil. The
// signs on record are followed all the same.
func (c *Course) Err() error { return c.err }

// Turned says whether the piece is measured from the other end now than when it
// was new: the cells then lie along it in their reverse order.
func (c *Course) Turned() bool { return c.m.turned }

// Length gives how long the piece is now.
func (c *Course) Length() qty.Length { return c.m.to - c.m.from }

// Now gives a place of the cells as it is said now.
func (c *Course) Now(p kit.Place) kit.Place {
	if c.asNew() {
		return p
	}
	return c.m.datum().Now(p, c.m.Kind.Ends())
}

// asNew says whether places are said as of the new piece.
func (c *Course) asNew() bool { return c.m.datum() == kit.Datum{To: c.m.Length} }

// Open lists the signs on record, with their places as they are said now.
func (c *Course) Open() []Open {
	if c.asNew() {
		return c.open
	}
	out := append([]Open(nil), c.open...)
	for i := range out {
		out[i].At = c.Now(out[i].At)
	}
	return out
}

// Model gives the piece as the course sees it.
func (c *Course) Model() *Model { return c.m }

// Why gives why_s of the i-th sign on record: the chance that harmless causes,
// and no damage, showed it. A belief that cannot be worked out explains nothing,
// and nothing explains a sign at a place that is not there.
func (c *Course) Why(i int) float64 {
	if c.err != nil || c.open[i].id < 0 {
		return 0
	}
	return c.b.Why(c.open[i].id)
}

// Shares splits the i-th sign on record over what can have shown it.
func (c *Course) Shares(i int) []doubt.Share {
	if c.err != nil || c.open[i].id < 0 {
		return nil
	}
	return c.b.Shares(c.open[i].id)
}

// CauseID gives the id of a harmless cause by the engine's index.
func (c *Course) CauseID(index int) string {
	for i := range c.causes {
		if c.causes[i].index == index {
			return c.causes[i].cause
		}
	}
	return ""
}

// Settle enters a harmless cause as found for the i-th sign on record. It is
// for asking "what if"; answers on record are entered by Run.
func (c *Course) Settle(i int, cause string) {
	c.settle(&c.open[i], cause)
	c.normalize()
}

// normalize scales the belief, unless it cannot be worked out any more.
func (c *Course) normalize() {
	if c.err != nil {
		return
	}
	if _, err := c.b.Normalize(); err != nil {
		c.fail(err)
	}
}

// isSilent says whether a fact is silent in a cell.
func (c *Course) isSilent(fact, cell int) bool { return c.silent[fact*len(c.m.Cells)+cell] }

// hushedIn counts the facts of a mode that are silent in a cell.
func (c *Course) hushedIn(mode, cell int) uint16 { return c.hushed[mode*len(c.m.Cells)+cell] }

// hush makes a fact silent in a cell, or heard again.
func (c *Course) hush(fact, cell int, silent bool) {
	if c.isSilent(fact, cell) == silent {
		return
	}
	c.silent[fact*len(c.m.Cells)+cell] = silent
	by := 1
	if !silent {
		by = -1
	}
	c.muted[fact] += by
	for _, s := range c.m.facts[fact].local {
		c.hushed[s.mode*len(c.m.Cells)+cell] += uint16(by)
	}
}

// Figures gives D, D(x) and I of the belief as it stands. The result is valid
// until the next call.
func (c *Course) Figures() *doubt.Figures {
	if c.normalize(); c.err != nil {
		return nil
	}
	c.b.Figures(&c.figs)
	return &c.figs
}

func (c *Course) fail(err error) {
	if c.err == nil {
		c.err = err
	}
}

// Run follows the record to a day: all that happened before it, and that day's
// own looks, events and answers.
func (c *Course) Run(to qty.Day) {
	for {
		next, ok := c.nextDay()
		if !ok || next > to {
			break
		}
		c.Advance(next)
		c.Enter()
	}
	c.Advance(to)
	var few [16]int
	if !c.looked && len(c.runsOn(to, few[:0])) > 0 { // nothing but looks of runs
		c.Enter()
	}
}

// nextDay gives the next day, from where the course stands, with an entry of
// its own.
func (c *Course) nextDay() (qty.Day, bool) {
	var best qty.Day
	found := false
	see := func(d qty.Day) {
		if d < c.day || (d == c.day && c.looked) || (found && d >= best) {
			return
		}
		best, found = d, true
	}
	for i := range c.r.Examinations {
		see(c.r.Examinations[i].Day)
	}
	for i := range c.happened {
		see(c.happened[i].Day)
	}
	for i := range c.r.Answers {
		see(c.r.Answers[i].Day)
	}
	for i := range c.r.Changes {
		see(c.r.Changes[i].Day)
	}
	return best, found
}

// Enter puts in what the record has for the day the course stands at: changes,
// looks, events, looks that answer those events, answers; in that order. A look
// that is not said to come after an event is taken to have come before it, and
// what it saw is taken to have come after it.
func (c *Course) Enter() {
	if c.looked {
		return
	}
	c.looked = true
	c.traceBefore()
	c.gather()
	for i := range c.r.Changes {
		if c.r.Changes[i].Day == c.day {
			c.change(&c.r.Changes[i])
		}
	}
	var events []*kit.Event
	for i := range c.happened {
		if c.happened[i].Day == c.day {
			events = append(events, &c.happened[i])
		}
	}
	var before, spent, after []exam
	for i := range c.r.Examinations {
		e := &c.r.Examinations[i]
		switch {
		case e.Day != c.day:
		case c.afterAll(e, events):
			after = append(after, exam{e, i, everyReading})
		default:
			blind := *e
			blind.Signs = nil
			before, spent = append(before, exam{&blind, i, inRange}), append(spent, exam{e, i, outOfRange})
		}
	}
	runs := c.runLooks(c.day)
	if len(events) > 0 {
		held := c.hold(spent)
		c.examine(before, 0, runs)
		for _, h := range held {
			c.hush(h[0], h[1], false)
		}
		for _, e := range events {
			c.event(e)
		}
		runs = nil
	}
	c.traceLooks()
	c.examine(append(spent, after...), len(spent), runs)
	for i := range c.r.Answers {
		if c.r.Answers[i].Day == c.day {
			c.answer(&c.r.Answers[i])
		}
	}
	c.normalize()
	c.traceAfter()
}

// exam is an examination, or what of it counts at one time, with its index in
// the record.
type exam struct {
	*kit.Examination
	at    int
	reads readings
}

// readings says which readings of an examination count at one time: those of
// places where all are in range speak for soundness, the others are signs.
type readings int

const (
	everyReading readings = iota
	inRange
	outOfRange
)

// afterAll says whether an examination was made after all events of its day.
func (c *Course) afterAll(x *kit.Examination, events []*kit.Event) bool {
	for _, e := range events {
		if !criteria.After(c.m.Kind, x, e) {
			return false
		}
	}
	return true
}

// onRecord says whether a sign on record has a ref.
func (c *Course) onRecord(ref string) bool {
	for i := range c.open {
		if c.open[i].Named(ref) {
			return true
		}
	}
	return false
}

// hold makes silent where signs of a day are first seen that enter later that
// day, so that the looks before do not count as having shown nothing there. It
// gives what it made silent, as fact and cell.
func (c *Course) hold(exams []exam) [][2]int {
	var out [][2]int
	none := c.m.looks(nil)
	for _, e := range exams {
		for i := range e.Signs {
			if e.Signs[i].State != kit.FirstSeen && c.onRecord(e.Signs[i].Ref) {
				continue
			}
			for _, s := range c.meet(nil, exams, e, &e.Signs[i], none) {
				out = c.holdIn(out, s.fact, s.cells)
			}
		}
		for _, m := range c.measure(e) {
			if f := c.m.factOf(m.quantity.Sign); m.out && f >= 0 {
				out = c.holdIn(out, f, c.m.met(&c.m.facts[f], m.at))
			}
		}
	}
	return out
}

// holdIn makes a fact silent in some cells.
func (c *Course) holdIn(out [][2]int, fact int, cells []int) [][2]int {
	for _, cell := range cells {
		if !c.isSilent(fact, cell) {
			c.hush(fact, cell, true)
			out = append(out, [2]int{fact, cell})
		}
	}
	return out
}

// factOf gives the fact that shows a sign, or -1.
func (m *Model) factOf(sign string) int {
	for f := range m.facts {
		if m.facts[f].sign.ID == sign {
			return f
		}
	}
	return -1
}

// runLooks gives the looks that runs on record have for a day.
func (c *Course) runLooks(day qty.Day) []given {
	var out []given
	var few [16]int
	for _, i := range c.runsOn(day, few[:0]) {
		out = c.looksOf(&c.r.Runs[i], out)
	}
	return out
}

// give puts a look with whoever made it and the kind of examination whose
// quality that person's looks have.
func (c *Course) give(l *kit.Look, kind kit.ExamKind, by string) given {
	by = l.Maker(by)
	return given{l, criteria.QualityAs(c.r, kind, by, c.day), by}
}

// change moves zones, cuts an end off or starts an end anew.
func (c *Course) change(ch *kit.Change) {
	switch ch.What {
	case "zones":
		c.m.Layout(c.m.zones(ch.Zones))
	case "re-tied end A":
		c.renew("A")
	case "re-tied end B":
		c.renew("B")
	case kit.CutA, kit.CutB:
		c.shorten(ch)
	case kit.Turned: // what is done at end A is done at the other end from now on
		c.m.turned = !c.m.turned
		c.m.Layout(c.m.mirrored(c.m.laid))
	}
	c.cache, c.net = spanCache{}, nil
}

// shorten takes the cells that were cut off away; the new end starts anew. Its
// ends are those of the new piece.
func (c *Course) shorten(ch *kit.Change) {
	lo, hi := c.m.bounds()
	end := "B"
	cut := min(ch.Length, hi-lo)
	if ch.What == kit.CutA {
		end = "A"
		lo += cut
	} else {
		hi -= cut
	}
	c.m.from, c.m.to = lo, hi
	for i := range c.m.Cells {
		cell := &c.m.Cells[i]
		if cell.Part == "" && !cell.Gone && (cell.To <= lo || cell.From >= hi) {
			cell.Gone = true
			c.m.cut, c.m.qualities, c.m.sets = true, nil, nil
			if c.err == nil {
				c.b.Drop(i)
			}
		}
	}
	c.renew(end)
	c.m.Layout(c.m.zones(nil))
}

// renew starts an end anew: a new knot, splice or stitching.
func (c *Course) renew(end string) {
	for i := range c.m.Kind.Parts {
		if c.m.Kind.Parts[i].End != end {
			continue
		}
		for _, cell := range c.m.CellsOf(kit.Place{Part: c.m.Kind.Parts[i].ID}) {
			for l := c.m.Cells[cell].First; l < c.m.Cells[cell].Last && c.err == nil; l++ {
				c.b.Renew(l, c.m.startLocal(l))
			}
			for f := range c.m.facts {
				c.hush(f, cell, false)
			}
		}
	}
}

// event puts in what happened at one stroke.
func (c *Course) event(e *kit.Event) {
	def := c.m.Tables.Event(e.Event)
	if def == nil || c.err != nil || (e.Substance != "" && criteria.Harmless(c.m.Tables, c.r, e)) {
		return
	}
	c.net = nil
	for k := range c.m.Kind.Modes {
		mode := &c.m.Kind.Modes[k]
		kernel := def.KernelFor(c.m.Kind.ID, mode.ID, e.Peak)
		if kernel == nil {
			continue
		}
		for w, i := range c.m.Whole {
			if i == k {
				s := doubt.Kernel(kernel.J01, kernel.J12, kernel.J02, mode.Hidden)
				c.b.StepWhole(w, &s)
			}
		}
		at := c.touched(e, k)
		for l := range c.m.Local {
			if c.m.Local[l].Mode == k && at[l] > 0 {
				s := doubt.Kernel(float64(kernel.J01*at[l]), kernel.J12, float64(kernel.J02*at[l]), mode.Hidden)
				c.b.StepLocal(l, &s)
			}
		}
	}
}

// touched shares an event's kernel out: over the cells at a known place by
// their extent, otherwise as the table shares the mode out.
func (c *Course) touched(e *kit.Event, mode int) []float64 {
	at := make([]float64, len(c.m.Local))
	if e.PlaceSaid && !e.At.Whole {
		cells := c.m.CellsOf(e.At)
		total := 0.0
		for l := range c.m.Local {
			if c.m.Local[l].Mode == mode && contains(cells, c.m.Local[l].Cell) {
				at[l] = c.m.Cells[c.m.Local[l].Cell].Extent.Metres()
				total += at[l]
			}
		}
		if total > 0 {
			for l := range at {
				at[l] /= total
			}
			return at
		}
	}
	for l := range c.m.Local {
		if c.m.Local[l].Mode == mode {
			at[l] = c.m.Local[l].Scale
		}
	}
	return at
}

func contains(list []int, x int) bool {
	for _, y := range list {
		if y == x {
			return true
		}
	}
	return false
}

// answer settles a sign: the harmless cause that was found is there. What had
// grown is no longer a new worry then.
func (c *Course) answer(a *kit.Answer) {
	for i := range c.open {
		o := &c.open[i]
		if !o.Named(a.To) || !criteria.Settles(c.r, a, o.Worse) {
			continue
		}
		c.settle(o, a.Cause)
		if o.State == kit.Grown {
			o.State = kit.Same
		}
	}
}

// settle enters a cause as present for a sign, in all explanations.
func (c *Course) settle(o *Open, cause string) {
	o.Answered = true
	o.AnswerOf = cause
	for _, p := range o.causes {
		if c.causes[p].cause == cause {
			c.weighCause(c.causes[p].index, 0, 1)
			return
		}
	}
	for _, p := range o.causes { // a cause the table does not list for this sign
		if c.causes[p].cause == otherCause {
			c.weighCause(c.causes[p].index, 0, 1)
			return
		}
	}
}

// otherCause is a harmless cause that the table does not list. Every seen sign
// has it, at the floor of the priors, so that any answer can enter.
const otherCause = "other"
