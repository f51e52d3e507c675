package fold

import (
	"bytes"
	"cmp"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Stopped is what people did about the use of a piece, with the act that counts:
// the one that took it out of use for good, whatever was done since; else the last
// of those that set it aside and still hold; else the last that was done by hand.
type Stopped struct {
	Aside     bool
	Withdrawn bool
	Held      bool
	Cut       bool
	Latest    qty.Day // the latest date for the next examination that the standing decisions name; 0 for none
	Passed    bool    // that date has passed on the day of On
	Act
}

// On is how that stands on a day: past the latest date that was decided, a piece is
// set aside.
func (s Stopped) On(day qty.Day) Stopped {
	s.Passed = s.Latest != 0 && day > s.Latest
	return s
}

// Act is something that a person did about the use of a piece.
type Act struct {
	What  string // one of Stops; "" where nothing was done
	Day   qty.Day
	By    string
	Why   string
	Index int64 // of its entry

	Decided bool // it was a decision on an examination
}

// ForGood says whether the piece was taken out of use for good.
func (s *Stopped) ForGood() bool { return s.Withdrawn || s.Held || s.Cut }

// Verdict gives what that comes to by itself.
func (s *Stopped) Verdict() kit.Verdict {
	switch {
	case s.ForGood():
		return kit.Withdraw
	case s.Aside || s.Passed:
		return kit.SetAside
	}
	return kit.Keep
}

// Stopped follows what people did about the use of a piece, and what was decided
// on it: a decision takes effect with its entry. To set aside by a decision is
// lifted by a later one on the same examination or a later one, or by hand.
func (p *Piece) Stopped() (st Stopped) {
	var hand, decision, last Act // the last that set it aside, by hand and by a decision; the last by hand
	decided, lifts := false, seen{}
	dates := dates{}
	var exams map[string]seen
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Kind != entry.Stop && l.Kind != entry.Decision || l.Void {
			continue
		}
		v, err := p.kept.body(p.Lines, i)
		if err != nil {
			st.Aside = true // what is not understood never counts as good
			continue
		}
		act := Act{Day: l.Day, By: l.Author, Index: l.Index, Decided: l.Kind == entry.Decision}
		on := seen{}
		switch b := v.(type) {
		case *Stop:
			act.What, act.Why = b.What, b.Why
		case *Decision:
			if exams == nil {
				exams = p.seen()
			}
			at, known := exams[b.Examination]
			if !known { // of an older book, or its examination was taken out: it lifts nothing
				at = seen{l.Day, l.Index, kit.Thorough}
			}
			if !dates.take(b, at, known) {
				st.Aside = true // as above
			}
			verdict, ok := kit.ParseVerdict(b.Verdict)
			switch {
			case !ok:
				st.Aside = true // as above
				continue
			case verdict < kit.SetAside:
				decided = decided && (!known || at.before(lifts))
				continue
			}
			act.What, act.Why, on = verdict.String(), b.Why, at
		}
		if !act.Decided {
			last = act
		}
		if !st.ForGood() {
			st.Act = act
		}
		switch act.What {
		case "set aside":
			if !act.Decided {
				st.Aside, hand = true, act
				break
			}
			if !decided || lifts.before(on) {
				lifts = on
			}
			decided, decision = true, act
		case "withdraw":
			st.Withdrawn = true
		case "hold":
			st.Withdrawn, st.Held = true, true
		case "release":
			st.Held = false
		case "cut up":
			st.Cut = true
		case "back in use":
			st.Aside, decided, hand = false, false, Act{}
		}
	}
	if st.Latest = dates.standing(); !st.ForGood() {
		switch {
		case decided && decision.Index > hand.Index || decided && hand.What == "":
			st.Act = decision
		case hand.What != "":
			st.Act = hand
		default:
			st.Act = last
		}
	}
	st.Aside = st.Aside || decided
	return st
}

// seen is where an examination stands among those of a piece: by its day, and on
// one day by its place in the book.
type seen struct {
	day   qty.Day
	index int64
	kind  kit.ExamKind
}

func (a seen) before(b seen) bool { return a.day < b.day || a.day == b.day && a.index < b.index }

