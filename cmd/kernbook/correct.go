package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/fold"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	"kernbook/internal/yard"
)

// lineOut is an entry as it is listed.
type lineOut struct {
	ID        string          `json:"id"`
	Number    int64           `json:"number"` // in the book, from 1
	Day       string          `json:"day"`
	Kind      string          `json:"kind"`
	By        string          `json:"by"`
	Void      bool            `json:"void"`      // a correction took it out
	Corrected bool            `json:"corrected"` // a correction put something else in its place
	Body      json.RawMessage `json:"body"`      // as it counts now
}

func pieceEntries() *cobra.Command {
	var f bookFlags
	c := &cobra.Command{
		Use:     "entries PIECE",
		Short:   "List every entry about a piece, with the id by which it is corrected",
		Example: "  kernbook piece entries BR-07\n  kernbook piece entries BR-07 --json",
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.with(func(y *yard.Yard) error {
				lines, err := y.Entries(cmd.Context(), args[0])
				if err != nil {
					return err
				}
				out := []lineOut{}
				for _, l := range lines {
					out = append(out, lineOut{l.ID.String(), l.Index + 1, l.Day.String(), string(l.Kind), l.Author, l.Void, l.Was != nil && !l.Void, json.RawMessage(l.Body)})
				}
				if f.json {
					return printJSON(cmd, out)
				}
				for _, x := range out {
					now := ""
					switch {
					case x.Void:
						now = "  taken out by a correction"
					case x.Corrected:
						now = "  corrected"
					}
					fmt.Fprintf(cmd.OutOrStdout(), "%4d  %s  %-11s  %-8s  %s%s\n", x.Number, x.Day, x.Kind, x.By, x.ID, now)
				}
				return nil
			})
		},
	}
	f.flags(c, false)
	return c
}

// correctedOut is a correction as it is told.
type correctedOut struct {
	writtenOut
	Entry  string `json:"entry"` // that it corrects
	Piece  string `json:"piece,omitempty"`
	Before *how   `json:"before,omitempty"` // of the piece, as of today
	After  *how   `json:"after,omitempty"`
}

// how is how a piece stands.
type how struct {
	Stands string `json:"stands"`
	Doubt  int64  `json:"millionths"` // -1 where there is none
	Error  string `json:"error,omitempty"`

	Reasons []string `json:"reasons"` // of the outcome, in words, strictest first
}

// howNow gives how a piece stands today; nil for none.
func howNow(cmd *cobra.Command, y *yard.Yard, piece string) *how {
	if piece == "" {
		return nil
	}
	j, err := y.Judge(cmd.Context(), piece, y.Today(), false)
	h := &how{Stands: "set aside", Doubt: -1, Reasons: []string{}}
	if err != nil { // no outcome can be given, so it is not used
		h.Error = err.Error()
		return h
	}
	h.Stands = j.Stands().String()
	h.Reasons = append(h.Reasons, report.Brief(j.Outcome, y.Tables(), j.Record, lang.English()).Reasons...)
	if j.Outcome.Doubt != nil {
		h.Doubt = j.Outcome.Doubt.Millions
	}
	return h
}

func (h *how) String() string {
	switch {
	case h.Error != "":
		return h.Stands + ": " + h.Error
	case h.Doubt < 0:
		return h.Stands + ", without a figure of doubt"
	}
	return h.Stands + ", doubt " + chance(h.Doubt)
}

// chance gives a doubt in whole millionths as it is read: 1 in 4 000.
func chance(millionths int64) string { return lang.English().Chance(num.OneIn(millionths)) }

func newCorrect() *cobra.Command {
	var f bookFlags
	var why, with string
	var strike, show, try bool
	c := &cobra.Command{
		Use:   "correct ENTRY",
		Short: "Say that an earlier entry was wrong, and what should stand instead",
		Long: `Say that an earlier entry was wrong. The entry itself stays in the book; what
should stand instead counts from now on, or, with --strike, nothing does. How
the piece stands without the correction and with it is printed; with --try that
is all, and nothing is entered.

kernbook piece entries lists the ids. What an entry says is printed by --show, as
JSON: put that into a file, mend it, and give the file to --with. What is said of
a person or the yard, and a decision, is not written anew in its entry: strike it
where it can be, or enter what is right.

A correction is for a competent person. Who is none corrects what they entered
themselves on the same day, and of that only where a piece hangs, its use, a run of
looks, or a look before use or by a partner that found nothing.`,
		Example: `  kernbook piece entries BR-07
  kernbook correct 01a21495-6b30-7eec-9b0a-f6d2c0b7a0d1 --show > wrong.json
  kernbook correct 01a21495-6b30-7eec-9b0a-f6d2c0b7a0d1 --as p1 --why "the wrong end" --with wrong.json --try
  kernbook correct 01a21495-6b30-7eec-9b0a-f6d2c0b7a0d1 --as p1 --why "another piece was meant" --strike`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			id, err := entry.ParseID(args[0])
			if err != nil {
				return status{exitUsage, fmt.Errorf("correct: “%s” is no id of an entry; kernbook piece entries PIECE lists them", args[0])}
			}
			if n := count(show, strike, with != ""); n != 1 {
				return errors.New("correct: say one of --with FILE (what should stand instead), --strike (nothing should) and --show (print what it says)")
			}
			f.enters = !show
			return f.with(func(y *yard.Yard) error {
				l, piece, err := entryOf(cmd, y, id)
				if err != nil {
					return err
				}
				if show {
					return showEntry(cmd, l)
				}
				var instead any
				if with != "" {
					if instead, err = insteadOf(cmd, l, with); err != nil {
						return err
					}
				}
				if try {
					return f.tried(cmd, y, id, piece, instead, why)
				}
				before := howNow(cmd, y, piece)
				w, err := y.Correct(cmd.Context(), f.who(), id, instead, why)
				if err != nil {
					return err
				}
				return f.corrected(cmd, correctedOut{Entry: id.String(), Piece: piece, Before: before, After: howNow(cmd, y, piece)}, w.Written)
			})
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&why, "why", "", "why the entry was wrong")
	c.Flags().StringVar(&with, "with", "", "a `FILE` of JSON with what should stand instead")
	c.Flags().BoolVar(&strike, "strike", false, "nothing should stand instead")
	c.Flags().BoolVar(&try, "try", false, "print what the correction would change, and enter nothing")
	c.Flags().BoolVar(&show, "show", false, "print what the entry says, and correct nothing")
	return c
}

