package arch

import (
	"fmt"
	"go/token"
	"slices"
	"strings"
	"testing"
)

// layer is one step of the stairs. A package may import only packages of lower
// layers, and none of its own.
type layer struct {
	packages []string // import paths below the module; "x/*" is everything below x, not x itself
	why      string   // why nothing at this height or below may import these
}

// layers is the import table, top first. The first pattern that fits counts.
var layers = []layer{
	{[]string{"internal/testkit", "internal/anyrecord", "internal/corpus", "internal/arch", "internal/browser", "internal/book/booktest", "internal/book/postgres/pgtest", "internal/blob/blobtest"},
		"what is made for tests is not in the product"},
	{[]string{"cmd/*"},
		"a command wires parts together; a part that needs its command cannot be used from the other one"},
	{[]string{"internal/web", "internal/web/*", "internal/check", "internal/demo", "internal/yard"},
		"a handler decides nothing, so nothing can need one; the second reader reads the book on its own, so that one fault cannot hide another"},
	{[]string{"internal/app"},
		"use cases own clock, ids and roles; below this nobody knows the day or who asks"},
	{[]string{"internal/paper"},
		"paper shows what was decided and is told everything it prints; it asks no use case"},
	{[]string{"internal/answer"},
		"the judgement as bytes in, bytes out: what is put into words below it is not put into words twice"},
	{[]string{"internal/report", "internal/lang"},
		"reports and words show what was decided; below this nobody knows the language"},
	{[]string{"internal/report/*"},
		"a drawing is given its words; it puts none to what was decided"},
	{[]string{"internal/bench"},
		"the bench works with numbers and tables and gives keys; its words and drawings come from above, and no judgement leans on it"},
	{[]string{"internal/view", "internal/book/*", "internal/blob/*", "internal/artefact"},
		"followers and storage engines can be dropped and put back; the interface must not know which engine is behind it"},
	{[]string{"internal/book", "internal/blob", "internal/seal", "internal/fold"},
		"what is kept, and what it comes to, depends on what is meant, never the other way round"},
	{[]string{"internal/tables", "internal/record"},
		"files are read into the nouns of the core; the core never knows what file a fact came from"},
	{[]string{"internal/doc", "tables"},
		"reading TOML and JSON strictly, and the data files themselves, know nothing of the judgement"},
	{[]string{"internal/core/decide"},
		"the one entry to the judgement: what it puts together does not look back at it"},
	{[]string{"internal/core/course"},
		"the course of a piece uses criteria and doubt for each examination; they know one examination only"},
	{[]string{"internal/core/criteria", "internal/core/doubt"},
		"an absolute reason never depends on a probability, nor a probability on a reason"},
	{[]string{"internal/core/table"},
		"values with their sources are what the nouns are judged by; a noun does not know its judge"},
	{[]string{"internal/core/kit", "internal/core/entry"},
		"nouns are built from quantities"},
	{[]string{"internal/core/rope", "internal/core/measure"},
		"mechanics and readings are numbers; they know no piece, so they can be checked alone and used on the bench alone"},
	{[]string{"internal/core/qty", "internal/core/num"},
		"quantities and numerics stand on nothing of ours, so they can be checked alone"},
}

// ban is an import that is wrong for a reason of its own, also where the
// layers would let it pass.
type ban struct {
	from, to string // import paths, each with all below; from "" is every package
	deep     bool   // also through other packages of this module
	why      string
}

