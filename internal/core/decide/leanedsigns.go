package decide

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// signs adds the signs on record with all their figures and causes, and, for
// those that the looks made did not show, how likely damage would have shown.
func (l *leaning) signs() {
	open := l.c.Open()
	onRecord := func(s *table.Sign) bool {
		for i := range open {
			if open[i].Sign == s {
				return true
			}
		}
		return false
	}
	for i := range l.k.Signs {
		s := &l.k.Signs[i]
		if onRecord(s) {
			l.class(GroupSigns, s)
			l.figures(GroupSigns, s, l.links(s, true)...)
			continue
		}
		if l.shownBy(s) {
			l.figures(GroupUnseen, s, l.links(s, false)...)
		}
		var v []Value
		for _, c := range s.Causes { // not seen, though a cause that is in question could have shown it
			if l.shownBy(s) && l.inQuestion(c.Cause) {
				v = append(v, of(c.Cause, "r", c.R, "share"))
			}
		}
		l.figures(GroupCauses, s, v...)
	}
	for i := range open {
		for _, c := range open[i].Sign.Causes {
			if x := l.t.Cause(c.Cause); x != nil {
				l.put(GroupCauses, "cause", x.ID, &x.Cite, said("washable", truth(x.Washable)))
			}
			if x := l.c.Model().PriorRow(c.Cause, open[i].Zone); x != nil {
				l.put(GroupCauses, "prior", priorName(c.Cause, x.Zone), &x.Cite, figure("p", x.P, "share"))
			}
		}
	}
	l.oddSigns()
}

// plainSigns adds the signs on record of kinds without a doubt figure: their
// class and their causes decide.
func (l *leaning) plainSigns() {
	l.oddSigns()
	for i := range l.r.Examinations {
		for n := range l.r.Examinations[i].Signs {
			if s := l.k.Sign(l.r.Examinations[i].Signs[n].Sign); s != nil && l.r.Examinations[i].Day <= l.r.AsOf {
				var v []Value
				for _, c := range s.Causes {
					v = append(v, of(c.Cause, "r", c.R, "share"))
				}
				l.figures(GroupSigns, s, v...)
			}
		}
	}
}

// oddSigns adds the class of every sign on record, also of those that no model
// of doubt takes up.
func (l *leaning) oddSigns() {
	for i := range l.r.Examinations {
		for n := range l.r.Examinations[i].Signs {
			if s := l.k.Sign(l.r.Examinations[i].Signs[n].Sign); s != nil && l.r.Examinations[i].Day <= l.r.AsOf {
				l.class(GroupSigns, s)
			}
		}
	}
}

func priorName(cause, zone string) string {
	if zone == "" {
		return cause
	}
	return cause + ", " + zone
}

// inQuestion says whether a harmless cause explains some sign on record.
func (l *leaning) inQuestion(cause string) bool {
	open := l.c.Open()
	for i := range open {
		for _, c := range open[i].Sign.Causes {
			if c.Cause == cause {
				return true
			}
		}
	}
	return false
}

// class adds what a sign means by itself.
func (l *leaning) class(group string, s *table.Sign) {
	v := []Value{said("class", string(s.Class))}
	if s.AfterUse > 0 {
		v = append(v, figure("after_use", float64(s.AfterUse), "months"))
	}
	l.put(group, "sign", s.ID, &s.Cite, v...)
}

// figures adds values of a sign, which have a standing of their own.
func (l *leaning) figures(group string, s *table.Sign, v ...Value) {
	if len(v) == 0 {
		return
	}
	c := s.Cite
	if c.Status = s.Figures; c.Status == table.Assumed {
		c.Source, c.Place = nil, "chosen for this table"
	}
	l.put(group, "figures", s.ID, &c, v...)
}

// links gives how likely damage that lives on the piece shows a sign; of one on
// record also its leak and its causes.
func (l *leaning) links(s *table.Sign, seen bool) []Value {
	v := make([]Value, 0, 2*len(s.Links)+len(s.Causes)+2)
	for _, x := range s.Links {
		if l.lives(x.Mode) {
			v = append(v, of(x.Mode, "q1", x.Q1, "share"), of(x.Mode, "q2", x.Q2, "share"))
		}
	}
	if len(v) > 0 && s.Spread > 0 {
		v = append(v, figure("spread", s.Spread, "share"))
	}
	if !seen {
		return v
	}
	if s.Class != table.Observation {
		v = append(v, figure("leak", s.Leak, "1/m"))
	}
	for _, c := range s.Causes {
		v = append(v, of(c.Cause, "r", c.R, "share"))
	}
	return v
}

