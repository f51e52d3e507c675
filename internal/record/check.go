package record

import (
	"slices"
	"strconv"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// datesInOrder holds every day against the dates of the piece.
func (d *decoder) datesInOrder(piece cursor) {
	p := &d.rec.Piece
	made := p.Made.Earliest()
	const mend = "correct one of the two"
	for _, x := range []struct {
		key  string
		date qty.PartialDate
	}{{"first_use", p.FirstUse}, {"bought", p.Bought}, {"examined", p.Examined}} {
		if p.Made.Known() && x.date.Known() && x.date.Latest() < made {
			piece.Fault(x.key, x.date.Words()+" lies before it was made ("+p.Made.Words()+")", mend)
		}
	}
	for _, x := range d.dated {
		switch {
		case p.Made.Known() && x.day < made:
			x.c.Fault(x.key, x.day.Words()+" lies before the piece was made ("+p.Made.Words()+")", mend)
		case p.FirstUse.Known() && x.use && x.day < p.FirstUse.Earliest():
			x.c.Fault(x.key, x.day.Words()+" lies before its first use ("+p.FirstUse.Words()+")",
				mend+", or write store = true while it lay unused")
		}
	}
}

// states checks that same, grown and gone speak of a sign on record, and that
// no two signs are first seen under one ref. The signs come in order of day.
func (d *decoder) states() {
	for _, s := range d.signs {
		first := d.refs[s.sign.Ref]
		if s.sign.State == "" {
			continue // a word that is no state has been faulted
		}
		if s.sign.State == kit.FirstSeen {
			d.register(s.c, s.sign.Ref, entry{noun: "sign", day: s.day, dayOK: s.dayOK, sign: s.sign.Sign})
			continue
		}
		state := "“" + string(s.sign.State) + "”"
		switch {
		case !s.dayOK:
		case !s.c.filled("ref", "write the ref of the sign on record that is "+state):
		case s.sign.Ref == "":
		case first == nil || first.noun != "sign":
			s.c.Fault("ref", "no sign “"+short(s.sign.Ref)+"” is on record before this, so it cannot be "+state,
				"correct the ref, or leave state out where the sign is new"+d.meant(s.sign.Ref, "sign"))
		case s.sign.Sign != "" && first.sign != "" && first.sign != s.sign.Sign:
			s.c.Fault("sign", "“"+s.sign.Sign+"” is not what “"+short(s.sign.Ref)+"” was on record as: “"+first.sign+"” (line "+strconv.Itoa(first.line)+")",
				"leave the key out, or enter a new sign with a ref of its own")
		}
	}
}

// toldOf checks that answers and examinations after an event speak of something.
func (d *decoder) toldOf() {
	for _, x := range d.tells {
		e := d.refs[x.ref]
		if !x.answer {
			if e == nil || e.noun != "event" {
				x.c.Fault(x.key, "no event “"+short(x.ref)+"” is on record", "write the ref of an [[event]]"+d.meant(x.ref, "event"))
				continue
			}
		} else if e == nil || e.noun == "examination" || e.noun == "run" {
			if !d.isQuestion(x.ref) {
				x.c.Fault(x.key, "“"+short(x.ref)+"” is no sign or event on record and no question",
					"write the ref of a sign, reading or event, or the id of the question"+d.meant(x.ref, "sign", "reading", "event"))
			} else if x.cause != "" {
				x.c.Fault("cause", "is given, but what is answered is no sign", "take it out; verified says how it was settled")
			}
			continue
		}
		if e.dayOK && x.dayOK && x.day < e.day {
			x.c.Fault("day", x.day.Words()+" lies before the "+e.noun+" “"+short(x.ref)+"” ("+e.day.Words()+")", "correct one of the two")
		}
		if x.cause != "" {
			d.explains(x, e)
		}
	}
}

// meant completes a mend with the ref of such an entry that was most likely meant.
func (d *decoder) meant(ref string, nouns ...string) string {
	var known []string
	for r, e := range d.refs {
		if r != ref && slices.Contains(nouns, e.noun) {
			known = append(known, r)
		}
	}
	slices.Sort(known)
	if w := suggest(ref, known); w != "" {
		return "; did you mean “" + w + "”?"
	}
	return ""
}

// explains checks that a cause found can be the cause of that sign.
func (d *decoder) explains(x *tell, e *entry) {
	if e.noun == "event" {
		x.c.Fault("cause", "is given, but what is answered is no sign", "take it out; verified says how it was settled")
		return
	}
	sign := d.kindOrNone().Sign(e.sign)
	if sign == nil {
		return // a reading, or a sign that has a fault of its own
	}
	var can []string
	for _, l := range sign.Causes {
		can = append(can, l.Cause)
	}
	if slices.Contains(can, x.cause) {
		return
	}
	mend := "write " + oneOf(can)
	if len(can) == 0 {
		mend = "take it out: nothing harmless explains this sign"
	}
	x.c.Fault("cause", "“"+x.cause+"” does not explain the sign “"+e.sign+"”", mend)
}

// isQuestion reports whether a question of that id can be asked of this kind:
// one of the look "ask", or the id of the line, life or principle that asks it.
func (d *decoder) isQuestion(id string) bool {
	for i := range d.kindOrNone().Asks {
		if d.kind.Asks[i].ID == id {
			return true
		}
	}
	for i := range d.t.Lives {
		if d.t.Lives[i].ID == id {
			return true
		}
	}
	return d.t.Principle(id) != nil || d.t.Line(id) != nil
}

// runsOnce refuses looks of one person that two runs count twice.
func (d *decoder) runsOnce() {
	runs := d.rec.Runs
	for i := range runs {
		for j := range i {
			a, b := &runs[j], &runs[i]
			look := sharedLook(a, b)
			if a.Kind != b.Kind || look == "" || a.To < b.From || b.To < a.From {
				continue
			}
			for day := max(a.From, b.From); day <= min(a.To, b.To) && day < max(a.From, b.From)+7; day++ {
				if a.Weekdays[day.Weekday()] && b.Weekdays[day.Weekday()] {
					d.runAt[i].Fault("from", "the look “"+string(look)+"” of "+day.Words()+" is counted by the run in line "+strconv.Itoa(d.runAt[j].line("from"))+" too",
						"let one run end before the next begins")
					break
				}
			}
		}
	}
}

// sharedLook gives a look that one person made in both runs, or "".
func sharedLook(a, b *kit.Run) kit.LookID {
	for _, x := range a.Looks {
		for _, y := range b.Looks {
			if x.Look == y.Look && x.By == y.By && x.AfterWash == y.AfterWash && x.Look != "" {
				return x.Look
			}
		}
	}
	return ""
}
