package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	"kernbook/internal/lang"
	"kernbook/internal/record"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// now is the clock of the note on dates that lie ahead; no outcome knows it.
var now = time.Now

// decideFlags are what a call of decide may ask for.
type decideFlags struct {
	json, full bool
	svg, width string
	asOf       string
	blank      string
}

func newDecide() *cobra.Command {
	var f decideFlags
	c := &cobra.Command{
		Use:   "decide RECORD...",
		Short: "Judge a record: the outcome with its reasons, the doubt left, the next look",
		Long: `Judge records, each a piece with its history and the examination at hand, as TOML
or JSON ("-" reads standard input). docs/record.md explains the format;
--new writes a commented record to fill in.

Exit status: 0 keep; 10 keep, look sooner; 20 set aside; 30 withdraw (of several
records the strictest); 1 a file could not be read or written; 2 wrong call;
3 a record has faults, and nothing is decided for it; 4 internal fault.`,
		Example: `  kernbook decide --new bridge > my-bridge.toml
  kernbook decide my-bridge.toml
  kernbook decide --json my-bridge.toml > outcome.json
  kernbook decide --svg my-bridge.svg my-bridge.toml
  kernbook decide --svg my-bridge.svg --svg-width phone my-bridge.toml
  kernbook decide --as-of 2026-09-01 my-bridge.toml`,
		Args: func(cmd *cobra.Command, args []string) error { return f.check(args) },
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return []string{"toml", "json"}, cobra.ShellCompDirectiveFilterFileExt
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.blank != "" {
				return writeNew(cmd.OutOrStdout(), f.blank)
			}
			return f.all(cmd, args)
		},
	}
	fl := c.Flags()
	fl.BoolVar(&f.json, "json", false, "print the outcome as JSON (docs/outcome.md)")
	fl.BoolVar(&f.full, "full", false, "print everything: all table values leaned on, all rules that set a date")
	fl.StringVar(&f.svg, "svg", "", "draw the doubt line, the fall look by look and the doubt along the piece into `FILE`")
	fl.StringVar(&f.width, "svg-width", "sheet", "draw for a `WIDTH`: sheet (paper, a large screen) or phone (390 pixels)")
	fl.StringVar(&f.asOf, "as-of", "", "judge as of `DAY` (2026-06-01) instead of the record's own")
	fl.StringVar(&f.blank, "new", "", "write a commented record for a `KIND` of piece to fill in")
	_ = c.RegisterFlagCompletionFunc("new", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return kindNames(), cobra.ShellCompDirectiveNoFileComp
	})
	return c
}

func kindNames() []string {
	t := tables.Default()
	var out []string
	for i := range t.Kinds {
		out = append(out, string(t.Kinds[i].ID))
	}
	return out
}

// check refuses calls that cannot be meant.
func (f *decideFlags) check(args []string) error {
	switch {
	case f.blank != "" && len(args) > 0:
		return errors.New("decide: --new writes a new record and takes no file")
	case f.blank == "" && len(args) == 0:
		return errors.New("decide: which record? Name a file, or write one with --new KIND (kinds: " + strings.Join(kindNames(), ", ") + ")")
	case f.width != "sheet" && f.width != "phone":
		return fmt.Errorf("decide: --svg-width %s: write sheet or phone", f.width)
	case f.width != "sheet" && f.svg == "":
		return errors.New("decide: --svg-width says how wide the drawing is; name its file with --svg FILE")
	case f.svg != "" && len(args) > 1:
		return errors.New("decide: --svg draws one record; name one file")
	case f.svg != "":
		return drawable(f.svg, args[0])
	}
	return nil
}

// drawable refuses to draw over what is not a drawing: a record, or any other
// file that is there already and is no SVG.
func drawable(target, source string) error {
	switch ext := strings.ToLower(filepath.Ext(target)); ext {
	case ".toml", ".json":
		return fmt.Errorf("decide: --svg %s: a file that ends in %s is a record, and a drawing would overwrite it; write --svg NAME.svg", target, ext)
	}
	there, err := os.Stat(target)
	if err != nil || !there.Mode().IsRegular() {
		return nil // nothing there, or a terminal or pipe: writing to it says what is wrong
	}
	if record, err := os.Stat(source); err == nil && os.SameFile(there, record) {
		return fmt.Errorf("decide: --svg %s is the record itself; write --svg NAME.svg", target)
	}
	b, err := os.ReadFile(target)
	if err != nil {
		return fmt.Errorf("decide: --svg %s is there already and cannot be read, so it is left as it is; name another file", target)
	}
	if len(b) > 0 && !bytes.Contains(b[:min(len(b), 200)], []byte("<svg")) {
		return fmt.Errorf("decide: --svg %s is there already and is no drawing, so it is left as it is; name another file", target)
	}
	return nil
}

