package tables

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

var unitsKind = map[string]string{
	"extent": "share", "most": "share", "t01": "1/year", "t02": "1/year", "t12": "1/year", "h01": "1/100 h", "h02": "1/100 h", "h12": "1/100 h",
	"hidden": "share", "beta_dirt": "1", "beta_mass": "1", "beta_hardware": "1", "new1": "share", "new2": "share",
	"floor_h": "1/100 h", "floor_t": "1/year", "floor_store": "1/year", "shares": "share",
	"q1": "share", "q2": "share", "leak": "1/m", "r": "share", "spread": "share", "cover": "share",
	"mu": "share|mm", "sigma": "share|mm", "nu": "1", "slip": "share", "slip_c": "1/share|1/mm", "shared": "share|mm", "out": "share|mm", // by basis: own|absolute
	"per_mille": "1/1000", "minutes": "minutes", "p": "share", "from_peak": "share", "j01": "share", "j02": "share", "j12": "share",
}

// tolerance is how far shares may be from adding up to 1.
const tolerance = 1e-9

// kindFile is one file of a kind being read.
type kindFile struct {
	*loader
	*file
	k        table.Kind
	signs    []string // ids of its signs, known before the first is read
	modeRows []doc.T
	signRows []doc.T
}

func (l *loader) kind(f *file) {
	kf := &kindFile{loader: l, file: f}
	kf.head()
	kf.zones()
	kf.parts()
	kf.modes()
	kf.allSigns()
	kf.needs()
	kf.reads()
	kf.asks()
	kf.times()
	kf.priors()
	kf.kernels()
	kf.complete()
	l.t.Kinds = append(l.t.Kinds, kf.k)
}

func (f *kindFile) head() {
	t, k := f.root.Sub("kind", doc.Required), &f.k
	k.ID = kit.KindID(t.OneOf("id", doc.Required, kindIDs...))
	if want := strings.TrimSuffix(strings.TrimPrefix(f.name, "kinds/"), ".toml"); k.ID != "" && string(k.ID) != want {
		t.Fault("id", "is “"+string(k.ID)+"” in the file of “"+want+"”", "name the file after the kind, or correct the id")
	}
	k.Words = t.Str("words", doc.Required)
	k.Group = t.OneOf("group", doc.Required, groups...)
	k.Axis = t.OneOf("axis", doc.Required, "length", "parts")
	k.Cell, k.Length = t.Length("cell", k.Axis == "length"), t.Length("length", k.Axis == "length")
	k.Sides = t.Strings("sides", doc.Required)
	k.Strict, k.Doubt, k.Fitted = t.Bool("strict", doc.Required), t.Bool("doubt", doc.Required), t.Bool("fitted", doc.Required)
	k.Layers = t.Strings("layers", doc.Optional)
	for _, group := range t.Strings("must", doc.Optional) {
		k.Must = append(k.Must, strings.Split(group, " or "))
	}
	f.layers(t)
	k.Cite = f.cite(f.file, t)
	if k.Axis == "length" && (k.Cell < 5*qty.Millimetre || k.Length < k.Cell) {
		t.Fault("cell", "and length are no cells along a piece", "give a cell of at least 5 mm and a length of at least one cell")
	}
	for i, s := range k.Sides {
		if slices.Contains(k.Sides[:i], s) {
			t.Fault("sides", "holds “"+s+"” twice", "take one of the two out")
		}
	}
}

// layers refuses names that no layer of a construction has.
func (f *kindFile) layers(t doc.T) {
	for _, l := range f.k.Layers {
		if !slices.Contains(layers, l) {
			t.Fault("layers", "holds “"+l+"”, which is no layer of a construction", "write some of: "+strings.Join(layers, ", "))
		}
	}
	for _, group := range f.k.Must {
		for _, l := range group {
			if !slices.Contains(layers, l) || len(f.k.Layers) > 0 && !slices.Contains(f.k.Layers, l) {
				t.Fault("must", "holds “"+l+"”, which is no layer of this kind", "correct it, or add it to layers")
			}
		}
	}
}

