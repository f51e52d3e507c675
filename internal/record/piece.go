package record

import (
	"strconv"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

func (d *decoder) piece(c cursor) {
	p := &d.rec.Piece
	p.ID = c.needText("id", "write the yard's own number or name for the piece")
	kinds := set{noun: "kind of piece", named: calledKinds, any: d.loose}
	for i := range d.t.Kinds {
		kinds.ids = append(kinds.ids, string(d.t.Kinds[i].ID))
	}
	p.Kind = kit.KindID(c.needID("kind", kinds, "what sort of piece it is"))
	if !d.loose {
		d.kind = d.t.Kind(p.Kind)
	}
	p.Words = c.text("words")
	p.Maker = c.text("maker")
	p.MakerAt = c.text("maker_address")
	p.Trade = c.text("trade_name")
	p.Model = c.text("model")
	p.Serial = c.text("serial")
	p.Batch = c.text("batch")
	p.Marking = c.needWord("marking", markings)
	p.Proof = c.text("proof")
	p.Origin = c.needWord("origin", origins)
	p.History = c.needWord("history", histories)
	p.Traced = c.text("traced")

	p.Made = c.needDate("made")
	p.FirstUse = c.needDate("first_use")
	p.Bought = c.Date("bought", doc.Optional)
	p.Declared = c.Date("declared", doc.Optional)
	p.Obsolete = c.Date("obsolete", doc.Optional)
	p.MakerFromMade = c.months("maker_life_from_made")
	p.MakerFromUse = c.months("maker_life_from_use")
	p.MakerDocument = c.text("maker_document")
	p.Examined = c.Date("examined", doc.Optional)
	p.ExaminedBefore = c.Bool("examined_before_use", doc.Optional)
	p.ExaminationFrom = c.text("examination_document")

	if d.along() {
		p.Length = c.needLength("length", `write its length between its ends, such as length = "900mm"`)
	} else {
		p.Length = c.length("length")
	}
	c.moreThanNone("length", p.Length)
	d.diameter(c)
	p.StoredIn = c.word("stored", storedIn)

	fibres := set{noun: "fibre or metal of the tables", named: calledFibres, any: d.loose}
	for i := range d.t.Fibres {
		fibres.ids = append(fibres.ids, d.t.Fibres[i].ID)
	}
	fibres.ids = append(fibres.ids, kit.NoLayer)
	layers := c.list("layer")
	for _, l := range layers {
		p.Layers = append(p.Layers, kit.Layer{
			Name:  l.needID("name", d.layerIDs(), "which layer it is"),
			Fibre: l.needID("fibre", fibres, "what the layer is made of"),
		})
	}
	d.missing(layers)
	p.EndA, p.EndB = d.end(c, "end_a"), d.end(c, "end_b")
	d.long = p.Length
	p.Zones = d.zones(c, "zone")

	fitted := c.sub("fitted")
	if d.kind != nil && d.kind.Fitted && c.Present() && !c.Has("fitted") {
		d.fault(c.n, c.at("fitted"), "is missing",
			`add it: a table [piece.fitted] with in = the piece it is fitted to and allowed = `+oneOf(answers))
	}
	if fitted.Present() {
		if fitted.begun("in", "write the number or name of what it is fitted to, or take the key out where nobody knows") {
			p.Fitted.In = fitted.text("in")
		}
		p.Fitted.Allowed = kit.Yes(fitted.needWord("allowed", answers))
		p.Fitted.Document = fitted.text("document")
	}
}

// diameter reads the nominal diameter, which is needed where the tables have a
// limit of it; "unknown" is an answer.
func (d *decoder) diameter(c cursor) {
	const key = "diameter"
	if q := d.kindOrNone().Quantity("nominal"); q != nil && len(q.Limits) > 0 &&
		!c.filled(key, `write the nominal diameter as marked or as in its papers, such as "10mm", or "unknown"`) {
		return
	}
	if c.says(key, unknown) {
		return
	}
	d.rec.Piece.Diameter = c.length(key)
	c.moreThanNone(key, d.rec.Piece.Diameter)
}

// along reports whether places on this kind are told in lengths from end A.
func (d *decoder) along() bool { return d.kind != nil && d.kind.Axis == "length" }

// end reads how an end is made, on a kind that has ends.
func (d *decoder) end(in cursor, key string) kit.End {
	c := in.sub(key)
	if c.Present() && d.kind != nil && d.kind.Ends() == (kit.EndParts{}) {
		in.Fault(key, "tells of an end, and a piece of the kind “"+string(d.kind.ID)+"” has none", "take it out; enter what was seen there as a sign at its part")
	}
	how := c.word
	if d.kind != nil && d.kind.Quantity("tail") != nil { // it can be a knot whose tail is too short
		how = c.asked
	}
	return kit.End{
		How:    how("how", endHows),
		Tail:   c.length("tail"),
		Stitch: c.asked("stitch", endStitches),
	}
}

// layerIDs gives the names that a layer of the kind can have.
func (d *decoder) layerIDs() set {
	if d.kind == nil || len(d.kind.Layers) == 0 {
		return set{noun: "layer", ids: layerNames}
	}
	s := d.ofKind("layer")
	s.ids = d.kind.Layers
	return s
}

// missing faults layers said not to be there that the kind must have, and what
// is said of a layer twice.
func (d *decoder) missing(list []cursor) {
	layers := d.rec.Piece.Layers
	for i, c := range list {
		name := layers[i].Name
		for k := range layers[:i] {
			if layers[k].Name == name && name != "" && (layers[k].Fibre == kit.NoLayer) != (layers[i].Fibre == kit.NoLayer) {
				c.Fault("fibre", "says that there is a “"+name+"” and that there is none", "keep one of the two")
			}
		}
		if d.kind != nil && name != "" && layers[i].Fibre == kit.NoLayer && !d.kind.Missing(layers, name) {
			c.Fault("fibre", "is “"+kit.NoLayer+"”, but a piece of the kind “"+string(d.kind.ID)+"” has a “"+name+"”", "write what it is made of, or “"+unknown+"”")
		}
	}
}

// zones reads where the zones lie, all of them, from the day on.
func (d *decoder) zones(in cursor, key string) []kit.ZoneAt {
	var out []kit.ZoneAt
	list := in.list(key)
	before := len(d.own)
	for _, c := range list {
		z := kit.ZoneAt{Zone: c.needID("zone", d.zoneIDs(), "which zone it is")}
		z.From, z.To = d.stretch(c, true)
		for i := range out {
			if z.From < out[i].To && out[i].From < z.To {
				d.fault(c.n, c.Path(), "overlaps the zone “"+out[i].Zone+"” in line "+strconv.Itoa(list[i].line("zone")),
					"let one end where the next begins")
			}
		}
		out = append(out, z)
	}
	if d.kind == nil || d.long == 0 || len(out) == 0 || len(d.own) > before {
		return out
	}
	at, wrong := d.kind.ZoneFault(out, 0, d.long)
	switch wrong {
	case table.ZoneLong:
		most := d.kind.Zone(out[at].Zone).Most
		d.fault(list[at].n, list[at].Path(), "gives the zone “"+out[at].Zone+"” more than "+most.String()+" of the length, which is the most it can take", "write the stretch that it really takes; what no zone takes is the rest")
	case table.ZoneOffEnd:
		d.fault(list[at].n, list[at].Path(), "lies away from both ends, where a “"+out[at].Zone+"” belongs", "let it begin at 0mm or end at "+d.long.String())
	case table.ZoneNoEnd:
		id := d.kind.Zones[at].ID
		d.fault(in.n, in.at(key), "leaves an end without its “"+id+"”", "say all zones: one “"+id+"” from 0mm on, and one up to "+d.long.String())
	}
	return out
}

// stretch reads from and to, in order and on the piece. wide refuses one of no
// length, over which nothing can lie.
func (d *decoder) stretch(c cursor, wide bool) (from, to qty.Length) {
	from = c.needLength("from", `write where it begins, from end A, such as from = "420mm"`)
	to = c.needLength("to", `write where it ends, from end A, such as to = "460mm"`)
	switch {
	case !c.Has("from") || !c.Has("to"):
	case from > to:
		c.Fault("to", to.String()+" lies before from ("+from.String()+")", "write the smaller one as from: both count from end A")
	case wide && from == to:
		c.Fault("to", "is the same as from, which leaves nothing between them", "correct one of the two")
	}
	d.onPiece(c, "from", from)
	d.onPiece(c, "to", to)
	return from, to
}

// onPiece faults a place beyond the piece's end.
func (d *decoder) onPiece(c cursor, key string, l qty.Length) {
	if d.long > 0 && l > d.long {
		c.Fault(key, l.String()+" lies beyond the end of the piece, which is "+d.long.String()+" long", "write the distance from end A")
	}
}

// on makes the piece as long as it is on a day: less what was cut off before.
func (d *decoder) on(day qty.Day) {
	d.long = d.rec.Piece.Length
	for i := range d.rec.Changes {
		if ch := &d.rec.Changes[i]; ch.Day < day && ch.Length < d.long {
			d.long -= ch.Length
		}
	}
}

// ofKind begins a set of ids that the tables have for the piece's kind.
func (d *decoder) ofKind(noun string) set {
	if d.kind == nil {
		return set{any: true}
	}
	return set{noun: noun + " of the kind “" + string(d.kind.ID) + "”",
		where: "`kernbook decide --new " + string(d.kind.ID) + "` lists them"}
}

func (d *decoder) zoneIDs() set {
	s := d.ofKind("zone")
	for i := range d.kindOrNone().Zones {
		s.ids = append(s.ids, d.kind.Zones[i].ID)
	}
	return s
}

func (d *decoder) partIDs() set {
	s := d.ofKind("part")
	for i := range d.kindOrNone().Parts {
		s.ids = append(s.ids, d.kind.Parts[i].ID)
	}
	return s
}

func (d *decoder) sideIDs() set {
	s := d.ofKind("side")
	s.ids = d.kindOrNone().Sides
	return s
}

// place reads where something is: {at}, {from, to}, {part}, or "whole".
func (d *decoder) place(c cursor, key string) kit.Place {
	const mend = `write {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`
	n := c.value(key)
	switch {
	case c.says(key, wholeIt):
		return kit.Place{Whole: true}
	case n == nil || n.Kind == doc.Bad:
		return kit.Place{}
	case blank(n):
		d.fault(n, c.at(key), "is not filled in", mend)
		return kit.Place{}
	case n.Kind == doc.String:
		d.fault(n, c.at(key), "“"+doc.Short(n.Text)+"” is no place", mend)
		return kit.Place{}
	case n.Kind != doc.Table:
		d.fault(n, c.at(key), "is "+n.Kind.String()+" where a place is wanted", mend)
		return kit.Place{}
	}
	at := c.sub(key)
	p := kit.Place{Sides: at.idList("sides", d.sideIDs()), Layer: d.layer(at)}
	d.spot(at, mend, func() { p.Part = at.id("part", d.partIDs()) }, func() {
		p.From = at.length("at")
		p.To = p.From
		d.onPiece(at, "at", p.From)
	}, func() { p.From, p.To = d.stretch(at, false) })
	return p
}

// spot takes the one of three ways in which a place is told.
func (d *decoder) spot(c cursor, mend string, part, at, stretch func()) {
	hasPart, hasAt := c.Has("part"), at != nil && c.Has("at")
	hasFrom, hasTo := c.Has("from"), c.Has("to")
	hasStretch := hasFrom || hasTo
	ways := 0
	for _, has := range []bool{hasPart, hasAt, hasStretch} {
		if has {
			ways++
		}
	}
	switch {
	case !c.Present():
	case ways != 1:
		what := "says no place"
		if ways > 1 {
			what = "tells a place in two ways"
		}
		d.fault(c.n, c.Path(), what, mend)
	case hasPart:
		part()
	case d.kind != nil && !d.along():
		d.fault(c.n, c.Path(), "is told by length, but places on the kind “"+string(d.kind.ID)+"” are told by part",
			"write part = the part's id"+d.partIDs().choice())
	case hasAt:
		at()
	default:
		stretch()
	}
}

// layer reads a layer of the piece's own construction, where that is on record.
func (d *decoder) layer(c cursor) string {
	name := c.word("layer", layerNames)
	own := set{noun: "layer of this piece"}
	for _, l := range d.rec.Piece.Layers {
		own.ids = append(own.ids, l.Name)
	}
	if name != "" && len(own.ids) > 0 && !own.has(name) {
		what, mend := own.wrong(name)
		c.Fault("layer", what, mend)
	}
	return name
}
