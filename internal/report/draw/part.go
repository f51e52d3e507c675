package draw

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// The parts of a sheet that can be drawn by themselves.
const (
	PartLine  = "line"  // the doubt over time
	PartFall  = "fall"  // its fall, look by look
	PartAlong = "along" // where along the piece it sits
)

// Part draws one part of a sheet by itself, to stand inside a page; nil where
// the outcome has no doubt to draw. It is as wide as a sheet.
func Part(part string, o *decide.Outcome, r *kit.Record, w Words) []byte {
	return onePart(part, desk, o, r, w)
}

// NarrowPart draws the same for a phone.
func NarrowPart(part string, o *decide.Outcome, r *kit.Record, w Words) []byte {
	return onePart(part, phone, o, r, w)
}

func onePart(part string, f frame, o *decide.Outcome, r *kit.Record, w Words) []byte {
	if o.Doubt == nil || o.Told == nil {
		return nil
	}
	sh := &sheet{frame: f, o: o, r: r, w: w}
	about, high := sh.say("along"), 0.0
	switch part {
	case PartLine:
		about = sh.say("line")
	case PartFall:
		about = sh.say("fall")
	}
	mark := "d"
	if f.narrow {
		mark = "n" // the wide one can stand in the same page
	}
	svg := marked(mark, sh.say("title", "piece", o.Piece, "kind", sh.kind(), "outcome", sh.verdict())+" · "+about, sh.say("desc", "day", o.AsOf.String()))
	sh.s = svg
	top := 14.0
	svg.Rect(0, 0, f.wide, deepest, Paint{Fill: Paper})
	switch {
	case part == PartLine:
		high = sh.line(top)
	case part == PartFall && f.narrow:
		high = sh.fallNarrow(top)
	case part == PartFall:
		high = sh.fall(top)
	case f.narrow:
		high = sh.along(top)
	default: // it fills what is left of a sheet
		top = 724
		high = sh.along(top) + 10
	}
	return svg.Inside(top-14, f.wide, high-top+14)
}

// deepest is further down than any part comes out; what is below is not shown.
const deepest = 20_000
