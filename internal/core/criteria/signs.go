package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// sighting is one sign on record: where it was first seen, and the last day on
// which it was seen first or had grown. What is no longer there after washing
// is gone.
type sighting struct {
	id    string
	ref   string
	place kit.Place
	first qty.Day
	last  qty.Day
	gone  bool
}

// sightings folds the signs of all examinations. A later entry speaks of the
// one with its ref; an entry that names no sign and no known ref is kept with
// an empty id.
func (j *judge) sightings() []sighting {
	var all []sighting
	for i := range j.exams {
		e := &j.exams[i]
		for n := range e.Signs {
			s := &e.Signs[n]
			at := -1
			for m := range all {
				if s.Ref != "" && all[m].ref == s.Ref && (s.Sign == "" || all[m].id == s.Sign) {
					at = m
				}
			}
			if at < 0 {
				all = append(all, sighting{id: s.Sign, ref: s.Ref, place: s.At, first: e.Day, last: e.Day, gone: s.State == kit.GoneWash})
				continue
			}
			switch s.State {
			case kit.GoneWash:
				all[at].gone = true
			case kit.FirstSeen, kit.Grown, "":
				all[at].gone, all[at].last = false, e.Day
			case kit.Same:
				all[at].gone = false
			}
		}
	}
	return all
}

// signs enters every sign that withdraws or sets aside by itself (R-01, R-03,
// An absolute sign takes no answer and does not wash out. A sign that
// sets aside is lifted by an answer to it, or by being gone after washing.
func (j *judge) signs() {
	all := j.sightings()
	for i := range all {
		s := &all[i]
		sign := j.k.Sign(s.id)
		if sign != nil && sign.Class != table.Absolute && sign.Class != table.Aside {
			continue
		}
		args := append([]Arg{{"sign", s.id}, {"day", s.first.String()}}, placed(s.place)...)
		if sign == nil {
			if j.answer(s.last, byCompetent, nameOr(s.ref, QSign)) == nil {
				j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Key: "sign.not-in-table", Args: args,
					Question: QSign, To: nameOr(s.ref, QSign), At: []kit.Place{s.place}})
			}
			continue
		}
		if !j.signCounts(sign, s, all) {
			continue
		}
		x := Reason{Args: args, Words: sign.Words, At: []kit.Place{s.place}, Status: sign.Status}
		if sign.Class == table.Absolute {
			x.Row, x.Verdict, x.Key = "1", kit.Withdraw, "sign.absolute"
			x.ID, x.Lines = cited(sign.Cite, sign.Lines, "-ABS")
			x.Lines = append(x.Lines, lAbsolute)
			j.add(x)
			continue
		}
		x.Row, x.Verdict, x.Key, x.Asked = "2", kit.SetAside, "sign.aside", sign.Question
		x.ID, x.Lines = cited(sign.Cite, sign.Lines, "-ASIDE")
		x.Question, x.To = questionFor(x.Lines, QSign), nameOr(s.ref, s.id)
		if s.gone || j.answer(s.last, proofFor(x.Lines), s.ref, s.id) != nil {
			continue
		}
		x.Lines = append(x.Lines, lDoubt)
		j.add(x)
	}
}

// signCounts reports whether the conditions of a sign hold: its fibre, its time
// in use, the signs that must lie with it. What is not known counts as so.
func (j *judge) signCounts(sign *table.Sign, s *sighting, all []sighting) bool {
	if len(sign.ByFibre) > 0 && !j.fibreCounts(sign.ByFibre...) {
		return false
	}
	if sign.AfterUse > 0 {
		if from := j.firstUse(); from.known && j.r.AsOf < from.day.AddMonths(int(sign.AfterUse)) {
			return false
		}
	}
	for _, other := range sign.With {
		found := false
		for i := range all {
			found = found || all[i].id == other && !all[i].gone && j.touch(all[i].place, s.place)
		}
		if !found {
			return false
		}
	}
	return true
}

// fibreCounts reports whether some layer is of one of the fibres, or can be:
// its fibre is not known.
func (j *judge) fibreCounts(fibres ...string) bool {
	for _, f := range j.fibres() {
		if f == unknown || has(fibres, f) {
			return true
		}
	}
	return false
}

// unknown is the fibre or substance that nobody knows.
const unknown = "unknown"

// fibres gives the fibres and metals of all layers, each once. One not said or
// not in the tables is unknown; so is a piece without layers on record.
func (j *judge) fibres() []string {
	var out []string
	for i := range j.r.Piece.Layers {
		f := j.r.Piece.Layers[i].Fibre
		if f == kit.NoLayer {
			continue
		}
		if f == "" || j.t.Fibre(f) == nil {
			f = unknown
		}
		if !has(out, f) {
			out = append(out, f)
		}
	}
	if out == nil {
		return []string{unknown}
	}
	return out
}

// touch reports whether two places share some of the piece. The whole piece
// touches everything; an end and a stretch touch where the end is.
func (j *judge) touch(a, b kit.Place) bool {
	switch {
	case a.Whole || b.Whole:
		return true
	case a.Part != "" && b.Part != "":
		return a.Part == b.Part
	case a.Part != "":
		return j.partTouches(a.Part, b)
	case b.Part != "":
		return j.partTouches(b.Part, a)
	}
	return a.From <= b.To && b.From <= a.To
}

// partTouches reports whether a stretch reaches an end. A part that is no end
// lies nowhere along the piece.
func (j *judge) partTouches(id string, s kit.Place) bool {
	p := j.k.Part(id)
	if p == nil {
		return false
	}
	length, _ := j.length()
	switch p.End {
	case "A":
		return s.From <= p.Extent
	case "B":
		return s.To >= length-p.Extent
	}
	return false
}

// placed gives the values that say where.
func placed(p kit.Place) []Arg {
	var out []Arg
	switch {
	case p.Part != "":
		out = append(out, Arg{"part", p.Part})
	case p.Whole:
		out = append(out, Arg{"whole", "yes"})
	default:
		out = append(out, Arg{"from", p.From.String()}, Arg{"to", p.To.String()})
	}
	if len(p.Sides) > 0 {
		out = append(out, Arg{"sides", join(p.Sides)})
	}
	return out
}

func join(list []string) string {
	out := ""
	for i, s := range list {
		if i > 0 {
			out += ", "
		}
		out += s
	}
	return out
}
