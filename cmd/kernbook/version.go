package main

import (
	"fmt"
	"io"
	"runtime/debug"

	"github.com/spf13/cobra"

	"kernbook/internal/core/decide"
	"kernbook/internal/tables"
)

func newVersion() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Versions of the program, the core and the tables",
		Args:  none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			_, err := io.WriteString(cmd.OutOrStdout(), versions())
			return err
		},
	}
}

// versions gives those of the program, the core and the tables, a line each.
func versions() string {
	built := "unknown"
	if info, ok := debug.ReadBuildInfo(); ok {
		built = info.Main.Version
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				built = s.Value
			}
		}
	}
	return fmt.Sprintf("kernbook %s\ncore %s\ntables %s\n", built, decide.Version, tables.Default().Version)
}
