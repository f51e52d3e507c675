package kit

import (
	"slices"

	"kernbook/internal/core/qty"
)

// What a change of the datum can be; see Changes.
const (
	CutA   = "shortened at end A"
	CutB   = "shortened at end B"
	Turned = "turned end for end"
)

// Datum is how places are said of a piece on a day, against how they lay on it
// when it was new: what of it there still is, and from which end it is measured.
type Datum struct {
	From, To qty.Length // of the new piece: what there still is
	Turned   bool       // end A is what was end B when the piece was new
}

// After gives the datum after a change; only a cut or a turn makes another one.
func (d Datum) After(c *Change) Datum {
	cut := min(c.Length, d.To-d.From)
	switch {
	case c.What == Turned:
		d.Turned = !d.Turned
	case c.What == CutA && !d.Turned, c.What == CutB && d.Turned:
		d.From += cut
	case c.What == CutB, c.What == CutA:
		d.To -= cut
	}
	return d
}

// turns gives a stretch as measured from the new piece's end A, where it is
// said now; and the other way round.
func (d Datum) turns(from, to qty.Length) (qty.Length, qty.Length) {
	if d.Turned {
		return d.To - to, d.To - from
	}
	return from + d.From, to + d.From
}

// back undoes turns.
func (d Datum) back(from, to qty.Length) (qty.Length, qty.Length) {
	if d.Turned {
		return d.To - to, d.To - from
	}
	return from - d.From, to - d.From
}

// EndParts are the ids of the parts at the two ends, A and B; "" where there is none.
type EndParts [2]string

func (e EndParts) swap(part string) string {
	switch {
	case part == "":
	case part == e[0]:
		return e[1]
	case part == e[1]:
		return e[0]
	}
	return part
}

// First gives a place said now as it lay on the new piece.
func (d Datum) First(p Place, ends EndParts) Place {
	if p.Part == "" && !p.Whole {
		p.From, p.To = d.turns(p.From, p.To)
	}
	if d.Turned {
		p.Part = ends.swap(p.Part)
	}
	return p
}

// Now gives a place of the new piece as it is said now. What of it is no longer
// there is left out; where nothing of it is, Gone is set.
func (d Datum) Now(p Place, ends EndParts) Place {
	if d.Turned {
		p.Part = ends.swap(p.Part)
	}
	if p.Part != "" || p.Whole {
		return p
	}
	from, to := max(p.From, d.From), min(p.To, d.To)
	if from > to || from == to && p.From < p.To {
		p.Gone = true
		from, to = p.From, p.To
	}
	p.From, p.To = d.back(from, to)
	return p
}

// said says whether a place says where.
func (p *Place) said() bool { return p.Part != "" || p.Whole || p.To != 0 }

// moved gives the changes of the datum up to a day, in the order of their days.
func (r *Record) moved(to qty.Day) []*Change {
	var out []*Change
	for i := range r.Changes {
		if c := &r.Changes[i]; c.Day <= to && (c.What == Turned || c.What == CutA || c.What == CutB) {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b *Change) int { return int(a.Day - b.Day) })
	return out
}

// DatumOn gives the datum on a day, with that day's changes made, of a piece that
// was of a length when new.
func (r *Record) DatumOn(day qty.Day, length qty.Length) Datum {
	d := Datum{To: length}
	for _, c := range r.moved(day) {
		d = d.After(c)
	}
	return d
}

// AsNew gives the record with every place as it lay on the new piece, of that
// length and with these parts at its ends, whatever was cut off or turned since.
// Its changes say at which end of the new piece they were made. It is r itself
// where nothing was.
func (r *Record) AsNew(length qty.Length, ends EndParts) *Record {
	return r.said(length, ends, func(d Datum, p Place) Place { return d.First(p, ends) }, nil)
}

