package lang_test

import (
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/lang"
)

// catalogue loads a small one, with the given lines under [core].
func catalogue(t *testing.T, lines string) *lang.Catalogue {
	t.Helper()
	c, faults := lang.Load("test.toml", []byte("language = \"en\"\n[core]\n"+lines+"\n[words]\n"+`
"exam.thorough" = "thorough examination"
"exam.not-said" = "examination of some kind"
"millionths.1" = "1 millionth"
"millionths.any" = "{n:count} millionths"
"chance.one-in" = "1 in {n}"
"chance.none" = "none to speak of"
`))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return c
}

func args(pairs ...string) []lang.Arg {
	var out []lang.Arg
	for i := 0; i < len(pairs); i += 2 {
		out = append(out, lang.Arg{Name: pairs[i], Value: pairs[i+1]})
	}
	return out
}

func TestSay(t *testing.T) {
	for _, c := range []struct {
		name, text string
		args       []lang.Arg
		want       string
	}{
		{"plain", "It stays.", nil, "It stays."},
		{"a value", "By {who}.", args("who", "C"), "By C."},
		{"the first of two", "By {who}.", args("who", "C", "who", "D"), "By C."},
		{"a capital", "{^sign} here.", args("sign", "öl and é"), "Öl and é here."},
		{"a day", "On {day:date}.", args("day", "2027-02-03"), "On 3 Feb 2027."},
		{"a month", "On {day:date}.", args("day", "2027-02"), "On Feb 2027."},
		{"no day", "On {day:date}.", args("day", "unknown"), "On unknown."},
		{"thousands", "{n:count}", args("n", "45000"), "45\u202f000"},
		{"thousands, apart already", "{n:count}", args("n", "1 045 000"), "1\u202f045\u202f000"},
		{"a chance", "{n:chance}", args("n", "45 000"), "1 in 45\u202f000"},
		{"no chance", "{n:chance}", args("n", "0"), "none to speak of"},
		{"a group", "At the {exam:exam}.", args("exam", "thorough"), "At the thorough examination."},
		{"a group, not said", "At the {exam:exam}.", nil, "At the examination of some kind."},
		{"a group, unknown", "At the {exam:exam}.", args("exam", "odd"), "At the ⟦no words for exam “odd”⟧."},
		{"one", "{n:millionths}", args("n", "1"), "1 millionth"},
		{"many", "{n:millionths}", args("n", "2000"), "2\u202f000 millionths"},
		{"left out", "It grows[, {where}].", nil, "It grows."},
		{"left out, empty", "It grows[, {where}].", args("where", ""), "It grows."},
		{"not left out", "It grows[, {where}].", args("where", "end A"), "It grows, end A."},
		{"inside each other", "It[ grows[, {where}] {how}].", args("how", "fast"), "It grows fast."},
		{"inside each other, outer missing", "It[ grows[, {where}] {how}].", args("where", "end A"), "It."},
		{"missing", "By {who}.", nil, "By ⟦no value for who⟧."},
		{"empty", "By {who}.", args("who", ""), "By ⟦no value for who⟧."},
		{"braces in a value", "By {who}.", args("who", "{x}"), "By {x}."},
	} {
		if got := catalogue(t, `"k" = "`+c.text+`"`).Say("k", c.args...); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
	if got := catalogue(t, `"k" = "x"`).Say("odd.key"); got != "⟦no words for odd.key⟧" {
		t.Errorf("a missing key gives %q", got)
	}
}

func TestPlacesOfAMessage(t *testing.T) {
	c := catalogue(t, `"k" = "{a} {b:date}[ {c} {a}] {^a}"`)
	all, needed := c.Places("k")
	if strings.Join(all, " ") != "a b c" || strings.Join(needed, " ") != "a b" {
		t.Errorf("got %v, needed %v", all, needed)
	}
}

// TestRefused: each fault of a catalogue is found, with its line.
func TestRefused(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{`language = "en"` + "\n[core]\n\"a\" = \"x}\"\n[words]\n", "f.toml:3: core.a: has a } without its {"},
		{`language = "en"` + "\n[core]\n\"a\" = \"{x\"\n[words]\n", "has a { without its }"},
		{`language = "en"` + "\n[core]\n\"a\" = \"[x\"\n[words]\n", "has a [ without its ]"},
		{`language = "en"` + "\n[core]\n\"a\" = \"x]\"\n[words]\n", "has a ] without its ["},
		{`language = "en"` + "\n[core]\n\"a\" = \"[x]\"\n[words]\n", "has a [ ] without a place in it"},
		{`language = "en"` + "\n[core]\n\"a\" = \"[[[[[[{x}]]]]]]\"\n[words]\n", "too many ["},
		{`language = "en"` + "\n[core]\n\"a\" = \"{}\"\n[words]\n", "which is no name"},
		{`language = "en"` + "\n[core]\n\"a\" = \"{x y}\"\n[words]\n", "which is no name"},
		{`language = "en"` + "\n[core]\n\"a\" = \"{x:}\"\n[words]\n", "which is no name"},
		{`language = "en"` + "\n[core]\n\"a\" = 5\n[words]\n", "f.toml:3: core.a"},
		{`language = "en"` + "\n[core]\n\"a\" = \"x\"\n[words]\n\"a\" = \"y\"\n", "f.toml:5: words.a: has words already"},
		{`language = "en"` + "\n[core]\n\"a\" = \"x\"\n[unsaid]\n\"b\" = [\"x\"]\n[words]\n", "is no key of the table core"},
		{`language = "en"` + "\n[core]\n\"a\" = \"x\"\n", "words"},
		{"[core]\n[words]\n", "language"},
		{`language = "en"` + "\n[core]\n[words]\n[odd]\n", "unknown key “odd”"},
		{"language = \n", "f.toml:1"},
	} {
		got, faults := lang.Load("f.toml", []byte(c.text))
		if got != nil || len(faults) == 0 || !strings.Contains(faults.Error(), c.want) {
			t.Errorf("%q: got %v, want a fault with %q", c.text, faults, c.want)
		}
	}
}

