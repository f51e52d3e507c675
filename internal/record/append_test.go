package record

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/doc"
	"kernbook/internal/tables"
)

// filledExam fills an examination to fill in, of somebody.
func filledExam(text, by string) string {
	for _, x := range [][2]string{{`kind = ""`, `kind = "thorough"`}, {`by = ""`, `by = "` + by + `"`}, {`signed = ""`, `signed = "` + by + `"`},
		{`would_climb = ""`, `would_climb = "yes"`}, {`light = ""`, `light = "good"`}, {`cleaned = ""`, `cleaned = "yes"`}, {`covers = ""`, `covers = "all"`}} {
		text = strings.ReplaceAll(text, "\n"+x[0]+"\n", "\n"+x[1]+"\n")
	}
	return strings.ReplaceAll(text, ` = ""`+"\n", ` = "no"`+"\n")
}

// exampleRecords gives the records of the examples, in the order of their files.
func exampleRecords(t *testing.T) (out []*kit.Record) {
	t.Helper()
	all := examples(t)
	for _, name := range slices.Sorted(maps.Keys(all)) {
		r, faults := DecodeTOML(name, []byte(all[name]), tables.Default())
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		out = append(out, r)
	}
	return out
}

// TestAppend: for every kind, an examination to fill in lists what is missing with
// its line in the file, and counts its blocks as the file does; filled in, it
// stands behind what was on record, which stays as it was.
func TestAppend(t *testing.T) {
	tb := tables.Default()
	for _, r := range exampleRecords(t) {
		b, err := NewExamination(r.Piece.ID, r.Piece.Kind, tb, oneJune)
		if err != nil {
			t.Fatal(err)
		}
		text := string(b)
		_, faults := Append(r, "x.toml", b, tb)
		lines := strings.Split(text, "\n")
		for _, f := range faults {
			if !strings.HasPrefix(f.Field, "examination[0].") || !strings.Contains(lines[f.Line-1], f.Field[strings.LastIndex(f.Field, ".")+1:]) {
				t.Errorf("%s: %v", r.Piece.ID, f)
			}
		}
		want := 0
		for _, l := range lines {
			if strings.HasSuffix(l, ` = ""`) && !strings.HasPrefix(l, "#") {
				want++
			}
		}
		if len(faults) != want || want < 10 {
			t.Errorf("%s: %d faults, and %d lines to be filled in", r.Piece.ID, len(faults), want)
		}
		by := ""
		for _, p := range r.People {
			if p.Competent() {
				by = p.ID
			}
		}
		got, faults := Append(r, "x.toml", []byte(filledExam(text, by)), tb)
		if len(faults) > 0 {
			t.Errorf("%s, filled in: %v", r.Piece.ID, faults)
			continue
		}
		n := len(r.Examinations)
		if len(got.Examinations) != n+1 || got.Examinations[n].Kind != kit.Thorough || got.Examinations[n].By != by {
			t.Errorf("%s: %d examinations, %d before", r.Piece.ID, len(got.Examinations), n)
		}
		got.Examinations, got.AsOf = got.Examinations[:n], r.AsOf
		if !slices.Equal(Encode(got), Encode(r)) {
			t.Errorf("%s: what was on record is another", r.Piece.ID)
		}
	}
}

// TestAppendRefuses: what does not belong into such a file is a fault with its line.
func TestAppendRefuses(t *testing.T) {
	r := exampleRecords(t)[0]
	for _, x := range []struct{ text, want string }{
		{"[piece]\nid = \"x\"\n", "x.toml:1: piece: does not belong here"},
		{"\nexamination = 5\n", "x.toml:2: examination: is a whole number where a list is wanted"},
		{"[[examination]]\nknd = \"thorough\"\n", "examination[0].knd: unknown key"},
		{"[[answer]]\nto = \"x\"\n", "answer[0].day: is missing"},
		{"[[examination", "x.toml:1: "},
	} {
		got, faults := Append(r, "x.toml", []byte(x.text), tables.Default())
		found := slices.ContainsFunc(faults, func(f doc.Fault) bool { return strings.Contains(f.Error(), x.want) })
		if got != nil || !found {
			t.Errorf("%q: %v, want %s", x.text, faults, x.want)
		}
	}
}
