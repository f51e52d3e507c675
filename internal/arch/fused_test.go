package arch

import (
	"fmt"
	"go/ast"
	"go/token"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// machine is a target whose compiler may fuse x*y + z into one instruction
// with one rounding, which gives other last bits than two roundings do.
type machine struct {
	name string
	env  []string
	read func(run runner, archive string) (found []fusedAt, functions int)
}

// runner runs the go command in the folder of the package and for the machine,
// and returns what it wrote to either stream.
type runner func(args ...string) []byte

// fusedAt is one fused instruction.
type fusedAt struct {
	function string // symbol, with its import path
	line     string // file.go:12
	text     string // the instruction
}

var machines = []machine{
	{"arm64", []string{"GOARCH=arm64"}, readDisassembly},
	// The usual amd64, told that FMA is there. go tool objdump does not know
	// these instructions (it prints others in their place), so the compiler's
	// own listing is read.
	{"amd64 at level v3", []string{"GOARCH=amd64", "GOAMD64=v3"}, readListing},
}

// An instruction as go tool objdump prints it:
//
//	fused.go:6	0x2cd1	1f420820	FMADDD F0, F2, F1, F0
var disassembled = regexp.MustCompile(`^\s*(\S+:\d+)\s+0x[0-9a-f]+\s+[0-9a-f]+\s+(FN?M(?:ADD|SUB)[SDH]?\s.*)$`)

// readDisassembly compiles the package into an archive, which has every
// function (a program would hold only those it reaches).
func readDisassembly(run runner, archive string) (found []fusedAt, functions int) {
	run("build", "-o", archive, ".")
	function := ""
	for line := range strings.Lines(string(run("tool", "objdump", archive))) {
		if text, ok := strings.CutPrefix(line, "TEXT "); ok {
			function, _, _ = strings.Cut(text, "(SB)")
			functions++
		} else if m := disassembled.FindStringSubmatch(strings.TrimSpace(line)); m != nil {
			found = append(found, fusedAt{function, m[1], strings.Join(strings.Fields(m[2]), " ")})
		}
	}
	return found, functions
}

// An instruction as the compiler lists it:
//
//	0x0000 00000 (/…/fused.go:6)	VFMADD231SD	X1, X0, X2
var listed = regexp.MustCompile(`\((?:[^()]*[/\\])?([^()/\\]+:\d+)\)\t(VFN?M(?:ADD|SUB)\d+[SP][SD]\s.*)$`)

func readListing(run runner, archive string) (found []fusedAt, functions int) {
	function := ""
	for line := range strings.Lines(string(run("build", "-gcflags=-S", "-o", archive, "."))) {
		if name, _, ok := strings.Cut(line, " STEXT "); ok {
			function = name
			functions++
		} else if m := listed.FindStringSubmatch(strings.TrimSpace(line)); m != nil {
			found = append(found, fusedAt{function, m[1], strings.Join(strings.Fields(m[2]), " ")})
		}
	}
	return found, functions
}

// fusedIn returns the fused instructions of the package in dir, once each, and
// the number of functions seen. A go command that fails, fails the test.
func fusedIn(t *testing.T, m machine, dir string) (found []fusedAt, functions int) {
	t.Helper()
	run := func(args ...string) []byte {
		cmd := exec.Command("go", args...)
		cmd.Dir = dir
		cmd.Env = append(append(os.Environ(), "GOOS=linux", "CGO_ENABLED=0"), m.env...)
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("go %s in %s for %s: %v\n%s", strings.Join(args, " "), dir, m.name, err, out)
		}
		return out
	}
	found, functions = m.read(run, filepath.Join(t.TempDir(), "package.a"))
	seen := map[fusedAt]bool{}
	return slices.DeleteFunc(found, func(f fusedAt) bool {
		f.text = ""
		was := seen[f]
		seen[f] = true
		return was
	}), functions
}

func TestCoreIsNotFused(t *testing.T) {
	packages := sources(t, token.NewFileSet(), module+"/internal/core")
	if len(packages) < 2 {
		t.Fatalf("only %d packages of internal/core were found", len(packages))
	}
	for _, m := range machines {
		for _, p := range packages {
			t.Run(m.name+"/"+strings.TrimPrefix(p.path, module+"/internal/core/"), func(t *testing.T) {
				found, functions := fusedIn(t, m, p.dir)
				for _, f := range found {
					t.Errorf("%s: %s has the fused instruction %q; wrap the product where it is made: float64(a*b)", f.function, f.line, f.text)
				}
				if want := exportedFunctions(p); functions < want {
					t.Errorf("%d functions were seen, the package exports %d", functions, want)
				}
			})
		}
	}
}

// exportedFunctions counts the exported plain functions, all of which the
// compiler must keep.
func exportedFunctions(p source) int {
	n := 0
	for _, f := range p.files {
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok && fn.Recv == nil && fn.Type.TypeParams == nil && fn.Name.IsExported() {
				n++
			}
		}
	}
	return n
}

// TestFusedCheckFinds: testdata/fused, built the same way, has functions that
// are fused and others that are not, and the check tells them apart.
func TestFusedCheckFinds(t *testing.T) {
	dir := filepath.Join(root(t), "internal", "arch", "testdata", "fused")
	want := map[string]bool{
		"Plain": true, "AcrossStatements": true, "ThroughInlining": true, "StoredThenSummed": true,
		"Wrapped": false, "WrappedAcrossStatements": false, "OnlySum": false,
	}
	for _, m := range machines {
		t.Run(m.name, func(t *testing.T) {
			found, functions := fusedIn(t, m, dir)
			if functions < len(want) {
				t.Errorf("only %d functions were seen", functions)
			}
			got := map[string]int{}
			for _, f := range found {
				got[f.function[strings.LastIndex(f.function, ".")+1:]]++
				if !strings.HasPrefix(f.line, "fused.go:") || f.text == "" {
					t.Errorf("not named well: %+v", f)
				}
			}
			for name, fused := range want {
				if (got[name] > 0) != fused {
					t.Errorf("%s: found %d fused instructions, should be fused: %v (all: %s)", name, got[name], fused, fmt.Sprint(found))
				}
			}
		})
	}
}
