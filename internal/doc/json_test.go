package doc

import (
	"strings"
	"testing"
)

func TestJSONFaults(t *testing.T) {
	for _, c := range []struct {
		name, text string
		whole      bool
		want       []string
	}{
		{"nothing", "", false, []string{"r.json:1: the document ends where a value is wanted — add what is missing"}},
		{"spaces", " \n ", false, []string{"r.json:2: the document ends where a value is wanted — add what is missing"}},
		{"more after the end", "{}\n{}", false, []string{"r.json:2: there is more after the end of the document — take out what follows the last bracket"}},
		{"byte order mark", "\ufeff{}", false, []string{"r.json:1: there is no value that JSON knows — write texts in double quotes, numbers plain, true or false"}},
		{"name twice", "{\"a\": 1,\n\"b\": {\"c\": 1, \"c\": 2},\n\"a\": 3, \"\\u0061\": 4}", true, []string{
			"r.json:2: b.c: is given twice; the first is in line 2 — keep one of the two",
			"r.json:3: a: is given twice; the first is in line 1 — keep one of the two",
			"r.json:3: a: is given twice; the first is in line 1 — keep one of the two"}},
		{"null", "{\"h\": [{\"a\": null}]}", true, []string{
			"r.json:1: h[0].a: is null — leave the key out, or write \"unknown\" where that is taken"}},
		{"out of range", "{\"a\": 1e999,\n\"b\": 9223372036854775808}", true, []string{
			"r.json:1: a: is a number out of range (1e999) — correct it",
			"r.json:2: b: is a number out of range (9223372036854775808) — correct it"}},
		{"unit without quotes", "{\"a\": 58cm}", false, []string{"r.json:1: a: a number is followed by a letter — write a number with its unit in double quotes"}},
		{"leading nought", "{\"a\": 007}", false, []string{"r.json:1: a: “007” is not a number that JSON knows — write it as 12 or 0.5, without noughts before it"}},
		{"bare minus", "[-]", false, []string{"r.json:1: [0]: “-” is not a number that JSON knows — write it as 12 or 0.5, without noughts before it"}},
		{"point at the end", "[1.]", false, []string{"r.json:1: [0]: “1.” is not a number that JSON knows — write it as 12 or 0.5, without noughts before it"}},
		{"no exponent", "[1e+]", false, []string{"r.json:1: [0]: “1e+” is not a number that JSON knows — write it as 12 or 0.5, without noughts before it"}},
		{"plus", "[+1]", false, []string{"r.json:1: [0]: there is no value that JSON knows — write texts in double quotes, numbers plain, true or false"}},
		{"word", "{\"a\": bridge}", false, []string{"r.json:1: a: there is no value that JSON knows — write texts in double quotes, numbers plain, true or false"}},
		{"comma after the last member", "{\"a\": 1,\n}", false, []string{"r.json:2: a name in double quotes is wanted here — write \"name\": value, and no comma after the last"}},
		{"comma after the last item", "{\"a\": [1,]}", false, []string{"r.json:1: a[1]: there is no value that JSON knows — write texts in double quotes, numbers plain, true or false"}},
		{"no comma", "{\"a\": 1 \"b\": 2}", false, []string{"r.json:1: a: a comma or a closing brace is wanted here — put a comma between the members"}},
		{"no comma in a list", "[1 2]", false, []string{"r.json:1: [0]: a comma or a closing bracket is wanted here — put a comma between the items"}},
		{"no colon", "{\"a\" 1}", false, []string{"r.json:1: a: there is no colon after the name — write \"name\": value"}},
		{"comment", "{ // x\n}", false, []string{"r.json:1: a name in double quotes is wanted here — write \"name\": value, and no comma after the last"}},
		{"text not closed", "{\"a\": \"x", false, []string{"r.json:1: a: a text is not closed — close it with a double quote"}},
		{"line break in a text", "{\"a\": \"x\n\"}", false, []string{"r.json:1: a: a text runs over the end of its line, or holds a control character — close it with a double quote; write a line break as \\n"}},
		{"unknown escape", `["\x"]`, false, []string{"r.json:1: [0]: a backslash is followed by what JSON does not know — write \\\\ for a backslash, \\\" for a double quote"}},
		{"half a pair", `["\ud800"]`, false, []string{"r.json:1: [0]: a backslash is followed by what JSON does not know — write \\\\ for a backslash, \\\" for a double quote"}},
		{"half a pair and a letter", `["\ud800\u0041"]`, false, []string{"r.json:1: [0]: a backslash is followed by what JSON does not know — write \\\\ for a backslash, \\\" for a double quote"}},
		{"second half first", `["\udc00\ud800"]`, false, []string{"r.json:1: [0]: a backslash is followed by what JSON does not know — write \\\\ for a backslash, \\\" for a double quote"}},
		{"short escape", `["\u12"]`, false, []string{"r.json:1: [0]: a backslash is followed by what JSON does not know — write \\\\ for a backslash, \\\" for a double quote"}},
		{"signed escape", `["\u+123"]`, false, []string{"r.json:1: [0]: a backslash is followed by what JSON does not know — write \\\\ for a backslash, \\\" for a double quote"}},
		{"backslash at the end", `["\`, false, []string{"r.json:1: [0]: a backslash is followed by what JSON does not know — write \\\\ for a backslash, \\\" for a double quote"}},
		{"too deep", strings.Repeat("[", 66) + strings.Repeat("]", 66), false, []string{
			"r.json:1: " + strings.Repeat("[0]", 65) + ": is nested more than 64 deep — write it flatter"}},
		{"a thousand deep", strings.Repeat("{\"a\":", 100000), false, []string{
			"r.json:1: a" + strings.Repeat(".a", 64) + ": is nested more than 64 deep — write it flatter"}},
		{"no text", "{\n\"a\": \"\xff\"}", false, []string{"r.json:2: the file is not UTF-8 text from here on — save the file as UTF-8, not as UTF-16 or \"Unicode\""}},
	} {
		root, faults := ParseJSON("r.json", []byte(c.text))
		wantFaults(t, c.name, faults, c.want...)
		if (root != nil) != c.whole {
			t.Errorf("%s: root %v, want one: %v", c.name, root, c.whole)
		}
	}
}

func TestJSONPlacesAndValues(t *testing.T) {
	root, faults := ParseJSON("r.json", []byte("{\n \"ä\": \"\\ud83d\\ude00\\n\\u00e9\\\"\\\\\\/\\b\\f\\r\\t\", \"b\":\n  [1, -2.50, true,\r\n\t{\"c\": 1E3}], \"d\": {}, \"e\": []}\n"))
	if err := faults.Err(); err != nil {
		t.Fatal(err)
	}
	b := root.Fields["b"]
	for _, c := range []struct {
		name      string
		n         *Node
		line, col int
		kind      Kind
		text      string
	}{
		{"root", root, 1, 1, Table, ""}, {"ä", root.Fields["ä"], 2, 2, String, "😀\né\"\\/\b\f\r\t"},
		{"b", b, 2, 45, Array, ""}, {"b[0]", b.Items[0], 3, 4, Integer, "1"}, {"b[1]", b.Items[1], 3, 7, Float, "-2.50"},
		{"b[2]", b.Items[2], 3, 14, Bool, "true"}, {"b[3]", b.Items[3], 4, 2, Table, ""},
		{"c", b.Items[3].Fields["c"], 4, 3, Float, "1E3"}, {"d", root.Fields["d"], 4, 15, Table, ""}, {"e", root.Fields["e"], 4, 24, Array, ""},
	} {
		if c.n.Line != c.line || c.n.Col != c.col || c.n.Kind != c.kind || c.n.Text != c.text {
			t.Errorf("%s is %+v, want %d:%d, %v, %q", c.name, c.n, c.line, c.col, c.kind, c.text)
		}
	}
	if b.Items[1].Float != -2.5 || !b.Items[2].Bool || b.Items[3].Fields["c"].Float != 1000 || b.Items[0].Float != 1 {
		t.Error("a value is off")
	}
}
