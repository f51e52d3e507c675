package web

import (
	"mime"
	"net/http"
	"net/url"

	"kernbook/internal/paper"
)

// paperBody is a paper on the screen: the same content as on paper.
type paperBody struct {
	*paper.Doc
	Piece string // "" for the register
	PDF   string // address of the same as PDF
	Annex string // address with the annex, or without it
	With  bool   // the annex is there
}

// reportPage shows the report of the last decision on a piece.
func (s *Site) reportPage(w http.ResponseWriter, r *http.Request) error {
	annex := r.URL.Query().Get("annex") != ""
	f, err := s.app.ReportFacts(r.Context(), r.PathValue("id"), annex)
	if err != nil {
		return err
	}
	p := "/piece/" + url.PathEscape(r.PathValue("id")) + "/report"
	b := paperBody{Doc: paper.Examination(f), Piece: r.PathValue("id"), PDF: p + ".pdf", Annex: p + "?annex=yes", With: annex}
	if annex {
		b.PDF, b.Annex = p+".pdf?annex=yes", p
	}
	return s.show(w, r, http.StatusOK, "paper", b.Title+" "+b.Piece, &b)
}

// reportPDF gives the same as a file.
func (s *Site) reportPDF(w http.ResponseWriter, r *http.Request) error {
	f, err := s.app.ReportFacts(r.Context(), r.PathValue("id"), r.URL.Query().Get("annex") != "")
	if err != nil {
		return err
	}
	return s.pdf(w, paper.Examination(f), r.PathValue("id")+"-report.pdf")
}

// cardPage shows the record card of a piece.
func (s *Site) cardPage(w http.ResponseWriter, r *http.Request) error {
	f, err := s.app.CardFacts(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	b := paperBody{Doc: paper.Card(f), Piece: r.PathValue("id"), PDF: "/piece/" + url.PathEscape(r.PathValue("id")) + "/card.pdf"}
	return s.show(w, r, http.StatusOK, "paper", b.Title+" "+b.Piece, &b)
}

// cardPDF gives the same as a file.
func (s *Site) cardPDF(w http.ResponseWriter, r *http.Request) error {
	f, err := s.app.CardFacts(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	return s.pdf(w, paper.Card(f), r.PathValue("id")+"-card.pdf")
}

// pdf writes a paper as a file that the browser may show.
func (s *Site) pdf(w http.ResponseWriter, d *paper.Doc, name string) error {
	b, err := paper.PDF(d, s.app.Now())
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/pdf")
	w.Header().Set("Content-Disposition", mime.FormatMediaType("inline", map[string]string{"filename": name}))
	_, _ = w.Write(b) // who hung up needs no answer
	return nil
}
