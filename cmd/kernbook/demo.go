package main

import (
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"kernbook/internal/demo"
	"kernbook/internal/yard"
)

// invented is what demo made.
type invented struct {
	Folder  string `json:"folder"`
	Entries int64  `json:"entries"`
	Seed    uint64 `json:"seed"`
}

func newDemo() *cobra.Command {
	var seed uint64
	var asJSON bool
	c := &cobra.Command{
		Use:   "demo FOLDER",
		Short: "Make the folder of an invented yard with two years of its life, to look around in",
		Example: `  kernbook demo invented
  kernbook due --yard invented`,
		Args: one,
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := args[0]
			y, err := yard.Open(dir, yard.Options{New: true})
			if err != nil {
				return status{exitFailed, err}
			}
			err = demo.Build(cmd.Context(), y.Store, y.Keys, y.ID, seed, time.Now())
			made := invented{Folder: dir, Seed: seed}
			if err == nil {
				_, made.Entries, err = y.About(cmd.Context())
			}
			if err := errors.Join(err, y.Close()); err != nil {
				return status{exitFailed, err}
			}
			if asJSON {
				return printJSON(cmd, made)
			}
			_, err = fmt.Fprintf(cmd.OutOrStdout(), "The invented yard is in %s: %d entries, seed %d. Look around: kernbook due --yard %s\n", dir, made.Entries, seed, dir)
			return err
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON")
	c.Flags().Uint64Var(&seed, "seed", demo.Seed, "another `SEED` gives another yard")
	return c
}
