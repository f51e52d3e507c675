package web

import (
	"html/template"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/report"
	"kernbook/internal/report/draw"
)

// query makes a text safe inside an address.
func query(t string) string { return url.QueryEscape(t) }

// pieceBody is what the page of a piece shows.
type pieceBody struct {
	Hung    hung
	Record  *kit.Record
	Short   report.Short
	Open    []task
	Drawing template.HTML // the doubt line; "" where there is none
	Line    [][]string    // the same as a table; the first row is the head
	History []happened
	Gone    *gone  // out of use for good; nil for one that is not
	Aside   string // who set it aside, and why; "" where nobody did
	Back    string // what was last done about its use, where it is in use
	Next    string // "" where no look is to come
	Due     string
	Entered string       // number of the entry that was just made
	Exam    kit.ExamKind // what sort of examination that was, where it lacks something
	Lacks   []string     // why it does not count as one of that sort
	Times   []timed
	Decided bool // there is a report
	Other   int  // decisions that would be others today
	NoUse   bool // how it is used is not on record
}

// piece shows how one piece stands, and what came before.
func (s *Site) piece(w http.ResponseWriter, r *http.Request) error {
	ctx, id, day := r.Context(), r.PathValue("id"), s.app.Today()
	card, err := s.app.CardOf(ctx, id, day)
	if err != nil {
		return err
	}
	j, err := s.app.Judge(ctx, id, day, !card.Stopped.ForGood())
	if err != nil {
		return s.broken(w, r, &card, err)
	}
	deeds, err := s.app.Deeds(ctx, id)
	if err != nil {
		return err
	}
	pasts, err := s.app.Decisions(ctx, id)
	if err != nil {
		return err
	}
	lines, err := s.app.Entries(ctx, id)
	if err != nil {
		return err
	}
	people, err := s.app.Everybody(ctx)
	if err != nil {
		return err
	}
	b := pieceBody{Hung: s.hang(&card), Record: j.Record, History: s.history(&j, deeds, pasts, lines, people),
		Times: s.times(&card), Decided: len(pasts) > 0, NoUse: len(j.Record.Uses) == 0 && !card.Stopped.ForGood()}
	if b.Gone, err = s.goneOf(ctx, &card, people); err != nil {
		return err
	}
	if b.Gone != nil { // what counts is how it stood then, not what has fallen due since
		if j, err = s.whole(ctx, &card, b.Gone); err != nil {
			return err
		}
		if j.Outcome.Doubt != nil {
			b.Hung.Bar = s.bar(j.Outcome.Doubt.Millions, j.Outcome.Doubt.Limit)
		}
	}
	b.Short = report.Brief(j.Outcome, s.app.Tables(), j.Record, s.told())
	b.Drawing, b.Line = s.drawing(draw.PartLine, &j), s.lineTable(&j)
	s.whatNext(&b, &card, &j, people)
	for i := range pasts {
		if x := &pasts[i]; x.Core != nil && x.Core.Verdict != x.Outcome || x.Recorded != nil && x.Recorded.Verdict != x.Outcome {
			b.Other++
		}
	}
	if n, err := strconv.ParseInt(r.URL.Query().Get("entered"), 10, 64); err == nil && n > 0 {
		b.Entered = strconv.FormatInt(n, 10)
		if e := examinationAt(lines, n-1); e != nil && b.Gone == nil {
			for _, i := range app.Lacks(j.Outcome, e) {
				b.Exam, b.Lacks = e.Kind, append(b.Lacks, b.Short.Reasons[i])
			}
		}
	}
	return s.show(w, r, http.StatusOK, "piece", id, &b)
}

