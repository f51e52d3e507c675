package postgres

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"

	"kernbook/internal/book"
)

// class keeps our advisory locks apart from those of others: "kbok". The second
// number is a yard's, or 0 for the schema.
const class = 0x6b626f6b

// steps[n] brings the schema from version n to n+1. A step that has been in use
// is never changed: a change is a further step.
var steps = []string{`
CREATE SCHEMA kernbook;
CREATE TABLE kernbook.version (version integer PRIMARY KEY);
CREATE TABLE kernbook.yards (
	yard integer GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
	name text NOT NULL UNIQUE
);
-- The lines in their order. sum is the SHA-256 of the entry's own bytes, without
-- the instant it was recorded; line is the whole leaf.
CREATE TABLE kernbook.leaves (
	yard integer NOT NULL REFERENCES kernbook.yards,
	idx bigint NOT NULL CHECK (idx >= 0),
	id uuid NOT NULL,
	sum bytea NOT NULL CHECK (octet_length(sum) = 32),
	line bytea NOT NULL,
	PRIMARY KEY (yard, idx),
	UNIQUE (yard, id)
);
-- The hashes of the tree in the order of tlog.StoredHashIndex.
CREATE TABLE kernbook.hashes (
	yard integer NOT NULL REFERENCES kernbook.yards,
	idx bigint NOT NULL CHECK (idx >= 0),
	hash bytea NOT NULL CHECK (octet_length(hash) = 32),
	PRIMARY KEY (yard, idx)
);
-- The head after each append. The last one of a yard is the head of its book.
CREATE TABLE kernbook.heads (
	yard integer NOT NULL REFERENCES kernbook.yards,
	size bigint NOT NULL CHECK (size > 0),
	root bytea NOT NULL CHECK (octet_length(root) = 32),
	PRIMARY KEY (yard, size)
);
CREATE FUNCTION kernbook.never() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
	RAISE EXCEPTION 'nothing in the book is changed or taken out' USING ERRCODE = 'restrict_violation';
END $$;
-- A head is that of all lines, and those since the head before have no gap.
CREATE FUNCTION kernbook.next() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
	before bigint := (SELECT coalesce(max(size), 0) FROM kernbook.heads WHERE yard = NEW.yard);
BEGIN
	IF NEW.size <= before
		OR NEW.size IS DISTINCT FROM (SELECT max(idx) + 1 FROM kernbook.leaves WHERE yard = NEW.yard)
		OR NEW.size - before <> (SELECT count(*) FROM kernbook.leaves WHERE yard = NEW.yard AND idx >= before) THEN
		RAISE EXCEPTION 'a head is that of all lines' USING ERRCODE = 'restrict_violation';
	END IF;
	RETURN NEW;
END $$;
CREATE TRIGGER kernbook_never BEFORE UPDATE OR DELETE OR TRUNCATE ON kernbook.version FOR EACH STATEMENT EXECUTE FUNCTION kernbook.never();
CREATE TRIGGER kernbook_never BEFORE UPDATE OR DELETE OR TRUNCATE ON kernbook.yards FOR EACH STATEMENT EXECUTE FUNCTION kernbook.never();
CREATE TRIGGER kernbook_never BEFORE UPDATE OR DELETE OR TRUNCATE ON kernbook.leaves FOR EACH STATEMENT EXECUTE FUNCTION kernbook.never();
CREATE TRIGGER kernbook_never BEFORE UPDATE OR DELETE OR TRUNCATE ON kernbook.hashes FOR EACH STATEMENT EXECUTE FUNCTION kernbook.never();
CREATE TRIGGER kernbook_never BEFORE UPDATE OR DELETE OR TRUNCATE ON kernbook.heads FOR EACH STATEMENT EXECUTE FUNCTION kernbook.never();
CREATE TRIGGER kernbook_next BEFORE INSERT ON kernbook.heads FOR EACH ROW EXECUTE FUNCTION kernbook.next();
`}

// guards counts the triggers above that are in force.
const guards = `SELECT count(*) FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid JOIN pg_namespace n ON n.oid = c.relnamespace
	WHERE n.nspname = 'kernbook' AND t.tgname IN ('kernbook_never', 'kernbook_next') AND t.tgenabled IN ('O', 'A')`

const guardsWanted = 6

// migrate brings the database to the last version, in one transaction that
// another opening waits for.
func migrate(ctx context.Context, db beginner) error {
	return inTx(ctx, db, func(tx pgx.Tx) error {
		if _, err := tx.Exec(ctx, `SELECT pg_advisory_xact_lock($1, 0)`, class); err != nil {
			return err
		}
		version, err := identify(ctx, tx)
		if err != nil || version == len(steps) {
			return err
		}
		for ; version < len(steps); version++ {
			if _, err := tx.Exec(ctx, steps[version]); err != nil {
				return err
			}
			if _, err := tx.Exec(ctx, `INSERT INTO kernbook.version (version) VALUES ($1)`, version+1); err != nil {
				return err
			}
		}
		return nil
	})
}

// identify gives the version of the schema: 0 where there is none. It refuses
// what another program or a newer version made.
func identify(ctx context.Context, tx pgx.Tx) (version int, err error) {
	var schema, table bool
	err = tx.QueryRow(ctx, `SELECT to_regnamespace('kernbook') IS NOT NULL, to_regclass('kernbook.version') IS NOT NULL`).Scan(&schema, &table)
	switch {
	case err != nil:
		return 0, err
	case !schema:
		return 0, nil
	case !table:
		return 0, fmt.Errorf("%w: the database has a schema named kernbook that another program made; name another database", book.ErrForeign)
	}
	if err := tx.QueryRow(ctx, `SELECT coalesce(max(version), 0) FROM kernbook.version`).Scan(&version); err != nil {
		return 0, err
	}
	if version < 1 || version > len(steps) {
		return 0, fmt.Errorf("%w: its form has version %d, this program knows 1 to %d; use the version of kernbook that wrote it, or a later one", book.ErrForeign, version, len(steps))
	}
	return version, nil
}

// beginner is a pool or a connection.
type beginner interface {
	BeginTx(context.Context, pgx.TxOptions) (pgx.Tx, error)
}

// inTx runs do in a transaction whose every statement sees what was committed
// before it began (read committed), and commits where do gives no error.
func inTx(ctx context.Context, db beginner, do func(pgx.Tx) error) error {
	tx, err := db.BeginTx(ctx, pgx.TxOptions{IsoLevel: pgx.ReadCommitted})
	if err != nil {
		return err
	}
	if err := do(tx); err != nil {
		if e := tx.Rollback(context.WithoutCancel(ctx)); e != nil && !errors.Is(e, pgx.ErrTxClosed) {
			err = errors.Join(err, e)
		}
		return err
	}
	return tx.Commit(ctx)
}
