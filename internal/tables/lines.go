package tables

import (
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

// marks say how the statement of a line is known; each allows one status.
var marks = map[string]table.Status{
	"seen": table.Published, "seen second-hand": table.Published, "computed": table.Published,
	"from memory": table.FromMemory, "proposed": table.Assumed, "finding": table.Assumed, "common practice": table.CommonPractice,
}

var markWords = []string{"seen", "seen second-hand", "from memory", "computed", "finding", "common practice", "proposed"}

func (l *loader) lines(f *file) {
	rows := f.root.List("line", doc.Required)
	for _, t := range rows {
		row, _ := t.Pos()
		n := table.Line{
			ID: l.know(f, t, "line"), Says: t.Str("says", doc.Required),
			Source: t.Str("source", doc.Required), Place: t.Str("place", doc.Required),
			Mark: t.OneOf("mark", doc.Required, markWords...),
			Note: t.Str("note", doc.Optional), Caution: t.Str("caution", doc.Optional),
			Rests: t.Strings("rests_on", doc.Optional), Status: status(t), File: f.name, Row: row,
		}
		if w := marks[n.Mark]; n.Mark != "" && n.Status != "" && n.Status != w {
			t.Fault("status", "is “"+string(n.Status)+"” on a line marked “"+n.Mark+"”", "write status = \""+string(w)+"\", or correct the mark")
		}
		if len(n.ID) > 1 && n.ID[:2] == "W-" && n.Caution == "" && !t.Has("caution") {
			t.Fault("", "has no caution, which every W line shows to a user", "add caution = \"…\"")
		}
		l.t.Lines = append(l.t.Lines, n)
	}
	for i, t := range rows {
		for _, id := range l.t.Lines[i].Rests {
			if l.ref(t, "rests_on", "line", id) && id == l.t.Lines[i].ID {
				t.Fault("rests_on", "names the line itself", "take it out")
			}
		}
	}
}

var unitsFibres = map[string]string{"low": "g/cm3|C", "high": "g/cm3|C", "low_share": "share", "high_share": "share"}

// measured says in which unit each property of a fibre is given.
var measured = map[string]string{
	"density": "g/cm³", "melt": "°C", "soften": "°C", "decompose": "°C", "work_max": "°C", "weaken": "°C",
	"stretch_yarn": "share", "stretch_rope": "share", "regain": "share", "wet_loss": "share",
}

var measuredWords = []string{"density", "melt", "soften", "decompose", "work_max", "weaken", "stretch_yarn", "stretch_rope", "regain", "wet_loss"}

func (l *loader) fibres(f *file) {
	for _, t := range f.root.List("fibre", doc.Required) {
		l.t.Fibres = append(l.t.Fibres, table.Fibre{
			ID: l.know(f, t, "fibre"), Words: t.Str("words", doc.Required),
			Metal: !t.Bool("textile", doc.Required), Melts: t.Bool("melts", doc.Required), Cite: l.cite(f, t),
		})
	}
	for _, t := range f.root.List("property", doc.Required) {
		f.property(l, t)
	}
	for _, t := range f.root.List("trait", doc.Optional) {
		id := t.Str("fibre", doc.Required)
		fact := table.Fact{
			Property: t.Str("trait", doc.Required), Value: t.Str("words", doc.Required),
			Mark: t.OneOf("mark", doc.Required, markWords...), Cite: l.cite(f, t),
		}
		f.once(t, "trait", id, fact.Property, fact.Value)
		l.fact(t, id, fact)
	}
}

// property reads one measured figure of a fibre.
func (f *file) property(l *loader, t doc.T) {
	id := t.Str("fibre", doc.Required)
	p := t.OneOf("property", doc.Required, measuredWords...)
	fact := table.Fact{Property: p, Unit: measured[p], Mark: t.OneOf("mark", doc.Required, markWords...), Cite: l.cite(f, t)}
	low, high := "low", "high"
	switch fact.Unit {
	case "share":
		low, high = "low_share", "high_share"
		f.unit(t, low)
		f.unit(t, high)
		a, b := t.Share(low, doc.Required), t.Share(high, doc.Required)
		fact.Low, fact.High = float64(a), float64(b)
		fact.Value = between(a.String(), b.String())
	case "°C":
		f.unit(t, low)
		f.unit(t, high)
		a, b := t.Temp(low, doc.Required), t.Temp(high, doc.Required)
		fact.Low, fact.High = a.Celsius(), b.Celsius()
		fact.Value = between(a.String(), b.String())
	default:
		f.unit(t, low)
		f.unit(t, high)
		a, b := density(t, low), density(t, high)
		fact.Low, fact.High = a, b
		fact.Value = between(number(a)+" "+fact.Unit, number(b)+" "+fact.Unit)
	}
	if fact.Low > fact.High {
		t.Fault(low, "is more than "+high, "write the smaller figure first")
	}
	f.once(t, "property", id, p, fact.Value, fact.Place)
	l.fact(t, id, fact)
}

func between(a, b string) string {
	if a == b {
		return a
	}
	return a + " to " + b
}

func (l *loader) fact(t doc.T, id string, fact table.Fact) {
	l.ref(t, "fibre", "fibre", id)
	i := slices.IndexFunc(l.t.Fibres, func(x table.Fibre) bool { return x.ID == id })
	if i >= 0 {
		l.t.Fibres[i].Facts = append(l.t.Fibres[i].Facts, fact)
	}
}

// density reads a density such as "1.14 g/cm3".
func density(t doc.T, key string) float64 {
	text := t.Str(key, doc.Required)
	v, err := strconv.ParseFloat(strings.TrimSuffix(text, " g/cm3"), 64)
	if text != "" && (err != nil || !strings.HasSuffix(text, " g/cm3") || !(v > 0 && v < 30)) {
		t.Fault(key, "“"+text+"” is no density taken here", "write it as \"1.14 g/cm3\"")
	}
	return v
}

var unitsContaminants = map[string]string{"max_temperature": "C", "ph_low": "pH", "ph_high": "pH"}

func (l *loader) contaminants(f *file) {
	for _, t := range f.root.List("contaminant", doc.Required) {
		l.t.Contaminants = append(l.t.Contaminants, table.Contaminant{
			ID: l.know(f, t, "contaminant"), Words: t.Str("words", doc.Required), Harmless: t.Bool("harmless_everywhere", doc.Required),
			Splash: t.Str("splash", doc.Required), Soaked: t.Str("soaked", doc.Required), Cite: l.cite(f, t),
		})
	}
	for _, t := range f.root.List("effect", doc.Required) {
		e := table.Effect{
			Contaminant: t.Str("contaminant", doc.Required), Fibres: t.Strings("fibre", doc.Required), Kinds: kinds(t, "kinds", doc.Optional),
			Amounts: words(t, "amount", doc.Required, "any", "suspected", "splash", "soaked"),
			Verdict: verdict(t, "outcome", doc.Required), Wash: t.Bool("wash", doc.Required), Cite: l.cite(f, t),
		}
		e.Question, e.Lines = question(t, e.Verdict), e.Source
		f.once(t, "contaminant", e.Contaminant, strings.Join(e.Fibres, ","), strings.Join(e.Amounts, ","), strings.Join(asWords(e.Kinds), ",")+".")
		l.ref(t, "contaminant", "contaminant", e.Contaminant)
		for _, id := range e.Fibres {
			if id != "any" && id != "unknown" {
				l.ref(t, "fibre", "fibre", id)
			}
		}
		e.Fibres, e.Amounts = anyIsNone(t, "fibre", e.Fibres), anyIsNone(t, "amount", e.Amounts)
		l.t.Effects = append(l.t.Effects, e)
	}
	l.everySubstance(f)
	for _, t := range f.root.List("washing", doc.Optional) {
		w := table.Washing{
			ID: l.know(f, t, "washing"), Words: t.Str("words", doc.Required), MaxTemp: t.Temp("max_temperature", doc.Optional),
			PHLow: f.num(t, "ph_low", doc.Optional), PHHigh: f.num(t, "ph_high", doc.Optional), Cite: l.cite(f, t),
		}
		f.unit(t, "max_temperature")
		if w.PHLow < 0 || w.PHHigh > 14 || w.PHLow > w.PHHigh {
			t.Fault("ph_low", "and ph_high are no range of pH", "write two figures between 0 and 14, the smaller first")
		}
		l.t.Washings = append(l.t.Washings, w)
	}
}

// everySubstance refuses a contaminant for which no effect is said.
func (l *loader) everySubstance(f *file) {
	for _, c := range l.t.Contaminants {
		if !slices.ContainsFunc(l.t.Effects, func(e table.Effect) bool { return e.Contaminant == c.ID }) {
			f.root.Fault("effect", "says nothing of the contaminant “"+c.ID+"”", "add an [[effect]] for it")
		}
	}
}

// anyIsNone turns the list "any" into an empty one; beside others it means nothing.
func anyIsNone(t doc.T, key string, list []string) []string {
	if !slices.Contains(list, "any") {
		return list
	}
	if len(list) > 1 {
		t.Fault(key, "holds “any” beside other words", "write [\"any\"] alone, or the words without it")
	}
	return nil
}
