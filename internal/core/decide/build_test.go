package decide_test

import (
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// TestZonesExplainOnlyWhereTheyCanLie: a record built without the reader cannot
// explain signs away by zones that lie where the kind does not let them.
func TestZonesExplainOnlyWhereTheyCanLie(t *testing.T) {
	long := tb.Kind(kit.Bridge).Length
	mm := qty.Millimetre
	beside := kit.Place{From: 90 * mm, To: 120 * mm}
	middle := kit.Place{From: 440 * mm, To: 460 * mm}
	shifted := []kit.ZoneAt{{Zone: "bend", From: 0, To: 54 * mm}, {Zone: "travel", From: 60 * mm, To: 600 * mm}, {Zone: "bend", From: long - 54*mm, To: long}}
	for _, c := range []struct {
		name  string
		sign  string
		at    kit.Place
		zones []kit.ZoneAt
		keeps bool
	}{
		{"grey beside the travel, shifted there", "grey", beside, shifted, true},
		{"grey beside the travel", "grey", beside, nil, false},
		{"all of it travel", "grey", beside, []kit.ZoneAt{{Zone: "travel", From: 0, To: long}}, false},
		{"grey in the travel, all of it travel", "grey", middle, []kit.ZoneAt{{Zone: "travel", From: 0, To: long}}, false},
		{"travel between the bends", "grey", beside, []kit.ZoneAt{shifted[0], {Zone: "travel", From: 54 * mm, To: long - 54*mm}, shifted[2]}, false},
		{"travel twice, one over the other", "grey", beside, []kit.ZoneAt{shifted[0], shifted[1], {Zone: "travel", From: 80 * mm, To: 600 * mm}, shifted[2]}, false},
		{"a bend in the middle", "pinch", middle, []kit.ZoneAt{shifted[0], {Zone: "bend", From: 430 * mm, To: 470 * mm}, shifted[2]}, false},
		{"no bends", "grey", beside, shifted[1:2], false},
		{"beyond its end", "grey", beside, []kit.ZoneAt{shifted[0], shifted[1], {Zone: "bend", From: long - 54*mm, To: long + mm}}, false},
	} {
		for _, moved := range []bool{false, true} {
			r := sound(kit.Bridge)
			if moved {
				if len(c.zones) > 0 {
					r.Changes = []kit.Change{{Day: mustDay("2026-02-02"), What: "zones", Zones: c.zones, By: "examiner"}}
				}
			} else {
				r.Piece.Zones = c.zones
			}
			r.Examinations[0].Signs = []kit.Sign{{Ref: "s", Sign: c.sign, State: kit.FirstSeen, At: c.at}}
			o := decide.Decide(tb, r, decide.Ask{Explain: true})
			if keeps := o.Verdict < kit.SetAside; keeps != c.keeps {
				t.Errorf("%s (moved %v): %s%s", c.name, moved, o.Verdict, reasons(&o))
			}
			named := false
			for _, a := range o.Told.Assumed {
				named = named || a == "zones"
			}
			if named == (c.keeps || c.zones == nil) {
				t.Errorf("%s: that its zones are not believed is said: %v", c.name, named)
			}
		}
	}
}

// TestLayersAreNotTakenAway: a record built without the reader cannot take a
// mode away by saying that a layer is missing which the kind must have, nor by
// one without a name; what the layer is made of is unknown then.
func TestLayersAreNotTakenAway(t *testing.T) {
	acid := func(layers ...kit.Layer) *decide.Outcome {
		r := sound(kit.Line)
		r.Piece.Layers = layers
		r.Events = []kit.Event{{Ref: "e", Day: mustDay("2026-07-06"), Event: "spill", Substance: "fuel", Amount: "splash", Washed: kit.SaidYes, Travel: -1, Peak: -1}}
		o := decide.Decide(tb, r, decide.Ask{})
		return &o
	}
	silent, known := acid(), acid(kit.Layer{Name: "cover", Fibre: "pes"}, kit.Layer{Name: "core", Fibre: "pa"})
	for _, layers := range [][]kit.Layer{
		{{Name: "core", Fibre: kit.NoLayer}},
		{{Name: "cover", Fibre: kit.NoLayer}, {Name: "core", Fibre: kit.NoLayer}},
		{{Name: "", Fibre: kit.NoLayer}},
		{{Name: "cover", Fibre: "pes"}, {Name: "core", Fibre: kit.NoLayer}},
	} {
		o := acid(layers...)
		if o.Doubt.D < silent.Doubt.D*(1-1e-12) || o.Doubt.D < known.Doubt.D*(1-1e-12) {
			t.Errorf("%v: D %v, with nothing said of its layers %v", layers, o.Doubt.D, silent.Doubt.D)
		}
		if o.Verdict < known.Verdict {
			t.Errorf("%v: %s, with known layers %s", layers, o.Verdict, known.Verdict)
		}
	}
	without := sound(kit.Lanyard)
	without.Piece.Layers = []kit.Layer{{Name: "cover", Fibre: "pes"}, {Name: "core", Fibre: "pes"}, {Name: "wire core", Fibre: kit.NoLayer}}
	with := sound(kit.Lanyard)
	a, b := decide.Decide(tb, without, decide.Ask{}), decide.Decide(tb, with, decide.Ask{})
	if !(a.Doubt.D < b.Doubt.D) {
		t.Errorf("a lanyard that has no wire core: D %v, one of which nothing is said %v", a.Doubt.D, b.Doubt.D)
	}
}
