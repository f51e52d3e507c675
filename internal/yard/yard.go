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
	"kernbook/internal/book"
	"kernbook/internal/book/sqlite"
	"kernbook/internal/core/entry"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// Yard is an open folder.
type Yard struct {
	*app.App
	Store book.Store
	Keys  seal.Keys
	ID    string // of the yard
}

// Parts are the files and folders in a yard's folder.
type Parts struct {
	dir               string
	id                string
	Book, Keys, Cores string
}

// PartsOf names the parts of a folder, whether they are there or not.
func PartsOf(dir string) Parts {
	return Parts{dir, filepath.Join(dir, "yard.id"), filepath.Join(dir, "book.sqlite"), filepath.Join(dir, "keys"), filepath.Join(dir, "cores")}
}

// ID reads the id of the yard. A folder that holds none is no yard's.
func (p Parts) ID() (string, error) {
	if err := p.folder(); err != nil {
		return "", err
	}
	b, err := os.ReadFile(p.id)
	if errors.Is(err, fs.ErrNotExist) {
		return "", fmt.Errorf("%s holds no yard: make one with “kernbook yard new %s”, or an invented one with “kernbook demo %s”", p.dir, p.dir, p.dir)
	}
	if err != nil {
		return "", err
	}
	id := strings.TrimSpace(string(b))
	if _, err := entry.ParseID(id); err != nil {
		return "", fmt.Errorf("%s does not hold the id of a yard: put it back from a copy", p.id)
	}
	return id, nil
}

// Options are what may be said beside the folder; the zero value is fine.
type Options struct {
	App app.Config // Clock and Chance are taken from it
	New bool       // make the folder where it is missing; it must not hold a yard yet
}

// Open opens a yard's folder.
func Open(dir string, o Options) (*Yard, error) {
	p := PartsOf(dir)
	if o.New {
		if err := p.begin(); err != nil {
			return nil, err
		}
	}
	id, err := p.ID()
	if err != nil {
		return nil, err
	}
	keys, err := seal.NewFolder(p.Keys)
	if err != nil {
		return nil, err
	}
	store, err := sqlite.Open(p.Book, sqlite.Options{})
	if err != nil {
		return nil, err
	}
	if err := artefact.Keep(p.Cores); err != nil { // before the first decision names it
		return nil, errors.Join(err, store.Close())
	}
	host, _ := os.Hostname()
	c := o.App
	c.Artefact = artefact.Sum()
	c.Store, c.Keys, c.Tables, c.Yard, c.Device = store, keys, tables.Default(), id, "computer "+plain(host)
	return &Yard{App: app.New(c), Store: store, Keys: keys, ID: id}, nil
}

// Close closes the book.
func (y *Yard) Close() error { return y.Store.Close() }

// folder refuses a file where the folder of a yard is wanted.
func (p Parts) folder() error {
	if s, err := os.Stat(p.dir); err == nil && !s.IsDir() {
		return fmt.Errorf("%s is a file, and a yard is a folder: name a folder, or one that is not there yet for a new yard", p.dir)
	}
	return nil
}

// begin makes the folder of a new yard, with an id of its own.
func (p Parts) begin() error {
	if err := p.folder(); err != nil {
		return err
	}
	if _, err := os.Stat(p.id); !errors.Is(err, fs.ErrNotExist) {
		if err != nil {
			return err
		}
		return fmt.Errorf("%s holds a yard already: choose another folder", p.dir)
	}
	if err := os.MkdirAll(p.dir, 0o700); err != nil {
		return err
	}
	var chance [10]byte
	if _, err := rand.Read(chance[:]); err != nil {
		return err
	}
	return os.WriteFile(p.id, []byte(entry.MakeID(0, chance).String()+"\n"), 0o600)
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
