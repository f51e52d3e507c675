package record

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

func (p *pen) examination() {
	p.part("the examination at hand; earlier ones are further blocks like it")
	p.line("[[examination]]")
	p.blank("kind", "What sort of examination? "+quoted(examKinds)+".")
	p.say("The day itself.")
	if p.today.Exact() {
		p.line("day = " + p.today.String())
	} else {
		p.line(`day = ""`)
	}
	p.blank("by", "Who made it: the id of a [[person]].")
	p.blank("would_climb", "Would the examiner climb on it? "+quoted(answers)+".")
	p.blank("signed", `Who signed for it: the id of a [[person]]. Only one whose role is "examiner" or "competent person" makes an interim or thorough examination count; take the line out where nobody signed.`)
	p.may(`latest = "2026-12"`, "The latest date that the examiner sets for the next one.")
	p.may(`ref = "E1"`, "A name for it.")
	p.line("")
	p.say("What its looks were made under. What is not said counts as the worst, and such a look finds next to nothing. light: " + quoted(lights) + "; the rest: " + quoted(answers) + ".")
	p.line("[examination.conditions]")
	for _, key := range append([]string{"light"}, yesKeys...) {
		p.line(key + ` = ""`)
	}
	p.looks()
	p.asks()
	p.signs()
	p.readings()
}

// looks writes every look that a thorough examination of the kind needs, each behind a #:
// none is claimed that nobody has said was made.
func (p *pen) looks() {
	p.line("")
	p.say(`The looks, none of which counts as made while it stands behind #: of each that was really made, take the # away from all its lines. covers: "all" where all of it was gone over, or the places: ` + p.exampleCovers() + "." + p.sidesWords())
	for _, exam := range examKinds {
		var needed []string
		for i := range p.k.Needs {
			if string(p.k.Needs[i].Exam) == exam {
				needed = append(needed, string(p.k.Needs[i].Look))
			}
		}
		if len(needed) > 0 {
			p.hang("#   ", "#     ", "Needed for "+exam+": "+strings.Join(needed, ", ")+".")
		}
	}
	for _, id := range kit.Looks {
		if !p.wanted(id) {
			continue
		}
		l := p.t.Look(id)
		p.line("")
		if l != nil {
			p.say(upperFirst(l.Words) + ". " + l.How)
		}
		p.may("[[examination.look]]", "")
		p.may(`look = "`+string(id)+`"`, "")
		if id != kit.Ask && id != kit.Read {
			p.may(`covers = ""`, "")
		}
	}
	p.line("")
	p.say("To a look may be added, when it differs from the whole examination:")
	for _, s := range []string{`by = "…": who made it`, `conditions = {light = "poor"}`, "after_washing = true: made after a washing on the same day"} {
		p.hang("#   ", "#     ", s)
	}
}

func upperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// wanted reports whether a thorough examination of the kind needs the look;
// where none is asked for by name, every look is.
func (p *pen) wanted(id kit.LookID) bool {
	named := false
	for i := range p.k.Needs {
		if n := &p.k.Needs[i]; n.Exam == kit.Thorough {
			named = true
			if n.Look == id {
				return true
			}
		}
	}
	return !named
}

func (p *pen) asks() {
	if len(p.k.Asks) == 0 {
		return
	}
	p.line("")
	p.line("[examination.asked]")
	p.say("Since the last examination: " + quoted(answers) + ".")
	for i := range p.k.Asks {
		p.blank(bareKey(p.k.Asks[i].ID), p.k.Asks[i].Words)
	}
}

func bareKey(id string) string {
	for _, r := range id {
		if !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' || r == '_') {
			return strconv.Quote(id)
		}
	}
	return id
}

func (p *pen) signs() {
	p.line("")
	p.say("Everything that was seen or felt, one block each. The signs of this kind, with the looks that can show them:")
	for _, class := range []struct {
		class table.Class
		title string
	}{
		{table.Absolute, "withdraw by themselves"},
		{table.Aside, "set aside by themselves"},
		{table.Weigh, "to be weighed"},
		{table.Observation, "observations"},
	} {
		first := true
		for i := range p.k.Signs {
			s := &p.k.Signs[i]
			if s.Class != class.class {
				continue
			}
			if first {
				p.line("# " + class.title + ":")
				first = false
			}
			p.hang("#   ", "#     ", s.ID+": "+s.Words+" ("+looksOf(s)+")")
		}
	}
	if len(p.k.Signs) == 0 {
		return
	}
	s := p.exampleSign()
	p.may("[[examination.sign]]", "")
	p.may(`sign = "`+s.ID+`"`, "")
	p.may("at = "+p.examplePlace(s.Whole), "Where: "+p.placeWords())
	p.may(`ref = "S1"`, "A name for it, so that later examinations can say that it is the same, grown or gone:")
	p.hang("#   ", "#     ", `ref = "S1" and state = `+quoted(states[1:]))
	if len(s.Looks) > 0 {
		p.may(`look = "`+string(s.Looks[0])+`"`, "The look that showed it, and what there is to say about it.")
	}
	p.may(`words = "…"`, "")
}

