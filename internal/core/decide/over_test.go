package decide_test

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
)

// TestOverTheLimit: over the limit, row 6 speaks and not the forecast of row 7;
// it asks for looks only where they would take the doubt under the limit, for a
// cause only where one can be found, else for another piece. Every such case is
// met among the records of the project.
func TestOverTheLimit(t *testing.T) {
	met := map[string]int{}
	for name, r := range onFile(t, "examples", "testdata/corpus") {
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		if o.Doubt == nil {
			continue
		}
		over, sooner := 0, 0
		for i := range o.Reasons {
			x := &o.Reasons[i]
			switch {
			case x.Key == "doubt.sooner":
				sooner++
				continue
			case x.Row != "6":
				continue
			}
			over++
			met[x.Key]++
			asks := map[string]string{"doubt.over": criteria.QLook, "doubt.answers": criteria.QSign, "doubt.stays-over": decide.QReplace, "doubt.use": decide.QUse, "doubt.runs": decide.QRuns, "doubt.all-made": decide.QReplace}
			if x.Question != asks[x.Key] {
				t.Errorf("%s: %s asks for “%s”", name, x.Key, x.Question)
			}
			for _, c := range o.Told.Changes {
				if c.Key == "change.looks" && (c.Verdict < o.Verdict) != (x.Key == "doubt.over") && x.Verdict == o.Verdict {
					t.Errorf("%s: %s, and yet the looks left give %s", name, x.Key, c.Verdict)
				}
			}
		}
		switch isOver := o.Doubt.Millions > o.Doubt.Limit; {
		case isOver != (over == 1):
			t.Errorf("%s: %d of %d millionths and %d reasons of row 6", name, o.Doubt.Millions, o.Doubt.Limit, over)
		case isOver && sooner > 0:
			t.Errorf("%s: over the limit already, and told when it will be", name)
		case !isOver:
			met["sooner"] += sooner
		}
	}
	for _, key := range []string{"doubt.over", "doubt.stays-over", "doubt.all-made", "doubt.runs", "sooner"} {
		if met[key] == 0 {
			t.Errorf("no record meets %s", key)
		}
	}
}
