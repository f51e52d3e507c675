package main

import (
	"strings"
	"testing"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/report"
)

// TestToDoSaysWhy: the line of a piece that is set aside says its first reason, whatever
// is to be done about it.
func TestToDoSaysWhy(t *testing.T) {
	one := []report.Open{{Say: "Measure it."}}
	soft := fold.Stopped{Aside: true}
	soft.Why = "Soft"
	for name, c := range map[string]struct {
		card  app.Card
		short report.Short
		want  string // "" for no reason
		then  string
	}{
		"undecided":            {app.Card{ID: "A", Verdict: kit.SetAside, Undecided: true}, report.Short{Reasons: []string{"The cover is cut."}}, "The cover is cut. ", "kernbook examine decide A"},
		"one thing":            {app.Card{ID: "A", Verdict: kit.SetAside}, report.Short{Reasons: []string{"The cover is cut."}, Open: one}, "The cover is cut. ", "Measure it."},
		"two things":           {app.Card{ID: "A", Verdict: kit.SetAside}, report.Short{Reasons: []string{"The cover is cut."}, Open: append(one, one...)}, "The cover is cut. ", "Measure it. And 1 more"},
		"by people, undecided": {app.Card{ID: "A", Undecided: true, Stopped: soft}, report.Short{}, "Soft. ", "kernbook examine decide A"},
		"in use":               {app.Card{ID: "A", Undecided: true}, report.Short{Reasons: []string{"Greyer."}}, "", "kernbook examine decide A"},
	} {
		got := toDo(&c.card, c.short)
		if !strings.HasPrefix(got, c.want) || !strings.Contains(got, c.then) || c.want == "" && strings.Contains(got, c.short.Reasons[0]) {
			t.Errorf("%s: %q", name, got)
		}
	}
}
