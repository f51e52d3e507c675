package check

import (
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// handing is an entry that says who holds a piece from a day on.
type handing struct {
	day qty.Day
	to  string
}

// dependents puts into each thorough examination of a record who of its people had
// the piece on that day, or repaired it with nobody else's examination since. Who
// holds it today is not named again.
func dependents(r *kit.Record, hands []handing, holder string) {
	competent := map[string]kit.Person{}
	for _, p := range r.People {
		competent[p.ID] = p
	}
	for i := range r.Examinations {
		x := &r.Examinations[i]
		if x.Kind != kit.Thorough {
			continue
		}
		names := map[string]bool{}
		for _, id := range x.HeldBy {
			names[id] = true
		}
		had := holders(hands, x.Day)
		for _, c := range r.Changes {
			repair := c.What == "re-tied end A" || c.What == "re-tied end B" || c.What == kit.CutA || c.What == kit.CutB
			if repair && c.Day <= x.Day && !othersSaw(r, c, x.Day, competent) {
				had[c.By] = true
			}
		}
		at := []string{x.By, x.SignedBy}
		for k := range x.Looks {
			at = append(at, x.Looks[k].By)
		}
		for _, id := range at {
			if had[id] {
				names[id] = true
			}
		}
		delete(names, holder)
		delete(names, "")
		x.HeldBy = nil
		for id := range names {
			x.HeldBy = append(x.HeldBy, id)
		}
		slices.Sort(x.HeldBy)
	}
}

// holders gives whoever had a piece in hand on a day, from the morning on.
func holders(hands []handing, day qty.Day) map[string]bool {
	out := map[string]bool{}
	morning, since := "", qty.Day(0)
	for _, h := range hands {
		if h.day < day && h.day >= since { // of the same day the later entry
			morning, since = h.to, h.day
		}
		if h.day == day {
			out[h.to] = true
		}
	}
	out[morning] = true
	return out
}

// othersSaw says whether competent people other than who made a change examined
// the piece thoroughly after its day and before another.
func othersSaw(r *kit.Record, c kit.Change, before qty.Day, people map[string]kit.Person) bool {
	for i := range r.Examinations {
		x := &r.Examinations[i]
		if x.Kind != kit.Thorough || x.Day <= c.Day || x.Day >= before {
			continue
		}
		by, signed := people[x.Maker()], people[x.SignedBy]
		if by.ID != "" && by.ID != c.By && signed.ID != c.By && by.CompetentOn(x.Day) && signed.CompetentOn(x.Day) {
			return true
		}
	}
	return false
}
