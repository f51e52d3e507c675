package fold

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/record"
)

func day(s string) qty.Day {
	d, err := qty.ParseDate(s)
	if err != nil {
		panic(err)
	}
	return d.Earliest()
}

var bridge = kit.Piece{ID: "BR-1", Kind: kit.Bridge, Marking: "readable", Origin: "new", History: "known", Length: 900 * qty.Millimetre}

// bodies is one body of every kind, with something in every field of our own structs.
func bodies() map[entry.Kind]any {
	piece := json.RawMessage(record.EncodePiece(&bridge))
	use := kit.Use{From: day("2026-01-05"), Week: 25 * qty.Hour, Weekdays: [8]bool{1: true, 3: true}, Dirt: "clean"}
	person := kit.Person{ID: "p1", Role: "climber"}
	exam := kit.Examination{Kind: kit.Interim, Day: day("2026-03-01"), By: "p1", WouldClimb: kit.SaidYes, Looks: []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}}
	return map[entry.Kind]any{
		entry.Yard:  &kit.Yard{Name: "Quillbrook", Country: "GB"},
		entry.Limit: &Limit{"1 in 2000", "stricter"}, entry.Person: &Person{record.EncodePerson(&person), true, "box"}, entry.Forget: &Forget{"p1", "asked"},
		entry.Piece: &bridge, entry.Amend: &Amend{piece, "label gone"}, entry.Use: &Use{record.EncodeUse(&use), "p1"},
		entry.Run:         &kit.Run{Kind: kit.PreUse, By: "p1", From: day("2026-01-05"), To: day("2026-02-01"), Weekdays: [8]bool{1: true}, Looks: exam.Looks},
		entry.Examination: &exam, entry.Event: &kit.Event{Day: day("2026-02-01"), Event: "saw-contact", Travel: -1, Peak: -1},
		entry.Answer:  &kit.Answer{Day: day("2026-02-02"), To: "x", Verified: "seen", By: "p1"},
		entry.Washing: &Washing{"water", "oil", kit.SaidYes, "dried"}, entry.Change: &kit.Change{Day: day("2026-02-03"), What: "re-tied end A", By: "p1"},
		entry.Fit: &Fit{"HA-1", kit.SaidYes, "page 3"}, entry.Hang: &Hang{"p1", "van"}, entry.Stop: &Stop{"withdraw", "saw", "note 3"},
		entry.Correct: &Correct{entry.MakeID(5, [10]byte{}).String(), "wrong piece", json.RawMessage(`{"event":"saw"}`)},
		entry.Decision: &Decision{"2026-03-01", "E1", "keep", "why", "2026-09-01", strings.Repeat("a", 64), "keep", strings.Repeat("b", 64), 154, []string{"M-27"},
			Report{"1", "e", "p", "scheme", "l", "t", "d", "r", true, "n", "a", "q", true, "b", []Defect{{"d2", "r2", true, ""}, {"d3", "", false, "b3"}}}},
	}
}

// TestOldBodies: bodies as they were written before fields were added are still
// read, and written again with the same bytes.
func TestOldBodies(t *testing.T) {
	for k, b := range map[entry.Kind]string{
		entry.Decision: `{"as_of":"2026-03-01","examination":"E1","verdict":"keep","why":"why","latest":"2026-09-01","record":"` + strings.Repeat("a", 64) + `","outcome":"keep","outcome_sum":"` + strings.Repeat("b", 64) +
			`","millions":154,"reasons":["M-27"],"report":{"number":"1","employer":"e","premises":"p","occasion":"scheme","load":"l","tests":"t","defect":"d","repair":"r","immediate":true,"not_looked":"n","authentic":"a","qualified":"q","self_employed":true}}`,
		entry.Piece: `{"id":"BR-1","kind":"bridge","maker":"m","model":"x","marking":"readable","origin":"new","history":"known","made":"unknown","first_use":"unknown","length":"900 mm","diameter":"unknown"}`,
	} {
		v, err := Decode(k, 1, []byte(b))
		if err != nil {
			t.Errorf("%s: %v", k, err)
			continue
		}
		if got := string(Encode(v)); got != b {
			t.Errorf("%s:\n%s\nis written as\n%s", k, b, got)
		}
	}
	if got := string((&Private{Name: "n", Mass: "82kg", Contact: "c"}).encode()); got != `{"name":"n","mass":"82kg","contact":"c"}` {
		t.Errorf("sealed: %s", got)
	}
}

