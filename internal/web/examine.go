package web

import (
	"net/http"
	"net/url"
	"slices"

	"kernbook/internal/app"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/report"
)

// examineBody is the form of an examination.
type examineBody struct {
	F          *form
	Piece      string
	Kind       *table.Kind
	Card       *app.Card
	Looks      []lookRow
	Known      []knownSign
	Events     []option // on record, that it may answer
	Kinds      []option
	People     []option
	Signs      []option
	Parts      []option
	Places     []option // the parts, and the whole of it
	Layers     []option
	LookIDs    []option
	Reads      []option
	Answers    []option
	States     []option // of a sign that is on record
	Lights     []option
	OwnLights  []option // of one look: as the others where nothing is chosen
	OwnAnswers []option
	Yes        []string // conditions that are yes or no
	SignRows   int
	ReadRows   int
}

// lookRow is one look of the form.
type lookRow struct {
	ID    kit.LookID
	Words string
	How   string
	For   []string // kinds of examination that ask for it
}

// knownSign is a sign on record, of which an examination says what became.
type knownSign struct{ Ref, Words string }

// the conditions of a look that are yes or no.
var conditionNames = []string{"cleaned", "wet", "frozen", "muddy", "gloves", "hurried"}

// examineForm shows the empty form.
func (s *Site) examineForm(w http.ResponseWriter, r *http.Request) error {
	f := s.form(url.Values{"day": {s.app.Today().Words()}})
	kind := kit.ExamKind(r.URL.Query().Get("kind"))
	if kind.Rank() < 0 {
		kind = kit.PreUse
	}
	f.v.Set("kind", string(kind))
	if kind.Rank() >= kit.Interim.Rank() { // a decision names the examination by this
		f.v.Set("ref", app.NameOf(&kit.Examination{Kind: kind, Day: s.app.Today()}))
	}
	id, err := s.app.NewID()
	if err != nil {
		return err
	}
	f.v.Set("id", id.String())
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	if p := acting(r, people); p != nil {
		f.v.Set("by", p.ID)
	}
	return s.showExamine(w, r, http.StatusOK, f)
}

// showExamine shows the form with what was typed.
func (s *Site) showExamine(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	b, err := s.examineBody(r, f)
	if err != nil {
		return err
	}
	return s.show(w, r, status, "examine", s.say("examine.title", "piece", b.Piece), b)
}

func (s *Site) examineBody(r *http.Request, f *form) (*examineBody, error) {
	ctx, id, day, t := r.Context(), r.PathValue("id"), s.app.Today(), s.app.Tables()
	card, err := s.app.CardOf(ctx, id, day)
	if err != nil {
		return nil, err
	}
	j, err := s.app.Judge(ctx, id, day, true)
	if err != nil {
		return nil, err
	}
	k := t.Kind(card.Kind)
	if k == nil {
		k = &table.Kind{ID: card.Kind}
	}
	people, err := s.app.People(ctx)
	if err != nil {
		return nil, err
	}
	n := report.Names(j.Outcome, t, j.Record, s.told())
	b := &examineBody{F: f, Piece: id, Kind: k, Card: &card, Yes: conditionNames, People: s.peopleOptions(people), Answers: s.options("answer", "yes", "no", "not known"),
		Lights: s.options("light", "good", "poor", "dark"), States: s.options("state", string(kit.Same), string(kit.Grown), string(kit.GoneWash), string(kit.Gone)),
		SignRows: f.count("signs", 1), ReadRows: f.count("readings", 1)}
	for _, x := range kit.ExamKinds {
		b.Kinds = append(b.Kinds, option{string(x), s.shared("exam." + string(x))})
	}
	for _, l := range kit.Looks {
		row := lookRow{ID: l, Words: n.Look(l)}
		if x := t.Look(l); x != nil {
			row.Words, row.How = x.Words, x.How
		}
		for _, need := range k.Needs {
			if name := s.shared("exam." + string(need.Exam)); need.Look == l && !slices.Contains(row.For, name) {
				row.For = append(row.For, name)
			}
		}
		b.Looks = append(b.Looks, row)
		b.LookIDs = append(b.LookIDs, option{string(l), n.Look(l)})
	}
	for i := range k.Signs {
		b.Signs = append(b.Signs, option{k.Signs[i].ID, k.Signs[i].Words})
	}
	for i := range k.Parts {
		b.Parts = append(b.Parts, option{k.Parts[i].ID, n.Part(k.Parts[i].ID)})
	}
	b.Places = append([]option{{"whole", s.say("place.whole")}}, b.Parts...)
	b.OwnLights = append([]option{{"-", s.say("form.not-said")}}, b.Lights...)
	b.OwnAnswers = append([]option{{"-", s.say("form.not-said")}}, b.Answers...)
	for i := range k.Reads {
		b.Reads = append(b.Reads, option{k.Reads[i].ID, k.Reads[i].Words})
	}
	for _, l := range j.Record.Piece.Layers {
		b.Layers = append(b.Layers, option{l.Name, l.Name})
	}
	for i := range j.Record.Events {
		if e := &j.Record.Events[i]; e.Ref != "" {
			b.Events = append(b.Events, option{e.Ref, s.say("examine.event", "what", n.Event(e.Event), "day", e.Day)})
		}
	}
	if j.Outcome.Told != nil {
		for _, g := range j.Outcome.Told.Signs {
			if g.Ref != "" && g.State != kit.Gone && g.State != kit.GoneWash {
				b.Known = append(b.Known, knownSign{g.Ref, s.say("examine.known", "sign", n.Sign(g.ID), "where", n.Where(g.At), "day", g.Day, "ref", g.Ref)})
			}
		}
	}
	if f.Fix != nil {
		b.asThen(f.Fix.exam)
	}
	return b, nil
}

