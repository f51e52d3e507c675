package decide_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// TestSignsCountWithoutFigures puts every sign to be weighed of a kind in one
// place, more than can be worked out. Rows 4 and 5 speak of each of them all
// the same: what has grown, what lies together, what nothing is said of.
func TestSignsCountWithoutFigures(t *testing.T) {
	for _, x := range []struct {
		kind kit.KindID
		want kit.Verdict
	}{{kit.Bridge, kit.Withdraw}, {kit.Line, kit.SetAside}} {
		k := tb.Kind(x.kind)
		r := sound(x.kind)
		first := r.Examinations[0]
		first.Signs = nil
		for i := range k.Signs {
			if s := &k.Signs[i]; s.Class == table.Weigh && !s.Whole {
				first.Signs = append(first.Signs, kit.Sign{Ref: s.ID, Sign: s.ID, State: kit.FirstSeen, At: at(k)})
			}
		}
		if len(first.Signs) < 8 {
			t.Fatalf("%s has only %d signs for one place", x.kind, len(first.Signs))
		}
		grown, silent := first.Signs[len(first.Signs)-1].Ref, first.Signs[0].Ref
		second := first
		second.Day, second.Signs = mustDay("2026-08-03"), nil
		for _, s := range first.Signs[1:] {
			state := kit.Same
			if s.Ref == grown {
				state = kit.Grown
			}
			second.Signs = append(second.Signs, kit.Sign{Ref: s.Ref, State: state})
		}
		r.Examinations, r.AsOf = []kit.Examination{first, second}, second.Day
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		if o.NoDoubt != "too many" {
			t.Fatalf("%s: the doubt could be worked out: %q", x.kind, o.NoDoubt)
		}
		told := map[string]string{}
		pairs := 0
		for i := range o.Reasons {
			q := &o.Reasons[i]
			for _, a := range q.Args {
				if a.Name == "ref" && q.Row == "5" && q.Key != "sign.pair" {
					told[a.Value] = q.Key
				}
				if a.Name == "ref" && a.Value == silent && q.Key == "sign.not-spoken-of" {
					told["silent"] = q.Row
				}
			}
			if q.Key == "sign.pair" {
				pairs++
			}
		}
		for _, s := range first.Signs {
			want := "sign.not-worked-out"
			if s.Ref == grown {
				want = "sign.grown"
			}
			if told[s.Ref] != want {
				t.Errorf("%s: row 5 says %q of %s, want %q", x.kind, told[s.Ref], s.Ref, want)
			}
		}
		if told["silent"] != "4" || pairs == 0 {
			t.Errorf("%s: %d pairs, and of %s, of which nothing is said, row %q", x.kind, pairs, silent, told["silent"])
		}
		if o.Verdict != x.want {
			t.Errorf("%s: %s%s", x.kind, o.Verdict, reasons(&o))
		}
	}
}