var bans = []ban{
	{module + "/internal/web", module + "/internal/book", false, "pages go through use cases, which check the role and write the entry"},
	{module + "/internal/web", "database/sql", false, "pages know no SQL: what they show is a fold of the book"},
	{module + "/internal/app", "net/http", false, "a use case is the same from the command line, a page and a test"},
	{module + "/internal/report", "net/http", false, "a report is a file, wherever it is wanted"},
	{module + "/internal/check", module + "/internal/view", true, "the second reader folds the book on its own"},
	{module + "/internal/check", module + "/internal/app", true, "the second reader shares no code with what wrote the book"},
	{module + "/internal/book/sqlite", module + "/internal/book/postgres", true, "each engine passes the suite by itself"},
	{module + "/internal/book/postgres", module + "/internal/book/sqlite", true, "each engine passes the suite by itself"},
	{module + "/cmd/kernbook-wasm", module + "/internal/web", true, "the phone gets the judgement and nothing else"},
	{module + "/cmd/kernbook-wasm", module + "/internal/app", true, "the phone gets the judgement and nothing else"},
	{module + "/cmd/kernbook-wasm", module + "/internal/book", true, "the phone gets the judgement and nothing else"},
	{module + "/cmd/kernbook-wasm", "net/http", true, "trebles what a phone has to fetch, and the browser has its own"},
	{module + "/internal/core", "gonum.org", true, "its floats differ between machines in the last bit"},
	{"", "testing", false, "what is made for tests is not in the product"},
	{"", "pgregory.net/rapid", false, "what is made for tests is not in the product"},
	{"", "github.com/chromedp", true, "what is made for tests is not in the product"},
	{"", "github.com/google/go-cmp", false, "what is made for tests is not in the product (it panics on purpose)"},
}

// isTestHelp says whether a package belongs to the top layer, for tests only.
func isTestHelp(p string) bool { return height(p) == 0 }

// height returns the index of the layer p belongs to, or -1.
func height(p string) int {
	rel := strings.TrimPrefix(p, module+"/")
	return slices.IndexFunc(layers, func(l layer) bool {
		return slices.ContainsFunc(l.packages, func(pattern string) bool {
			if above, ok := strings.CutSuffix(pattern, "/*"); ok {
				return strings.HasPrefix(rel, above+"/")
			}
			return rel == pattern
		})
	})
}

// checkImports takes the import paths of each package and returns what is
// wrong, one sentence each, sorted.
func checkImports(graph map[string][]string) []string {
	var faults []string
	add := func(format string, args ...any) { faults = append(faults, fmt.Sprintf(format, args...)) }
	for from, list := range graph {
		h := height(from)
		if h < 0 {
			add("%s is in no layer: give it a place in layers_test.go, with the reason", from)
		}
		for _, to := range list {
			if h < 0 || !within(to, module) {
				continue
			}
			switch low := height(to); {
			case low < 0:
				add("%s imports %s, which is in no layer: give it a place in layers_test.go, with the reason", from, to)
			case low <= h:
				add("%s imports %s, which is not below it: %s", from, to, layers[low].why)
			}
		}
		for _, b := range bans {
			if b.from != "" && !within(from, b.from) || b.from == "" && isTestHelp(from) || within(from, b.to) {
				continue
			}
			if way := reach(graph, from, b); way != nil {
				add("%s: %s", strings.Join(way, " imports "), b.why)
			}
		}
	}
	slices.Sort(faults)
	return faults
}

// reach returns the chain of imports from a package to what b bans, or nil.
func reach(graph map[string][]string, from string, b ban) []string {
	ways := [][]string{{from}}
	seen := map[string]bool{from: true}
	for len(ways) > 0 {
		way := ways[0]
		ways = ways[1:]
		for _, to := range graph[way[len(way)-1]] {
			next := append(slices.Clone(way), to)
			if within(to, b.to) {
				return next
			}
			if b.deep && !seen[to] {
				seen[to] = true
				ways = append(ways, next)
			}
		}
	}
	return nil
}

func TestImportsPointDown(t *testing.T) {
	graph := map[string][]string{}
	for _, s := range sources(t, token.NewFileSet(), module) {
		graph[s.path] = s.imports()
	}
	// The test must have seen the code at all.
	for _, must := range []string{"internal/core/num", "internal/core/qty", "internal/arch"} {
		if _, ok := graph[module+"/"+must]; !ok {
			t.Errorf("%s was not found among %d packages", must, len(graph))
		}
	}
	for _, f := range checkImports(graph) {
		t.Error(f)
	}
}

