package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// judge holds one record while it is judged. It never writes to the record.
type judge struct {
	t      *table.Tables
	r      *kit.Record
	k      *table.Kind
	known  bool              // the kind is in the tables
	exams  []kit.Examination // up to AsOf, by day, then as entered
	then   []kit.Examination // the same with their places as said on their day
	events []kit.Event       // up to AsOf, told ones included, by day, then as entered
	whole  []whole           // what complete has found so far
	out    []Reason
	held   bool
}

// whole says whether the examinations of a kind on a day are complete.
type whole struct {
	kind kit.ExamKind
	day  qty.Day
	is   bool
}

func newJudge(t *table.Tables, r *kit.Record) *judge {
	j := &judge{t: t, r: r, k: t.Kind(r.Piece.Kind)}
	j.known = j.k != nil
	if !j.known {
		j.k = &table.Kind{ID: r.Piece.Kind}
	}
	j.exams = examinations(r)
	j.then = j.exams
	if r.Said != nil {
		j.then = examinations(r.Said)
	}
	for i := range r.Events {
		if r.Events[i].Day <= r.AsOf {
			j.events = append(j.events, r.Events[i])
		}
	}
	j.events = append(j.events, j.told()...)
	sortByDay(j.events, func(e *kit.Event) qty.Day { return e.Day })
	return j
}

// examinations gives those up to AsOf by day, then as entered.
func examinations(r *kit.Record) []kit.Examination {
	out := make([]kit.Examination, 0, len(r.Examinations))
	for i := range r.Examinations {
		if r.Examinations[i].Day <= r.AsOf {
			out = append(out, r.Examinations[i])
		}
	}
	sortByDay(out, func(e *kit.Examination) qty.Day { return e.Day })
	return out
}

// sortByDay is a stable insertion sort: records are nearly in order already.
func sortByDay[T any](s []T, day func(*T) qty.Day) {
	for i := 1; i < len(s); i++ {
		for k := i; k > 0 && day(&s[k]) < day(&s[k-1]); k-- {
			s[k], s[k-1] = s[k-1], s[k]
		}
	}
}

// Judge gives every reason that holds for the record on its day AsOf, with the
// end of its life and the day of the next thorough examination. The tables
// must be indexed. What lies after AsOf is not looked at. All places of the record
// must be said as they are on AsOf (Kind.Now).
func Judge(t *table.Tables, r *kit.Record) Result {
	j := newJudge(t, r)
	j.out = make([]Reason, 0, 8) // as many as are usual
	if !j.known {
		j.add(Reason{Row: "2", Verdict: kit.SetAside, ID: lDoubt, Key: "kind.unknown",
			Args: []Arg{{"kind", string(r.Piece.Kind)}}, Question: QKind})
	}
	j.identity()
	j.assembly()
	j.origin()
	life := j.life()
	j.dates(life)
	due := j.interval(kit.Thorough)
	j.service(due)
	j.required()
	j.asked()
	j.signs()
	read := j.readings()
	j.limits(read)
	j.labels(read)
	j.ends()
	j.growth(read)
	j.happened()
	j.contaminants()
	j.refused()
	return Result{Reasons: sorted(j.out), LifeEnd: life, Thorough: due, Held: j.held}
}
