package course

import (
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
)

// Forecast is when the doubt reaches the limit at planned use.
type Forecast struct {
	Day     qty.Day // first day on which it is above the limit, before that day's look
	Reached bool    // false: not before the horizon
	Hours   qty.Duration
}

// Kept says how well pre-use looks were kept up before a day.
type Kept struct {
	Share float64 // of the working days of the last weeks
	Looks []kit.LookID
}

// foretold is the last forecast of a course that is gone on with again and again: it
// stays the same on the same day, by the same limit, up to the same horizon.
type foretold struct {
	day           qty.Day
	limit         int64
	horizon       qty.Day
	with, without Forecast
	kept          Kept
}

// Forecasts propagates the belief forward from the day the course stands at,
// twice: with the looks of the last weeks kept up, each finding nothing, and
// without any. limit is in whole millionths.
func (c *Course) Forecasts(limit int64, horizon qty.Day) (with, without Forecast, kept Kept) {
	if t := c.told; t != nil && c.Trace == nil {
		if t.day == c.day && t.limit == limit && t.horizon == horizon {
			c.useOf(c.day) // what it takes for granted is told each time
			return t.with, t.without, t.kept
		}
		defer func() { *t = foretold{c.day, limit, horizon, with, without, kept} }()
	}
	share, looks := c.kept(c.day)
	kept.Share = share
	for _, l := range kit.Looks {
		for _, g := range looks {
			if g.look.Look == l {
				kept.Looks = append(kept.Looks, l)
				break
			}
		}
	}
	without, way := c.ahead(nil, limit, horizon)
	with, wayWith := without, way
	if len(looks) > 0 {
		with, wayWith = c.ahead(looks, limit, horizon)
	}
	if c.Trace != nil {
		c.Trace.With, c.Trace.Without = wayWith, way
	}
	return with, without, kept
}

// ahead finds the first day on which the doubt is above the limit. Where it cannot
// get there before the horizon, that is seen in one stride. Else it goes week by
// week, and day by day through every week in which the limit can be passed.
// way is the doubt at each week's end, before the look of that day, for a course
// that is traced.
func (c *Course) ahead(looks []given, limit int64, horizon qty.Day) (to Forecast, way []Point) {
	start := c.day
	u := c.useOf(start)
	d := c.Clone()
	var sets, none [8]*runSet
	if d.looked {
		d.weeks(start, 1, &u, &none)
		d.day, d.looked = start+1, false
	}
	if len(looks) > 0 {
		s := &runSet{set: d.m.looks(looks)}
		for wd := 1; wd <= 7; wd++ {
			if u.days[wd] {
				sets[wd] = s
			}
		}
	}
	reached := func(at *Course) (Forecast, []Point) {
		return Forecast{Day: at.day, Reached: true, Hours: u.between(start, at.day)}, c.step(way, at)
	}
	if d.above(limit) {
		return reached(d)
	}
	if c.Trace == nil && d.stays(int(horizon-d.day), limit, &u, &sets) {
		return Forecast{Day: horizon, Hours: u.between(start, horizon)}, nil
	}
	last, bare := d.Clone(), d.Clone()
	var week, unlooked stride
	for d.day < horizon {
		way = c.step(way, d)
		n := min(7, int(horizon-d.day))
		last.b.Become(d.b)
		last.day = d.day
		week.take(d, n, &u, &sets)
		d.day += qty.Day(n)
		nothing, err := d.b.Normalize()
		if err != nil {
			d.fail(err)
		}
		if !d.above(limit) && (len(looks) == 0 || !last.within(bare, &unlooked, n, nothing, limit, &u)) {
			continue
		}
		for last.day < d.day {
			last.weeks(last.day, 1, &u, &sets)
			last.day++
			if last.above(limit) {
				return reached(last)
			}
		}
	}
	return Forecast{Day: horizon, Hours: u.between(start, horizon)}, c.step(way, d)
}

// step adds the doubt of a course that goes ahead of this one.
func (c *Course) step(way []Point, at *Course) []Point {
	if c.Trace == nil {
		return nil
	}
	if f := at.Figures(); f != nil {
		way = append(way, Point{Day: at.day, D: f.D})
	}
	return way
}

