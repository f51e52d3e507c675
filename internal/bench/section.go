package bench

import (
	"math"

	"kernbook/internal/core/num"
	"kernbook/internal/core/rope"
	"kernbook/internal/core/table"
)

// rules ties the tensions of the tables to those the mechanics know.
var rules = map[string]rope.Tension{"iso2307": rope.ISO2307, "cordage": rope.CordageInst}

func section(t *table.Tables) Calculator {
	fibre := choice("fibre", dense(t))
	var ids []string
	for i := range t.Bench.Tensions {
		ids = append(ids, t.Bench.Tensions[i].ID)
	}
	rule := choice("tension", ids)
	rule.Default = ids[0]
	return Calculator{Name: "section", work: sectionSheet, Fields: []Field{
		must("one", Length, "11.9mm", "the first reading"),
		must("two", Length, "11.4mm", "the reading square to it"),
		take("tape", Length, "36.8mm", "the tape's reading"),
		take("weight", Linear, "79g/m", "the mass per metre"),
		fibre,
		rule,
	}}
}

// dense gives the fibres whose density the tables have.
func dense(t *table.Tables) []string {
	var out []string
	for i := range t.Fibres {
		if _, _, ok := density(&t.Fibres[i]); ok && !t.Fibres[i].Metal && t.Fibres[i].ID != "unknown" {
			out = append(out, t.Fibres[i].ID)
		}
	}
	return out
}

// density gives the largest density of a fibre in kg/m³ that the tables have: it
// gives the smallest packing.
func density(f *table.Fibre) (rho float64, lines []string, ok bool) {
	for _, p := range f.Facts {
		if p.Property == "density" {
			rho, ok = max(rho, float64(p.High*1000)), true
			lines = append(lines, p.Source...)
		}
	}
	return rho, once(lines), ok
}

func sectionSheet(j *job) {
	one, two := j.got["one"], j.got["two"]
	o, err := rope.Callipers(one, two)
	if !j.ok(err) {
		return
	}
	if max(one, two) > 0.1 {
		j.fault("one", "or the other is thicker than any rope of a climber; give two readings of a calliper, such as “11.9mm”")
	}
	if j.has("weight") != j.has("fibre") {
		j.fault("weight", "and “fibre” go together: packing needs both, or neither")
	}
	if len(j.faults) > 0 {
		return
	}
	j.fig("area", o.Area, Area, Near)
	j.fig("mean", o.Mean, Metre, Near)
	j.fig("same-area", o.Round, Metre, Near)
	j.fig("same-girth", o.Around, Metre, Near)
	j.fig("flat", o.Flat, Part, Near)
	if j.has("tape") {
		around := j.got["tape"] / math.Pi
		long, err := rope.Longer(min(one, two), around)
		if !j.ok(err) {
			return
		}
		j.fig("by-tape", around, Metre, Near)
		j.fig("longer", long, Metre, Near)
		if math.Abs(around-o.Around) > 0.02*o.Around {
			j.caution("section-disagree", nil, "tape", Print(around, Metre, Near), "callipers", Print(o.Around, Metre, Near))
		}
	}
	for i := range j.t.Fibres {
		if f := &j.t.Fibres[i]; j.has("fibre") && f.ID == j.word["fibre"] {
			rho, lines, _ := density(f)
			phi, err := rope.Packing(j.got["weight"], o.Round, rho)
			if !j.ok(err) {
				return
			}
			j.fig("packing", phi, Part, Near, lines...)
			j.note("section-packing", nil)
		}
	}
	for i := range j.t.Bench.Tensions {
		if x := &j.t.Bench.Tensions[i]; x.ID == j.word["tension"] {
			pull, err := rope.Reference(rules[x.ID], o.Mean)
			if !j.ok(err) {
				return
			}
			j.fig("tension-to-measure", pull, Newton, Near, x.Source...)
			j.note("section-rule", x.Source, "rule", x.Words, "mark", x.Mark)
		}
	}
	j.note("section-like", nil)
	j.caution("section-no-limit", []string{"E-39"})
	sc := &Scene{}
	pts := make([]Point, 48)
	for i := range pts {
		sin, cos := num.SinCos(2 * math.Pi * float64(i) / 48)
		pts[i] = Point{float64(one / 2 * cos), float64(two / 2 * sin)}
	}
	sc.Paths = append(sc.Paths, Path{Role: Reach, Points: append(pts, pts[0])}, Path{Role: Ghost, Points: round(Point{}, o.Round/2), Closed: true})
	far := float64(0.68 * max(one, two))
	sc.path(Measure, Point{-one / 2, far}, Point{one / 2, far})
	sc.path(Measure, Point{far, -two / 2}, Point{far, two / 2})
	sc.label("one", Point{0, far}, 2, Print(one, Metre, Near))
	sc.label("two", Point{far, 0}, 1, Print(two, Metre, Near))
	sc.label("same-area", Point{0, -max(one, two)/2 - 0.05*max(one, two)}, 0, Print(o.Round, Metre, Near))
	j.sheet.Scene = sc
}
