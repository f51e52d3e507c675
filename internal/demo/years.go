package demo

import (
	"fmt"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// years lets two years pass: every half year the thorough examination of all
// that is in use, between them interim inspections, looks before use on every
// working day, and what happens in the story on its day.
func (b *builder) years() {
	exams := []int{150, 318, 486, 654}
	from := 2
	for _, at := range exams {
		for _, s := range story {
			if s.day >= from && s.day < at {
				b.at(s.day)
				s.tell(b)
			}
		}
		b.at(at)
		for _, p := range b.pieces {
			if p.gone || p.holder == "" || p.since > b.day() {
				continue
			}
			b.looks(p, from, at-1)
			e := b.examination(p, kit.Thorough, "p1")
			b.did(b.app.Examine(b.ctx, b.who("p1"), p.ID, e))
			b.decide(p, e.Ref, "six-monthly")
			if b.err != nil {
				return
			}
		}
		from = at
	}
	for _, s := range story {
		if s.day >= from && s.day < span-3 {
			b.at(s.day)
			s.tell(b)
		}
	}
	b.at(span - 1)
	for _, p := range b.pieces {
		if !p.gone && p.holder != "" { // the looks up to yesterday, and this morning's
			b.looks(p, from, span-1)
			e := b.examination(p, kit.PreUse, p.holder)
			e.Signs = nil
			b.did(b.app.Examine(b.ctx, b.who(p.holder), p.ID, e))
		}
	}
}

// looks enters a run of looks before use, and now and then a partner's look.
func (b *builder) looks(p *piece, from, to int) {
	k := b.t.Kind(p.Kind)
	last := b.day()
	first := last - qty.Day(to-from)
	first = max(first, p.since)
	r := kit.Run{Ref: fmt.Sprintf("looks from %v", first), Kind: kit.PreUse, By: p.holder, From: first, To: last - 1, Weekdays: workdays}
	if r.To < r.From {
		return
	}
	for i := range k.Needs {
		if k.Needs[i].Exam == kit.PreUse {
			r.Looks = append(r.Looks, kit.Look{Look: k.Needs[i].Look, By: p.holder, Covers: []kit.Stretch{{All: true}}, Conditions: good})
		}
	}
	b.did(b.app.KeepRun(b.ctx, b.who(p.holder), p.ID, r))
}

// decide enters the examiner's decision: what the outcome says.
func (b *builder) decide(p *piece, ref, occasion string) {
	if b.err != nil {
		return
	}
	j, err := b.app.Judge(b.ctx, p.ID, b.day(), false)
	if err != nil {
		b.did(app.Written{}, err)
		return
	}
	b.reports++
	d := app.Decision{Examination: ref, Verdict: j.Outcome.Verdict, Report: fold.Report{Number: fmt.Sprintf("Q-%04d", b.reports), Employer: "Quillbrook Tree Care, Mill Lane 4, Quillbrook",
		Premises: "the yard's store, Mill Lane 4, Quillbrook", Occasion: occasion, Load: "none marked on it", Tests: "none"}}
	if j.Outcome.Due.Known {
		d.Latest = exactly(j.Outcome.Due.Day)
	}
	said := report.Brief(j.Outcome, b.app.Tables(), j.Record, lang.English()).Reasons
	d.Why = "Looked over in full; nothing that keeps it from use."
	if d.Verdict >= kit.SetAside {
		d.Why = strings.Join(said, " ")
	}
	if d.Verdict == kit.Withdraw && len(said) > 0 {
		d.Report.Defect, d.Report.Immediate, d.Report.Repair = said[0], true, "to be replaced; no repair"
	}
	b.did(b.app.Decide(b.ctx, b.who("p1"), p.ID, d))
	p.gone = p.gone || d.Verdict == kit.Withdraw
}

func (b *builder) withdraw(p *piece, why string) {
	b.did(b.app.Stop(b.ctx, b.who("p1"), p.ID, b.day(), fold.Stop{What: "withdraw", Why: why}))
	p.gone = true
}

// chapter is something that happens on a day of the story.
type chapter struct {
	day  int
	tell func(b *builder)
}

func place(from, to int64) kit.Place {
	return kit.Place{From: qty.Length(from) * qty.Millimetre, To: qty.Length(to) * qty.Millimetre}
}

// see enters an interim inspection in which a sign is first seen.
func (b *builder) see(id, ref, sign string, at kit.Place) {
	p := b.find(id)
	e := b.examination(p, kit.Interim, "p1")
	e.Signs = append(e.Signs, kit.Sign{Ref: ref, Sign: sign, State: kit.FirstSeen, At: at, By: "p1"})
	b.did(b.app.Examine(b.ctx, b.who("p1"), id, e))
	p.signs = append(p.signs, ref)
}

func (b *builder) happen(id string, e kit.Event) app.Written {
	e.Day, e.Travel, e.Peak = b.day(), -1, -1
	return b.did(b.app.Happen(b.ctx, b.who(b.find(id).holder), id, e))
}

func (b *builder) answer(id string, a kit.Answer) {
	a.Day, a.By = b.day(), "p1"
	b.did(b.app.Answer(b.ctx, b.who("p1"), id, a))
}

// story is what happens beside the routine, in the order of days.
var story = []chapter{
	{20, func(b *builder) { // a partner looks, and finds nothing
		p := b.find("BR-01")
		b.did(b.app.Examine(b.ctx, b.who("p3"), p.ID, b.examination(p, kit.Partner, "p3")))
	}},
	{60, func(b *builder) { b.see("BR-01", "grey-1", "grey", place(300, 620)) }},
	{75, func(b *builder) { b.see("BR-04", "pinch-1", "pinch", place(10, 30)) }},
	{90, func(b *builder) { b.see("LI-03", "fuzz-1", "heavy-fuzz", place(21_000, 22_000)) }},
	{91, func(b *builder) {
		b.answer("LI-03", kit.Answer{To: "fuzz-1", Cause: "use-rub", Verified: "matched to the working zone; settled after a week"})
	}},
	{110, func(b *builder) { // a correction: it was another bridge
		w := b.happen("BR-05", kit.Event{Ref: "saw-a", Event: "saw-contact", Words: "said at the end of the day"})
		if b.err != nil {
			return
		}
		if _, err := b.app.Correct(b.ctx, b.who("p1"), w.ID, nil, "it was the sling at the stem, not the bridge; seen by two"); err != nil {
			b.did(app.Written{}, err)
		}
		b.happen("SL-02", kit.Event{Ref: "saw-b", Event: "saw-contact"})
		b.withdraw(b.find("SL-02"), "a saw touched it")
	}},
	{170, func(b *builder) { // chain oil on a line, washed out
		b.happen("LI-05", kit.Event{Ref: "oil-1", Event: "spill", Substance: "chain-oil", Amount: "splash"})
		b.did(b.app.Wash(b.ctx, b.who("p7"), "LI-05", b.day(), fold.Washing{With: "lukewarm water and neutral soap", Event: "oil-1", Clean: kit.SaidYes}))
	}},
	{172, func(b *builder) {
		b.did(b.app.Examine(b.ctx, b.who("p1"), "LI-05", b.examination(b.find("LI-05"), kit.Interim, "p1")))
	}},
	{200, func(b *builder) { // a bridge moved on
		b.did(b.app.Move(b.ctx, b.who("p4"), "BR-03", kit.Change{Day: b.day(), What: "re-tied end A", By: "p4", Words: "new stopper, dressed and set"}))
	}},
	{230, func(b *builder) {
		b.did(b.app.Move(b.ctx, b.who("p4"), "LI-02", kit.Change{Day: b.day(), What: "shortened at end B", Length: 300 * qty.Millimetre, By: "p4", Words: "worn eye cut off, sewn anew"}))
	}},
	{240, func(b *builder) { // a bridge shifted in its fittings, so that the ring travels elsewhere
		b.did(b.app.Move(b.ctx, b.who("p1"), "BR-05", kit.Change{Day: b.day(), What: "zones", By: "p1", Words: "shifted by a hand's breadth", Zones: []kit.ZoneAt{
			{Zone: "bend", To: 60 * qty.Millimetre}, {Zone: "travel", From: 320 * qty.Millimetre, To: 740 * qty.Millimetre}, {Zone: "bend", From: 840 * qty.Millimetre, To: 900 * qty.Millimetre}}}))
	}},
	{250, func(b *builder) {
		b.see("HC-02", "glaze-1", "glazed", place(380, 420))
		b.withdraw(b.find("HC-02"), "glazed in the wraps")
		b.spare(kit.HitchCord, "HC-12", "hitch cord, sewn eyes", "p3")
	}},
	{300, func(b *builder) { b.find("CO-02").wear = 100 }},
	{330, func(b *builder) { b.cords(20) }},
	{380, func(b *builder) { // something soft in a bridge
		b.see("BR-02", "soft-1", "soft-place", place(430, 470))
		b.withdraw(b.find("BR-02"), "a soft place that stays under body weight")
		s := b.find("BR-20")
		b.did(b.app.Fit(b.ctx, b.who("p1"), s.ID, b.day(), fold.Fit{In: "HA-02", Allowed: kit.SaidYes, Document: "list of parts of the harness, page 3"}))
		b.did(b.app.Hang(b.ctx, b.who("p6"), s.ID, b.day(), fold.Hang{Holder: "p3"}))
		s.holder, s.of, s.since = "p3", "p3", b.day()
		s.use = kit.Use{From: b.day(), Week: 25 * qty.Hour, Weekdays: workdays, Dirt: "sandy", Hardware: plainest(b.t)}
		b.did(b.app.PlanUse(b.ctx, b.who("p1"), s.ID, s.use, s.of))
		b.did(b.app.Stop(b.ctx, b.who("p1"), "BR-02", b.day(), fold.Stop{What: "cut up", Why: "so that nobody uses it again"}))
	}},
	{420, func(b *builder) {
		b.did(b.app.SetLimit(b.ctx, b.who("p1"), "1 in 1200", "a little stricter than the default, after the bridge of the spring"))
	}},
	{430, func(b *builder) { // what lay at 21 m from end A lies at 23 m now
		b.did(b.app.Move(b.ctx, b.who("p4"), "LI-03", kit.Change{Day: b.day(), What: kit.Turned, By: "p4", Words: "so that the other half does the work"}))
	}},
	{500, func(b *builder) { // held after an injury
		b.happen("LA-04", kit.Event{Ref: "fall-1", Event: "fall", Injury: true, Words: "slipped off a wet limb, a sprained wrist"})
		b.did(b.app.Stop(b.ctx, b.who("p1"), "LA-04", b.day(), fold.Stop{What: "hold", Why: "an injury goes with it"}))
		b.find("LA-04").gone = true
		b.spare(kit.Lanyard, "LA-14", "positioning lanyard, 4 m", "p5")
	}},
	{520, func(b *builder) { // a cut, and an examination that withdraws
		p := b.find("LA-02")
		e := b.examination(p, kit.Thorough, "p1")
		e.Signs = append(e.Signs, kit.Sign{Ref: "cut-1", Sign: "cover-cut", State: kit.FirstSeen, At: place(1_200, 1_210), By: "p1"})
		b.did(b.app.Examine(b.ctx, b.who("p1"), p.ID, e))
		b.decide(p, e.Ref, "exceptional") // its user had seen a cut
		b.did(b.app.Stop(b.ctx, b.who("p1"), p.ID, b.day(), fold.Stop{What: "cut up", Why: "so that nobody uses it again"}))
		b.spare(kit.Lanyard, "LA-12", "positioning lanyard, 4 m", p.holder)
	}},
	{560, func(b *builder) {
		p := b.find("SL-01")
		q := p.Piece
		q.Marking = "unreadable"
		q.Proof = "serial on the register, and the sewn red thread"
		b.did(b.app.AmendPiece(b.ctx, b.who("p1"), q, "the label has washed out"))
		p.Piece = q
	}},
	{600, func(b *builder) { // somebody leaves, and asks to be forgotten
		b.did(b.app.EnterPerson(b.ctx, b.who("p1"), app.Member{Person: kit.Person{ID: "p8", Role: "climber"}, Private: fold.Private{Name: "Ada Lorne", Mass: "70kg"}}))
	}},
	{640, func(b *builder) {
		b.did(b.app.EnterPerson(b.ctx, b.who("p1"), app.Member{Person: kit.Person{ID: "p8", Role: "climber"}, Left: true}))
		b.did(b.app.ForgetPerson(b.ctx, b.who("p1"), "p8", "left after the trial month, and asked for it"))
	}},
	{660, func(b *builder) { b.cords(30) }},
	{690, func(b *builder) { b.see("LI-04", "stiff-1", "stiff-stretch", place(9_000, 9_500)) }},
	{700, func(b *builder) {
		b.happen("DE-01", kit.Event{Ref: "drop-1", Event: "dropped", Words: "from about eight metres onto a kerb"})
	}},
	{705, func(b *builder) {
		b.did(b.app.Stop(b.ctx, b.who("p5"), "PU-01", b.day(), fold.Stop{What: "set aside", Why: "it sounds rough; to be looked at"}))
	}},
}

// cords puts new hitch cords in for all that are in use, as every year.
func (b *builder) cords(number int) {
	var old []*piece
	for _, p := range b.pieces {
		if p.Kind == kit.HitchCord && !p.gone {
			old = append(old, p)
		}
	}
	for i, p := range old {
		b.withdraw(p, "its year is over")
		b.did(b.app.Stop(b.ctx, b.who("p1"), p.ID, b.day(), fold.Stop{What: "cut up", Why: "so that nobody uses it again"}))
		b.spare(kit.HitchCord, fmt.Sprintf("HC-%02d", number+i), "hitch cord, sewn eyes", p.holder)
	}
}

// spare brings a new piece into use.
func (b *builder) spare(kind kit.KindID, id, words, holder string) {
	p := b.piece(kind, id, words)
	p.holder, p.of = holder, holder
	b.register(p)
}

// exactly gives a day as a date that is known to the day.
func exactly(d qty.Day) qty.PartialDate {
	p, err := qty.ParseDate(d.String())
	if err != nil {
		panic(err)
	}
	return p
}
