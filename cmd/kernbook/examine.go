package main

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/record"
	"kernbook/internal/report"
	"kernbook/internal/yard"
)

func newExamine() *cobra.Command {
	return group("examine", "Write an examination to fill in, enter examinations, and decide on them", examineNew(), examineAdd(), examineDecide())
}

func examineNew() *cobra.Command {
	var f bookFlags
	c := &cobra.Command{
		Use:     "new PIECE",
		Short:   "Print an examination to fill in, for a piece that is in the book",
		Example: "  kernbook examine new BR-07 > examination.toml\n  kernbook examine add examination.toml --piece BR-07 --as p1",
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			return f.with(func(y *yard.Yard) error {
				j, err := y.Judge(cmd.Context(), args[0], y.Today(), false)
				if err != nil {
					return err
				}
				b, err := record.NewExamination(args[0], j.Record.Piece.Kind, y.Tables(), y.Today().Partial())
				if err == nil {
					_, err = cmd.OutOrStdout().Write(b)
				}
				return err
			})
		},
	}
	f.flags(c, false)
	c.Flags().Lookup("json").Hidden = true
	return c
}

func examineAdd() *cobra.Command {
	var f bookFlags
	var piece string
	c := &cobra.Command{
		Use:   "add FILE",
		Short: "Enter the last examination of a file, with the answers of its day, for a piece that is in the book",
		Long: `Enter the last examination of a file, with the answers of its day, for a piece
that is in the book. The file is a whole record of the piece, whose last
examination it is; or, with --piece, what kernbook examine new printed for it.`,
		Example: "  kernbook examine add examination.toml --piece BR-07 --as p1\n  kernbook examine add BR-07.toml --as p1",
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			if piece != "" {
				return f.with(func(y *yard.Yard) error {
					r, err := appended(cmd, y, piece, args[0])
					if err != nil {
						return err
					}
					return f.examined(cmd, y, r)
				})
			}
			r, err := oneRecord(cmd, args[0])
			if err != nil {
				return err
			}
			if len(r.Examinations) == 0 {
				return status{exitBadRecord, fmt.Errorf("%s holds no [[examination]] to enter", args[0])}
			}
			return f.with(func(y *yard.Yard) error { return f.examined(cmd, y, r) })
		},
	}
	f.flags(c, true)
	c.Flags().StringVar(&piece, "piece", "", "the `PIECE`, where the file holds its examination alone")
	return c
}

// examined enters the last examination of a record, with the answers of its day,
// and tells how the piece stands with it.
func (f *bookFlags) examined(cmd *cobra.Command, y *yard.Yard, r *kit.Record) error {
	j, err := y.Judge(cmd.Context(), r.Piece.ID, y.Today(), false)
	if err != nil {
		return err
	}
	name(cmd, r)
	last := r.Examinations[0]
	for _, e := range r.Examinations {
		if e.Day >= last.Day {
			last = e
		}
	}
	if last.Ref != "" && slices.Contains(refs(j.Record), last.Ref) {
		return refuse("“%s” is in the book of %s already: what is entered is the last examination of the file; give a new one a ref of its own", last.Ref, r.Piece.ID)
	}
	w, err := y.Examine(cmd.Context(), f.who(), r.Piece.ID, last)
	for i := 0; i < len(r.Answers) && err == nil; i++ {
		if r.Answers[i].Day == last.Day {
			_, err = y.Answer(cmd.Context(), f.who(), r.Piece.ID, r.Answers[i])
		}
	}
	if err != nil {
		return err
	}
	say := fmt.Sprintf("%s: the %s examination of %s is in the book.", r.Piece.ID, last.Kind, last.Day.Words())
	if decidable(&last) {
		say += fmt.Sprintf("\nA competent person decides on it: %s", decideWith(r.Piece.ID, last.Ref))
	}
	lacks, err := lacking(cmd, y, r.Piece.ID, &last)
	if err != nil {
		return err
	}
	if f.json {
		return printJSON(cmd, examinedOut{writtenOut{w.ID.String(), w.Index, w.Head.String()}, lacks})
	}
	if err := f.written(cmd, w, "%s", say); err != nil {
		return err
	}
	if len(lacks) > 0 {
		fmt.Fprintf(cmd.OutOrStdout(), "It does not count as %s %s examination yet:\n", map[bool]string{true: "an", false: "a"}[last.Kind == kit.Interim], last.Kind)
		for _, x := range lacks {
			fmt.Fprintf(cmd.OutOrStdout(), "  - %s\n", x)
		}
		fmt.Fprintf(cmd.OutOrStdout(), "What was left out by mistake is put right by a correction (kernbook piece entries %s, kernbook correct); what was not done, by another examination.\n", quoted(r.Piece.ID))
	}
	return f.stands(cmd, y, r.Piece.ID)
}

