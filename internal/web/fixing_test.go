package web

import (
	"net/url"
	"strings"
	"testing"

	"kernbook/internal/app"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// TestEveryEntryHasItsForm: the form that corrects an entry says what the entry says,
// for everything in the yard of the examples; only what no form can hold, as looks
// of many days that went over a part, is left to be written as text, and nothing of it is lost.
func TestEveryEntryHasItsForm(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	for _, x := range filledForms { // one of each sort that is made by a form
		v := with(x.typed, "id", idOf(t, c, x.path))
		path, _, _ := strings.Cut(x.path, "?")
		if w := c.post(path, v); w.Code != 303 {
			t.Fatalf("%s: %d", x.name, w.Code)
		}
	}
	if _, err := a.Answer(t.Context(), app.Who{Person: "p1"}, "BR-07", kit.Answer{Day: a.Today(), To: "identity", Verified: "by its number", By: "p1", Document: "register, page 2"}); err != nil {
		t.Fatal(err)
	}
	if _, err := a.Wash(t.Context(), app.Who{Person: "p1"}, "BR-07", a.Today(), fold.Washing{With: "soap", Clean: kit.SaidYes}); err != nil {
		t.Fatal(err)
	}
	seen, without := map[entry.Kind]int{}, map[entry.Kind]int{}
	for _, r := range examples(t) {
		lines, err := a.Entries(t.Context(), r.Piece.ID)
		if err != nil {
			t.Fatal(err)
		}
		for i := range lines {
			l := &lines[i]
			at := "/piece/" + r.Piece.ID + "/entry/" + l.ID.String()
			page := c.get(at)
			if !strings.Contains(page.Body.String(), at+"/form") {
				without[l.Kind]++
				has(t, at, page, 200, `name="instead"`)
				has(t, at, c.get(at+"/form"), 404, "its form does not hold")
				continue
			}
			seen[l.Kind]++
			lacks(t, at, page.Body.String(), `name="instead"`)
			form := c.get(at + "/form")
			has(t, at, form, 200, "Correction of entry", "What was wrong, and how that is known", "Show what it changes")
			v := typedIn(form.Body.String())
			v.Set("wrong", "a slip")
			before := size(t, a)
			if w := c.post(at+"/form", v); w.Code != 422 || !strings.Contains(w.Body.String(), "stands there already") {
				t.Errorf("%s, %s: handed in as it is, the form says something else: %d\n%s\n%v", at, l.Kind, w.Code, l.Body, v)
			}
			if size(t, a) != before {
				t.Fatal("the book grew")
			}
		}
	}
	for _, k := range []entry.Kind{entry.Piece, entry.Amend, entry.Use, entry.Run, entry.Examination, entry.Event, entry.Answer, entry.Washing, entry.Change, entry.Fit, entry.Hang, entry.Stop} {
		if seen[k] == 0 {
			t.Errorf("no entry of the kind %s has a form", k)
		}
		if k != entry.Run && without[k] > 0 {
			t.Errorf("%s: %d have a form, %d have none", k, seen[k], without[k])
		}
	}
	if without[entry.Run] != 1 { // of BR-07, part of whose looks went only over a stretch
		t.Errorf("%d runs have no form", without[entry.Run])
	}
}

// TestCorrectByForm: an examination written anew by its form counts as written, with
// what it changes shown first.
func TestCorrectByForm(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	if w := c.post("/piece/LI-12/wash", url.Values{"id": {idOf(t, c, "/piece/LI-12/wash")}, "with": {"soap"}, "clean": {"yes"}, "day": {"2 Jun 2026"}}); w.Code != 303 {
		t.Fatalf("%d", w.Code)
	}
	lines, err := a.Entries(t.Context(), "LI-12")
	if err != nil {
		t.Fatal(err)
	}
	at := "/piece/LI-12/entry/" + lines[len(lines)-1].ID.String() + "/form"
	v := typedIn(c.get(at).Body.String())
	if v.Get("with") != "soap" || v.Get("clean") != "yes" {
		t.Fatalf("filled with %v", v)
	}
	v.Set("with", "lukewarm water")
	v.Set("wrong", "no soap was there")
	shown := c.post(at, v)
	has(t, "shown", shown, 200, "was: soap", "now: lukewarm water")
	v = typedIn(shown.Body.String())
	v.Set("sure", "yes")
	if w := c.post(at, v); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	has(t, "history", c.get("/piece/LI-12"), 200, "With lukewarm water.", "no soap was there")
}
