package arch

import (
	"fmt"
	"go/build"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestMain: the types of the standard library are read without cgo, as this
// project is built.
func TestMain(m *testing.M) {
	build.Default.CgoEnabled = false
	m.Run()
}

func TestCoreIsPure(t *testing.T) {
	fset := token.NewFileSet()
	packages := sources(t, fset, module+"/internal/core")
	if len(packages) < 2 {
		t.Fatalf("only %d packages of internal/core were found", len(packages))
	}
	c := newChecker(fset, packages)
	for _, p := range packages {
		findings, err := c.check(p)
		if err != nil {
			t.Errorf("%s: %v", p.path, err)
		}
		for _, f := range findings {
			t.Error(f)
		}
	}
}

// want is a comment in a bad source that names the rules its line breaks.
var want = regexp.MustCompile(`// bad: ([a-z -]+)`)

// TestPureCheckFinds runs the checker over testdata/impure: it finds exactly
// the lines marked "// bad: rule", each rule at least once, and nothing in the
// lines without.
func TestPureCheckFinds(t *testing.T) {
	fset := token.NewFileSet()
	dir := filepath.Join(root(t), "internal", "arch", "testdata", "impure")
	s, err := readSource(fset, dir, module+"/internal/core/impure")
	if err != nil {
		t.Fatal(err)
	}
	findings, err := newChecker(fset, []source{s}).check(s)
	if err != nil {
		t.Fatal(err)
	}
	var got, wanted []string
	met := map[rule]bool{}
	for _, f := range findings {
		got = append(got, fmt.Sprintf("%s:%d %s", filepath.Base(f.pos.Filename), f.pos.Line, f.rule))
		met[f.rule] = true
	}
	for _, f := range s.files {
		for _, group := range f.Comments {
			for _, comment := range group.List {
				if m := want.FindStringSubmatch(comment.Text); m != nil {
					at := fset.Position(comment.Pos())
					for _, r := range strings.Fields(m[1]) {
						wanted = append(wanted, fmt.Sprintf("%s:%d %s", filepath.Base(at.Filename), at.Line, r))
					}
				}
			}
		}
	}
	for _, name := range s.other {
		wanted = append(wanted, fmt.Sprintf("%s:1 %s", name, ruleMachine))
	}
	slices.Sort(got)
	slices.Sort(wanted)
	for _, w := range wanted {
		if i := slices.Index(got, w); i >= 0 {
			got = slices.Delete(got, i, i+1)
		} else {
			t.Errorf("not found: %s", w)
		}
	}
	for _, g := range got {
		t.Errorf("found, but there is nothing: %s", g)
	}
	for r, why := range reasons {
		if !met[r] || why == "" {
			t.Errorf("rule %q: met %v, reason %q", r, met[r], why)
		}
	}
}

// TestImportTables: every ban is refused with its own reason, everything in
// the table of what is allowed passes, and the rest is refused.
func TestImportTables(t *testing.T) {
	for _, b := range bannedImports {
		for _, path := range []string{b.path, b.path + "/below"} {
			if got := whyNotImport(path); got != b.why || got == "" {
				t.Errorf("%s: refused with %q, want %q", path, got, b.why)
			}
		}
	}
	for path, why := range allowedImports {
		if got := whyNotImport(path); got != "" || why == "" {
			t.Errorf("%s: refused with %q, allowed with %q", path, got, why)
		}
	}
	for _, path := range []string{
		"archive/zip", "go/types", module + "/internal/tables", module + "/tables", module, module + "/internal/corelike",
		"gonum.org/v1/gonum/stat", "golang.org/x/text", "mathematics", "strings/x",
	} {
		if whyNotImport(path) == "" {
			t.Errorf("%s is let through", path)
		}
	}
	if got := whyNotImport(module + "/internal/core/num"); got != "" {
		t.Errorf("core/num is refused with %q", got)
	}
}
