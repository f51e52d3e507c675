package decide

import (
	"kernbook/internal/core/course"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// signs works through row 5 and, for what row 5 lets pass, row 7: is every sign
// on record explained, is it new, has it grown, do two lie in one place. Where
// the doubt cannot be worked out nothing explains a sign.
func (j *judge) signs() {
	if j.c == nil {
		j.plainSigns()
		return
	}
	open := j.c.Open()
	for i := range open {
		o := &open[i]
		class := j.class(o.Sign, o.At)
		if class != table.Weigh && class != table.Observation {
			continue // rows 1 and 2 speak of it
		}
		why := j.c.Why(i)
		seen := j.observed(o, why)
		if class == table.Observation {
			continue
		}
		switch {
		case o.State == kit.Grown:
			j.doubtful(o, "sign.grown", why)
		case j.c.Err() != nil:
			j.doubtful(o, "sign.not-worked-out", 0)
		case len(o.Cells) == 0:
			j.doubtful(o, "sign.nowhere", 0)
		case why < float64(j.t.Rules.Explained):
			j.doubtful(o, "sign.unexplained", why)
		case !seen:
			j.explained(criteria.Reason{Lines: lines("M-27", o.Sign.Lines, "R-09"), Key: "sign.explained", Args: signArgs(o, why), Words: o.Sign.Words,
				At: []kit.Place{o.At}}, o.Worse)
		}
		if !seen && j.silentOf(o) {
			j.add(criteria.Reason{Row: "4", Verdict: kit.SetAside, ID: "M-24", Lines: []string{"M-24"}, Key: "sign.not-spoken-of", Args: signArgs(o, why),
				Words: o.Sign.Words, At: []kit.Place{o.At}, Question: criteria.QLook, To: o.Name(), Status: table.Assumed})
		}
	}
	j.pairs(open)
}

// plainSigns is rows 4, 5 and 7 for kinds without a doubt figure. What the table
// lists as a possible cause has no share here, so that only a cause found and
// verified in an answer explains a sign (R-09: its cause is known, and it has
// not grown).
func (j *judge) plainSigns() {
	if j.k == nil || j.e == nil {
		return
	}
	signs := j.onRecord()
	for i := range signs {
		s := &signs[i]
		args := []criteria.Arg{{Name: "sign", Value: s.def.ID}, {Name: "ref", Value: s.ref}}
		x := criteria.Reason{Args: args, Words: s.def.Words, At: []kit.Place{s.at}, Status: table.Assumed}
		switch {
		case s.state == kit.Grown:
			x.Row, x.Verdict, x.ID, x.Key, x.Lines = "5", j.doubtVerdict(), "R-09", "sign.grown", lines("R-09", s.def.Lines)
			x.Question, x.To = criteria.QSign, s.name()
		case s.answer == "":
			x.Row, x.Verdict, x.ID, x.Key, x.Lines = "5", j.doubtVerdict(), "M-25", "sign.no-cause", lines("M-25", s.def.Lines, "R-09")
			x.Question, x.To = criteria.QSign, s.name()
		default:
			x.Key, x.Lines = "sign.known", lines("M-27", s.def.Lines, "R-09")
			j.explained(x, s.worse)
		}
		if x.Row != "" {
			j.add(x)
		}
		if s.state != kit.Gone && s.day < j.lastFull() {
			j.add(criteria.Reason{Row: "4", Verdict: kit.SetAside, ID: "M-24", Lines: []string{"M-24"}, Key: "sign.not-spoken-of", Args: args,
				Words: s.def.Words, At: x.At, Question: criteria.QLook, To: s.name(), Status: table.Assumed})
		}
		for k := range i {
			if o := &signs[k]; o.def.ID != s.def.ID && !o.def.Whole && !s.def.Whole && o.meets(s) && !o.sharesCause(s) {
				j.add(criteria.Reason{Row: "5", Verdict: j.doubtVerdict(), ID: "R-09", Lines: lines("R-09", o.def.Lines, s.def.Lines...), Key: "sign.pair",
					Args: []criteria.Arg{{Name: "sign", Value: o.def.ID}, {Name: "ref", Value: o.ref}, {Name: "other", Value: s.def.ID}, {Name: "other-ref", Value: s.ref}},
					At:   []kit.Place{o.at, s.at}, Question: criteria.QSign, To: o.name(), Status: table.Assumed})
			}
		}
	}
}

// record is a sign to be weighed on record of a piece without a course.
type record struct {
	ref    string
	def    *table.Sign
	state  kit.SignState
	at     kit.Place
	day    qty.Day // on which something was last said of it
	worse  qty.Day // on which it was last found new or grown
	answer string  // cause that an answer names
}

// name gives what an answer has to name.
func (a *record) name() string {
	if a.ref == "" {
		return a.def.ID
	}
	return a.ref
}

// meets says whether two signs lie in one place.
func (a *record) meets(b *record) bool {
	switch {
	case a.at.Whole || b.at.Whole:
		return true
	case a.at.Part != "" || b.at.Part != "":
		return a.at.Part == b.at.Part
	}
	return a.at.From <= b.at.To && b.at.From <= a.at.To
}

// sharesCause says whether one harmless cause explains both signs: an answer
// names it for one, and for the other an answer or the table does.
func (a *record) sharesCause(b *record) bool {
	return a.answer != "" && (a.answer == b.answer || b.canBe(a.answer)) || b.answer != "" && a.canBe(b.answer)
}

// canBe says whether the table has a cause for the sign.
func (a *record) canBe(cause string) bool {
	for _, x := range a.def.Causes {
		if x.Cause == cause {
			return true
		}
	}
	return false
}

// onRecord gives the signs to be weighed on record up to the day asked for. Left
// out is what washing took away, where it can, and what is gone and was explained.
func (j *judge) onRecord() []record {
	var out []record
	all := criteria.Sightings(j.t, j.r)
	for i := range all {
		s := &all[i]
		def := j.k.Sign(s.Sign)
		if def == nil || j.class(def, s.At) != table.Weigh || s.State == kit.GoneWash && criteria.Washes(j.t, def) != "" {
			continue
		}
		x := record{ref: s.Ref, def: def, state: s.State, at: s.At, day: s.Said, worse: s.Worse}
		for n := range j.r.Answers {
			if a := &j.r.Answers[n]; a.To == s.Name() && criteria.Settles(j.r, a, s.Worse) {
				x.answer = a.Cause
				if x.state == kit.Grown {
					x.state = kit.Same
				}
			}
		}
		if s.Gone() || s.State == kit.Gone {
			if x.answer != "" {
				continue
			}
			x.state = kit.Gone
		}
		out = append(out, x)
	}
	return out
}

// class gives what a sign means at its place: one that withdraws or sets aside
// only under conditions that do not hold here is one to be weighed.
func (j *judge) class(s *table.Sign, at kit.Place) table.Class {
	if s.Class != table.Absolute && s.Class != table.Aside {
		return s.Class
	}
	if len(s.ByFibre)+len(s.With) == 0 && s.AfterUse == 0 || criteria.SignCounts(j.t, j.r, s, at) {
		return s.Class
	}
	return table.Weigh
}

// observed says whether an explained sign has become an observation: grey under
// the ring's travel, the pinch in a bend.
func (j *judge) observed(o *course.Open, why float64) bool {
	if o.Sign.Class == table.Observation {
		return true
	}
	if o.State == kit.Grown || why < float64(j.t.Rules.Observation) {
		return false
	}
	if o.State == kit.GoneWash {
		return true
	}
	for _, cause := range o.Sign.Observe {
		if j.c.Model().Prior(cause, o.Zone) > float64(j.t.Rules.CauseFloor) || (o.Answered && o.AnswerOf == cause) {
			return true
		}
	}
	return false
}

// silentOf says whether the examination at hand, interim or thorough, says
// nothing of a sign that is on record.
func (j *judge) silentOf(o *course.Open) bool {
	day := j.lastFull()
	return o.Said < day && o.Day < day
}

func (j *judge) doubtful(o *course.Open, key string, why float64) {
	asked := o.Sign.Question
	if key == "sign.nowhere" || key == "sign.not-worked-out" { // no cause settles what has no place, or no figure
		asked = ""
	}
	j.add(criteria.Reason{Row: "5", Verdict: j.doubtVerdict(), ID: "M-25", Lines: lines("M-25", o.Sign.Lines, "R-09"), Key: key, Args: signArgs(o, why),
		Words: o.Sign.Words, At: []kit.Place{o.At}, Question: criteria.QSign, To: o.Name(), Asked: asked, Status: table.Assumed})
}

// pairs finds two different signs to be weighed in one place that no one cause
// explains.
func (j *judge) pairs(open []course.Open) {
	for a := range open {
		for b := a + 1; b < len(open); b++ {
			x, y := &open[a], &open[b]
			if j.class(x.Sign, x.At) != table.Weigh || j.class(y.Sign, y.At) != table.Weigh || x.Sign.ID == y.Sign.ID || x.Sign.Whole || y.Sign.Whole || !together(x.Cells, y.Cells) {
				continue
			}
			if gone(x) || gone(y) || j.observed(x, j.c.Why(a)) || j.observed(y, j.c.Why(b)) || j.oneCause(x, y) {
				continue
			}
			j.add(criteria.Reason{Row: "5", Verdict: j.doubtVerdict(), ID: "R-09", Lines: lines("R-09", x.Sign.Lines, y.Sign.Lines...), Key: "sign.pair",
				Args: []criteria.Arg{{Name: "sign", Value: x.Sign.ID}, {Name: "ref", Value: x.Ref}, {Name: "other", Value: y.Sign.ID}, {Name: "other-ref", Value: y.Ref}},
				At:   []kit.Place{x.At, y.At}, Question: criteria.QSign, To: x.Name(), Status: table.Assumed})
		}
	}
}

// gone says whether a sign was washed off; one that is gone for no known reason
// still counts.
func gone(o *course.Open) bool { return o.State == kit.GoneWash }

func together(a, b []int) bool {
	for _, x := range a {
		for _, y := range b {
			if x == y {
				return true
			}
		}
	}
	return false
}

// oneCause says whether one harmless cause that belongs to the place, or that
// an answer found, explains both signs.
func (j *judge) oneCause(x, y *course.Open) bool {
	if x.Answered && y.Answered && x.AnswerOf == y.AnswerOf {
		return true
	}
	m := j.c.Model()
	for _, a := range x.Sign.Causes {
		for _, b := range y.Sign.Causes {
			if a.Cause != b.Cause {
				continue
			}
			belongs := func(zone string) bool { return m.Prior(a.Cause, zone) > float64(j.t.Rules.CauseFloor) }
			if (belongs(x.Zone) && belongs(y.Zone)) || (x.Answered && x.AnswerOf == a.Cause) || (y.Answered && y.AnswerOf == a.Cause) {
				return true
			}
		}
	}
	return false
}

// QReplace is what row 6 asks for where neither a look nor an answer can take
// the doubt under the limit. No answer on record settles it.
const QReplace = "replace"

// QUse is what row 6 asks for before that where the record leaves facts of its
// use out: they were taken as the hardest there can be. No answer settles it;
// the record has to say them.
const QUse = "use"

// QRuns is what row 6 asks for before that where the piece was used and no look
// before use is on record: those that were made have to be entered. No answer
// settles it.
const QRuns = "runs"

// overLimit is row 6. It asks for what can help: the looks not yet made, where
// they would take the doubt under the limit if they found nothing; else causes
// found for signs on record; else the facts of its use, or the looks before
// use, that the record leaves out; else another piece. What the record leaves
// out is named in every case.
func (j *judge) overLimit() {
	d := j.out.Doubt
	if d == nil || d.Millions <= d.Limit {
		return
	}
	best, ok := j.bestLeft()
	if !ok {
		best = 1
	}
	x := criteria.Reason{Row: "6", Verdict: kit.SetAside, ID: "M-26", Lines: []string{"M-26"}, Key: "doubt.over", Question: criteria.QLook, To: criteria.QLook,
		Status: table.Assumed}
	left := best
	if num.CeilMillionths(best) > d.Limit {
		x.Verdict = j.doubtVerdict()
		if i, after := j.answersHelp(); i >= 0 {
			x.Key, x.Question, x.To, x.Asked = "doubt.answers", criteria.QSign, j.c.Open()[i].Ref, j.c.Open()[i].Sign.Question
			x.Words, left = j.c.Open()[i].Sign.Words, after
		} else if len(j.c.Assumed) > 0 {
			x.Key, x.Question, x.To = "doubt.use", QUse, QUse
		} else if j.noRuns() {
			x.Key, x.Question, x.To = "doubt.runs", QRuns, QRuns
		} else {
			x.Key, x.Question, x.To = "doubt.stays-over", QReplace, QReplace
			if !j.looksLeft() {
				x.Key = "doubt.all-made"
			}
		}
	}
	x.Args = []criteria.Arg{{Name: "one-in", Value: count(d.OneIn)}, {Name: "limit", Value: count(num.OneIn(d.Limit))}, {Name: "left", Value: count(num.OneIn(num.CeilMillionths(left)))},
		{Name: "unsaid", Value: j.unsaidUse()}, {Name: "runs", Value: j.runs()}}
	if len(j.c.Assumed) > 0 {
		x.Lines = append(x.Lines, "M-42")
	}
	j.add(x)
}

// noRuns says whether the piece was used, for all the record says, and no look
// before use or by a partner is on record for it.
func (j *judge) noRuns() bool {
	for i := range j.r.Runs {
		if j.r.Runs[i].From <= j.r.AsOf {
			return false
		}
	}
	for i := range j.r.Examinations {
		if e := &j.r.Examinations[i]; e.Day <= j.r.AsOf && (e.Kind == kit.PreUse || e.Kind == kit.Partner) {
			return false
		}
	}
	for i := range j.r.Uses {
		if u := &j.r.Uses[i]; u.From <= j.r.AsOf && !u.Store {
			return true
		}
	}
	return len(j.c.Assumed) > 0
}

// runs is "none" where looks before use are missing, else "".
func (j *judge) runs() string {
	if j.noRuns() {
		return "none"
	}
	return ""
}

// answersHelp asks whether harmless causes, found for every sign on record that
// none is found for, and the looks not yet made would take the doubt under the
// limit. It gives the sign whose cause takes most away, or -1, and the doubt
// with all of them.
func (j *judge) answersHelp() (sign int, after float64) {
	open := j.c.Open()
	all := j.c.Clone()
	sign, least := -1, 0.0
	for i := range open {
		if o := &open[i]; o.Answered || o.Sign.Class != table.Weigh || o.Ref == "" || len(o.Cells) == 0 {
			continue
		}
		one, _ := j.settled(j.c, i)
		d, ok := one.IfAllNothing(kit.Thorough, j.notMade)
		if !ok {
			continue
		}
		if sign < 0 || d < least {
			sign, least = i, d
		}
		all, _ = j.settled(all, i)
	}
	if sign < 0 {
		return -1, 0
	}
	after, ok := all.IfAllNothing(kit.Thorough, j.notMade)
	if !ok || num.CeilMillionths(after) > j.lim {
		return -1, 0
	}
	return sign, after
}

// settled gives a course on which the first of the tables' causes was found for
// the i-th sign on record, and that cause.
func (j *judge) settled(c *course.Course, i int) (*course.Course, string) {
	d, cause := c.Clone(), "other"
	if o := &d.Open()[i]; len(o.Sign.Causes) > 0 {
		cause = o.Sign.Causes[0].Cause
	}
	d.Settle(i, cause)
	return d, cause
}

// looksLeft says whether some look of the kind is not yet made.
func (j *judge) looksLeft() bool {
	for i := range j.k.Times {
		if j.notMade(j.k.Times[i].Look) {
			return true
		}
	}
	return false
}

// unsaidUse lists the facts of use that are not on record, apart by commas: the
// doubt was worked out with the hardest there can be.
func (j *judge) unsaidUse() string {
	out := ""
	for i, a := range j.c.Assumed {
		if i > 0 {
			out += ", "
		}
		out += a
	}
	return out
}

// bestLeft gives the doubt that would be left after all looks that are still open,
// each as a thorough examination makes it and without a finding.
func (j *judge) bestLeft() (float64, bool) { return j.c.IfAllNothing(kit.Thorough, j.notMade) }

// notMade says whether a look is still open: whether none of the day asked for
// went all over the piece, as well as an examination looks, by a competent
// person. One made in part or badly is not taken for one that was made, so that
// leaving it out asks for no less.
func (j *judge) notMade(l kit.LookID) bool {
	def := j.t.Look(l)
	for i := range j.r.Examinations {
		e := &j.r.Examinations[i]
		if e.Day != j.r.AsOf || e.Kind != kit.Interim && e.Kind != kit.Thorough {
			continue
		}
		for n := range e.Looks {
			x := &e.Looks[n]
			if x.Look != l || criteria.QualityAs(j.r, e.Kind, x.Maker(e.By), e.Day) == kit.PreUse {
				continue
			}
			all := l == kit.Gauge && len(x.Covers) > 0 // a gauge goes where it measures
			for _, c := range x.Covers {
				all = all || c.All && len(c.Sides) == 0
			}
			for _, f := range course.FactorRows(def, &x.Conditions) {
				all = all && (f == nil || f.F >= 1)
			}
			if all {
				return false
			}
		}
	}
	return true
}

// examKind is the kind of examination that a further look would belong to.
func (j *judge) examKind() kit.ExamKind {
	if j.e != nil && j.e.Day == j.r.AsOf && j.e.Kind == kit.Thorough {
		return kit.Thorough
	}
	return kit.Interim
}

// explained keeps, with an earlier look, a sign to be weighed that is explained;
// once that day has passed without a complete examination, it sets aside.
func (j *judge) explained(x criteria.Reason, found qty.Day) {
	x.Row, x.Verdict, x.ID, x.Status = "7", kit.KeepSooner, "M-27", table.Assumed
	if x.Until = criteria.Half(j.t, j.r, found); j.r.AsOf > x.Until {
		x.Args = append(x.Args, criteria.Arg{Name: "until", Value: x.Until.String()})
		x.Row, x.Verdict, x.Until, x.Key = "2", kit.SetAside, 0, "sign.passed"
		x.Lines, x.Question, x.To = lines("M-27", x.Lines, "R-07", "D-17"), criteria.QExamine, criteria.QExamine
	}
	j.add(x)
}

func signArgs(o *course.Open, why float64) []criteria.Arg {
	return []criteria.Arg{{Name: "sign", Value: o.Sign.ID}, {Name: "ref", Value: o.Ref}, {Name: "zone", Value: o.Zone}, {Name: "why", Value: percent(why)}}
}

func lines(first string, more []string, last ...string) []string {
	out := []string{first}
	for _, l := range append(append([]string(nil), more...), last...) {
		found := false
		for _, x := range out {
			found = found || x == l
		}
		if !found {
			out = append(out, l)
		}
	}
	return out
}

// percent prints a share in whole percent, rounded down, so that nothing looks
// better explained than it is.
func percent(p float64) string { return count(int64(p*100)) + " %" }

// count prints a whole number, its thousands apart by a space.
func count(n int64) string {
	s := ""
	for n >= 1000 {
		r := n % 1000
		n /= 1000
		s = " " + string([]byte{byte('0' + r/100), byte('0' + r/10%10), byte('0' + r%10)}) + s
	}
	d := ""
	for {
		d = string([]byte{byte('0' + n%10)}) + d
		if n /= 10; n == 0 {
			return d + s
		}
	}
}

// lastFull gives the day of the last interim or thorough examination; 0 where
// there is none.
func (j *judge) lastFull() qty.Day {
	day := qty.Day(0)
	for i := range j.r.Examinations {
		if e := &j.r.Examinations[i]; e.Day <= j.r.AsOf && (e.Kind == kit.Interim || e.Kind == kit.Thorough) {
			day = max(day, e.Day)
		}
	}
	return day
}
