package web

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

	"kernbook/internal/lang"
)

var (
	sayCall    = regexp.MustCompile(`\bsay "([^"]*)"`)
	sharedCall = regexp.MustCompile(`\bshared "([^"]*)"`)
	wordCall   = regexp.MustCompile(`\bword "([^"]*)"`)
	anyCall    = regexp.MustCompile(`\b(say|shared|word) [^"]`)
)

// asked gives the keys that the pages and their code ask for, those they share
// with the reports, and the groups of words.
func asked(t *testing.T) (own, shared []string, groups map[string]bool) {
	t.Helper()
	groups = map[string]bool{}
	templates, _ := filepath.Glob("page/*.html")
	files, _ := filepath.Glob("*.go")
	if len(templates) < 10 || len(files) < 10 {
		t.Fatalf("only %d templates and %d files", len(templates), len(files))
	}
	for _, f := range templates {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range sayCall.FindAllSubmatch(b, -1) {
			own = append(own, "web."+string(m[1]))
		}
		for _, m := range sharedCall.FindAllSubmatch(b, -1) {
			shared = append(shared, string(m[1]))
		}
		for _, m := range wordCall.FindAllSubmatch(b, -1) {
			groups[string(m[1])] = true
		}
		if m := anyCall.Find(b); m != nil {
			t.Errorf("%s asks for words in another way than this test knows: %s", f, m)
		}
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") || file == "words.go" {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			sel, ok := call.Fun.(*ast.SelectorExpr)
			if !ok || !slices.Contains([]string{"say", "shared", "word", "options", "refuse"}, sel.Sel.Name) {
				return true
			}
			at := 0
			if sel.Sel.Name == "refuse" {
				at = 1
			}
			key := ""
			switch x := call.Args[at].(type) {
			case *ast.BasicLit:
				key, _ = strconv.Unquote(x.Value)
			case *ast.BinaryExpr: // a group and its word
				if lit, ok := x.X.(*ast.BasicLit); ok && sel.Sel.Name == "shared" {
					key, _ = strconv.Unquote(lit.Value)
					key += "*"
				}
			case *ast.Ident: // passed on
				if x.Name == "group" || x.Name == "key" {
					return true
				}
			}
			switch {
			case key == "":
				t.Errorf("%s asks for words in another way than this test knows", file)
			case strings.HasSuffix(key, "*"):
			case sel.Sel.Name == "say" || sel.Sel.Name == "refuse":
				own = append(own, "web."+key)
			case sel.Sel.Name == "shared":
				shared = append(shared, key)
			default:
				groups[key] = true
			}
			return true
		})
	}
	own = append(own, "web.person.named") // of words.go
	return own, shared, groups
}

// TestEveryPhraseOfThePages: the catalogue has words for each phrase that the
// pages ask for, and none in their section that they do not.
func TestEveryPhraseOfThePages(t *testing.T) {
	own, shared, groups := asked(t)
	if len(own) < 150 || len(shared) < 5 || len(groups) < 6 {
		t.Fatalf("only %d phrases, %d shared ones and %d groups were found", len(own), len(shared), len(groups))
	}
	c := lang.English()
	web := c.Web()
	for _, k := range own {
		if !slices.Contains(web, k) {
			t.Errorf("the pages ask for %s, which has no words", k)
		}
	}
	for _, k := range shared {
		if !c.Has(k) {
			t.Errorf("the pages ask for %s, which has no words", k)
		}
	}
	for _, k := range web {
		group, _, _ := strings.Cut(strings.TrimPrefix(k, "web."), ".")
		if !slices.Contains(own, k) && !groups[group] {
			t.Errorf("there are words for %s, which no page asks for", k)
		}
	}
}
