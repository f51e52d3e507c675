package bench

import (
	"math"
	"strings"

	"kernbook/internal/core/measure"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
)

// AlongAsk is how readings along a rope are to be worked out.
type AlongAsk struct {
	Gauge  measure.Gauge
	From   string // where the gauge's deviation comes from: "said", "study", "assumed"
	Level  float64
	Widest int // stations; 0 for the usual
	Form   measure.Form
	Side   measure.Side
	Margin float64 // what counts as equal on both sides; 0 for what the gauge can tell
}

// What is usual for readings along a rope.
const (
	UsualLevel     = 0.05
	UsualDeviation = 0.10 // mm, of one reading of a calliper on rope: assumed
	Runs           = 20_000
	Seed           = 1
	Power          = 0.80
)

// Incomparable says why two sets of readings are not compared: what differs, and how
// each has it ("" for not said).
type Incomparable struct{ What, Before, Now string }

// Comparable says what keeps two sets from being compared, and what neither says.
func Comparable(before, now *Taken) (apart []Incomparable, unsaid []string) {
	same := func(what, a, b string, equal bool) {
		switch {
		case a == "" && b == "":
			unsaid = append(unsaid, what)
		case !equal:
			apart = append(apart, Incomparable{what, a, b})
		}
	}
	// What cannot be read as a force was refused with the file.
	a, errA := qty.ParsePull(before.Tension)
	b, errB := qty.ParsePull(now.Tension)
	same("tension", before.Tension, now.Tension, errA == nil && errB == nil && a == b)
	same("wet", before.Wet, now.Wet, before.Wet == now.Wet)
	same("method", before.Method, now.Method, strings.EqualFold(before.Method, now.Method))
	return apart, unsaid
}

// AlongSheet is what readings along a rope tell.
type AlongSheet struct {
	Unit        string
	Ask         AlongAsk
	Stations    []measure.Station
	Differences []measure.Difference
	Missing     []float64 // places of stations without one of the two
	Unsaid      []string
	Before, Now Taken
	Overall     measure.Overall
	TrendPer    float64 // per metre
	Critical    float64
	CritLow     float64
	CritHigh    float64
	Flagged     []measure.Found
	Best        measure.Found
	PError      []float64 // 95 % half width that simulating leaves each P of Flagged
	BestPError  float64
	Widest      int
	Findable    []Findable
	Sides       *measure.Pairs // left against right about the middle; nil where too few places pair up
	Uneven      bool           // stations are not equally far apart
	Readings    [2]int         // of a station, the fewest before and now
}

// Findable is the smallest local loss over so many stations that would have been
// found.
type Findable struct {
	Stations int
	Long     float64 // mm, by the usual spacing
	Loss     float64
}

// Along works out readings along a rope. It gives why sets are not compared instead
// of a sheet, or a fault.
func Along(r *Readings, ask AlongAsk) (*AlongSheet, []Incomparable, error) {
	apart, unsaid := Comparable(&r.Before, &r.Now)
	if len(apart) > 0 {
		return nil, apart, nil
	}
	d, _, err := measure.Differences(r.Stations, ask.Gauge)
	if err != nil {
		return nil, nil, err
	}
	s := &AlongSheet{Unit: r.Unit, Ask: ask, Stations: r.Stations, Differences: d, Unsaid: unsaid, Before: r.Before, Now: r.Now, Readings: [2]int{math.MaxInt, math.MaxInt}}
	for i := range r.Stations {
		x := &r.Stations[i]
		if len(x.Base) == 0 || len(x.Now) == 0 {
			s.Missing = append(s.Missing, x.At)
			continue
		}
		s.Readings = [2]int{min(s.Readings[0], len(x.Base)), min(s.Readings[1], len(x.Now))}
	}
	if s.Widest = ask.Widest; s.Widest == 0 {
		s.Widest = max(1, min(12, len(d)/3))
	}
	null, err := measure.NewNull(len(d), s.Widest, ask.Form, ask.Side, ask.Gauge.Freedom, Runs, Seed)
	if err != nil {
		return nil, nil, err
	}
	s.Overall = measure.Whole(d)
	s.TrendPer = float64(s.Overall.Trend * 1000)
	s.Critical, s.CritLow, s.CritHigh = null.Critical(ask.Level)
	if s.Flagged, s.Best, err = measure.Scan(d, null, ask.Level); err != nil {
		return nil, nil, err
	}
	for i := range s.Flagged {
		s.PError = append(s.PError, simulated(s.Flagged[i].P))
	}
	s.BestPError = simulated(s.Best.P)
	step := s.spacing()
	for _, count := range []int{1, 2, 3, s.Widest} {
		if n := len(s.Findable); count > s.Widest || n > 0 && s.Findable[n-1].Stations >= count || count >= len(d) {
			continue
		}
		loss, err := measure.Findable(ask.Gauge, len(d), count, s.Readings[0], s.Readings[1], s.Critical, Power)
		if err != nil {
			return nil, nil, err
		}
		s.Findable = append(s.Findable, Findable{count, float64(step * float64(count)), loss})
	}
	s.sides()
	return s, nil, nil
}

// simulated is the 95 % half width of a chance worked out by so many runs.
func simulated(p float64) float64 { return float64(1.96 * math.Sqrt(float64(p*(1-p))/Runs)) }

// spacing gives the usual distance of neighbouring stations, and notes where they are
// not equally far apart.
func (s *AlongSheet) spacing() float64 {
	var gaps []float64
	for i := 1; i < len(s.Differences); i++ {
		gaps = append(gaps, s.Differences[i].At-s.Differences[i-1].At)
	}
	m := measure.Median(gaps)
	for _, g := range gaps {
		s.Uneven = s.Uneven || math.Abs(g-m) > 0.01*m
	}
	return m
}

// sides holds the left half against the right about the middle of the outermost
// stations: places within a hundredth of the length of each other's mirror image pair
// up.
func (s *AlongSheet) sides() {
	d := s.Differences
	lo, hi := s.Stations[0].At, s.Stations[len(s.Stations)-1].At
	var left, right []float64
	for i, k := 0, len(d)-1; i < k; {
		switch off := (d[i].At - lo) - (hi - d[k].At); {
		case math.Abs(off) <= 0.01*(hi-lo):
			left, right = append(left, d[i].D), append(right, d[k].D)
			i, k = i+1, k-1
		case off < 0:
			i++
		default:
			k--
		}
	}
	margin := s.Ask.Margin
	if margin == 0 {
		margin = Detectable(s.Ask.Gauge)
		s.Ask.Margin = margin
	}
	if p, err := measure.Paired(left, right, margin, 0); err == nil {
		s.Sides = &p
	}
}

// Detectable is the smallest difference of two single readings that is more than the
// gauge, 95 %.
func Detectable(g measure.Gauge) float64 {
	return float64(num.NormalQuantile(0.025) * math.Sqrt(float64(2*g.Deviation*g.Deviation)))
}

// GaugeOf gives what a study says of one reading: what the same hand repeats, with the
// interaction of hand and part. What hands add alike shifts all readings of a rope
// alike, and no place against another.
func GaugeOf(s *measure.Study, step float64) measure.Gauge {
	return measure.Gauge{Deviation: math.Sqrt(s.With.Repeat + s.With.Interaction), Freedom: s.Freedom[3], Step: step}
}
