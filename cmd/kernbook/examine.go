package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/yard"
)

func newExamine() *cobra.Command {
	return group("examine", "Enter examinations, and decide on them", examineAdd(), examineDecide())
}

func examineAdd() *cobra.Command {
	var f bookFlags
	c := &cobra.Command{
		Use:     "add RECORD",
		Short:   "Enter the last examination of a record, with the answers of its day, for a piece that is in the book",
		Example: "  kernbook examine add BR-07.toml --as p1",
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			r, err := oneRecord(cmd, args[0])
			if err != nil {
				return err
			}
			if len(r.Examinations) == 0 {
				return status{exitBadRecord, fmt.Errorf("%s holds no [[examination]] to enter", args[0])}
			}
			name(cmd, r)
			last := r.Examinations[0]
			for _, e := range r.Examinations {
				if e.Day >= last.Day {
					last = e
				}
			}
			return f.enter(cmd, r.Piece.ID, "", func(y *yard.Yard, _ qty.Day) (app.Written, string, error) {
				w, err := y.Examine(cmd.Context(), f.who(), r.Piece.ID, last)
				for i := 0; i < len(r.Answers) && err == nil; i++ {
					if r.Answers[i].Day == last.Day {
						_, err = y.Answer(cmd.Context(), f.who(), r.Piece.ID, r.Answers[i])
					}
				}
				say := fmt.Sprintf("%s: the %s examination of %s is in the book.", r.Piece.ID, last.Kind, last.Day.Words())
				if decidable(&last) {
					say += fmt.Sprintf("\nA competent person decides on it: %s", decideWith(r.Piece.ID, last.Ref))
				}
				return w, say, err
			})
		},
	}
	f.flags(c, true)
	return c
}

// decidable says whether a decision can be on an examination.
func decidable(e *kit.Examination) bool { return e.Kind == kit.Thorough || e.Kind == kit.Interim }

// decideWith is the command by which a decision on an examination is entered.
func decideWith(piece, ref string) string {
	return fmt.Sprintf("kernbook examine decide %s --on %s --outcome … --why … --latest … --as …", quoted(piece), quoted(ref))
}

// name gives each examination of a record that can be decided on, and has no
// name by which a decision could speak of it, one of its kind and day.
func name(cmd *cobra.Command, r *kit.Record) {
	taken := map[string]bool{}
	for _, ref := range refs(r) {
		taken[ref] = true
	}
	for i := range r.Examinations {
		e := &r.Examinations[i]
		if e.Ref != "" || !decidable(e) {
			continue
		}
		ref := string(e.Kind) + "-" + e.Day.String()
		for n := 2; taken[ref]; n++ {
			ref = fmt.Sprintf("%s-%s-%d", e.Kind, e.Day, n)
		}
		e.Ref, taken[ref] = ref, true
		fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: the %s examination of %s has no name (ref) in the record; it is entered as %s.\n", e.Kind, e.Day.Words(), ref)
	}
}

// refs lists every name that a record gives to something in it.
func refs(r *kit.Record) []string {
	var out []string
	for i := range r.Runs {
		out = append(out, r.Runs[i].Ref)
	}
	for i := range r.Events {
		out = append(out, r.Events[i].Ref)
	}
	for i := range r.Examinations {
		e := &r.Examinations[i]
		out = append(out, e.Ref)
		for n := range e.Signs {
			out = append(out, e.Signs[n].Ref)
		}
		for n := range e.Readings {
			out = append(out, e.Readings[n].Ref)
		}
	}
	return out
}
