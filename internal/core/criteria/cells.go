package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"slices"
)

// span is a stretch along the piece, From <= To.
type span struct{ from, to qty.Length }

// length gives the length of the piece; where none is on record, the usual
// length of its kind and false.
func (j *judge) length() (qty.Length, bool) {
	if l := j.r.Piece.Length; l > 0 {
		return l, true
	}
	return j.k.Length, false
}

// lengthOn gives the length that the piece had on a day.
func (j *judge) lengthOn(day qty.Day) (qty.Length, bool) {
	if j.r.Said == nil {
		return j.length()
	}
	long := j.k.Length
	if l := j.r.Said.Piece.Length; l > 0 {
		long = l
	}
	d := j.r.Said.DatumOn(day, long)
	return d.To - d.From, j.r.Said.Piece.Length > 0
}

// now gives a gap as it is said now, of a day on which it was left; ok is false
// where what was left out has been cut off since.
func (j *judge) now(g gap, day qty.Day) (out gap, ok bool) {
	if j.r.Said == nil || g.part == "" && g.to == 0 {
		return g, true
	}
	p := j.k.Moved(j.r.Said, kit.Place{Part: g.part, From: g.from, To: g.to}, day)
	g.part, g.from, g.to = p.Part, p.From, p.To
	return g, !p.Gone
}

// cellGaps gives what was not gone over in every cell and side of which less
// than the needed share (in millionths) was. Neighbouring stretches are one;
// sides with the same gaps are told together. A length that is not on record
// is a gap of its own: nobody can tell whether the rest was gone over.
func (j *judge) cellGaps(went []kit.Stretch, need int64, day qty.Day) []gap {
	length, measured := j.lengthOn(day)
	cell := j.k.Cell
	if cell <= 0 || cell > length {
		cell = length
	}
	sides := j.sides()
	missing := make([][]span, len(sides))
	whole := true
	for i, side := range sides {
		over, all := spansOn(went, side, length)
		whole = whole && all
		if !all {
			missing[i] = shortOf(over, length, cell, need)
		}
	}
	var out []gap
	told := make([]bool, len(sides))
	for i := range sides {
		if told[i] || len(missing[i]) == 0 {
			continue
		}
		var same []string
		for k := i; k < len(sides); k++ {
			if slices.Equal(missing[i], missing[k]) {
				told[k] = true
				same = append(same, sides[k])
			}
		}
		for _, s := range missing[i] {
			out = append(out, gap{from: s.from, to: s.to, sides: j.some(same)})
		}
	}
	if !measured && !whole {
		out = append(out, gap{})
	}
	return out
}

// spansOn gives what was gone over on one side, in order and merged; all is
// true where that is the whole piece by its own word.
func spansOn(went []kit.Stretch, side string, length qty.Length) (over []span, all bool) {
	for i := range went {
		s := &went[i]
		if !onSide(s, side) {
			continue
		}
		if s.All {
			return nil, true
		}
		if s.Part != "" {
			continue
		}
		if x := (span{max(s.From, 0), min(s.To, length)}); x.to > x.from {
			over = append(over, x)
		}
	}
	for i := 1; i < len(over); i++ {
		for k := i; k > 0 && over[k].from < over[k-1].from; k-- {
			over[k], over[k-1] = over[k-1], over[k]
		}
	}
	merged := over[:0]
	for _, s := range over {
		if n := len(merged); n > 0 && s.from <= merged[n-1].to {
			merged[n-1].to = max(merged[n-1].to, s.to)
			continue
		}
		merged = append(merged, s)
	}
	return merged, false
}

// shortOf gives the parts not gone over of all cells in which less than need
// (in millionths of the cell) was, neighbours joined.
func shortOf(over []span, length, cell qty.Length, need int64) []span {
	var out []span
	for from := qty.Length(0); from < length; from += cell {
		to := min(from+cell, length)
		covered := qty.Length(0)
		for _, s := range over {
			if a, b := max(s.from, from), min(s.to, to); b > a {
				covered += b - a
			}
		}
		if int64(covered)*1_000_000 >= need*int64(to-from) {
			continue
		}
		at := from
		for _, s := range over {
			if s.to <= at || s.from >= to {
				continue
			}
			out = extend(out, span{at, max(s.from, at)})
			at = min(s.to, to)
		}
		out = extend(out, span{at, to})
	}
	return out
}

// extend adds a span, joined to the last one where they meet; an empty one adds nothing.
func extend(list []span, s span) []span {
	if s.to <= s.from {
		return list
	}
	if n := len(list); n > 0 && list[n-1].to == s.from {
		list[n-1].to = s.to
		return list
	}
	return append(list, s)
}
