package draw

import (
	"cmp"
	"slices"
	"strconv"

	"kernbook/internal/core/qty"
)

// reasons lists why, for an outcome without a doubt figure, from y down. It
// gives the y below.
func (sh *sheet) reasons(y float64) float64 {
	sh.s.Open(Group{Title: sh.say("why-title")})
	defer sh.s.Close()
	sh.section(y, sh.say("why-title"))
	y += 46
	low, deep := 900.0, 3
	if sh.narrow {
		low, deep = 1e6, 9
	}
	for _, l := range wrap(sh.say("no-doubt", "why", sh.o.NoDoubt), normal, false, sh.right-sh.left, deep) {
		sh.text(sh.left, y, l, Type{Size: normal, Colour: Soft}, sh.right-sh.left+1)
		y += 18
	}
	y += 8
	for i, text := range sh.w.Reasons {
		lines := wrap(text, normal, false, sh.right-sh.left-34, deep)
		if y+18*float64(len(lines)) > low {
			sh.text(sh.left+34, y, sh.say("more", "n", strconv.Itoa(len(sh.w.Reasons)-i)), Type{Size: normal, Colour: Ink}, sh.right-sh.left-34)
			y += 24
			break
		}
		sh.text(sh.left+22, y, strconv.Itoa(i+1), Type{Size: normal, Bold: true, Anchor: End, Colour: Ink}, 22)
		for _, l := range lines {
			sh.text(sh.left+34, y, l, Type{Size: normal, Colour: Ink}, sh.right-sh.left-33)
			y += 18
		}
		y += 6
	}
	return y + 20
}

// life draws one bar of time: made, first use, the day judged for, the next
// examination, the end of life. It gives the y below.
func (sh *sheet) life(y float64) float64 {
	due, end := sh.say("no-date"), sh.say("no-date")
	if sh.o.Due.Known {
		due = sh.date(sh.o.Due.Day)
	}
	if sh.o.LifeEnd.Known {
		end = sh.date(sh.o.LifeEnd.Day)
	}
	sh.s.Open(Group{Title: sh.say("time-title"), Desc: sh.say("time-desc", "day", sh.o.AsOf.String(), "life", end, "due", due)})
	defer sh.s.Close()
	sh.section(y, sh.say("time-title"))
	type day struct {
		label string
		at    qty.Day
		today bool
	}
	days := []day{{sh.say("judged", "day", sh.o.AsOf.String()), sh.o.AsOf, true}}
	if p := sh.r.Piece.Made; p.Known() {
		days = append(days, day{sh.say("made", "day", p.String()), p.Earliest(), false})
	}
	if p := sh.r.Piece.FirstUse; p.Known() {
		days = append(days, day{sh.say("first-use", "day", p.String()), p.Earliest(), false})
	}
	if sh.o.Due.Known {
		days = append(days, day{sh.say("due", "day", sh.o.Due.Day.String()), sh.o.Due.Day, false})
	}
	if sh.o.LifeEnd.Known {
		days = append(days, day{sh.say("life-end", "day", sh.o.LifeEnd.Day.String()), sh.o.LifeEnd.Day, false})
	}
	t := times{from: sh.o.AsOf, to: sh.o.AsOf, x0: 110, x1: 790}
	if sh.narrow {
		t.x0, t.x1 = sh.left+20, sh.right-20
	}
	for _, d := range days {
		t.from, t.to = min(t.from, d.at), max(t.to, d.at)
	}
	t.from, t.to = max(t.from-30, qty.FirstDay), min(t.to+30, qty.LastDay)
	now := t.at(sh.o.AsOf)
	// Each label has a row of its own: those that run to the left stand
	// highest, the others the higher the earlier their day.
	width := func(d day) float64 { return width(d.label, normal, d.today) }
	toLeft := func(d day) bool { return t.at(d.at)+width(d)+6 > sh.right && 2*t.at(d.at) > sh.left+sh.right }
	slices.SortStableFunc(days, func(a, b day) int {
		if l := toLeft(a); l != toLeft(b) {
			if l {
				return 1
			}
			return -1
		}
		return cmp.Compare(b.at, a.at)
	})
	bar := y + 58 + 20*float64(len(days))
	row := func(i int) float64 { return bar - 20 - 20*float64(i) }
	first, last := t.x1, t.x0
	for _, d := range days {
		first, last = min(first, t.at(d.at)), max(last, t.at(d.at))
	}
	sh.s.Rect(first, bar-7, last-first, 14, Paint{Fill: Paper, Stroke: Stroke{Colour: Ink, Width: 1.2}})
	sh.s.Rect(first, bar-7, now-first, 14, Paint{Fill: Doubt})
	for i, d := range days {
		w := 1.3
		if d.today {
			w = 3
		}
		sh.s.Line(t.at(d.at), row(i)-5, t.at(d.at), bar+9, Stroke{Colour: Ink, Width: w})
	}
	for i, d := range days {
		x, style := t.at(d.at)+6, Type{Size: normal, Bold: d.today, Colour: Ink}
		most := sh.right - x
		if toLeft(d) {
			x, style.Anchor = x-12, End
			most = x - sh.left
		}
		sh.over(x, row(i)+4, d.label, style, most)
	}
	t.draw(sh, bar+22)
	return bar + 60
}
