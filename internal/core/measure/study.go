package measure

import (
	"math"
	"sort"

	"kernbook/internal/core/num"
)

// Trial is one reading of a study of a gauge: which part, by which hand, what.
type Trial struct {
	Part, Hand string
	Value      float64
}

// Components is the variance of a reading taken apart. All are variances, in the
// square of the unit of the readings.
type Components struct {
	Repeat      float64 // the same hand again
	Interaction float64 // of hand and part
	Hand        float64
	Part        float64
}

// Reproducible is what other hands add.
func (c Components) Reproducible() float64 { return c.Interaction + c.Hand }

// Gauge is what does not come from the parts.
func (c Components) Gauge() float64 { return c.Repeat + c.Reproducible() }

// Total is the variance of one reading of a part by a hand.
func (c Components) Total() float64 { return c.Gauge() + c.Part }

// Share is the gauge's part of the variance.
func (c Components) Share() float64 { return c.Gauge() / c.Total() }

// Detectable is the smallest difference of two single readings that is more than the
// gauge, 95 %: 1.96 √2 times the standard error of measurement. With the same hand
// both times only what repeats counts.
func (c Components) Detectable(sameHand bool) float64 {
	v := c.Gauge()
	if sameHand {
		v = c.Repeat
	}
	return float64(1.959963984540054 * math.Sqrt(float64(2*v)))
}

// Classes is how many classes of parts the gauge tells apart: √2 √(part/gauge), at
// least 1 (a habit of the trade of gauges; from memory).
func (c Components) Classes() float64 {
	return max(1, math.Floor(math.Sqrt(float64(2*c.Part)/c.Gauge())))
}

// Study is a study of repeatability and reproducibility: every hand measures every
// part equally often; parts and hands count as drawn from many.
type Study struct {
	Parts, Hands, Times int
	SumSquares          [4]float64 // parts, hands, both, what repeats
	Freedom             [4]float64
	F, P                float64 // of hands and parts together against what repeats
	Raw                 Components
	With                Components // negative ones set to nought
	Without             Components // interaction pooled with what repeats
	RepeatLow           float64    // 95 % limits of the standard deviation that repeats
	RepeatHigh          float64
}

// Pooled says whether the interaction is small enough to be left out: P above the
// limit set (a habit: 0.25 in one handbook, 0.05 in some programs; from memory).
func (s *Study) Pooled(limit float64) bool { return s.P > limit }

// Crossed works out a study by the analysis of variance of two crossed random
// factors (any textbook; held to R and to published data in the tests).
func Crossed(trials []Trial) (Study, error) {
	cells := map[[2]string][]float64{}
	parts, hands := map[string]bool{}, map[string]bool{}
	for _, t := range trials {
		if !finite(t.Value) {
			return Study{}, bad("a reading of the study", "is no number", "leave it out together with the others of its part and hand, or measure again")
		}
		cells[[2]string{t.Part, t.Hand}] = append(cells[[2]string{t.Part, t.Hand}], t.Value)
		parts[t.Part], hands[t.Hand] = true, true
	}
	p, o := names(parts), names(hands)
	if len(p) < 2 || len(o) < 2 {
		return Study{}, bad("the study", "needs two parts and two hands or more", "let each hand measure each part at least twice")
	}
	n := len(cells[[2]string{p[0], o[0]}])
	for _, a := range p {
		for _, b := range o {
			switch k := len(cells[[2]string{a, b}]); {
			case k != n:
				return Study{}, bad("part “"+a+"” by “"+b+"”", "was not measured as often as the others", "let each hand measure each part equally often")
			case k < 2:
				return Study{}, bad("the study", "has one reading of each part and hand, which cannot tell what repeats", "let each hand measure each part at least twice")
			}
		}
	}
	s := Study{Parts: len(p), Hands: len(o), Times: n}
	np, no, nn := float64(len(p)), float64(len(o)), float64(n)
	all := 0.0
	byPart, byHand := make([]float64, len(p)), make([]float64, len(o))
	mean := make([][]float64, len(p))
	for i, a := range p {
		mean[i] = make([]float64, len(o))
		for k, b := range o {
			m := Mean(cells[[2]string{a, b}])
			mean[i][k] = m
			byPart[i] += m / no
			byHand[k] += m / np
			all += m / float64(np*no)
			for _, v := range cells[[2]string{a, b}] {
				s.SumSquares[3] += float64((v - m) * (v - m))
			}
		}
	}
	for i := range p {
		d := byPart[i] - all
		s.SumSquares[0] += float64(float64(d*d) * float64(no*nn))
		for k := range o {
			e := mean[i][k] - byPart[i] - byHand[k] + all
			s.SumSquares[2] += float64(float64(e*e) * nn)
		}
	}
	for k := range o {
		d := byHand[k] - all
		s.SumSquares[1] += float64(float64(d*d) * float64(np*nn))
	}
	s.Freedom = [4]float64{np - 1, no - 1, float64((np - 1) * (no - 1)), float64(float64(np*no) * (nn - 1))}
	ms := [4]float64{}
	for i := range ms {
		ms[i] = s.SumSquares[i] / s.Freedom[i]
	}
	if ms[3] == 0 {
		return Study{}, bad("the study", "has no spread: every hand read every part the same each time", "use a gauge that reads finer")
	}
	s.F = ms[2] / ms[3]
	s.P = num.FisherTail(s.F, s.Freedom[2], s.Freedom[3])
	s.Raw = Components{ms[3], (ms[2] - ms[3]) / nn, (ms[1] - ms[2]) / float64(np*nn), (ms[0] - ms[2]) / float64(no*nn)}
	s.With = Components{s.Raw.Repeat, max(0, s.Raw.Interaction), max(0, s.Raw.Hand), max(0, s.Raw.Part)}
	e := (s.SumSquares[2] + s.SumSquares[3]) / (s.Freedom[2] + s.Freedom[3])
	s.Without = Components{e, 0, max(0, (ms[1]-e)/float64(np*nn)), max(0, (ms[0]-e)/float64(no*nn))}
	f := s.Freedom[3]
	s.RepeatLow = math.Sqrt(s.SumSquares[3] / num.ChiSquaredQuantile(0.025, f))
	s.RepeatHigh = math.Sqrt(s.SumSquares[3] / num.ChiSquaredQuantile(0.975, f))
	return s, nil
}

