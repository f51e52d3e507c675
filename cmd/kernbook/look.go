package main

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/yard"
)

func newLook() *cobra.Command {
	return group("look", "Enter looks before use", lookAdd(), lookRun())
}

// lookFlags say which looks were made all over a piece, and under what.
type lookFlags struct {
	looks, kind, light   string
	fair, quick, nothing bool
	would                string
}

func (l *lookFlags) flags(c *cobra.Command) {
	fl := c.Flags()
	fl.StringVar(&l.looks, "looks", "", "the `LOOKS` that were really made, all over the piece")
	fl.StringVar(&l.kind, "kind", "pre-use", `"pre-use" or "partner"`)
	fl.StringVar(&l.light, "light", "", `"good", "poor" or "dark"; what is not said counts as the worst`)
	fl.BoolVar(&l.fair, "fair", false, "made in good light unless --light says otherwise, on kit cleaned, dry, free of mud and frost, without gloves and without haste")
	fl.BoolVar(&l.quick, "hurried", false, "made in a hurry, on kit that was not cleaned")
}

// conditions gives what the looks were made under.
func (l *lookFlags) conditions() kit.Conditions {
	cond := kit.Conditions{Light: l.light} // what is not said counts as the worst
	if no := kit.SaidNo; l.fair {
		cond = kit.Conditions{Light: cmp.Or(l.light, "good"), Cleaned: kit.SaidYes, Wet: no, Frozen: no, Muddy: no, Gloves: no, Hurried: no}
	}
	if l.quick {
		cond.Hurried, cond.Cleaned = kit.SaidYes, kit.SaidNo
	}
	return cond
}

// made gives the looks that somebody made.
func (l *lookFlags) made(by string) []kit.Look {
	var out []kit.Look
	for _, x := range strings.Split(l.looks, ",") {
		out = append(out, kit.Look{Look: kit.LookID(strings.TrimSpace(x)), By: by, Covers: []kit.Stretch{{All: true}}, Conditions: l.conditions()})
	}
	return out
}

func lookAdd() *cobra.Command {
	var f bookFlags
	var l lookFlags
	var day string
	c := &cobra.Command{
		Use:   "add PIECE",
		Short: "Enter a look before use, or a partner's look, that found nothing",
		Example: `  kernbook look add BR-07 --as p1 --looks eye,hand,ends --nothing-told --fair
  kernbook look add BR-07 --as p3 --kind partner --looks eye,hand,ends --light poor --hurried`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if l.looks == "" {
				return errors.New("look add: --looks is needed: which looks were really made, such as eye,hand,ends")
			}
			if !kit.ExamKind(l.kind).BeforeUse() {
				return fmt.Errorf("look add: --kind: “%s” is no look before use; write pre-use or partner. An interim or thorough examination is entered with kernbook examine", l.kind)
			}
			if l.would != "" && l.would != string(kit.SaidYes) && l.would != string(kit.SaidNo) {
				return fmt.Errorf("look add: --would: “%s” is no answer; write yes or no, or leave it out where nobody said", l.would)
			}
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				e := kit.Examination{Kind: kit.ExamKind(l.kind), Day: on, By: f.as, WouldClimb: kit.Yes(l.would), Looks: l.made(f.as)}
				if l.nothing {
					j, err := y.Judge(cmd.Context(), args[0], y.Today(), false)
					if err != nil {
						return app.Written{}, "", err
					}
					e.Asked = map[string]kit.Yes{}
					if k := y.Tables().Kind(j.Record.Piece.Kind); k != nil {
						for i := range k.Asks {
							e.Asked[k.Asks[i].ID] = kit.SaidNo
						}
					}
					if !strings.Contains(l.looks, string(kit.Ask)) {
						e.Looks = append(e.Looks, kit.Look{Look: kit.Ask, By: f.as, Covers: []kit.Stretch{{All: true}}, Conditions: l.conditions()})
					}
				}
				w, err := y.Examine(cmd.Context(), f.who(), args[0], e)
				found := "nothing found"
				if e.WouldClimb == kit.SaidNo {
					found = "whoever looked would not climb on it"
				}
				return w, fmt.Sprintf("%s: %s, %s, all over it, %s.", args[0], l.kind, l.looks, found), err
			})
		},
	}
	f.flags(c, true)
	l.flags(c)
	c.Flags().StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	c.Flags().BoolVar(&l.nothing, "nothing-told", false, "every question about what happened to it was put, and each answered no")
	c.Flags().StringVar(&l.would, "would", "", "would whoever looked climb on it, `yes|no`; not said where it is left out, and no withdraws")
	return c
}

func lookRun() *cobra.Command {
	var f bookFlags
	var l lookFlags
	var r kit.Run
	var from, to, days string
	c := &cobra.Command{
		Use:   "run PIECE",
		Short: "Enter like looks on many days, each of which found nothing, that one person made and answers for",
		Example: `  kernbook look run BR-07 --as p1 --from 2026-06-01 --to 2026-06-26 --weekdays mon,tue,wed,thu,fri \
    --looks ask,eye,hand --fair`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			switch {
			case l.looks == "":
				return errors.New("look run: --looks is needed: which looks were really made on each of these days, such as ask,eye,hand")
			case from == "" || to == "":
				return errors.New("look run: --from and --to are needed: the first and the last day")
			}
			if r.Weekdays, err = weekdays(days); err != nil {
				return err
			}
			return f.enter(cmd, args[0], from, func(y *yard.Yard, on qty.Day) (w app.Written, say string, err error) {
				r.Kind, r.By, r.From, r.Looks = kit.ExamKind(l.kind), f.as, on, l.made(f.as)
				if r.To, err = dayFlag(y, to); err != nil {
					return w, "", err
				}
				w, err = y.KeepRun(cmd.Context(), f.who(), args[0], r)
				return w, fmt.Sprintf("%s: %s, %s, each %s from %s to %s, nothing found.", args[0], l.kind, l.looks, days, r.From.Words(), r.To.Words()), err
			})
		},
	}
	f.flags(c, true)
	l.flags(c)
	fl := c.Flags()
	fl.StringVar(&from, "from", "", "the first `DAY`")
	fl.StringVar(&to, "to", "", "the last `DAY`, today at the latest")
	fl.StringVar(&days, "weekdays", "", "the `DAYS` of the week on which they were made, such as mon,tue,wed,thu,fri")
	fl.StringVar(&r.Ref, "ref", "", "a `NAME` for it")
	return c
}

// weekdayNames are the days of a week, Monday first.
var weekdayNames = [...]string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// weekdays reads days of the week: mon,wed,fri.
func weekdays(text string) (on [8]bool, err error) {
	for _, word := range strings.Split(text, ",") {
		known := false
		for i, d := range weekdayNames {
			if strings.TrimSpace(word) == d {
				on[i+1], known = true, true
			}
		}
		if !known {
			return on, fmt.Errorf("--weekdays: “%s” is no day of the week; write each, with commas between: mon,tue,wed,thu,fri", word)
		}
	}
	return on, nil
}
