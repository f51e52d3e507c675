package web

import (
	"net/http"
	"slices"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/report"
)

// decideBody is the form of a competent person's decision.
type decideBody struct {
	pieceForm
	Outcome   string // what the tool says of the record
	Reasons   []string
	Exams     []option
	Nameless  int // examinations that no decision can name
	Verdicts  []option
	Occasions []option
	Lacking   []string // what the report would not state
	More      int      // rows for further defects
	Me        *app.Known
}

// decideForm shows the form, with what the last report said of the yard.
func (s *Site) decideForm(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fresh()
	if err != nil {
		return err
	}
	past, err := s.app.Decisions(r.Context(), r.PathValue("id"))
	if err != nil {
		return err
	}
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	me := acting(r, people)
	if len(past) > 0 {
		x := &past[len(past)-1]
		last := &x.Report
		for name, t := range map[string]string{"employer": last.Employer, "premises": last.Premises, "occasion": last.Occasion, "load": last.Load} {
			f.v.Set(name, t)
		}
		if f.V("occasion") == "first" {
			f.v.Set("occasion", "")
		}
		if me != nil && me.ID == x.Author { // what is said of the author is theirs alone
			f.v.Set("authentic", last.Authentic)
			if last.SelfEmploy {
				f.v.Set("self_employed", "yes")
			}
		}
	}
	return s.showDecide(w, r, http.StatusOK, f)
}

func (s *Site) showDecide(w http.ResponseWriter, r *http.Request, status int, f *form) error {
	p, err := s.about(r, f)
	if err != nil {
		return err
	}
	j, err := s.app.Judge(r.Context(), p.Piece, s.app.Today(), true)
	if err != nil {
		return err
	}
	b := decideBody{pieceForm: p, Outcome: s.verdict(j.Outcome.Verdict), Reasons: report.Brief(j.Outcome, s.app.Tables(), j.Record, s.told()).Reasons,
		Occasions: s.options("occasion", app.Occasions[:]...)}
	b.More, b.Lacking = f.count("defects", 1), f.lacking
	people, err := s.app.People(r.Context())
	if err != nil {
		return err
	}
	if me := acting(r, people); me != nil {
		x, err := s.app.Known(r.Context(), me.ID)
		if err != nil {
			return err
		}
		b.Me = &x
	}
	for v := kit.Keep; v <= kit.Withdraw; v++ {
		if v >= j.Outcome.Verdict {
			b.Verdicts = append(b.Verdicts, option{v.String(), s.verdict(v)})
		}
	}
	for _, e := range slices.Backward(j.Record.Examinations) {
		switch {
		case e.Kind != kit.Thorough && e.Kind != kit.Interim:
		case e.Ref == "":
			b.Nameless++
		default:
			b.Exams = append(b.Exams, option{e.Ref, s.say("decide.exam", "exam", e.Kind, "day", e.Day, "ref", e.Ref)})
		}
	}
	return s.show(w, r, status, "decide", s.say("decide.title", "piece", p.Piece), &b)
}

// decide takes a decision.
func (s *Site) decide(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	if f.V("more") != "" { // another row was asked for
		return s.showDecide(w, r, http.StatusOK, f)
	}
	v, _ := kit.ParseVerdict(f.choose("verdict", s.say("decide.verdict")))
	d := app.Decision{Examination: f.choose("examination", s.say("decide.on")), Verdict: v, Why: f.text("why"), Latest: f.date("latest"), Report: fold.Report{
		Number: f.text("number"), Employer: f.text("employer"), Premises: f.text("premises"), Occasion: f.V("occasion"), Load: f.text("load"), Tests: f.text("tests"),
		Defect: f.text("defect"), Repair: f.text("repair"), Immediate: f.V("immediate") != "", DangerBy: f.text("danger_by"), NotLooked: f.text("not_looked"), Authentic: f.text("authentic"),
		SelfEmploy: f.V("self_employed") != ""}}
	f.need("why", s.say("decide.no-why"))
	first := fold.Defect{Defect: d.Report.Defect, Repair: d.Report.Repair, Immediate: d.Report.Immediate, DangerBy: d.Report.DangerBy}
	f.oneDefect("", &first)
	for i := range f.count("defects", 0) {
		at := key("more", i)
		x := fold.Defect{Defect: f.text(at + ".defect"), Repair: f.text(at + ".repair"), Immediate: f.V(at+".immediate") != "", DangerBy: f.text(at + ".danger_by")}
		f.oneDefect(at+".", &x)
		if x != (fold.Defect{}) {
			d.Report.More = append(d.Report.More, x)
		}
	}
	if len(d.Report.More) > 0 && d.Report.Defect == "" {
		f.fault("defect", s.say("decide.no-defect"))
	}
	return s.enter(w, r, f, func(who app.Who) (app.Written, error) {
		if f.V("lacking") == "" && !s.mine(r, f) { // told before it is made
			var err error
			if f.lacking, err = s.app.Lacking(r.Context(), who, r.PathValue("id"), &d); err != nil {
				return app.Written{}, err
			}
			if len(f.lacking) > 0 {
				return app.Written{}, s.refuse(app.Invalid, "decide.lacking-stop")
			}
		}
		return s.app.Decide(r.Context(), who, r.PathValue("id"), d)
	}, func(status int) error { return s.showDecide(w, r, status, f) }, s.toPiece(w, r))
}

// oneDefect holds a defect to the schedule: a repair or a danger belong to a
// defect that is named, and one that is a danger now has no time by which it
// could become one.
func (f *form) oneDefect(at string, x *fold.Defect) {
	switch {
	case x.Defect == "" && *x != (fold.Defect{}):
		f.fault(at+"defect", f.s.say("decide.no-defect"))
	case x.Immediate && x.DangerBy != "":
		f.fault(at+"danger_by", f.s.say("decide.danger-twice"))
	}
}
