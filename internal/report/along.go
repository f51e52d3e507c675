package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/bench"
	"kernbook/internal/core/measure"
	"kernbook/internal/report/draw"
)

// AlongFormat names the form of readings along a rope as JSON, StudyFormat that of a
// study of a gauge.
const (
	AlongFormat = "kernbook along 1"
	StudyFormat = "kernbook study 1"
)

// three prints a reading's difference: three decimals and its unit.
func three(v float64, unit string) string {
	return strings.Replace(strconv.FormatFloat(v, 'f', 3, 64), "-", "−", 1) + " " + unit
}

func signed(v float64, unit string) string {
	if v > 0 {
		return "+" + three(v, unit)
	}
	return three(v, unit)
}

// atMM prints a place in millimetres.
func atMM(mm float64) string {
	return strconv.FormatFloat(math.Round(mm*10)/10, 'f', -1, 64) + " mm"
}

// chanced prints a chance, a small one with more decimals.
func chanced(p float64) string {
	switch {
	case p < 0.00001:
		return "< 0.00001"
	case p < 0.001:
		return strconv.FormatFloat(p, 'f', 5, 64)
	}
	return strconv.FormatFloat(p, 'f', 4, 64)
}

func pairs(list ...string) []arg {
	var out []arg
	for i := 0; i+1 < len(list); i += 2 {
		out = append(out, arg{Name: list[i], Value: list[i+1]})
	}
	return out
}

// Refused says why two sets of readings are not compared, one sentence for each.
func Refused(list []bench.Incomparable, c Words) []string {
	var out []string
	for _, x := range list {
		said := func(v string) string {
			if v == "" {
				return c.Say("bench.along.not-said")
			}
			return "“" + v + "”"
		}
		key := map[string]string{"tension": "bench.along.tension", "wet": "bench.along.wet", "method": "bench.along.method"}[x.What]
		out = append(out, c.Say(key, pairs("before", said(x.Before), "now", said(x.Now))...))
	}
	return out
}

func foundWords(s *bench.AlongSheet, f *measure.Found, e float64, c Words) string {
	key := "bench.along.place"
	if s.Ask.Form == measure.Change {
		key = "bench.along.place-change"
	}
	return c.Say(key, pairs("inside", signed(f.Inside, s.Unit), "from", atMM(f.From), "to", atMM(f.To), "begin-low", atMM(f.BeginLow), "begin-high", atMM(f.BeginHigh),
		"end-low", atMM(f.EndLow), "end-high", atMM(f.EndHigh), "local", signed(f.Local, s.Unit), "error", three(f.Error, s.Unit), "p", chanced(f.P), "p-error", chanced(e), "n", strconv.Itoa(f.Count))...)
}

