package draw

import (
	"strconv"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// list draws a piece without a length: its parts with a bar each. It gives the
// y below.
func (sh *sheet) list(parts []decide.Cell, y float64) float64 {
	row := 28.0
	low := low - 18*float64(max(1, min(len(sh.signsTold()), 4)))
	if n := float64(len(parts)); n > 0 {
		row = min(28, max(15, (low-y)/n))
	}
	most := 0.0
	for _, c := range parts {
		most = max(most, share(c.D))
	}
	const x1 = 560.0
	x0 := 200.0 // the bars begin behind the longest name
	for _, c := range parts {
		x0 = min(max(x0, sh.left+27+width(sh.w.Name("part", c.Part), small, true)), 340)
	}
	worst := ""
	if sh.o.Told != nil {
		worst = sh.o.Told.Worst.Part
	}
	for i, c := range parts {
		if y+row > low+1 {
			sh.text(x0, y+12, sh.say("more", "n", strconv.Itoa(len(parts)-i)), Type{Size: small, Colour: Ink}, 400)
			return y + row
		}
		bold := c.Part == worst && worst != ""
		name := wrap(sh.w.Name("part", c.Part), small, bold, x0-26-sh.left, 1+int(row/24)) // two lines where a row has room
		at, long := y+row/2+4.5-6*float64(len(name)-1), 0.0
		for n, l := range name {
			sh.text(x0-10, at+12*float64(n), l, Type{Size: small, Bold: bold, Anchor: End, Colour: Ink}, x0-25-sh.left)
			long = max(long, width(l, small, bold))
		}
		if bold {
			sh.arrow(x0-16-long, y+row/2, Ink)
		}
		if most > 0 {
			w, f := float64(share(c.D)/most*(x1-x0)), float64(floor(&c)/most*(x1-x0))
			sh.s.Rect(x0, y+3, w, row-6, Paint{Fill: Doubt})
			sh.s.Rect(x0, y+3, f, row-6, Paint{Fill: Floor})
			sh.hatch(box(x0, y+3, f, row-6), 6, Stroke{Colour: Rule, Width: 1})
		}
		sh.s.Line(x0, y+2, x0, y+row-2, Stroke{Colour: Ink, Width: 1.2})
		sh.text(x1+64, y+row/2+4.5, sh.count(c.Millions), Type{Size: small, Bold: bold, Anchor: End, Colour: Ink}, 56)
		note := sh.oneIn(c.Millions)
		if bold {
			note += " · " + sh.say("most")
		}
		if !sh.handled(c.Part) {
			note += " · " + sh.say("not-felt")
		}
		sh.text(x1+76, y+row/2+4.5, note, Type{Size: small, Bold: bold, Colour: Ink}, sh.right-x1-76)
		y += row
	}
	return y + 4
}

// handled says whether a hand went over a part in the examination at hand.
func (sh *sheet) handled(part string) bool {
	e := sh.atHand()
	for k := 0; e != nil && k < len(e.Looks); k++ {
		if e.Looks[k].Look != kit.Hand {
			continue
		}
		for _, c := range e.Looks[k].Covers {
			if c.All || c.Part == part {
				return true
			}
		}
	}
	return false
}
