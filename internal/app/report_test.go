package app

import (
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// TestDangerIsNotKept: a decision leaves no piece in use against a defect of its own
// report that is a danger now, and one that could become a danger is looked at again
// before that day.
func TestDangerIsNotKept(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	id, who := r.Piece.ID, Who{Person: "p1"}
	a, store := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	if _, err := a.Take(ctx, who, r); err != nil {
		t.Fatal(err)
	}
	e := kit.Examination{Ref: "t-1", Kind: kit.Thorough, Day: a.Today(), By: "p1", SignedBy: "p1", WouldClimb: kit.SaidYes}
	for _, x := range r.Examinations { // the looks of a whole examination
		if x.Kind == kit.Thorough {
			e.Looks, e.Readings, e.Asked = x.Looks, x.Readings, x.Asked
		}
	}
	must(t)(a.Examine(ctx, who, id, e))
	date := func(days qty.Day) qty.PartialDate { return (a.Today() + days).Partial() }
	now := fold.Defect{Defect: "stitching cut", Immediate: true}
	soon := fold.Defect{Defect: "groove grows", DangerBy: date(60).String()}
	for _, c := range []struct {
		name    string
		verdict kit.Verdict
		latest  qty.PartialDate
		first   fold.Defect
		more    []fold.Defect
		says    string // "" where it is entered
	}{
		{"a danger now is kept", kit.Keep, date(30), now, nil, "danger to people now"},
		{"a danger now is looked at sooner", kit.KeepSooner, date(30), now, nil, "danger to people now"},
		{"a danger now among further defects", kit.KeepSooner, date(30), soon, []fold.Defect{now}, "“stitching cut” is a danger to people now"},
		{"a danger of a day that has come", kit.KeepSooner, date(30), fold.Defect{Defect: "groove", DangerBy: date(0).String()}, nil, "has come"},
		{"could become one, kept", kit.Keep, date(30), soon, nil, "at most “keep, look sooner”"},
		{"could become one nobody knows when, kept", kit.Keep, date(30), fold.Defect{Defect: "groove"}, nil, "at most “keep, look sooner”"},
		{"looked at after it", kit.KeepSooner, date(61), soon, nil, "is after that"},
		{"no date for the look", kit.KeepSooner, qty.PartialDate{}, soon, nil, "say the latest date"},
		{"looked at on its day", kit.KeepSooner, date(60), soon, nil, ""},
		{"by what it shows", kit.KeepSooner, date(60), fold.Defect{Defect: "groove", DangerBy: "when it is 1 mm deep"}, nil, ""},
		{"a danger now is set aside", kit.SetAside, date(30), now, nil, ""},
		{"a danger now is withdrawn", kit.Withdraw, qty.PartialDate{}, now, nil, ""},
	} {
		before, _ := store.Head(ctx)
		d := Decision{Examination: "t-1", Verdict: c.verdict, Why: "as the report says", Latest: c.latest,
			Report: fold.Report{Defect: c.first.Defect, Immediate: c.first.Immediate, DangerBy: c.first.DangerBy, More: c.more}}
		_, err := a.Decide(ctx, who, id, d)
		after, _ := store.Head(ctx)
		if c.says == "" {
			if err != nil || after.Size != before.Size+1 {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		if err == nil || !strings.Contains(err.Error(), c.says) || after != before {
			t.Errorf("%s: %v, want %q and nothing written", c.name, err, c.says)
		}
	}
}
