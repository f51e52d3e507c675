package draw

import (
	"slices"
	"strings"

	"kernbook/internal/core/decide"
)

// fall draws what each look of the examination at hand did to the doubt, from
// y down: from the level before, over a step for each look, to the
// level after, against the limit. It gives the y below.
func (sh *sheet) fall(y float64) float64 {
	told := sh.o.Told
	if told == nil || len(told.Drops) == 0 {
		none := sh.say("fall-none")
		if told == nil {
			none = sh.say("untold")
		}
		sh.s.Open(Group{Title: sh.say("fall"), Desc: none})
		sh.section(y, sh.say("fall"))
		y = sh.lines(y+50, 17, none, Type{Size: normal, Colour: Ink}, 4)
		sh.s.Close()
		return y + 9
	}
	drops := told.Drops
	if len(drops) > 12 {
		drops = drops[:12]
	}
	after := drops[len(drops)-1].After
	sh.s.Open(Group{Title: sh.say("fall"), Desc: sh.fallDesc(drops)})
	defer sh.s.Close()
	end := sh.section(y, sh.say("fall"))
	sh.text(end+14, y+21, sh.exam(), Type{Size: normal, Colour: Ink}, sh.right-end-14)
	sh.text(sh.left, y+39, sh.say("fall-note", "before", digits(told.Before), "after", digits(after)), Type{Size: small, Colour: Soft}, sh.right-sh.left)

	top, bottom := y+74, y+182
	levels := []int64{told.Before, sh.o.Doubt.Limit, sh.o.Doubt.HiddenUp}
	for _, d := range drops {
		levels = append(levels, d.After)
	}
	scale := decadesFor(levels, bottom, top)
	scale.draw(sh, sh.plot0, sh.plot1)
	hidden := scale.at(sh.o.Doubt.HiddenUp)
	sh.s.Rect(sh.plot0, hidden, sh.plot1-sh.plot0, bottom-hidden, Paint{Fill: Floor})
	sh.hatch(box(sh.plot0, hidden, sh.plot1-sh.plot0, bottom-hidden), 7, Stroke{Colour: Rule, Width: 1})
	sh.s.Line(sh.plot0, hidden, sh.plot1, hidden, Stroke{Colour: Ink, Width: 1})
	sh.s.Line(sh.plot0, bottom, sh.plot1, bottom, Stroke{Colour: Ink, Width: 1})
	sh.fence(sh.plot0, sh.plot1, scale.at(sh.o.Doubt.Limit))
	sh.steps(&scale, told.Before, drops)
	sh.readFall(&scale, after)
	return bottom + 36
}

// fallDesc tells the fall to those who cannot see it.
func (sh *sheet) fallDesc(drops []decide.Drop) string {
	var steps []string
	for _, d := range drops {
		steps = append(steps, sh.say("fall-step", "look", sh.w.Name("look", string(d.Look)), "by", sh.by(d.By)))
	}
	return sh.say("fall-desc", "before", digits(sh.o.Told.Before), "after", digits(drops[len(drops)-1].After), "steps", strings.Join(steps, ", "))
}

// steps draws the columns: before, one for each look, after.
func (sh *sheet) steps(scale *decades, before int64, drops []decide.Drop) {
	n := len(drops) + 2
	column := (sh.plot1 - sh.plot0) / float64(n)
	w := min(column*0.6, 34)
	at := func(i int) float64 { return sh.plot0 + float64(column*(float64(i)+0.5)) }
	name := func(i int, text string, bold bool) {
		sh.text(at(i), scale.bottom+17, text, Type{Size: small, Bold: bold, Anchor: Middle, Colour: Ink}, column-4)
	}
	fence := scale.at(sh.o.Doubt.Limit)
	type box struct{ left, right, y float64 }
	var placed []box // the figures so far
	figure := func(i int, up, down float64, text string, bold bool) {
		y, out := max(up, scale.top)-6, -15.0
		if y > fence-9 && y-small < fence && down+20 < scale.bottom { // keeps the limit free
			y, out = down+15, 15
		}
		half := width(text, small, bold) / 2
		b := box{at(i) - half - 4, at(i) + half, y}
		taken := func(p box) bool { return b.left < p.right && p.left < b.right && b.y-p.y < 13 && p.y-b.y < 13 }
		for slices.ContainsFunc(placed, taken) {
			b.y += out
		}
		placed, y = append(placed, b), b.y
		sh.over(at(i), y, text, Type{Size: small, Bold: bold, Anchor: Middle, Colour: Ink}, 2*column-8)
	}
	level := Stroke{Colour: Doubt, Width: 3}
	from := before
	name(0, sh.say("before"), true)
	y := scale.at(before)
	sh.s.Line(at(0)-w/2, y, at(0)+w/2, y, level)
	figure(0, y, y, sh.count(before), true)
	for i, d := range drops {
		y0, y1 := scale.at(from), scale.at(d.After)
		sh.s.Line(at(i)+w/2, y0, at(i+1)-w/2, y0, Stroke{Colour: Doubt, Width: 1})
		up, down := min(y0, y1), max(y0, y1)
		switch {
		case down-up < 2: // nothing to see: a level
			sh.s.Line(at(i+1)-w/2, y0, at(i+1)+w/2, y0, level)
		case d.By >= 0: // a fall: an open box, heavy at its lower edge
			sh.s.Rect(at(i+1)-w/2, up, w, down-up, Paint{Fill: Paper, Stroke: Stroke{Colour: Doubt, Width: 1.6}})
			sh.s.Line(at(i+1)-w/2, down, at(i+1)+w/2, down, level)
		default: // a rise: a full box
			sh.s.Rect(at(i+1)-w/2, up, w, down-up, Paint{Fill: Doubt})
		}
		figure(i+1, up, down, sh.by(d.By), false)
		name(i+1, sh.w.Name("look", string(d.Look)), false)
		from = d.After
	}
	y = scale.at(from)
	sh.s.Line(at(n-2)+w/2, y, at(n-1)-w/2, y, Stroke{Colour: Doubt, Width: 1})
	sh.s.Line(at(n-1)-w/2, y, at(n-1)+w/2, y, level)
	figure(n-1, y, y, sh.count(from), true)
	name(n-1, sh.say("after"), true)
}

// readFall reads the limit and the level after off at the right edge.
func (sh *sheet) readFall(scale *decades, after int64) {
	d := sh.o.Doubt
	at := []float64{scale.at(d.Limit), scale.at(after), scale.at(d.HiddenUp)}
	if after >= d.Limit && at[1] >= at[0] {
		at[0] += 0.01
	}
	places := spread(at, 17, scale.top+4, scale.bottom)
	for i, text := range []string{sh.limitAt(), sh.say("after-at", "n", oneInOf(after)), sh.hiddenAt()} {
		sh.s.Polyline([]Point{{sh.plot1, at[i]}, {sh.plot1 + 8, places[i]}, {sh.plot1 + 12, places[i]}}, Stroke{Colour: Ink, Width: 0.8})
		sh.text(sh.plot1+15, places[i]+4.5, text, Type{Size: small, Bold: i == 1, Colour: Ink}, sh.right-sh.plot1-15)
	}
}

// by says what a look did, in whole millionths: a fall has a minus.
func (sh *sheet) by(by int64) string {
	switch {
	case by == 0:
		return sh.shared("drops.under-one")
	case by < 0:
		return sh.shared("drops.rise", "n", digits(-by))
	}
	return sh.count(-by)
}
