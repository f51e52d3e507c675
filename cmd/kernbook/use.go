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

func newUse() *cobra.Command {
	var f bookFlags
	var u kit.Use
	var from, week, days, person string
	add := &cobra.Command{
		Use:   "add PIECE",
		Short: "Say how a piece is used from a day on, and by whom: the body mass stays sealed with the person",
		Example: `  kernbook use add BR-07 --as p1 --week 20h --weekdays mon,tue,wed,thu,fri --person p2 --dirt clean --hardware ring
  kernbook use add LI-12 --as p1 --store`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) (err error) {
			u.Week = -1
			switch {
			case u.Store && (week != "" || days != ""):
				return errors.New("use add: a piece in store is not used: leave out --week and --weekdays, or --store")
			case u.Store:
			case week == "":
				return errors.New("use add: --week is needed: the hours of use in a week, such as 20h, or unknown; or --store")
			case week != "unknown":
				if u.Week, err = qty.ParseHours(week); err != nil {
					return status{exitUsage, fmt.Errorf("use add: --week: %w", err)}
				}
			}
			if days != "" {
				if u.Weekdays, err = weekdays(days); err != nil {
					return err
				}
			} else if u.Week > 0 {
				return errors.New("use add: --weekdays is needed with hours: the days of the week on which it is used, such as mon,tue,wed,thu,fri")
			}
			return f.enter(cmd, args[0], from, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				u.From = on
				w, err := y.PlanUse(cmd.Context(), f.who(), args[0], u, person)
				if err == nil && person == "" && !u.Store {
					fmt.Fprintln(cmd.ErrOrStderr(), "kernbook: note: without --person nobody's body mass is known, and the heaviest counts.")
				}
				return w, fmt.Sprintf("%s: its use from %s on is in the book.", args[0], on.Words()), err
			})
		},
	}
	f.flags(add, true)
	fl := add.Flags()
	fl.StringVar(&from, "from", "", "the first `DAY`; today where it is not said")
	fl.StringVar(&week, "week", "", "the `HOURS` of use in a week, such as 20h, or unknown")
	fl.StringVar(&days, "weekdays", "", "the `DAYS` of the week on which it is used, such as mon,tue,wed,thu,fri")
	fl.StringVar(&person, "person", "", "the `PERSON` who climbs on it, whose body mass it carries")
	fl.StringVar(&u.Dirt, "dirt", "", "the site and its dirt, an `ID` of the tables (kernbook tables show use)")
	fl.StringVar(&u.Hardware, "hardware", "", "what runs on it, an `ID` of the tables (kernbook tables show use)")
	fl.BoolVar(&u.Store, "store", false, "it lies in store, and is not used")
	return group("use", "Say how a piece is used", add)
}

func pieceWash() *cobra.Command {
	var f bookFlags
	var x fold.Washing
	var day, clean string
	c := &cobra.Command{
		Use:     "wash PIECE",
		Short:   "Enter that a piece was washed; looks entered after it, of the same day, were made after it",
		Example: `  kernbook piece wash BR-07 --as p2 --with "lukewarm water" --clean yes`,
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case x.With == "":
				return errors.New(`piece wash: --with is needed: what it was washed with, such as "lukewarm water"`)
			case clean == "":
				return errors.New(`piece wash: --clean is needed: yes where nothing was left to see or feel, else no or "not known"`)
			}
			x.Clean = kit.Yes(clean)
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				w, err := y.Wash(cmd.Context(), f.who(), args[0], on, x)
				return w, fmt.Sprintf("%s: the washing of %s is in the book.", args[0], on.Words()), err
			})
		},
	}
	f.flags(c, true)
	fl := c.Flags()
	fl.StringVar(&x.With, "with", "", "what it was washed `WITH`")
	fl.StringVar(&clean, "clean", "", `nothing was left to see or feel: yes, no or "not known"`)
	fl.StringVar(&x.Event, "event", "", "the `NAME` (ref) of the spill that was washed out")
	fl.StringVar(&x.Words, "words", "", "in your own words")
	fl.StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	return c
}

func pieceHand() *cobra.Command {
	var f bookFlags
	var h fold.Hang
	var day string
	c := &cobra.Command{
		Use:   "hand PIECE",
		Short: "Say who holds a piece from a day on, or where it hangs unused",
		Example: `  kernbook piece hand BR-07 --as p1 --to p2
  kernbook piece hand BR-07 --as p1 --place store`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if (h.Holder == "") == (h.Place == "") {
				return errors.New("piece hand: say either who holds it (--to PERSON) or where it hangs unused (--place store)")
			}
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				w, err := y.Hang(cmd.Context(), f.who(), args[0], on, h)
				say := fmt.Sprintf("%s: %s holds it from %s on.", args[0], h.Holder, on.Words())
				if h.Place != "" {
					say = fmt.Sprintf("%s: from %s on it hangs unused: %s.", args[0], on.Words(), h.Place)
				}
				return w, say, err
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&h.Holder, "to", "", "the `PERSON` who holds it")
	c.Flags().StringVar(&h.Place, "place", "", "the `PLACE` where it hangs unused, such as store or van")
	c.Flags().StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	return c
}

