package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"strings"
)

// signs enters every sign that withdraws or sets aside by itself (R-01, R-03,
// An absolute sign takes no answer and does not wash out. A sign that
// sets aside is lifted by an answer to it, or by being gone after washing where
// the table has a cause of it that washes off.
func (j *judge) signs() {
	all := j.sightings()
	for i := range all {
		s := &all[i]
		sign := j.k.Sign(s.Sign)
		if sign != nil && sign.Class != table.Absolute && sign.Class != table.Aside {
			continue
		}
		args := append([]Arg{{"sign", s.Sign}, {"day", s.First.String()}}, placed(s.At)...)
		if sign == nil {
			if j.answer(s.Worse, byCompetent, nameOr(s.Ref, QSign)) == nil {
				j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Key: "sign.not-in-table", Args: args,
					Question: QSign, To: nameOr(s.Ref, QSign), At: []kit.Place{s.At}})
			}
			continue
		}
		if !j.signCounts(sign, s, all) {
			continue
		}
		x := Reason{Args: args, Words: sign.Words, At: []kit.Place{s.At}, Status: sign.Status}
		if sign.Class == table.Absolute {
			x.Row, x.Verdict, x.Key = "1", kit.Withdraw, "sign.absolute"
			x.ID, x.Lines = cited(sign.Cite, sign.Lines, "-ABS")
			x.Lines = append(x.Lines, lAbsolute)
			j.add(x)
			continue
		}
		x.Row, x.Verdict, x.Key, x.Asked = "2", kit.SetAside, "sign.aside", sign.Question
		x.ID, x.Lines = cited(sign.Cite, sign.Lines, "-ASIDE")
		x.Question, x.To = questionFor(x.Lines, QSign), s.Name()
		if s.Gone() && Washes(j.t, sign) != "" || j.answer(s.Worse, proofFor(x.Lines), s.Name()) != nil {
			continue
		}
		x.Lines = append(x.Lines, lDoubt)
		j.add(x)
	}
}

// signCounts reports whether the conditions of a sign hold: its fibre, its time
// in use, the signs that must lie with it. What is not known counts as so.
func (j *judge) signCounts(sign *table.Sign, s *Sighting, all []Sighting) bool {
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
			found = found || all[i].Sign == other && !(all[i].Gone() && Washes(j.t, j.k.Sign(other)) != "") && j.touch(all[i].At, s.At)
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
		if f == kit.NoLayer && j.k.Missing(j.r.Piece.Layers, j.r.Piece.Layers[i].Name) {
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
	if p == nil || s.Gone {
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
	case p.Gone:
		out = append(out, Arg{"gone", "yes"})
	default:
		out = append(out, Arg{"from", p.From.String()}, Arg{"to", p.To.String()})
	}
	if len(p.Sides) > 0 {
		out = append(out, Arg{"sides", strings.Join(p.Sides, ", ")})
	}
	return out
}