// TestBodies: the body of every kind comes back as it was, in one form only.
func TestBodies(t *testing.T) {
	all := bodies()
	for _, k := range entry.Kinds {
		v := all[k]
		if v == nil {
			t.Errorf("no body of the kind “%s” is tried", k)
			continue
		}
		b := Encode(v)
		if err := entry.Canonical(b); err != nil {
			t.Errorf("%s: %s %v", k, b, err)
		}
		back, err := Decode(k, 1, b)
		if err != nil {
			t.Errorf("%s: %v\n%s", k, err, b)
			continue
		}
		if d := cmp.Diff(v, back); d != "" {
			t.Errorf("%s (-want +got):\n%s", k, d)
		}
		for _, bad := range [][]byte{bytes.Replace(b, []byte(`":`), []byte(`": `), 1), append(bytes.TrimSuffix(b, []byte("}")), `,"more":1}`...), []byte("{}"), []byte("[]"), nil} {
			if k == entry.Fit && string(bad) == "{}" { // taken out of everything
				continue
			}
			if _, err := Decode(k, 1, bad); err == nil {
				t.Errorf("%s: takes %s", k, bad)
			}
		}
		if _, err := Decode(k, 2, b); err == nil || !strings.Contains(err.Error(), "later kernbook") {
			t.Errorf("%s in version 2: %v", k, err)
		}
		// Every field of our own structs is written: a field that is forgotten in
		// encode would be lost without a word.
		if own := reflect.ValueOf(v).Elem(); own.Type().PkgPath() == reflect.TypeOf(Limit{}).PkgPath() {
			for i := range own.NumField() {
				if own.Field(i).IsZero() {
					t.Errorf("%s: the field %s is not tried", k, own.Type().Field(i).Name)
				}
			}
		}
	}
}

// teller writes leaves one after the other.
type teller struct{ n int64 }

func (w *teller) leaf(k entry.Kind, piece, on string, v any) *entry.Leaf {
	w.n++
	return &entry.Leaf{Recorded: "2026-06-01T06:31:02.123Z", Entry: entry.Entry{Yard: "y", ID: entry.MakeID(w.n, [10]byte{}), Kind: k, Version: 1, Day: day(on),
		Wall: "2026-06-01T07:31:00+01:00", Author: "p1", Piece: piece, Body: Encode(v)}}
}

// TestWhatCannotBeTaken: an entry that does not go with the book before it is
// among the faulty ones, and the piece it is about has no record any more; where it is
// about the yard or its people, no piece has.
func TestWhatCannotBeTaken(t *testing.T) {
	all := bodies()
	described := func(id string, kind kit.KindID) []byte {
		p := *all[entry.Piece].(*kit.Piece)
		p.ID, p.Kind = id, kind
		return record.EncodePiece(&p)
	}
	for _, c := range []struct {
		name, why string
		tell      func(w *teller, s *State)
		stops     bool
	}{
		{"of no piece", "no piece “BR-9”", func(w *teller, s *State) { s.Apply(w.leaf(entry.Event, "BR-9", "2026-02-01", all[entry.Event])) }, false},
		{"a piece twice", "already", func(w *teller, s *State) { s.Apply(w.leaf(entry.Piece, "BR-1", "2026-02-01", all[entry.Piece])) }, true},
		{"an id twice", "twice", func(w *teller, s *State) { w.n--; s.Apply(w.leaf(entry.Event, "BR-1", "2026-02-01", all[entry.Event])) }, true},
		{"another piece in its body", "its body is about", func(w *teller, s *State) { s.Apply(w.leaf(entry.Piece, "BR-2", "2026-02-01", all[entry.Piece])) }, false},
		{"a correction of nothing", "no entry", func(w *teller, s *State) { s.Apply(w.leaf(entry.Correct, "BR-1", "2026-02-01", all[entry.Correct])) }, true},
		{"forgetting nobody", "nobody", func(w *teller, s *State) { s.Apply(w.leaf(entry.Forget, "", "2026-02-01", &Forget{"p9", "w"})) }, true},
		{"a limit that is none", "no limit", func(w *teller, s *State) {
			l := w.leaf(entry.Limit, "", "2026-02-01", &Limit{"one in a hundred", ""})
			s.Apply(l)
		}, true},
		{"a yard that cannot be read", "is given twice", func(w *teller, s *State) {
			l := w.leaf(entry.Yard, "", "2026-02-01", all[entry.Yard])
			l.Entry.Body = []byte(`{"name":"Q","name":"R"}`)
			s.Apply(l)
		}, true},
		{"an amend that is about another", "an id stays", func(w *teller, s *State) {
			s.Apply(w.leaf(entry.Amend, "BR-1", "2026-02-01", &Amend{described("BR-2", "bridge"), "w"}))
		}, true},
		{"an amend that makes it another kind", "a kind stays", func(w *teller, s *State) {
			s.Apply(w.leaf(entry.Amend, "BR-1", "2026-02-01", &Amend{described("BR-1", "line"), "w"}))
		}, true},
		{"taking a piece out", "cannot be taken out", func(w *teller, s *State) {
			s.Apply(w.leaf(entry.Correct, "BR-1", "2026-02-01", &Correct{entry.MakeID(1, [10]byte{}).String(), "w", nil}))
		}, true},
	} {
		s, w := New(), &teller{}
		s.Apply(w.leaf(entry.Piece, "BR-1", "2026-01-05", all[entry.Piece]))
		if len(s.Faulty) > 0 {
			t.Fatal(s.Faulty)
		}
		c.tell(w, s)
		if len(s.Faulty) != 1 || !strings.Contains(s.Faulty[0].Why, c.why) {
			t.Errorf("%s: %v", c.name, s.Faulty)
			continue
		}
		if _, err := s.Record(s.Piece("BR-1"), day("2026-06-01"), nil); (err != nil) != c.stops {
			t.Errorf("%s: the record gives %v", c.name, err)
		}
		if c.stops && s.Last(s.Piece("BR-1")) != s.Faulty[0].Index {
			t.Errorf("%s: an outcome from before it would still be shown", c.name)
		}
		if _, err := s.With(w.leaf(entry.Event, "BR-1", "2026-02-02", all[entry.Event]), day("2026-06-01"), nil); (err != nil) != c.stops {
			t.Errorf("%s: tried with one more entry: %v", c.name, err)
		}
	}
}