func (f *kindFile) zones() {
	if f.k.Axis == "parts" {
		for _, t := range f.root.List("zone", doc.Optional) {
			t.Fault("", "is a zone on a kind that has parts only", "write a [[part]], or axis = \"length\"")
			skip(t, "id", "words", "where", "extent", "most", "source", "place", "status")
		}
		return
	}
	rest, sum := false, 0.0
	for _, t := range f.root.List("zone", doc.Required) {
		z := table.Zone{
			ID: t.Str("id", doc.Required), Words: t.Str("words", doc.Required),
			Where: t.OneOf("where", doc.Required, "ends", "middle", "from A", "rest"), Cite: f.cite(f.file, t),
		}
		f.once(t, "id", z.ID)
		if z.Where == "rest" {
			if rest {
				t.Fault("where", "is the rest for a second time", "let one zone alone be the rest")
			}
			rest = true
		}
		if z.Where == "rest" || z.Where == "" {
			if t.Has("most") && z.Where == "rest" {
				t.Fault("most", "has no meaning on the zone that is the rest", "take it out")
			}
			if t.Has("extent") && z.Where == "rest" {
				t.Fault("extent", "has no meaning on the zone that is the rest", "take it out")
			}
		} else {
			z.Extent = qty.Share(f.share(t, "extent", doc.Required))
			sum += float64(z.Extent)
			if z.Where == "ends" {
				sum += float64(z.Extent)
			}
			if z.Extent == 0 {
				t.Fault("extent", "is nothing", "write a share of the length above 0")
			}
			z.Most = qty.Share(f.share(t, "most", doc.Required))
			if usual := float64(z.Extent); z.Where == "ends" && float64(z.Most) < 2*usual-tolerance || float64(z.Most) < usual-tolerance {
				t.Fault("most", "is less than the usual layout gives the zone", "write the share of the length that all its stretches may take together")
			}
		}
		f.k.Zones = append(f.k.Zones, z)
	}
	if sum > 1+tolerance || (!rest && sum < 1-tolerance) {
		f.root.Fault("zone", "extents add up to "+about(sum)+" of the length", "let them fill it and no more (an extent at both ends counts twice), or add a zone with where = \"rest\"")
	}
}

// about writes a sum without the noise of its last digits.
func about(v float64) string { return strconv.FormatFloat(v, 'g', 12, 64) }

// skip counts keys as asked for, on a table that is refused as a whole.
func skip(t doc.T, keys ...string) {
	for _, k := range keys {
		t.Has(k)
	}
}

func (f *kindFile) parts() {
	ends := map[string]bool{}
	for _, t := range f.root.List("part", doc.Required) {
		p := table.Part{
			ID: t.Str("id", doc.Required), Words: t.Str("words", doc.Required), End: t.OneOf("end", doc.Optional, "A", "B"),
			Extent: t.Length("extent", doc.Required), Cite: f.cite(f.file, t),
		}
		f.once(t, "id", p.ID)
		if p.End != "" && ends[p.End] {
			t.Fault("end", "is end "+p.End+" for a second time", "let one part alone be it")
		}
		if f.k.Zone(p.ID) != nil {
			t.Fault("id", "is the id of a zone too", "choose another id")
		}
		ends[p.End] = true
		f.k.Parts = append(f.k.Parts, p)
	}
	if f.k.Axis == "length" && !(ends["A"] && ends["B"]) {
		f.root.Fault("part", "does not give both ends of a piece with a length", "add parts with end = \"A\" and end = \"B\"")
	}
}

func (f *kindFile) modes() {
	f.modeRows = f.root.List("mode", f.k.Doubt)
	for _, t := range f.modeRows {
		m := table.Mode{
			ID: t.Str("id", doc.Required), Words: t.Str("words", doc.Required),
			Scope: t.OneOf("scope", doc.Required, "cells", "whole", "ends", "parts"), Layer: t.Str("layer", doc.Optional),
			T01: f.rate(t, "t01", doc.Required), T02: f.rate(t, "t02", doc.Required), T12: f.rate(t, "t12", doc.Required),
			H01: f.rate(t, "h01", doc.Required), H02: f.rate(t, "h02", doc.Required), H12: f.rate(t, "h12", doc.Required),
			Hidden:   f.share(t, "hidden", doc.Required),
			BetaDirt: f.num(t, "beta_dirt", doc.Required), BetaMass: f.num(t, "beta_mass", doc.Required), BetaHardware: f.num(t, "beta_hardware", doc.Required),
			New1: f.share(t, "new1", doc.Required), New2: f.share(t, "new2", doc.Required),
			FloorH: f.rate(t, "floor_h", doc.Required), FloorT: f.rate(t, "floor_t", doc.Required), FloorStore: f.rate(t, "floor_store", doc.Required),
			Cite: f.cite(f.file, t),
		}
		f.once(t, "id", m.ID)
		f.chain(t, &m)
		f.shares(t, &m)
		f.k.Modes = append(f.k.Modes, m)
	}
	if !f.k.Doubt && len(f.k.Modes) > 0 {
		f.root.Fault("mode", "is there on a kind without a doubt figure", "take the modes out, or write doubt = true")
	}
}

