package draw_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	. "kernbook/internal/report/draw"
)

// phoneWide is the width in pixels of a common phone's screen, for which the
// narrow sheet is drawn (assumed).
const phoneWide = 390

// TestNarrowLayout checks every narrow sheet: all of it lies on a phone's width,
// no text is smaller than 12 pixels there, runs into another, or is cut.
func TestNarrowLayout(t *testing.T) {
	check := func(name string, o *decide.Outcome, r *kit.Record, w Words) {
		t.Run(name, func(t *testing.T) {
			var rec recorder
			high := NarrowTo(&rec, o, r, w)
			for _, p := range rec.texts {
				if p.X0 < 20 || p.X1 > phoneWide-20 || p.Y0 < 5 || p.Y1 > high-5 {
					t.Errorf("%q lies off the sheet: %.0f to %.0f, %.0f to %.0f of %.0f", p.Text, p.X0, p.X1, p.Y0, p.Y1, high)
				}
				if p.Type.Size < 12 {
					t.Errorf("%q is set in %g", p.Text, p.Type.Size)
				}
				if c := contrast(p.Type.Colour, p.Type.Ground); !(c >= 7) {
					t.Errorf("%q has contrast %.2f", p.Text, c)
				}
				if strings.HasSuffix(p.Text, "…") {
					t.Errorf("%q is cut", p.Text)
				}
			}
			for _, p := range rec.points {
				if !(p.X >= 0 && p.X <= phoneWide && p.Y >= 0 && p.Y <= high) {
					t.Errorf("a point lies off the sheet: %v", p)
				}
			}
			apart(t, &rec)
			said(t, &rec)
			wellFormed(t, Narrow(o, r, w))
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
		for range 12 {
			w.Reasons = append(w.Reasons, "A reason that takes more than a line, because it says what is wrong, where on the piece it is, and what can be done about it by whom, "+why+".")
		}
		check("without doubt, "+why, &none, r, w)
	}
	for name, r := range samples(t) {
		o := decided(t, r)
		check(name, o, r, words(o, r))
	}
}

// TestNarrowSays: what the wide sheet says in figures and names, the narrow one
// says too.
func TestNarrowSays(t *testing.T) {
	o, r, w := made(t)
	var rec recorder
	NarrowTo(&rec, o, r, w)
	all := map[string]bool{}
	for _, p := range rec.texts {
		all[p.Text] = true
	}
	for _, want := range []string{"B1", "rope bridge", "Set aside", "first of 2 reasons", "1 in 3\u202f300", "1 in 1\u202f000", "300 millionths", "now 1 in 3\u202f300",
		"limit 1 in 1\u202f000", "hidden 1 in 50\u202f000", "on 75\u202f% of days", "on 20 Sep 2026", "not by 4 Jan 2027", "to 5 Jan 2031", "900", "−650", "+50",
		"eye", "hand", "bend", "travel", "end A", "end B", "most doubt: 250 to 300 mm", "bight: not made", "95\u202f% explained", "an absolute reason", "interim",
		"thorough", "event"} {
		if !all[want] {
			t.Errorf("%q is not on the sheet", want)
		}
	}
}

func TestNarrowGolden(t *testing.T) {
	o, r, w := made(t)
	got := Narrow(o, r, w)
	path := filepath.Join("testdata", "bridge-phone.svg")
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
		t.Error("differs from testdata/bridge-phone.svg (look at the drawing, then -update)")
	}
}
