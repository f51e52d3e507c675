package entry

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"kernbook/internal/core/qty"
)

func day(t testing.TB, s string) qty.Day {
	d, err := qty.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d.Earliest()
}

// sample is an entry with something in every field.
func sample(t testing.TB) Entry {
	return Entry{
		Yard: "quillbrook", ID: MakeID(1_780_000_000_000, [10]byte{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}), Kind: Event, Version: 1, Day: day(t, "2026-06-01"),
		Wall: "2026-06-01T07:31:00+01:00", Author: "p1", Device: "phone “3”", Base: "12:" + strings.Repeat("0a", 32), Tables: "abc", Core: "1",
		Artefact: strings.Repeat("f0", 32), Piece: "BR-07", Body: []byte(`{"event":"saw","words":"a line\nand \"more\""}`), Sign: "s",
	}
}

// TestForm is one entry written out in full.
func TestForm(t *testing.T) {
	e := sample(t)
	want := `{"form":"kernbook entry 1","yard":"quillbrook","id":"019e7044-8800-7102-8304-05060708090a","kind":"event","v":1,"day":"2026-06-01",` +
		`"wall":"2026-06-01T07:31:00+01:00","author":"p1","device":"phone “3”","base":"12:` + strings.Repeat("0a", 32) + `","tables":"abc","core":"1",` +
		`"artefact":"` + strings.Repeat("f0", 32) + `","piece":"BR-07","body":{"event":"saw","words":"a line\nand \"more\""},"sign":"s"}`
	got := string(e.Append(nil))
	if got != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
	if !json.Valid([]byte(got)) {
		t.Error("is no JSON")
	}
	back, err := Parse([]byte(got))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(e, back); d != "" {
		t.Error(d)
	}
	l := Leaf{Recorded: "2026-06-01T06:31:02.123Z", Entry: e}
	line := l.Append(nil)
	again, err := ParseLeaf(line)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(l, again); d != "" {
		t.Error(d)
	}
	if bytes.Contains(e.Signed(), []byte(`"sign"`)) || !bytes.HasPrefix([]byte(got), e.Signed()[:len(e.Signed())-1]) {
		t.Error("what is signed is not what stands before the signature")
	}
}

// TestRefused: everything that is not of the one form is refused, with the place.
func TestRefused(t *testing.T) {
	e := sample(t)
	good := string(e.Append(nil))
	for _, c := range []struct{ name, from, to, want string }{
		{"other form", "entry 1", "entry 2", "at byte 0"},
		{"a space", `,"v":`, `, "v":`, "want ,\"v\":"},
		{"order of keys", `"kind":"event","v":1`, `"v":1,"kind":"event"`, `want ,"kind":`},
		{"a key left out", `,"device":"phone “3”"`, "", `want ,"device":`},
		{"a further key", `,"sign"`, `,"more":1,"sign"`, `want ,"sign":`},
		{"capital id", "05060708090a", "05060708090A", "id is no UUID"},
		{"version 4", "-7102-", "-4102-", "id is no UUID"},
		{"kind", `"kind":"event"`, `"kind":"party"`, "kind “party” is not known"},
		{"no version", `"v":1`, `"v":0`, "whole number above 0"},
		{"leading zero", `"v":1`, `"v":01`, "whole number above 0"},
		{"month", `"day":"2026-06-01"`, `"day":"2026-06"`, "is no day"},
		{"no such day", `"day":"2026-06-01"`, `"day":"2026-02-30"`, "is no day"},
		{"no offset", "07:31:00+01:00", "07:31:00Z", "wall"},
		{"no such hour", "T07:31", "T25:31", "wall"},
		{"no author", `"author":"p1"`, `"author":""`, "author is missing"},
		{"base", `"base":"12:`, `"base":"012:`, "base"},
		{"artefact", "f0f0", "f0f", "artefact"},
		{"body is a list", `{"event":"saw","words":"a line\nand \"more\""}`, `[]`, "body is no object"},
		{"key twice", `"words":`, `"event":`, "a key twice"},
		{"null", `"saw"`, `null`, "no value in canonical form"},
		{"needless escape", `“3”`, `\u0041`, "canonical form"},
		{"escape of a line end", `line\n`, `line\u000a`, "not in canonical form"},
		{"slash escaped", `line\n`, `line\/`, "not in canonical form"},
		{"float", `"saw"`, `1.50`, "number that is not in canonical form"},
		{"minus nought", `"saw"`, `-0`, "number that is not in canonical form"},
		{"something after", `"sign":"s"}`, `"sign":"s"} `, "something follows"},
		{"cut off", `,"sign":"s"}`, ``, `want ,"sign":`},
		{"broken UTF-8", "phone", "ph\xffne", "canonical form"},
	} {
		text := strings.Replace(good, c.from, c.to, 1)
		if text == good {
			t.Fatalf("%s: nothing was changed", c.name)
		}
		if _, err := Parse([]byte(text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %s", c.name, err, c.want)
		}
	}
}

// TestLimits: what is too deep, has too many keys or is too large is refused.
func TestLimits(t *testing.T) {
	deep := strings.Repeat("[", deepest+1) + strings.Repeat("]", deepest+1)
	if Canonical([]byte(deep[1:len(deep)-1])) != nil || Canonical([]byte("["+deep+"]")) == nil {
		t.Error("depth is not held")
	}
	keys := func(n int) []byte {
		b := []byte{'{'}
		for i := range n {
			b = append(b, `"k`...)
			b = append(b, byte('0'+i/100), byte('0'+i/10%10), byte('0'+i%10))
			b = append(b, `":1,`...)
		}
		return append(b[:len(b)-1], '}')
	}
	if err := Canonical(keys(mostKeys)); err != nil {
		t.Errorf("%d keys: %v", mostKeys, err)
	}
	if Canonical(keys(mostKeys+1)) == nil {
		t.Error("too many keys pass")
	}
	e := sample(t)
	e.Body = []byte(`{"words":"` + strings.Repeat("x", Largest) + `"}`)
	if _, err := Parse(e.Append(nil)); err == nil || !strings.Contains(err.Error(), "larger") {
		t.Errorf("got %v", err)
	}
}

// TestID: an id tells its time, sorts by it, and reads back.
func TestID(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		millis := rapid.Int64Range(0, 1<<48-1).Draw(t, "millis")
		var chance [10]byte
		copy(chance[:], rapid.SliceOfN(rapid.Byte(), 10, 10).Draw(t, "chance"))
		id := MakeID(millis, chance)
		back, err := ParseID(id.String())
		if err != nil || back != id || id.Millis() != millis {
			t.Fatalf("%s: %v, %d", id, err, id.Millis())
		}
		if next := MakeID(millis+1, [10]byte{}); millis < 1<<48-1 && next.String() <= id.String() {
			t.Fatalf("%s does not sort after %s", next, id)
		}
	})
}

