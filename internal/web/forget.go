package web

import (
	"net/http"

	"kernbook/internal/app"
)

// forgetBody is the form by which somebody is forgotten.
type forgetBody struct {
	F    *form
	Sign string
}

// forgetForm shows the empty form.
func (s *Site) forgetForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	return s.showForget(w, r, http.StatusOK, f)
}

func (s *Site) showForget(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	x, err := s.app.Known(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	people, err := s.app.Everybody(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, status, "forget", s.say("forget.title", "who", s.called(people, x.ID)), &forgetBody{f, x.ID})
}

// forget destroys somebody's key.
func (s *Site) forget(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	why := f.need("why", s.say("forget.no-why"))
	if f.V("sure") == "" {
		f.fault("sure", s.say("forget.not-sure"))
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) {
		return s.app.ForgetPerson(r.Context(), who, r.PathValue("id"), why)
	},
		func(status int) error { return s.showForget(w, r, status, f) }, back(w, r, "/people"))
}
