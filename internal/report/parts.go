package report

import (
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
)

// Block is one paragraph, list item or table of a section; exactly one of Para,
// Item and Rows is there.
type Block struct {
	Under bool // Para begins a part of the section
	Para  string
	Item  string
	Notes []string   // what belongs to Item
	Rows  [][]string // the first row is the head
}

// Section is a part of a report with its title; the first has none.
type Section struct {
	Title  string
	Blocks []Block
}

// Sections gives what Text writes in full as data, for whoever lays it out in another
// form: the same sentences in the same order. The strip of blocks along the
// piece is left out: it is a drawing, of which the table says the same.
func Sections(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) []Section {
	b := &gathered{out: []Section{{}}}
	(&text{speaker: newSpeaker(o, t, r, words), pen: b, full: true}).all()
	return b.out
}

// gathered is a pen that keeps what is written.
type gathered struct{ out []Section }

func (b *gathered) add(x Block) {
	s := &b.out[len(b.out)-1]
	s.Blocks = append(s.Blocks, x)
}

func (b *gathered) title(s string)        { b.out = append(b.out, Section{Title: s}) }
func (b *gathered) under(s string)        { b.add(Block{Under: true, Para: s}) }
func (b *gathered) wrap(_, s string)      { b.add(Block{Para: s}) }
func (b *gathered) para(s string)         { b.add(Block{Para: s}) }
func (b *gathered) item(s string)         { b.add(Block{Item: s}) }
func (b *gathered) table(rows [][]string) { b.add(Block{Rows: rows}) }

func (b *gathered) note(s string) {
	if s == "" {
		return
	}
	list := b.out[len(b.out)-1].Blocks
	if n := len(list); n > 0 {
		list[n-1].Notes = append(list[n-1].Notes, s)
	}
}

// Open is a question of an outcome in words.
type Open struct {
	ID     string // one of the Q words
	To     string // what an answer has to name
	Answer bool   // an answer on record can settle it; else an examination, a look or a date does
	Say    string
}

// Short is an outcome in a few sentences.
type Short struct {
	Verdict string   // "keep", or "withdraw, held"
	Kind    string   // its kind in words
	Reasons []string // strictest first
	Open    []Open
	Next    string
	Doubt   string // the figure beside its limit, or why there is none
	Chance  string // "1 in 45 000"; "" where there is no figure
	Limit   string // likewise
	Hidden  string // likewise: the part that no look can take away
	Life    string
	Due     string // the next thorough examination
}

// Brief gives an outcome in a few sentences.
func Brief(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) Short {
	s := newSpeaker(o, t, r, words)
	b := Short{Verdict: s.verdict(o.Verdict), Kind: s.kind(o.Kind), Next: s.nextLine(), Life: s.bound(&o.LifeEnd.Bound), Due: s.bound(&o.Due.Bound)}
	if o.Held {
		b.Verdict = s.Say("verdict.held")
	}
	for i := range o.Reasons {
		b.Reasons = append(b.Reasons, s.reason(&o.Reasons[i]))
	}
	for i := range o.Open {
		q := &o.Open[i]
		b.Open = append(b.Open, Open{ID: q.ID, To: q.To, Answer: o.Answerable(q), Say: s.settle(q)})
	}
	if o.Doubt == nil {
		b.Doubt = s.noDoubt()
		return b
	}
	b.Doubt, b.Chance, b.Limit, b.Hidden = s.figure(), s.chance(o.Doubt.Millions), s.chance(o.Doubt.Limit), s.chance(o.Doubt.HiddenUp)
	return b
}

// Namer puts ids of one record into words.
type Namer struct{ s *speaker }

// Names gives the words for the ids of one record.
func Names(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) Namer {
	return Namer{newSpeaker(o, t, r, words)}
}

// Sign gives a sign of the kind in words.
func (n Namer) Sign(id string) string { return n.s.sign(id) }

// Look gives a look by its short name.
func (n Namer) Look(id kit.LookID) string { return n.s.drawn("look", string(id)) }

// Event gives an event in words.
func (n Namer) Event(id string) string { return n.s.event(id) }

// Cause gives a harmless cause in words.
func (n Namer) Cause(id string) string { return n.s.cause(id) }

// Quantity gives a quantity in words.
func (n Namer) Quantity(id string) string { return n.s.quantity(id) }

// Substance gives a substance in words.
func (n Namer) Substance(id string) string { return n.s.substance(id) }

// Part gives a named part in words.
func (n Namer) Part(id string) string { return n.s.part(id) }

// Where says a place.
func (n Namer) Where(p kit.Place) string { return n.s.where(p, "") }
