package draw_test

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	. "kernbook/internal/report/draw"
)

// TestParts: each part stands by itself as one well-formed element without a
// style or a prolog, says what it is.
func TestParts(t *testing.T) {
	o, r, w := made(t)
	for _, part := range []string{PartLine, PartFall, PartAlong} {
		b := string(Part(part, o, r, w))
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
	if b := Part(PartLine, o, r, w); b != nil {
		t.Errorf("without a doubt there is %d bytes of a drawing", len(b))
	}
}