func names(m map[string]bool) []string {
	var out []string
	for k := range m { // order does not matter: sorted below
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// Group is one day of a nested study: the mean and standard deviation of readings
// taken one after the other.
type Group struct {
	Run  string // what is repeated only once days are over: run, part, gauge
	Part string
	Mean float64
	Dev  float64
}

// Nested is a study of one gauge over days and runs: how much a reading strays within
// a day, between days, between runs.
type Nested struct {
	Within, Days, Runs    float64    // standard deviations of the three levels, as they are seen
	Freedom               [3]float64 // of each
	DayVariance           float64    // of days alone: level 2 squared less what readings leave in it; not below 0
	RunVariance           float64    // of runs alone, likewise
	OneReading            float64    // standard deviation of one reading on any day and run
	DayNegative, RunBelow bool       // the estimate was below 0 and is shown as 0
}

// Levels works out a nested study by the three levels of the NIST/SEMATECH
// e-Handbook, section 2.6.1 (seen): readings is how many each mean was taken over.
func Levels(groups []Group, readings int) (Nested, error) {
	if readings < 2 || len(groups) < 4 {
		return Nested{}, bad("the study", "needs two readings a day and two days or more of two runs", "measure the same part on more days")
	}
	var n Nested
	days := map[[2]string][]float64{}
	within := 0.0
	for _, g := range groups {
		if !finite(g.Mean) || !finite(g.Dev) || g.Dev < 0 {
			return Nested{}, bad("a day of the study", "has no mean or no deviation", "leave the day out")
		}
		days[[2]string{g.Part, g.Run}] = append(days[[2]string{g.Part, g.Run}], g.Mean)
		within += float64(g.Dev * g.Dev)
	}
	n.Within = math.Sqrt(within / float64(len(groups)))
	n.Freedom[0] = float64(len(groups) * (readings - 1))
	keys := make([][2]string, 0, len(days))
	for k := range days { // order does not matter: sorted below
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, k int) bool {
		if keys[i][0] != keys[k][0] {
			return keys[i][0] < keys[k][0]
		}
		return keys[i][1] < keys[k][1]
	})
	size := len(days[keys[0]])
	between, runs := 0.0, map[string][]float64{}
	var parts []string
	for _, k := range keys {
		d := days[k]
		if len(d) != size || size < 2 {
			return Nested{}, bad("part “"+k[0]+"” of run “"+k[1]+"”", "has not as many days as the others, or only one", "give the same number of days for each")
		}
		v := Deviation(d)
		between += float64(v * v)
		if runs[k[0]] == nil {
			parts = append(parts, k[0])
		}
		runs[k[0]] = append(runs[k[0]], Mean(d))
	}
	n.Days = math.Sqrt(between / float64(len(keys)))
	n.Freedom[1] = float64(len(keys) * (size - 1))
	over := 0.0
	for _, p := range parts {
		if len(runs[p]) != len(runs[parts[0]]) || len(runs[p]) < 2 {
			return Nested{}, bad("part “"+p+"”", "has not as many runs as the others, or only one", "give the same number of runs for each")
		}
		v := Deviation(runs[p])
		over += float64(v * v)
	}
	n.Runs = math.Sqrt(over / float64(len(parts)))
	n.Freedom[2] = float64(len(parts) * (len(runs[parts[0]]) - 1))
	n.DayVariance = float64(n.Days*n.Days) - float64(n.Within*n.Within)/float64(readings)
	n.RunVariance = float64(n.Runs*n.Runs) - float64(n.Days*n.Days)/float64(size)
	n.DayNegative, n.RunBelow = n.DayVariance < 0, n.RunVariance < 0
	n.DayVariance, n.RunVariance = max(0, n.DayVariance), max(0, n.RunVariance)
	n.OneReading = math.Sqrt(float64(n.Within*n.Within) + n.DayVariance + n.RunVariance)
	return n, nil
}
