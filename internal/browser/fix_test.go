package browser

import (
	"fmt"
	"strings"
	"testing"
)

// TestCorrectByHand corrects an examination by its form, on the phone: what it
// changes is shown, gone back from, shown again and entered.
func TestCorrectByHand(t *testing.T) {
	browser := open(t)
	a, base := serve(t)
	p := &walker{t: t, ctx: tab(t, browser, windows[0]), base: base}
	p.to("/")
	p.act("p1")
	lines, err := a.Entries(t.Context(), "BR-01")
	if err != nil {
		t.Fatal(err)
	}
	at := ""
	for _, l := range lines {
		if l.Kind == "examination" && strings.Contains(string(l.Body), `"thorough"`) {
			at = "/piece/BR-01/entry/" + l.ID.String()
		}
	}
	p.to("/piece/BR-01/entries")
	p.follow(at)
	p.follow(at + "/form")
	p.choose("all.light", "poor")
	p.write("wrong", "the lamp was out, it came to mind later")
	_, before, err := a.About(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	p.enter()
	p.says("Nothing is entered yet")
	p.says("good")
	p.says("poor")
	p.leave(`document.querySelector('main button[name="again"]').click()`)
	if light := ask[string](t, p.ctx, `document.querySelector('main select[name="all.light"]').value`); light != "poor" {
		t.Errorf("the form that was gone back to says %q", light)
	}
	p.enter()
	p.enter()
	p.says(fmt.Sprintf("It is entry number %d of the book", before+1))
	p.says("the lamp was out")
	_, after, err := a.About(t.Context())
	if err != nil || after != before+1 {
		t.Errorf("the book went from %d to %d entries, %v", before, after, err)
	}
}
