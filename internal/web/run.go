package web

import (
	"net/http"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
)

// runBody is the form of like looks on many days.
type runBody struct {
	lookBody
	Weekdays []option
}

// runForm shows the empty form: on which days somebody looked is for them to say.
func (s *Site) runForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.freshBy(r)
	if err != nil {
		return err
	}
	f.v.Set("kind", string(kit.PreUse))
	return s.showRun(w, r, http.StatusOK, f)
}

func (s *Site) showRun(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	b, err := s.lookBody(r, f)
	if err != nil {
		return err
	}
	return s.show(w, r, status, "run", s.say("run.title", "piece", b.Piece), &runBody{*b, s.options("weekday", weekdayNames...)})
}

// run takes a run of like looks.
func (s *Site) run(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	b, err := s.lookBody(r, f)
	if err != nil {
		return err
	}
	x := f.run(b)
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) { return s.app.KeepRun(r.Context(), who, b.Piece, x) },
		func(status int) error { return s.showRun(w, r, status, f) }, s.toPiece(w, r))
}

// run reads like looks on many days.
func (f *form) run(b *lookBody) kit.Run {
	x := kit.Run{Ref: f.text("ref"), Kind: kit.ExamKind(f.choose("kind", f.s.say("examine.kind"))), By: f.choose("by", f.s.say("examine.by")), From: f.day("from"), To: f.day("to"), Weekdays: f.weekdays("weekdays")}
	x.Looks = f.quickLooks(b.Looks, x.By, []kit.Stretch{{All: true}})
	switch {
	case x.Weekdays == [8]bool{}:
		f.fault("weekdays", f.s.say("run.no-days"))
	case x.To < x.From:
		f.fault("to", f.s.say("run.backwards"))
	}
	return x
}
