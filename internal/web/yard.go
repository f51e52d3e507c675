package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
)

// yardBody is the form of the yard itself.
type yardBody struct {
	F         *form
	Countries []option
	People    []option
	Limit     string // that holds today
	Own       bool   // it is the yard's own, not the default
	Entered   string // number of the entry that was just made
}

// yardForm shows what the yard is called and what holds there.
func (s *Site) yardForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	y, _, err := s.app.About(r.Context())
	if err != nil {
		return err
	}
	f.v.Set("name", y.Name)
	f.v.Set("country", y.Country)
	if y.Scheme.Every != 0 {
		f.v.Set("every", y.Scheme.Every.String())
	}
	f.v.Set("document", y.Scheme.Document)
	f.v.Set("by", y.Scheme.By)
	return s.showYard(w, r, http.StatusOK, f)
}

func (s *Site) showYard(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	limit, own, err := s.app.Limit(r.Context())
	if err != nil {
		return err
	}
	b := yardBody{F: f, People: s.peopleOptions(people), Limit: s.chance(limit), Own: own, Entered: justEntered(r)}
	for i := range s.app.Tables().Countries {
		c := &s.app.Tables().Countries[i]
		b.Countries = append(b.Countries, option{c.Code, c.Words})
	}
	b.Countries = append(b.Countries, option{"unknown", s.say("yard.unknown")})
	return s.show(w, r, status, "yard", s.say("yard.title"), &b)
}

// yard takes what the yard is called and what holds there.
func (s *Site) yard(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	y := kit.Yard{Name: f.need("name", s.say("yard.no-name")), Country: f.choose("country", s.say("yard.country")),
		Scheme: kit.Scheme{Every: parsed(f, "every", schemeMonths), Document: f.text("document"), By: f.V("by")}}
	if any := y.Scheme != (kit.Scheme{}); any {
		f.need("every", s.say("yard.no-every"))
		f.need("document", s.say("yard.no-document"))
		f.choose("by", s.say("yard.by"))
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.NameYard(r.Context(), who, y) },
		func(status int) error { return s.showYard(w, r, status, f) }, back(w, r, "/yard"))
}
