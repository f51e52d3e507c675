package app

import (
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// TestDecisionTakesEffect: what a competent person decides holds from its entry,
// whatever milder the outcome is: set aside until a later decision or until it is
// taken back, withdrawn for good.
func TestDecisionTakesEffect(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	today, id, who := r.AsOf, r.Piece.ID, Who{Person: "p1"}
	a, _ := yard(t, today.String()+"T17:00:00+01:00")
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	looks := []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}
	e := kit.Examination{Ref: "t-1", Kind: kit.Thorough, Day: today, By: "p1", SignedBy: "p1", WouldClimb: kit.SaidYes, Looks: looks}
	for _, x := range r.Examinations { // the looks of a whole examination
		if x.Kind == kit.Thorough {
			e.Looks, e.Readings, e.Asked = x.Looks, x.Readings, x.Asked
		}
	}
	if _, err := a.Examine(ctx, who, id, e); err != nil {
		t.Fatal(err)
	}
	stands := func(want kit.Verdict) {
		t.Helper()
		j, err := a.Judge(ctx, id, today, false)
		if err != nil || j.Stands() != want {
			t.Fatalf("stands at %v (outcome %v, %v), should at %v", j.Stands(), j.Outcome.Verdict, err, want)
		}
		cards, err := a.Board(ctx, today)
		if err != nil || len(cards) != 1 || cards[0].Stands() != want {
			t.Fatalf("on the board %v, %v, should be %v", cards[0].Stands(), err, want)
		}
	}
	j, err := a.Judge(ctx, id, today, false)
	if err != nil || j.Outcome.Verdict >= kit.SetAside {
		t.Fatalf("the outcome itself is %v, %v", j.Outcome.Verdict, err)
	}
	latest, err := qty.ParseDate("2026-12-01")
	if err != nil {
		t.Fatal(err)
	}
	mild := j.Outcome.Verdict
	decide := func(v kit.Verdict, why string) (Written, error) {
		return a.Decide(ctx, who, id, Decision{Examination: "t-1", Verdict: v, Why: why, Latest: latest})
	}
	if _, err := decide(kit.SetAside, ""); err == nil || !strings.Contains(err.Error(), "Say why") {
		t.Errorf("set aside without a reason: %v", err)
	}
	stands(mild)
	for _, step := range []struct {
		v    kit.Verdict
		want kit.Verdict
	}{{kit.SetAside, kit.SetAside}, {mild, mild}, {kit.SetAside, kit.SetAside}, {kit.Withdraw, kit.Withdraw}, {mild, kit.Withdraw}} {
		if _, err := decide(step.v, "the feel of it"); err != nil {
			t.Fatal(err)
		}
		stands(step.want)
	}
	e.Ref, e.Day = "t-2", today+1
	if _, err := a.Examine(ctx, who, id, e); err == nil || !strings.Contains(err.Error(), "it was withdrawn by “p1”, because: the feel of it") {
		t.Errorf("examined the day after: %v", err)
	}
}
