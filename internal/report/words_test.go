package report_test

import (
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/lang"
)

// placeArgs are the values of the core that the report puts into "where".
var placeArgs = []string{"part", "whole", "from", "to", "sides"}

// TestValuesOfTheCore: over samples that between them meet every message of the
// core, each value that comes is shown or left out on purpose, each that is
// needed comes, and none is said to be left out that never comes.
func TestValuesOfTheCore(t *testing.T) {
	c := lang.English()
	met := map[string]bool{}
	unsaidMet := map[string]map[string]bool{}
	check := func(sample, key string, args []criteria.Arg, words string, placed bool) {
		met[key] = true
		shown, needed := c.Places(key)
		unsaid := c.Unsaid(key)
		if unsaidMet[key] == nil {
			unsaidMet[key] = map[string]bool{}
		}
		has := map[string]bool{"verdict": true, "do": true, "what": words != "", "where": placed}
		for _, a := range args {
			has[a.Name] = has[a.Name] || a.Value != ""
			switch {
			case a.Value == "":
			case slices.Contains(unsaid, a.Name):
				unsaidMet[key][a.Name] = true
				if slices.Contains(shown, a.Name) {
					t.Errorf("%s: %s is both shown and unsaid", key, a.Name)
				}
			case slices.Contains(shown, a.Name):
			case slices.Contains(placeArgs, a.Name) && slices.Contains(shown, "where"):
			default:
				t.Errorf("%s: %s has the value %s=%q, which its words neither show nor leave out on purpose", sample, key, a.Name, a.Value)
			}
		}
		for _, name := range needed {
			if !has[name] && !hasNotSaid(c, key, name) {
				t.Errorf("%s: %s needs the value %s, which does not come", sample, key, name)
			}
		}
	}
	for _, s := range samples() {
		for i := range s.o.Reasons {
			r := &s.o.Reasons[i]
			_, from := find(r.Args, "to"), find(r.Args, "from")
			check(s.name, r.Key, r.Args, r.Words, len(r.At) > 0 || from != "" || find(r.Args, "part") != "" || find(r.Args, "whole") != "")
		}
		for i := range s.o.Told.Changes {
			ch := &s.o.Told.Changes[i]
			check(s.name, ch.Key, ch.Args, "", true)
		}
		for _, due := range []*criteria.Due{&s.o.Due, &s.o.LifeEnd} {
			for _, b := range append([]criteria.Bound{due.Bound}, due.Others...) {
				if b.Known || b.Key == "life.none" || b.Key == "interval.none" || b.Key == "interval.occasion" || b.Key == "interval.never-examined" {
					check(s.name, b.Key, b.Args, b.Words, false)
				}
			}
		}
	}
	for _, key := range c.Core() {
		if !met[key] {
			t.Errorf("no sample meets %s", key)
			continue
		}
		for _, name := range c.Unsaid(key) {
			if !unsaidMet[key][name] {
				t.Errorf("%s: %s is said to be left out, and never comes", key, name)
			}
		}
	}
}

// hasNotSaid says whether a place has words for a value that is not said.
func hasNotSaid(c *lang.Catalogue, key, name string) bool {
	empty := c.Say(key, criteria.Arg{Name: name})
	return !strings.Contains(empty, "no value for "+name+"⟧")
}

func find(args []criteria.Arg, name string) string {
	for _, a := range args {
		if a.Name == name {
			return a.Value
		}
	}
	return ""
}
