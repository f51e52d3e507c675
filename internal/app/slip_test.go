package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"kernbook/internal/book"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// taken is a yard on the day of the bridge's record, with that record in it, and c1,
// who climbs there.
func taken(t *testing.T) (*App, *mem.Store, *kit.Record) {
	t.Helper()
	r := example(t, "bridge-daily.toml")
	a, store := yard(t, r.AsOf.String()+"T17:00:00+01:00")
	if _, err := a.Take(ctx, Who{Person: "p1"}, r); err != nil {
		t.Fatal(err)
	}
	must(t)(a.EnterPerson(ctx, Who{Person: "p1"}, Member{Person: kit.Person{ID: "c1", Role: "climber"}}))
	return a, store, r
}

// refused sees that something is refused with a code and words, and that nothing is
// written.
func refused(t *testing.T, a *App, store *mem.Store, name string, want Code, says string, do func() error) {
	t.Helper()
	before, _ := store.Head(ctx)
	if err := do(); code(err) != want || !strings.Contains(err.Error(), says) {
		t.Errorf("%s: %v, want %s with %q", name, err, want, says)
	}
	if after, _ := store.Head(ctx); after != before {
		t.Errorf("%s: something was written", name)
	}
}

func verdict(t *testing.T, a *App, id string) kit.Verdict {
	t.Helper()
	c, err := a.CardOf(ctx, id, a.Today())
	if err != nil || c.Err != nil {
		t.Fatal(err, c.Err)
	}
	return c.Stands()
}

// TestAbsoluteReasonsStay: who is no competent person takes back no saw, no spill, no
// answer “unfit”, no “would not climb” and no sign, also of their own, and not what
// another entered; their own look that found nothing, run, use and hanging of the same
// day they do.
func TestAbsoluteReasonsStay(t *testing.T) {
	a, store, r := taken(t)
	id, today, climber := r.Piece.ID, a.Today(), Who{Person: "c1"}
	looks := []kit.Look{{Look: kit.Eye, By: "c1", Covers: []kit.Stretch{{All: true}}}}
	yes := kit.Examination{Kind: kit.PreUse, Day: today, By: "c1", WouldClimb: kit.SaidYes, Looks: looks}
	no, sign, thorough, late := yes, yes, yes, yes
	no.WouldClimb = kit.SaidNo
	sign.Signs = []kit.Sign{{Ref: "c-1", Sign: "grey", State: kit.FirstSeen, At: kit.Place{Whole: true}, By: "c1"}}
	thorough.Kind, thorough.SignedBy, thorough.Ref = kit.Thorough, "p1", "t-9"
	late.Day += 400
	hang := fold.Hang{Holder: "c1"}
	use := kit.Use{From: today, Week: 10 * qty.Hour, Weekdays: [8]bool{1: true}, Dirt: "clean"}
	entries := map[string]Written{
		"saw":   must(t)(a.Happen(ctx, climber, id, kit.Event{Day: today, Event: "saw-contact", Travel: -1, Peak: -1})),
		"spill": must(t)(a.Happen(ctx, climber, id, kit.Event{Day: today, Event: "spill", Substance: "chain-oil", Amount: "splash", Travel: -1, Peak: -1})),
		"unfit": must(t)(a.Answer(ctx, climber, id, kit.Answer{Day: today, To: "examine", By: "c1", Verified: "by feel", Unfit: true})),
		"no":    must(t)(a.Examine(ctx, climber, id, no)),
		"sign":  must(t)(a.Examine(ctx, climber, id, sign)),
	}
	for name, w := range entries {
		for way, instead := range map[string]any{"struck": nil, "written anew": &yes} {
			if way == "written anew" && name != "no" && name != "sign" {
				continue
			}
			refused(t, a, store, name+" "+way, Refused, "as a competent person", func() error { _, err := a.Correct(ctx, climber, w.ID, instead, "no"); return err })
			refused(t, a, store, name+" "+way+", tried", Refused, "as a competent person", func() error { _, err := a.TryCorrect(ctx, climber, w.ID, instead, "no"); return err })
		}
	}
	if got := verdict(t, a, id); got != kit.Withdraw {
		t.Fatalf("%v", got)
	}
	ours := must(t)(a.Examine(ctx, Who{Person: "p1"}, id, kit.Examination{Kind: kit.PreUse, Day: today, By: "p1", WouldClimb: kit.SaidYes, Looks: []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}}))
	refused(t, a, store, "another's look", Refused, "as a competent person", func() error { _, err := a.Correct(ctx, climber, ours.ID, nil, "no"); return err })
	own := must(t)(a.Examine(ctx, climber, id, yes))
	refused(t, a, store, "a look made thorough", Refused, "as a competent person", func() error { _, err := a.Correct(ctx, climber, own.ID, &thorough, "no"); return err })
	refused(t, a, store, "a look that is to come", Invalid, "future", func() error { _, err := a.Correct(ctx, climber, own.ID, &late, "no"); return err })
	at := a.clock
	a.clock = func() time.Time { return at().AddDate(0, 0, 1) }
	refused(t, a, store, "the day after", Refused, "as a competent person", func() error { _, err := a.Correct(ctx, climber, own.ID, nil, "no"); return err })
	a.clock = at
	for name, w := range map[string]Written{"look": own, "hanging": must(t)(a.Hang(ctx, climber, id, today, hang)), "use": must(t)(a.PlanUse(ctx, climber, id, use, ""))} {
		if _, err := a.Correct(ctx, climber, w.ID, nil, "a slip"); err != nil {
			t.Errorf("their own %s: %v", name, err)
		}
	}
	for name, w := range entries {
		if _, err := a.Correct(ctx, Who{Person: "p1"}, w.ID, nil, "another piece"); err != nil {
			t.Errorf("%s, by who may: %v", name, err)
		}
	}
}

