package seal

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestBox: what is sealed opens with its key at its place, and nowhere else;
// any flipped character is noticed.
func TestBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plain := rapid.SliceOf(rapid.Byte()).Draw(t, "plain")
		k := Key{1}
		box, err := Seal(k, "entry 1", plain)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Open(k, "entry 1", box)
		if err != nil || string(got) != string(plain) {
			t.Fatalf("%q, %v", got, err)
		}
		if _, err := Open(k, "entry 2", box); !errors.Is(err, ErrTampered) {
			t.Fatalf("elsewhere: %v", err)
		}
		if _, err := Open(Key{2}, "entry 1", box); !errors.Is(err, ErrTampered) {
			t.Fatalf("another key: %v", err)
		}
		i := rapid.IntRange(0, len(box)-1).Draw(t, "at")
		c := byte('A')
		if box[i] == c {
			c = 'B'
		}
		if _, err := Open(k, "entry 1", box[:i]+string(c)+box[i+1:]); !errors.Is(err, ErrTampered) {
			t.Fatalf("flipped at %d: %v", i, err)
		}
	})
}

// TestTwoBoxesDiffer: the same words sealed twice do not look the same.
func TestTwoBoxesDiffer(t *testing.T) {
	a, _ := Seal(Key{}, "", []byte("Ines"))
	b, _ := Seal(Key{}, "", []byte("Ines"))
	if a == b {
		t.Error("they do")
	}
}

// TestFolder: a key stays the same, outlives its opening, is readable by its
// owner alone, and once destroyed is gone for good.
func TestFolder(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "keys")
	f, err := NewFolder(dir)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Key("p1"); !errors.Is(err, ErrForgotten) || !errors.Is(err, ErrNone) {
		t.Errorf("a key that never was: %v", err)
	}
	a, err := f.Make("p1")
	if err != nil {
		t.Fatal(err)
	}
	other, _ := f.Make("../p1")
	if other == a || a == (Key{}) {
		t.Error("two persons have one key")
	}
	f, _ = NewFolder(dir)
	if b, err := f.Make("p1"); err != nil || b != a {
		t.Errorf("another key after opening again: %v", err)
	}
	if s, err := os.Stat(f.path("p1")); err != nil || s.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", s.Mode(), err)
	}
	for range 2 {
		if err := f.Destroy("p1"); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := f.Key("p1"); !errors.Is(err, ErrForgotten) || errors.Is(err, ErrNone) {
		t.Errorf("after destroying: %v", err)
	}
	if _, err := f.Make("p1"); !errors.Is(err, ErrForgotten) {
		t.Errorf("a forgotten person has a new key: %v", err)
	}
	if _, err := f.Key("../p1"); err != nil {
		t.Errorf("the other person's key: %v", err)
	}
	os.WriteFile(f.path("p3"), []byte("nonsense"), 0o600)
	if _, err := f.Make("p3"); err == nil || !strings.Contains(err.Error(), "holds no key") {
		t.Errorf("a damaged file: %v", err)
	}
	all, _ := os.ReadDir(dir)
	for _, x := range all {
		if !strings.HasSuffix(x.Name(), ".key") {
			t.Errorf("%s was left over", x.Name())
		}
	}
}
