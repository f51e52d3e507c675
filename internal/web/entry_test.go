package web

import (
	"context"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

var idField = regexp.MustCompile(`name="id" value="([^"]+)"`)

// idOf gives the id that a form was given.
func idOf(t *testing.T, c *client, path string) string {
	t.Helper()
	m := idField.FindStringSubmatch(c.get(path).Body.String())
	if m == nil {
		t.Fatalf("%s: the form has no id", path)
	}
	return m[1]
}

// filled is a thorough examination of the bridge BR-07, on which a cut was seen.
func filled(id string) url.Values {
	v := url.Values{"id": {id}, "kind": {"thorough"}, "day": {"2 Jun 2026"}, "by": {"p1"}, "would": {"yes"}, "signed": {"p1"}, "signs": {"1"}, "readings": {"2"},
		"all.light": {"good"}, "all.cleaned": {"yes"}, "look.hand.light": {"poor"}, "latest": {"Nov 2026"}, "ref": {"E-26-06-02"}}
	for _, c := range conditionNames[1:] {
		v.Set("all."+c, "no")
	}
	for _, l := range kit.Looks[:7] {
		v.Set("look."+string(l), "yes")
		v.Set("look."+string(l)+".covers", "all")
	}
	v.Del("look.bight.covers")
	v.Set("look.bight.stretches", "0 mm to 400 mm\n400 to 700")
	v.Add("look.bight.part", "end A")
	v.Set("sign.0.sign", "cover-cut")
	v.Set("sign.0.from", "300")
	v.Set("sign.0.to", "310mm")
	v.Set("sign.0.words", "a nick <of> the cover")
	v.Set("reading.0.quantity", "diameter")
	v.Set("reading.0.from", "200")
	v.Set("reading.0.values", "12.5, 12.6 mm")
	v.Set("reading.0.gauge", "calliper C2")
	return v
}

// TestExaminationGoesIn: a filled form becomes the examination in the book, and
// the page then shows the outcome that follows from it.
func TestExaminationGoesIn(t *testing.T) {
	a := yard(t)
	ctx := context.Background()
	c := visit(t, a, "p1")
	if j, err := a.Judge(ctx, "BR-07", a.Today(), false); err != nil || j.Outcome.Verdict != kit.Keep {
		t.Fatalf("before: %v, %v", j.Outcome.Verdict, err)
	}
	v := filled(idOf(t, c, "/piece/BR-07/examine?kind=thorough"))
	w := c.post("/piece/BR-07/examine", v)
	if w.Code != 303 || !strings.HasPrefix(w.Header().Get("Location"), "/piece/BR-07?entered=") {
		t.Fatalf("%d, %v: %s", w.Code, w.Header(), w.Body)
	}
	j, err := a.Judge(ctx, "BR-07", a.Today(), false)
	if err != nil {
		t.Fatal(err)
	}
	e := j.Record.Examinations[len(j.Record.Examinations)-1]
	if e.Kind != kit.Thorough || e.By != "p1" || e.SignedBy != "p1" || e.WouldClimb != kit.SaidYes || len(e.Looks) != 7 || e.Latest != (qty.PartialDate{Year: 2026, Month: 11}) {
		t.Errorf("in the book: %+v", e)
	}
	if len(e.Signs) != 1 || e.Signs[0].Sign != "cover-cut" || e.Signs[0].At.From != 300*qty.Millimetre || e.Signs[0].At.To != 310*qty.Millimetre {
		t.Errorf("signs: %+v", e.Signs)
	}
	if len(e.Readings) != 1 || len(e.Readings[0].Values) != 2 || e.Readings[0].Values[0] != 12500 || e.Readings[0].At.From != 200*qty.Millimetre {
		t.Errorf("readings: %+v", e.Readings)
	}
	for _, l := range e.Looks {
		switch {
		case l.Look == kit.Hand && l.Conditions.Light != "poor", l.Look == kit.Eye && l.Conditions.Light != "good", l.Conditions.Cleaned != kit.SaidYes:
			t.Errorf("%s: conditions %+v", l.Look, l.Conditions)
		case l.Look == kit.Bight && len(l.Covers) != 3, l.Look == kit.Eye && !l.Covers[0].All:
			t.Errorf("%s: covers %+v", l.Look, l.Covers)
		}
	}
	has(t, "after", c.get(w.Header().Get("Location")), 200, "entry number", `<p class="verdict">Withdraw</p>`, "a nick &lt;of&gt; the cover", "Signed by Tilda Marsh",
		"It does not count as this yet: thorough examination.", "put right by a correction")
	if strings.Contains(c.get("/piece/BR-07").Body.String(), "It does not count") {
		t.Error("told also when nothing was just entered")
	}
	// The same form again is not a second examination.
	n := len(j.Record.Examinations)
	again := c.post("/piece/BR-07/examine", v)
	if j, err = a.Judge(ctx, "BR-07", a.Today(), false); err != nil || len(j.Record.Examinations) != n {
		t.Errorf("handed in twice: %d and then %d examinations, %v (%d)", n, len(j.Record.Examinations), err, again.Code)
	}
}

// TestNothingTypedIsLost: what cannot be entered is told beside the form, which
// still holds everything that was typed.
func TestNothingTypedIsLost(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	_, before, _ := a.About(context.Background())
	good := filled("")
	for name, bad := range map[string]struct {
		field, value, says string
	}{
		"day":          {"day", "someday", "Write the day as 3 Feb 2027"},
		"place":        {"sign.0.from", "12 furlongs", "furlongs"},
		"no place":     {"sign.0.from", "", "Say where it is."},
		"both places":  {"sign.0.part", "end A", "either a part or a stretch"},
		"beyond":       {"sign.0.to", "9 m", "beyond the end"},
		"no sign":      {"sign.0.sign", "", "Choose the sign"},
		"stretch":      {"look.bight.stretches", "0 mm to 400 mm\nsome of it", "is no stretch"},
		"values":       {"reading.0.values", "thin", "thin"},
		"the future":   {"day", "2 Jun 2027", "future"},
		"not a person": {"by", "", ": choose one."},
		"no form id":   {"id", "17", "lost its id"},
	} {
		v := url.Values{}
		for k, x := range good {
			v[k] = x
		}
		v.Set(bad.field, bad.value)
		w := c.post("/piece/BR-07/examine", v)
		has(t, name, w, 422, "Nothing was entered yet.", bad.says, "a nick &lt;of&gt; the cover", `value="calliper C2"`, "Nov 2026", "0 mm to 400 mm")
		if bad.value != "" && bad.field != "sign.0.part" && bad.field != "id" {
			has(t, name, w, 422, bad.value)
		}
	}
	// Another row keeps what was typed as well.
	v := filled("")
	v.Set("more", "signs")
	has(t, "another row", c.post("/piece/BR-07/examine", v), 200, `name="sign.1.sign"`, "a nick &lt;of&gt; the cover", `value="calliper C2"`)
	nobody := visit(t, a, "")
	nobody.h = c.h
	has(t, "nobody acts", nobody.post("/piece/BR-07/examine", good), 422, "Choose who you are; then this can be entered.", "a nick &lt;of&gt; the cover")
	if _, after, _ := a.About(context.Background()); after != before {
		t.Errorf("the book grew from %d to %d entries", before, after)
	}
}

// TestWhoIsSaidInTheForm: where nobody is chosen, the form itself asks, so that
// what was typed is not lost over the choice.
func TestWhoIsSaidInTheForm(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "")
	has(t, "form", c.get("/piece/BR-07/stop"), 200, `name="as"`, "no accounts yet")
	v := url.Values{"what": {"set aside"}, "why": {"to be looked at"}, "day": {"2 Jun 2026"}, "as": {"stranger"}}
	has(t, "a stranger", c.post("/piece/BR-07/stop", v), 422, "Choose who you are", "to be looked at")
	v.Set("as", "rolf")
	w := c.post("/piece/BR-07/stop", v)
	if w.Code != 303 || len(w.Result().Cookies()) != 1 || w.Result().Cookies()[0].Value != "rolf" {
		t.Errorf("%d, %v", w.Code, w.Header())
	}
	deeds, err := a.Deeds(context.Background(), "BR-07")
	if err != nil || len(deeds) != 1 || deeds[0].By != "rolf" || deeds[0].What != "set aside" {
		t.Errorf("%+v, %v", deeds, err)
	}
	has(t, "after", c.get("/piece/BR-07"), 200, `<p class="verdict">Set aside</p>`, "to be looked at")
}

