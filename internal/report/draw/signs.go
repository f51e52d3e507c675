package draw

import (
	"cmp"
	"slices"
	"strconv"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// signsTold gives the signs on record, the gravest first: absolute reasons,
// then those least explained.
func (sh *sheet) signsTold() []decide.Sign {
	if sh.o.Told == nil {
		return nil
	}
	grave := func(s *decide.Sign) float64 {
		if s.Class == table.Absolute {
			return -1
		}
		return share(s.Why)
	}
	out := slices.Clone(sh.o.Told.Signs)
	slices.SortStableFunc(out, func(a, b decide.Sign) int { return cmp.Compare(grave(&a), grave(&b)) })
	return out
}

// tags puts the signs where they are, each with its number; what lies on no
// stretch is only in the list. It gives the y below.
func (sh *sheet) tags(a stretchOf, y float64) float64 {
	var at []float64
	var which []int
	var rows [3][]bit // signs that overlap lie beneath each other
	deep := 0
	list := sh.signsTold()
	for i, s := range list {
		x0, x1 := 0.0, 0.0
		switch {
		case s.At.Whole || s.At.Gone || s.At.From > a.hi || s.At.To < a.lo:
			continue
		case s.At.Part != "":
			var ok bool
			if x0, ok = sh.partX(a, s.At.Part); !ok {
				continue
			}
			x1 = x0 + sh.endW
		default:
			x0, x1 = a.at(s.At.From), a.at(s.At.To)
		}
		if x1-x0 < 5 {
			x0, x1 = (x0+x1)/2-2.5, (x0+x1)/2+2.5
		}
		w := 3.0
		if s.Class == table.Absolute {
			w = 6
		}
		row := 0
		for row < len(rows)-1 && slices.ContainsFunc(rows[row], func(b bit) bool { return x0 < b.to+3 && b.from < x1+3 }) {
			row++
		}
		rows[row], deep = append(rows[row], bit{x0, x1}), max(deep, row)
		sh.s.Line(x0, y+4+6*float64(row), x1, y+4+6*float64(row), Stroke{Colour: Ink, Width: w})
		at, which = append(at, (x0+x1)/2), append(which, i)
	}
	if len(at) == 0 {
		return y + 3
	}
	y += 6 * float64(deep)
	for k, x := range spread(at, 22, sh.axis+10, sh.right-10) {
		sh.s.Line(at[k], y+5, x, y+11, Stroke{Colour: Ink, Width: 1})
		sh.tag(x, y+18, strconv.Itoa(which[k]+1), list[which[k]].Class == table.Absolute)
	}
	return y + 30
}

// partX gives where a part that is an end stands.
func (sh *sheet) partX(a stretchOf, part string) (float64, bool) {
	for i := range sh.o.Doubt.Cells {
		if c := &sh.o.Doubt.Cells[i]; c.Part == part {
			return endX(a, c)
		}
	}
	return 0, false
}

// signs lists the signs on record, as far as there is room.
func (sh *sheet) signs(y float64, whole qty.Length) {
	list := sh.signsTold()
	room := int((low + 4 - y) / 18)
	if sh.o.Told == nil {
		return
	}
	if len(list) == 0 {
		if room >= 1 {
			sh.text(sh.left, y+14, sh.say("signs-none"), Type{Size: small, Colour: Ink}, sh.right-sh.left)
		}
		return
	}
	for i, s := range list {
		if i == room-1 && len(list) > room {
			sh.text(sh.left+22, y+14, sh.say("more", "n", strconv.Itoa(len(list)-i)), Type{Size: small, Colour: Ink}, sh.right-sh.left-22)
			return
		}
		if i >= room {
			return
		}
		sh.tag(sh.left+9, y+9, strconv.Itoa(i+1), s.Class == table.Absolute)
		why := sh.say("sign-why", "share", sh.w.Share(share(s.Why)))
		if s.Class == table.Absolute {
			why = sh.say("sign-abs")
		}
		w := width(why, small, true)
		text := sh.say("sign", "words", sh.w.Name("sign", s.ID), "place", sh.place(s.At, whole), "day", s.Day.String())
		sh.text(sh.left+24, y+13.5, text, Type{Size: small, Colour: Ink}, sh.right-sh.left-40-w)
		sh.text(sh.right, y+13.5, why, Type{Size: small, Bold: true, Anchor: End, Colour: Ink}, 240)
		y += 18
	}
}
