package web

import (
	"net/http"
	"net/url"
	"strings"

	"kernbook/internal/app"
)

// personCookie keeps who was chosen to act here. It proves nothing: until there
// are accounts, whoever sits at this computer chooses.
const personCookie = "kernbook_person"

// acting gives who is chosen, or nil.
func acting(r *http.Request, people []app.Somebody) *app.Somebody {
	c, err := r.Cookie(personCookie)
	if err != nil {
		return nil
	}
	id, err := url.QueryUnescape(c.Value)
	if err != nil {
		return nil
	}
	for i := range people {
		if people[i].ID == id {
			return &people[i]
		}
	}
	return nil
}

// remember keeps who was chosen, for this browser; "" forgets it.
func remember(w http.ResponseWriter, id string) {
	c := http.Cookie{Name: personCookie, Value: url.QueryEscape(id), Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode}
	if id == "" {
		c.MaxAge = -1
	}
	http.SetCookie(w, &c)
}

// person takes the choice of who acts; nobody is a choice too.
func (s *Site) person(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	id := r.PostForm.Get("person")
	known := id == "" && r.PostForm.Has("person") // nobody
	for i := range people {
		known = known || people[i].ID == id
	}
	if known {
		remember(w, id)
		back := r.PostForm.Get("back")
		if !strings.HasPrefix(back, "/") || strings.HasPrefix(back, "//") || strings.ContainsAny(back, "\\\r\n") {
			back = "/" // never to another site
		}
		http.Redirect(w, r, back, http.StatusSeeOther)
		return nil
	}
	return s.refuse(app.NotFound, "person.unknown")
}