// TestKindStays: a piece stays of the kind it was registered as, and what is known of
// it is changed by a competent person; a wrong kind is corrected where it was entered.
func TestKindStays(t *testing.T) {
	a, store, r := taken(t)
	who, id := Who{Person: "p1"}, r.Piece.ID
	p, other, renamed := r.Piece, r.Piece, r.Piece
	p.Words = "blue, label worn off"
	other.Kind, renamed.ID = "line", "ZZ-99"
	amend := func(who Who, p kit.Piece) error { _, err := a.AmendPiece(ctx, who, p, "worn off"); return err }
	refused(t, a, store, "by a climber", Refused, "this is for one", func() error { return amend(Who{Person: "c1"}, p) })
	refused(t, a, store, "another kind", Invalid, "a kind stays", func() error { return amend(who, other) })
	w := must(t)(a.AmendPiece(ctx, who, p, "worn off"))
	for name, to := range map[string]*kit.Piece{"a kind stays": &other, "an id stays": &renamed} {
		refused(t, a, store, "an amend corrected", Invalid, name, func() error {
			_, err := a.Correct(ctx, who, w.ID, &fold.Amend{Piece: record.EncodePiece(to), Why: "w"}, "no")
			return err
		})
	}
	var registered entry.ID
	if err := a.Look(ctx, func(s *fold.State, _ book.Head) error { registered = s.Piece(id).Lines[0].ID; return nil }); err != nil {
		t.Fatal(err)
	}
	refused(t, a, store, "the registration while it is amended", Invalid, "strike those entries first", func() error {
		_, err := a.Correct(ctx, who, registered, &kit.Piece{ID: id, Kind: "line", Marking: p.Marking, Origin: p.Origin, History: p.History, Made: p.Made, FirstUse: p.FirstUse}, "it is a line")
		return err
	})
}

