//go:build unix

package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
)

// TestSaidOnlyWhatWasSaid: a look that is entered without a word of whether whoever
// looked would climb on the piece says nothing of it in the book; the yes that was
// said stands there. The paper of the piece is its owner's alone, also over a file
// that others could read, and verify leaves every file of the yard as it was.
func TestSaidOnlyWhatWasSaid(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "y")
	call := func(args ...string) {
		t.Helper()
		var out, errs writer
		if got := run(args, os.Stdin, &out, &errs); got != 0 && got != exitSetAside && got != exitWithdraw {
			t.Fatalf("%q: exit status %d\n%s%s", args, got, out, errs)
		}
	}
	said := func() int {
		t.Helper()
		b, err := os.ReadFile(filepath.Join(dir, "book.sqlite"))
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Count(b, []byte(`"would_climb":"yes"`))
	}
	call("yard", "new", dir, "--name", "Quillbrook Tree Care", "--country", "GB", "--person", "p1")
	call("piece", "add", "../../examples/bridge-daily.toml", "--yard", dir, "--as", "p1")
	before := said()
	call("look", "add", "BR-07", "--yard", dir, "--as", "p1", "--looks", "eye,hand", "--fair")
	if n := said(); n != before {
		t.Errorf("nobody said so, and the book says %d times more that they would climb on it", n-before)
	}
	call("look", "add", "BR-07", "--yard", dir, "--as", "p1", "--looks", "eye,hand", "--fair", "--would", "yes")
	if n := said(); n != before+1 {
		t.Errorf("it was said once, and the book says it %d times", n-before)
	}
	paper := filepath.Join(t.TempDir(), "card.html")
	if err := os.WriteFile(paper, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, out := range []string{paper, filepath.Join(filepath.Dir(paper), "new.html")} {
		call("report", "BR-07", "--what", "card", "--yard", dir, "--force", "--out", out)
		if s, err := os.Stat(out); err != nil || s.Mode().Perm() != 0o600 || s.Size() == 0 {
			t.Errorf("%v, %v", s.Mode(), err)
		}
	}
	files := func() map[string]string {
		all := map[string]string{}
		err := filepath.Walk(dir, func(name string, i os.FileInfo, err error) error {
			if err != nil || i.IsDir() {
				return err
			}
			b, err := os.ReadFile(name)
			all[name] = string(b)
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		return all
	}
	was := files()
	call("verify", "--yard", dir)
	is := files()
	for name := range is {
		if is[name] != was[name] {
			t.Errorf("%s is not as it was", name)
		}
	}
	if len(is) != len(was) {
		t.Errorf("%d files, and %d before", len(is), len(was))
	}
}
