package criteria

import (
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// competent reports whether a person on record was a competent person on a day.
func competent(r *kit.Record, id string, day qty.Day) bool {
	p := person(r, id)
	return p != nil && p.CompetentOn(day)
}

func person(r *kit.Record, id string) *kit.Person {
	for i := range r.People {
		if r.People[i].ID == id && id != "" {
			return &r.People[i]
		}
	}
	return nil
}

// What an interim or thorough examination lacks to count as one.
const (
	notCompetent   = "not-competent"   // not made by a competent person (D-04, D-08)
	notSigned      = "not-signed"      // no competent person signed it (D-13)
	notIndependent = "not-independent" // made or signed by whoever uses or repaired the piece (D-23)
)

// lacks says what an examination lacks to count as one of its kind, or "". A
// look before use and a partner's look are anybody's. An interim inspection is
// a competent person's; a thorough examination is signed by one besides, and
// not by the person whose own kit it is.
func lacks(r *kit.Record, e *kit.Examination) string {
	if e.Kind != kit.Interim && e.Kind != kit.Thorough {
		return ""
	}
	by := e.Maker()
	if !competent(r, by, e.Day) {
		return notCompetent
	}
	if e.Kind == kit.Interim {
		return ""
	}
	if !competent(r, e.SignedBy, e.Day) {
		return notSigned
	}
	if own(r, e, by) || own(r, e, e.SignedBy) {
		return notIndependent
	}
	return ""
}

// counts says whether a look of an interim or thorough examination is by whom it
// has to be: a competent person, and of a thorough one not the person whose own
// kit it is.
func counts(r *kit.Record, e *kit.Examination, l *kit.Look) bool {
	if e.Kind != kit.Interim && e.Kind != kit.Thorough {
		return true
	}
	by := l.Maker(e.Maker())
	return competent(r, by, e.Day) && !(e.Kind == kit.Thorough && own(r, e, by))
}

// own says whether the piece is the own kit of somebody on record, or was on the
// day of an examination, or was repaired by them before it.
func own(r *kit.Record, e *kit.Examination, id string) bool {
	return person(r, id).Holds || slices.Contains(e.HeldBy, id)
}

// QualityAs gives the kind of examination whose quality of looking a person's
// look has: that of an interim or thorough examination is a competent person's;
// anybody else's look there is as good as one before use.
func QualityAs(r *kit.Record, kind kit.ExamKind, by string, day qty.Day) kit.ExamKind {
	if (kind == kit.Interim || kind == kit.Thorough) && !competent(r, by, day) {
		return kit.PreUse
	}
	return kind
}

// Uncounted is an entry of the record that does not count for what it says it is.
type Uncounted struct {
	What string // "answer", or the kind of an examination
	Day  qty.Day
	By   string
	To   string // what an answer names; the ref of an examination
	Why  string // of an answer "by" or "proof", of an examination "not-competent", "not-signed", "not-independent", or "look": one look of it
}

// NotCounted gives the answers up to the day of the record that can lift no
// question, for want of who gives them or of a proof, and the interim and
// thorough examinations that do not count as such.
func NotCounted(r *kit.Record) []Uncounted {
	var out []Uncounted
	for i := range r.Examinations {
		e := &r.Examinations[i]
		if e.Day > r.AsOf {
			continue
		}
		if why := lacks(r, e); why != "" {
			out = append(out, Uncounted{string(e.Kind), e.Day, e.By, e.Ref, why})
			continue
		}
		for l := range e.Looks {
			if x := &e.Looks[l]; !counts(r, e, x) {
				out = append(out, Uncounted{string(e.Kind), e.Day, x.By, string(x.Look), "look"})
			}
		}
	}
	for i := range r.Answers {
		a := &r.Answers[i]
		if a.Unfit || a.Day > r.AsOf {
			continue
		}
		if why := short(r, a, byCompetent); why == "by" || why == "proof" {
			out = append(out, Uncounted{"answer", a.Day, a.By, a.To, why})
		}
	}
	return out
}