// TestCorrectedLikeEntered: what stands instead of an entry is refused where it could
// not have been entered in that place.
func TestCorrectedLikeEntered(t *testing.T) {
	a, store, r := taken(t)
	who, id, today := Who{Person: "p1"}, r.Piece.ID, a.Today()
	correct := func(w Written, instead any) func() error {
		return func() error { _, err := a.Correct(ctx, who, w.ID, instead, "no"); return err }
	}
	fall := kit.Event{Day: today, Event: "dropped", Travel: -1, Peak: -1}
	event := must(t)(a.Happen(ctx, who, id, fall))
	fall.Day += 2
	refused(t, a, store, "an event to come", Invalid, "future", correct(event, &fall))
	hang := must(t)(a.Hang(ctx, who, id, today, fold.Hang{Place: "van"}))
	refused(t, a, store, "held by nobody known", NotFound, "nobody-here", correct(hang, &fold.Hang{Holder: "nobody-here"}))
	fit := must(t)(a.Fit(ctx, who, id, today, fold.Fit{Allowed: kit.NotKnown}))
	refused(t, a, store, "fitted to what is not there", Invalid, "register what it is fitted to first", func() error {
		_, err := a.Fit(ctx, who, id, today, fold.Fit{In: "HA-03", Allowed: kit.SaidYes})
		return err
	})
	refused(t, a, store, "corrected to what is not there", Invalid, "register what it is fitted to first", correct(fit, &fold.Fit{In: "HA-03", Allowed: kit.SaidYes}))
	refused(t, a, store, "fitted to itself", Invalid, "to itself", correct(fit, &fold.Fit{In: id, Allowed: kit.SaidYes}))
	aside := must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "set aside", Why: "x"}))
	hold := must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "hold", Why: "an injury"}))
	refused(t, a, store, "a held one, cut up", Invalid, "withdraw it first", correct(aside, &fold.Stop{What: "cut up", Why: "x"}))
	refused(t, a, store, "held, made a release", Invalid, "not held", correct(hold, &fold.Stop{What: "release", Why: "x", Document: "d"}))
	if _, err := a.Correct(ctx, who, hold.ID, &fold.Stop{What: "hold", Why: "an injury to an arm"}, "in more words"); err != nil {
		t.Errorf("the reason alone: %v", err)
	}
	second := must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "hold", Why: "again"}))
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "hold", Why: "and again"}))
	refused(t, a, store, "held, cut up by a correction", Refused, "is held", correct(second, &fold.Stop{What: "cut up", Why: "x"}))
	release := must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "release", Why: "x", Document: "a letter"}))
	refused(t, a, store, "a release without its document", Invalid, "Name the document", correct(release, &fold.Stop{What: "release", Why: "x"}))
	later := must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "hold", Why: "asked for anew"}))
	must(t)(a.Stop(ctx, who, id, today, fold.Stop{What: "hold", Why: "by the insurer too"}))
	refused(t, a, store, "cut up in its place, held since", Refused, "is held", correct(later, &fold.Stop{What: "cut up", Why: "x"}))
	moved := fall
	moved.Day = today
	if _, err := a.Correct(ctx, who, event.ID, &moved, "as it was"); err != nil {
		t.Errorf("an event of a piece that is out of use: %v", err)
	}
}

// TestYardIsNotLocked: the first person of a yard is competent, and the last one is not
// corrected away, nor sent away tomorrow.
func TestYardIsNotLocked(t *testing.T) {
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	a := New(Config{Store: store, Keys: keys, Tables: tables.Default(), Yard: "q", Device: "b"})
	refused(t, a, store, "first a climber", Invalid, "first person of a yard", func() error {
		_, err := a.EnterPerson(ctx, Who{Person: "c1"}, Member{Person: kit.Person{ID: "c1", Role: "climber"}})
		return err
	})
	first := must(t)(a.EnterPerson(ctx, Who{Person: "p1"}, Member{Person: kit.Person{ID: "p1", Role: "examiner"}}))
	refused(t, a, store, "the last one struck", Refused, "last competent person", func() error { _, err := a.Correct(ctx, Who{Person: "p1"}, first.ID, nil, "oops"); return err })
	refused(t, a, store, "the last one made a climber", Refused, "last competent person", func() error {
		p := kit.Person{ID: "p1", Role: "climber"}
		_, err := a.Correct(ctx, Who{Person: "p1"}, first.ID, &fold.Person{Person: record.EncodePerson(&p)}, "oops")
		return err
	})
	refused(t, a, store, "the last one gone tomorrow", Refused, "last competent person", func() error {
		_, err := a.EnterPerson(ctx, Who{Person: "p1"}, Member{Person: kit.Person{ID: "p1", Role: "examiner"}, Left: true, From: a.Today() + 1})
		return err
	})
	must(t)(a.EnterPerson(ctx, Who{Person: "p1"}, Member{Person: kit.Person{ID: "p2", Role: "competent person"}}))
	if _, err := a.Correct(ctx, Who{Person: "p1"}, first.ID, nil, "was entered twice"); err != nil {
		t.Error(err)
	}
}

