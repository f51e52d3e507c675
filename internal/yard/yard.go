// Package yard is the folder that holds one yard: its book, the keys of its
// people, and the cores that decided.
//
//	yard/book.sqlite   the book
//	yard/keys/         one key for each person; what was sealed opens only with them
//	yard/cores/        the cores that decided, each named by its hash
//	yard/yard.id       id of the yard
package yard

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/artefact"
	"kernbook/internal/book/sqlite"
	"kernbook/internal/core/entry"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// Yard is an open folder.
type Yard struct {
	*app.App
	Dir   string
	store *sqlite.Store
}

const idFile, bookFile, keysDir, coresDir = "yard.id", "book.sqlite", "keys", "cores"

// Options are what may be said beside the folder; the zero value is fine.
type Options struct {
	App app.Config // Clock and Chance are taken from it
	New bool       // make the folder where it is missing; it must not hold a yard yet
}

// Open opens a yard's folder.
func Open(dir string, o Options) (*Yard, error) {
	file := filepath.Join(dir, idFile)
	b, err := os.ReadFile(file)
	switch {
	case o.New && err == nil:
		return nil, fmt.Errorf("%s holds a yard already: choose another folder", dir)
	case o.New && errors.Is(err, fs.ErrNotExist):
		if b, err = begin(dir, file); err != nil {
			return nil, err
		}
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("%s holds no yard: make one with “kernbook yard new %s”, or an invented one with “kernbook demo %s”", dir, dir, dir)
	case err != nil:
		return nil, err
	}
	id := strings.TrimSpace(string(b))
	if _, err := entry.ParseID(id); err != nil {
		return nil, fmt.Errorf("%s does not hold the id of a yard: put it back from a copy", file)
	}
	keys, err := seal.NewFolder(filepath.Join(dir, keysDir))
	if err != nil {
		return nil, err
	}
	store, err := sqlite.Open(filepath.Join(dir, bookFile), sqlite.Options{})
	if err != nil {
		return nil, err
	}
	if err := artefact.Keep(filepath.Join(dir, coresDir)); err != nil { // before the first decision names it
		return nil, errors.Join(err, store.Close())
	}
	host, _ := os.Hostname()
	c := o.App
	c.Artefact = artefact.Sum()
	c.Store, c.Keys, c.Tables, c.Yard, c.Device = store, keys, tables.Default(), id, "computer "+plain(host)
	return &Yard{App: app.New(c), Dir: dir, store: store}, nil
}

// Close closes the book.
func (y *Yard) Close() error { return y.store.Close() }

// begin makes the folder of a new yard, with an id of its own.
func begin(dir, file string) ([]byte, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	var chance [10]byte
	if _, err := rand.Read(chance[:]); err != nil {
		return nil, err
	}
	id := []byte(entry.MakeID(0, chance).String() + "\n")
	return id, os.WriteFile(file, id, 0o600)
}

// plain leaves out what a line of the book cannot hold.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r < 0x20 {
			return -1
		}
		return r
	}, s)
}