// TestImportCheckFinds: each way to break the table, made up, is found, and
// what is allowed is not.
func TestImportCheckFinds(t *testing.T) {
	type graph = map[string][]string
	full := func(g graph) graph {
		out := graph{}
		for from, list := range g {
			for i, to := range list {
				if list[i] = to; strings.HasPrefix(to, "internal/") || strings.HasPrefix(to, "cmd/") || to == "tables" {
					list[i] = module + "/" + to
				}
			}
			out[module+"/"+from] = list
		}
		return out
	}
	for _, c := range []struct {
		name string
		g    graph
		want string // part of the one fault, or "" for none
	}{
		{"down", graph{"cmd/kernbook": {"internal/web", "os"}, "internal/web": {"internal/app", "net/http"}, "internal/app": {"internal/book", "internal/core/decide"}}, ""},
		{"far down", graph{"internal/core/decide": {"internal/core/num"}, "internal/tables": {"internal/doc", "tables", "internal/core/qty"}}, ""},
		{"engine on its interface", graph{"internal/book/sqlite": {"internal/book", "database/sql"}}, ""},
		{"up", graph{"internal/core/doubt": {"internal/core/decide"}}, "core/doubt imports kernbook/internal/core/decide, which is not below it"},
		{"up by one", graph{"internal/core/kit": {"internal/core/table"}}, "not below it"},
		{"sideways", graph{"internal/core/criteria": {"internal/core/doubt"}}, "an absolute reason never depends on a probability"},
		{"core to files", graph{"internal/core/decide": {"internal/tables"}}, "not below it"},
		{"core to data", graph{"internal/core/table": {"tables"}}, "not below it"},
		{"interface on its engine", graph{"internal/book": {"internal/book/sqlite"}}, "not below it"},
		{"app to web", graph{"internal/app": {"internal/web"}}, "a handler decides nothing"},
		{"report to app", graph{"internal/report": {"internal/app"}}, "not below it"},
		{"page inside web to book", graph{"internal/web/page": {"internal/book"}}, "pages go through use cases"},
		{"a command", graph{"internal/web": {"cmd/kernbook"}}, "not below it"},
		{"test help in the product", graph{"internal/app": {"internal/testkit"}}, "made for tests"},
		{"unknown importer", graph{"internal/thing": {"fmt"}}, "internal/thing is in no layer"},
		{"unknown imported", graph{"cmd/kernbook": {"internal/thing"}}, "in no layer"},
		{"the module itself", graph{"": {"fmt"}}, "is in no layer"},
		{"through another", graph{"cmd/kernbook-wasm": {"internal/record"}, "internal/record": {"net/http"}}, "kernbook-wasm imports kernbook/internal/record imports net/http: trebles"},
		{"test help may use testing", graph{"internal/testkit": {"testing", "pgregory.net/rapid"}}, ""},
	} {
		faults := checkImports(full(c.g))
		switch {
		case c.want == "" && len(faults) > 0:
			t.Errorf("%s: found %q, there is nothing", c.name, faults)
		case c.want != "" && (len(faults) != 1 || !strings.Contains(faults[0], c.want)):
			t.Errorf("%s: found %q, want one with %q", c.name, faults, c.want)
		}
	}
	for _, b := range bans {
		from := b.from
		if from == "" {
			from = module + "/internal/core/qty"
		}
		if !slices.ContainsFunc(checkImports(graph{from: {b.to}}), func(f string) bool { return strings.HasSuffix(f, b.why) }) {
			t.Errorf("%s importing %s is not found", from, b.to)
		}
	}
	for _, l := range layers {
		if l.why == "" {
			t.Errorf("layer %q has no reason", l.packages)
		}
	}
}
