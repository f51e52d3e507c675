package report

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Options says how a text is laid out.
type Options struct {
	Width int  // characters in a line; below 40 means 80
	Full  bool // everything; else what fits a screen

	Stands kit.Verdict // what a piece comes to with what people did about its use, where that is stricter than the outcome: it heads the text
	Gone   bool        // people took it out of use for good: nothing is to be done, or looked at, any more
}

// Text writes an outcome for a terminal. The outcome must have been asked for
// with its explanation for the parts that come from it; without it they are
// left out.
func Text(w io.Writer, o *decide.Outcome, t *table.Tables, r *kit.Record, words Words, opt Options) error {
	if opt.Width < 40 {
		opt.Width = 80
	}
	p := &page{width: opt.Width}
	(&text{speaker: newSpeaker(o, t, r, words), pen: p, room: opt.Width - 24, full: opt.Full, stands: opt.Stands, gone: opt.Gone}).all()
	_, err := io.WriteString(w, p.b.String())
	return err
}

// pen takes a text as it is written: the parts of a report in their order.
type pen interface {
	title(s string)        // begins a section
	under(s string)        // begins a part of a section
	wrap(lead, s string)   // a paragraph of its own
	para(s string)         // a paragraph of a section
	item(s string)         // one of a list
	note(s string)         // what belongs to the item above
	table(rows [][]string) // rows of cells, the first row is the head
}

// text is a text under way.
type text struct {
	*speaker
	pen
	room   int // characters for the strip along the piece
	full   bool
	stands kit.Verdict // as in Options
	gone   bool
}

// all writes the whole text.
func (x *text) all() {
	x.head()
	x.reasons()
	if !x.gone {
		x.open()
		x.next()
	}
	x.doubt()
	x.told()
}

func (x *text) head() {
	x.wrap("", x.headed(kit.Stricter(x.o.Verdict, x.stands)))
	if x.o.Exam != "" {
		x.wrap("", x.Say("head.examined", arg{Name: "exam", Value: string(x.o.Exam)}, arg{Name: "exam-day", Value: x.o.ExamDay.String()}))
	}
	if x.o.Later > 0 {
		x.wrap("", x.Say("head.later", arg{Name: "n", Value: strconv.Itoa(x.o.Later)}))
	}
	for i := range x.o.Uncounted {
		x.wrap("", x.uncounted(&x.o.Uncounted[i]))
	}
	if x.o.Limit.Looser() {
		x.wrap("", x.looser())
	}
}

// uncounted says which entry does not count, and why not.
func (s *speaker) uncounted(u *criteria.Uncounted) string {
	return s.Say("uncounted."+u.Why, arg{Name: "exam", Value: u.What}, arg{Name: "day", Value: u.Day.String()}, arg{Name: "by", Value: u.By},
		arg{Name: "to", Value: u.To})
}

// headline gives the outcome in words, with piece and day.
func (s *speaker) headline() string { return s.headed(s.o.Verdict) }

// headed is headline with what a piece comes to.
func (s *speaker) headed(v kit.Verdict) string {
	verdict := s.verdict(v)
	if s.o.Held {
		verdict = s.Say("verdict.held")
	}
	piece := s.o.Piece
	if piece == "" {
		piece = "?"
	}
	return s.Say("head", arg{Name: "verdict", Value: verdict}, arg{Name: "piece", Value: piece}, arg{Name: "kind", Value: s.kind(s.o.Kind)},
		arg{Name: "day", Value: s.o.AsOf.String()})
}

// reasons writes every reason, strictest first.
func (x *text) reasons() {
	if len(x.o.Reasons) == 0 {
		x.wrap("", x.Say("because.none"))
		return
	}
	last := kit.Verdict(-1)
	done := make([]bool, len(x.o.Reasons))
	for i := range x.o.Reasons {
		r := &x.o.Reasons[i]
		if done[i] {
			continue
		}
		if r.Verdict != last {
			last = r.Verdict
			x.title(x.Say("because." + dashed(last.String())))
		}
		if r.Key == "look.not-made" && !x.full {
			x.item(x.notMade(i, done))
		} else {
			x.item(x.reason(r))
		}
		x.note(x.cite(r.Lines))
	}
}

