package draw_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	. "kernbook/internal/report/draw"
	"kernbook/internal/tables"
)

func day(t testing.TB, s string) qty.Day {
	t.Helper()
	d, err := qty.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d.Earliest()
}

var conditions = kit.Conditions{Light: "good", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo, Muddy: kit.SaidNo, Gloves: kit.SaidNo, Hurried: kit.SaidNo}

func looks(ids ...kit.LookID) []kit.Look {
	var out []kit.Look
	for _, id := range ids {
		out = append(out, kit.Look{Look: id, Covers: []kit.Stretch{{All: true}}, Conditions: conditions})
	}
	return out
}

var workdays = [8]bool{false, true, true, true, true, true}

// piece gives a record of a piece in use since 5 January 2026, looked at on
// every working day.
func piece(t testing.TB, kind kit.KindID, length qty.Length, asOf string, daily ...kit.LookID) *kit.Record {
	r := &kit.Record{Yard: kit.Yard{Country: "GB"}, AsOf: day(t, asOf)}
	r.Piece = kit.Piece{ID: "B1", Kind: kind, Marking: "readable", Origin: "new", History: "known", Length: length, StoredIn: "used"}
	r.Piece.Made, _ = qty.ParseDate("2026-01-02")
	r.Piece.FirstUse, _ = qty.ParseDate("2026-01-05")
	r.Piece.Declared, _ = qty.ParseDate("2026-01-02")
	r.Piece.Fitted = kit.Fitted{In: "H1", Allowed: kit.SaidYes, Document: "doc 1"}
	r.People = []kit.Person{{ID: "E", Role: "examiner", Since: 1}}
	r.Uses = []kit.Use{{From: day(t, "2026-01-05"), Week: 25 * qty.Hour, Weekdays: workdays, Mass: 80_000, Dirt: "clean", Hardware: "ring"}}
	if len(daily) > 0 {
		r.Runs = []kit.Run{{Kind: kit.PreUse, By: "A", From: day(t, "2026-01-05"), To: day(t, asOf), Weekdays: workdays, Looks: looks(daily...)}}
	}
	return r
}

func examine(t testing.TB, r *kit.Record, on string, kind kit.ExamKind, signs ...kit.Sign) *kit.Examination {
	r.Examinations = append(r.Examinations, kit.Examination{Kind: kind, Day: day(t, on), By: "E", SignedBy: "E", Looks: looks(kit.Looks[:]...), WouldClimb: kit.SaidYes, Signs: signs, Asked: map[string]kit.Yes{}})
	for _, a := range tables.Default().Kind(r.Piece.Kind).Asks {
		r.Examinations[len(r.Examinations)-1].Asked[a.ID] = kit.SaidNo
	}
	e := &r.Examinations[len(r.Examinations)-1]
	for _, n := range tables.Default().Kind(r.Piece.Kind).Needs { // what the gauge needs
		for i := 0; n.Exam == kind && i < n.Places; i++ {
			mid := r.Piece.Length * qty.Length(2*i+1) / qty.Length(2*n.Places)
			e.Readings = append(e.Readings, kit.Reading{Quantity: "diameter", At: kit.Place{From: mid, To: mid}, Values: []qty.Length{12600}, Wet: kit.SaidNo})
		}
		for i := 0; n.Exam == kind && i < len(n.Parts); i++ {
			e.Readings = append(e.Readings, kit.Reading{Quantity: "groove", At: kit.Place{Part: n.Parts[i]}, Values: []qty.Length{100}, Wet: kit.SaidNo})
		}
	}
	return e
}

const mm = qty.Length(1000)

