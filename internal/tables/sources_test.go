package tables

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestSourcesPage holds that docs/sources.md names every line of lines.toml and
// no other.
func TestSourcesPage(t *testing.T) {
	page, err := os.ReadFile("../../docs/sources.md")
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{}
	for _, id := range regexp.MustCompile(`\b(?:[A-Z]-[0-9]+a?|K-[A-Z]{2}-[A-Za-z]+|F-[A-Z]+)\b`).FindAllString(string(page), -1) {
		named[id] = true
	}
	tb := Default()
	for i := range tb.Lines {
		if id := tb.Lines[i].ID; !named[id] {
			t.Errorf("docs/sources.md does not name line %s", id)
		}
	}
	for id := range named {
		if tb.Line(id) == nil {
			t.Errorf("docs/sources.md names %s, which is no line", id)
		}
	}
}

// TestDecisionModelSections holds that every section of the decision model that
// the tables cite is a section of docs/model.md, and that the one cited for
// common practice lists each line of that mark, by id, with an anchor.
func TestDecisionModelSections(t *testing.T) {
	b, err := os.ReadFile("../../docs/model.md")
	if err != nil {
		t.Fatal(err)
	}
	sections := map[string]string{} // number to title and text
	parts := regexp.MustCompile(`(?m)^## ([0-9]+)\. `).FindAllStringSubmatchIndex(string(b), -1)
	for i, p := range parts {
		end := len(b)
		if i+1 < len(parts) {
			end = parts[i+1][0]
		}
		sections[string(b[p[2]:p[3]])] = string(b[p[1]:end])
	}
	const practice = "8"
	if !strings.HasPrefix(sections[practice], "Common practice the tables hold\n") {
		t.Fatalf("section %s of docs/model.md is not the one of common practice", practice)
	}
	tb := Default()
	listed := map[string]string{} // line to the topic that it is listed under
	for _, m := range regexp.MustCompile(`<a id="m-([0-9]+)"></a>\n\*\*(M-([0-9]+)), ([^*]+)\.\*\*`).FindAllStringSubmatch(sections[practice], -1) {
		if m[1] != m[3] {
			t.Errorf("%s stands under the anchor m-%s", m[2], m[1])
		}
		listed[m[2]] = m[4]
	}
	cited := 0
	for i := range tb.Lines {
		l := &tb.Lines[i]
		if l.Mark != "common practice" {
			continue
		}
		if want := "section " + practice + " of the decision model, " + listed[l.ID]; l.Place != want {
			t.Errorf("line %s: its place is %q, docs/model.md has %q", l.ID, l.Place, want)
		}
		delete(listed, l.ID)
	}
	for id := range listed {
		t.Errorf("docs/model.md lists %s, which is no line of common practice", id)
	}
	files, err := filepath.Glob("../../tables/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	kinds, err := filepath.Glob("../../tables/kinds/*.toml")
	if err != nil {
		t.Fatal(err)
	}
	section := regexp.MustCompile(`section ([0-9]+) of the decision model`)
	for _, f := range append(files, kinds...) {
		b, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range strings.Split(string(b), "\n[[") {
			for _, m := range section.FindAllStringSubmatch(row, -1) {
				cited++
				if sections[m[1]] == "" {
					t.Errorf("%s cites section %s of the decision model, which docs/model.md has not", f, m[1])
				}
				if m[1] != practice || strings.HasPrefix(row, "line]]") {
					continue
				}
				// A row that cites common practice names a line of that mark.
				named := false
				for _, id := range regexp.MustCompile(`"(M-[0-9]+)"`).FindAllStringSubmatch(row, -1) {
					l := tb.Line(id[1])
					named = named || l != nil && l.Mark == "common practice"
				}
				if !named {
					t.Errorf("%s: a row cites common practice without a line of it: %.200q", f, row)
				}
			}
		}
	}
	if cited < 40 {
		t.Errorf("%d citations of the decision model were seen; too few to show anything", cited)
	}
}

// TestOwnLines holds that a line of kernbook's own is called so, and none else: a
// rule that rests on other lines names them and says that it is drawn from them,
// one that rests on none says that it has no outside source, what was only
// proposed, found by comparing or common practice claims no outside source, and
// docs/sources.md lists the line under the same name with the same mark.
func TestOwnLines(t *testing.T) {
	const (
		drawn = "rule of kernbook, drawn from the lines it rests on"
		bare  = "rule of kernbook, without an outside source"
	)
	b, err := os.ReadFile("../../docs/sources.md")
	if err != nil {
		t.Fatal(err)
	}
	_, page, ok := strings.Cut(string(b), "\n## This project's own\n")
	if !ok {
		t.Fatal("docs/sources.md has no section of this project's own lines")
	}
	listed := map[string]string{} // line to "source, mark"
	source := ""
	for _, l := range strings.Split(page, "\n") {
		if strings.HasPrefix(l, "**") {
			source = strings.ToLower(l[2:3]) + strings.TrimSuffix(l[3:], "**")
		} else if mark, ids, ok := strings.Cut(strings.TrimPrefix(l, "- "), ": "); ok {
			for _, id := range strings.Split(ids, ", ") {
				listed[id] = source + ", " + mark
			}
		}
	}
	tb := Default()
	own := 0
	for i := range tb.Lines {
		l := &tb.Lines[i]
		kernbooks := strings.Contains(l.Source, "kernbook")
		if kernbooks {
			own++
			if got, want := listed[l.ID], l.Source+", "+l.Mark; got != want {
				t.Errorf("line %s: %q; docs/sources.md lists it as %q", l.ID, want, got)
			}
		}
		if (l.Mark == "proposed" || l.Mark == "finding" || l.Mark == "common practice") && !kernbooks {
			t.Errorf("line %s is %s, yet its source is %q", l.ID, l.Mark, l.Source)
		}
		if strings.HasPrefix(l.Source, "rule of ") {
			want := drawn
			if len(l.Rests) == 0 {
				want = bare
			}
			if l.Source != want {
				t.Errorf("line %s rests on %v, and its source is %q", l.ID, l.Rests, l.Source)
			}
		}
	}
	if own < 100 {
		t.Errorf("%d lines of kernbook's own were seen; too few to show anything", own)
	}
}
