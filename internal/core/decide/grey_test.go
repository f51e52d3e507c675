package decide_test

import (
	"sort"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/anyrecord"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// bridge is a bridge with all looks made: daily ones on every working day, an
// interim or thorough examination at least every half year, the last on the day
// of the outcome. The zones are the table's, or drawn, which are then said.
func drawBridge(t *rapid.T) (r *kit.Record, bends, travels []kit.ZoneAt) {
	const mm = qty.Millimetre
	k := tb.Kind(kit.Bridge)
	r = sound(kit.Bridge)
	long := qty.Length(rapid.IntRange(500, 1500).Draw(t, "length")) * mm
	r.Piece.Length = long
	if rapid.Bool().Draw(t, "own zones") {
		bend := min(qty.Length(rapid.IntRange(20, 80).Draw(t, "bend"))*mm, long/7) // as much as the table lets it take
		from := bend + qty.Length(rapid.IntRange(0, 100).Draw(t, "free"))*mm
		to := min(long-bend-qty.Length(rapid.IntRange(0, 100).Draw(t, "free at B"))*mm, from+long/20*17)
		bends = []kit.ZoneAt{{Zone: "bend", From: 0, To: bend}, {Zone: "bend", From: long - bend, To: long}}
		travels = []kit.ZoneAt{{Zone: "travel", From: from, To: to}}
		r.Piece.Zones = append(append([]kit.ZoneAt(nil), bends...), travels...)
	} else {
		bend := qty.Length(float64(k.Zone("bend").Extent) * float64(long))
		travel := qty.Length(float64(k.Zone("travel").Extent) * float64(long))
		bends = []kit.ZoneAt{{From: 0, To: bend}, {From: long - bend, To: long}}
		travels = []kit.ZoneAt{{From: long/2 - travel/2 + 1, To: long/2 + travel/2 - 1}}
	}
	r.Examinations[0].Readings = measured(append(append([]kit.ZoneAt(nil), bends...), travels...), long)
	r.AsOf = mustDay("2026-01-05") + qty.Day(rapid.IntRange(20, 1400).Draw(t, "days in use"))
	r.Runs[0].To = r.AsOf - 1
	if rapid.Bool().Draw(t, "own use") {
		u := anyrecord.Use(t, tb, mustDay("2026-01-05"))
		u.Store, u.Weekdays = false, workdays
		r.Uses = []kit.Use{u}
	}
	last := r.Examinations[0]
	r.Examinations = nil
	for d := mustDay("2026-01-05") + qty.Day(rapid.IntRange(1, 180).Draw(t, "first examined after")); d < r.AsOf; d += qty.Day(rapid.IntRange(20, 180).Draw(t, "next examined after")) {
		e := last
		e.Day = d
		if rapid.Bool().Draw(t, "interim") {
			e.Kind, e.Looks = kit.Interim, needed(k, kit.Interim)
		}
		r.Examinations = append(r.Examinations, e)
	}
	last.Day = r.AsOf
	r.Examinations = append(r.Examinations, last)
	return r, bends, travels
}

// measured gives a reading in the middle of each zone and of each stretch
// between zones, all alike.
func measured(zones []kit.ZoneAt, long qty.Length) (out []kit.Reading) {
	sort.Slice(zones, func(i, k int) bool { return zones[i].From < zones[k].From })
	read := func(from, to qty.Length) {
		if mid := (from + to) / 2; to-from > qty.Millimetre {
			out = append(out, kit.Reading{Quantity: tb.Kind(kit.Bridge).Reads[0].ID, At: kit.Place{From: mid, To: mid}, Values: []qty.Length{12600}, Wet: kit.SaidNo})
		}
	}
	end := qty.Length(0)
	for _, z := range zones {
		read(end, z.From)
		read(z.From, z.To)
		end = z.To
	}
	read(end, long)
	return out
}

// seenAt puts a sign on record, first seen in one of the examinations and still
// the same in all that follow.
func seenAt(t *rapid.T, r *kit.Record, ref, sign string, at kit.Place) {
	from := rapid.IntRange(0, len(r.Examinations)-1).Draw(t, "first seen in")
	for i := from; i < len(r.Examinations); i++ {
		s := kit.Sign{Ref: ref, State: kit.Same}
		if i == from {
			s = kit.Sign{Ref: ref, Sign: sign, State: kit.FirstSeen, At: at}
		}
		e := &r.Examinations[i]
		e.Signs = append(append([]kit.Sign(nil), e.Signs...), s)
	}
}

// within draws a stretch or a point inside one of some zones.
func within(t *rapid.T, zones []kit.ZoneAt) kit.Place {
	z := zones[rapid.IntRange(0, len(zones)-1).Draw(t, "which zone")]
	from := z.From + 1 + qty.Length(rapid.IntRange(0, int(z.To-z.From)-2).Draw(t, "from"))
	if rapid.Bool().Draw(t, "a point") {
		return kit.Place{From: from, To: from}
	}
	return kit.Place{From: from, To: from + qty.Length(rapid.IntRange(0, int(z.To-1-from)).Draw(t, "to"))}
}

// TestGreyAndPinchAnywhereThere: with the default tables and all looks made,
// grey anywhere under the ring's travel and a pinch anywhere in a fitting's bend
// keep a bridge in use that is kept without them.
func TestGreyAndPinchAnywhereThere(t *testing.T) {
	kept, tried := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r, bends, travels := drawBridge(t)
		tried++
		if o := decide.Decide(tb, r, decide.Ask{}); o.Verdict > kit.KeepSooner {
			return // worn by its use, whatever is seen
		}
		kept++
		for i := range rapid.IntRange(1, 3).Draw(t, "signs") {
			ref := "s" + string(rune('1'+i))
			if rapid.Bool().Draw(t, "grey") {
				seenAt(t, r, ref, "grey", within(t, travels))
			} else {
				seenAt(t, r, ref, "pinch", within(t, bends))
			}
		}
		if o := decide.Decide(tb, r, decide.Ask{}); o.Verdict > kit.KeepSooner {
			t.Fatalf("%s%s", o.Verdict, reasons(&o))
		}
	})
	if kept*3 < tried {
		t.Fatalf("only %d of %d bridges with all looks made are kept", kept, tried)
	}
}

// TestGreyAndPinchElsewhere: a place that is not wholly in such a zone explains
// neither: a bridge is withdrawn.
func TestGreyAndPinchElsewhere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, bends, travels := drawBridge(t)
		sign, there := "grey", travels
		if rapid.Bool().Draw(t, "pinch") {
			sign, there = "pinch", bends
		}
		at := kit.Place{From: qty.Length(rapid.IntRange(0, int(r.Piece.Length)).Draw(t, "from"))}
		at.To = at.From + qty.Length(rapid.IntRange(0, int(r.Piece.Length-at.From)).Draw(t, "to"))
		if rapid.IntRange(0, 9).Draw(t, "at an end") == 9 {
			at = kit.Place{Part: "end A"}
		}
		for _, z := range there {
			if at.Part == "" && z.From-1 <= at.From && at.To <= z.To+1 {
				return // there, after all
			}
		}
		seenAt(t, r, "s1", sign, at)
		if o := decide.Decide(tb, r, decide.Ask{}); o.Verdict != kit.Withdraw {
			t.Fatalf("%s at %v: %s%s", sign, at, o.Verdict, reasons(&o))
		}
	})
}
