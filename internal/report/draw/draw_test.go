package draw_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	. "kernbook/internal/report/draw"
)

// wellFormed reads the whole file as XML and looks at every coordinate.
func wellFormed(t interface {
	Fatalf(string, ...any)
	Errorf(string, ...any)
}, b []byte) {
	d := xml.NewDecoder(bytes.NewReader(b))
	ids := map[string]bool{}
	first := true
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well-formed at byte %d: %v", d.InputOffset(), err)
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		if first && (e.Name.Local != "svg" || e.Name.Space != "http://www.w3.org/2000/svg") {
			t.Fatalf("begins with %v", e.Name)
		}
		first = false
		for _, a := range e.Attr {
			switch a.Name.Local {
			case "id":
				if ids[a.Value] {
					t.Errorf("id %q is there twice", a.Value)
				}
				ids[a.Value] = true
			case "x", "y", "x1", "y1", "x2", "y2", "width", "height", "font-size", "stroke-width", "points", "viewBox":
				for _, f := range strings.FieldsFunc(a.Value, func(r rune) bool { return r == ' ' || r == ',' }) {
					v, err := strconv.ParseFloat(f, 64)
					if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
						t.Errorf("%s of %s is %q", a.Name.Local, e.Name.Local, a.Value)
					}
					if v < 0 && (a.Name.Local == "width" || a.Name.Local == "height") {
						t.Errorf("%s of %s is below 0: %q", a.Name.Local, e.Name.Local, a.Value)
					}
				}
			}
		}
	}
	if first {
		t.Fatalf("no element at all")
	}
}

// inside checks that every text lies on the sheet and can be read, and that
// groups are closed.
func inside(t interface{ Errorf(string, ...any) }, r *recorder, high float64) {
	if r.open != 0 || r.lowest < 0 {
		t.Errorf("groups: %d left open, %d closed too often", r.open, -r.lowest)
	}
	for _, p := range r.texts {
		if p.X0 < 20 || p.X1 > Sheet.W-20 || p.Y0 < 5 || p.Y1 > high-5 {
			t.Errorf("%q lies off the sheet: %.0f to %.0f, %.0f to %.0f", p.Text, p.X0, p.X1, p.Y0, p.Y1)
		}
		if p.Type.Size < 12 {
			t.Errorf("%q is set in %g", p.Text, p.Type.Size)
		}
		if c := contrast(p.Type.Colour, p.Type.Ground); !(c >= 7) {
			t.Errorf("%q has contrast %.2f", p.Text, c)
		}
	}
	for _, p := range r.points {
		if !(p.X >= 0 && p.X <= Sheet.W && p.Y >= 0 && p.Y <= Sheet.H) {
			t.Errorf("a point lies off the sheet: %v", p)
		}
	}
}

// apart checks that no two texts run into each other.
func apart(t testing.TB, r *recorder) {
	for i, a := range r.texts {
		for _, b := range r.texts[i+1:] {
			if a.X0 < b.X1-1 && b.X0 < a.X1-1 && a.Y0 < b.Y1-1 && b.Y0 < a.Y1-1 {
				t.Errorf("%q runs into %q", a.Text, b.Text)
			}
		}
	}
}

// said checks that the catalogue had words and values for all that was asked.
func said(t testing.TB, r *recorder) {
	all := make([]string, 0, len(r.texts)+2*len(r.groups))
	for _, p := range r.texts {
		all = append(all, p.Text)
	}
	for _, g := range r.groups {
		all = append(all, g.Title, g.Desc)
	}
	for _, s := range all {
		if strings.ContainsAny(s, "⟦{}[]") {
			t.Errorf("%q lacks words or a value", s)
		}
	}
}

// contrast is the ratio of WCAG 2.2 (published; definition of relative
// luminance and contrast ratio, from memory).
func contrast(a, b Colour) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c Colour) float64 {
	if len(c) != 7 || c[0] != '#' {
		return math.NaN()
	}
	l := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(string(c[1+2*i:3+2*i]), 16, 8)
		if err != nil {
			return math.NaN()
		}
		s := float64(v) / 255
		if s <= 0.04045 {
			s /= 12.92
		} else {
			s = math.Pow((s+0.055)/1.055, 2.4)
		}
		l += weight * s
	}
	return l
}

