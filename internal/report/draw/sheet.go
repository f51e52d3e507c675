package draw

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// Size is the size of a drawing in pixels.
type Size struct{ W, H float64 }

// Sheet is the usual size, in pixels and in units.
var Sheet = Size{W: 900, H: 1200}

const (
	small  = 12.5 // sizes of text
	normal = 13.5
	titles = 16.0
)

// frame is where things stand on a sheet, in units.
type frame struct {
	wide         float64 // of the sheet
	left, right  float64 // edges of what is drawn
	plot0, plot1 float64 // edges of the two plots over doubt
	axis         float64 // left edge of the bars along a piece
	endW         float64 // width of an end of the piece
	narrow       bool    // one thing under the other, as high as it comes out
}

var (
	desk  = frame{wide: 900, left: 44, right: 856, plot0: 154, plot1: 700, axis: 108, endW: 34}
	phone = frame{wide: 390, left: 20.5, right: 369.5, plot0: 118, plot1: 369.5, axis: 82, endW: 22, narrow: true}
)

// Outcome draws an outcome on one sheet, as Scalable Vector Graphics. The
// record is the one the outcome was reached from. A size of 0 is the usual one;
// another size shows the same sheet larger or smaller.
func Outcome(o *decide.Outcome, r *kit.Record, w Words, size Size) []byte {
	sh := &sheet{frame: desk, o: o, r: r, w: w}
	svg := NewSVG(sh.say("title", "piece", o.Piece, "kind", sh.kind(), "outcome", sh.verdict()), sh.say("desc", "day", o.AsOf.String()))
	sh.s = svg
	high := sh.draw()
	if !(size.W > 0) || !(size.H > 0) {
		size = Size{Sheet.W, high}
	}
	return svg.Bytes(Sheet.W, high, size)
}

// To draws the same sheet on any sink, and gives how high it came out: 1200,
// or less where there is no doubt to draw.
func To(s Sink, o *decide.Outcome, r *kit.Record, w Words) float64 {
	sh := &sheet{frame: desk, s: s, o: o, r: r, w: w}
	return sh.draw()
}

// sheet is a drawing under way.
type sheet struct {
	frame
	s Sink
	o *decide.Outcome
	r *kit.Record
	w Words
}

// draw draws everything and gives the height of the sheet.
func (sh *sheet) draw() float64 {
	sh.s.Rect(0, 0, Sheet.W, Sheet.H, Paint{Fill: Paper})
	y := sh.head()
	high := Sheet.H
	if sh.o.Doubt == nil {
		y = sh.reasons(y)
		high = sh.life(y) + 60
	} else {
		y = sh.line(y)
		y = sh.fall(y)
		sh.along(y)
	}
	sh.foot(high - 16)
	return high
}

// section draws the rule and the title of a part, and gives the x after it.
func (sh *sheet) section(y float64, title string) float64 {
	sh.s.Line(sh.left, y, sh.right, y, Stroke{Colour: Ink, Width: 1})
	sh.s.Line(sh.left, y, sh.left+60, y, Stroke{Colour: Ink, Width: 3})
	title = cut(title, titles, true, 330)
	sh.text(sh.left, y+21, title, Type{Size: titles, Bold: true, Colour: Ink}, 330)
	return sh.left + width(title, titles, true)
}

// text sets a text, cut to most units if it is wider.
func (sh *sheet) text(x, y float64, text string, t Type, most float64) {
	if t.Ground == "" {
		t.Ground = Paper
	}
	if text = cut(text, t.Size, t.Bold, most); text != "" {
		sh.s.Text(x, y, text, t)
	}
}

// over sets a text on a piece of paper of its own, so that lines beneath do not
// run through it.
func (sh *sheet) over(x, y float64, text string, t Type, most float64) {
	text = cut(text, t.Size, t.Bold, most)
	w := width(text, t.Size, t.Bold)
	x0 := x
	switch t.Anchor {
	case Middle:
		x0 -= w / 2
	case End:
		x0 -= w
	}
	sh.s.Rect(x0-2, y-t.Size+1, w+4, t.Size+2, Paint{Fill: Paper})
	sh.text(x, y, text, t, most+1)
}

func (sh *sheet) foot(y float64) {
	t := Type{Size: 12, Colour: Soft}
	sh.text(sh.left, y, sh.say("foot"), t, 480)
	tables := sh.o.Tables
	if len(tables) > 12 {
		tables = tables[:12]
	}
	t.Anchor = End
	sh.text(sh.right, y, sh.say("made-by", "core", sh.o.Core, "tables", tables), t, 300)
}
