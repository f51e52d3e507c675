package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
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

// TestVerifyAlike: what is to be said alike of many entries is said once, with
// how many, the first, the last and what to do; what is said of one alone stands
// by itself.
func TestVerifyAlike(t *testing.T) {
	all := []check.Told{{Index: 3, Piece: "BR-01", Say: "no core", Mend: "build it"}, {Index: 5, Piece: "LI-01", Say: "no key"}, {Index: 8, Piece: "BR-02", Say: "no core", Mend: "build it"},
		{Index: 11, Say: "no core", Mend: "build it"}}
	for _, x := range []struct {
		all  []check.Told
		want string
	}{
		{nil, ""},
		{all, "4 not looked at:\n  3, from entry 4 (BR-01) to entry 12: no core\n    What to do: build it.\n  entry 6 (LI-01): no key\n  Each by itself: kernbook verify --json\n"},
		{all[:2], "2 not looked at:\n  entry 4 (BR-01): no core\n    What to do: build it.\n  entry 6 (LI-01): no key\n"},
	} {
		var b strings.Builder
		if list(&b, "not looked at", x.all); b.String() != x.want {
			t.Errorf("%d entries: %q, want %q", len(x.all), b.String(), x.want)
		}
	}
}
