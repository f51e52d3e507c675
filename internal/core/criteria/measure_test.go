package criteria_test

import (
	"slices"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// TestReadings holds the rule of comparison (W-07: with the piece's own first
// record, never the label; W-06: dry with dry; M-38, assumed: 6 % under is out
// of range; label_far, assumed: 15 % off the nominal 12 mm is a question): what
// is out of range, what may speak for soundness, and against what.
func TestReadings(t *testing.T) {
	type reading struct {
		on    string
		at    kit.Place
		value int
		wet   kit.Yes
	}
	const before = "2025-12-01"
	dry, wet, unsaid := kit.SaidNo, kit.SaidYes, kit.NotSaid
	end := kit.Place{Part: "end A"}
	cases := []struct {
		name  string
		all   []reading // the last is judged
		out   bool
		says  bool
		base  int
		label int
	}{
		{"alone", []reading{{today, at(0, 50), 12000, dry}}, false, false, 0, 0},
		{"another place of the day", []reading{{today, at(300, 350), 12100, dry}, {today, at(0, 50), 12000, dry}}, false, true, 12100, 0},
		{"the same place twice is no other", []reading{{today, at(0, 50), 12100, dry}, {today, at(0, 50), 12000, dry}}, false, false, 12100, 0},
		{"two places of the day, one thin: the middle is not drawn to it", []reading{{today, at(300, 350), 12600, dry}, {today, at(0, 50), 11700, dry}}, true, false, 12600, 0},
		{"its own place before", []reading{{before, at(0, 50), 12100, dry}, {today, at(0, 50), 12000, dry}}, false, true, 12100, 0},
		{"another place before", []reading{{before, at(300, 350), 12100, dry}, {today, at(0, 50), 12000, dry}}, false, true, 12100, 0},
		{"a part has no other place", []reading{{before, at(300, 350), 12100, dry}, {today, end, 12000, dry}}, false, false, 0, 0},
		{"a part before", []reading{{before, end, 12100, dry}, {today, end, 12000, dry}}, false, true, 12100, 0},
		{"itself wet", []reading{{before, at(0, 50), 12100, dry}, {today, at(0, 50), 12000, wet}}, false, false, 12100, 0},
		{"not said to be dry", []reading{{before, at(0, 50), 12100, dry}, {today, at(0, 50), 12000, unsaid}}, false, false, 12100, 0},
		{"the first one wet: no base that speaks for it", []reading{{before, at(0, 50), 12100, wet}, {today, at(0, 50), 12000, dry}}, false, false, 12100, 0},
		{"the first one wet: still out of range against it", []reading{{before, at(0, 50), 12100, wet}, {today, at(0, 50), 11374, dry}}, true, false, 12100, 0},
		{"6 % exactly", []reading{{before, at(0, 50), 12000, dry}, {today, at(0, 50), 11280, dry}}, true, false, 12000, 0},
		{"a micrometre short of it", []reading{{before, at(0, 50), 12000, dry}, {today, at(0, 50), 11281, dry}}, false, true, 12000, 0},
		{"thin from the first: no better for being the same", []reading{{before, at(0, 50), 12000, dry}, {before, at(300, 350), 12000, dry}, {before, at(600, 650), 11200, dry},
			{today, at(600, 650), 11200, dry}}, true, false, 12000, 0},
		{"the base that tells most", []reading{{before, at(0, 50), 12000, dry}, {before, at(300, 350), 12400, dry}, {before, at(600, 650), 12400, dry},
			{today, at(0, 50), 12000, dry}}, false, true, 12400, 0},
		{"15 % off the label exactly", []reading{{before, at(0, 50), 10200, dry}, {today, at(0, 50), 10200, dry}}, false, false, 10200, 12000},
		{"not so far off it", []reading{{before, at(0, 50), 10201, dry}, {today, at(0, 50), 10201, dry}}, false, true, 10201, 12000},
		{"thicker than the label", []reading{{before, at(0, 50), 13800, dry}, {today, at(0, 50), 13800, dry}}, false, false, 13800, 12000},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tb := small()
			r := good(tb, kit.Line)
			r.Piece.Diameter = qty.Length(c.label)
			r.Examinations = []kit.Examination{exam(tb, kit.Line, kit.Thorough, before), exam(tb, kit.Line, kit.Thorough, today)}
			for _, x := range c.all {
				e := &r.Examinations[0]
				if x.on == today {
					e = &r.Examinations[1]
				}
				measure(e, "diameter", x.at, x.value)
				e.Readings[len(e.Readings)-1].Wet = x.wet
			}
			all := criteria.Readings(tb, r)
			if len(all) != len(c.all) {
				t.Fatalf("%d readings of %d", len(all), len(c.all))
			}
			m := all[len(all)-1]
			if m.Out != c.out || m.Speaks != c.says || m.Base != qty.Length(c.base) {
				t.Errorf("out of range %v, speaks %v, base %v; want %v, %v, %v", m.Out, m.Speaks, m.Base, c.out, c.says, qty.Length(c.base))
			}
		})
	}
}

