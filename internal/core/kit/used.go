package kit

import "kernbook/internal/core/qty"

// BeforeUse reports whether a kind of examination is a look before use.
func (k ExamKind) BeforeUse() bool { return k == PreUse || k == Partner }

// First gives the first day of a run on which it has a look, from one day up to
// another, both of them counted in.
func (r *Run) First(from, to qty.Day) (qty.Day, bool) {
	from, to = max(from, r.From), min(to, r.To)
	for d := from; d <= to && d < from+7; d++ {
		if r.Weekdays[d.Weekday()] {
			return d, true
		}
	}
	return 0, false
}

// Looked gives the first day on which the record has a look before use, from
// one day up to another, both of them counted in. Whoever looks before use
// uses it.
func (r *Record) Looked(from, to qty.Day) (first qty.Day, found bool) {
	see := func(d qty.Day) {
		if !found || d < first {
			first, found = d, true
		}
	}
	for i := range r.Runs {
		if x := &r.Runs[i]; x.Kind.BeforeUse() {
			if d, ok := x.First(from, to); ok {
				see(d)
			}
		}
	}
	for i := range r.Examinations {
		if x := &r.Examinations[i]; x.Kind.BeforeUse() && from <= x.Day && x.Day <= to {
			see(x.Day)
		}
	}
	return first, found
}

// Used gives the first day up to another on which the record itself has the
// piece in use: by an entry of its use, or by a look before use.
func (r *Record) Used(to qty.Day) (qty.Day, bool) {
	first, found := r.Looked(qty.FirstDay, to)
	for i := range r.Uses {
		if u := &r.Uses[i]; !u.Store && u.From <= to && (!found || u.From < first) {
			first, found = u.From, true
		}
	}
	return first, found
}

// UseOn gives the use on record for a day, and the day on which the next entry
// takes its place: the latest entry not after that day, nil before the first.
func (r *Record) UseOn(day qty.Day) (u *Use, next qty.Day) {
	next = qty.LastDay
	for i := range r.Uses {
		switch x := &r.Uses[i]; {
		case x.From > day:
			next = min(next, x.From)
		case u == nil || x.From >= u.From:
			u = x
		}
	}
	return u, next
}

// Unused says whether a use is none: in store, or of no hours.
func (u *Use) Unused() bool { return u.Store || u.Week == 0 }

// Belied gives what is left of a use of none where the piece was used all the
// same: nothing of a store, and of a use its hours are not known.
func (u *Use) Belied() *Use {
	if u.Store {
		return nil
	}
	x := *u
	x.Week = -1
	return &x
}

// UnusedSince gives the day from which a use of none holds, over the entries
// that say the same one after the other.
func (r *Record) UnusedSince(u *Use) qty.Day {
	for {
		before, _ := r.UseOn(u.From - 1)
		if before == nil || !before.Unused() || before.Store != u.Store {
			return u.From
		}
		u = before
	}
}
