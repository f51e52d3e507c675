package draw

import (
	"math"
	"strconv"

	"kernbook/internal/bench"
	"kernbook/internal/core/measure"
)

// StripWords are what a strip along a rope says.
type StripWords struct {
	Base, Rest, Missing, Axis, Band string
	Ends                            [2]string
	Place                           func(*measure.Found) string
}

// Strip draws readings along a rope: a scale of change with the baseline at nought,
// the level of the rest, each station with its 95 % limits, the places flagged, and
// the rope below with the same places on it.
func Strip(s *bench.AlongSheet, title, desc string, w StripWords) []byte {
	const left, right, top, bottom = 96.0, benchWide - 36, benchHead + 46.0, 330.0
	high := bottom + 120 + float64(20*float64(len(s.Flagged)))
	d := s.Differences
	lo, hi := 0.0, 0.0
	for i := range d {
		lo, hi = min(lo, d[i].D-float64(1.96*d[i].Error)), max(hi, d[i].D+float64(1.96*d[i].Error))
	}
	pad := float64(0.08 * (hi - lo))
	lo, hi = lo-pad, hi+pad
	from, to := s.Stations[0].At, s.Stations[len(s.Stations)-1].At
	x := func(at float64) float64 { return left + float64((at-from)/(to-from)*(right-left)) }
	y := func(v float64) float64 { return bottom - float64((v-lo)/(hi-lo)*(bottom-top)) }
	svg := NewSVG(title, desc)
	svg.Rect(0, 0, benchWide, high, Paint{Fill: Paper})
	head(svg, title)
	sh := &sheet{frame: frame{wide: benchWide, left: 24, right: benchWide - 24}, s: svg}
	svg.Text(24, benchHead+26, w.Axis, Type{Size: small, Colour: Soft, Ground: Paper})
	for i := range s.Flagged {
		f := &s.Flagged[i]
		a, z := x(f.From), x(f.To)
		svg.Rect(a, top, max(z-a, 2), bottom-top, Paint{Fill: Floor, Stroke: Stroke{Colour: Ahead, Width: 1.4}})
	}
	for v, step := math.Ceil(lo/tick(hi-lo))*tick(hi-lo), tick(hi-lo); v <= hi; v += step {
		svg.Line(left, y(v), right, y(v), Stroke{Colour: Grid, Width: 1})
		svg.Text(left-8, y(v)+4, strconv.FormatFloat(math.Round(v*1e6)/1e6+0, 'f', -1, 64), Type{Size: small, Anchor: End, Colour: Soft, Ground: Paper})
	}
	svg.Line(left, y(0), right, y(0), Stroke{Colour: Ink, Width: 2})
	svg.Line(left, y(s.Overall.Median), right, y(s.Overall.Median), Stroke{Colour: Ahead, Width: 1.6, Dash: []float64{7, 4}})
	// The band: where 95 of 100 stations of the rest lie, by the gauge.
	var upper, lower []Point
	for i := range d {
		e := float64(1.96 * d[i].Error)
		upper, lower = append(upper, Point{x(d[i].At), y(s.Overall.Median + e)}), append(lower, Point{x(d[i].At), y(s.Overall.Median - e)})
	}
	band := Stroke{Colour: Rule, Width: 1, Dash: []float64{3, 3}}
	svg.Polyline(upper, band)
	svg.Polyline(lower, band)
	for i := range d {
		p := Point{x(d[i].At), y(d[i].D)}
		e := float64(1.96 * d[i].Error)
		svg.Line(p.X, y(d[i].D-e), p.X, y(d[i].D+e), Stroke{Colour: Doubt, Width: 1.1})
		paint := Paint{Fill: Doubt}
		if len(d[i].Slips) > 0 { // open, with a cross: one reading slipped
			paint = Paint{Fill: Paper, Stroke: Stroke{Colour: Doubt, Width: 1.6}}
			svg.Line(p.X-5, p.Y-5, p.X+5, p.Y+5, Stroke{Colour: Ink, Width: 1.6})
			svg.Line(p.X-5, p.Y+5, p.X+5, p.Y-5, Stroke{Colour: Ink, Width: 1.6})
		}
		svg.Polygon(circle(p.X, p.Y, 3), paint)
	}
	// The rope below, with what is flagged and where nothing was read.
	rope := bottom + 40.0
	svg.Rect(left, rope, right-left, 14, Paint{Fill: Paper, Stroke: Stroke{Colour: Doubt, Width: 2}})
	near := (right - left) / float64(len(s.Stations)) / 2
	for _, m := range s.Missing {
		a, z := max(x(m)-near, left), min(x(m)+near, right)
		sh.unknown(a, rope, z-a, 14)
	}
	for i := range s.Flagged {
		f := &s.Flagged[i]
		a, z := x(f.From), x(f.To)
		svg.Rect(a, rope, max(z-a, 3), 14, Paint{Fill: Ahead})
		sh.tag((a+z)/2, rope+28, strconv.Itoa(i+1), false)
		line := rope + 60 + float64(20*float64(i))
		sh.tag(left+10, line-4, strconv.Itoa(i+1), false)
		svg.Text(left+30, line, w.Place(f), Type{Size: normal, Colour: Ink, Ground: Paper})
	}
	svg.Text(left, rope-6, w.Ends[0]+" "+strconv.FormatFloat(from, 'f', -1, 64)+" mm", Type{Size: small, Colour: Soft, Ground: Paper})
	svg.Text(right, rope-6, strconv.FormatFloat(to, 'f', -1, 64)+" mm "+w.Ends[1], Type{Size: small, Anchor: End, Colour: Soft, Ground: Paper})
	// The key.
	k := high - 14
	svg.Line(24, k-4, 52, k-4, Stroke{Colour: Ink, Width: 2})
	svg.Text(58, k, w.Base, Type{Size: small, Colour: Ink, Ground: Paper})
	p := 58 + width(w.Base, small, false) + 22
	svg.Line(p, k-4, p+28, k-4, Stroke{Colour: Ahead, Width: 1.6, Dash: []float64{7, 4}})
	svg.Text(p+34, k, w.Rest, Type{Size: small, Colour: Ink, Ground: Paper})
	p += 34 + width(w.Rest, small, false) + 22
	svg.Line(p, k-4, p+28, k-4, band)
	svg.Text(p+34, k, w.Band, Type{Size: small, Colour: Ink, Ground: Paper})
	if len(s.Missing) > 0 {
		p += 34 + width(w.Band, small, false) + 22
		sh.unknown(p, k-11, 28, 13)
		svg.Text(p+34, k, w.Missing, Type{Size: small, Colour: Ink, Ground: Paper})
	}
	return svg.Bytes(benchWide, high, Size{benchWide, high})
}

// tick gives a step of 1, 2 or 5 times a power of ten for a scale of about six steps.
func tick(span float64) float64 {
	for p := 1e-6; p < 1e9; p *= 10 {
		for _, k := range [...]float64{1, 2, 5} {
			if span/(k*p) <= 7 {
				return k * p
			}
		}
	}
	return span
}
