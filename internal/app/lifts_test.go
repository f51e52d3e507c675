package app

import (
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// TestAnswerThatLiftsNothing: an answer to what no answer settles is refused, with the
// way that does settle it; that way settles it.
func TestAnswerThatLiftsNothing(t *testing.T) {
	r := example(t, "bridge-daily.toml")
	id, who := r.Piece.ID, Who{Person: "p1"}
	a, store := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	p := r.Piece
	p.Declared, p.ExaminationFrom, p.ExaminedBefore, p.Examined = qty.PartialDate{}, "", false, qty.PartialDate{}
	must(t)(a.AddPiece(ctx, who, p))
	asks := func() bool {
		j, err := a.Judge(ctx, id, a.Today(), false)
		if err != nil {
			t.Fatal(err)
		}
		return slices.ContainsFunc(j.Outcome.Reasons, func(x criteria.Reason) bool { return x.Question == criteria.QDeclaration })
	}
	if !asks() {
		t.Fatal("the declaration is not asked for")
	}
	before, _ := store.Head(ctx)
	answer := kit.Answer{Day: a.Today(), To: criteria.QDeclaration, By: "p1", Verified: "seen", Document: "declaration of conformity"}
	_, err := a.Answer(ctx, who, id, answer)
	if code(err) != Refused || !strings.Contains(err.Error(), `declared = "…"`) || !strings.Contains(err.Error(), "kernbook piece amend") {
		t.Errorf("%v", err)
	}
	if after, _ := store.Head(ctx); after != before {
		t.Error("something was written")
	}
	p.Declared = r.Piece.Declared
	must(t)(a.AmendPiece(ctx, who, p, "the declaration was found"))
	if asks() {
		t.Error("the date of the declaration settles nothing")
	}
	must(t)(a.Answer(ctx, who, id, kit.Answer{Day: a.Today(), To: "assembly", By: "p1", Verified: "w", Document: "maker's letter"})) // what is not asked is for the record's reader
}
