// Package anyrecord draws records and tables for property tests: every record
// can be written and read back without a fault, every set of tables is one that
// the loader would take. It is test support and no part of the product.
package anyrecord

import (
	"pgregory.net/rapid"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Good is what a look is made under when nothing is in its way.
var Good = kit.Conditions{Light: "good", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}

// With says which records are drawn.
type With struct {
	Kinds                                                      func(*table.Kind) bool // nil: any kind
	NoSigns, NoReadings, NoEvents, NoAnswers, NoChanges, NoLog bool                   // NoLog: neither examinations nor runs
	Whole                                                      bool                   // looks go all over the piece or nowhere
	Mild                                                       bool                   // no event, sign or answer to a question that is bad news by itself
}

// Doubted says whether a kind has a doubt figure.
func Doubted(k *table.Kind) bool { return k.Doubt }

// Celled says whether a kind has a doubt figure and cells along it.
func Celled(k *table.Kind) bool { return k.Doubt && k.Axis == "length" }

// pick draws one of a list, told by its place in it.
func pick[T any](t *rapid.T, label string, list []T) T {
	return list[rapid.IntRange(0, len(list)-1).Draw(t, label)]
}

// once is true once in n times; what shrinks goes toward false.
func once(t *rapid.T, label string, n int) bool {
	return rapid.IntRange(0, n-1).Draw(t, label) == n-1
}

// upTo draws a number that is seldom large.
func upTo(t *rapid.T, label string, n int) int {
	return min(rapid.IntRange(0, n).Draw(t, label), rapid.IntRange(0, n).Draw(t, label+" at most"))
}

// Copy gives a copy of a record that shares nothing that a test may change.
func Copy(r *kit.Record) *kit.Record {
	c := *r
	c.Piece.Layers = clone(r.Piece.Layers)
	c.Piece.Zones = clone(r.Piece.Zones)
	c.People, c.Uses, c.Events, c.Answers, c.Changes = clone(r.People), clone(r.Uses), clone(r.Events), clone(r.Answers), clone(r.Changes)
	c.Runs = clone(r.Runs)
	for i := range c.Runs {
		c.Runs[i].Looks = looksOf(c.Runs[i].Looks)
	}
	c.Examinations = clone(r.Examinations)
	for i := range c.Examinations {
		e := &c.Examinations[i]
		e.Looks, e.Signs, e.Readings = looksOf(e.Looks), clone(e.Signs), clone(e.Readings)
		if e.Asked != nil {
			asked := make(map[string]kit.Yes, len(e.Asked))
			for id, yes := range e.Asked {
				asked[id] = yes
			}
			e.Asked = asked
		}
	}
	return &c
}

func looksOf(looks []kit.Look) []kit.Look {
	looks = clone(looks)
	for i := range looks {
		looks[i].Covers = clone(looks[i].Covers)
	}
	return looks
}

func clone[T any](list []T) []T { return append([]T(nil), list...) }
