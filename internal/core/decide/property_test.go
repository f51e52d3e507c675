package decide_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/anyrecord"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// anyTables gives drawn tables for a kind, half of the time the default ones.
func anyTables(t *rapid.T, kind kit.KindID) *table.Tables {
	if rapid.Bool().Draw(t, "default tables") {
		return tb
	}
	return anyrecord.Tables(t, tb, kind)
}

// alwaysAbsolute lists the signs of a kind that withdraw whatever the piece is made of.
func alwaysAbsolute(k *table.Kind) []string {
	var ids []string
	for i := range k.Signs {
		if s := &k.Signs[i]; s.Class == table.Absolute && len(s.ByFibre) == 0 && s.AfterUse == 0 && len(s.With) == 0 {
			ids = append(ids, s.ID)
		}
	}
	return ids
}

// TestAbsoluteAlwaysWithdraws: an absolute reason withdraws, whatever else is
// recorded: a sign of that class in any examination, an event that the tables
// say withdraws, or “I would not climb on it”.
func TestAbsoluteAlwaysWithdraws(t *testing.T) {
	hit := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{})
		k := tb.Kind(r.Piece.Kind)
		tb := anyTables(t, k.ID)
		var e *kit.Examination
		if len(r.Examinations) > 0 {
			e = &r.Examinations[rapid.IntRange(0, len(r.Examinations)-1).Draw(t, "in")]
		}
		what := rapid.SampledFrom([]string{"sign", "event", "would not climb"}).Draw(t, "reason")
		switch {
		case what == "sign" && e != nil && len(alwaysAbsolute(k)) > 0:
			s := kit.Sign{Ref: "absolute", Sign: rapid.SampledFrom(alwaysAbsolute(k)).Draw(t, "absolute"), State: kit.FirstSeen, At: kit.Place{Part: k.Parts[0].ID}}
			if k.Sign(s.Sign).Whole {
				s.At = kit.Place{Whole: true}
			}
			e.Signs = append(e.Signs, s)
			if rapid.Bool().Draw(t, "answered") {
				r.Answers = append(r.Answers, kit.Answer{Day: r.AsOf, To: "absolute", Verified: "seen", By: r.People[0].ID, Document: "letter"})
			}
		case what == "event" && k.Group == "textile":
			r.Events = append(r.Events, kit.Event{Ref: "absolute", Day: r.AsOf - qty.Day(rapid.IntRange(0, 400).Draw(t, "days ago")), Event: "saw-contact", Travel: -1, Peak: -1})
		case what == "would not climb" && e != nil:
			e.WouldClimb = kit.SaidNo
		default:
			return
		}
		hit[what]++
		if o := decide.Decide(tb, r, decide.Ask{Figures: true}); o.Verdict != kit.Withdraw {
			t.Fatalf("%s with the absolute reason of a %s: %s%s", k.ID, what, o.Verdict, reasons(&o))
		}
	})
	for _, what := range []string{"sign", "event", "would not climb"} {
		if hit[what] == 0 {
			t.Errorf("no absolute %s was tried", what)
		}
	}
}

// TestOrderOfEntries: the order in which people, uses, runs, answers, the
// examinations of a day, their looks, signs and readings are written down
// changes neither outcome nor D, not even in the last bit.
func TestOrderOfEntries(t *testing.T) {
	figures, oneDay := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{NoReadings: true})
		tb := anyTables(t, r.Piece.Kind)
		a := decide.Decide(tb, r, decide.Ask{})
		b := decide.Decide(tb, anyrecord.Shuffle(t, r), decide.Ask{})
		if a.Verdict != b.Verdict || (a.Doubt == nil) != (b.Doubt == nil) {
			t.Fatalf("%s, in another order %s%s\n-- in another order:%s", a.Verdict, b.Verdict, reasons(&a), reasons(&b))
		}
		for i := 1; i < len(r.Examinations); i++ {
			if r.Examinations[i].Day == r.Examinations[i-1].Day {
				oneDay++
				break
			}
		}
		if a.Doubt == nil {
			return
		}
		figures++
		if a.Doubt.D != b.Doubt.D || a.Doubt.Wear != b.Doubt.Wear {
			t.Fatalf("D %.17g, in another order %.17g; I %.17g, %.17g", a.Doubt.D, b.Doubt.D, a.Doubt.Wear, b.Doubt.Wear)
		}
	})
	if figures == 0 || oneDay == 0 {
		t.Fatalf("%d figures were compared, %d records had two examinations on one day", figures, oneDay)
	}
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol*math.Max(math.Abs(a), math.Abs(b)) }

