package check

import (
	"fmt"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// stay is somebody as an entry tells them from a day on.
type stay struct {
	kit.Person
	examines, left bool
}

// stays gives what the entries of a book of a size say of somebody up to a day.
func (p *person) stays(on qty.Day, size int64) ([]stay, error) {
	var out []stay
	for _, x := range p.items {
		body, day := x.at(size)
		if x.kind != kPerson || x.index >= size || body == nil || day > on {
			continue
		}
		var b personBody
		if err := strictly(body, &b); err != nil {
			return nil, err
		}
		if err := whole(&b); err != nil {
			return nil, err
		}
		s := stay{Person: b.block, left: b.Left}
		s.Since, s.Until = day, 0
		if b.Left {
			s.Role = ""
		}
		s.examines = examines(s.Role)
		out = append(out, s)
	}
	return out, nil
}

// examines says whether a role is that of a competent person.
func examines(role string) bool { return role == "examiner" || role == "competent person" }

// standing is whether somebody is in the yard on a day, and competent.
type standing struct{ here, competent bool }

// may says why an entry cannot be its author's, where it cannot: on the day on
// which it was made, by its own wall time, its author must have been in the yard,
// and for some entries a competent person, as the entries before it tell. What a
// wall time is worth is another question: see the design. v is its body.
func (h *history) may(index int64, e *envelope, v any) error {
	switch e.Kind {
	case kPerson, kForget, kCorrect:
		defer clear(h.stands) // the next entry may find people otherwise
	}
	if len(h.people) == 0 || h.people[0].items[0].index == index {
		if e.Kind == kPerson || e.Kind == kYard {
			return nil // somebody must be the first
		}
		return fmt.Errorf("“%s” enters it, and nobody is in the yard before it", e.Author)
	}
	p := h.person(e.Author, index)
	if p == nil {
		return fmt.Errorf("“%s” enters it, and no entry before it brings such a person into the yard", e.Author)
	}
	on := e.Wall[:len("2006-01-02")]
	at, err := h.standing(p, on, index)
	switch {
	case err != nil:
		return err
	case !at.here:
		return fmt.Errorf("“%s” enters it on %s, and is not in the yard on that day", e.Author, on)
	case !at.competent:
		if why := h.forCompetent(v); why != "" {
			return fmt.Errorf("“%s” enters it on %s and is no competent person on that day, and %s", e.Author, on, why)
		}
	}
	return nil
}

// standing gives how somebody stands on a day by the entries below an index. It
// remembers what it found until an entry has spoken of people again.
func (h *history) standing(p *person, on string, index int64) (standing, error) {
	key := p.id + " " + on
	if at, ok := h.stands[key]; ok {
		return at, nil
	}
	day, err := dayOf(on)
	if err != nil {
		return standing{}, err
	}
	all, err := p.stays(day, index)
	if err != nil {
		return standing{}, err
	}
	var at standing
	if n := len(all); n > 0 {
		at = standing{!all[n-1].left, all[n-1].examines}
	}
	h.stands[key] = at
	return at, nil
}

// forCompetent says why the entry with a body is for a competent person; "" where
// anybody of the yard may make it.
func (h *history) forCompetent(v any) string {
	switch b := v.(type) {
	case *decisionBody:
		return "a decision is for one"
	case *limitBody, *kit.Yard:
		return "what holds in the yard is for one to say"
	case *forgetBody:
		return "to have somebody forgotten is for one"
	case *stopBody:
		switch b.What {
		case "back in use", "release", "cut up":
			return "“" + b.What + "” is for one"
		}
	case *personBody:
		if examines(b.block.Role) || len(b.block.Kappa) > 0 {
			return "who examines, and how well somebody looks, is for one to say"
		}
	case *correctBody:
		switch kind := h.all[b.Entry].kind; kind {
		case kDecision, kStop, kPerson:
			return "to correct an entry of the kind “" + kind + "” is for one"
		}
	}
	return ""
}
