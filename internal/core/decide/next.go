package decide

import (
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// next works out when the piece must be looked at again: the earliest of the
// forecast, the examination that law or maker sets, the examiner's own date, a
// date of a reason, and the end of its life. Rows 7 and 8.
func (j *judge) next() {
	n := &j.out.Next
	usual := qty.Day(0)
	take := func(d qty.Day, why string) {
		if d != 0 && (!n.Known || d < n.Day) {
			n.Day, n.Known, n.Why = d, true, why
		}
	}
	if j.out.Due.Known {
		take(j.out.Due.Day, "examination")
	}
	if j.out.LifeEnd.Known {
		take(j.out.LifeEnd.Day, "life")
	}
	usual = n.Day
	if !n.Known {
		usual = j.r.AsOf + qty.Day(j.t.Rules.Horizon)
	}
	for i := range j.out.Reasons {
		if r := &j.out.Reasons[i]; r.Verdict == kit.KeepSooner && r.Until != 0 {
			why := "reason"
			if r.Row == "7" {
				why = "half the usual interval"
			}
			take(r.Until, why)
		}
	}
	if j.c == nil || j.out.Doubt == nil || j.ask.Figures {
		return
	}
	horizon := min(usual, j.r.AsOf+qty.Day(j.t.Rules.Horizon))
	with, without, kept := j.c.Forecasts(j.lim, max(horizon, j.r.AsOf+1))
	n.With, n.Without = Date(with), Date(without)
	n.KeptShare, n.KeptLooks = kept.Share, kept.Looks
	n.KeptUp = kept.Share >= float64(j.t.Rules.RunShare)
	f := without
	if n.KeptUp {
		f = with
	}
	if f.Reached {
		if f.Day < usual && j.out.Doubt.Millions <= j.out.Doubt.Limit { // over it already: row 6 speaks
			j.add(criteria.Reason{Row: "7", Verdict: kit.KeepSooner, ID: "M-27", Lines: []string{"M-27"}, Key: "doubt.sooner",
				Args:  []criteria.Arg{{Name: "day", Value: f.Day.String()}, {Name: "hours", Value: f.Hours.String()}, {Name: "usual", Value: usual.String()}, {Name: "kept", Value: yes(n.KeptUp)}, {Name: "unsaid", Value: j.unsaidUse()}},
				Until: f.Day, Status: table.Assumed})
		}
		take(f.Day, "doubt")
	}
	if n.Known {
		n.Hours = j.c.Hours(n.Day)
	}
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