// samples are records judged by the default tables, of every sort of sheet.
func samples(t testing.TB) map[string]*kit.Record {
	out := map[string]*kit.Record{}

	r := piece(t, kit.Bridge, 900*mm, "2027-01-08", kit.Eye, kit.Hand, kit.Ends)
	examine(t, r, "2026-07-05", kit.Thorough)
	grey := kit.Sign{Ref: "S1", Sign: "grey", State: kit.FirstSeen, At: kit.Place{From: 380 * mm, To: 520 * mm}, Look: kit.Eye}
	examine(t, r, "2027-01-08", kit.Thorough, grey)
	out["bridge-grey"] = r

	r = piece(t, kit.Bridge, 900*mm, "2026-07-05", kit.Eye, kit.Hand, kit.Ends)
	r.Events = []kit.Event{{Ref: "V1", Day: day(t, "2026-04-14"), Event: "dropped"}}
	e := examine(t, r, "2026-07-05", kit.Interim)
	e.Looks = looks(kit.Ask, kit.Eye, kit.Hand, kit.Ends)
	e.Looks[2].Covers = []kit.Stretch{{From: 0, To: 500 * mm}}
	out["bridge-part"] = r

	r = piece(t, kit.Bridge, 900*mm, "2026-07-05")
	r.Uses[0].Mass, r.Uses[0].Dirt = 110_000, "sandy"
	e = examine(t, r, "2026-07-05", kit.Interim,
		kit.Sign{Ref: "S1", Sign: "limp-stretch", State: kit.FirstSeen, At: kit.Place{From: 200 * mm, To: 300 * mm}, Look: kit.Hand},
		kit.Sign{Ref: "S2", Sign: "dip", State: kit.FirstSeen, At: kit.Place{From: 210 * mm, To: 260 * mm}, Look: kit.Hand},
		kit.Sign{Ref: "S3", Sign: "pinch", State: kit.FirstSeen, At: kit.Place{From: 0, To: 40 * mm}, Look: kit.Eye})
	e.Looks = looks(kit.Ask, kit.Read, kit.Eye, kit.Hand)
	out["bridge-over"] = r

	r = piece(t, kit.Bridge, 900*mm, "2026-07-05", kit.Eye)
	examine(t, r, "2026-07-05", kit.Thorough, kit.Sign{Ref: "S1", Sign: "saw-mark", State: kit.FirstSeen, At: kit.Place{From: 200 * mm, To: 210 * mm}, Look: kit.Eye})
	out["bridge-saw"] = r

	r = piece(t, kit.Line, 45_000*mm, "2027-03-05", kit.Eye, kit.Ends)
	r.Piece.ID = "L7"
	examine(t, r, "2026-07-05", kit.Thorough)
	examine(t, r, "2027-01-05", kit.Thorough, kit.Sign{Ref: "S1", Sign: "dirty", State: kit.FirstSeen, At: kit.Place{From: 12_000 * mm, To: 13_000 * mm}, Look: kit.Eye})
	out["line"] = r

	r = piece(t, kit.Connector, 0, "2026-07-05", kit.Work)
	r.Piece.ID = "K3"
	examine(t, r, "2026-07-05", kit.Thorough)
	out["connector"] = r

	r = piece(t, kit.Harness, 0, "2026-07-05", kit.Eye)
	r.Piece.ID = "H1"
	examine(t, r, "2026-07-05", kit.Thorough)
	out["harness"] = r

	r = piece(t, kit.Helmet, 0, "2026-07-05", kit.Eye)
	r.Piece.ID = "M2"
	examine(t, r, "2026-07-05", kit.Thorough)
	out["helmet"] = r

	r = piece(t, kit.Bridge, 900*mm, "2030-06-20", kit.Eye, kit.Hand, kit.Ends)
	r.Piece.ID = "B2"
	for _, on := range []string{"2026-07-03", "2027-01-04", "2027-07-05", "2028-01-04", "2028-07-05", "2029-01-04", "2029-07-05", "2030-01-04"} {
		examine(t, r, on, kit.Thorough)
	}
	examine(t, r, "2028-03-15", kit.Partner).Looks = looks(kit.Eye, kit.Hand)
	r.Runs[0].To = day(t, "2029-10-01")
	examine(t, r, "2029-11-14", kit.PreUse).Looks = looks(kit.Eye)
	examine(t, r, "2029-12-12", kit.PreUse).Looks = looks(kit.Eye)
	r.Events = []kit.Event{{Ref: "V1", Day: day(t, "2027-04-14"), Event: "dropped"}, {Ref: "V2", Day: day(t, "2027-04-20"), Event: "dropped"}}
	e = examine(t, r, "2030-06-20", kit.Interim)
	for i := range e.Looks {
		e.Looks[i].Covers = []kit.Stretch{{From: 0, To: 300 * mm}, {From: 250 * mm, To: 600 * mm, Sides: []string{"top"}}, {From: 700 * mm, To: 900 * mm}}
	}
	for i, s := range []string{"grey", "dirty", "resin-stain", "shiny", "cover-thin", "saw-mark", "lump"} {
		at := qty.Length(40+90*i) * mm
		e.Signs = append(e.Signs, kit.Sign{Ref: s, Sign: s, State: kit.FirstSeen, At: kit.Place{From: at, To: at + 30*mm}})
	}
	e.Signs = append(e.Signs, kit.Sign{Ref: "z", Sign: "mildew", State: kit.FirstSeen, At: kit.Place{Part: "end A"}})
	out["bridge-old"] = r

	r = piece(t, kit.Bridge, 900*mm, "2026-07-05", kit.Eye, kit.Hand, kit.Ends)
	examine(t, r, "2026-07-05", kit.Thorough)
	r.Yard.Limit = 10_000
	out["bridge-loose"] = r

	r = piece(t, kit.HitchCord, 800*mm, "2026-02-05")
	r.Piece.ID = "C4"
	out["cord-unexamined"] = r
	return out
}

func decided(t testing.TB, r *kit.Record) *decide.Outcome {
	o := decide.Decide(tables.Default(), r, decide.Ask{Explain: true})
	return &o
}

// words are those of the report.
func words(o *decide.Outcome, r *kit.Record) Words {
	return report.DrawingWords(o, tables.Default(), r, lang.English())
}

// TestSamples draws every sample; with -sheets DIR the drawings are left there
// to be looked at.
func TestSamples(t *testing.T) {
	for name, r := range samples(t) {
		o := decided(t, r)
		b := Outcome(o, r, words(o, r), Size{})
		if *sheets != "" {
			if err := os.WriteFile(filepath.Join(*sheets, name+".svg"), b, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

var sheets = flag.String("sheets", "", "folder to leave the drawings of the samples in")

// TestLooserLimit checks that the sheet says so where the yard's limit is looser
// than the tables' own, and only there.
func TestLooserLimit(t *testing.T) {
	seen := 0
	for name, r := range samples(t) {
		o := decided(t, r)
		var rec recorder
		To(&rec, o, r, words(o, r))
		says := false
		for _, p := range rec.texts {
			says = says || p.Text == "limit, looser than default"
		}
		if says != (name == "bridge-loose") {
			t.Errorf("%s: says that the limit is looser than the default: %v", name, says)
		}
		if says {
			seen++
		}
	}
	if seen != 1 {
		t.Errorf("said on %d sheets, want 1", seen)
	}
}