// examinedOut is an examination as it is told.
type examinedOut struct {
	writtenOut
	Lacks []string `json:"lacks"` // why it does not count as one of its kind, in words
}

// lacking says in words what an examination in the book still lacks to count as one of
// its kind.
func lacking(cmd *cobra.Command, y *yard.Yard, piece string, e *kit.Examination) ([]string, error) {
	out := []string{}
	j, err := y.Judge(cmd.Context(), piece, y.Today(), false)
	if err != nil {
		return out, err
	}
	said := report.Brief(j.Outcome, y.Tables(), j.Record, lang.English()).Reasons
	for _, i := range app.Lacks(j.Outcome, e) {
		out = append(out, said[i])
	}
	return out, nil
}

// appended gives what is on record of a piece with the examination and answers
// of a file behind it, and nothing else that could be entered, or tells the
// faults of the file.
func appended(cmd *cobra.Command, y *yard.Yard, piece, file string) (*kit.Record, error) {
	j, err := y.Judge(cmd.Context(), piece, y.Today(), false)
	if err != nil {
		return nil, err
	}
	b, err := read(cmd.InOrStdin(), file)
	if err != nil {
		return nil, status{exitFailed, err}
	}
	r, faults := record.Append(j.Record, file, b, y.Tables())
	if len(faults) > 0 {
		for _, x := range faults {
			fmt.Fprintln(cmd.ErrOrStderr(), x.Error())
		}
		return nil, refuse("%s: %s, nothing was entered", file, plural(len(faults), "fault"))
	}
	r.Examinations, r.Answers = r.Examinations[len(j.Record.Examinations):], r.Answers[len(j.Record.Answers):]
	if len(r.Examinations) != 1 {
		return nil, refuse("%s holds %s; write one [[examination]], with its answers", file, plural(len(r.Examinations), "examination"))
	}
	return r, nil
}

// decidable says whether a decision can be on an examination.
func decidable(e *kit.Examination) bool { return e.Kind == kit.Thorough || e.Kind == kit.Interim }

// decideWith is the command by which a decision on an examination is entered.
func decideWith(piece, ref string) string {
	return fmt.Sprintf("kernbook examine decide %s --on %s --outcome … --why … --latest … --as …", quoted(piece), quoted(ref))
}

// name gives each examination of a record that can be decided on, and has no
// name by which a decision could speak of it, one of its kind and day.
func name(cmd *cobra.Command, r *kit.Record) {
	taken := map[string]bool{}
	for _, ref := range refs(r) {
		taken[ref] = true
	}
	for i := range r.Examinations {
		e := &r.Examinations[i]
		if e.Ref != "" || !decidable(e) {
			continue
		}
		ref := string(e.Kind) + "-" + e.Day.String()
		for n := 2; taken[ref]; n++ {
			ref = fmt.Sprintf("%s-%s-%d", e.Kind, e.Day, n)
		}
		e.Ref, taken[ref] = ref, true
		fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: the %s examination of %s has no name (ref) in the record; it is entered as %s.\n", e.Kind, e.Day.Words(), ref)
	}
}

// refs lists every name that a record gives to something in it.
func refs(r *kit.Record) []string {
	var out []string
	for i := range r.Runs {
		out = append(out, r.Runs[i].Ref)
	}
	for i := range r.Events {
		out = append(out, r.Events[i].Ref)
	}
	for i := range r.Examinations {
		e := &r.Examinations[i]
		out = append(out, e.Ref)
		for n := range e.Signs {
			out = append(out, e.Signs[n].Ref)
		}
		for n := range e.Readings {
			out = append(out, e.Readings[n].Ref)
		}
	}
	return out
}
