package measure

import (
	"math"
	"slices"
	"strconv"

	"kernbook/internal/core/num"
)

// Form is the question a scan asks of each stretch.
type Form int

// The forms.
const (
	// Contrast: is this stretch different from the rest of the rope? A loss that is
	// the same everywhere does not alarm it.
	Contrast Form = iota
	// Change: has this stretch changed at all? Wear along the whole rope alarms it
	// everywhere.
	Change
)

// Side is the way of change that counts.
type Side int

// The sides.
const (
	Thinner Side = iota // local loss
	Either              // loss or swelling, as where the core has slipped
)

// Window is a stretch of stations with the statistic of a scan.
type Window struct {
	First, Count int
	Value        float64
}

// windows calls see with each stretch of 1 to widest neighbouring stations and its
// statistic, larger for thinner (or for either, its size).
//
// Change: sum z / √w. Contrast: (mean inside - mean outside) / √(1/w + 1/(n-w)).
func windows(z []float64, widest int, form Form, side Side, sums []float64, see func(first, count int, value float64)) {
	n := len(z)
	sums = sums[:0]
	sums = append(sums, 0)
	total := 0.0
	for _, v := range z {
		total += v
		sums = append(sums, total)
	}
	for w := 1; w <= min(widest, n-1); w++ {
		c := float64(w)
		scale := 1 / math.Sqrt(c)
		shift := 0.0
		if form == Contrast {
			// (s/w - (t-s)/(n-w))/√(1/w+1/(n-w)) = (s - t w/n) √(n/(w (n-w))).
			rest := float64(n - w)
			scale = math.Sqrt(float64(n) / float64(c*rest))
			shift = float64(total * (c / float64(n)))
		}
		for i := 0; i+w <= n; i++ {
			v := float64((sums[i+w] - sums[i] - shift) * scale)
			if side == Thinner {
				v = -v
			} else {
				v = math.Abs(v)
			}
			see(i, w, v)
		}
	}
}

// strongest gives the stretch with the largest statistic.
func strongest(z []float64, widest int, form Form, side Side, sums []float64) Window {
	best := Window{Value: math.Inf(-1)}
	windows(z, widest, form, side, sums, func(first, count int, value float64) {
		if value > best.Value {
			best = Window{first, count, value}
		}
	})
	return best
}

// Null is what the strongest stretch of ropes looks like on which nothing changed:
// simulated once for a number of stations and a widest stretch, and kept by whoever
// scans many ropes.
type Null struct {
	n, widest int
	form      Form
	side      Side
	freedom   float64
	sorted    []float64 // the strongest of each simulated rope, rising
}

// Least and most of what a scan takes.
const (
	leastStations = 5
	mostStations  = 2000
)

// NewNull simulates runs clean ropes of n stations, with a stream of numbers fixed
// by seed. freedom is that of the gauge's deviation, 0 for a known one: a deviation
// that was itself estimated is one common divisor.
func NewNull(n, widest int, form Form, side Side, freedom float64, runs int, seed uint64) (*Null, error) {
	switch {
	case n < leastStations || n > mostStations:
		return nil, bad("the scan", "takes "+strconv.Itoa(leastStations)+" to "+strconv.Itoa(mostStations)+" stations, not "+strconv.Itoa(n), "measure at five places or more")
	case widest < 1:
		return nil, bad("the widest stretch", "must be one station or more", "give a number of stations")
	case runs < 99:
		return nil, bad("the simulation", "needs 99 runs or more", "give a larger number")
	}
	u := &Null{n: n, widest: min(widest, n-1), form: form, side: side, freedom: freedom, sorted: make([]float64, runs)}
	s := stream(seed)
	z, sums := make([]float64, n), make([]float64, 0, n+1)
	for r := range runs {
		for i := range z {
			z[i] = s.normal()
		}
		v := strongest(z, u.widest, form, side, sums).Value
		if freedom > 0 {
			v /= math.Sqrt(s.chiSquared(freedom) / freedom)
		}
		u.sorted[r] = v
	}
	slices.Sort(u.sorted)
	return u, nil
}

