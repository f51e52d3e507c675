// Package sqlite keeps a yard's book in one SQLite file. The file may be opened
// several times at once, by one program or by several on one machine.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"time"

	driver "modernc.org/sqlite"
	lib "modernc.org/sqlite/lib"

	"kernbook/internal/book"
)

// patience is how long a write waits for another program that is writing.
const patience = 10 * time.Second

// Options are what may be said of a book beside its file; the zero value is fine.
type Options struct {
	// MostPages bounds the file, in pages of 4096 bytes; 0 sets no bound of our own.
	MostPages int
	// ReadOnly opens a book that is there and never writes into its file: nothing is
	// made, no form is brought up to date, and Append is refused.
	ReadOnly bool
}

// Store is a book in a file.
type Store struct {
	path        string
	readOnly    bool
	write, read *sql.DB // one connection that writes, a few that cannot
	leaf, hash, head, known, lastly,
	last, find *sql.Stmt

	kept book.Kept
}

var _ book.Store = (*Store)(nil)

// making keeps the making of files apart: closing a file that SQLite has open
// elsewhere in this process would drop SQLite's locks on it.
var making sync.Mutex

// Open opens the book in a file, and makes it where there is none; its folder
// must be there. A file of another program, or of a newer kernbook, is
// ErrForeign and is left as it was; one whose guards, head or hashes do not
// fit together is ErrBroken.
func Open(path string, o Options) (*Store, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	s := &Store{path: path, readOnly: o.ReadOnly}
	write, read := []string{"synchronous(FULL)"}, []string{"query_only(1)"}
	if o.ReadOnly {
		write = read
		if _, err := os.Stat(path); err != nil {
			return nil, fmt.Errorf("there is no book to read: %w", err)
		}
	} else if err := create(path); err != nil {
		return nil, fmt.Errorf("the book cannot be made: %w", err)
	}
	if o.MostPages > 0 {
		write = append(write, "max_page_count("+strconv.Itoa(o.MostPages)+")")
	}
	if s.write, err = sql.Open("sqlite", s.address(write)); err != nil {
		return nil, err
	}
	s.write.SetMaxOpenConns(1)
	if s.read, err = sql.Open("sqlite", s.address(read)); err != nil {
		return nil, err
	}
	s.read.SetMaxOpenConns(4)
	s.read.SetMaxIdleConns(4)
	ctx, stop := context.WithTimeout(context.Background(), 3*patience)
	defer stop()
	if err := s.prepare(ctx); err != nil {
		err = s.fault(ctx, err)
		s.Close()
		return nil, err
	}
	return s, nil
}

// create makes an empty file that only its owner can read: the book knows
// people. What SQLite lays beside it takes the same rights.
func create(path string) error {
	making.Lock()
	defer making.Unlock()
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, os.ErrExist) {
		return nil
	}
	if err != nil {
		return err
	}
	return f.Close()
}

func (s *Store) address(pragmas []string) string {
	q := url.Values{"_txlock": {"immediate"}, "_defensive": {"1"}, "_dqs": {"0"}, "_error_rc": {"1"}, "_pragma": pragmas}
	q.Add("_pragma", "busy_timeout("+strconv.FormatInt(patience.Milliseconds(), 10)+")")
	q.Add("_pragma", "trusted_schema(0)")
	if s.readOnly {
		q.Set("mode", "ro")
		if s.settled() {
			q.Set("immutable", "1")
		}
	}
	slashed := filepath.ToSlash(s.path)
	if slashed[0] != '/' { // a drive letter
		slashed = "/" + slashed
	}
	return "file://" + (&url.URL{Path: slashed}).EscapedPath() + "?" + q.Encode()
}

// settled says whether the file stands alone: no program has it open, for there is no
// log beside it. Then it is read without laying a log beside it, also from a medium
// that cannot be written.
func (s *Store) settled() bool {
	_, err := os.Stat(s.path + "-wal")
	return errors.Is(err, os.ErrNotExist)
}

