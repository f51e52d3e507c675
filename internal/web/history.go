package web

import (
	"cmp"
	"slices"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/report"
)

// happened is one line of a piece's history.
type happened struct {
	Day   qty.Day
	To    qty.Day // of a run; 0 for one day
	What  string
	By    string   // who did it, who entered it, and when
	Said  []string // sentences
	Today []string // what today's core says otherwise of an outcome that was given
	Link  string   // where more is told; "" for nowhere
	Marks []mark   // where along the piece, as shares of its length
	Spots string   // the same in words; "" where nothing has a place
}

// mark is a stretch of the strip that stands for the piece.
type mark struct{ X, Width string }

// teller puts a history into words.
type teller struct {
	s      *Site
	r      *kit.Record
	n      report.Namer
	people []app.Somebody // everybody who ever was in the yard
	lines  []fold.Line    // about the piece
}

// history tells everything that was done to a piece, the latest first.
func (s *Site) history(j *app.Judged, deeds []app.Deed, pasts []app.Past, lines []fold.Line, people []app.Somebody) []happened {
	r := s.app.Tables().Kind(j.Record.Piece.Kind).Now(j.Record) // each place where it lies today
	t := teller{s, r, report.Names(j.Outcome, s.app.Tables(), r, s.told()), people, lines}
	var out []happened
	entered := func(list []happened, kinds ...entry.Kind) {
		t.entered(list, kinds...)
		out = append(out, list...)
	}
	var list []happened
	for i := range r.Examinations {
		list = append(list, t.examination(&r.Examinations[i]))
	}
	entered(list, entry.Examination)
	list = nil
	for i := range r.Runs {
		x := &r.Runs[i]
		list = append(list, happened{Day: x.From, To: x.To, What: s.say("history.run", "exam", string(x.Kind)), By: x.By, Said: []string{t.looks(x.Looks)}})
	}
	entered(list, entry.Run)
	list = nil
	for i := range r.Events {
		list = append(list, t.event(&r.Events[i]))
	}
	entered(list, entry.Event)
	list = nil
	for i := range r.Answers {
		list = append(list, t.answer(&r.Answers[i]))
	}
	entered(list, entry.Answer)
	list = nil
	for i := range r.Changes {
		c := &r.Changes[i]
		h := happened{Day: c.Day, What: s.say("history.change", "what", s.word("change", c.What)), By: c.By}
		if c.Words != "" {
			h.Said = append(h.Said, c.Words)
		}
		list = append(list, h)
	}
	entered(list, entry.Change)
	list = nil
	for _, d := range deeds {
		if d.Decision {
			continue
		}
		h := happened{Day: d.Day, By: d.By, What: s.word("stop", d.What)}
		if d.Why != "" {
			h.Said = append(h.Said, d.Why)
		}
		list = append(list, h)
	}
	entered(list, entry.Stop)
	for i := range pasts {
		out = append(out, t.decision(&pasts[i]))
	}
	out = append(out, t.kept(r.Piece.ID, lines)...)
	slices.SortStableFunc(out, func(a, b happened) int { return cmp.Compare(b.Day, a.Day) })
	return out
}

func (t *teller) who(id string) string {
	if id == "" {
		return ""
	}
	return t.s.called(t.people, id)
}

// entered says of each line of one sort who did it and who entered it. A record
// keeps the order of the entries that it is made of; where their numbers differ,
// nobody is named as having entered what another may have.
func (t *teller) entered(list []happened, kinds ...entry.Kind) {
	var from []*fold.Line
	for i := range t.lines {
		if l := &t.lines[i]; !l.Void && slices.Contains(kinds, l.Kind) {
			from = append(from, l)
		}
	}
	for i := range list {
		h := &list[i]
		if len(from) != len(list) {
			if h.By != "" {
				h.By = t.s.say("history.by", "who", t.who(h.By))
			}
			continue
		}
		h.By = t.s.by(t.people, from[i], h.By, max(h.Day, h.To))
	}
}

func (t *teller) looks(looks []kit.Look) string {
	var all, some []string
	for i := range looks {
		l := &looks[i]
		whole := len(l.Covers) == 0
		for _, c := range l.Covers {
			whole = whole || c.All
		}
		if whole {
			all = append(all, t.n.Look(l.Look))
		} else {
			some = append(some, t.n.Look(l.Look))
		}
	}
	return t.s.say("history.looks", "looks", t.s.words.List(all), "part", t.s.words.List(some))
}

