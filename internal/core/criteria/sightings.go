package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Sighting is one sign on record, followed through all that was said of it.
type Sighting struct {
	Sign  string // id in the kind's table; "" where an entry speaks of a ref that nobody introduced
	Ref   string
	At    kit.Place
	First qty.Day       // first seen
	Worse qty.Day       // last found new, back again or grown: an answer must not be older
	Said  qty.Day       // something was last said of it
	State kit.SignState // once grown it stays so
}

// Name gives what an answer has to name: the ref, or, of a sign without one, its id.
func (s *Sighting) Name() string { return nameOr(s.Ref, s.Sign) }

// Gone says whether the sign was gone after washing when last spoken of.
func (s *Sighting) Gone() bool { return s.State == kit.GoneWash }

// Washes gives the harmless cause of a sign that washing takes away, or "".
func Washes(t *table.Tables, sign *table.Sign) string {
	if sign == nil {
		return ""
	}
	for _, l := range sign.Causes {
		if cause := t.Cause(l.Cause); cause != nil && cause.Washable {
			return l.Cause
		}
	}
	return ""
}

// Outweighs says whether one word about a sign is stricter than another: grown,
// then there as before, then gone without a reason, then gone after washing.
func Outweighs(a, b kit.SignState) bool { return weight(a) > weight(b) }

func weight(s kit.SignState) int {
	switch s {
	case kit.GoneWash:
		return 0
	case kit.Gone:
		return 1
	case kit.Same:
		return 2
	case kit.Grown:
		return 4
	}
	return 3
}

// Sightings follows the signs of all examinations up to the day of the record.
// Of several words about one sign on one day, before washing and after it apart,
// the strictest holds, in whatever order they were written down.
func Sightings(t *table.Tables, r *kit.Record) []Sighting { return newJudge(t, r).sightings() }

func (j *judge) sightings() []Sighting {
	var all []Sighting
	for i := 0; i < len(j.exams); {
		n := i
		for n < len(j.exams) && j.exams[n].Day == j.exams[i].Day {
			n++
		}
		for _, washed := range [2]bool{false, true} {
			all = follow(all, j.exams[i:n], washed)
		}
		i = n
	}
	return all
}

// follow takes the words of one day, before washing or after it: new signs
// first, then the strictest word about each.
func follow(all []Sighting, day []kit.Examination, washed bool) []Sighting {
	each := func(see func(e *kit.Examination, s *kit.Sign)) {
		for i := range day {
			for n := range day[i].Signs {
				if s := &day[i].Signs[n]; s.AfterWash == washed {
					see(&day[i], s)
				}
			}
		}
	}
	any := false
	each(func(*kit.Examination, *kit.Sign) { any = true })
	if !any {
		return all
	}
	known := len(all)
	each(func(e *kit.Examination, s *kit.Sign) {
		if s.Sign != "" && find(all, s) < 0 {
			state := kit.FirstSeen
			if s.Ref == "" && s.State == kit.Grown {
				state = kit.Grown
			}
			all = append(all, Sighting{Sign: s.Sign, Ref: s.Ref, At: s.At, First: e.Day, Worse: e.Day, Said: e.Day, State: state})
		}
	})
	var room [8]kit.SignState
	words := append(room[:0], make([]kit.SignState, len(all))...)
	each(func(e *kit.Examination, s *kit.Sign) {
		if s.Ref == "" && s.Sign != "" {
			return // new, and without a name by which anything else speaks of it
		}
		at := find(all, s)
		if at < 0 { // of a ref that nobody introduced
			all = append(all, Sighting{Ref: s.Ref, At: s.At, First: e.Day, Worse: e.Day, Said: e.Day, State: s.State})
			words = append(words, s.State)
			return
		}
		if words[at] == "" || Outweighs(s.State, words[at]) {
			words[at] = s.State
			if s.State == "" {
				words[at] = kit.FirstSeen
			}
		}
	})
	for at, word := range words {
		s := &all[at]
		if word == "" {
			continue
		}
		s.Said = day[0].Day
		if at >= known && word != kit.Grown {
			continue
		}
		if word == kit.Grown || word == kit.FirstSeen || word == kit.Same && s.Gone() {
			s.Worse = s.Said
		}
		switch {
		case s.State == kit.Grown:
		case s.Gone() && weight(word) > weight(kit.Gone):
			s.State = kit.Grown // back again after it was washed off
		case word == kit.FirstSeen && at < known:
			s.State = kit.Same // on record already
		default:
			s.State = word
		}
	}
	return all
}

// find gives the sighting that an entry speaks of, or -1.
func find(all []Sighting, s *kit.Sign) int {
	for i := len(all) - 1; i >= 0; i-- {
		if s.Ref != "" && all[i].Ref == s.Ref && (s.Sign == "" || all[i].Sign == s.Sign) {
			return i
		}
	}
	return -1
}
