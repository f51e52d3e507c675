package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/yard"
)

func newEvent() *cobra.Command {
	var f bookFlags
	var e kit.Event
	var day, travel string
	add := &cobra.Command{
		Use:   "add PIECE",
		Short: "Enter a fall, a saw's touch, a spill, heat and the like",
		Example: `  kernbook event add BR-07 --as p2 --event saw-contact
  kernbook event add LI-12 --as p2 --event spill --substance chain-oil --amount splash`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if e.Event == "" {
				return errors.New("event add: --event is needed: what happened, an id of the tables (kernbook tables show events)")
			}
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (w app.Written, say string, err error) {
				e.Day, e.Travel, e.Peak = on, -1, -1
				if travel != "" && travel != "unknown" {
					if e.Travel, err = qty.ParseLength(travel); err != nil {
						return w, "", status{exitUsage, err}
					}
				}
				w, err = y.Happen(cmd.Context(), f.who(), args[0], e)
				return w, fmt.Sprintf("%s: %s on %s is in the book.", args[0], e.Event, e.Day.Words()), err
			})
		},
	}
	f.flags(add, true)
	fl := add.Flags()
	fl.StringVar(&e.Event, "event", "", "what happened, an `ID` of the tables")
	fl.StringVar(&e.Ref, "ref", "", "a `NAME` by which answers and examinations speak of it")
	fl.StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	fl.StringVar(&travel, "travel", "", "free travel before the rope took up, such as 300mm, or unknown; not known where it is not said")
	fl.StringVar(&e.Substance, "substance", "", "what touched it, an `ID` of the tables")
	fl.StringVar(&e.Amount, "amount", "", `"suspected", "splash" or "soaked"`)
	fl.BoolVar(&e.Injury, "injury", false, "an injury, a dangerous event or a claim goes with it")
	fl.StringVar(&e.Words, "words", "", "in your own words")
	return group("event", "Enter what happened to a piece", add)
}

func newAnswer() *cobra.Command {
	var f bookFlags
	var a kit.Answer
	var day string
	add := &cobra.Command{
		Use:     "add PIECE",
		Short:   "Answer what an outcome asks, under the word it names",
		Example: `  kernbook answer add LI-12 --as p1 --to fuzz --cause use-rub --verified "matched to the working zone"`,
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				a.Day, a.By = on, f.as
				w, err := y.Answer(cmd.Context(), f.who(), args[0], a)
				return w, fmt.Sprintf("%s: the answer to “%s” is in the book.", args[0], a.To), err
			})
		},
	}
	f.flags(add, true)
	fl := add.Flags()
	fl.StringVar(&a.To, "to", "", "what is answered: the `NAME` the outcome asks under")
	fl.StringVar(&a.Cause, "cause", "", "the harmless cause found, an `ID` of the tables")
	fl.StringVar(&a.Verified, "verified", "", "how it was verified")
	fl.StringVar(&a.Document, "document", "", "the document that says so")
	fl.BoolVar(&a.Unfit, "unfit", false, "the answer is that it is not fit")
	fl.StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	return group("answer", "Settle a question", add)
}

func newWithdraw() *cobra.Command {
	var f bookFlags
	var b fold.Stop
	var held bool
	c := &cobra.Command{
		Use:     "withdraw PIECE",
		Short:   "Withdraw a piece from use, for good",
		Example: `  kernbook withdraw BR-07 --as p2 --why "saw touched it"`,
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.with(func(y *yard.Yard) error {
				b.What = "withdraw"
				if held {
					b.What = "hold"
				}
				w, err := y.Stop(cmd.Context(), f.who(), args[0], y.Today(), b)
				if err != nil {
					return err
				}
				return f.written(cmd, w, "%s is withdrawn. Keep it apart, and cut it up once nothing speaks against it.", args[0])
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&b.Why, "why", "", "the reason")
	c.Flags().BoolVar(&held, "held", false, "after an injury or a claim: sealed, and not cut until it is released")
	return c
}
