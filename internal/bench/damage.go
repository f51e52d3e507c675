package bench

import (
	"slices"
	"strings"

	"kernbook/internal/core/table"
)

func damage(t *table.Tables) Calculator {
	fibre := choice("fibre", madeOf(t))
	fibre.Must = true
	return Calculator{Name: "damage", work: damageSheet, Fields: []Field{fibre}}
}

// damageSheet lists what tests found on pieces of a fibre. Figures whose source names
// no fibre are shown for “general” alone.
func damageSheet(j *job) {
	fibre := j.word["fibre"]
	bars := &Bars{Unit: Part}
	seen, weak := 0, false
	for i := range j.t.Bench.Damages {
		d := &j.t.Bench.Damages[i]
		if !slices.Contains(d.Fibres, fibre) {
			continue
		}
		seen++
		weak = weak || d.Pieces == "1" || strings.Contains(d.Pieces, "thumb") || d.Pieces == "few"
		j.note("damage-row", d.Source, "what", d.What, "item", d.Item, "pieces", d.Pieces, "found", d.Found, "mark", d.Mark)
		b := Bar{Words: d.What, None: !d.Given}
		if d.Given {
			low, high := float64(d.Low), float64(d.High)
			j.span("damage", d.What, low, high, Part, Down, d.Source...)
			b.Low, b.High = low, high
			if b.Shown = Print(low, Part, Down); low != high {
				b.Shown += "–" + Print(high, Part, Down)
			}
		}
		bars.Bars = append(bars.Bars, b)
	}
	if seen == 0 {
		j.caution("damage-none", nil, "fibre", fibre)
	}
	if weak {
		j.caution("damage-weak", nil)
	}
	j.caution("damage-others", []string{"W-03"})
	j.note("damage-beyond", []string{"E-50", "E-66"})
	if seen > 0 {
		j.sheet.Bars = bars
	}
}
