package web

import (
	"bytes"
	"context"
	"html"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/tables"
)

var (
	inputTag  = regexp.MustCompile(`<input ([^>]*)>`)
	areaTag   = regexp.MustCompile(`(?s)<textarea ([^>]*)>(.*?)</textarea>`)
	selectTag = regexp.MustCompile(`(?s)<select ([^>]*)>(.*?)</select>`)
	chosen    = regexp.MustCompile(`<option value="([^"]*)" selected>`)
	attribute = regexp.MustCompile(`(name|value|type)="([^"]*)"`)
)

// typedIn gives what stands in the form of a page, as a browser would hand it in.
func typedIn(page string) url.Values {
	page, _, _ = strings.Cut(page, `<nav class="day"`)
	v := url.Values{}
	at := func(tag string) map[string]string {
		out := map[string]string{}
		for _, m := range attribute.FindAllStringSubmatch(tag, -1) {
			out[m[1]] = html.UnescapeString(m[2])
		}
		return out
	}
	for _, m := range inputTag.FindAllStringSubmatch(page, -1) {
		x := at(m[1])
		if (x["type"] == "radio" || x["type"] == "checkbox") && !strings.HasSuffix(m[1], " checked") {
			continue
		}
		v.Add(x["name"], x["value"])
	}
	for _, m := range areaTag.FindAllStringSubmatch(page, -1) {
		v.Add(at(m[1])["name"], html.UnescapeString(m[2]))
	}
	for _, m := range selectTag.FindAllStringSubmatch(page, -1) {
		value := ""
		if o := chosen.FindStringSubmatch(m[2]); o != nil {
			value = html.UnescapeString(o[1])
		}
		v.Add(at(m[1])["name"], value)
	}
	return v
}

// examined enters a thorough examination of BR-07 in which nothing was seen.
func examined(t *testing.T, c *client) {
	t.Helper()
	v := filled(idOf(t, c, "/piece/BR-07/examine?kind=thorough"))
	v.Del("sign.0.sign")
	v.Del("sign.0.from")
	v.Del("sign.0.to")
	v.Del("sign.0.words")
	v.Set("look.bight.covers", "all")
	v.Set("known.grey-1.state", "same")
	for _, q := range tables.Default().Kind(kit.Bridge).Asks {
		v.Set("ask."+q.ID, "no")
	}
	v.Set("readings", "3")
	for i, at := range []string{"150", "450", "750"} {
		v.Set(key("reading", i)+".quantity", "diameter")
		v.Set(key("reading", i)+".from", at)
		v.Set(key("reading", i)+".values", "12.5, 12.6, 12.5 mm")
		v.Set(key("reading", i)+".wet", "no")
	}
	v.Del("look.bight.part")
	v.Del("look.bight.stretches")
	if w := c.post("/piece/BR-07/examine", v); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
}

// decision is a decision on that examination.
func decision(id string) url.Values {
	return url.Values{"id": {id}, "examination": {"E-26-06-02"}, "verdict": {"set aside"}, "why": {"I want to see it <dry> first"}, "latest": {"1 Nov 2026"}, "number": {"R-1"}, "employer": {"Quillbrook, Mill Lane 4"},
		"premises": {"the store"}, "occasion": {"six-monthly"}, "load": {"none stated"}, "tests": {"none"}, "defect": {"damp core"}, "repair": {"dry it"}, "not_looked": {"under the sleeve"},
		"danger_by": {"1 Aug 2026"}, "authentic": {"Tilda Marsh, Mill Lane 4"}, "self_employed": {"yes"}}
}

