package draw

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// lanes draws what runs beside the line: looks kept up, the two forecasts,
// life. It gives the y below.
func (sh *sheet) lanes(t times, y float64) float64 {
	now := t.at(sh.o.AsOf)
	n := &sh.o.Next
	lane := func(name, value string, draw func(y float64)) {
		if sh.narrow {
			value, least := value, width(value, small, false)
			sh.text(sh.left, y+4, name, Type{Size: small, Colour: Ink}, sh.right-sh.left-least-8)
			sh.text(sh.right, y+4, value, Type{Size: small, Anchor: End, Colour: Ink}, least+1)
			draw(y + 17)
			y += 36
			return
		}
		sh.text(sh.plot0-8, y+4, name, Type{Size: small, Anchor: End, Colour: Ink}, sh.plot0-8-sh.left)
		sh.text(sh.plot1+15, y+4, value, Type{Size: small, Colour: Ink}, sh.right-sh.plot1-15)
		draw(y)
		y += 17
	}
	kept := sh.say("looks-none")
	if sh.anyPreUse() {
		kept = sh.say("looks-kept", "share", sh.w.Share(share(n.KeptShare)))
	}
	lane(sh.say("looks"), kept, func(y float64) { sh.runs(t, y) })
	if sh.o.Verdict < kit.Withdraw {
		sh.aheadLane(lane, t, now, sh.say("with"), &n.With, true)
		sh.aheadLane(lane, t, now, sh.say("without"), &n.Without, false)
	}
	life := sh.say("no-date")
	if sh.o.LifeEnd.Known {
		life = sh.say("life-to", "day", sh.o.LifeEnd.Day.String())
	}
	lane(sh.say("life-lane"), life, func(y float64) {
		x, end := t.x0, t.x1-2
		if p := sh.r.Piece.FirstUse; p.Known() {
			x = t.at(p.Earliest())
		}
		bar := Stroke{Colour: Ink, Width: 3}
		switch {
		case !sh.o.LifeEnd.Known:
			sh.s.Line(x, y, end, y, Stroke{Colour: Ink, Width: 3, Dash: []float64{1, 5}})
		case t.holds(sh.o.LifeEnd.Day):
			end = t.at(sh.o.LifeEnd.Day)
			sh.s.Line(x, y, end, y, bar)
			sh.s.Line(end, y-7, end, y+7, bar)
		default:
			sh.s.Line(x, y, end-8, y, bar)
			sh.arrow(end, y, Ink)
		}
	})
	return y + 6
}

func (sh *sheet) aheadLane(lane func(name, value string, draw func(float64)), t times, now float64, name string, f *decide.Date, kept bool) {
	value := sh.say("within-to", "day", f.Day.String())
	if f.Reached {
		value = sh.say("over-on", "day", f.Day.String())
	}
	lane(name, value, func(y float64) {
		end := t.x1 - 2
		if f.Reached && t.holds(f.Day) {
			end = t.at(f.Day)
			sh.s.Line(now, y, end, y, dots(kept))
			sh.reached(end, y)
			return
		}
		sh.s.Line(now, y, end-8, y, dots(kept))
		sh.arrow(end, y, Ahead)
	})
}

func (sh *sheet) anyPreUse() bool {
	for i := range sh.r.Examinations {
		if k := sh.r.Examinations[i].Kind; k == kit.PreUse || k == kit.Partner {
			return true
		}
	}
	return len(sh.r.Runs) > 0
}

// runs draws the pre-use looks on record: a row of ticks for a run, one tick
// for a single one.
func (sh *sheet) runs(t times, y float64) {
	tick := Stroke{Colour: Ink, Width: 1.2}
	sh.s.Line(t.x0, y, t.at(sh.o.AsOf), y, Stroke{Colour: Grid, Width: 1})
	for i := range sh.r.Runs {
		r := &sh.r.Runs[i]
		from, to := max(r.From, t.from), min(r.To, sh.o.AsOf)
		if from > to {
			continue
		}
		x0, x1 := t.at(from), t.at(to)
		sh.s.Line(x0, y+4, x1, y+4, tick)
		gap := max(4, (x1-x0)/float64(to-from+1))
		for x := x0; x <= x1+0.01; x += gap {
			sh.s.Line(x, y-4, x, y+4, tick)
		}
	}
	for i := range sh.r.Examinations {
		if e := &sh.r.Examinations[i]; (e.Kind == kit.PreUse || e.Kind == kit.Partner) && t.holds(e.Day) {
			x := t.at(e.Day)
			sh.s.Line(x, y-6, x, y+4, tick)
		}
	}
}
