package report

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/report/draw"
)

// Drawing gives an outcome as one sheet of Scalable Vector Graphics, with the
// words of a catalogue.
func Drawing(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) []byte {
	s := newSpeaker(o, t, r, words)
	w := draw.Words{Outcome: s.verdict(o.Verdict), Kind: s.kind(o.Kind), Name: s.drawn}
	if o.Held {
		w.Outcome = s.Say("verdict.held")
	}
	for i := range o.Reasons {
		w.Reasons = append(w.Reasons, s.reason(&o.Reasons[i]))
	}
	if len(w.Reasons) > 0 {
		w.Main = w.Reasons[0]
	}
	return draw.Outcome(o, r, w, draw.Size{})
}

// drawn gives the name of a part or a sign; looks and zones go by their own
// short words, for which there is room on the sheet.
func (s *speaker) drawn(what, id string) string {
	switch what {
	case "part":
		return s.part(id)
	case "sign":
		return s.sign(id)
	}
	return ""
}