// exampleSign gives a sign to be weighed that has a place, or the first.
func (p *pen) exampleSign() *table.Sign {
	for i := range p.k.Signs {
		if s := &p.k.Signs[i]; s.Class == table.Weigh && !s.Whole {
			return s
		}
	}
	return &p.k.Signs[0]
}

func looksOf(s *table.Sign) string {
	words := make([]string, len(s.Looks))
	for i, l := range s.Looks {
		words[i] = string(l)
	}
	return strings.Join(words, ", ")
}

func (p *pen) placeWords() string {
	if p.k.Axis != "length" {
		return p.partWords() + `, or "whole".`
	}
	s := `{at = "450mm"}, {from = "420mm", to = "460mm"}`
	if len(p.k.Parts) > 0 {
		s += ", " + p.partWords()
	}
	if len(p.k.Sides) > 0 {
		s += `, with sides = ["` + p.k.Sides[0] + `"] of ` + quoted(p.k.Sides)
	}
	return s + `, or "whole".`
}

func (p *pen) partWords() string {
	if len(p.k.Parts) == 0 {
		return `"whole"`
	}
	var parts []string
	for i := range p.k.Parts {
		parts = append(parts, p.k.Parts[i].ID)
	}
	return `{part = "` + parts[0] + `"} of ` + quoted(parts)
}

func (p *pen) examplePlace(whole bool) string {
	switch {
	case whole || p.k.Axis != "length" && len(p.k.Parts) == 0:
		return `"whole"`
	case p.k.Axis != "length":
		return `{part = "` + p.k.Parts[0].ID + `"}`
	}
	return `{from = "` + (p.k.Length / 3).String() + `", to = "` + (p.k.Length / 2).String() + `"}`
}

func (p *pen) exampleCovers() string {
	sides := ""
	if len(p.k.Sides) > 1 {
		sides = `, sides = "all"`
	}
	if p.k.Axis == "length" {
		return `[{from = "0mm", to = "` + (p.k.Length / 2).String() + `"` + sides + `}]`
	}
	if len(p.k.Parts) > 0 {
		return `[{part = "` + p.k.Parts[0].ID + `"` + sides + `}]`
	}
	return "[]"
}

// sidesWords says that the sides of a place have to be said, on a kind that has
// more than one.
func (p *pen) sidesWords() string {
	if len(p.k.Sides) < 2 {
		return ""
	}
	return " On which sides has to be said: " + `"all", or those it went over, such as ["` + p.k.Sides[0] + `"] of ` + quoted(p.k.Sides) + "."
}

func (p *pen) readings() {
	if len(p.k.Reads) == 0 {
		return
	}
	p.line("")
	p.say("Everything that was measured, one block for each place. What is measured on this kind:")
	for i := range p.k.Reads {
		p.hang("#   ", "#     ", p.k.Reads[i].ID+": "+p.k.Reads[i].Words)
	}
	for i := range p.k.Needs {
		switch n := &p.k.Needs[i]; {
		case n.Places > 0:
			p.say("A " + string(n.Exam) + " examination needs a reading in each of " + strconv.Itoa(n.Places) + " equal stretches: the gauge counts only where one is on record.")
		case len(n.Parts) > 0:
			p.say("A " + string(n.Exam) + " examination needs a reading on " + quoted(n.Parts) + ": the gauge counts only where one is on record.")
		}
	}
	p.may("[[examination.reading]]", "")
	p.may(`quantity = "`+p.k.Reads[0].ID+`"`, "")
	p.may("at = "+p.examplePlace(false), "")
	p.may(`values = ["11.2mm", "11.3mm"]`, "Every value that was taken.")
	p.may(`again = ["11.2mm", "11.3mm"]`, "Those of a second measurement, where the first was out of range; two at least, or the first stands.")
	p.may(`gauge = "…"`, "With what and how, at which tension, wet or dry, and the standard error of one value where it is known.")
	p.may(`method = "…"`, "")
	p.may(`tension = "200N"`, "")
	p.may(`wet = "no"`, "")
	p.may(`error = "0.1mm"`, "")
	p.may(`ref = "R1"`, "")
}
