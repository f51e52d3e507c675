package table

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// What can be wrong with a layout of zones.
const (
	ZoneUnknown = "unknown"  // the kind has no such zone
	ZoneOutside = "outside"  // it does not lie on the piece, or has no length
	ZoneOverlap = "overlap"  // it lies over another one
	ZoneLong    = "too long" // zones of its name take more of the length than the kind allows
	ZoneOffEnd  = "off end"  // it belongs at an end and does not lie there
	ZoneNoEnd   = "no end"   // an end is without the zone that belongs there
)

// ZoneFault says what is wrong with a layout of zones over a piece that reaches
// from lo to hi, and with which of them; "" when nothing is. For ZoneNoEnd the
// index is that of the zone in k.Zones. What a zone explains away it explains
// only where the kind lets it lie.
func (k *Kind) ZoneFault(at []kit.ZoneAt, lo, hi qty.Length) (int, string) {
	for i := range at {
		z, x := k.Zone(at[i].Zone), &at[i]
		switch {
		case z == nil:
			return i, ZoneUnknown
		case x.From < lo || x.To > hi || x.To <= x.From:
			return i, ZoneOutside
		case z.Where == "ends" && x.From != lo && x.To != hi:
			return i, ZoneOffEnd
		}
		sum := x.To - x.From
		for n := range at[:i] {
			if at[n].From < x.To && x.From < at[n].To {
				return i, ZoneOverlap
			}
			if at[n].Zone == x.Zone {
				sum += at[n].To - at[n].From
			}
		}
		if z.Where != "rest" && float64(sum) > float64(hi-lo)*z.most() {
			return i, ZoneLong
		}
	}
	for n := range k.Zones {
		if k.Zones[n].Where != "ends" {
			continue
		}
		first, last := false, false
		for i := range at {
			if at[i].Zone == k.Zones[n].ID {
				first, last = first || at[i].From == lo, last || at[i].To == hi
			}
		}
		if !first || !last {
			return n, ZoneNoEnd
		}
	}
	return -1, ""
}

// UsualZones lays the kind's usual zones over a piece that reaches from lo to hi;
// what they leave is the rest.
func (k *Kind) UsualZones(lo, hi qty.Length) []kit.ZoneAt {
	long := hi - lo
	start, end := lo, hi
	var out []kit.ZoneAt
	for i := range k.Zones {
		z := &k.Zones[i]
		part := qty.Length(float64(z.Extent) * float64(long))
		switch z.Where {
		case "ends":
			out = append(out, kit.ZoneAt{Zone: z.ID, From: lo, To: lo + part}, kit.ZoneAt{Zone: z.ID, From: hi - part, To: hi})
			start, end = max(start, lo+part), min(end, hi-part)
		case "from A":
			out = append(out, kit.ZoneAt{Zone: z.ID, From: start, To: min(end, start+part)})
			start = min(end, start+part)
		case "middle":
			mid := lo + long/2
			out = append(out, kit.ZoneAt{Zone: z.ID, From: max(start, mid-part/2), To: min(end, mid+part/2)})
		}
	}
	return out
}

// Ends gives the ids of the parts at the two ends, A and B.
func (k *Kind) Ends() (ends kit.EndParts) {
	for i := range k.Parts {
		switch k.Parts[i].End {
		case "A":
			ends[0] = k.Parts[i].ID
		case "B":
			ends[1] = k.Parts[i].ID
		}
	}
	return ends
}

// long gives the length of a piece when it was new: the one on record, else the
// usual one of the kind.
func (k *Kind) long(r *kit.Record) qty.Length {
	if r.Piece.Length > 0 {
		return r.Piece.Length
	}
	return k.Length
}

// New gives a record of a piece of the kind with every place as it lay on the
// new piece; see kit.Record.AsNew.
func (k *Kind) New(r *kit.Record) *kit.Record { return r.AsNew(k.long(r), k.Ends()) }

// Now gives a record of a piece of the kind with every place as it is said on
// the day AsOf; see kit.Record.AsNow. Of a kind that is not known nothing is moved.
func (k *Kind) Now(r *kit.Record) *kit.Record {
	if k == nil {
		return r
	}
	return r.AsNow(k.long(r), k.Ends())
}

// Moved gives a place said on a day as it is said on the day AsOf of a record.
func (k *Kind) Moved(r *kit.Record, p kit.Place, day qty.Day) kit.Place {
	long, ends := k.long(r), k.Ends()
	return r.DatumOn(r.AsOf, long).Now(r.DatumOn(day, long).First(p, ends), ends)
}

// most gives the share of the length that the stretches of a zone may take
// together: the table's, else what the usual layout gives them.
func (z *Zone) most() float64 {
	switch {
	case z.Most > 0:
		return float64(z.Most)
	case z.Where == "ends":
		return float64(2 * z.Extent)
	}
	return float64(z.Extent)
}

// Missing says whether a construction is without a layer: the record says that
// there is none, and the kind can be without it. One that is left out is there,
// and so is one that the kind must have.
func (k *Kind) Missing(layers []kit.Layer, name string) bool {
	return name != "" && none(layers, name) && !k.needs(layers, name)
}

// needs says whether the kind must have a layer: every group of Must has at
// least one layer that is not said to be missing.
func (k *Kind) needs(layers []kit.Layer, name string) bool {
	for _, group := range k.Must {
		here, left := false, false
		for _, l := range group {
			here = here || l == name
			left = left || !none(layers, l)
		}
		if here && !left {
			return true
		}
	}
	return false
}

func none(layers []kit.Layer, name string) bool {
	for i := range layers {
		if layers[i].Name == name && layers[i].Fibre == kit.NoLayer {
			return true
		}
	}
	return false
}
