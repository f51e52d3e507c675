package web

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
	"time"
)

// TestFailures: what cannot be done is told in a sentence on a page, with its code.
func TestFailures(t *testing.T) {
	c := visit(t, yard(t), "p1")
	for _, x := range []struct {
		method, path string
		status       int
		says         string
	}{
		{"GET", "/nowhere", 404, "There is no such page."},
		{"GET", "/piece/XX-99", 404, "No piece “XX-99” is in the book."},
		{"GET", "/piece/XX-99/why", 404, "No piece “XX-99” is in the book."},
		{"GET", "/piece/XX-99/examine", 404, "No piece “XX-99” is in the book."},
		{"POST", "/piece/XX-99/stop", 404, "No piece “XX-99” is in the book."},
		{"GET", "/set/nobody", 404, "Nobody of that sign is in the yard."},
		{"GET", "/static/none.css", 404, "There is no such page."},
		{"PUT", "/piece/BR-07", 405, "cannot be called that way"},
		{"POST", "/person", 404, "Nobody of that sign is in the yard."},
	} {
		has(t, x.method+" "+x.path, c.do(httptest.NewRequest(x.method, x.path, nil)), x.status, x.says, "Code: ")
	}
}

// TestGuards: another site's posts, a foreign name for this computer and bodies
// without end are refused, and every answer forbids what a page does not need.
func TestGuards(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	_, before, err := a.About(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	form := url.Values{"what": {"withdraw"}, "why": {"for a test"}, "day": {"2 Jun 2026"}}
	foreign := func(header, value string) *httptest.ResponseRecorder {
		r := httptest.NewRequest("POST", "/piece/BR-07/stop", strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set(header, value)
		return c.do(r)
	}
	has(t, "cross-site", foreign("Sec-Fetch-Site", "cross-site"), 403, "Another site tried to enter something here.")
	has(t, "other origin", foreign("Origin", "https://elsewhere.example"), 403, "Another site tried to enter something here.")
	r := httptest.NewRequest("GET", "/", nil)
	r.Host = "kit.elsewhere.example"
	has(t, "foreign name", c.do(r), 403, "own addresses only")
	has(t, "too big", c.post("/piece/BR-07/event", url.Values{"words": {strings.Repeat("x", bodyMost+1)}}), 413, "1 MB")
	broken := httptest.NewRequest("POST", "/piece/BR-07/event", strings.NewReader("words=%zz"))
	broken.Host = "127.0.0.1:8765"
	broken.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	has(t, "a body that is no form", c.do(broken), 400, "cannot be read as a form")
	if _, after, _ := a.About(context.Background()); after != before {
		t.Errorf("the book grew from %d to %d entries", before, after)
	}
	for header, value := range map[string]string{"Sec-Fetch-Site": "same-origin", "Origin": "http://127.0.0.1:8765"} {
		if w := foreign(header, value); w.Code == 403 && strings.Contains(w.Body.String(), "Another site") {
			t.Errorf("a post of this site, with %s: %s, is refused", header, value)
		}
	}
	if _, after, _ := a.About(context.Background()); after == before {
		t.Error("a post of this site entered nothing")
	}
	for _, p := range []string{"/", "/wall", "/piece/BR-07/why", "/nowhere", "/static/style.css"} {
		w := c.get(p)
		if got := w.Header().Get("Content-Security-Policy"); got != policy || strings.Contains(got, "unsafe") {
			t.Errorf("%s: policy %q", p, got)
		}
		if w.Header().Get("X-Content-Type-Options") != "nosniff" || w.Header().Get("Referrer-Policy") != "same-origin" {
			t.Errorf("%s: headers %v", p, w.Header())
		}
		for _, no := range []string{"<script", " style=", "<style", " onclick=", " onload="} {
			if strings.Contains(w.Body.String(), no) {
				t.Errorf("%s holds %s, which the policy forbids", p, no)
			}
		}
	}
}

// TestListen: loopback alone is served.
func TestListen(t *testing.T) {
	for _, addr := range []string{"0.0.0.0:0", ":0", "192.0.2.7:8765", "[::]:0", "kit.elsewhere.example:80", "8765"} {
		if l, err := Listen(addr); err == nil {
			l.Close()
			t.Errorf("%s is listened on", addr)
		} else if !strings.Contains(err.Error(), "127.0.0.1") {
			t.Errorf("%s: the refusal does not say what to write: %v", addr, err)
		}
	}
	l, err := Listen("127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- New(yard(t)).Serve(ctx, l) }()
	client := http.Client{Timeout: 20 * time.Second}
	resp, err := client.Get("http://" + l.Addr().String() + "/wall")
	if err != nil || resp.StatusCode != 200 {
		t.Fatalf("%v, %v", resp, err)
	}
	resp.Body.Close()
	stop()
	if err := <-done; err != nil {
		t.Errorf("the pages did not stop cleanly: %v", err)
	}
}

// TestBackStaysHere: choosing a person never leads to another site.
func TestBackStaysHere(t *testing.T) {
	c := visit(t, yard(t), "")
	for _, back := range []string{"https://elsewhere.example/", "//elsewhere.example", "/\\elsewhere.example", "", "wall"} {
		w := c.post("/person", url.Values{"person": {"p1"}, "back": {back}})
		if got := w.Header().Get("Location"); got != "/" {
			t.Errorf("%q leads to %q", back, got)
		}
	}
}
