package record

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// sameRecord compares records; a table of no answers is as good as none.
func sameRecord(want, got *kit.Record) string {
	return cmp.Diff(want, got, cmpopts.EquateEmpty())
}

func TestFilledSaysEverything(t *testing.T) {
	r, faults := Decode("filled.toml", []byte(filled), fixture())
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	again, faults := DecodeJSON("filled.json", Encode(r), fixture())
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	if diff := sameRecord(r, again); diff != "" {
		t.Errorf("through JSON (-want +got):\n%s", diff)
	}
	// What the text says, looked at by hand.
	p := &r.Piece
	e := &r.Examinations[1]
	for _, x := range []struct {
		what      string
		want, got any
	}{
		{"limit, rounded to the stricter side", int64(333), r.Yard.Limit},
		{"length", 900 * qty.Millimetre, p.Length},
		{"diameter with a comma", 11_700 * qty.Micrometre, p.Diameter},
		{"made", qty.PartialDate{Year: 2025, Month: 1}, p.Made},
		{"bought", qty.PartialDate{Year: 2025}, p.Bought},
		{"own rate typed as a percentage", kit.Rate{Share: 0.35, From: "practice board 2026-03"}, r.People[0].Kappa[kit.Hand]},
		{"week in store", qty.Duration(-1), r.Uses[0].Week},
		{"weekdays", [8]bool{1: true, 3: true}, r.Uses[1].Weekdays},
		{"look by another person", "lee", e.Looks[1].By},
		{"look by the examiner", "kim", e.Looks[2].By},
		{"asking covers all", []kit.Stretch{{All: true}}, e.Looks[0].Covers},
		{"covers nothing", []kit.Stretch(nil), e.Looks[2].Covers},
		{"own light before that of the examination", kit.Conditions{Light: "poor", Cleaned: kit.SaidYes, Wet: kit.SaidNo, Frozen: kit.SaidNo,
			Muddy: kit.SaidNo, Gloves: kit.NotKnown, Hurried: kit.SaidNo}, e.Looks[1].Conditions},
		{"a sign of the whole piece needs no place", kit.Place{Whole: true}, e.Signs[1].At},
		{"a sign on record needs none", kit.Place{}, e.Signs[0].At},
		{"a place typed as one point", kit.Place{From: 450 * qty.Millimetre, To: 450 * qty.Millimetre}, e.Readings[0].At},
		{"half an inch", 12_700 * qty.Micrometre, r.Runs[1].Looks[0].Covers[0].From},
		{"conditions of a run and of its look", kit.Conditions{Light: "poor", Gloves: kit.SaidNo}, r.Runs[1].Looks[0].Conditions},
		{"peak", qty.Share(0.12), r.Events[0].Peak},
		{"peak not said", qty.Share(-1), r.Events[1].Peak},
		{"travel not said", qty.Length(-1), r.Events[1].Travel},
		{"place not said", false, r.Events[0].PlaceSaid},
	} {
		if diff := cmp.Diff(x.want, x.got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", x.what, diff)
		}
	}
}

func TestDayOfTheOutcome(t *testing.T) {
	without := strings.Replace(filled, "as_of = 2026-06-01\n", "", 1)
	r, faults := Decode("r.toml", []byte(without), fixture())
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	if r.AsOf.String() != "2026-06-01" {
		t.Errorf("as of %s, not the day of the last examination", r.AsOf)
	}
	i, j := strings.Index(without, "[[examination]]"), strings.Index(without, "[[run]]")
	cut := without[:i] + strings.Replace(without[j:], "[[answer]]\nday = 2026-06-01\nto = \"g1\"\ncause = \"metal-rub\"", "[[answer]]\nday = 2026-06-01\nto = \"release\"", 1)
	_, faults = Decode("r.toml", []byte(cut), fixture())
	const want = "r.toml:1: as_of: is missing, and there is no [[examination]] to take it from — add it: write the day for which the outcome is asked, such as as_of = 2026-06-01"
	if faults.Error() != want {
		t.Errorf("got  %s\nwant %s", faults.Error(), want)
	}
}

// Every record that is valid comes back from JSON as it was.
func TestRoundTrip(t *testing.T) {
	tables := fixture()
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecord(t, tables)
		b := Encode(r)
		again, faults := DecodeJSON("r.json", b, tables)
		if err := faults.Err(); err != nil {
			t.Fatalf("%v\n%s", err, b)
		}
		if diff := sameRecord(r, again); diff != "" {
			t.Fatalf("(-want +got):\n%s\n%s", diff, b)
		}
		if string(Encode(again)) != string(b) {
			t.Fatalf("a second writing differs:\n%s\n%s", b, Encode(again))
		}
	})
}

