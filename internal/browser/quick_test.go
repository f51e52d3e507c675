package browser

import (
	"context"
	"testing"

	"github.com/chromedp/chromedp"

	"kernbook/internal/core/kit"
)

// TestLookFitsThePhone: for every kind of piece in the yard the form of a look
// before use ends within two scrolls of a phone's window, without a script.
func TestLookFitsThePhone(t *testing.T) {
	browser := open(t)
	a, base := serve(t)
	cards, err := a.Board(context.Background(), a.Today())
	if err != nil {
		t.Fatal(err)
	}
	w := windows[0]
	ctx := tab(t, browser, w)
	choose(t, ctx, base)
	seen := map[kit.KindID]bool{}
	for i := range cards {
		c := &cards[i]
		if seen[c.Kind] || c.Stopped.Withdrawn {
			continue
		}
		seen[c.Kind] = true
		do(t, ctx, chromedp.Navigate(base+"/piece/"+c.ID+"/look"))
		if end := ask[float64](t, ctx, `document.querySelector('main form button.main').getBoundingClientRect().bottom + scrollY`); end > float64(3*w.height) || end < float64(w.height)/2 {
			t.Errorf("%s, %s: the form ends at %.0f px in a window of %d", c.ID, c.Kind, end, w.height)
		}
	}
	if len(seen) < 8 {
		t.Errorf("only %d kinds of piece", len(seen))
	}
}