// notMade gives one sentence for all looks that one examination left out for
// the same lines, and marks them as done.
func (x *text) notMade(i int, done []bool) string {
	first := &x.o.Reasons[i]
	var missing []kit.LookID
	for k := i; k < len(x.o.Reasons); k++ {
		r := &x.o.Reasons[k]
		if r.Key == first.Key && r.Verdict == first.Verdict && slices.Equal(r.Lines, first.Lines) && find(r.Args, "exam") == find(first.Args, "exam") {
			missing = append(missing, kit.LookID(find(r.Args, "look")))
			done[k] = true
		}
	}
	return x.Say(first.Key, append([]arg{{Name: "look", Value: x.apart(missing)}}, first.Args...)...)
}

// apart names looks in their fixed order, kept apart by semicolons, since their
// words have commas of their own.
func (s *speaker) apart(looks []kit.LookID) string {
	slices.SortFunc(looks, func(a, b kit.LookID) int { return a.Order() - b.Order() })
	list := make([]string, len(looks))
	for i, l := range looks {
		list[i] = s.look(l)
	}
	return strings.Join(list, "; ")
}

// open writes what must be answered or done, and by whom.
func (x *text) open() {
	if len(x.o.Open) == 0 {
		return
	}
	x.title(x.Say("title.open"))
	var missing []kit.LookID
	for i := range x.o.Open {
		if q := &x.o.Open[i]; x.isLook(q) {
			missing = append(missing, kit.LookID(q.To))
		}
	}
	for i := range x.o.Open {
		q := &x.o.Open[i]
		switch {
		case !x.isLook(q):
			x.item(x.settle(q))
		case missing != nil:
			x.item(x.Say("question.look-list", arg{Name: "looks", Value: x.apart(missing)}) + " " + x.Say("who."+q.ID))
			missing = nil
		}
	}
}

// isLook says whether a question is about a look of the tables that is missing.
func (s *speaker) isLook(q *criteria.Question) bool {
	return q.ID == criteria.QLook && s.t.Look(kit.LookID(q.To)) != nil
}

// settle gives one question with who settles it and under which word.
func (s *speaker) settle(q *criteria.Question) string {
	todo := s.todo(q.ID, q.To, q.Asked)
	for i := range s.o.Reasons {
		r := &s.o.Reasons[i]
		if key := "question-for." + dashed(r.Key); r.Question == q.ID && r.To == q.To && q.Asked == "" && s.Has(key) {
			todo = s.Say(key, s.args(r.Args)...)
		}
	}
	if q.ID == decide.QReplace && s.o.Verdict < kit.Withdraw {
		todo = s.Say("question-aside.replace")
	}
	if s.runsUnsaid(q) {
		todo = s.Say("question.runs") + " " + todo
	}
	list := []string{todo}
	if what := s.about(q); what != "" {
		list = append(list, s.Say("open.about", arg{Name: "what", Value: what}))
	}
	list = append(list, s.Say("who."+q.ID))
	if s.o.Answerable(q) {
		list = append(list, s.Say("open.to", arg{Name: "to", Value: q.To}))
	}
	return strings.Join(list, " ")
}

// runsUnsaid says whether a question comes of a doubt over the limit for which
// no looks before use are on record, and does not ask for them itself.
func (s *speaker) runsUnsaid(q *criteria.Question) bool {
	for i := range s.o.Reasons {
		if r := &s.o.Reasons[i]; r.Row == "6" && r.Question == q.ID && r.To == q.To {
			return q.ID != decide.QRuns && find(r.Args, "runs") != ""
		}
	}
	return false
}

// couldBeSaid says whether nothing withdraws but a doubt that was worked out
// with facts of use taken as the hardest, or without looks before use.
func (s *speaker) couldBeSaid() bool {
	return !slices.ContainsFunc(s.o.Reasons, func(r criteria.Reason) bool {
		return r.Verdict == kit.Withdraw && (r.Row != "6" || find(r.Args, "unsaid")+find(r.Args, "runs") == "")
	})
}

// isFinal says whether something withdraws for good: row 1, which takes no answer,
// or a doubt that nothing open can lessen. The rest asks for what would lift
// it: where it comes from and when it was made (rows 2 and 3), the cause of a sign
// (rows 5 and 6), what the record does not say of its use (row 6).
func (s *speaker) isFinal() bool {
	return slices.ContainsFunc(s.o.Reasons, func(r criteria.Reason) bool {
		return r.Verdict == kit.Withdraw && (r.Row == "1" || r.Question == "" || r.Question == decide.QReplace)
	})
}

