// Package report shows an outcome: as text for a terminal and as JSON. It
// decides nothing. Every sentence comes from a catalogue of words, every figure
// from the outcome, and every name of a sign, look or place from the tables.
package report

import (
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Words is a catalogue of one language, as package lang has it.
type Words interface {
	Language() string                                    // tag of BCP 47: "en"
	Has(key string) bool                                 // whether there are words for the key
	Say(key string, args ...criteria.Arg) string         // the sentence with its values
	List(items []string) string                          // "a, b and c"
	Place(p kit.Place, part, zone string) string         // "from 430 mm to 480 mm from end A"; "" for a place that names nothing
	Places(key string) (shown []string, needed []string) // values that a sentence shows
}

// arg is one named value of a sentence.
type arg = criteria.Arg

// speaker puts ids and values of one outcome into words.
type speaker struct {
	Words
	o *decide.Outcome
	t *table.Tables
	r *kit.Record
	k *table.Kind // never nil; empty where the tables do not have the kind
}

func newSpeaker(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) *speaker {
	s := &speaker{Words: words, o: o, t: t, r: r, k: t.Kind(o.Kind)}
	if s.k == nil {
		s.k = &table.Kind{ID: o.Kind}
	}
	return s
}
