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
	return draw.Outcome(o, r, DrawingWords(o, t, r, words), draw.Size{})
}

// NarrowDrawing gives the same on a sheet for a phone.
func NarrowDrawing(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) []byte {
	return draw.Narrow(o, r, DrawingWords(o, t, r, words))
}

// DrawingWords gives what the sheet of an outcome says, for any sink.
func DrawingWords(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) draw.Words {
	s := newSpeaker(o, t, r, words)
	w := draw.Words{Unsaid: s.couldBeSaid(), Open: !s.isFinal(), Say: s.Say, Name: s.drawn, Share: func(p float64) string { return s.share(p, true) }}
	for i := range o.Reasons {
		w.Reasons = append(w.Reasons, s.reason(&o.Reasons[i]))
	}
	return w
}

// drawn gives the name of a thing as the sheet has room for it: the catalogue's
// short one, else the one of the text.
func (s *speaker) drawn(what, id string) string {
	long := ""
	switch what {
	case "kind":
		long = s.kind(kit.KindID(id))
	case "look":
		long = s.look(kit.LookID(id))
	case "part":
		long = s.part(id)
	case "sign":
		long = s.sign(id)
	}
	return s.name("draw."+what, id, long)
}
