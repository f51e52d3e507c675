package web

import (
	"context"
	"maps"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// recordOf gives what is on record of a piece today.
func recordOf(t *testing.T, a *app.App, piece string) *kit.Record {
	t.Helper()
	j, err := a.Judge(context.Background(), piece, a.Today(), false)
	if err != nil {
		t.Fatal(err)
	}
	return j.Record
}

func size(t *testing.T, a *app.App) int64 {
	t.Helper()
	_, n, err := a.About(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// with gives a copy of what was typed, with one field otherwise.
func with(v url.Values, name, value string) url.Values {
	out := maps.Clone(v)
	out[name] = []string{value}
	return out
}

// filledForm is a form with what is typed into it, and what must come of it.
type filledForm struct {
	name  string
	path  string
	typed url.Values
	bad   map[string][2]string // field → value that cannot be, sentence it comes back with
	seen  string               // a text typed, that a form that comes back still holds
	book  func(t *testing.T, a *app.App)
}

// told is how the history of a piece tells what was entered.
var told = map[string]string{"a quick look": "All over: eye and hand.", "another holder": "<strong>Held by Ines Okoro (ines)</strong>", "into the store": "<strong>Hangs: store, hook 4</strong>",
	"fitted": "<strong>Fitted to BR-09</strong>", "use": "<strong>Used 12 h a week</strong>", "shortened": "eye cut off", "what is known": "<p>the marking wore off</p>"}

var dry = url.Values{"all.light": {"good"}, "all.cleaned": {"yes"}, "all.wet": {"no"}, "all.frozen": {"no"}, "all.muddy": {"no"}, "all.gloves": {"no"}, "all.hurried": {"no"}}

func and(a, b url.Values) url.Values {
	out := maps.Clone(a)
	maps.Copy(out, b)
	return out
}

var filledForms = []filledForm{
	{"a quick look", "/piece/LI-12/look", and(dry, url.Values{"kind": {"pre-use"}, "looks": {"eye", "hand"}, "where": {"all"}, "by": {"rolf"}, "day": {"2 Jun 2026"}, "would": {"yes"}}),
		map[string][2]string{"where": {"", "Where they went: choose one."}, "looks": {"", "Tick the looks that were made."}, "by": {"", ": choose one."}, "day": {"soon", "Write the day as"}, "would": {"", ": choose one."}}, `value="pre-use" checked`,
		func(t *testing.T, a *app.App) {
			all := recordOf(t, a, "LI-12").Examinations
			e := all[len(all)-1]
			if e.Kind != kit.PreUse || e.By != "rolf" || len(e.Looks) != 2 || !e.Looks[1].Covers[0].All || e.Looks[0].Conditions.Light != "good" || e.Looks[0].Conditions.Hurried != kit.SaidNo || e.WouldClimb != kit.SaidYes {
				t.Errorf("in the book: %+v", e)
			}
		}},
	{"a partner's look", "/piece/BR-07/look?kind=partner", and(dry, url.Values{"kind": {"partner"}, "looks": {"eye"}, "where": {"part"}, "part": {"end A"}, "stretches": {"300 to 400 mm"}, "by": {"rolf"}, "day": {"2 Jun 2026"}, "would": {"not known"}}),
		map[string][2]string{"stretches": {"some of it", "is no stretch"}, "where": {"all", "not both"}}, `<details open><summary>Only in part`,
		func(t *testing.T, a *app.App) {
			all := recordOf(t, a, "BR-07").Examinations
			if e := all[len(all)-1]; e.Kind != kit.Partner || e.WouldClimb != kit.NotKnown || len(e.Looks) != 1 || len(e.Looks[0].Covers) != 2 || e.Looks[0].Covers[0].Part != "end A" || e.Looks[0].Covers[1].To != 400*qty.Millimetre || e.Looks[0].Covers[1].All {
				t.Errorf("in the book: %+v", e)
			}
		}},
	{"a run", "/piece/LI-12/run", and(dry, url.Values{"kind": {"pre-use"}, "looks": {"eye", "hand"}, "by": {"rolf"}, "from": {"1 Jun 2026"}, "to": {"2 Jun 2026"}, "weekdays": {"mon", "tue"}, "ref": {"R-June"}}),
		map[string][2]string{"to": {"9 Jun 2026", "still to come"}, "from": {"2 Jul 2026", "before the first"}, "weekdays": {"", "Tick the days of the week"}, "looks": {"", "Tick the looks"}}, "R-June",
		func(t *testing.T, a *app.App) {
			all := recordOf(t, a, "LI-12").Runs
			if x := all[len(all)-1]; x.Ref != "R-June" || x.To-x.From != 1 || x.Weekdays != [8]bool{1: true, 2: true} || len(x.Looks) != 2 {
				t.Errorf("in the book: %+v", x)
			}
		}},
	{"another holder", "/piece/LI-12/hang", url.Values{"holder": {"ines"}, "day": {"2 Jun 2026"}, "place": {""}},
		map[string][2]string{"holder": {"", "Choose who holds it"}, "place": {"the van", "not both"}, "day": {"1/6/2026", "Write the day as"}}, "",
		func(t *testing.T, a *app.App) {
			if c, err := a.CardOf(context.Background(), "LI-12", a.Today()); err != nil || c.Holder != "ines" {
				t.Errorf("%+v, %v", c, err)
			}
		}},
	{"into the store", "/piece/CO-31/hang", url.Values{"place": {"store, hook 4"}, "day": {"2 Jun 2026"}}, nil, "",
		func(t *testing.T, a *app.App) {
			if c, err := a.CardOf(context.Background(), "CO-31", a.Today()); err != nil || c.Holder != "" || c.Place != "store, hook 4" {
				t.Errorf("%+v, %v", c, err)
			}
		}},
	{"fitted", "/piece/CO-31/fit", url.Values{"in": {"BR-09"}, "allowed": {"yes"}, "document": {"booklet, page 7"}, "day": {"2 Jun 2026"}},
		map[string][2]string{"allowed": {"", ": choose one."}}, "booklet, page 7",
		func(t *testing.T, a *app.App) {
			if f := recordOf(t, a, "CO-31").Piece.Fitted; f != (kit.Fitted{In: "BR-09", Allowed: kit.SaidYes, Document: "booklet, page 7"}) {
				t.Errorf("in the book: %+v", f)
			}
		}},
	{"use", "/piece/LI-12/use", url.Values{"day": {"2 Jun 2026"}, "week": {"12"}, "weekdays": {"mon", "wed"}, "of": {"ines"}, "dirt": {"sandy"}},
		map[string][2]string{"week": {"plenty", "plenty"}, "weekdays": {"", "Tick the days"}, "store": {"yes", "In store there are no hours"}}, `value="sandy" selected`,
		func(t *testing.T, a *app.App) {
			u, _ := recordOf(t, a, "LI-12").UseOn(a.Today())
			if u.Week != 12*qty.Hour || u.Weekdays != [8]bool{1: true, 3: true} || u.Dirt != "sandy" || u.From != a.Today() {
				t.Errorf("in the book: %+v", u)
			}
		}},
	{"shortened", "/piece/LI-12/change", url.Values{"what": {"shortened at end B"}, "length": {"300"}, "by": {"p1"}, "day": {"2 Jun 2026"}, "words": {"eye cut off"}, "zones": {"2"}},
		map[string][2]string{"length": {"", "how much was cut off"}, "what": {"re-tied end A", "leave this empty"}, "zone.0.zone": {"work", "Say where it begins."}}, "eye cut off",
		func(t *testing.T, a *app.App) {
			all := recordOf(t, a, "LI-12").Changes
			if c := all[len(all)-1]; c.What != "shortened at end B" || c.Length != 300*qty.Millimetre || c.By != "p1" || c.Words != "eye cut off" {
				t.Errorf("in the book: %+v", c)
			}
		}},
	{"zones moved", "/piece/BR-09/change", url.Values{"what": {"zones"}, "by": {"p1"}, "day": {"2 Jun 2026"}, "zones": {"3"}, "zone.0.zone": {"bend"}, "zone.0.from": {"0"}, "zone.0.to": {"50"},
		"zone.1.zone": {"travel"}, "zone.1.from": {"300"}, "zone.1.to": {"600"}, "zone.2.zone": {"bend"}, "zone.2.from": {"810"}, "zone.2.to": {"860"}},
		map[string][2]string{"zone.1.from": {"far", "far"}, "zone.1.to": {"9 m", "overlaps the zone"}, "zone.2.zone": {"", "Choose the zone."}}, `value="810"`,
		func(t *testing.T, a *app.App) {
			all := recordOf(t, a, "BR-09").Changes
			if c := all[len(all)-1]; c.What != "zones" || len(c.Zones) != 3 || c.Zones[1] != (kit.ZoneAt{Zone: "travel", From: 300 * qty.Millimetre, To: 600 * qty.Millimetre}) {
				t.Errorf("in the book: %+v", c)
			}
		}},
	{"an event", "/piece/LI-12/event", url.Values{"event": {"saw-contact"}, "day": {"2 Jun 2026"}, "at.from": {"300"}, "words": {"a <touch>"}},
		map[string][2]string{"event": {"", ": choose one."}, "travel": {"far", "far"}, "at.from": {"999 m", "beyond the end"}}, "a &lt;touch&gt;",
		func(t *testing.T, a *app.App) {
			all := recordOf(t, a, "LI-12").Events
			if e := all[len(all)-1]; e.Event != "saw-contact" || e.At.From != 300*qty.Millimetre || e.Words != "a <touch>" {
				t.Errorf("in the book: %+v", e)
			}
		}},
	{"out of use", "/piece/LI-12/stop", url.Values{"what": {"set aside"}, "why": {"it sounds <rough>"}, "day": {"2 Jun 2026"}},
		map[string][2]string{"what": {"", ": choose one."}, "why": {"", "Say why."}, "day": {"2 Jun 2027", "future"}}, "",
		func(t *testing.T, a *app.App) {
			if c, err := a.CardOf(context.Background(), "LI-12", a.Today()); err != nil || !c.Stopped.Aside || c.Stopped.Why != "it sounds <rough>" {
				t.Errorf("%+v, %v", c.Stopped, err)
			}
		}},
	{"what is known", "/piece/CO-31/amend", url.Values{"marking": {"unreadable"}, "proof": {"number on the register"}, "origin": {"new"}, "history": {"known"}, "made": {"2022"}, "first_use": {"Sep 2022"},
		"words": {"karabiner, worn label"}, "why": {"the marking wore off"}},
		map[string][2]string{"why": {"", "Say why the description changes."}, "made": {"", "or unknown"}, "bought": {"3/2/2025", "Write the date as"}}, "karabiner, worn label",
		func(t *testing.T, a *app.App) {
			p := recordOf(t, a, "CO-31").Piece
			if p.Marking != "unreadable" || p.Proof != "number on the register" || p.Made != (qty.PartialDate{Year: 2022}) || p.Words != "karabiner, worn label" {
				t.Errorf("in the book: %+v", p)
			}
		}},
}

// TestFormsGoIn: each filled form stands in the book once, however often it is
// handed in; what cannot be comes back as it was typed, with a sentence, and
// the book does not grow.
func TestFormsGoIn(t *testing.T) {
	for _, x := range filledForms {
		t.Run(x.name, func(t *testing.T) {
			a := yard(t)
			c := visit(t, a, "p1")
			path, _, _ := strings.Cut(x.path, "?")
			x.typed.Set("id", idOf(t, c, x.path))
			before := size(t, a)
			for field, bad := range x.bad {
				has(t, field, c.post(path, with(x.typed, field, bad[0])), 422, "Nothing was entered yet.", bad[1], x.seen)
			}
			if n := size(t, a); n != before {
				t.Fatalf("the book grew from %d to %d entries by what cannot be", before, n)
			}
			for range 2 {
				w := c.post(path, x.typed)
				if w.Code != 303 || !strings.Contains(w.Header().Get("Location"), "?entered=") {
					t.Fatalf("%d: %s", w.Code, w.Body)
				}
				has(t, "after", c.get(w.Header().Get("Location")), 200, "entry number")
				if n := size(t, a); n != before+1 {
					t.Fatalf("the book went from %d to %d entries", before, n)
				}
			}
			x.book(t, a)
			has(t, "history", c.get(path[:strings.LastIndex(path, "/")]), 200, told[x.name])
			nobody := visit(t, a, "")
			has(t, "nobody acts", nobody.post(path, x.typed), 422, "Choose who you are", x.seen)
		})
	}
}

// TestOneIDOneEntry: a form that was entered and is handed in again with
// something else on it is refused, and says so.
func TestOneIDOneEntry(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	v := url.Values{"id": {idOf(t, c, "/piece/LI-12/hang")}, "holder": {"ines"}, "day": {"2 Jun 2026"}}
	if w := c.post("/piece/LI-12/hang", v); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	before := size(t, a)
	v.Set("holder", "rolf")
	has(t, "other content", c.post("/piece/LI-12/hang", v), 409, "something else is in the book")
	if n := size(t, a); n != before {
		t.Errorf("the book grew from %d to %d entries", before, n)
	}
}

// TestWashed: a washing goes in, and a spill it names counts as washed out.
func TestWashed(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	if w := c.post("/piece/LI-12/event", url.Values{"event": {"spill"}, "substance": {"chain-oil"}, "amount": {"splash"}, "day": {"2 Jun 2026"}, "ref": {"S-1"}}); w.Code != 303 {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	has(t, "form", c.get("/piece/LI-12/wash"), 200, `value="S-1"`)
	v := url.Values{"id": {idOf(t, c, "/piece/LI-12/wash")}, "with": {"neutral soap"}, "clean": {"yes"}, "event": {"S-1"}, "day": {"2 Jun 2026"}}
	has(t, "no soap", c.post("/piece/LI-12/wash", with(v, "with", "")), 422, "Say what it was washed with.", `value="yes" checked`)
	has(t, "clean?", c.post("/piece/LI-12/wash", with(v, "clean", "")), 422, ": choose one.", "neutral soap")
	before := size(t, a)
	for range 2 {
		if w := c.post("/piece/LI-12/wash", v); w.Code != 303 {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
	}
	all := recordOf(t, a, "LI-12").Events
	if e := all[len(all)-1]; e.Ref != "S-1" || e.Washed != kit.SaidYes || size(t, a) != before+1 {
		t.Errorf("in the book: %+v", e)
	}
}

// TestAnotherRow: asking for another row keeps what was typed and enters nothing.
func TestAnotherRow(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	before := size(t, a)
	has(t, "zones", c.post("/piece/BR-09/change", url.Values{"zones": {"2"}, "more": {"zones"}, "words": {"moved on"}}), 200, `name="zone.2.zone"`, "moved on")
	has(t, "layers", c.post("/new/piece", url.Values{"kind": {"bridge"}, "layers": {"3"}, "more": {"layers"}, "maker": {"Otterbourne"}}), 200, `name="layer.3.name"`, "Otterbourne")
	has(t, "rates", c.post("/new/person", url.Values{"rates": {"1"}, "more": {"rates"}, "sign": {"p9"}}), 200, `name="rate.1.look"`, `value="p9"`)
	if n := size(t, a); n != before {
		t.Errorf("the book grew from %d to %d entries", before, n)
	}
	if w := c.do(httptest.NewRequest("PUT", "/piece/BR-09/change", nil)); w.Code != 405 {
		t.Errorf("PUT: %d", w.Code)
	}
}
