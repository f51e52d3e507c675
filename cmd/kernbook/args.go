package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// one takes the one argument that the use of a command names, and says in a
// plain sentence what is missing or too much.
func one(cmd *cobra.Command, args []string) error {
	_, name, _ := strings.Cut(cmd.Use, " ")
	name = strings.Trim(name, "[]")
	switch path := called(cmd); {
	case len(args) == 0 || args[0] == "":
		return fmt.Errorf("%s: which %s? Write %s %s", path, strings.ToLower(name), cmd.CommandPath(), name)
	case len(args) > 1:
		return fmt.Errorf("%s: takes one %s, and there are %d (%s); put a name that has spaces in quotes", path, name, len(args), strings.Join(args, ", "))
	}
	return nil
}

// oneAtMost takes one argument or none.
func oneAtMost(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return one(cmd, args)
	}
	return nil
}

// none takes no argument. One after a command that stands for others is a
// command that is not there.
func none(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) == 0:
		return nil
	case !cmd.HasAvailableSubCommands():
		return fmt.Errorf("%s: takes no argument, and there is “%s”", called(cmd), args[0])
	}
	meant := ""
	if cmd.SuggestionsMinimumDistance <= 0 {
		cmd.SuggestionsMinimumDistance = 2
	}
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		meant = "; did you mean “" + near[0] + "”?"
	}
	return fmt.Errorf("there is no command “%s %s”%s", cmd.CommandPath(), args[0], meant)
}

// called is the path of a command without the program's own name.
func called(cmd *cobra.Command) string {
	return strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
}

// quoted puts quotes round a name where a shell needs them.
func quoted(name string) string {
	if name != "" && !strings.ContainsAny(name, " \t'\"$`\\&;|<>()*?[]#~!{}") {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}

// fileName is a name for a file about a piece, whatever the piece is called.
func fileName(piece string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" /\\:'\"$`*?<>|&;()[]#~!{}", r) {
			return '-'
		}
		return r
	}, piece)
}