// TestSplitEntries: a use or a run written down as two, one after the other,
// changes nothing (1e-12 relative).
func TestSplitEntries(t *testing.T) {
	uses, runs := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted})
		tb := anyTables(t, r.Piece.Kind)
		a := decide.Decide(tb, r, decide.Ask{})
		s := anyrecord.Copy(r)
		for i := range r.Uses {
			end := r.AsOf
			if i+1 < len(r.Uses) {
				end = min(end, r.Uses[i+1].From)
			}
			if u := r.Uses[i]; end > u.From+1 {
				u.From += qty.Day(rapid.IntRange(1, int(end-u.From)-1).Draw(t, "use split after"))
				s.Uses = append(s.Uses, u)
				uses++
			}
		}
		for i := range s.Runs {
			if x := s.Runs[i]; x.To > x.From {
				at := x.From + qty.Day(rapid.IntRange(0, int(x.To-x.From)-1).Draw(t, "run split after"))
				s.Runs[i].To, x.From, x.Ref = at, at+1, x.Ref+"b"
				s.Runs = append(s.Runs, x)
				runs++
			}
		}
		b := decide.Decide(tb, s, decide.Ask{})
		if a.Verdict != b.Verdict || (a.Doubt == nil) != (b.Doubt == nil) {
			t.Fatalf("%s, split %s%s\n-- split:%s", a.Verdict, b.Verdict, reasons(&a), reasons(&b))
		}
		if a.Doubt != nil && (!near(a.Doubt.D, b.Doubt.D, 1e-12) || !near(a.Doubt.Wear, b.Doubt.Wear, 1e-12)) {
			t.Fatalf("D %.17g, split %.17g", a.Doubt.D, b.Doubt.D)
		}
	})
	if uses == 0 || runs == 0 {
		t.Fatalf("%d uses and %d runs were split", uses, runs)
	}
}

// TestDropsAddUp: a drop is what one look took off D, in whole millionths. Looks
// come in their fixed order, those before a washing first, those after it then;
// the figures add up exactly, and a rise is shown as one.
func TestDropsAddUp(t *testing.T) {
	told, rises := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted})
		tb := anyTables(t, r.Piece.Kind)
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		if o.Told == nil || len(o.Told.Drops) == 0 {
			return
		}
		told++
		at, round, last := o.Told.Before, 0, -1
		for _, d := range o.Told.Drops {
			if d.Look.Order() <= last {
				round++
			}
			last = d.Look.Order()
			if at -= d.By; at != d.After {
				t.Fatalf("after %s %d are left, but the figures give %d", d.Look, d.After, at)
			}
			if d.By < 0 {
				rises++
			}
		}
		if round > 1 {
			t.Fatalf("drops are not in the fixed order of looks: %v", o.Told.Drops)
		}
		if o.Doubt.Millions != num.CeilMillionths(o.Doubt.D) {
			t.Fatalf("%d whole millionths are not those of %g", o.Doubt.Millions, o.Doubt.D)
		}
		if c := o.Told.Checked; c != nil && c.Difference > 1e-9 {
			t.Fatalf("the second method differs by %g", c.Difference)
		}
	})
	if told == 0 || rises == 0 {
		t.Fatalf("%d explanations with drops, %d rises", told, rises)
	}
}

// TestDropsAreOfTheirLook: where no sign is on record, the doubt told after a
// look is the doubt of the same record without the looks that come after it, and
// the doubt before is that without any look of the day.
func TestDropsAreOfTheirLook(t *testing.T) {
	compared := 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyrecord.Record(t, tb, anyrecord.With{Kinds: anyrecord.Doubted, NoSigns: true, NoReadings: true, NoEvents: true, NoAnswers: true, Mild: true})
		for i := range r.Examinations {
			for k := range r.Examinations[i].Looks {
				r.Examinations[i].Looks[k].AfterWash = false
			}
		}
		r.Runs = nil // a run of the day is among its looks
		tb := anyTables(t, r.Piece.Kind)
		o := decide.Decide(tb, r, decide.Ask{Explain: true})
		if o.ExamDay != r.AsOf || len(o.Told.Drops) == 0 {
			return
		}
		upTo := func(order int) float64 {
			s := anyrecord.Copy(r)
			for i := range s.Examinations {
				e := &s.Examinations[i]
				if e.Day != r.AsOf {
					continue
				}
				kept := e.Looks[:0]
				for _, l := range e.Looks {
					if l.Look.Order() <= order {
						kept = append(kept, l)
					}
				}
				e.Looks = kept
			}
			return decide.Decide(tb, s, decide.Ask{Figures: true}).Doubt.D
		}
		is := func(what string, got int64, d float64) {
			if got < num.CeilMillionths(d*(1-1e-11)) || got > num.CeilMillionths(d*(1+1e-11)) {
				t.Fatalf("%s: told %d millionths, the record gives %.12g", what, got, d*1e6)
			}
		}
		is("before", o.Told.Before, upTo(-1))
		for _, d := range o.Told.Drops {
			is("after "+string(d.Look), d.After, upTo(d.Look.Order()))
		}
		compared++
	})
	if compared == 0 {
		t.Fatal("nothing was compared")
	}
}
