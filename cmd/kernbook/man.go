package main

import (
	"os"

	"github.com/spf13/cobra"
	"github.com/spf13/cobra/doc"
)

func newMan() *cobra.Command {
	return &cobra.Command{
		Use:     "man FOLDER",
		Short:   "Write the manual pages into a folder",
		Example: "  kernbook man ./man && man ./man/kernbook-decide.1",
		Args:    needs(1, 1, "into which folder? Name one"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := os.MkdirAll(args[0], 0o755); err != nil {
				return status{exitFailed, err}
			}
			root := cmd.Root()
			root.DisableAutoGenTag = true
			if c, _, err := root.Find([]string{"completion"}); err == nil && c != root {
				root.RemoveCommand(c)
			}
			if err := doc.GenManTree(root, &doc.GenManHeader{Title: "KERNBOOK", Section: "1", Source: "kernbook", Manual: "kernbook"}, args[0]); err != nil {
				return status{exitFailed, err}
			}
			return nil
		},
	}
}
