package web

import (
	"bytes"
	"net/http"
	"net/url"
	"slices"

	"kernbook/internal/app"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// fixing is the correction of an entry by a form of the sort it was made with.
type fixing struct {
	Number int64
	Kind   string           // in words
	exam   *kit.Examination // what it says, of an examination
}

// fixer is how entries of one kind are filled into a form, shown, and read again.
type fixer struct {
	show func(w http.ResponseWriter, r *http.Request, status int, f *form) error
	read func(r *http.Request, f *form, old any) (any, error) // old is the body that the form was filled from
}

// fixer gives how entries of a kind are corrected by a form; false where none
// holds all that such an entry can say.
func (s *Site) fixer(k entry.Kind) (fixer, bool) {
	plain := func(read func(f *form) any) func(*http.Request, *form, any) (any, error) {
		return func(_ *http.Request, f *form, _ any) (any, error) { return read(f), nil }
	}
	switch k {
	case entry.Examination:
		return fixer{s.showExamine, func(r *http.Request, f *form, old any) (any, error) {
			b, err := s.examineBody(r, f)
			if err != nil {
				return nil, err
			}
			e := f.examination(b)
			keepCovers(e.Looks, old.(*kit.Examination).Looks)
			return &e, nil
		}}, true
	case entry.Run:
		return fixer{s.showRun, func(r *http.Request, f *form, old any) (any, error) {
			b, err := s.lookBody(r, f)
			if err != nil {
				return nil, err
			}
			x := f.run(b)
			keepCovers(x.Looks, old.(*kit.Run).Looks)
			return &x, nil
		}}, true
	case entry.Event:
		return fixer{s.showEvent, plain(func(f *form) any { x := f.event(); return &x })}, true
	case entry.Answer:
		return fixer{s.showAnswer, func(_ *http.Request, f *form, old any) (any, error) {
			x := f.answer(old.(*kit.Answer).By) // who answered does not change by who corrects
			return &x, nil
		}}, true
	case entry.Washing:
		return fixer{s.showWash, plain(func(f *form) any { x := f.washing(); return &x })}, true
	case entry.Change:
		return fixer{s.showChange, plain(func(f *form) any { x := f.change(); return &x })}, true
	case entry.Fit:
		return fixer{s.showFit, plain(func(f *form) any { x := f.fitted(); return &x })}, true
	case entry.Hang:
		return fixer{s.showHang, plain(func(f *form) any { x := f.hung(); return &x })}, true
	case entry.Stop:
		return fixer{s.showStop, plain(func(f *form) any { x := f.stop(); return &x })}, true
	case entry.Use:
		return fixer{s.showUse, plain(func(f *form) any { u := f.use(); return &fold.Use{Use: record.EncodeUse(&u), Of: f.V("of")} })}, true
	case entry.Amend:
		return fixer{s.showAmend, func(_ *http.Request, f *form, old any) (any, error) {
			was, faults := record.DecodePiece("", old.(*fold.Amend).Piece)
			p := f.kit(was.ID, was.Kind)
			p.Fitted, p.StoredIn = was.Fitted, was.StoredIn
			return &fold.Amend{Piece: record.EncodePiece(&p), Why: f.need("why", s.say("kit.no-why"))}, faults.Err()
		}}, true
	case entry.Piece:
		return fixer{s.showNewPiece, func(_ *http.Request, f *form, old any) (any, error) {
			was := old.(*kit.Piece)
			f.dropEmptyLayers()
			p := f.kit(was.ID, was.Kind)
			return &p, nil
		}}, true
	}
	return fixer{}, false
}

// keepCovers leaves to asking and reading, which go nowhere on a piece, what an
// entry says of where they went: no form asks for it.
func keepCovers(looks, old []kit.Look) {
	for i := range looks {
		l := &looks[i]
		if l.Look != kit.Ask && l.Look != kit.Read {
			continue
		}
		if at := slices.IndexFunc(old, func(o kit.Look) bool { return o.Look == l.Look }); at >= 0 {
			l.Covers = old[at].Covers
		}
	}
}

// fixForm gives the form that an entry was made with, filled with what it says;
// false where no form holds all of it, so that nothing of it can be lost.
func (s *Site) fixForm(r *http.Request, l *fold.Line) (*form, fixer, bool) {
	x, ok := s.fixer(l.Kind)
	if !ok {
		return nil, x, false
	}
	v, err := fold.Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		return nil, x, false
	}
	f := s.form(url.Values{})
	f.Fix = s.fixingOf(l, v)
	f.fill(v)
	typed := cloned(f.v)
	again, err := x.read(r, f, v)
	if err != nil || f.Bad() || !sameBody(again, v) {
		return nil, x, false
	}
	out := s.form(typed)
	out.Fix = f.Fix
	return out, x, true
}

