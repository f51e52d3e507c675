package web

import (
	"context"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/record"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// bridge is a new rope bridge as it is typed.
func bridge(id string) url.Values {
	return url.Values{"id": {id}, "kind": {"bridge"}, "piece": {"BR-30"}, "words": {"spare <bridge>"}, "maker": {"Otterbourne"}, "model": {"M"}, "serial": {"S-1"}, "batch": {"B-1"},
		"marking": {"readable"}, "origin": {"new"}, "history": {"known"}, "made": {"Feb 2026"}, "first_use": {"1 Jun 2026"}, "bought": {"3 Mar 2026"}, "declared": {"2026-02"},
		"obsolete": {"2036"}, "maker_life_from_made": {"10"}, "maker_life_from_use": {"60 months"}, "maker_document": {"booklet"}, "examined": {"4 Mar 2026"}, "examined_before_use": {"yes"},
		"examination_document": {"first report"}, "length": {"900"}, "diameter": {"11.5"}, "layers": {"3"}, "layer.0.name": {"cover"}, "layer.0.fibre": {"pes"}, "layer.1.name": {"intermediate"},
		"layer.2.name": {"core"}, "layer.2.fibre": {"pa"}, "end_a.how": {"knot"}, "end_a.tail": {"95"}, "end_a.stitch": {"whole"}, "end_b.how": {"knot"}, "end_b.tail": {"96 mm"}, "end_b.stitch": {"whole"},
		"zones": {"3"}, "zone.0.zone": {"bend"}, "zone.0.from": {"0"}, "zone.0.to": {"60"}, "zone.1.zone": {"travel"}, "zone.1.from": {"300"}, "zone.1.to": {"600"}, "zone.2.zone": {"bend"},
		"zone.2.from": {"840"}, "zone.2.to": {"900"}, "stored": {"store"}, "fitted.in": {"HA-1"}, "fitted.allowed": {"yes"}, "fitted.document": {"list of parts"}}
}

// TestRegister: everything that a record can hold of a piece goes in by its
// form, once, and comes back when what is known of it is opened.
func TestRegister(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	has(t, "kinds", c.get("/new/piece"), 200, `href="/new/piece?kind=bridge"`, "Climbing line")
	has(t, "no kind", c.get("/new/piece?kind=boat"), 404, "no kind of that name")
	v := bridge(idOf(t, c, "/new/piece?kind=bridge"))
	before := size(t, a)
	for field, bad := range map[string][2]string{"piece": {"", "own number"}, "marking": {"", ": choose one."}, "made": {"", "or unknown"}, "length": {"a lot", "a lot"},
		"maker_life_from_made": {"ages", "ages"}, "layer.0.name": {"", "which layer"}, "zone.1.to": {"", "Say where it ends."}, "fitted.allowed": {"", "allowed"}, "end_a.tail": {"9 furlongs", "furlongs"}} {
		has(t, field, c.post("/new/piece", with(v, field, bad[0])), 422, "Nothing was entered yet.", bad[1], "spare &lt;bridge&gt;", `value="S-1"`, `value="96 mm"`)
	}
	// What the record's own reader finds stands beside the field it is about.
	has(t, "too long", c.post("/new/piece", with(v, "zone.2.to", "950")), 422, `<a href="#zone.2.to">`, `id="zone.2.to-fault"`)
	if n := size(t, a); n != before {
		t.Fatalf("the book grew from %d to %d entries", before, n)
	}
	for range 2 {
		if w := c.post("/new/piece", v); w.Code != 303 || !strings.HasPrefix(w.Header().Get("Location"), "/piece/BR-30?entered=") {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	mm := qty.Millimetre
	want := kit.Piece{ID: "BR-30", Kind: kit.Bridge, Words: "spare <bridge>", Maker: "Otterbourne", Model: "M", Serial: "S-1", Batch: "B-1", Marking: "readable", Origin: "new", History: "known",
		Made: qty.PartialDate{Year: 2026, Month: 2}, Declared: qty.PartialDate{Year: 2026, Month: 2}, Bought: qty.PartialDate{Year: 2026, Month: 3, DayOfMonth: 3},
		FirstUse: qty.PartialDate{Year: 2026, Month: 6, DayOfMonth: 1}, Obsolete: qty.PartialDate{Year: 2036}, MakerFromMade: 120, MakerFromUse: 60, MakerDocument: "booklet",
		Examined: qty.PartialDate{Year: 2026, Month: 3, DayOfMonth: 4}, ExaminedBefore: true, ExaminationFrom: "first report", Length: 900 * mm, Diameter: 11_500,
		Layers: []kit.Layer{{Name: "cover", Fibre: "pes"}, {Name: "core", Fibre: "pa"}}, EndA: kit.End{How: "knot", Tail: 95 * mm, Stitch: "whole"}, EndB: kit.End{How: "knot", Tail: 96 * mm, Stitch: "whole"},
		Zones:  []kit.ZoneAt{{Zone: "bend", From: 0, To: 60 * mm}, {Zone: "travel", From: 300 * mm, To: 600 * mm}, {Zone: "bend", From: 840 * mm, To: 900 * mm}},
		Fitted: kit.Fitted{In: "HA-1", Allowed: kit.SaidYes, Document: "list of parts"}, StoredIn: "store"}
	got := recordOf(t, a, "BR-30").Piece
	if string(record.EncodePiece(&got)) != string(record.EncodePiece(&want)) || size(t, a) != before+1 {
		t.Errorf("in the book:\n%s\nwant\n%s", record.EncodePiece(&got), record.EncodePiece(&want))
	}
	has(t, "again under a new id", c.post("/new/piece", with(v, "id", "")), 409, "in the book already")

	// What an outcome misses of a piece is asked for where it is said.
	short := with(with(with(v, "id", ""), "piece", "BR-31"), "end_a.stitch", "")
	// A second bridge in the same harness is asked about before it is entered.
	has(t, "two bridges", c.post("/new/piece", short), 422, "BR-30 is fitted to HA-1 already", `href="/piece/BR-30/fit"`)
	if w := c.post("/new/piece", with(short, "both", "yes")); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	has(t, "to be said", c.get("/piece/BR-31"), 200, `<a class="go" href="/piece/BR-31/amend">Say what is known of it</a></p></li>`)

	// The form of what is known holds all of it, so that entering it unchanged changes nothing.
	amend := typedIn(c.get("/piece/BR-30/amend").Body.String())
	amend.Set("why", "looked at anew")
	if w := c.post("/piece/BR-30/amend", amend); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	got = recordOf(t, a, "BR-30").Piece
	if string(record.EncodePiece(&got)) != string(record.EncodePiece(&want)) {
		t.Errorf("after what is known was entered unchanged:\n%s\nwant\n%s", record.EncodePiece(&got), record.EncodePiece(&want))
	}
}

// TestRegisterByRecord: a whole record pasted in becomes the piece with all
// that is on record of it; faults are told by line.
func TestRegisterByRecord(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	b, err := os.ReadFile(filepath.Join("..", "..", "examples", "bridge-daily.toml"))
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Replace(string(b), `id = "BR-07"`, `id = "BR-77"`, 1)
	v := url.Values{"id": {idOf(t, c, "/new/record")}, "record": {text}}
	before := size(t, a)
	has(t, "empty", c.post("/new/record", with(v, "record", " ")), 422, "Paste the record here.")
	has(t, "faults", c.post("/new/record", with(v, "record", strings.Replace(text, "900mm", "900", 1))), 422, "Line ", "piece.length", "BR-77")
	if n := size(t, a); n != before {
		t.Fatalf("the book grew from %d to %d entries", before, n)
	}
	for range 2 {
		if w := c.post("/new/record", v); w.Code != 303 || !strings.HasPrefix(w.Header().Get("Location"), "/piece/BR-77?entered=") {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	got, want := recordOf(t, a, "BR-77"), recordOf(t, a, "BR-07")
	if len(got.Examinations) != len(want.Examinations) || len(got.Runs) != len(want.Runs) || len(got.Uses) != len(want.Uses) {
		t.Errorf("%d examinations, %d runs, %d uses, want %d, %d, %d", len(got.Examinations), len(got.Runs), len(got.Uses), len(want.Examinations), len(want.Runs), len(want.Uses))
	}
	has(t, "empty record of a kind", c.get("/new/record?kind=bridge"), 200, "kernbook record 1")
}

// TestPeople: somebody new, said anew and forgotten; what is sealed is kept
// where its field is left empty, and never shown.
func TestPeople(t *testing.T) {
	a := yard(t)
	ctx := context.Background()
	c := visit(t, a, "p1")
	v := url.Values{"id": {idOf(t, c, "/new/person")}, "sign": {"p7"}, "role": {"climber"}, "name": {"Teo Marsh"}, "mass": {"79"}, "contact": {"teo at quillbrook"}, "day": {"2 Jun 2026"},
		"rates": {"1"}, "rate.0.look": {"eye"}, "rate.0.share": {"40"}, "rate.0.from": {"practice board, Mar 2026"}}
	before := size(t, a)
	for field, bad := range map[string][2]string{"sign": {"", "short sign"}, "mass": {"heavy", "heavy"}, "rate.0.share": {"", "Write the share"}, "rate.0.from": {"", "where it was measured"}} {
		has(t, field, c.post("/new/person", with(v, field, bad[0])), 422, bad[1], "Teo Marsh")
	}
	has(t, "taken", c.post("/new/person", with(v, "sign", "ines")), 422, "has this sign already", "Teo Marsh")
	for range 2 {
		if w := c.post("/new/person", v); w.Code != 303 || !strings.HasPrefix(w.Header().Get("Location"), "/people?entered=") {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	x, err := a.Known(ctx, "p7")
	if err != nil || x.Role != "climber" || !x.Name || !x.Mass || !x.Contact || x.Kappa[kit.Eye].Share != 0.4 || size(t, a) != before+1 {
		t.Fatalf("%+v, %v", x, err)
	}
	has(t, "people", c.get("/people"), 200, "Teo Marsh (p7)")
	page := c.get("/people/p7")
	has(t, "form", page, 200, "On record.", `value="practice board, Mar 2026"`)
	for _, sealed := range []string{`value="79`, ">79", "79 kg", "79kg", "teo at quillbrook"} { // ids of entries hold a 79 at times
		if strings.Contains(page.Body.String(), sealed) {
			t.Errorf("the form shows %q, which is sealed", sealed)
		}
	}
	anew := typedIn(page.Body.String())
	anew.Set("role", "storekeeper")
	anew.Set("name", "")
	for range 2 {
		if w := c.post("/people/p7", anew); w.Code != 303 {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	if x, err = a.Known(ctx, "p7"); err != nil || x.Role != "storekeeper" || !x.Name || !x.Mass || !x.Contact || x.Kappa[kit.Eye].Share != 0.4 || size(t, a) != before+2 {
		t.Errorf("%+v, %v", x, err)
	}
	has(t, "not sure", c.post("/people/p7/forget", url.Values{"why": {"asked for it"}}), 422, "cannot be taken back", "asked for it")
	has(t, "no reason", c.post("/people/p7/forget", url.Values{"sure": {"yes"}}), 422, "Say why")
	w := c.post("/people/p7/forget", url.Values{"id": {idOf(t, c, "/people/p7/forget")}, "why": {"asked for it"}, "sure": {"yes"}})
	if x, err = a.Known(ctx, "p7"); w.Code != 303 || err != nil || !x.Forgotten || x.Name {
		t.Errorf("%d, %+v, %v", w.Code, x, err)
	}
	if strings.Contains(c.get("/people").Body.String(), "Teo Marsh") {
		t.Error("the name of somebody who was forgotten is shown")
	}
	has(t, "a climber may not", visit(t, a, "rolf").post("/people/ines/forget", url.Values{"why": {"w"}, "sure": {"yes"}}), 403, "competent person")
}

// TestYardAndLimit: what the yard is called, its scheme and its limit of doubt.
func TestYardAndLimit(t *testing.T) {
	a := yard(t)
	ctx := context.Background()
	c := visit(t, a, "p1")
	v := url.Values{"id": {idOf(t, c, "/yard")}, "name": {"Quillbrook & Daughters"}, "country": {"GB"}, "every": {"4"}, "by": {"p1"}, "document": {"folder 3"}}
	for field, bad := range map[string][2]string{"name": {"", "what the yard is called"}, "country": {"", ": choose one."}, "every": {"", "how often"}, "by": {"", ": choose one."}, "document": {"", "where the written scheme"}} {
		has(t, field, c.post("/yard", with(v, field, bad[0])), 422, bad[1])
	}
	for range 2 {
		if w := c.post("/yard", v); w.Code != 303 {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	y, _, err := a.About(ctx)
	if err != nil || y.Name != "Quillbrook & Daughters" || y.Scheme != (kit.Scheme{Every: 4, Document: "folder 3", By: "p1"}) {
		t.Errorf("%+v, %v", y, err)
	}
	l := url.Values{"id": {idOf(t, c, "/limit")}, "limit": {"2000"}, "why": {"a stricter year"}}
	before := size(t, a)
	has(t, "no reason", c.post("/limit", with(l, "why", "")), 422, "Say why", `value="2000"`)
	has(t, "none", c.post("/limit", with(l, "limit", "")), 422, "Write the new limit", "a stricter year")
	has(t, "both", c.post("/limit", with(l, "default", "yes")), 422, "not both")
	has(t, "looser", c.post("/limit", with(l, "limit", "1 in 50")), 422, "looser than any yard may set", "1 in 50")
	has(t, "a climber", visit(t, a, "rolf").post("/limit", l), 403, "competent person", "a stricter year")
	for range 2 {
		if w := c.post("/limit", l); w.Code != 303 {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	if n, own, err := a.Limit(ctx); err != nil || n != 500 || !own || size(t, a) != before+1 {
		t.Errorf("%d, %v, %v", n, own, err)
	}
	has(t, "yard", c.get("/yard"), 200, "1 in 2", "The yard&#39;s own.", "Quillbrook &amp; Daughters")
	if w := c.post("/limit", url.Values{"default": {"yes"}, "why": {"enough"}}); w.Code != 303 {
		t.Errorf("%d: %s", w.Code, w.Body)
	}
	if n, own, _ := a.Limit(ctx); own || n != a.Tables().Rules.Limit {
		t.Errorf("%d, %v", n, own)
	}
}

// TestFirstPerson: in an empty book the first person enters themselves, and the
// rest follows by the pages alone.
func TestFirstPerson(t *testing.T) {
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	a := app.New(app.Config{Store: mem.New(), Keys: keys, Tables: tables.Default(), Yard: "new", Device: "bench", Clock: func() time.Time { return time.Date(2026, 6, 2, 17, 0, 0, 0, time.UTC) }})
	c := visit(t, a, "")
	has(t, "today", c.get("/"), 200, "Begin with yourself", `href="/new/person"`)
	has(t, "register", c.get("/register"), 200, "No piece is in the book yet.")
	has(t, "no paper", c.get("/register.pdf"), 404, "No piece is in the book yet.")
	w := c.post("/new/person", url.Values{"id": {idOf(t, c, "/new/person")}, "sign": {"p1"}, "role": {"competent person"}, "name": {"Maud Ferrant"}, "day": {"2 Jun 2026"}})
	if w.Code != 303 || len(w.Result().Cookies()) != 1 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	c.cookie = w.Result().Cookies()[0]
	if w := c.post("/yard", url.Values{"name": {"Ashcombe"}, "country": {"unknown"}}); w.Code != 303 {
		t.Errorf("%d: %s", w.Code, w.Body)
	}
	if w := c.post("/new/piece", bridge("")); w.Code != 303 {
		t.Errorf("%d: %s", w.Code, w.Body)
	}
	has(t, "today", c.get("/"), 200, "Ashcombe")
	has(t, "piece", c.get("/piece/BR-30"), 200, "How it is used is not on record")
}
