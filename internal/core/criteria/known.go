package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Harmless says whether what touched a piece is known to harm none of its
// fibres: the tables have a row for each, and none asks for more than an earlier
// look. An unknown substance, fibre or amount is not known to be harmless.
func Harmless(t *table.Tables, r *kit.Record, e *kit.Event) bool {
	c := t.Contaminant(e.Substance)
	j := newJudge(t, r)
	if c == nil || j.k == nil || (j.k.Strict && !c.Harmless) {
		return false
	}
	for _, fibre := range j.fibres() {
		met := c.Harmless
		for n := range t.Effects {
			f := &t.Effects[n]
			if f.Contaminant != c.ID || !j.touches(f, fibre, e.Amount) {
				continue
			}
			if f.Verdict > kit.KeepSooner {
				return false
			}
			met = true
		}
		if !met {
			return false
		}
	}
	return true
}

// SignCounts says whether the conditions under which a sign has its class hold
// at a place: its fibre, its time in use, the signs that must lie with it. Where
// they do not, the sign is one to be weighed.
func SignCounts(t *table.Tables, r *kit.Record, sign *table.Sign, at kit.Place) bool {
	j := newJudge(t, r)
	if j.k == nil {
		return true
	}
	return j.signCounts(sign, &Sighting{Sign: sign.ID, At: at}, j.sightings())
}

// Half gives the last day for a further look at what was found on a day: half
// the usual interval after it, or after the last interim or thorough examination
// on a later day that counts as one.
func Half(t *table.Tables, r *kit.Record, found qty.Day) qty.Day {
	j := newJudge(t, r)
	if day, ok := j.completed(found, kit.Interim, kit.Thorough); ok {
		found = day
	}
	return j.half(found)
}

// Events gives all that happened to a piece up to the day of the record, in
// order: the events on record, and what was told in answer to a question without
// an event of its own, of which nothing else is known.
func Events(t *table.Tables, r *kit.Record) []kit.Event { return newJudge(t, r).events }
