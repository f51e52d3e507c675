package web

import (
	"net/http"
	"strconv"

	"kernbook/internal/app"
)

// peopleBody is who is in the yard.
type peopleBody struct {
	People  []app.Somebody
	Gone    []app.Somebody // who left, or was forgotten
	Entered string         // number of the entry that was just made
}

// people shows who is in the yard.
func (s *Site) people(w http.ResponseWriter, r *http.Request) error {
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	all, err := s.app.Everybody(r.Context())
	if err != nil {
		return err
	}
	b := peopleBody{People: people, Entered: justEntered(r)}
	for _, x := range all {
		if x.Left || x.Forgotten {
			b.Gone = append(b.Gone, x)
		}
	}
	return s.show(w, r, http.StatusOK, "people", s.say("people.title"), &b)
}

// justEntered gives the number of an entry that was just made; "" where none was.
func justEntered(r *http.Request) string {
	n, err := strconv.ParseInt(r.URL.Query().Get("entered"), 10, 64)
	if err != nil || n <= 0 {
		return ""
	}
	return strconv.FormatInt(n, 10)
}

// back sends whoever entered something to a page that is about no piece.
func back(w http.ResponseWriter, r *http.Request, path string) func(app.Written) error {
	return func(written app.Written) error {
		http.Redirect(w, r, path+"?entered="+strconv.FormatInt(written.Index+1, 10), http.StatusSeeOther)
		return nil
	}
}