func TestContrast(t *testing.T) {
	// The two ends of the scale: 21 for black on white, 1 for a colour on itself.
	if c := contrast("#000000", "#ffffff"); math.Abs(c-21) > 1e-9 {
		t.Errorf("black on white: %v, want 21", c)
	}
	if c := contrast("#777777", "#777777"); c != 1 {
		t.Errorf("a colour on itself: %v, want 1", c)
	}
	for _, x := range []struct {
		name   string
		fore   Colour
		ground Colour
		least  float64
	}{
		{"text", Ink, Paper, 7}, {"text of second rank", Soft, Paper, 7}, {"text on the floor", Ink, Floor, 7},
		{"second rank on the floor", Soft, Floor, 7}, {"text on ink", Paper, Ink, 7},
		{"doubt line", Doubt, Paper, 7}, {"forecast", Ahead, Paper, 7},
		{"hatching", Rule, Floor, 3}, // a shape, not text: 3:1
	} {
		if c := contrast(x.fore, x.ground); !(c >= x.least) {
			t.Errorf("%s: contrast %.2f, want at least %g", x.name, c, x.least)
		}
	}
}

var update = flag.Bool("update", false, "write the golden drawing anew")

func TestGolden(t *testing.T) {
	o, r, w := made(t)
	got := Outcome(o, r, w, Size{})
	path := filepath.Join("testdata", "bridge.svg")
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		g, x := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
		for i := range min(len(g), len(x)) {
			if g[i] != x[i] {
				t.Fatalf("line %d differs\n got %s\nwant %s\n(look at the drawing, then -update)", i+1, g[i], x[i])
			}
		}
		t.Fatalf("%d lines, want %d", len(g), len(x))
	}
	if again := Outcome(o, r, w, Size{}); !bytes.Equal(got, again) {
		t.Error("the same outcome gave two drawings")
	}
}

// TestSays checks that what matters is on the sheet in words.
func TestSays(t *testing.T) {
	o, r, w := made(t)
	var rec recorder
	To(&rec, o, r, w)
	all := map[string]bool{}
	for _, p := range rec.texts {
		all[p.Text] = true
	}
	for _, want := range []string{"B1", "rope bridge", "Set aside", "The hand did not go over 200 to 300 mm.", "first of 2 reasons",
		"1 in 3\u202f300", "1 in 1\u202f000", "300 millionths", "now 1 in 3\u202f300", "limit 1 in 1\u202f000", "hidden 1 in 50\u202f000",
		"on 75\u202f% of days", "on 20 Sep 2026", "not by 4 Jan 2027", "to 5 Jan 2031", "900", "−650", "+50", "eye", "hand", "bend", "travel", "end A", "end B",
		"most doubt: 250 to 300 mm", "bight: not made", "95\u202f% explained", "an absolute reason", "interim", "thorough", "event",
		"The text report says the same in words and tables."} {
		if !all[want] {
			t.Errorf("%q is not on the sheet", want)
		}
	}
	var titles []string
	for _, g := range rec.groups {
		titles = append(titles, g.Title)
		if g.Desc == "" || strings.ContainsAny(g.Desc, "{}") {
			t.Errorf("group %q is told by %q", g.Title, g.Desc)
		}
	}
	if got := strings.Join(titles, "/"); got != "Set aside/The doubt line/The fall, look by look/Doubt along the piece" {
		t.Errorf("groups %s", got)
	}
}

