package app

import (
	"strings"
	"testing"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
)

// TestUnreadableYard: an entry about the yard or its people that cannot be read, as of
// a later form, sets every piece aside, also those whose outcome was kept, and says why.
func TestUnreadableYard(t *testing.T) {
	for kind, body := range map[entry.Kind]string{entry.Limit: `{"limit":"one in a few"}`, entry.Person: `{"person":{"id":"c1","role":"climber"},"since":"ever"}`, entry.Yard: `{"name":"Q"}`} {
		a, store, r := taken(t)
		if got := verdict(t, a, r.Piece.ID); got >= kit.SetAside {
			t.Fatalf("%v before it", got)
		}
		id, err := a.NewID()
		if err != nil {
			t.Fatal(err)
		}
		head, err := store.Head(ctx)
		if err != nil {
			t.Fatal(err)
		}
		l, err := book.NewLine(&entry.Entry{Yard: a.yard, ID: id, Kind: kind, Version: 1, Day: a.Today(), Wall: wall(a.clock()), Author: "p1", Device: "b", Base: head.String(),
			Tables: a.tables.Version, Core: "1", Body: []byte(body)}, instant(a.clock()))
		if err != nil {
			t.Fatal(err)
		}
		if _, _, err := store.Append(ctx, head, []book.Line{l}); err != nil {
			t.Fatal(err)
		}
		cards, err := a.Board(ctx, a.Today())
		if err != nil || len(cards) != 1 {
			t.Fatal(cards, err)
		}
		c := cards[0]
		if c.Stands() < kit.SetAside || c.Err == nil || !strings.Contains(c.Err.Error(), "about the yard or its people, cannot be read") || len(Due(cards)) != 1 {
			t.Errorf("%s: %v, %v", kind, c.Stands(), c.Err)
		}
	}
}