// P gives the chance that the strongest stretch of a clean rope is at least so
// strong: (1 + how many were)/(1 + runs).
func (u *Null) P(value float64) float64 {
	lo, hi := 0, len(u.sorted) // first that is at least value
	for lo < hi {
		m := (lo + hi) / 2
		if u.sorted[m] < value {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return float64(1+len(u.sorted)-lo) / float64(1+len(u.sorted))
}

// Critical gives what the strongest stretch of a clean rope exceeds with chance
// level, and the 95 % limits that simulating leaves it.
func (u *Null) Critical(level float64) (value, low, high float64) {
	n := float64(len(u.sorted))
	at := func(share float64) float64 {
		x := float64(share * (n - 1))
		k := min(max(int(x), 0), len(u.sorted)-2)
		part := min(max(x-float64(k), 0), 1)
		return u.sorted[k] + float64(part*(u.sorted[k+1]-u.sorted[k]))
	}
	h := float64(1.96 * math.Sqrt(float64(level*(1-level))/n))
	return at(1 - level), at(1 - level - h), at(1 - level + h)
}

// Bonferroni gives a bound that is safe without simulation, 0.2 to 0.3 too high: the
// normal value that one of all stretches exceeds with at most this chance.
func Bonferroni(n, widest int, side Side, level float64) float64 {
	m := 0
	for w := 1; w <= min(widest, n-1); w++ {
		m += n - w + 1
	}
	if side == Either {
		m *= 2
	}
	return num.NormalQuantile(level / float64(m))
}

// Found is a place that a scan flags.
type Found struct {
	Window                  // as indexes of the differences
	From, To        float64 // from the named end: half-way to the neighbours
	P               float64 // chance that a clean rope shows any stretch this strong
	Local           float64 // mean inside minus mean outside: “about”, since the strongest is flattered
	Error           float64 // simple standard error of that
	Inside, Outside float64 // mean change there, and of the rest
	// FirstLow…LastHigh are the limits of where the stretch begins and ends: of all
	// stretches whose statistic is nearly as strong (95 %, chi-squared with two
	// degrees of freedom: by custom, the law is not exact at jumps).
	BeginLow, BeginHigh, EndLow, EndHigh float64
	FewOutside                           bool // fewer than three stations lie outside: the contrast is weak
}

// Scan gives the places where the differences are stronger than a clean rope's at
// the level of error over the whole rope, the strongest first. A place that
// overlaps a stronger one is not told again. best is the strongest stretch, flagged
// or not.
func Scan(d []Difference, u *Null, level float64) (flagged []Found, best Found, err error) {
	switch {
	case len(d) != u.n:
		return nil, Found{}, bad("the scan", "was made for "+strconv.Itoa(u.n)+" stations, and there are "+strconv.Itoa(len(d)), "make a null distribution for this number")
	case !(level > 0 && level < 1):
		return nil, Found{}, bad("the level", "is no share between 0 and 1", "give 5 %")
	}
	z := make([]float64, len(d))
	for i := range d {
		z[i] = d[i].Z
	}
	critical, _, _ := u.Critical(level)
	var all []Window
	windows(z, u.widest, u.form, u.side, nil, func(first, count int, value float64) {
		all = append(all, Window{first, count, value})
	})
	taken := make([]bool, len(d))
	for {
		top := -1
		for i := range all {
			if (top < 0 || all[i].Value > all[top].Value) && !overlaps(taken, all[i]) {
				top = i
			}
		}
		if top < 0 {
			break
		}
		w := all[top]
		if best.Count == 0 {
			best = u.found(d, w, all)
		}
		if w.Value < critical {
			break
		}
		flagged = append(flagged, u.found(d, w, all))
		for i := w.First; i < w.First+w.Count; i++ {
			taken[i] = true
		}
	}
	return flagged, best, nil
}

func overlaps(taken []bool, w Window) bool {
	for i := w.First; i < w.First+w.Count; i++ {
		if taken[i] {
			return true
		}
	}
	return false
}

// found puts a stretch into the units of the readings.
func (u *Null) found(d []Difference, w Window, all []Window) Found {
	f := Found{Window: w, P: u.P(w.Value), FewOutside: len(d)-w.Count < 3}
	var in, out []float64
	vin, vout := 0.0, 0.0
	for i := range d {
		v := float64(d[i].Error * d[i].Error)
		if i >= w.First && i < w.First+w.Count {
			in, vin = append(in, d[i].D), vin+v
		} else {
			out, vout = append(out, d[i].D), vout+v
		}
	}
	f.Inside, f.Outside = Mean(in), Mean(out)
	f.Local = f.Inside - f.Outside
	f.Error = math.Sqrt(vin/float64(len(in)*len(in)) + vout/float64(len(out)*len(out)))
	f.From, f.To = edge(d, w.First), edge(d, w.First+w.Count)
	f.BeginLow, f.BeginHigh, f.EndLow, f.EndHigh = f.From, f.From, f.To, f.To
	const drop = 5.991 // chi-squared of two, 95 % (any table)
	for _, o := range all {
		near := o.Value > 0 && float64(w.Value*w.Value)-float64(o.Value*o.Value) <= drop
		if near && o.First < w.First+w.Count && w.First < o.First+o.Count {
			f.BeginLow, f.BeginHigh = min(f.BeginLow, edge(d, o.First)), max(f.BeginHigh, edge(d, o.First))
			f.EndLow, f.EndHigh = min(f.EndLow, edge(d, o.First+o.Count)), max(f.EndHigh, edge(d, o.First+o.Count))
		}
	}
	return f
}

// edge gives the place half-way between station i-1 and i; before the first and
// behind the last the stations themselves.
func edge(d []Difference, i int) float64 {
	switch {
	case i <= 0:
		return d[0].At
	case i >= len(d):
		return d[len(d)-1].At
	}
	return float64((d[i-1].At + d[i].At) * 0.5)
}

// Findable gives the smallest local loss over count of n stations that a scan with
// this critical value would have flagged with the given power, with so many readings
// before and now at each: (critical + z_power)·s·√(1/before + 1/now)·√(1/w + 1/(n-w)).
func Findable(g Gauge, n, count, before, now int, critical, power float64) (float64, error) {
	switch {
	case g.check() != nil:
		return 0, g.check()
	case count < 1 || count >= n || before < 1 || now < 1:
		return 0, bad("the stretch", "has no station inside or outside, or no readings", "give at least one of each")
	case !(power > 0 && power < 1):
		return 0, bad("the power", "is no share between 0 and 1", "give 80 %")
	}
	s := float64(g.one() * math.Sqrt(1/float64(before)+1/float64(now)))
	w := math.Sqrt(1/float64(count) + 1/float64(n-count))
	return float64(float64((critical+num.NormalQuantile(1-power))*s) * w), nil
}
