package web

import "net/http"

// routes gives each address what it does. None that is called by GET changes
// anything.
func (s *Site) routes() map[string]action {
	return map[string]action{
		"GET /{$}":                            s.today,
		"GET /wall":                           s.wall,
		"GET /piece/{id}":                     s.piece,
		"GET /piece/{id}/why":                 s.why,
		"GET /set/{id}":                       s.set,
		"GET /piece/{id}/examine":             s.examineForm,
		"POST /piece/{id}/examine":            s.examine,
		"GET /piece/{id}/event":               s.eventForm,
		"POST /piece/{id}/event":              s.event,
		"GET /piece/{id}/answer":              s.answerForm,
		"POST /piece/{id}/answer":             s.answer,
		"GET /piece/{id}/stop":                s.stopForm,
		"POST /piece/{id}/stop":               s.stop,
		"POST /person":                        s.person,
		"GET /do/{what}":                      s.choose,
		"GET /piece/{id}/look":                s.lookForm,
		"POST /piece/{id}/look":               s.look,
		"GET /piece/{id}/run":                 s.runForm,
		"POST /piece/{id}/run":                s.run,
		"GET /piece/{id}/hang":                s.hangForm,
		"POST /piece/{id}/hang":               s.hanged,
		"GET /piece/{id}/fit":                 s.fitForm,
		"POST /piece/{id}/fit":                s.fit,
		"GET /piece/{id}/wash":                s.washForm,
		"POST /piece/{id}/wash":               s.wash,
		"GET /piece/{id}/use":                 s.useForm,
		"POST /piece/{id}/use":                s.use,
		"GET /piece/{id}/change":              s.changeForm,
		"POST /piece/{id}/change":             s.change,
		"GET /piece/{id}/amend":               s.amendForm,
		"POST /piece/{id}/amend":              s.amend,
		"GET /piece/{id}/decide":              s.decideForm,
		"POST /piece/{id}/decide":             s.decide,
		"GET /piece/{id}/entries":             s.entries,
		"GET /piece/{id}/entry/{entry}":       s.entry,
		"POST /piece/{id}/entry/{entry}":      s.correct,
		"GET /piece/{id}/entry/{entry}/form":  s.fixEntryForm,
		"POST /piece/{id}/entry/{entry}/form": s.fixEntry,
		"GET /piece/{id}/report":              s.reportPage,
		"GET /piece/{id}/report.pdf":          s.reportPDF,
		"GET /piece/{id}/card":                s.cardPage,
		"GET /piece/{id}/card.pdf":            s.cardPDF,
		"GET /new/piece":                      s.newPieceForm,
		"POST /new/piece":                     s.newPiece,
		"GET /new/record":                     s.newRecordForm,
		"POST /new/record":                    s.newRecord,
		"GET /register":                       s.register,
		"GET /register/paper":                 s.registerPaper,
		"GET /register.pdf":                   s.registerPDF,
		"GET /people":                         s.people,
		"GET /new/person":                     s.newMemberForm,
		"POST /new/person":                    s.member,
		"GET /people/{id}":                    s.memberForm,
		"POST /people/{id}":                   s.member,
		"GET /people/{id}/forget":             s.forgetForm,
		"POST /people/{id}/forget":            s.forget,
		"GET /yard":                           s.yardForm,
		"POST /yard":                          s.yard,
		"GET /limit":                          s.limitForm,
		"POST /limit":                         s.limit,
		"GET /bench":                          s.benches,
		"GET /bench/{name}":                   s.calculate,
		"POST /bench/{name}":                  s.calculated,
		"GET /static/{name}":                  s.file,
		"/":                                   s.nowhere,
	}
}

// Handler gives the whole site, with its guards around it.
func (s *Site) Handler() http.Handler {
	m := http.NewServeMux()
	for pattern, do := range s.routes() {
		m.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
			if err := do(w, r); err != nil {
				s.fail(w, r, err)
			}
		})
	}
	return s.guard(m)
}
