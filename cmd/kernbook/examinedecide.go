package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/book"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/paper"
	"kernbook/internal/yard"
)

// decidedOut is a decision as it is told.
type decidedOut struct {
	writtenOut
	Examination string   `json:"examination"`
	Decided     string   `json:"decided"`
	Stands      string   `json:"stands"`
	Open        []string `json:"not_stated"` // particulars of the report that are left open
}

func examineDecide() *cobra.Command {
	var f bookFlags
	var on, outcome, why, latest, file string
	var r fold.Report
	c := &cobra.Command{
		Use:   "decide PIECE",
		Short: "Enter a competent person's decision on an examination in the book: the report is made of it",
		Long: `Enter the decision of a competent person on an interim or thorough examination
that is in the book. It may be stricter than the tool's outcome, never looser.
kernbook report prints the report of it.

Without --on it is on the newest examination, and says which; where that has been
decided on, name one with --on. What the law asks for in a report stands in the flags, or in a file of
lines such as these, under the names of the flags with _ for -; a flag that is
given goes before the file. What is said of the yard (employer, premises,
occasion, load, authentic, qualified, self_employed) is taken from the last
report of the piece where it is left out; all else that is left out stands in
the report as not stated. Address, qualifications and employer of the author are
sealed with the person: kernbook person set.

  number = "2026-014"
  employer = "Quillbrook Tree Care, 4 Mill Lane, Ashford"
  premises = "the same"
  occasion = "six-monthly"
  load = "none stated"
  tests = "none"`,
		Example: `  kernbook examine decide BR-07 --as p1 --outcome keep --latest 2026-12-01 \
    --why "sound all over, measured, nothing found" --report report.toml
  kernbook examine decide BR-07 --as p1 --on E-26-06 --outcome "set aside" --why "soft at the bend" \
    --defect "bridge: soft over 4 cm at the bend" --repair "replace before 1 July 2026"`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			verdict, ok := kit.ParseVerdict(strings.ToLower(outcome))
			switch {
			case outcome == "":
				return errors.New(`examine decide: --outcome is needed: keep, "keep, look sooner", "set aside" or withdraw`)
			case !ok:
				return fmt.Errorf(`examine decide: “%s” is no outcome; write keep, "keep, look sooner", "set aside" or withdraw`, outcome)
			case why == "":
				return errors.New("examine decide: --why is needed: your reasons are the report; the tool's outcome is not")
			}
			d := app.Decision{Verdict: verdict, Why: why}
			if latest != "" {
				var err error
				if d.Latest, err = qty.ParseDate(latest); err != nil || !d.Latest.Known() {
					return status{exitUsage, fmt.Errorf("examine decide: --latest: “%s” is no date; write a day as 2026-12-01, or a month as 2026-12", latest)}
				}
			}
			return f.with(func(y *yard.Yard) error {
				e, last, err := examinationOf(cmd, y, args[0], on)
				if err != nil {
					return err
				}
				if on == "" {
					fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: this is on the %s examination of %s, %s; --on names another.\n", e.Kind, e.Day.Words(), e.Ref)
				}
				if d.Report, err = reportOf(cmd, file, &r, last); err != nil {
					return err
				}
				d.Examination = e.Ref
				w, err := y.Decide(cmd.Context(), f.who(), args[0], d)
				if err != nil {
					return err
				}
				return f.decided(cmd, y, args[0], &e, &d, w)
			})
		},
	}
	f.flags(c, true)
	fl := c.Flags()
	fl.StringVar(&on, "on", "", "the `NAME` (ref) of the examination; the newest where it is not said, unless that was decided on")
	fl.StringVar(&outcome, "outcome", "", `keep, "keep, look sooner", "set aside" or withdraw`)
	fl.StringVar(&why, "why", "", "your reasons")
	fl.StringVar(&latest, "latest", "", "the latest `DATE` for the next thorough examination")
	fl.StringVar(&file, "report", "", "a `FILE` with what follows")
	for _, p := range particulars {
		if p.text != nil {
			fl.StringVar(p.text(&r), flagOf(p.key), "", p.words)
		} else {
			fl.BoolVar(p.flag(&r), flagOf(p.key), false, p.words)
		}
	}
	return c
}

