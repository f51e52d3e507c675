package arch

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the path of this module, as go.mod has it.
const module = "kernbook"

// source is one package as it lies on disk: its files without tests, for all
// machines alike.
type source struct {
	path  string // import path
	dir   string
	files []*ast.File
	names []string // base names of files, same order
	other []string // base names of files of other languages (.s, .c, …)
}

// root is the folder of go.mod.
func root(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for ; ; dir = filepath.Dir(dir) {
		if b, err := os.ReadFile(filepath.Join(dir, "go.mod")); err == nil {
			if !strings.HasPrefix(string(b), "module "+module+"\n") {
				t.Fatalf("%s/go.mod is not of module %s", dir, module)
			}
			return dir
		}
		if dir == filepath.Dir(dir) {
			t.Fatal("no go.mod above the test")
		}
	}
}

// sources parses every package of the module at or below the import path
// prefix. Folders named testdata, hidden ones and nested modules are left out,
// as the go command leaves them out.
func sources(t *testing.T, fset *token.FileSet, prefix string) []source {
	t.Helper()
	top := root(t)
	var all []source
	start := filepath.Join(top, strings.TrimPrefix(prefix, module))
	err := filepath.WalkDir(start, func(dir string, d fs.DirEntry, err error) error {
		if err != nil || !d.IsDir() {
			return err
		}
		if name := d.Name(); dir != start && (name == "testdata" || name == "vendor" || strings.HasPrefix(name, ".") || strings.HasPrefix(name, "_")) {
			return filepath.SkipDir
		}
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil && dir != top {
			return filepath.SkipDir
		}
		rel, err := filepath.Rel(top, dir)
		if err != nil {
			return err
		}
		s, err := readSource(fset, dir, path.Join(module, filepath.ToSlash(rel)))
		if err == nil && len(s.files) > 0 {
			all = append(all, s)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func readSource(fset *token.FileSet, dir, importPath string) (source, error) {
	s := source{path: importPath, dir: dir}
	entries, err := os.ReadDir(dir)
	if err != nil {
		return s, err
	}
	for _, e := range entries {
		name := e.Name()
		switch ext := filepath.Ext(name); {
		case slices.Contains([]string{".s", ".S", ".c", ".h", ".cc", ".cpp", ".m", ".syso", ".swig"}, ext):
			s.other = append(s.other, name)
		case ext == ".go" && !strings.HasSuffix(name, "_test.go"):
			f, err := parser.ParseFile(fset, filepath.Join(dir, name), nil, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				return s, err
			}
			s.files = append(s.files, f)
			s.names = append(s.names, name)
		}
	}
	return s, nil
}

// imports lists the import paths of the package, sorted, once each.
func (s source) imports() []string {
	var list []string
	for _, f := range s.files {
		for _, spec := range f.Imports {
			list = append(list, importPath(spec))
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func importPath(spec *ast.ImportSpec) string {
	p, err := strconv.Unquote(spec.Path.Value)
	if err != nil {
		return spec.Path.Value
	}
	return p
}

// within says whether import path p is at or below prefix.
func within(p, prefix string) bool {
	return p == prefix || strings.HasPrefix(p, prefix+"/")
}
