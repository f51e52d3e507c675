package web

import (
	"context"
	"net/url"
	"strings"
	"testing"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// lacks holds that a page does not say any of some things.
func lacks(t *testing.T, where, body string, not ...string) {
	t.Helper()
	for _, s := range not {
		if strings.Contains(body, s) {
			t.Errorf("%s says %q", where, s)
		}
	}
}

// TestOutOfUse: the page of a piece that was withdrawn says by whom and with its
// first reason, what comes next, and offers no look; the reasons are those of the
// day on which it went out of use.
func TestOutOfUse(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	ctx, day := context.Background(), func(text string) qty.Day {
		d, err := qty.ParseDate(text)
		if err != nil {
			t.Fatal(err)
		}
		return d.Earliest()
	}
	stop := func(id, on, what, why string) {
		t.Helper()
		if _, err := a.Stop(ctx, app.Who{Person: "p1"}, id, day(on), fold.Stop{What: what, Why: why}); err != nil {
			t.Fatal(err)
		}
	}
	has(t, "in use", c.get("/piece/LI-12"), 200, `href="/piece/LI-12/look"`, "The next thorough examination is due")
	stop("LI-12", "2026-06-01", "withdraw", "a saw touched it")
	p := c.get("/piece/LI-12")
	has(t, "withdrawn", p, 200, "Out of use since 1 Jun 2026: withdrawn from use, by Tilda Marsh (p1).", "a saw touched it", "What comes next", "Cut it up, so that nobody uses it again",
		`href="/piece/LI-12/stop?what=cut&#43;up"`, `href="/piece/LI-12/entries"`, "As it was on 1 Jun 2026")
	lacks(t, "withdrawn", p.Body.String(), `href="/piece/LI-12/look"`, `href="/piece/LI-12/examine`, `href="/piece/LI-12/run"`, `href="/piece/LI-12/wash"`, "Enter the examination", "To be answered or done",
		"Next look", "examination is due", "examination was due")
	why := c.get("/piece/LI-12/why")
	has(t, "its explanation", why, 200, "Out of use since 1 Jun 2026", "As it was on 1 Jun 2026")
	lacks(t, "its explanation", why.Body.String(), "examination was due")
	has(t, "cut up is chosen", c.get("/piece/LI-12/stop?what=cut+up"), 200, `value="cut up" checked`)
	has(t, "its form", c.get("/piece/LI-12/examine?kind=thorough"), 200, "It is out of use for good.")
	late := with(filledForms[0].typed, "id", idOf(t, c, "/piece/LI-12/look"))
	has(t, "a look after that day", c.post("/piece/LI-12/look", late), 422, "is out of use since 1 Jun 2026", "a saw touched it")
	lacks(t, "which piece to look at", c.get("/do/look").Body.String(), `/piece/LI-12/look`)
	has(t, "which entry to correct", c.get("/do/entries"), 200, `href="/piece/LI-12/entries"`)

	lines, _, _, err := a.RegisterLines(ctx, nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range lines {
		if l.ID == "LI-12" && (l.Stands != "withdraw" || l.Next != "") || l.ID == "CO-31" && l.Next == "" {
			t.Errorf("in the register: %+v", l)
		}
	}

	// What was done later does not take the place of the first reason.
	stop("LI-12", "2026-06-02", "cut up", "done with the cutter")
	p = c.get("/piece/LI-12")
	has(t, "cut up", p, 200, "Out of use since 1 Jun 2026", "<strong>Out of use since 1 Jun 2026: withdrawn from use, by Tilda Marsh (p1).</strong> a saw touched it", "Nothing more is done with it")

	stop("CO-31", "2026-06-02", "hold", "an accident")
	has(t, "the form of what is held", c.get("/piece/CO-31/examine?kind=thorough"), 200, "It is held sealed.")
	has(t, "held", c.get("/piece/CO-31"), 200, "Keep it sealed and uncut until authority and insurer release it", `href="/piece/CO-31/stop?what=release"`)
}

// harness registers a harness.
func harness(t *testing.T, a *app.App, id string) {
	t.Helper()
	of := recordOf(t, a, "BR-09").Piece
	p := kit.Piece{ID: id, Kind: "harness", Marking: of.Marking, Origin: of.Origin, History: of.History, Made: of.Made, FirstUse: of.FirstUse}
	if _, err := a.AddPiece(t.Context(), app.Who{Person: "p1"}, p); err != nil {
		t.Fatal(err)
	}
}

// TestReplacement: the page of what was withdrawn from an assembly says what can
// take its place, and then what did.
func TestReplacement(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	ctx := context.Background()
	harness(t, a, "HA-77")
	if _, err := a.Fit(ctx, app.Who{Person: "p1"}, "BR-09", a.Today(), fold.Fit{In: "HA-77", Allowed: kit.SaidYes, Document: "list of parts"}); err != nil {
		t.Fatal(err)
	}
	if _, err := a.Stop(ctx, app.Who{Person: "p1"}, "BR-09", a.Today(), fold.Stop{What: "withdraw", Why: "worn"}); err != nil {
		t.Fatal(err)
	}
	has(t, "no spare", c.get("/piece/BR-09"), 200, "no spare is in the store", `href="/new/piece?kind=bridge"`)
}

// TestSetAside: what a person set aside says so, has no date of a next look, and
// stands on the first page with something to be done.
func TestSetAside(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	if _, err := a.Stop(context.Background(), app.Who{Person: "p1"}, "LI-12", a.Today(), fold.Stop{What: "set aside", Why: "it feels flat"}); err != nil {
		t.Fatal(err)
	}
	p := c.get("/piece/LI-12")
	has(t, "set aside", p, 200, "Set aside on 2 Jun 2026 by Tilda Marsh (p1): it feels flat", "None is set while it is set aside.", `<a class="go" href="/piece/LI-12/stop">`)
	lacks(t, "set aside", p.Body.String(), "Nothing on record speaks against keeping it", "The next thorough examination is due")
	today := c.get("/")
	has(t, "today", today, 200, `<a class="go" href="/piece/LI-12/stop">`)
	for _, x := range strings.Split(today.Body.String(), `<p class="about">`)[1:] {
		if task, _, _ := strings.Cut(x, "</li>"); !strings.Contains(task, `<a class="go"`) {
			t.Errorf("nothing is to be done: %s", task)
		}
	}
}

// TestTwoBridges: a second bridge in one harness is asked about before it is
// entered, and is entered once that was answered.
func TestTwoBridges(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	in := recordOf(t, a, "BR-07").Piece.Fitted.In
	if in == "" {
		t.Fatal("BR-07 is fitted nowhere")
	}
	has(t, "not there", c.post("/piece/BR-09/fit", url.Values{"id": {idOf(t, c, "/piece/BR-09/fit")}, "in": {"HA-98"}, "allowed": {"yes"}, "document": {"list"}, "day": {"2 Jun 2026"}}), 422, "No piece “HA-98” is in the book: register")
	harness(t, a, in)
	v := url.Values{"id": {idOf(t, c, "/piece/BR-09/fit")}, "in": {in}, "allowed": {"yes"}, "document": {"list"}, "day": {"2 Jun 2026"}}
	before := size(t, a)
	has(t, "nothing said", c.post("/piece/BR-09/fit", with(v, "in", "")), 422, "or tick that it was taken out")
	has(t, "both said", c.post("/piece/BR-09/fit", with(v, "out", "yes")), 422, "not both")
	has(t, "asked", c.post("/piece/BR-09/fit", v), 422, "BR-07 is fitted to "+in+" already", "Take BR-07 out first", `href="/piece/BR-07/fit"`, `name="both"`)
	if n := size(t, a); n != before {
		t.Fatalf("the book grew from %d to %d", before, n)
	}
	for range 2 {
		if w := c.post("/piece/BR-09/fit", with(v, "both", "yes")); w.Code != 303 {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	if got := recordOf(t, a, "BR-09").Piece.Fitted.In; got != in || size(t, a) != before+1 {
		t.Errorf("fitted to %q, %d entries", got, size(t, a)-before)
	}
	if w := c.post("/piece/BR-09/fit", url.Values{"id": {idOf(t, c, "/piece/BR-09/fit")}, "out": {"yes"}, "day": {"2 Jun 2026"}}); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	if got := recordOf(t, a, "BR-09").Piece.Fitted.In; got != "" {
		t.Errorf("taken out, and fitted to %q", got)
	}
}

// TestWhoEntered: the history and the entries name who entered what, for whom, and
// on which day where that was another; also somebody who has left.
func TestWhoEntered(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	ctx := context.Background()
	if _, err := a.Examine(ctx, app.Who{Person: "ines"}, "LI-12", kit.Examination{Kind: kit.PreUse, Day: a.Today() - 3, By: "rolf", WouldClimb: kit.SaidYes,
		Looks: []kit.Look{{Look: kit.Eye, By: "rolf", Covers: []kit.Stretch{{All: true}}}}}); err != nil {
		t.Fatal(err)
	}
	if _, err := a.Happen(ctx, app.Who{Person: "ines"}, "LI-12", kit.Event{Event: "saw-contact", Day: a.Today(), Travel: -1, Peak: -1}); err != nil {
		t.Fatal(err)
	}
	if _, err := a.EnterPerson(ctx, app.Who{Person: "p1"}, app.Member{Person: kit.Person{ID: "ines"}, Left: true, Keep: true}); err != nil {
		t.Fatal(err)
	}
	has(t, "history", c.get("/piece/LI-12"), 200, "entered by Ines Okoro (ines) for rolf on 2 Jun 2026", `<span class="by">entered by Ines Okoro (ines)</span>`)
	has(t, "entries", c.get("/piece/LI-12/entries"), 200, "entered by Ines Okoro (ines) for rolf on 2 Jun 2026 · number")
	has(t, "people", c.get("/people"), 200, "Ines Okoro (ines)")
}

// TestNobodyActs: where nobody is chosen none is shown as chosen, nothing of an
// author is filled in, and nobody can be chosen again.
func TestNobodyActs(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "")
	page := c.get("/").Body.String()
	_, foot, _ := strings.Cut(page, `<select id="person"`)
	foot, _, _ = strings.Cut(foot, "</select>")
	if !strings.Contains(foot, `<option value="">Nobody`) || strings.Contains(foot, " selected") {
		t.Errorf("the foot: %s", foot)
	}
	me := visit(t, a, "p1")
	w := me.post("/person", url.Values{"person": {""}, "back": {"/"}})
	if list := w.Result().Cookies(); w.Code != 303 || len(list) != 1 || list[0].MaxAge >= 0 {
		t.Errorf("nobody: %d, %v", w.Code, list)
	}
}
