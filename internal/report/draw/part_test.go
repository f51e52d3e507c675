package draw_test

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	. "kernbook/internal/report/draw"
)

// TestParts: each part stands by itself as one well-formed element without a
// style or a prolog, says what it is.
func TestParts(t *testing.T) {
	o, r, w := made(t)
	draws := []string{PartLine, PartFall, PartAlong}
	for i := range 2 * len(draws) {
		part := draws[i%len(draws)]
		b := string(Part(part, o, r, w))
		if wide := b; i >= len(draws) {
			b = string(NarrowPart(part, o, r, w))
			if x := wide[:strings.Index(wide, "-t ")]; strings.Contains(b, x[strings.LastIndex(x, `"`)+1:]) {
				t.Errorf("%s: the wide and the narrow drawing share their ids", part)
			}
			part += ", narrow"
		}
		if !strings.HasPrefix(b, "<svg ") || strings.Contains(b, "style=") || !strings.Contains(b, "<title") {
			t.Errorf("%s begins with %.80q", part, b)
		}
		d := xml.NewDecoder(strings.NewReader(b))
		n := 0
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", part, err)
			}
			if _, ok := tok.(xml.StartElement); ok {
				n++
			}
		}
		if n < 20 {
			t.Errorf("%s has only %d elements", part, n)
		}
	}
	o.Doubt = nil
	if b, n := Part(PartLine, o, r, w), NarrowPart(PartLine, o, r, w); b != nil || n != nil {
		t.Errorf("without a doubt there are %d and %d bytes of a drawing", len(b), len(n))
	}
}

// TestNextDayIsWhole: the day of the next look is never cut, wherever on the doubt
// line it comes out.
func TestNextDayIsWhole(t *testing.T) {
	o, r, w := made(t)
	shown := 0
	for ahead := range 400 {
		later := *o
		later.Verdict = kit.Keep
		later.Next.Known, later.Next.Day = true, o.AsOf+qty.Day(ahead)
		var rec recorder
		To(&rec, &later, r, w)
		for _, p := range rec.texts {
			if strings.HasPrefix(p.Text, "look again") {
				if shown++; strings.HasSuffix(p.Text, "…") {
					t.Errorf("%d days ahead: %q", ahead, p.Text)
				}
			}
		}
	}
	if shown < 50 {
		t.Errorf("the day was shown %d times", shown)
	}
}
