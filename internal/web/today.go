package web

import (
	"net/http"
	"slices"

	"kernbook/internal/app"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/report"
)

// task is one thing to be done, about a piece.
type task struct {
	Card *app.Card
	Say  string
	Link string // last part of the address where it is done; "" is the piece itself
	Do   string // what the link says
}

// tasks are the morning of one person.
type tasks struct {
	Who   string // id of a person; "" is nobody's
	Leave []task // what must not be used
	Look  []*app.Card
}

// todayBody is what has to be done, by time of day.
type todayBody struct {
	Morning  []*tasks
	Work     []task
	Evening  []task
	Examiner []task
	Pieces   int
}

// ahead is how many days before its day a look stands on the page.
const ahead, aheadExam = 14, 60

// today shows what has to be done, and nothing else.
func (s *Site) today(w http.ResponseWriter, r *http.Request) error {
	day := s.app.Today()
	cards, err := s.app.Board(r.Context(), day)
	if err != nil {
		return err
	}
	b := todayBody{Pieces: len(cards)}
	due := app.Due(cards)
	for i := range due {
		c := &due[i]
		if c.Stopped.ForGood() {
			s.out(&b, c)
			continue
		}
		if c.Err != nil {
			s.broke(&b, c)
			continue
		}
		j, err := s.app.Judge(r.Context(), c.ID, day, false)
		if err != nil {
			return err
		}
		s.sort(&b, c, &j, day)
	}
	if people, err := s.app.People(r.Context()); err != nil {
		return err
	} else if p := acting(r, people); p != nil { // whoever acts comes first
		slices.SortStableFunc(b.Morning, func(x, y *tasks) int { return rank(x.Who, p.ID) - rank(y.Who, p.ID) })
	}
	return s.show(w, r, http.StatusOK, "today", s.say("today.title"), &b)
}

// sort puts what a piece asks for where it is done.
func (s *Site) sort(b *todayBody, c *app.Card, j *app.Judged, day qty.Day) {
	o := j.Outcome
	short := report.Brief(o, s.app.Tables(), j.Record, s.told())
	why := ""
	if len(short.Reasons) > 0 {
		why = short.Reasons[0]
	}
	if stopped := c.Stopped.Verdict(); stopped > o.Verdict || why == "" && stopped > kit.Keep {
		why = s.stoppedWhy(c)
	}
	used := c.Holder != "" || j.Record.Piece.StoredIn == "used"
	switch stands := c.Stands(); {
	case stands >= kit.SetAside:
		if used {
			b.leave(c, s.say("today.leave", "verdict", s.verdict(stands), "why", why), s.say("today.see"))
		}
	case used && !lookedToday(s.app.Tables().Kind(c.Kind), j.Record, day):
		m := b.morning(c.Holder)
		m.Look = append(m.Look, c)
	}
	if c.Undecided {
		b.Examiner = append(b.Examiner, task{c, s.say("today.decide"), "decide", s.say("today.decide-do")})
	}
	if o.Verdict == kit.KeepSooner && c.Stands() == kit.KeepSooner {
		b.Work = append(b.Work, task{c, short.Next, "", s.say("today.see")})
	}
	if o.Verdict == kit.Withdraw {
		b.Evening = append(b.Evening, task{c, s.say("today.withdraw", "why", why), "stop?what=withdraw", s.say("today.withdraw-do")})
		return
	}
	if c.Stopped.Aside {
		b.Examiner = append(b.Examiner, task{c, s.say("today.aside", "why", c.Stopped.Why), "stop", s.say("do.stop")})
	}
	for _, q := range short.Open {
		t := s.settle(o, q)
		t.Card = c
		if forExaminer(q.ID) {
			b.Examiner = append(b.Examiner, t)
		} else {
			b.Evening = append(b.Evening, t)
		}
	}
	latest := c.Stopped.Latest
	switch {
	case c.Stopped.Passed:
		b.Examiner = append(b.Examiner, task{c, s.say("today.passed", "day", latest), "examine?kind=thorough", s.say("today.examine-do")})
	case decidedSooner(c, o) && latest <= day+aheadExam && c.Stands() < kit.SetAside:
		b.Examiner = append(b.Examiner, task{c, s.say("today.latest", "day", latest), "examine?kind=thorough", s.say("today.examine-do")})
	case o.Due.Known && o.Due.Day <= day+aheadExam && c.Stands() < kit.SetAside:
		b.Examiner = append(b.Examiner, task{c, short.Due, "examine?kind=thorough", s.say("today.examine-do")})
	case c.Next != 0 && c.Next <= day+ahead && c.Stands() == kit.Keep:
		b.Evening = append(b.Evening, task{c, short.Next, "examine?kind=interim", s.say("today.examine-do")})
	}
}

// out puts what a piece asks for that is out of use for good: from whoever holds it,
// or what it is fitted to, until it is cut up.
func (s *Site) out(b *todayBody, c *app.Card) {
	if c.OutThere() {
		b.leave(c, s.say("today.hand-in", "in", c.In, "why", c.Stopped.Why), s.say("today.see"))
	}
	if c.Undecided {
		b.Examiner = append(b.Examiner, task{c, s.say("today.decide"), "decide", s.say("today.decide-do")})
	}
	switch {
	case c.Stopped.Held:
		b.Examiner = append(b.Examiner, task{c, s.say("out.held"), "stop?what=release", s.say("out.release-do")})
	case !c.Stopped.Cut:
		b.Examiner = append(b.Examiner, task{c, s.say("out.cut-up"), "stop?what=cut+up", s.say("out.cut-do")})
	}
}