// TestOtherForms: an event, an answer and a withdrawal go in by their forms.
func TestOtherForms(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	stands := func(id string) kit.Verdict {
		card, err := a.CardOf(context.Background(), id, a.Today())
		if err != nil {
			t.Fatal(err)
		}
		return card.Stands()
	}
	if stands("BR-07") != kit.Keep {
		t.Fatalf("BR-07 begins as %s", stands("BR-07"))
	}
	has(t, "no event", c.post("/piece/BR-07/event", url.Values{"day": {"2 Jun 2026"}, "words": {"it slipped"}}), 422, ": choose one.", "it slipped")
	w := c.post("/piece/BR-07/event", url.Values{"id": {idOf(t, c, "/piece/BR-07/event")}, "event": {"saw-contact"}, "day": {"2 Jun 2026"}, "at.from": {"300"}, "words": {"touched while limbing"}})
	if w.Code != 303 || stands("BR-07") != kit.Withdraw {
		t.Errorf("after a saw's touch: %d, %s", w.Code, stands("BR-07"))
	}
	has(t, "after", c.get("/piece/BR-07"), 200, "touched while limbing", "Where along the piece")

	has(t, "no reason", c.post("/piece/CO-31/stop", url.Values{"what": {"withdraw"}, "day": {"2 Jun 2026"}}), 422, "Say why.")
	w = c.post("/piece/CO-31/stop", url.Values{"what": {"withdraw"}, "why": {"lent and lost sight of"}, "day": {"2 Jun 2026"}})
	if w.Code != 303 || stands("CO-31") != kit.Withdraw {
		t.Errorf("withdrawn: %d, %s", w.Code, stands("CO-31"))
	}
	has(t, "back", c.post("/piece/CO-31/stop", url.Values{"what": {"back in use"}, "why": {"found"}, "day": {"2 Jun 2026"}}), 403, "withdrawn for good", "found")

	w = c.post("/piece/LI-12/event", url.Values{"event": {"spill"}, "substance": {"unknown"}, "amount": {"splash"}, "day": {"2 Jun 2026"}, "ref": {"S-1"}})
	if w.Code != 303 || stands("LI-12") < kit.SetAside {
		t.Fatalf("after a spill: %d, %s: %s", w.Code, stands("LI-12"), w.Body)
	}
	has(t, "answer", c.get("/piece/LI-12/answer"), 200, `value="S-1"`)
	w = c.post("/piece/LI-12/answer", url.Values{"to": {"S-1"}, "verified": {"smelt and washed"}, "document": {"letter of its maker"}, "day": {"2 Jun 2026"}})
	if w.Code != 303 {
		t.Errorf("answer: %d %s", w.Code, w.Body)
	}
	has(t, "answered", c.get("/piece/LI-12"), 200, "letter of its maker")
}
