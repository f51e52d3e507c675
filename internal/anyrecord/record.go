package anyrecord

import (
	"slices"
	"strconv"
	"strings"

	"pgregory.net/rapid"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// drawer draws one record.
type drawer struct {
	t     *rapid.T
	tb    *table.Tables
	k     *table.Kind
	w     With
	r     *kit.Record
	made  qty.Day
	used  qty.Day // first use
	signs []entry
	evs   []entry
}

// entry is something on record that later entries can speak of.
type entry struct {
	ref string
	id  string // of the sign, event or quantity
	day qty.Day
}

const (
	longest  = 1500 // days of a history
	earliest = qty.Day(19_000)
)

// Record draws a record on some tables.
func Record(t *rapid.T, tb *table.Tables, w With) *kit.Record {
	var kinds []*table.Kind
	for i := range tb.Kinds {
		if w.Kinds == nil || w.Kinds(&tb.Kinds[i]) {
			kinds = append(kinds, &tb.Kinds[i])
		}
	}
	g := &drawer{t: t, tb: tb, k: pick(t, "kind", kinds), w: w, r: &kit.Record{}}
	g.made = earliest + qty.Day(rapid.IntRange(0, 400).Draw(t, "made"))
	g.used = g.made + qty.Day(upTo(t, "stored", 900))
	g.r.AsOf = g.used + qty.Day(rapid.IntRange(1, longest).Draw(t, "as of"))
	g.yard()
	g.people()
	g.piece()
	g.uses()
	g.changes()
	g.events()
	if !w.NoLog {
		g.examinations()
		g.runs()
	}
	g.answers()
	g.looksGoWithUse()
	return g.r
}

// looksGoWithUse takes back what looks before use speak against, as the reader
// does: a first use after them, a store or no hours of use while they were made.
func (g *drawer) looksGoWithUse() {
	r := g.r
	look := func(from, to qty.Day) {
		if first := r.Piece.FirstUse; first.Known() && from < first.Latest() {
			r.Piece.FirstUse = qty.PartialDate{}
		}
		for i := range r.Uses {
			u := &r.Uses[i]
			end := to
			for k := range r.Uses {
				if next := r.Uses[k].From; next > u.From {
					end = min(end, next-1)
				}
			}
			if (u.Store || u.Week == 0) && u.From <= to && end >= from {
				u.Store, u.Week = false, -1
			}
		}
	}
	for i := range r.Examinations {
		if e := &r.Examinations[i]; e.Kind == kit.PreUse || e.Kind == kit.Partner {
			look(e.Day, e.Day)
		}
	}
	for i := range r.Runs {
		look(r.Runs[i].From, r.Runs[i].To)
	}
}

func (g *drawer) once(label string, n int) bool { return once(g.t, label, n) }
func (g *drawer) word(label string, words ...string) string {
	return pick(g.t, label, words)
}
func (g *drawer) yes(label string) kit.Yes {
	return pick(g.t, label, []kit.Yes{kit.SaidNo, kit.SaidYes, kit.NotKnown, kit.NotSaid})
}

// day draws a day from one to another.
func (g *drawer) day(label string, from, to qty.Day) qty.Day {
	return from + qty.Day(rapid.IntRange(0, max(0, int(to-from))).Draw(g.t, label))
}

func (g *drawer) yard() {
	y := &g.r.Yard
	countries := []string{"GB", "unknown"}
	for i := range g.tb.Countries {
		countries = append(countries, g.tb.Countries[i].Code)
	}
	y.Country = pick(g.t, "country", countries)
	if g.once("own limit", 5) {
		y.Limit = rapid.Int64Range(100, g.tb.Rules.LimitMost).Draw(g.t, "limit")
		y.Limit = 1_000_000 / (1_000_000 / y.Limit) // as “1 in N” can say it
	}
	if g.once("scheme", 6) {
		y.Scheme = kit.Scheme{Every: qty.Months(rapid.IntRange(1, 18).Draw(g.t, "every")), Document: "scheme", By: "cp"}
	}
}

func (g *drawer) people() {
	for i, id := range []string{"ann", "bo", "cy"}[:rapid.IntRange(1, 3).Draw(g.t, "people")] {
		p := kit.Person{ID: id, Role: g.word("role", "competent person", "examiner", "climber", "storekeeper", ""), Holds: i > 0 && g.once("holds", 4)}
		if p.Competent() {
			p.Since = g.made - 365
		}
		if !g.w.Mild && g.once("since", 5) {
			p.Since = g.day("role since", g.made, g.r.AsOf)
		}
		if !g.w.Mild && g.once("until", 6) {
			p.Until = g.day("role until", max(g.used, p.Since), g.r.AsOf+400)
		}
		if g.once("own rates", 4) {
			p.Kappa = map[kit.LookID]kit.Rate{}
			for range rapid.IntRange(1, 3).Draw(g.t, "rates") {
				p.Kappa[pick(g.t, "rate of", kit.Looks[:])] = kit.Rate{Share: qty.Share(float64(rapid.IntRange(0, 100).Draw(g.t, "rate")) / 100), From: "practice board"}
			}
		}
		g.r.People = append(g.r.People, p)
	}
}

func (g *drawer) who(label string) string { return pick(g.t, label, g.r.People).ID }

// partly forgets some of a date, seldom all of it. What is left of it does not
// end before least.
func (g *drawer) partly(label string, d, least qty.Day) qty.PartialDate {
	p := d.Partial()
	switch rapid.IntRange(0, 11).Draw(g.t, label+" known") {
	case 9:
		p.DayOfMonth = 0
	case 10:
		p.DayOfMonth, p.Month = 0, 0
	case 11:
		return qty.PartialDate{}
	}
	if p.Latest() < least {
		return d.Partial()
	}
	return p
}

func (g *drawer) piece() {
	p := &g.r.Piece
	*p = kit.Piece{ID: "P1", Kind: g.k.ID, Marking: "readable", Origin: "new", History: "known", StoredIn: "used"}
	p.Diameter = 12 * qty.Millimetre
	if !g.w.Mild && g.once("other diameter", 4) {
		p.Diameter = qty.Length(pick(g.t, "diameter", []int{0, 7, 8, 10, 11, 13, 20})) * qty.Millimetre
	}
	if !g.w.Mild && g.once("trouble", 5) {
		p.Marking, p.Proof = g.word("marking", "readable", "partly", "unreadable"), g.word("proof", "", "register")
		p.Origin = g.word("origin", "other yard", "second-hand", "found")
		p.History = g.word("history", "known", "not wholly known")
		p.Traced = g.word("traced", "", "maker's letter")
	}
	p.Made = g.partly("made", g.made, g.made)
	p.FirstUse = g.partly("first use", g.used, g.made)
	p.Bought = g.partly("bought", g.used, g.made)
	p.Declared = g.partly("declared", g.made, g.made)
	if g.once("examined", 2) {
		p.Examined, p.ExaminationFrom = g.used.Partial(), "report"
	}
	p.ExaminedBefore = g.once("before", 2)
	if g.once("maker's life", 4) {
		p.MakerFromUse = qty.Months(rapid.IntRange(12, 180).Draw(g.t, "from use"))
		p.MakerDocument = g.word("document", "", "booklet")
	}
	if g.k.Axis == "length" {
		cells := rapid.IntRange(4, 40).Draw(g.t, "cells")
		p.Length = min(g.k.Cell*qty.Length(cells), 2*g.k.Length) - qty.Length(rapid.IntRange(0, int(g.k.Cell/qty.Millimetre)-1).Draw(g.t, "less"))*qty.Millimetre
		if len(g.k.Zones) > 0 && g.once("zones", 4) {
			p.Zones = g.zones(p.Length)
		}
		p.EndA, p.EndB = g.end(), g.end()
		if g.once("layers", 2) {
			p.Layers = []kit.Layer{{Name: "cover", Fibre: g.fibre()}, {Name: "core", Fibre: g.fibre()}}
		}
	}
	if g.k.Fitted || g.once("fitted", 3) {
		p.Fitted = kit.Fitted{In: "H1", Allowed: kit.SaidYes, Document: "list of parts"}
		if !g.w.Mild && g.once("not allowed", 12) {
			p.Fitted.Allowed = g.wordYes("allowed")
		}
	}
}

func (g *drawer) wordYes(label string) kit.Yes {
	return pick(g.t, label, []kit.Yes{kit.SaidNo, kit.SaidYes, kit.NotKnown})
}

func (g *drawer) fibre() string {
	ids := []string{"pa", "pes"}
	for i := range g.tb.Fibres {
		if !g.tb.Fibres[i].Metal {
			ids = append(ids, g.tb.Fibres[i].ID)
		}
	}
	return pick(g.t, "fibre", ids)
}

// end draws how an end is made; in a mild record nothing about it is in question.
func (g *drawer) end() kit.End {
	e := kit.End{How: g.word("end", "stitched", "knot", "splice"), Stitch: "whole"}
	if e.How == "knot" {
		e.Tail = 90 * qty.Millimetre
	}
	if g.w.Mild || !g.once("end in question", 4) {
		return e
	}
	e.How, e.Stitch = g.word("how", e.How, ""), g.word("stitch", "", "whole", "none", "missing")
	e.Tail = qty.Length(pick(g.t, "tail", []int{0, 40, 50, 90})) * qty.Millimetre
	return e
}

// zones lays zones over a piece: as usual, those between the ends shifted and
// made shorter or longer as far as the tables let them be.
func (g *drawer) zones(long qty.Length) []kit.ZoneAt {
	out := g.k.UsualZones(0, long)
	for i := range out {
		z := &out[i]
		where, part := g.k.Zone(z.Zone), long/100
		if where.Where == "ends" {
			by := part * qty.Length(rapid.IntRange(-1, 1).Draw(g.t, "longer end"))
			if by = by / qty.Millimetre * qty.Millimetre; z.From == 0 && z.To+by > 0 {
				z.To += by
			} else if z.To == long && z.From-by < long {
				z.From -= by
			}
			continue
		}
		z.From += part * qty.Length(rapid.IntRange(-3, 10).Draw(g.t, "from"))
		z.To += part * qty.Length(rapid.IntRange(-10, 3).Draw(g.t, "to"))
	}
	for i := range out { // whole millimetres, but what lies at end B reaches it
		out[i].From, out[i].To = out[i].From/qty.Millimetre*qty.Millimetre, out[i].To/qty.Millimetre*qty.Millimetre
		if out[i].From == 0 || g.k.Zone(out[i].Zone).Where != "ends" {
			continue
		}
		out[i].To = long
	}
	if _, wrong := g.k.ZoneFault(out, 0, long); wrong != "" {
		return nil
	}
	return out
}

func (g *drawer) weekdays(least int) (set [8]bool) {
	for i := range rapid.IntRange(least, 7).Draw(g.t, "weekdays") {
		set[i+1] = true
	}
	return set
}

// Use draws a use from a day on.
func Use(t *rapid.T, tb *table.Tables, from qty.Day) kit.Use {
	g := &drawer{t: t, tb: tb}
	u := kit.Use{From: from, Store: g.once("in store", 6), Week: -1, Weekdays: g.weekdays(0)}
	if !u.Store && !g.once("hours not known", 6) {
		days := 0
		for _, on := range u.Weekdays {
			if on {
				days++
			}
		}
		u.Week = qty.Duration(rapid.IntRange(0, min(40, 16*days)).Draw(t, "hours")) * qty.Hour
	}
	if !g.once("mass not known", 6) {
		u.Mass = qty.Mass(rapid.IntRange(50_000, 130_000).Draw(t, "mass"))
	}
	level := func(label string, levels []table.Level) string {
		if g.once(label+" not known", 6) {
			return ""
		}
		return pick(t, label, levels).ID
	}
	u.Dirt, u.Hardware = level("dirt", tb.Dirt), level("hardware", tb.Hardware)
	return u
}

func (g *drawer) uses() {
	from := g.used
	for range rapid.IntRange(0, 3).Draw(g.t, "uses") {
		g.r.Uses = append(g.r.Uses, Use(g.t, g.tb, from))
		from += qty.Day(rapid.IntRange(1, 400).Draw(g.t, "for"))
	}
}

// long gives how long the piece is on a day: less what was cut off before.
func (g *drawer) long(day qty.Day) qty.Length {
	l := g.r.Piece.Length
	for i := range g.r.Changes {
		if c := &g.r.Changes[i]; c.Day <= day {
			l -= c.Length
		}
	}
	return l
}

func (g *drawer) changes() {
	if g.k.Axis != "length" || g.w.NoChanges {
		return
	}
	day := g.used
	for range upTo(g.t, "changes", 3) {
		day += qty.Day(rapid.IntRange(1, 300).Draw(g.t, "after"))
		if day > g.r.AsOf {
			return
		}
		c := kit.Change{Day: day, What: pick(g.t, "change", kit.Changes[:]), By: g.who("changed by")}
		long := g.long(day)
		switch {
		case c.What == kit.Turned && long <= 0:
			continue
		case c.What == "zones":
			if c.Zones = g.zones(long); len(c.Zones) == 0 {
				continue
			}
		case strings.HasPrefix(c.What, "shortened"):
			if c.Length = long / qty.Length(rapid.IntRange(4, 20).Draw(g.t, "cut off")) / qty.Millimetre * qty.Millimetre; c.Length <= 0 {
				continue
			}
		}
		g.r.Changes = append(g.r.Changes, c)
	}
}

func (g *drawer) sides() []string {
	if len(g.k.Sides) < 2 || !g.once("one side", 4) {
		return nil
	}
	return []string{pick(g.t, "side", g.k.Sides)}
}

// place draws where something is on a day.
func (g *drawer) place(day qty.Day) kit.Place {
	if g.k.Axis != "length" || g.once("at a part", 4) {
		return kit.Place{Part: pick(g.t, "part", g.k.Parts).ID, Sides: g.sides()}
	}
	if g.once("everywhere", 12) {
		return kit.Place{Whole: true}
	}
	mm := int(g.long(day) / qty.Millimetre)
	from := rapid.IntRange(0, mm).Draw(g.t, "from")
	to := min(mm, from+upTo(g.t, "extent", max(1, mm/8)))
	return kit.Place{From: qty.Length(from) * qty.Millimetre, To: qty.Length(to) * qty.Millimetre, Sides: g.sides()}
}

func (g *drawer) events() {
	if g.w.NoEvents {
		return
	}
	for i := range upTo(g.t, "events", 3) {
		e := g.event(g.day("event", g.used, g.r.AsOf))
		e.Ref = "x" + strconv.Itoa(i+1)
		g.r.Events = append(g.r.Events, e)
		g.evs = append(g.evs, entry{e.Ref, e.Event, e.Day})
	}
}

func (g *drawer) event(day qty.Day) kit.Event {
	e := kit.Event{Day: day, Event: pick(g.t, "what happened", g.tb.Events).ID, Travel: -1, Peak: -1, Injury: g.once("injury", 20)}
	if g.once("substance", 3) {
		e.Substance, e.Amount, e.Washed = pick(g.t, "of", g.tb.Contaminants).ID, g.word("amount", "splash", "", "suspected", "soaked"), g.yes("washed")
	}
	if g.once("travel said", 2) {
		e.Travel = qty.Length(rapid.IntRange(0, 800).Draw(g.t, "travel")) * qty.Millimetre
	}
	if g.once("peak said", 2) {
		e.Peak = qty.Share(float64(rapid.IntRange(0, 40).Draw(g.t, "peak")) / 100)
	}
	if e.PlaceSaid = g.once("place said", 2); e.PlaceSaid {
		e.At = g.place(day)
	}
	return e
}

// Later draws what happens to a piece after the day of the record: uses and
// events, zones that move. Nobody looks.
func Later(t *rapid.T, tb *table.Tables, r *kit.Record, until qty.Day) {
	g := &drawer{t: t, tb: tb, k: tb.Kind(r.Piece.Kind), r: r}
	from := r.AsOf
	for range rapid.IntRange(0, 3).Draw(t, "later uses") {
		if from += qty.Day(rapid.IntRange(1, 200).Draw(t, "after")); from <= until {
			r.Uses = append(r.Uses, Use(t, tb, from))
		}
	}
	for i := range rapid.IntRange(0, 4).Draw(t, "later events") {
		e := g.event(g.day("later event", r.AsOf+1, until))
		e.Ref = "later" + strconv.Itoa(i+1)
		r.Events = append(r.Events, e)
	}
	if g.k.Axis == "length" && len(g.k.Zones) > 0 && once(t, "zones move", 3) {
		day := g.day("zones move on", r.AsOf+1, until)
		r.Changes = append(r.Changes, kit.Change{Day: day, What: "zones", Zones: g.zones(g.long(day)), By: "ann"})
	}
}

// examinations draws them in order of their days; several can be on one day,
// and the last is mostly that of the outcome.
func (g *drawer) examinations() {
	n := rapid.IntRange(0, 4).Draw(g.t, "examinations")
	days := make([]qty.Day, 0, n+1)
	for range n {
		d := g.day("examination", g.used, g.r.AsOf)
		if len(days) > 0 && g.once("same day", 3) {
			d = pick(g.t, "day of", days)
		}
		days = append(days, d)
	}
	if !g.once("none today", 8) {
		days = append(days, g.r.AsOf)
		if g.once("two today", 4) {
			days = append(days, g.r.AsOf)
		}
	}
	slices.Sort(days)
	for i, d := range days {
		g.r.Examinations = append(g.r.Examinations, g.examination(d, "e"+strconv.Itoa(i+1)))
	}
}
