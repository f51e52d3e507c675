package app

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
)

// Lacks gives which reasons of an outcome say what an interim or thorough examination
// still lacks to count as one, by their place among the outcome's reasons: a look that was
// not made or not everywhere, a question without an answer, who has to make or sign it
// (row 4). None means that it counts.
func Lacks(o *decide.Outcome, e *kit.Examination) []int {
	if e.Kind != kit.Interim && e.Kind != kit.Thorough {
		return nil
	}
	var out []int
	for i := range o.Reasons {
		x := &o.Reasons[i]
		exam, day := "", ""
		for _, a := range x.Args {
			switch a.Name {
			case "exam":
				exam = a.Value
			case "day":
				day = a.Value
			}
		}
		if x.Row == "4" && exam == string(e.Kind) && day == e.Day.String() {
			out = append(out, i)
		}
	}
	return out
}
