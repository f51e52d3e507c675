// Package web shows the yard's book as pages and takes what is entered there.
// It decides nothing: what it shows are use cases of package app, put into
// words by packages report and lang. The pages need no script.
package web

import (
	"bytes"
	"embed"
	"html/template"
	"net/http"

	"kernbook/internal/app"
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
}

// New makes the pages over a yard.
func New(a *app.App) *Site {
	s := &Site{app: a, words: lang.English(), pages: map[string]*template.Template{}}
	base := template.Must(template.New("").Funcs(s.funcs()).ParseFS(pages, "page/layout.html", "page/parts.html"))
	for _, name := range []string{"today", "wall", "piece", "why", "set", "examine", "event", "answer", "stop", "fail",
		"look", "run", "hang", "fit", "wash", "use", "change", "kinds", "kit", "record", "people", "member", "forget", "yard", "limit", "decide", "entries", "entry",
		"paper", "register", "choose"} {
		s.pages[name] = template.Must(template.Must(base.Clone()).ParseFS(pages, "page/"+name+".html"))
	}
	return s
}

// action is what one address does. An error becomes a page of its own.
type action func(w http.ResponseWriter, r *http.Request) error

// Handler gives the whole site, with its guards around it.
func (s *Site) Handler() http.Handler {
	m := http.NewServeMux()
	for pattern, do := range map[string]action{
		"GET /{$}":                       s.today,
		"GET /wall":                      s.wall,
		"GET /piece/{id}":                s.piece,
		"GET /piece/{id}/why":            s.why,
		"GET /set/{id}":                  s.set,
		"GET /piece/{id}/examine":        s.examineForm,
		"POST /piece/{id}/examine":       s.examine,
		"GET /piece/{id}/event":          s.eventForm,
		"POST /piece/{id}/event":         s.event,
		"GET /piece/{id}/answer":         s.answerForm,
		"POST /piece/{id}/answer":        s.answer,
		"GET /piece/{id}/stop":           s.stopForm,
		"POST /piece/{id}/stop":          s.stop,
		"POST /person":                   s.person,
		"GET /do/{what}":                 s.choose,
		"GET /piece/{id}/look":           s.lookForm,
		"POST /piece/{id}/look":          s.look,
		"GET /piece/{id}/run":            s.runForm,
		"POST /piece/{id}/run":           s.run,
		"GET /piece/{id}/hang":           s.hangForm,
		"POST /piece/{id}/hang":          s.hanged,
		"GET /piece/{id}/fit":            s.fitForm,
		"POST /piece/{id}/fit":           s.fit,
		"GET /piece/{id}/wash":           s.washForm,
		"POST /piece/{id}/wash":          s.wash,
		"GET /piece/{id}/use":            s.useForm,
		"POST /piece/{id}/use":           s.use,
		"GET /piece/{id}/change":         s.changeForm,
		"POST /piece/{id}/change":        s.change,
		"GET /piece/{id}/amend":          s.amendForm,
		"POST /piece/{id}/amend":         s.amend,
		"GET /piece/{id}/decide":         s.decideForm,
		"POST /piece/{id}/decide":        s.decide,
		"GET /piece/{id}/entries":        s.entries,
		"GET /piece/{id}/entry/{entry}":  s.entry,
		"POST /piece/{id}/entry/{entry}": s.correct,
		"GET /piece/{id}/report":         s.reportPage,
		"GET /piece/{id}/report.pdf":     s.reportPDF,
		"GET /piece/{id}/card":           s.cardPage,
		"GET /piece/{id}/card.pdf":       s.cardPDF,
		"GET /new/piece":                 s.newPieceForm,
		"POST /new/piece":                s.newPiece,
		"GET /new/record":                s.newRecordForm,
		"POST /new/record":               s.newRecord,
		"GET /register":                  s.register,
		"GET /register/paper":            s.registerPaper,
		"GET /register.pdf":              s.registerPDF,
		"GET /people":                    s.people,
		"GET /new/person":                s.newMemberForm,
		"POST /new/person":               s.member,
		"GET /people/{id}":               s.memberForm,
		"POST /people/{id}":              s.member,
		"GET /people/{id}/forget":        s.forgetForm,
		"POST /people/{id}/forget":       s.forget,
		"GET /yard":                      s.yardForm,
		"POST /yard":                     s.yard,
		"GET /limit":                     s.limitForm,
		"POST /limit":                    s.limit,
		"GET /static/{name}":             s.file,
		"/":                              s.nowhere,
	} {
		m.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
			if err := do(w, r); err != nil {
				s.fail(w, r, err)
			}
		})
	}
	return s.guard(m)
}

// page is what every page is made from.
type page struct {
	Name   string // of its template
	Title  string
	Yard   kit.Yard
	Size   int64 // entries in the book
	Today  qty.Day
	People []app.Somebody
	Acting *app.Somebody // nil where nobody is chosen
	Back   string        // where to come back to after choosing a person
	Day    []timed       // what is done when
	Body   any
}

// show writes a page.
func (s *Site) show(w http.ResponseWriter, r *http.Request, status int, name, title string, body any) error {
	p := page{Name: name, Title: title, Today: s.app.Today(), Back: r.URL.RequestURI(), Day: s.times(""), Body: body}
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		p.Back = "/"
	}
	var err error
	if p.Yard, p.Size, err = s.app.About(r.Context()); err == nil {
		p.People, err = s.app.People(r.Context())
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
