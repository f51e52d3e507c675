package report_test

import (
	"strings"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/report"
)

const (
	noRuns  = "No looks before use are on record: if they were made, enter them (as run blocks) and ask again."
	enter   = "- Enter the looks before use that were made, each series as a run block, and ask again."
	replace = "- Replace the piece:"
	never   = "It is not used again."
)

// TestWhatCouldBeSaid: over the limit, a piece with no looks before use on
// record is asked for them first, in the reason and in what is to be done, and
// is neither replaced nor put away for good; one that has them on record is.
func TestWhatCouldBeSaid(t *testing.T) {
	asked, others := 0, 0
	for i := range samples() {
		s := &samples()[i]
		if s.o.Doubt == nil || s.o.Doubt.Millions <= s.o.Doubt.Limit {
			continue
		}
		looks := len(s.r.Runs) > 0
		for _, e := range s.r.Examinations {
			looks = looks || e.Kind == kit.PreUse || e.Kind == kit.Partner
		}
		out := unwrapped(text(t, s, report.Options{Width: 10_000}))
		if looks {
			others++
			if strings.Contains(out, noRuns) || strings.Contains(out, enter) {
				t.Errorf("%s: asks for looks before use that are on record:\n%s", s.name, out)
			}
			continue
		}
		asked++
		if !strings.Contains(out, "above the limit of 1 in 1\u202f000. "+noRuns) || !strings.Contains(out, enter) || strings.Contains(out, replace) {
			t.Errorf("%s: does not ask for looks before use first:\n%s", s.name, out)
		}
	}
	if asked < 2 || others < 2 {
		t.Errorf("only %d samples without looks before use and %d with them are over the limit", asked, others)
	}
	for name, gone := range map[string]bool{"no looks before use on record": false, "use unknown": false, "a soft place": true, "life ended": true} {
		s := sampleOf(t, name)
		out := text(t, s, report.Options{Width: 10_000})
		if s.o.Verdict != kit.Withdraw || strings.Contains(out, never) != gone {
			t.Errorf("%s: %s; “%s” is told: %v, want %v", name, s.o.Verdict, never, !gone, gone)
		}
	}
}

// TestSetAsideIsNotReplaced: where nothing can lift a doubt that sets aside, the
// text says that it stays so, and does not speak of its next use.
func TestSetAsideIsNotReplaced(t *testing.T) {
	met := 0
	for i := range samples() {
		s := &samples()[i]
		if s.o.Verdict != kit.SetAside || !strings.Contains(text(t, s, report.Options{}), "Doubt") {
			continue
		}
		for _, q := range s.o.Open {
			if q.ID != decide.QReplace {
				continue
			}
			met++
			out := text(t, s, report.Options{Width: 10_000})
			if strings.Contains(out, replace) || strings.Contains(out, "Before it is used again") || !strings.Contains(out, "- It stays set aside: no further look") ||
				!strings.Contains(out, "None is set: it stays set aside.") {
				t.Errorf("%s: set aside and to be replaced:\n%s", s.name, out)
			}
		}
	}
	if met == 0 {
		t.Error("no sample that is set aside has a doubt that nothing lifts")
	}
}

// TestNotUsedAgain: that a withdrawn piece is never used again is told where
// nothing can lift what withdraws it (row 1; a doubt that nothing open lessens),
// and not where the outcome asks for what would.
func TestNotUsedAgain(t *testing.T) {
	met := map[string]int{}
	for i := range samples() {
		s := &samples()[i]
		if s.o.Verdict != kit.Withdraw {
			continue
		}
		rows, final := "", false
		for _, r := range s.o.Reasons {
			if r.Verdict == kit.Withdraw {
				rows += r.Row
				final = final || r.Row == "1" || r.Question == decide.QReplace
			}
		}
		out := unwrapped(text(t, s, report.Options{Width: 10_000}))
		if strings.Contains(out, never) != final {
			t.Errorf("%s, withdrawn by rows %s: “%s” is told: %v", s.name, rows, never, !final)
		}
		switch {
		case final:
			met["final"]++
		case strings.Contains(out, "It is not used again, unless what is asked above is answered on record"):
			met["asked"]++
		case !strings.Contains(out, "It stays out of use until what is open above is said"):
			t.Errorf("%s, withdrawn by rows %s: nothing is told of its use:\n%s", s.name, rows, out)
		}
	}
	if met["final"] < 5 || met["asked"] < 2 {
		t.Errorf("too few samples: %v", met)
	}
}
