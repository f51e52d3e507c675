package app

import (
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/paper"
)

// withThorough gives a yard with a bridge, and a whole thorough examination of it to
// enter: its looks are those of the record's own.
func withThorough(t *testing.T) (a *App, id string, today qty.Day, thorough func(ref string, day qty.Day)) {
	t.Helper()
	r := example(t, "bridge-daily.toml")
	a, _ = yard(t, r.AsOf.String()+"T17:00:00+01:00")
	if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
		t.Fatal(err)
	}
	return a, r.Piece.ID, r.AsOf, func(ref string, day qty.Day) {
		t.Helper()
		e := kit.Examination{Ref: ref, Kind: kit.Thorough, Day: day, By: "p1", SignedBy: "p1", WouldClimb: kit.SaidYes}
		for _, x := range r.Examinations {
			if x.Kind == kit.Thorough {
				e.Looks, e.Readings, e.Asked = x.Looks, x.Readings, x.Asked
			}
		}
		must(t)(a.Examine(ctx, Who{Person: "p1"}, r.Piece.ID, e))
	}
}

func (a *App) mustCard(t *testing.T, id string, day qty.Day) *Card {
	t.Helper()
	c, err := a.CardOf(ctx, id, day)
	if err != nil {
		t.Fatal(err)
	}
	return &c
}

// TestOlderExaminationLiftsNothing: what was set aside on one examination is not lifted
// by a decision on an older one, nor by one on none or on a look before use.
func TestOlderExaminationLiftsNothing(t *testing.T) {
	a, id, today, thorough := withThorough(t)
	who := Who{Person: "p1"}
	thorough("t-1", today)
	mild := a.mustCard(t, id, today).Verdict
	decide := func(on string, v kit.Verdict) error {
		_, err := a.Decide(ctx, who, id, Decision{Examination: on, Verdict: v, Why: "decided on " + on})
		return err
	}
	stands := func(want kit.Verdict, after string) {
		t.Helper()
		if got := a.mustCard(t, id, today).Stands(); got != want {
			t.Errorf("after %s it stands at “%s”, should at “%s”", after, got, want)
		}
	}
	if err := decide("t-1", kit.SetAside); err != nil {
		t.Fatal(err)
	}
	if err := decide("E-26-03", mild); err != nil {
		t.Fatal(err)
	}
	stands(kit.SetAside, "a decision on an older examination")
	if err := decide("E-26-06", kit.SetAside); err != nil { // an older one, later
		t.Fatal(err)
	}
	if c := a.mustCard(t, id, today); c.Stopped.Why != "decided on E-26-06" {
		t.Errorf("the last that holds is %+v", c.Stopped)
	}
	if err := decide("E-26-06", mild); err != nil {
		t.Fatal(err)
	}
	stands(kit.SetAside, "two set it aside, and a decision on the older one")
	thorough("t-2", today) // of the same day, entered later
	if err := decide("t-2", mild); err != nil {
		t.Fatal(err)
	}
	stands(mild, "a decision on a later one of the same day")
	must(t)(a.Examine(ctx, who, id, kit.Examination{Ref: "look-1", Kind: kit.PreUse, Day: today, By: "rolf", WouldClimb: kit.SaidYes, Looks: []kit.Look{{Look: kit.Eye, By: "rolf", Covers: []kit.Stretch{{All: true}}}}}))
	for on, says := range map[string]string{"": "Say which examination", "look-1": "an interim or thorough examination", "t-9": "No examination “t-9”"} {
		if err := decide(on, kit.Withdraw); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("decided on “%s”: %v", on, err)
		}
	}
}

// TestOneActForEachSource: what was set aside by hand and by a decision is told by the
// one of them that still holds.
func TestOneActForEachSource(t *testing.T) {
	a, id, today, thorough := withThorough(t)
	who := Who{Person: "p1"}
	thorough("t-1", today)
	mild := a.mustCard(t, id, today).Verdict
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "set aside", Why: "frayed"}))
	must(t)(a.Decide(ctx, who, id, Decision{Examination: "t-1", Verdict: kit.SetAside, Why: "soft"}))
	if c := a.mustCard(t, id, today); c.Stopped.Why != "soft" || !c.Stopped.Aside {
		t.Errorf("both hold: %+v", c.Stopped)
	}
	must(t)(a.Decide(ctx, who, id, Decision{Examination: "t-1", Verdict: mild, Why: "sound"}))
	if c := a.mustCard(t, id, today); c.Stopped.Why != "frayed" || !c.Stopped.Aside || c.Stopped.Decided {
		t.Errorf("only the hand's holds: %+v", c.Stopped)
	}
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "back in use", Why: "a thread of the glove"}))
	if c := a.mustCard(t, id, today); c.Stopped.Why != "a thread of the glove" || c.Stopped.Aside || c.Stands() != mild {
		t.Errorf("taken back: %+v", c.Stopped)
	}
}

