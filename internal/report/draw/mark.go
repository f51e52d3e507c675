package draw

import "math"

// hatch fills a polygon with slanted lines: the sign for "not known". It is
// the same wherever it stands.
func (sh *sheet) hatch(shape []Point, gap float64, st Stroke) {
	if len(shape) < 3 {
		return
	}
	x0, y0, x1, y1 := shape[0].X, shape[0].Y, shape[0].X, shape[0].Y
	for _, p := range shape {
		x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
	}
	if x1-x0 <= 0 || y1-y0 <= 0 {
		return
	}
	h := y1 - y0
	sh.s.Open(Group{Clip: shape})
	// Whole multiples of the gap, so that the lines of neighbours meet.
	for c := math.Floor((x0+y0)/gap) * gap; c <= x1+y1; c += gap {
		x := c - y0 // where the line x+y = c crosses the upper edge
		if x-h <= x1 && x >= x0 {
			sh.s.Line(x, y0, x-h, y1, st)
		}
	}
	sh.s.Close()
}

func box(x, y, w, h float64) []Point {
	return []Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}
}

// unknown draws a hatched box.
func (sh *sheet) unknown(x, y, w, h float64) {
	if w <= 0 || h <= 0 {
		return
	}
	sh.s.Rect(x, y, w, h, Paint{Fill: Floor})
	sh.hatch(box(x, y, w, h), 6, Stroke{Colour: Rule, Width: 1})
	sh.s.Rect(x, y, w, h, Paint{Stroke: Stroke{Colour: Ink, Width: 1}})
}

// fence draws the limit: a heavy line with ticks on the side that is out of bounds.
func (sh *sheet) fence(x0, x1, y float64) {
	sh.s.Line(x0, y, x1, y, Stroke{Colour: Ink, Width: 2.4})
	for x := x0 + 6; x < x1-4; x += 14 {
		sh.s.Line(x, y, x+4, y-6, Stroke{Colour: Ink, Width: 1.2})
	}
}

// circle gives a round shape as a polygon.
func circle(x, y, r float64) []Point {
	const n = 16
	// Sines of 0, 22.5, 45, 67.5 and 90 degrees.
	sin := [5]float64{0, 0.3826834, 0.7071068, 0.9238795, 1}
	at := func(i int) float64 { // sine of i sixteenths of a turn
		i = (i%n + n) % n
		switch {
		case i <= 4:
			return sin[i]
		case i <= 8:
			return sin[8-i]
		case i <= 12:
			return -sin[i-8]
		}
		return -sin[16-i]
	}
	out := make([]Point, n)
	for i := range out {
		out[i] = Point{x + float64(r*at(i+4)), y + float64(r*at(i))}
	}
	return out
}

// mark draws the mark of a look or an event: each has a shape of its own.
func (sh *sheet) mark(kind string, x, y float64) {
	line := Stroke{Colour: Ink, Width: 1.8}
	diamond := func(r float64) []Point { return []Point{{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}} }
	switch kind {
	case "thorough":
		sh.s.Polygon(diamond(7), Paint{Fill: Ink, Stroke: Stroke{Colour: Paper, Width: 1.5}})
	case "interim":
		sh.s.Polygon(diamond(6.5), Paint{Fill: Paper, Stroke: line})
	case "partner":
		sh.s.Polygon(circle(x, y, 4.5), Paint{Fill: Paper, Stroke: line})
	case "pre-use":
		sh.s.Line(x, y-6, x, y+6, line)
		sh.s.Polygon(circle(x, y-6, 2.8), Paint{Fill: Ink})
	case "event":
		sh.s.Rect(x-7, y-7, 14, 14, Paint{Fill: Paper})
		sh.s.Line(x-5, y-5, x+5, y+5, Stroke{Colour: Ink, Width: 2.6})
		sh.s.Line(x-5, y+5, x+5, y-5, Stroke{Colour: Ink, Width: 2.6})
	}
}

// markNames lists the marks in the order of the key.
var markNames = [...]string{"thorough", "interim", "partner", "pre-use", "event"}

// arrow draws the head of an arrow that points right.
func (sh *sheet) arrow(x, y float64, c Colour) {
	sh.s.Polygon([]Point{{x, y}, {x - 9, y - 4.5}, {x - 9, y + 4.5}}, Paint{Fill: c})
}

// reached draws the end of a forecast: where it passes the limit.
func (sh *sheet) reached(x, y float64) {
	sh.s.Polygon([]Point{{x, y - 6}, {x + 6, y + 5}, {x - 6, y + 5}}, Paint{Fill: Paper, Stroke: Stroke{Colour: Ahead, Width: 2}})
}

// tag draws a number in a small frame, centred; heavy ones are reversed.
func (sh *sheet) tag(x, y float64, text string, heavy bool) {
	w := width(text, 12, true) + 8
	p, t := Paint{Fill: Paper, Stroke: Stroke{Colour: Ink, Width: 1.2}}, Type{Size: 12, Bold: true, Anchor: Middle, Colour: Ink}
	if heavy {
		p.Fill, t.Colour, t.Ground = Ink, Paper, Ink
	}
	sh.s.Rect(x-w/2, y-8, w, 16, p)
	sh.text(x, y+4.5, text, t, w)
}
