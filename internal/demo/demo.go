// Package demo builds the book of an invented yard: its people, its kit and two
// years of looks, examinations and mishaps, all through the use cases that a
// real yard has. The same seed and the same last day give the same story.
package demo

import (
	"context"
	"fmt"
	"math/rand/v2"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/artefact"
	"kernbook/internal/book"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// Seed is that of the yard that is shown.
const Seed = 20

// span is how far back the book begins, in days.
const span = 728

// Build writes the invented yard into an empty store; its last day is that of
// the time given.
func Build(ctx context.Context, store book.Store, keys seal.Keys, yard string, seed uint64, last time.Time) error {
	return BuildBy(ctx, artefact.Sum(), store, keys, yard, seed, last)
}

// BuildBy is Build with decisions that name the core's artefact by a hash.
func BuildBy(ctx context.Context, core string, store book.Store, keys seal.Keys, yard string, seed uint64, last time.Time) error {
	b := &builder{ctx: ctx, now: last.AddDate(0, 0, -span), last: last, rng: rand.New(rand.NewPCG(seed, 1)), t: tables.Default()}
	b.app = app.New(app.Config{Store: store, Keys: keys, Tables: b.t, Yard: yard, Device: "invented", Artefact: core, Clock: func() time.Time { return b.now },
		Chance: chance{rand.NewChaCha8([32]byte{byte(seed)})}})
	b.people()
	b.kit()
	b.years()
	return b.err
}

// chance gives the ids of the invented yard, the same for the same seed.
type chance struct{ *rand.ChaCha8 }

// builder writes one yard. After the first fault it writes nothing more.
type builder struct {
	ctx       context.Context
	app       *app.App
	t         *table.Tables
	rng       *rand.Rand
	now, last time.Time
	err       error
	pieces    []*piece
	reports   int
}

// piece is a piece of the story.
type piece struct {
	kit.Piece
	holder string
	use    kit.Use
	of     string
	wear   qty.Length // how much a gauge reads less, or a groove more, each half year
	gone   bool
	signs  []string // refs on record, to be spoken of
	since  qty.Day
}

func (b *builder) day() qty.Day { return day(b.now) }

func day(t time.Time) qty.Day {
	p, err := qty.ParseDate(t.Format("2006-01-02"))
	if err != nil {
		panic(err)
	}
	return p.Earliest()
}

func date(t time.Time) qty.PartialDate {
	p, err := qty.ParseDate(t.Format("2006-01-02"))
	if err != nil {
		panic(err)
	}
	return p
}

func (b *builder) did(w app.Written, err error) app.Written {
	if b.err == nil && err != nil {
		b.err = fmt.Errorf("on %s: %w", b.now.Format("2006-01-02"), err)
	}
	return w
}

// at moves the clock to a number of days after the beginning.
func (b *builder) at(days int) {
	b.now = b.last.AddDate(0, 0, days-span).Truncate(24 * time.Hour).Add(7*time.Hour + 30*time.Minute)
}

func (b *builder) who(person string) app.Who { return app.Who{Person: person} }

// The people: p1 is the competent person, p6 keeps the store, the others climb.
var members = []app.Member{
	{Person: kit.Person{ID: "p1", Role: "competent person"}, Private: fold.Private{Name: "Maud Ferrant", Mass: "74kg", Contact: "maud at quillbrook",
		Address: "Mill Lane 2, Quillbrook", Qualified: "competent person of the yard since 2021; trained to examine ropes, harnesses and metal parts", Employed: "Quillbrook Tree Care, Mill Lane 4, Quillbrook"}},
	{Person: kit.Person{ID: "p2", Role: "climber"}, Private: fold.Private{Name: "Ines Okoro", Mass: "72kg"}},
	{Person: kit.Person{ID: "p3", Role: "climber"}, Private: fold.Private{Name: "Rolf Tamm", Mass: "95kg"}},
	{Person: kit.Person{ID: "p4", Role: "climber"}, Private: fold.Private{Name: "Sela Brandt", Mass: "66kg"}},
	{Person: kit.Person{ID: "p5", Role: "climber"}, Private: fold.Private{Name: "Jon Ashby", Mass: "84kg"}},
	{Person: kit.Person{ID: "p7", Role: "climber"}, Private: fold.Private{Name: "Teo Marsh", Mass: "79kg"}},
	{Person: kit.Person{ID: "p6", Role: "storekeeper"}, Private: fold.Private{Name: "Wenna Pryce"}},
}

var climbers = []string{"p2", "p3", "p4", "p5", "p7"}

func (b *builder) people() {
	b.at(0)
	for _, m := range members {
		b.did(b.app.EnterPerson(b.ctx, b.who("p1"), m))
	}
	b.did(b.app.NameYard(b.ctx, b.who("p1"), kit.Yard{Name: "Quillbrook Tree Care", Country: "GB"}))
}

// sorts are the pieces that every climber holds.
var sorts = []struct {
	kind   kit.KindID
	prefix string
	words  string
}{
	{kit.Harness, "HA", "harness, sit"}, {kit.Bridge, "BR", "rope bridge, 12.6 mm"}, {kit.Line, "LI", "climbing line, 45 m"},
	{kit.Lanyard, "LA", "positioning lanyard, 4 m"}, {kit.HitchCord, "HC", "hitch cord, sewn eyes"}, {kit.Connector, "CO", "karabiner, three-way lock"},
}

// kit registers what the yard has.
func (b *builder) kit() {
	b.at(1)
	for i, climber := range climbers {
		for _, s := range sorts {
			p := b.piece(s.kind, fmt.Sprintf("%s-%02d", s.prefix, i+1), s.words)
			p.holder, p.of = climber, climber
			if s.kind == kit.Bridge {
				p.Fitted = kit.Fitted{In: fmt.Sprintf("HA-%02d", i+1), Allowed: kit.SaidYes, Document: "list of parts of the harness, page 3"}
			}
			p.use.Dirt = []string{"clean", "sandy", "clean", "resinous", "clean"}[i]
			b.register(p)
		}
	}
	for _, x := range []struct {
		kind   kit.KindID
		id     string
		words  string
		holder string
	}{
		{kit.Bridge, "BR-20", "rope bridge, 12.6 mm, spare", ""}, {kit.Sling, "SL-01", "anchor strop, 1.5 m", "p2"}, {kit.Sling, "SL-02", "round sling, 1.5 m", "p3"},
		{kit.Helmet, "HE-01", "helmet with ear defenders", "p2"}, {kit.Pulley, "PU-01", "tending pulley", "p4"}, {kit.Device, "DE-01", "rope device", "p5"},
		{kit.Ring, "RI-01", "ring on a bridge", "p3"}, {kit.Swivel, "SW-01", "swivel under a bridge", "p4"},
	} {
		p := b.piece(x.kind, x.id, x.words)
		p.holder, p.of = x.holder, x.holder
		if k := b.t.Kind(x.kind); k.Fitted {
			p.Fitted = kit.Fitted{In: "HA-02", Allowed: kit.SaidYes, Document: "list of parts of the harness, page 3"}
			if x.holder == "" {
				p.Fitted = kit.Fitted{In: "", Allowed: kit.NotKnown}
			}
		}
		b.register(p)
	}
}

// piece makes one, new on the day.
func (b *builder) piece(kind kit.KindID, id, words string) *piece {
	k := b.t.Kind(kind)
	p := &piece{Piece: kit.Piece{ID: id, Kind: kind, Words: words, Maker: "maker of the example", MakerAt: "Ropewalk 1, Quillbrook", Serial: fmt.Sprintf("%04d-%02d", b.rng.IntN(10000), b.rng.IntN(90)+10), Marking: "readable",
		Origin: "new", History: "known", Made: date(b.now.AddDate(0, -4, -b.rng.IntN(40))), Bought: date(b.now.AddDate(0, -1, 0)), Declared: date(b.now.AddDate(0, -4, 0)),
		FirstUse: date(b.now.AddDate(0, 0, 1)), ExaminedBefore: true, ExaminationFrom: "first record of " + id}}
	if p.Declared.Earliest() < p.Made.Earliest() {
		p.Declared = p.Made
	}
	if k.Axis == "length" {
		p.Length, p.Diameter = k.Length, 12_600*qty.Micrometre
		p.Layers = []kit.Layer{{Name: "cover", Fibre: "pes"}, {Name: "core", Fibre: "pa"}}
		p.EndA, p.EndB = kit.End{How: "stitched", Stitch: "whole"}, kit.End{How: "stitched", Stitch: "whole"}
		if kind == kit.Bridge {
			p.EndA = kit.End{How: "knot", Tail: 95 * qty.Millimetre, Stitch: "whole"}
			p.EndB = p.EndA
		}
	}
	if kind == kit.Harness {
		p.Layers = []kit.Layer{{Name: "webbing", Fibre: "pes"}}
	}
	p.use = kit.Use{Week: 25 * qty.Hour, Weekdays: workdays, Dirt: "clean", Hardware: plainest(b.t)}
	return p
}

var workdays = [8]bool{false, true, true, true, true, true}

func plainest(t *table.Tables) string {
	for i := range t.Hardware {
		if t.Hardware[i].Z == 0 {
			return t.Hardware[i].ID
		}
	}
	return ""
}

func (b *builder) register(p *piece) {
	by := b.who("p1")
	b.did(b.app.AddPiece(b.ctx, by, p.Piece))
	p.since = b.day() + 1
	p.use.From = p.since
	if p.holder == "" {
		b.did(b.app.Hang(b.ctx, b.who("p6"), p.ID, b.day(), fold.Hang{Place: "store"}))
		p.use = kit.Use{From: p.since, Week: -1, Store: true}
	} else {
		b.did(b.app.Hang(b.ctx, b.who("p6"), p.ID, b.day(), fold.Hang{Holder: p.holder}))
	}
	b.did(b.app.PlanUse(b.ctx, by, p.ID, p.use, p.of))
	b.pieces = append(b.pieces, p)
}

func (b *builder) find(id string) *piece {
	for _, p := range b.pieces {
		if p.ID == id {
			return p
		}
	}
	b.did(app.Written{}, fmt.Errorf("no piece %s in the story", id))
	return &piece{}
}

var good = kit.Conditions{Light: "good", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}

// examination makes all that a kind of examination of a piece asks for.
func (b *builder) examination(p *piece, sort kit.ExamKind, by string) kit.Examination {
	k := b.t.Kind(p.Kind)
	e := kit.Examination{Ref: fmt.Sprintf("%s %s", sort, b.now.Format("2006-01-02")), Kind: sort, Day: b.day(), By: by, SignedBy: by, WouldClimb: kit.SaidYes,
		Asked: map[string]kit.Yes{}}
	for i := range k.Needs {
		n := &k.Needs[i]
		if n.Exam != sort {
			continue
		}
		e.Looks = append(e.Looks, kit.Look{Look: n.Look, By: by, Covers: []kit.Stretch{{All: true}}, Conditions: good})
		if n.Look == kit.Ask {
			for a := range k.Asks {
				e.Asked[k.Asks[a].ID] = kit.SaidNo
			}
		}
		if n.Look == kit.Gauge {
			e.Readings = append(e.Readings, b.readings(p, k, n)...)
		}
	}
	for _, ref := range p.signs {
		e.Signs = append(e.Signs, kit.Sign{Ref: ref, State: kit.Same, By: by})
	}
	return e
}

// readings makes what a gauge has to show: a rope that loses a little, metal
// that wears as it is said of the piece.
func (b *builder) readings(p *piece, k *table.Kind, n *table.Need) []kit.Reading {
	half := qty.Length(int64(b.day()-p.since) * 2 / 365)
	noise := func() qty.Length { return qty.Length(b.rng.IntN(5)-2) * 10 }
	read := func(at kit.Place, v qty.Length) kit.Reading {
		return kit.Reading{Quantity: k.Reads[0].ID, At: at, Values: []qty.Length{v + noise(), v + noise(), v + noise()}, Gauge: "calliper C2", Wet: kit.SaidNo}
	}
	var out []kit.Reading
	for i := range n.Places {
		mid := p.Length * qty.Length(2*i+1) / qty.Length(2*n.Places)
		out = append(out, read(kit.Place{From: mid, To: mid}, 12_600-20*half))
	}
	for _, part := range n.Parts {
		v := 100 + p.wear*half
		if k.Reads[0].Basis != "absolute" {
			v = 10_000 - p.wear*half
		}
		out = append(out, read(kit.Place{Part: part}, v))
	}
	return out
}