func (t *teller) examination(e *kit.Examination) happened {
	h := happened{Day: e.Day, What: t.s.shared("exam." + string(e.Kind)), By: e.Maker()}
	if len(e.Looks) > 0 {
		h.Said = append(h.Said, t.looks(e.Looks))
	}
	for i := range e.Signs {
		g := &e.Signs[i]
		id := g.Sign
		if id == "" {
			id = t.signOf(g.Ref)
		}
		h.Said = append(h.Said, t.s.say("history.sign", "sign", t.n.Sign(id), "state", string(g.State), "where", t.n.Where(g.At), "words", g.Words))
		h.place(t, g.At)
	}
	for i := range e.Readings {
		m := &e.Readings[i]
		var values []string
		for _, v := range append(slices.Clone(m.Values), m.Again...) {
			values = append(values, v.String())
		}
		h.Said = append(h.Said, t.s.say("history.reading", "quantity", t.n.Quantity(m.Quantity), "where", t.n.Where(m.At), "values", t.s.words.List(values)))
		h.place(t, m.At)
	}
	switch e.WouldClimb {
	case kit.SaidNo, kit.NotKnown:
		h.Said = append(h.Said, t.s.say("history.would-not"))
	}
	if e.SignedBy != "" {
		h.Said = append(h.Said, t.s.say("history.signed", "who", t.who(e.SignedBy)))
	}
	return h
}

// signOf gives the sign that a ref of the record stands for.
func (t *teller) signOf(ref string) string {
	for i := range t.r.Examinations {
		for _, g := range t.r.Examinations[i].Signs {
			if g.Ref == ref && g.Sign != "" {
				return g.Sign
			}
		}
	}
	return ref
}

func (t *teller) event(e *kit.Event) happened {
	h := happened{Day: e.Day, What: t.n.Event(e.Event)}
	if e.Substance != "" {
		h.Said = append(h.Said, t.s.say("history.substance", "what", t.n.Substance(e.Substance), "amount", e.Amount))
	}
	if e.Travel >= 0 {
		h.Said = append(h.Said, t.s.say("history.travel", "length", e.Travel.String()))
	}
	if e.Injury {
		h.Said = append(h.Said, t.s.say("history.injury"))
	}
	if e.Words != "" {
		h.Said = append(h.Said, e.Words)
	}
	if e.PlaceSaid {
		h.Said = append(h.Said, t.n.Where(e.At))
		h.place(t, e.At)
	}
	return h
}

func (t *teller) answer(a *kit.Answer) happened {
	h := happened{Day: a.Day, What: t.s.say("history.answer", "to", a.To), By: a.By}
	if a.Unfit {
		h.Said = append(h.Said, t.s.say("history.unfit"))
	}
	if a.Cause != "" {
		h.Said = append(h.Said, t.s.say("history.cause", "cause", t.n.Cause(a.Cause)))
	}
	for _, x := range []string{a.Verified, a.Document} {
		if x != "" {
			h.Said = append(h.Said, x)
		}
	}
	return h
}

// decision tells a decision with the outcome that was given, and what today's
// core says otherwise. What was given stays.
func (t *teller) decision(x *app.Past) happened {
	h := happened{Day: x.Day, By: t.s.by(t.people, x.Line, x.Author, x.Day), What: t.s.say("history.decision", "verdict", x.Verdict)}
	if x.Why != "" {
		h.Said = append(h.Said, x.Why)
	}
	h.Said = append(h.Said, t.s.say("history.outcome", "said", t.said(x.Outcome, x.Millions)))
	if x.Core != nil {
		h.Today = append(h.Today, t.s.say("history.other-core", "said", t.now(x.Core)))
	}
	if x.Recorded != nil && (x.Core == nil || t.now(x.Recorded) != t.now(x.Core)) {
		h.Today = append(h.Today, t.s.say("history.other-record", "said", t.now(x.Recorded)))
	}
	return h
}

func (t *teller) now(x *app.Said) string {
	if x.Err != nil {
		return t.s.say("history.no-outcome")
	}
	return t.said(x.Verdict, x.Millions)
}

// said gives an outcome with its doubt.
func (t *teller) said(v kit.Verdict, millions int64) string {
	doubt := ""
	if millions >= 0 {
		doubt = t.s.chance(millions)
	}
	return t.s.say("history.said", "verdict", t.s.verdict(v), "doubt", doubt)
}

// place puts a mark on the strip of a line, for a place along the piece.
func (h *happened) place(t *teller, p kit.Place) {
	length := t.r.Piece.Length
	if p.Whole || p.Gone || p.Part != "" || length <= 0 || p.To == 0 && p.From == 0 {
		return
	}
	from := min(1, float64(p.From)/float64(length))
	wide := max(0.012, min(1, float64(p.To)/float64(length))-from)
	h.Marks = append(h.Marks, mark{units(min(from, 0.988)), units(wide)})
	where := t.n.Where(p)
	if !strings.Contains(h.Spots, where) {
		if h.Spots != "" {
			h.Spots += "; "
		}
		h.Spots += where
	}
}