// anyRecord draws a record that has no fault.
func anyRecord(t *rapid.T, tables *table.Tables) *kit.Record {
	g := &drawer{t: t, k: &tables.Kinds[rapid.IntRange(0, 1).Draw(t, "kind")], tables: tables}
	made := g.day("made", "2019-01-01", 800)
	p := kit.Piece{
		ID: g.text("id"), Kind: g.k.ID, Words: g.maybe("words"), Maker: g.maybe("maker"), MakerAt: g.maybe("maker address"), Trade: g.maybe("trade name"), Serial: g.maybe("serial"),
		Marking: g.word("marking", markings), Origin: g.word("origin", origins), History: g.word("history", histories),
		Made: g.partial("made", made), Diameter: g.length("diameter", 1, 40_000), StoredIn: g.or("stored", storedIn),
		MakerFromUse: qty.Months(rapid.IntRange(0, 240).Draw(t, "life")), ExaminedBefore: rapid.Bool().Draw(t, "before"),
		Bought: g.partial("bought", made+100), FirstUse: qty.PartialDate{}, MakerDocument: g.maybe("document"),
	}
	p.Length = g.length("length", 200_000, 50_000_000)
	if g.k.ID == kit.Bridge {
		p.Fitted = kit.Fitted{In: g.maybe("in"), Allowed: kit.Yes(g.word("allowed", answers))}
		if rapid.Bool().Draw(t, "zones") {
			p.Zones = []kit.ZoneAt{{Zone: "bend", To: p.Length / 3}, {Zone: "travel", From: p.Length / 3, To: p.Length}}
		}
	}
	g.long = p.Length
	for range rapid.IntRange(0, 2).Draw(t, "layers") {
		p.Layers = append(p.Layers, kit.Layer{Name: g.word("layer", []string{"cover", "intermediate", "core"}), Fibre: g.word("fibre", []string{"pa", "pes", "unknown"})})
	}
	if g.k.Ends() != (kit.EndParts{}) {
		p.EndA = kit.End{How: g.or("how", endHows), Tail: g.length("tail", 0, 200_000), Stitch: g.or("stitch", endStitches)}
	}
	r := &kit.Record{
		Yard:  kit.Yard{Name: g.maybe("yard"), Country: g.word("country", []string{"GB", "IE", "other", unknown}), Limit: g.limit()},
		Piece: p,
		AsOf:  g.day("as of", "2025-06-01", 100),
	}
	if rapid.Bool().Draw(t, "scheme") {
		r.Yard.Scheme = kit.Scheme{Every: qty.Months(rapid.IntRange(1, 24).Draw(t, "every")), Document: g.text("document"), By: g.text("by")}
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "people") {
		id := g.text("person") + string(rune('a'+i))
		who := kit.Person{ID: id, Role: g.or("role", roles), Holds: rapid.Bool().Draw(t, "holds")}
		if who.Competent() || rapid.Bool().Draw(t, "since said") {
			who.Since = g.day("since", "2025-01-01", 300)
			who.Until = who.Since + qty.Day(rapid.IntRange(0, 900).Draw(t, "until"))
		}
		if rapid.Bool().Draw(t, "kappa") {
			who.Kappa = map[kit.LookID]kit.Rate{kit.Eye: {Share: qty.Share(rapid.Float64Range(0, 1).Draw(t, "share")), From: g.text("from")}}
		}
		r.People, g.people = append(r.People, who), append(g.people, id)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "uses") {
		u := kit.Use{From: g.day("from", "2022-01-01", 50) + qty.Day(100*i), Week: -1, Store: rapid.Bool().Draw(t, "store"), Weekdays: g.days(0)}
		if !u.Store && rapid.Bool().Draw(t, "hours") {
			days := 0
			for _, on := range u.Weekdays {
				if on {
					days++
				}
			}
			u.Week = qty.Duration(rapid.IntRange(0, min(80, 16*days)*60).Draw(t, "week"))
		}
		u.Mass = qty.Mass(rapid.OneOf(rapid.Just(0), rapid.IntRange(25_000, 200_000)).Draw(t, "mass"))
		u.Dirt, u.Hardware = g.or("dirt", []string{"clean", "sandy"}), g.or("hardware", []string{"ring", "rough"})
		r.Uses = append(r.Uses, u)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "events") {
		e := kit.Event{Ref: g.ref("X", i), Day: g.day("day", "2022-01-01", 900), Event: g.word("event", []string{"fall", "sudden-load", "spill"}),
			Travel: -1, Peak: -1, Substance: g.or("substance", []string{"fuel", "unknown"}), Amount: g.or("amount", amounts),
			Washed: kit.Yes(g.or("washed", answers)), Injury: rapid.Bool().Draw(t, "injury"), Words: g.maybe("words")}
		if e.PlaceSaid = rapid.Bool().Draw(t, "place said"); e.PlaceSaid {
			e.At = g.place()
		}
		if rapid.Bool().Draw(t, "travel said") {
			e.Travel = g.length("travel", 0, 5_000_000)
		}
		if rapid.Bool().Draw(t, "peak said") {
			e.Peak = qty.Share(rapid.Float64Range(0, 1).Draw(t, "peak"))
		}
		r.Events = append(r.Events, e)
	}
	for i := range rapid.IntRange(0, 3).Draw(t, "examinations") {
		r.Examinations = append(r.Examinations, g.examination(i))
	}
	for i := range rapid.IntRange(0, 2).Draw(t, "runs") {
		run := kit.Run{Ref: g.ref("P", i), Kind: kit.ExamKind(runKinds[i]), By: g.person(), Weekdays: g.days(1)}
		run.From = g.day("from", "2022-01-01", 900)
		run.To = run.From + qty.Day(rapid.IntRange(0, 300).Draw(t, "days"))
		run.Looks = g.looks(1)
		r.Runs = append(r.Runs, run)
	}
	for i := range r.Uses { // looks before use belie it
		u := &r.Uses[i]
		_, next := r.UseOn(u.From)
		if _, looked := r.Looked(u.From, next-1); looked && u.Unused() {
			u.Store, u.Week = false, -1
		}
	}
	for range rapid.IntRange(0, 2).Draw(t, "answers") {
		r.Answers = append(r.Answers, kit.Answer{Day: g.day("day", "2022-01-01", 900), To: g.word("to", questions), Verified: g.text("verified"),
			By: g.person(), Document: g.maybe("document"), Unfit: rapid.Bool().Draw(t, "unfit")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "changes") {
		c := kit.Change{Day: g.day("day", "2027-01-01", 900), What: g.word("what", changes), By: g.person(), Words: g.maybe("words")}
		switch {
		case c.What == zoneMove && len(g.k.Zones) == 0:
			c.What = changes[1]
		case c.What == zoneMove:
			c.Zones = []kit.ZoneAt{{Zone: "free", From: 1, To: 1000}}
		case shortens(c.What):
			c.Length = g.length("cut", 1, 50_000)
		}
		r.Changes = append(r.Changes, c)
	}
	return r
}

// drawer draws parts of a record of one kind.
type drawer struct {
	t      *rapid.T
	k      *table.Kind
	tables *table.Tables
	people []string
	long   qty.Length
	signs  int
}

func (g *drawer) text(what string) string {
	return rapid.StringOfN(rapid.RuneFrom([]rune("aé\"\\\n\t\u0001ß世 z{}[]=#’")), 0, 6, -1).Draw(g.t, what) + "x"
}

func (g *drawer) maybe(what string) string {
	if rapid.Bool().Draw(g.t, what+" said") {
		return g.text(what)
	}
	return ""
}

func (g *drawer) word(what string, words []string) string {
	return rapid.SampledFrom(words).Draw(g.t, what)
}

func (g *drawer) or(what string, words []string) string {
	return g.word(what, append([]string{""}, words...))
}

func (g *drawer) ref(letter string, i int) string {
	return g.or("ref", []string{letter + string(rune('0'+i))})
}

func (g *drawer) person() string { return g.word("by", g.people) }

func (g *drawer) length(what string, least, most int) qty.Length {
	return qty.Length(rapid.IntRange(least, most).Draw(g.t, what))
}

func (g *drawer) day(what, from string, days int) qty.Day {
	p, err := qty.ParseDate(from)
	if err != nil {
		g.t.Fatal(err)
	}
	return p.Earliest() + qty.Day(rapid.IntRange(0, days).Draw(g.t, what))
}

// partial forgets some of a day, or all of it.
func (g *drawer) partial(what string, d qty.Day) qty.PartialDate {
	p := d.Partial()
	switch rapid.IntRange(0, 3).Draw(g.t, what+" known") {
	case 0:
		return qty.PartialDate{}
	case 1:
		return qty.PartialDate{Year: p.Year}
	case 2:
		p.DayOfMonth = 0
	}
	return p
}

// limit draws what “1 in N” can say.
func (g *drawer) limit() int64 {
	n := rapid.Int64Range(99, millionths).Draw(g.t, "one in")
	if n < 100 {
		return 0
	}
	return millionths / n
}

func (g *drawer) days(least int) (set [8]bool) {
	n := rapid.IntRange(least, 7).Draw(g.t, "weekdays")
	for i := range n {
		set[i+1] = true
	}
	return set
}

func (g *drawer) sides() []string {
	if len(g.k.Sides) == 0 || rapid.Bool().Draw(g.t, "all sides") {
		return nil
	}
	return []string{g.word("side", g.k.Sides)}
}

func (g *drawer) partID() string {
	var ids []string
	for i := range g.k.Parts {
		ids = append(ids, g.k.Parts[i].ID)
	}
	return g.word("part", ids)
}

func (g *drawer) place() kit.Place {
	n := rapid.IntRange(0, 3).Draw(g.t, "way of telling")
	switch {
	case n == 0:
		return kit.Place{Whole: true}
	case n == 1 || g.k.Axis != "length":
		return kit.Place{Part: g.partID(), Sides: g.sides()}
	}
	p := kit.Place{From: g.length("from", 0, int(g.long)), Sides: g.sides()}
	p.To = p.From
	if n == 2 {
		p.To = g.length("to", int(p.From), int(g.long))
	}
	return p
}

func (g *drawer) conditions() kit.Conditions {
	yes := func() kit.Yes { return kit.Yes(g.or("condition", answers)) }
	return kit.Conditions{Light: g.or("light", lights), Cleaned: yes(), Wet: yes(), Frozen: yes(), Muddy: yes(), Gloves: yes(), Hurried: yes()}
}

func (g *drawer) looks(least int) []kit.Look {
	var out []kit.Look
	for range rapid.IntRange(least, 3).Draw(g.t, "looks") {
		l := kit.Look{Look: rapid.SampledFrom(kit.Looks[:]).Draw(g.t, "look"), By: g.person(), Conditions: g.conditions(), AfterWash: rapid.Bool().Draw(g.t, "washed")}
		switch {
		case rapid.Bool().Draw(g.t, "all"):
			l.Covers = []kit.Stretch{{All: true}}
		case rapid.Bool().Draw(g.t, "somewhere"):
			l.Covers = []kit.Stretch{{Part: g.partID(), Sides: g.sides()}}
			if g.k.Axis == "length" {
				from := g.length("from", 0, int(g.long)-1)
				l.Covers = append(l.Covers, kit.Stretch{From: from, To: g.length("to", int(from)+1, int(g.long)), Sides: g.sides()})
			}
		}
		out = append(out, l)
	}
	return out
}

func (g *drawer) examination(i int) kit.Examination {
	e := kit.Examination{
		Ref: g.ref("E", i), Kind: kit.ExamKind(g.word("exam", examKinds)), Day: g.day("day", "2023-01-01", 100) + qty.Day(200*i), By: g.person(),
		WouldClimb: kit.Yes(g.or("climb", answers)), Looks: g.looks(0),
	}
	if rapid.Bool().Draw(g.t, "signed") {
		e.SignedBy = g.person()
	}
	if rapid.Bool().Draw(g.t, "latest") {
		e.Latest = (e.Day + 100).Partial()
	}
	for n := range g.k.Asks {
		if a := g.or("answer", answers); a != "" {
			if e.Asked == nil {
				e.Asked = map[string]kit.Yes{}
			}
			e.Asked[g.k.Asks[n].ID] = kit.Yes(a)
		}
	}
	for range rapid.IntRange(0, 3).Draw(g.t, "signs") {
		s := kit.Sign{By: g.person(), AfterWash: rapid.Bool().Draw(g.t, "washed"), Words: g.maybe("words")}
		if g.signs > 0 && rapid.Bool().Draw(g.t, "on record") {
			s.Ref = "s" + string(rune('0'+rapid.IntRange(0, g.signs-1).Draw(g.t, "which")))
			s.State = kit.SignState(g.word("state", states[1:]))
		} else {
			row := &g.k.Signs[rapid.IntRange(0, len(g.k.Signs)-1).Draw(g.t, "sign")]
			s.State, s.Sign, s.At = kit.FirstSeen, row.ID, g.place()
			s.Ref = "s" + string(rune('0'+g.signs))
			g.signs++
			if rapid.Bool().Draw(g.t, "look said") {
				s.Look = row.Looks[0]
			}
		}
		e.Signs = append(e.Signs, s)
	}
	for range rapid.IntRange(0, 2).Draw(g.t, "readings") {
		v := g.length("value", 0, 30_000)
		e.Readings = append(e.Readings, kit.Reading{Quantity: g.k.Reads[0].ID, At: g.place(), Values: []qty.Length{v, v + 1}, Again: []qty.Length{v}[:rapid.IntRange(0, 1).Draw(g.t, "again")],
			Gauge: g.maybe("gauge"), Error: g.length("error", 0, 900), Tension: qty.Force(rapid.IntRange(0, 900_000).Draw(g.t, "tension")), Wet: kit.Yes(g.or("wet", answers))})
	}
	return e
}
