package course

import (
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Trace is the story of the doubt: the saw-tooth over time with each look on
// it, and what each look of a day did.
type Trace struct {
	Points  []Point
	Drops   []Drop
	Before  []Before // what the drops of a day begin with
	With    []Point  // the forecast week by week, with looks kept up: up to the limit, or to where it ended
	Without []Point  // the same without looks
	every   qty.Day
}

// Before is the doubt on a day before its looks, but after what was changed on
// it and what happened to it: no look is told as the rise that an event made.
type Before struct {
	Day qty.Day
	D   doubt.Triple
}

// Point is the doubt at one moment.
type Point struct {
	Day   qty.Day
	After bool // after the looks and events of the day
	D     doubt.Triple
	Mark  string // "thorough", "interim", "pre-use", "partner", "event", or ""
}

// Drop is the doubt after one look of a day.
type Drop struct {
	Day   qty.Day
	Look  kit.LookID
	After doubt.Triple
}

// NewTrace makes a trace that samples the doubt at least every so many days
// between entries.
func NewTrace(every int) *Trace { return &Trace{every: qty.Day(max(1, every))} }

func (c *Course) traceBefore() { c.trace(false, "") }

func (c *Course) traceAfter() {
	mark := ""
	for i := range c.happened {
		if c.happened[i].Day == c.day {
			mark = "event"
		}
	}
	for i := range c.r.Examinations {
		if c.r.Examinations[i].Day == c.day {
			mark = string(c.r.Examinations[i].Kind)
		}
	}
	c.trace(true, mark)
}

// traceLooks begins the drops of a day anew: its looks come now, after its
// changes and events.
func (c *Course) traceLooks() {
	if c.Trace == nil || c.err != nil {
		return
	}
	for n := len(c.Trace.Drops); n > 0 && c.Trace.Drops[n-1].Day == c.day; n-- {
		c.Trace.Drops = c.Trace.Drops[:n-1]
	}
	if f := c.Figures(); f != nil {
		c.Trace.Before = append(c.Trace.Before, Before{Day: c.day, D: f.D})
	}
}

func (c *Course) trace(after bool, mark string) {
	if c.Trace == nil || c.err != nil {
		return
	}
	if n := len(c.Trace.Points); n > 0 && !after && c.Trace.Points[n-1].Day == c.day {
		return
	}
	if f := c.Figures(); f != nil {
		c.Trace.Points = append(c.Trace.Points, Point{Day: c.day, After: after, D: f.D, Mark: mark})
	}
}
