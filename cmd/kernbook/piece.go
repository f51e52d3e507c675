package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/lang"
	"kernbook/internal/record"
	"kernbook/internal/report"
	"kernbook/internal/tables"
	"kernbook/internal/yard"
)

func newPiece() *cobra.Command {
	return group("piece", "Register pieces, list them, show one, and enter what becomes of it",
		pieceAdd(), pieceList(), pieceShow(), pieceEntries(), pieceAmend(), pieceHand(), pieceFit(), pieceWash(), pieceMove(), pieceStop())
}

func pieceAdd() *cobra.Command {
	var f bookFlags
	c := &cobra.Command{
		Use:   "add RECORD",
		Short: "Register a piece with all that its record holds",
		Example: `  kernbook decide --new bridge > BR-07.toml
  kernbook piece add BR-07.toml --as p1`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			r, err := oneRecord(cmd, args[0])
			if err != nil {
				return err
			}
			name(cmd, r)
			return f.enter(cmd, r.Piece.ID, "", func(y *yard.Yard, _ qty.Day) (app.Written, string, error) {
				notes, err := y.Dropped(cmd.Context(), r)
				if err != nil {
					return app.Written{}, "", err
				}
				all, err := y.Take(cmd.Context(), f.who(), r)
				if err != nil {
					return app.Written{}, "", err
				}
				for _, x := range notes {
					fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: the record says that %s is a %s since %s; the book says otherwise, and that stays: what %s did before the book has them so does not count as a %s's. If the record is right, a competent person says so: kernbook person set %s --role %s --from %s\n",
						x.ID, x.Role, x.Since.Words(), x.ID, x.Role, quoted(x.ID), quoted(x.Role), x.Since)
				}
				for i := range r.Uses {
					if r.Uses[i].Mass > 0 {
						fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: the body mass of %s is not taken over: it is personal, and stands sealed with whoever climbs on it (kernbook person set … --mass). Until the use is planned anew for that person, the heaviest counts.\n", r.Piece.ID)
						break
					}
				}
				return all[len(all)-1], fmt.Sprintf("%s is in the book, in %d entries.", r.Piece.ID, len(all)), nil
			})
		},
	}
	f.flags(c, true)
	return c
}

// oneRecord reads a record, or tells its faults.
func oneRecord(cmd *cobra.Command, name string) (*kit.Record, error) {
	b, err := read(cmd.InOrStdin(), name)
	if err != nil {
		return nil, status{exitFailed, err}
	}
	r, faults := record.Decode(name, b, tables.Default())
	if len(faults) > 0 {
		tellFaults(cmd, name, faults)
		return nil, status{code: exitBadRecord}
	}
	return r, nil
}

func pieceShow() *cobra.Command {
	var f bookFlags
	var full bool
	var asOf, svg string
	c := &cobra.Command{
		Use:     "show PIECE",
		Short:   "Show how a piece stands, with the explanation; ends with the status of its outcome",
		Example: "  kernbook piece show BR-07\n  kernbook piece show BR-07 --as-of 2026-06-01 --full --svg BR-07.svg",
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.with(func(y *yard.Yard) error {
				day, err := dayFlag(y, asOf)
				if err != nil {
					return err
				}
				j, err := y.Judge(cmd.Context(), args[0], day, true)
				if err != nil {
					return err
				}
				if out := j.Stopped; !f.json && out.ForGood() && day > out.Day { // what counts is how it stood then, not what has fallen due since
					if then, err := y.Judge(cmd.Context(), args[0], out.Day, true); err == nil {
						j = then
					}
				}
				if svg != "" {
					if err := writeFile(svg, report.Drawing(j.Outcome, y.Tables(), j.Record, lang.English())); err != nil {
						return err
					}
				}
				if f.json {
					b, err := report.JSON(j.Outcome, y.Tables(), j.Record, lang.English())
					if err != nil {
						return err
					}
					stopped(cmd.ErrOrStderr(), args[0], &j.Stopped) // the document is of the outcome alone
					if _, err := cmd.OutOrStdout().Write(b); err != nil {
						return err
					}
					return verdictStatus(j.Stands())
				}
				stopped(cmd.OutOrStdout(), args[0], &j.Stopped)
				if err := report.Text(cmd.OutOrStdout(), j.Outcome, y.Tables(), j.Record, lang.English(), report.Options{Full: full, Stands: j.Stands(), Gone: j.Stopped.ForGood() && day >= j.Stopped.Day}); err != nil {
					return err
				}
				return verdictStatus(j.Stands())
			})
		},
	}
	f.flags(c, false)
	c.Flags().BoolVar(&full, "full", false, "print everything")
	c.Flags().StringVar(&asOf, "as-of", "", "as of `DAY` (2026-06-01) instead of today")
	c.Flags().StringVar(&svg, "svg", "", "draw the outcome into `FILE`")
	return c
}

func pieceMove() *cobra.Command {
	var f bookFlags
	var ch kit.Change
	var day, cut string
	var zones []string
	c := &cobra.Command{
		Use:   "move PIECE",
		Short: "Say that an end was re-tied or cut off: places told from then on count from there",
		Example: `  kernbook piece move BR-07 --as p1 --what "re-tied end A"
  kernbook piece move LI-12 --as p1 --what "shortened at end B" --length 120mm
  kernbook piece move LI-12 --as p1 --what "turned end for end"
  kernbook piece move BR-07 --as p1 --what zones --zone bend=400mm..460mm --zone travel=460mm..700mm`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if ch.What == "" {
				return errors.New("piece move: --what is needed")
			}
			return f.enter(cmd, args[0], day, func(y *yard.Yard, on qty.Day) (w app.Written, say string, err error) {
				ch.Day, ch.By = on, f.as
				if cut != "" {
					if ch.Length, err = qty.ParseLength(cut); err != nil {
						return w, "", status{exitUsage, err}
					}
				}
				if ch.Zones, err = zonesAt(zones); err != nil {
					return w, "", err
				}
				w, err = y.Move(cmd.Context(), f.who(), args[0], ch)
				return w, fmt.Sprintf("%s: %s.", args[0], ch.What), err
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&ch.What, "what", "", `"re-tied end A", "re-tied end B", "shortened at end A", "shortened at end B", "turned end for end" or "zones"`)
	c.Flags().StringArrayVar(&zones, "zone", nil, "where a zone lies from then on, as `ZONE=FROM..TO`; for \"zones\", all of them")
	c.Flags().StringVar(&cut, "length", "", "what was cut off, such as 120mm")
	c.Flags().StringVar(&day, "day", "", "the `DAY`; today where it is not said")
	c.Flags().StringVar(&ch.Words, "words", "", "in your own words")
	return c
}

// zonesAt reads where zones lie: bend=400mm..460mm.
func zonesAt(list []string) ([]kit.ZoneAt, error) {
	var out []kit.ZoneAt
	for _, text := range list {
		name, at, ok := strings.Cut(text, "=")
		from, to, both := strings.Cut(at, "..")
		if !ok || !both {
			return nil, status{exitUsage, fmt.Errorf("piece move: --zone: “%s” is no zone; write it as bend=400mm..460mm", text)}
		}
		z := kit.ZoneAt{Zone: name}
		var err error
		if z.From, err = qty.ParseLength(from); err == nil {
			z.To, err = qty.ParseLength(to)
		}
		if err != nil {
			return nil, status{exitUsage, fmt.Errorf("piece move: --zone %s: %w", text, err)}
		}
		out = append(out, z)
	}
	return out, nil
}
