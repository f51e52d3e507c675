package criteria

import (
	"slices"
	"strconv"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// other is the code under which the tables hold the strictest of all countries.
const other = "other"

// law gives the code of the yard's country as the tables hold it; a country not
// said or not held there is "other": the strictest of all counts (D-113).
func (j *judge) law() string {
	c := j.r.Yard.Country
	if c == "" || j.t.Country(c) == nil {
		return other
	}
	return c
}

// country reports whether a row of another table is for the yard's country or
// for one whose rules hold there too. Where the law is not known and the
// tables have no entry for that, every row counts.
func (j *judge) country(row string) bool { return row == "" || j.takesOver(j.law(), row, 0) }

func (j *judge) takesOver(code, row string, depth int) bool {
	if code == row {
		return true
	}
	c := j.t.Country(code)
	if c == nil {
		return code == other
	}
	for _, a := range c.Also {
		if depth < len(j.t.Countries) && j.takesOver(a, row, depth+1) {
			return true
		}
	}
	return false
}

// rows gives the interval rows of one kind of examination for this piece, the
// country's own first. The loader has copied to each country the rows of those it
// takes over; where the law is not known and there are no rows for that, the rows
// of all count.
func (j *judge) rows(exam kit.ExamKind, in []intervalRow) []*intervalRow {
	law := j.law()
	any := law == other && !holds(j.t.Intervals, other)
	var out []*intervalRow
	own := 0
	for i := range in {
		row := &in[i]
		if row.Exam == exam && (any || row.Country == law) && (len(row.Kinds) == 0 || hasKind(row.Kinds, j.k.ID)) {
			if row.From == "" || row.From == row.Country {
				out = slices.Insert(out, own, row)
				own++
				continue
			}
			out = append(out, row)
		}
	}
	return out
}

type intervalRow = table.Interval

func holds(rows []intervalRow, country string) bool {
	for i := range rows {
		if rows[i].Country == country {
			return true
		}
	}
	return false
}

// interval gives when the next examination of a kind is due: the earliest of
// all rows of the country and of the date an examiner has set.
func (j *judge) interval(exam kit.ExamKind) Due {
	from, line := j.intervalStart(exam)
	rows := append(j.rows(exam, j.t.Intervals), j.rows(exam, j.t.Occasions)...)
	all := make([]Bound, 0, len(rows)+1)
	for _, row := range rows {
		all = append(all, j.intervalBound(row, from))
	}
	for i := range all {
		if line != "" {
			all[i].Lines = withFirst(all[i].Line, all[i].Lines, []string{line})
		}
	}
	all = append(all, j.setByExaminer(exam)...)
	d := earliest(all)
	switch {
	case d.Key == "":
		d.Line, d.Lines, d.Key, d.Status = lLawAsked, []string{lLawAsked}, "interval.none", table.Assumed
	case !from.known && !d.Known && d.Key == "interval.row":
		d.Key = "interval.never-examined"
	}
	if j.law() == other {
		d.Lines = withFirst(d.Line, d.Lines, []string{lLawAsked})
		d.Args = append(append([]Arg{}, d.Args...), Arg{"law", "strictest"})
	}
	return d
}

// intervalStart gives the day from which the interval of a kind of examination
// runs. For a thorough one the latest of: the last complete thorough
// examination, the one before this record, and, for new stock that needs none
// before it goes into service (D-05), first use. An examination before first
// use never shortens the time.
func (j *judge) intervalStart(exam kit.ExamKind) (start, string) {
	switch exam {
	case kit.Thorough:
		best, line := start{from: "never"}, lFirst
		if s := j.firstUse(); j.r.Piece.Origin == "new" && !j.tooOld() {
			if !s.known {
				s = start{j.r.Piece.Declared.Earliest(), true, "declared"}
			}
			best = start{min(s.day, j.r.AsOf), true, s.from}
		}
		if p := j.r.Piece.Examined; j.before(p) && j.documented() && (!best.known || p.Earliest() >= best.day) {
			best, line = start{p.Earliest(), true, "examined"}, lCounted
		}
		if day, ok := j.thorough(); ok && (!best.known || day >= best.day) {
			best, line = start{day, true, "thorough"}, lCounted
		}
		return best, line
	case kit.Interim:
		if day, ok := j.completed(qty.FirstDay, kit.Interim, kit.Thorough); ok {
			return start{day, true, "examined"}, ""
		}
	default:
		if day, ok := j.completed(qty.FirstDay, kit.PreUse, kit.Partner, kit.Interim, kit.Thorough); ok {
			return start{day, true, "examined"}, ""
		}
	}
	return start{from: "never"}, ""
}

// intervalBound works out one row. A row for frequent or arduous use is shown
// and does not count: a record has no word for such use. Nor does an occasion,
// which holds at each use or only where the record says so.
func (j *judge) intervalBound(row *table.Interval, from start) Bound {
	b := Bound{Counts: !row.Arduous, Known: from.known, Key: "interval.row", Words: row.Words, Status: row.Status}
	b.Line, b.Lines = cited(row.Cite, nil)
	b.Args = append(make([]Arg, 0, 5), Arg{"country", row.Country}, Arg{"from", from.from})
	if row.From != "" {
		b.Args[0].Value = row.From
	}
	if from.known {
		b.Args = append(b.Args, Arg{"start", from.day.String()})
	}
	switch months := j.scheme(row); {
	case row.When != "" || row.OnlyIf != "":
		b.Known, b.Counts, b.Key = false, false, "interval.occasion"
		b.Args = append(b.Args, Arg{"when", row.When}, Arg{"only-if", row.OnlyIf})
	case months > 0:
		b.Day = from.day.AddMonths(int(months))
		b.Args = append(b.Args, Arg{"every", months.String()})
		if months != row.Months {
			b.Args = append(b.Args, Arg{"scheme", j.r.Yard.Scheme.Document})
		}
	case row.Days > 0:
		b.Day = from.day + qty.Day(row.Days)
		b.Args = append(b.Args, Arg{"days", strconv.Itoa(row.Days)})
	default:
		b.Known, b.Counts = false, false
	}
	if !b.Known {
		b.Day = 0
		return b
	}
	b.Args = append(b.Args, Arg{"due", b.Day.String()})
	return b
}

// scheme gives the months of a row under the yard's written scheme: shorter
// always, longer only where the row lets it and the scheme is in writing by a
// named person.
func (j *judge) scheme(row *table.Interval) qty.Months {
	s := &j.r.Yard.Scheme
	switch {
	case s.Every <= 0 || row.Months <= 0:
		return row.Months
	case s.Every < row.Months:
		return s.Every
	case row.SchemeMay == "shorten or lengthen" && s.Document != "" && s.By != "":
		return s.Every
	}
	return row.Months
}

// setByExaminer gives the latest dates that examiners of a kind of examination
// set for the next one. Each holds until a later complete examination of the
// same or a stricter kind.
func (j *judge) setByExaminer(exam kit.ExamKind) []Bound {
	var all []Bound
	for i := range j.exams {
		e := &j.exams[i]
		if e.Kind != exam || !e.Latest.Known() {
			continue
		}
		if _, ok := j.completed(e.Day, atLeast(exam)...); ok {
			continue
		}
		all = append(all, Bound{Day: e.Latest.Earliest(), Known: true, Counts: true, Line: lSooner, Lines: []string{lSooner, lNotUsed, lCounted},
			Key: "interval.examiner", Status: table.Published,
			Args: []Arg{{"exam", string(exam)}, {"day", e.Day.String()}, {"by", e.By}, {"due", e.Latest.String()}}})
	}
	return all
}

// atLeast gives the kinds of examination that are at least as strict.
func atLeast(k kit.ExamKind) []kit.ExamKind {
	if i := k.Rank(); i >= 0 {
		return kit.ExamKinds[i:]
	}
	return kit.ExamKinds[len(kit.ExamKinds)-1:]
}

// service enters what is wrong with examinations: overdue, stock that
// went into service too long after its declaration, a date that another
// examiner set and that has passed. What is overdue names the rule that
// made it so before D-07, which says what overdue means.
func (j *judge) service(due Due) {
	p := &j.r.Piece
	_, examined := j.thorough()
	switch examined = examined || j.proven(); {
	case !examined && p.Origin == "new" && j.tooOld():
		x := Reason{Row: "2", Verdict: kit.SetAside, ID: lDeclaration, Lines: []string{lFirst}, Key: "declaration.old", Question: QThorough,
			Args: []Arg{{"declared", p.Declared.String()}, {"service", j.intoService().String()}}}
		if !p.Declared.Known() {
			x.Key, x.Question, x.Fact = "declaration.unknown", QDeclaration, true
		}
		j.add(x)
	case waits(due):
		j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lOverdue, Lines: append(slices.Clone(due.Lines), lInterval),
			Key: "interval.never-examined", Words: due.Words, Question: QThorough, Status: due.Status})
	}
	if due.Known && j.r.AsOf > due.Day {
		j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lOverdue, Lines: append(slices.Clone(due.Lines), lInterval), Key: "interval.overdue",
			Args: append([]Arg{{"due", due.Day.String()}}, due.Args...), Words: due.Words, Question: QThorough, Status: due.Status})
	}
	for _, exam := range kit.ExamKinds[:len(kit.ExamKinds)-1] {
		for _, b := range j.setByExaminer(exam) {
			if j.r.AsOf > b.Day {
				j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: b.Line, Lines: b.Lines, Key: "interval.examiner-passed", Args: b.Args, Question: QExamine})
			}
		}
	}
}

// half gives the last day of an earlier look: the start and half of the usual
// interval (Rules.HalfUsual of it, in whole days), that of Rules.UsualMonths
// where this kind has none.
func (j *judge) half(from qty.Day) qty.Day {
	usual := qty.Months(0)
	for _, row := range j.rows(kit.Thorough, j.t.Intervals) {
		if m := j.scheme(row); m > 0 && !row.Arduous && (usual == 0 || m < usual) {
			usual = m
		}
	}
	if usual == 0 {
		usual = j.t.Rules.UsualMonths
	}
	days := int64(from.AddMonths(int(usual)) - from)
	return from + qty.Day(days*millionths(float64(j.t.Rules.HalfUsual))/1_000_000)
}

// millionths gives a share in whole millionths, to the nearest.
func millionths(share float64) int64 { return int64(float64(share*1e6) + 0.5) }
