package decide_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// TestOnlyAProperAnswerExplains holds that an answer explains a sign only if it
// is not older than the sign, is not dated after the day asked for, says who
// gives it, and brings a document or a competent person's word of how it was
// verified; on kinds with a doubt figure and without.
func TestOnlyAProperAnswerExplains(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(a *kit.Answer)
		lifts  bool
	}{
		{"a competent person, verified", func(*kit.Answer) {}, true},
		{"a document", func(a *kit.Answer) { a.By, a.Verified, a.Document = "climber", "", "maker's letter of 1 July" }, true},
		{"nobody named", func(a *kit.Answer) { a.By, a.Document = "", "maker's letter of 1 July" }, false},
		{"a climber, verified", func(a *kit.Answer) { a.By = "climber" }, false},
		{"somebody not on record, verified", func(a *kit.Answer) { a.By = "stranger" }, false},
		{"not verified", func(a *kit.Answer) { a.Verified = "" }, false},
		{"no cause", func(a *kit.Answer) { a.Cause = "" }, false},
		{"older than the sign", func(a *kit.Answer) { a.Day-- }, false},
		{"after the day asked for", func(a *kit.Answer) { a.Day++ }, false},
		{"of another sign", func(a *kit.Answer) { a.To = "other" }, false},
	} {
		for _, sign := range []struct {
			kind      kit.KindID
			id, cause string
		}{{kit.Bridge, "stiffer", "bedding"}, {kit.Line, "heavy-fuzz", "use-rub"}, {kit.Connector, "sluggish", "gummed"}} {
			r := sound(sign.kind)
			r.People = append(r.People, kit.Person{ID: "climber", Role: "climber"})
			r.Examinations[0].Signs = []kit.Sign{{Ref: "s", Sign: sign.id, State: kit.FirstSeen, At: at(tb.Kind(sign.kind))}}
			a := kit.Answer{Day: r.AsOf, To: "s", Cause: sign.cause, Verified: "matched", By: "examiner"}
			c.change(&a)
			without := decide.Decide(tb, r, decide.Ask{Explain: true})
			r.Answers = []kit.Answer{a}
			with := decide.Decide(tb, r, decide.Ask{Explain: true})
			if why := with.Told.Signs[0].Why; (why >= float64(tb.Rules.Explained)) != c.lifts || with.Told.Signs[0].Answered != c.lifts {
				t.Errorf("%s of %s, %s: explained to %.3f, answered %v", sign.id, sign.kind, c.name, why, with.Told.Signs[0].Answered)
			}
			if !c.lifts && with.Verdict < without.Verdict {
				t.Errorf("%s of %s, %s: %s became %s", sign.id, sign.kind, c.name, without.Verdict, with.Verdict)
			}
		}
	}
}

// TestGrownIsLiftedByALaterAnswerOnly: what has grown asks for an answer, and
// the one that is not older lifts it, until it grows again.
func TestGrownIsLiftedByALaterAnswerOnly(t *testing.T) {
	for _, kind := range []kit.KindID{kit.Bridge, kit.Pulley} {
		sign, cause := "resin-stain", "sap"
		if kind == kit.Pulley {
			sign, cause = "side-play", "dry-bearing"
		}
		if tb.Kind(kind).Sign(sign) == nil {
			t.Fatalf("%s has no sign %s", kind, sign)
		}
		r := sound(kind)
		first := r.Examinations[0]
		first.Kind, first.Day = kit.Interim, r.AsOf-10
		first.Signs = []kit.Sign{{Ref: "s", Sign: sign, State: kit.FirstSeen, At: at(tb.Kind(kind))}}
		r.Examinations[0].Signs = []kit.Sign{{Ref: "s", State: kit.Grown}}
		r.Examinations = append([]kit.Examination{first}, r.Examinations...)
		grown := func(on qty.Day) bool {
			r.Answers = []kit.Answer{{Day: on, To: "s", Cause: cause, Verified: "matched", By: "examiner"}}
			o := decide.Decide(tb, r, decide.Ask{})
			for i := range o.Reasons {
				if o.Reasons[i].Key == "sign.grown" {
					return true
				}
			}
			return false
		}
		if !grown(r.AsOf - 1) {
			t.Errorf("%s: an answer of the day before lifts what has grown", kind)
		}
		if grown(r.AsOf) {
			t.Errorf("%s: the answer of the day does not lift what has grown", kind)
		}
	}
}
