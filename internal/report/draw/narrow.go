package draw

import (
	"strconv"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// A narrow sheet is for a phone: as wide as its screen, so that a unit is a
// pixel there and no text smaller than on the wide sheet, with one thing under
// the other. What stands beside the plots of the wide sheet stands above them.

// blank is a Sink that takes everything and draws nothing.
type blank struct{}

func (blank) Open(Group)                          {}
func (blank) Close()                              {}
func (blank) Line(_, _, _, _ float64, _ Stroke)   {}
func (blank) Polyline([]Point, Stroke)            {}
func (blank) Polygon([]Point, Paint)              {}
func (blank) Rect(_, _, _, _ float64, _ Paint)    {}
func (blank) Text(_, _ float64, _ string, _ Type) {}

// Narrow draws an outcome on a sheet for a phone, as Scalable Vector Graphics.
func Narrow(o *decide.Outcome, r *kit.Record, w Words) []byte {
	sh := &sheet{frame: phone, o: o, r: r, w: w}
	svg := NewSVG(sh.say("title", "piece", o.Piece, "kind", sh.kind(), "outcome", sh.verdict()), sh.say("desc", "day", o.AsOf.String()))
	high := NarrowTo(svg, o, r, w)
	return svg.Bytes(phone.wide, high, Size{phone.wide, high})
}

// NarrowTo draws the same sheet on any sink, and gives how high it came out.
func NarrowTo(s Sink, o *decide.Outcome, r *kit.Record, w Words) float64 {
	sh := &sheet{frame: phone, s: blank{}, o: o, r: r, w: w}
	high := sh.drawNarrow() // once to see how high it comes out
	s.Rect(0, 0, phone.wide, high, Paint{Fill: Paper})
	sh.s = s
	return sh.drawNarrow()
}

func (sh *sheet) drawNarrow() float64 {
	y := sh.headNarrow()
	if sh.o.Doubt == nil {
		y = sh.life(sh.reasons(y)) + 24
	} else {
		y = sh.line(y)
		y = sh.fallNarrow(y + 10)
		y = sh.along(y+10) + 24
	}
	t := Type{Size: 12, Colour: Soft}
	y = sh.lines(y, 15, sh.say("foot"), t, 3)
	tables := sh.o.Tables
	if len(tables) > 12 {
		tables = tables[:12]
	}
	return sh.lines(y, 15, sh.say("made-by", "core", sh.o.Core, "tables", tables), t, 2)
}

// lines sets a text from edge to edge in so many lines at most, each high
// units. It gives the base line of what may follow.
func (sh *sheet) lines(y, high float64, text string, t Type, most int) float64 {
	for _, l := range wrap(text, t.Size, t.Bold, sh.right-sh.left, most) {
		sh.text(sh.left, y, l, t, sh.right-sh.left+1)
		y += high
	}
	return y
}

// sample is an entry of a key: what a mark or a line means.
type sample struct {
	label string
	bold  bool
	draw  func(x, y float64) // within 22 units from x, around y
}

// flow sets a key from edge to edge, in as many lines as it takes. It gives the
// base line of what may follow.
func (sh *sheet) flow(y float64, key []sample) float64 {
	x := sh.left
	for i, s := range key {
		label := cut(s.label, small, s.bold, sh.right-sh.left-28)
		w := 26 + width(label, small, s.bold)
		if i > 0 && x+w > sh.right {
			x, y = sh.left, y+19
		}
		s.draw(x, y-4.5)
		sh.text(x+26, y, label, Type{Size: small, Bold: s.bold, Colour: Ink}, w)
		x += w + 12
	}
	return y + 19
}

func (sh *sheet) limitSample() sample {
	return sample{sh.limitAt(), false, func(x, y float64) { sh.fence(x, x+20, y+2) }}
}

func (sh *sheet) hiddenSample(label string) sample {
	return sample{label, false, func(x, y float64) { sh.unknown(x+2, y-6, 16, 12) }}
}

func (sh *sheet) nowSample(label string) sample {
	return sample{label, true, func(x, y float64) { sh.s.Line(x, y, x+20, y, Stroke{Colour: Doubt, Width: 2.4}) }}
}

// markSamples gives the marks that occur on the line.
func (sh *sheet) markSamples(points []decide.Point) (out []sample) {
	for _, kind := range markNames {
		for _, p := range points {
			if p.Mark == kind {
				out = append(out, sample{sh.w.Name("mark", kind), false, func(x, y float64) { sh.mark(kind, x+10, y) }})
				break
			}
		}
	}
	return out
}

func (sh *sheet) headNarrow() float64 {
	sh.s.Open(Group{Title: sh.outcome(), Desc: sh.main()})
	defer sh.s.Close()
	wide := sh.right - sh.left
	sh.text(sh.left, 38, sh.o.Piece, Type{Size: 22, Bold: true, Colour: Ink}, wide)
	sh.text(sh.left, 60, sh.kind(), Type{Size: 15, Colour: Ink}, wide)
	exam := sh.shared("look.no-examination")
	if sh.o.Exam != "" {
		exam = sh.exam()
	}
	sh.text(sh.left, 80, sh.say("judged", "day", sh.o.AsOf.String()), Type{Size: normal, Colour: Ink}, wide)
	y := sh.lines(97, 17, exam, Type{Size: normal, Colour: Soft}, 2)
	y = sh.plateNarrow(y - 3)
	all := sh.figures()
	for i, r := range all {
		x, most := sh.left, wide/2-10
		if i%2 == 1 {
			x += wide / 2
		}
		sh.text(x, y+22, r.label, Type{Size: small, Colour: Soft}, most)
		size := 18.0
		if width(r.value, size, true) > most {
			size = 15
		}
		sh.text(x, y+43, r.value, Type{Size: size, Bold: true, Colour: Ink}, most)
		for n, l := range wrap(r.sub, 12, false, most, 2) {
			sh.text(x, y+59+14*float64(n), l, Type{Size: 12, Colour: Soft}, most+1)
		}
		if i%2 == 1 || i == len(all)-1 {
			y += 76
		}
	}
	return y + 16
}

// plateNarrow draws the outcome with the main reason in full, as high as it is.
func (sh *sheet) plateNarrow(y float64) float64 {
	const pad, big = 22.0, 27.0
	wide := sh.right - sh.left
	reason := wrap(sh.main(), 15, false, wide-2*pad, 8)
	note := ""
	if n := len(sh.w.Reasons); n > 1 {
		note = sh.say("reasons", "n", strconv.Itoa(n))
	}
	h := 72 + 19*float64(len(reason))
	if note != "" {
		h += 19
	}
	ink, ground := sh.plateFrame(y, h)
	sh.text(sh.left+pad, y+46, sh.outcome(), Type{Size: big, Bold: true, Colour: ink, Ground: ground}, wide-2*pad+1)
	at := y + 69
	for _, l := range reason {
		sh.text(sh.left+pad, at, l, Type{Size: 15, Colour: ink, Ground: ground}, wide-2*pad+1)
		at += 19
	}
	sh.text(sh.left+pad, at, note, Type{Size: small, Colour: ink, Ground: ground}, wide-2*pad)
	return y + h
}

// fallNarrow draws the fall from above to below, a row for each look, against
// the limit and the hidden part, with doubt growing to the right. It gives
// the y below.
func (sh *sheet) fallNarrow(y float64) float64 {
	told := sh.o.Told
	if told == nil || len(told.Drops) == 0 {
		return sh.fall(y)
	}
	drops := told.Drops[:min(len(told.Drops), 12)]
	after := drops[len(drops)-1].After
	sh.s.Open(Group{Title: sh.say("fall"), Desc: sh.fallDesc(drops)})
	defer sh.s.Close()
	sh.section(y, sh.say("fall"))
	y = sh.lines(y+41, 17, sh.exam(), Type{Size: normal, Colour: Ink}, 2)
	y = sh.lines(y, 16, sh.say("fall-note", "before", digits(told.Before), "after", digits(after)), Type{Size: small, Colour: Soft}, 4)
	y = sh.flow(y+4, []sample{sh.limitSample(), sh.nowSample(sh.say("after-at", "n", oneInOf(after))), sh.hiddenSample(sh.hiddenAt())})

	const row = 23.0
	levels := []int64{told.Before, sh.o.Doubt.Limit, sh.o.Doubt.HiddenUp}
	for _, d := range drops {
		levels = append(levels, d.After)
	}
	x0, x1 := sh.axis, sh.right-80
	scale := decadesFor(levels, x0, x1)
	top, bottom := y, y+float64(row*float64(len(drops)+2))
	free := x0 - 40
	for n := int64(1e6); n >= 1; n /= 10 {
		l := log10(1 / float64(n))
		if l < scale.lo-1e-9 || l > scale.hi+1e-9 {
			continue
		}
		x, label := scale.at(1e6/n), sh.say("scale-at", "n", digits(n))
		sh.s.Line(x, top, x, bottom+4, Stroke{Colour: Grid, Width: 1})
		half := width(label, small, false) / 2
		if x-half > free && x+half < sh.right {
			sh.text(x, bottom+18, label, Type{Size: small, Anchor: Middle, Colour: Soft}, 2*half+1)
			free = x + half + 8
		}
	}
	hidden, limit := scale.at(sh.o.Doubt.HiddenUp), scale.at(sh.o.Doubt.Limit)
	sh.s.Rect(x0, top, hidden-x0, bottom-top, Paint{Fill: Floor})
	sh.hatch(box(x0, top, hidden-x0, bottom-top), 7, Stroke{Colour: Rule, Width: 1})
	sh.s.Line(hidden, top, hidden, bottom, Stroke{Colour: Ink, Width: 1})
	sh.s.Line(x0, top, x0, bottom, Stroke{Colour: Ink, Width: 1})
	sh.s.Line(limit, top, limit, bottom, Stroke{Colour: Ink, Width: 2.4})
	for at := top + 6; at < bottom-4; at += 14 {
		sh.s.Line(limit, at+4, limit+6, at, Stroke{Colour: Ink, Width: 1.2})
	}
	level := Stroke{Colour: Doubt, Width: 3}
	put := func(i int, name, figure string, bold bool, from, to int64) {
		at := top + float64(row*float64(i))
		sh.text(sh.left, at+16, name, Type{Size: small, Bold: bold, Colour: Ink}, x0-sh.left-6)
		sh.text(sh.right, at+16, figure, Type{Size: small, Bold: bold, Anchor: End, Colour: Ink}, 76)
		a, b := scale.at(from), scale.at(to)
		switch lo, hi := min(a, b), max(a, b); {
		case hi-lo < 2:
			sh.s.Line(b, at+4, b, at+row-4, level)
		case to < from: // a fall: an open box, heavy at its lower edge
			sh.s.Rect(lo, at+4, hi-lo, row-8, Paint{Fill: Paper, Stroke: Stroke{Colour: Doubt, Width: 1.6}})
			sh.s.Line(lo, at+4, lo, at+row-4, level)
		default: // a rise: a full box
			sh.s.Rect(lo, at+4, hi-lo, row-8, Paint{Fill: Doubt})
		}
		if i > 0 {
			sh.s.Line(a, at-4, a, at+4, Stroke{Colour: Doubt, Width: 1})
		}
	}
	put(0, sh.say("before"), sh.count(told.Before), true, told.Before, told.Before)
	from := told.Before
	for i, d := range drops {
		put(i+1, sh.w.Name("look", string(d.Look)), sh.by(d.By), false, from, d.After)
		from = d.After
	}
	put(len(drops)+1, sh.say("after"), sh.count(from), true, from, from)
	return bottom + 30
}

// listNarrow draws a piece without a length: for each part its name, with what
// is said of it, over its bar.
func (sh *sheet) listNarrow(parts []decide.Cell, y float64) float64 {
	most := 0.0
	for _, c := range parts {
		most = max(most, share(c.D))
	}
	worst := ""
	if sh.o.Told != nil {
		worst = sh.o.Told.Worst.Part
	}
	for _, c := range parts {
		bold := c.Part == worst && worst != ""
		name := sh.w.Name("part", c.Part)
		if bold {
			name += " · " + sh.say("most")
		}
		if !sh.handled(c.Part) {
			name += " · " + sh.say("not-felt")
		}
		y = sh.lines(y+14, 15, name, Type{Size: small, Bold: bold, Colour: Ink}, 3) - 11
		x1 := sh.right - 160
		if most > 0 {
			w, f := float64(share(c.D)/most*(x1-sh.left)), float64(floor(&c)/most*(x1-sh.left))
			sh.s.Rect(sh.left, y, w, 14, Paint{Fill: Doubt})
			sh.s.Rect(sh.left, y, f, 14, Paint{Fill: Floor})
			sh.hatch(box(sh.left, y, f, 14), 6, Stroke{Colour: Rule, Width: 1})
		}
		sh.s.Line(sh.left, y-1, sh.left, y+15, Stroke{Colour: Ink, Width: 1.2})
		sh.text(sh.right, y+11.5, sh.count(c.Millions)+" · "+sh.oneIn(c.Millions), Type{Size: small, Bold: bold, Anchor: End, Colour: Ink}, 152)
		y += 24
	}
	return y + 8
}

// signsNarrow lists all signs on record, each in as many lines as it takes.
func (sh *sheet) signsNarrow(y float64, whole qty.Length) float64 {
	if sh.o.Told == nil {
		return y
	}
	list := sh.signsTold()
	if len(list) == 0 {
		return sh.lines(y+16, 16, sh.say("signs-none"), Type{Size: small, Colour: Ink}, 2)
	}
	y += 18
	for i, s := range list {
		sh.tag(sh.left+9, y-4, strconv.Itoa(i+1), s.Class == table.Absolute)
		why := sh.say("sign-why", "share", sh.w.Share(share(s.Why)))
		if s.Class == table.Absolute {
			why = sh.say("sign-abs")
		}
		text := sh.say("sign", "words", sh.w.Name("sign", s.ID), "place", sh.place(s.At, whole), "day", s.Day.String())
		for _, l := range wrap(text, small, false, sh.right-sh.left-24, 4) {
			sh.text(sh.left+24, y, l, Type{Size: small, Colour: Ink}, sh.right-sh.left-23)
			y += 16
		}
		sh.text(sh.left+24, y, why, Type{Size: small, Bold: true, Colour: Ink}, sh.right-sh.left-24)
		y += 23
	}
	return y
}