func pieceFit() *cobra.Command {
	var f bookFlags
	var x fold.Fit
	var day, allowed string
	var out bool
	c := &cobra.Command{
		Use:   "fit PIECE",
		Short: "Say what a piece is fitted to from a day on, and whether its maker allows it there",
		Example: `  kernbook piece fit BR-07 --as p1 --in HA-02 --allowed yes --document "maker's letter of 3 May 2026"
  kernbook piece fit BR-07 --as p1 --out`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case out == (x.In != ""):
				return errors.New("piece fit: say either what it is fitted to (--in PIECE) or that it was taken out (--out)")
			case x.In != "" && allowed == "":
				return errors.New(`piece fit: --allowed is needed: whether its maker allows it there: yes, no or "not known"`)
			}
			x.Allowed = kit.Yes(allowed)
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				w, err := y.Fit(cmd.Context(), f.who(), args[0], on, x)
				say := fmt.Sprintf("%s: fitted to %s from %s on.", args[0], x.In, on.Words())
				if out {
					say = fmt.Sprintf("%s: taken out on %s.", args[0], on.Words())
				}
				return w, say, err
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&x.In, "in", "", "the `PIECE` it is fitted to")
	c.Flags().BoolVar(&out, "out", false, "it was taken out")
	c.Flags().StringVar(&allowed, "allowed", "", `its maker allows it there: yes, no or "not known"`)
	c.Flags().StringVar(&x.Document, "document", "", "the `DOCUMENT` that says so")
	c.Flags().StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	return c
}

func pieceAmend() *cobra.Command {
	var f bookFlags
	var why string
	c := &cobra.Command{
		Use:   "amend RECORD",
		Short: "Say what is known of a piece now, by the [piece] of a record: a marking worn off, a length measured anew",
		Long: `Say what is known of a piece now: all of the [piece] of a record, as it is known
now. The rest of the record is not taken. Where the piece hangs and what it is
fitted to stay as they are: piece hand and piece fit say them. A slip in an entry
is corrected on that entry: kernbook correct. A competent person enters it; the kind
of a piece stays.`,
		Example: `  kernbook piece amend BR-07.toml --as p1 --why "marking worn off"`,
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			r, err := oneRecord(cmd, args[0])
			if err != nil {
				return err
			}
			return f.enter(cmd, r.Piece.ID, "", func(y *yard.Yard, _ qty.Day) (app.Written, string, error) {
				j, err := y.Judge(cmd.Context(), r.Piece.ID, y.Today(), false)
				if err != nil {
					return app.Written{}, "", err
				}
				r.Piece.Fitted, r.Piece.StoredIn = j.Record.Piece.Fitted, j.Record.Piece.StoredIn
				w, err := y.AmendPiece(cmd.Context(), f.who(), r.Piece, why)
				return w, fmt.Sprintf("%s: what is known of it now is in the book.", r.Piece.ID), err
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&why, "why", "", "the reason")
	return c
}

func pieceStop() *cobra.Command {
	var f bookFlags
	var b fold.Stop
	var day string
	c := &cobra.Command{
		Use:   "stop PIECE",
		Short: "Say that a piece goes out of use, or comes back: set aside, held, released, cut up, back in use",
		Example: `  kernbook piece stop BR-07 --as p2 --what "set aside" --why "soft at the bend"
  kernbook piece stop BR-07 --as p1 --what "back in use" --why "examined, and nothing found"
  kernbook piece stop BR-07 --as p1 --what release --why "claim settled" --document "insurer's letter of 3 May 2026"`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if b.What == "" {
				return errors.New(`piece stop: --what is needed: "set aside", withdraw, hold, release, "cut up" or "back in use"`)
			}
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (app.Written, string, error) {
				w, err := y.Stop(cmd.Context(), f.who(), args[0], on, b)
				return w, fmt.Sprintf("%s: “%s” is in the book.", args[0], b.What), err
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&b.What, "what", "", `"set aside", withdraw, hold, release, "cut up" or "back in use"; the last three are for a competent person`)
	c.Flags().StringVar(&b.Why, "why", "", "the reason")
	c.Flags().StringVar(&b.Document, "document", "", "the `DOCUMENT` by which authority and insurer release it")
	c.Flags().StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	return c
}
