package demo

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

var ctx = context.Background()

// TestYard: the invented yard has every kind of entry and every outcome, and is
// built again the same.
func TestYard(t *testing.T) {
	last := time.Date(2026, 11, 20, 16, 0, 0, 0, time.FixedZone("", 0))
	build := func() (*mem.Store, *app.App) {
		keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
		if err != nil {
			t.Fatal(err)
		}
		s := mem.New()
		if err := Build(ctx, s, keys, "invented", Seed, last); err != nil {
			t.Fatal(err)
		}
		return s, app.New(app.Config{Store: s, Keys: keys, Tables: tables.Default(), Yard: "invented", Device: "test", Clock: func() time.Time { return last }})
	}
	s, a := build()
	h, err := s.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	lines, err := s.Read(ctx, 0, int(h.Size))
	if err != nil {
		t.Fatal(err)
	}
	kinds := map[entry.Kind]int{}
	decided := map[string]int{}
	for _, b := range lines {
		l, err := entry.ParseLeaf(b)
		if err != nil {
			t.Fatal(err)
		}
		kinds[l.Entry.Kind]++
		if l.Entry.Kind == entry.Decision {
			d, err := fold.Decode(l.Entry.Kind, l.Entry.Version, l.Entry.Body)
			if err != nil {
				t.Fatal(err)
			}
			decided[d.(*fold.Decision).Verdict]++
		}
	}
	for _, k := range entry.Kinds {
		if kinds[k] == 0 {
			t.Errorf("no entry of the kind “%s”", k)
		}
	}
	cards, err := a.Board(ctx, a.Today())
	if err != nil {
		t.Fatal(err)
	}
	stands := map[kit.Verdict]int{}
	for i := range cards {
		if cards[i].Err != nil {
			t.Errorf("%s: %v", cards[i].ID, cards[i].Err)
		}
		stands[cards[i].Stands()]++
	}
	for v := kit.Keep; v <= kit.Withdraw; v++ {
		if stands[v] == 0 {
			t.Errorf("nothing stands at “%s”", v)
		}
		if decided[v.String()] == 0 {
			t.Errorf("no examination was decided “%s”: %v", v, decided)
		}
	}
	if stands[kit.Keep]+stands[kit.KeepSooner] < len(cards)/2 {
		t.Errorf("a yard that cannot work: %v", stands)
	}
	t.Logf("%d entries, %d pieces: %v", h.Size, len(cards), stands)
	for i := range cards {
		t.Log(cards[i].ID, cards[i].Stands(), cards[i].Why, cards[i].Doubt)
	}
	again, _ := build()
	twice, err := again.Read(ctx, 0, int(h.Size)+1)
	if err != nil || len(twice) != len(lines) {
		t.Fatalf("built again it has %d entries, not %d (%v)", len(twice), len(lines), err)
	}
	for i := range lines { // boxes are never sealed the same twice, and every later entry names the head
		a, _ := entry.ParseLeaf(lines[i])
		b, _ := entry.ParseLeaf(twice[i])
		x, y := &a.Entry, &b.Entry
		if x.ID != y.ID || x.Kind != y.Kind || x.Piece != y.Piece || x.Day != y.Day || a.Recorded != b.Recorded || x.Kind != entry.Person && string(x.Body) != string(y.Body) {
			t.Fatalf("entry %d is not the same when built again:\n%s\n%s", i, lines[i], twice[i])
		}
	}
}
