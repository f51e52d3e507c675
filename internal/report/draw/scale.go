package draw

import (
	"strconv"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
)

// decades is a scale by powers of ten, for shares in whole millionths: lo and
// hi are exponents of the share, lo at bottom and hi at top.
type decades struct {
	lo, hi      float64
	bottom, top float64 // y on the sheet
}

// decadesFor gives a scale that holds all values above 0, with room over the
// largest and under the smallest, and at least two decades.
func decadesFor(values []int64, bottom, top float64) decades {
	lo, hi := 0.0, -6.0
	for _, v := range values {
		if v > 0 {
			l := log10(float64(min(v, 1e6)) / 1e6)
			lo, hi = min(lo, l), max(hi, l)
		}
	}
	hi = min(max(hi+0.4, -4), 0)
	lo = max(min(lo-0.4, hi-2), -6)
	return decades{lo: lo, hi: hi, bottom: bottom, top: top}
}

func log10(v float64) float64 { return num.Log(v) / num.Log(10) }

// at gives the y of a share in whole millionths; below the scale is at its bottom.
func (d decades) at(millions int64) float64 {
	if millions <= 0 {
		return d.bottom
	}
	l := log10(float64(millions) / 1e6)
	l = min(max(l, d.lo), d.hi)
	return d.bottom + float64((l-d.lo)/(d.hi-d.lo)*(d.top-d.bottom))
}

// draw draws the lines of the scale, from x0 to x1, with their labels at left.
func (d decades) draw(sh *sheet, x0, x1 float64) {
	for n := int64(1); n <= 1e6; n *= 10 {
		if l := log10(1 / float64(n)); l < d.lo-1e-9 || l > d.hi+1e-9 {
			continue
		}
		y := d.at(1e6 / n)
		sh.s.Line(x0, y, x1, y, Stroke{Colour: Grid, Width: 1})
		sh.text(x0-8, y+4, sh.say("scale-at", "n", digits(n)), Type{Size: small, Anchor: End, Colour: Soft}, x0-8-sh.left)
	}
}

// times is a scale of days.
type times struct {
	from, to qty.Day
	x0, x1   float64
}

func (t times) at(d qty.Day) float64 {
	span := float64(t.to) - float64(t.from)
	if span <= 0 {
		return t.x0
	}
	share := (float64(d) - float64(t.from)) / span
	return t.x0 + float64(min(max(share, 0), 1)*(t.x1-t.x0))
}

// holds says whether a day is in view.
func (t times) holds(d qty.Day) bool { return t.from <= d && d <= t.to }

// monthSteps are the steps that divide a year, or are whole years.
var monthSteps = [...]int{1, 2, 3, 6, 12, 24, 60, 120, 600, 1200, 6000, 24000}

// draw draws the scale at y: a tick for each step of months, labelled.
func (t times) draw(sh *sheet, y float64) {
	sh.s.Line(t.x0, y, t.x1, y, Stroke{Colour: Ink, Width: 1})
	months := (float64(t.to) - float64(t.from)) / 30.4
	most := 8.0
	if sh.narrow {
		most = 4
	}
	step := monthSteps[len(monthSteps)-1]
	for _, s := range monthSteps {
		if months/float64(s) <= most {
			step = s
			break
		}
	}
	year, month, _ := t.from.Date()
	index := (year*12+month-1)/step*step + step
	for range 12 {
		d, err := qty.NewDay(index/12, index%12+1, 1)
		if err != nil || d > t.to {
			return
		}
		x := t.at(d)
		sh.s.Line(x, y, x, y+5, Stroke{Colour: Ink, Width: 1})
		label := sh.month(index/12, index%12+1)
		if step%12 == 0 {
			label = strconv.Itoa(index / 12)
		}
		if half := width(label, small, false) / 2; x-half >= max(t.x0-30, sh.left) && x+half <= min(t.x1+30, sh.right) {
			sh.text(x, y+18, label, Type{Size: small, Anchor: Middle, Colour: Soft}, 90)
		}
		index += step
	}
}

// niceStep gives 1, 2 or 5 times a power of ten, so that most has at most n
// steps; never below 1.
func niceStep(most int64, n int64) int64 {
	for p := int64(1); ; p *= 10 {
		for _, k := range [...]int64{1, 2, 5} {
			if s := k * p; most/s <= n || s > 1e15 {
				return s
			}
		}
	}
}

// ceil gives a share in whole millionths, rounded up.
func ceil(p float64) int64 { return num.CeilMillionths(share(p)) }

// share brings a value into 0 to 1; what is no number is 0.
func share(p float64) float64 {
	if p != p {
		return 0
	}
	return min(max(p, 0), 1)
}

// floor gives the part of a cell's doubt that no look can take away.
func floor(c *decide.Cell) float64 { return min(share(c.D-c.Findable), share(c.D)) }
