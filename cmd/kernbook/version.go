package main

import (
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"

	"kernbook/internal/core/decide"
	"kernbook/internal/tables"
)

func newVersion() *cobra.Command {
	return &cobra.Command{
		Use:   "version",
		Short: "Versions of the program, the core and the tables",
		Args:  cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			built := "unknown"
			if info, ok := debug.ReadBuildInfo(); ok {
				built = info.Main.Version
				for _, s := range info.Settings {
					if s.Key == "vcs.revision" {
						built = s.Value
					}
				}
			}
			_, err := fmt.Fprintf(cmd.OutOrStdout(), "kernbook %s\ncore %s\ntables %s\n", built, decide.Version, tables.Default().Version)
			return err
		},
	}
}