// TestLabel holds that a diameter far from the nominal one is asked about until
// a competent person has answered, and that nothing else answers it.
func TestLabel(t *testing.T) {
	tb := small()
	r := good(tb, kit.Line)
	r.Piece.Diameter = 12600
	measure(last(r), "diameter", at(0, 50), 8000)
	res := criteria.Judge(tb, r)
	if x := find(res, "reading.far-from-label", "R-03"); x == nil || x.Verdict != kit.SetAside || x.Question != criteria.QMeasure || !hasLine(x.Lines, "W-07") {
		t.Fatalf("8 mm where 12.6 mm is nominal: %v", told(res))
	}
	r.Answers = []kit.Answer{{Day: day(today), To: "diameter", By: "cp", Document: "maker's sheet", Verified: "matched"}}
	if res = criteria.Judge(tb, r); find(res, "reading.far-from-label", "") != nil {
		t.Errorf("answered: %v", told(res))
	}
	r.Answers[0].Unfit = true
	if res = criteria.Judge(tb, r); res.Verdict() != kit.Withdraw || find(res, "reading.far-from-label", "") == nil {
		t.Errorf("found unfit: %v", told(res))
	}
}

// TestGaugeNeedsReadings holds row 4 (M-24) for the gauge: it has gone only
// where a reading is on record, in each of three equal stretches of 900 mm.
func TestGaugeNeedsReadings(t *testing.T) {
	whole := []kit.Stretch{{All: true}}
	cases := []struct {
		name   string
		covers []kit.Stretch
		at     []int
		want   []string
	}{
		{"one in each", whole, []int{150, 450, 750}, nil},
		{"at the edges", whole, []int{0, 300, 900}, nil},
		{"an edge belongs to one stretch", whole, []int{300, 600}, []string{"look.not-measured from=0 mm to=300 mm"}},
		{"none at all", whole, nil, []string{"look.not-measured from=0 mm to=900 mm"}},
		{"not in the middle", whole, []int{150, 750}, []string{"look.not-measured from=300 mm to=600 mm"}},
		{"one only", whole, []int{450}, []string{"look.not-measured from=0 mm to=300 mm", "look.not-measured from=600 mm to=900 mm"}},
		{"only where the gauge went", []kit.Stretch{along(0, 500)}, []int{150, 450, 750}, []string{"look.not-measured from=600 mm to=900 mm"}},
		{"said stretch by stretch", []kit.Stretch{along(100, 200), along(400, 500), along(700, 800)}, []int{150, 450, 750}, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tb := small()
			k := tb.Kind(kit.Bridge)
			k.Needs = append(append([]table.Need{}, k.Needs...), table.Need{Exam: kit.Thorough, Look: kit.Gauge, Places: 3, Cite: cite(table.Assumed, "K-BR-look")})
			r := good(tb, kit.Bridge)
			replace(r, kit.Gauge, went(kit.Gauge, c.covers...))
			for _, mm := range c.at {
				measure(last(r), "diameter", at(mm, mm), 12000)
			}
			if got := gaps(criteria.Judge(tb, r)); !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}
