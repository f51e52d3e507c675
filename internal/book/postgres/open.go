// Package postgres keeps the books of several yards in one PostgreSQL database.
package postgres

import (
	"context"
	"errors"
	"fmt"
	"sync/atomic"

	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/pgxpool"

	"kernbook/internal/book"
)

// Database is a database with the books of yards.
type Database struct{ pool *pgxpool.Pool }

// Connect connects to a database (a URL or key=value words, as libpq takes
// them) and makes kernbook's tables in it where they are not there. What another
// program or a newer kernbook made is ErrForeign. A server with fsync off is
// refused: what it acknowledges can be lost.
func Connect(ctx context.Context, address string) (*Database, error) {
	config, err := pgxpool.ParseConfig(address)
	if err != nil {
		return nil, err // pgx leaves the password out
	}
	config.ConnConfig.RuntimeParams["synchronous_commit"] = "on" // an acknowledged append is on disk, whatever the server's default
	config.ConnConfig.RuntimeParams["application_name"] = "kernbook"
	pool, err := pgxpool.NewWithConfig(ctx, config)
	if err != nil {
		return nil, err
	}
	d := &Database{pool: pool}
	if err := d.prepare(ctx); err != nil {
		pool.Close()
		return nil, fault(ctx, err)
	}
	return d, nil
}

func (d *Database) prepare(ctx context.Context) error {
	var fsync string
	if err := d.pool.QueryRow(ctx, `SHOW fsync`).Scan(&fsync); err != nil {
		return err
	}
	if fsync != "on" {
		return fmt.Errorf("the server runs with fsync = %s, so that what it acknowledges can be lost with the power: set fsync = on in its postgresql.conf", fsync)
	}
	if err := migrate(ctx, d.pool); err != nil {
		return err
	}
	var n int
	if err := d.pool.QueryRow(ctx, guards).Scan(&n); err != nil {
		return err
	}
	if n != guardsWanted {
		return fmt.Errorf("%w: %d of the %d triggers that guard it are in force; somebody has worked on the database with another tool: put back a copy", book.ErrBroken, n, guardsWanted)
	}
	return nil
}

// Close ends all connections.
func (d *Database) Close() { d.pool.Close() }

// Book opens the book of a yard, and makes it where there is none. Closing it
// leaves the database connected.
func (d *Database) Book(ctx context.Context, yard string) (*Store, error) {
	s := &Store{pool: d.pool, name: yard}
	const number = `SELECT yard FROM kernbook.yards WHERE name = $1`
	if _, err := d.pool.Exec(ctx, `INSERT INTO kernbook.yards (name) SELECT $1 WHERE NOT EXISTS (`+number+`) ON CONFLICT DO NOTHING`, yard); err != nil {
		return nil, fault(ctx, err)
	}
	if err := d.pool.QueryRow(ctx, number, yard).Scan(&s.yard); err != nil {
		return nil, fault(ctx, err)
	}
	if _, err := s.Head(ctx); err != nil {
		return nil, err
	}
	return s, nil
}

// Open connects to a database for the book of one yard; closing the book ends
// the connection.
func Open(ctx context.Context, address, yard string) (*Store, error) {
	d, err := Connect(ctx, address)
	if err != nil {
		return nil, err
	}
	s, err := d.Book(ctx, yard)
	if err != nil {
		d.Close()
		return nil, err
	}
	s.own = d
	return s, nil
}

// Store is the book of a yard.
type Store struct {
	pool   *pgxpool.Pool
	own    *Database // ends with the store; nil where others share it
	name   string
	yard   int32 // the yard's number in the database
	closed atomic.Bool

	kept book.Kept
}

var _ book.Store = (*Store)(nil)

// Close implements book.Store.
func (s *Store) Close() error {
	if !s.closed.Swap(true) && s.own != nil {
		s.own.Close()
	}
	return nil
}

func (s *Store) open(ctx context.Context) error {
	if s.closed.Load() {
		return fmt.Errorf("the book of %s is closed", s.name)
	}
	return ctx.Err()
}

// fault puts an error into the words of package book. What somebody has put
// into them already stays. Codes: PostgreSQL's manual, appendix A.
func fault(ctx context.Context, err error) error {
	if err == nil {
		return nil
	}
	if gone := ctx.Err(); gone != nil {
		return gone
	}
	var e *pgconn.PgError
	if !errors.As(err, &e) {
		return err
	}
	switch {
	case e.Code == "53100": // disk_full
		return fmt.Errorf("%w on the server; nothing of this was written: make room and do it again (%v)", book.ErrFull, err)
	case e.Code == "XX001", e.Code == "XX002", // data_corrupted, index_corrupted
		len(e.Code) == 5 && e.Code[:2] == "23": // integrity: what we wrote can break no rule of a whole book
		return fmt.Errorf("%w: put back a copy (%v)", book.ErrBroken, err)
	}
	return err
}
