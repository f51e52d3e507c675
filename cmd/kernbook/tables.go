package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/core/table"
	"kernbook/internal/record"
	"kernbook/internal/tables"
)

func newTables() *cobra.Command {
	every := false
	check := &cobra.Command{
		Use:     "check",
		Short:   "Check the tables, count what is published, from memory and assumed, and list what is assumed",
		Long:    "Check the tables, count what is published, common practice, from memory and assumed, file by\nfile, and list what is assumed: by sort of row with the names, or with --all each row with its values.",
		Example: "  kernbook tables check\n  kernbook tables check --all",
		Args:    none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return show(cmd, func(w io.Writer, t *table.Tables) error { return tables.Check(w, t, every) })
		},
	}
	check.Flags().BoolVar(&every, "all", false, "print every assumed row with its values")
	print := &cobra.Command{
		Use:               "show [NAME]",
		Short:             "Print a table with the source of each row",
		Long:              "Print a table with the source of each row. NAME is a kind of piece or one of the\ncommon tables; without it the names are listed.",
		Example:           "  kernbook tables show bridge\n  kernbook tables show life",
		Args:              needs(0, 1, ""),
		ValidArgsFunction: completeTables,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				_, err := io.WriteString(cmd.OutOrStdout(), strings.Join(tables.Names(tables.Default()), "\n")+"\n")
				return err
			}
			return show(cmd, func(w io.Writer, t *table.Tables) error {
				err := tables.Print(w, t, args[0])
				if kind := record.CalledKind(args[0]); err != nil && kind != "" {
					return fmt.Errorf("tables show: there is no table “%s”; did you mean “%s”? kernbook tables show lists their names", args[0], kind)
				}
				return err
			})
		},
	}
	return group("tables", "Every value the judgement leans on, with its source and standing", check, print)
}

func show(cmd *cobra.Command, f func(io.Writer, *table.Tables) error) error {
	if err := f(cmd.OutOrStdout(), tables.Default()); err != nil {
		return status{exitUsage, err}
	}
	return nil
}

func completeTables(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var out []string
	for _, n := range tables.Names(tables.Default()) {
		if strings.HasPrefix(n, typed) {
			out = append(out, n)
		}
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
