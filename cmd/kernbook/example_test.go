package main

import (
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// TestEveryCommandHasAnExample: each command on a yard's book shows in its help
// how it is called, by flags that it has.
func TestEveryCommandHasAnExample(t *testing.T) {
	root := newRoot()
	seen := 0
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		for _, x := range c.Commands() {
			walk(x)
		}
		if c.HasSubCommands() || c.Flags().Lookup("yard") == nil {
			return
		}
		seen++
		if !strings.Contains(c.Example, c.CommandPath()) {
			t.Errorf("%s has no example", c.CommandPath())
		}
		for _, line := range strings.Split(strings.ReplaceAll(c.Example, "\\\n", " "), "\n") {
			cmd, rest, err := root.Find(strings.Fields(line)[1:])
			if err != nil {
				t.Errorf("%s: %v", line, err)
				continue
			}
			for _, w := range rest {
				if name, ok := strings.CutPrefix(w, "--"); ok && cmd.Flags().Lookup(name) == nil {
					t.Errorf("%s: there is no flag --%s", line, name)
				}
			}
		}
	}
	walk(root)
	if seen < 25 {
		t.Errorf("%d commands on a book", seen)
	}
}