// count says how many are so.
func count(all ...bool) (n int) {
	for _, x := range all {
		if x {
			n++
		}
	}
	return n
}

// entryOf gives an entry about a piece as it counts now. Of one about a person
// the line is nil: what it says is sealed.
func entryOf(cmd *cobra.Command, y *yard.Yard, id entry.ID) (*fold.Line, string, error) {
	piece, known := "", false
	err := y.Look(cmd.Context(), func(s *fold.State, _ book.Head) error {
		p, ok := s.Where(id)
		if known = ok; p != nil {
			piece = p.ID
		}
		return nil
	})
	if err != nil {
		return nil, "", err
	}
	if !known {
		return nil, "", refuse("no entry %s is in the book; kernbook piece entries PIECE lists those of a piece", id)
	}
	if piece == "" {
		return nil, "", nil
	}
	l, err := y.Entry(cmd.Context(), piece, id)
	return &l, piece, err
}

func showEntry(cmd *cobra.Command, l *fold.Line) error {
	if l == nil {
		return refuse("this entry is about a person or the yard, or is a correction: it is not written anew, but what is right is entered")
	}
	var b bytes.Buffer
	if err := json.Indent(&b, l.Body, "", "  "); err != nil {
		return status{exitFailed, err}
	}
	_, err := fmt.Fprintln(cmd.OutOrStdout(), b.String())
	return err
}

// insteadOf reads what should stand instead of an entry.
func insteadOf(cmd *cobra.Command, l *fold.Line, name string) (any, error) {
	if l == nil {
		return nil, showEntry(cmd, l)
	}
	b, err := read(cmd.InOrStdin(), name)
	if err != nil {
		return nil, status{exitFailed, err}
	}
	v, err := fold.Read(l.Kind, b)
	if err != nil {
		return nil, refuse("%s: what should stand instead cannot be read: %w", name, err)
	}
	if bytes.Equal(fold.Encode(v), l.Body) && !l.Void {
		return nil, refuse("%s says what the entry says already: change what was wrong in it", name)
	}
	return v, nil
}

// corrected tells that a correction is in the book, and what it changed.
func (f *bookFlags) corrected(cmd *cobra.Command, x correctedOut, w app.Written) error {
	if f.json {
		x.writtenOut = writtenOut{w.ID.String(), w.Index, w.Head.String()}
		return printJSON(cmd, x)
	}
	if err := f.written(cmd, w, "Entry %s is corrected; it stays in the book, and so does why.", x.Entry); err != nil || x.Before == nil {
		return err
	}
	x.changes(cmd)
	return nil
}

// changes prints how a piece stands without a correction and with it.
func (x *correctedOut) changes(cmd *cobra.Command) {
	out := cmd.OutOrStdout()
	fmt.Fprintf(out, "%s without the correction: %s\n%s with it: %s\n", x.Piece, x.Before, x.Piece, x.After)
	gone, come := besides(x.Before.Reasons, x.After.Reasons), besides(x.After.Reasons, x.Before.Reasons)
	for _, r := range gone {
		fmt.Fprintf(out, "No reason any more with it: %s\n", r)
	}
	for _, r := range come {
		fmt.Fprintf(out, "A reason with it: %s\n", r)
	}
	if len(gone)+len(come) == 0 && x.Before.String() == x.After.String() {
		fmt.Fprintln(out, "As of today, nothing changes by it.")
	}
}

// besides gives what of one list is not in the other.
func besides(one, other []string) []string {
	var out []string
	for _, s := range one {
		if !slices.Contains(other, s) {
			out = append(out, s)
		}
	}
	return out
}

// tried tells what a correction would change, and enters nothing.
func (f *bookFlags) tried(cmd *cobra.Command, y *yard.Yard, id entry.ID, piece string, instead any, why string) error {
	if piece == "" {
		return refuse("what it changes can be told beforehand of an entry about a piece alone")
	}
	t, err := y.TryCorrect(cmd.Context(), f.who(), id, instead, why)
	if err != nil {
		return err
	}
	x := correctedOut{Entry: id.String(), Piece: piece, Before: outcomeOf(&t.Before), After: outcomeOf(&t.After)}
	if f.json {
		return printJSON(cmd, map[string]any{"entry": x.Entry, "piece": x.Piece, "before": x.Before, "after": x.After})
	}
	fmt.Fprintln(cmd.OutOrStdout(), "Nothing is entered. The outcome today would be:")
	x.changes(cmd)
	return nil
}

// outcomeOf puts an outcome as how a piece stands by it.
func outcomeOf(s *app.Said) *how {
	h := &how{Stands: s.Verdict.String(), Doubt: s.Millions, Reasons: append([]string{}, s.Reasons...)}
	if s.Err != nil {
		h.Stands, h.Error = kit.SetAside.String(), s.Err.Error()
	}
	return h
}
