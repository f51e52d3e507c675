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
	"kernbook/internal/core/decide"
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
		criteria.QSubstance, criteria.QWash, criteria.QMeasure, criteria.QSay, criteria.QKind, decide.QReplace, decide.QUse, decide.QRuns}
	need("question", questions...)
	need("who", questions...)
	need("runs", "none")
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

// TestEveryPhraseOfTheDrawing: the catalogue has words for each phrase that the
// drawing asks for, and none in the section for it that it does not. A phrase is
// asked for by its key as it stands: "say" for one of that section, "shared" for
// one that the text has too. Short names are asked for by group.
func TestEveryPhraseOfTheDrawing(t *testing.T) {
	c := lang.English()
	files, err := filepath.Glob(filepath.Join("..", "report", "draw", "*.go"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no source of the drawing: %v", err)
	}
	var own, shared []string
	names := map[string]bool{}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if fn, ok := n.(*ast.FuncDecl); ok && (fn.Name.Name == "say" || fn.Name.Name == "shared") {
				return false // these two pass on what they are given
			}
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			sel, ok := call.Fun.(*ast.SelectorExpr)
			if !ok || !slices.Contains([]string{"say", "shared", "Say", "Name"}, sel.Sel.Name) {
				return true
			}
			key := ""
			if lit, ok := call.Args[0].(*ast.BasicLit); ok {
				key, _ = strconv.Unquote(lit.Value)
			}
			switch {
			case key == "" || sel.Sel.Name == "Say":
				t.Errorf("%s asks for words in another way than this test knows", file)
			case sel.Sel.Name == "say":
				own = append(own, "draw."+key)
			case sel.Sel.Name == "shared":
				shared = append(shared, key)
			default:
				names["draw."+key+"."] = true
			}
			return true
		})
	}
	if len(own) < 60 || len(shared) < 8 || len(names) < 6 {
		t.Fatalf("only %d phrases, %d shared ones and %d groups of names were found in the source", len(own), len(shared), len(names))
	}
	drawn := c.Drawn()
	for _, k := range own {
		if !slices.Contains(drawn, k) {
			t.Errorf("the drawing asks for %s, which has no words", k)
		}
	}
	for _, k := range shared {
		if !c.Has(k) || slices.Contains(drawn, k) {
			t.Errorf("the drawing asks for %s, which the text does not have", k)
		}
	}
	for _, k := range drawn {
		if !slices.Contains(own, k) && !names[k[:strings.LastIndex(k, ".")+1]] {
			t.Errorf("there are words for %s, which the drawing does not ask for", k)
		}
	}
}

// TestShortNames: each kind, zone, look and mark has a short name for the
// drawing, and there is none for what does not exist.
func TestShortNames(t *testing.T) {
	want := map[string]bool{"draw.mark.event": true}
	for _, e := range []kit.ExamKind{kit.PreUse, kit.Partner, kit.Interim, kit.Thorough} {
		want["draw.mark."+string(e)] = true
	}
	for _, l := range kit.Looks {
		want["draw.look."+string(l)] = true
	}
	tb := tables.Default()
	for i := range tb.Kinds {
		want["draw.kind."+string(tb.Kinds[i].ID)] = true
		for z := range tb.Kinds[i].Zones {
			want["draw.zone."+tb.Kinds[i].Zones[z].ID] = true
		}
	}
	c := lang.English()
	for key := range want {
		if !c.Has(key) {
			t.Errorf("no words for %s", key)
		}
	}
	for _, key := range c.Drawn() {
		if strings.Count(key, ".") == 2 && !want[key] {
			t.Errorf("there are words for %s, which does not exist", key)
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
