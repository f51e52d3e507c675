package draw

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// line draws the saw-tooth of the doubt over time from y down, and gives the y
// below.
func (sh *sheet) line(y float64) float64 {
	points := sh.points()
	desc := sh.say("untold")
	if len(points) > 0 {
		low, high := points[0].D, points[0].D
		for _, p := range points {
			low, high = min(low, p.D), max(high, p.D)
		}
		desc = sh.say("line-desc", "from", points[0].Day.String(), "to", points[len(points)-1].Day.String(), "low", oneInOf(high), "high", oneInOf(low),
			"now", oneInOf(sh.o.Doubt.Millions), "hidden", oneInOf(sh.o.Doubt.HiddenUp), "limit", oneInOf(sh.o.Doubt.Limit))
	}
	sh.s.Open(Group{Title: sh.say("line"), Desc: desc})
	defer sh.s.Close()
	end := sh.section(y, sh.say("line"))
	if len(points) == 0 {
		return sh.lines(y+50, 17, sh.say("untold"), Type{Size: normal, Colour: Ink}, 4) + 9
	}
	last := points[len(points)-1]
	ahead := sh.forecasts(last)
	means := sh.say("line-means")
	if len(ahead) > 0 {
		means += " " + sh.say("ahead-means")
	}
	if sh.narrow {
		y = sh.lines(y+41, 16, means, Type{Size: small, Colour: Soft}, 4)
		d := sh.o.Doubt
		y = sh.flow(y+4, append([]sample{sh.limitSample(), sh.nowSample(sh.say("now-at", "n", oneInOf(d.Millions))), sh.hiddenSample(sh.hiddenAt())}, sh.markSamples(points)...)) - 34
	} else {
		sh.key(y+21, end+24, points)
		sh.text(sh.left, y+39, means, Type{Size: small, Colour: Soft}, sh.right-sh.left)
	}

	t := sh.span(points)
	top, bottom := y+68, y+238
	scale := decadesFor(sh.levels(points), bottom, top)
	scale.draw(sh, t.x0, t.x1)
	sh.days(t, top, bottom)

	floor, course := []Point{{t.at(points[0].Day), bottom}}, []Point(nil)
	for _, p := range points {
		x := t.at(p.Day)
		floor = append(floor, Point{x, scale.at(p.Hidden)})
		course = append(course, Point{x, scale.at(p.D)})
	}
	x := t.at(last.Day)
	sh.s.Polygon(append(floor, Point{x, bottom}), Paint{Fill: Floor})
	sh.hatch(append(floor, Point{x, bottom}), 7, Stroke{Colour: Rule, Width: 1})
	sh.s.Polyline(floor[1:], Stroke{Colour: Ink, Width: 1})
	sh.pointers(&scale, x, last)
	for i, way := range ahead {
		sh.ahead(t, &scale, way, last, i > 0)
	}
	sh.s.Polyline(course, Stroke{Colour: Doubt, Width: 2.4})
	for _, p := range points {
		if p.Mark != "" {
			sh.mark(p.Mark, t.at(p.Day), scale.at(p.D))
		}
	}
	t.draw(sh, bottom)
	return sh.lanes(t, bottom+38)
}

// points gives the doubt line in the order of days up to the day judged for,
// without what lies out of the calendar.
func (sh *sheet) points() []decide.Point {
	if sh.o.Told == nil {
		return nil
	}
	var out []decide.Point
	for _, p := range sh.o.Told.Line {
		if p.Day < qty.FirstDay || p.Day > qty.LastDay || (len(out) > 0 && p.Day < out[len(out)-1].Day) {
			continue
		}
		if sh.uncounted(p.Mark, p.Day) {
			p.Mark = string(kit.PreUse)
		}
		out = append(out, p)
	}
	if n := len(out); n > 0 && out[n-1].Day < sh.o.AsOf && sh.o.AsOf <= qty.LastDay {
		out = append(out, decide.Point{Day: sh.o.AsOf, After: true, D: sh.o.Doubt.Millions, Hidden: sh.o.Doubt.HiddenUp})
	}
	return out
}

func (sh *sheet) levels(points []decide.Point) []int64 {
	out := []int64{sh.o.Doubt.Limit, sh.o.Doubt.Millions}
	for _, p := range points {
		out = append(out, p.D)
	}
	for _, way := range sh.forecasts(points[len(points)-1]) {
		for _, p := range way {
			out = append(out, p.D)
		}
	}
	return append(out, sh.o.Doubt.HiddenUp)
}

// forecasts gives what is known of the doubt to come, without looks and with
// them; none for what is not used again, or is over the limit already.
func (sh *sheet) forecasts(last decide.Point) [][]decide.Point {
	t := sh.o.Told
	if t == nil || sh.o.Verdict == kit.Withdraw || last.D > sh.o.Doubt.Limit || len(t.With)+len(t.Without) == 0 {
		return nil
	}
	return [][]decide.Point{t.Without, t.With}
}

// span gives the days in view: all that was, and so much of what lies ahead as
// does not crowd it.
func (sh *sheet) span(points []decide.Point) times {
	t := times{from: points[0].Day, to: points[len(points)-1].Day, x0: sh.plot0, x1: sh.plot1}
	past := t.to - t.from
	if sh.o.Verdict == kit.Withdraw {
		t.to += max(14, past/20)
		return t
	}
	most := t.to + max(120, past/2)
	t.to += max(30, past/8)
	n := &sh.o.Next
	for _, d := range []qty.Day{n.Day, n.With.Day, n.Without.Day, sh.o.LifeEnd.Day} {
		if d > t.from && d+10 <= most {
			t.to = max(t.to, d+10)
		}
	}
	return t
}

