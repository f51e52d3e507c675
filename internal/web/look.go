package web

import (
	"net/http"
	"slices"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// lookBody is the form of one quick look in which nothing was found.
type lookBody struct {
	pieceForm
	Kinds   []option
	Looks   []option
	People  []option
	Answers []option
	Lights  []option
	Yes     []string
	Asks    []table.Ask
	Where   []option // all over it, or only in part
	Parts   []option
	Sides   []string
	Along   bool   // places on it are told in lengths
	Said    bool   // some question of Asks is answered
	Made    string // by whom and when, as the form stands; "" where that is not said or wrong
}

// lookForm shows the empty form.
func (s *Site) lookForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.freshBy(r)
	if err != nil {
		return err
	}
	f.v.Set("kind", string(kit.PreUse))
	if r.URL.Query().Get("kind") == string(kit.Partner) {
		f.v.Set("kind", string(kit.Partner))
	}
	return s.showLook(w, r, http.StatusOK, f)
}

func (s *Site) showLook(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	b, err := s.lookBody(r, f)
	if err != nil {
		return err
	}
	return s.show(w, r, status, "look", s.say("look.title", "piece", b.Piece), b)
}

func (s *Site) lookBody(r *http.Request, f *form) (*lookBody, error) {
	p, err := s.about(r, f)
	if err != nil {
		return nil, err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return nil, err
	}
	b := &lookBody{pieceForm: p, People: s.peopleOptions(people), Answers: s.options("answer", "yes", "no", "not known"), Lights: s.options("light", "good", "poor", "dark"),
		Yes: conditionNames, Looks: s.quickLooks(p.Card.Kind)}
	for _, x := range []kit.ExamKind{kit.PreUse, kit.Partner} {
		b.Kinds = append(b.Kinds, option{string(x), s.shared("exam." + string(x))})
	}
	b.Where = []option{{"all", s.say("examine.all-over")}}
	if k := s.app.Tables().Kind(p.Card.Kind); k != nil {
		b.Along, b.Sides = k.Axis == "length", k.Sides
		for i := range k.Parts {
			b.Parts = append(b.Parts, option{k.Parts[i].ID, k.Parts[i].Words})
		}
		if b.Along || len(b.Parts) > 0 {
			b.Where = append(b.Where, option{"part", s.say("look.part")})
		}
		for _, l := range b.Looks {
			if l.ID == string(kit.Ask) {
				b.Asks = k.Asks
			}
		}
	}
	for i := range b.Asks {
		b.Said = b.Said || f.V("ask."+b.Asks[i].ID) != ""
	}
	if f.V("by") != "" && f.text("day") != "" && f.Fault("by") == "" && f.Fault("day") == "" {
		b.Made = s.say("look.made", "who", s.called(people, f.V("by")), "day", f.text("day"))
	}
	return b, nil
}

// quickLooks are the looks that are made before use, without a gauge.
func (s *Site) quickLooks(id kit.KindID) []option {
	t := s.app.Tables()
	k := t.Kind(id)
	asked := map[kit.LookID]bool{kit.Eye: true, kit.Hand: true}
	if k != nil {
		for i := range k.Needs {
			if n := &k.Needs[i]; n.Exam.BeforeUse() {
				asked[n.Look] = true
			}
		}
	}
	var out []option
	for _, l := range kit.Looks {
		if x := t.Look(l); asked[l] && l != kit.Gauge && x != nil {
			out = append(out, option{string(l), x.Words})
		}
	}
	return out
}

// look takes one quick look.
func (s *Site) look(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	b, err := s.lookBody(r, f)
	if err != nil {
		return err
	}
	e := kit.Examination{Kind: kit.ExamKind(f.choose("kind", s.say("examine.kind"))), Day: f.day("day"), By: f.choose("by", s.say("examine.by")), WouldClimb: kit.Yes(f.choose("would", s.say("look.would")))}
	e.Looks = f.quickLooks(b.Looks, e.By, f.covers())
	for i := range b.Asks {
		if v := f.V("ask." + b.Asks[i].ID); v != "" {
			if e.Asked == nil {
				e.Asked = map[string]kit.Yes{}
			}
			e.Asked[b.Asks[i].ID] = kit.Yes(v)
		}
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.Examine(r.Context(), who, b.Piece, e) },
		func(status int) error { return s.showLook(w, r, status, f) }, s.toPiece(w, r))
}

// covers reads where the looks went: all over the piece, or only in part.
func (f *form) covers() []kit.Stretch {
	if f.choose("where", f.s.say("look.where")) != "part" {
		if len(f.v["part"]) > 0 || f.text("stretches") != "" { // never the more of two that were said
			f.fault("where", f.s.say("look.both"))
		}
		return []kit.Stretch{{All: true}}
	}
	var out []kit.Stretch
	for _, p := range f.v["part"] {
		out = append(out, kit.Stretch{Part: p})
	}
	out = append(out, f.stretches("stretches")...)
	if len(out) == 0 && f.Fault("stretches") == "" {
		f.fault("where", f.s.say("look.which"))
	}
	return out
}

// quickLooks reads the looks that were ticked, each made where covers says.
func (f *form) quickLooks(options []option, by string, covers []kit.Stretch) []kit.Look {
	var out []kit.Look
	for _, o := range options {
		if !f.Is("looks", o.ID) {
			continue
		}
		l := kit.Look{Look: kit.LookID(o.ID), By: by, Conditions: f.conditions("all")}
		if l.Look != kit.Ask && l.Look != kit.Read {
			l.Covers = slices.Clone(covers)
		}
		out = append(out, l)
	}
	if len(out) == 0 {
		f.fault("looks", f.s.say("examine.no-looks"))
	}
	return out
}