// alongNotes gives every sentence of readings along a rope, in order.
func alongNotes(s *bench.AlongSheet, c Words) (said, cautions []string) {
	o := &s.Overall
	set := func(t *bench.Taken) string {
		var parts []string
		for _, x := range t.Said() {
			parts = append(parts, c.Say("bench.along.of-"+x[0], arg{Name: "value", Value: x[1]}))
		}
		if len(parts) == 0 {
			return c.Say("bench.along.not-said")
		}
		return strings.Join(parts, "; ")
	}
	say := func(key string, list ...string) { said = append(said, c.Say(key, pairs(list...)...)) }
	mind := func(key string, list ...string) { cautions = append(cautions, c.Say(key, pairs(list...)...)) }
	say("bench.along.taken", "before", set(&s.Before), "now", set(&s.Now))
	say("bench.along.overall", "mean", signed(o.Mean, s.Unit), "low", signed(o.Mean-1.96*o.Error, s.Unit), "high", signed(o.Mean+1.96*o.Error, s.Unit))
	say("bench.along.level", "median", signed(o.Median, s.Unit))
	if !math.IsNaN(s.TrendPer) {
		say("bench.along.trend", "trend", signed(s.TrendPer, s.Unit))
	}
	runs := []string{"runs", strconv.Itoa(bench.Runs), "seed", strconv.Itoa(bench.Seed), "level", percent(s.Ask.Level), "critical", three2(s.Critical), "low", three2(s.CritLow), "high", three2(s.CritHigh), "widest", strconv.Itoa(s.Widest)}
	if s.Ask.Form == measure.Change {
		say("bench.along.asks-change", runs...)
	} else {
		say("bench.along.asks-contrast", runs...)
	}
	for i := range s.Flagged {
		said = append(said, foundWords(s, &s.Flagged[i], s.PError[i], c))
		if s.Flagged[i].FewOutside {
			mind("bench.along.few-outside", "from", atMM(s.Flagged[i].From), "to", atMM(s.Flagged[i].To))
		}
	}
	if len(s.Flagged) == 0 {
		say("bench.along.none", "from", atMM(s.Best.From), "to", atMM(s.Best.To), "p", chanced(s.Best.P), "p-error", chanced(s.BestPError), "local", signed(s.Best.Local, s.Unit))
	}
	for _, f := range s.Findable {
		say("bench.along.findable", "n", strconv.Itoa(f.Stations), "long", atMM(f.Long), "loss", three(f.Loss, s.Unit), "power", percent(bench.Power))
	}
	if p := s.Sides; p != nil {
		key := "bench.along.sides-unknown"
		switch {
		case p.P < 0.05 && p.PEqual < 0.05:
			key = "bench.along.sides-small"
		case p.P < 0.05:
			key = "bench.along.sides-differ"
		case p.PEqual < 0.05:
			key = "bench.along.sides-equal"
		}
		say(key, "n", strconv.Itoa(p.N), "mean", signed(p.Mean, s.Unit), "low", signed(p.Low, s.Unit), "high", signed(p.High, s.Unit), "p", chanced(p.P), "p-equal", chanced(p.PEqual), "margin", three(p.Margin, s.Unit))
	} else {
		say("bench.along.no-sides")
	}
	for i := range s.Differences {
		d := &s.Differences[i]
		for _, v := range d.Slips {
			mind("bench.along.slip", "at", atMM(d.At), "value", three(v, s.Unit))
		}
	}
	if len(s.Missing) > 0 {
		list := make([]string, len(s.Missing))
		for i, m := range s.Missing {
			list[i] = atMM(m)
		}
		mind("bench.along.missing", "n", strconv.Itoa(len(list)), "places", c.List(list))
	}
	if s.Uneven {
		mind("bench.along.uneven")
	}
	gauge := []string{"deviation", three(s.Ask.Gauge.Deviation, s.Unit), "step", three(s.Ask.Gauge.Step, s.Unit), "freedom", strconv.FormatFloat(s.Ask.Gauge.Freedom, 'f', 0, 64)}
	switch s.Ask.From {
	case "study":
		say("bench.along.gauge-study", gauge...)
	case "assumed":
		mind("bench.along.gauge-assumed", gauge...)
	default:
		say("bench.along.gauge-said", gauge...)
	}
	for _, what := range s.Unsaid {
		mind(map[string]string{"tension": "bench.along.unsaid-tension", "wet": "bench.along.unsaid-wet", "method": "bench.along.unsaid-method"}[what])
	}
	if s.Before.Gauge != s.Now.Gauge {
		mind("bench.along.other-gauge")
	}
	if s.Before.Checked == "" || s.Now.Checked == "" {
		mind("bench.along.gauge-unchecked")
	}
	mind("bench.along.for-the-eye")
	mind("bench.along.no-limit")
	return said, cautions
}

func percent(v float64) string { return strconv.FormatFloat(math.Round(v*1e6)/1e4, 'f', -1, 64) + " %" }
func three2(v float64) string  { return strconv.FormatFloat(v, 'f', 2, 64) }

// flaggedAt says whether a station lies in a flagged place.
func flaggedAt(s *bench.AlongSheet, i int) bool {
	return slices.ContainsFunc(s.Flagged, func(f measure.Found) bool { return i >= f.First && i < f.First+f.Count })
}

