package record

import (
	"slices"

	"kernbook/internal/core/kit"
)

// Encode writes a record as JSON in its one canonical form: one line, keys in a
// fixed order, nothing that says nothing, lengths and dates as package qty
// prints them. DecodeJSON gives the same record back for every record that
// Decode gave.
func Encode(r *kit.Record) []byte {
	var o object
	o.put("format", Format)
	o.put("as_of", r.AsOf.String())
	o.put("yard", yardOut(&r.Yard))
	o.put("piece", pieceOut(&r.Piece))
	objects(&o, "person", r.People, personOut)
	objects(&o, "use", r.Uses, useOut)
	objects(&o, "examination", r.Examinations, examinationOut)
	objects(&o, "run", r.Runs, runOut)
	objects(&o, "event", r.Events, eventOut)
	objects(&o, "answer", r.Answers, answerOut)
	objects(&o, "change", r.Changes, changeOut)
	return append(appendJSON(nil, o, "", ""), '\n')
}

func yardOut(y *kit.Yard) object {
	var o object
	o.text("name", y.Name)
	o.text("country", y.Country)
	if y.Limit > 0 {
		o.put("limit", inWords(y.Limit))
	}
	var s object
	s.months("every", y.Scheme.Every)
	s.text("document", y.Scheme.Document)
	s.text("by", y.Scheme.By)
	o.table("scheme", s)
	return o
}

func pieceOut(p *kit.Piece) object {
	var o object
	o.text("id", p.ID)
	o.text("kind", string(p.Kind))
	o.text("words", p.Words)
	o.text("maker", p.Maker)
	o.text("maker_address", p.MakerAt)
	o.text("trade_name", p.Trade)
	o.text("model", p.Model)
	o.text("serial", p.Serial)
	o.text("batch", p.Batch)
	o.text("marking", p.Marking)
	o.text("proof", p.Proof)
	o.text("origin", p.Origin)
	o.text("history", p.History)
	o.text("traced", p.Traced)
	o.put("made", p.Made.String())
	o.put("first_use", p.FirstUse.String())
	o.date("bought", p.Bought)
	o.date("declared", p.Declared)
	o.date("obsolete", p.Obsolete)
	o.months("maker_life_from_made", p.MakerFromMade)
	o.months("maker_life_from_use", p.MakerFromUse)
	o.text("maker_document", p.MakerDocument)
	o.date("examined", p.Examined)
	o.flag("examined_before_use", p.ExaminedBefore)
	o.text("examination_document", p.ExaminationFrom)
	o.length("length", p.Length)
	if p.Diameter == 0 && p.Length > 0 { // rope, which has one, or else nobody knows it
		o.put("diameter", unknown)
	} else {
		o.length("diameter", p.Diameter)
	}
	o.text("stored", p.StoredIn)
	objects(&o, "layer", p.Layers, func(l *kit.Layer) (o object) {
		o.text("name", l.Name)
		o.text("fibre", l.Fibre)
		return o
	})
	o.table("end_a", endOut(&p.EndA))
	o.table("end_b", endOut(&p.EndB))
	objects(&o, "zone", p.Zones, zoneOut)
	var f object
	f.text("in", p.Fitted.In)
	f.yes("allowed", p.Fitted.Allowed)
	f.text("document", p.Fitted.Document)
	o.table("fitted", f)
	return o
}

func endOut(e *kit.End) (o object) {
	o.text("how", e.How)
	o.length("tail", e.Tail)
	o.text("stitch", e.Stitch)
	return o
}

func zoneOut(z *kit.ZoneAt) (o object) {
	o.text("zone", z.Zone)
	o.put("from", z.From.String())
	o.put("to", z.To.String())
	return o
}

func personOut(p *kit.Person) (o object) {
	o.text("id", p.ID)
	o.text("role", p.Role)
	o.day("since", p.Since)
	o.day("until", p.Until)
	o.flag("holds", p.Holds)
	var k object
	for _, l := range kit.Looks {
		if r, ok := p.Kappa[l]; ok {
			k.put(string(l), object{{"share", float64(r.Share)}, {"from", r.From}})
		}
	}
	o.table("kappa", k)
	return o
}

func useOut(u *kit.Use) (o object) {
	o.put("from", u.From.String())
	switch {
	case u.Week >= 0:
		o.put("week", u.Week.String())
	case !u.Store:
		o.put("week", unknown)
	}
	o.days("weekdays", u.Weekdays)
	if u.Mass != 0 {
		o.put("mass", u.Mass.String())
	}
	o.text("dirt", u.Dirt)
	o.text("hardware", u.Hardware)
	o.flag("store", u.Store)
	return o
}

func conditionsOut(c *kit.Conditions) (o object) {
	o.text("light", c.Light)
	for i, y := range []kit.Yes{c.Cleaned, c.Wet, c.Frozen, c.Muddy, c.Gloves, c.Hurried} {
		o.yes(yesKeys[i], y)
	}
	return o
}

