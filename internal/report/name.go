package report

import (
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// name gives how an id is called: by the catalogue where it has a key for it,
// else by the tables' own words, else by the id in quotation marks.
func (s *speaker) name(sort, id, words string) string {
	switch key := sort + "." + dashed(id); {
	case id == "":
		return ""
	case s.Has(key):
		return s.Say(key)
	case words != "":
		return words
	}
	return "“" + id + "”"
}

// dashed gives an id as it stands in a key.
func dashed(id string) string { return strings.ReplaceAll(id, " ", "-") }

// short gives the words of a kind or part up to their colon: what follows
// describes it.
func short(words string) string {
	before, _, _ := strings.Cut(words, ":")
	return before
}

func (s *speaker) kind(id kit.KindID) string {
	if k := s.t.Kind(id); k != nil {
		return s.name("kind", string(id), short(k.Words))
	}
	return s.name("kind", string(id), "")
}

func (s *speaker) part(id string) string {
	if p := s.k.Part(id); p != nil {
		return s.name("part", id, short(p.Words))
	}
	return s.name("part", id, "")
}

func (s *speaker) sign(id string) string {
	if x := s.k.Sign(id); x != nil {
		return s.name("sign-words", id, x.Words)
	}
	return s.name("sign-words", id, "")
}

func (s *speaker) look(id kit.LookID) string {
	if l := s.t.Look(id); l != nil {
		return s.name("look-words", string(id), l.Words)
	}
	return s.name("look-words", string(id), "")
}

func (s *speaker) looks(ids []kit.LookID) string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = s.look(id)
	}
	return s.List(list)
}

func (s *speaker) cause(id string) string {
	if c := s.t.Cause(id); c != nil {
		return s.name("cause", id, c.Words)
	}
	return s.name("cause", id, "")
}

func (s *speaker) mode(id string) string {
	for i := range s.k.Modes {
		if s.k.Modes[i].ID == id {
			return s.name("mode", id, s.k.Modes[i].Words)
		}
	}
	return s.name("mode", id, "")
}

func (s *speaker) quantity(id string) string {
	if q := s.k.Quantity(id); q != nil {
		return s.name("quantity", id, q.Words)
	}
	return s.name("quantity", id, "")
}

func (s *speaker) event(id string) string {
	if e := s.t.Event(id); e != nil {
		return s.name("event-words", id, e.Words)
	}
	return s.name("event-words", id, "")
}

func (s *speaker) substance(id string) string {
	if c := s.t.Contaminant(id); c != nil {
		return s.name("substance", id, c.Words)
	}
	return s.name("substance", id, "")
}

func (s *speaker) fibre(id string) string {
	if f := s.t.Fibre(id); f != nil {
		return s.name("fibre", id, f.Words)
	}
	return s.name("fibre", id, "")
}

func (s *speaker) country(code string) string {
	if c := s.t.Country(code); c != nil {
		return s.name("country", code, short(c.Words))
	}
	return s.name("country", code, "")
}

func (s *speaker) ask(id string) string {
	for i := range s.k.Asks {
		if s.k.Asks[i].ID == id {
			return s.name("ask-words", id, s.k.Asks[i].Words)
		}
	}
	return s.name("ask-words", id, "")
}

// verdict gives an outcome in words.
func (s *speaker) verdict(v kit.Verdict) string {
	return s.name("verdict", v.String(), v.String())
}

// todo gives what is to be answered or done: the table's own words, else those
// of the catalogue; both where something is to be done as well. to is what an
// answer has to name.
func (s *speaker) todo(id, to, asked string) string {
	switch {
	case asked != "" && (id == criteria.QWash || id == criteria.QExamine || id == criteria.QThorough):
		return s.question(id) + " " + asked
	case asked != "":
		return asked
	case id != criteria.QLook:
		return s.question(id)
	case to == criteria.QLook || to == "":
		return s.Say("question.looks")
	case s.t.Look(kit.LookID(to)) != nil:
		return s.Say("question.look-list", arg{Name: "looks", Value: s.look(kit.LookID(to))})
	}
	return s.Say("question.sign-look", arg{Name: "ref", Value: to})
}

// question gives what the catalogue says of a question; an examination with the
// looks that a complete one of this kind of piece needs.
func (s *speaker) question(id string) string {
	var needed []kit.LookID
	for i := range s.k.Needs {
		if n := &s.k.Needs[i]; n.Exam == kit.Thorough && !slices.Contains(needed, n.Look) {
			needed = append(needed, n.Look)
		}
	}
	return s.Say("question."+id, arg{Name: "looks", Value: s.apart(needed)})
}

// share prints a share in whole per cent: "<1 %", "37 %", ">99 %". down rounds
// down, so that nothing looks better explained than it is; else the nearest.
func (s *speaker) share(p float64, down bool) string {
	half := 0.5
	if down {
		half = 0
	}
	switch n := int64(float64(p*100) + half); { // no fused product: the same on every machine
	case p <= 0:
		return s.Say("share", arg{Name: "n", Value: "0"})
	case p >= 1:
		return s.Say("share", arg{Name: "n", Value: "100"})
	case n < 1:
		return s.Say("share.under")
	case n > 99 || down && p > 0.99:
		return s.Say("share.over")
	default:
		return s.Say("share", arg{Name: "n", Value: strconv.FormatInt(n, 10)})
	}
}

// status gives the standing of a row in words.
func (s *speaker) status(st table.Status) string {
	return s.name("status", string(st), string(st))
}
