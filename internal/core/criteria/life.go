package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// life gives the earliest end of all rules (L-10): what is marked on the piece,
// what its maker says, and the tables by kind, country and fibre.
//
// A row of the tables that holds only where the maker says nothing falls away
// when the maker's document with a figure is on record: a row from first use by
// any figure of the maker, a row from manufacture only by the maker's own
// figure from manufacture.
func (j *judge) life() Due {
	p := &j.r.Piece
	var all []Bound
	if p.Obsolete.Known() {
		all = append(all, j.lifeBound(start{p.Obsolete.Earliest(), true, "marked"}, 0, Bound{
			Counts: true, Line: lLife, Lines: []string{lObsolete, lEarliest}, Key: "life.marked", Status: table.Published}))
	}
	maker := Bound{Counts: true, Line: lLife, Lines: []string{lObsolete, lEarliest}, Key: "life.maker", Status: table.Published}
	if p.MakerFromMade > 0 {
		all = append(all, j.lifeBound(j.made(), p.MakerFromMade, maker))
	}
	if p.MakerFromUse > 0 {
		all = append(all, j.lifeBound(j.firstUse(), p.MakerFromUse, maker))
	}
	for i := range j.t.Lives {
		row := &j.t.Lives[i]
		if row.Store || !j.lifeApplies(row) {
			continue
		}
		from := j.firstUse()
		says := p.MakerFromUse > 0 || p.MakerFromMade > 0
		switch row.CountsFrom {
		case "first use":
		case "marked date":
			continue // taken above, whatever the tables hold
		default:
			from, says = j.made(), p.MakerFromMade > 0
		}
		b := Bound{Counts: !(row.Unless && says && p.MakerDocument != ""), Key: "life.table", Words: row.Words, Status: row.Status}
		b.Line, b.Lines = cited(row.Cite, nil)
		if all == nil {
			all = make([]Bound, 0, 4) // more than one is usual
		}
		all = append(all, j.lifeBound(from, row.Months, b))
	}
	d := earliest(all)
	if d.Key == "" {
		d.Bound = j.noLimit()
	}
	if j.law() == other { // every country's rules were taken, the strictest holds
		d.Lines = withFirst(d.Line, d.Lines, []string{lLawAsked})
	}
	return d
}

// noLimit is what is said of a piece that no rule ends by date.
func (j *judge) noLimit() Bound {
	b := Bound{Line: lNoLimit, Lines: []string{lNoLimit}, Key: "life.none", Status: table.FromMemory}
	for i := range j.t.NoLimits {
		if row := &j.t.NoLimits[i]; hasKind(row.Kinds, j.k.ID) {
			b.Words, b.Status = row.Words, row.Status
			b.Line, b.Lines = cited(row.Cite, nil)
		}
	}
	return b
}

// lifeApplies reports whether a row is for this kind, country and fibre. Where
// the law or a fibre is not known, every row counts.
func (j *judge) lifeApplies(row *table.Life) bool {
	if len(row.Kinds) > 0 && !hasKind(row.Kinds, j.k.ID) {
		return false
	}
	return j.country(row.Country) && (row.Fibre == "" || j.fibreCounts(row.Fibre))
}

// lifeBound fills in the day and the values for the message.
func (j *judge) lifeBound(from start, months qty.Months, b Bound) Bound {
	b.Known = from.known
	b.Args = append(make([]Arg, 0, 5), Arg{"from", from.from})
	if from.known {
		b.Day = from.day.AddMonths(int(months))
		b.Args = append(b.Args, Arg{"start", from.day.String()}, Arg{"end", b.Day.String()})
	}
	b.Args = append(b.Args, Arg{"months", months.String()})
	if b.Key == "life.maker" {
		b.Args = append(b.Args, Arg{"document", j.r.Piece.MakerDocument})
	}
	if j.estimated(from.from) {
		b.Lines = withFirst(b.Line, b.Lines, []string{lFirstUse})
		return b
	}
	b.Lines = withFirst(b.Line, b.Lines)
	return b
}

