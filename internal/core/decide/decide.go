package decide

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"kernbook/internal/core/course"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Ask says how much is wanted.
type Ask struct {
	Figures bool // the figures at once, without forecasts: row 7 does not know the model's date then
	Explain bool // causes, drops, the doubt line, which look next
}

// Decide judges a record on the day r.AsOf.
func Decide(t *table.Tables, r *kit.Record, ask Ask) Outcome {
	k := t.Kind(r.Piece.Kind)
	if k == nil || !k.Doubt {
		return finish(t, r, nil, ask)
	}
	c := Begin(t, r)
	if ask.Explain {
		c.Trace = course.NewTrace(lineStep)
	}
	return From(t, r, c, ask)
}

// lineStep is how many days apart the doubt line is sampled at most.
const lineStep = 14

// Begin starts the course of a piece on the day from which its doubt is
// followed.
func Begin(t *table.Tables, r *kit.Record) *course.Course {
	return course.Begin(course.NewModel(t, t.Kind(r.Piece.Kind), r), r, Born(t, r))
}

// Born gives the day from which the doubt of a piece is followed: when it was
// made, else the earliest of its other dates, less the longest storage that the
// tables allow before first use.
func Born(t *table.Tables, r *kit.Record) qty.Day {
	p := &r.Piece
	if p.Made.Known() {
		return p.Made.Earliest()
	}
	day := r.AsOf
	for _, d := range [...]qty.PartialDate{p.Bought, p.FirstUse, p.Declared, p.Examined} {
		if d.Known() {
			day = min(day, d.Earliest())
		}
	}
	for i := range r.Examinations {
		day = min(day, r.Examinations[i].Day)
	}
	for i := range r.Runs {
		day = min(day, r.Runs[i].From)
	}
	for i := range r.Uses {
		day = min(day, r.Uses[i].From)
	}
	for i := range r.Changes {
		day = min(day, r.Changes[i].Day)
	}
	store := qty.Months(0)
	for i := range t.Lives {
		if l := &t.Lives[i]; l.Store && l.For(p.Kind) {
			store = max(store, l.Months)
		}
	}
	return day.AddMonths(-int(store))
}

// From judges a record with a course that has been followed part of the way:
// what lies before is carried, not worked out again. The course is used up.
func From(t *table.Tables, r *kit.Record, c *course.Course, ask Ask) Outcome {
	c.Run(r.AsOf)
	return finish(t, r, c, ask)
}

// judge is a decision under way.
type judge struct {
	t   *table.Tables
	r   *kit.Record
	k   *table.Kind
	c   *course.Course // nil where the kind has no doubt figure
	e   *kit.Examination
	ask Ask
	out Outcome
	lim int64
}

func finish(t *table.Tables, r *kit.Record, c *course.Course, ask Ask) Outcome {
	k := t.Kind(r.Piece.Kind)
	r = k.Now(r)
	j := &judge{t: t, r: r, k: k, c: c, ask: ask, lim: t.Rules.Limit}
	if r.Yard.Limit > 0 {
		j.lim = min(r.Yard.Limit, t.Rules.LimitMost) // the reader refuses a looser one: this holds for records made otherwise (M-37)
	}
	j.e = atHand(r)
	res := criteria.Judge(t, r)
	j.out = Outcome{Core: Version, Tables: t.Version, Piece: r.Piece.ID, Kind: r.Piece.Kind, AsOf: r.AsOf,
		Reasons: res.Reasons, LifeEnd: res.LifeEnd, Due: res.Thorough, Held: res.Held}
	if c != nil {
		j.out.Limit = Limit{j.lim, t.Rules.Limit}
	}
	if j.e != nil {
		j.out.Exam, j.out.ExamDay = j.e.Kind, j.e.Day
	}
	j.out.Later = later(r)
	j.out.Uncounted = criteria.NotCounted(r)
	j.figure()
	j.signs()
	j.overLimit()
	j.next()
	j.rank()
	if ask.Explain {
		j.explain()
	}
	return j.out
}

// atHand gives the examination at hand: the latest not after the day asked for.
func atHand(r *kit.Record) *kit.Examination {
	var best *kit.Examination
	for i := range r.Examinations {
		e := &r.Examinations[i]
		if e.Day <= r.AsOf && (best == nil || e.Day > best.Day || (e.Day == best.Day && e.Kind.Rank() >= best.Kind.Rank())) {
			best = e
		}
	}
	return best
}

