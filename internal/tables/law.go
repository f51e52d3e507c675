package tables

import (
	"slices"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

var unitsLife = map[string]string{"limit": "years", "allowance": "years"}

// Conditions of a row of life besides "country:XX" and "used …".
const (
	always     = "always"
	makerQuiet = "when the maker says nothing"
)

func (l *loader) life(f *file) {
	for _, t := range f.root.List("life", doc.Required) {
		x := table.Life{
			ID: l.know(f, t, "life"), Kinds: kinds(t, "kinds", doc.Required),
			CountsFrom: t.OneOf("counts_from", doc.Required, "manufacture", "first use", "marked date"),
			Months:     t.Months("limit", doc.Required), Fibre: t.Str("fibre", doc.Optional),
			Verdict: verdict(t, "outcome", doc.Required), Words: t.Str("words", doc.Required), Cite: l.cite(f, t),
		}
		f.unit(t, "limit")
		if x.Fibre != "" {
			l.ref(t, "fibre", "fibre", x.Fibre)
		}
		if (x.CountsFrom == "marked date") != (x.Months == 0) {
			t.Fault("limit", "does not go with counts_from", "write \"0 years\" from a marked date, and a time above 0 from any other")
		}
		binding := t.Bool("binding", doc.Required)
		l.applies(t, &x, binding)
		if binding {
			l.t.Lives = append(l.t.Lives, x)
		} else {
			l.t.Guidance = append(l.t.Guidance, x)
		}
	}
	for _, t := range f.root.List("storage", doc.Optional) {
		x := table.Life{
			ID: l.know(f, t, "life"), Kinds: kinds(t, "kinds", doc.Required), CountsFrom: "manufacture",
			Months: t.Months("allowance", doc.Required), Unless: true, Store: true,
			Verdict: verdict(t, "outcome", doc.Required), Words: t.Str("words", doc.Required), Cite: l.cite(f, t),
		}
		f.unit(t, "allowance")
		x.Question = question(t, x.Verdict)
		l.t.Lives = append(l.t.Lives, x)
	}
	for _, t := range f.root.List("no_limit", doc.Optional) {
		l.t.NoLimits = append(l.t.NoLimits, table.NoLimit{
			ID: l.know(f, t, "life"), Kinds: kinds(t, "kinds", doc.Required), Words: t.Str("words", doc.Required), Cite: l.cite(f, t),
		})
	}
	l.principles(f)
}

// applies reads the conditions of a row, all of which must hold.
func (l *loader) applies(t doc.T, x *table.Life, binding bool) {
	list := t.Strings("applies", doc.Required)
	for _, w := range list {
		code, country := strings.CutPrefix(w, "country:")
		use, used := strings.CutPrefix(w, "used ")
		switch {
		case w == always && len(list) > 1:
			t.Fault("applies", "holds “always” beside other conditions", "write [\"always\"] alone, or the conditions without it")
		case w == always:
		case w == makerQuiet:
			x.Unless = true
		case country && x.Country == "":
			x.Country = code
			l.ref(t, "applies", "country", code)
		case used && binding:
			t.Fault("applies", "sets a binding end by how often the piece is used, a fact that need not be recorded", "write binding = false")
		case used && x.Use == "":
			x.Use = use
		default:
			t.Fault("applies", "holds “"+w+"”, which is no condition taken here", "take from: “always”, “when the maker says nothing”, “country:XX”, “used …”, each once")
		}
	}
}

// principles reads the rules of reading a file of life or intervals.
func (l *loader) principles(f *file) {
	for _, t := range f.root.List("rule", doc.Optional) {
		p := table.Principle{ID: l.know(f, t, "principle"), Words: t.Str("words", doc.Required), Says: t.Has("outcome"), Cite: l.cite(f, t)}
		if l.t.Principle(p.ID) != nil {
			t.Fault("id", "is the id of a rule in another file", "choose another id")
		}
		if p.Says {
			p.Verdict = verdict(t, "outcome", doc.Required)
			p.Question = question(t, p.Verdict)
		}
		l.t.Principles = append(l.t.Principles, p)
	}
}

var unitsIntervals = map[string]string{"every": "months", "days": "days"}

func (l *loader) intervals(f *file) {
	group := map[string][]kit.KindID{}
	for _, t := range f.root.List("group", doc.Required) {
		g := table.KindGroup{ID: l.know(f, t, "group"), Words: t.Str("words", doc.Required), Kinds: kinds(t, "kinds", doc.Required), Cite: l.cite(f, t)}
		group[g.ID] = g.Kinds
		l.t.Groups = append(l.t.Groups, g)
	}
	countries := f.root.List("country", doc.Required)
	for _, t := range countries {
		c := table.Country{Code: l.know(f, t, "country"), Words: t.Str("words", doc.Required), Also: t.Strings("also", doc.Optional), Cite: l.cite(f, t)}
		l.t.Countries = append(l.t.Countries, c)
	}
	for i, t := range countries {
		for _, code := range l.t.Countries[i].Also {
			l.ref(t, "also", "country", code)
		}
	}
	for _, t := range f.root.List("interval", doc.Required) {
		l.interval(f, t, group)
	}
	for _, t := range f.root.List("law", doc.Required) {
		x := table.Law{
			ID: l.know(f, t, "law"), Country: t.Str("country", doc.Required), When: t.Str("when", doc.Required),
			Words: t.Str("words", doc.Required), Cite: l.cite(f, t),
		}
		x.From, x.Lines = x.Country, x.Source
		l.ref(t, "country", "country", x.Country)
		for _, w := range t.Strings("shown_with", doc.Required) {
			v, ok := kit.ParseVerdict(w)
			if !ok {
				t.Fault("shown_with", "holds “"+w+"”, which is no outcome", "write keep; keep, look sooner; set aside; or withdraw")
			}
			x.With = append(x.With, v)
		}
		l.t.Laws = append(l.t.Laws, x)
	}
	l.principles(f)
}

func (l *loader) interval(f *file, t doc.T, group map[string][]kit.KindID) {
	x := table.Interval{
		ID: l.know(f, t, "interval"), Country: t.Str("country", doc.Required),
		Exam:      kit.ExamKind(t.OneOf("examination", doc.Required, exams...)),
		SchemeMay: t.OneOf("scheme_may", doc.Required, "shorten", "shorten or lengthen"),
		Arduous:   t.Bool("arduous", doc.Required), Force: t.OneOf("force", doc.Required, "law", "standard", "guidance", "custom"),
		When: t.Str("when", doc.Optional), OnlyIf: t.Str("only_if", doc.Optional), Words: t.Str("words", doc.Required), Cite: l.cite(f, t),
	}
	x.From = x.Country
	x.Duty = x.Force == "law" || x.Force == "standard"
	l.ref(t, "country", "country", x.Country)
	id := t.Str("group", doc.Required)
	if id == "any" {
		for _, k := range kindIDs {
			x.Kinds = append(x.Kinds, kit.KindID(k))
		}
	} else {
		l.ref(t, "group", "group", id)
		x.Kinds = slices.Clone(group[id])
	}
	if narrow := kinds(t, "kinds", doc.Optional); len(narrow) > 0 {
		for _, k := range narrow {
			if !slices.Contains(x.Kinds, k) {
				t.Fault("kinds", "holds “"+string(k)+"”, which is not in the group “"+id+"”", "correct the kinds or the group")
			}
		}
		x.Kinds = narrow
	}
	f.unit(t, "every")
	x.Months = t.Months("every", doc.Optional)
	x.Days = int(f.whole(t, "days", doc.Optional))
	said := 0
	for _, key := range []string{"every", "days", "when"} {
		if t.Has(key) {
			said++
		}
	}
	switch {
	case said != 1:
		t.Fault("", "needs exactly one of every, days and when", "write every = \"6 months\" or days = 7 for a length of time, or when = \"…\" for an occasion")
	case t.Has("every") && x.Months < 1:
		t.Fault("every", "is no time at all", "write \"6 months\" or another span above 0")
	case t.Has("days") && x.Days < 1:
		t.Fault("days", "is no time at all", "write a number of days above 0")
	}
	l.rows = append(l.rows, x)
}

// settle copies to every country the rows of those it takes over.
func (l *loader) settle() {
	var laws []table.Law
	for _, c := range l.t.Countries {
		from := l.over(c.Code)
		for _, x := range l.rows {
			if !slices.Contains(from, x.Country) {
				continue
			}
			x.Country = c.Code
			if x.When != "" || x.OnlyIf != "" {
				l.t.Occasions = append(l.t.Occasions, x)
			} else {
				l.t.Intervals = append(l.t.Intervals, x)
			}
		}
		for _, x := range l.t.Laws {
			if slices.Contains(from, x.Country) {
				x.Country = c.Code
				laws = append(laws, x)
			}
		}
	}
	l.t.Laws = laws
}

// over gives a country and all that it takes over, each once.
func (l *loader) over(code string) []string {
	out := []string{code}
	for i := 0; i < len(out); i++ {
		if c := l.t.Country(out[i]); c != nil {
			for _, a := range c.Also {
				if !slices.Contains(out, a) {
					out = append(out, a)
				}
			}
		}
	}
	return out
}
