package lang_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
	"kernbook/internal/tables"
)

// isKey fits what is the key of a message, or the first part of one.
var isKey = regexp.MustCompile(`^[a-z][a-z-]*\.[a-z -]*$`)

// emitted reads the source of the core and gives every key it can emit.
//
// A key is a text of the form group.name. It may be put together: from a first
// part that ends in a dot and the words of Outcome.NoDoubt, or from a whole key
// and a last part that begins with a hyphen, which only the one function does
// that tells of looks that must follow.
func emitted(t *testing.T) []string {
	t.Helper()
	var keys, firsts, lasts, noDoubt, follow []string
	calls := 0
	for _, pkg := range []string{"criteria", "decide"} {
		files, err := filepath.Glob(filepath.Join("..", "core", pkg, "*.go"))
		if err != nil || len(files) == 0 {
			t.Fatalf("no source in %s: %v", pkg, err)
		}
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			f, err := parser.ParseFile(token.NewFileSet(), file, src, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range f.Decls {
				fn, _ := d.(*ast.FuncDecl)
				calling := false
				var own []string
				ast.Inspect(d, func(n ast.Node) bool {
					switch n := n.(type) {
					case *ast.BasicLit:
						s, err := strconv.Unquote(n.Value)
						switch {
						case n.Kind != token.STRING || err != nil:
						case isKey.MatchString(s) && strings.HasSuffix(s, "."):
							firsts = append(firsts, s)
						case isKey.MatchString(s):
							keys = append(keys, s)
							own = append(own, s)
						case fn != nil && fn.Name.Name == "sooner" && strings.HasPrefix(s, "-"):
							lasts = append(lasts, s)
						}
					case *ast.CallExpr:
						if sel, ok := n.Fun.(*ast.SelectorExpr); ok && sel.Sel.Name == "sooner" {
							calls++
							calling = true
						}
					case *ast.AssignStmt:
						for i, l := range n.Lhs {
							sel, ok := l.(*ast.SelectorExpr)
							if !ok || sel.Sel.Name != "NoDoubt" || i >= len(n.Rhs) {
								continue
							}
							if lit, ok := n.Rhs[i].(*ast.BasicLit); ok {
								word, _ := strconv.Unquote(lit.Value)
								noDoubt = append(noDoubt, word)
							}
						}
					}
					return true
				})
				if calling {
					follow = append(follow, own...)
				}
			}
		}
	}
	if !slices.Equal(firsts, []string{"doubt."}) || calls != 2 || len(lasts) != 2 {
		t.Fatalf("keys are put together in another way than this test knows: first parts %q, last parts %q, %d calls", firsts, lasts, calls)
	}
	for _, word := range noDoubt {
		if word != "kind" { // the kind has no figure at all: that is no reason
			keys = append(keys, firsts[0]+word)
		}
	}
	for _, key := range follow {
		if key == "event.sooner" || key == "contaminant.washed" {
			for _, l := range lasts {
				keys = append(keys, key+l)
			}
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

// TestEveryKeyOfTheCore: the catalogue has words for each key that the core can
// emit, and none for one that it cannot.
func TestEveryKeyOfTheCore(t *testing.T) {
	keys := emitted(t)
	if len(keys) < 70 {
		t.Fatalf("only %d keys were found in the source", len(keys))
	}
	core := lang.English().Core()
	for _, k := range keys {
		if !slices.Contains(core, k) {
			t.Errorf("the core emits %s, which has no words", k)
		}
	}
	for _, k := range core {
		if !slices.Contains(keys, k) {
			t.Errorf("there are words for %s, which the core does not emit", k)
		}
	}
}

// TestGroups: each word that the core, the record or the tables can put into a
// group has its words.
func TestGroups(t *testing.T) {
	c := lang.English()
	need := func(group string, words ...string) {
		for _, w := range words {
			if key := group + "." + strings.ReplaceAll(w, " ", "-"); !c.Has(key) {
				t.Errorf("no words for %s", key)
			}
		}
	}
	need("exam", string(kit.PreUse), string(kit.Partner), string(kit.Interim), string(kit.Thorough))
	need("state", string(kit.FirstSeen), string(kit.Same), string(kit.Grown), string(kit.GoneWash), string(kit.Gone))
	for v := kit.Keep; v <= kit.Withdraw; v++ {
		need("verdict", v.String())
		need("because", v.String())
	}
	questions := []string{criteria.QIdentity, criteria.QAssembly, criteria.QHistory, criteria.QManufacture, criteria.QDeclaration, criteria.QProof,
		criteria.QStorage, criteria.QThorough, criteria.QExamine, criteria.QLook, criteria.QAsk, criteria.QSign, criteria.QEvent, criteria.QRelease,
		criteria.QSubstance, criteria.QWash, criteria.QMeasure, criteria.QKind}
	need("question", questions...)
	need("who", questions...)
	need("no-doubt", "kind", "too many", "impossible")
	need("next-why", "doubt", "examination", "life", "reason", "half the usual interval")
	need("assumed", "length", "use", "hours", "mass", "dirt", "hardware", "weekdays")
	tb := tables.Default()
	for i := range tb.Lines {
		need("mark", tb.Lines[i].Mark)
		need("status", string(tb.Lines[i].Status))
	}
	for i := range tb.Kinds {
		for _, side := range tb.Kinds[i].Sides {
			need("side", side)
		}
		for z := range tb.Kinds[i].Zones {
			need("zone", tb.Kinds[i].Zones[z].ID)
		}
	}
}

// TestEveryWordIsUsed: no words of the catalogue are left over: each key, or
// the group before its first dot, stands in the source of a package that
// shows outcomes, or in the catalogue itself.
func TestEveryWordIsUsed(t *testing.T) {
	var all strings.Builder
	for _, glob := range []string{"*.go", "../report/*.go"} {
		files, err := filepath.Glob(glob)
		if err != nil || len(files) == 0 {
			t.Fatalf("no source in %s: %v", glob, err)
		}
		for _, f := range files {
			if strings.HasSuffix(f, "_test.go") {
				continue
			}
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			all.Write(b)
		}
	}
	b, err := os.ReadFile("en.toml")
	if err != nil {
		t.Fatal(err)
	}
	source, words := all.String(), string(b)
	for _, key := range lang.English().Own() {
		group, _, _ := strings.Cut(key, ".")
		stem := key[:strings.LastIndex(key, ".")+1]
		switch {
		case strings.Contains(source, `"`+key+`"`):
		case stem != "" && strings.Contains(source, `"`+stem+`"`), strings.Contains(source, `"`+group+`.`+`" +`), strings.Contains(source, `name("`+group+`"`):
		case strings.Contains(words, ":"+group+"}"):
		case strings.HasPrefix(key, "forecast.") && strings.Contains(source, `"`+strings.TrimSuffix(strings.TrimSuffix(key, ".reached"), ".not-reached")+`"`):
		default:
			t.Errorf("nothing shows %s", key)
		}
	}
}
