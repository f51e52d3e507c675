package app

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// endangers refuses a decision that leaves a piece in use against a defect that its own
// report names. What is a danger to people now, or was to become one by a day that has
// come, is decided set aside or withdraw. Any other defect is at most kept with a look
// sooner; where the report says by which date it could become a danger, the latest date
// for the next examination is not after it: of a month the first day of the danger
// counts, and the last one of the examination. r is the record that is decided on.
func (d *Decision) endangers(r *kit.Record, today qty.Day) error {
	if d.Verdict >= kit.SetAside {
		return nil
	}
	latest := d.Latest
	for i := range r.Examinations {
		if e := &r.Examinations[i]; e.Ref == d.Examination && e.Ref != "" && !latest.Known() {
			latest = e.Latest
		}
	}
	for _, x := range d.Report.Defects() {
		by, err := qty.ParseDate(x.DangerBy)
		dated := err == nil && by.Known() // it may also say for what the time is, as "when it is 1 mm deep"
		switch {
		case x.Immediate:
			return fail(Refused, "The defect “%s” is a danger to people now: “%s” would leave the piece in use. Decide set aside or withdraw.", x.Defect, d.Verdict)
		case dated && by.Earliest() <= today:
			return fail(Refused, "The defect “%s” could become a danger by %s, and that day has come: “%s” would leave the piece in use. Decide set aside or withdraw.", x.Defect, by.Words(), d.Verdict)
		case d.Verdict < kit.KeepSooner:
			return fail(Refused, "The defect “%s” is or could become a danger, so the piece is not simply kept: decide at most “%s”.", x.Defect, kit.KeepSooner)
		case dated && !latest.Known():
			return fail(Invalid, "The defect “%s” could become a danger by %s: say the latest date for the next examination, not after that.", x.Defect, by.Words())
		case dated && latest.Latest() > by.Earliest():
			return fail(Invalid, "The defect “%s” could become a danger by %s, and the latest date for the next examination, %s, is after that: set it to that day at the latest, or decide set aside or withdraw.",
				x.Defect, by.Words(), latest.Words())
		}
	}
	return nil
}