// AlongText writes what readings along a rope tell.
func AlongText(w io.Writer, s *bench.AlongSheet, c Words) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\n\n", c.Say("bench.along.title", pairs("n", strconv.Itoa(len(s.Differences)))...))
	said, cautions := alongNotes(s, c)
	for _, x := range said {
		fmt.Fprintf(&b, "- %s\n", x)
	}
	fmt.Fprintf(&b, "\n%s\n", c.Say("bench.heading.cautions"))
	for _, x := range cautions {
		fmt.Fprintf(&b, "- %s\n", x)
	}
	fmt.Fprintf(&b, "\n%12s %14s %14s %14s %12s\n", c.Say("bench.along.at"), c.Say("bench.along.before"), c.Say("bench.along.now"), c.Say("bench.along.change"), c.Say("bench.along.error"))
	for i := range s.Differences {
		d := &s.Differences[i]
		st := &s.Stations[d.Station]
		mark := ""
		if flaggedAt(s, i) {
			mark = "  " + c.Say("bench.along.flagged")
		}
		if len(d.Slips) > 0 {
			mark += "  " + c.Say("bench.along.slipped")
		}
		fmt.Fprintf(&b, "%12s %14s %14s %14s %12s%s\n", atMM(d.At), three(measure.Mean(st.Base), s.Unit), three(measure.Mean(st.Now), s.Unit), signed(d.D, s.Unit), three(d.Error, s.Unit), mark)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// AlongJSON gives the same as JSON on one line; figures are unrounded.
func AlongJSON(s *bench.AlongSheet, c Words) ([]byte, error) {
	type place struct {
		From    float64    `json:"from"`
		To      float64    `json:"to"`
		Begin   [2]float64 `json:"begin"`
		End     [2]float64 `json:"end"`
		Local   float64    `json:"local"`
		Error   float64    `json:"error"`
		P       float64    `json:"p"`
		PError  float64    `json:"p_error"`
		Value   float64    `json:"value"`
		First   int        `json:"first"`
		Count   int        `json:"count"`
		Inside  float64    `json:"inside"`
		Outside float64    `json:"outside"`
	}
	put := func(f *measure.Found, e float64) place {
		return place{f.From, f.To, [2]float64{f.BeginLow, f.BeginHigh}, [2]float64{f.EndLow, f.EndHigh}, f.Local, f.Error, f.P, e, f.Value, f.First, f.Count, f.Inside, f.Outside}
	}
	type station struct {
		At      float64   `json:"at"`
		Change  float64   `json:"change"`
		Error   float64   `json:"error"`
		Z       float64   `json:"z"`
		Flagged bool      `json:"flagged,omitempty"`
		Slips   []float64 `json:"slips,omitempty"`
	}
	type findable struct {
		Stations int     `json:"stations"`
		Long     float64 `json:"long"`
		Loss     float64 `json:"loss"`
	}
	type sides struct {
		N      int        `json:"n"`
		Mean   float64    `json:"mean"`
		Limits [2]float64 `json:"limits"`
		P      float64    `json:"p"`
		Margin float64    `json:"margin"`
		PEqual float64    `json:"p_equal"`
	}
	out := struct {
		Format    string     `json:"format"`
		Unit      string     `json:"unit"`
		Overall   float64    `json:"overall"`
		Error     float64    `json:"overall_error"`
		Level     float64    `json:"level_median"`
		Trend     *float64   `json:"trend_per_metre,omitempty"`
		Lag       float64    `json:"lag"`
		Flagged   []place    `json:"flagged"`
		Strongest place      `json:"strongest"`
		Alarm     float64    `json:"alarm_level"`
		Critical  [3]float64 `json:"critical"`
		Runs      int        `json:"runs"`
		Seed      int        `json:"seed"`
		Widest    int        `json:"widest"`
		Gauge     float64    `json:"gauge_sd"`
		Freedom   float64    `json:"gauge_freedom"`
		GaugeFrom string     `json:"gauge_from"`
		Findable  []findable `json:"findable"`
		Power     float64    `json:"power"`
		Sides     *sides     `json:"sides,omitempty"`
		Missing   []float64  `json:"missing"`
		Stations  []station  `json:"stations"`
		Said      []string   `json:"said"`
		Cautions  []string   `json:"cautions"`
	}{Format: AlongFormat, Unit: s.Unit, Overall: s.Overall.Mean, Error: s.Overall.Error, Level: s.Overall.Median, Trend: benchNumber(s.TrendPer), Lag: s.Overall.Lag, Flagged: []place{}, Strongest: put(&s.Best, s.BestPError),
		Alarm: s.Ask.Level, Critical: [3]float64{s.Critical, s.CritLow, s.CritHigh}, Runs: bench.Runs, Seed: bench.Seed, Widest: s.Widest,
		Gauge: s.Ask.Gauge.Deviation, Freedom: s.Ask.Gauge.Freedom, GaugeFrom: s.Ask.From, Power: bench.Power, Missing: append([]float64{}, s.Missing...)}
	for i := range s.Flagged {
		out.Flagged = append(out.Flagged, put(&s.Flagged[i], s.PError[i]))
	}
	for _, f := range s.Findable {
		out.Findable = append(out.Findable, findable(f))
	}
	if p := s.Sides; p != nil {
		out.Sides = &sides{p.N, p.Mean, [2]float64{p.Low, p.High}, p.P, p.Margin, p.PEqual}
	}
	for i := range s.Differences {
		d := &s.Differences[i]
		out.Stations = append(out.Stations, station{d.At, d.D, d.Error, d.Z, flaggedAt(s, i), d.Slips})
	}
	out.Said, out.Cautions = alongNotes(s, c)
	return json.Marshal(out)
}

// AlongDrawing draws the strip along the rope: each change with its limits, the
// baseline, the rest of the rope, the places flagged.
func AlongDrawing(s *bench.AlongSheet, c Words) []byte {
	return draw.Strip(s, c.Say("bench.along.title", pairs("n", strconv.Itoa(len(s.Differences)))...), c.Say("bench.along.desc"), draw.StripWords{
		Base: c.Say("bench.along.base"), Rest: c.Say("bench.along.rest", pairs("median", signed(s.Overall.Median, s.Unit))...),
		Missing: c.Say("bench.along.no-reading"), Axis: c.Say("bench.along.axis", pairs("unit", s.Unit)...), Ends: [2]string{c.Say("bench.along.end-a"), c.Say("bench.along.end-b")},
		Band: c.Say("bench.along.band"),
		Place: func(f *measure.Found) string {
			return atMM(f.From) + "–" + atMM(f.To) + ": " + signed(f.Local, s.Unit)
		},
	})
}

// studyFigures are what a study of a gauge tells, with the words for each.
func studyFigures(s *measure.Study, unit string, c Words) [][2]string {
	sd := func(v float64) string { return three(math.Sqrt(v), unit) }
	w := &s.With
	rows := [][2]string{
		{c.Say("bench.study.repeat"), sd(w.Repeat) + " (" + three(s.RepeatLow, unit) + "–" + three(s.RepeatHigh, unit) + ")"},
		{c.Say("bench.study.hands"), sd(w.Reproducible())},
		{c.Say("bench.study.gauge"), sd(w.Gauge())},
		{c.Say("bench.study.parts"), sd(w.Part)},
		{c.Say("bench.study.share"), percent(math.Round(w.Share()*1e4) / 1e4)},
		{c.Say("bench.study.same-hand"), three(w.Detectable(true), unit)},
		{c.Say("bench.study.other-hand"), three(w.Detectable(false), unit)},
		{c.Say("bench.study.classes"), strconv.FormatFloat(w.Classes(), 'f', 0, 64)},
		{c.Say("bench.study.interaction"), strconv.FormatFloat(s.F, 'f', 3, 64) + ", " + chanced(s.P)},
	}
	return rows
}

func studyNotes(s *measure.Study, c Words) []string {
	out := []string{c.Say("bench.study.how", pairs("parts", strconv.Itoa(s.Parts), "hands", strconv.Itoa(s.Hands), "times", strconv.Itoa(s.Times))...)}
	if s.Raw.Hand < 0 || s.Raw.Interaction < 0 || s.Raw.Part < 0 {
		out = append(out, c.Say("bench.study.negative"))
	}
	if s.Parts < 5 || s.Hands < 3 {
		out = append(out, c.Say("bench.study.few"))
	}
	return append(out, c.Say("bench.study.use"))
}

// StudyText writes what a study of a gauge tells.
func StudyText(w io.Writer, s *measure.Study, unit string, c Words) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s\n\n", c.Say("bench.study.title"))
	rows, wide := studyFigures(s, unit, c), 0
	for _, r := range rows {
		wide = max(wide, len([]rune(r[0])))
	}
	for _, r := range rows {
		fmt.Fprintf(&b, "%-*s  %s\n", wide, r[0], r[1])
	}
	b.WriteString("\n")
	for _, n := range studyNotes(s, c) {
		fmt.Fprintf(&b, "- %s\n", n)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// StudyJSON gives the same as JSON on one line: variances, unrounded.
func StudyJSON(s *measure.Study, unit string, c Words) ([]byte, error) {
	type parts struct {
		Repeat      float64 `json:"repeat"`
		Interaction float64 `json:"interaction"`
		Hand        float64 `json:"hand"`
		Part        float64 `json:"part"`
	}
	return json.Marshal(struct {
		Format  string     `json:"format"`
		Unit    string     `json:"unit"`
		Parts   int        `json:"parts"`
		Hands   int        `json:"hands"`
		Times   int        `json:"times"`
		Raw     parts      `json:"variance_raw"`
		Used    parts      `json:"variance"`
		Pooled  parts      `json:"variance_without_interaction"`
		Share   float64    `json:"gauge_share"`
		Repeat  [2]float64 `json:"repeat_sd_limits"`
		F       float64    `json:"interaction_f"`
		P       float64    `json:"interaction_p"`
		Freedom [4]float64 `json:"freedom"`
		Same    float64    `json:"detectable_same_hand"`
		Other   float64    `json:"detectable_other_hand"`
		Notes   []string   `json:"notes"`
	}{StudyFormat, unit, s.Parts, s.Hands, s.Times, parts(s.Raw), parts(s.With), parts(s.Without), s.With.Share(), [2]float64{s.RepeatLow, s.RepeatHigh}, s.F, s.P, s.Freedom, s.With.Detectable(true), s.With.Detectable(false), studyNotes(s, c)})
}
