package paper

import (
	"strings"
	"testing"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

func mm(n int64) qty.Length { return qty.Length(n) * qty.Millimetre }

// TestPlacesOfTheirDay: a paper says each place as it lay on the day it speaks of.
// A sign seen at 600 mm of a bridge of 900 mm lies, from end A, at 290 mm after it
// was turned, and at 500 mm after 100 mm were cut off there: worked out by hand.
func TestPlacesOfTheirDay(t *testing.T) {
	for _, c := range []struct {
		change kit.Change
		at     string
		long   string
	}{
		{kit.Change{What: "re-tied end A"}, "from 600 mm to 610 mm from end A; 290 mm from end B", "900 mm"},
		{kit.Change{What: "re-tied end B"}, "from 600 mm to 610 mm from end A; 290 mm from end B", "900 mm"},
		{kit.Change{What: "zones"}, "from 600 mm to 610 mm from end A; 290 mm from end B", "900 mm"},
		{kit.Change{What: kit.CutA, Length: mm(100)}, "from 500 mm to 510 mm from end A; 290 mm from end B", "800 mm"},
		{kit.Change{What: kit.CutB, Length: mm(100)}, "from 600 mm to 610 mm from end A; 190 mm from end B", "800 mm"},
		{kit.Change{What: kit.Turned}, "from 290 mm to 300 mm from end A", "900 mm"},
	} {
		seen := func() *Facts {
			f := facts(t)
			f.Record.Examinations[0].Signs = []kit.Sign{{Ref: "soft-9", Sign: "soft-place", State: kit.FirstSeen, By: "maud", At: kit.Place{From: mm(600), To: mm(610)}}}
			f.Exam.Signs = []kit.Sign{{Ref: "soft-9", State: kit.Same, By: "maud"}}
			f.Exam.Readings = nil
			f.Decision.Report.Defect = ""
			return f
		}
		c.change.By = "maud"
		before := seen()
		c.change.Day = before.Exam.Day - 1
		before.Record.Changes = []kit.Change{c.change}
		has := func(name string, d *Doc, heading, what string, want bool) {
			t.Helper()
			for _, s := range d.Sections {
				if !strings.HasPrefix(s.Heading, heading) {
					continue
				}
				for _, row := range s.Table {
					for _, cell := range row {
						if strings.HasSuffix(cell, what) || strings.Contains(cell, what+". ") || strings.Contains(cell, what+"; ") {
							if !want {
								t.Errorf("%s, %s: says %q", name, c.change.What, cell)
							}
							return
						}
					}
				}
				if want {
					t.Errorf("%s, %s: no %q in %v", name, c.change.What, what, s.Table)
				}
				return
			}
			t.Errorf("%s: no section %s", name, heading)
		}
		d := Examination(before)
		has("before it", d, "Findings by place", c.at, true)
		if s := strings.Join(particulars(d), "\n"); !strings.Contains(s, "Length as measured\n"+c.long) {
			t.Errorf("%s: the length is not %s", c.change.What, c.long)
		}
		// Between the examination and the decision: the report stays with what was seen.
		after := seen()
		c.change.Day = after.Exam.Day + 1
		after.Record.Changes, after.Record.AsOf = []kit.Change{c.change}, after.Exam.Day+2
		has("after it", Examination(after), "Findings by place", "from 600 mm to 610 mm from end A; 290 mm from end B", true)
		// After the decision: what is seen then lies where it lies then.
		since := seen()
		c.change.Day = since.Exam.Day + 5
		since.Changes = []kit.Change{c.change}
		line := func(day qty.Day, sign kit.Sign) fold.Line {
			e := kit.Examination{Kind: kit.Interim, Day: day, By: "maud", Signs: []kit.Sign{sign}}
			return fold.Line{Kind: entry.Examination, Version: 1, Day: day, Author: "maud", Body: fold.Encode(&e)}
		}
		cut := kit.Sign{Ref: "cut-9", Sign: "cut", State: kit.FirstSeen, By: "maud", At: kit.Place{From: mm(600), To: mm(610)}}
		since.Since = []fold.Line{line(c.change.Day-1, cut), line(c.change.Day+1, kit.Sign{Ref: "soft-9", State: kit.Grown, By: "maud"}), line(c.change.Day+1, kit.Sign{Ref: "cut-9", State: kit.Grown, By: "maud"})}
		told := since.AfterReport()
		if len(told) != 3 || !strings.Contains(told[0], "from 600 mm to 610 mm from end A; 290 mm from end B") || !strings.Contains(told[1], c.at) || !strings.Contains(told[2], c.at) {
			t.Errorf("%s: told since: %q, want %q", c.change.What, told, c.at)
		}
		has("since", Examination(since), "Findings by place", "from 600 mm to 610 mm from end A; 290 mm from end B", true)
		// The card tells each line as of its own day.
		card := seen()
		c.change.Day = card.Exam.Day + 5
		card.Record.Changes, card.Record.AsOf = []kit.Change{c.change}, card.Exam.Day+10
		lines := []fold.Line{line(c.change.Day-1, cut), line(c.change.Day+1, kit.Sign{Ref: "cut-9", State: kit.Grown, By: "maud"})}
		table := Card(&CardFacts{Facts: *card, Lines: lines}).Sections
		has("card", &Doc{Sections: table}, "Examinations, repairs", c.at, true)
		has("card", &Doc{Sections: table}, "Examinations, repairs", "from 600 mm to 610 mm from end A; 290 mm from end B", true)
	}
}
