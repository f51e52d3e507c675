package main

import (
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"kernbook/internal/bench"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// newBench gives a command for each calculator of the bench, made from its
// declaration. A name of two words is a command and what stands below it.
func newBench() []*cobra.Command {
	var out []*cobra.Command
	all := bench.All(tables.Default())
	for i := range all {
		above, below, deep := strings.Cut(all[i].Name, " ")
		if !deep {
			out = append(out, benchCommand(&all[i], above))
			continue
		}
		c := benchCommand(&all[i], below)
		if n := len(out) - 1; n >= 0 && out[n].Name() == above {
			out[n].AddCommand(c)
			continue
		}
		out = append(out, group(above, "Bending stiffness of a rope, from what a calliper, a tape or a weight says", c))
	}
	return out
}

func benchCommand(k *bench.Calculator, use string) *cobra.Command {
	said := lang.English()
	typed := map[string]*benchValue{}
	asJSON, svg := false, ""
	example := "  kernbook " + k.Name
	long := report.BenchAbout(said, k.Name) + "\n\nUnits are typed with the number: 58cm, 12.7mm, 1/2in, 92kg, 5400lbf, 20deg. Loads are\nrounded up, strengths down. Nothing is entered into a book."
	c := &cobra.Command{
		Use: use, Short: report.BenchShort(said, k.Name), Long: long, Args: none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			in := map[string]string{}
			for name, v := range typed {
				if cmd.Flags().Changed(name) {
					if strings.TrimSpace(v.text) == "" {
						return fmt.Errorf("%s: --%s is empty; write it with a value, or leave it out", called(cmd), name)
					}
					in[name] = v.text
				}
			}
			return runBench(cmd, k.Name, in, asJSON, svg)
		},
	}
	for i := range k.Fields {
		f := &k.Fields[i]
		v := &benchValue{kind: strings.ToUpper(strings.ReplaceAll(string(f.Kind), " ", "-"))}
		typed[f.Name] = v
		words := report.BenchField(said, k.Name, f.Name)
		if f.Kind == bench.Word {
			words += ": " + strings.Join(f.Words, ", ")
			list := f.Words
			_ = c.RegisterFlagCompletionFunc(f.Name, func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
				return list, cobra.ShellCompDirectiveNoFileComp
			})
		}
		if f.Default != "" {
			words += " (" + f.Default + " if left out)"
		}
		c.Flags().Var(v, f.Name, words)
	}
	for _, pair := range examples[k.Name] {
		example += " --" + pair[0] + " " + pair[1]
	}
	c.Example = example
	c.Flags().BoolVar(&asJSON, "json", false, "print the sheet as JSON")
	c.Flags().StringVar(&svg, "svg", "", "draw it into `FILE`")
	c.Flags().SortFlags = false
	return c
}

// benchValue is what was typed for a field; the help names its kind.
type benchValue struct{ text, kind string }

func (v *benchValue) String() string     { return v.text }
func (v *benchValue) Set(s string) error { v.text = s; return nil }
func (v *benchValue) Type() string       { return v.kind }

// examples are the calls that the help of each calculator shows; a test runs them.
var examples = map[string][][2]string{
	"bridge":             {{"apart", "40cm"}, {"length", "60cm"}, {"mass", "92kg"}, {"friction", "0.15"}},
	"fall":               {{"mass", "92kg"}, {"drop", "30cm"}, {"rope", "1m"}, {"elongation", "3.5%"}, {"strength", "24kN"}},
	"bend":               {{"pin", "12mm"}, {"rope", "11.7mm"}, {"made-of", "fibre"}},
	"ends":               {{"strength", "24kN"}, {"fibre", "pes"}, {"end-a", "bowline"}, {"end-b", "splice"}, {"asked", "3kN"}},
	"damage":             {{"fibre", "hmpe"}},
	"heat":               {{"mass", "92kg"}, {"height", "15m"}, {"part", "200g"}, {"material", "aluminium"}},
	"stiffness overhang": {{"overhang", "30cm"}, {"angle", "41.5deg"}, {"weight", "80g/m"}},
	"stiffness loop":     {{"length", "100cm"}, {"height", "16cm"}, {"weight", "40g/m"}},
	"stiffness jaws":     {{"force", "5N"}, {"gap", "45mm"}, {"rope", "11mm"}},
	"stiffness pinch":    {{"force", "5N"}, {"apart", "40mm"}, {"length", "100mm"}},
	"stiffness knot":     {{"inner", "12.4mm"}, {"rope", "11mm"}},
	"section":            {{"one", "11.9mm"}, {"two", "11.4mm"}, {"weight", "79g/m"}, {"fibre", "pa"}},
}

func runBench(cmd *cobra.Command, name string, in map[string]string, asJSON bool, svg string) error {
	if svg != "" {
		if err := benchDrawable(called(cmd), svg); err != nil {
			return err
		}
	}
	t := tables.Default()
	s, faults := bench.Run(t, name, in)
	if len(faults) > 0 {
		for _, f := range faults {
			field := ""
			if f.Field != "" {
				field = "--" + f.Field + ": "
			}
			fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: %s: %s%s\n", called(cmd), field, f.Says)
		}
		return status{code: exitUsage}
	}
	if asJSON {
		b, err := report.BenchJSON(s, t, lang.English())
		if err != nil {
			return status{exitInternal, err}
		}
		if _, err := cmd.OutOrStdout().Write(append(b, '\n')); err != nil {
			return status{exitFailed, err}
		}
	} else if err := report.BenchText(cmd.OutOrStdout(), s, t, lang.English()); err != nil {
		return status{exitFailed, err}
	}
	if svg == "" {
		return nil
	}
	return benchDraw(svg, report.BenchDrawing(s, lang.English()))
}

// benchDraw writes a drawing of the bench.
func benchDraw(file string, b []byte) error {
	if b == nil {
		return status{exitFailed, errors.New("the drawing is not written: this sheet has none")}
	}
	if err := os.WriteFile(file, b, 0o644); err != nil {
		return status{exitFailed, fmt.Errorf("the drawing is not written: %w", err)}
	}
	return nil
}

// benchDrawable refuses to draw over what is not a drawing.
func benchDrawable(path, target string) error {
	if err := drawable(target, ""); err != nil {
		return errors.New(path + strings.TrimPrefix(err.Error(), "decide"))
	}
	return nil
}
