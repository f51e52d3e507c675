package tables

import (
	"strings"

	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

var unitsBench = map[string]string{
	"ratio": "D/d", "left": "share", "left_low": "share", "left_high": "share",
	"mu_low": "1", "mu_high": "1", "capacity": "J/(kg K)", "coefficient": "N/mm2",
}

// bench reads what publications and tests give for the bench.
func (l *loader) bench(f *file) {
	b := &l.t.Bench
	for _, t := range f.root.List("bend", doc.Required) {
		x := table.Bend{Ratio: f.rate(t, "ratio", doc.Required), Left: f.left(t, "left", doc.Required), Mark: mark(t), Cite: l.cite(f, t)}
		n := len(b.Bends)
		switch {
		case n == 0 && x.Ratio != 1:
			t.Fault("ratio", "is not 1 in the first row", "begin with D/d 1; below it nothing is told")
		case n > 0 && (x.Ratio <= b.Bends[n-1].Ratio || x.Left < b.Bends[n-1].Left):
			t.Fault("ratio", "does not rise, or leaves less than a tighter bend", "give the rows by rising ratio, each leaving at least as much as the one before")
		}
		b.Bends = append(b.Bends, x)
	}
	for _, t := range f.root.List("knot", doc.Required) {
		x := table.Knot{
			Knot: t.Str("knot", doc.Required), Words: t.Str("words", doc.Required), Fibres: l.madeOf(t), Rope: t.Str("rope", doc.Required),
			Low: f.left(t, "left_low", doc.Required), High: f.left(t, "left_high", doc.Optional), Note: t.Str("note", doc.Optional), Mark: mark(t), Cite: l.cite(f, t),
		}
		if t.Has("left_high") && x.High < x.Low {
			t.Fault("left_high", "is less than left_low", "write the smaller figure as left_low")
		}
		for _, o := range b.Knots {
			if o.Knot == x.Knot && o.Words != x.Words {
				t.Fault("words", "call the knot “"+x.Knot+"” otherwise than “"+o.Words+"”", "give a knot one name in all its rows")
				break
			}
		}
		f.once(t, "knot", x.Knot, strings.Join(x.Fibres, ","), x.Rope, strings.Join(x.Source, ",")+".")
		b.Knots = append(b.Knots, x)
	}
	for _, t := range f.root.List("damage", doc.Required) {
		x := table.Damage{
			ID: l.know(f, t, "damage"), What: t.Str("what", doc.Required), Item: t.Str("item", doc.Required), Fibres: l.madeOf(t),
			Pieces: t.Str("pieces", doc.Required), Found: t.Str("found", doc.Required), Given: t.Has("left_low"), Mark: mark(t), Cite: l.cite(f, t),
		}
		if x.Given || t.Has("left_high") {
			x.Low, x.High = f.left(t, "left_low", doc.Required), f.left(t, "left_high", doc.Required)
			if x.High < x.Low {
				t.Fault("left_high", "is less than left_low", "write the smaller figure as left_low")
			}
		}
		b.Damages = append(b.Damages, x)
	}
	for _, t := range f.root.List("friction", doc.Required) {
		x := table.Friction{
			ID: l.know(f, t, "friction"), Surface: t.Str("surface", doc.Required), Rope: t.Str("rope", doc.Required),
			Low: f.rate(t, "mu_low", doc.Required), High: f.rate(t, "mu_high", doc.Required), Mark: mark(t), Cite: l.cite(f, t),
		}
		if x.Low <= 0 || x.High < x.Low || x.High > 5 {
			t.Fault("mu_low", "and mu_high are no range of coefficients", "write two numbers above 0 and at most 5, the smaller first")
		}
		b.Frictions = append(b.Frictions, x)
	}
	for _, t := range f.root.List("capacity", doc.Required) {
		x := table.Capacity{ID: l.know(f, t, "capacity"), Words: t.Str("words", doc.Required), Heat: f.rate(t, "capacity", doc.Required), Mark: mark(t), Cite: l.cite(f, t)}
		if x.Heat < 100 || x.Heat > 5000 {
			t.Fault("capacity", "is no specific heat of a solid", "write it in J/(kg K); aluminium has 900")
		}
		b.Capacities = append(b.Capacities, x)
	}
	for _, t := range f.root.List("tension", doc.Required) {
		x := table.Tension{ID: l.know(f, t, "tension"), Words: t.Str("words", doc.Required), Coefficient: f.rate(t, "coefficient", doc.Required), Mark: mark(t), Cite: l.cite(f, t)}
		if x.Coefficient <= 0 || x.Coefficient > 100 {
			t.Fault("coefficient", "is no coefficient of a tension for measuring", "write it in N/mm²; ISO 2307 has 1.25")
		}
		b.Tensions = append(b.Tensions, x)
	}
}

// left reads a share of the straight strength, which is never nought.
func (f *file) left(t doc.T, col string, required bool) qty.Share {
	f.unit(t, col)
	v := t.Share(col, required)
	if t.Has(col) && v <= 0 {
		t.Fault(col, "is nought", "write the share that was left; leave out what was not given")
	}
	return v
}

// madeOf reads the fibres a row of the bench speaks of.
func (l *loader) madeOf(t doc.T) []string {
	list := t.Strings("fibre", doc.Required)
	for _, id := range list {
		if id != table.GeneralFibre && id != table.NaturalFibre {
			l.ref(t, "fibre", "fibre", id)
		}
	}
	return list
}

func mark(t doc.T) string { return t.OneOf("mark", doc.Required, markWords...) }

// bench gives the rows of the bench as they are shown.
func (w *walk) bench(b *table.Bench) {
	w.of = "bench"
	for _, x := range b.Bends {
		w.add(x.Cite, "bend", "D/d "+number(x.Ratio), x.Left.String()+" left, wire rope", x.Mark)
	}
	for _, x := range b.Knots {
		left := x.Low.String() + " left and more"
		if x.High > 0 {
			left = between(x.Low.String(), x.High.String()) + " left"
		}
		w.add(x.Cite, "knot", x.Knot, x.Words, listed("fibre", x.Fibres), "rope "+x.Rope, left, x.Note, x.Mark)
	}
	for _, x := range b.Damages {
		w.add(x.Cite, "damage", x.ID, x.What, x.Item, listed("fibre", x.Fibres), "pieces "+x.Pieces, x.Found, x.Mark)
	}
	for _, x := range b.Frictions {
		w.add(x.Cite, "friction", x.ID, x.Surface, x.Rope, between(number(x.Low), number(x.High)), x.Mark)
	}
	for _, x := range b.Capacities {
		w.add(x.Cite, "capacity", x.ID, x.Words, number(x.Heat)+" J/(kg K)", x.Mark)
	}
	for _, x := range b.Tensions {
		w.add(x.Cite, "tension", x.ID, x.Words, number(x.Coefficient)+" N/mm²", x.Mark)
	}
}
