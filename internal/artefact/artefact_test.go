package artefact

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"os"
	"path/filepath"
	"testing"
)

func zipped(t *testing.T, b []byte) []byte {
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	if _, err := z.Write(b); err != nil || z.Close() != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestUnpack: only what has the hash is given.
func TestUnpack(t *testing.T) {
	core := []byte("a core")
	h := sha256.Sum256(core)
	hash := hex.EncodeToString(h[:])
	if got, err := Unpack(zipped(t, core), hash); err != nil || !bytes.Equal(got, core) {
		t.Errorf("%q, %v", got, err)
	}
	for name, b := range map[string][]byte{"another": zipped(t, []byte("a c0re")), "not packed": core, "cut off": zipped(t, core)[:20], "nothing": nil} {
		if _, err := Unpack(b, hash); !errors.Is(err, ErrOther) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestCore: the binary's own, where it has one, is what it is named after, and
// is kept once. Without one there is nothing, and nothing is kept.
func TestCore(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "cores")
	wasm, hash, ok := Core()
	if ok != (Sum() != "") || hash != Sum() || ok != (len(wasm) > 0) {
		t.Fatalf("%d bytes, %q, %v", len(wasm), hash, ok)
	}
	for range 2 {
		if err := Keep(dir); err != nil {
			t.Fatal(err)
		}
	}
	if !ok {
		if _, err := os.Stat(dir); err == nil {
			t.Error("a folder was made for nothing")
		}
		return
	}
	if !bytes.HasPrefix(wasm, []byte("\x00asm")) {
		t.Error("is no WebAssembly")
	}
	list, err := os.ReadDir(dir)
	if err != nil || len(list) != 1 {
		t.Fatal(list, err)
	}
	b, err := os.ReadFile(File(dir, hash))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Unpack(b, hash); err != nil {
		t.Error(err)
	}
}

// TestPlace: a file is put whole, and nothing is left beside it.
func TestPlace(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "x")
	if err := place(dir, file, []byte("whole")); err != nil {
		t.Fatal(err)
	}
	b, err := os.ReadFile(file)
	list, _ := os.ReadDir(dir)
	if err != nil || string(b) != "whole" || len(list) != 1 {
		t.Errorf("%q, %v, %v", b, err, list)
	}
}
