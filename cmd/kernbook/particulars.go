package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/app"
	"kernbook/internal/doc"
	"kernbook/internal/fold"
)

// particular is one thing that a report of thorough examination says besides.
type particular struct {
	key   string // in a file; the flag has - for _
	words string
	text  func(*fold.Report) *string // nil where it is a flag
	flag  func(*fold.Report) *bool
	yard  bool // of the yard: as in the last report where it is not said
}

// particulars are those of fold.Report, in the order of the report.
var particulars = []particular{
	{key: "number", words: "the report's own number", text: func(r *fold.Report) *string { return &r.Number }},
	{key: "employer", words: "the employer for whom it was made: name and address", text: func(r *fold.Report) *string { return &r.Employer }, yard: true},
	{key: "premises", words: "the address of the premises where it was made", text: func(r *fold.Report) *string { return &r.Premises }, yard: true},
	{key: "occasion", words: "which examination it was: " + strings.Join(app.Occasions[:], ", "), text: func(r *fold.Report) *string { return &r.Occasion }, yard: true},
	{key: "load", words: `the safe working load as marked, or "none stated"`, text: func(r *fold.Report) *string { return &r.Load }, yard: true},
	{key: "tests", words: `tests that were part of it, or "none"`, text: func(r *fold.Report) *string { return &r.Tests }},
	{key: "defect", words: "part and defect that is or could become a danger; left out: none was found", text: func(r *fold.Report) *string { return &r.Defect }},
	{key: "repair", words: "the repair, renewal or alteration that the defect needs", text: func(r *fold.Report) *string { return &r.Repair }},
	{key: "immediate", words: "the defect is a danger to people now", flag: func(r *fold.Report) *bool { return &r.Immediate }},
	{key: "danger_by", words: "the time by which the defect could become a danger, where it is none yet", text: func(r *fold.Report) *string { return &r.DangerBy }},
	{key: "not_looked", words: "what was not examined, and why", text: func(r *fold.Report) *string { return &r.NotLooked }},
	{key: "qualified", words: "the author's address and qualifications, where they are not sealed with the person (kernbook person set)", text: func(r *fold.Report) *string { return &r.Qualified }, yard: true},
	{key: "authentic", words: "who signs or authenticates it on the author's behalf: name and address, or the sign of a person of the yard; left out: the author signs", text: func(r *fold.Report) *string { return &r.Authentic }, yard: true},
	{key: "self_employed", words: "the author is self-employed", flag: func(r *fold.Report) *bool { return &r.SelfEmploy }, yard: true},
}

// flagOf is the flag of a key.
func flagOf(key string) string { return strings.ReplaceAll(key, "_", "-") }

// reportOf puts a report together: the flags that were given, else the file,
// else, of the yard, what the last report said; nil where there is none.
func reportOf(cmd *cobra.Command, file string, flags, last *fold.Report) (fold.Report, error) {
	var r fold.Report
	given := map[string]bool{}
	if last != nil {
		for _, p := range particulars {
			switch {
			case !p.yard || p.key == "occasion" && (last.Occasion == "first" || !slices.Contains(app.Occasions[:], last.Occasion)): // a piece has one first examination
			case p.text != nil:
				*p.text(&r) = *p.text(last)
			default:
				*p.flag(&r) = *p.flag(last)
			}
		}
	}
	if file != "" {
		if err := reportFile(cmd, file, &r, given); err != nil {
			return r, err
		}
	}
	for _, p := range particulars {
		if !cmd.Flags().Changed(flagOf(p.key)) {
			continue
		}
		given[p.key] = true
		if p.text != nil {
			*p.text(&r) = *p.text(flags)
		} else {
			*p.flag(&r) = *p.flag(flags)
		}
	}
	var kept []string
	for _, p := range particulars {
		if p.yard && !given[p.key] && (p.text != nil && *p.text(&r) != "" || p.flag != nil && *p.flag(&r)) {
			kept = append(kept, flagOf(p.key))
		}
	}
	if len(kept) > 0 {
		fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: as in the last report: %s.\n", strings.Join(kept, ", "))
	}
	return r, nil
}

// reportFile reads the particulars of a file.
func reportFile(cmd *cobra.Command, name string, into *fold.Report, given map[string]bool) error {
	b, err := read(cmd.InOrStdin(), name)
	if err != nil {
		return status{exitFailed, err}
	}
	root, faults := doc.ParseTOML(name, b)
	if len(faults) == 0 {
		r := doc.NewReader(name, root)
		t := r.Root()
		for _, p := range particulars {
			if !t.Has(p.key) {
				continue
			}
			given[p.key] = true
			if p.text != nil {
				*p.text(into) = t.Str(p.key, doc.Optional)
			} else {
				*p.flag(into) = t.Bool(p.key, doc.Optional)
			}
		}
		t.Done()
		faults = r.Faults()
	}
	if len(faults) > 0 {
		for _, f := range faults {
			fmt.Fprintf(cmd.ErrOrStderr(), "%s\n", f.Error())
		}
		return refuse("%s has faults, so nothing was entered", name)
	}
	return nil
}
