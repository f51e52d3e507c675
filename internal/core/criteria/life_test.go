package criteria_test

import (
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// TestLife holds the earliest of all rules (L-10, PROPOSED), dates known in part
// (L-11, PROPOSED: the earliest day they can be), what stands in for first use
// (L-11) and the maker's figures (M-01, common practice). Sums by hand.
func TestLife(t *testing.T) {
	cases := []struct {
		name string
		kind kit.KindID
		set  func(*kit.Record)
		want string // "" where no rule sets a day
		line string
		from string
	}{
		{"bridge, five years from first use", kit.Bridge, func(r *kit.Record) {}, "2030-04-01", "M-01", "first use"},
		{"bridge, eight years from manufacture come first", kit.Bridge, func(r *kit.Record) { r.Piece.Made = date("2021-05-01") }, "2029-05-01", "M-01", "made"},
		{"first use known to the year", kit.Bridge, func(r *kit.Record) { r.Piece.FirstUse = date("2025") }, "2030-01-01", "M-01", "first use"},
		{"first use known to the month", kit.Bridge, func(r *kit.Record) { r.Piece.FirstUse = date("2025-04") }, "2030-04-01", "M-01", "first use"},
		{"first use unknown: purchase", kit.Bridge, func(r *kit.Record) { r.Piece.FirstUse = qty.PartialDate{} }, "2030-02-20", "M-01", "bought"},
		{"purchase unknown too: manufacture", kit.Bridge, func(r *kit.Record) {
			r.Piece.FirstUse, r.Piece.Bought = qty.PartialDate{}, qty.PartialDate{}
		}, "2030-01-10", "M-01", "made"},
		{"bought from others, first use unknown: manufacture", kit.Bridge, func(r *kit.Record) {
			r.Piece.FirstUse, r.Piece.Origin = qty.PartialDate{}, "other yard"
		}, "2030-01-10", "M-01", "made"},
		{"month end: 29 Feb and five years", kit.Bridge, func(r *kit.Record) { r.Piece.FirstUse = date("2024-02-29") }, "2029-02-28", "M-01", "first use"},
		{"month end: 31 Aug and 12 months of a hitch cord", kit.HitchCord, func(r *kit.Record) { r.Piece.FirstUse = date("2025-08-31") }, "2026-08-31", "L-08", "first use"},
		{"maker's shorter figure", kit.Bridge, func(r *kit.Record) { r.Piece.MakerFromUse = 36 }, "2028-04-01", "R-06", "first use"},
		{"maker's month end: 31 Aug and 18 months", kit.Bridge, func(r *kit.Record) {
			r.Piece.MakerFromUse, r.Piece.FirstUse = 18, date("2025-08-31")
		}, "2027-02-28", "R-06", "first use"},
		{"maker's longer figure without its document", kit.Harness, func(r *kit.Record) { r.Piece.MakerFromMade = 144 }, "2030-04-01", "L-06", "first use"},
		{"maker's longer figure with its document", kit.Harness, func(r *kit.Record) {
			r.Piece.MakerFromMade, r.Piece.MakerDocument = 144, "booklet"
		}, "2037-01-10", "R-06", "made"},
		{"a longer figure from first use leaves the row from manufacture", kit.Harness, func(r *kit.Record) {
			r.Piece.MakerFromUse, r.Piece.MakerDocument = 240, "booklet"
		}, "2035-01-10", "L-06", "made"},
		{"a country's rule stays whatever the maker says", kit.Harness, func(r *kit.Record) {
			r.Yard.Country, r.Piece.MakerFromMade, r.Piece.MakerDocument = "DE", 144, "booklet"
		}, "2031-01-10", "L-03", "made"},
		{"law unknown: the strictest of all countries", kit.Harness, func(r *kit.Record) {
			r.Yard.Country, r.Piece.MakerFromMade, r.Piece.MakerDocument = "FR", 144, "booklet"
		}, "2031-01-10", "L-03", "made"},
		{"a fibre's rule", kit.Sling, func(r *kit.Record) { r.Piece.Layers = []kit.Layer{{Fibre: "hmpe"}} }, "2029-04-01", "E-53", "first use"},
		{"a fibre that is not the piece's", kit.Sling, func(r *kit.Record) { r.Piece.Layers = []kit.Layer{{Fibre: "pa"}} }, "2030-04-01", "L-06", "first use"},
		{"fibre unknown: its rule counts", kit.Sling, func(r *kit.Record) { r.Piece.Layers = nil }, "2029-04-01", "E-53", "first use"},
		{"marked end", kit.Bridge, func(r *kit.Record) { r.Piece.Obsolete = date("2027-03") }, "2027-03-01", "R-06", "marked"},
		{"metal has no limit by the calendar", kit.Connector, func(r *kit.Record) {}, "", "L-09", ""},
		{"manufacture unknown leaves the rule from first use", kit.Bridge, func(r *kit.Record) { r.Piece.Made = qty.PartialDate{} }, "2030-04-01", "M-01", "first use"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tb := small()
			r := good(tb, c.kind)
			c.set(r)
			d := criteria.Life(tb, r)
			if d.Known != (c.want != "") || c.want != "" && d.Day.String() != c.want {
				t.Fatalf("ends %v (known %v), want %q: %+v", d.Day, d.Known, c.want, d.Others)
			}
			if d.Line != c.line {
				t.Errorf("by %s, want %s", d.Line, c.line)
			}
			if c.from != "" && (len(d.Args) == 0 || d.Args[0] != criteria.Arg{Name: "from", Value: c.from}) {
				t.Errorf("counted from %v, want %s", d.Args, c.from)
			}
			for _, o := range d.Others {
				if o.Counts && o.Known && o.Day < d.Day {
					t.Errorf("%s ends earlier: %v", o.Line, o.Day)
				}
			}
		})
	}
}