// TestRolesAndRates: another role, rates, and who left or is back, is for a competent
// person; what is not said of a role or of rates stays as it is on record.
func TestRolesAndRates(t *testing.T) {
	a, store, _ := taken(t)
	who, climber, today := Who{Person: "p1"}, Who{Person: "c1"}, a.Today()
	rates := map[kit.LookID]kit.Rate{kit.Eye: {Share: 0.2, From: "a board"}}
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p3", Role: "examiner"}, From: today - 20}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "c2", Role: "climber"}, From: today - 20}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "c2", Role: "climber", Kappa: rates}, From: today - 10}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "c3", Role: "climber"}, From: today - 20}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "c3", Role: "climber"}, Left: true, From: today - 10}))
	for name, m := range map[string]Member{
		"takes a role":                {Person: kit.Person{ID: "p3", Role: "climber"}},
		"sends an examiner away":      {Person: kit.Person{ID: "p3", Role: "climber"}, Left: true},
		"sends a climber away":        {Person: kit.Person{ID: "c2"}, Left: true, Keep: true},
		"has somebody back":           {Person: kit.Person{ID: "c3", Role: "climber"}},
		"drops rates":                 {Person: kit.Person{ID: "c2", Role: "climber"}},
		"drops rates from before":     {Person: kit.Person{ID: "c2", Role: "climber"}, From: today - 15},
		"says other rates":            {Person: kit.Person{ID: "c1", Role: "climber", Kappa: rates}},
		"gives rates to who is new":   {Person: kit.Person{ID: "c9", Role: "climber", Kappa: rates}},
		"makes a storekeeper of them": {Person: kit.Person{ID: "c2", Role: "storekeeper", Kappa: rates}},
	} {
		refused(t, a, store, name, Refused, "this is for one", func() error { _, err := a.EnterPerson(ctx, climber, m); return err })
	}
	must(t)(a.EnterPerson(ctx, Who{Person: "c2"}, Member{Person: kit.Person{ID: "c2"}, Keep: true, Private: fold.Private{Contact: "5"}}))
	if k, err := a.Known(ctx, "c2"); err != nil || k.Kappa[kit.Eye] != rates[kit.Eye] || k.Role != "climber" || !k.Contact {
		t.Errorf("%+v, %v", k, err)
	}
	// Who is an examiner no longer does not become one again by a telephone number.
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p3", Role: "climber"}, From: today - 1}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "p3"}, Keep: true, Private: fold.Private{Contact: "5"}}))
	if _, err := a.SetLimit(ctx, Who{Person: "p3"}, "1 in 2000", "w"); code(err) != Refused {
		t.Errorf("p3 examines again: %v", err)
	}
}

// TestHandedToWhoLeft: nothing is handed to who has left, though that somebody held it
// until then is still entered when it is on record who had it next.
func TestHandedToWhoLeft(t *testing.T) {
	a, store, r := taken(t)
	who, id, today := Who{Person: "p1"}, r.Piece.ID, a.Today()
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "c3", Role: "climber"}, From: today - 20}))
	must(t)(a.EnterPerson(ctx, who, Member{Person: kit.Person{ID: "c3", Role: "climber"}, Left: true, From: today - 10}))
	hang := func(on int) error {
		_, err := a.Hang(ctx, who, id, today+qty.Day(on), fold.Hang{Holder: "c3"})
		return err
	}
	refused(t, a, store, "today", Refused, "has left the yard", func() error { return hang(0) })
	refused(t, a, store, "after they left", Refused, "has left the yard", func() error { return hang(-5) })
	must(t)(a.Hang(ctx, who, id, today, fold.Hang{Place: "van"}))
	refused(t, a, store, "after they left, held by another since", Refused, "has left the yard", func() error { return hang(-5) })
	if err := hang(-15); err != nil {
		t.Errorf("before they left, held by another since: %v", err)
	}
}

// TestLostKey: where the key of somebody is lost, what is said of them anew is refused
// and no second key is made; with the key put back it goes in. Who was forgotten gets
// none, also where every trace of their key is gone.
func TestLostKey(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "keys")
	keys, err := seal.NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	a := New(Config{Store: store, Keys: keys, Tables: tables.Default(), Yard: "q", Device: "b"})
	tell := func(id, mass string) error {
		_, err := a.EnterPerson(ctx, Who{Person: "p1"}, Member{Person: kit.Person{ID: id, Role: "examiner"}, Private: fold.Private{Mass: mass}})
		return err
	}
	for _, id := range []string{"p1", "p2"} {
		if err := tell(id, "82kg"); err != nil {
			t.Fatal(err)
		}
	}
	files, err := filepath.Glob(filepath.Join(dir, "*.key"))
	if err != nil || len(files) != 2 {
		t.Fatal(files, err)
	}
	kept, err := os.ReadFile(files[1])
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(files[1]); err != nil {
		t.Fatal(err)
	}
	refused(t, a, store, "lost", Refused, "put the file back", func() error { return tell("p2", "83kg") })
	if _, err := os.Stat(files[1]); err == nil {
		t.Error("a second key was made")
	}
	if err := os.WriteFile(files[1], kept, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := tell("p2", "83kg"); err != nil {
		t.Errorf("put back: %v", err)
	}
	must(t)(a.ForgetPerson(ctx, Who{Person: "p1"}, "p2", "asked for it"))
	if err := os.Remove(files[1]); err != nil {
		t.Fatal(err)
	}
	refused(t, a, store, "forgotten", Refused, "has been forgotten", func() error { return tell("p2", "84kg") })
}
