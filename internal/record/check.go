package record

import (
	"slices"
	"strconv"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/doc"
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
	d.usedThere()
}

// usedThere refuses a look before use where the piece is said not to have been
// used: before its first use, in store, or in a use of no hours.
func (d *decoder) usedThere() {
	for i := range d.rec.Runs {
		if r := &d.rec.Runs[i]; r.Kind.BeforeUse() && r.From != 0 && r.To != 0 {
			d.lookedUnused(d.runAt[i], "from", r.First)
		}
	}
	for i := range d.rec.Examinations {
		if e := &d.rec.Examinations[i]; e.Kind.BeforeUse() && e.Day != 0 {
			d.lookedUnused(d.examAt[i], "day", func(from, to qty.Day) (qty.Day, bool) { return e.Day, from <= e.Day && e.Day <= to })
		}
	}
}

// lookedUnused tells of the looks of one entry, of which looked gives the first
// day between two.
func (d *decoder) lookedUnused(c cursor, key string, looked func(from, to qty.Day) (qty.Day, bool)) {
	const told = "there is a look before use on "
	if p := d.rec.Piece.FirstUse; p.Known() {
		if day, ok := looked(qty.FirstDay, p.Earliest()-1); ok {
			c.Fault(key, told+day.Words()+", which lies before its first use ("+p.Words()+")", "correct one of the two")
			return
		}
	}
	for i := range d.rec.Uses {
		u := &d.rec.Uses[i]
		if u.From == 0 || !u.Unused() {
			continue
		}
		_, next := d.rec.UseOn(u.From)
		day, ok := looked(u.From, next-1)
		switch {
		case !ok:
		case u.Store:
			c.Fault(key, told+day.Words()+", while the piece lies in store from "+u.From.Words()+" on (line "+strconv.Itoa(d.useAt[i].line("from"))+")",
				"correct one of the two, or add a [[use]] from the day on which it came out of store")
			return
		default:
			c.Fault(key, told+day.Words()+", while the piece is used for 0h a week from "+u.From.Words()+" on (line "+strconv.Itoa(d.useAt[i].line("from"))+")",
				`write the hours of that use, or week = "unknown"`)
			return
		}
	}
}

// states checks that same, grown and gone speak of a sign on record, and that
// no two signs are first seen under one ref. The signs come in order of day.
func (d *decoder) states() {
	unnamed := map[string]int{}
	for _, s := range d.signs {
		first := d.refs[s.sign.Ref]
		if s.sign.State == "" {
			continue // a word that is no state has been faulted
		}
		if s.sign.State == kit.FirstSeen && s.sign.Ref == "" && s.sign.Sign != "" {
			if line, twice := unnamed[s.sign.Sign]; twice {
				s.c.Fault("ref", "is missing, and so it is from the sign “"+s.sign.Sign+"” in line "+strconv.Itoa(line)+": they could not be told apart",
					"give each a name of its own, such as ref = “"+s.sign.Sign+" 1”")
			} else {
				unnamed[s.sign.Sign] = s.c.line("sign")
			}
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
			s.c.Fault("ref", "no sign “"+doc.Short(s.sign.Ref)+"” is on record before this, so it cannot be "+state,
				"correct the ref, or leave state out where the sign is new"+d.meant(s.sign.Ref, "sign"))
		case s.sign.Sign != "" && first.sign != "" && first.sign != s.sign.Sign:
			s.c.Fault("sign", "“"+s.sign.Sign+"” is not what “"+doc.Short(s.sign.Ref)+"” was on record as: “"+first.sign+"” (line "+strconv.Itoa(first.line)+")",
				"leave the key out, or enter a new sign with a ref of its own")
		}
	}
}

// toldOf checks that answers and examinations after an event speak of something.
func (d *decoder) toldOf() {
	for _, x := range d.tells {
		e := d.refs[x.ref]
		switch {
		case !x.answer && (e == nil || e.noun != "event"):
			x.c.Fault(x.key, "no event “"+doc.Short(x.ref)+"” is on record", "write the ref of an [[event]]"+d.meant(x.ref, "event"))
			continue
		case x.answer && e == nil:
			if e = d.question(x.ref); e == nil {
				x.c.Fault(x.key, "“"+doc.Short(x.ref)+"” is no entry on record and no question", "write the ref of an entry, or the word that the outcome names for its question"+
					d.meant(x.ref, "sign", "reading", "event", "examination", "question"))
				continue
			}
		}
		if e.dayOK && x.dayOK && x.day < e.day {
			x.c.Fault("day", x.day.Words()+" lies before the "+e.noun+" “"+doc.Short(x.ref)+"” ("+e.day.Words()+")", "correct one of the two")
		}
		if x.cause != "" {
			d.explains(x, e)
		}
	}
}

// question gives what an answer speaks of that names no ref: a word under which
// an outcome asks, or the id of a question, sign or quantity of this kind.
func (d *decoder) question(id string) *entry {
	k := d.kindOrNone()
	for i := range k.Asks {
		if k.Asks[i].ID == id {
			return &entry{noun: "question"}
		}
	}
	if k.Sign(id) != nil {
		return &entry{noun: "sign", sign: id}
	}
	if q := k.Quantity(id); q != nil {
		return &entry{noun: "reading", sign: q.Sign}
	}
	switch {
	case id == criteria.QSubstance:
		return &entry{noun: "event"}
	case slices.Contains(questions, id):
		return &entry{noun: "question"}
	}
	return nil
}

// meant completes a mend with the ref of such an entry that was most likely meant.
func (d *decoder) meant(ref string, nouns ...string) string {
	var known []string
	for r, e := range d.refs {
		if r != ref && slices.Contains(nouns, e.noun) {
			known = append(known, r)
		}
	}
	if slices.Contains(nouns, "question") {
		known = append(known, questions...)
	}
	slices.Sort(known)
	if w := suggest(ref, known); w != "" {
		return "; did you mean “" + w + "”?"
	}
	return ""
}

// explains checks that a cause found can be one: of a sign the harmless cause
// that the tables link to it, of an event the substance that it was.
func (d *decoder) explains(x *tell, e *entry) {
	s := set{noun: "harmless cause of the tables"}
	for i := range d.t.Causes {
		s.ids = append(s.ids, d.t.Causes[i].ID)
	}
	switch e.noun {
	case "event":
		s = set{noun: "contaminant of the tables", ids: d.contaminants()}
	case "sign", "reading":
		k := d.kindOrNone()
		if row := k.Sign(e.sign); row != nil && k.Doubt {
			s = set{noun: "harmless cause of the sign “" + e.sign + "”"}
			for _, l := range row.Causes {
				s.ids = append(s.ids, l.Cause)
			}
		}
	default:
		x.c.Fault("cause", "is given, but what is answered is neither a sign nor a substance", "take it out; verified says how it was settled")
		return
	}
	if !s.has(x.cause) {
		what, mend := s.wrong(x.cause)
		x.c.Fault("cause", what, mend)
	}
}

func (d *decoder) contaminants() []string {
	var out []string
	for i := range d.t.Contaminants {
		out = append(out, d.t.Contaminants[i].ID)
	}
	return out
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