// TestUndecidedUntilDecided: each thorough examination waits for a decision of its own,
// whatever was decided on another.
func TestUndecidedUntilDecided(t *testing.T) {
	a, id, today, thorough := withThorough(t)
	thorough("t-1", today)
	for _, step := range []struct {
		on   string
		want bool
	}{{"E-25-03", true}, {"E-26-06", true}, {"t-1", false}, {"E-26-03", false}} {
		must(t)(a.Decide(ctx, Who{Person: "p1"}, id, Decision{Examination: step.on, Verdict: kit.SetAside, Why: "to be seen dry"}))
		if c := a.mustCard(t, id, today); c.Undecided != step.want {
			t.Errorf("decided on %s: undecided is %v", step.on, c.Undecided)
		}
	}
}

// TestDecidedDateCounts: the latest date that a decision names is when it is next due,
// where the outcome's is later; past it the piece stands at set aside until a decision
// on a later examination. A date later than the outcome's is refused.
func TestDecidedDateCounts(t *testing.T) {
	a, id, today, thorough := withThorough(t)
	who := Who{Person: "p1"}
	thorough("t-1", today)
	j, err := a.Judge(ctx, id, today, false)
	if err != nil || !j.Outcome.Due.Known {
		t.Fatal(err)
	}
	mild, due := j.Outcome.Verdict, j.Outcome.Due.Day
	decide := func(on string, latest qty.PartialDate) error {
		_, err := a.Decide(ctx, who, id, Decision{Examination: on, Verdict: mild, Why: "sound", Latest: latest})
		return err
	}
	month, _ := qty.ParseDate(due.String()[:7]) // its first day is in time, its last is not
	for _, late := range []qty.PartialDate{(due + 1).Partial(), month, (due + 30000).Partial()} {
		if err := decide("t-1", late); err == nil || !strings.Contains(err.Error(), due.Words()+" is the date that holds") {
			t.Errorf("%s, due on %s: %v", late.Words(), due.Words(), err)
		}
	}
	if err := decide("t-1", due.Partial()); err != nil {
		t.Errorf("the very day on which it is due: %v", err)
	}
	soon := today + 7
	if err := decide("t-1", soon.Partial()); err != nil {
		t.Fatal(err)
	}
	if c := a.mustCard(t, id, today); c.Next != soon || c.NextWhy != "decided" || c.Stands() != mild || c.Stopped.Passed {
		t.Errorf("before it: next %v (%s), stands at %v", c.Next, c.NextWhy, c.Stands())
	}
	if err := decide("E-26-03", (today + 20).Partial()); err != nil { // on an older one: it holds no more than that one
		t.Fatal(err)
	}
	if c := a.mustCard(t, id, soon); c.Stands() != mild {
		t.Errorf("on the very day it stands at %v", c.Stands())
	}
	past, err := a.Judge(ctx, id, soon+1, false)
	if err != nil || past.Outcome.Verdict >= kit.SetAside {
		t.Fatalf("the outcome itself: %v, %v", past.Outcome.Verdict, err)
	}
	if c := a.mustCard(t, id, soon+1); c.Stands() != kit.SetAside || past.Stands() != kit.SetAside || !c.Stopped.Passed || c.Stopped.Aside {
		t.Errorf("past it: %v and %v, %+v", c.Stands(), past.Stands(), c.Stopped)
	}
	interim := kit.Examination{Ref: "i-1", Kind: kit.Interim, Day: today, By: "p1", SignedBy: "p1", WouldClimb: kit.SaidYes, Looks: []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}}
	must(t)(a.Examine(ctx, who, id, interim))
	must(t)(a.Decide(ctx, who, id, Decision{Examination: "i-1", Verdict: kit.Stricter(mild, a.mustCard(t, id, today).Verdict), Why: "sound"}))
	if c := a.mustCard(t, id, today); c.Stopped.Latest != soon {
		t.Errorf("a decision on an interim one takes the date of a thorough one: %+v", c.Stopped)
	}
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "set aside", Why: "w"}))
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "back in use", Why: "w"}))
	thorough("t-2", today)
	if c := a.mustCard(t, id, soon+1); c.Stands() != kit.SetAside {
		t.Errorf("examined, not decided: %v", c.Stands())
	}
	if err := decide("t-2", qty.PartialDate{}); err != nil {
		t.Fatal(err)
	}
	if c := a.mustCard(t, id, soon+1); c.Stands() != mild || c.Stopped.Latest != 0 {
		t.Errorf("decided on the later one: %v, %+v", c.Stands(), c.Stopped)
	}
}

