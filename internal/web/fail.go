package web

import (
	"errors"
	"net/http"

	"kernbook/internal/app"
)

// statuses gives each code of a use case its status.
var statuses = map[app.Code]int{
	app.NotFound: http.StatusNotFound,
	app.Invalid:  http.StatusUnprocessableEntity,
	app.Refused:  http.StatusForbidden,
	app.Conflict: http.StatusConflict,
	app.Full:     http.StatusInsufficientStorage,
	app.Broken:   http.StatusInternalServerError,
	app.Failed:   http.StatusInternalServerError,
}

// unread is a form that came in another way than a browser sends one.
type unread struct{ error }

func (e unread) Unwrap() error { return e.error }

// refuse makes an error with words of the catalogue.
func (s *Site) refuse(code app.Code, key string) error {
	return &app.Error{Code: code, Say: s.say(key)}
}

// sentence gives an error its status, code and sentence.
func (s *Site) sentence(err error) (int, *app.Error) {
	var big *http.MaxBytesError
	if errors.As(err, &big) {
		return http.StatusRequestEntityTooLarge, &app.Error{Code: app.Invalid, Say: s.say("fail.too-big")}
	}
	if errors.As(err, &unread{}) {
		return http.StatusBadRequest, &app.Error{Code: app.Invalid, Say: s.say("fail.unread")}
	}
	var e *app.Error
	if !errors.As(err, &e) {
		e = &app.Error{Code: app.Failed, Say: s.say("fail.failed", "error", err.Error())}
	}
	status, ok := statuses[e.Code]
	if !ok {
		status = http.StatusInternalServerError
	}
	return status, e
}

// failBody is what the page of an error shows.
type failBody struct {
	Status int
	Error  *app.Error
}

// fail shows an error as a page of one sentence, with its code.
func (s *Site) fail(w http.ResponseWriter, r *http.Request, err error) {
	status, e := s.sentence(err)
	if err := s.show(w, r, status, "fail", s.say("fail.title"), failBody{status, e}); err != nil {
		http.Error(w, err.Error(), http.StatusInternalServerError)
	}
}

// nowhere answers every address that there is none for.
func (s *Site) nowhere(w http.ResponseWriter, r *http.Request) error {
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD")
		e := &app.Error{Code: app.Refused, Say: s.say("fail.method")}
		return s.show(w, r, http.StatusMethodNotAllowed, "fail", s.say("fail.title"), failBody{http.StatusMethodNotAllowed, e})
	}
	return s.refuse(app.NotFound, "fail.nowhere")
}
