package fold

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/record"
)

// written are bodies of every kind that can be written anew.
func written() map[entry.Kind]any {
	day := qty.Day(20_000)
	return map[entry.Kind]any{
		entry.Piece: &kit.Piece{ID: "BR-1", Kind: kit.Bridge, Marking: "readable", Origin: "new", History: "known", Length: 900 * qty.Millimetre,
			Layers: []kit.Layer{{Name: "cover", Fibre: "pes"}}, Fitted: kit.Fitted{In: "HA-1", Allowed: kit.SaidYes}},
		entry.Examination: &kit.Examination{Ref: "E-1", Kind: kit.Thorough, Day: day, By: "p1", Looks: []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}},
			Signs: []kit.Sign{{Ref: "s", Sign: "grey", State: kit.FirstSeen, By: "p1", At: kit.Place{From: 300 * qty.Millimetre, To: 310 * qty.Millimetre}}}},
		entry.Run:   &kit.Run{Kind: kit.PreUse, By: "p1", From: day, To: day + 3, Weekdays: [8]bool{1: true}, Looks: []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}}},
		entry.Event: &kit.Event{Day: day, Event: "spill", Travel: -1, Peak: -1, Substance: "chain-oil"}, entry.Answer: &kit.Answer{Day: day, To: "s", By: "p1", Verified: "washed off"},
		entry.Change: &kit.Change{Day: day, What: "shortened at end A", Length: 20 * qty.Millimetre, By: "p1"},
		entry.Amend:  &Amend{Piece: record.EncodePiece(&kit.Piece{ID: "BR-1", Kind: kit.Bridge, Marking: "partly", Origin: "new", History: "known"}), Why: "worn"},
		entry.Use:    &Use{Use: record.EncodeUse(&kit.Use{From: day, Week: 9 * qty.Hour, Weekdays: [8]bool{1: true}}), Of: "p2"}, entry.Washing: &Washing{With: "soap", Clean: kit.SaidYes},
		entry.Fit: &Fit{In: "HA-1", Allowed: kit.SaidYes}, entry.Hang: &Hang{Holder: "p2"}, entry.Stop: &Stop{What: "set aside", Why: "rough"},
	}
}

// TestReadInAnyLayout: a body laid out to be read, its keys in another order,
// reads to the same bytes; what it must not hold is refused all the same.
func TestReadInAnyLayout(t *testing.T) {
	for k, v := range written() {
		want := Encode(v)
		if _, err := Decode(k, 1, want); err != nil {
			t.Fatalf("%s: %v", k, err)
		}
		var tree map[string]any
		if err := json.Unmarshal(want, &tree); err != nil {
			t.Fatal(err)
		}
		sorted, err := json.MarshalIndent(tree, " ", "\t") // sorts the keys
		if err != nil {
			t.Fatal(err)
		}
		got, err := Read(k, sorted)
		if err != nil {
			t.Errorf("%s: %v\n%s", k, err, sorted)
			continue
		}
		if b := Encode(got); !bytes.Equal(b, want) {
			t.Errorf("%s: read as\n%s\nwant\n%s", k, b, want)
		}
		for name, bad := range map[string]string{"an unknown key": strings.Replace(string(want), "{", `{"surely":1,`, 1), "something behind it": string(want) + "x", "half of it": string(want[:len(want)-1]), "nothing": ""} {
			if v, err := Read(k, []byte(bad)); err == nil {
				t.Errorf("%s with %s is read as %s", k, name, Encode(v))
			}
		}
	}
	for _, k := range []entry.Kind{entry.Person, entry.Decision, entry.Correct, entry.Yard, entry.Limit, entry.Forget} {
		if _, err := Read(k, []byte("{}")); err == nil || !strings.Contains(err.Error(), "not written anew") {
			t.Errorf("%s: %v", k, err)
		}
	}
}