// TestAnyText: any text in any field comes back.
func TestAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String()
		e := Entry{Yard: "y", ID: MakeID(1, [10]byte{}), Kind: rapid.SampledFrom(Kinds[:]).Draw(t, "kind"), Version: rapid.IntRange(1, 1<<20).Draw(t, "v"),
			Day: qty.Day(rapid.IntRange(0, 40000).Draw(t, "day")), Wall: "2026-06-01T07:31:00-14:00", Author: "a"}
		word := text.Draw(t, "word")
		e.Body = append(append([]byte(`{"words":`), AppendText(nil, word)...), '}')
		b := e.Append(nil)
		var std struct {
			Body struct{ Words string }
		}
		if err := json.Unmarshal(b, &std); err != nil || std.Body.Words != word {
			t.Fatalf("%q is read by another reader as %q: %v", word, std.Body.Words, err)
		}
		back, err := Parse(b)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(back.Append(nil), b) {
			t.Fatal("does not come back")
		}
	})
}

// FuzzParse: what is read is written back byte for byte, and is JSON.
func FuzzParse(f *testing.F) {
	e := sample(f)
	l := Leaf{Recorded: "2026-06-01T06:31:02.123Z", Entry: e}
	f.Add(l.Append(nil))
	e.Body = []byte(`{"a":[1,-2,0.5,1e+30,true,false,"x\"\\\u0001"],"b":{}}`)
	f.Add((&Leaf{Recorded: "2026-06-01T06:31:02.123Z", Entry: e}).Append(nil))
	f.Fuzz(func(t *testing.T, b []byte) {
		if e, err := Parse(b); err == nil {
			if got := e.Append(nil); !bytes.Equal(got, b) {
				t.Fatalf("\n got %s\nwant %s", got, b)
			}
			if !json.Valid(b) {
				t.Fatal("is no JSON")
			}
		}
		if l, err := ParseLeaf(b); err == nil {
			if got := l.Append(nil); !bytes.Equal(got, b) {
				t.Fatalf("\n got %s\nwant %s", got, b)
			}
		}
	})
}

func BenchmarkParse(b *testing.B) {
	e := sample(b)
	l := Leaf{Recorded: "2026-06-01T06:31:02.123Z", Entry: e}
	line := l.Append(nil)
	b.ReportAllocs()
	b.SetBytes(int64(len(line)))
	for range b.N {
		if _, err := ParseLeaf(line); err != nil {
			b.Fatal(err)
		}
	}
}