func writeNew(w io.Writer, kind string) error {
	b, err := record.New(kit.KindID(kind), tables.Default(), qty.PartialDate{})
	if err != nil {
		return status{exitUsage, err}
	}
	_, err = w.Write(b)
	return err
}

// all judges every record, tells every fault of every one, and ends with the
// status of the strictest outcome; a record with faults outweighs them all.
func (f *decideFlags) all(cmd *cobra.Command, args []string) error {
	worst, code := kit.Keep, 0
	for i, name := range args {
		b, err := read(cmd.InOrStdin(), name)
		if err != nil {
			fmt.Fprintln(cmd.ErrOrStderr(), "kernbook:", err)
			code = max(code, exitFailed)
			continue
		}
		if i > 0 && !f.json {
			fmt.Fprintln(cmd.OutOrStdout())
		}
		v, err := f.one(cmd, name, b)
		var faults doc.Faults
		switch {
		case errors.As(err, &faults):
			tellFaults(cmd, name, faults)
			code = max(code, exitBadRecord)
		case err != nil:
			return err
		default:
			worst = kit.Stricter(worst, v)
		}
	}
	if code == 0 {
		code = exitOf(worst)
	}
	if code != 0 {
		return status{code: code}
	}
	return nil
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

func exitOf(v kit.Verdict) int {
	switch v {
	case kit.Keep:
		return exitKeep
	case kit.KeepSooner:
		return exitKeepSooner
	case kit.SetAside:
		return exitSetAside
	}
	return exitWithdraw
}

// read gives a file's bytes; "-" is standard input. Of a file too large for a
// record it gives so much that this is found.
func read(in io.Reader, name string) ([]byte, error) {
	if name != "-" {
		file, err := os.Open(name)
		if errors.Is(err, os.ErrNotExist) {
			return nil, fmt.Errorf("%s: there is no such file; is its name right, and is it in this folder?", name)
		}
		if err != nil {
			return nil, err
		}
		defer file.Close()
		in = file
	}
	if file, ok := in.(*os.File); ok {
		if there, err := file.Stat(); err == nil && there.IsDir() {
			return nil, fmt.Errorf("%s: is a folder; name the record in it", name)
		}
	}
	b, err := io.ReadAll(io.LimitReader(in, record.MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return b, nil
}

// one judges one record and prints its outcome.
func (f *decideFlags) one(cmd *cobra.Command, name string, b []byte) (kit.Verdict, error) {
	t := tables.Default()
	r, faults := record.Decode(name, b, t)
	if len(faults) > 0 {
		return kit.Withdraw, faults
	}
	if f.asOf != "" {
		d, err := qty.ParseDate(f.asOf)
		if err != nil || !d.Exact() {
			return kit.Withdraw, status{exitUsage, fmt.Errorf("decide: --as-of %s is not a day; write it as 2026-06-01", f.asOf)}
		}
		r.AsOf = d.Earliest()
	}
	y, m, d := now().Date()
	if today, err := qty.NewDay(y, int(m), d); err == nil && r.AsOf > today {
		fmt.Fprintf(cmd.ErrOrStderr(), "kernbook: note: %s is judged for %s, which lies after today, %s. Is a date mistyped?\n", name, r.AsOf.Words(), today.Words())
	}
	o := decide.Decide(t, r, decide.Ask{Explain: true})
	if err := f.print(cmd.OutOrStdout(), &o, t, r); err != nil {
		return o.Verdict, err
	}
	if f.svg != "" { // last, so that the outcome is told even where the drawing cannot be written
		drawing := report.Drawing
		if f.width == "phone" {
			drawing = report.NarrowDrawing
		}
		if err := os.WriteFile(f.svg, drawing(&o, t, r, lang.English()), 0o644); err != nil {
			return o.Verdict, status{exitFailed, fmt.Errorf("the drawing is not written: %w", err)}
		}
	}
	return o.Verdict, nil
}

// print writes an outcome as text or JSON.
func (f *decideFlags) print(w io.Writer, o *decide.Outcome, t *table.Tables, r *kit.Record) error {
	if f.json {
		out, err := report.JSON(o, t, r, lang.English())
		if err != nil {
			return err
		}
		_, err = w.Write(append(out, '\n'))
		return err
	}
	return report.Text(w, o, t, r, lang.English(), report.Options{Full: f.full})
}
