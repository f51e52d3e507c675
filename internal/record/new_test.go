package record

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	"kernbook/internal/tables"
)

var oneJune = qty.PartialDate{Year: 2026, Month: 6, DayOfMonth: 1}

func fresh(t *testing.T, kind kit.KindID, tb *table.Tables) string {
	t.Helper()
	b, err := New(kind, tb, oneJune)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// Records to fill in are compared word for word on invented tables, so that
// this changes only when the sentences do.
func TestNewGolden(t *testing.T) {
	for _, kind := range []kit.KindID{kit.Bridge, kit.Connector} {
		golden(t, "testdata/new-"+string(kind)+".toml", []byte(fresh(t, kind, fixture())))
	}
}

func TestNewOfNoKind(t *testing.T) {
	_, err := New("brige", fixture(), oneJune)
	const want = "“brige” is no kind of piece; did you mean “bridge”? — write one of \"bridge\" or \"connector\""
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// Both on invented and on the real tables, for every kind: what New writes
// parses, lists as missing exactly what is blank, and has no other fault.
func TestNewListsWhatIsMissing(t *testing.T) {
	everyKind(t, func(t *testing.T, tb *table.Tables, kind kit.KindID) {
		b, err := New(kind, tb, qty.PartialDate{})
		if err != nil {
			t.Fatal(err)
		}
		if _, faults := doc.ParseTOML("new.toml", b); faults != nil {
			t.Fatal(faults)
		}
		var blank []int
		for i, line := range strings.Split(string(b), "\n") {
			if strings.HasSuffix(line, ` = ""`) && line[0] != '#' {
				blank = append(blank, i+1)
			}
		}
		_, faults := Decode("new.toml", b, tb)
		var lines []int
		for _, f := range faults {
			lines = append(lines, f.Line)
			if f.What != "is not filled in" {
				t.Errorf("%s", f.Error())
			}
		}
		if len(blank) < 12 || !slices.Equal(blank, lines) {
			t.Errorf("blank are lines %v, faulted are lines %v", blank, lines)
		}
	})
}

// Filled in, and with every optional line taken up, it is a record without
// fault: so the examples in it are right.
func TestNewFilledIn(t *testing.T) {
	everyKind(t, func(t *testing.T, tb *table.Tables, kind kit.KindID) {
		text := fresh(t, kind, tb)
		fill := strings.NewReplacer(
			`country = ""`, `country = "`+tb.Countries[0].Code+`"`,
			"[[person]]\n# A name or short sign; entries speak of persons by it.\nid = \"\"", "[[person]]\nid = \"…\"",
			`id = ""`, `id = "B7"`,
			`marking = ""`, `marking = "readable"`,
			`origin = ""`, `origin = "new"`,
			`history = ""`, `history = "known"`,
			`made = ""`, `made = "2024-11"`,
			`first_use = ""`, `first_use = "2025-02-01"`,
			`diameter = ""`, `diameter = "10mm"`, `how = ""`, `how = "knot"`, `stitch = ""`, `stitch = "whole"`,
			`length = ""`, `length = "`+tb.Kind(kind).Length.String()+`"`,
			`allowed = ""`, `allowed = "yes"`,
			`by = ""`, `by = "…"`,
			`would_climb = ""`, `would_climb = "yes"`, `light = ""`, `light = "good"`,
			`covers = ""`, `covers = `+example(text),
			`from = ""`, `from = 2025-02-01`, `week = ""`, `week = "25h"`, `weekdays = []`, `weekdays = ["mon", "tue"]`, `mass = ""`, `mass = "92kg"`,
			`dirt = ""`, `dirt = "unknown"`, `hardware = ""`, `hardware = "unknown"`,
			`role = ""`, `role = "competent person"`, `since = ""`, `since = 2024-01-15`, `signed = ""`, `signed = "…"`, "\nin = \"\"", "\nin = \"H1\"",
			`kind = ""`, `kind = "thorough"`,
		).Replace(text)
		fill = regexp.MustCompile(`(?m)^("?[\w -]+"?) = ""$`).ReplaceAllString(fill, `$1 = "no"`)
		if _, faults := Decode("new.toml", []byte(fill), tb); faults != nil {
			t.Errorf("filled in:\n%v", faults)
		}
		all := regexp.MustCompile(`(?m)^#([^ \n])`).ReplaceAllString(fill, "$1")
		r, faults := Decode("new.toml", []byte(all), tb)
		if faults != nil {
			t.Fatalf("all taken up:\n%v", faults)
		}
		if u := r.Uses[0]; u.Mass != 92_000 || u.Week <= 0 || r.People[0].Role == "" || r.Examinations[0].SignedBy == "" {
			t.Errorf("what has to be filled in is not all read: %+v", r)
		}
		if len(r.Uses)+len(r.Runs)+len(r.Events)+len(r.Answers) != 4 || len(r.Examinations[0].Signs) != 1 {
			t.Errorf("something was not taken up: %+v", r)
		}
		for _, n := range tb.Kind(kind).Needs {
			has := func(l kit.Look) bool { return l.Look == n.Look }
			if n.Exam == kit.Thorough && !slices.ContainsFunc(r.Examinations[0].Looks, has) {
				t.Errorf("the look %s, which a thorough examination needs, is not in it", n.Look)
			}
		}
		if len(r.Examinations[0].Asked) != len(tb.Kind(kind).Asks) {
			t.Errorf("%d of %d questions are in it", len(r.Examinations[0].Asked), len(tb.Kind(kind).Asks))
		}
		for _, s := range tb.Kind(kind).Signs {
			if !strings.Contains(text, "#   "+s.ID+": ") {
				t.Errorf("the sign %s is not in it", s.ID)
			}
		}
	})
}

// example gives the list of places that the record to fill in shows for covers.
func example(text string) string {
	_, after, _ := strings.Cut(strings.ReplaceAll(text, "\n# ", " "), "or the places: ")
	list, _, _ := strings.Cut(after, "].")
	return list + "]"
}

func everyKind(t *testing.T, do func(*testing.T, *table.Tables, kit.KindID)) {
	sets := map[string]*table.Tables{"invented": fixture(), "real": tables.Default()}
	for _, name := range slices.Sorted(maps.Keys(sets)) {
		for i := range sets[name].Kinds {
			kind := sets[name].Kinds[i].ID
			t.Run(name+"/"+string(kind), func(t *testing.T) { do(t, sets[name], kind) })
		}
	}
}

// A look counts as made only when somebody says so: the record and the examination to
// fill in, filled in but for that, claim none.
func TestNewClaimsNoLook(t *testing.T) {
	everyKind(t, func(t *testing.T, tb *table.Tables, kind kit.KindID) {
		exam, err := NewExamination("B7", kind, tb, oneJune)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range []string{fresh(t, kind, tb), string(exam)} {
			root, faults := doc.ParseTOML("new.toml", []byte(text))
			if faults != nil {
				t.Fatal(faults)
			}
			e := root.Fields["examination"]
			if e == nil || len(e.Items) != 1 {
				t.Fatal("there is no examination to fill in")
			}
			if look := e.Items[0].Fields["look"]; look != nil {
				t.Errorf("%d looks are claimed in\n%s", len(look.Items), text)
			}
			if !strings.Contains(text, "\n#[[examination.look]]\n#look = ") {
				t.Error("no look is there to take up")
			}
		}
	})
}
