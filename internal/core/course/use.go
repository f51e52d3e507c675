package course

import (
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/table"
)

// yearDays is a mean year of the Gregorian calendar, in days.
const yearDays = 365.2425

// use is a use in numbers, with the covariates of the chains.
type use struct {
	hours    float64 // per working day, in hundreds
	days     [8]bool // working days
	dirt     float64
	mass     float64 // log of mass over the reference mass
	hardware float64
	store    bool
	assumed  []string // facts not on record, taken as the table's cautious value
}

// use turns a use on record into numbers. What is not known is taken as the
// table's cautious value and named.
func (m *Model) use(u *kit.Use) use {
	r := &m.Tables.Rules
	out := use{store: u != nil && u.Store}
	if out.store {
		return out
	}
	week, mass := r.Cautious.Week, r.Cautious.Mass
	worst := func(levels []table.Level) float64 {
		z := 0.0
		for i := range levels {
			z = max(z, levels[i].Z)
		}
		return z
	}
	level := func(levels []table.Level, id, what string) float64 {
		for i := range levels {
			if levels[i].ID == id {
				return levels[i].Z
			}
		}
		out.assumed = append(out.assumed, what)
		return worst(levels)
	}
	if u == nil {
		out.assumed = append(out.assumed, "use")
		u = &kit.Use{Week: -1}
	}
	if u.Week >= 0 {
		week = u.Week
	} else {
		out.assumed = append(out.assumed, "hours")
	}
	if u.Mass > 0 {
		mass = u.Mass
	} else {
		out.assumed = append(out.assumed, "mass")
	}
	out.dirt = level(m.Tables.Dirt, u.Dirt, "dirt")
	out.hardware = level(m.Tables.Hardware, u.Hardware, "hardware")
	n := 0
	for d := 1; d <= 7; d++ {
		if u.Weekdays[d] {
			out.days[d] = true
			n++
		}
	}
	day := r.Cautious.Day
	switch {
	case n == 0: // any day can be the one on which most of it falls
		for d := 1; d <= 7; d++ {
			out.days[d] = true
		}
		out.hours = max(min(week, day).Hours(), week.Hours()/7) / 100
		out.assumed = append(out.assumed, "weekdays")
	case u.Week < 0 && day > 0:
		out.hours = min(week.Hours()/float64(n), day.Hours()) / 100
	default:
		out.hours = week.Hours() / float64(n) / 100
	}
	out.mass = num.Log(mass.Kilograms() / r.Reference.Mass.Kilograms())
	return out
}

// day gives the generator of one day for a mode at a scale: the hours of use on
// a working day, and a day of the calendar. Only what leaves state 0 is scaled;
// no intensity falls below the mode's floor.
func (m *Model) day(mode *table.Mode, scale float64, u *use, working bool) doubt.Gen {
	years := 1 / yearDays
	if u.store {
		k := float64(m.Tables.Rules.StoreShare)
		t := doubt.Generator(
			float64(scale*max(float64(mode.T01*k), mode.FloorStore)),
			mode.T12,
			float64(scale*float64(mode.T02*k)), mode.Hidden)
		return doubt.Gen{}.Plus(years, t)
	}
	t := doubt.Generator(float64(scale*max(mode.T01, mode.FloorT)), mode.T12, float64(scale*mode.T02), mode.Hidden)
	g := doubt.Gen{}.Plus(years, t)
	if working && u.hours > 0 {
		z := num.Exp(float64(mode.BetaDirt*u.dirt) + float64(mode.BetaMass*u.mass) + float64(mode.BetaHardware*u.hardware))
		h := doubt.Generator(
			float64(scale*max(float64(mode.H01*z), mode.FloorH)),
			float64(mode.H12*z),
			float64(scale*float64(mode.H02*z)), mode.Hidden)
		g = g.Plus(u.hours, h)
	}
	return g
}

// dayStep is a mode's step over one day at a scale: without use, and with it.
type dayStep struct {
	scale      float64
	idle, work doubt.Step
	short      []shortStep
}

// shortStep is a mode's step over a few days without looks, from a day of the
// week on.
type shortStep struct {
	weekday, n int
	step       doubt.Step
}

// few gives the step over fewer than seven days without looks, worked out once.
func (s *dayStep) few(weekday, n int, u *use) *doubt.Step {
	for i := range s.short {
		if x := &s.short[i]; x.weekday == weekday && x.n == n {
			return &x.step
		}
	}
	step := doubt.Identity()
	for k := range n {
		day := &s.idle
		if u.days[(weekday+k-1)%7+1] {
			day = &s.work
		}
		if k == 0 {
			step = *day
		} else {
			step.Then(day)
		}
	}
	s.short = append(s.short, shortStep{weekday, n, step})
	return &s.short[len(s.short)-1].step
}

// useSteps makes the steps those of a use; steps of another one are forgotten.
func (m *Model) useSteps(u *use) {
	if key := u.key(); m.stepsOf != key || m.dayStep == nil {
		m.stepsOf = key
		m.dayStep = make([][]dayStep, len(m.Kind.Modes))
	}
}

// steps gives a mode's steps over a day of the use of useSteps, worked out once
// per scale.
func (m *Model) steps(mode int, scale float64, u *use) *dayStep {
	for i := range m.dayStep[mode] {
		if m.dayStep[mode][i].scale == scale {
			return &m.dayStep[mode][i]
		}
	}
	s := dayStep{scale: scale, idle: m.day(&m.Kind.Modes[mode], scale, u, false).Exp()}
	if !u.store {
		s.work = m.day(&m.Kind.Modes[mode], scale, u, true).Exp()
	}
	m.dayStep[mode] = append(m.dayStep[mode], s)
	return &m.dayStep[mode][len(m.dayStep[mode])-1]
}

// useKey is what the steps of a day depend on.
type useKey struct {
	hours, dirt, mass, hardware float64
	days                        [8]bool
	store                       bool
}

func (u *use) key() useKey { return useKey{u.hours, u.dirt, u.mass, u.hardware, u.days, u.store} }
