package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/book"
	"kernbook/internal/book/sqlite"
	"kernbook/internal/check"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
	"kernbook/internal/yard"
)

func newVerify() *cobra.Command {
	var f bookFlags
	var kept string
	c := &cobra.Command{
		Use:   "verify",
		Short: "Read a yard's whole book again by a second reader, and say whether it holds",
		Long: `Read a yard's whole book again, from its first entry to its last, by code of
its own: the hashes over the entries, the form of each, who might enter it, what
they come to, and for each decision the record that was judged and the outcome,
by the very core that decided. It writes nothing.

It ends with 0 when everything that could be looked at holds, and with 3 at the
first entry that does not, which it names. What could not be recomputed is
counted and listed, never passed over; what is alike is listed together, with
--json each by itself (there index counts from 0). A book that was written anew as a whole
fits together: give --head with a head that was kept elsewhere (each entry and
report tells one) to see that this is still the book it was taken from.`,
		Example: `  kernbook verify --yard quillbrook
  kernbook verify --yard quillbrook --head 812:6f0c…
  kernbook verify --yard quillbrook --json`,
		Args: none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			head, err := book.ParseHead(kept)
			if err != nil {
				return fmt.Errorf("verify: --head: %w", err)
			}
			r, err := verify(cmd, f.dir, head)
			if err != nil {
				return status{exitFailed, err}
			}
			if f.json {
				err = printJSON(cmd, r)
			} else {
				err = tellResult(cmd.OutOrStdout(), r)
			}
			if err == nil && !r.Holds {
				err = status{code: exitBadRecord}
			}
			return err
		},
	}
	f.flags(c, false)
	c.Flags().StringVar(&kept, "head", "", "a head that was kept elsewhere, `SIZE:ROOT`: the book must still go back to it")
	return c
}

// verify opens what a yard's folder holds, makes nothing that is missing, and
// has it read.
func verify(cmd *cobra.Command, dir string, kept book.Head) (*check.Result, error) {
	p := yard.PartsOf(dir)
	id, err := p.ID()
	if err != nil {
		return nil, err
	}
	if _, err := os.Stat(p.Book); err != nil {
		return nil, fmt.Errorf("%s holds no book: %w", dir, err)
	}
	store, err := sqlite.Open(p.Book, sqlite.Options{ReadOnly: true})
	if errors.Is(err, book.ErrBroken) {
		return &check.Result{Fault: &check.Fault{Index: -1, What: "the file of the book", Why: err.Error()}, Not: []check.Told{}, Otherwise: []check.Told{}, Notes: []check.Told{}}, nil
	}
	if err != nil {
		return nil, err
	}
	defer store.Close()
	o := check.Options{Store: store, Tables: tables.Default(), Yard: id, Kept: kept}
	if isFolder(p.Keys) {
		if o.Keys, err = seal.NewFolder(p.Keys); err != nil {
			return nil, err
		}
	}
	if o.Cores, err = check.NewCores(p.Cores); err != nil {
		return nil, err
	}
	defer o.Cores.Close()
	return check.Run(cmd.Context(), o)
}

func isFolder(name string) bool {
	s, err := os.Stat(name)
	return err == nil && s.IsDir()
}

// tellResult tells a person what was found.
func tellResult(w io.Writer, r *check.Result) error {
	var b strings.Builder
	if f := r.Fault; f != nil {
		where := "The book"
		if f.Index >= 0 {
			where = fmt.Sprintf("Entry %d", f.Index+1) // numbered from 1 as everywhere
			if f.ID != "" {
				where += " (" + f.ID + ")"
			}
		}
		fmt.Fprintf(&b, "%s does not hold.\n  %s: %s.\n", where, f.What, f.Why)
		fmt.Fprintf(&b, "%d entries were read and hold before it; nothing behind it was looked at.\n", r.Entries)
		b.WriteString("Keep this folder as it is, and go on with a copy that holds.\n")
	} else {
		fmt.Fprintf(&b, "%d entries hold: their hashes, their form, who entered them, and what they come to.\nHead %s\n", r.Entries, r.Head)
	}
	fmt.Fprintf(&b, "%s: the record of %d was put together again, the same; the outcome of %d was recomputed by the core that decided, the same.\n", plural(r.Decisions, "decision"), r.Rebuilt, r.Recomputed)
	list(&b, "not recomputed, so neither shown to hold nor not", r.Not)
	list(&b, "to which today's core says otherwise; each stays as it was given", r.Otherwise)
	list(&b, "besides", r.Notes)
	_, err := io.WriteString(w, b.String())
	return err
}

// list tells how many there are, those with the same to be said of them together:
// how many, the first and the last, why, and what to do.
func list(b *strings.Builder, title string, all []check.Told) {
	if len(all) == 0 {
		return
	}
	fmt.Fprintf(b, "%d %s:\n", len(all), title)
	var order []check.Told // with what is said of each alone
	alike := map[check.Told][]check.Told{}
	for _, t := range all {
		key := check.Told{Say: t.Say, Mend: t.Mend}
		if alike[key] == nil {
			order = append(order, key)
		}
		alike[key] = append(alike[key], t)
	}
	for _, key := range order {
		group := alike[key]
		if len(group) == 1 {
			fmt.Fprintf(b, "  %s: %s\n", entryAt(&group[0]), key.Say)
		} else {
			fmt.Fprintf(b, "  %d, from %s to %s: %s\n", len(group), entryAt(&group[0]), entryAt(&group[len(group)-1]), key.Say)
		}
		if key.Mend != "" {
			fmt.Fprintf(b, "    What to do: %s.\n", key.Mend)
		}
	}
	if len(order) < len(all) {
		b.WriteString("  Each by itself: kernbook verify --json\n")
	}
}

// entryAt names an entry by its number in the book, from 1 as everywhere.
func entryAt(t *check.Told) string {
	s := fmt.Sprintf("entry %d", t.Index+1)
	if t.Piece != "" {
		s += " (" + t.Piece + ")"
	}
	return s
}