// TestRecordOfADay: what is said from a later day on does not count before it;
// corrections count from the beginning; a washing tells looks apart.
func TestRecordOfADay(t *testing.T) {
	all := bodies()
	s, w := New(), &teller{}
	person := kit.Person{ID: "p1", Role: "climber"}
	s.Apply(w.leaf(entry.Person, "", "2026-01-01", &Person{record.EncodePerson(&person), false, ""}))
	person.Role = "examiner"
	s.Apply(w.leaf(entry.Person, "", "2026-03-01", &Person{record.EncodePerson(&person), false, ""}))
	s.Apply(w.leaf(entry.Piece, "BR-1", "2026-01-05", all[entry.Piece]))
	s.Apply(w.leaf(entry.Limit, "", "2026-03-01", &Limit{"1 in 2000", "w"}))
	s.Apply(w.leaf(entry.Fit, "BR-1", "2026-01-06", &Fit{"HA-1", kit.SaidYes, "page 3"}))
	s.Apply(w.leaf(entry.Fit, "BR-1", "2026-05-01", &Fit{"HA-2", kit.NotKnown, ""}))
	s.Apply(w.leaf(entry.Hang, "BR-1", "2026-01-06", &Hang{"p1", ""}))
	wrong := w.leaf(entry.Event, "BR-1", "2026-02-01", all[entry.Event])
	s.Apply(wrong)
	s.Apply(w.leaf(entry.Correct, "BR-1", "2026-02-02", &Correct{wrong.Entry.ID.String(), "another piece", nil}))
	s.Apply(w.leaf(entry.Examination, "BR-1", "2026-03-01", all[entry.Examination]))
	s.Apply(w.leaf(entry.Washing, "BR-1", "2026-03-01", &Washing{With: "water", Clean: kit.SaidYes}))
	s.Apply(w.leaf(entry.Examination, "BR-1", "2026-03-01", all[entry.Examination]))
	if len(s.Faulty) > 0 {
		t.Fatal(s.Faulty)
	}
	of := func(on string) *kit.Record {
		r, err := s.Record(s.Piece("BR-1"), day(on), nil)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	early, late := of("2026-02-15"), of("2026-06-01")
	if early.Piece.Fitted.In != "HA-1" || late.Piece.Fitted.In != "HA-2" {
		t.Errorf("fitted in %q and then %q", early.Piece.Fitted.In, late.Piece.Fitted.In)
	}
	if early.Yard.Limit != 0 || late.Yard.Limit != 500 {
		t.Errorf("limit %d and then %d millionths", early.Yard.Limit, late.Yard.Limit)
	}
	if len(late.Events) != 0 {
		t.Errorf("the wrong entry still counts: %v", late.Events)
	}
	if p := late.People[0]; p.Role != "examiner" || p.Since != day("2026-03-01") || !p.Holds {
		t.Errorf("p1 is told as %+v", p)
	}
	if early.People[0].Role != "climber" {
		t.Errorf("p1 was %s", early.People[0].Role)
	}
	if e := late.Examinations; len(e) != 2 || e[0].Looks[0].AfterWash || !e[1].Looks[0].AfterWash {
		t.Errorf("looks before and after the washing: %+v", e)
	}
}
