package tables

import (
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Row is one row of the tables as it is shown to a person. A sign makes two: the
// sign with its class, and its figures, whose standing is their own.
type Row struct {
	Sort string // "mode", "sign", "prior", …
	Of   string // kind it belongs to, or the name of its common file
	Name string
	Says string // its values, in words and figures with units
	table.Cite
}

// At gives file and line, as an editor takes them.
func (r Row) At() string { return r.File + ":" + strconv.Itoa(r.Row) }

// Rows gives every row of the tables but the lines themselves, file by file in
// the order of the file.
func Rows(t *table.Tables) []Row {
	w := &walk{}
	w.common(t)
	w.life(t)
	w.country(t)
	w.bench(&t.Bench)
	for i := range t.Kinds {
		w.kind(t, &t.Kinds[i])
	}
	slices.SortStableFunc(w.rows, func(a, b Row) int {
		if a.File != b.File {
			return strings.Compare(a.File, b.File)
		}
		return a.Row - b.Row
	})
	return merge(w.rows)
}

// merge makes one of the rows that the loader spread over several looks.
func merge(rows []Row) []Row {
	var out []Row
	for _, r := range rows {
		if n := len(out) - 1; n >= 0 && out[n].File == r.File && out[n].Row == r.Row && out[n].Sort == r.Sort {
			out[n].Name += "; " + r.Name
			continue
		}
		out = append(out, r)
	}
	return out
}

// Assumed gives the rows whose values nobody has published and that are not
// common practice either.
func Assumed(t *table.Tables) []Row {
	return slices.DeleteFunc(Rows(t), func(r Row) bool { return r.Status != table.Assumed })
}

type walk struct {
	of   string
	rows []Row
}

func (w *walk) add(c table.Cite, sort, name string, says ...string) {
	var parts []string
	for _, s := range says {
		if s != "" {
			parts = append(parts, s)
		}
	}
	w.rows = append(w.rows, Row{Sort: sort, Of: w.of, Name: name, Says: strings.Join(parts, "; "), Cite: c})
}

// fig writes a figure with its name, and nothing at all for 0.
func fig(name string, v float64, unit string) string {
	if v == 0 {
		return ""
	}
	return name + " " + number(v) + unit
}

func listed(name string, list []string) string {
	if len(list) == 0 {
		return ""
	}
	return name + " " + strings.Join(list, ", ")
}

func asked(question string) string {
	if question == "" {
		return ""
	}
	return "question: " + question
}

func yes(b bool, what string) string {
	if b {
		return what
	}
	return ""
}

func (w *walk) common(t *table.Tables) {
	w.of = "fibres"
	for _, f := range t.Fibres {
		w.add(f.Cite, "fibre", f.ID, f.Words, yes(f.Metal, "metal"), yes(f.Melts, "melts"))
		for _, p := range f.Facts {
			w.add(p.Cite, "property", f.ID+" "+p.Property, p.Value, p.Mark)
		}
	}
	w.of = "contaminants"
	for _, c := range t.Contaminants {
		w.add(c.Cite, "contaminant", c.ID, c.Words, "splash: "+c.Splash, "soaked: "+c.Soaked, yes(c.Harmless, "no contaminant in the sense of the rules"))
	}
	for _, e := range t.Effects {
		w.add(e.Cite, "effect", e.Contaminant, e.Verdict.String(), listed("kinds", asWords(e.Kinds)), listed("fibres", orAny(e.Fibres)),
			listed("amounts", orAny(e.Amounts)), yes(e.Wash, "wash, dry, look again"), asked(e.Question))
	}
	for _, x := range t.Washings {
		w.add(x.Cite, "washing", x.ID, x.Words)
	}
	w.of = "causes"
	for _, c := range t.Causes {
		w.add(c.Cite, "cause", c.ID, c.Words, yes(c.Washable, "washes out"))
	}
	w.of = "looks"
	for _, l := range t.Looks {
		w.add(l.Cite, "look", string(l.ID), l.Words, l.How, fig("beta", l.Beta, ""))
		for _, k := range l.Kappa {
			w.add(k.Cite, "kappa", string(l.ID)+" "+string(k.Exam), "quality "+number(k.K))
		}
		for _, f := range l.Factors {
			state := f.State
			if state == "" {
				state = notSaid
			}
			w.add(f.Cite, "factor", string(l.ID)+" "+f.Condition+" "+state, "leaves "+number(f.F))
		}
	}
	w.of = "events"
	for _, e := range t.Events {
		w.add(e.Cite, "event", e.ID, e.Words)
		for _, x := range e.Effects {
			w.add(x.Cite, "effect", e.ID, x.Verdict.String(), listed("groups", x.Groups), listed("kinds", asWords(x.Kinds)), asked(x.Question))
		}
	}
	w.of = "use"
	for _, d := range t.Dirt {
		w.add(d.Cite, "dirt", d.ID, d.Words, "z "+number(d.Z))
	}
	for _, h := range t.Hardware {
		w.add(h.Cite, "hardware", h.ID, h.Words, "z "+number(h.Z))
	}
	w.use("reference", &t.Rules.Reference)
	w.use("cautious", &t.Rules.Cautious)
	w.of = "rules"
	for _, r := range t.Rules.Cites {
		w.add(r.Cite, "rule", r.Name, r.Value, r.Words)
	}
}

func (w *walk) use(id string, u *table.Use) {
	day := ""
	if u.Day > 0 {
		day = u.Day.String() + " on one day at most"
	}
	w.add(u.Cite, "use", id, u.Week.String()+" a week", day, u.Mass.String(), strconv.Itoa(u.Days)+" days a week", u.Dirt, u.Hardware)
}

func orAny(list []string) []string {
	if len(list) == 0 {
		return []string{"any"}
	}
	return list
}

func (w *walk) life(t *table.Tables) {
	w.of = "life"
	for _, group := range []struct {
		sort string
		rows []table.Life
	}{{"life", t.Lives}, {"guidance", t.Guidance}} {
		for _, x := range group.rows {
			sort := group.sort
			if x.Store {
				sort = "storage"
			}
			w.add(x.Cite, sort, x.ID, x.Months.String()+" from "+x.CountsFrom, x.Verdict.String(), listed("kinds", asWords(x.Kinds)),
				listed("country", one(x.Country)), listed("fibre", one(x.Fibre)), listed("used", one(x.Use)), yes(x.Unless, makerQuiet), x.Words, asked(x.Question))
		}
	}
	for _, x := range t.NoLimits {
		w.add(x.Cite, "no_limit", x.ID, listed("kinds", asWords(x.Kinds)), x.Words)
	}
	for _, p := range t.Principles {
		w.of = strings.TrimSuffix(p.File, ".toml")
		w.add(p.Cite, "rule", p.ID, yes(p.Says, p.Verdict.String()), p.Words, asked(p.Question))
	}
}

func one(s string) []string {
	if s == "" {
		return nil
	}
	return []string{s}
}

func (w *walk) country(t *table.Tables) {
	w.of = "intervals"
	for _, g := range t.Groups {
		w.add(g.Cite, "group", g.ID, g.Words, listed("kinds", asWords(g.Kinds)))
	}
	for _, c := range t.Countries {
		w.add(c.Cite, "country", c.Code, c.Words, listed("takes over", c.Also))
	}
	for _, list := range [][]table.Interval{t.Intervals, t.Occasions} {
		for _, x := range list {
			if x.From != x.Country {
				continue // the row stands once in the file
			}
			w.add(x.Cite, "interval", x.ID, string(x.Exam), every(&x), x.Force, "a scheme may "+x.SchemeMay, yes(x.Arduous, "when used often or in arduous conditions"),
				listed("only if", one(x.OnlyIf)), listed("kinds", asWords(x.Kinds)), x.Words)
		}
	}
	for _, x := range t.Laws {
		if x.From == x.Country {
			w.add(x.Cite, "law", x.ID, "when "+x.When, x.Words)
		}
	}
}

func every(x *table.Interval) string {
	switch {
	case x.Months > 0:
		return "every " + x.Months.String()
	case x.Days > 0:
		return "every " + strconv.Itoa(x.Days) + " days"
	}
	return "when " + x.When
}

func (w *walk) kind(t *table.Tables, k *table.Kind) {
	w.of = string(k.ID)
	along := ""
	if k.Axis == "length" {
		along = "cells of " + k.Cell.String() + " along " + k.Length.String()
	}
	w.add(k.Cite, "kind", string(k.ID), k.Words, k.Group, along, listed("sides", k.Sides), yes(k.Strict, "strict"), yes(!k.Doubt, "no doubt figure"), yes(k.Fitted, "belongs in an assembly"))
	for _, z := range k.Zones {
		w.add(z.Cite, "zone", z.ID, z.Words, z.Where, yes(z.Where != "rest", z.Extent.String()), yes(z.Where != "rest", "all its stretches at most "+z.Most.String()))
	}
	for _, p := range k.Parts {
		w.add(p.Cite, "part", p.ID, p.Words, p.Extent.String())
	}
	for i := range k.Modes {
		w.mode(&k.Modes[i])
	}
	for i := range k.Signs {
		w.sign(&k.Signs[i])
	}
	for _, n := range k.Needs {
		w.add(n.Cite, "need", string(n.Exam)+" "+string(n.Look), fig("covers", n.Cover, ""), fig("measured in each of", float64(n.Places), " equal stretches"), listed("measured on", n.Parts))
	}
	for _, q := range k.Reads {
		unit := ""
		if q.Basis == "absolute" {
			unit = " mm"
		}
		w.add(q.Cite, "read", q.ID, q.Words, "mode "+q.Mode, q.Basis, "mean "+three(q.Mu)+unit, "spread "+three(q.Sigma)+unit, "nu "+strconv.Itoa(q.Nu),
			"slips "+number(q.Slip), "error "+q.Error.String(), fig("shared", q.Shared, unit), "out of range beyond "+number(float64(q.Out)/1000)+unit, "then sign "+q.Sign)
		for _, l := range q.Limits {
			at := l.At.String()
			if l.Share != 0 {
				at = strconv.FormatInt(l.Share, 10) + "/1000 of the first record"
			}
			w.add(l.Cite, "limit", q.ID, l.Verdict.String()+" at "+at+map[bool]string{true: " and below", false: " and above"}[l.Below], l.Words)
		}
	}
	for _, a := range k.Asks {
		w.add(a.Cite, "ask", a.ID, a.Words, "yes means "+a.Yes)
	}
	for _, x := range k.Times {
		w.add(x.Cite, "time", string(x.Look), number(x.Minutes)+" min")
	}
	for _, c := range t.Causes {
		for _, p := range c.Priors {
			if p.Kind == k.ID {
				w.add(p.Cite, "prior", c.ID+yes(p.Zone != "", ", "+p.Zone), "there in "+number(p.P))
			}
		}
	}
	for _, e := range t.Events {
		for _, x := range e.Kernels {
			if slices.Equal(x.Kinds, []kit.KindID{k.ID}) {
				w.add(x.Cite, "kernel", e.ID+", "+x.Mode, "from peak "+number(x.FromPeak), fig("0→1", x.J01, ""), fig("0→2", x.J02, ""), fig("1→2", x.J12, ""))
			}
		}
	}
}

func three(v [3]float64) string { return number(v[0]) + ", " + number(v[1]) + ", " + number(v[2]) }

func (w *walk) mode(m *table.Mode) {
	var shares []string
	for _, s := range m.Shares {
		shares = append(shares, s.Zone+" "+number(s.Share))
	}
	w.add(m.Cite, "mode", m.ID, m.Words, m.Scope, listed("layer", one(m.Layer)),
		"a year: 0→1 "+number(m.T01)+", 0→2 "+number(m.T02)+", 1→2 "+number(m.T12),
		"per 100 h: 0→1 "+number(m.H01)+", 0→2 "+number(m.H02)+", 1→2 "+number(m.H12),
		"hidden "+number(m.Hidden), fig("beta dirt", m.BetaDirt, ""), fig("beta mass", m.BetaMass, ""), fig("beta hardware", m.BetaHardware, ""),
		"new: impaired "+number(m.New1)+", unfit "+number(m.New2),
		"floors: per 100 h "+number(m.FloorH)+", a year "+number(m.FloorT)+", a year in store "+number(m.FloorStore), listed("shares", shares))
}

func (w *walk) sign(s *table.Sign) {
	var looks, links, causes []string
	for _, l := range s.Looks {
		looks = append(looks, string(l))
	}
	for _, l := range s.Links {
		links = append(links, l.Mode+" "+number(l.Q1)+"/"+number(l.Q2))
	}
	for _, c := range s.Causes {
		causes = append(causes, c.Cause+" "+number(c.R))
	}
	w.add(s.Cite, "sign", s.ID, s.Words, string(s.Class), listed("looks", looks), yes(s.Whole, "of the whole piece"),
		listed("observation when explained by", s.Observe), listed("fibres", s.ByFibre), yes(s.AfterUse > 0, "after "+s.AfterUse.String()+" of use"),
		listed("with", s.With), asked(s.Question))
	if len(links)+len(causes) == 0 && s.Leak == 0 {
		return
	}
	figures := s.Cite
	if figures.Status = s.Figures; figures.Status == table.Assumed {
		figures.Source, figures.Place = nil, "chosen for this table"
	}
	w.add(figures, "figures", s.ID, listed("links", links), fig("leak", s.Leak, " per metre"), listed("causes", causes), fig("spread", s.Spread, ""))
}