// TestReportIsOneOfTheSchedule: an occasion that the schedule has not, and a defect that
// is said both ways or not at all, are refused by whatever way they come (D-35, D-46).
func TestReportIsOneOfTheSchedule(t *testing.T) {
	a, id, today, thorough := withThorough(t)
	thorough("t-1", today)
	for _, c := range []struct {
		r    fold.Report
		says string
	}{
		{fold.Report{Occasion: "a cut that its user had seen"}, "is no occasion"},
		{fold.Report{DangerBy: "2027-01-01"}, "Name the defect"},
		{fold.Report{Repair: "sewn anew"}, "Name the defect"},
		{fold.Report{Immediate: true}, "Name the defect"},
		{fold.Report{More: []fold.Defect{{Defect: "worn eye"}}}, "Name the defect"},
		{fold.Report{Defect: "cut", More: []fold.Defect{{Repair: "a new one"}}}, "Name the defect"},
		{fold.Report{Defect: "cut", Immediate: true, DangerBy: "2027-01-01"}, "not both"},
		{fold.Report{Defect: "cut", Immediate: true, Occasion: "exceptional"}, ""},
	} {
		d := Decision{Examination: "t-1", Verdict: kit.Withdraw, Why: "w", Report: c.r}
		_, lacks := a.Lacking(ctx, Who{Person: "p1"}, id, &d)
		_, err := a.Decide(ctx, Who{Person: "p1"}, id, d)
		for _, err := range []error{lacks, err} {
			if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.Contains(err.Error(), c.says)) {
				t.Errorf("%+v: %v", c.r, err)
			}
		}
	}
}

// TestPapersTellToday: report and card say that a piece is out of use when they are
// printed, also where its record says so by itself; the card gives no report to an
// examination without a name, and the register has the latest thorough examination.
func TestPapersTellToday(t *testing.T) {
	a, id, today, thorough := withThorough(t)
	who := Who{Person: "p1"}
	thorough("t-1", today)
	thorough("t-0", today-30)
	mild := a.mustCard(t, id, today).Verdict
	must(t)(a.Decide(ctx, who, id, Decision{Examination: "t-1", Verdict: mild, Why: "sound"}))
	docs := func() map[string]*paper.Doc {
		f, err := a.ReportFacts(ctx, id, false)
		if err != nil {
			t.Fatal(err)
		}
		c, err := a.CardFacts(ctx, id)
		if err != nil {
			t.Fatal(err)
		}
		return map[string]*paper.Doc{"report": paper.Examination(f), "card": paper.Card(c)}
	}
	for name, d := range docs() {
		if d.Alert != nil {
			t.Errorf("%s: in use, and an alert: %+v", name, d.Alert)
		}
	}
	must(t)(a.Happen(ctx, who, id, kit.Event{Day: today, Event: "saw-contact", Travel: -1, Peak: -1}))
	for name, d := range docs() {
		if d.Alert == nil || d.Alert.Words != "out of use: to be withdrawn" {
			t.Fatalf("%s: a saw touched it, and the alert is %+v", name, d.Alert)
		}
		said := false
		for _, s := range d.Sections {
			for _, r := range s.Rows {
				said = said || r.Label == "By its record" && strings.Contains(r.Value, "saw blade")
			}
		}
		if !said {
			t.Errorf("%s does not say that a saw touched it", name)
		}
	}
	lines, _, _, err := a.RegisterLines(ctx, nil)
	if err != nil || lines[0].Last != today.Words() {
		t.Errorf("last thorough examination %q, %v", lines[0].Last, err)
	}
}

// TestOutOfUseStaysToBeDone: what is out of use for good is to be done until it is cut up.
func TestOutOfUseStaysToBeDone(t *testing.T) {
	a, id, today, _ := withThorough(t)
	who := Who{Person: "p1"}
	must(t)(a.Hang(ctx, who, id, today, fold.Hang{Holder: "rolf"}))
	due := func(want, there bool, after string) {
		t.Helper()
		cards, err := a.Board(ctx, today)
		if err != nil {
			t.Fatal(err)
		}
		if list := Due(cards); len(list) != map[bool]int{true: 1}[want] || cards[0].OutThere() != there {
			t.Errorf("%s: %d to be done, with somebody still: %v", after, len(list), cards[0].OutThere())
		}
	}
	due(true, false, "in use")
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "withdraw", Why: "a saw touched it"}))
	due(true, true, "withdrawn")
	must(t)(a.Hang(ctx, who, id, today, fold.Hang{Place: "store"}))
	in := a.mustCard(t, id, today).In != ""
	due(true, in, "handed in")
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "cut up", Why: "so that nobody uses it"}))
	due(false, false, "cut up")
}
