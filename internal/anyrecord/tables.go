package anyrecord

import (
	"math"

	"pgregory.net/rapid"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Tables draws tables for one kind: those given, with every figure of the
// kind's model and of the looks drawn anew about its value, within what the
// loader accepts: rates up to tenfold either way, shares, priors and qualities
// anywhere near theirs, hidden shares also none. The other kinds stay as they
// are. What is drawn is TestTablesLoad's to hold against the loader.
func Tables(t *rapid.T, tb *table.Tables, kind kit.KindID) *table.Tables {
	g := &tabler{t: t}
	out := *tb
	out.Kinds = clone(tb.Kinds)
	for i := range out.Kinds {
		if out.Kinds[i].ID == kind {
			g.kind(&out.Kinds[i])
		}
	}
	out.Causes = clone(tb.Causes)
	for i := range out.Causes {
		c := &out.Causes[i]
		c.Priors = clone(c.Priors)
		for k := range c.Priors {
			if p := &c.Priors[k]; p.Kind == kind {
				p.P = min(0.98, p.P*g.factor("prior"))
			}
		}
	}
	out.Looks = clone(tb.Looks)
	for i := range out.Looks {
		g.look(&out.Looks[i])
	}
	out.Events = clone(tb.Events)
	for i := range out.Events {
		e := &out.Events[i]
		e.Kernels = clone(e.Kernels)
		for k := range e.Kernels {
			if x := &e.Kernels[k]; len(x.Kinds) == 1 && x.Kinds[0] == kind {
				x.J01, x.J02, x.J12 = min(0.5, g.rate("j01", x.J01)), min(0.4, g.rate("j02", x.J02)), min(1, g.rate("j12", x.J12))
			}
		}
	}
	out.Index()
	return &out
}

type tabler struct{ t *rapid.T }

// factor draws a tenth to ten, even in the logarithm, in steps that shrink to 1.
func (g *tabler) factor(label string) float64 {
	return math.Pow(10, float64(rapid.IntRange(-20, 20).Draw(g.t, label))/20)
}

// rate draws a rate about one; none stays none.
func (g *tabler) rate(label string, r float64) float64 { return r * g.factor(label) }

// share draws a share above 0.
func (g *tabler) share(label string, s float64) float64 { return min(1, s*g.factor(label)) }

func (g *tabler) kind(k *table.Kind) {
	k.Modes, k.Signs = clone(k.Modes), clone(k.Signs)
	for i := range k.Modes {
		m := &k.Modes[i]
		for _, x := range []struct {
			label string
			v     *float64
		}{{"t01", &m.T01}, {"t02", &m.T02}, {"t12", &m.T12}, {"h01", &m.H01}, {"h02", &m.H02}, {"h12", &m.H12},
			{"floor_h", &m.FloorH}, {"floor_t", &m.FloorT}, {"floor_store", &m.FloorStore}, {"beta_dirt", &m.BetaDirt}, {"beta_mass", &m.BetaMass}, {"beta_hardware", &m.BetaHardware}} {
			*x.v = g.rate(x.label, *x.v)
		}
		m.New1, m.New2 = min(0.1, g.rate("new1", m.New1)), min(0.1, g.rate("new2", m.New2))
		if m.Hidden = min(0.5, g.rate("hidden", m.Hidden)); once(g.t, "nothing hidden", 6) {
			m.Hidden = 0
		}
		m.Shares = clone(m.Shares)
		sum := 0.0
		for j := range m.Shares {
			m.Shares[j].Share *= g.factor("share")
			sum += m.Shares[j].Share
		}
		for j := range m.Shares {
			m.Shares[j].Share /= sum
		}
	}
	for i := range k.Signs {
		s := &k.Signs[i]
		s.Leak = g.rate("leak", s.Leak)
		s.Spread = min(1, g.rate("spread", s.Spread))
		s.Links, s.Causes = clone(s.Links), clone(s.Causes)
		for j := range s.Links {
			l := &s.Links[j]
			l.Q2 = g.share("q2", l.Q2)
			l.Q1 = min(g.share("q1", l.Q1), l.Q2)
		}
		for j := range s.Causes {
			s.Causes[j].R = g.share("r", s.Causes[j].R)
		}
	}
}

// look draws the qualities of a look. What is not said stays at most what the
// worst said leaves.
func (g *tabler) look(l *table.Look) {
	l.Beta = g.share("beta", l.Beta)
	l.Kappa, l.Factors = clone(l.Kappa), clone(l.Factors)
	for i := range l.Kappa {
		l.Kappa[i].K = g.share("kappa", l.Kappa[i].K)
	}
	least := map[string]float64{}
	silent := func(f *table.Factor) bool { return f.State == "" || f.State == string(kit.NotKnown) }
	for i := range l.Factors {
		if f := &l.Factors[i]; !silent(f) {
			f.F = g.share("factor", f.F)
			if v, ok := least[f.Condition]; !ok || f.F < v {
				least[f.Condition] = f.F
			}
		}
	}
	for i := range l.Factors {
		if f := &l.Factors[i]; silent(f) {
			f.F = min(g.share("factor", f.F), least[f.Condition])
		}
	}
}

// Still gives tables by which nothing begins on a kind, and nothing gets worse:
// all the harm there is was there when it was new.
func Still(tb *table.Tables, kind kit.KindID) *table.Tables {
	out := *tb
	out.Rules.StoreShare = 0
	out.Kinds = clone(tb.Kinds)
	for i := range out.Kinds {
		if k := &out.Kinds[i]; k.ID == kind {
			k.Modes = clone(k.Modes)
			for j := range k.Modes {
				m := &k.Modes[j]
				m.T01, m.T02, m.T12, m.H01, m.H02, m.H12 = 0, 0, 0, 0, 0, 0
				m.FloorH, m.FloorT, m.FloorStore = 0, 0, 0
			}
		}
	}
	out.Index()
	return &out
}
