package bench

import (
	"math"

	"kernbook/internal/core/rope"
	"kernbook/internal/core/table"
)

func heat(t *table.Tables) Calculator {
	var metals []string
	for i := range t.Bench.Capacities {
		metals = append(metals, t.Bench.Capacities[i].ID)
	}
	metal := choice("material", metals)
	metal.Must = true
	return Calculator{Name: "heat", work: heatSheet, Fields: []Field{
		person(take("mass", Mass, "92kg", "the mass")),
		take("load", Force, "903N", "the mass"),
		must("height", Length, "15m", "the height"),
		must("part", Mass, "200g", "the mass of the part"),
		metal,
		usual("into-part", Share, "100%", "the share of the heat"),
		usual("start", Temp, "20C"),
	}}
}

func heatSheet(j *job) {
	var c *table.Capacity
	for i := range j.t.Bench.Capacities {
		if x := &j.t.Bench.Capacities[i]; x.ID == j.word["material"] {
			c = x
		}
	}
	mass := j.weighed()
	if len(j.faults) > 0 {
		return
	}
	w, err := rope.Descent(mass, j.got["height"], j.got["part"], c.Heat, j.got["into-part"])
	if !j.ok(err) {
		return
	}
	if s := j.got["start"]; s > 100 || s < -60 {
		j.fault("start", "is no temperature a part begins with; give one from -60C to 100C")
		return
	}
	end := j.got["start"] + w.Rise
	j.fig("heat", w.Heat, Joule, Up)
	j.fig("rise", w.Rise, Kelvin, Up, c.Source...)
	j.fig("part-temperature", end, Celsius, Up, c.Source...)
	bars := &Bars{Unit: Celsius, Mark: end, Key: "part-temperature"}
	for i := range j.t.Fibres {
		f := &j.t.Fibres[i]
		if f.Metal || !f.Melts || f.ID == "unknown" {
			continue
		}
		low, high := math.Inf(1), 0.0
		var lines []string
		for _, p := range f.Facts {
			if p.Property == "melt" {
				low, high = min(low, p.Low), max(high, p.High)
				lines = append(lines, p.Source...)
			}
		}
		if high == 0 {
			continue
		}
		j.span("melts", f.Words, low, high, Celsius, Down, once(lines)...)
		b := Bar{Words: f.Words, Low: low, High: high, Shown: Print(low, Celsius, Down) + "–" + Print(high, Celsius, Down)}
		bars.Bars = append(bars.Bars, b)
		if end >= low {
			j.caution("heat-melts", once(lines), "fibre", f.Words)
		}
	}
	if c.Status == table.FromMemory {
		j.caution("heat-from-memory", c.Source)
	}
	j.note("heat-mean", c.Source)
	j.note("heat-measured", []string{"B-30"})
	j.caution("heat-spot", nil)
	j.sheet.Bars = bars
}
