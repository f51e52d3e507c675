package web

import (
	"maps"
	"slices"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// fill fills a form with what an entry says: the other way round from reading it.
func (f *form) fill(v any) {
	switch b := v.(type) {
	case *kit.Examination:
		f.examOut(b)
	case *kit.Run:
		f.runOut(b)
	case *kit.Event:
		f.eventOut(b)
	case *kit.Answer:
		f.put("day", b.Day.Words(), "to", b.To, "cause", b.Cause, "verified", b.Verified, "document", b.Document)
		f.tick("unfit", b.Unfit)
	case *kit.Change:
		f.put("day", b.Day.Words(), "what", b.What, "by", b.By, "words", b.Words)
		f.lengthOut("length", b.Length)
		f.zonesOut(b.Zones)
	case *fold.Washing:
		f.put("with", b.With, "event", b.Event, "clean", string(b.Clean), "words", b.Words)
	case *fold.Fit:
		f.put("in", b.In, "allowed", string(b.Allowed), "document", b.Document)
		f.tick("out", b.In == "")
	case *fold.Hang:
		f.put("holder", b.Holder, "place", b.Place)
	case *fold.Stop:
		f.put("what", b.What, "why", b.Why, "document", b.Document)
	case *fold.Use:
		if u, faults := record.DecodeUse("", b.Use); len(faults) == 0 {
			f.put("day", u.From.Words(), "of", b.Of)
			f.useOut(&u)
			if u.Week < 0 && !u.Store {
				f.put("week", "unknown")
			}
		}
	case *fold.Amend:
		f.put("why", b.Why)
		if p, faults := record.DecodePiece("", b.Piece); len(faults) == 0 {
			f.kitOut(&p)
		}
	case *kit.Piece:
		f.put("kind", string(b.Kind), "piece", b.ID, "fitted.in", b.Fitted.In, "fitted.allowed", string(b.Fitted.Allowed), "fitted.document", b.Fitted.Document)
		f.kitOut(b)
	}
}

// put fills fields, names and values in turn; what is empty stays as it is.
func (f *form) put(pairs ...string) {
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i+1] != "" {
			f.v.Set(pairs[i], pairs[i+1])
		}
	}
}

func (f *form) tick(name string, on bool) {
	if on {
		f.v.Set(name, "yes")
	}
}

func (f *form) lengthOut(name string, l qty.Length) {
	if l != 0 {
		f.v.Set(name, l.String())
	}
}

func (f *form) zonesOut(zones []kit.ZoneAt) {
	for i, z := range zones {
		at := key("zone", i)
		f.put(at+".zone", z.Zone, at+".from", z.From.String(), at+".to", z.To.String())
	}
	f.rows("zones", len(zones))
}

// placeOut fills a place: the whole, a part, or a stretch.
func (f *form) placeOut(at string, p *kit.Place, said bool) {
	f.put(at+".part", p.Part, at+".layer", p.Layer)
	f.v[at+".side"] = slices.Clone(p.Sides)
	switch {
	case p.Whole:
		f.put(at+".part", "whole")
	case p.Part == "" && said:
		f.put(at+".from", p.From.String())
		if p.To != p.From {
			f.put(at+".to", p.To.String())
		}
	}
}

func (f *form) eventOut(e *kit.Event) {
	f.put("ref", e.Ref, "day", e.Day.Words(), "event", e.Event, "substance", e.Substance, "amount", e.Amount, "washed", string(e.Washed), "words", e.Words)
	f.tick("injury", e.Injury)
	if e.PlaceSaid {
		f.placeOut("at", &e.At, true)
	}
	if e.Travel >= 0 {
		f.put("travel", e.Travel.String())
	}
	if e.Peak >= 0 {
		f.put("peak", e.Peak.String())
	}
}

func (f *form) runOut(x *kit.Run) {
	f.put("ref", x.Ref, "kind", string(x.Kind), "by", x.By, "from", x.From.Words(), "to", x.To.Words())
	for i, d := range weekdayNames {
		if x.Weekdays[i+1] {
			f.v.Add("weekdays", d)
		}
	}
	for i := range x.Looks {
		f.v.Add("looks", string(x.Looks[i].Look))
		f.conditionsOut("all", &x.Looks[i].Conditions)
	}
}

