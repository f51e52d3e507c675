package criteria_test

import (
	"slices"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

func went(look kit.LookID, covers ...kit.Stretch) kit.Look {
	return kit.Look{Look: look, By: "cp", Covers: covers}
}

func along(from, to int, sides ...string) kit.Stretch {
	return kit.Stretch{From: qty.Length(from) * qty.Millimetre, To: qty.Length(to) * qty.Millimetre, Sides: sides}
}

// replace puts other entries in the place of one look of the examination at hand.
func replace(r *kit.Record, look kit.LookID, with ...kit.Look) {
	var out []kit.Look
	for _, l := range last(r).Looks {
		if l.Look != look {
			out = append(out, l)
		}
	}
	last(r).Looks = append(out, with...)
}

// gaps gives the stretches and parts that row 4 names, as text.
func gaps(res criteria.Result) []string {
	var out []string
	for _, x := range res.Reasons {
		if x.Row != "4" {
			continue
		}
		s := x.Key
		for _, a := range x.Args {
			if a.Name != "exam" && a.Name != "day" && a.Name != "look" {
				s += " " + a.Name + "=" + a.Value
			}
		}
		out = append(out, s)
	}
	return out
}

// TestCoverage holds row 4 (M-24, common practice) on a bridge of 900 mm in
// cells of 50 mm with two sides: what was not gone over is named.
func TestCoverage(t *testing.T) {
	whole := kit.Stretch{All: true}
	cases := []struct {
		name  string
		looks []kit.Look
		of    kit.LookID
		want  []string
	}{
		{"all of it", []kit.Look{went(kit.Hand, whole)}, kit.Hand, nil},
		{"all of it in two stretches", []kit.Look{went(kit.Hand, along(0, 400), along(400, 900))}, kit.Hand, nil},
		{"beyond its end", []kit.Look{went(kit.Hand, along(0, 1200))}, kit.Hand, nil},
		{"by two persons, half each", []kit.Look{went(kit.Hand, along(0, 500)), went(kit.Hand, along(450, 900))}, kit.Hand, nil},
		{"each side by its own", []kit.Look{went(kit.Hand, along(0, 900, "top"), along(0, 900, "under"))}, kit.Hand, nil},
		{"200 mm not felt", []kit.Look{went(kit.Hand, along(0, 350), along(550, 900))}, kit.Hand, []string{"look.gap from=350 mm to=550 mm"}},
		{"200 mm not felt underneath", []kit.Look{went(kit.Hand, along(0, 900, "top"), along(0, 350, "under"), along(550, 900))}, kit.Hand,
			[]string{"look.gap from=350 mm to=550 mm sides=under"}},
		{"one side only", []kit.Look{went(kit.Hand, kit.Stretch{All: true, Sides: []string{"top"}})}, kit.Hand, []string{"look.gap from=0 mm to=900 mm sides=under"}},
		{"two stretches", []kit.Look{went(kit.Hand, along(0, 100), along(150, 700))}, kit.Hand,
			[]string{"look.gap from=100 mm to=150 mm", "look.gap from=700 mm to=900 mm"}},
		{"within a cell", []kit.Look{went(kit.Hand, along(0, 110), along(120, 900))}, kit.Hand, []string{"look.gap from=110 mm to=120 mm"}},
		{"it went nowhere", []kit.Look{went(kit.Hand)}, kit.Hand, []string{"look.not-made"}},
		{"a part is no stretch", []kit.Look{went(kit.Hand, kit.Stretch{Part: "end A", To: 900 * qty.Millimetre})}, kit.Hand, []string{"look.gap from=0 mm to=900 mm"}},
		{"one end", []kit.Look{went(kit.Ends, kit.Stretch{Part: "end A"})}, kit.Ends, []string{"look.gap part=end B"}},
		{"both ends", []kit.Look{went(kit.Ends, kit.Stretch{Part: "end A"}, kit.Stretch{Part: "end B"})}, kit.Ends, nil},
		{"one side of an end", []kit.Look{went(kit.Ends, kit.Stretch{Part: "end A"}, kit.Stretch{Part: "end B", Sides: []string{"under"}})}, kit.Ends,
			[]string{"look.gap part=end B sides=top"}},
		{"read is of the piece as a whole", []kit.Look{went(kit.Read)}, kit.Read, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			tb := small()
			r := good(tb, kit.Bridge)
			replace(r, c.of, c.looks...)
			res := criteria.Judge(tb, r)
			if got := gaps(res); !slices.Equal(got, c.want) {
				t.Errorf("got %q, want %q", got, c.want)
			}
			want := kit.Keep
			if len(c.want) > 0 {
				want = kit.SetAside
			}
			if res.Verdict() != want {
				t.Errorf("outcome %v: %v", res.Verdict(), told(res))
			}
		})
	}
}

// TestCoverageShare holds the share of a cell that is needed: a look before use
// needs 0.8 of each cell here, and 40 of 50 mm are exactly that.
func TestCoverageShare(t *testing.T) {
	tb := small()
	for from, want := range map[int][]string{60: nil, 61: {"look.gap from=50 mm to=61 mm"}} {
		r := good(tb, kit.Bridge)
		r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-05-01"), "report"
		r.Examinations = []kit.Examination{exam(tb, kit.Bridge, kit.PreUse, today)}
		replace(r, kit.Eye, went(kit.Eye, along(0, 50), along(from, 900)))
		if got := gaps(criteria.Judge(tb, r)); !slices.Equal(got, want) {
			t.Errorf("seen from %d mm: %q, want %q", from, got, want)
		}
	}
}

