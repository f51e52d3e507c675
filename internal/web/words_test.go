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
		if base, on := strings.CutPrefix(k, pageKey); on { // says the same as that, with nothing more
			all, _ := c.Places(base)
			mine, _ := c.Places(k)
			for _, place := range mine {
				if !slices.Contains(all, place) {
					t.Errorf("%s shows {%s}, which %s has not", k, place, base)
				}
			}
			if !c.Has(base) {
				t.Errorf("there are words for %s, but none for %s", k, base)
			}
			continue
		}
		group, _, _ := strings.Cut(strings.TrimPrefix(k, "web."), ".")
		if !slices.Contains(own, k) && !groups[group] {
			t.Errorf("there are words for %s, which no page asks for", k)
		}
	}
}

// fileStyle is how a sentence speaks of a record's file, or of the command.
var fileStyle = regexp.MustCompile(`[a-z_]+ = |run block|in the record\b|judged again|ask again|--full|kernbook tables|text report`)

// message is one message of the catalogue.
var message = regexp.MustCompile(`(?m)^"([^"]+)" = "((?:[^"\\]|\\.)*)"`)

var tag = regexp.MustCompile(`<[^>]*>`)

// TestNoFileOnAPage: whatever an outcome says of a record's file has words of its
// own for the pages, and these name no key of a file.
func TestNoFileOnAPage(t *testing.T) {
	b, err := os.ReadFile(filepath.Join("..", "lang", "en.toml"))
	if err != nil {
		t.Fatal(err)
	}
	reports, pages, ok := strings.Cut(string(b), "\n[web]\n")
	if !ok {
		t.Fatal("the catalogue has no section for the pages")
	}
	// These stand on no page: the short text alone, the head and the foot of a whole sheet.
	elsewhere := []string{"cautions.more", "more", "foot"}
	found := 0
	c := lang.English()
	for _, m := range message.FindAllStringSubmatch(reports, -1) {
		if key := m[1]; fileStyle.MatchString(m[2]) && !slices.Contains(elsewhere, key) {
			if found++; !c.Has(pageKey+key) && !c.Has(pageKey+"draw."+key) {
				t.Errorf("%s has no words for a page: %s", key, m[2])
			}
		}
	}
	if found < 20 {
		t.Errorf("only %d sentences that speak of a file", found)
	}
	for _, m := range message.FindAllStringSubmatch(pages, -1) {
		if strings.HasPrefix(m[1], "page.") && fileStyle.MatchString(m[2]) {
			t.Errorf("%s speaks of a file: %s", m[1], m[2])
		}
	}
}

// TestPagesNameNoFile: no page of a piece or its explanation, of any example, names
// a key of a file.
func TestPagesNameNoFile(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	for _, r := range examples(t) {
		for _, p := range []string{"", "/why", "/answer", "/decide"} {
			page := c.get("/piece/" + r.Piece.ID + p).Body.String()
			_, main, _ := strings.Cut(page, `<main id="main">`)
			main, _, _ = strings.Cut(main, "</main>")
			if m := fileStyle.FindString(tag.ReplaceAllString(main, " ")); m != "" {
				t.Errorf("/piece/%s%s says %q", r.Piece.ID, p, m)
			}
		}
	}
}