// chain refuses chains other than 0→1, 0→2 and 1→2, and those that say nothing.
func (f *kindFile) chain(t doc.T, m *table.Mode) {
	for _, key := range []string{"t10", "t20", "t21", "h10", "h20", "h21"} {
		if t.Has(key) {
			t.Fault(key, "lets damage mend or turn milder, which no piece does", "take it out: a chain goes from 0 to 1, from 0 to 2 and from 1 to 2 only")
		}
	}
	if m.T01+m.T02+m.H01+m.H02 == 0 {
		t.Fault("", "never begins: all rates out of state 0 are 0", "give t01, t02, h01 or h02 a value above 0, or take the mode out")
	}
	if m.T12+m.H12 == 0 {
		t.Fault("", "never gets worse: t12 and h12 are 0", "give one of them a value above 0")
	}
	if m.FloorH+m.FloorT == 0 {
		t.Fault("", "has no floor in service", "give floor_h or floor_t a value above 0, so that nothing learnt takes the mode away")
	}
	if m.New1+m.New2 > 1 {
		t.Fault("new2", "and new1 add up to more than 1", "write shares of new pieces")
	}
	if m.Hidden == 1 {
		t.Fault("hidden", "is all of it, so that no look could ever show the mode", "write a share below 1")
	}
	if m.BetaDirt < 0 || m.BetaMass < 0 || m.BetaHardware < 0 {
		t.Fault("", "has a beta below 0, by which a harder use would wear less", "write 0 or more")
	}
	if m.Layer != "" && !slices.Contains(layers, m.Layer) {
		t.Fault("layer", "is “"+m.Layer+"”, which is no layer of a construction", "write one of: "+strings.Join(layers, ", "))
	}
	switch {
	case (m.Scope == "cells" || m.Scope == "ends") && f.k.Axis == "parts":
		t.Fault("scope", "is “"+m.Scope+"” on a kind that has parts only", "write scope = \"parts\" or \"whole\"")
	}
}

var layers = []string{"cover", "intermediate", "core", "wire core", "webbing", "body"}

// shares reads how the beginnings of a mode are shared out over zones or parts.
func (f *kindFile) shares(t doc.T, m *table.Mode) {
	placed := m.Scope == "cells" || m.Scope == "parts"
	if m.Scope != "" && !placed {
		if t.Has("shares") {
			t.Fault("shares", "has no meaning on a mode of scope “"+m.Scope+"”", "take it out")
		}
		return
	}
	s := t.Sub("shares", placed)
	if s.Present() {
		f.unit(t, "shares")
	}
	sum := 0.0
	for _, id := range s.Keys() {
		v := s.Float(id, doc.Required)
		sum += v
		if v < 0 || v > 1 {
			s.Fault(id, "is not between 0 and 1", "write a share of the beginnings")
		}
		if (m.Scope == "cells" && f.k.Zone(id) == nil) || (m.Scope == "parts" && f.k.Part(id) == nil) {
			s.Fault(id, "is no zone or part of this kind", "correct it, or add the "+map[string]string{"cells": "[[zone]]", "parts": "[[part]]"}[m.Scope])
		}
		m.Shares = append(m.Shares, table.ZoneShare{Zone: id, Share: v})
	}
	if s.Present() && math.Abs(sum-1) > tolerance {
		t.Fault("shares", "add up to "+about(sum)+" and not to 1", "let the shares of all places add up to 1")
	}
}

func (f *kindFile) mode(id string) *table.Mode {
	for i := range f.k.Modes {
		if f.k.Modes[i].ID == id {
			return &f.k.Modes[i]
		}
	}
	return nil
}

// complete refuses a kind without the rows that every examination needs.
func (f *kindFile) complete() {
	for _, e := range []kit.ExamKind{kit.PreUse, kit.Interim, kit.Thorough} {
		if !slices.ContainsFunc(f.k.Needs, func(n table.Need) bool { return n.Exam == e }) {
			f.root.Fault("need", "asks for no look in the examination “"+string(e)+"”", "add a [[need]] row for it")
		}
	}
	for i, t := range f.modeRows {
		if !f.findable(f.k.Modes[i].ID) {
			t.Fault("", "shows in no look that a thorough examination requires", "link a sign of such a look to it, with q1 above 0")
		}
	}
	for _, look := range kit.Looks {
		needed := slices.ContainsFunc(f.k.Needs, func(n table.Need) bool { return n.Look == look })
		if needed && !slices.ContainsFunc(f.k.Times, func(x table.Time) bool { return x.Look == look }) {
			f.root.Fault("time", "says nothing of the look “"+string(look)+"”, which is required", "add a [[time]] row for it")
		}
	}
}

func (f *kindFile) findable(mode string) bool {
	for _, s := range f.k.Signs {
		if !slices.ContainsFunc(s.Links, func(x table.Link) bool { return x.Mode == mode && x.Q1 > 0 }) {
			continue
		}
		for _, n := range f.k.Needs {
			if n.Exam == kit.Thorough && slices.Contains(s.Looks, n.Look) {
				return true
			}
		}
	}
	return false
}
