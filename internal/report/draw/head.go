package draw

import (
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// head draws what the piece is, the outcome on its plate, and four readings. It
// gives the y below.
func (sh *sheet) head() float64 {
	sh.s.Open(Group{Title: sh.outcome(), Desc: sh.main()})
	defer sh.s.Close()
	id := cut(sh.o.Piece, 23, true, 250)
	sh.text(sh.left, 45, id, Type{Size: 23, Bold: true, Colour: Ink}, 251)
	x := sh.left
	if id != "" {
		x += width(id, 23, true) + 12
	}
	sh.text(x, 45, sh.kind(), Type{Size: 17, Colour: Ink}, 560-x)
	sh.text(sh.right, 33, sh.say("judged", "day", sh.o.AsOf.String()), Type{Size: normal, Anchor: End, Colour: Ink}, 290)
	exam := sh.shared("look.no-examination")
	if sh.o.Exam != "" {
		exam = sh.exam()
	}
	sh.text(sh.right, 51, exam, Type{Size: normal, Anchor: End, Colour: Soft}, 290)
	y := sh.plate(64)
	sh.readings(y + 22)
	return y + 84
}

// plate draws the outcome in large words with the main reason. Its frame tells
// the outcome without words: one line, two lines, a hatched border, all ink.
func (sh *sheet) plate(y float64) float64 {
	const h = 108.0
	ink, ground := sh.plateFrame(y, h)
	words := Type{Size: 42, Bold: true, Colour: ink, Ground: ground}
	rest := Type{Size: small, Anchor: End, Colour: words.Colour, Ground: ground}
	most := sh.right - sh.left - 56
	if n := len(sh.w.Reasons); n > 1 {
		note := sh.say("reasons", "n", strconv.Itoa(n))
		sh.text(sh.right-28, y+32, note, rest, 200)
		most -= width(note, small, false) + 20
	}
	lines := wrap(sh.main(), 15, false, sh.right-sh.left-56, 2)
	at, below := y+55, 28.0
	if len(lines) > 1 {
		words.Size, at, below = 38, y+47, 24
	}
	sh.text(sh.left+28, at, sh.outcome(), words, most)
	for i, l := range lines {
		sh.text(sh.left+28, at+below+18*float64(i), l, Type{Size: 15, Colour: words.Colour, Ground: ground}, sh.right-sh.left-55)
	}
	return y + h
}

// plateFrame draws the frame of the plate, h high, and gives the colours of what
// stands on it.
func (sh *sheet) plateFrame(y, h float64) (ink, ground Colour) {
	left, right := sh.left, sh.right
	paint := Paint{Stroke: Stroke{Colour: Ink, Width: 1.5}}
	ink, ground = Ink, Paper
	switch sh.o.Verdict {
	case kit.Keep:
	case kit.KeepSooner:
		sh.s.Rect(left+6, y+6, right-left-12, h-12, Paint{Stroke: Stroke{Colour: Ink, Width: 1.5, Dash: []float64{14, 7}}})
	case kit.SetAside:
		const b = 11.0
		sh.s.Rect(left, y, right-left, h, Paint{Fill: Floor})
		sh.hatch(box(left, y, right-left, h), 8, Stroke{Colour: Ink, Width: 2.6})
		sh.s.Rect(left+b, y+b, right-left-2*b, h-2*b, Paint{Fill: Paper, Stroke: Stroke{Colour: Ink, Width: 1.5}})
	default:
		paint.Fill, ink, ground = Ink, Paper, Ink
	}
	sh.s.Rect(left, y, right-left, h, paint)
	return ink, ground
}

// exam names the examination at hand with its day.
func (sh *sheet) exam() string {
	if sh.uncounted(string(sh.o.Exam), sh.o.ExamDay) {
		return sh.say("exam-uncounted", "exam", string(sh.o.Exam), "day", sh.o.ExamDay.String())
	}
	return sh.say("exam", "exam", string(sh.o.Exam), "day", sh.o.ExamDay.String())
}

// uncounted says whether there are examinations of that kind and day and none of
// them counts as such: they are looks before use, no more.
func (sh *sheet) uncounted(kind string, on qty.Day) bool {
	made, void := 0, 0
	for i := range sh.r.Examinations {
		if e := &sh.r.Examinations[i]; string(e.Kind) == kind && e.Day == on {
			made++
		}
	}
	for i := range sh.o.Uncounted {
		if u := &sh.o.Uncounted[i]; u.What == kind && u.Day == on {
			void++
		}
	}
	return made > 0 && void >= made
}

// nextWhy says why the next look is due then, and after how much use.
func (sh *sheet) nextWhy() string {
	n := &sh.o.Next
	var parts []string
	switch n.Why {
	case "doubt":
		parts = append(parts, sh.say("why-doubt"))
	case "examination":
		parts = append(parts, sh.say("why-exam"))
	case "life":
		parts = append(parts, sh.say("life"))
	case "reason":
		parts = append(parts, sh.say("why-reason"))
	case "half the usual interval":
		parts = append(parts, sh.say("why-half"))
	}
	if n.Hours > 0 {
		parts = append(parts, sh.say("next-hours", "hours", n.Hours.String()))
	}
	return strings.Join(parts, " · ")
}

// reading is a figure with what it is and what is to be said of it.
type reading struct{ label, value, sub string }

// figures gives the figures one looks for first.
func (sh *sheet) figures() []reading {
	not := sh.say("not")
	d := sh.o.Doubt
	doubt, limit := reading{sh.shared("where.doubt"), not, ""}, reading{sh.say("limit"), not, ""}
	if d != nil {
		doubt.value, doubt.sub = sh.oneIn(d.Millions), sh.millionths(d.Millions)
		limit.value, limit.sub = sh.oneIn(d.Limit), sh.say("limit-in")
		if d.Millions > d.Limit {
			limit.sub = sh.say("limit-over")
		}
		if sh.o.Limit.Looser() {
			limit.label = sh.say("limit-loose")
		}
	}
	next := reading{sh.say("next"), not, sh.say("no-date")}
	switch {
	case sh.o.Verdict == kit.Withdraw && sh.w.Unsaid:
		next.sub = sh.say("next-unsaid")
	case sh.o.Verdict == kit.Withdraw && sh.w.Open:
		next.sub = sh.say("next-open")
	case sh.o.Verdict == kit.Withdraw:
		next.sub = sh.shared("next.never")
	case sh.o.Verdict == kit.SetAside:
		next.sub = sh.say("next-aside")
	case sh.o.Next.Known:
		next.value, next.sub = sh.date(sh.o.Next.Day), sh.nextWhy()
	}
	life := reading{sh.say("life"), not, sh.say("no-due")}
	if sh.o.LifeEnd.Known {
		life.value = sh.date(sh.o.LifeEnd.Day)
	}
	if sh.o.Due.Known {
		life.sub = sh.say("exam-due", "day", sh.o.Due.Day.String())
	}
	all := []reading{doubt, limit, next, life}
	if d == nil {
		all = all[2:]
	}
	return all
}

// readings draws the figures.
func (sh *sheet) readings(y float64) {
	all := sh.figures()
	at := [...]float64{sh.left, sh.left + 206, sh.left + 394, sh.left + 614}
	for i, r := range all {
		x := at[i]
		most := sh.right - x
		if i+1 < len(all) {
			most = at[i+1] - x - 12
		}
		sh.text(x, y, r.label, Type{Size: small, Colour: Soft}, most)
		sh.text(x, y+23, r.value, Type{Size: 21, Bold: true, Colour: Ink}, most)
		sh.text(x, y+41, r.sub, Type{Size: 12, Colour: Soft}, most)
	}
}
