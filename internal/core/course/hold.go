package course

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Hold follows the record to a day as Run does, but only as far as is the same for
// every later day: it stops where the last stretch of use and time before that day
// begins, since a stretch is worked out at once and its end is not known yet. Run
// goes on from there to that day or a later one and comes to the same, to the last
// bit, as from the beginning.
func (c *Course) Hold(to qty.Day) {
	for {
		next, ok := c.nextDay()
		if !ok || next > to {
			break
		}
		c.Advance(next)
		c.Enter()
	}
	if c.err != nil {
		return
	}
	if c.looked && c.day < to {
		c.span(c.day, c.day+1, false)
		c.day, c.looked = c.day+1, false
	}
	for !c.looked && c.err == nil {
		end := c.steady(to)
		if end >= to {
			return
		}
		c.span(c.day, end, true)
		c.day = end
	}
}

// GoOn gives a copy of a course that stands where Hold left it, to be followed with
// a record that says the same up to the day of Hold and nothing new since. The
// course it is copied from can be copied again.
func (c *Course) GoOn(r *kit.Record) *Course {
	if c.told == nil {
		c.told = &foretold{}
	}
	d := c.Clone()
	d.r, d.told = d.m.Kind.New(r), c.told
	return d
}
