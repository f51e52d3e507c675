package draw

import (
	"math"
	"strconv"

	"kernbook/internal/bench"
)

// Size of a drawing of the bench, in units; the narrow one is for a phone.
const (
	benchWide   = 720.0
	benchNarrow = 360.0
	benchHead   = 52.0
	benchMost   = 620.0
	benchLeast  = 0.75 // least width of a stroke of rope
)

// benchForm says for what a drawing of the bench is.
type benchForm int

const (
	asFile    benchForm = iota // by itself, with its title
	inPage                     // inside a page
	inPhone                    // inside a page as narrow as a phone
	pageStart = 40.0           // where a drawing inside a page begins: below the title
)

func (f benchForm) wide() float64 {
	if f == inPhone {
		return benchNarrow
	}
	return benchWide
}

// begin begins a drawing, with its title where it stands by itself.
func (f benchForm) begin(title, desc string, high float64) *SVG {
	s := marked([...]string{"d", "b", "p"}[f], title, desc)
	s.Rect(0, 0, f.wide(), high, Paint{Fill: Paper})
	if f == asFile {
		head(s, title)
	}
	return s
}

func (f benchForm) end(s *SVG, high float64) []byte {
	if f == asFile {
		return s.Bytes(f.wide(), high, Size{f.wide(), high})
	}
	return s.Inside(pageStart, f.wide(), high-pageStart)
}

// fit places a scene on a sheet so wide: the same scale both ways.
type fit struct{ scale, dx, dy, wide float64 }

func (f fit) at(p bench.Point) Point {
	return Point{f.dx + float64(p.X*f.scale), f.dy + float64(p.Y*f.scale)}
}

// Scene draws the geometry of a sheet of the bench to scale. words gives the text of
// a label.
func Scene(sc *bench.Scene, title, desc string, words func(*bench.Label) string) []byte {
	return scene(sc, title, desc, words, asFile)
}

// SceneInPage draws the same to stand inside a page, wide and for a phone.
func SceneInPage(sc *bench.Scene, title, desc string, words func(*bench.Label) string) (wide, narrow []byte) {
	return scene(sc, title, desc, words, inPage), scene(sc, title, desc, words, inPhone)
}

func scene(sc *bench.Scene, title, desc string, words func(*bench.Label) string, form benchForm) []byte {
	wide := form.wide()
	edge := wide / 8 // kept free at every side, for labels
	lo, hi := Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for i := range sc.Paths {
		pad := sc.Paths[i].Width / 2
		for _, p := range sc.Paths[i].Points {
			lo = Point{min(lo.X, p.X-pad), min(lo.Y, p.Y-pad)}
			hi = Point{max(hi.X, p.X+pad), max(hi.Y, p.Y+pad)}
		}
	}
	for i := range sc.Labels {
		p := sc.Labels[i].At
		lo, hi = Point{min(lo.X, p.X), min(lo.Y, p.Y)}, Point{max(hi.X, p.X), max(hi.Y, p.Y)}
	}
	w, h := max(hi.X-lo.X, 1e-9), max(hi.Y-lo.Y, 1e-9)
	scale := min((wide-2*edge)/w, (benchMost-benchHead-benchWide/8)/h)
	high := benchHead + 44 + float64(h*scale) + 60
	f := fit{scale, (wide-float64(w*scale))/2 - float64(lo.X*scale), benchHead + 44 - float64(lo.Y*scale), wide}
	s := form.begin(title, desc, high)
	for i := range sc.Paths {
		f.path(s, &sc.Paths[i])
	}
	for i := range sc.Labels {
		f.label(s, &sc.Labels[i], words(&sc.Labels[i]))
	}
	f.ruler(s, high-22)
	return form.end(s, high)
}

// head sets the title of a drawing of the bench.
func head(s Sink, title string) {
	s.Line(24, 40, benchWide-24, 40, Stroke{Colour: Ink, Width: 1})
	s.Line(24, 40, 84, 40, Stroke{Colour: Ink, Width: 3})
	s.Text(24, 30, cut(title, titles, true, benchWide-48), Type{Size: titles, Bold: true, Colour: Ink, Ground: Paper})
}

