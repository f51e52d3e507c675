package main

import (
	"encoding/json"
	"os"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"kernbook/internal/tables"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"kernbook": main,
	})
}

// TestScripts runs the command as a person would, wrong calls too.
func TestScripts(t *testing.T) {
	examples, err := filepath.Abs("../../examples")
	if err != nil {
		t.Fatal(err)
	}
	found, err := filepath.Glob("testdata/script/*.txtar")
	if err != nil || len(found) == 0 {
		t.Fatal("no scripts found", err)
	}
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"status": status_,
			"entry":  entry_,
		},
		Setup: func(e *testscript.Env) error {
			e.Setenv("EXAMPLES", examples)
			sum := 0
			for _, c := range tables.Counts(tables.Default()) {
				e.Setenv("ASSUMED_"+strings.ToUpper(strings.TrimSuffix(path.Base(c.File), ".toml")), itoa(c.Assumed))
				sum += c.Assumed
			}
			e.Setenv("ASSUMED", itoa(sum))
			return nil
		},
	})
}

// status_ runs kernbook and demands an exit status: status 20 decide record.toml
func status_(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status CODE ARGS...")
	}
	var out, errs writer
	files := make([]string, len(args)-1)
	for i, a := range args[1:] {
		files[i] = a
		if _, err := os.Stat(ts.MkAbs(a)); err == nil && a != "" {
			files[i] = ts.MkAbs(a)
		}
	}
	code := run(files, os.Stdin, &out, &errs)
	ts.Logf("%s%s", out, errs)
	if got := itoa(code); got != args[0] {
		ts.Fatalf("exit status %s, want %s", got, args[0])
	}
	ts.Check(os.WriteFile(ts.MkAbs("stdout.txt"), out, 0o644))
	ts.Check(os.WriteFile(ts.MkAbs("stderr.txt"), errs, 0o644))
}

// entry_ puts the id of the last entry of a kind about a piece into ENTRY: entry BR-07 event
func entry_(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: entry PIECE KIND")
	}
	var out, errs writer
	if code := run([]string{"piece", "entries", args[0], "--json", "--yard", ts.MkAbs(ts.Getenv("KERNBOOK_YARD"))}, os.Stdin, &out, &errs); code != 0 {
		ts.Fatalf("exit status %d: %s", code, errs)
	}
	var list []lineOut
	ts.Check(json.Unmarshal(out, &list))
	id := ""
	for i := range list {
		if list[i].Kind == args[1] {
			id = list[i].ID
		}
	}
	if id == "" {
		ts.Fatalf("no entry of the kind %s about %s", args[1], args[0])
	}
	ts.Setenv("ENTRY", id)
}

type writer []byte

func (w *writer) Write(b []byte) (int, error) {
	*w = append(*w, b...)
	return len(b), nil
}

func itoa(n int) string {
	if n < 10 {
		return string(rune('0' + n))
	}
	return itoa(n/10) + itoa(n%10)
}
