package fold

import (
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// handed is who holds the piece from a day on; "" is nobody.
type handed struct {
	day    qty.Day
	holder string
}

// independence says of each thorough examination which of its people were not
// independent of the piece (D-23): who held it at any time of that day, and who
// repaired it when no thorough examination by others has come between. What an
// examination says of it itself stays. Left out is who holds the piece now: that
// stands beside the person and holds for all examinations.
func (b *builder) independence() {
	slices.SortStableFunc(b.hands, func(x, y handed) int { return int(x.day - y.day) })
	for i := range b.r.Examinations {
		e := &b.r.Examinations[i]
		if e.Kind != kit.Thorough {
			continue
		}
		own := slices.Clone(e.HeldBy)
		people := []string{e.Maker(), e.SignedBy}
		for k := range e.Looks {
			people = append(people, e.Looks[k].Maker(e.Maker()))
		}
		for _, id := range people {
			if id != "" && !slices.Contains(own, id) && (b.heldOn(id, e.Day) || b.repaired(id, e)) {
				own = append(own, id)
			}
		}
		own = slices.DeleteFunc(own, func(id string) bool { return id == b.holder })
		slices.Sort(own)
		own = slices.Compact(own)
		if e.HeldBy = own; len(own) == 0 {
			e.HeldBy = nil
		}
	}
}

// heldOn says whether somebody held the piece at any time of a day.
func (b *builder) heldOn(id string, day qty.Day) bool {
	before := ""
	for _, h := range b.hands {
		switch {
		case h.day < day:
			before = h.holder
		case h.day == day && h.holder == id:
			return true
		}
	}
	return before == id
}

// repaired says whether somebody re-tied or shortened the piece up to the day of a
// thorough examination, and no other competent people examined it thoroughly in
// between, on days between.
func (b *builder) repaired(id string, e *kit.Examination) bool {
	for i := range b.r.Changes {
		c := &b.r.Changes[i]
		if c.By != id || c.Day > e.Day || c.What == "zones" || c.What == kit.Turned {
			continue
		}
		seen := slices.ContainsFunc(b.r.Examinations, func(x kit.Examination) bool {
			return x.Kind == kit.Thorough && x.Day > c.Day && x.Day < e.Day && x.Maker() != id && x.SignedBy != id &&
				b.competent(x.Maker(), x.Day) && b.competent(x.SignedBy, x.Day)
		})
		if !seen {
			return true
		}
	}
	return false
}

func (b *builder) competent(id string, day qty.Day) bool {
	return slices.ContainsFunc(b.r.People, func(p kit.Person) bool { return p.ID == id && p.CompetentOn(day) })
}
