package doc

import (
	"strings"
	"testing"
)

// wantFaults compares faults as they are printed, line by line.
func wantFaults(t *testing.T, name string, got Faults, want ...string) {
	t.Helper()
	if g, w := got.Error(), strings.Join(want, "\n"); g != w {
		t.Errorf("%s: got\n%s\nwant\n%s", name, g, w)
	}
}

func TestTOMLFaults(t *testing.T) {
	for _, c := range []struct {
		name, text string
		whole      bool // the rest of the tree can be read
		want       []string
	}{
		{"value without quotes", "a = 1\nlength = 58cm\nmass = 92kg # heavy\nkind = bridge\nb = 2\n", true, []string{
			"r.toml:2: length: 58cm is not in quotes — write \"58cm\"",
			"r.toml:3: mass: 92kg is not in quotes — write \"92kg\"",
			"r.toml:4: kind: bridge is not in quotes — write \"bridge\""}},
		{"values without quotes in a list and a table", "a = [eye, \"hand\"]\nb = {wet = no, light = \"good\"}\n", true, []string{
			"r.toml:1: a: eye is not in quotes — write \"eye\"",
			"r.toml:2: b: no is not in quotes — write \"no\""}},
		{"words that begin like keywords", "a = trusted\nb = new\n", true, []string{
			"r.toml:1: a: trusted is not in quotes — write \"trusted\"",
			"r.toml:2: b: new is not in quotes — write \"new\""}},
		{"decimal comma", "[piece]\nwidth = 10,6\n", true, []string{
			"r.toml:2: piece.width: there is a comma after the value (10,6) — write a decimal number with a point, or a number with its unit in quotes"}},
		{"dates of daily life", "a = 1/6/2026\nb = 01.06.2026\nc = 1 June 2026\n", true, []string{
			"r.toml:1: a: 1/6/2026 is a date written another way — write it as 2026-06-01",
			"r.toml:2: b: 01.06.2026 is a date written another way — write it as 2026-06-01",
			"r.toml:3: c: 1 June 2026 is a date written another way — write it as 2026-06-01"}},
		{"half a date", "made = 2026-06\n", true, []string{
			"r.toml:1: made: 2026-06 is not in quotes — write \"2026-06\", or the whole day where a day is wanted, such as 2026-06-01"}},
		{"no such day", "made = 2026-02-30\n", true, []string{
			"r.toml:1: made: “2026-02-30” is not in the calendar: Feb 2026 has days 1 to 28 — write a day of the calendar, such as 2026-06-01"}},
		{"time of day", "a = 2026-06-01T10:00:00Z\nb = 10:30:00\n", true, []string{
			"r.toml:1: a: has a time of day (2026-06-01T10:00:00Z), which is not taken — write the day alone, such as 2026-06-01",
			"r.toml:2: b: has a time of day (10:30:00), which is not taken — write the day alone, such as 2026-06-01"}},
		{"endless numbers", "a = inf\nb = -nan\nc = 1e999\nd = 99999999999999999999\n", true, []string{
			"r.toml:1: a: inf is not a number that can be used — write a number, or leave the key out",
			"r.toml:2: b: -nan is not a number that can be used — write a number, or leave the key out",
			"r.toml:3: c: is a number out of range (1e999) — correct it",
			"r.toml:4: d: is a number out of range (99999999999999999999) — correct it"}},
		{"leading nought", "a = 007\n", true, []string{
			"r.toml:1: a: a number begins with a nought (007) — write it without, or in quotes"}},
		{"nothing after =", "a =\nb = 1\n", true, []string{
			"r.toml:1: a: a value is neither a number, true, false, a date, nor a text in quotes — put texts and numbers with units in double quotes"}},
		{"two on a line", "a = 1 b = 2\n", true, []string{
			"r.toml:1: a: there is more on the line after its value — put a text in double quotes, and each key on a line of its own"}},
		{"no equals sign", "[piece]\nlength \"58cm\"\nb = 1\n", false, []string{
			"r.toml:2: piece: there is no “=” after the key — write key = value"}},
		{"list that does not close", "a = [1,\n2\nb = 3\n", false, []string{
			"r.toml:3: this is not TOML: expected ',' or ']' after array value — correct the line"}},
		{"header that does not close", "[piece\n", false, []string{
			"r.toml:1: this is not TOML: expected ']' to close table name — correct the line"}},
		{"text that does not close", "a = \"x\nb = 1\n", true, []string{
			"r.toml:1: a: a text begins with a quote and does not end on its line — end it with the same quote"}},
		{"key twice", "a = 1\nb = 2\na = 3\n", true, []string{
			"r.toml:3: a: is given twice; the first is in line 1 — keep one of the two"}},
		{"key twice in quotes", "a = 1\n\"a\" = 3\n", true, []string{
			"r.toml:2: a: is given twice; the first is in line 1 — keep one of the two"}},
		{"key twice in an inline table", "x = { a = 1, a = 2 }\n", true, []string{
			"r.toml:1: x.a: is given twice; the first is in line 1 — keep one of the two"}},
		{"table twice", "[a]\nx = 1\n[b]\n[a]\ny = 2\nx = 3\n", true, []string{
			"r.toml:4: a: is a table defined twice; the first is in line 1 — write all its keys under one header",
			"r.toml:6: a.x: is given twice; the first is in line 2 — keep one of the two"}},
		{"table over a value", "a = 1\n[a]\nb = 2\n", true, []string{
			"r.toml:2: a: is already a whole number, which a header cannot add to; the first is in line 1 — write it in one place"}},
		{"table under a value", "a = 1\n[a.b]\nb = 2\n", true, []string{
			"r.toml:2: a: is already a whole number, which a header cannot add to; the first is in line 1 — write it in one place"}},
		{"table over a list of tables", "[[a]]\n[a]\n", true, []string{
			"r.toml:2: a: is already a list, which a header cannot add to; the first is in line 1 — write it in one place"}},
		{"list of tables over a table", "[a]\n[[a]]\n", true, []string{
			"r.toml:2: a: is already a table, which a header cannot add to; the first is in line 1 — write it in one place"}},
		{"list of tables over a list in brackets", "a = [{x = 1}]\n[[a]]\n", true, []string{
			"r.toml:2: a: is already a list, which a header cannot add to; the first is in line 1 — write it in one place"}},
		{"inline table extended by a header", "a = {x = 1}\n[a.b]\n", true, []string{
			"r.toml:2: a: is already a table, which a header cannot add to; the first is in line 1 — write it in one place"}},
		{"inline table extended by dots", "a = {x = 1}\na.b = 2\n", true, []string{
			"r.toml:2: a: is already a table, which a dotted key cannot add to; the first is in line 1 — write it in one place"}},
		{"inner table of an inline one extended", "a = {x.y = 1}\n[a.x.z]\n", true, []string{
			"r.toml:2: a: is already a table, which a header cannot add to; the first is in line 1 — write it in one place"}},
		{"dotted table given a header", "[f]\na.c = 1\n[f.a]\n", true, []string{
			"r.toml:3: f.a: is already a table, which a header cannot add to; the first is in line 2 — write it in one place"}},
		{"header's table extended by dots", "[a.b.c]\nz = 9\n[a]\nb.c.t = 1\n", true, []string{
			"r.toml:4: a.b: is already a table, which a dotted key cannot add to; the first is in line 1 — write it in one place"}},
		{"dots through a value", "a = 1\na.b = 2\n", true, []string{
			"r.toml:2: a: is already a whole number, which a dotted key cannot add to; the first is in line 1 — write it in one place"}},
		{"places in lists", "[[h]]\n[[h]]\n[[h.l]]\nx = 1\nx = 2\n", true, []string{
			"r.toml:5: h[1].l[0].x: is given twice; the first is in line 4 — keep one of the two"}},
		{"too deep", "a = " + strings.Repeat("[", 65) + strings.Repeat("]", 65) + "\n", true, []string{
			"r.toml:1: a" + strings.Repeat("[0]", 63) + ": is nested more than 64 deep — write it flatter"}},
		{"too deep by dots", strings.Repeat("a.", 64) + "a = 1\n", true, []string{
			"r.toml:1: a" + strings.Repeat(".a", 63) + ": is nested more than 64 deep — write it flatter"}},
		{"too deep by header", "[" + strings.Repeat("a.", 64) + "a]\nb = 1\n", true, []string{
			"r.toml:1: a" + strings.Repeat(".a", 63) + ": is nested more than 64 deep — write it flatter"}},
		{"no text", "a = 1\nb = \"\xff\"\n", false, []string{
			"r.toml:2: the file is not UTF-8 text from here on — save the file as UTF-8, not as UTF-16 or \"Unicode\""}},
	} {
		root, faults := ParseTOML("r.toml", []byte(c.text))
		wantFaults(t, c.name, faults, c.want...)
		if (root != nil) != c.whole {
			t.Errorf("%s: root %v, want one: %v", c.name, root, c.whole)
		}
	}
}