// TestDecision: a competent person's decision goes in with its reasons and its
// report, never looser than the outcome, and its papers can be had.
func TestDecision(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	has(t, "no report yet", c.get("/piece/BR-07/report"), 404, "nothing to report")
	has(t, "no link yet", c.get("/piece/BR-07"), 200, "/piece/BR-07/card.pdf", "A report can be made once")
	if strings.Contains(c.get("/").Body.String(), "/piece/BR-07/decide") {
		t.Error("a decision is asked for with nothing to decide on")
	}
	examined(t, c)
	has(t, "asked for", c.get("/"), 200, `href="/piece/BR-07/decide"`)
	v := decision(idOf(t, c, "/piece/BR-07/decide"))
	before := size(t, a)
	for field, bad := range map[string][2]string{"verdict": {"", ": choose one."}, "examination": {"", ": choose one."}, "why": {"", "Give your reasons"}, "latest": {"next year", "Write the date as"}, "defect": {"", "Name the defect"}} {
		has(t, field, c.post("/piece/BR-07/decide", with(v, field, bad[0])), 422, bad[1], "under the sleeve", `value="R-1"`)
	}
	has(t, "a climber", visit(t, a, "rolf").post("/piece/BR-07/decide", v), 403, "competent person", "I want to see it &lt;dry&gt; first")
	if n := size(t, a); n != before {
		t.Fatalf("the book grew from %d to %d entries", before, n)
	}
	for range 2 {
		if w := c.post("/piece/BR-07/decide", v); w.Code != 303 {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	all, err := a.Decisions(context.Background(), "BR-07")
	if err != nil || len(all) != 1 || size(t, a) != before+1 {
		t.Fatalf("%d decisions, %v", len(all), err)
	}
	if strings.Contains(c.get("/").Body.String(), "/piece/BR-07/decide") {
		t.Error("the decision is asked for again")
	}
	// The decision takes effect with its entry.
	has(t, "set aside", c.get("/piece/BR-07"), 200, "Set aside on 2 Jun 2026 by Tilda Marsh (p1): I want to see it &lt;dry&gt; first", "/piece/BR-07/stop")
	has(t, "set aside", c.get("/"), 200, "Set aside: I want to see it &lt;dry&gt; first", "/piece/BR-07/stop")
	d := all[0]
	want := fold.Report{Number: "R-1", Employer: "Quillbrook, Mill Lane 4", Premises: "the store", Occasion: "six-monthly", Load: "none stated", Tests: "none", Defect: "damp core", Repair: "dry it",
		NotLooked: "under the sleeve", DangerBy: "1 Aug 2026", Authentic: "Tilda Marsh, Mill Lane 4", SelfEmploy: true}
	if d.Verdict != "set aside" || d.Why != "I want to see it <dry> first" || d.Latest != "2026-11-01" || !d.Report.Same(&want) || d.Core != nil || d.Recorded != nil {
		t.Errorf("in the book: %+v", d.Decision)
	}
	has(t, "next form holds the yard's particulars", c.get("/piece/BR-07/decide"), 200, "Quillbrook, Mill Lane 4", `value="Tilda Marsh, Mill Lane 4"`)
	for _, who := range []string{"", "ines"} { // what is said of its author is nobody else's
		lacks(t, "the form of "+who, visit(t, a, who).get("/piece/BR-07/decide").Body.String(), "Mill Lane 4; examiner", `value="Tilda Marsh, Mill Lane 4"`)
	}
	has(t, "piece", c.get("/piece/BR-07"), 200, "Decided: set aside", "I want to see it &lt;dry&gt; first", "The outcome given with it:", "/piece/BR-07/report.pdf")

	has(t, "report", c.get("/piece/BR-07/report"), 200, "Report of thorough examination", "I want to see it &lt;dry&gt; first", "under the sleeve", "Part found to have a defect", "could become one", "1 Aug 2026", "trained to examine", "Nothing that was seen", "/piece/BR-07/report.pdf", "/piece/BR-07/report?annex=yes")
	if strings.Contains(c.get("/piece/BR-07/report").Body.String(), "Annex, added by the competent person") {
		t.Error("the annex is there though nobody asked for it")
	}
	has(t, "annex", c.get("/piece/BR-07/report?annex=yes"), 200, "Annex, added by the competent person", "/piece/BR-07/report.pdf?annex=yes")
	has(t, "card", c.get("/piece/BR-07/card"), 200, "Record card", "Trade name, as its maker sells it", "damp core")
	for _, p := range []string{"/piece/BR-07/report.pdf", "/piece/BR-07/report.pdf?annex=yes", "/piece/BR-07/card.pdf", "/register.pdf"} {
		w := c.get(p)
		if w.Code != 200 || w.Header().Get("Content-Type") != "application/pdf" || !bytes.HasPrefix(w.Body.Bytes(), []byte("%PDF-")) || w.Body.Len() < 10_000 {
			t.Errorf("%s: %d, %v, %d bytes", p, w.Code, w.Header(), w.Body.Len())
		}
	}
}

// TestReportStaysAsDecided: what comes on record after a decision, also of a day
// before it, stands apart; the record attached is the one decided on, and its
// outcome the one given.
func TestReportStaysAsDecided(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	examined(t, c)
	if w := c.post("/piece/BR-07/decide", decision(idOf(t, c, "/piece/BR-07/decide"))); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	ctx := context.Background()
	before, err := a.ReportFacts(ctx, "BR-07", true)
	if err != nil {
		t.Fatal(err)
	}
	if before.Sum != before.Decision.Record || before.Outcome.Verdict.String() != before.Decision.Outcome || before.Leaf == "" {
		t.Errorf("attached %s, decided on %s; %v, given was %s", before.Sum, before.Decision.Record, before.Outcome.Verdict, before.Decision.Outcome)
	}
	if _, err := a.Happen(ctx, app.Who{Person: "p1"}, "BR-07", kit.Event{Ref: "saw-9", Day: before.Decided - 9, Event: "saw-contact", Travel: -1, Peak: -1, Words: "told late"}); err != nil {
		t.Fatal(err)
	}
	after, err := a.ReportFacts(ctx, "BR-07", true)
	if err != nil || !bytes.Equal(after.Machine, before.Machine) || after.Outcome.Verdict != before.Outcome.Verdict {
		t.Errorf("the report is another one now: %v", err)
	}
	page := c.get("/piece/BR-07/report").Body.String()
	_, since, _ := strings.Cut(page, "Not part of the report")
	if !strings.Contains(since, "told late") || strings.Count(page, "told late") != 1 {
		t.Error("what came since does not stand apart")
	}
	has(t, "card", c.get("/piece/BR-07/card"), 200, "told late")
	has(t, "register", c.get("/register/paper"), 200, "Came on record after the last report", "told late")
}

// TestLackingIsTold: whoever decides is told, before it is made, which particulars
// the report would not state; it is entered so only when they say that it is to be.
func TestLackingIsTold(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	examined(t, c)
	v := decision(idOf(t, c, "/piece/BR-07/decide"))
	v.Set("defects", "1")
	before := size(t, a)
	for field, label := range map[string]string{"employer": "Employer for whom it was made", "premises": "Address of the premises", "occasion": "Which thorough examination it was", "load": "Safe working load",
		"tests": "Particulars of any test", "number": "Number of the report", "danger_by": "Time by which it could become a danger", "repair": "Repair, renewal or alteration", "self_employed": "Self-employed, or else"} {
		has(t, field, c.post("/piece/BR-07/decide", with(v, field, "")), 422, "The report would not state", "<li>"+label, `name="lacking"`)
	}
	if n := size(t, a); n != before {
		t.Fatalf("the book grew from %d to %d entries", before, n)
	}
	has(t, "a danger twice", c.post("/piece/BR-07/decide", with(v, "immediate", "yes")), 422, "not both")
	has(t, "a repair of nothing", c.post("/piece/BR-07/decide", with(v, "more.0.repair", "sew")), 422, "Name the defect")
	v.Set("more.0.defect", "stitch cut at end B")
	v.Set("more.0.immediate", "yes")
	v.Set("more.0.repair", "new stitch by the maker")
	if w := c.post("/piece/BR-07/decide", with(with(v, "load", ""), "lacking", "yes")); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	has(t, "report", c.get("/piece/BR-07/report"), 200, "Defect 2 of 2", "stitch cut at end B", "new stitch by the maker", `<span class="missing">not stated</span>`)
}

// TestNeverLooser: the form does not offer a decision looser than the outcome,
// and one that is handed in all the same is refused.
func TestNeverLooser(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	page := c.get("/piece/BR-09/decide")
	has(t, "form", page, 200, `value="withdraw"`)
	if strings.Contains(page.Body.String(), `name="verdict" value="keep"`) {
		t.Error("the form offers to keep a piece whose outcome is withdraw")
	}
	has(t, "handed in", c.post("/piece/BR-09/decide", url.Values{"examination": {"E-26-06"}, "verdict": {"keep"}, "why": {"I like it"}}), 403, "never looser", "I like it")
}

// TestRegisterPaper: the register lists every piece, and names what was not
// presented at a visit.
func TestRegisterPaper(t *testing.T) {
	c := visit(t, yard(t), "p1")
	has(t, "register", c.get("/register"), 200, "BR-07", "LI-12", `href="/register/paper"`, `href="/register.pdf"`)
	q := "?visit=yes&here=BR-07&here=LI-12"
	has(t, "visit", c.get("/register"+q), 200, "Not presented: 4.", `value="BR-07" checked`, `href="/register.pdf?visit=yes&amp;here=BR-07&amp;here=LI-12"`)
	page := c.get("/register/paper" + q)
	has(t, "paper", page, 200, "On the register and not presented")
	_, missing, _ := strings.Cut(page.Body.String(), "On the register and not presented")
	for id, want := range map[string]bool{"BR-07": false, "LI-12": false, "BR-09": true, "CO-31": true} {
		if strings.Contains(missing, ">"+id+"</th>") != want {
			t.Errorf("%s among what was not presented: want %v", id, want)
		}
	}
	if w := c.get("/register.pdf" + q); w.Code != 200 || !bytes.HasPrefix(w.Body.Bytes(), []byte("%PDF-")) {
		t.Errorf("%d", w.Code)
	}
	has(t, "all were there", c.get("/register/paper"), 200, "not asked which pieces were presented")
}

// TestDay: every link of what is done when leads to a page, for one piece and
// for the choice of one, and no page that is got changes the book.
func TestDay(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "ines")
	s := New(a)
	before := size(t, a)
	for _, piece := range []*app.Card{nil, {ID: "BR-07"}} {
		for _, time := range s.times(piece) {
			for _, l := range time.Links {
				has(t, l.Path, c.get(l.Path), 200, "What is done when")
			}
		}
	}
	page := c.get("/do/hang")
	has(t, "choose", page, 200, "Which piece?", `href="/piece/BR-07/hang"`)
	if b := page.Body.String(); strings.Index(b, "Ines Okoro (ines)</h2>") > strings.Index(b, "rolf</h2>") {
		t.Error("what whoever acts holds does not come first")
	}
	has(t, "nothing to do", c.get("/do/nothing"), 404, "There is no such page.")
	for _, p := range []string{"/people/ines", "/people/ines/forget", "/limit", "/new/person", "/new/record", "/new/piece?kind=helmet", "/register?visit=yes", "/register/paper"} {
		has(t, p, c.get(p), 200, "What is done when")
	}
	if n := size(t, a); n != before {
		t.Errorf("the book grew from %d to %d entries by pages that were got", before, n)
	}
	if w := c.do(httptest.NewRequest("GET", "/people/stranger", nil)); w.Code != 404 {
		t.Errorf("/people/stranger: %d", w.Code)
	}
}
