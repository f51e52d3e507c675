package record

import (
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/tables"
)

// TestCalledByOtherNames: what a climber calls a kind, a country or an answer
// leads to the word that the record takes.
func TestCalledByOtherNames(t *testing.T) {
	tb := tables.Default()
	for name, id := range calledKinds {
		if tb.Kind(kit.KindID(id)) == nil {
			t.Errorf("%s is called %s, which is no kind", name, id)
		}
	}
	for name, id := range calledSubstances {
		if !slices.ContainsFunc(tb.Contaminants, func(c table.Contaminant) bool { return c.ID == id }) || slices.ContainsFunc(tb.Contaminants, func(c table.Contaminant) bool { return c.ID == name }) {
			t.Errorf("%s is called %s, which is no contaminant, or is one itself", name, id)
		}
	}
	for _, c := range []struct{ line, want string }{
		{`kind = "rope"`, "did you mean “line”?"},
		{`kind = "Karabiner"`, "did you mean “connector”?"},
		{`country = "Germany"`, "did you mean “DE”?"},
		{`look = "feel"`, "did you mean “hand”?"},
		{`fibre = "polyester"`, "did you mean “pes”?"},
		{`fibre = "nylon"`, "did you mean “pa”?"},
		{`country = "UK"`, "did you mean “GB”?"},
		{`country = "United States"`, "did you mean “US”?"},
		{`would_climb = "No"`, "did you mean “no”?"},
	} {
		key, _, _ := strings.Cut(c.line, " ")
		text := "format = \"kernbook record 1\"\n[yard]\n[piece]\n[[piece.layer]]\n[[examination]]\n[[examination.look]]\n"
		at := map[string]string{"kind": "[piece]\n", "country": "[yard]\n", "would_climb": "[[examination]]\n", "look": "[[examination.look]]\n", "fibre": "[[piece.layer]]\n"}[key]
		_, faults := Decode("r.toml", []byte(strings.Replace(text, at, at+c.line+"\n", 1)), tb)
		found := false
		for _, f := range faults {
			found = found || strings.HasSuffix(f.Field, key) && strings.Contains(f.What, c.want)
		}
		if !found {
			t.Errorf("%s: no fault of it says %q:\n%v", c.line, c.want, faults)
		}
	}
	_, faults := Decode("r.toml", []byte("[[examination]]\n[examination.conditions]\nlight = \"\"\n"), tb)
	if !strings.Contains(faults.Error(), `light: is not filled in — write one of "good", "poor" or "dark"; taken out, it counts as the worst`) {
		t.Errorf("what a condition left out means is not said:\n%v", faults)
	}
	b, err := New(kit.Bridge, tb, qty.PartialDate{})
	if err != nil || !strings.Contains(string(b), `"DE" (Germany)`) {
		t.Errorf("a record to fill in does not name the countries (%v)", err)
	}
}
