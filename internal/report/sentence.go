package report

import (
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// args gives the values of a message with ids put into words.
func (s *speaker) args(in []arg) []arg {
	out := make([]arg, len(in), len(in)+4)
	for i, a := range in {
		switch a.Name {
		case "sign", "other":
			a.Value = s.sign(a.Value)
		case "look":
			a.Value = s.look(kit.LookID(a.Value))
		case "event":
			a.Value = s.event(a.Value)
		case "substance":
			a.Value = s.substance(a.Value)
		case "fibre":
			a.Value = s.fibre(a.Value)
		case "quantity":
			a.Value = s.quantity(a.Value)
		case "cause":
			a.Value = s.cause(a.Value)
		case "country":
			a.Value = s.country(a.Value)
		case "ask":
			a.Value = s.ask(a.Value)
		case "unsaid":
			a.Value = s.unsaid(a.Value)
		}
		out[i] = a
	}
	return out
}

// find gives the value of that name, or "".
func find(args []arg, name string) string {
	for i := range args {
		if args[i].Name == name {
			return args[i].Value
		}
	}
	return ""
}

// reason gives the sentence of a reason.
func (s *speaker) reason(r *criteria.Reason) string {
	args := append(s.args(r.Args), arg{Name: "what", Value: r.Words}, arg{Name: "where", Value: s.reasonPlace(r)})
	if r.Key == "sign.unexplained" && find(r.Args, "why") == "0 %" {
		return s.Say("sign.not-explained", args...)
	}
	return s.Say(r.Key, args...)
}

func (s *speaker) reasonPlace(r *criteria.Reason) string {
	if len(r.At) > 0 {
		return s.where(r.At[0], find(r.Args, "zone"))
	}
	if p, ok := placeOf(r.Args); ok {
		return s.where(p, "")
	}
	return ""
}

// placeOf reads a place back from the values of a message; ok is false where
// they name none.
func placeOf(args []arg) (p kit.Place, ok bool) {
	from, to := find(args, "from"), find(args, "to")
	switch {
	case find(args, "part") != "":
		p.Part = find(args, "part")
	case find(args, "whole") != "":
		p.Whole = true
	case find(args, "gone") != "":
		p.Gone = true
	case from == "" || to == "":
		return p, false
	default:
		var err1, err2 error
		p.From, err1 = qty.ParseLength(from)
		p.To, err2 = qty.ParseLength(to)
		if err1 != nil || err2 != nil {
			return p, false
		}
	}
	if sides := find(args, "sides"); sides != "" {
		p.Sides = strings.Split(sides, ", ")
	}
	return p, true
}

// where says a place with its zone; a zone not given is the one that it lies wholly in.
func (s *speaker) where(p kit.Place, zone string) string {
	if zone == "" || s.k.Part(zone) != nil {
		zone = s.zoneAt(p)
	}
	if z := s.k.Zone(zone); z != nil && !s.Has("zone."+zone) {
		zone = z.Words
	}
	return s.Place(p, s.part(p.Part), zone)
}

// zoneAt gives the zone in which a place along the piece lies wholly, or "".
func (s *speaker) zoneAt(p kit.Place) string {
	if s.o.Doubt == nil || p.Part != "" || p.Whole || p.To == 0 {
		return ""
	}
	return s.o.Doubt.ZoneAt(p)
}

// placed turns a place of the explanation into one of the record.
func placed(p decide.Place) kit.Place { return kit.Place{Part: p.Part, From: p.From, To: p.To} }

// bound gives the sentence of a rule that sets a day, or that would if the day
// it counts from were known.
func (s *speaker) bound(b *criteria.Bound) string {
	key := b.Key
	switch {
	case b.Known || key == "life.none" || key == "interval.none" || key == "interval.occasion":
	case strings.HasPrefix(key, "life."):
		return s.Say("life.waits")
	default:
		key = "interval.never-examined"
	}
	out := s.Say(key, append(s.args(b.Args), arg{Name: "what", Value: b.Words})...)
	if said := s.startSaid(find(b.Args, "from")); b.Known && find(b.Args, "start") != "" && said.Known() && !said.Exact() {
		out += " " + s.Say("start-taken", arg{Name: "said", Value: said.Words()})
	}
	return out
}

// startSaid gives the date on record that a rule counts from.
func (s *speaker) startSaid(from string) qty.PartialDate {
	switch p := &s.r.Piece; from {
	case "made":
		return p.Made
	case "first use":
		return p.FirstUse
	case "bought":
		return p.Bought
	case "declared":
		return p.Declared
	}
	return qty.PartialDate{}
}

// change gives the sentence of something that would change the outcome.
func (s *speaker) change(c *decide.Change) string {
	args := append(s.args(c.Args), arg{Name: "verdict", Value: s.verdict(c.Verdict)})
	key := c.Key
	switch key {
	case "change.question":
		args = append(args, arg{Name: "do", Value: s.todo(find(c.Args, "question"), find(c.Args, "to"), find(c.Args, "asked"))})
		if c.Verdict >= s.o.Verdict {
			key = "change.still"
		}
	case "change.cause":
		for i := range s.o.Told.Signs {
			if x := &s.o.Told.Signs[i]; x.Ref == find(c.Args, "ref") {
				args = append(args, arg{Name: "where", Value: s.where(x.At, x.Zone)})
				break
			}
		}
	}
	return s.Say(key, args...)
}

// unsaid names facts of use, which come apart by commas.
func (s *speaker) unsaid(facts string) string {
	if facts == "" {
		return ""
	}
	var list []string
	for _, f := range strings.Split(facts, ", ") {
		if f == "use" {
			return s.Say("unsaid.use")
		}
		list = append(list, s.Say("unsaid."+f))
	}
	return s.List(list)
}

// assumed says what a fact that is not on record was taken as.
func (s *speaker) assumed(fact string) string {
	c, value := &s.t.Rules.Cautious, ""
	switch fact {
	case "length":
		value = s.k.Length.String()
	case "hours":
		value = c.Week.String()
	case "mass":
		value = c.Mass.String()
	case "weekdays":
		value = c.Day.String()
	case "dirt", "hardware":
		levels := s.t.Dirt
		if fact == "hardware" {
			levels = s.t.Hardware
		}
		worst := 0.0
		for i := range levels {
			if value == "" || levels[i].Z > worst {
				worst, value = levels[i].Z, levels[i].Words
			}
		}
	}
	return s.Say("assumed."+fact, arg{Name: "value", Value: value})
}

// cite gives the lines that something rests on, each with its source, short,
// and how it is known. Lines of one source and mark stand together.
func (s *speaker) cite(ids []string) string {
	type group struct{ ids, source string }
	var groups []group
	for _, id := range ids {
		source := s.source(id)
		found := false
		for i := range groups {
			if groups[i].source == source {
				groups[i].ids += ", " + id
				found = true
			}
		}
		if !found {
			groups = append(groups, group{id, source})
		}
	}
	list := make([]string, len(groups))
	for i, g := range groups {
		list[i] = s.Say("cite", arg{Name: "id", Value: g.ids}, arg{Name: "source", Value: g.source})
	}
	return strings.Join(list, "; ")
}

// longest is how many letters a source may have beside a reason.
const longest = 48

// source gives the source of a line, short, with its mark.
func (s *speaker) source(id string) string {
	l := s.t.Line(id)
	if l == nil {
		return "“" + id + "”"
	}
	source, _, _ := strings.Cut(l.Source, ";")
	if len([]rune(source)) > longest {
		source, _, _ = strings.Cut(source, ",")
	}
	return s.Say("cite.mark", arg{Name: "source", Value: source}, arg{Name: "mark", Value: s.name("mark", l.Mark, l.Mark)})
}