func (s *Site) fixingOf(l *fold.Line, v any) *fixing {
	x := &fixing{Number: l.Index + 1, Kind: s.word("entry", string(l.Kind))}
	x.exam, _ = v.(*kit.Examination)
	return x
}

func cloned(v url.Values) url.Values {
	out := url.Values{}
	for k, list := range v {
		out[k] = slices.Clone(list)
	}
	return out
}

// sameBody says whether two bodies say the same: also where one names whoever
// made the whole for each of its looks and signs, and the other does not.
func sameBody(a, b any) bool { return bytes.Equal(fold.Encode(named(a)), fold.Encode(named(b))) }

// named gives a body with whoever made an examination or a run named for each of
// its looks and signs.
func named(v any) any {
	looks := func(list []kit.Look, by string) []kit.Look {
		list = slices.Clone(list)
		for i := range list {
			list[i].By = list[i].Maker(by)
		}
		return list
	}
	switch b := v.(type) {
	case *kit.Examination:
		e := *b
		e.Looks, e.Signs = looks(e.Looks, e.By), slices.Clone(e.Signs)
		for i := range e.Signs {
			if e.Signs[i].By == "" {
				e.Signs[i].By = e.By
			}
		}
		return &e
	case *kit.Run:
		x := *b
		x.Looks = looks(x.Looks, x.By)
		return &x
	}
	return v
}

// fixed gives the entry that an address names, with the form that corrects it.
func (s *Site) fixed(r *http.Request) (fold.Line, *form, fixer, error) {
	id, err := entry.ParseID(r.PathValue("entry"))
	if err != nil {
		return fold.Line{}, nil, fixer{}, s.refuse(app.NotFound, "entries.none")
	}
	l, err := s.app.Entry(r.Context(), r.PathValue("id"), id)
	if err != nil {
		return l, nil, fixer{}, err
	}
	f, x, ok := s.fixForm(r, &l)
	if !ok {
		return l, nil, x, s.refuse(app.NotFound, "correct.no-form")
	}
	return l, f, x, nil
}

// fixEntryForm shows the form that an entry was made with, to be corrected.
func (s *Site) fixEntryForm(w http.ResponseWriter, r *http.Request) error {
	_, f, x, err := s.fixed(r)
	if err != nil {
		return err
	}
	id, err := s.app.NewID()
	if err != nil {
		return err
	}
	f.v.Set("id", id.String())
	return x.show(w, r, http.StatusOK, f)
}

// fixEntry takes the entry as it should be.
func (s *Site) fixEntry(w http.ResponseWriter, r *http.Request) error {
	l, old, x, err := s.fixed(r)
	if err != nil {
		return err
	}
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	f.Fix = old.Fix
	if f.V("more") != "" || f.V("again") != "" { // another row was asked for, or to go on writing
		f.v.Del("again")
		return x.show(w, r, http.StatusOK, f)
	}
	v, err := fold.Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		return err
	}
	typed := cloned(f.v)
	instead, err := x.read(r, f, v)
	if err != nil {
		return err
	}
	if !f.Bad() && sameBody(instead, v) && !s.mine(r, f) {
		f.Top = append(f.Top, s.say("correct.same"))
	}
	return s.fix(w, r, f, typed, &l, instead, f.need("wrong", s.say("correct.no-why")), func(status int) error { return x.show(w, r, status, f) })
}
