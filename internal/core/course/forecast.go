package course

import (
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

// Forecasts propagates the belief forward from the day the course stands at,
// twice: with the looks of the last weeks kept up, each finding nothing, and
// without any. limit is in whole millionths.
func (c *Course) Forecasts(limit int64, horizon qty.Day) (with, without Forecast, kept Kept) {
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

// ahead finds the first day on which the doubt is above the limit. It goes week
// by week, and day by day through every week in which the limit can be passed.
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
	last := d.Clone()
	for d.day < horizon {
		way = c.step(way, d)
		n := min(7, int(horizon-d.day))
		last.b, last.day = d.b.Clone(), d.day
		d.weeks(d.day, n, &u, &sets)
		d.day += qty.Day(n)
		nothing, err := d.b.Normalize()
		if err != nil {
			d.fail(err)
		}
		if !d.above(limit) && (len(looks) == 0 || !last.within(n, nothing, limit, &u)) {
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

// within says whether the doubt can be above the limit on one of the next n
// days, of which the looks find nothing with the given chance. Without looks it
// never falls, and looks that find nothing make it at most that many times
// larger.
func (c *Course) within(n int, nothing float64, limit int64, u *use) bool {
	d, none := c.Clone(), [8]*runSet{}
	d.weeks(d.day, n, u, &none)
	f := d.Figures()
	return f == nil || !(nothing > 0) || num.CeilMillionths(f.D.Unfit()/min(nothing, 1)) > limit
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