func (l *leaning) lives(mode string) bool {
	for k := range l.k.Modes {
		if l.k.Modes[k].ID == mode {
			return l.live[k]
		}
	}
	return false
}

// shownBy says whether one of the looks made can show a sign.
func (l *leaning) shownBy(s *table.Sign) bool {
	for _, look := range s.Looks {
		if l.made[look.Order()] {
			return true
		}
	}
	return false
}

// readings adds what readings on record are weighed by, and the limits that
// they and the description of the piece are held against.
func (l *leaning) readings() {
	for i := range l.r.Examinations {
		e := &l.r.Examinations[i]
		for n := range e.Readings {
			if q := l.k.Quantity(e.Readings[n].Quantity); q != nil && e.Day <= l.r.AsOf {
				l.quantity(q, true)
			}
		}
	}
	p := &l.r.Piece
	if q := l.k.Quantity("nominal"); q != nil && p.Diameter > 0 {
		l.quantity(q, false)
	}
	if q := l.k.Quantity("tail"); q != nil && (p.EndA.Tail > 0 || p.EndB.Tail > 0) {
		l.quantity(q, false)
	}
}

// quantity adds a row of readings with its limits; of a figure that the record
// only states, the limits alone.
func (l *leaning) quantity(q *table.Quantity, measured bool) {
	unit, density := "share", "1/share"
	if q.Basis == "absolute" {
		unit, density = "mm", "1/mm"
	}
	if measured {
		v := make([]Value, 0, 12)
		for x, state := range [3]string{"sound", "impaired", "unfit"} {
			v = append(v, of(state, "mu", q.Mu[x], unit), of(state, "sigma", q.Sigma[x], unit))
		}
		v = append(v, figure("nu", float64(q.Nu), "1"), figure("slip", q.Slip, "share"), figure("slip_c", q.SlipC, density),
			figure("error", q.Error.Millimetres(), "mm"), figure("shared", q.Shared, unit), figure("out", float64(q.Out)/1000, unit))
		l.put(GroupReadings, "read", q.ID, &q.Cite, v...)
		if sign := l.k.Sign(q.Sign); sign != nil { // what a value out of range would mean
			l.class(GroupReadings, sign)
		}
	}
	for i := range q.Limits {
		x := &q.Limits[i]
		at := figure("at", x.At.Millimetres(), "mm")
		if x.Share != 0 {
			at = figure("per_mille", float64(x.Share), "1/1000")
		}
		l.put(GroupReadings, "limit", q.ID, &x.Cite, at, said("verdict", x.Verdict.String()))
	}
}

// further adds what the worth of looks not yet made was worked out with. It
// bears on what would help, and on whether row 6 sets aside or withdraws.
func (l *leaning) further() {
	d := l.outcome().Doubt
	if d == nil || (len(l.told.Gains) == 0 && d.Millions <= d.Limit) {
		return
	}
	best := kit.Conditions{Light: "good", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}
	var left [len(kit.Looks)]bool
	for i := range l.k.Times {
		x := &l.k.Times[i]
		if !l.notMade(x.Look) {
			continue
		}
		left[x.Look.Order()] = true
		l.put(GroupFurther, "time", string(x.Look), &x.Cite, figure("minutes", x.Minutes, "minutes"))
		l.quality(GroupFurther, &lookUse{x.Look, l.examKind(), best})
		l.quality(GroupFurther, &lookUse{x.Look, kit.Thorough, best})
	}
	for i := range l.k.Signs {
		s := &l.k.Signs[i]
		could := false
		for _, look := range s.Looks {
			could = could || left[look.Order()]
		}
		if !could {
			continue
		}
		v := l.links(s, false)
		if s.Leak > 0 {
			v = append(v, figure("leak", s.Leak, "1/m"))
		}
		l.figures(GroupFurther, s, v...)
	}
}
