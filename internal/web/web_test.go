package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// examples are the records that come with the project, one piece each.
func examples(t testing.TB) []*kit.Record {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*.toml"))
	if err != nil || len(files) < 5 {
		t.Fatalf("%d examples, %v", len(files), err)
	}
	var out []*kit.Record
	for _, f := range files {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		r, faults := record.Decode(f, b, tables.Default())
		if err := faults.Err(); err != nil {
			t.Fatal(err)
		}
		out = append(out, r)
	}
	return out
}

// yard is an App over a book in memory on 2 June 2026, with every example in
// it: p1 is competent, ines and rolf climb and hold what the examples say.
func yard(t testing.TB) *app.App {
	t.Helper()
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	a := over(mem.New(), keys, tables.Default())
	fill(t, a)
	return a
}

// over opens the use cases over a book, with tables, on that day.
func over(store *mem.Store, keys seal.Keys, tb *table.Tables) *app.App {
	at := time.Date(2026, 6, 2, 17, 0, 0, 0, time.UTC)
	return app.New(app.Config{Store: store, Keys: keys, Tables: tb, Yard: "quillbrook", Device: "bench", Clock: func() time.Time { return at }})
}

func fill(t testing.TB, a *app.App) {
	t.Helper()
	ctx, who := context.Background(), app.Who{Person: "p1"}
	ok := func(_ app.Written, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	from := examples(t)[0].AsOf - 500
	for _, m := range []app.Member{
		{Person: kit.Person{ID: "p1", Role: "competent person"}, Private: fold.Private{Name: "Tilda Marsh", Address: "Mill Lane 4, Quillbrook", Qualified: "trained to examine"}, From: from},
		{Person: kit.Person{ID: "ines", Role: "climber"}, From: from}, // as a record names her: a sign that is there stays
		{Person: kit.Person{ID: "ines", Role: "climber"}, Private: fold.Private{Name: "Ines Okoro"}, From: from},
		{Person: kit.Person{ID: "rolf", Role: "climber"}, From: from},
	} {
		ok(a.EnterPerson(ctx, who, m))
	}
	ok(a.NameYard(ctx, who, kit.Yard{Name: "Quillbrook Tree Care", Country: "GB"}))
	for _, r := range examples(t) {
		if _, err := a.Take(ctx, who, r); err != nil {
			t.Fatal(err)
		}
	}
}

// client calls the pages as one person.
type client struct {
	t      testing.TB
	h      http.Handler
	cookie *http.Cookie
}

func visit(t testing.TB, a *app.App, person string) *client {
	c := &client{t: t, h: New(a).Handler()}
	if person != "" {
		w := c.post("/person", url.Values{"person": {person}, "back": {"/wall"}})
		if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/wall" || len(w.Result().Cookies()) != 1 {
			t.Fatalf("choosing %s: %d, %v", person, w.Code, w.Header())
		}
		c.cookie = w.Result().Cookies()[0]
	}
	return c
}

func (c *client) do(r *http.Request) *httptest.ResponseRecorder {
	if r.Host == "example.com" {
		r.Host = "127.0.0.1:8765"
	}
	if c.cookie != nil {
		r.AddCookie(c.cookie)
	}
	w := httptest.NewRecorder()
	c.h.ServeHTTP(w, r)
	return w
}

func (c *client) get(path string) *httptest.ResponseRecorder {
	return c.do(httptest.NewRequest("GET", path, nil))
}

func (c *client) post(path string, v url.Values) *httptest.ResponseRecorder {
	r := httptest.NewRequest("POST", path, strings.NewReader(v.Encode()))
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	return c.do(r)
}

func has(t *testing.T, where string, w *httptest.ResponseRecorder, status int, says ...string) {
	t.Helper()
	if w.Code != status {
		t.Errorf("%s: status %d, want %d", where, w.Code, status)
	}
	body := w.Body.String()
	for _, s := range says {
		if !strings.Contains(body, s) {
			t.Errorf("%s: does not say %q", where, s)
		}
	}
	if i := strings.Index(body, "⟦"); i >= 0 {
		t.Errorf("%s: words are missing: %s", where, body[i:min(len(body), i+80)])
	}
}

// TestPages: every page answers, and says what it is for.
func TestPages(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	has(t, "today", c.get("/"), 200, "In the morning", "Ines Okoro", "Quillbrook Tree Care", "2 Jun 2026", "Acting here: Tilda Marsh", "no accounts yet")
	has(t, "wall", c.get("/wall"), 200, "Ines Okoro", "In the store")
	has(t, "set", c.get("/set/ines"), 200, "Of ", " such sets, one would hold an unfit piece", "BR-07", "LA-04", "set aside or to be withdrawn")
	for _, r := range examples(t) {
		id := r.Piece.ID
		j, err := a.Judge(context.Background(), id, a.Today(), false)
		if err != nil {
			t.Fatal(err)
		}
		verdict := j.Outcome.Verdict.String()
		p := "/piece/" + id
		has(t, p, c.get(p), 200, id, strings.ToUpper(verdict[:1])+verdict[1:], "What came before", p+"/why")
		why := c.get(p + "/why")
		has(t, p+"/why", why, 200, id, "Rules that set a date", "<table>", "What it leaned on")
		if j.Outcome.Doubt != nil {
			has(t, p+"/why", why, 200, "<svg", "The fall, look by look", "The doubt over time")
		}
		has(t, p+"/examine", c.get(p+"/examine?kind=thorough"), 200, "Looks that were really made", `value="thorough" checked`, "Would the examiner climb on it?")
		has(t, p+"/event", c.get(p+"/event"), 200, "What happened", "Substance")
		has(t, p+"/answer", c.get(p+"/answer"), 200, "Answer about "+id)
		has(t, p+"/stop", c.get(p+"/stop"), 200, "withdraw from use, for good")
		has(t, "wall", c.get("/wall"), 200, id)
	}
	for _, f := range []string{"style.css", "SourceSans3VF-Upright.woff2", "SourceSans3-LICENSE.md"} {
		if w := c.get("/static/" + f); w.Code != 200 || w.Body.Len() < 1000 {
			t.Errorf("%s: %d, %d bytes", f, w.Code, w.Body.Len())
		}
	}
}
