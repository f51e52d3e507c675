package seal

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
)

// Folder keeps keys as files, one for each person, readable by their owner
// alone. A destroyed key leaves a file that says so.
type Folder struct {
	dir string
	mu  sync.Mutex
}

// gone stands in the file of a key that was destroyed.
const gone = "destroyed\n"

// NewFolder keeps keys in a folder, which is made where it is missing.
func NewFolder(dir string) (*Folder, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	return &Folder{dir: dir}, nil
}

func (f *Folder) path(person string) string {
	return filepath.Join(f.dir, hex.EncodeToString([]byte(person))+".key")
}

func (f *Folder) read(person string) (Key, error) {
	b, err := os.ReadFile(f.path(person))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Key{}, ErrNone
	case err == nil && string(b) == gone:
		return Key{}, ErrForgotten
	case err != nil:
		return Key{}, err
	}
	raw, err := hex.DecodeString(strings.TrimSpace(string(b)))
	var k Key
	if err != nil || len(raw) != len(k) {
		return Key{}, fmt.Errorf("%s holds no key: put back the file from a copy of the yard's folder", f.path(person))
	}
	copy(k[:], raw)
	return k, nil
}

// Key implements Keys.
func (f *Folder) Key(person string) (Key, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.read(person)
}

// Make implements Keys.
func (f *Folder) Make(person string) (Key, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if k, err := f.read(person); !errors.Is(err, ErrNone) {
		return k, err
	}
	var k Key
	if _, err := rand.Read(k[:]); err != nil {
		return Key{}, err
	}
	return k, f.write(person, hex.EncodeToString(k[:])+"\n")
}

// Destroy implements Keys. The file is overwritten in place first; what a disk
// or a copy of the folder keeps besides is out of reach from here.
func (f *Folder) Destroy(person string) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	if old, err := os.OpenFile(f.path(person), os.O_WRONLY, 0); err == nil {
		_, err = old.Write(make([]byte, 2*len(Key{})+1))
		if err = errors.Join(err, old.Sync(), old.Close()); err != nil {
			return err
		}
	} else if !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return f.write(person, gone)
}

// write puts a file in place whole, or not at all.
func (f *Folder) write(person, text string) error {
	t, err := os.CreateTemp(f.dir, "new-*")
	if err != nil {
		return err
	}
	_, err = t.WriteString(text)
	if err = errors.Join(err, t.Sync(), t.Close()); err == nil {
		err = os.Rename(t.Name(), f.path(person))
	}
	if err != nil {
		os.Remove(t.Name())
		return err
	}
	if runtime.GOOS == "windows" { // which has no way to sync a folder, and no need to
		return nil
	}
	d, err := os.Open(f.dir)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
