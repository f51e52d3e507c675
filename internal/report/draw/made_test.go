package draw_test

import (
	"slices"
	"strconv"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/lang"
	. "kernbook/internal/report/draw"
)

// made is an outcome written by hand, with figures that are nobody's, so that
// no change of tables or core changes its drawing.
func made(t testing.TB) (*decide.Outcome, *kit.Record, Words) {
	r := piece(t, kit.Bridge, 300*mm, "2026-08-03", kit.Eye)
	r.Runs[0].To = day(t, "2026-07-31")
	r.Examinations = []kit.Examination{{Kind: kit.Interim, Day: day(t, "2026-08-03"), By: "E", Looks: looks(kit.Eye, kit.Hand)}}
	r.Examinations[0].Looks[1].Covers = []kit.Stretch{{From: 0, To: 200 * mm}}
	o := &decide.Outcome{Core: "1", Tables: "0123456789abcdef", Piece: "B1", Kind: kit.Bridge, AsOf: day(t, "2026-08-03"), Exam: kit.Interim,
		ExamDay: day(t, "2026-08-03"), Verdict: kit.SetAside, Reasons: make([]criteria.Reason, 2)}
	o.LifeEnd.Known, o.LifeEnd.Day = true, day(t, "2031-01-05")
	o.Due.Known, o.Due.Day = true, day(t, "2027-01-04")
	o.Next = decide.Next{Day: day(t, "2026-09-20"), Known: true, Why: "doubt", Hours: 70 * qty.Hour, KeptShare: 0.75, KeptUp: true,
		With: decide.Date{Day: day(t, "2027-01-04")}, Without: decide.Date{Day: day(t, "2026-09-20"), Reached: true, Hours: 70 * qty.Hour}}
	o.Doubt = &decide.Doubt{Limit: 1000, D: 0.0003, Hidden: 0.00002, Millions: 300, HiddenUp: 20, OneIn: 3300, Whole: 0.00001}
	for i := qty.Length(0); i < 6; i++ {
		c := decide.Cell{From: i * 50 * mm, To: (i + 1) * 50 * mm, Zone: "travel", D: 0.00003 + float64(i)*0.00001, Millions: 30 + 10*int64(i)}
		c.Findable = c.D - 0.000003
		if i == 0 || i == 5 {
			c.Zone = "bend"
		}
		o.Doubt.Cells = append(o.Doubt.Cells, c)
	}
	o.Doubt.Cells = append(o.Doubt.Cells, decide.Cell{Part: "end A", Zone: "end A", D: 0.00001, Findable: 0.000008, Millions: 10},
		decide.Cell{Part: "end B", Zone: "end B", From: 300 * mm, To: 300 * mm, D: 0.00001, Findable: 0.000008, Millions: 10})
	o.Told = &decide.Told{Before: 900, Drops: []decide.Drop{{Look: kit.Eye, By: 650, After: 250}, {Look: kit.Hand, By: -50, After: 300}},
		Line: []decide.Point{
			{Day: day(t, "2026-01-05"), D: 20, Hidden: 1},
			{Day: day(t, "2026-03-02"), D: 400, Hidden: 8},
			{Day: day(t, "2026-03-02"), After: true, D: 60, Hidden: 8, Mark: "thorough"},
			{Day: day(t, "2026-05-04"), After: true, D: 500, Hidden: 14, Mark: "event"},
			{Day: day(t, "2026-08-03"), D: 900, Hidden: 20},
			{Day: day(t, "2026-08-03"), After: true, D: 300, Hidden: 20, Mark: "interim"},
		},
		Without: []decide.Point{{Day: day(t, "2026-08-04"), D: 310}, {Day: day(t, "2026-08-25"), D: 800}, {Day: day(t, "2026-09-20"), D: 1010}},
		With:    []decide.Point{{Day: day(t, "2026-08-04"), D: 310}, {Day: day(t, "2026-08-25"), D: 400}, {Day: day(t, "2027-01-04"), D: 600}},
		Worst:   decide.Place{From: 250 * mm, To: 300 * mm},
		Signs: []decide.Sign{{Ref: "S1", ID: "grey", Words: "grey of metal", Class: table.Weigh, At: kit.Place{From: 100 * mm, To: 160 * mm}, Day: day(t, "2026-08-03"), Why: 0.957},
			{Ref: "S2", ID: "cut", Words: "cut <& cut>", Class: table.Absolute, At: kit.Place{Part: "end B"}, Day: day(t, "2026-08-03")}}}
	w := catalogued()
	w.Reasons = []string{"The hand did not go over 200 to 300 mm.", "Look sooner."}
	return o, r, w
}

// catalogued are the words of the catalogue without a report and its tables.
func catalogued() Words {
	c := lang.English()
	return Words{
		Say: c.Say,
		Name: func(what, id string) string {
			if key := "draw." + what + "." + id; c.Has(key) {
				return c.Say(key)
			}
			return id
		},
		Share: func(p float64) string {
			return c.Say("share", criteria.Arg{Name: "n", Value: strconv.Itoa(int(p * 100))})
		},
	}
}

// recorder is a Sink that keeps what it is given.
type recorder struct {
	texts  []placed
	points []Point
	clips  []bool // of the open groups
	groups []Group
	open   int
	lowest int // how deep the groups went below the first, if ever
}

type placed struct {
	Text   string
	Type   Type
	X0, X1 float64
	Y0, Y1 float64
}

func (r *recorder) Open(g Group) {
	r.open++
	r.clips = append(r.clips, len(g.Clip) > 0)
	if g.Title != "" {
		r.groups = append(r.groups, g)
	}
}

func (r *recorder) Close() {
	r.open--
	if n := len(r.clips); n > 0 {
		r.clips = r.clips[:n-1]
	}
	r.lowest = min(r.lowest, r.open)
}

// see keeps points of what is not cut off by a clip.
func (r *recorder) see(p ...Point) {
	if !slices.Contains(r.clips, true) {
		r.points = append(r.points, p...)
	}
}

func (r *recorder) Line(x1, y1, x2, y2 float64, _ Stroke) { r.see(Point{x1, y1}, Point{x2, y2}) }
func (r *recorder) Polyline(p []Point, _ Stroke)          { r.see(p...) }
func (r *recorder) Polygon(p []Point, _ Paint)            { r.see(p...) }
func (r *recorder) Rect(x, y, w, h float64, _ Paint)      { r.see(Point{x, y}, Point{x + w, y + h}) }

func (r *recorder) Text(x, y float64, text string, t Type) {
	w := Width(text, t.Size, t.Bold)
	switch t.Anchor {
	case Middle:
		x -= w / 2
	case End:
		x -= w
	}
	r.texts = append(r.texts, placed{text, t, x, x + w, y - 0.75*t.Size, y + 0.22*t.Size})
}
