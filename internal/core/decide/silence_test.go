package decide_test

import (
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// TestSilenceAboutUse: whatever a record may say of dirt, hardware, mass, hours
// and working days, and whichever of these it leaves out: what is left out
// never makes the chance of unfit smaller, the outcome looser or the next look
// later.
func TestSilenceAboutUse(t *testing.T) {
	stricter, larger := 0, 0
	var kinds []kit.KindID
	for i := range tb.Kinds {
		if tb.Kinds[i].Doubt {
			kinds = append(kinds, tb.Kinds[i].ID)
		}
	}
	most := &tb.Rules.Cautious
	rapid.Check(t, func(t *rapid.T) {
		r := sound(rapid.SampledFrom(kinds).Draw(t, "kind"))
		k := tb.Kind(r.Piece.Kind)
		u := &r.Uses[0]
		u.Dirt = tb.Dirt[rapid.IntRange(0, len(tb.Dirt)-1).Draw(t, "dirt")].ID
		u.Hardware = tb.Hardware[rapid.IntRange(0, len(tb.Hardware)-1).Draw(t, "hardware")].ID
		u.Mass = qty.Mass(rapid.IntRange(25_000, int(most.Mass)).Draw(t, "mass"))
		days := 0
		for d := 1; d <= 7; d++ {
			u.Weekdays[d] = rapid.Bool().Draw(t, "weekday")
			if u.Weekdays[d] {
				days++
			}
		}
		if days == 0 {
			u.Weekdays[3], days = true, 1
		}
		longest := min(most.Week, most.Day*qty.Duration(days))
		u.Week = rapid.SampledFrom([]qty.Duration{0, longest, longest / 2, longest / 10, 25 * qty.Hour}).Draw(t, "week")
		u.Week = min(u.Week, longest)
		switch rapid.IntRange(0, 3).Draw(t, "looks") {
		case 0:
			r.Runs = nil
		case 1:
			r.Runs[0].Weekdays = u.Weekdays
		}
		r.AsOf += qty.Day(rapid.IntRange(0, 200).Draw(t, "days since"))
		if rapid.Bool().Draw(t, "looks go on") && len(r.Runs) > 0 {
			r.Runs[0].To = r.AsOf
		}
		if rapid.Bool().Draw(t, "a sign") {
			for i := range k.Signs {
				if s := &k.Signs[i]; s.ID == "resin-stain" || s.ID == "scratches" {
					r.Examinations[0].Signs = []kit.Sign{{Ref: "s", Sign: s.ID, State: kit.FirstSeen, At: at(k)}}
				}
			}
		}
		silent := *r
		silent.Uses = append([]kit.Use(nil), r.Uses...)
		v := &silent.Uses[0]
		left := rapid.IntRange(1, 63).Draw(t, "left out")
		for i, leave := range []func(){func() { v.Dirt = "" }, func() { v.Hardware = "" }, func() { v.Mass = 0 }, func() { v.Week = -1 },
			func() { v.Weekdays = [8]bool{} }, func() { silent.Uses = nil }} {
			if left&(1<<i) != 0 {
				leave()
			}
		}
		said, unsaid := decide.Decide(tb, r, decide.Ask{}), decide.Decide(tb, &silent, decide.Ask{})
		if said.Doubt == nil || unsaid.Doubt == nil {
			t.Fatal("no doubt worked out")
		}
		if unsaid.Doubt.D < said.Doubt.D*(1-1e-9) {
			t.Fatalf("%s: D %v is smaller than %v with what was left out (%b) of %+v", k.ID, unsaid.Doubt.D, said.Doubt.D, left, *u)
		}
		if unsaid.Verdict < said.Verdict {
			t.Fatalf("%s: %s became %s without %b%s%s", k.ID, said.Verdict, unsaid.Verdict, left, reasons(&said), reasons(&unsaid))
		}
		if said.Next.Known && (!unsaid.Next.Known || unsaid.Next.Day > said.Next.Day) {
			t.Fatalf("%s: next look on %v became %v without %b of %+v", k.ID, said.Next.Day, unsaid.Next.Day, left, *u)
		}
		if unsaid.Verdict > said.Verdict {
			stricter++
		}
		if unsaid.Doubt.D > said.Doubt.D*1.1 {
			larger++
		}
	})
	if stricter == 0 || larger == 0 {
		t.Errorf("silence was stricter %d times, its doubt larger %d times", stricter, larger)
	}
}
