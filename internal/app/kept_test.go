package app

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"reflect"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"kernbook/internal/anyrecord"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// TestPutTogetherIsStrictlyRead: a record that is put together from what was read of
// its piece before, and of the yard and its people with another piece, is the very
// record that the strict reader gives of it.
func TestPutTogetherIsStrictlyRead(t *testing.T) {
	tb, met := tables.Default(), 0
	rapid.Check(t, func(t *rapid.T) {
		mine, other := anyrecord.Record(t, tb, anyrecord.With{}), anyrecord.Record(t, tb, anyrecord.With{})
		raw := *mine
		raw.Yard, raw.People = other.Yard, slices.Clone(other.People)
		for _, p := range mine.People {
			if !slices.ContainsFunc(raw.People, func(x kit.Person) bool { return x.ID == p.ID }) {
				raw.People = append(raw.People, p)
			}
		}
		raw.AsOf += qty.Day(rapid.IntRange(0, 300).Draw(t, "later"))
		head := *other
		head.People = slices.Clone(raw.People)
		for i := range head.People {
			head.People[i].Holds = rapid.Bool().Draw(t, "holds")
		}
		var x, h reading
		for _, r := range []struct {
			raw  *kit.Record
			into *reading
		}{{mine, &x}, {&head, &h}} {
			read, err := strict("", r.raw, tb)
			if err != nil {
				t.Fatal(err)
			}
			*r.into = reading{r.raw, read}
		}
		got := x.again(&raw, h)
		want, err := strict("", &raw, tb)
		if err != nil {
			t.Fatalf("put together, the strict reader refuses it: %v", err)
		}
		if got == nil {
			t.Fatal("it was not put together")
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("got  %s\nwant %s", record.Encode(got), record.Encode(want))
		}
		met++
		// What says something else of the piece, or names somebody who is gone, is read anew.
		for name, change := range map[string]func(*kit.Record){
			"piece":   func(r *kit.Record) { r.Piece.Words += "." },
			"event":   func(r *kit.Record) { r.Events = append(slices.Clone(r.Events), kit.Event{Day: r.AsOf}) },
			"earlier": func(r *kit.Record) { r.AsOf = mine.AsOf - 1 },
			"yard":    func(r *kit.Record) { r.Yard.Name += "." },
			"role":    func(r *kit.Record) { r.People[0].Role += "." },
			"gone":    func(r *kit.Record) { r.People = r.People[1:] },
		} {
			c := raw
			c.People = slices.Clone(raw.People)
			if change(&c); x.again(&c, h) != nil {
				t.Fatalf("%s: it was put together all the same", name)
			}
		}
	})
	if met == 0 {
		t.Error("no record was put together")
	}
}

// TestKeptIsFresh: a program that goes through days and entries and keeps what it
// worked out says of every piece what one says that has just begun, to the last bit.
func TestKeptIsFresh(t *testing.T) {
	at := time.Date(2026, 6, 2, 17, 0, 0, 0, time.UTC)
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	c := Config{Store: mem.New(), Keys: keys, Tables: tables.Default(), Yard: "quillbrook", Device: "bench", Clock: func() time.Time { return at }}
	a, who := New(c), Who{Person: "p1"}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p1", Role: "competent person"}, From: day("2024-01-01"), Private: fold.Private{Mass: "82kg"}}))
	must(t)(a.NameYard(ctx, who, kit.Yard{Name: "Quillbrook Tree Care", Country: "GB"}))
	files, err := filepath.Glob(filepath.Join("..", "..", "examples", "*.toml"))
	if err != nil || len(files) < 5 {
		t.Fatal(files, err)
	}
	var ids []string
	for _, f := range files {
		r := example(t, filepath.Base(f))
		r.Piece.ID = fmt.Sprintf("%s-%d", r.Piece.ID, len(ids))
		ids = append(ids, r.Piece.ID)
		if _, err := a.Take(ctx, who, r); err != nil {
			t.Fatal(f, err)
		}
	}
	hold := func(what string) {
		t.Helper()
		f := New(c)
		for _, back := range []qty.Day{0, 0, 40, 0} {
			for _, id := range ids {
				kept, err := a.Judge(ctx, id, a.Today()-back, false)
				fresh, err2 := f.Judge(ctx, id, a.Today()-back, false)
				if fmt.Sprint(err) != fmt.Sprint(err2) {
					t.Fatalf("%s, %s: %v and %v", what, id, err, err2)
				}
				one, _ := json.Marshal(kept.Outcome)
				two, _ := json.Marshal(fresh.Outcome)
				if string(one) != string(two) {
					t.Fatalf("%s, %s:\nkept  %s\nfresh %s", what, id, one, two)
				}
				if kept.Record != nil && string(record.Encode(kept.Record)) != string(record.Encode(fresh.Record)) {
					t.Fatalf("%s, %s: the records differ", what, id)
				}
			}
			f = New(c)
		}
	}
	hold("at first")
	for _, n := range []int{1, 1, 6, 30} {
		at = at.AddDate(0, 0, n)
		hold(fmt.Sprintf("%d days later", n))
	}
	w := must(t)(a.Happen(ctx, who, ids[0], kit.Event{Day: a.Today(), Event: "dropped", Travel: -1, Peak: -1}))
	hold("something happened")
	must(t)(a.Wash(ctx, who, ids[1], a.Today(), fold.Washing{With: "water", Clean: kit.SaidYes}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p9", Role: "climber"}, Private: fold.Private{Mass: "99kg"}}))
	hold("somebody came")
	must(t)(a.PlanUse(ctx, who, ids[2], kit.Use{From: a.Today(), Week: 20 * qty.Hour, Weekdays: [8]bool{1: true, 2: true}}, "p9"))
	hold("another use")
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p9", Role: "climber"}, Private: fold.Private{Mass: "70kg"}}))
	hold("another mass")
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p1", Role: "competent person", Kappa: map[kit.LookID]kit.Rate{kit.Eye: {Share: 0.2, From: "practice board"}}}}))
	hold("looks worse")
	must(t)(a.SetLimit(ctx, who, "1 in 5000", "stricter"))
	hold("another limit")
	if _, err := a.Correct(ctx, who, w.ID, nil, "it was another piece"); err != nil {
		t.Fatal(err)
	}
	hold("taken back")
	at = at.AddDate(0, 0, 400)
	hold("a year later")
}
