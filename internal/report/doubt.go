package report

import (
	"strings"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
)

// doubt writes the figure, what each look did, and where the doubt sits.
func (x *text) doubt() {
	x.title(x.Say("title.doubt"))
	d := x.o.Doubt
	if d == nil {
		x.para(x.noDoubt())
		return
	}
	x.para(x.figure())
	x.para(x.Say("doubt.hidden", arg{Name: "doubt", Value: number(d.Millions)}, arg{Name: "limit", Value: number(d.Limit)}, arg{Name: "hidden", Value: number(d.HiddenUp)}))
	if x.full {
		x.para(x.Say("doubt.more", arg{Name: "wear", Value: number(num.CeilMillionths(d.Wear))}, arg{Name: "whole", Value: number(num.CeilMillionths(d.Whole))}))
	}
	x.drops()
	x.places()
}

func (s *speaker) noDoubt() string { return s.Say("no-doubt." + dashed(s.o.NoDoubt)) }

// looser says that the yard's limit of doubt is looser than the tables' own.
func (s *speaker) looser() string {
	l := s.o.Limit
	say := s.Say("limit.looser", arg{Name: "limit", Value: number(num.OneIn(l.Holds))}, arg{Name: "default", Value: number(num.OneIn(l.Default))})
	if d := s.o.Doubt; d != nil && d.Millions > l.Default && d.Millions <= l.Holds {
		say += " " + s.Say("limit.beyond")
	}
	return say
}

// figure gives the doubt beside its limit, and what it means.
func (s *speaker) figure() string {
	d := s.o.Doubt
	pieces := "doubt.pieces"
	switch d.OneIn {
	case 0:
		pieces = "doubt.none"
	case 1:
		pieces = "doubt.most"
		if d.Millions >= num.Whole {
			pieces = "doubt.certain"
		}
	}
	return s.Say("doubt.figure", arg{Name: "chance", Value: s.chance(d.Millions)}, arg{Name: "limit", Value: number(num.OneIn(d.Limit))},
		arg{Name: "pieces", Value: s.Say(pieces, arg{Name: "n", Value: number(d.OneIn)})})
}

// count prints a whole number with its thousands apart.
func (s *speaker) count(n int64) string { return s.Say("count", arg{Name: "n", Value: number(n)}) }

// chance prints whole millionths as "1 in N".
func (s *speaker) chance(millionths int64) string {
	return s.Say("chance", arg{Name: "n", Value: number(num.OneIn(millionths))})
}

// drops writes the fall of the doubt look by look. The changes are differences
// of the figures printed beside them, so that they add up.
func (x *text) drops() {
	told := x.o.Told
	if told == nil || len(told.Drops) == 0 {
		return
	}
	title := "title.drops"
	if x.o.ExamDay != x.o.AsOf {
		title = "title.drops-then"
	}
	x.under(x.Say(title, arg{Name: "day", Value: x.o.ExamDay.String()}, arg{Name: "as-of", Value: x.o.AsOf.String()}, arg{Name: "doubt", Value: number(x.o.Doubt.Millions)}))
	rows := [][]string{
		{x.Say("drops.look"), x.Say("drops.change"), x.Say("drops.doubt")},
		{x.Say("drops.before"), "", x.count(told.Before)},
	}
	sum := int64(0)
	for i := range told.Drops {
		d := &told.Drops[i]
		sum += d.By
		rows = append(rows, []string{x.look(d.Look), x.fall(d.By), x.count(d.After)})
	}
	rows = append(rows, []string{x.Say("drops.together"), x.fall(sum), x.count(told.Before - sum)})
	x.table(rows)
}

// fall prints the change of one look: a drop with a minus, a rise with a plus.
func (s *speaker) fall(by int64) string {
	switch {
	case by < 0:
		return s.Say("drops.rise", arg{Name: "n", Value: number(-by)})
	case by == 0:
		return s.Say("drops.under-one")
	}
	return s.count(-by)
}