// TestForecastsTold checks that the sheet speaks of forecasts where it draws
// them, and only there.
func TestForecastsTold(t *testing.T) {
	told := func(o *decide.Outcome, r *kit.Record, w Words) (says bool) {
		var rec recorder
		To(&rec, o, r, w)
		for _, p := range rec.texts {
			says = says || strings.Contains(p.Text, "Dotted: forecasts")
		}
		return says
	}
	o, r, w := made(t)
	if !told(o, r, w) {
		t.Error("there are forecasts, and nothing tells what is dotted")
	}
	o.Verdict = kit.Withdraw
	if told(o, r, w) {
		t.Error("of a piece withdrawn no forecast is drawn, and the sheet speaks of it")
	}
	o.Verdict, o.Told.With, o.Told.Without = kit.Keep, nil, nil
	if told(o, r, w) {
		t.Error("there is no forecast, and the sheet speaks of it")
	}
}

// TestOutcomesApart checks that the four plates differ in more than words.
func TestOutcomesApart(t *testing.T) {
	o, r, w := made(t)
	say := w.Say
	w.Say = func(key string, args ...criteria.Arg) string {
		if key == "draw.outcome" {
			return "x"
		}
		return say(key, args...)
	}
	seen := map[string]kit.Verdict{}
	for v := kit.Keep; v <= kit.Withdraw; v++ {
		o.Verdict = v
		grey := strings.NewReplacer(string(Ink), "I", string(Paper), "P", string(Floor), "P").Replace(Plate(o, r, w))
		if was, ok := seen[grey]; ok {
			t.Errorf("%v and %v have the same plate in black and white", was, v)
		}
		seen[grey] = v
	}
}

// TestLayout checks every sheet that is made by hand or by the default tables.
func TestLayout(t *testing.T) {
	check := func(name string, o *decide.Outcome, r *kit.Record, w Words) {
		t.Run(name, func(t *testing.T) {
			var rec recorder
			high := To(&rec, o, r, w)
			inside(t, &rec, high)
			apart(t, &rec)
			for _, p := range rec.texts { // a part is named in full, and so is the day of the next look
				start, cut := strings.CutSuffix(p.Text, "…")
				for _, c := range cellsOf(o) {
					if cut && c.Part != "" && strings.HasPrefix(w.Name("part", c.Part), start) {
						t.Errorf("%q is cut", p.Text)
					}
				}
				if cut && strings.HasPrefix(start, "look again by") {
					t.Errorf("%q is cut", p.Text)
				}
			}
			said(t, &rec)
			wellFormed(t, Outcome(o, r, w, Size{W: 450, H: 600}))
		})
	}
	o, r, w := made(t)
	check("made", o, r, w)
	none := *o
	none.Told = nil
	check("not explained", &none, r, w)
	none.Doubt = nil
	for _, why := range []string{"kind", "too many", "impossible"} {
		none.NoDoubt = why
		for range 60 {
			w.Reasons = append(w.Reasons, "A reason that takes more than a line, because it says what is wrong, where on the piece it is, and what can be done about it by whom, "+why+".")
		}
		check("without doubt, "+why, &none, r, w)
	}
	for name, r := range samples(t) {
		o := decided(t, r)
		check(name, o, r, words(o, r))
	}
}

func cellsOf(o *decide.Outcome) []decide.Cell {
	if o.Doubt == nil {
		return nil
	}
	return o.Doubt.Cells
}

func TestSayAndName(t *testing.T) {
	o, r, w := made(t)
	w.Name = func(what, id string) string {
		if t := map[string]string{"lookeye": "Auge", "partend A": "Ende A"}[what+id]; t != "" {
			return t
		}
		return id
	}
	say := w.Say
	w.Say = func(key string, args ...criteria.Arg) string {
		if key == "draw.judged" && len(args) == 1 && args[0].Name == "day" {
			return "beurteilt zum " + args[0].Value
		}
		return say(key, args...)
	}
	var rec recorder
	To(&rec, o, r, w)
	got := map[string]bool{}
	for _, p := range rec.texts {
		got[p.Text] = true
	}
	if !got["beurteilt zum 2026-08-03"] || got["judged for 3 Aug 2026"] || !got["doubt"] {
		t.Error("phrases are not taken from the words")
	}
	if !got["Auge"] || !got["Ende A"] || got["end A"] || !got["hand"] {
		t.Error("names are not taken from the words")
	}
}