// examinationOf gives the examination that a decision is on: the one named, or
// the newest, unless that was decided on; and the report of the last decision.
func examinationOf(cmd *cobra.Command, y *yard.Yard, piece, ref string) (kit.Examination, *fold.Report, error) {
	j, err := y.Judge(cmd.Context(), piece, y.Today(), false)
	if err != nil {
		return kit.Examination{}, nil, err
	}
	decided := map[string]string{} // by the name of the examination
	var last *fold.Report
	err = y.Look(cmd.Context(), func(s *fold.State, _ book.Head) error {
		for _, d := range s.Piece(piece).Decisions() {
			decided[d.Examination] = fmt.Sprintf("%s on %s", d.Author, d.Day.Words())
			last = &d.Report
		}
		return nil
	})
	if err != nil {
		return kit.Examination{}, nil, err
	}
	var found *kit.Examination
	var names, older []string
	nameless := 0
	var newest *kit.Examination // the last of the last day; without a name said, the decision is on this one or none
	for i := range j.Record.Examinations {
		if e := &j.Record.Examinations[i]; decidable(e) && (newest == nil || e.Day >= newest.Day) {
			newest = e
		}
	}
	for i := range j.Record.Examinations {
		switch e := &j.Record.Examinations[i]; {
		case ref != "" && e.Ref == ref && !decidable(e):
			return *e, nil, refuse("“%s” is a %s look; a decision is on an interim or thorough examination", ref, e.Kind)
		case !decidable(e):
		case e.Ref == "":
			nameless++
		default:
			names = append(names, e.Ref)
			switch _, done := decided[e.Ref]; {
			case e.Ref == ref:
				found = e
			case ref != "" || done:
			case e != newest:
				older = append(older, e.Ref)
			default:
				found = e
			}
		}
	}
	if found != nil {
		if by, again := decided[found.Ref]; again {
			fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: %s has been decided on by %s; the report will be of this decision.\n", found.Ref, by)
		}
		return *found, last, nil
	}
	hint := ""
	if nameless > 0 {
		hint = fmt.Sprintf("; %d have no name (ref), so no decision can speak of them: find the entry with kernbook piece entries %s, and give it one with kernbook correct", nameless, quoted(piece))
	}
	slices.Sort(names)
	list := strings.Join(names, ", ")
	switch {
	case len(names) == 0:
		return kit.Examination{}, nil, refuse("no interim or thorough examination of “%s” is in the book to decide on%s. kernbook examine add enters one", piece, hint)
	case ref == "" && newest.Ref == "":
		return kit.Examination{}, nil, refuse("the newest examination of “%s”, the %s one of %s, has no name, and without --on a decision is on the newest alone%s. Name another with --on: %s", piece, newest.Kind, newest.Day.Words(), hint, list)
	case ref == "" && len(older) > 0:
		return kit.Examination{}, nil, refuse("the newest examination, %s, has been decided on by %s; nobody has decided on %s of “%s”, which lie before one that was decided on%s. Name one with --on to decide on it", newest.Ref, decided[newest.Ref], strings.Join(older, ", "), piece, hint)
	case ref == "":
		return kit.Examination{}, nil, refuse("every named examination of “%s” has been decided on (%s)%s. Name one with --on to decide on it anew", piece, list, hint)
	}
	return kit.Examination{}, nil, refuse("no examination “%s” of “%s” is in the book; there are %s%s", ref, piece, list, hint)
}

// refuse is what cannot be entered.
func refuse(format string, args ...any) error {
	return status{exitBadRecord, fmt.Errorf(format, args...)}
}

// decided tells that a decision is in the book, what its report leaves open, and
// how the piece stands.
func (f *bookFlags) decided(cmd *cobra.Command, y *yard.Yard, piece string, e *kit.Examination, d *app.Decision, w app.Written) error {
	j, err := y.Judge(cmd.Context(), piece, y.Today(), false)
	if err != nil {
		return err
	}
	facts, err := y.ReportFacts(cmd.Context(), piece, false)
	if err != nil {
		return err
	}
	open := append([]string{}, paper.Examination(facts).Missing()...)
	if f.json {
		return printJSON(cmd, decidedOut{writtenOut{w.ID.String(), w.Index, w.Head.String()}, e.Ref, d.Verdict.String(), j.Stands().String(), open})
	}
	if err := f.written(cmd, w, "%s: “%s” is decided on the %s examination of %s (%s).", piece, d.Verdict, e.Kind, e.Day.Words(), e.Ref); err != nil {
		return err
	}
	out := cmd.OutOrStdout()
	fmt.Fprintf(out, "The report: kernbook report %s --out %s.pdf\n", quoted(piece), fileName(piece))
	if len(open) > 0 {
		fmt.Fprintf(out, "It says “%s” for: %s.\n", paper.NotStated, strings.Join(open, "; "))
	}
	_, err = fmt.Fprintf(out, "%s now: %s. See kernbook piece show %s\n", piece, j.Stands(), quoted(piece))
	return err
}