// blocks are eight heights; the first is for what is there but small.
var blocks = []rune("▁▂▃▄▅▆▇█")

// block gives the height of a share of the tallest; a dot is none.
func block(d, tallest float64) rune {
	if d <= 0 || tallest <= 0 {
		return '·'
	}
	return blocks[max(0, min(len(blocks)-1, int(d/tallest*float64(len(blocks)))))]
}

// places writes where the doubt sits: the worst stretch, and a strip along the
// piece with its ends, or its parts one by one.
func (x *text) places() {
	d := x.o.Doubt
	if len(d.Cells) == 0 {
		return
	}
	if x.o.Told != nil {
		w := placed(x.o.Told.Worst)
		x.para(x.Say("where.worst", arg{Name: "where", Value: x.where(w, "")}, arg{Name: "n", Value: number(x.worst())}))
	}
	if s := x.strip(); s != "" {
		x.para(s)
		if x.full {
			x.cells(len(d.Cells))
		}
		return
	}
	n := 3
	if x.full {
		n = len(d.Cells)
	}
	x.cells(n)
}

// worst gives the doubt that a look can still find at the worst place, in whole
// millionths: the sum over its cells.
func (s *speaker) worst() int64 {
	w, sum := &s.o.Told.Worst, 0.0
	for i := range s.o.Doubt.Cells {
		if c := &s.o.Doubt.Cells[i]; c.Part == w.Part && (c.Part != "" || c.From < w.To && c.To > w.From) {
			sum += c.Findable
		}
	}
	return num.CeilMillionths(min(1, sum))
}

// strip draws the doubt along the piece, with its ends, and gives its scale; ""
// where it has no length, or there is no room. Cells are put together where there are more than fit.
func (x *text) strip() string {
	if x.room <= 0 {
		return ""
	}
	var along []*decide.Cell
	var ends [2]float64
	hasEnd := [2]bool{}
	tallest := 0.0
	var at *decide.Cell
	for i := range x.o.Doubt.Cells {
		c := &x.o.Doubt.Cells[i]
		if c.D > tallest {
			tallest, at = c.D, c
		}
		if c.Part == "" {
			along = append(along, c)
		} else if p := x.k.Part(c.Part); p != nil && p.End != "" {
			e := int(p.End[0] - 'A')
			ends[e], hasEnd[e] = c.D, true
		}
	}
	if len(along) == 0 || at == nil {
		return ""
	}
	room := max(10, x.room)
	each := (len(along) + room - 1) / room
	var b strings.Builder
	if hasEnd[0] {
		b.WriteRune(block(ends[0], tallest))
		b.WriteString("│")
	}
	for i := 0; i < len(along); i += each {
		top := 0.0
		for _, c := range along[i:min(i+each, len(along))] {
			top = max(top, c.D)
		}
		b.WriteRune(block(top, tallest))
	}
	if hasEnd[1] {
		b.WriteString("│")
		b.WriteRune(block(ends[1], tallest))
	}
	length := qty.Length(0)
	for _, c := range along[:min(each, len(along))] {
		length += c.To - c.From
	}
	return x.Say("where.strip", arg{Name: "strip", Value: b.String()}, arg{Name: "length", Value: length.String()}, arg{Name: "n", Value: number(at.Millions)})
}

// cells writes the n places with the most doubt, worst first, or all in their
// order along the piece.
func (x *text) cells(n int) {
	all := x.o.Doubt.Cells
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
		for k := i; n < len(all) && k > 0 && all[order[k]].D > all[order[k-1]].D; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	rows := [][]string{{x.Say("where.place"), x.Say("where.doubt"), x.Say("where.hidden")}}
	for _, i := range order[:min(n, len(order))] {
		c := &all[i]
		rows = append(rows, []string{x.where(placed(decide.Place{Part: c.Part, From: c.From, To: c.To}), ""), x.count(c.Millions), x.count(c.HiddenUp)})
	}
	x.table(rows)
}
