package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// useBody is the form of how a piece is used.
type useBody struct {
	pieceForm
	People   []option
	Dirt     []option
	Hardware []option
	Weekdays []option
}

// useForm shows the form with the use that holds now.
func (s *Site) useForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	j, err := s.app.Judge(r.Context(), r.PathValue("id"), s.app.Today(), false)
	if err != nil {
		return err
	}
	if u, _ := j.Record.UseOn(s.app.Today()); u != nil {
		f.useOut(u)
	}
	if holder, err := s.app.CardOf(r.Context(), r.PathValue("id"), s.app.Today()); err == nil {
		f.v.Set("of", holder.Holder)
	}
	return s.showUse(w, r, http.StatusOK, f)
}

// useOut fills a form from a use; whose mass it carries is not in a record.
func (f *form) useOut(u *kit.Use) {
	if u.Store {
		f.v.Set("store", "yes")
	}
	if u.Week >= 0 && !u.Store {
		f.v.Set("week", u.Week.String())
	}
	for i, d := range weekdayNames {
		if u.Weekdays[i+1] {
			f.v.Add("weekdays", d)
		}
	}
	f.v.Set("dirt", u.Dirt)
	f.v.Set("hardware", u.Hardware)
}

func (s *Site) showUse(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	p, err := s.about(r, f)
	if err != nil {
		return err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	t := s.app.Tables()
	return s.show(w, r, status, "use", s.say("use.title", "piece", p.Piece), &useBody{p, s.peopleOptions(people), levels(t.Dirt), levels(t.Hardware), s.options("weekday", weekdayNames...)})
}

func levels(list []table.Level) []option {
	out := make([]option, len(list))
	for i := range list {
		out[i] = option{list[i].ID, list[i].Words}
	}
	return out
}

// use takes how a piece is used from a day on.
func (s *Site) use(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	u := f.use()
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) {
		return s.app.PlanUse(r.Context(), who, r.PathValue("id"), u, f.V("of"))
	},
		func(status int) error { return s.showUse(w, r, status, f) }, s.toPiece(w, r))
}

// use reads how a piece is used.
func (f *form) use() kit.Use {
	u := kit.Use{From: f.day("day"), Week: -1, Weekdays: f.weekdays("weekdays"), Dirt: f.V("dirt"), Hardware: f.V("hardware"), Store: f.V("store") != ""}
	week := f.text("week")
	switch {
	case u.Store && week != "":
		f.fault("week", f.s.say("use.both"))
	case u.Store:
		u.Weekdays = [8]bool{}
	case week == "":
		f.fault("week", f.s.say("use.no-week"))
	case week != "unknown":
		u.Week = parsed(f, "week", hours)
		if u.Week > 0 && u.Weekdays == [8]bool{} {
			f.fault("weekdays", f.s.say("use.no-days"))
		}
	}
	return u
}

// hours reads a time of use; a bare number is in hours.
func hours(t string) (qty.Duration, error) {
	if digits(t) {
		t += "h"
	}
	return qty.ParseHours(t)
}
