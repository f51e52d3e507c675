package main

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"kernbook/internal/bench"
	"kernbook/internal/core/measure"
	"kernbook/internal/core/qty"
	"kernbook/internal/doc"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// alongFlags are what a call of along may ask for.
type alongFlags struct {
	json, change, either bool
	svg, sd, step, study string
	level, margin        string
	widest               int
}

func newAlong() *cobra.Command {
	var f alongFlags
	c := &cobra.Command{
		Use:   "along READINGS",
		Short: "Readings along a rope, then and now: what changed, where, how surely, and what could have been found",
		Long: `Hold readings along a rope against those of its first record: the change of the
whole, its level and trend, places that differ from the rest with their limits and
chance, slips of the gauge, places not read, the smallest change that could have
been found, left against right about the middle.

READINGS is a file of comma-separated values ("-" reads standard input). The header
names each column with its unit, once for all stations; a column stands several
times for readings taken again; an empty cell is a reading that was not taken:

  # before: day 2025-04-01; tension 150 N; method calliper, two square; wet no
  # now: day 2026-04-02; tension 150 N; method calliper, two square; wet no
  at mm,before mm,before mm,now mm,now mm
  0,11.70,11.68,11.68,11.65
  50,11.67,11.74,11.71,

A file ending in .toml says the same as docs/along.md has it. Readings of different
tension, wetness or method are not compared. Nothing is entered into a book.

Exit status: 0 done, also where a place is flagged; 1 a file could not be read or
written; 2 wrong call, or the sets do not compare; 3 a file has faults.`,
		Example: `  kernbook along readings.csv --gauge-sd 0.06mm --svg strip.svg
  kernbook along readings.csv --study study.csv --json`,
		Args: func(cmd *cobra.Command, args []string) error { return one(cmd, args) },
		RunE: func(cmd *cobra.Command, args []string) error { return f.run(cmd, args[0]) },
	}
	fl := c.Flags()
	fl.SortFlags = false
	fl.StringVar(&f.sd, "gauge-sd", "", "standard deviation of one reading (`LENGTH`, or a plain number in the unit of the readings)")
	fl.StringVar(&f.study, "study", "", "take it from a study of the gauge in `FILE`")
	fl.StringVar(&f.step, "step", "", "readings are rounded to this (`LENGTH`, or a plain number)")
	fl.StringVar(&f.level, "level", "5%", "false alarms over the whole rope, as a `SHARE`")
	fl.IntVar(&f.widest, "widest", 0, "widest stretch, in `STATIONS` (a third of them, at most 12, if left out)")
	fl.BoolVar(&f.change, "change", false, "ask of each stretch whether it has changed at all, instead of against the rest")
	fl.BoolVar(&f.either, "either", false, "look for swelling as well as for loss")
	fl.StringVar(&f.margin, "margin", "", "left and right are equal to within this (`LENGTH`, or a plain number)")
	fl.BoolVar(&f.json, "json", false, "print it as JSON")
	fl.StringVar(&f.svg, "svg", "", "draw the strip along the rope into `FILE`")
	c.AddCommand(newStudy())
	return c
}

// inUnit reads a deviation, step or margin: a length where the readings are lengths,
// else a plain number in their unit.
func inUnit(flag, text, unit string) (float64, error) {
	var v float64
	var err error
	if unit == "mm" {
		var l qty.Length
		l, err = qty.ParseLength(text)
		v = l.Millimetres()
	} else {
		v, err = qty.ParseNumber(text)
	}
	if err == nil && !(v > 0) {
		err = errors.New("“" + text + "” is not more than nought — leave it out, or give what the gauge has")
	}
	if err != nil {
		return 0, fmt.Errorf("--%s: %w", flag, err)
	}
	return v, nil
}

