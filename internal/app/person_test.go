package app

import (
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
)

// TestLastCompetentPerson: a role that is not named stays as it is on record, and
// the last competent person of a yard keeps theirs until there is another.
func TestLastCompetentPerson(t *testing.T) {
	a, store := yard(t, "2026-06-02T17:00:00+01:00")
	who := Who{Person: "p1"}
	role := func(id string) string {
		t.Helper()
		all, err := a.People(ctx)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range all {
			if p.ID == id {
				return p.Role
			}
		}
		return ""
	}
	before := role("p1")
	if before != "competent person" && before != "examiner" {
		t.Fatalf("p1 is %q", before)
	}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p1"}, Keep: true}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p9"}, Keep: true}))
	if got := role("p1"); got != before || role("p9") != "climber" {
		t.Errorf("p1 is %q, p9 %q", got, role("p9"))
	}
	for name, m := range map[string]Member{
		"another role": {Person: kit.Person{ID: "p1", Role: "climber"}}, "left": {Person: kit.Person{ID: "p1", Role: before}, Left: true}} {
		head, _ := store.Head(ctx)
		if _, err := a.EnterPerson(ctx, who, m); code(err) != Refused || !strings.Contains(err.Error(), "last competent person") {
			t.Errorf("%s: %v", name, err)
		}
		if after, _ := store.Head(ctx); after != head {
			t.Errorf("%s: something was written", name)
		}
	}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p9", Role: "competent person"}}))
	must(t)(a.EnterPerson(ctx, Who{Person: "p9"}, Member{Person: kit.Person{ID: "p1", Role: "climber"}}))
	if _, err := a.SetLimit(ctx, who, "1 in 2000", "stricter"); code(err) != Refused {
		t.Errorf("p1 is still a competent person: %v", err)
	}
}

// TestPeopleWhoLeft: who has left is not among those who are here.
func TestPeopleWhoLeft(t *testing.T) {
	a, _ := yard(t, "2026-06-02T17:00:00+01:00")
	who := Who{Person: "p1"}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p9", Role: "climber"}}))
	before, err := a.People(ctx)
	if err != nil {
		t.Fatal(err)
	}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p9", Role: "climber"}, Left: true}))
	after, err := a.People(ctx)
	if err != nil || len(after) != len(before)-1 {
		t.Errorf("%v before, %v after, %v", before, after, err)
	}
	for _, p := range after {
		if p.ID == "p9" {
			t.Errorf("%v is still here", p)
		}
	}
}

// TestEverybody: who left, and who has no role any more, still has a name in a
// history; who was forgotten has none.
func TestEverybody(t *testing.T) {
	a, _ := yard(t, "2026-06-02T17:00:00+01:00")
	who := Who{Person: "p1"}
	for id, name := range map[string]string{"p7": "Odo Vesterholt", "p8": "Ysolde Brack", "p9": "Tam Quarle"} {
		must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: id, Role: "climber"}, Private: fold.Private{Name: name}}))
	}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p7", Role: "climber"}, Left: true}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p8"}, Left: true}))
	must(t)(a.ForgetPerson(ctx, who, "p9", "asked for it"))
	all, err := a.Everybody(ctx)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]Somebody{}
	for _, x := range all {
		got[x.ID] = x
	}
	for _, want := range []Somebody{{"p1", "Maud Ferrant", "competent person", true, false, false}, {"p7", "Odo Vesterholt", "", false, true, false},
		{"p8", "Ysolde Brack", "", false, true, false}, {"p9", "", "climber", false, false, true}} {
		if got[want.ID] != want {
			t.Errorf("got %+v, want %+v", got[want.ID], want)
		}
	}
	if len(all) != 4 {
		t.Errorf("%v", all)
	}
}

// TestTells: a sign that is the name or one of its parts gives the name away,
// with a number behind it too; initials and single letters do not.
func TestTells(t *testing.T) {
	for _, x := range []struct {
		sign, name string
		want       bool
	}{
		{"Maud", "Maud Ferrant", true},
		{"ferrant", "Maud Ferrant", true},
		{"maud ferrant", "Maud Ferrant", true},
		{"maud2", "Maud Ferrant", true},
		{"MaudFerrant", "Maud Ferrant", true},
		{"éva", "Éva O'Hara", true},
		{"p1", "Maud Ferrant", false},
		{"MF", "Maud Ferrant", false},
		{"p", "P Ferrant", false},
		{"p4", "P. Ferrant", false},
		{"mau", "Maud Ferrant", false},
		{"Maud", "", false},
		{"17", "Maud Ferrant", false},
	} {
		if got := Tells(x.sign, x.name); got != x.want {
			t.Errorf("%q of %q: %v", x.sign, x.name, got)
		}
	}
}

// TestPeopleStayReadable: what would make the people of every record unreadable is
// refused: a role that ends before it began, a correction of what is not there.
func TestPeopleStayReadable(t *testing.T) {
	a, store := yard(t, "2026-06-02T17:00:00+01:00")
	who := Who{Person: "p1"}
	w := must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p2", Role: "competent person"}, From: day("2026-06-01")}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p3", Role: "competent person"}, From: day("2026-06-03")}))
	head, _ := store.Head(ctx)
	for _, id := range []string{"p2", "p3"} {
		_, err := a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: id, Role: "climber"}, From: day("2026-01-01")})
		if code(err) != Invalid || !strings.Contains(err.Error(), "lies before since") {
			t.Errorf("%s: %v", id, err)
		}
	}
	if _, err := a.Correct(ctx, who, w.ID, &fold.Stop{What: "withdraw", Why: "no person"}, "a slip"); code(err) != Invalid {
		t.Errorf("a correction that is no person: %v", err)
	}
	if after, _ := store.Head(ctx); after != head {
		t.Errorf("%d entries more", after.Size-head.Size)
	}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p2", Role: "climber"}, From: day("2026-06-02")}))
	if _, err := a.Correct(ctx, who, w.ID, nil, "never was one"); err != nil {
		t.Error(err)
	}
}
