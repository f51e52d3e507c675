package web

import (
	"net/http"
	"strconv"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// memberBody is the form of somebody of the yard.
type memberBody struct {
	F     *form
	Sign  string     // of somebody who is on record; "" for a new person
	Known *app.Known // what is on record; nil for a new person
	Roles []option
	Looks []option
	First bool // nobody is in the yard yet
	Rates int
}

// newMemberForm shows the empty form.
func (s *Site) newMemberForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	return s.showMember(w, r, http.StatusOK, f)
}

// memberForm shows the form for somebody who is on record. What is sealed is
// not shown: a field that is left empty stays as it is.
func (s *Site) memberForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	x, err := s.app.Known(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	f.v.Set("role", x.Role)
	row := 0
	for _, l := range kit.Looks {
		if rate, ok := x.Kappa[l]; ok {
			at := key("rate", row)
			f.v.Set(at+".look", string(l))
			f.v.Set(at+".share", rate.Share.String())
			f.v.Set(at+".from", rate.From)
			row++
		}
	}
	f.rows("rates", row)
	return s.showMember(w, r, http.StatusOK, f)
}

func (s *Site) showMember(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	b := memberBody{F: f, Sign: r.PathValue("id"), Roles: s.options("role", "climber", "storekeeper", "examiner", "competent person"), First: len(people) == 0,
		Rates: f.count("rates", 1)}
	for _, l := range kit.Looks {
		if x := s.app.Tables().Look(l); x != nil {
			b.Looks = append(b.Looks, option{string(l), x.Words})
		}
	}
	if b.Sign == "" {
		return s.show(w, r, status, "member", s.say("member.new"), &b)
	}
	x, err := s.app.Known(r.Context(), b.Sign)
	if err != nil {
		return err
	}
	b.Known = &x
	all, err := s.app.Everybody(r.Context()) // also who left
	if err != nil {
		return err
	}
	return s.show(w, r, status, "member", s.say("member.title", "who", s.called(all, b.Sign)), &b)
}

// member takes who somebody is from a day on.
func (s *Site) member(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	if f.V("more") != "" { // another row was asked for
		return s.showMember(w, r, http.StatusOK, f)
	}
	m := app.Member{Private: fold.Private{Name: f.text("name"), Mass: mass(f.text("mass")), Contact: f.text("contact"),
		Address: f.text("address"), Qualified: f.text("qualified"), Employed: f.text("employed")}, From: f.day("day"), Left: f.V("left") != "", Keep: true}
	if m.ID = r.PathValue("id"); m.ID == "" {
		m.ID = f.need("sign", s.say("member.no-sign"))
		if _, err := s.app.Known(r.Context(), m.ID); err == nil && !s.mine(r, f) {
			f.fault("sign", s.say("member.taken"))
		}
	}
	m.Role = f.choose("role", s.say("member.role"))
	if m.Mass != "" {
		parsed(f, "mass", func(t string) (qty.Mass, error) { return qty.ParseMass(mass(t)) })
	}
	m.Kappa = f.rates()
	if people, err := s.app.People(r.Context()); err != nil {
		return err
	} else if len(people) == 0 { // the first person of a yard enters themselves
		f.v.Set("as", m.ID)
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.EnterPerson(r.Context(), who, m) },
		func(status int) error { return s.showMember(w, r, status, f) }, back(w, r, "/people"))
}

// mine says whether a form was handed in before, and is in the book.
func (s *Site) mine(r *http.Request, f *form) bool { return s.app.Has(r.Context(), f.V("id")) }

// mass gives a bare number its unit.
func mass(t string) string {
	if digits(t) {
		return t + "kg"
	}
	return t
}

// rates reads somebody's own detection rates.
func (f *form) rates() map[kit.LookID]kit.Rate {
	out := map[kit.LookID]kit.Rate{} // none is none: it is not left as it was
	for i := range f.count("rates", 0) {
		at := key("rate", i)
		look, share := kit.LookID(f.V(at+".look")), f.text(at+".share")
		switch {
		case look == "" && share == "" && f.text(at+".from") == "":
			continue
		case look == "":
			f.fault(at+".look", f.s.say("member.no-look"))
		case share == "":
			f.fault(at+".share", f.s.say("member.no-share"))
		}
		out[look] = kit.Rate{Share: parsed(f, at+".share", percent), From: f.need(at+".from", f.s.say("member.no-from"))}
	}
	return out
}

// percent reads a share; a bare number is in hundredths.
func percent(t string) (qty.Share, error) {
	if _, err := strconv.ParseFloat(t, 64); err == nil {
		t += "%"
	}
	return qty.ParsePercent(t)
}
