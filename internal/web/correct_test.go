package web

import (
	"net/url"
	"path/filepath"
	"strings"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// TestCorrection: an entry that was wrong is taken out or written anew; the
// page of the correction shows what that changed, and an outcome that was given
// before stays, with what would be said today beside it.
func TestCorrection(t *testing.T) {
	a := yard(t)
	ctx := t.Context()
	c := visit(t, a, "p1")
	w := c.post("/piece/BR-07/event", url.Values{"event": {"saw-contact"}, "day": {"2 Jun 2026"}, "at.from": {"300"}, "words": {"touched while limbing"}})
	if w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	examined(t, c)
	if w := c.post("/piece/BR-07/decide", with(decision(idOf(t, c, "/piece/BR-07/decide")), "verdict", "withdraw")); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	lines, err := a.Entries(ctx, "BR-07")
	if err != nil {
		t.Fatal(err)
	}
	event := ""
	for _, l := range lines {
		if l.Kind == "event" && strings.Contains(string(l.Body), "limbing") {
			event = l.ID.String()
		}
	}
	at := "/piece/BR-07/entry/" + event
	has(t, "entries", c.get("/piece/BR-07/entries"), 200, at, "Something happened")
	has(t, "entry", c.get(at), 200, "saw-contact", "touched while limbing")
	has(t, "its form", c.get(at), 200, `href="`+at+`/form"`, "Or it should not be there at all")
	form := at + "/form"
	has(t, "filled", c.get(form), 200, "Correction of entry", `value="saw-contact" selected`, ">touched while limbing</textarea>", `value="300 mm"`, `value="2 Jun 2026"`)
	v := typedIn(c.get(form).Body.String())
	v.Set("wrong", "it was the sling, seen by two")
	before := size(t, a)
	has(t, "no reason", c.post(form, with(v, "wrong", "")), 422, "Say why the entry was wrong.", "limbing")
	has(t, "the same", c.post(form, v), 422, "stands there already", "seen by two")
	has(t, "no such event", c.post(form, with(v, "event", "saw")), 422, "saw", "seen by two")
	has(t, "another piece's", c.get("/piece/LI-12/entry/"+event), 404, "No entry")
	has(t, "no entry", c.get("/piece/BR-07/entry/17"), 404, "There is no such entry.")
	if n := size(t, a); n != before {
		t.Fatalf("the book grew from %d to %d entries", before, n)
	}

	// Written anew: the words alone. What it changes is shown before it is entered.
	v.Set("words", "touched while topping")
	shown := c.post(form, v)
	has(t, "shown first", shown, 200, "Nothing is entered yet.", "was: touched while limbing", "now: touched while topping", "The outcome and its doubt are the same.", "seen by two", `name="sure" value="yes"`)
	has(t, "again", c.post(form, and(typedIn(shown.Body.String()), url.Values{"again": {"yes"}})), 200, "touched while topping", "seen by two", "Show what it changes")
	if n := size(t, a); n != before {
		t.Fatalf("the book grew from %d to %d entries by what was only shown", before, n)
	}
	v = typedIn(shown.Body.String())
	v.Set("sure", "yes")
	for range 2 {
		if w = c.post(form, v); w.Code != 303 {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	if size(t, a) != before+1 {
		t.Fatalf("%d entries, want %d", size(t, a), before+1)
	}
	all := recordOf(t, a, "BR-07").Events
	if got := all[len(all)-1].Words; got != "touched while topping" {
		t.Errorf("in the book: %q", got)
	}
	has(t, "changed nothing", c.get(w.Header().Get("Location")), 200, "What it changed", "The outcome and its doubt are the same.", "it was the sling, seen by two")
	has(t, "what it said first", c.get(at), 200, "What it said first", "touched while limbing", "touched while topping")
	if strings.Contains(c.get("/piece/BR-07").Body.String(), "today&#39;s core says of that day") {
		t.Error("an outcome is shown as another though nothing changed it")
	}

	// Taken out.
	gone := url.Values{"id": {idOf(t, c, at)}, "why": {"another bridge"}, "how": {"gone"}}
	has(t, "shown first", c.post(at, gone), 200, "would not count any more", "Without the correction</dt><dd>Withdraw", "another bridge")
	if n := size(t, a); n != before+1 {
		t.Fatalf("%d entries, want %d", n, before+1)
	}
	w = c.post(at, with(gone, "sure", "yes"))
	if w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	has(t, "what it changed", c.get(w.Header().Get("Location")), 200, "does not count any more", "another bridge", "Without the correction</dt><dd>Withdraw", "Both are worked out as of today")
	after := recordOf(t, a, "BR-07").Events
	if len(after) != len(all)-1 {
		t.Errorf("%d events, want %d", len(after), len(all)-1)
	}
	past, err := a.Decisions(ctx, "BR-07")
	if err != nil || len(past) != 1 || past[0].Outcome != kit.Withdraw || past[0].Core != nil || past[0].Recorded == nil || past[0].Recorded.Verdict >= kit.Withdraw {
		t.Fatalf("%+v, %v", past, err)
	}
	has(t, "history", c.get("/piece/BR-07"), 200, "<strong>Correction</strong>", "<p>another bridge</p>", strings.Split(w.Header().Get("Location"), "?")[0])
	has(t, "piece", c.get("/piece/BR-07"), 200, "The outcome given with it: withdraw", "With what has been entered since, today&#39;s core says of that day:", "that would be others today: 1")
}

// TestOtherCore: an outcome that today's core and tables would not give of the
// same record stays, and the piece's page says what they say.
func TestOtherCore(t *testing.T) {
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	a := over(store, keys, tables.Default())
	fill(t, a)
	c := visit(t, a, "p1")
	examined(t, c)
	if w := c.post("/piece/BR-07/decide", decision(idOf(t, c, "/piece/BR-07/decide"))); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	// The same book read with stricter tables: a limit of one in a million.
	strict := *a.Tables()
	strict.Rules.Limit = 1
	has(t, "piece", visit(t, over(store, keys, &strict), "p1").get("/piece/BR-07"), 200, "The outcome given with it: keep", "today&#39;s core and tables say: ", "that would be others today: 1")
}

// TestUnreadable: a piece with an entry that cannot be read is set aside, and
// its page leads to the entry, which a correction takes out.
func TestUnreadable(t *testing.T) {
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	a := over(store, keys, tables.Default())
	fill(t, a)
	c := visit(t, a, "p1")
	id, err := a.NewID()
	if err != nil {
		t.Fatal(err)
	}
	e := entry.Entry{Yard: "quillbrook", ID: id, Kind: entry.Event, Version: 2, Day: a.Today(), Wall: "2026-06-02T17:00:00+00:00", Author: "p1", Piece: "BR-07", Body: []byte(`{"of":"later"}`)}
	l, err := book.NewLine(&e, "2026-06-02T17:00:00.000Z")
	if err != nil {
		t.Fatal(err)
	}
	head, err := store.Head(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := store.Append(t.Context(), head, []book.Line{l}); err != nil {
		t.Fatal(err)
	}
	has(t, "piece", c.get("/piece/BR-07"), 500, "Set aside", "of a later kernbook", `href="/piece/BR-07/entries"`)
	has(t, "entries", c.get("/piece/BR-07/entries"), 200, id.String())
	at := "/piece/BR-07/entry/" + id.String()
	has(t, "entry", c.get(at), 200, "&#34;of&#34;: &#34;later&#34;", `value="gone" checked`)
	if w := c.post(at, url.Values{"why": {"of another program"}, "how": {"gone"}, "sure": {"yes"}}); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	has(t, "mended", c.get("/piece/BR-07"), 200, "What came before")
}