// figure takes the doubt from the course.
func (j *judge) figure() {
	if j.c == nil {
		j.out.NoDoubt = "kind"
		return
	}
	f := j.c.Figures()
	if f == nil {
		j.out.NoDoubt = "too many"
		if errors.Is(j.c.Err(), doubt.ErrImpossible) {
			j.out.NoDoubt = "impossible"
		}
		j.add(criteria.Reason{Row: "6", Verdict: kit.SetAside, ID: "M-26", Lines: []string{"M-26"}, Key: "doubt." + j.out.NoDoubt, Question: criteria.QExamine, To: criteria.QExamine, Status: table.Assumed})
		return
	}
	d := &Doubt{Limit: j.lim, D: f.D.Unfit(), Hidden: f.D.Hidden, Wear: f.Wear, Whole: f.Whole.Unfit()}
	d.Millions, d.HiddenUp = num.CeilMillionths(d.D), num.CeilMillionths(d.Hidden)
	d.OneIn = num.OneIn(d.Millions)
	m := j.c.Model()
	d.Zones, d.Rest = j.c.Laid()
	d.Cells = make([]Cell, 0, len(f.Cell))
	for i := range f.Cell {
		cell := &m.Cells[i]
		if cell.Gone {
			continue
		}
		x := f.Cell[i]
		at := j.c.Now(kit.Place{Part: cell.Part, From: cell.From, To: cell.To})
		zone := at.Part
		switch {
		case zone == "":
			zone = m.ZoneOf(i)
		case j.k.Part(zone).End == "B":
			at.From, at.To = j.c.Length(), j.c.Length()
		default:
			at.From, at.To = 0, 0
		}
		d.Cells = append(d.Cells, Cell{Part: at.Part, From: at.From, To: at.To, Zone: zone, D: x.Unfit(), Findable: x.Findable,
			Millions: num.CeilMillionths(x.Unfit()), HiddenUp: num.CeilMillionths(x.Hidden)})
	}
	if j.c.Turned() {
		along(j.k, d.Cells)
	}
	j.out.Doubt = d
}

// along puts the cells of a turned piece in the order in which they now lie, and
// then its parts in that of the kind.
func along(k *table.Kind, cells []Cell) {
	rank := func(c *Cell) qty.Length {
		for i := range k.Parts {
			if k.Parts[i].ID == c.Part {
				return qty.Length(math.MaxInt64 - len(k.Parts) + i)
			}
		}
		return c.From
	}
	slices.SortStableFunc(cells, func(a, b Cell) int { return cmp.Compare(rank(&a), rank(&b)) })
}

func (j *judge) add(r criteria.Reason) { j.out.Reasons = append(j.out.Reasons, r) }

// doubtVerdict is what a doubt does: on a bridge or a hitch cord it withdraws.
func (j *judge) doubtVerdict() kit.Verdict {
	if j.k.Strict {
		return kit.Withdraw
	}
	return kit.SetAside
}

// rank puts the strictest reasons first, within them the order of the rows, and
// takes the strictest as the outcome.
func (j *judge) rank() {
	rs := j.out.Reasons
	for i := 1; i < len(rs); i++ {
		for k := i; k > 0 && less(&rs[k], &rs[k-1]); k-- {
			rs[k], rs[k-1] = rs[k-1], rs[k]
		}
	}
	for i := range rs {
		j.out.Verdict = kit.Stricter(j.out.Verdict, rs[i].Verdict)
	}
	j.out.Held = j.out.Held && j.out.Verdict == kit.Withdraw
	j.out.Open = criteria.Questions(rs)
}

func less(a, b *criteria.Reason) bool {
	if a.Verdict != b.Verdict {
		return a.Verdict > b.Verdict
	}
	return a.Row < b.Row
}

// later counts the entries of a record that are dated after the day asked for.
func later(r *kit.Record) int {
	n := 0
	count := func(d qty.Day) {
		if d > r.AsOf {
			n++
		}
	}
	for i := range r.Examinations {
		count(r.Examinations[i].Day)
	}
	for i := range r.Events {
		count(r.Events[i].Day)
	}
	for i := range r.Answers {
		count(r.Answers[i].Day)
	}
	for i := range r.Changes {
		count(r.Changes[i].Day)
	}
	for i := range r.Uses {
		count(r.Uses[i].From)
	}
	for i := range r.Runs {
		count(r.Runs[i].From)
	}
	return n
}
