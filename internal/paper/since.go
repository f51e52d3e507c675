package paper

import (
	"strconv"
	"strings"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
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
	return f.where(e.At)
}

// found names the signs of an examination and counts its readings; "" where
// there are none.
func (f *Facts) found(e *kit.Examination) string {
	var out []string
	first := f.firstSeen()
	for i := range f.Since { // and those seen after the record was decided on
		if x := &f.Since[i]; x.Kind == entry.Examination && !x.Void {
			if o, faults := record.DecodeExamination("examination", x.Body); faults.Err() == nil {
				for _, sign := range o.Signs {
					if sign.State == kit.FirstSeen && sign.Ref != "" {
						first[sign.Ref] = sign
					}
				}
			}
		}
	}
	for _, x := range e.Signs {
		at := x
		if old, ok := first[x.Ref]; ok && x.State != kit.FirstSeen {
			at = old
		}
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
