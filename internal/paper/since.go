package paper

import (
	"strconv"
	"strings"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// since tells what came into the book about the piece after the decision: no
// part of the report, and set apart from it.
func (f *Facts) since() Section {
	s := Section{Heading: "Not part of the report: what came on record after it, up to " + f.Printed.Words(), Apart: true, Head: []string{"Day", "What", "By"}, Widths: []float64{.15, .6, .25}}
	for i := range f.Since {
		if t := f.tell(&f.Since[i]); t != "" {
			s.Table = append(s.Table, []string{f.Since[i].Day.Words(), t, f.name(f.Since[i].Author)})
		}
	}
	if len(s.Table) == 0 {
		s.Head, s.Note = nil, "Nothing that was seen, measured, done to it or decided. Looks before use in which nothing was seen are not listed."
	}
	return s
}

// AfterReport gives the same, a line for each, with its day.
func (f *Facts) AfterReport() []string {
	var out []string
	for i := range f.Since {
		if t := f.tell(&f.Since[i]); t != "" {
			out = append(out, f.Since[i].Day.Words()+": "+t)
		}
	}
	return out
}

// on gives the facts with every place, the length and the ends of the piece as they
// are said on a day: it may have been shortened or turned since a sign was seen.
func (f *Facts) on(day qty.Day, changes []kit.Change) *Facts {
	r, out := *f.Record, *f
	r.AsOf, r.Changes = day, changes
	out.Record = f.Tables.Kind(r.Piece.Kind).Now(&r)
	return &out
}

// later gives the facts as they are said on a day of an entry that may be later
// than the record.
func (f *Facts) later(day qty.Day) *Facts {
	if f.Changes != nil {
		return f.on(day, f.Changes)
	}
	return f.on(day, f.Record.Changes)
}

// tell says what an entry about the piece comes to, "" for daily life: looks in
// which nothing was seen, use, who holds it.
func (f *Facts) tell(l *fold.Line) string {
	if l.Void {
		return ""
	}
	v, err := fold.Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		return "an entry that cannot be read"
	}
	switch x := v.(type) {
	case *kit.Examination:
		found := f.found(x)
		if found == "" && x.Kind.BeforeUse() {
			return ""
		}
		return examWords(x.Kind) + ": " + orElse(found, "nothing seen")
	case *kit.Event:
		return join("event: "+f.names().Event(x.Event), f.at(x), x.Words)
	case *kit.Answer:
		t := "answer on record to “" + x.To + "”"
		if x.Unfit {
			t += ": not fit"
		}
		return join(t, x.Verified, x.Document)
	case *kit.Change:
		return join("change: "+x.What, x.Words)
	case *fold.Washing:
		return join("washed", x.With, x.Words)
	case *fold.Stop:
		return join(map[string]string{"set aside": "set aside", "withdraw": "withdrawn", "hold": "held back", "release": "released", "cut up": "cut up", "back in use": "back in use"}[x.What], x.Why, x.Document)
	case *fold.Decision:
		return join("decided: "+x.Verdict, x.Why)
	case *fold.Amend:
		return join("described anew", x.Why)
	case *fold.Fit:
		if x.In == "" {
			return "taken out of what it was fitted to"
		}
		return "fitted to " + x.In
	case *fold.Correct:
		return join("an earlier entry was corrected", x.Why)
	}
	return ""
}

func join(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p != "" {
			out = append(out, p)
		}
	}
	return strings.Join(out, "; ")
}

func (f *Facts) at(e *kit.Event) string {
	if !e.PlaceSaid {
		return ""
	}
	return f.later(e.Day).where(e.At)
}

// found names the signs of an examination and counts its readings; "" where
// there are none.
func (f *Facts) found(e *kit.Examination) string {
	var out []string
	f = f.later(e.Day)
	first := f.firstSeen()
	for i := range f.Since { // and those seen after the record was decided on
		if x := &f.Since[i]; x.Kind == entry.Examination && !x.Void {
			if o, faults := record.DecodeExamination("examination", x.Body); faults.Err() == nil {
				for _, sign := range o.Signs {
					if sign.State == kit.FirstSeen && sign.Ref != "" {
						sign.At = f.moved(sign.At, o.Day)
						first[sign.Ref] = sign
					}
				}
			}
		}
	}
	for _, x := range e.Signs {
		at := seenAt(&x, first)
		out = append(out, join(f.names().Sign(at.Sign)+" ("+string(x.State)+")", f.where(at.At), x.Words))
	}
	if n := len(e.Readings); n > 0 {
		out = append(out, count(n, "reading"))
	}
	if e.WouldClimb == kit.SaidNo {
		out = append(out, "whoever looked would not climb on it")
	}
	return strings.Join(out, ". ")
}

// moved gives a place said on a day as it is said on the day of the record.
func (f *Facts) moved(p kit.Place, day qty.Day) kit.Place {
	k := f.Tables.Kind(f.Record.Piece.Kind)
	if k == nil {
		return p
	}
	r := f.Record
	if r.Said != nil {
		r = r.Said
	}
	return k.Moved(r, p, day)
}

// seenAt gives what a sign is and where: of one on record what was first seen, at
// the place that was said again or else where it was first seen.
func seenAt(x *kit.Sign, first map[string]kit.Sign) kit.Sign {
	old, ok := first[x.Ref]
	if !ok || x.State == kit.FirstSeen {
		return *x
	}
	if x.At.Part != "" || x.At.Whole || x.At.To != 0 {
		old.At = x.At
	}
	return old
}

// count prints a number with its noun.
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

func examWords(k kit.ExamKind) string {
	switch k {
	case kit.Interim:
		return "interim inspection"
	case kit.Thorough:
		return "thorough examination"
	case kit.Partner:
		return "partner check"
	}
	return "pre-use check"
}
