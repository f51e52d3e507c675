package web

import (
	"context"
	"errors"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
)

// TestOutIsHandedIn: what is out of use for good stays with whoever holds it on Today,
// on the wall and in the set, apart from its figure, until it is cut up.
func TestOutIsHandedIn(t *testing.T) {
	a := yard(t)
	c, ctx, who := visit(t, a, "p1"), context.Background(), app.Who{Person: "p1"}
	do := func(_ app.Written, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	do(a.Hang(ctx, who, "LI-12", a.Today(), fold.Hang{Holder: "rolf"}))
	figures := func() int {
		t.Helper()
		m := regexp.MustCompile(`In that figure: (\d+) of its pieces`).FindStringSubmatch(c.get("/set/rolf").Body.String())
		if m == nil {
			t.Fatal("the set says of no number of pieces that they are in its figure")
		}
		n, _ := strconv.Atoi(m[1])
		return n
	}
	has(t, "in use", c.get("/set/rolf"), 200, "LI-12")
	before := figures()
	do(a.Stop(ctx, who, "LI-12", a.Today(), fold.Stop{What: "withdraw", Why: "a saw touched it"}))
	has(t, "Today", c.get("/"), 200, "Do not use it: hand it in. It is out of use for good: a saw touched it.", "Cut it up, so that nobody uses it again", `href="/piece/LI-12/stop?what=cut&#43;up"`)
	has(t, "the set", c.get("/set/rolf"), 200, "LI-12", "Not in it, and to be handed in, since they are out of use for good: 1.", "out of use: hand it in")
	if n := figures(); n != before-1 {
		t.Errorf("in the figure %d pieces with it, %d without", before, n)
	}
	has(t, "the wall", c.get("/wall"), 200, "out of use: hand it in")
	do(a.Hang(ctx, who, "LI-12", a.Today(), fold.Hang{Place: "store"}))
	p := c.get("/")
	has(t, "handed in", p, 200, "Cut it up, so that nobody uses it again")
	lacks(t, "handed in", p.Body.String(), "hand it in")
	lacks(t, "the set without it", c.get("/set/rolf").Body.String(), "LI-12")
	do(a.Stop(ctx, who, "LI-12", a.Today(), fold.Stop{What: "cut up", Why: "with the cutter"}))
	lacks(t, "cut up", c.get("/").Body.String(), "LI-12")
}

// TestNoOutcomeIsLeft: of a piece for which no outcome can be given whoever holds it is
// told to leave it, not the examiner alone.
func TestNoOutcomeIsLeft(t *testing.T) {
	s := New(yard(t))
	var b todayBody
	s.broke(&b, &app.Card{ID: "BR-1", Kind: kit.Bridge, Holder: "rolf", Err: errors.New("No outcome can be given.")})
	if len(b.Examiner) != 1 || len(b.Morning) != 1 || b.Morning[0].Who != "rolf" || len(b.Morning[0].Leave) != 1 || !strings.Contains(b.Morning[0].Leave[0].Say, "No outcome can be given.") {
		t.Errorf("%+v", b)
	}
}

// TestDecidedDateOnPages: the date that a decision names stands on the page of its piece
// and on Today; once it has passed, the piece is left and examined.
func TestDecidedDateOnPages(t *testing.T) {
	s := New(yard(t))
	a, ctx := s.app, context.Background()
	j, err := a.Judge(ctx, "BR-07", a.Today(), false)
	if err != nil || j.Outcome.Verdict >= kit.SetAside {
		t.Fatal(j.Outcome.Verdict, err)
	}
	card, err := a.CardOf(ctx, "BR-07", a.Today())
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		after qty.Day
		say   string
		leave int
	}{{10, "by 12 Jun 2026 at the latest", 0}, {-1, "1 Jun 2026, has passed", 1}} {
		c := card
		c.Stopped.Latest = a.Today() + x.after
		c.Stopped = c.Stopped.On(a.Today())
		var b todayBody
		s.sort(&b, &c, &j, a.Today())
		said, leave := false, 0
		for _, t := range b.Examiner {
			said = said || strings.Contains(t.Say, x.say) && t.Link == "examine?kind=thorough"
		}
		for _, m := range b.Morning {
			leave += len(m.Leave)
		}
		if !said || leave != x.leave {
			t.Errorf("%d days after: %+v", x.after, b)
		}
		p := pieceBody{}
		c.NextWhy = "decided"
		s.whatNext(&p, &c, &j, nil)
		if !strings.Contains(p.Next+p.Aside, x.say) {
			t.Errorf("its page: %+v", p)
		}
	}
}

// TestLookedToday: a piece counts as looked at before use where every look that its kind
// asks for before use went over all of it, in one entry or in several.
func TestLookedToday(t *testing.T) {
	day := qty.Day(20606) // a Tuesday, 2 Jun 2026
	k := &table.Kind{Needs: []table.Need{{Exam: kit.PreUse, Look: kit.Ask}, {Exam: kit.PreUse, Look: kit.Eye}, {Exam: kit.PreUse, Look: kit.Work}, {Exam: kit.Thorough, Look: kit.Gauge}}}
	all, part := []kit.Stretch{{All: true}}, []kit.Stretch{{To: 300 * qty.Millimetre}}
	ask, eye, work, some := kit.Look{Look: kit.Ask}, kit.Look{Look: kit.Eye, Covers: all}, kit.Look{Look: kit.Work, Covers: part}, kit.Look{Look: kit.Eye, Covers: part}
	side := kit.Look{Look: kit.Eye, Covers: []kit.Stretch{{All: true, Sides: []string{"top"}}}}
	run := kit.Run{From: day - 3, To: day, Looks: []kit.Look{ask, eye, work}}
	off := run
	run.Weekdays[day.Weekday()] = true
	for _, c := range []struct {
		name  string
		k     *table.Kind
		looks [][]kit.Look
		runs  []kit.Run
		want  bool
	}{
		{"all of it", k, [][]kit.Look{{ask, eye, work}}, nil, true},
		{"in two entries", k, [][]kit.Look{{ask}, {eye, work}}, nil, true},
		{"only asked", k, [][]kit.Look{{ask}}, nil, false},
		{"only a part", k, [][]kit.Look{{ask, some, work}}, nil, false},
		{"only a side", k, [][]kit.Look{{ask, side, work}}, nil, false},
		{"an entry without a look", k, [][]kit.Look{{}}, nil, false},
		{"a run of that weekday", k, nil, []kit.Run{run}, true},
		{"a run of other weekdays", k, nil, []kit.Run{off}, false},
		{"of no kind", nil, [][]kit.Look{{ask, eye, work}}, nil, false},
	} {
		r := &kit.Record{Runs: c.runs}
		for _, l := range c.looks {
			r.Examinations = append(r.Examinations, kit.Examination{Kind: kit.PreUse, Day: day, Looks: l})
		}
		if got := lookedToday(c.k, r, day); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}