func (s *Store) prepare(ctx context.Context) error {
	// Nothing is written before the file is known to be ours.
	version, err := identify(ctx, s.write)
	switch {
	case err != nil:
		return err
	case s.readOnly && version != len(steps):
		return fmt.Errorf("%w: its form has version %d, and only opening it to write brings it to version %d", book.ErrForeign, version, len(steps))
	case !s.readOnly:
		if err := s.ahead(ctx); err != nil {
			return err
		}
		if err := migrate(ctx, s.write); err != nil {
			return err
		}
	}
	if err := intact(ctx, s.write); err != nil {
		return err
	}
	for _, p := range []struct {
		to    **sql.Stmt
		db    *sql.DB
		query string
	}{
		{&s.leaf, s.write, `INSERT INTO leaves (idx, id, sum, line) VALUES (?, ?, ?, ?)`},
		{&s.hash, s.write, `INSERT INTO hashes (idx, hash) VALUES (?, ?)`},
		{&s.head, s.write, `INSERT INTO heads (size, root) VALUES (?, ?)`},
		{&s.known, s.write, `SELECT idx, sum FROM leaves WHERE id = ?`},
		{&s.lastly, s.write, last},
		{&s.last, s.read, last},
		{&s.find, s.read, `SELECT idx FROM leaves WHERE id = ?`},
	} {
		var err error
		if *p.to, err = p.db.PrepareContext(ctx, p.query); err != nil {
			return err
		}
	}
	_, err = s.Head(ctx)
	return err
}

// ahead puts the file into write-ahead mode and sees that it is. Where two
// programs do so at once, SQLite turns one away without waiting.
func (s *Store) ahead(ctx context.Context) error {
	for {
		var mode string
		err := s.write.QueryRowContext(ctx, `PRAGMA journal_mode = WAL`).Scan(&mode)
		switch {
		case code(err)&0xff == lib.SQLITE_BUSY && ctx.Err() == nil:
			time.Sleep(5 * time.Millisecond)
		case err != nil:
			return err
		case mode != "wal":
			return fmt.Errorf("%s: the book needs SQLite's write-ahead log, and here it is %q: keep the file on a disk of this machine, not on a network drive", s.path, mode)
		default:
			return nil
		}
	}
}

// Close implements book.Store.
func (s *Store) Close() error { return errors.Join(s.read.Close(), s.write.Close()) }

// code is SQLite's extended result code in an error, or 0.
func code(err error) int {
	var e *driver.Error
	if errors.As(err, &e) {
		return e.Code()
	}
	return 0
}

// fault puts an error into the words of package book. What somebody has put
// into them already stays.
func (s *Store) fault(ctx context.Context, err error) error {
	if err == nil {
		return nil
	}
	if gone := ctx.Err(); gone != nil {
		return gone
	}
	switch c := code(err); {
	case c&0xff == lib.SQLITE_FULL, c == lib.SQLITE_IOERR_SHMSIZE:
		return fmt.Errorf("%s: %w; nothing of this was written: make room and do it again (%v)", s.path, book.ErrFull, err)
	case c&0xff == lib.SQLITE_CORRUPT, c&0xff == lib.SQLITE_NOTADB, c&0xff == lib.SQLITE_CONSTRAINT,
		c == lib.SQLITE_IOERR_SHORT_READ, c == lib.SQLITE_IOERR_CORRUPTFS, c == lib.SQLITE_IOERR_DATA:
		return fmt.Errorf("%s: %w: put back a copy (%v)", s.path, book.ErrBroken, err)
	case c&0xff == lib.SQLITE_BUSY:
		return fmt.Errorf("%s: another program has been writing to the book for %v: end it, or try again (%v)", s.path, patience, err)
	case c&0xff == lib.SQLITE_READONLY:
		return fmt.Errorf("%s: the book may not be written here: see to the rights of the file and its folder (%v)", s.path, err)
	default:
		return fmt.Errorf("%s: %w", s.path, err)
	}
}
