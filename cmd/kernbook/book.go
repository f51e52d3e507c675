package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/yard"
)

// bookFlags are what every command on a yard's book takes.
type bookFlags struct {
	dir, as string
	json    bool
	enters  bool // something is entered, by somebody
}

// flags adds the flags. Commands that only read take no person.
func (f *bookFlags) flags(c *cobra.Command, writes bool) {
	f.dir = "yard"
	if d := os.Getenv("KERNBOOK_YARD"); d != "" {
		f.dir = d
	}
	c.Flags().StringVar(&f.dir, "yard", f.dir, "the yard's `FOLDER` (or the environment's KERNBOOK_YARD)")
	c.Flags().BoolVar(&f.json, "json", false, "print JSON")
	if f.enters = writes; writes {
		c.Flags().StringVar(&f.as, "as", os.Getenv("KERNBOOK_AS"), "`PERSON` who enters this (or the environment's KERNBOOK_AS)")
	}
}

func (f *bookFlags) who() app.Who { return app.Who{Person: f.as} }

// with opens the yard for one command.
func (f *bookFlags) with(do func(*yard.Yard) error) error {
	y, err := yard.Open(f.dir, yard.Options{})
	if err != nil {
		return status{exitFailed, err}
	}
	if f.enters && f.as == "" {
		err = refuse("It is not said who enters this: give --as PERSON, or set KERNBOOK_AS. kernbook person list lists who there is")
	} else {
		err = do(y)
	}
	if bad := y.Close(); err == nil && bad != nil {
		err = status{exitFailed, bad}
	}
	return told(err)
}

// told gives an error of a use case its exit status.
func told(err error) error {
	var e *app.Error
	if !errors.As(err, &e) {
		return err
	}
	switch e.Code {
	case app.NotFound:
		if e.Lacks != "" {
			return status{exitBadRecord, fmt.Errorf("%w kernbook %s list lists those that are there", e, e.Lacks)}
		}
		return status{exitBadRecord, e}
	case app.Invalid, app.Conflict, app.Refused:
		return status{exitBadRecord, e}
	}
	return status{exitFailed, e}
}

// writtenOut is an entry as it is told.
type writtenOut struct {
	ID    string `json:"id"`
	Index int64  `json:"index"`
	Head  string `json:"head"`
}

// written tells that an entry is in the book.
func (f *bookFlags) written(c *cobra.Command, w app.Written, say string, args ...any) error {
	if f.json {
		return printJSON(c, writtenOut{w.ID.String(), w.Index, w.Head.String()})
	}
	fmt.Fprintf(c.OutOrStdout(), say+"\n", args...)
	fmt.Fprintf(c.OutOrStdout(), "Entry %s, number %d of the book.\n", w.ID, w.Index+1)
	return nil
}

func printJSON(c *cobra.Command, v any) error {
	b, err := json.MarshalIndent(v, "", "  ")
	if err == nil {
		_, err = c.OutOrStdout().Write(append(b, '\n'))
	}
	return err
}

// enter has something entered about a piece on a day, "" for today, and tells
// that it is in the book and how the piece stands with it. put enters it, and
// gives the sentence that tells so.
func (f *bookFlags) enter(c *cobra.Command, piece, day string, put func(y *yard.Yard, on qty.Day) (app.Written, string, error)) error {
	return f.with(func(y *yard.Yard) error {
		on, err := dayFlag(y, day)
		if err != nil {
			return err
		}
		w, say, err := put(y, on)
		if err != nil {
			return err
		}
		if err := f.written(c, w, "%s", say); err != nil {
			return err
		}
		return f.stands(c, y, piece)
	})
}

// stands prints how a piece stands after an entry, and ends with its status.
func (f *bookFlags) stands(c *cobra.Command, y *yard.Yard, piece string) error {
	j, err := y.Judge(c.Context(), piece, y.Today(), false)
	if err != nil {
		return err
	}
	if !f.json {
		fmt.Fprintf(c.OutOrStdout(), "%s now: %s. See kernbook piece show %s\n", piece, j.Stands(), piece)
	}
	return nil
}

// stopped tells, before anything else is said of a piece, that somebody took it
// out of use.
func stopped(w io.Writer, piece string, st *fold.Stopped) {
	switch latest := "the latest date that was decided for its next thorough examination, " + st.Latest.Words(); {
	case st.ForGood():
	case st.Passed:
		fmt.Fprintf(w, "%s is set aside: %s, has passed.\n", piece, latest)
	case st.Latest != 0:
		fmt.Fprintf(w, "%s: %s.\n", piece, latest)
	}
	if !st.Aside && !st.ForGood() {
		return
	}
	what := map[string]string{"withdraw": "withdrawn", "hold": "held back", "cut up": "cut up"}[st.What]
	if what == "" {
		what = "set aside"
	}
	since := ""
	switch {
	case st.Cut && st.What != "cut up":
		since = "; it has been cut up since"
	case st.Held && st.What != "hold":
		since = "; it has been held back since"
	}
	fmt.Fprintf(w, "%s is out of use since %s: %s by %s: %s%s\n", piece, st.Day.Words(), what, st.By, st.Why, since)
}

// dayFlag reads a day; "" is today.
func dayFlag(y *yard.Yard, text string) (qty.Day, error) {
	if text == "" {
		return y.Today(), nil
	}
	d, err := qty.ParseDate(text)
	if err != nil || !d.Exact() {
		return 0, status{exitUsage, fmt.Errorf("%s is not a day; write it as 2026-06-01", text)}
	}
	return d.Earliest(), nil
}

// verdictStatus is the status of an outcome, as decide gives it.
func verdictStatus(v kit.Verdict) error {
	if code := exitOf(v); code != exitKeep {
		return status{code: code}
	}
	return nil
}

// writeFile writes a file for its owner alone to open: papers name people. What
// was there before is written over and is for its owner alone from then on.
func writeFile(name string, b []byte) error {
	if err := os.WriteFile(name, b, 0o600); err != nil {
		return status{exitFailed, err}
	}
	if s, err := os.Stat(name); err == nil && s.Mode().IsRegular() {
		if err := os.Chmod(name, 0o600); err != nil {
			return status{exitFailed, err}
		}
	}
	return nil
}
