package draw

import (
	"bytes"
	"hash/fnv"
	"strconv"
	"strings"
	"unicode/utf8"
)

// SVG is a Sink that writes Scalable Vector Graphics. It needs no script, no
// style sheet, no font of its own and no other file.
type SVG struct {
	b     bytes.Buffer
	mark  string // begins every id, so that several drawings can stand in one page
	clips int
}

const fonts = `"Helvetica Neue", Helvetica, Arial, "Liberation Sans", "DejaVu Sans", sans-serif`

// NewSVG begins a drawing. Title and desc speak for the drawing as a whole.
func NewSVG(title, desc string) *SVG { return marked("d", title, desc) }

// marked begins a drawing whose ids begin with a mark of their own.
func marked(mark, title, desc string) *SVG {
	sum := fnv.New32a()
	sum.Write([]byte(title))
	s := &SVG{mark: mark + strconv.FormatUint(uint64(sum.Sum32()), 36)}
	s.b.WriteString(`<title id="` + s.mark + `-t">` + escape(title) + "</title>\n")
	s.b.WriteString(`<desc id="` + s.mark + `-d">` + escape(desc) + "</desc>\n")
	return s
}

// Bytes gives the drawing as a file of w by h units that is shown in the given
// size in pixels.
func (s *SVG) Bytes(w, h float64, shown Size) []byte {
	f := &SVG{}
	f.b.WriteString(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	f.b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" role="img"`)
	f.num("width", shown.W)
	f.num("height", shown.H)
	f.attr("viewBox", "0 0 "+fixed(w)+" "+fixed(h))
	f.attr("aria-labelledby", s.mark+"-t "+s.mark+"-d")
	f.attr("font-family", fonts)
	f.b.WriteString(` style="font-variant-numeric:tabular-nums lining-nums" stroke-linejoin="round">` + "\n")
	f.b.Write(s.b.Bytes())
	f.b.WriteString("</svg>\n")
	return f.b.Bytes()
}

// Inside gives h units of the drawing from y down as an element that stands
// inside a page, which says how large it is shown. It has no style of its own,
// which a page may forbid.
func (s *SVG) Inside(y, w, h float64) []byte {
	f := &SVG{}
	f.b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" role="img"`)
	f.attr("viewBox", "0 "+fixed(y)+" "+fixed(w)+" "+fixed(h))
	f.attr("aria-labelledby", s.mark+"-t "+s.mark+"-d")
	f.attr("font-family", fonts)
	f.b.WriteString(` stroke-linejoin="round">` + "\n")
	f.b.Write(s.b.Bytes())
	f.b.WriteString("</svg>\n")
	return f.b.Bytes()
}

// Open begins a group.
func (s *SVG) Open(g Group) {
	id := ""
	if len(g.Clip) > 0 {
		s.clips++
		id = s.mark + "-c" + strconv.Itoa(s.clips)
		s.b.WriteString(`<clipPath id="` + id + `"><polygon`)
		s.points(g.Clip)
		s.b.WriteString("/></clipPath>\n")
	}
	s.b.WriteString("<g")
	if id != "" {
		s.attr("clip-path", "url(#"+id+")")
	}
	if g.Title != "" {
		s.attr("role", "group")
	}
	s.b.WriteString(">\n")
	if g.Title != "" {
		s.b.WriteString("<title>" + escape(g.Title) + "</title>\n")
	}
	if g.Desc != "" {
		s.b.WriteString("<desc>" + escape(g.Desc) + "</desc>\n")
	}
}

// Close ends the group opened last.
func (s *SVG) Close() { s.b.WriteString("</g>\n") }

// Line draws a straight line.
func (s *SVG) Line(x1, y1, x2, y2 float64, st Stroke) {
	s.b.WriteString("<line")
	s.num("x1", x1)
	s.num("y1", y1)
	s.num("x2", x2)
	s.num("y2", y2)
	s.stroke(st)
	s.b.WriteString("/>\n")
}

// Polyline draws an open line through points.
func (s *SVG) Polyline(points []Point, st Stroke) {
	s.b.WriteString(`<polyline fill="none"`)
	s.points(points)
	s.stroke(st)
	s.b.WriteString("/>\n")
}

// Polygon draws a closed shape.
func (s *SVG) Polygon(points []Point, p Paint) {
	s.b.WriteString("<polygon")
	s.points(points)
	s.paint(p)
	s.b.WriteString("/>\n")
}

// Rect draws a rectangle from its upper left corner.
func (s *SVG) Rect(x, y, w, h float64, p Paint) {
	s.b.WriteString("<rect")
	s.num("x", x)
	s.num("y", y)
	s.num("width", w)
	s.num("height", h)
	s.paint(p)
	s.b.WriteString("/>\n")
}

// Text sets one line of text.
func (s *SVG) Text(x, y float64, text string, t Type) {
	s.b.WriteString("<text")
	s.num("x", x)
	s.num("y", y)
	s.num("font-size", t.Size)
	if t.Bold {
		s.attr("font-weight", "700")
	}
	switch t.Anchor {
	case Middle:
		s.attr("text-anchor", "middle")
	case End:
		s.attr("text-anchor", "end")
	}
	s.attr("fill", string(t.Colour))
	s.b.WriteString(">" + escape(text) + "</text>\n")
}

func (s *SVG) paint(p Paint) {
	fill := string(p.Fill)
	if fill == "" {
		fill = "none"
	}
	s.attr("fill", fill)
	if p.Stroke.Width > 0 {
		s.stroke(p.Stroke)
	}
}

func (s *SVG) stroke(st Stroke) {
	s.attr("stroke", string(st.Colour))
	s.num("stroke-width", st.Width)
	if len(st.Dash) > 0 {
		parts := make([]string, len(st.Dash))
		for i, d := range st.Dash {
			parts[i] = fixed(d)
		}
		s.attr("stroke-dasharray", strings.Join(parts, " "))
	}
}

func (s *SVG) points(points []Point) {
	s.b.WriteString(` points="`)
	for i, p := range points {
		if i > 0 {
			s.b.WriteByte(' ')
		}
		s.b.WriteString(fixed(p.X) + "," + fixed(p.Y))
	}
	s.b.WriteByte('"')
}

func (s *SVG) attr(name, value string) {
	s.b.WriteString(" " + name + `="` + escape(value) + `"`)
}

func (s *SVG) num(name string, v float64) {
	s.b.WriteString(" " + name + `="` + fixed(v) + `"`)
}

// fixed prints a coordinate with at most one decimal, so that the same outcome
// gives the same bytes. What is no number, or far off any sheet, is brought
// back to one that can be drawn.
func fixed(v float64) string {
	const far = 1e5
	if v != v {
		v = 0
	}
	t := strconv.FormatFloat(min(max(v, -far), far), 'f', 1, 64)
	t = strings.TrimSuffix(t, ".0")
	if t == "-0" {
		return "0"
	}
	return t
}

// escape makes a text safe inside XML; characters that XML 1.0 does not allow
// are replaced.
func escape(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case r == '\t' || r == '\n' || r == '\r':
			b.WriteByte(' ')
		case r < ' ' || r == 0xfffe || r == 0xffff || (r >= 0x7f && r < 0xa0):
			b.WriteRune(utf8.RuneError)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