// whatNext says what is open on a piece, and when it is looked at next: nothing
// of that for one that is out of use, and no date for one that is set aside.
func (s *Site) whatNext(b *pieceBody, c *app.Card, j *app.Judged, people []app.Somebody) {
	st := &c.Stopped
	by := s.called(people, st.By)
	if b.Gone != nil {
		b.Short.Reasons = withoutDue(b.Short.Reasons, j)
		return
	}
	if c.Stands() == kit.Withdraw {
		b.Open = append(b.Open, task{c, s.say("piece.take-out"), "stop?what=withdraw", s.say("today.withdraw-do")})
	}
	for _, q := range b.Short.Open {
		b.Open = append(b.Open, s.settle(j.Outcome, q))
	}
	switch {
	case st.Aside:
		b.Aside, b.Next = s.say("piece.set-aside", "day", st.Day, "who", by, "why", st.Why), s.say("piece.next-aside")
		b.Open = append(b.Open, task{c, s.say("piece.settle-aside"), "stop", s.say("do.stop")})
	case st.Passed && j.Outcome.Verdict < kit.SetAside:
		b.Aside, b.Next = s.say("today.passed", "day", st.Latest), s.say("piece.next-aside")
		b.Open = append(b.Open, task{c, s.say("piece.settle-passed"), "examine?kind=thorough", s.say("today.examine-do")})
	case c.Stands() >= kit.SetAside:
		b.Next = b.Short.Next
	default:
		if b.Next, b.Due = b.Short.Next, b.Short.Due; decidedSooner(c, j.Outcome) {
			if b.Due = s.say("today.latest", "day", st.Latest); c.NextWhy == "decided" {
				b.Next, b.Due = b.Due, ""
			}
		}
		if st.Day != 0 {
			b.Back = s.say("piece.stopped", "day", st.Day, "who", by, "why", st.Why)
		}
	}
}

// withoutDue leaves out of the reasons of a piece that is out of use that an
// examination was due, where there is another.
func withoutDue(reasons []string, j *app.Judged) []string {
	var out []string
	for i := range j.Outcome.Reasons {
		if i < len(reasons) && !strings.HasPrefix(j.Outcome.Reasons[i].Key, "interval.") {
			out = append(out, reasons[i])
		}
	}
	return out
}

// brokenBody is a piece for which no outcome can be given.
type brokenBody struct {
	Hung hung
	Say  string
}

// broken shows a piece for which no outcome can be given: it is not used, and
// its entries are where that is mended.
func (s *Site) broken(w http.ResponseWriter, r *http.Request, c *app.Card, err error) error {
	status, e := s.sentence(err)
	if e.Code != app.Broken {
		return err
	}
	return s.show(w, r, status, "broken", c.ID, &brokenBody{s.hang(c), e.Say})
}

// drawing gives a part of the sheet of an outcome as an element of a page.
func (s *Site) drawing(part string, j *app.Judged) template.HTML {
	// Package draw escapes every text it is given.
	w := report.DrawingWords(j.Outcome, s.app.Tables(), j.Record, s.told())
	wide := draw.Part(part, j.Outcome, j.Record, w)
	if wide == nil {
		return ""
	}
	return template.HTML(`<div class="desk">` + string(wide) + `</div><div class="phone">` + string(draw.NarrowPart(part, j.Outcome, j.Record, w)) + `</div>`)
}

// lineTable says what the drawing of the doubt line shows.
func (s *Site) lineTable(j *app.Judged) [][]string {
	if j.Outcome.Told == nil || len(j.Outcome.Told.Line) == 0 {
		return nil
	}
	out := [][]string{{s.shared("line.day"), s.shared("where.doubt"), s.shared("line.hidden"), s.shared("line.mark")}}
	for _, p := range j.Outcome.Told.Line {
		mark := ""
		switch {
		case p.Mark == "event":
			mark = s.shared("line.event")
		case p.Mark != "":
			mark = s.shared("exam." + p.Mark)
		}
		out = append(out, []string{p.Day.Words(), s.chance(p.D), s.chance(p.Hidden), mark})
	}
	return out
}

// entered sends whoever entered something back to the piece.
func (s *Site) entered(w http.ResponseWriter, r *http.Request, piece string, written app.Written) error {
	http.Redirect(w, r, "/piece/"+url.PathEscape(piece)+"?entered="+strconv.FormatInt(written.Index+1, 10), http.StatusSeeOther)
	return nil
}

// examinationAt gives the examination that an entry about a piece says, by its place in
// the book; nil where it says something else.
func examinationAt(lines []fold.Line, index int64) *kit.Examination {
	for i := range lines {
		l := &lines[i]
		if l.Index != index || l.Void {
			continue
		}
		if v, err := fold.Decode(l.Kind, l.Version, l.Body); err == nil {
			e, _ := v.(*kit.Examination)
			return e
		}
	}
	return nil
}
