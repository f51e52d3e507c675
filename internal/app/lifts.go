package app

import (
	"context"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// lifts refuses an answer to what no answer settles, and says what does. A word that the
// piece is not fit withdraws it, whatever it answers. Of a piece for which no outcome can
// be given, and of an answer to what is not asked, the record's own reader judges.
func (a *App) lifts(ctx context.Context, piece string, x *kit.Answer) error {
	if x.Unfit || x.Day > a.Today() {
		return nil
	}
	j, err := a.Judge(ctx, piece, a.Today(), false)
	if err != nil {
		return nil // put says why
	}
	o := j.Outcome
	asked := false
	for i := range o.Reasons {
		if r := &o.Reasons[i]; r.Question != "" && r.To == x.To {
			if decide.Lifts(r) {
				return nil
			}
			asked = true
		}
	}
	if !asked {
		return nil
	}
	for _, q := range report.Brief(o, a.tables, j.Record, lang.English()).Open {
		if q.To == x.To {
			return fail(Refused, "No answer settles “%s”: it would be entered, and nothing would change. %s", x.To, q.Say)
		}
	}
	return nil
}
