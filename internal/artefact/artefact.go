// Package artefact holds the core as one file that runs the same everywhere:
// built for wasip1, packed, and put into the binary by the Makefile. A decision
// names it by its hash; a copy beside the book lets the outcome be recomputed by
// the very core that gave it, however old.
package artefact

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
)

// largest is how many bytes an unpacked artefact may have.
const largest = 256 << 20

// Sum gives the SHA-256 of the artefact in hexadecimal; "" when the binary was
// built without it. It does not unpack anything.
func Sum() string { return strings.TrimSpace(sum) }

// Core gives the artefact unpacked with its SHA-256 in hexadecimal. ok is false
// when the binary was built without it, as a plain “go build” does.
func Core() (wasm []byte, hash string, ok bool) {
	if len(packed) == 0 {
		return nil, "", false
	}
	wasm, err := Unpack(packed, Sum())
	if err != nil {
		panic(fmt.Sprintf("artefact: what was built in is not what it is named after: %v", err))
	}
	return wasm, Sum(), true
}

// ErrOther says that a packed artefact is not the one that was asked for.
var ErrOther = errors.New("is not the core it is named after")

// Unpack unpacks an artefact and sees that its SHA-256 is the one given;
// ErrOther where it is not, or is no packed file.
func Unpack(packed []byte, hash string) ([]byte, error) {
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, fmt.Errorf("%w: %v", ErrOther, err)
	}
	wasm, err := io.ReadAll(io.LimitReader(z, largest+1))
	switch got := sha256.Sum256(wasm); {
	case err != nil:
		return nil, fmt.Errorf("%w: %v", ErrOther, err)
	case len(wasm) > largest:
		return nil, fmt.Errorf("%w: it is too large", ErrOther)
	case hex.EncodeToString(got[:]) != hash:
		return nil, fmt.Errorf("%w: its SHA-256 is %x", ErrOther, got)
	}
	return wasm, nil
}

// File gives the name of an artefact's file in a folder of them.
func File(dir, hash string) string { return filepath.Join(dir, hash+".wasm.gz") }

// Keep puts the binary's artefact into a folder, which is made where it is
// missing, unless it is there. A binary without one puts nothing.
func Keep(dir string) error {
	if len(packed) == 0 {
		return nil
	}
	file := File(dir, Sum())
	if _, err := os.Stat(file); !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	Core() // sees that it is what it is named after
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	return place(dir, file, packed)
}

// place puts a file in place whole and on disk, or not at all.
func place(dir, file string, b []byte) error {
	t, err := os.CreateTemp(dir, "new-*")
	if err != nil {
		return err
	}
	_, err = t.Write(b)
	if err = errors.Join(err, t.Sync(), t.Close()); err == nil {
		err = os.Rename(t.Name(), file)
	}
	if err != nil {
		os.Remove(t.Name())
		return err
	}
	if runtime.GOOS == "windows" { // which has no way to sync a folder, and no need to
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
