package report

import (
	"bytes"
	"encoding/json"
	"fmt"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// JSON writes an outcome as "kernbook outcome 1": every figure exact (the
// shortest decimal that reads back as the same number) and in whole millionths,
// every reason with its key, its values and its sentence. The same outcome
// gives the same bytes. It fails only on a figure that is no number.
func JSON(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) ([]byte, error) {
	return asJSON(o, t, r, words, "  ")
}

// JSONLine writes the same on one line, for readers that are no people; without
// a line break at its end.
func JSONLine(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words) ([]byte, error) {
	b, err := asJSON(o, t, r, words, "")
	return bytes.TrimSuffix(b, []byte("\n")), err
}

func asJSON(o *decide.Outcome, t *table.Tables, r *kit.Record, words Words, indent string) ([]byte, error) {
	j := &jsonDoc{speaker: newSpeaker(o, t, r, words), lines: map[string]lineDoc{}}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", indent)
	if err := enc.Encode(j.outcome()); err != nil {
		return nil, fmt.Errorf("the outcome of %s cannot be written as JSON: %w", o.Piece, err)
	}
	return b.Bytes(), nil
}

// jsonDoc is a document under way. lines gathers every line that is cited.
type jsonDoc struct {
	*speaker
	lines map[string]lineDoc
}

func (j *jsonDoc) outcome() *outcomeDoc {
	o := j.o
	d := &outcomeDoc{Format: Format, Language: j.Language(), Core: o.Core, Tables: o.Tables,
		Piece: pieceDoc{o.Piece, string(o.Kind), j.kind(o.Kind)}, AsOf: o.AsOf.String(),
		Later: int64(o.Later), Outcome: o.Verdict.String(), Held: o.Held, Sentence: j.headline(),
		Uncounted: []uncountedDoc{}, Reasons: []reasonDoc{}, Open: []openDoc{}, Lines: j.lines}
	for i := range o.Uncounted {
		u := &o.Uncounted[i]
		d.Uncounted = append(d.Uncounted, uncountedDoc{u.What, u.Day.String(), u.By, u.To, u.Why, j.uncounted(u)})
	}
	if o.Exam != "" {
		d.Examination = &examDoc{string(o.Exam), j.Say("exam." + string(o.Exam)), o.ExamDay.String()}
	}
	for i := range o.Reasons {
		d.Reasons = append(d.Reasons, j.reasonDoc(&o.Reasons[i]))
	}
	for i := range o.Open {
		q := &o.Open[i]
		d.Open = append(d.Open, openDoc{q.ID, q.To, o.Answerable(q), q.Asked, q.Row, j.cited(q.Lines), j.settle(q)})
	}
	d.Next = j.nextDoc()
	d.Life, d.Thorough = j.due(&o.LifeEnd), j.due(&o.Due)
	if o.Limit.Holds > 0 {
		d.Limit = &limitDoc{Holds: o.Limit.Holds, Default: o.Limit.Default}
		if o.Limit.Looser() {
			d.Limit.Sentence = j.looser()
		}
	}
	if o.Doubt != nil {
		d.Doubt = j.doubtDoc()
	} else {
		d.NoDoubt = &noDoubtDoc{o.NoDoubt, j.noDoubt()}
	}
	if o.Told != nil {
		d.Explanation = j.toldDoc()
	}
	return d
}

// cited notes lines for the list at the end and gives them on.
func (j *jsonDoc) cited(ids []string) []string {
	out := make([]string, len(ids))
	for i, id := range ids {
		out[i] = id
		if l := j.t.Line(id); l != nil {
			j.lines[id] = lineDoc{l.Says, l.Source, l.Place, l.Mark, string(l.Status), l.Note}
		}
	}
	return out
}

func argDocs(args []arg) []argDoc {
	out := make([]argDoc, len(args))
	for i, a := range args {
		out[i] = argDoc(a)
	}
	return out
}

// dayDoc gives a day as ISO 8601, none as "".
func dayDoc(d qty.Day, known bool) string {
	if !known {
		return ""
	}
	return d.String()
}

func hours(d qty.Duration) hoursDoc { return hoursDoc{int64(d), d.String()} }

// up is a doubt: whole millionths rounded up.
func up(p float64) figureDoc { return figureDoc{p, num.CeilMillionths(p)} }

// down is a share of explanation: whole millionths rounded down.
func down(p float64) figureDoc { return figureDoc{p, int64(p * 1e6)} }

func (j *jsonDoc) place(p kit.Place, zone string) placeDoc {
	return placeDoc{p.Part, p.From.Millimetres(), p.To.Millimetres(), p.Whole, p.Gone, append([]string{}, p.Sides...), p.Layer, j.where(p, zone)}
}

func (j *jsonDoc) reasonDoc(r *criteria.Reason) reasonDoc {
	d := reasonDoc{Row: r.Row, Outcome: r.Verdict.String(), ID: r.ID, Lines: j.cited(r.Lines), Status: string(r.Status), Key: r.Key,
		Args: argDocs(r.Args), Words: r.Words, Sentence: j.reason(r), At: []placeDoc{}, Until: dayDoc(r.Until, r.Until != 0),
		Question: r.Question, To: r.To, Asked: r.Asked}
	for _, p := range r.At {
		d.At = append(d.At, j.place(p, find(r.Args, "zone")))
	}
	return d
}

func (j *jsonDoc) nextDoc() nextDoc {
	n := &j.o.Next
	d := nextDoc{Day: dayDoc(n.Day, n.Known), Why: n.Why, Hours: hours(n.Hours), Sentence: j.nextLine()}
	if j.o.Doubt == nil {
		return d
	}
	d.With = &forecastDoc{n.With.Day.String(), n.With.Reached, hours(n.With.Hours)}
	d.Without = &forecastDoc{n.Without.Day.String(), n.Without.Reached, hours(n.Without.Hours)}
	d.Kept = &keptDoc{down(n.KeptShare), n.KeptUp, []string{}, j.forecasts(true)}
	for _, l := range n.KeptLooks {
		d.Kept.Looks = append(d.Kept.Looks, string(l))
	}
	return d
}

func (j *jsonDoc) due(x *criteria.Due) dueDoc {
	d := dueDoc{boundDoc: j.boundDoc(&x.Bound), Others: []boundDoc{}}
	for i := range x.Others {
		d.Others = append(d.Others, j.boundDoc(&x.Others[i]))
	}
	return d
}

func (j *jsonDoc) boundDoc(b *criteria.Bound) boundDoc {
	return boundDoc{dayDoc(b.Day, b.Known), b.Counts, b.Line, j.cited(b.Lines), string(b.Status), b.Key, argDocs(b.Args), b.Words, j.bound(b)}
}

func (j *jsonDoc) doubtDoc() *doubtDoc {
	x := j.o.Doubt
	d := &doubtDoc{x.Limit, figureDoc{x.D, x.Millions}, figureDoc{x.Hidden, x.HiddenUp}, x.OneIn, up(x.Wear), up(x.Whole), j.figure(), []cellDoc{}}
	for i := range x.Cells {
		c := &x.Cells[i]
		at := kit.Place{Part: c.Part, From: c.From, To: c.To}
		d.Cells = append(d.Cells, cellDoc{c.Part, c.From.Millimetres(), c.To.Millimetres(), c.Zone, figureDoc{c.D, c.Millions}, up(c.Findable), c.HiddenUp,
			j.where(at, c.Zone)})
	}
	return d
}
