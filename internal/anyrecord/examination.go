package anyrecord

import (
	"strconv"

	"pgregory.net/rapid"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

var examKinds = []kit.ExamKind{kit.Thorough, kit.Interim, kit.PreUse, kit.Partner}

func (g *drawer) examination(day qty.Day, ref string) kit.Examination {
	e := kit.Examination{Ref: ref, Kind: pick(g.t, "sort", examKinds), Day: day, By: g.who("by"), WouldClimb: kit.SaidYes}
	if !g.once("not signed", 4) {
		e.SignedBy = g.who("signed")
	}
	if !g.w.Mild && g.once("would climb", 8) {
		e.WouldClimb = g.yes("would they")
	}
	if g.once("latest", 6) {
		e.Latest = (day + qty.Day(rapid.IntRange(1, 300).Draw(g.t, "latest after"))).Partial()
	}
	if g.once("held by", 6) {
		e.HeldBy = []string{g.who("held by whom")}
	}
	e.Looks = g.looks(e.Kind, day)
	for i := range g.k.Asks {
		said := kit.SaidNo
		if g.once("not no", 16) {
			if said = g.yes("asked"); g.w.Mild {
				said = kit.NotSaid
			}
		}
		if said == kit.NotSaid {
			continue
		}
		if e.Asked == nil {
			e.Asked = map[string]kit.Yes{}
		}
		e.Asked[g.k.Asks[i].ID] = said
	}
	for i := range g.evs {
		if g.evs[i].day <= day && e.AfterEvent == "" && g.once("after an event", 3) {
			e.AfterEvent = g.evs[i].ref
		}
	}
	if !g.w.NoSigns {
		for range upTo(g.t, "signs", 3) {
			e.Signs = append(e.Signs, g.sign(day))
		}
		for i := range g.signs { // word of what is on record
			if s := &g.signs[i]; s.day < day && !g.once("nothing said", 3) {
				state := pick(g.t, "state", []kit.SignState{kit.Same, kit.Same, kit.Grown, kit.Gone, kit.GoneWash})
				e.Signs = append(e.Signs, kit.Sign{Ref: s.ref, State: state, By: g.who("said by"), AfterWash: g.once("washed", 6)})
			}
		}
	}
	if !g.w.NoReadings && len(g.k.Reads) > 0 {
		for i := range upTo(g.t, "readings", 5) {
			e.Readings = append(e.Readings, g.reading(day, ref+"r"+strconv.Itoa(i+1)))
		}
	}
	return e
}

// looks draws looks as good as they come, or with something in their way, by
// one person or several.
func (g *drawer) looks(exam kit.ExamKind, day qty.Day) []kit.Look {
	var out []kit.Look
	for i := range g.k.Needs {
		if n := &g.k.Needs[i]; n.Exam == exam && !g.once("left out", 8) {
			out = append(out, g.look(n.Look, day))
		}
	}
	for range upTo(g.t, "more looks", 2) {
		out = append(out, g.look(pick(g.t, "look", kit.Looks[:]), day))
	}
	return out
}

func (g *drawer) look(id kit.LookID, day qty.Day) kit.Look {
	l := kit.Look{Look: id, By: g.who("looked"), Conditions: Good, AfterWash: g.once("after washing", 10)}
	if g.once("conditions", 3) {
		yes := func(what string) kit.Yes { return g.yes(what) }
		l.Conditions = kit.Conditions{Light: g.word("light", "good", "poor", "dark", ""), Cleaned: yes("cleaned"), Wet: yes("wet"), Frozen: yes("frozen"),
			Muddy: yes("muddy"), Gloves: yes("gloves"), Hurried: yes("hurried")}
	}
	switch {
	case !g.once("not all over", 3):
		l.Covers = []kit.Stretch{{All: true}}
	case g.w.Whole || g.once("nowhere", 4):
	case g.k.Axis == "length":
		mm := int(g.long(day) / qty.Millimetre)
		for range rapid.IntRange(1, 2).Draw(g.t, "stretches") {
			from := rapid.IntRange(0, mm-1).Draw(g.t, "from")
			to := rapid.IntRange(from+1, mm).Draw(g.t, "to")
			l.Covers = append(l.Covers, kit.Stretch{From: qty.Length(from) * qty.Millimetre, To: qty.Length(to) * qty.Millimetre, Sides: g.sides()})
		}
		fallthrough
	default:
		l.Covers = append(l.Covers, kit.Stretch{Part: pick(g.t, "part", g.k.Parts).ID, Sides: g.sides()})
	}
	return l
}

// sign draws one newly seen.
func (g *drawer) sign(day qty.Day) kit.Sign {
	var can []*table.Sign
	for i := range g.k.Signs {
		if s := &g.k.Signs[i]; !g.w.Mild || s.Class == table.Weigh || s.Class == table.Observation {
			can = append(can, s)
		}
	}
	row := pick(g.t, "sign", can)
	s := kit.Sign{Ref: "s" + strconv.Itoa(len(g.signs)+1), Sign: row.ID, State: kit.FirstSeen, By: g.who("seen by"), At: kit.Place{Whole: true}, AfterWash: g.once("seen after washing", 10)}
	if !row.Whole {
		s.At = g.place(day)
	}
	if g.once("look said", 3) {
		s.Look = pick(g.t, "shown by", row.Looks)
	}
	g.signs = append(g.signs, entry{s.Ref, row.ID, day})
	return s
}

// reading draws one that is like the others, or differs.
func (g *drawer) reading(day qty.Day, ref string) kit.Reading {
	q := pick(g.t, "quantity", g.k.Reads)
	value := func() qty.Length {
		if q.Basis == "absolute" {
			most := max(q.Mu[2], float64(2*q.Out)/1000, 0.5)
			return qty.Length(rapid.IntRange(0, int(most*1000)).Draw(g.t, "value"))
		}
		v := 12_000 + rapid.IntRange(-60, 60).Draw(g.t, "by")
		if g.once("far", 5) {
			v -= rapid.IntRange(0, 1500).Draw(g.t, "less")
		}
		return qty.Length(v)
	}
	r := kit.Reading{Quantity: q.ID, At: g.place(day), Values: []qty.Length{value()}, Ref: ref, Wet: kit.SaidNo}
	for range upTo(g.t, "more values", 2) {
		r.Values = append(r.Values, value())
	}
	if g.once("again", 5) {
		r.Again = []qty.Length{value()}
	}
	if g.once("error said", 4) {
		r.Error = qty.Length(rapid.IntRange(10, 300).Draw(g.t, "error"))
	}
	if g.once("maybe wet", 4) {
		r.Wet = g.yes("wet")
	}
	return r
}

// runs draws them one after the other, so that none counts a look twice.
func (g *drawer) runs() {
	from := g.used
	for i := range rapid.IntRange(0, 3).Draw(g.t, "runs") {
		from += qty.Day(upTo(g.t, "pause", 200))
		to := from + qty.Day(rapid.IntRange(0, 500).Draw(g.t, "days"))
		run := kit.Run{Ref: "run" + strconv.Itoa(i+1), Kind: pick(g.t, "run of", examKinds[2:]), By: g.who("run by"), From: from, To: to, Weekdays: g.weekdays(1)}
		if run.Looks = g.looks(run.Kind, from); len(run.Looks) > 0 {
			g.r.Runs = append(g.r.Runs, run)
		}
		from = to + 1
	}
}

// questions are such that an outcome can put.
var questions = []string{criteria.QIdentity, criteria.QHistory, criteria.QManufacture, criteria.QDeclaration, criteria.QProof, criteria.QAssembly,
	criteria.QStorage, criteria.QRelease, criteria.QSubstance, criteria.QMeasure, criteria.QExamine}

func (g *drawer) answers() {
	if g.w.NoAnswers {
		return
	}
	for range upTo(g.t, "answers", 4) {
		a := kit.Answer{Day: g.r.AsOf, Verified: "seen", By: g.who("answered by"), Document: g.word("document", "", "letter"), Unfit: g.once("unfit", 10)}
		switch n := rapid.IntRange(0, 2).Draw(g.t, "answer to"); {
		case n < 2 && len(g.signs) > 0:
			s := pick(g.t, "of sign", g.signs)
			a.To, a.Day = s.ref, g.day("answered", s.day, g.r.AsOf)
			if causes := g.k.Sign(s.id).Causes; len(causes) > 0 && !g.once("no cause", 4) {
				a.Cause = pick(g.t, "cause", causes).Cause
			}
		case n < 2 && len(g.evs) > 0:
			e := pick(g.t, "of event", g.evs)
			a.To, a.Day = e.ref, g.day("answered", e.day, g.r.AsOf)
			if g.once("substance found", 4) {
				a.Cause = pick(g.t, "substance", g.tb.Contaminants).ID
			}
		default:
			a.To, a.Day = pick(g.t, "question", questions), g.day("answered", g.used, g.r.AsOf)
		}
		g.r.Answers = append(g.r.Answers, a)
	}
}

// Shuffle gives the same record with the entries of one day, and what belongs
// to one examination, written down in another order.
func Shuffle(t *rapid.T, r *kit.Record) *kit.Record {
	s := Copy(r)
	s.People = permuted(t, "people", s.People)
	s.Uses = permuted(t, "uses", s.Uses)
	s.Runs = permuted(t, "runs", s.Runs)
	s.Answers = permuted(t, "answers", s.Answers)
	s.Examinations = permuted(t, "examinations", s.Examinations)
	for i := range s.Runs {
		s.Runs[i].Looks = permuted(t, "looks of a run", s.Runs[i].Looks)
	}
	for i := range s.Examinations {
		e := &s.Examinations[i]
		e.Looks = permuted(t, "looks", e.Looks)
		e.Signs = permuted(t, "signs", e.Signs)
		e.Readings = permuted(t, "readings", e.Readings)
		for k := range e.Looks {
			e.Looks[k].Covers = permuted(t, "covers", e.Looks[k].Covers)
		}
	}
	return s
}

// permuted draws another order, told by the places in the list.
func permuted[T any](t *rapid.T, label string, list []T) []T {
	places := make([]int, len(list))
	for i := range places {
		places[i] = i
	}
	out := make([]T, 0, len(list))
	for _, i := range rapid.Permutation(places).Draw(t, label) {
		out = append(out, list[i])
	}
	return out
}
