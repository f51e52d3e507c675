package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"kernbook/internal/core/kit"
	"kernbook/internal/paper"
	"kernbook/internal/yard"
)

func newReport() *cobra.Command {
	var f bookFlags
	var what, out string
	var annex, force bool
	c := &cobra.Command{
		Use:   "report [PIECE]",
		Short: "Print a report of thorough examination, a record card, or the yard's register",
		Long: `Print paper for whoever asks for it: the report of the last decision on a piece
(every particular of the schedule), its record card, or the register of the yard.
The file's ending says the form: .pdf, or .html with the same content.`,
		Example: `  kernbook report BR-07 --out BR-07.pdf
  kernbook report BR-07 --what card --out BR-07-card.html
  kernbook report --what register --out register.pdf`,
		Args: oneAtMost,
		RunE: func(cmd *cobra.Command, args []string) error {
			if out == "" {
				return errors.New("report: --out is needed: the file to write, ending in .pdf or .html")
			}
			if (what == "register") != (len(args) == 0) {
				return errors.New("report: name one piece, or none for --what register")
			}
			if there, err := os.Stat(out); err == nil && there.Mode().IsRegular() && !force {
				return status{exitFailed, fmt.Errorf("report: %s is there already, and is left as it is; name another file, or write over it with --force", out)}
			}
			return f.with(func(y *yard.Yard) error {
				d, err := makePaper(cmd, y, what, args, annex)
				if err != nil {
					return err
				}
				var b []byte
				switch strings.ToLower(filepath.Ext(out)) {
				case ".pdf":
					b, err = paper.PDF(d, time.Now())
				case ".html":
					b, err = paper.HTML(d)
				default:
					return status{exitUsage, fmt.Errorf("report: %s ends in neither .pdf nor .html", out)}
				}
				if err != nil {
					return err
				}
				if err := writeFile(out, b); err != nil {
					return err
				}
				if f.json {
					err = printJSON(cmd, map[string]string{"file": out, "title": d.Title, "about": d.Sub})
				} else {
					_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s: %s is in %s.\n", d.Title, d.Sub, out)
				}
				if err != nil {
					return err
				}
				if len(args) == 0 {
					return nil
				}
				j, err := y.Judge(cmd.Context(), args[0], y.Today(), false)
				if err != nil {
					return err
				}
				stopped(cmd.ErrOrStderr(), args[0], &j.Stopped)
				if v := j.Stands(); v > kit.KeepSooner {
					fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: %s stands at “%s” today; the paper tells of the day it was decided on.\n", args[0], v)
				}
				return nil
			})
		},
	}
	f.flags(c, false)
	c.Flags().StringVar(&what, "what", "examination", `"examination", "card" or "register"`)
	c.Flags().StringVar(&out, "out", "", "the `FILE` to write")
	c.Flags().BoolVar(&force, "force", false, "write over a file that is there already")
	c.Flags().BoolVar(&annex, "annex", false, "add what the tool made of the same record, as an annex")
	return c
}

func makePaper(cmd *cobra.Command, y *yard.Yard, what string, args []string, annex bool) (*paper.Doc, error) {
	switch what {
	case "examination":
		f, err := y.ReportFacts(cmd.Context(), args[0], annex)
		if err != nil {
			return nil, undecided(cmd, y, args[0], err)
		}
		return paper.Examination(f), nil
	case "card":
		f, err := y.CardFacts(cmd.Context(), args[0])
		if err != nil {
			return nil, err
		}
		return paper.Card(f), nil
	case "register":
		list, name, head, err := y.RegisterLines(cmd.Context(), nil)
		if err != nil {
			return nil, err
		}
		return paper.Register(name, y.Today().Words(), head, list, false), nil
	}
	return nil, status{exitUsage, fmt.Errorf("report: there is no paper “%s”; write examination, card or register", what)}
}

// undecided adds to what a report lacks how the decision is entered.
func undecided(cmd *cobra.Command, y *yard.Yard, piece string, lacks error) error {
	past, err := y.Decisions(cmd.Context(), piece)
	if err != nil || len(past) > 0 {
		return lacks
	}
	e, _, err := examinationOf(cmd, y, piece, "")
	if err != nil {
		return status{exitBadRecord, fmt.Errorf("%w\n  %w", lacks, err)}
	}
	return status{exitBadRecord, fmt.Errorf("%w\n  A competent person decides on the %s examination of %s with: %s", lacks, e.Kind, e.Day.Words(), decideWith(piece, e.Ref))}
}
