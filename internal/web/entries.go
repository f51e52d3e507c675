package web

import (
	"bytes"
	"encoding/json"
	"net/http"
	"slices"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// entriesBody is all that is in the book about a piece.
type entriesBody struct {
	Piece string
	Lines []entryLine
}

// entryLine is one entry as it is listed.
type entryLine struct {
	ID        string
	Number    int64
	Day       qty.Day
	Kind      string
	By        string // who entered it, for whom, and when
	Void      bool   // a correction took it out
	Corrected bool
}

// entries lists the entries about a piece, the latest first.
func (s *Site) entries(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("id")
	lines, err := s.app.Entries(r.Context(), id)
	if err != nil {
		return err
	}
	people, err := s.app.Everybody(r.Context())
	if err != nil {
		return err
	}
	b := entriesBody{Piece: id}
	for _, l := range slices.Backward(lines) {
		b.Lines = append(b.Lines, s.entryLine(&l, people))
	}
	return s.show(w, r, http.StatusOK, "entries", s.say("entries.title", "piece", id), &b)
}

func (s *Site) entryLine(l *fold.Line, people []app.Somebody) entryLine {
	return entryLine{ID: l.ID.String(), Number: l.Index + 1, Day: l.Day, Kind: s.word("entry", string(l.Kind)), By: s.by(people, l, doer(l), lastDay(l)), Void: l.Void, Corrected: l.Was != nil}
}

// by says who entered something, for whom where somebody else did it, and on
// which day where that is another than it happened on.
func (s *Site) by(people []app.Somebody, l *fold.Line, doer string, day qty.Day) string {
	on := ""
	if d := enteredOn(l); d != 0 && d != day {
		on = d.String()
	}
	if doer == l.Author {
		return s.say("history.by", "who", s.called(people, l.Author), "day", on)
	}
	if doer != "" {
		doer = s.called(people, doer)
	}
	return s.say("history.entered", "who", s.called(people, l.Author), "for", doer, "day", on)
}

// enteredOn gives the day on which an entry was made, where it was made; 0 where
// it does not say.
func enteredOn(l *fold.Line) qty.Day {
	if len(l.Wall) < len("2026-06-01") {
		return 0
	}
	d, err := qty.ParseDate(l.Wall[:len("2026-06-01")])
	if err != nil || !d.Exact() {
		return 0
	}
	return d.Earliest()
}

// doer gives who did what an entry tells; "" where it names nobody.
func doer(l *fold.Line) string {
	v, err := fold.Decode(l.Kind, l.Version, l.Body)
	if err != nil {
		return ""
	}
	switch b := v.(type) {
	case *kit.Examination:
		return b.Maker()
	case *kit.Run:
		return b.By
	case *kit.Change:
		return b.By
	case *kit.Answer:
		return b.By
	case *kit.Event:
		return ""
	}
	return l.Author
}

// lastDay gives the last day that an entry speaks of: of a run its end.
func lastDay(l *fold.Line) qty.Day {
	if v, err := fold.Decode(l.Kind, l.Version, l.Body); err == nil {
		if x, ok := v.(*kit.Run); ok {
			return x.To
		}
	}
	return l.Day
}

// entryBody is one entry, with the form to correct it, or what a correction
// changed.
type entryBody struct {
	F          *form
	Piece      string
	Line       entryLine
	Recorded   string
	Says       string // as a block of JSON
	Was        string // before it was corrected
	SaysRows   []changed
	WasRows    []changed // likewise, to be read
	Fix        bool      // it can be corrected
	Written    bool      // it can be written anew as text
	ByForm     bool      // it can be written anew by the form it was made with
	Correction *app.Correction
	Before     string
	After      string
	Old        *entryLine // what a correction speaks of
	Entered    string
}

// entry shows one entry.
func (s *Site) entry(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	return s.showEntry(w, r, http.StatusOK, f)
}

func (s *Site) showEntry(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	ctx, piece := r.Context(), r.PathValue("id")
	id, err := entry.ParseID(r.PathValue("entry"))
	if err != nil {
		return s.refuse(app.NotFound, "entries.none")
	}
	l, err := s.app.Entry(ctx, piece, id)
	if err != nil {
		return err
	}
	people, err := s.app.Everybody(ctx)
	if err != nil {
		return err
	}
	b := entryBody{F: f, Piece: piece, Line: s.entryLine(&l, people), Recorded: instant(l.Recorded), Says: pretty(l.Body), Entered: justEntered(r), Fix: l.Kind != entry.Correct}
	_, err = fold.Read(l.Kind, l.Body)
	_, _, b.ByForm = s.fixForm(r, &l)
	b.Written = err == nil && !b.ByForm
	b.SaysRows = differences(nil, l.Body)
	if l.Was != nil {
		b.Was, b.WasRows = pretty(l.Was), differences(nil, l.Was)
	}
	if _, typed := f.v["instead"]; !typed {
		f.v.Set("instead", b.Says)
	}
	if l.Kind == entry.Correct {
		c, err := s.app.Corrected(ctx, piece, id)
		if err != nil {
			return err
		}
		t := teller{s: s}
		old := s.entryLine(&c.Entry, people)
		b.Correction, b.Old, b.Before, b.After = &c, &old, t.now(&c.Before), t.now(&c.After)
	}
	return s.show(w, r, status, "entry", s.say("entries.one", "n", b.Line.Number, "piece", piece), &b)
}

// instant gives an instant of the book as it is read.
func instant(t string) string {
	at, err := time.Parse("2006-01-02T15:04:05.000Z", t)
	if err != nil {
		return t
	}
	return at.Format("2 Jan 2006, 15:04 UTC")
}

// pretty lays a body out to be read.
func pretty(body []byte) string {
	var b bytes.Buffer
	if json.Indent(&b, body, "", "  ") != nil {
		return string(body)
	}
	return b.String()
}
