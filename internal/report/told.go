package report

import (
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// told writes the explanation: signs, which look next, what it leaned on, what
// would change the outcome, and what to keep in mind.
func (x *text) told() {
	told := x.o.Told
	if told == nil {
		return
	}
	x.signs()
	x.gains()
	x.changes()
	x.section("title.assumed", told.Assumed, x.assumed)
	x.leaned()
	if x.full {
		x.checked()
		x.line()
		x.ahead()
	}
	x.cautions()
}

// section writes a list under a title, if there is anything on it.
func (x *text) section(title string, list []string, say func(string) string) {
	if len(list) == 0 {
		return
	}
	x.title(x.Say(title))
	for _, s := range list {
		x.item(say(s))
	}
}

// signs writes the signs on record with the shares of what can have shown them;
// in short, only those that are weighed.
func (x *text) signs() {
	titled := false
	for i := range x.o.Told.Signs {
		s := &x.o.Told.Signs[i]
		if !x.full && (s.Class == table.Absolute || s.Class == table.Aside) {
			continue // no share of harmless causes speaks against these
		}
		if !titled {
			x.title(x.Say("title.signs"))
			titled = true
		}
		x.item(x.onRecord(s))
		if shares := x.shares(s, x.full); shares != "" {
			x.note(shares)
		}
	}
}

// onRecord gives the sentence of a sign on record.
func (s *speaker) onRecord(g *decide.Sign) string {
	args := []arg{{Name: "sign", Value: s.sign(g.ID)}, {Name: "where", Value: s.where(g.At, g.Zone)}, {Name: "day", Value: g.Day.String()},
		{Name: "ref", Value: g.Ref}, {Name: "why", Value: s.share(g.Why, true)}}
	if g.State != "first seen" {
		args = append(args, arg{Name: "state", Value: string(g.State)})
	}
	if g.Answered {
		args = append(args, arg{Name: "answer", Value: s.cause(g.AnswerOf)})
	}
	return s.Say("sign.on-record", args...)
}

// shares says what can have shown a sign, most likely first: all of it, or what
// has one part in a hundred.
func (s *speaker) shares(g *decide.Sign, all bool) string {
	list := slices.Clone(g.Shares)
	slices.SortStableFunc(list, func(a, b decide.Share) int {
		switch {
		case a.P > b.P:
			return -1
		case a.P < b.P:
			return 1
		}
		return strings.Compare(a.What+a.ID, b.What+b.ID)
	})
	var out []string
	for _, sh := range list {
		if sh.P > 0 && (all || sh.P >= 0.01) {
			out = append(out, s.Say("sign.share", arg{Name: "what", Value: s.origin(sh)}, arg{Name: "p", Value: s.share(sh.P, false)}))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return s.Say("sign.shares", arg{Name: "shares", Value: strings.Join(out, "; ")})
}

// origin names what can have shown a sign.
func (s *speaker) origin(sh decide.Share) string {
	switch sh.What {
	case "cause":
		return s.cause(sh.ID)
	case "leak":
		return s.Say("sign.leak")
	}
	return s.Say("sign.damage", arg{Name: "mode", Value: s.mode(sh.ID)})
}

// gains writes which look to make next and what it is worth.
func (x *text) gains() {
	all := x.o.Told.Gains
	if len(all) == 0 {
		return
	}
	x.title(x.Say("title.gains"))
	if x.full {
		for i := range all {
			x.item(x.gain(&all[i]))
		}
		return
	}
	if all[0].Worth > 0 {
		x.para(x.gain(&all[0]))
		return
	}
	x.para(x.Say("gain.none-worth"))
}

func (s *speaker) gain(g *decide.Gain) string {
	key := "gain.worth"
	if g.Worth <= 0 {
		key = "gain.not-worth"
	}
	return s.Say(key, arg{Name: "look", Value: s.look(g.Look)}, arg{Name: "minutes", Value: decimal(g.Minutes)},
		arg{Name: "where", Value: s.where(placed(g.At), "")}, arg{Name: "after", Value: s.chance(g.After)}, arg{Name: "worth", Value: s.share(g.Worth, true)})
}

// changes writes what would change the outcome; what would not is told only in
// full. Of the looks that are left, the doubt after them says more than their
// question.
func (x *text) changes() {
	var list []string
	for i := range x.o.Told.Changes {
		c := &x.o.Told.Changes[i]
		if find(c.Args, "to") == criteria.QLook && find(c.Args, "question") == criteria.QLook {
			continue
		}
		if x.full || c.Verdict < x.o.Verdict {
			list = append(list, x.change(c))
		}
	}
	if x.gone { // nothing brings it back
		list = nil
	}
	x.section("title.changes", list, func(s string) string { return s })
}

func (x *text) checked() {
	c := x.o.Told.Checked
	if c == nil {
		return
	}
	x.title(x.Say("title.checked"))
	x.para(x.Say("checked", arg{Name: "method", Value: c.Method}, arg{Name: "difference", Value: decimal(c.Difference)}))
}

// line writes the doubt over time.
func (x *text) line() {
	if len(x.o.Told.Line) == 0 {
		return
	}
	x.title(x.Say("title.line"))
	rows := [][]string{{x.Say("line.day"), x.Say("where.doubt"), x.Say("line.hidden"), x.Say("line.mark")}}
	for i := range x.o.Told.Line {
		p := &x.o.Told.Line[i]
		mark := ""
		switch {
		case p.Mark == "event":
			mark = x.Say("line.event")
		case p.Mark != "":
			mark = x.Say("exam." + p.Mark)
		}
		rows = append(rows, []string{p.Day.Words(), x.count(p.D), x.count(p.Hidden), mark})
	}
	x.table(rows)
}

// ahead writes the forecasts week by week.
func (x *text) ahead() {
	with, without := x.o.Told.With, x.o.Told.Without
	if len(with)+len(without) == 0 {
		return
	}
	x.title(x.Say("title.ahead"))
	rows := [][]string{{x.Say("line.day"), x.Say("ahead.with"), x.Say("ahead.without")}}
	for len(with)+len(without) > 0 {
		var day qty.Day
		if len(without) == 0 || len(with) > 0 && with[0].Day < without[0].Day {
			day = with[0].Day
		} else {
			day = without[0].Day
		}
		next := func(way *[]decide.Point) string {
			if len(*way) == 0 || (*way)[0].Day != day {
				return ""
			}
			p := (*way)[0]
			*way = (*way)[1:]
			return x.count(p.D)
		}
		rows = append(rows, []string{day.Words(), next(&with), next(&without)})
	}
	x.table(rows)
}

// cautions writes what to keep in mind: in short that it advises, that its maker
// and the law come first, and the few that go with the reasons.
func (x *text) cautions() {
	ids := slices.DeleteFunc(slices.Clone(x.o.Told.Cautions), func(id string) bool { return x.t.Line(id) == nil })
	if len(ids) == 0 {
		return
	}
	x.title(x.Say("title.cautions"))
	if x.full {
		for _, id := range ids {
			x.item(x.t.Line(id).Caution + " (" + id + ")")
		}
		return
	}
	first := x.leading(ids)
	for _, id := range first {
		x.item(x.t.Line(id).Caution)
	}
	if n := len(ids) - len(first); n > 0 {
		x.item(x.Say("cautions.more", arg{Name: "n", Value: strconv.Itoa(n)}))
	}
}

// always are the cautions that every short text has: what it is, and what stands
// above it.
var always = []string{"W-01", "W-02"}

// leading picks the cautions of a short text: those it always has, and at most
// three that go with the reasons, strictest reason first; where there are fewer,
// the next of the list, up to one.
func (x *text) leading(ids []string) []string {
	var picked []string
	put := func(most int, list ...string) {
		for _, id := range list {
			if len(picked) < most && slices.Contains(ids, id) && !slices.Contains(picked, id) {
				picked = append(picked, id)
			}
		}
	}
	put(len(always), always...)
	if x.o.Verdict >= kit.SetAside {
		put(len(always)+1, "W-18")
	}
	for i := range x.o.Reasons {
		group, _, _ := strings.Cut(x.o.Reasons[i].Key, ".")
		put(len(always)+3, goesWith[group]...)
	}
	put(len(always)+1, ids...)
	slices.SortFunc(picked, func(a, b string) int { return slices.Index(ids, a) - slices.Index(ids, b) })
	return picked
}

// goesWith gives the cautions that a group of reasons brings to mind.
var goesWith = map[string][]string{
	"sign":        {"W-05", "W-03"},
	"reading":     {"W-06", "W-07"},
	"wear":        {"W-07"},
	"end":         {"W-09"},
	"event":       {"W-10"},
	"ask":         {"W-10"},
	"contaminant": {"W-04"},
	"manufacture": {"W-08"},
	"declaration": {"W-08"},
	"life":        {"W-08"},
	"interval":    {"W-15", "W-16"},
	"look":        {"W-16"},
	"examination": {"W-19", "W-16"},
	"examiner":    {"W-19"},
	"assembly":    {"W-23"},
	"doubt":       {"W-04"},
}

// decimal prints a number as short as it can be.
func decimal(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }
