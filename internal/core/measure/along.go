package measure

import (
	"math"
	"strconv"

	"kernbook/internal/core/num"
)

// Station is one place of a rope with what was read there, now and at the first
// record. A station where either is missing is left out of sums and said to be.
type Station struct {
	At   float64   // from the named end
	Base []float64 // readings of the first record
	Now  []float64 // readings of today
}

// Gauge says how well one reading repeats.
type Gauge struct {
	Deviation float64 // standard deviation of one reading
	Freedom   float64 // degrees of freedom it was estimated with; 0 for known
	Step      float64 // readings are rounded to this; 0 for not rounded
}

// one gives the standard deviation of one reading, its rounding in it: a reading
// rounded to r has r²/12 more of variance.
func (g Gauge) one() float64 {
	return math.Sqrt(float64(g.Deviation*g.Deviation) + float64(g.Step*g.Step)/12)
}

func (g Gauge) check() error {
	switch {
	case !finite(g.Deviation) || !(g.Deviation > 0):
		return bad("the gauge's standard deviation", "must be more than nought", "give it in the unit of the readings, or make a study of it")
	case !finite(g.Freedom) || g.Freedom < 0:
		return bad("the gauge's degrees of freedom", "cannot be negative", "give 0 for a deviation that is known")
	case !finite(g.Step) || g.Step < 0:
		return bad("the step of the gauge", "cannot be negative", "give 0 for readings that are not rounded")
	}
	return nil
}

// Difference is what a station tells of change.
type Difference struct {
	Station int     // which of the stations given
	At      float64 // from the named end
	D       float64 // mean now minus mean before
	Error   float64 // standard error of that
	Z       float64 // D over its error: standard normal where nothing changed
	// Slips are the readings, of Base and then of Now, that lie further from their
	// station's median than four errors. They stay in the mean, and are shown.
	Slips []float64
}

// slipErrors is how far a reading lies from the median of its station, in standard
// deviations, to be shown as a slip of the gauge (chosen: of 360 readings of a clean
// rope, one in fifty ropes shows one).
const slipErrors = 4

// Differences gives one difference for each station that has both readings, in the
// order of their places, which must rise, and how many stations have not.
func Differences(stations []Station, g Gauge) (out []Difference, missing int, err error) {
	if err := g.check(); err != nil {
		return nil, 0, err
	}
	s := g.one()
	last := math.Inf(-1)
	for i := range stations {
		st := &stations[i]
		where := "station " + strconv.Itoa(i+1)
		if !finite(st.At) || st.At <= last {
			return nil, 0, bad(where, "does not lie beyond the one before", "give the stations in the order of their places, each place once")
		}
		last = st.At
		for _, set := range [2][]float64{st.Base, st.Now} {
			for _, v := range set {
				if !finite(v) || !(v > 0) {
					return nil, 0, bad(where, "has a reading that is no length", "leave a reading that was not taken out")
				}
			}
		}
		if len(st.Base) == 0 || len(st.Now) == 0 {
			missing++
			continue
		}
		d := Difference{Station: i, At: st.At, D: Mean(st.Now) - Mean(st.Base)}
		d.Error = float64(s * math.Sqrt(1/float64(len(st.Base))+1/float64(len(st.Now))))
		d.Z = d.D / d.Error
		for _, set := range [2][]float64{st.Base, st.Now} {
			if len(set) < 3 {
				continue
			}
			m := Median(set)
			for _, v := range set {
				if math.Abs(v-m) > float64(slipErrors*s) {
					d.Slips = append(d.Slips, v)
				}
			}
		}
		out = append(out, d)
	}
	return out, missing, nil
}

// Overall is what the whole rope did: its level, which wear everywhere and bedding in
// move, apart from any one place.
type Overall struct {
	Mean   float64 // of the differences
	Error  float64 // standard error of that
	Median float64
	Trend  float64 // per unit of length along the rope; NaN where it cannot be told
	Lag    float64 // correlation of what is left with its neighbour: near 0 for a clean gauge
}

// Whole gives the overall change. Differences must not be empty.
func Whole(d []Difference) Overall {
	at, v := make([]float64, len(d)), make([]float64, len(d))
	e := 0.0
	for i := range d {
		at[i], v[i] = d[i].At, d[i].D
		e += float64(d[i].Error * d[i].Error)
	}
	n := float64(len(d))
	o := Overall{Mean: Mean(v), Error: math.Sqrt(e) / n, Median: Median(v), Trend: Trend(at, v)}
	over, under := 0.0, 0.0
	for i := range v {
		under += float64((v[i] - o.Mean) * (v[i] - o.Mean))
		if i > 0 {
			over += float64((v[i] - o.Mean) * (v[i-1] - o.Mean))
		}
	}
	if under > 0 {
		o.Lag = over / under
	}
	return o
}

// Pairs is left held against right, or any readings taken in pairs.
type Pairs struct {
	N               int
	Mean, Deviation float64 // of second minus first
	T, P            float64 // Student's t and its chance, either side, of a difference this large
	Low, High       float64 // 95 % limits of the mean
	Margin          float64 // set in advance: less than this counts as equal
	PEqual          float64 // chance of looking this equal when it differs by the margin (two one-sided tests)
	Z               float64 // mean over its error by the gauge; 0 where none was given
	LowOne, HighOne float64 // 95 % limits of single differences (Bland and Altman, from memory)
}

// Paired compares two sides. “No difference found” is not “equal”: for that a margin
// has to be set in advance.
func Paired(first, second []float64, margin float64, gauge float64) (Pairs, error) {
	switch {
	case len(first) != len(second):
		return Pairs{}, bad("the two sides", "have not the same number of readings", "give one reading of each side for each place")
	case len(first) < 3:
		return Pairs{}, bad("the two sides", "have fewer than three pairs", "measure at three places or more")
	case !(margin > 0):
		return Pairs{}, bad("the margin", "must be more than nought", "say in advance what counts as equal")
	}
	d := make([]float64, len(first))
	for i := range d {
		if d[i] = second[i] - first[i]; !finite(d[i]) {
			return Pairs{}, bad("pair "+strconv.Itoa(i+1), "has a reading that is no number", "leave the pair out")
		}
	}
	n := float64(len(d))
	p := Pairs{N: len(d), Mean: Mean(d), Deviation: Deviation(d), Margin: margin}
	e := p.Deviation / math.Sqrt(n)
	if e == 0 {
		return Pairs{}, bad("the two sides", "differ by the same everywhere", "use a gauge that reads finer")
	}
	f := n - 1
	p.T = p.Mean / e
	p.P = float64(2 * num.StudentTail(math.Abs(p.T), f))
	t := num.StudentQuantile(0.025, f)
	p.Low, p.High = p.Mean-float64(t*e), p.Mean+float64(t*e)
	p.PEqual = max(num.StudentTail((p.Mean+margin)/e, f), num.StudentTail((margin-p.Mean)/e, f))
	p.LowOne, p.HighOne = p.Mean-float64(1.96*p.Deviation), p.Mean+float64(1.96*p.Deviation)
	if gauge > 0 {
		p.Z = p.Mean / float64(gauge*math.Sqrt(2/n))
	}
	return p, nil
}
