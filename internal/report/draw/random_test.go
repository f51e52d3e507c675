package draw_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	. "kernbook/internal/report/draw"
)

// anyOutcome makes outcomes and records of every shape, sensible or not.
func anyOutcome(t *rapid.T) (*decide.Outcome, *kit.Record, Words) {
	text := rapid.OneOf(rapid.String(), rapid.StringN(0, 200, 400), rapid.SampledFrom([]string{"", "end A", "grey", "a\x00b\x1b", "</svg>", "\ufffe&<", "a long piece of text with many words in it that go on and on"}))
	days := rapid.OneOf(rapid.Int32Range(20_000, 22_000), rapid.Int32(), rapid.Just(int32(0)))
	day := func(n string) qty.Day { return qty.Day(days.Draw(t, n)) }
	share := rapid.OneOf(rapid.Float64Range(0, 1), rapid.Float64Range(0, 1e-4), rapid.Float64(), rapid.SampledFrom([]float64{0, 1, math.NaN(), math.Inf(1), math.Inf(-1), -1}))
	million := rapid.OneOf(rapid.Int64Range(0, 1_000_000), rapid.Int64Range(0, 2000), rapid.Int64())
	length := rapid.OneOf(rapid.Int64Range(0, 1_000_000), rapid.Int64Range(0, 60_000_000), rapid.Int64Range(-1e15, 1e15))
	yes := rapid.Bool()
	look := rapid.SampledFrom(kit.Looks[:])
	exam := rapid.SampledFrom([]kit.ExamKind{"", kit.PreUse, kit.Partner, kit.Interim, kit.Thorough, "odd"})
	few := func(n string, most int) int { return rapid.IntRange(0, most).Draw(t, n) }
	part := rapid.SampledFrom([]string{"", "", "", "end A", "end B", "body"})
	place := func() kit.Place {
		return kit.Place{Part: part.Draw(t, "part"), From: qty.Length(length.Draw(t, "from")), To: qty.Length(length.Draw(t, "to")), Whole: yes.Draw(t, "whole")}
	}

	o := &decide.Outcome{Core: "1", Tables: text.Draw(t, "tables"), Piece: text.Draw(t, "piece"), Kind: kit.KindID(text.Draw(t, "kind")), AsOf: day("asof"),
		Exam: exam.Draw(t, "exam"), ExamDay: day("examday"), Verdict: kit.Verdict(few("verdict", 3)), Held: yes.Draw(t, "held"),
		Reasons: make([]criteria.Reason, few("reasons", 20)), NoDoubt: rapid.SampledFrom([]string{"", "kind", "too many", "impossible"}).Draw(t, "none")}
	o.LifeEnd.Known, o.LifeEnd.Day = yes.Draw(t, "k"), day("life")
	o.Due.Known, o.Due.Day = yes.Draw(t, "k"), day("due")
	date := func() decide.Date { return decide.Date{Day: day("date"), Reached: yes.Draw(t, "reached")} }
	o.Next = decide.Next{Day: day("next"), Known: yes.Draw(t, "k"), Why: rapid.SampledFrom([]string{"", "doubt", "life", "odd"}).Draw(t, "why"),
		Hours: qty.Duration(million.Draw(t, "hours")), With: date(), Without: date(), KeptShare: share.Draw(t, "kept")}
	if rapid.IntRange(0, 4).Draw(t, "doubt") > 0 {
		d := &decide.Doubt{Limit: million.Draw(t, "limit"), D: share.Draw(t, "d"), Hidden: share.Draw(t, "h"), Millions: million.Draw(t, "m"), HiddenUp: million.Draw(t, "hm"), Whole: share.Draw(t, "w")}
		at := qty.Length(0)
		tidy := yes.Draw(t, "tidy")
		for range few("cells", 40) {
			c := decide.Cell{Zone: text.Draw(t, "zone"), D: share.Draw(t, "d"), Findable: share.Draw(t, "f"), Millions: million.Draw(t, "m")}
			if tidy {
				c.From, c.To = at, at+qty.Length(rapid.Int64Range(1, 1e6).Draw(t, "cell"))
				at = c.To
			} else {
				c.Part, c.From, c.To = part.Draw(t, "part"), qty.Length(length.Draw(t, "from")), qty.Length(length.Draw(t, "to"))
			}
			d.Cells = append(d.Cells, c)
		}
		o.Doubt = d
	}
	if rapid.IntRange(0, 4).Draw(t, "told") > 0 {
		told := &decide.Told{Before: million.Draw(t, "before")}
		for range few("drops", 14) {
			told.Drops = append(told.Drops, decide.Drop{Look: look.Draw(t, "look"), By: million.Draw(t, "by"), After: million.Draw(t, "after")})
		}
		for range few("points", 30) {
			told.Line = append(told.Line, decide.Point{Day: day("p"), After: yes.Draw(t, "after"), D: million.Draw(t, "d"), Hidden: million.Draw(t, "h"),
				Mark: rapid.SampledFrom([]string{"", "thorough", "interim", "partner", "pre-use", "event", "odd"}).Draw(t, "mark")})
		}
		for _, way := range []*[]decide.Point{&told.With, &told.Without} {
			for range few("ahead", 8) {
				*way = append(*way, decide.Point{Day: day("ahead"), D: million.Draw(t, "d")})
			}
		}
		for range few("signs", 14) {
			told.Signs = append(told.Signs, decide.Sign{ID: text.Draw(t, "sign"), Words: text.Draw(t, "words"), At: place(), Day: day("s"), Why: share.Draw(t, "why"),
				Class: rapid.SampledFrom([]table.Class{table.Absolute, table.Weigh}).Draw(t, "class")})
		}
		p := place()
		told.Worst = decide.Place{Part: p.Part, From: p.From, To: p.To}
		o.Told = told
	}

	r := &kit.Record{AsOf: o.AsOf}
	r.Piece.Made, r.Piece.FirstUse = qty.PartialDate{Year: few("year", 9999), Month: few("month", 12)}, qty.PartialDate{Year: few("year", 9999)}
	for range few("runs", 5) {
		r.Runs = append(r.Runs, kit.Run{From: day("from"), To: day("to")})
	}
	for range few("exams", 5) {
		e := kit.Examination{Kind: exam.Draw(t, "kind"), Day: day("day")}
		if yes.Draw(t, "hand") {
			e.Kind, e.Day = o.Exam, o.ExamDay
		}
		for range few("looks", 5) {
			l := kit.Look{Look: look.Draw(t, "look")}
			for range few("covers", 3) {
				p := place()
				l.Covers = append(l.Covers, kit.Stretch{All: p.Whole, Part: p.Part, From: p.From, To: p.To, Sides: p.Sides})
			}
			e.Looks = append(e.Looks, l)
		}
		r.Examinations = append(r.Examinations, e)
	}
	w := catalogued()
	w.Reasons = rapid.SliceOfN(text, 0, 30).Draw(t, "words")
	if yes.Draw(t, "said") {
		said := text.Draw(t, "main")
		w.Name = func(what, id string) string { return id + said }
		w.Share = func(p float64) string { return said }
		w.Say = func(key string, args ...criteria.Arg) string {
			for _, a := range args {
				if len(key)%3 == 0 {
					return a.Value + said
				}
			}
			return said
		}
	}
	return o, r, w
}

