package paper

import (
	"fmt"
	"html/template"
	"math"
	"strings"

	"codeberg.org/go-pdf/fpdf"
)

// Strip is a piece drawn along the page, and the named parts beside it.
type Strip struct {
	Length float64 // millimetres; 0 draws the parts alone
	Marks  []Mark
	Parts  []Part
}

// Mark is something at a place, with the number under which the table tells it.
type Mark struct {
	Number   int
	From, To float64 // millimetres from end A
	Measured bool    // else seen
}

// Part is a named part with the numbers of what was found there.
type Part struct {
	Words   string
	Numbers []string
}

// Caption tells how the drawing is to be read.
func (s *Strip) Caption() string {
	t := "Numbers are those of the table below."
	if s.Length > 0 {
		t = "Drawn to scale along its length, end A on the left, end B on the right: black above the middle line, seen or felt; hatched below it, measured. " + t
	}
	if len(s.Parts) > 0 {
		t += " Boxes are named parts."
	}
	return t
}

// step gives the distance between the marks of the scale.
func (s *Strip) step() float64 {
	at := math.Pow(10, math.Floor(math.Log10(s.Length)))
	for _, f := range []float64{.1, .2, .5, 1} {
		if s.Length/(at*f) <= 10 {
			return at * f
		}
	}
	return at
}

// scale prints a distance in the unit of the whole: metres from two metres on.
func (s *Strip) scale(mm float64) string {
	if s.Length >= 2000 {
		return fmt.Sprintf("%g m", mm/1000)
	}
	return fmt.Sprintf("%g mm", mm)
}

// placed is a mark with the room it takes in a drawing of some width.
type placed struct {
	Mark
	x0, x1, label float64
	row           int
}

// lay puts the marks on a drawing of that width; numbers that would touch go to
// another row.
func (s *Strip) lay(width, room float64) []placed {
	var out []placed
	last := map[bool][3]float64{false: {-room, -room, -room}, true: {-room, -room, -room}}
	for _, m := range s.Marks {
		x0, x1 := width*m.From/s.Length, width*m.To/s.Length
		x1 = min(max(x1, x0+width/170), width)
		x0 = min(x0, x1-width/170)
		p := placed{Mark: m, x0: x0, x1: x1, label: (x0 + x1) / 2}
		ends := last[m.Measured]
		for p.row = 0; p.row < 2 && math.Abs(p.label-ends[p.row]) < room; p.row++ {
		}
		ends[p.row] = p.label
		last[m.Measured] = ends
		out = append(out, p)
	}
	return out
}

// height gives the most room that the drawing takes.
func (s *Strip) height() float64 {
	h := 12 + 13*float64((len(s.Parts)+3)/4)
	if s.Length > 0 {
		h += 42
	}
	return h
}

// strip puts the drawing on the page.
func (w *writer) strip(s *Strip) {
	p := w.p
	w.room(s.height())
	if s.Length > 0 {
		y := p.GetY() + 13
		p.SetLineWidth(0.35)
		p.Rect(left, y, width, 6, "D")
		p.SetLineWidth(0.15)
		p.Line(left, y+3, left+width, y+3)
		w.font("B", 8)
		below := 0
		for _, m := range s.lay(width, 5) {
			n := fmt.Sprint(m.Number)
			at := left + min(max(m.label-p.GetStringWidth(n)/2, 0), width-p.GetStringWidth(n))
			if m.Measured {
				below = max(below, m.row+1)
				hatch(p, left+m.x0, y+3, m.x1-m.x0, 3)
				p.Text(at, y+10+3.4*float64(m.row), n)
			} else {
				p.Rect(left+m.x0, y, m.x1-m.x0, 3, "F")
				p.Text(at, y-1.2-3.4*float64(m.row), n)
			}
		}
		y += 9 + 3.4*float64(below)
		w.font("", 7.5)
		p.SetLineWidth(0.15)
		p.Line(left, y, left+width, y)
		for at := 0.0; at <= s.Length+1e-9; at += s.step() {
			x := left + width*at/s.Length
			p.Line(x, y, x, y+1.4)
			t := s.scale(at)
			if s.Length-at < s.step()/2 && at < s.Length {
				continue
			}
			p.Text(min(max(x-p.GetStringWidth(t)/2, left), left+width-p.GetStringWidth(t)), y+4.6, t)
		}
		w.font("B", 8)
		p.Text(left, y+8.4, "end A")
		end := "end B, at " + s.scale(s.Length)
		p.Text(left+width-p.GetStringWidth(end), y+8.4, end)
		p.SetXY(left, y+10.5)
	}
	const cell = width / 4
	for i, part := range s.Parts {
		if i%4 == 0 && i > 0 {
			p.SetY(p.GetY() + 12)
		}
		x, y := left+cell*float64(i%4), p.GetY()+1
		p.SetLineWidth(0.15)
		if len(part.Numbers) > 0 {
			p.SetLineWidth(0.7)
		}
		p.Rect(x+.5, y, cell-2, 10.5, "D")
		w.font("", 8)
		lines := w.wrap(part.Words, cell-5)
		p.Text(x+2, y+4, lines[0])
		w.font("B", 9)
		p.Text(x+2, y+8.8, strings.Join(part.Numbers, ", "))
	}
	p.SetLineWidth(0.1)
	if len(s.Parts) > 0 {
		p.SetY(p.GetY() + 13)
	}
	p.SetX(left)
	w.font("", 8)
	w.text(s.Caption(), width, 3.8)
	p.Ln(1.5)
}

// hatch draws a box with slanting lines in it.
func hatch(p *fpdf.Fpdf, x, y, w, h float64) {
	p.Rect(x, y, w, h, "D")
	for d := 0.7; d < w+h; d += 0.9 {
		x0, y0, x1, y1 := x+d, y, x, y+d
		if x0 > x+w {
			x0, y0 = x+w, y+d-w
		}
		if y1 > y+h {
			x1, y1 = x+d-h, y+h
		}
		p.Line(x0, y0, x1, y1)
	}
}

// SVG gives the same drawing for a page; "" where there is none along the piece.
func (s *Strip) SVG() template.HTML {
	if s.Length <= 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString(`<defs><pattern id="measured" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="2" height="6" fill="currentColor"/></pattern></defs>` +
		`<rect x="0" y="60" width="1000" height="36" fill="none" stroke="currentColor" stroke-width="2"/><line x1="0" x2="1000" y1="78" y2="78" stroke="currentColor"/>`)
	for _, m := range s.lay(1000, 34) {
		y, fill, at := 60.0, "currentColor", 54-22*m.row
		if m.Measured {
			y, fill, at = 78, "url(#measured)", 116+22*m.row
		}
		fmt.Fprintf(&b, `<rect x="%.1f" y="%.0f" width="%.1f" height="18" fill="%s" stroke="currentColor"/><text x="%.1f" y="%d" font-size="20" text-anchor="middle" fill="currentColor">%d</text>`,
			m.x0, y, m.x1-m.x0, fill, min(max(m.label, 12), 988), at, m.Number)
	}
	fmt.Fprintf(&b, `<text x="0" y="180" font-size="20" fill="currentColor">end A</text><text x="1000" y="180" font-size="20" text-anchor="end" fill="currentColor">end B, at %s</text>`, s.scale(s.Length))
	return template.HTML(b.String()) // numbers alone
}
