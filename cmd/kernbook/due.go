package main

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	"kernbook/internal/yard"
)

// cardOut is a piece as it is listed.
type cardOut struct {
	ID      string `json:"id"`
	Kind    string `json:"kind"`
	Words   string `json:"words,omitempty"`
	Holder  string `json:"holder,omitempty"`
	Place   string `json:"place,omitempty"`
	Stands  string `json:"stands"`
	Outcome string `json:"outcome"`
	Doubt   int64  `json:"millionths"`
	Next    string `json:"next,omitempty"` // none for what is out of use
	Why     string `json:"why,omitempty"`
	Do      string `json:"do"` // the next thing to be done, in words
	Error   string `json:"error,omitempty"`
}

func pieceList() *cobra.Command {
	return board("list", "List every piece as it stands today, with the next thing to be done", "  kernbook piece list --yard quillbrook", func(all []app.Card) []app.Card { return all })
}

func newDue() *cobra.Command {
	return board("due", "List what has to be done, first what may not be used", "  kernbook due --yard quillbrook\n  kernbook due --json", app.Due)
}

// board is a command that lists some of the pieces as they stand today.
func board(use, short, example string, some func([]app.Card) []app.Card) *cobra.Command {
	var f bookFlags
	c := &cobra.Command{
		Use:     use,
		Short:   short,
		Example: example,
		Args:    none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return f.with(func(y *yard.Yard) error {
				all, err := y.Board(cmd.Context(), y.Today())
				if err != nil {
					return err
				}
				list := some(all)
				if !f.json && len(all) > 0 && len(list) == 0 {
					fmt.Fprintln(cmd.OutOrStdout(), "Nothing is due: every piece in the book has been cut up.")
					return nil
				}
				out := []cardOut{}
				for i := range list {
					x, err := card(cmd, y, &list[i])
					if err != nil {
						return err
					}
					out = append(out, x)
				}
				return listCards(cmd, &f, out)
			})
		},
	}
	f.flags(c, false)
	return c
}

// card gives a piece as it is listed.
func card(cmd *cobra.Command, y *yard.Yard, c *app.Card) (cardOut, error) {
	x := cardOut{ID: c.ID, Kind: string(c.Kind), Words: c.Words, Holder: c.Holder, Place: c.Place, Stands: c.Stands().String(), Outcome: c.Verdict.String(),
		Doubt: c.Doubt, Why: c.Why}
	if c.Next != 0 && c.Stands() < kit.SetAside {
		x.Next = c.Next.String()
	}
	if c.Err != nil {
		x.Error, x.Outcome = c.Err.Error(), ""
		if x.Do = phrase("piece.broken"); c.Stopped.ForGood() {
			x.Do = toDo(c, report.Short{})
		}
		return x, nil
	}
	j, err := y.Judge(cmd.Context(), c.ID, y.Today(), false)
	if err != nil {
		return x, err
	}
	x.Do = toDo(c, report.Brief(j.Outcome, y.Tables(), j.Record, lang.English()))
	return x, nil
}

// toDo gives the next thing to be done about a piece, in the words of the pages.
func toDo(c *app.Card, short report.Short) string {
	why := ""
	if len(short.Reasons) > 0 {
		why = short.Reasons[0]
	}
	st := &c.Stopped
	if st.ForGood() {
		say := phrase("out.cut-up")
		switch {
		case st.Cut && c.Undecided:
			return phrase("today.decide") + " kernbook examine decide " + quoted(c.ID)
		case st.Cut:
			return phrase("out.cut")
		case st.Held:
			say = phrase("out.held")
		}
		if c.OutThere() {
			say = phrase("today.hand-in", criteria.Arg{Name: "in", Value: c.In}, criteria.Arg{Name: "why", Value: st.Why}) + " " + say
		}
		return say
	}
	first := "" // why it is not to be used, before what is done about it
	switch {
	case st.Aside:
		first = strings.TrimSuffix(st.Why, ".") + ". "
	case c.Verdict == kit.SetAside:
		first = why + " "
	}
	switch {
	case c.Verdict == kit.Withdraw:
		return phrase("today.withdraw", criteria.Arg{Name: "why", Value: why})
	case c.Undecided:
		return first + phrase("today.decide") + " kernbook examine decide " + quoted(c.ID)
	case st.Aside:
		return phrase("today.aside", criteria.Arg{Name: "why", Value: st.Why})
	case st.Passed:
		return phrase("today.passed", criteria.Arg{Name: "day", Value: st.Latest.String()}) + " " + phrase("piece.settle-passed")
	case len(short.Open) == 1:
		return first + short.Open[0].Say
	case len(short.Open) > 1:
		return fmt.Sprintf("%s%s And %d more: kernbook piece show %s", first, short.Open[0].Say, len(short.Open)-1, quoted(c.ID))
	case c.NextWhy == "decided":
		return phrase("today.latest", criteria.Arg{Name: "day", Value: st.Latest.String()})
	}
	return short.Next
}

// phrase gives a phrase of the pages.
func phrase(key string, args ...criteria.Arg) string { return lang.English().Say("web."+key, args...) }

func listCards(cmd *cobra.Command, f *bookFlags, list []cardOut) error {
	if f.json {
		return printJSON(cmd, list)
	}
	if len(list) == 0 {
		fmt.Fprintln(cmd.OutOrStdout(), "No piece is in the book yet. kernbook piece add registers one.")
		return nil
	}
	for _, x := range list {
		fmt.Fprintf(cmd.OutOrStdout(), "%-10s %-10s %-18s next %-10s %-8s %s\n", x.ID, x.Kind, x.Stands, cmp.Or(x.Next, "-"), cmp.Or(x.Holder, x.Place), x.Words)
		if x.Error != "" {
			fmt.Fprintf(cmd.OutOrStdout(), "           %s\n", x.Error)
		}
		fmt.Fprintf(cmd.OutOrStdout(), "           %s\n", x.Do)
	}
	return nil
}