func TestCount(t *testing.T) {
	for n, want := range map[int64]string{0: "0", 999: "999", 1000: "1_000", 45_000: "45_000", 1_234_567: "1_234_567", -12_345: "−12_345"} {
		if got := strings.ReplaceAll(lang.Count(n), "\u202f", "_"); got != want {
			t.Errorf("%d: got %s, want %s", n, got, want)
		}
	}
}

func TestList(t *testing.T) {
	c := lang.English()
	for want, items := range map[string][]string{"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}, "a, b, c and d": {"a", "b", "c", "d"}} {
		if got := c.List(items); got != want {
			t.Errorf("%v: got %q, want %q", items, got, want)
		}
	}
}

func TestPlace(t *testing.T) {
	for _, c := range []struct {
		p          kit.Place
		part, zone string
		want       string
	}{
		{kit.Place{From: 430_000, To: 480_000}, "", "travel", "from 430 mm to 480 mm from end A, in the ring's travel"},
		{kit.Place{From: 430_500, To: 1_480_000}, "", "", "from 430.5 mm to 1480 mm from end A"},
		{kit.Place{From: 12_000_000, To: 12_050_000}, "", "work", "from 12 m to 12.05 m from end A, in the working zone"},
		{kit.Place{From: 430_000, To: 430_000}, "", "", "at 430 mm from end A"},
		{kit.Place{Part: "end A"}, "end A", "end A", "end A"},
		{kit.Place{Part: "waist", Sides: []string{"face", "back"}, Layer: "cover"}, "waist webbing", "", "waist webbing, face and back, cover"},
		{kit.Place{Whole: true}, "", "travel", "the whole piece"},
		{kit.Place{From: 10, To: 20_000, Sides: []string{"left"}}, "", "a zone of its own", "from 0.01 mm to 20 mm from end A, a zone of its own, left"},
		{kit.Place{}, "", "", ""},
	} {
		if got := lang.English().Place(c.p, c.part, c.zone); got != c.want {
			t.Errorf("%+v: got %q, want %q", c.p, got, c.want)
		}
	}
}