// TestCoverageLength holds that a piece whose length is not on record is only
// covered by a look over all of it, and that a last short cell is one.
func TestCoverageLength(t *testing.T) {
	tb := small()
	r := good(tb, kit.Bridge)
	r.Piece.Length = 0
	replace(r, kit.Hand, went(kit.Hand, along(0, 900)))
	if got := gaps(criteria.Judge(tb, r)); !slices.Equal(got, []string{"look.length-unknown"}) {
		t.Errorf("length unknown: %q", got)
	}
	replace(r, kit.Hand, went(kit.Hand, kit.Stretch{All: true}))
	if got := gaps(criteria.Judge(tb, r)); got != nil {
		t.Errorf("length unknown, all gone over: %q", got)
	}
	r.Piece.Length = 920 * qty.Millimetre
	replace(r, kit.Hand, went(kit.Hand, along(0, 900)))
	if got := gaps(criteria.Judge(tb, r)); !slices.Equal(got, []string{"look.gap from=900 mm to=920 mm"}) {
		t.Errorf("last cell: %q", got)
	}
}

// TestCoverageParts holds row 4 on a piece of parts.
func TestCoverageParts(t *testing.T) {
	tb := small()
	r := good(tb, kit.Harness)
	replace(r, kit.Eye, went(kit.Eye, kit.Stretch{Part: "waist"}, kit.Stretch{Part: "leg left"}))
	if got := gaps(criteria.Judge(tb, r)); !slices.Equal(got, []string{"look.gap part=leg right"}) {
		t.Errorf("%q", got)
	}
}

// TestAtHand holds which examination row 4 is about: the latest up to the day
// asked for, all looks of its kind on that day together, and those of another
// kind not among them.
func TestAtHand(t *testing.T) {
	tb := small()
	half := func(from, to int) kit.Examination {
		e := exam(tb, kit.Bridge, kit.Thorough, today)
		for i := range e.Looks {
			e.Looks[i].Covers = []kit.Stretch{along(from, to)}
			if e.Looks[i].Look == kit.Ends {
				e.Looks[i].Covers = []kit.Stretch{{All: true}}
			}
		}
		return e
	}
	r := good(tb, kit.Bridge)
	r.Examinations = []kit.Examination{half(0, 500), half(500, 900)}
	if res := criteria.Judge(tb, r); res.Verdict() != kit.Keep {
		t.Errorf("two halves on one day: %v", told(res))
	}
	r.Examinations[1].Day--
	if res := criteria.Judge(tb, r); res.Verdict() != kit.SetAside {
		t.Errorf("two halves on two days: %v", told(res))
	}
	// A look before use, however complete, does not fill in a thorough examination.
	pre := exam(tb, kit.Bridge, kit.PreUse, today)
	r.Examinations = []kit.Examination{exam(tb, kit.Bridge, kit.Thorough, today), pre}
	for i := range r.Examinations[0].Looks {
		if l := &r.Examinations[0].Looks[i]; l.Look == kit.Hand {
			l.Covers = []kit.Stretch{along(0, 500)}
		}
	}
	if res := criteria.Judge(tb, r); res.Verdict() != kit.SetAside {
		t.Errorf("looks of another kind: %v", told(res))
	}
	// A complete look before use the day after hides nothing: the thorough
	// examination that was not complete has not moved the interval.
	r.Piece.Examined, r.Piece.ExaminationFrom = date("2025-11-30"), "report"
	r.Examinations[0].Day--
	if res := criteria.Judge(tb, r); find(res, "interval.overdue", "R-05") == nil {
		t.Errorf("an incomplete examination moved the interval: %v", told(res))
	}
	// What is after the day asked for is not looked at.
	r = good(tb, kit.Bridge)
	r.Examinations = append(r.Examinations, kit.Examination{Kind: kit.Thorough, Day: day("2026-06-02")})
	if res := criteria.Judge(tb, r); res.Verdict() != kit.Keep {
		t.Errorf("a later examination: %v", told(res))
	}
	// A kind of examination for which the tables name no look clears nothing.
	r.Examinations = []kit.Examination{{Kind: "glance", Day: day(today), Looks: r.Examinations[0].Looks}}
	r.Piece.Examined, r.Piece.ExaminationFrom = date("2026-05-01"), "report"
	if res := criteria.Judge(tb, r); find(res, "look.none-named", "M-24") == nil {
		t.Errorf("a kind of examination without looks: %v", told(res))
	}
}

// TestOrderOfEntry holds that the order in which looks, signs, examinations and
// events are entered changes nothing.
func TestOrderOfEntry(t *testing.T) {
	tb := small()
	build := func(turn bool) criteria.Result {
		r := good(tb, kit.Bridge)
		replace(r, kit.Hand, went(kit.Hand, along(0, 100)), went(kit.Hand, along(300, 900)))
		see(r, "soft-place", at(100, 120))
		see(r, "knot-wrong", kit.Place{Part: "end A"})
		r.Events = []kit.Event{{Ref: "e1", Day: day("2026-05-01"), Event: "saw-contact"}, {Ref: "e2", Day: day("2026-05-01"), Event: "flood"}}
		r.Examinations = append(r.Examinations, exam(tb, kit.Bridge, kit.Interim, "2026-04-01"))
		if turn {
			reverse(r.Examinations)
			reverse(r.Events)
			for i := range r.Examinations {
				reverse(r.Examinations[i].Looks)
				reverse(r.Examinations[i].Signs)
			}
		}
		return criteria.Judge(tb, r)
	}
	a, b := told(build(false)), told(build(true))
	if !slices.Equal(a, b) || len(a) < 5 {
		t.Errorf("one way %q\nthe other %q", a, b)
	}
}

func reverse[T any](s []T) {
	for i, k := 0, len(s)-1; i < k; i, k = i+1, k-1 {
		s[i], s[k] = s[k], s[i]
	}
}