// TestAnyOutcome: whatever stands in an outcome, the drawing is well-formed,
// says all its text inside the sheet, and has no coordinate that is no number.
func TestAnyOutcome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o, r, w := anyOutcome(t)
		wellFormed(t, Outcome(o, r, w, Size{}))
		var rec recorder
		inside(t, &rec, To(&rec, o, r, w))
	})
}

// TestScale: the scale by powers of ten keeps the order of shares and stays
// between its ends.
func TestScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SliceOfN(rapid.Int64Range(1, 1_000_000), 2, 20).Draw(t, "shares")
		at := ScaleOf(v, 300, 100)
		for i, y := range at {
			if !(y >= 100-1e-9 && y <= 300+1e-9) {
				t.Fatalf("%d millionths at %v", v[i], y)
			}
			if i > 0 && v[i] > v[i-1] && !(y < at[i-1]) {
				t.Fatalf("%d is not above %d", v[i], v[i-1])
			}
		}
	})
}

// TestSpread: places keep their order and their distance where there is room.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.SliceOfN(rapid.Float64Range(0, 1000), 1, 20).Draw(t, "at")
		out := Spread(at, 20, 0, 1000)
		for i := range at {
			if out[i] < 0 || out[i] > 1000 {
				t.Fatalf("%v is out of 0 to 1000", out[i])
			}
			for k := range at {
				if at[i] < at[k] && out[k]-out[i] < 20-1e-9 {
					t.Fatalf("%v and %v came to %v and %v", at[i], at[k], out[i], out[k])
				}
			}
		}
	})
}

func TestCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, most := rapid.String().Draw(t, "text"), rapid.Float64Range(20, 400).Draw(t, "most")
		if w := Width(Cut(text, 13, true, most), 13, true); w > most {
			t.Fatalf("cut to %v, is %v", most, w)
		}
		for _, l := range Wrap(text, 13, false, most, 3) {
			if w := Width(l, 13, false); w > most {
				t.Fatalf("wrapped to %v, is %v: %q", most, w, l)
			}
		}
		if n := len(Wrap(text, 13, false, most, 3)); n > 3 {
			t.Fatalf("wrapped to %d lines", n)
		}
	})
}
