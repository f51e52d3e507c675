package criteria

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// point is a reading on a day after the first one of its place, turned so that
// wear always makes it larger, in micrometres.
type point struct {
	day   int64
	value int64
}

// growth enters wear of metal (a quantity that the tables mark as growing) that
// was measured twice or more at one place, is short of its limit and grows
// (row 6a, R-07): kept until the day on which a line through its readings, as
// steep as the upper 80 % limit of the slope, meets the limit; set aside from that
// day on until measured again. Of several limits the one reached first counts.
func (j *judge) growth(all []measured) {
	used := make([]bool, len(all))
	for i := range all {
		if used[i] || !all[i].q.Grows {
			continue
		}
		place := []int{}
		for k := range all {
			if a, b := all[k].at, all[i].at; all[k].q == all[i].q && samePlace(a, b) {
				used[k] = used[k] || a.Part == b.Part && a.From == b.From && a.To == b.To // meets the same readings
				place = append(place, k)
			}
		}
		if len(place) > 1 {
			j.grows(all, place)
		}
	}
}

// grows judges the readings of one place, the earliest first. Of several on one
// day it does not matter which was written first: the line goes on from the
// worst of the last day, and a share is taken of each of the first.
func (j *judge) grows(all []measured, place []int) {
	first, last := &all[place[0]], &all[place[len(place)-1]]
	best, soonest := (*table.Limit)(nil), int64(0)
	limit := int64(0)
	for l := range first.q.Limits {
		lim := &first.q.Limits[l]
		if lim.Verdict < kit.SetAside {
			continue
		}
		var pts []point
		worst := qty.Length(0)
		for _, k := range place {
			m := &all[k]
			v := m.high
			if lim.Below {
				v = -m.low
			}
			pts = append(pts, point{int64(m.day - first.day), v})
			worst = max(worst, m.err)
		}
		slices.SortFunc(pts, func(a, b point) int { return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.value, b.value)) })
		for _, k := range place {
			if all[k].day != first.day {
				break
			}
			for _, at := range absolute(lim, all[k].first) {
				turned := at
				if lim.Below {
					turned = -at
				}
				days, ok := reaches(pts, turned, worst)
				if ok && (best == nil || days < soonest || days == soonest && best == lim && (at > limit) == lim.Below) {
					best, soonest, limit = lim, days, at
				}
			}
		}
	}
	if best != nil {
		j.grown(first, best, limit, last.day, last.day+qty.Day(soonest), len(place))
	}
}

// absolute gives the figures of a limit in micrometres: its own, and the one
// that its share of the first record comes to, rounded toward that record.
func absolute(lim *table.Limit, first ratio) []int64 {
	var out []int64
	if lim.At > 0 {
		out = append(out, int64(lim.At))
	}
	if lim.Share != 0 && first.top > 0 {
		top, bottom := first.top*(1000+lim.Share), first.bottom*1000
		if lim.Below {
			top += bottom - 1
		}
		out = append(out, top/bottom)
	}
	return out
}

func (j *judge) grown(m *measured, lim *table.Limit, limit int64, last, until qty.Day, n int) {
	x := Reason{Row: "6a", Verdict: kit.KeepSooner, ID: lSooner, Key: "wear.grows", Until: until, Words: m.q.Words, Status: lim.Status, At: []kit.Place{m.at},
		Args: append([]Arg{{"quantity", m.q.ID}, {"limit", qty.Length(limit).String()}, {"readings", strconv.Itoa(n)}, {"last", last.String()},
			{"until", until.String()}}, placed(m.at)...)}
	_, x.Lines = cited(lim.Cite, lim.Lines)
	x.Lines = append(x.Lines, lRow6a, lNotUsed)
	if j.r.AsOf >= until {
		x.Row, x.Verdict, x.Key, x.Until, x.Question = "2", kit.SetAside, "wear.date-passed", 0, QMeasure
	}
	j.add(x)
}

// reaches gives in how many whole days after the last reading the wear reaches
// the limit, from readings by day and, within a day, by value; grows is false where it does not grow, has reached the limit
// already, or was measured on one day only.
//
// The line is fitted by least squares. Its slope is taken at the upper 80 %
// limit: the slope plus t(0.80; n − 2) times its standard error. The scatter
// about the line is never taken as less than the standard error of one value
// of the gauge: three readings that happen to lie on a line prove no better
// gauge. With two readings there is no scatter to see, so the gauge's alone is
// taken, at the normal quantile: the slope plus 0.842 · se · √2 / days. From
// the last day on the line runs from the higher of its own value there and the
// last reading. Everything is rounded toward the earlier day.
func reaches(pts []point, limit int64, err qty.Length) (days int64, grows bool) {
	n := int64(len(pts))
	last := pts[n-1]
	var st, sv, stt, stv int64
	for _, p := range pts {
		st += p.day
		sv += p.value
		stt += p.day * p.day
		stv += p.day * p.value
		if p.value >= limit {
			return 0, false
		}
	}
	sxx, sxy := n*stt-st*st, n*stv-st*sv // n times the sums about the mean, exactly
	if sxx <= 0 || sxy <= 0 {
		return 0, false
	}
	slope := float64(sxy) / float64(sxx)
	scatter := float64(err)
	if n > 2 {
		ss := 0.0
		for _, p := range pts {
			r := float64(n*p.value-sv)/float64(n) - float64(slope*(float64(n*p.day-st)/float64(n)))
			ss += float64(r * r)
		}
		scatter = max(scatter, math.Sqrt(ss/float64(n-2)))
	}
	se := scatter / math.Sqrt(float64(sxx)/float64(n))
	upper := slope + float64(quantile80(int(n-2))*se)
	mean := float64(sv) / float64(n)
	start := mean + float64(upper*(float64(last.day)-float64(st)/float64(n)))
	start = max(start, float64(last.value))
	left := (float64(limit) - start) / upper
	if left <= 0 {
		return 0, true
	}
	return int64(math.Floor(min(left-1e-9, 1e6))), true
}

// quantile80 gives Student's t at 0.80 (one-sided) for a number of degrees of
// freedom, rounded up in the third decimal; 0 degrees stands for two readings
// with a known gauge, the normal quantile. Source: the usual printed tables
// (from memory); the tests compare them with an independent computation.
func quantile80(df int) float64 {
	t := [...]float64{0.842, 1.377, 1.061, 0.979, 0.941, 0.920, 0.906, 0.897, 0.889, 0.884, 0.880, 0.876, 0.873, 0.871, 0.869, 0.867,
		0.865, 0.864, 0.863, 0.861, 0.860}
	if df < len(t) {
		return t[df]
	}
	return t[len(t)-1]
}