// days marks the day judged for and the day of the next look.
func (sh *sheet) days(t times, top, bottom float64) {
	x := t.at(sh.o.AsOf)
	sh.s.Line(x, top-4, x, bottom, Stroke{Colour: Ink, Width: 0.8})
	style := Type{Size: small, Anchor: End, Colour: Ink}
	label := sh.say("judged", "day", sh.o.AsOf.String())
	if x-width(label, small, false) < sh.left {
		style.Anchor = Start
	}
	sh.text(x, top-8, label, style, 300)
	if n := &sh.o.Next; n.Known && sh.o.Verdict < kit.SetAside && t.holds(n.Day) {
		x2 := t.at(n.Day)
		sh.s.Line(x2, top-4, x2, bottom, Stroke{Colour: Ink, Width: 1.4, Dash: []float64{5, 4}})
		label := sh.say("look-by", "day", n.Day.String())
		if sh.narrow { // over the other one
			w := width(label, small, true)
			sh.text(max(sh.left, min(x2-6, sh.right-w)), top-23, label, Type{Size: small, Bold: true, Colour: Ink}, w+1)
			return
		}
		at := max(min(x2-6, sh.right-width(label, small, true)), x+12)
		sh.text(at, top-8, label, Type{Size: small, Bold: true, Colour: Ink}, sh.right-at+1)
	}
}

// pointers reads the limit, the doubt and its hidden part off at the right edge.
func (sh *sheet) pointers(scale *decades, x float64, last decide.Point) {
	d := sh.o.Doubt
	sh.fence(sh.plot0, sh.plot1, scale.at(d.Limit))
	read := []struct {
		text string
		bold bool
	}{{sh.limitAt(), false}, {sh.say("now-at", "n", oneInOf(d.Millions)), true}, {sh.hiddenAt(), false}}
	at := []float64{scale.at(d.Limit), scale.at(last.D), scale.at(last.Hidden)}
	if d.Millions >= d.Limit && at[1] >= at[0] {
		at[0] += 0.01 // the larger doubt is read above the limit
	}
	places := spread(at, 17, scale.top+4, scale.bottom)
	for i, r := range read {
		if i > 0 {
			sh.s.Line(x, at[i], sh.plot1, at[i], Stroke{Colour: Ink, Width: 0.8})
		}
		if sh.narrow {
			continue // the key says it
		}
		sh.s.Polyline([]Point{{sh.plot1, at[i]}, {sh.plot1 + 8, places[i]}, {sh.plot1 + 12, places[i]}}, Stroke{Colour: Ink, Width: 0.8})
		sh.text(sh.plot1+15, places[i]+4.5, r.text, Type{Size: small, Bold: r.bold, Colour: Ink}, sh.right-sh.plot1-15)
	}
}

func (sh *sheet) limitAt() string  { return sh.say("limit-at", "n", oneInOf(sh.o.Doubt.Limit)) }
func (sh *sheet) hiddenAt() string { return sh.say("hidden-at", "n", oneInOf(sh.o.Doubt.HiddenUp)) }

// dots are the dashes of the two forecasts: looks kept up, and not.
func dots(kept bool) Stroke {
	if kept {
		return Stroke{Colour: Ahead, Width: 2.6, Dash: []float64{2.6, 3.4}}
	}
	return Stroke{Colour: Ahead, Width: 2.6, Dash: []float64{2.6, 9}}
}

// ahead draws a forecast on from the last point, as far as it is in view.
func (sh *sheet) ahead(t times, scale *decades, way []decide.Point, last decide.Point, kept bool) {
	line := []Point{{t.at(last.Day), scale.at(last.D)}}
	was := last
	for _, p := range way {
		if p.Day <= was.Day {
			continue
		}
		end := line[len(line)-1]
		if !t.holds(p.Day) { // it leaves the sheet between two points
			share := (float64(t.to) - float64(was.Day)) / (float64(p.Day) - float64(was.Day))
			line = append(line, Point{t.x1, end.Y + float64(share*(scale.at(p.D)-end.Y))})
			break
		}
		line = append(line, Point{t.at(p.Day), scale.at(p.D)})
		was = p
	}
	if len(line) == 1 {
		return
	}
	sh.s.Polyline(line, dots(kept))
	if was.D > sh.o.Doubt.Limit {
		end := line[len(line)-1]
		sh.reached(end.X, end.Y)
	}
}

// key names the marks that occur, right-aligned on the line of the title.
func (sh *sheet) key(y, from float64, points []decide.Point) {
	x := sh.right
	put := func(label string, draw func(x float64)) {
		w := width(label, small, false)
		if x-w-24 < from {
			return
		}
		sh.text(x, y, label, Type{Size: small, Anchor: End, Colour: Ink}, w+1)
		draw(x - w - 12)
		x -= w + 34
	}
	put(sh.say("hidden-key"), func(x float64) { sh.unknown(x-9, y-10, 16, 12) })
	for i := len(markNames) - 1; i >= 0; i-- {
		kind := markNames[i]
		seen := false
		for _, p := range points {
			seen = seen || p.Mark == kind
		}
		if seen {
			put(sh.w.Name("mark", kind), func(x float64) { sh.mark(kind, x, y-4.5) })
		}
	}
}