// stride is what a whole week does to each mode, worked out for the first one and
// taken again for those that are like it: of the same use and looks, with the same
// signs on record.
type stride struct {
	known        bool
	whole, local []doubt.Step
	gone         []bool // per local mode: of a cell that was cut off
}

// take takes a course over n days.
func (s *stride) take(c *Course, n int, u *use, sets *[8]*runSet) {
	if n != 7 {
		c.weeks(c.day, n, u, sets)
		return
	}
	if !s.known {
		*s = stride{true, make([]doubt.Step, len(c.m.Whole)), make([]doubt.Step, len(c.m.Local)), make([]bool, len(c.m.Local))}
		for l := range s.gone {
			s.gone[l] = c.m.Cells[c.m.Local[l].Cell].Gone
		}
		c.over(c.day, n, u, sets, func(w int, t *doubt.Step) { s.whole[w] = *t }, func(l int, t *doubt.Step) { s.local[l] = *t })
	}
	for w := range s.whole {
		c.b.StepWhole(w, &s.whole[w])
	}
	for l := range s.local {
		if !s.gone[l] {
			c.b.StepLocal(l, &s.local[l])
		}
	}
}

// within says whether the doubt can be above the limit on one of the next n
// days, of which the looks find nothing with the given chance. Without looks it
// never falls, and looks that find nothing make it at most that many times
// larger. bare is another course of the same record, which is used up.
func (c *Course) within(bare *Course, weekly *stride, n int, nothing float64, limit int64, u *use) bool {
	none := [8]*runSet{}
	bare.b.Become(c.b)
	bare.day, bare.err = c.day, c.err
	weekly.take(bare, n, u, &none)
	f := bare.Figures()
	return f == nil || !(nothing > 0) || num.CeilMillionths(f.D.Unfit()/min(nothing, 1)) > limit
}

const (
	strideError = 1e-9 // more than the rounding of many weeks taken at once can differ from that of one after the other, relative
	leastChance = 1e-3 // less likely runs of looks that find nothing are followed week by week
)

// stays says whether the doubt surely stays within the limit for n days, by the
// bound of within taken over all of them. When it says no, it may stay so too.
func (c *Course) stays(n int, limit int64, u *use, sets *[8]*runSet) bool {
	if n <= 0 || c.err != nil {
		return false
	}
	d, none := c.Clone(), [8]*runSet{}
	d.weeks(c.day, n, u, &none)
	f := d.Figures()
	if f == nil || !within(f.D.Unfit(), 1, limit) {
		return false
	}
	if *sets == none {
		return true
	}
	looked := c.Clone()
	looked.weeks(c.day, n, u, sets)
	nothing, err := looked.b.Normalize()
	return err == nil && nothing > leastChance && within(f.D.Unfit(), min(nothing, 1), limit)
}

// within says whether a doubt is within the limit, looks that find nothing with a
// chance counted in, whatever was rounded.
func within(doubt, nothing float64, limit int64) bool {
	return num.CeilMillionths(float64(doubt*(1+strideError))/nothing) <= limit
}

// above says whether the doubt is over the limit now, as it would be printed. A
// belief that can no longer be worked out is over it.
func (c *Course) above(limit int64) bool {
	f := c.Figures()
	return f == nil || num.CeilMillionths(f.D.Unfit()) > limit
}

// between gives the planned hours of use from one day to another, rounded down
// to whole hours where there is at least one.
func (u *use) between(from, to qty.Day) qty.Duration {
	n := 0
	for d := from; d < to; d++ {
		if u.days[d.Weekday()] {
			n++
		}
	}
	d := qty.Duration(float64(u.hours*6000*float64(n)) + 0.5)
	if d > qty.Hour {
		d -= d % qty.Hour
	}
	return d
}

// Hours gives the planned hours of use from the day the course stands at to another.
func (c *Course) Hours(to qty.Day) qty.Duration {
	u := c.useOf(c.day)
	return u.between(c.day, to)
}