// AsNow gives the record with every place as it is said on the day AsOf, and the
// piece as it is then: its length and its ends. It is r itself where nothing was
// cut off or turned up to then.
func (r *Record) AsNow(length qty.Length, ends EndParts) *Record {
	now := r.DatumOn(r.AsOf, length)
	out := r.said(length, ends, func(d Datum, p Place) Place { return now.Now(d.First(p, ends), ends) }, &now)
	if out == r {
		return r
	}
	if r.Piece.Length > 0 {
		out.Piece.Length = now.To - now.From
	}
	if now.Turned {
		out.Piece.EndA, out.Piece.EndB = r.Piece.EndB, r.Piece.EndA
	}
	out.Changes, out.Said = r.Changes, r
	return out
}

// said copies a record with its places as to gives them, of the datum they were
// said with. A run that goes on over a change of the datum becomes several. With
// now given, looks went over no more than there is then.
func (r *Record) said(length qty.Length, ends EndParts, to func(Datum, Place) Place, now *Datum) *Record {
	moves := r.moved(r.AsOf)
	if len(moves) == 0 {
		return r
	}
	out := *r
	looks := func(in []Look, d Datum) []Look {
		in = slices.Clone(in)
		for i := range in {
			var covers []Stretch
			for _, s := range in[i].Covers {
				if !s.All {
					p := to(d, Place{Part: s.Part, From: s.From, To: s.To})
					if p.Gone {
						continue
					}
					s.Part, s.From, s.To = p.Part, p.From, p.To
				}
				covers = append(covers, s)
			}
			in[i].Covers = covers
		}
		return in
	}
	out.Examinations = slices.Clone(r.Examinations)
	for i := range out.Examinations {
		e := &out.Examinations[i]
		d := r.DatumOn(e.Day, length)
		e.Looks = looks(e.Looks, d)
		e.Signs, e.Readings = slices.Clone(e.Signs), slices.Clone(e.Readings)
		for k := range e.Signs {
			if s := &e.Signs[k]; s.State == FirstSeen || s.At.said() { // word of one on record needs no place
				s.At = to(d, s.At)
			}
		}
		for k := range e.Readings {
			e.Readings[k].At = to(d, e.Readings[k].At)
		}
	}
	out.Runs = nil
	for _, run := range r.Runs {
		from := run.From
		for _, c := range moves {
			if from < c.Day && c.Day <= run.To {
				part := run
				part.From, part.To, part.Looks = from, c.Day-1, looks(run.Looks, r.DatumOn(from, length))
				out.Runs = append(out.Runs, part)
				from = c.Day
			}
		}
		run.From, run.Looks = from, looks(run.Looks, r.DatumOn(from, length))
		out.Runs = append(out.Runs, run)
	}
	out.Events = slices.Clone(r.Events)
	for i := range out.Events {
		if e := &out.Events[i]; e.PlaceSaid {
			e.At = to(r.DatumOn(e.Day, length), e.At)
		}
	}
	if now == nil {
		out.Changes = r.changesAsNew(length, ends)
	}
	return &out
}

// changesAsNew gives the changes as made to the new piece, in the order of their days.
func (r *Record) changesAsNew(length qty.Length, ends EndParts) []Change {
	out := slices.Clone(r.Changes)
	slices.SortStableFunc(out, func(a, b Change) int { return int(a.Day - b.Day) })
	d := Datum{To: length}
	for i := range out {
		c := out[i]
		after := d.After(&c)
		if d.Turned {
			switch c.What {
			case CutA:
				out[i].What = CutB
			case CutB:
				out[i].What = CutA
			case "re-tied end A":
				out[i].What = "re-tied end B"
			case "re-tied end B":
				out[i].What = "re-tied end A"
			}
		}
		if len(c.Zones) > 0 {
			out[i].Zones = slices.Clone(c.Zones)
			for k := range c.Zones {
				out[i].Zones[k].From, out[i].Zones[k].To = d.turns(c.Zones[k].From, c.Zones[k].To)
			}
		}
		d = after
	}
	return out
}
