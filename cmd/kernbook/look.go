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
	var f bookFlags
	var looks, kind, day, light string
	var fair, quick, nothing bool
	add := &cobra.Command{
		Use:   "add PIECE",
		Short: "Enter a look before use, or a partner's look, that found nothing",
		Example: `  kernbook look add BR-07 --as p2 --looks eye,hand,ends --nothing-told --fair
  kernbook look add BR-07 --as p3 --kind partner --looks eye,hand,ends --light poor --hurried`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if looks == "" {
				return errors.New("look add: --looks is needed: which looks were really made, such as eye,hand,ends")
			}
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				cond := kit.Conditions{Light: light} // what is not said counts as the worst
				if no := kit.SaidNo; fair {
					cond = kit.Conditions{Light: cmp.Or(light, "good"), Cleaned: kit.SaidYes, Wet: no, Frozen: no, Muddy: no, Gloves: no, Hurried: no}
				}
				if quick {
					cond.Hurried, cond.Cleaned = kit.SaidYes, kit.SaidNo
				}
				e := kit.Examination{Kind: kit.ExamKind(kind), Day: on, By: f.as, WouldClimb: kit.SaidYes}
				for _, l := range strings.Split(looks, ",") {
					e.Looks = append(e.Looks, kit.Look{Look: kit.LookID(strings.TrimSpace(l)), By: f.as, Covers: []kit.Stretch{{All: true}}, Conditions: cond})
				}
				if nothing {
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
					if !strings.Contains(looks, string(kit.Ask)) {
						e.Looks = append(e.Looks, kit.Look{Look: kit.Ask, By: f.as, Covers: []kit.Stretch{{All: true}}, Conditions: cond})
					}
				}
				w, err := y.Examine(cmd.Context(), f.who(), args[0], e)
				return w, fmt.Sprintf("%s: %s, %s, all over it, nothing found.", args[0], kind, looks), err
			})
		},
	}
	f.flags(add, true)
	add.Flags().StringVar(&looks, "looks", "", "the `LOOKS` that were really made, all over the piece")
	add.Flags().StringVar(&kind, "kind", "pre-use", `"pre-use" or "partner"`)
	add.Flags().StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	add.Flags().StringVar(&light, "light", "", `"good", "poor" or "dark"; what is not said counts as the worst`)
	add.Flags().BoolVar(&fair, "fair", false, "made in good light unless --light says otherwise, on kit cleaned, dry, free of mud and frost, without gloves and without haste")
	add.Flags().BoolVar(&nothing, "nothing-told", false, "every question about what happened to it was put, and each answered no")
	add.Flags().BoolVar(&quick, "hurried", false, "made in a hurry, on kit that was not cleaned")
	return group("look", "Enter looks before use", add)
}
