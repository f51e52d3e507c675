package record

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/doc"
)

func (d *decoder) runs(list []cursor) {
	for _, c := range list {
		r := kit.Run{
			Ref:  c.text("ref"),
			Kind: kit.ExamKind(c.needWord("kind", runKinds)),
			By:   c.needBy(),
		}
		from, fromOK := c.needDay("from")
		to, toOK := c.needDay("to")
		r.From, r.To = from, to
		if fromOK && toOK && to < from {
			c.Fault("to", to.Words()+" lies before from ("+from.Words()+")", "write the first day as from and the last as to")
		}
		if fromOK {
			d.dated = append(d.dated, dated{c: c, key: "from", day: from})
		}
		if c.filled("weekdays", `write on which days the looks were made, such as ["mon", "tue", "wed", "thu", "fri"]`) {
			r.Weekdays = c.days("weekdays")
			if n := c.value("weekdays"); n.Kind == doc.Array && len(n.Items) == 0 {
				c.Fault("weekdays", "names no day", "write the days on which the looks were made")
			}
		}
		d.on(from)
		usual := d.conditions(c.sub("conditions"), kit.Conditions{})
		d.runLooks(c, &r, usual)
		d.register(c, r.Ref, entry{noun: "run", day: from, dayOK: fromOK})
		d.rec.Runs, d.runAt = append(d.rec.Runs, r), append(d.runAt, c)
	}
}

// runLooks reads looks = ["eye", "hand"], each all over the piece, or [[run.look]].
func (d *decoder) runLooks(c cursor, r *kit.Run, usual kit.Conditions) {
	const mend = `write looks = ["eye", "hand"] for looks that go all over it, or a [[run.look]] for each`
	short, long := c.Has("looks"), c.Has("look")
	switch {
	case short && long:
		c.Fault("looks", "stands beside [[run.look]], so the looks are said twice", "keep one of the two")
	case short:
		for _, id := range c.idList("looks", lookIDs()) {
			r.Looks = append(r.Looks, kit.Look{Look: kit.LookID(id), By: r.By, Conditions: usual, Covers: []kit.Stretch{{All: true}}})
		}
		if n := c.value("looks"); n.Kind == doc.Array && len(n.Items) == 0 {
			c.Fault("looks", "names no look", mend)
		}
	case long:
		r.Looks = d.looks(c.list("look"), usual, r.By)
	case c.Present():
		d.fault(c.n, c.at("looks"), "is missing", "add it: "+mend)
	}
}

func (d *decoder) events(list []cursor) {
	kinds := set{noun: "event of the tables", any: d.loose}
	for i := range d.t.Events {
		kinds.ids = append(kinds.ids, d.t.Events[i].ID)
	}
	substances := set{noun: "contaminant of the tables", ids: d.contaminants(), named: calledSubstances, any: d.loose}
	for _, c := range list {
		day, ok := c.needDay("day")
		d.on(day)
		e := kit.Event{
			Ref:       c.text("ref"),
			Day:       day,
			Event:     c.needID("event", kinds, "what happened"),
			At:        d.place(c, "at"),
			PlaceSaid: c.Has("at"),
			Travel:    -1,
			Peak:      -1,
			Substance: c.id("substance", substances),
			Amount:    c.word("amount", amounts),
			Washed:    kit.Yes(c.word("washed", answers)),
			Injury:    c.Bool("injury", doc.Optional),
			Words:     c.text("words"),
		}
		if c.Has("travel") && !c.says("travel", unknown) {
			e.Travel = c.length("travel")
		}
		if c.Has("peak") && !c.says("peak", unknown) {
			e.Peak = c.Share("peak", doc.Optional)
		}
		if ok {
			d.dated = append(d.dated, dated{c: c, key: "day", day: day})
		}
		d.register(c, e.Ref, entry{noun: "event", day: day, dayOK: ok})
		d.rec.Events = append(d.rec.Events, e)
	}
}

func (d *decoder) answers(list []cursor) {
	for _, c := range list {
		day, ok := c.needDay("day")
		a := kit.Answer{
			Day:      day,
			To:       c.needText("to", "write the ref of an entry on record, or the word that the outcome names for its question"),
			Cause:    c.text("cause"),
			Verified: c.needText("verified", "write how it was verified: that it washed off, that it fits the fitting, what its maker wrote"),
			By:       c.needBy(),
			Document: c.text("document"),
			Unfit:    c.Bool("unfit", doc.Optional),
		}
		if ok {
			d.dated = append(d.dated, dated{c: c, key: "day", day: day})
		}
		if a.To != "" {
			d.tells = append(d.tells, &tell{c: c, key: "to", ref: a.To, day: day, dayOK: ok, cause: a.Cause, answer: true})
		}
		d.rec.Answers = append(d.rec.Answers, a)
	}
}

func (d *decoder) changes(list []cursor) {
	for _, c := range list {
		day, ok := c.needDay("day")
		ch := kit.Change{
			Day:    day,
			What:   c.needWord("what", changes),
			Length: c.length("length"),
			By:     c.needBy(),
			Words:  c.text("words"),
		}
		if ok {
			d.dated = append(d.dated, dated{c: c, key: "day", day: day})
		}
		d.on(day + 1) // what was cut off earlier that day is gone
		ch.Zones = d.zones(c, "zones")
		d.changed(c, &ch)
		d.rec.Changes = append(d.rec.Changes, ch)
	}
}

// changed checks that a change says what belongs to it, and nothing else.
func (d *decoder) changed(c cursor, ch *kit.Change) {
	const where = `write where the zones lie from that day on: zones = [{zone = "…", from = "0mm", to = "60mm"}]`
	const cut = `write how much was cut off, such as length = "120mm"`
	switch {
	case ch.What == zoneMove && c.filled("zones", where) && len(ch.Zones) == 0:
		c.Fault("zones", "names no zone", where)
	case ch.What != zoneMove && ch.What != "" && c.Has("zones"):
		c.Fault("zones", "is given where what is “"+ch.What+"”", `take it out, or write what = "zones" in an entry of its own`)
	}
	switch {
	case shortens(ch.What) && c.filled("length", cut):
		if ch.Length == 0 {
			c.Fault("length", "is nought", cut)
		} else if d.long > 0 && ch.Length >= d.long {
			c.Fault("length", ch.Length.String()+" is all there is left of it ("+d.long.String()+")", "write how much was cut off")
		}
	case !shortens(ch.What) && ch.What != "" && c.Has("length"):
		c.Fault("length", "is given where what is “"+ch.What+"”", "take it out, or say at which end it was shortened")
	}
}

// tell is an entry that speaks of another by its ref.
type tell struct {
	c      cursor
	key    string
	ref    string
	day    qty.Day
	dayOK  bool
	cause  string
	answer bool // an answer; otherwise an examination after an event
}