// broke puts a piece for which no outcome can be given where its record is mended, and
// tells whoever holds it not to use it.
func (s *Site) broke(b *todayBody, c *app.Card) {
	b.Examiner = append(b.Examiner, task{c, c.Err.Error(), "", s.say("today.see")})
	if c.Holder != "" || c.Place == "" {
		b.leave(c, s.say("today.leave", "verdict", s.verdict(c.Stands()), "why", c.Err.Error()), s.say("today.see"))
	}
}

// stoppedWhy says why people keep a piece from use, or that the date which they decided has passed.
func (s *Site) stoppedWhy(c *app.Card) string {
	if st := &c.Stopped; st.Passed && !st.Aside {
		return s.say("today.passed", "day", st.Latest)
	}
	return c.Stopped.Why
}

// decidedSooner says whether a decision wants the next thorough examination sooner
// than the rules that the outcome goes by.
func decidedSooner(c *app.Card, o *decide.Outcome) bool {
	d := c.Stopped.Latest
	return d != 0 && (!o.Due.Known || d < o.Due.Day)
}

// leave tells whoever holds a piece not to use it.
func (b *todayBody) leave(c *app.Card, say, do string) {
	m := b.morning(c.Holder)
	m.Leave = append(m.Leave, task{c, say, "", do})
}

// morning gives the tasks of one person.
func (b *todayBody) morning(who string) *tasks {
	for _, m := range b.Morning {
		if m.Who == who {
			return m
		}
	}
	m := &tasks{Who: who}
	b.Morning = append(b.Morning, m)
	return m
}

// rank puts one person before all others.
func rank(who, first string) int {
	if who == first {
		return 0
	}
	return 1
}

// settle says where a question of an outcome is settled.
func (s *Site) settle(o *decide.Outcome, q report.Open) task {
	asks := func(key string) bool { // it comes of that reason
		return slices.ContainsFunc(o.Reasons, func(r criteria.Reason) bool { return r.Key == key && r.Question == q.ID && r.To == q.To })
	}
	switch {
	case asks("assembly.not-said"), asks("assembly.not-allowed"):
		return task{nil, s.question(q), "fit", s.say("do.fit")}
	case asks("examiner.not-said"), asks("sign.nowhere"):
		return task{nil, s.question(q), "entries", s.say("do.correct")}
	case q.Answer:
		return task{nil, s.question(q), "answer?to=" + query(q.To), s.say("today.answer-do")}
	case q.ID == criteria.QSay, q.ID == criteria.QDeclaration, q.ID == criteria.QManufacture:
		return task{nil, s.question(q), "amend", s.say("today.amend-do")}
	case q.ID == criteria.QKind:
		return task{nil, s.question(q), "entries", s.say("do.correct")}
	case q.ID == decide.QUse:
		return task{nil, s.question(q), "use", s.say("today.use-do")}
	case q.ID == decide.QRuns:
		return task{nil, s.question(q), "run", s.say("today.run-do")}
	case q.ID == decide.QReplace:
		return task{nil, s.question(q), "stop", s.say("do.stop")}
	case q.ID == criteria.QWash:
		return task{nil, s.question(q), "wash", s.say("today.wash-do")}
	case forExaminer(q.ID):
		return task{nil, s.question(q), "examine?kind=thorough", s.say("today.examine-do")}
	}
	return task{nil, s.question(q), "examine", s.say("today.examine-do")}
}

// forExaminer says whether a question is one for a competent person.
func forExaminer(id string) bool {
	switch id {
	case criteria.QThorough, criteria.QExamine, criteria.QSign, criteria.QEvent, criteria.QRelease, criteria.QMeasure:
		return true
	}
	return false
}

// lookedToday says whether all that is looked at before use is on record for a day,
// over the whole piece: by one examination or by several. A question that was asked,
// or a look at a part, is not enough.
func lookedToday(k *table.Kind, r *kit.Record, day qty.Day) bool {
	var looks []kit.Look
	for i := range r.Examinations {
		if r.Examinations[i].Day == day {
			looks = append(looks, r.Examinations[i].Looks...)
		}
	}
	for i := range r.Runs {
		if x := &r.Runs[i]; x.From <= day && day <= x.To && x.Weekdays[day.Weekday()] {
			looks = append(looks, x.Looks...)
		}
	}
	needed := false
	for i := 0; k != nil && i < len(k.Needs); i++ {
		n := &k.Needs[i]
		if n.Exam != kit.PreUse {
			continue
		}
		needed = true
		if !slices.ContainsFunc(looks, func(l kit.Look) bool { return l.Look == n.Look && whole(n, &l) }) {
			return false
		}
	}
	return needed
}

// whole says whether a look went over all that is needed.
func whole(n *table.Need, l *kit.Look) bool {
	switch n.Look {
	case kit.Ask, kit.Read: // of the piece as a whole
		return true
	case kit.Work, kit.Ends: // where it works, or ends
		return len(l.Covers) > 0
	}
	return slices.ContainsFunc(l.Covers, func(s kit.Stretch) bool { return s.All && len(s.Sides) == 0 })
}
