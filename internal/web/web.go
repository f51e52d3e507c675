// Package web shows the yard's book as pages and takes what is entered there.
// It decides nothing: what it shows are use cases of package app, put into
// words by packages report and lang. The pages need no script; those of
// the bench run the core in the page where there is one.
package web

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/artefact"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/lang"
)

//go:embed page/*.html
var pages embed.FS

//go:embed static
var static embed.FS

// Site is the pages over one yard.
type Site struct {
	app   *app.App
	words *lang.Catalogue
	pages map[string]*template.Template
	live  *artefact.Live // nil: the bench is worked out by the server alone
}

// New makes the pages over a yard.
func New(a *app.App) *Site {
	s := &Site{app: a, words: lang.English(), pages: map[string]*template.Template{}, live: artefact.Page()}
	base := template.Must(template.New("").Funcs(s.funcs()).ParseFS(pages, "page/layout.html", "page/parts.html"))
	for _, name := range []string{"today", "wall", "piece", "why", "set", "examine", "event", "answer", "stop", "fail",
		"look", "run", "hang", "fit", "wash", "use", "change", "kinds", "kit", "record", "people", "member", "forget", "yard", "limit", "decide", "entries", "entry", "try",
		"paper", "register", "choose", "broken", "benches", "bench"} {
		s.pages[name] = template.Must(template.Must(base.Clone()).ParseFS(pages, "page/"+name+".html"))
	}
	return s
}

// Live gives the pages of the bench a core, or none, instead of what the binary was
// built with.
func (s *Site) Live(l *artefact.Live) *Site {
	s.live = l
	return s
}

// action is what one address does. An error becomes a page of its own.
type action func(w http.ResponseWriter, r *http.Request) error

// page is what every page is made from.
type page struct {
	Name   string // of its template
	Title  string
	Yard   kit.Yard
	Size   int64 // entries in the book
	Today  qty.Day
	People []app.Somebody // who is in the yard
	Names  []app.Somebody // everybody who ever was, for what they did
	Acting *app.Somebody  // nil where nobody is chosen
	Back   string         // where to come back to after choosing a person
	Day    []timed        // what is done when
	Body   any
}

// show writes a page.
func (s *Site) show(w http.ResponseWriter, r *http.Request, status int, name, title string, body any) error {
	p := page{Name: name, Title: title, Today: s.app.Today(), Back: r.URL.RequestURI(), Day: s.times(nil), Body: body}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		p.Back = "/"
	}
	var err error
	if p.Yard, p.Size, err = s.app.About(r.Context()); err == nil {
		p.People, err = s.app.People(r.Context())
	}
	if err == nil {
		p.Names, err = s.app.Everybody(r.Context())
	}
	if err != nil && name != "fail" { // the page that tells a fault is shown all the same
		return err
	}
	p.Acting = acting(r, p.People)
	var b bytes.Buffer
	if err := s.pages[name].ExecuteTemplate(&b, "layout", &p); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = b.WriteTo(w) // who hung up needs no answer
	return nil
}
