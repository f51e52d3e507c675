package web

import (
	"net/http"
	"net/url"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/paper"
)

// registerBody is the yard's register, with what was there at a visit.
type registerBody struct {
	Lines   []registerLine
	Visit   bool // it is said which pieces were presented
	Missing int
	Paper   string // address of the paper on the screen
	PDF     string
}

// registerLine is a piece on it.
type registerLine struct {
	paper.Line
	Stand kit.Verdict // how it stands, for the weight of its words
}

// presented reads which pieces were there at a visit; nil says that nobody was
// asked, and so all.
func presented(r *http.Request) map[string]bool {
	q := r.URL.Query()
	if q.Get("visit") == "" {
		return nil
	}
	out := map[string]bool{}
	for _, id := range q["here"] {
		out[id] = true
	}
	return out
}

// register shows every piece of the yard.
func (s *Site) register(w http.ResponseWriter, r *http.Request) error {
	here := presented(r)
	lines, _, _, err := s.app.RegisterLines(r.Context(), here)
	if err != nil {
		return err
	}
	cards, err := s.app.Board(r.Context(), s.app.Today())
	if err != nil {
		return err
	}
	people, err := s.app.Everybody(r.Context())
	if err != nil {
		return err
	}
	card := map[string]*app.Card{}
	for i := range cards {
		card[cards[i].ID] = &cards[i]
	}
	b := registerBody{Visit: here != nil, Paper: "/register/paper", PDF: "/register.pdf"}
	if b.Visit {
		b.Paper, b.PDF = b.Paper+"?"+r.URL.RawQuery, b.PDF+"?"+r.URL.RawQuery
	}
	for _, l := range lines {
		c := card[l.ID]
		if c == nil { // registered between the two questions
			continue
		}
		l.Holder, l.Kind = s.called(people, c.Holder), s.kind(c.Kind)
		if !l.Presented {
			b.Missing++
		}
		b.Lines = append(b.Lines, registerLine{l, c.Stands()})
	}
	return s.show(w, r, http.StatusOK, "register", s.say("register.title"), &b)
}

// registerPaper shows the register as it is handed over.
func (s *Site) registerPaper(w http.ResponseWriter, r *http.Request) error {
	d, err := s.registerDoc(r)
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, "paper", d.Title, &paperBody{Doc: d, PDF: (&url.URL{Path: "/register.pdf", RawQuery: r.URL.RawQuery}).String()})
}

// registerPDF gives the same as a file.
func (s *Site) registerPDF(w http.ResponseWriter, r *http.Request) error {
	d, err := s.registerDoc(r)
	if err != nil {
		return err
	}
	return s.pdf(w, d, "register.pdf")
}

func (s *Site) registerDoc(r *http.Request) (*paper.Doc, error) {
	here := presented(r)
	lines, yard, head, err := s.app.RegisterLines(r.Context(), here)
	if err != nil {
		return nil, err
	}
	if len(lines) == 0 {
		return nil, s.refuse(app.NotFound, "register.empty")
	}
	return paper.Register(yard, s.app.Today().Words(), head, lines, here != nil), nil
}