// seen gives where the interim and thorough examinations stand, by their names.
func (p *Piece) seen() map[string]seen {
	out := map[string]seen{}
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Kind != entry.Examination || l.Void {
			continue
		}
		if v, err := p.kept.body(p.Lines, i); err == nil {
			if e := v.(*kit.Examination); e.Ref != "" && (e.Kind == kit.Interim || e.Kind == kit.Thorough) {
				out[e.Ref] = seen{l.Day, l.Index, e.Kind}
			}
		}
	}
	return out
}

// dates are the latest dates for the next examination that decisions name: of each
// examination that of the last decision on it, by its name.
type dates map[string]struct {
	on    seen
	known bool
	day   qty.Day // 0 for none
}

// take takes a decision on an examination; false where its date cannot be read. Of a
// month the first day counts.
func (d dates) take(b *Decision, on seen, known bool) bool {
	x := d[b.Examination]
	x.on, x.known, x.day = on, known, 0
	ok := true
	if b.Latest != "" {
		p, err := qty.ParseDate(b.Latest)
		if ok = err == nil && p.Known(); ok {
			x.day = p.Earliest()
		}
	}
	d[b.Examination] = x
	return ok
}

// standing gives the earliest of the dates that hold: each does until a decision on
// a later examination of the same or a stricter kind.
func (d dates) standing() (day qty.Day) {
	for _, x := range d {
		holds := x.day != 0 && (day == 0 || x.day < day)
		for _, y := range d {
			holds = holds && !(y.known && x.on.before(y.on) && y.on.kind.Rank() >= x.on.kind.Rank())
		}
		if holds {
			day = x.day
		}
	}
	return day
}

// Decisions gives the decisions on a piece, in the order of the book.
func (p *Piece) Decisions() []Decided {
	var out []Decided
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Kind != entry.Decision || l.Void {
			continue
		}
		if v, err := p.kept.body(p.Lines, i); err == nil {
			out = append(out, Decided{l, v.(*Decision)})
		}
	}
	return out
}

// thorough is how the canonical body of a thorough examination says so.
var thorough = []byte(`"kind":"thorough"`)

// Undecided says whether a thorough examination is in the book on which nobody has
// decided. Those from before the piece was registered were decided on paper.
func (p *Piece) Undecided() bool {
	var on map[string]bool // what was decided on, by name, or by the day where no name was given
	for i := len(p.Lines) - 1; i >= 0; i-- {
		l := &p.Lines[i]
		if l.Void || l.Kind != entry.Examination || l.Day < p.Lines[0].Day || !bytes.Contains(l.Body, thorough) {
			continue
		}
		v, err := p.kept.body(p.Lines, i)
		if err != nil {
			return true
		}
		if on == nil {
			on = map[string]bool{}
			for _, d := range p.Decisions() {
				on[cmp.Or(d.Examination, "nameless "+d.Day.String())] = true
			}
		}
		if e := v.(*kit.Examination); !on[cmp.Or(e.Ref, "nameless")] && !on["nameless "+e.Day.String()] {
			return true
		}
	}
	return false
}

// Decided is a decision with its line.
type Decided struct {
	*Line
	*Decision
}

// Holder gives who holds a piece on a day, and where it hangs when nobody does.
func (p *Piece) Holder(day qty.Day) (person, place string) {
	from := qty.FirstDay
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.Kind != entry.Hang || l.Void || l.Day > day || l.Day < from {
			continue
		}
		if v, err := p.kept.body(p.Lines, i); err == nil {
			b := v.(*Hang)
			person, place, from = b.Holder, b.Place, l.Day
		}
	}
	return person, place
}

// KindOf gives the kind of an entry about a piece or somebody; "" for any other.
func (s *State) KindOf(id entry.ID) entry.Kind {
	switch w := s.at[id]; {
	case w.piece != nil:
		return w.piece.Lines[w.line].Kind
	case w.who != nil:
		return w.who.Lines[w.line].Kind
	}
	return ""
}

// Where gives the piece that an entry is about: nil for one that is about none.
func (s *State) Where(id entry.ID) (*Piece, bool) {
	w, ok := s.at[id]
	return w.piece, ok
}