// asThen makes the signs on record those of which an examination speaks, and
// leaves out those that it was the first to see.
func (b *examineBody) asThen(e *kit.Examination) {
	if e == nil {
		return
	}
	for i := range e.Signs {
		g := &e.Signs[i]
		same := func(k knownSign) bool { return k.Ref == g.Ref }
		switch {
		case g.Ref == "":
		case g.State == kit.FirstSeen:
			b.Known = slices.DeleteFunc(b.Known, same)
		case !slices.ContainsFunc(b.Known, same):
			b.Known = append(b.Known, knownSign{g.Ref, g.Ref})
		}
	}
}

func (s *Site) options(group string, ids ...string) []option {
	out := make([]option, len(ids))
	for i, id := range ids {
		out[i] = option{id, s.word(group, id)}
	}
	return out
}

func (s *Site) peopleOptions(people []app.Somebody) []option {
	out := make([]option, len(people))
	for i := range people {
		out[i] = option{people[i].ID, s.say("person.as", "who", s.called(people, people[i].ID), "role", s.word("role", people[i].Role))}
	}
	return out
}

// examine takes an examination that was handed in.
func (s *Site) examine(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	b, err := s.examineBody(r, f)
	if err != nil {
		return err
	}
	if f.V("more") != "" { // another row was asked for
		return s.show(w, r, http.StatusOK, "examine", s.say("examine.title", "piece", b.Piece), b)
	}
	e := f.examination(b)
	who, err := s.whoFor(w, r, f)
	if err != nil {
		return err
	}
	status := http.StatusUnprocessableEntity
	if !f.Bad() {
		written, err := s.app.Examine(r.Context(), who, b.Piece, e)
		if err == nil {
			return s.entered(w, r, b.Piece, written)
		}
		if status, err = f.take(err); err != nil {
			return err
		}
	}
	return s.show(w, r, status, "examine", s.say("examine.title", "piece", b.Piece), b)
}

// whoFor gives who acts: whoever is chosen, or named in the form where nobody
// is, and is chosen from then on. It carries the id that the form was given
// when it was first shown, so that a form handed in twice counts once.
func (s *Site) whoFor(w http.ResponseWriter, r *http.Request, f *form) (app.Who, error) {
	people, err := s.app.People(r.Context())
	if err != nil {
		return app.Who{}, err
	}
	var who app.Who
	if p := acting(r, people); p != nil {
		who.Person = p.ID
	}
	for i := range people {
		if who.Person == "" && people[i].ID == f.V("as") {
			who.Person = people[i].ID
			remember(w, who.Person)
		}
	}
	if len(people) == 0 && f.V("as") != "" { // the first of a yard
		who.Person = f.V("as")
		remember(w, who.Person)
	}
	if who.Person == "" {
		f.fault("as", s.say("person.none-chosen"))
	}
	if t := f.V("id"); t != "" {
		if who.ID, err = entry.ParseID(t); err != nil {
			f.Top = append(f.Top, s.say("form.id"))
		}
	}
	return who, nil
}
