package paper

import "strconv"

// Line is a piece as the register lists it.
type Line struct {
	ID, Kind, Words, Serial, Holder, Stands, Last, Next string
	Since                                               []string // what came on record after its last report, oldest first
	Presented                                           bool     // at the examiner's visit
}

// Register makes the register of the yard: every piece, what came on record of
// it since its last report, and, of a visit,
// which were not presented.
func Register(yard, day, head string, list []Line, visit bool) *Doc {
	d := &Doc{Title: "Register of kit", Sub: orElse(yard, "yard without a name") + " · " + day, Running: "Register of kit · " + orElse(yard, "yard without a name") + " · " + day, Foot: "Head of the book when printed: " + head}
	s := Section{Heading: "All pieces: " + strconv.Itoa(len(list)), Head: []string{"Piece", "Kind", "Serial no.", "Held by", "Stands at", "Last thorough examination", "Next look or examination"}, Widths: []float64{.11, .18, .14, .15, .14, .14, .14}}
	since := Section{Heading: "Came on record after the last report", Head: []string{"Piece", "What"}, Widths: []float64{.13, .87}}
	missing := Section{Heading: "On the register and not presented", Head: []string{"Piece", "Kind and description", "Held by", "Why it was not presented (by hand)"}, Widths: []float64{.12, .35, .18, .35}}
	for _, l := range list {
		s.Table = append(s.Table, []string{l.ID, l.Kind, orElse(l.Serial, "—"), orElse(l.Holder, "nobody"), l.Stands, orElse(l.Last, "none on record"), orElse(l.Next, "—")})
		for _, t := range l.Since {
			since.Table = append(since.Table, []string{l.ID, t})
		}
		if !l.Presented {
			missing.Table = append(missing.Table, []string{l.ID, join(l.Kind, l.Words), orElse(l.Holder, "nobody"), "………………………………………"})
		}
	}
	if len(since.Table) == 0 {
		since.Head, since.Note = nil, "Nothing."
	}
	switch {
	case !visit:
		missing.Head, missing.Table, missing.Note = nil, nil, "It was not asked which pieces were presented: this is the register of a day, not of an examiner's visit."
	case len(missing.Table) == 0:
		missing.Head, missing.Note = nil, "None: all were presented."
	}
	d.Sections = append(d.Sections, s, since, missing)
	return d
}
