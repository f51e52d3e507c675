package record

import (
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// seen is a sign of the record with the day it was seen.
type seen struct {
	c     cursor
	sign  kit.Sign
	day   qty.Day
	dayOK bool
}

// kindOrNone gives the kind, or one without any row where it is not known.
func (d *decoder) kindOrNone() *table.Kind {
	if d.kind == nil {
		return &table.Kind{}
	}
	return d.kind
}

func (d *decoder) examinations(list []cursor) {
	for _, c := range list {
		day, ok := c.needDay("day")
		climbs := c.word
		if c.says("kind", string(kit.Interim)) || c.says("kind", string(kit.Thorough)) {
			climbs = c.asked
		}
		e := kit.Examination{
			Ref:        c.text("ref"),
			Kind:       kit.ExamKind(c.needWord("kind", examKinds)),
			Day:        day,
			By:         c.needBy(),
			WouldClimb: kit.Yes(climbs("would_climb", answers)),
			SignedBy:   c.person("signed"),
			Latest:     c.Date("latest", doc.Optional),
			AfterEvent: c.text("after_event"),
			HeldBy:     c.heldBy(),
		}
		d.register(c, e.Ref, entry{noun: "examination", day: day, dayOK: ok})
		if ok {
			d.dated = append(d.dated, dated{c: c, key: "day", day: day})
			if e.Latest.Known() && e.Latest.Latest() < day {
				c.Fault("latest", "lies before the examination itself ("+day.Words()+")", "write the day by which the next one is due")
			}
		}
		if e.AfterEvent != "" {
			d.tells = append(d.tells, &tell{c: c, key: "after_event", ref: e.AfterEvent, day: day, dayOK: ok})
		}
		d.on(day)
		usual := d.conditions(c.sub("conditions"), kit.Conditions{})
		e.Looks = d.looks(c.list("look"), usual, e.By)
		e.Asked = d.asked(c.sub("asked"))
		for _, s := range c.list("sign") {
			e.Signs = append(e.Signs, d.sign(s, e.By, day, ok))
		}
		for _, r := range c.list("reading") {
			e.Readings = append(e.Readings, d.reading(r, day, ok))
		}
		d.rec.Examinations, d.examAt = append(d.rec.Examinations, e), append(d.examAt, c)
	}
}

// conditions reads what a look was made under; what is not said there is taken
// from those of the whole examination.
func (d *decoder) conditions(c cursor, usual kit.Conditions) kit.Conditions {
	out := usual
	if w := c.condition("light", lights); w != "" {
		out.Light = w
	}
	for i, y := range []*kit.Yes{&out.Cleaned, &out.Wet, &out.Frozen, &out.Muddy, &out.Gloves, &out.Hurried} {
		if w := c.condition(yesKeys[i], answers); w != "" {
			*y = kit.Yes(w)
		}
	}
	return out
}

// condition reads what a look was made under.
func (c cursor) condition(key string, words []string) string {
	if c.takes(key, words) {
		return c.n.Fields[key].Text
	}
	if !c.begun(key, "write "+oneOf(words)+"; taken out, it counts as the worst") {
		return ""
	}
	return c.word(key, words)
}

var allLooks = func() (ids []string) {
	for _, l := range kit.Looks {
		ids = append(ids, string(l))
	}
	return ids
}()

func lookIDs() set { return set{noun: "look", ids: allLooks, named: calledLooks} }

func (d *decoder) looks(list []cursor, usual kit.Conditions, by string) []kit.Look {
	var out []kit.Look
	for _, c := range list {
		l := kit.Look{
			Look:       kit.LookID(c.needID("look", lookIDs(), "which look it was")),
			By:         c.byOr(by),
			Conditions: d.conditions(c.sub("conditions"), usual),
			AfterWash:  c.Bool("after_washing", doc.Optional),
		}
		l.Covers = d.covers(c, l.Look)
		out = append(out, l)
	}
	return out
}

// covers reads where a look went. Asking and reading are about the whole piece
// and need not say so; of every other look it has to be said.
func (d *decoder) covers(c cursor, look kit.LookID) []kit.Stretch {
	const mend = `write covers = "all", or a list such as [{from = "0mm", to = "450mm", sides = "all"}, {part = "…", sides = "all"}]`
	n := c.value("covers")
	switch {
	case n == nil && (look == kit.Ask || look == kit.Read):
		return []kit.Stretch{{All: true}}
	case c.says("covers", everyone):
		return []kit.Stretch{{All: true}}
	case !c.filled("covers", mend):
		return nil
	case n.Kind != doc.Array:
		what := "is no list of stretches"
		if n.Kind == doc.String {
			what = "“" + doc.Short(n.Text) + "” is no word taken here"
		}
		d.fault(n, c.at("covers"), what, mend)
		return nil
	}
	var out []kit.Stretch
	for _, s := range c.list("covers") {
		st := kit.Stretch{Sides: d.reached(s)}
		d.spot(s, `write {from = "0mm", to = "450mm"} or {part = "…"}`, func() { st.Part = s.id("part", d.partIDs()) }, nil,
			func() { st.From, st.To = d.stretch(s, true) })
		out = append(out, st)
	}
	return out
}

// reached reads on which sides a look went over a stretch. Where a kind has more
// than one, it has to be said: a look that was made on one side is not taken for
// one all round. nil means every side.
func (d *decoder) reached(c cursor) []string {
	sides := d.kindOrNone().Sides
	if c.says("sides", everyone) {
		return nil
	}
	if len(sides) > 1 && c.value("sides") == nil && (c.value("part") != nil || c.value("from") != nil) {
		d.fault(c.n, c.at("sides"), "is not said", `write sides = "all", or those it went over, of `+quoted(sides))
		return nil
	}
	return c.idList("sides", d.sideIDs())
}

// asked reads the answers to the questions of the look "ask".
func (d *decoder) asked(c cursor) map[string]kit.Yes {
	questions := d.ofKind("question")
	for i := range d.kindOrNone().Asks {
		questions.ids = append(questions.ids, d.kind.Asks[i].ID)
	}
	var out map[string]kit.Yes
	for _, q := range c.Keys() {
		n := c.value(q)
		if !questions.has(q) {
			what, mend := questions.wrong(q)
			d.fault(n, c.at(q), what, mend)
			continue
		}
		if a := c.needWord(q, answers); a != "" {
			if out == nil {
				out = map[string]kit.Yes{}
			}
			out[q] = kit.Yes(a)
		}
	}
	return out
}

func (d *decoder) sign(c cursor, by string, day qty.Day, dayOK bool) kit.Sign {
	s := kit.Sign{
		Ref:       c.text("ref"),
		State:     kit.SignState(c.word("state", states)),
		By:        c.byOr(by),
		At:        d.place(c, "at"),
		Look:      kit.LookID(c.id("look", lookIDs())),
		AfterWash: c.Bool("after_washing", doc.Optional),
		Words:     c.text("words"),
	}
	if s.State == "" && !c.Has("state") {
		s.State = kit.FirstSeen
	}
	first := s.State == kit.FirstSeen
	row := d.signRow(c, first)
	if row != nil {
		s.Sign = row.ID
		d.shows(c, s.Look, row)
	} else if d.loose {
		s.Sign = c.text("sign")
	}
	switch {
	case c.Has("at") || !first || d.kind == nil:
	case row != nil && row.Whole:
		s.At.Whole = true
	default:
		c.filled("at", `write where it is: {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`)
	}
	d.signs = append(d.signs, seen{c, s, day, dayOK})
	return s
}

// signRow reads which sign it is, and gives its row of the kind's table. Only
// one that is first seen has to say so.
func (d *decoder) signRow(c cursor, first bool) *table.Sign {
	signs := d.signIDs()
	if first && !c.filled("sign", "write what was seen or felt, the id of a sign"+signs.choice()) {
		return nil
	}
	id := c.text("sign")
	if id == "" || signs.has(id) {
		return d.kindOrNone().Sign(id)
	}
	what, mend := signs.wrong(id)
	if others := d.kindsWith(id); len(others) > 0 {
		what = "“" + doc.Short(id) + "” is a sign of " + doc.List(others) + " but not of the kind “" + string(d.kind.ID) + "”"
	}
	c.Fault("sign", what, mend)
	return nil
}

// shows faults a look that cannot show the sign.
func (d *decoder) shows(c cursor, look kit.LookID, row *table.Sign) {
	if look == "" || slices.Contains(row.Looks, look) {
		return
	}
	var can []string
	for _, l := range row.Looks {
		can = append(can, string(l))
	}
	c.Fault("look", "“"+string(look)+"” cannot show the sign “"+row.ID+"”", "write "+oneOf(can)+", or leave the key out")
}

func (d *decoder) signIDs() set {
	s := d.ofKind("sign")
	for i := range d.kindOrNone().Signs {
		s.ids = append(s.ids, d.kind.Signs[i].ID)
	}
	return s
}

// kindsWith gives the kinds whose tables have a sign with that id.
func (d *decoder) kindsWith(id string) []string {
	var out []string
	for i := range d.t.Kinds {
		if d.t.Kinds[i].Sign(id) != nil {
			out = append(out, string(d.t.Kinds[i].ID))
		}
	}
	return out
}

func (d *decoder) reading(c cursor, day qty.Day, dayOK bool) kit.Reading {
	quantities := d.ofKind("quantity")
	for i := range d.kindOrNone().Reads {
		quantities.ids = append(quantities.ids, d.kind.Reads[i].ID)
	}
	r := kit.Reading{
		Quantity: c.needID("quantity", quantities, "what was measured"),
		Ref:      c.text("ref"),
		Gauge:    c.text("gauge"),
		Method:   c.text("method"),
		Wet:      kit.Yes(c.word("wet", answers)),
	}
	if c.filled("at", `write where it was measured: {at = "450mm"}, {part = "…"} or "whole"`) {
		r.At = d.place(c, "at")
	}
	r.Values = c.lengths("values", true)
	r.Again = c.lengths("again", false)
	r.Error = c.length("error")
	c.moreThanNone("error", r.Error)
	if r.Tension = c.Force("tension", doc.Optional); r.Tension > mostForce {
		c.Fault("tension", r.Tension.String()+" is more than any reference tension", "correct the number or its unit")
	} else if r.Tension == 0 && c.Has("tension") {
		c.Fault("tension", "is nought", "write the tension it was measured at, or leave the key out")
	}
	sign := ""
	if q := d.kindOrNone().Quantity(r.Quantity); q != nil {
		sign = q.Sign
	}
	d.register(c, r.Ref, entry{noun: "reading", day: day, dayOK: dayOK, sign: sign})
	return r
}
