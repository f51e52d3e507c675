package bench

import (
	"math"
	"slices"
	"strings"

	"kernbook/internal/core/qty"
	"kernbook/internal/core/rope"
	"kernbook/internal/core/table"
)

func bend() Calculator {
	return Calculator{Name: "bend", work: bendSheet, Fields: []Field{
		must("pin", Length, "12mm", "the diameter of the pin"),
		must("rope", Length, "11.7mm", "the diameter of the rope"),
		{Name: "made-of", Kind: Word, Must: true, Words: []string{"fibre", "wire"}, Example: "fibre"},
		take("strength", Force, "24kN"),
	}}
}

// Kept gives what wire rope keeps over a pin, between the rows of the table by a
// straight line, above the last row as the last. ok is false below the first row.
func Kept(rows []table.Bend, ratio float64) (left float64, lines []string, ok bool) {
	if len(rows) == 0 || !(ratio >= rows[0].Ratio) {
		return 0, nil, false
	}
	for i := 1; i < len(rows); i++ {
		a, b := &rows[i-1], &rows[i]
		if ratio <= b.Ratio {
			part := (ratio - a.Ratio) / (b.Ratio - a.Ratio)
			return float64(a.Left) + float64(part*float64(b.Left-a.Left)), once(append(slices.Clone(a.Source), b.Source...)), true
		}
	}
	last := &rows[len(rows)-1]
	return float64(last.Left), last.Source, true
}

func bendSheet(j *job) {
	pin, d := j.got["pin"], j.got["rope"]
	strain, err := rope.FibreStrain(pin, d)
	if !j.ok(err) {
		return
	}
	ratio := pin / d
	j.fig("ratio", ratio, One, Down)
	j.note("bend-surface", nil)
	if j.word["made-of"] == "wire" {
		left, lines, ok := Kept(j.t.Bench.Bends, ratio)
		if !ok {
			j.fault("pin", "is smaller than the rope: below D/d 1 no figure was seen for wire rope; bend it round something larger")
			return
		}
		j.fig("bend-left", left, Part, Down, lines...)
		if j.has("strength") {
			j.fig("strength-left", float64(left*j.got["strength"]), Newton, Down, lines...)
		}
		if last := j.t.Bench.Bends[len(j.t.Bench.Bends)-1]; ratio > last.Ratio {
			j.note("bend-held", lines, "ratio", Print(last.Ratio, One, Near), "left", last.Left.String())
		}
		j.note("bend-wire", lines)
		j.note("bend-two-legs", nil)
	} else {
		j.fig("fibre-strain", strain, Part, Up)
		j.caution("bend-no-table", []string{"B-13"})
		j.note("bend-ranks", nil)
		j.note("bend-guidance", []string{"B-14"})
		if j.has("strength") {
			j.caution("bend-strength-unused", []string{"B-13"})
		}
	}
	sc := &Scene{}
	r := pin / 2
	sc.Paths = append(sc.Paths, Path{Role: Metal, Points: round(Point{0, 0}, r), Closed: true})
	mid := r + d/2
	pts := []Point{{-mid, 3 * mid}}
	for k := range 37 {
		a := math.Pi - float64(math.Pi*float64(k)/36)
		pts = append(pts, turned(mid, a))
	}
	sc.thick(d, append(pts, Point{mid, 3 * mid})...)
	sc.path(Measure, Point{-r, 0}, Point{r, 0})
	sc.label("pin", Point{0, 0}, 2, Print(pin, Metre, Near))
	sc.label("rope-diameter", Point{mid + d/2, 2 * mid}, 1, Print(d, Metre, Near))
	sc.label("ratio", Point{0, -mid - d/2}, 0, Print(ratio, One, Down))
	j.sheet.Scene = sc
}

// sewn is an end for which no figure was seen at all.
const sewn = "sewn"