// estimated reports whether a start stands in for a date not known, or is
// known only to the month or year.
func (j *judge) estimated(from string) bool {
	p := &j.r.Piece
	switch from {
	case "made":
		return !p.Made.Exact()
	case "first use":
		return !p.FirstUse.Exact()
	case "marked":
		return !p.Obsolete.Exact()
	}
	return true
}

// earliest picks the strictest bound that counts; a rule whose day is not known
// leaves the day of the others, and dates says what is missing.
func earliest(all []Bound) Due {
	d := Due{Others: all}
	waiting, chosen := -1, -1
	for i := range all {
		switch b := &all[i]; {
		case !b.Counts:
		case !b.Known:
			if waiting < 0 {
				waiting = i
			}
		case !d.Known || b.Day < d.Day:
			d.Bound, chosen = *b, i
		}
	}
	if !d.Known && waiting >= 0 {
		d.Bound = all[waiting]
	}
	for i := range all { // rules that set the same day are all named
		if b := &all[i]; d.Known && i != chosen && b.Counts && b.Known && b.Day == d.Day {
			d.Lines = withFirst(d.Line, d.Lines, b.Lines)
		}
	}
	return d
}

// dates enters the end of life, the manufacture that is not known (L-12) and
// the time in store that is over before first use.
func (j *judge) dates(life Due) {
	p := &j.r.Piece
	if life.Known && j.r.AsOf >= life.Day {
		j.add(Reason{Row: "1", Verdict: kit.Withdraw, ID: lLife, Lines: life.Lines, Key: "life.ended",
			Args: append([]Arg{{"end", life.Day.String()}, {"rule", life.Line}}, life.Args...), Words: life.Words, Status: life.Status})
	}
	if !p.Made.Known() {
		j.untracedManufacture(life)
	}
	for i := range j.t.Lives {
		row := &j.t.Lives[i]
		if !row.Store || !j.lifeApplies(row) || !p.Made.Known() {
			continue
		}
		end := j.made().day.AddMonths(int(row.Months))
		if min(j.intoService(), j.r.AsOf) <= end || j.answer(end, inWriting, QStorage) != nil {
			continue
		}
		id, lines := cited(row.Cite, nil)
		j.add(Reason{Row: "3", Verdict: kit.Stricter(kit.SetAside, row.Verdict), ID: id, Lines: lines, Key: "life.stored", Words: row.Words, Asked: row.Question,
			Args: []Arg{{"made", p.Made.String()}, {"allowed", row.Months.String()}, {"end", end.String()}}, Question: QStorage, Status: row.Status})
	}
}

// untracedManufacture: set aside to trace it; withdraw where nothing traces it
// and it came second-hand, its history is not wholly known, or no date at all
// says how old it can be. An answer settles it only where no rule of its life
// counts from manufacture: otherwise the date itself has to be entered.
func (j *judge) untracedManufacture(life Due) {
	p := &j.r.Piece
	answered := j.answer(qty.FirstDay, inWriting, QManufacture) != nil
	history := j.ownHistory() || j.answer(qty.FirstDay, inWriting, QHistory) != nil
	verdict, key := kit.SetAside, "manufacture.unknown"
	switch {
	case p.Traced == "" && !answered && (!history || p.Origin == "second-hand" || p.Origin == "found" || p.Origin == "" || !j.firstUse().known):
		verdict, key = kit.Withdraw, "manufacture.untraced"
	case answered && !waits(life):
		return
	}
	j.add(Reason{Row: "3", Verdict: verdict, ID: lUntraced, Lines: []string{lFirstUse}, Key: key,
		Args: []Arg{{"origin", p.Origin}, {"history", p.History}}, Question: QManufacture, Fact: key == "manufacture.unknown" && waits(life)})
}

// waits reports whether a rule that counts has no day.
func waits(d Due) bool {
	for i := range d.Others {
		if d.Others[i].Counts && !d.Others[i].Known {
			return true
		}
	}
	return false
}

func hasKind(list []kit.KindID, k kit.KindID) bool {
	for _, x := range list {
		if x == k {
			return true
		}
	}
	return false
}