func (f fit) path(s Sink, p *bench.Path) {
	pts := make([]Point, len(p.Points))
	for i := range pts {
		pts[i] = f.at(p.Points[i])
	}
	if len(pts) < 2 {
		return
	}
	switch p.Role {
	case bench.Rope:
		if p.Closed {
			pts = append(pts, pts[0], pts[1]) // past the seam, so that it does not show
		}
		if wide := float64(p.Width * f.scale); wide > 6 { // drawn with its two edges
			s.Polyline(pts, Stroke{Colour: Doubt, Width: wide})
			s.Polyline(pts, Stroke{Colour: Floor, Width: wide - 3})
			s.Polyline(pts, Stroke{Colour: Rule, Width: 1, Dash: []float64{6, 4}})
			return
		}
		s.Polyline(pts, Stroke{Colour: Doubt, Width: max(4, benchLeast)})
	case bench.Metal:
		s.Polygon(pts, Paint{Fill: Floor, Stroke: Stroke{Colour: Ink, Width: 1.6}})
	case bench.Fixed:
		s.Polygon(pts, Paint{Fill: Ink})
	case bench.Reach:
		s.Polyline(pts, Stroke{Colour: Ahead, Width: 3})
	case bench.Ghost:
		if p.Closed {
			pts = append(pts, pts[0])
		}
		s.Polyline(pts, Stroke{Colour: Rule, Width: 1.4, Dash: []float64{5, 4}})
	case bench.Load:
		a, z := pts[0], pts[len(pts)-1]
		s.Polyline(pts, Stroke{Colour: Ink, Width: 2.4})
		tip(s, a, z, 11)
	case bench.Measure:
		a, z := pts[0], pts[len(pts)-1]
		s.Polyline(pts, Stroke{Colour: Soft, Width: 1})
		if d := math.Hypot(z.X-a.X, z.Y-a.Y); d > 0 {
			x, y := (z.Y-a.Y)/d*6, (a.X-z.X)/d*6
			for _, e := range [2]Point{a, z} {
				s.Line(e.X-x, e.Y-y, e.X+x, e.Y+y, Stroke{Colour: Soft, Width: 1.4})
			}
		}
	}
}

// tip draws the head of an arrow from a at z.
func tip(s Sink, a, z Point, size float64) {
	d := math.Hypot(z.X-a.X, z.Y-a.Y)
	if d == 0 {
		return
	}
	x, y := (z.X-a.X)/d*size, (z.Y-a.Y)/d*size
	s.Polygon([]Point{z, {z.X - x - y*0.45, z.Y - y + x*0.45}, {z.X - x + y*0.45, z.Y - y - x*0.45}}, Paint{Fill: Ink})
}

func (f fit) label(s Sink, l *bench.Label, text string) {
	p := f.at(l.At)
	t := Type{Size: normal, Colour: Ink, Ground: Paper}
	switch l.Side {
	case -1:
		p.X, p.Y, t.Anchor = p.X-14, p.Y+4, End
	case 0:
		p.Y, t.Anchor = p.Y-9, Middle
	case 1:
		p.X, p.Y = p.X+14, p.Y+4
	default:
		p.Y, t.Anchor = p.Y+19, Middle
	}
	w := width(text, t.Size, false)
	x := p.X
	switch t.Anchor {
	case Middle:
		x -= w / 2
	case End:
		x -= w
	}
	if x < 6 { // brought back onto the sheet
		p.X += 6 - x
	} else if x+w > f.wide-6 {
		p.X -= x + w - f.wide + 6
	}
	s.Rect(min(max(x, 6), f.wide-6-w)-3, p.Y-t.Size+1, w+6, t.Size+4, Paint{Fill: Paper})
	s.Text(p.X, p.Y, text, t)
}

// ruler draws the scale of a scene.
func (f fit) ruler(s Sink, y float64) {
	long := 1e-4
	for _, k := range [...]float64{1e-3, 2e-3, 5e-3, 1e-2, 2e-2, 5e-2, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100} {
		if float64(k*f.scale) <= 160 {
			long = k
		}
	}
	s.Line(24, y, 24+float64(long*f.scale), y, Stroke{Colour: Ink, Width: 3})
	text := strconv.FormatFloat(long*1000, 'f', -1, 64) + " mm"
	if long >= 1 {
		text = strconv.FormatFloat(long, 'f', -1, 64) + " m"
	}
	s.Text(24+float64(long*f.scale)+8, y+4, text, Type{Size: small, Colour: Soft, Ground: Paper})
}

// BarWords are what a drawing of ranges says.
type BarWords struct {
	Called func(*bench.Bar) string
	None   string
	Mark   func(shown string) string
}