// fill reads the flags, for readings of a unit.
func (f *alongFlags) fill(cmd *cobra.Command, unit string) (ask bench.AlongAsk, err error) {
	level, err := qty.ParsePercent(f.level)
	if err != nil || level <= 0 || level > 0.5 {
		return ask, fmt.Errorf("--level %s: write a share of more than 0%% and at most 50%%, such as 5%%", f.level)
	}
	if f.widest < 0 {
		return ask, fmt.Errorf("--widest %d: write a number of stations", f.widest)
	}
	ask.Level, ask.Widest = float64(level), f.widest
	if f.change {
		ask.Form = measure.Change
	}
	if f.either {
		ask.Side = measure.Either
	}
	if f.step != "" {
		if ask.Gauge.Step, err = inUnit("step", f.step, unit); err != nil {
			return ask, err
		}
	}
	if f.margin != "" {
		if ask.Margin, err = inUnit("margin", f.margin, unit); err != nil {
			return ask, err
		}
	}
	switch {
	case f.sd != "" && f.study != "":
		return ask, errors.New("--gauge-sd and --study say the same thing twice; give one")
	case f.sd != "":
		ask.From = "said"
		ask.Gauge.Deviation, err = inUnit("gauge-sd", f.sd, unit)
		return ask, err
	case f.study != "":
		s, of, err := studyOf(cmd, f.study)
		if err != nil {
			return ask, err
		}
		if of != unit {
			return ask, fmt.Errorf("--study: it is in %s and the readings are in %s; make a study of this gauge", of, unit)
		}
		ask.Gauge, ask.From = bench.GaugeOf(s, ask.Gauge.Step), "study"
		return ask, nil
	case unit != "mm":
		return ask, fmt.Errorf("--gauge-sd is missing: for readings in %s nothing can be assumed; give it, or a study with --study", unit)
	}
	ask.Gauge.Deviation, ask.From = bench.UsualDeviation, "assumed"
	return ask, nil
}

func (f *alongFlags) run(cmd *cobra.Command, name string) error {
	if f.svg != "" {
		if err := benchDrawable("along", f.svg); err != nil {
			return err
		}
	}
	b, err := read(cmd.InOrStdin(), name)
	if err != nil {
		return status{exitFailed, err}
	}
	r, faults := bench.ReadAlong(name, b)
	if len(faults) > 0 {
		return benchFaults(cmd, faults)
	}
	ask, err := f.fill(cmd, r.Unit)
	if err != nil {
		var s status
		if errors.As(err, &s) {
			return err
		}
		return fmt.Errorf("along: %w", err)
	}
	said := lang.English()
	sheet, apart, err := bench.Along(r, ask)
	switch {
	case len(apart) > 0:
		for _, x := range report.Refused(apart, said) {
			fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: along: %s\n", x)
		}
		return status{code: exitUsage}
	case err != nil:
		return status{exitBadRecord, fmt.Errorf("%s: %w", name, err)}
	}
	if f.json {
		err = benchJSON(cmd.OutOrStdout(), func() ([]byte, error) { return report.AlongJSON(sheet, said) })
	} else {
		err = report.AlongText(cmd.OutOrStdout(), sheet, said)
	}
	if err != nil {
		return status{exitFailed, err}
	}
	if f.svg == "" {
		return nil
	}
	return benchDraw(f.svg, report.AlongDrawing(sheet, said))
}

func benchJSON(w io.Writer, make func() ([]byte, error)) error {
	b, err := make()
	if err != nil {
		return err
	}
	_, err = w.Write(append(b, '\n'))
	return err
}

func benchFaults(cmd *cobra.Command, faults doc.Faults) error {
	for _, x := range faults {
		fmt.Fprintln(cmd.ErrOrStderr(), x.Error())
	}
	return status{code: exitBadRecord}
}

// studyOf reads and works out a study of a gauge.
func studyOf(cmd *cobra.Command, name string) (*measure.Study, string, error) {
	b, err := read(cmd.InOrStdin(), name)
	if err != nil {
		return nil, "", status{exitFailed, err}
	}
	trials, unit, faults := bench.ReadStudy(name, b)
	if len(faults) > 0 {
		return nil, "", benchFaults(cmd, faults)
	}
	s, err := measure.Crossed(trials)
	if err != nil {
		return nil, "", status{exitBadRecord, fmt.Errorf("%s: %w", name, err)}
	}
	return &s, unit, nil
}

func newStudy() *cobra.Command {
	asJSON := false
	c := &cobra.Command{
		Use:   "study FILE",
		Short: "How well a gauge repeats, and what other hands add",
		Long: `Work out a study of repeatability and reproducibility: every hand measures every
part equally often, twice or more, without seeing what was read before. FILE is
comma-separated, with the unit in its header:

  part,hand,value mm
  A,p1,11.71
  A,p1,11.68
  A,p2,11.74`,
		Example: "  kernbook along study study.csv",
		Args:    one,
		RunE: func(cmd *cobra.Command, args []string) error {
			s, unit, err := studyOf(cmd, args[0])
			if err != nil {
				return err
			}
			if asJSON {
				err = benchJSON(cmd.OutOrStdout(), func() ([]byte, error) { return report.StudyJSON(s, unit, lang.English()) })
			} else {
				err = report.StudyText(cmd.OutOrStdout(), s, unit, lang.English())
			}
			if err != nil {
				return status{exitFailed, err}
			}
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "print it as JSON")
	return c
}
