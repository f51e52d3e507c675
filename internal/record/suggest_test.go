package record

import "testing"

func TestSuggest(t *testing.T) {
	ids := []string{"glazed-hard", "grey", "soft-place", "cut", "core-visible", "cover-loose", "end A", "end B", "light-fuzz", "heavy-fuzz"}
	for typed, want := range map[string]string{
		"glazed":      "glazed-hard",
		"Glazed_Hard": "glazed-hard",
		"gray":        "grey",
		"soft place":  "soft-place",
		"soft":        "soft-place",
		"softplace":   "soft-place",
		"cuts":        "cut",
		"corevisible": "core-visible",
		"cover loos":  "cover-loose",
		"end-a":       "end A",
		"End B":       "end B",
		"ligth-fuzz":  "light-fuzz",
		"xyz":         "",
		"":            "",
		"q":           "",
	} {
		if got := suggest(typed, ids); got != want {
			t.Errorf("%q: got %q, want %q", typed, got, want)
		}
	}
}

// More ids than fit a line are not listed but said where to find.
func TestManyChoices(t *testing.T) {
	s := set{noun: "sign of the kind “bridge”", where: "`kernbook decide --new bridge` lists them"}
	for i := range 25 {
		s.ids = append(s.ids, "sign-"+string(rune('a'+i)))
	}
	what, mend := s.wrong("sing-b")
	if what != "“sing-b” is no sign of the kind “bridge”; did you mean “sign-b”?" || mend != "correct it; `kernbook decide --new bridge` lists them" {
		t.Errorf("%s — %s", what, mend)
	}
}
