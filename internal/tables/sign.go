package tables

import (
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

func (f *kindFile) allSigns() {
	f.signRows = f.root.List("sign", doc.Required)
	for _, t := range f.signRows {
		f.signs = append(f.signs, t.Str("id", doc.Required))
	}
	for i, t := range f.signRows {
		f.sign(t, f.signs[i])
	}
}

func (f *kindFile) sign(t doc.T, id string) {
	f.once(t, "id", id)
	s := table.Sign{
		ID: id, Words: t.Str("words", doc.Required),
		Class: table.Class(t.OneOf("class", doc.Required, string(table.Absolute), string(table.Aside), string(table.Weigh), string(table.Observation))),
		Whole: t.Bool("whole", doc.Optional), Spread: f.share(t, "spread", doc.Optional),
		Observe: t.Strings("observe", doc.Optional), Question: t.Str("question", doc.Optional),
		ByFibre: t.Strings("by_fibre", doc.Optional), AfterUse: t.Months("after_use", doc.Optional),
		With: t.Strings("with", doc.Optional), Cite: f.cite(f.file, t),
	}
	s.Lines, s.Figures = s.Source, table.Assumed
	if t.Has("figures") {
		s.Figures = statusIn(t, "figures")
	}
	for _, w := range words(t, "looks", doc.Required, lookIDs...) {
		s.Looks = append(s.Looks, kit.LookID(w))
	}
	observation := s.Class == table.Observation
	s.Leak = f.rate(t, "leak", f.k.Doubt && s.Class != "" && !observation)
	f.links(t, &s)
	f.explain(t, &s)
	for _, fibre := range s.ByFibre {
		f.ref(t, "by_fibre", "fibre", fibre)
	}
	for _, w := range s.With {
		if !slices.Contains(f.signs, w) || w == id {
			t.Fault("with", "names “"+w+"”, which is no other sign of this kind", "correct it, or add the sign")
		}
	}
	switch {
	case s.Class == table.Absolute && len(s.Lines) == 0:
		t.Fault("source", "is empty on an absolute sign", "name the line that demands it")
	case s.Class == table.Aside && s.Question == "":
		t.Fault("question", "is missing on a sign that sets aside", "say what has to be answered before the piece may come back")
	case s.Class == table.Weigh && f.k.Doubt && len(s.Links) == 0:
		t.Fault("links", "is missing on a sign to be weighed", "say which damage can show it, or make it an observation")
	case observation && (len(s.Links) > 0 || s.Leak > 0 || len(s.Causes) > 0):
		t.Fault("", "is an observation with links, causes or a leak", "take them out, or give it another class")
	}
	f.k.Signs = append(f.k.Signs, s)
}

// links reads which damage shows the sign, and how likely.
func (f *kindFile) links(t doc.T, s *table.Sign) {
	whole := 0
	for _, x := range t.List("links", doc.Optional) {
		k := table.Link{Mode: x.Str("mode", doc.Required), Q1: f.num(x, "q1", doc.Required), Q2: f.num(x, "q2", doc.Required)}
		m := f.mode(k.Mode)
		switch {
		case k.Mode != "" && m == nil:
			x.Fault("mode", "names the mode “"+k.Mode+"”, which this kind does not have", "correct it, or add the mode")
		case m != nil && m.Scope == "whole":
			whole++
		}
		switch {
		case k.Q1 <= 0:
			x.Fault("q1", "is not above 0", "give it a share above 0, or take the link out")
		case k.Q2 > 1:
			x.Fault("q2", "is above 1", "write a share of at most 1")
		case k.Q1 > k.Q2:
			x.Fault("q1", "is above q2: milder damage would show more", "let q1 be at most q2")
		}
		if slices.ContainsFunc(s.Links, func(y table.Link) bool { return y.Mode == k.Mode }) {
			x.Fault("mode", "is linked twice", "take one of the two out")
		}
		s.Links = append(s.Links, k)
	}
	if whole > 1 {
		t.Fault("links", "name more than one mode of the whole piece", "leave one of them, and give the others a sign of their own")
	}
}

// explain reads the harmless causes of the sign.
func (f *kindFile) explain(t doc.T, s *table.Sign) {
	for _, x := range t.List("causes", doc.Optional) {
		c := table.CauseLink{Cause: x.Str("cause", doc.Required), R: f.share(x, "r", doc.Required)}
		f.ref(x, "cause", "cause", c.Cause)
		if c.R == 0 {
			x.Fault("r", "is not above 0", "give it a share above 0, or take the cause out")
		}
		if slices.ContainsFunc(s.Causes, func(y table.CauseLink) bool { return y.Cause == c.Cause }) {
			x.Fault("cause", "is named twice", "take one of the two out")
		}
		s.Causes = append(s.Causes, c)
	}
	for _, id := range s.Observe {
		if !slices.ContainsFunc(s.Causes, func(y table.CauseLink) bool { return y.Cause == id }) {
			t.Fault("observe", "names “"+id+"”, which is no cause of this sign", "correct it, or add the cause")
		}
	}
	if len(s.Observe) > 0 && s.Class != table.Weigh {
		t.Fault("observe", "stands on a sign that is not to be weighed", "take it out")
	}
}

func (f *kindFile) needs() {
	for _, t := range f.root.List("need", doc.Required) {
		n := table.Need{
			Exam: kit.ExamKind(t.OneOf("exam", doc.Required, exams...)), Look: kit.LookID(t.OneOf("look", doc.Required, lookIDs...)),
			Cover: f.share(t, "cover", doc.Optional), Parts: t.Strings("parts", doc.Optional), Cite: f.cite(f.file, t),
		}
		if t.Has("places") {
			n.Places = int(t.Int("places", doc.Required))
			if n.Places < 2 || n.Places > 100 {
				t.Fault("places", "is no number of stretches to measure in", "write a whole number from 2, such as 3")
			}
		}
		f.once(t, "look", string(n.Exam), string(n.Look))
		if n.Cover == 0 && n.Places == 0 {
			t.Fault("cover", "is nothing", "write the share that must be covered, or take the row out")
		}
		f.measured(t, &n)
		f.k.Needs = append(f.k.Needs, n)
	}
}

// measured refuses a need that does not say where a gauge must have a reading,
// on a kind that has something to measure, and one that says it elsewhere.
func (f *kindFile) measured(t doc.T, n *table.Need) {
	reads := f.root.Has("read")
	along, said := f.k.Axis == "length", n.Places > 0 || len(n.Parts) > 0
	switch {
	case n.Look != kit.Gauge || !reads:
		if said {
			t.Fault("", "asks for readings where nothing is measured", "take places and parts out")
		}
	case along && (n.Places == 0 || n.Cover > 0 || len(n.Parts) > 0):
		t.Fault("places", "must say where to measure, and nothing else", "write places = 3: into so many equal stretches the piece is divided, each with a reading; take cover and parts out")
	case !along && (len(n.Parts) == 0 || n.Places > 0):
		t.Fault("parts", "must say where to measure", "write parts = [\"…\"]: the parts that each need a reading; take places out")
	}
	for _, id := range n.Parts {
		if f.k.Part(id) == nil {
			t.Fault("parts", "names “"+id+"”, which is no part of this kind", "correct it, or add the part")
		}
	}
}

func (f *kindFile) asks() {
	for _, t := range f.root.List("ask", doc.Required) {
		a := table.Ask{ID: t.Str("id", doc.Required), Words: t.Str("words", doc.Required), Yes: t.Str("yes", doc.Required), Cite: f.cite(f.file, t)}
		f.once(t, "id", a.ID)
		f.ref(t, "yes", "event", a.Yes)
		f.k.Asks = append(f.k.Asks, a)
	}
}

func (f *kindFile) times() {
	for _, t := range f.root.List("time", doc.Required) {
		x := table.Time{Look: kit.LookID(t.OneOf("look", doc.Required, lookIDs...)), Minutes: f.num(t, "minutes", doc.Required), Cite: f.cite(f.file, t)}
		f.once(t, "look", string(x.Look))
		if x.Minutes <= 0 {
			t.Fault("minutes", "is not above 0", "write the minutes that the look takes")
		}
		f.k.Times = append(f.k.Times, x)
	}
}

// priors reads how often harmless causes are there: for each cause that a sign
// has, a row for the whole piece or one for every zone and part.
func (f *kindFile) priors() {
	has := map[string]bool{}
	for _, t := range f.root.List("prior", doc.Optional) {
		cause := t.Str("cause", doc.Required)
		p := table.Prior{Kind: f.k.ID, Zone: t.Str("zone", doc.Optional), P: f.num(t, "p", doc.Required), Cite: f.cite(f.file, t)}
		f.ref(t, "cause", "cause", cause)
		f.once(t, "cause", cause, p.Zone+".")
		if p.Zone != "" && f.k.Zone(p.Zone) == nil && f.k.Part(p.Zone) == nil {
			t.Fault("zone", "names “"+p.Zone+"”, which is no zone or part of this kind", "correct it, or add the zone")
		}
		if p.P <= 0 || p.P >= 1 {
			t.Fault("p", "is not between 0 and 1", "write a share above 0, so that an answer can enter, and below 1")
		}
		has[cause+"\x00"+p.Zone] = true
		if i := slices.IndexFunc(f.t.Causes, func(c table.Cause) bool { return c.ID == cause }); i >= 0 {
			f.t.Causes[i].Priors = append(f.t.Causes[i].Priors, p)
		}
	}
	for i, t := range f.signRows {
		for _, c := range f.k.Signs[i].Causes {
			if has[c.Cause+"\x00"] {
				continue
			}
			every := true
			for _, z := range f.k.Zones {
				every = every && has[c.Cause+"\x00"+z.ID]
			}
			for _, p := range f.k.Parts {
				every = every && has[c.Cause+"\x00"+p.ID]
			}
			if !every {
				t.Fault("causes", "has the cause “"+c.Cause+"”, whose prior is not said everywhere", "add a [[prior]] without a zone for it, or one for every zone and part")
			}
		}
	}
}

func (f *kindFile) kernels() {
	for _, t := range f.root.List("kernel", doc.Optional) {
		event := t.Str("event", doc.Required)
		k := table.Kernel{
			Kinds: []kit.KindID{f.k.ID}, Mode: t.Str("mode", doc.Required), FromPeak: f.share(t, "from_peak", doc.Required),
			J01: f.share(t, "j01", doc.Required), J02: f.share(t, "j02", doc.Required), J12: f.share(t, "j12", doc.Required), Cite: f.cite(f.file, t),
		}
		for _, key := range []string{"j10", "j20", "j21"} {
			if t.Has(key) {
				t.Fault(key, "lets damage mend or turn milder, which no piece does", "take it out: a stroke goes from 0 to 1, from 0 to 2 and from 1 to 2 only")
			}
		}
		if k.J01+k.J02 > 1 {
			t.Fault("j02", "and j01 add up to more than 1", "write shares of sound pieces")
		}
		f.ref(t, "event", "event", event)
		if k.Mode != "" && f.mode(k.Mode) == nil {
			t.Fault("mode", "names the mode “"+k.Mode+"”, which this kind does not have", "correct it, or add the mode")
		}
		f.once(t, "event", event, k.Mode, number(k.FromPeak))
		if i := slices.IndexFunc(f.t.Events, func(e table.Event) bool { return e.ID == event }); i >= 0 {
			f.t.Events[i].Kernels = append(f.t.Events[i].Kernels, k)
		}
	}
}
