package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/core/kit"
	"kernbook/internal/yard"
)

func newLook() *cobra.Command {
	c := &cobra.Command{
		Use:   "look",
		Short: "Enter looks before use",
		Args:  cobra.NoArgs,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	var f bookFlags
	var looks, kind, day, light string
	var quick bool
	add := &cobra.Command{
		Use:   "add PIECE",
		Short: "Enter a look before use, or a partner's look, that found nothing",
		Example: `  kernbook look add BR-07 --as p2 --looks eye,hand,ends
  kernbook look add BR-07 --as p3 --kind partner --looks eye,hand,ends --light poor`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			if looks == "" {
				return errors.New("look add: --looks is needed: which looks were really made, such as eye,hand,ends")
			}
			return f.with(func(y *yard.Yard) error {
				on, err := dayFlag(y, day)
				if err != nil {
					return err
				}
				no := kit.SaidNo
				cond := kit.Conditions{Light: light, Cleaned: kit.SaidYes, Wet: no, Frozen: no, Muddy: no, Gloves: no, Hurried: no}
				if quick {
					cond.Hurried, cond.Cleaned = kit.SaidYes, no
				}
				e := kit.Examination{Kind: kit.ExamKind(kind), Day: on, By: f.as, WouldClimb: kit.SaidYes}
				for _, l := range strings.Split(looks, ",") {
					e.Looks = append(e.Looks, kit.Look{Look: kit.LookID(strings.TrimSpace(l)), By: f.as, Covers: []kit.Stretch{{All: true}}, Conditions: cond})
				}
				w, err := y.Examine(cmd.Context(), f.who(), args[0], e)
				if err != nil {
					return err
				}
				if err := f.written(cmd, w, "%s: %s, %s, all over it, nothing found.", args[0], kind, looks); err != nil {
					return err
				}
				return f.stands(cmd, y, args[0])
			})
		},
	}
	f.flags(add, true)
	add.Flags().StringVar(&looks, "looks", "", "the `LOOKS` that were really made, all over the piece")
	add.Flags().StringVar(&kind, "kind", "pre-use", `"pre-use" or "partner"`)
	add.Flags().StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	add.Flags().StringVar(&light, "light", "good", `"good", "poor" or "dark"`)
	add.Flags().BoolVar(&quick, "hurried", false, "made in a hurry, on kit that was not cleaned")
	c.AddCommand(add)
	return c
}

func newExamine() *cobra.Command {
	c := &cobra.Command{
		Use:   "examine",
		Short: "Enter examinations",
		Args:  cobra.NoArgs,
		RunE:  func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	var f bookFlags
	add := &cobra.Command{
		Use:     "add RECORD",
		Short:   "Enter the last examination of a record, with the answers of its day, for a piece that is in the book",
		Example: "  kernbook examine add BR-07.toml --as p1",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			r, err := oneRecord(cmd, args[0])
			if err != nil {
				return err
			}
			if len(r.Examinations) == 0 {
				return status{exitBadRecord, fmt.Errorf("%s holds no [[examination]] to enter", args[0])}
			}
			last := r.Examinations[0]
			for _, e := range r.Examinations {
				if e.Day >= last.Day {
					last = e
				}
			}
			return f.with(func(y *yard.Yard) error {
				w, err := y.Examine(cmd.Context(), f.who(), r.Piece.ID, last)
				if err != nil {
					return err
				}
				for _, a := range r.Answers {
					if a.Day == last.Day {
						if _, err := y.Answer(cmd.Context(), f.who(), r.Piece.ID, a); err != nil {
							return err
						}
					}
				}
				if err := f.written(cmd, w, "%s: the %s examination of %s is in the book.", r.Piece.ID, last.Kind, last.Day.Words()); err != nil {
					return err
				}
				return f.stands(cmd, y, r.Piece.ID)
			})
		},
	}
	f.flags(add, true)
	c.AddCommand(add)
	return c
}
