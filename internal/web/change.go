package web

import (
	"net/http"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// changeBody is the form of a change of the datum.
type changeBody struct {
	pieceForm
	People   []option
	Whats    []option
	Zones    []option
	ZoneRows int
	Length   string // of the piece as it is now; "" where it is not known
}

// changeForm shows the empty form.
func (s *Site) changeForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.freshBy(r)
	if err != nil {
		return err
	}
	return s.showChange(w, r, http.StatusOK, f)
}

func (s *Site) showChange(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	p, err := s.about(r, f)
	if err != nil {
		return err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	j, err := s.app.Judge(r.Context(), p.Piece, s.app.Today(), false)
	if err != nil {
		return err
	}
	b := changeBody{pieceForm: p, People: s.peopleOptions(people), Whats: s.options("change", kit.Changes[:]...), Zones: s.zones(p.Card.Kind), ZoneRows: f.count("zones", 2)}
	if long := lengthOn(j.Record, s.app.Today()); long > 0 {
		b.Length = long.String()
	}
	return s.show(w, r, status, "change", s.say("change.title", "piece", p.Piece), &b)
}

// lengthOn gives how long a piece is on a day: less what was cut off.
func lengthOn(r *kit.Record, day qty.Day) qty.Length {
	long := r.Piece.Length
	for i := range r.Changes {
		if c := &r.Changes[i]; c.Day <= day {
			long -= c.Length
		}
	}
	return long
}

// zones gives the zones of a kind by name.
func (s *Site) zones(id kit.KindID) []option {
	k := s.app.Tables().Kind(id)
	if k == nil {
		return nil
	}
	out := make([]option, len(k.Zones))
	for i := range k.Zones {
		out[i] = option{k.Zones[i].ID, s.shared("draw.zone." + k.Zones[i].ID)}
	}
	return out
}

// zonesAt reads rows of zones; empty rows are none.
func (f *form) zonesAt() []kit.ZoneAt {
	var out []kit.ZoneAt
	for i := range f.count("zones", 0) {
		at := key("zone", i)
		id, from, to := f.V(at+".zone"), f.text(at+".from"), f.text(at+".to")
		switch {
		case id == "" && from == "" && to == "":
			continue
		case id == "":
			f.fault(at+".zone", f.s.say("change.no-zone"))
		case from == "":
			f.fault(at+".from", f.s.say("change.no-from"))
		case to == "":
			f.fault(at+".to", f.s.say("change.no-to"))
		}
		out = append(out, kit.ZoneAt{Zone: id, From: f.length(at + ".from"), To: f.length(at + ".to")})
	}
	return out
}

// change takes a change of the datum.
func (s *Site) change(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	if f.V("more") != "" { // another row was asked for
		return s.showChange(w, r, http.StatusOK, f)
	}
	c := f.change()
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.Move(r.Context(), who, r.PathValue("id"), c) },
		func(status int) error { return s.showChange(w, r, status, f) }, s.toPiece(w, r))
}

// change reads a change of the datum.
func (f *form) change() kit.Change {
	c := kit.Change{Day: f.day("day"), What: f.choose("what", f.s.say("change.what")), Zones: f.zonesAt(), By: f.choose("by", f.s.say("change.by")), Words: f.text("words"), Length: f.length("length")}
	shorter := strings.HasPrefix(c.What, "shortened")
	switch {
	case shorter && f.text("length") == "":
		f.fault("length", f.s.say("change.no-length"))
	case !shorter && f.text("length") != "":
		f.fault("length", f.s.say("change.not-cut"))
	}
	switch {
	case c.What == "zones" && len(c.Zones) == 0:
		f.fault("zone.0.zone", f.s.say("change.no-zones"))
	case c.What != "zones" && len(c.Zones) > 0:
		f.fault("zone.0.zone", f.s.say("change.not-zones"))
	}
	return c
}