// Bars draws ranges on one scale from 0, and the line they are held against.
func Bars(b *bench.Bars, title, desc string, words BarWords) []byte {
	return bars(b, title, desc, words, asFile)
}

// BarsInPage draws the same to stand inside a page, wide and for a phone.
func BarsInPage(b *bench.Bars, title, desc string, words BarWords) (wide, narrow []byte) {
	return bars(b, title, desc, words, inPage), bars(b, title, desc, words, inPhone)
}

func bars(b *bench.Bars, title, desc string, words BarWords, form benchForm) []byte {
	wide := form.wide()
	left, right, row := 250.0, wide-150, 40.0
	if form == inPhone { // what a bar is called and comes to stands above it
		left, right, row = 24, wide-24, 52
	}
	names := make([][]string, len(b.Bars))
	for i := range b.Bars {
		x := &b.Bars[i]
		room := left - 36
		if form == inPhone {
			shown := x.Shown
			if x.None {
				shown = words.None
			}
			room = right - left - width(shown, small, false) - 16
		}
		if names[i] = wrap(words.Called(x), small, false, room, 2); form == inPhone && len(names[i]) > 1 {
			row = 67
		}
	}
	top := benchHead + 40
	high := top + float64(row*float64(len(b.Bars))) + 46
	most := float64(b.Mark * 1.1)
	for _, x := range b.Bars {
		if !x.None {
			most = max(most, float64(x.Low*1.1))
			if !x.Open {
				most = max(most, float64(x.High*1.1))
			}
		}
	}
	most = max(most, 1e-9)
	at := func(v float64) float64 { return left + float64((right-left)*min(max(v/most, 0), 1)) }
	s := form.begin(title, desc, high)
	sh := &sheet{frame: frame{wide: wide, left: 24, right: wide - 24}, s: s}
	bottom := top + float64(row*float64(len(b.Bars)))
	s.Line(left, top-10, left, bottom, Stroke{Colour: Ink, Width: 1})
	if b.Mark > 0 {
		text := words.Mark(bench.Print(b.Mark, b.Unit, bench.Up))
		x := at(b.Mark)
		half := width(text, normal, true) / 2
		s.Text(min(max(x, 24+half), wide-24-half), bottom+20, text, Type{Size: normal, Bold: true, Anchor: Middle, Colour: Ink, Ground: Paper})
	}
	for i := range b.Bars {
		x := &b.Bars[i]
		y := top + float64(row*float64(i))
		shown, colour := x.Shown, Ink
		if x.None {
			shown, colour = words.None, Soft
		}
		if form == inPhone {
			s.Text(right, y, shown, Type{Size: small, Anchor: End, Colour: colour, Ground: Paper})
			for k, line := range names[i] {
				s.Text(left+4, y-float64(15*float64(len(names[i])-1-k)), line, Type{Size: small, Colour: Ink, Ground: Paper})
			}
			y += 9
		} else {
			for k, line := range names[i] {
				s.Text(left-12, y+15-float64(7.5*float64(len(names[i])-1))+float64(15*float64(k)), line, Type{Size: small, Anchor: End, Colour: Ink, Ground: Paper})
			}
			s.Text(right+8, y+15, shown, Type{Size: small, Colour: colour, Ground: Paper})
		}
		s.Line(left, y+11, right, y+11, Stroke{Colour: Grid, Width: 1})
		if x.None {
			sh.unknown(left, y, right-left, 22)
			continue
		}
		end := x.High
		if x.Open {
			end = most
		}
		a, z := at(x.Low), at(end)
		s.Rect(left, y+8, a-left, 6, Paint{Fill: Doubt})
		if x.Open {
			sh.unknown(a, y, z-a, 22)
		} else {
			s.Rect(a-1.5, y, max(z-a, 3), 22, Paint{Fill: Floor, Stroke: Stroke{Colour: Doubt, Width: 1.6}})
		}
	}
	if b.Mark > 0 && form != inPhone { // over what it crosses; on a phone beside each bar alone, clear of the words
		s.Line(at(b.Mark), top-14, at(b.Mark), bottom, Stroke{Colour: Ink, Width: 2.4})
	}
	for i := 0; b.Mark > 0 && form == inPhone && i < len(b.Bars); i++ {
		y := top + float64(row*float64(i)) + 9
		s.Line(at(b.Mark), y-3, at(b.Mark), y+27, Stroke{Colour: Ink, Width: 2.4})
	}
	return form.end(s, high)
}
