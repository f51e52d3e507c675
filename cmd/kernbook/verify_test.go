package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"kernbook/internal/check"
)

// TestVerifyFile: a letter that was changed in the file of the book, past all
// its guards, is found at its entry.
func TestVerifyFile(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "y")
	call := func(want int, args ...string) []byte {
		t.Helper()
		var out, errs writer
		if got := run(args, os.Stdin, &out, &errs); got != want {
			t.Fatalf("%q: exit status %d, want %d\n%s%s", args, got, want, out, errs)
		}
		return out
	}
	call(0, "yard", "new", dir, "--name", "Quillbrook Tree Care", "--country", "GB", "--person", "p1")
	call(0, "verify", "--yard", dir)
	file := filepath.Join(dir, "book.sqlite")
	b, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Count(b, []byte("Quillbrook")) != 1 {
		t.Fatal("the name does not stand in the file once")
	}
	if err := os.WriteFile(file, bytes.Replace(b, []byte("Quillbrook"), []byte("Quillbruuk"), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	var r check.Result
	if err := json.Unmarshal(call(exitBadRecord, "verify", "--yard", dir, "--json"), &r); err != nil {
		t.Fatal(err)
	}
	if r.Holds || r.Fault == nil || r.Fault.Index != 1 || r.Entries != 1 {
		t.Errorf("%+v %+v", r, r.Fault)
	}
}