func lookOut(l *kit.Look) (o object) {
	o.text("look", string(l.Look))
	o.text("by", l.By)
	if len(l.Covers) == 1 && l.Covers[0].All {
		o.put("covers", everyone)
	} else {
		covers := make([]object, len(l.Covers))
		for i := range l.Covers {
			s := &l.Covers[i]
			if s.Part != "" {
				covers[i].put("part", s.Part)
			} else {
				covers[i].put("from", s.From.String())
				covers[i].put("to", s.To.String())
			}
			if len(s.Sides) == 0 {
				covers[i].put("sides", everyone)
			}
			covers[i].texts("sides", s.Sides)
		}
		o.put("covers", covers)
	}
	o.table("conditions", conditionsOut(&l.Conditions))
	o.flag("after_washing", l.AfterWash)
	return o
}

// placeOut writes a place as it is typed.
func placeOut(p *kit.Place) any {
	if p.Whole {
		return wholeIt
	}
	var o object
	switch {
	case p.Part != "":
		o.put("part", p.Part)
	case p.From == p.To:
		o.put("at", p.From.String())
	default:
		o.put("from", p.From.String())
		o.put("to", p.To.String())
	}
	o.texts("sides", p.Sides)
	o.text("layer", p.Layer)
	return o
}

func examinationOut(e *kit.Examination) (o object) {
	o.text("ref", e.Ref)
	o.text("kind", string(e.Kind))
	o.put("day", e.Day.String())
	o.text("by", e.By)
	o.text("signed", e.SignedBy)
	o.yes("would_climb", e.WouldClimb)
	o.date("latest", e.Latest)
	o.text("after_event", e.AfterEvent)
	o.texts("held_by", e.HeldBy)
	objects(&o, "look", e.Looks, lookOut)
	questions := make([]string, 0, len(e.Asked))
	for q := range e.Asked {
		questions = append(questions, q)
	}
	slices.Sort(questions)
	var asked object
	for _, q := range questions {
		asked.yes(q, e.Asked[q])
	}
	o.table("asked", asked)
	objects(&o, "sign", e.Signs, signOut)
	objects(&o, "reading", e.Readings, readingOut)
	return o
}

func signOut(s *kit.Sign) (o object) {
	o.text("ref", s.Ref)
	o.text("sign", s.Sign)
	if s.State != kit.FirstSeen {
		o.text("state", string(s.State))
	}
	if s.State == kit.FirstSeen || !nowhere(&s.At) {
		o.put("at", placeOut(&s.At))
	}
	o.text("look", string(s.Look))
	o.text("by", s.By)
	o.flag("after_washing", s.AfterWash)
	o.text("words", s.Words)
	return o
}

// nowhere reports whether the place is the zero value, which a sign on record
// has when it does not say its place again.
func nowhere(p *kit.Place) bool {
	return p.Part == "" && p.From == 0 && p.To == 0 && !p.Whole && len(p.Sides) == 0 && p.Layer == ""
}

func readingOut(r *kit.Reading) (o object) {
	o.text("ref", r.Ref)
	o.text("quantity", r.Quantity)
	o.put("at", placeOut(&r.At))
	o.lengths("values", r.Values)
	o.lengths("again", r.Again)
	o.text("gauge", r.Gauge)
	o.length("error", r.Error)
	if r.Tension != 0 {
		o.put("tension", r.Tension.String())
	}
	o.text("method", r.Method)
	o.yes("wet", r.Wet)
	return o
}

func runOut(r *kit.Run) (o object) {
	o.text("ref", r.Ref)
	o.text("kind", string(r.Kind))
	o.text("by", r.By)
	o.put("from", r.From.String())
	o.put("to", r.To.String())
	o.days("weekdays", r.Weekdays)
	objects(&o, "look", r.Looks, lookOut)
	return o
}

func eventOut(e *kit.Event) (o object) {
	o.text("ref", e.Ref)
	o.put("day", e.Day.String())
	o.text("event", e.Event)
	if e.PlaceSaid {
		o.put("at", placeOut(&e.At))
	}
	if e.Travel >= 0 {
		o.put("travel", e.Travel.String())
	}
	if e.Peak >= 0 {
		o.put("peak", float64(e.Peak))
	}
	o.text("substance", e.Substance)
	o.text("amount", e.Amount)
	o.yes("washed", e.Washed)
	o.flag("injury", e.Injury)
	o.text("words", e.Words)
	return o
}

func answerOut(a *kit.Answer) (o object) {
	o.put("day", a.Day.String())
	o.text("to", a.To)
	o.text("cause", a.Cause)
	o.text("verified", a.Verified)
	o.text("by", a.By)
	o.text("document", a.Document)
	o.flag("unfit", a.Unfit)
	return o
}

func changeOut(c *kit.Change) (o object) {
	o.put("day", c.Day.String())
	o.text("what", c.What)
	o.length("length", c.Length)
	o.text("by", c.By)
	o.text("words", c.Words)
	objects(&o, "zones", c.Zones, zoneOut)
	return o
}
