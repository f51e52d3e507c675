// Command kernbook helps the person who decides whether climbing kit stays in
// use, and who must be able to prove it. It advises; a competent person decides.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/core/decide"
)

// The exit statuses, published in the help of decide and in README.md.
const (
	exitKeep       = 0
	exitFailed     = 1 // a file could not be read or written
	exitUsage      = 2
	exitBadRecord  = 3 // a record, or a table, has faults
	exitInternal   = 4
	exitKeepSooner = 10
	exitSetAside   = 20
	exitWithdraw   = 30
)

// status is an error that says how the program should end. A silent one has
// been told already.
type status struct {
	code int
	err  error
}

func (s status) Error() string {
	if s.err == nil {
		return ""
	}
	return s.err.Error()
}

func main() {
	hurry(true)
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// hurry has memory collected less often: most commands end before it is worth the
// time, and the first page comes a quarter sooner, for some 30 MB more. Whoever
// sets GOGC keeps what they set.
func hurry(on bool) {
	if os.Getenv("GOGC") != "" {
		return
	}
	percent := 100 // Go's own
	if on {
		percent = 400
	}
	debug.SetGCPercent(percent)
}

// run does one call of the program and gives its exit status.
func run(args []string, in io.Reader, out, errs io.Writer) (code int) {
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(errs, "kernbook: this should not have happened: %v\nNothing was decided. Treat the piece as not examined.\n", p)
			code = exitInternal
		}
	}()
	root := newRoot()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errs)
	cmd, err := root.ExecuteC()
	if err == nil {
		return exitKeep
	}
	var s status
	if errors.As(err, &s) {
		if s.err != nil {
			fmt.Fprintln(errs, "kernbook:", plainly(s.err))
		}
		return s.code
	}
	fmt.Fprintf(errs, "kernbook: %s\nSee %s --help.\n", plainly(err), cmd.CommandPath())
	return exitUsage
}

func newRoot() *cobra.Command {
	root := &cobra.Command{
		Use:   "kernbook",
		Short: "Is this piece of climbing kit still good? The outcome, with its reasons",
		Long: `kernbook takes what was looked at, seen and measured on a piece of a tree
climber's kit, and gives an outcome (keep; keep, look sooner; set aside;
withdraw) with its reasons, the doubt that remains and where it sits, and the
day of the next look.

It advises. A competent person decides and signs; the maker's instructions and
the law stand above it.`,
		Example: `  kernbook decide --new bridge > my-bridge.toml
  kernbook decide my-bridge.toml
  kernbook tables show bridge`,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          none,
		RunE:          help,
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		if said, _, raw := strings.Cut(err.Error(), ": strconv."); raw {
			err = errors.New(said + ": write a whole number, from 0 on")
		}
		if path, ok := strings.CutPrefix(cmd.CommandPath(), root.Name()+" "); ok {
			return fmt.Errorf("%s: %w", path, err)
		}
		return err
	})
	root.Version = decide.Version
	root.SetVersionTemplate(versions())
	root.AddCommand(newDecide(), newRecord(), newTables(), newMan(), newVersion(),
		newYard(), newPerson(), newPiece(), newUse(), newLook(), newExamine(), newEvent(), newAnswer(), newWithdraw(), newCorrect(), newDue(), newReport(), newDemo(), newServe(), newVerify())
	root.AddCommand(append(newBench(), newAlong())...)
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		switch c.Name() {
		case "help":
			c.Run, c.RunE = nil, helpOn
		case "completion":
			c.RunE = help
		}
	}
	return root
}

// group is a command that stands for those below it, and by itself shows its help.
func group(use, short string, below ...*cobra.Command) *cobra.Command {
	c := &cobra.Command{Use: use, Short: short, Args: none, RunE: help}
	c.AddCommand(below...)
	return c
}

func help(cmd *cobra.Command, _ []string) error { return cmd.Help() }

// helpOn prints the help of a command, and refuses what is none.
func helpOn(cmd *cobra.Command, args []string) error {
	c, rest, err := cmd.Root().Find(args)
	if err != nil || len(rest) > 0 {
		return fmt.Errorf("help: there is no command %q", strings.Join(args, " "))
	}
	c.InitDefaultHelpFlag()
	return c.Help()
}

// needs takes calls with at least, and at most, so many words; none is the sentence
// for a call with too few.
func needs(least, most int, none string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		path := strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
		switch {
		case len(args) < least:
			return fmt.Errorf("%s: %s", path, none)
		case len(args) > most:
			return fmt.Errorf("%s: takes %d at most, and %d are given", path, most, len(args))
		}
		return nil
	}
}
