package draw

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// What the tests look at beside the sheet itself. They stand outside the
// package, so that they can use the words of the report.
var (
	Width  = width
	Cut    = cut
	Wrap   = wrap
	Spread = spread
)

// ScaleOf gives the y of each share on a scale that holds them all.
func ScaleOf(values []int64, bottom, top float64) (at []float64) {
	d := decadesFor(values, bottom, top)
	for _, v := range values {
		at = append(at, d.at(v))
	}
	return at
}

// Plate draws the plate of an outcome alone.
func Plate(o *decide.Outcome, r *kit.Record, w Words) string {
	svg := NewSVG("", "")
	(&sheet{frame: desk, s: svg, o: o, r: r, w: w}).plate(64)
	return svg.b.String()
}
