package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"kernbook/internal/book/sqlite"
	"kernbook/internal/demo"
	"kernbook/internal/seal"
	"kernbook/internal/yard"
)

func newDemo() *cobra.Command {
	var seed uint64
	c := &cobra.Command{
		Use:   "demo FOLDER",
		Short: "Make the folder of an invented yard with two years of its life, to look around in",
		Example: `  kernbook demo invented
  kernbook due --yard invented`,
		Args: cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := args[0]
			y, err := yard.Open(dir, yard.Options{New: true})
			if err != nil {
				return status{exitFailed, err}
			}
			if err := y.Close(); err != nil {
				return status{exitFailed, err}
			}
			id, err := os.ReadFile(filepath.Join(dir, "yard.id"))
			if err != nil {
				return status{exitFailed, err}
			}
			keys, err := seal.NewFolder(filepath.Join(dir, "keys"))
			if err != nil {
				return status{exitFailed, err}
			}
			store, err := sqlite.Open(filepath.Join(dir, "book.sqlite"), sqlite.Options{})
			if err != nil {
				return status{exitFailed, err}
			}
			defer store.Close()
			if err := demo.Build(cmd.Context(), store, keys, strings.TrimSpace(string(id)), seed, time.Now()); err != nil {
				return status{exitFailed, err}
			}
			h, err := store.Head(cmd.Context())
			if err != nil {
				return status{exitFailed, err}
			}
			fmt.Fprintf(cmd.OutOrStdout(), "The invented yard is in %s: %d entries, seed %d. Look around: kernbook due --yard %s\n", dir, h.Size, seed, dir)
			return nil
		},
	}
	c.Flags().Uint64Var(&seed, "seed", demo.Seed, "another `SEED` gives another yard")
	return c
}