// asks says whether something open is of that question.
func (s *speaker) asks(id string) bool {
	return slices.ContainsFunc(s.o.Open, func(q criteria.Question) bool { return q.ID == id })
}

// about names the sign, event or reading that a question speaks of, where it
// does not say so itself.
func (s *speaker) about(q *criteria.Question) string {
	if q.Asked != "" {
		return ""
	}
	for i := range s.o.Reasons {
		r := &s.o.Reasons[i]
		if r.Question != q.ID || r.To != q.To {
			continue
		}
		switch group, _, _ := strings.Cut(r.Key, "."); group {
		case "sign", "event", "doubt":
			if r.Words != "" {
				return r.Words
			}
			return s.sign(find(r.Args, "sign"))
		case "reading", "wear":
			return s.quantity(find(r.Args, "quantity"))
		case "contaminant":
			return s.substance(find(r.Args, "substance"))
		}
	}
	return ""
}

// next writes when to look again and why then, with both forecasts. For what is
// not in use the forecasts are told only in full.
func (x *text) next() {
	x.title(x.Say("title.next"))
	x.para(x.nextLine())
	if x.o.Verdict == kit.Withdraw && !x.full {
		return // it has no next look, and its dates no longer matter
	}
	if x.full || x.o.Verdict < kit.SetAside {
		for _, s := range x.forecasts(x.full) {
			x.para(s)
		}
	}
	if !x.full {
		x.para(x.bound(&x.o.Due.Bound))
		x.para(x.bound(&x.o.LifeEnd.Bound))
		return
	}
	x.title(x.Say("title.rules"))
	for _, due := range []*criteria.Due{&x.o.Due, &x.o.LifeEnd} {
		for i := range due.Others {
			b := &due.Others[i]
			counts := "rule.counts"
			if !b.Counts {
				counts = "rule.shown"
			}
			x.item(x.bound(b) + " (" + x.Say(counts) + ")")
			x.note(x.cite(b.Lines))
		}
		if len(due.Others) == 0 {
			x.item(x.bound(&due.Bound))
			x.note(x.cite(due.Lines))
		}
	}
}

// nextLine says in one sentence when the piece must be looked at again.
func (s *speaker) nextLine() string {
	n := &s.o.Next
	switch {
	case s.o.Verdict == kit.Withdraw && s.couldBeSaid():
		return s.Say("next.not-said")
	case s.o.Verdict == kit.Withdraw && !s.isFinal():
		return s.Say("next.unless")
	case s.o.Verdict == kit.Withdraw:
		return s.Say("next.never")
	case s.o.Verdict == kit.SetAside && s.asks(decide.QReplace):
		return s.Say("next.stays")
	case s.o.Verdict == kit.SetAside:
		return s.Say("next.waits")
	case !n.Known:
		return s.Say("next.no-day")
	case n.Day <= s.o.AsOf:
		return s.Say("next.today", arg{Name: "day", Value: n.Day.String()}, arg{Name: "why", Value: n.Why})
	case n.Hours > 0:
		return s.Say("next.by", arg{Name: "day", Value: n.Day.String()}, arg{Name: "hours", Value: n.Hours.String()}, arg{Name: "why", Value: n.Why})
	}
	return s.Say("next.by-day", arg{Name: "day", Value: n.Day.String()}, arg{Name: "why", Value: n.Why})
}

// forecasts gives both forecasts of the doubt and which of them counts, in full
// with the looks it counts on.
func (s *speaker) forecasts(full bool) []string {
	n := &s.o.Next
	if s.o.Doubt == nil {
		return nil
	}
	one := func(key string, d *decide.Date) string {
		if !d.Reached {
			key += ".not-reached"
		} else {
			key += ".reached"
		}
		return s.Say(key, arg{Name: "day", Value: d.Day.String()}, arg{Name: "hours", Value: d.Hours.String()})
	}
	key := "kept.not-up"
	if n.KeptUp {
		key = "kept.up"
	}
	looks := ""
	if full {
		looks = s.looks(n.KeptLooks)
	}
	if !n.With.Reached && !n.Without.Reached && n.With.Day <= s.o.AsOf+1 {
		return []string{} // the day that is due anyhow is here: beyond it nothing was worked out
	}
	return []string{
		one("forecast.with", &n.With) + " " + one("forecast.without", &n.Without),
		s.Say(key, arg{Name: "share", Value: s.share(n.KeptShare, true)}, arg{Name: "looks", Value: looks}),
	}
}
