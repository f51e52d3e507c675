package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// contaminants enters every substance that touched the piece, or may have
// by substance, fibre of every layer and amount, the strictest of all.
func (j *judge) contaminants() {
	for i := range j.events {
		e := &j.events[i]
		if e.Substance == "" && e.Event != spill {
			continue
		}
		j.substance(e)
	}
}

// substance judges one event. A substance that nobody knows is judged as every
// one that answers in writing name; an answer that names none of the tables is
// the maker's word on it, with the product in its document.
func (j *judge) substance(e *kit.Event) {
	id := e.Substance
	if id == "" || j.t.Contaminant(id) == nil {
		id = unknown
	}
	if id != unknown || j.k.Strict {
		j.touched(e, id)
		return
	}
	settled := false
	for i := range j.r.Answers {
		a := &j.r.Answers[i]
		if !j.lifts(a, e.Day, inWriting, []string{e.Ref, QSubstance}) {
			continue
		}
		settled = true
		if a.Cause != unknown && j.t.Contaminant(a.Cause) != nil {
			j.touched(e, a.Cause)
			continue
		}
		for _, fibre := range j.fibres() {
			j.allowed(e, Reason{ID: lSubstance, Args: j.contact(e, id, fibre), Status: table.Published})
		}
	}
	if !settled {
		j.touched(e, id)
	}
}

// touched enters what a substance of the tables means for this piece.
func (j *judge) touched(e *kit.Event, id string) {
	harmless := false
	if c := j.t.Contaminant(id); c != nil {
		harmless = c.Harmless
	}
	args := j.contact(e, id, "")
	if j.k.Strict && !harmless {
		j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lBridge, Lines: []string{lSubstances, lSubstance}, Key: "contaminant.any", Args: args,
			Status: table.CommonPractice})
	}
	for _, fibre := range j.fibres() {
		met := false
		for n := range j.t.Effects {
			f := &j.t.Effects[n]
			if f.Contaminant == id && j.touches(f, fibre, e.Amount) {
				met = true
				j.onFibre(e, f, fibre, harmless, args)
			}
		}
		if !met && !harmless && !j.k.Strict {
			j.substanceSettled(e, Reason{ID: lSubstance, Key: "contaminant.no-rule", Args: append(append([]Arg{}, args...), Arg{"fibre", fibre})})
		}
	}
}

// touches reports whether a row holds for a fibre, this kind and an amount. An
// amount that is not recorded counts as every amount. A row without fibres or
// kinds is for all.
func (j *judge) touches(f *table.Effect, fibre, amount string) bool {
	return (len(f.Fibres) == 0 || has(f.Fibres, fibre)) && (len(f.Kinds) == 0 || hasKind(f.Kinds, j.k.ID)) &&
		(len(f.Amounts) == 0 || amount == "" || has(f.Amounts, amount))
}

// onFibre enters one row of the table of contaminants by its outcome. On a
// bridge or hitch cord a contaminant withdraws anyway, so only a row that
// withdraws adds to that.
func (j *judge) onFibre(e *kit.Event, f *table.Effect, fibre string, harmless bool, args []Arg) {
	x := Reason{Asked: f.Question, Status: f.Status, Args: append(append([]Arg{}, args...), Arg{"fibre", fibre})}
	x.ID, x.Lines = cited(f.Cite, f.Lines)
	if j.k.Strict && !harmless && f.Verdict != kit.Withdraw {
		return
	}
	switch f.Verdict {
	case kit.Withdraw:
		x.Row, x.Verdict, x.Key, x.Asked = "1", kit.Withdraw, "contaminant.harms", ""
		x.Lines = append(x.Lines, lSubstance)
		j.add(x)
	case kit.SetAside:
		x.Key, x.Lines = "contaminant.aside", append(x.Lines, lSubstance)
		j.substanceSettled(e, x)
	case kit.KeepSooner:
		j.washed(e, x, f.Wash && !harmless)
	}
}

// contact gives the values that a message about a substance has.
func (j *judge) contact(e *kit.Event, id, fibre string) []Arg {
	args := []Arg{{"substance", id}, {"amount", e.Amount}, {"day", e.Day.String()}}
	if e.PlaceSaid {
		args = append(args, placed(e.At)...)
	}
	if fibre != "" {
		args = append(args, Arg{"fibre", fibre})
	}
	return args
}

// substanceSettled sets aside until the substance is answered for. An answer
// makes it one that is known to be harmless, no better.
func (j *judge) substanceSettled(e *kit.Event, x Reason) {
	n := len(j.out)
	j.settle(e, x)
	if len(j.out) == n {
		j.allowed(e, x)
	}
}

// allowed is a contact that the maker's word or another answer has settled: it
// is washed out, and looked at sooner.
func (j *judge) allowed(e *kit.Event, x Reason) {
	x.Asked = ""
	j.washed(e, x, true)
}

// washed keeps until an earlier look what is known to be harmless, once it has
// been washed out where that is needed.
func (j *judge) washed(e *kit.Event, x Reason, wash bool) {
	x.Lines = append(append([]string{}, x.Lines...), lSubstance, lRow6a)
	if wash && e.Washed != kit.SaidYes {
		x.Row, x.Verdict, x.Key, x.Question, x.To = "2", kit.SetAside, "contaminant.wash", QWash, nameOr(e.Ref, QWash)
		j.add(x)
		return
	}
	x.Key = "contaminant.washed"
	j.sooner(e, x)
}
