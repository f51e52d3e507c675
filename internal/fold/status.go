package fold

import (
	"bytes"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Stopped is what people did about the use of a piece, with the act that counts:
// the one that took it out of use for good, whatever was done since, else the last.
type Stopped struct {
	Aside     bool
	Withdrawn bool
	Held      bool
	Cut       bool
	Act
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
	case s.Aside:
		return kit.SetAside
	}
	return kit.Keep
}

// Stopped follows what people did about the use of a piece, and what was decided
// on it: a decision takes effect with its entry. To set aside by a decision is
// lifted by a later one, or by hand.
func (p *Piece) Stopped() (st Stopped) {
	decided := false // set aside by a decision
	defer func() { st.Aside = st.Aside || decided }()
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
		what, why := "", ""
		switch b := v.(type) {
		case *Stop:
			what, why = b.What, b.Why
		case *Decision:
			verdict, ok := kit.ParseVerdict(b.Verdict)
			switch {
			case !ok:
				st.Aside = true // as above
				continue
			case verdict < kit.SetAside:
				decided = false
				continue
			}
			what, why = verdict.String(), b.Why
		}
		if !st.ForGood() {
			st.Act = Act{what, l.Day, l.Author, why, l.Index, l.Kind == entry.Decision}
		}
		switch what {
		case "set aside":
			if l.Kind == entry.Decision {
				decided = true
			} else {
				st.Aside = true
			}
		case "withdraw":
			st.Withdrawn = true
		case "hold":
			st.Withdrawn, st.Held = true, true
		case "release":
			st.Held = false
		case "cut up":
			st.Cut = true
		case "back in use":
			st.Aside, decided = false, false
		}
	}
	return st
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

// Undecided says whether a thorough examination was entered after the last
// decision. Those from before the piece was registered were decided on paper.
func (p *Piece) Undecided() bool {
	for i := len(p.Lines) - 1; i >= 0; i-- {
		switch l := &p.Lines[i]; {
		case l.Void:
		case l.Kind == entry.Decision:
			return false
		case l.Kind == entry.Examination && bytes.Contains(l.Body, thorough):
			return l.Day >= p.Lines[0].Day
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
