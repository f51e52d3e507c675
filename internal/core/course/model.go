// Package course follows the belief about one piece through its record: it
// divides the piece into cells, turns use, time and events into chains, looks
// into likelihoods and seen signs into facts, day by day.
//
// It is the model of docs/model.md applied to the nouns of a record and the
// rows of the tables; the sums themselves are package doubt's.
package course

import (
	"kernbook/internal/core/doubt"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Model is a piece as the engine sees it: its cells, its modes and where each
// of them lives. It does not change once
// made, except by Layout; it keeps what a day of use does to each mode and what
// each quality of look says of it, so a model
// and the courses of it belong to one caller at a time.
type Model struct {
	Tables *table.Tables
	Kind   *table.Kind
	Piece  *kit.Piece
	Length qty.Length
	Cells  []Cell
	Whole  []int   // index in Kind.Modes, per whole-piece mode
	Local  []Local // in the order of the engine
	Assume []string

	persons    map[string]*kit.Person
	laid       []kit.ZoneAt
	unsure     bool       // the zones on record cannot lie so
	cut        bool       // some cell was cut off
	from, to   qty.Length // what there still is of the new piece
	turned     bool       // it is measured from the other end now
	facts      []fact
	links      [][len(kit.Looks)][]modeLink // per mode of the kind and look
	shownBy    [][]int                      // per mode of the kind: orders of the looks that have a link
	wholeLinks [][]modeLink                 // per whole-piece mode
	causeLinks map[string][]causeLink       // per harmless cause
	reach      []bool                       // per mode: some sign of it reaches into neighbouring cells

	// worked out once and kept
	work      [][]done    // scratch of a span, per mode
	qualities []*quality  // of looks that are alike everywhere
	sets      []*together // of uniform sets
	stepsOf   useKey
	dayStep   [][]dayStep // per mode: what a day does, by scale, at the use of stepsOf
}

// Cell is a stretch of the piece, or a named part of it.
type Cell struct {
	Part     string // "" for a stretch
	From, To qty.Length
	Extent   qty.Length // for leaks, which are per metre
	First    int        // its local modes are Local[First:Last]
	Last     int
	Gone     bool // cut off
	Zones    []overlap
}

// overlap is how much of a zone lies in a cell, as a share of the zone.
type overlap struct {
	zone  string
	share float64
}

// Local is one local mode of one cell.
type Local struct {
	Cell  int
	Mode  int     // index in Kind.Modes
	Scale float64 // the cell's share of what the table says for the whole zone
}

// NewModel divides a piece into cells and gives each its modes. The length of
// a piece that has none on record is the kind's usual one, which is noted.
func NewModel(t *table.Tables, k *table.Kind, r *kit.Record) *Model {
	m := &Model{Tables: t, Kind: k, Piece: &r.Piece, Length: r.Piece.Length, persons: make(map[string]*kit.Person, len(r.People))}
	for i := range r.People {
		m.persons[r.People[i].ID] = &r.People[i]
	}
	if k.Axis == "length" {
		if m.Length <= 0 {
			m.Length = k.Length
			m.Assume = append(m.Assume, "length")
		}
		for at := qty.Length(0); at < m.Length; {
			to := at + k.Cell
			if m.Length-to < k.Cell/2 { // no sliver is left: in one, a leak could hardly be
				to = m.Length
			}
			m.Cells = append(m.Cells, Cell{From: at, To: to, Extent: to - at})
			at = to
		}
	}
	for i := range k.Parts {
		c := Cell{Part: k.Parts[i].ID, Extent: k.Parts[i].Extent}
		switch k.Parts[i].End {
		case "A":
			c.From, c.To = 0, 0
		case "B":
			c.From, c.To = m.Length, m.Length
		}
		m.Cells = append(m.Cells, c)
	}
	for i := range k.Modes {
		if k.Modes[i].Scope == "whole" && m.has(&k.Modes[i]) {
			m.Whole = append(m.Whole, i)
		}
	}
	for c := range m.Cells {
		m.Cells[c].First = len(m.Local)
		for i := range k.Modes {
			if m.lives(&k.Modes[i], &m.Cells[c]) {
				m.Local = append(m.Local, Local{Cell: c, Mode: i})
			}
		}
		m.Cells[c].Last = len(m.Local)
	}
	m.to = m.Length
	m.Layout(m.zones(r.Piece.Zones))
	m.facts = m.makeFacts()
	m.makeLinks()
	return m
}

// zonesAssumed names zones that were not believed.
const zonesAssumed = "zones"

// has says whether the construction has the layer a mode needs. It has, unless
// the record says that there is no such layer: one left out is not taken away.
func (m *Model) has(mode *table.Mode) bool {
	return !m.Kind.Missing(m.Piece.Layers, mode.Layer)
}

func (m *Model) lives(mode *table.Mode, c *Cell) bool {
	if !m.has(mode) {
		return false
	}
	switch mode.Scope {
	case "cells":
		return c.Part == ""
	case "ends":
		p := m.Kind.Part(c.Part)
		return p != nil && p.End != ""
	case "parts":
		return c.Part != "" && share(mode, c.Part) > 0
	}
	return false
}

// share gives a mode's share for a zone or part; 0 when it has none there.
func share(mode *table.Mode, zone string) float64 {
	for _, s := range mode.Shares {
		if s.Zone == zone {
			return s.Share
		}
	}
	return 0
}

// zones gives the zones on record, or the kind's usual layout over the length.
// Zones on record that cannot lie so are not believed: the usual layout is taken,
// and no cause is likelier for the place that a sign lies at.
func (m *Model) zones(at []kit.ZoneAt) []kit.ZoneAt {
	if m.Kind.Axis != "length" {
		return at
	}
	lo, hi := m.bounds()
	m.unsure = false
	if len(at) > 0 {
		if _, wrong := m.Kind.ZoneFault(at, lo, hi); wrong == "" {
			return at
		}
		m.unsure = true
		if !has(m.Assume, zonesAssumed) {
			m.Assume = append(m.Assume, zonesAssumed)
		}
	}
	usual := m.Kind.UsualZones(lo, hi)
	if m.turned {
		return m.mirrored(usual)
	}
	return usual
}

// mirrored gives zones as they lie when the piece is turned end for end under them.
func (m *Model) mirrored(at []kit.ZoneAt) []kit.ZoneAt {
	lo, hi := m.bounds()
	out := make([]kit.ZoneAt, 0, len(at))
	for i := len(at) - 1; i >= 0; i-- {
		out = append(out, kit.ZoneAt{Zone: at[i].Zone, From: lo + hi - at[i].To, To: lo + hi - at[i].From})
	}
	return out
}

// bounds gives the stretch of the piece that is still there.
func (m *Model) bounds() (lo, hi qty.Length) { return m.from, m.to }

// datum says how places are said now; those of the cells are of the new piece.
func (m *Model) datum() kit.Datum { return kit.Datum{From: m.from, To: m.to, Turned: m.turned} }

// Layout lays zones over the cells and shares the modes' table values out: a
// cell has of every zone's share what it covers of the zone. What no zone
// covers belongs to the zone named "rest" in the tables; a zone that is not
// there gives its share to those that are.
func (m *Model) Layout(at []kit.ZoneAt) {
	m.laid = at
	if m.Kind.Axis != "length" {
		for i := range m.Local {
			l := &m.Local[i]
			l.Scale = share(&m.Kind.Modes[l.Mode], m.Cells[l.Cell].Part)
		}
		return
	}
	rest := m.restZone()
	lo, hi := m.bounds()
	size := make(map[string]qty.Length, len(at)+1)
	type bit struct {
		cell int
		zone string
		len  qty.Length
	}
	var bits []bit
	for c := range m.Cells {
		cell := &m.Cells[c]
		cell.Zones = cell.Zones[:0]
		if cell.Part != "" || cell.Gone {
			continue
		}
		from, to := max(cell.From, lo), min(cell.To, hi)
		left := to - from
		for _, z := range at {
			l := min(z.To, to) - max(z.From, from)
			l = min(l, left)
			if l <= 0 {
				continue
			}
			bits = append(bits, bit{c, z.Zone, l})
			size[z.Zone] += l
			left -= l
		}
		if left > 0 {
			bits = append(bits, bit{c, rest, left})
			size[rest] += left
		}
	}
	for _, b := range bits {
		cell := &m.Cells[b.cell]
		cell.Zones = append(cell.Zones, overlap{b.zone, float64(b.len) / float64(size[b.zone])})
	}
	for i := range m.Local {
		l := &m.Local[i]
		mode := &m.Kind.Modes[l.Mode]
		if mode.Scope == "ends" {
			l.Scale = 1
			continue
		}
		there := 0.0
		for _, s := range mode.Shares {
			if size[s.Zone] > 0 {
				there += s.Share
			}
		}
		l.Scale = 0
		for _, o := range m.Cells[l.Cell].Zones {
			if there > 0 {
				l.Scale += float64(o.share*share(mode, o.zone)) / there
			}
		}
	}
}

func (m *Model) restZone() string {
	for i := range m.Kind.Zones {
		if m.Kind.Zones[i].Where == "rest" {
			return m.Kind.Zones[i].ID
		}
	}
	return ""
}

// Start gives the belief about this piece when it was new.
func (m *Model) Start() *doubt.Belief {
	whole := make([]doubt.Vec, len(m.Whole))
	for i, k := range m.Whole {
		mode := &m.Kind.Modes[k]
		whole[i] = doubt.Start(mode.New1, mode.New2, mode.Hidden)
	}
	cells := make([][]doubt.Vec, len(m.Cells))
	for c := range m.Cells {
		for l := m.Cells[c].First; l < m.Cells[c].Last; l++ {
			cells[c] = append(cells[c], m.startLocal(l))
		}
	}
	return doubt.New(whole, cells)
}

func (m *Model) startLocal(l int) doubt.Vec {
	mode := &m.Kind.Modes[m.Local[l].Mode]
	k := m.Local[l].Scale
	return doubt.Start(float64(mode.New1*k), float64(mode.New2*k), mode.Hidden)
}

// ZoneAt gives the zone that a place lies wholly in, or "" when it lies in more
// than one: then the prior of "elsewhere" is taken, which is the stricter one.
func (m *Model) ZoneAt(p kit.Place) string {
	if m.unsure && p.Part == "" {
		return ""
	}
	return ZoneIn(m.laid, m.restZone(), p)
}

// ZoneIn gives the zone of those laid that a place lies wholly in: its part, rest
// where it meets none, and "" where it lies in more than one.
func ZoneIn(laid []kit.ZoneAt, rest string, p kit.Place) string {
	if p.Part != "" {
		return p.Part
	}
	if p.Whole {
		return ""
	}
	touched := false
	for _, z := range laid {
		if z.From <= p.From && p.To <= z.To {
			return z.Zone
		}
		if min(p.To, z.To) > max(p.From, z.From) {
			touched = true
		}
	}
	if touched {
		return ""
	}
	return rest
}

// Laid gives the zones as they lie now, in their order along the piece, and the
// zone of what none of them covers; none and "" where nobody can say how they lie.
func (c *Course) Laid() (laid []kit.ZoneAt, rest string) {
	m := c.m
	if m.unsure {
		return nil, ""
	}
	zones := m.laid
	if m.turned {
		zones = m.mirrored(zones)
	}
	laid = make([]kit.ZoneAt, len(zones))
	for i, z := range zones {
		laid[i] = kit.ZoneAt{Zone: z.Zone, From: z.From - m.from, To: z.To - m.from}
	}
	return laid, m.restZone()
}

// CellsOf lists the cells that a place covers, in order. A point belongs to one cell.
func (m *Model) CellsOf(p kit.Place) []int {
	var out []int
	_, end := m.bounds()
	for c := range m.Cells {
		cell := &m.Cells[c]
		if cell.Gone {
			continue
		}
		switch {
		case p.Whole:
		case p.Part != "":
			if cell.Part != p.Part {
				continue
			}
		case cell.Part != "":
			continue
		case p.From == p.To:
			if p.From < cell.From || p.From > cell.To || (p.From == cell.To && cell.To != end) {
				continue
			}
		case min(p.To, cell.To) <= max(p.From, cell.From):
			continue
		}
		out = append(out, c)
	}
	return out
}

// ZoneOf gives the zone that most of a cell lies in; a part is its own.
func (m *Model) ZoneOf(c int) string {
	cell := &m.Cells[c]
	if cell.Part != "" {
		return cell.Part
	}
	best, zone := qty.Length(0), m.restZone()
	for _, z := range m.laid {
		if l := min(z.To, cell.To) - max(z.From, cell.From); l > best {
			best, zone = l, z.Zone
		}
	}
	if 2*best < cell.To-cell.From {
		return m.restZone()
	}
	return zone
}
