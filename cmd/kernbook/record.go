package main

import (
	"errors"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"kernbook/internal/doc"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

func newRecord() *cobra.Command {
	return group("record", "Check a record, write it as JSON, or print the schema of the format", &cobra.Command{
		Use:     "check RECORD...",
		Short:   "List every fault of records, and judge nothing",
		Example: "  kernbook record check my-bridge.toml",
		Args:    needs(1, math.MaxInt, "which record? Name a file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			code := 0
			for _, name := range args {
				if _, err := readRecord(cmd, name); err != nil {
					var s status
					if !errors.As(err, &s) {
						return err
					}
					if s.err != nil {
						fmt.Fprintln(cmd.ErrOrStderr(), "kernbook:", s.err)
					}
					code = max(code, s.code)
				} else {
					fmt.Fprintf(cmd.OutOrStdout(), "%s: no fault\n", name)
				}
			}
			if code != 0 {
				return status{code: code}
			}
			return nil
		},
	}, &cobra.Command{
		Use:     "json RECORD",
		Short:   "Write a record in its one JSON form, as a page or another program takes it",
		Example: "  kernbook record json my-bridge.toml > my-bridge.json",
		Args:    needs(1, 1, "which record? Name a file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			b, err := readRecord(cmd, args[0])
			if err != nil {
				return err
			}
			_, err = cmd.OutOrStdout().Write(b)
			return err
		},
	}, &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of the record format",
		Args:  none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := cmd.OutOrStdout().Write(record.Schema(tables.Default()))
			return err
		},
	})
}

// readRecord reads one record and gives it in its one JSON form. Its faults are
// told at once; the error is then a silent status.
func readRecord(cmd *cobra.Command, name string) ([]byte, error) {
	r, err := oneRecord(cmd, name)
	if err != nil {
		return nil, err
	}
	return record.Encode(r), nil
}

// tellFaults writes every fault of a record.
func tellFaults(cmd *cobra.Command, name string, faults doc.Faults) {
	for _, x := range faults {
		fmt.Fprintln(cmd.ErrOrStderr(), x.Error())
	}
	fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: %s: %s, nothing was decided. Until it is, the piece counts as not examined.\n", name, plural(len(faults), "fault"))
}
