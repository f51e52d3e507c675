package arch

import (
	"fmt"
	"go/ast"
	"go/build"
	"go/importer"
	"go/token"
	"go/types"
	"regexp"
	"slices"
	"strings"
)

// finding is one place where internal/core is not pure.
type finding struct {
	pos  token.Position
	rule rule
	what string
}

func (f finding) String() string {
	return fmt.Sprintf("%s: %s: %s", f.pos, f.what, reasons[f.rule])
}

// checker holds what is shared between packages: types are read from source.
type checker struct {
	fset *token.FileSet
	std  types.Importer
	ours map[string]source // packages of this module, by import path
	done map[string]*types.Package
}

func newChecker(fset *token.FileSet, ours []source) *checker {
	c := &checker{fset: fset, std: importer.ForCompiler(fset, "source", nil), ours: map[string]source{}, done: map[string]*types.Package{}}
	for _, s := range ours {
		c.ours[s.path] = s
	}
	return c
}

// Import gives the types of a package: ours from the files already parsed, the
// standard library from its source. What core may not import is an empty
// package: the import itself is the finding.
func (c *checker) Import(path string) (*types.Package, error) {
	if p := c.done[path]; p != nil {
		return p, nil
	}
	var p *types.Package
	var err error
	switch s, ok := c.ours[path]; {
	case ok:
		p, _, err = c.types(s)
	case whyNotImport(path) != "":
		p = types.NewPackage(path, path[strings.LastIndex(path, "/")+1:])
		p.MarkComplete()
	default:
		p, err = c.std.Import(path)
	}
	if err == nil {
		c.done[path] = p
	}
	return p, err
}

func (c *checker) types(s source) (*types.Package, *types.Info, error) {
	info := &types.Info{
		Types:      map[ast.Expr]types.TypeAndValue{},
		Uses:       map[*ast.Ident]types.Object{},
		Defs:       map[*ast.Ident]types.Object{},
		Selections: map[*ast.SelectorExpr]*types.Selection{},
	}
	conf := types.Config{Importer: c, FakeImportC: true}
	p, err := conf.Check(s.path, c.fset, s.files, info)
	return p, info, err
}

// whyNotImport returns why core may not import a path, or "" where it may.
func whyNotImport(path string) string {
	if within(path, module+"/internal/core") || allowedImports[path] != "" {
		return ""
	}
	first, _, _ := strings.Cut(path, "/")
	switch {
	case first == module:
		return "core knows nothing outside core"
	case strings.Contains(first, "."):
		return "core stands on the standard library alone, so that an old outcome can be recomputed"
	}
	for _, b := range bannedImports {
		if within(path, b.path) {
			return b.why
		}
	}
	return "not in the table of what core may import; if it is pure, add it there with the reason"
}

// systems are the machines whose builds must all have the same files.
var systems = []struct{ os, arch string }{
	{"linux", "amd64"}, {"linux", "arm64"}, {"windows", "amd64"}, {"darwin", "arm64"}, {"js", "wasm"}, {"wasip1", "wasm"}, {"linux", "386"},
}

// check returns all findings in one package, in the order of the source.
func (c *checker) check(s source) ([]finding, error) {
	_, info, err := c.types(s)
	if err != nil {
		return nil, err
	}
	var all []finding
	for i, f := range s.files {
		v := &visit{c: c, info: info, file: f, notes: notes(c.fset, f)}
		v.fileItself(s.dir, s.names[i])
		v.walk()
		all = append(all, v.found...)
	}
	for _, name := range s.other {
		all = append(all, finding{token.Position{Filename: name, Line: 1}, ruleMachine, "a file that is not Go"})
	}
	slices.SortStableFunc(all, func(a, b finding) int {
		if d := strings.Compare(a.pos.Filename, b.pos.Filename); d != 0 {
			return d
		}
		return a.pos.Offset - b.pos.Offset
	})
	return all, nil
}

// visit walks one file.
type visit struct {
	c     *checker
	info  *types.Info
	file  *ast.File
	notes map[int]bool // lines on which a comment says that order does not matter
	stack []ast.Node   // from the file down to the node being looked at
	found []finding
}

func (v *visit) add(at token.Pos, r rule, format string, args ...any) {
	v.found = append(v.found, finding{v.c.fset.Position(at), r, fmt.Sprintf(format, args...)})
}

var (
	orderNote = regexp.MustCompile(`order does not matter: *\S.{8,}`)
	directive = regexp.MustCompile(`^//(go:(build|linkname|embed|noescape|nosplit|wasmimport|wasmexport|cgo_\w+)\b|\s*\+build\b|export\b)`)
)

// notes finds the lines on which a comment says that order does not matter,
// with a reason of some length.
func notes(fset *token.FileSet, f *ast.File) map[int]bool {
	lines := map[int]bool{}
	for _, group := range f.Comments {
		if orderNote.MatchString(strings.Join(strings.Fields(group.Text()), " ")) {
			for line := fset.Position(group.Pos()).Line; line <= fset.Position(group.End()).Line; line++ {
				lines[line] = true
			}
		}
	}
	return lines
}

// fileItself looks at name, directives and imports.
func (v *visit) fileItself(dir, name string) {
	for _, s := range systems {
		ctx := build.Default
		ctx.GOOS, ctx.GOARCH = s.os, s.arch
		if ok, err := ctx.MatchFile(dir, name); err != nil || !ok {
			v.add(v.file.Package, ruleMachine, "the file is left out on %s/%s", s.os, s.arch)
			break
		}
	}
	for _, group := range v.file.Comments {
		for _, comment := range group.List {
			if directive.MatchString(comment.Text) {
				v.add(comment.Pos(), ruleMachine, "%s", comment.Text)
			}
		}
	}
	for _, spec := range v.file.Imports {
		if why := whyNotImport(importPath(spec)); why != "" {
			v.add(spec.Pos(), ruleImport, "imports %s (%s)", importPath(spec), why)
		}
	}
}

func (v *visit) walk() {
	ast.Inspect(v.file, func(n ast.Node) bool {
		if n == nil {
			v.stack = v.stack[:len(v.stack)-1]
			return true
		}
		v.node(n)
		v.stack = append(v.stack, n)
		return true
	})
}

// orderSaid says whether order is said not to matter for a node at pos: on its
// line, on the line above, or in the doc comment of the function around it.
func (v *visit) orderSaid(pos token.Pos) bool {
	line := v.c.fset.Position(pos).Line
	if v.notes[line] || v.notes[line-1] {
		return true
	}
	for _, n := range v.stack {
		if fn, ok := n.(*ast.FuncDecl); ok && fn.Doc != nil {
			return v.notes[v.c.fset.Position(fn.Doc.Pos()).Line]
		}
	}
	return false
}