// A fault on one line does not hide the values around it.
func TestTOMLGoesOn(t *testing.T) {
	root, faults := ParseTOML("r.toml", []byte("[a]\nx = 1\nlength = 58cm\ny = 2\n[b]\nz = 3\n"))
	if len(faults) != 1 || root == nil {
		t.Fatalf("%v, %v", root, faults)
	}
	a, b := root.Fields["a"], root.Fields["b"]
	if a.Fields["x"].Int != 1 || a.Fields["y"].Int != 2 || b.Fields["z"].Int != 3 || a.Fields["length"].Kind != Bad {
		t.Errorf("values are lost: %v %v", a.Fields, b.Fields)
	}
	if n := b.Fields["z"]; n.Line != 6 || n.Col != 1 {
		t.Errorf("z is at %d:%d, want 6:1", n.Line, n.Col)
	}
}

func TestTOMLPlaces(t *testing.T) {
	root, faults := ParseTOML("r.toml", []byte("\ufeff# ünder\n  a = \"ö\" # x\r\n[t]\nq = { \"ä\" = 1, b = [10, 20,\n  [30], {c = 4}, [] ] }\n[[l]]\nx.y = 0x1F\n[[l]]\n"))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	q := root.Fields["t"].Fields["q"]
	list := root.Fields["l"]
	for _, c := range []struct {
		name      string
		n         *Node
		line, col int
	}{
		{"root", root, 1, 1}, {"a", root.Fields["a"], 2, 3}, {"t", root.Fields["t"], 3, 2}, {"q", q, 4, 1},
		{"ä", q.Fields["ä"], 4, 7}, {"b", q.Fields["b"], 4, 16}, {"b[0]", q.Fields["b"].Items[0], 4, 21},
		{"b[1]", q.Fields["b"].Items[1], 4, 25}, {"b[2]", q.Fields["b"].Items[2], 5, 4}, {"b[3]", q.Fields["b"].Items[3], 5, 9},
		{"c", q.Fields["b"].Items[3].Fields["c"], 5, 10}, {"b[4]", q.Fields["b"].Items[4], 4, 16}, // an empty list has no place of its own
		{"l", list, 6, 3}, {"l[0]", list.Items[0], 6, 3}, {"l[1]", list.Items[1], 8, 3}, {"x", list.Items[0].Fields["x"], 7, 1},
		{"y", list.Items[0].Fields["x"].Fields["y"], 7, 3},
	} {
		if c.n.Line != c.line || c.n.Col != c.col {
			t.Errorf("%s is at %d:%d, want %d:%d", c.name, c.n.Line, c.n.Col, c.line, c.col)
		}
	}
	if y := list.Items[0].Fields["x"].Fields["y"]; y.Kind != Integer || y.Int != 31 || y.Text != "0x1F" {
		t.Errorf("0x1F is %+v", y)
	}
}

func TestTOMLNumbers(t *testing.T) {
	root, faults := ParseTOML("r.toml", []byte("a = 1_000\nb = +7\nc = -0.5e-3\nd = 0b101\ne = 0o17\nf = -9223372036854775808\ng = 1_0.2_5\n"))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]Node{
		"a": {Kind: Integer, Text: "1_000", Int: 1000, Float: 1000}, "b": {Kind: Integer, Text: "+7", Int: 7, Float: 7},
		"c": {Kind: Float, Text: "-0.5e-3", Float: -0.0005}, "d": {Kind: Integer, Text: "0b101", Int: 5, Float: 5},
		"e": {Kind: Integer, Text: "0o17", Int: 15, Float: 15}, "g": {Kind: Float, Text: "1_0.2_5", Float: 10.25},
		"f": {Kind: Integer, Text: "-9223372036854775808", Int: -1 << 63, Float: -1 << 63},
	} {
		if n := root.Fields[key]; n.Kind != want.Kind || n.Text != want.Text || n.Int != want.Int || n.Float != want.Float {
			t.Errorf("%s is %+v", key, n)
		}
	}
}
