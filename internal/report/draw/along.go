package draw

import (
	"strconv"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// stretchOf is a piece laid along the sheet.
type stretchOf struct {
	lo, hi qty.Length
	x0, x1 float64
	endW   float64 // width of each end
}

func (a stretchOf) at(l qty.Length) float64 {
	share := float64(l-a.lo) / float64(a.hi-a.lo)
	return a.x0 + float64(min(max(share, 0), 1)*(a.x1-a.x0))
}

const low = 1164.0 // lower edge of what is drawn on a wide sheet

// along draws where the doubt sits, from y down to the foot: along a piece that
// has a length, else part by part. It gives the y below.
func (sh *sheet) along(y float64) float64 {
	var cells, parts []decide.Cell
	a := stretchOf{endW: sh.endW, lo: 1 << 50, hi: -1 << 50}
	for _, c := range sh.o.Doubt.Cells {
		if c.Part != "" {
			parts = append(parts, c)
			continue
		}
		if c.To > c.From && (len(cells) == 0 || c.From >= cells[len(cells)-1].To) {
			cells = append(cells, c)
			a.lo, a.hi = min(a.lo, c.From), max(a.hi, c.To)
		}
	}
	title := sh.say("parts")
	if len(cells) > 0 {
		title = sh.say("along")
	}
	sh.s.Open(Group{Title: title, Desc: sh.alongDesc(a.hi)})
	defer sh.s.Close()
	end := sh.section(y, title)
	d := sh.o.Doubt
	note := sh.say("per-part")
	if len(cells) > 0 {
		note = sh.say("per-cell", "length", sh.length(cells[0].To-cells[0].From, a.hi-a.lo))
	}
	note += " " + sh.say("whole", "n", digits(ceil(d.Whole)))
	if sh.narrow {
		y = sh.lines(y+41, 16, note, Type{Size: small, Colour: Soft}, 4)
		y = sh.flow(y+4, []sample{{sh.say("findable"), false, func(x, y float64) { sh.s.Rect(x+2, y-6, 16, 12, Paint{Fill: Doubt}) }}, sh.hiddenSample(sh.say("hidden-key"))})
		if len(cells) == 0 {
			return sh.signsNarrow(sh.listNarrow(parts, y-10), a.hi)
		}
		a.x0, a.x1 = sh.axis+sh.endW+8, sh.right-sh.endW-8
		return sh.signsNarrow(sh.rope(a, cells, parts, y+6), a.hi)
	}
	sh.alongKey(y+21, end+24)
	sh.text(sh.left, y+39, note, Type{Size: small, Colour: Soft}, sh.right-sh.left)
	y += 54
	if len(cells) > 0 {
		a.x0, a.x1 = sh.axis+sh.endW+8, sh.right-sh.endW-8
		y = sh.rope(a, cells, parts, y)
	} else {
		y = sh.list(parts, y)
	}
	sh.signs(y, a.hi)
	return min(low, y+float64(18*max(1, len(sh.signsTold()))))
}

// alongDesc says where most doubt sits, for those who cannot see it.
func (sh *sheet) alongDesc(whole qty.Length) string {
	var most decide.Cell
	for _, c := range sh.o.Doubt.Cells {
		if c.Millions > most.Millions {
			most = c
		}
	}
	at := decide.Place{Part: most.Part, From: most.From, To: most.To}
	signs := ""
	if t := sh.o.Told; t != nil {
		at, signs = t.Worst, strconv.Itoa(len(t.Signs))
	}
	place := sh.place(kit.Place{Part: at.Part, From: at.From, To: at.To}, whole)
	return sh.say("along-desc", "place", place, "share", oneInOf(most.Millions), "signs", signs)
}

// alongKey tells the two parts of a bar.
func (sh *sheet) alongKey(y, from float64) {
	x := sh.right
	for i, label := range [...]string{sh.say("hidden-key"), sh.say("findable")} {
		w := width(label, small, false)
		if x-w-26 < from {
			return
		}
		sh.text(x, y, label, Type{Size: small, Anchor: End, Colour: Ink}, w+1)
		if i == 0 {
			sh.unknown(x-w-24, y-10, 16, 12)
		} else {
			sh.s.Rect(x-w-24, y-10, 16, 12, Paint{Fill: Doubt})
		}
		x -= w + 40
	}
}

// rope draws the piece itself, to scale, with its bars, signs, zones and where
// the looks went. It gives the y below.
func (sh *sheet) rope(a stretchOf, cells, parts []decide.Cell, y float64) float64 {
	// What the list of signs leaves free goes to the bars.
	listed := 18 * float64(max(1, min(len(sh.signsTold()), 4)))
	high := min(max(low-y-189-listed, 60), 200)
	if sh.narrow {
		high = 130
	}
	top := y + 18
	bottom := top + high
	most := 0.0
	for _, c := range append(append([]decide.Cell(nil), cells...), parts...) {
		most = max(most, share(c.D))
	}
	bar := func(v float64) float64 {
		if most <= 0 {
			return bottom
		}
		return bottom - float64(share(v)/most*high)
	}
	sh.linear(most, top, bottom)
	sh.bars(a, cells, bar, bottom)
	for _, c := range parts {
		if x, ok := endX(a, &c); ok {
			sh.bar(x+4, sh.endW-8, bar(c.D), bar(floor(&c)), bottom)
		}
	}
	sh.worst(a, top)
	y = bottom
	sh.body(a, parts, y)
	y += 16
	y = sh.tags(a, y)
	y = sh.ruler(a, y)
	y = sh.zones(a, cells, parts, y)
	return sh.covered(a, y)
}

// endX gives where a part that is an end of the piece stands.
func endX(a stretchOf, c *decide.Cell) (float64, bool) {
	switch {
	case c.From != c.To:
	case c.From <= a.lo:
		return a.x0 - 8 - a.endW, true
	case c.From >= a.hi:
		return a.x1 + 8, true
	}
	return 0, false
}

// linear draws the scale of the bars, in whole millionths.
func (sh *sheet) linear(most, top, bottom float64) {
	ppm := int64(most * 1e6)
	step := niceStep(max(ppm, 1), 3)
	for v := int64(0); v <= ppm; v += step {
		y := bottom
		if v > 0 {
			y -= float64(float64(v) / (most * 1e6) * (bottom - top))
		}
		sh.s.Line(sh.axis, y, sh.right, y, Stroke{Colour: Grid, Width: 1})
		sh.text(sh.axis-6, y+4, sh.count(v), Type{Size: small, Anchor: End, Colour: Soft}, sh.axis-6-sh.left)
	}
}

// bars draws the doubt of every cell: the hidden floor hatched, above it what a
// look can show.
func (sh *sheet) bars(a stretchOf, cells []decide.Cell, bar func(float64) float64, bottom float64) {
	whole, hidden := []Point{{a.x0, bottom}}, []Point{{a.x0, bottom}}
	for _, c := range cells {
		x0, x1 := a.at(c.From), a.at(c.To)
		if x1-x0 > 5 {
			x1-- // a gap between cells where there is room for one
		}
		put := func(to *[]Point, v float64) {
			*to = append(*to, Point{x0, bottom}, Point{x0, bar(v)}, Point{x1, bar(v)}, Point{x1, bottom})
		}
		put(&whole, c.D)
		put(&hidden, floor(&c))
	}
	sh.s.Polygon(whole, Paint{Fill: Doubt})
	sh.s.Polygon(hidden, Paint{Fill: Floor})
	sh.hatch(hidden, 6, Stroke{Colour: Rule, Width: 1})
	sh.s.Polyline(whole, Stroke{Colour: Doubt, Width: 0.8})
}

func (sh *sheet) bar(x, w, whole, floor, bottom float64) {
	sh.s.Rect(x, whole, w, bottom-whole, Paint{Fill: Doubt, Stroke: Stroke{Colour: Doubt, Width: 0.8}})
	sh.s.Rect(x, floor, w, bottom-floor, Paint{Fill: Floor})
	sh.hatch(box(x, floor, w, bottom-floor), 6, Stroke{Colour: Rule, Width: 1})
}

// worst names the place where most doubt sits, over the bars.
func (sh *sheet) worst(a stretchOf, top float64) {
	t := sh.o.Told
	if t == nil || (t.Worst.Part == "" && t.Worst.To <= t.Worst.From) {
		return
	}
	x0, x1 := a.at(t.Worst.From), a.at(t.Worst.To)
	if t.Worst.Part != "" {
		x0, x1 = a.x0-8-sh.endW, a.x0-8
		if t.Worst.From >= a.hi {
			x0, x1 = a.x1+8, sh.right
		}
	}
	y := top - 5
	sh.s.Polyline([]Point{{x0, y + 4}, {x0, y}, {x1, y}, {x1, y + 4}}, Stroke{Colour: Ink, Width: 1.6})
	label := sh.say("worst", "place", sh.place(kit.Place{Part: t.Worst.Part, From: t.Worst.From, To: t.Worst.To}, a.hi))
	label = cut(label, small, true, min(400, sh.right-sh.axis))
	half := width(label, small, true) / 2
	x := min(max((x0+x1)/2, sh.axis+half), sh.right-half)
	sh.text(x, y-6, label, Type{Size: small, Bold: true, Anchor: Middle, Colour: Ink}, 401)
}

// body draws the rope and its ends, 16 high.
func (sh *sheet) body(a stretchOf, parts []decide.Cell, y float64) {
	line := Stroke{Colour: Ink, Width: 1.3}
	sh.s.Open(Group{Clip: box(a.x0, y+3, a.x1-a.x0, 10)})
	for x := a.x0 - 10; x < a.x1; x += 9 {
		sh.s.Line(x, y+13, x+10, y+3, Stroke{Colour: Rule, Width: 1.2})
	}
	sh.s.Close()
	sh.s.Rect(a.x0, y+3, a.x1-a.x0, 10, Paint{Stroke: line})
	for i := range parts {
		if x, ok := endX(a, &parts[i]); ok {
			sh.s.Polygon([]Point{{x, y + 8}, {x + 6, y + 1}, {x + sh.endW - 6, y + 1}, {x + sh.endW, y + 8}, {x + sh.endW - 6, y + 15}, {x + 6, y + 15}}, Paint{Fill: Paper, Stroke: line})
			sh.s.Line(x+9, y+15, x+sh.endW-9, y+1, line)
			sh.s.Line(x+9, y+1, x+sh.endW-9, y+15, line)
			if x < a.x0 {
				sh.s.Line(x+sh.endW, y+8, a.x0, y+8, line)
			} else {
				sh.s.Line(a.x1, y+8, x, y+8, line)
			}
		}
	}
}

// ruler draws the lengths along the piece, with the names of its ends.
func (sh *sheet) ruler(a stretchOf, y float64) float64 {
	mm := int64(a.hi-a.lo) / 1000
	steps := int64(10)
	if sh.narrow {
		steps = 3
	}
	step := qty.Length(niceStep(max(mm, 1), steps) * 1000)
	sh.s.Line(a.x0, y+2, a.x1, y+2, Stroke{Colour: Ink, Width: 1})
	for l := a.lo; l <= a.hi; l += step {
		x := a.at(l)
		sh.s.Line(x, y+2, x, y+6, Stroke{Colour: Ink, Width: 1})
		sh.text(x, y+18, sh.length(l-a.lo, a.hi-a.lo), Type{Size: 12, Anchor: Middle, Colour: Soft}, 58)
	}
	return y + 22
}

// zones names the zones and the ends below the piece; a name that has no room
// goes to a row further down.
func (sh *sheet) zones(a stretchOf, cells, parts []decide.Cell, y float64) float64 {
	rows := [3]float64{sh.left, sh.left, sh.left}
	used := 1
	name := func(x0, x1 float64, label string) {
		sh.s.Polyline([]Point{{x0, y}, {x0, y + 4}, {x1, y + 4}, {x1, y}}, Stroke{Colour: Ink, Width: 1})
		label = cut(label, small, false, 180)
		half := width(label, small, false) / 2
		x := min(max((x0+x1)/2, sh.left+half), sh.right-half)
		for r := range rows {
			if x-half >= rows[r]+6 || rows[r] == sh.left {
				if r > 0 {
					sh.s.Line((x0+x1)/2, y+4, (x0+x1)/2, y+6+14*float64(r), Stroke{Colour: Ink, Width: 1})
				}
				sh.over(x, y+17+14*float64(r), label, Type{Size: small, Anchor: Middle, Colour: Ink}, 181)
				rows[r] = x + half
				used = max(used, r+1)
				return
			}
		}
	}
	ends := func(after bool) {
		for i := range parts {
			if x, ok := endX(a, &parts[i]); ok && (x > a.x0) == after {
				name(x+1, x+sh.endW-1, sh.w.Name("part", parts[i].Part))
			}
		}
	}
	ends(false)
	for i := 0; i < len(cells); {
		k := i
		for k+1 < len(cells) && cells[k+1].Zone == cells[i].Zone && cells[k+1].From == cells[k].To {
			k++
		}
		name(a.at(cells[i].From)+1, a.at(cells[k].To)-1, sh.w.Name("zone", cells[i].Zone))
		i = k + 1
	}
	ends(true)
	return y + 10 + 14*float64(used)
}