// TestLifeEdge holds that the day of the end is past the end, and that
// the day before is not.
func TestLifeEdge(t *testing.T) {
	tb := small()
	r := good(tb, kit.Connector)
	r.Piece.Obsolete = date("2026-06-02")
	if res := criteria.Judge(tb, r); res.Verdict() != kit.Keep {
		t.Errorf("the day before: %v", told(res))
	}
	r.Piece.Obsolete = date("2026-06-01")
	if res := criteria.Judge(tb, r); res.Verdict() != kit.Withdraw || !res.LifeEnd.Known {
		t.Errorf("on the day: %v", told(res))
	}
}

// TestStorage holds that the allowance in store is asked only of what has not
// been used: made 3 years before 1 June 2026 is within it, a day earlier not.
func TestStorage(t *testing.T) {
	tb := small()
	cases := []struct {
		made, use string
		runs      []kit.Run
		want      kit.Verdict
	}{
		{"2023-06-01", today, nil, kit.Keep},
		{"2023-05-31", today, nil, kit.SetAside},
		{"2023-05-31", "2026-05-31", nil, kit.Keep},
		{"2023-05-31", "2026", nil, kit.SetAside}, // could be today
		{"2023-05-31", "unknown", nil, kit.SetAside},
		{"2023-05-31", "unknown", []kit.Run{{From: day("2026-03-02"), To: day("2026-05-29")}}, kit.Keep},
	}
	for _, c := range cases {
		r := good(tb, kit.Bridge)
		r.Piece.Made, r.Piece.Bought, r.Piece.FirstUse, r.Runs = date(c.made), date("2023-07-01"), date(c.use), c.runs
		if res := criteria.Judge(tb, r); res.Verdict() != c.want {
			t.Errorf("made %s, first used %s: %v, want %v: %v", c.made, c.use, res.Verdict(), c.want, told(res))
		}
	}
}

// TestStandingOfLife holds that a day worked out from an assumed row is marked
// as leaning on it.
func TestStandingOfLife(t *testing.T) {
	tb := small()
	r := good(tb, kit.HitchCord)
	if d := criteria.Life(tb, r); d.Status != table.Assumed {
		t.Errorf("a hitch cord's life stands as %q", d.Status)
	}
	if x := find(criteria.Judge(tb, r), "life.ended", ""); x == nil || x.Status != table.Assumed || !hasLine(x.Lines, "L-08") {
		t.Errorf("the reason does not carry its row: %+v", x)
	}
}

func hasLine(lines []string, id string) bool {
	for _, l := range lines {
		if l == id {
			return true
		}
	}
	return false
}
