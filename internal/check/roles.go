package check

import (
	"fmt"
	"maps"

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
		if b, ok := v.(*personBody); ok && (b.Left || !examines(b.block.Role)) {
			return fmt.Errorf("“%s” is the first person of the yard and no competent person, so nobody could ever say who is one", b.block.ID)
		}
		if e.Kind == kPerson || e.Kind == kYard {
			return nil // somebody must be the first
		}
		return fmt.Errorf("“%s” enters it, and nobody is in the yard before it", e.Author)
	}
	p := h.person(e.Author, index)
	if p == nil {
		return fmt.Errorf("“%s” enters it, and no entry before it brings such a person into the yard", e.Author)
	}
	on := dateOf(e)
	at, err := h.standing(p, on, index)
	switch {
	case err != nil:
		return err
	case !at.here:
		return fmt.Errorf("“%s” enters it on %s, and is not in the yard on that day", e.Author, on)
	case !at.competent:
		why, err := h.forCompetent(index, e, v)
		if err != nil {
			return err
		}
		if why != "" {
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
func (h *history) forCompetent(index int64, e *envelope, v any) (string, error) {
	switch b := v.(type) {
	case *decisionBody:
		return "a decision is for one", nil
	case *limitBody, *kit.Yard:
		return "what holds in the yard is for one to say", nil
	case *forgetBody:
		return "to have somebody forgotten is for one", nil
	case *amendBody:
		return "to describe a piece anew is for one", nil
	case *stopBody:
		switch b.What {
		case "back in use", "release", "cut up":
			return "“" + b.What + "” is for one", nil
		}
	case *personBody:
		return h.ofPerson(index, e, b)
	case *correctBody:
		old := h.all[b.Entry]
		slip, err := old.slip(index, e, b)
		if err != nil || slip {
			return "", err
		}
		return fmt.Sprintf("to correct entry %d of the kind “%s”, by “%s” on %s, is for one", old.index, old.kind, old.by, old.on), nil
	}
	return "", nil
}

// ofPerson says why an entry about somebody is for a competent person: it says that
// they examine or have left; or, as against an entry before it that it would count in
// place of, another role, other rates, or that they are back. Of who is new it is the
// rates.
func (h *history) ofPerson(index int64, e *envelope, b *personBody) (string, error) {
	const why = "who examines, how well somebody looks, another role, and who left or is back, is for one to say"
	if examines(b.block.Role) || b.Left {
		return why, nil
	}
	from, err := dayOf(e.Day)
	if err != nil {
		return "", err
	}
	known := false
	items := h.person(b.block.ID, index+1).items
	for i := len(items) - 1; i >= 0; i-- {
		x := items[i]
		body, day := x.at(index)
		if x.kind != kPerson || x.index >= index || body == nil {
			continue
		}
		known = true
		v, err := readBody(kPerson, body)
		if err != nil {
			return "", err
		}
		if old := v.(*personBody); old.block.Role != b.block.Role || old.Left || !maps.Equal(old.block.Kappa, b.block.Kappa) {
			return why, nil
		}
		if day <= from {
			break // what stands before it counts no more on any day of the new one
		}
	}
	if !known && len(b.block.Kappa) > 0 {
		return why, nil
	}
	return "", nil
}

// slip says whether an entry may be corrected by who is no competent person: by who
// entered it, on the same day, where it tells a place, a use, a run of looks, or a look
// in which nothing was found, and what is to stand instead is no more than a look.
func (x *item) slip(index int64, e *envelope, b *correctBody) (bool, error) {
	body, _ := x.at(index)
	if body == nil || x.by != e.Author || x.on != dateOf(e) {
		return false, nil
	}
	switch x.kind {
	case kHang, kUse, kRun:
		return true, nil
	case kExamination:
		v, err := readBody(kExamination, body)
		if err != nil {
			return false, err
		}
		was := v.(*kit.Examination)
		if !isLook(was) || was.WouldClimb != kit.SaidYes || was.AfterEvent != "" || len(was.Signs)+len(was.Readings)+len(was.Asked) > 0 {
			return false, nil
		}
		if len(b.Instead) == 0 {
			return true, nil
		}
		if v, err = readBody(kExamination, b.Instead); err != nil {
			return false, err
		}
		return isLook(v.(*kit.Examination)), nil
	}
	return false, nil
}

// isLook says whether an examination is a look before use or by a partner.
func isLook(e *kit.Examination) bool { return e.Kind == "pre-use" || e.Kind == "partner" }