// conditionValues gives the conditions of a look by the names of a form.
func conditionValues(c *kit.Conditions) map[string]string {
	return map[string]string{"light": c.Light, "cleaned": string(c.Cleaned), "wet": string(c.Wet), "frozen": string(c.Frozen), "muddy": string(c.Muddy), "gloves": string(c.Gloves), "hurried": string(c.Hurried)}
}

func (f *form) conditionsOut(at string, c *kit.Conditions) {
	for name, v := range conditionValues(c) {
		f.put(at+"."+name, v)
	}
}

func (f *form) examOut(e *kit.Examination) {
	f.put("kind", string(e.Kind), "day", e.Day.Words(), "by", e.By, "ref", e.Ref, "would", string(e.WouldClimb), "signed", e.SignedBy, "after", e.AfterEvent, "held_by", strings.Join(e.HeldBy, ", "))
	if e.Latest.Known() {
		f.put("latest", e.Latest.Words())
	}
	for i := range e.Looks {
		if i == 0 {
			f.conditionsOut("all", &e.Looks[i].Conditions)
		}
		f.lookOut(&e.Looks[i], &e.Looks[0].Conditions, e.By)
	}
	for _, q := range slices.Sorted(maps.Keys(e.Asked)) {
		f.put("ask."+q, string(e.Asked[q]))
	}
	row := 0
	for i := range e.Signs {
		g := &e.Signs[i]
		if g.State != kit.FirstSeen {
			at := "known." + g.Ref
			f.put(at+".state", string(g.State), at+".words", g.Words)
			f.placeOut(at, &g.At, g.At.From != 0 || g.At.To != 0)
			continue
		}
		at := key("sign", row)
		row++
		f.put(at+".ref", g.Ref, at+".sign", g.Sign, at+".look", string(g.Look), at+".words", g.Words)
		if g.By != e.By {
			f.put(at+".by", g.By)
		}
		f.tick(at+".washed", g.AfterWash)
		f.placeOut(at, &g.At, true)
	}
	f.rows("signs", row)
	for i := range e.Readings {
		f.readingOut(key("reading", i), &e.Readings[i])
	}
	f.rows("readings", len(e.Readings))
}

// lookOut fills one look; common are the conditions of all looks, as the form has
// them.
func (f *form) lookOut(l *kit.Look, common *kit.Conditions, by string) {
	at := "look." + string(l.Look)
	f.put(at, "yes")
	if l.By != by {
		f.put(at+".by", l.By)
	}
	f.tick(at+".washed", l.AfterWash)
	all := conditionValues(common)
	for name, v := range conditionValues(&l.Conditions) {
		switch {
		case v == all[name]:
		case v == "":
			f.put(at+"."+name, "-")
		default:
			f.put(at+"."+name, v)
		}
	}
	var lines []string
	for _, c := range l.Covers {
		switch {
		case c.All:
			f.put(at+".covers", "all")
		case c.Part != "":
			f.v.Add(at+".part", c.Part)
		default:
			lines = append(lines, strings.Join(append([]string{c.From.String() + " to " + c.To.String()}, c.Sides...), ", "))
		}
	}
	f.put(at+".stretches", strings.Join(lines, "\n"))
}

func (f *form) readingOut(at string, m *kit.Reading) {
	values := func(list []qty.Length) string {
		out := make([]string, len(list))
		for i, v := range list {
			out[i] = v.String()
		}
		return strings.Join(out, ", ")
	}
	f.put(at+".quantity", m.Quantity, at+".values", values(m.Values), at+".again", values(m.Again), at+".ref", m.Ref, at+".gauge", m.Gauge, at+".method", m.Method, at+".wet", string(m.Wet))
	f.lengthOut(at+".error", m.Error)
	if m.Tension != 0 {
		f.put(at+".tension", m.Tension.String())
	}
	f.placeOut(at, &m.At, true)
}

// dropEmptyLayers takes out of a form the rows that name a layer and say nothing
// of it: they are none.
func (f *form) dropEmptyLayers() {
	for i := range f.count("layers", 0) {
		if at := key("layer", i); f.V(at+".fibre") == "" {
			f.v.Del(at + ".name")
		}
	}
}
