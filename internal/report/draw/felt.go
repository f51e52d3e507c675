package draw

import (
	"cmp"
	"slices"

	"kernbook/internal/core/kit"
)

// atHand gives the examination at hand, or nil.
func (sh *sheet) atHand() *kit.Examination {
	for i := range sh.r.Examinations {
		if e := &sh.r.Examinations[i]; sh.o.Exam != "" && e.Kind == sh.o.Exam && e.Day == sh.o.ExamDay {
			return e
		}
	}
	return nil
}

// felt are the looks whose way along a piece is drawn.
var felt = [...]kit.LookID{kit.Eye, kit.Hand, kit.Bight}

// covered draws where the looks of the examination at hand went: a heavy line
// where they did, dashes where they saw some sides only, hatching where they
// did not. It gives the y below.
func (sh *sheet) covered(a stretchOf, y float64) float64 {
	e := sh.atHand()
	y += 8
	for _, look := range felt {
		name := sh.w.Name("look", string(look))
		sh.text(sh.axis-6, y+4, name, Type{Size: small, Anchor: End, Colour: Ink}, sh.axis-6-sh.left)
		var whole, sides []bit
		for k := 0; e != nil && k < len(e.Looks); k++ {
			if l := &e.Looks[k]; l.Look == look {
				for i := range l.Covers {
					c := &l.Covers[i]
					b := bit{a.at(c.From + a.lo), a.at(c.To + a.lo)}
					switch {
					case c.All:
						b = bit{a.x0, a.x1}
					case c.Part != "":
						continue
					}
					if len(c.Sides) > 0 {
						sides = append(sides, b)
					} else {
						whole = append(whole, b)
					}
				}
			}
		}
		gaps := outside(append(append([]bit(nil), whole...), sides...), a.x0, a.x1)
		for _, g := range gaps {
			sh.unknown(g.from, y-4, g.to-g.from, 8)
		}
		for _, b := range sides {
			sh.s.Line(b.from, y, b.to, y, Stroke{Colour: Ink, Width: 2.5, Dash: []float64{5, 4}})
		}
		for _, b := range whole {
			sh.s.Line(b.from, y, b.to, y, Stroke{Colour: Ink, Width: 4})
		}
		if len(gaps) == 1 && gaps[0] == (bit{a.x0, a.x1}) {
			sh.over((a.x0+a.x1)/2, y+4.5, sh.say("look-not", "look", name), Type{Size: small, Anchor: Middle, Colour: Ink}, 300)
		}
		y += 16
	}
	return y
}

// bit is a stretch of the sheet, from left to right.
type bit struct{ from, to float64 }

// outside gives what no bit covers between lo and hi.
func outside(covered []bit, lo, hi float64) []bit {
	slices.SortFunc(covered, func(a, b bit) int { return cmp.Compare(a.from, b.from) })
	var out []bit
	for _, c := range covered {
		if c.from > lo {
			out = append(out, bit{lo, min(c.from, hi)})
		}
		lo = max(lo, c.to)
	}
	if lo < hi {
		out = append(out, bit{lo, hi})
	}
	return out
}
