package web

import (
	"net/http"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/qty"
)

// limitBody is the form of the yard's limit of doubt.
type limitBody struct {
	F       *form
	Limit   string
	Default string // of the tables
	Most    string // the loosest a yard may set
	Own     bool
}

// limitForm shows the empty form, with the limit that holds.
func (s *Site) limitForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	return s.showLimit(w, r, http.StatusOK, f)
}

func (s *Site) showLimit(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	limit, own, err := s.app.Limit(r.Context())
	if err != nil {
		return err
	}
	rules := &s.app.Tables().Rules
	return s.show(w, r, status, "limit", s.say("limit.title"), &limitBody{f, s.chance(limit), s.chance(rules.Limit), s.chance(rules.LimitMost), own})
}

// limit takes a new limit.
func (s *Site) limit(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	t, why := f.text("limit"), f.need("why", s.say("limit.no-why"))
	if plain := strings.ReplaceAll(strings.TrimPrefix(t, "1 in "), ",", ""); digits(plain) {
		t = "1 in " + plain
	}
	switch {
	case f.V("default") != "" && t != "":
		f.fault("limit", s.say("limit.both"))
	case f.V("default") == "" && t == "":
		f.fault("limit", s.say("limit.none"))
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.SetLimit(r.Context(), who, t, why) },
		func(status int) error { return s.showLimit(w, r, status, f) }, back(w, r, "/yard"))
}

// schemeMonths reads an interval; a bare number is in months.
func schemeMonths(t string) (qty.Months, error) {
	if digits(t) {
		t += " months"
	}
	return qty.ParseMonths(t)
}