// knotIDs gives the knots that the tables know, each once.
func knotIDs(t *table.Tables) []string {
	var out []string
	for i := range t.Bench.Knots {
		if id := t.Bench.Knots[i].Knot; !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return append(out, sewn)
}

// madeOf gives the fibres a person can name: those of the tables, and those that
// figures without a fibre stand for.
func madeOf(t *table.Tables) []string {
	var out []string
	for i := range t.Fibres {
		if !t.Fibres[i].Metal {
			out = append(out, t.Fibres[i].ID)
		}
	}
	return append(out, table.NaturalFibre, table.GeneralFibre)
}

func ends(t *table.Tables) Calculator {
	fibre, a, b := choice("fibre", madeOf(t)), choice("end-a", knotIDs(t)), choice("end-b", knotIDs(t))
	fibre.Must, a.Must = true, true
	return Calculator{Name: "ends", work: endsSheet, Fields: []Field{must("strength", Force, "24kN"), fibre, a, b, take("asked", Force, "3kN")}}
}

// End is what the tables have for a knot in a fibre.
type End struct {
	Rows      []table.Knot // the rows that count: of this knot, else of any knot in this fibre
	Any       bool         // they are of knots in general
	Low, High float64      // High is NaN where one of the rows has none
	Others    []table.Knot // of this knot in other fibres: named, never counted
}

// KnotIn looks a knot up. It borrows from no other fibre: ok is false where there is
// no row for this one.
func KnotIn(rows []table.Knot, knot, fibre string) (e End, ok bool) {
	var general []table.Knot
	for i := range rows {
		in := slices.Contains(rows[i].Fibres, fibre)
		switch {
		case rows[i].Knot == knot && in:
			e.Rows = append(e.Rows, rows[i])
		case rows[i].Knot == knot:
			e.Others = append(e.Others, rows[i])
		case rows[i].Knot == table.AnyKnot && in && !isSplice(knot) && knot != sewn:
			general = append(general, rows[i])
		}
	}
	if len(e.Rows) == 0 {
		e.Rows, e.Any = general, true
	}
	if len(e.Rows) == 0 {
		return e, false
	}
	e.Low = 1
	for _, r := range e.Rows {
		e.Low = min(e.Low, float64(r.Low))
		if r.High == 0 {
			e.High = untold
		} else if !math.IsNaN(e.High) {
			e.High = max(e.High, float64(r.High))
		}
	}
	return e, true
}

// isSplice says that an end is no knot, so that figures of knots do not speak of it.
func isSplice(id string) bool { return strings.HasSuffix(id, "splice") || id == "buried" }

func endsSheet(j *job) {
	strength, asked := j.got["strength"], j.got["asked"]
	if strength < 100 || strength > 1e6 {
		j.fault("strength", "is no strength of a rope; give the minimum strength by its paper, such as “24kN”")
	}
	if j.has("asked") && (asked <= 0 || asked > 1e6) {
		j.fault("asked", "is no load; give what is asked of it, such as “3kN”")
	}
	if len(j.faults) > 0 {
		return
	}
	low, high, known, all := 1.0, 1.0, 0, 0
	bars := &Bars{Unit: Newton, Mark: asked, Key: "asked"}
	var lines []string
	for _, name := range []string{"end-a", "end-b"} {
		if !j.has(name) {
			j.note("ends-one", nil)
			continue
		}
		all++
		e, ok := KnotIn(j.t.Bench.Knots, j.word[name], j.word["fibre"])
		words := j.knotWords(j.word[name])
		if !ok {
			j.unseen(name, words, e)
			bars.Bars = append(bars.Bars, Bar{Key: name, Words: words, None: true})
			continue
		}
		known++
		var own []string
		for _, r := range e.Rows {
			own = append(own, r.Source...)
			j.note("knot-row", r.Source, "knot", r.Words, "rope", r.Rope, "fibre", strings.Join(r.Fibres, ", "), "left", shares(r.Low, r.High), "mark", r.Mark, "note", r.Note)
		}
		own = once(own)
		lines = append(lines, own...)
		if e.Any {
			j.caution("knot-in-general", own, "knot", words)
		}
		j.span(name, words, e.Low, e.High, Part, Down, own...)
		low = min(low, e.Low)
		if math.IsNaN(e.High) {
			high = untold
		} else if !math.IsNaN(high) {
			high = min(high, e.High)
		}
		b := Bar{Key: name, Words: words, Low: float64(e.Low * strength), High: float64(e.High * strength), Open: math.IsNaN(e.High)}
		b.Shown = bar(b)
		bars.Bars = append(bars.Bars, b)
	}
	lines = once(lines)
	switch {
	case known < all || known == 0:
		j.caution("ends-not-known", []string{"B-13"})
	default:
		lo, hi := float64(strength*low), float64(strength*high)
		j.span("strength-left", "", lo, hi, Newton, Down, lines...)
		b := Bar{Key: "left", Low: lo, High: hi, Open: math.IsNaN(hi)}
		b.Shown = bar(b)
		bars.Bars = append(bars.Bars, b)
		if j.has("asked") {
			j.span("times", "", lo/asked, hi/asked, One, Down, "E-36")
			if lo < asked {
				j.caution("ends-less-than-asked", nil)
			}
			j.note("ends-factor", []string{"E-36"})
		}
	}
	j.caution("ends-guide", []string{"B-10"})
	if j.word["fibre"] == table.GeneralFibre {
		j.caution("ends-general", nil)
	}
	if j.word["fibre"] == "hmpe" {
		j.caution("ends-slip", []string{"B-11"})
	}
	j.caution("ends-new", []string{"W-03"})
	j.sheet.Bars = bars
}

func bar(b Bar) string {
	lo := Print(b.Low, Newton, Down)
	switch {
	case b.Open:
		return lo + "–?"
	case b.Low == b.High:
		return lo
	}
	return lo + "–" + Print(b.High, Newton, Down)
}

func (j *job) knotWords(id string) string {
	for i := range j.t.Bench.Knots {
		if k := &j.t.Bench.Knots[i]; k.Knot == id {
			return k.Words
		}
	}
	return id
}

// unseen says that there is no row for a knot in this fibre, and which rows there
// are for others.
func (j *job) unseen(field, words string, e End) {
	j.caution("knot-unseen", []string{"B-13"}, "end", field, "knot", words, "fibre", j.word["fibre"])
	for _, r := range e.Others {
		j.note("knot-other", r.Source, "knot", r.Words, "rope", r.Rope, "fibre", strings.Join(r.Fibres, ", "), "left", shares(r.Low, r.High), "mark", r.Mark)
	}
}

func shares(low, high qty.Share) string {
	switch {
	case high == 0:
		return low.String() + " and more"
	case low == high:
		return low.String()
	}
	return low.String() + " to " + high.String()
}
