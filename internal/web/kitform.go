package web

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// kitBody is the form of a piece itself: to register it, or to say what is
// known of it now.
type kitBody struct {
	F         *form
	Kind      *table.Kind
	New       bool
	Piece     string // id, of one that is registered
	Along     bool   // places on it are told in lengths
	Textile   bool
	Markings  []option
	Origins   []option
	Histories []option
	Stored    []option
	Answers   []option
	Layers    []option
	Fibres    []option
	Hows      []option
	Stitches  []option
	Zones     []option
	Ends      []end
	second
	LayerRows int
	ZoneRows  int
}

// end is one of the two ends of a piece on the form.
type end struct{ Key, Words string }

// layerNames are the layers of a record, for kinds that name none.
var layerNames = []string{"cover", "intermediate", "core", "wire core", "webbing", "body"}

func (s *Site) kitBody(f *form, k *table.Kind) *kitBody {
	b := &kitBody{F: f, Kind: k, Along: k.Axis == "length", Textile: k.Group == "textile", Markings: s.options("marking", "readable", "partly", "unreadable"),
		Origins: s.options("origin", "new", "other yard", "second-hand", "found"), Histories: s.options("history-of", "known", "not wholly known"),
		Stored: s.options("stored", "used", "store"), Answers: s.options("answer", "yes", "no", "not known"),
		Hows: s.options("how", "knot", "splice", "stitched", "moulded", "none"), Stitches: s.options("stitch", "whole", "cut", "missing", "none"),
		Zones: s.zones(k.ID), LayerRows: f.count("layers", 1), ZoneRows: f.count("zones", 1),
		Ends: []end{{"end_a", s.say("kit.end-a")}, {"end_b", s.say("kit.end-b")}}}
	names := k.Layers
	if len(names) == 0 {
		names = layerNames
	}
	b.Layers = s.options("layer", names...)
	for i := range s.app.Tables().Fibres {
		x := &s.app.Tables().Fibres[i]
		b.Fibres = append(b.Fibres, option{x.ID, x.Words})
	}
	known := false
	for _, x := range b.Fibres {
		known = known || x.ID == "unknown"
	}
	if !known {
		b.Fibres = append(b.Fibres, option{"unknown", s.word("fibre", "unknown")})
	}
	b.Fibres = append(b.Fibres, option{kit.NoLayer, s.word("fibre", kit.NoLayer)})
	return b
}

// kit reads what was typed into the form of a piece.
func (f *form) kit(id string, kind kit.KindID) kit.Piece {
	p := kit.Piece{ID: id, Kind: kind, Words: f.text("words"), Maker: f.text("maker"), MakerAt: f.text("maker_address"), Trade: f.text("trade_name"), Model: f.text("model"), Serial: f.text("serial"), Batch: f.text("batch"),
		Marking: f.choose("marking", f.s.say("kit.marking")), Proof: f.text("proof"), Origin: f.choose("origin", f.s.say("kit.origin")), History: f.choose("history", f.s.say("kit.history")), Traced: f.text("traced"),
		Made: f.saidDate("made", f.s.say("kit.made")), FirstUse: f.saidDate("first_use", f.s.say("kit.first-use")), Bought: f.date("bought"), Declared: f.date("declared"), Obsolete: f.date("obsolete"),
		MakerFromMade: parsed(f, "maker_life_from_made", months), MakerFromUse: parsed(f, "maker_life_from_use", months), MakerDocument: f.text("maker_document"),
		Examined: f.date("examined"), ExaminedBefore: f.V("examined_before_use") != "", ExaminationFrom: f.text("examination_document"),
		Length: f.length("length"), StoredIn: f.V("stored"), Zones: f.zonesAt(),
		EndA: f.end("end_a"), EndB: f.end("end_b"), Fitted: kit.Fitted{In: f.text("fitted.in"), Allowed: kit.Yes(f.V("fitted.allowed")), Document: f.text("fitted.document")}}
	if f.text("diameter") != "unknown" {
		p.Diameter = f.length("diameter")
	}
	for i := range f.count("layers", 0) {
		at := key("layer", i)
		l := kit.Layer{Name: f.V(at + ".name"), Fibre: f.V(at + ".fibre")}
		switch {
		case l == kit.Layer{}:
			continue
		case l.Name == "":
			f.fault(at+".name", f.s.say("kit.no-layer"))
		case l.Fibre == "":
			f.fault(at+".fibre", f.s.say("kit.no-fibre"))
		}
		p.Layers = append(p.Layers, l)
	}
	return p
}

func (f *form) end(at string) kit.End {
	return kit.End{How: f.V(at + ".how"), Tail: f.length(at + ".tail"), Stitch: f.V(at + ".stitch")}
}

// saidDate reads a date that must be said, if only as unknown.
func (f *form) saidDate(name, label string) qty.PartialDate {
	f.need(name, f.s.say("kit.no-date", "what", label))
	return f.date(name)
}

// months reads a span; a bare number is in years.
func months(t string) (qty.Months, error) {
	if digits(t) {
		t += " years"
	}
	return qty.ParseMonths(t)
}

// kitOut fills a form from what is known of a piece.
func (f *form) kitOut(p *kit.Piece) {
	set := func(name, text string) {
		if text != "" {
			f.v.Set(name, text)
		}
	}
	length := func(name string, l qty.Length) {
		if l != 0 {
			f.v.Set(name, l.String())
		}
	}
	for name, text := range map[string]string{"words": p.Words, "maker": p.Maker, "maker_address": p.MakerAt, "trade_name": p.Trade, "model": p.Model, "serial": p.Serial, "batch": p.Batch, "marking": p.Marking,
		"proof": p.Proof, "origin": p.Origin, "history": p.History, "traced": p.Traced, "maker_document": p.MakerDocument,
		"examination_document": p.ExaminationFrom, "stored": p.StoredIn, "made": p.Made.Words(), "first_use": p.FirstUse.Words()} {
		set(name, text)
	}
	for name, d := range map[string]qty.PartialDate{"bought": p.Bought, "declared": p.Declared, "obsolete": p.Obsolete, "examined": p.Examined} {
		if d.Known() {
			set(name, d.Words())
		}
	}
	for name, m := range map[string]qty.Months{"maker_life_from_made": p.MakerFromMade, "maker_life_from_use": p.MakerFromUse} {
		if m != 0 {
			set(name, m.String())
		}
	}
	if p.ExaminedBefore {
		set("examined_before_use", "yes")
	}
	length("length", p.Length)
	length("diameter", p.Diameter)
	for at, e := range map[string]*kit.End{"end_a": &p.EndA, "end_b": &p.EndB} {
		set(at+".how", e.How)
		length(at+".tail", e.Tail)
		set(at+".stitch", e.Stitch)
	}
	for i, l := range p.Layers {
		set(key("layer", i)+".name", l.Name)
		set(key("layer", i)+".fibre", l.Fibre)
	}
	f.rows("layers", len(p.Layers))
	f.zonesOut(p.Zones)
}
