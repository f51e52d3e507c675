package web

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/decide"
	"kernbook/internal/record"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// TestEveryQuestionHasItsForm: what an outcome of the corpus asks for leads, on a page,
// to a form that exists and takes it: to that of an answer exactly where an answer
// settles it.
func TestEveryQuestionHasItsForm(t *testing.T) {
	tb := tables.Default()
	forms := map[string][]string{
		criteria.QDeclaration: {"amend"}, criteria.QManufacture: {"amend"}, criteria.QSay: {"amend"}, criteria.QAssembly: {"fit"}, criteria.QWash: {"wash"},
		criteria.QKind: {"entries"}, criteria.QSign: {"entries", "examine"}, criteria.QExamine: {"examine", "entries"}, criteria.QThorough: {"examine"},
		criteria.QLook: {"examine"}, criteria.QMeasure: {"examine"}, decide.QUse: {"use"}, decide.QRuns: {"run"}, decide.QReplace: {"stop"},
	}
	a := yard(t)
	s, c := New(a), visit(t, a, "p1")
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "corpus", "*.toml"))
	if err != nil || len(files) < 80 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	asked := map[string]bool{}
	opens := map[string]bool{}
	for _, file := range files {
		b, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		r, faults := record.Decode(file, b, tb)
		if err := faults.Err(); err != nil {
			t.Fatal(err)
		}
		o := decide.Decide(tb, r, decide.Ask{})
		for _, q := range report.Brief(&o, tb, r, s.told()).Open {
			asked[q.ID] = true
			at, _, _ := strings.Cut(s.settle(&o, q).Link, "?")
			opens[at] = true
			want := false
			for _, form := range forms[q.ID] {
				want = want || at == form
			}
			if answer := at == "answer"; answer != q.Answer && !(q.Answer && want) || !answer && !want {
				t.Errorf("%s: “%s” under “%s” (an answer settles it: %v) leads to %q: %s", filepath.Base(file), q.ID, q.To, q.Answer, at, q.Say)
			}
		}
	}
	if len(asked) < 18 {
		t.Errorf("only %d questions are asked", len(asked))
	}
	for at := range opens {
		if w := c.get("/piece/BR-07/" + at); w.Code != http.StatusOK {
			t.Errorf("/piece/BR-07/%s: %d", at, w.Code)
		}
	}
}
