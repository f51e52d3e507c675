package sqlite

import (
	"context"
	"database/sql"
	"fmt"

	"kernbook/internal/book"
)

// application marks the file as a book of kernbook (PRAGMA application_id): "kbok".
const application = 0x6b626f6b

// steps[n] brings a book from schema version n to n+1 (PRAGMA user_version).
// A step that has been in use is never changed: a change is a further step.
// The file keeps these statements word for word, and Open holds them against
// this list: words are written here as SQLite writes them there.
var steps = [][]string{{
	// The lines in their order. sum is the SHA-256 of the entry's own bytes,
	// without the instant it was recorded; line is the whole leaf.
	`CREATE TABLE leaves (
	idx INTEGER PRIMARY KEY,
	id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
	sum BLOB NOT NULL CHECK (length(sum) = 32),
	line BLOB NOT NULL
) STRICT`,
	// The hashes of the tree in the order of tlog.StoredHashIndex.
	`CREATE TABLE hashes (
	idx INTEGER PRIMARY KEY,
	hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT`,
	// The head after each append. The last one is the head of the book.
	`CREATE TABLE heads (
	size INTEGER PRIMARY KEY,
	root BLOB NOT NULL CHECK (length(root) = 32)
) STRICT`,
	// REPLACE deletes without a delete trigger: so what comes in must be new in
	// its place and in its id.
	`CREATE TRIGGER leaves_next BEFORE INSERT ON leaves
WHEN NEW.idx IS NOT (SELECT coalesce(max(idx) + 1, 0) FROM leaves) OR EXISTS (SELECT 1 FROM leaves WHERE id = NEW.id)
BEGIN SELECT raise(ABORT, 'a line goes behind the last one, once'); END`,
	`CREATE TRIGGER hashes_next BEFORE INSERT ON hashes
WHEN NEW.idx IS NOT (SELECT coalesce(max(idx) + 1, 0) FROM hashes)
BEGIN SELECT raise(ABORT, 'a hash goes behind the last one'); END`,
	`CREATE TRIGGER heads_next BEFORE INSERT ON heads
WHEN NEW.size IS NOT (SELECT max(idx) + 1 FROM leaves) OR NEW.size <= (SELECT coalesce(max(size), 0) FROM heads)
BEGIN SELECT raise(ABORT, 'a head is that of all lines'); END`,
	never("leaves", "UPDATE"), never("leaves", "DELETE"),
	never("hashes", "UPDATE"), never("hashes", "DELETE"),
	never("heads", "UPDATE"), never("heads", "DELETE"),
}}

func never(table, what string) string {
	return fmt.Sprintf(`CREATE TRIGGER %[1]s_no_%[2]s BEFORE %[2]s ON %[1]s
BEGIN SELECT raise(ABORT, 'nothing in the book is changed or taken out'); END`, table, what)
}

// querier is a *sql.DB or *sql.Tx.
type querier interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

// identify gives the schema version of a file: 0 for one with nothing in it.
// It refuses what another program or a newer version made.
func identify(ctx context.Context, q querier) (int, error) {
	var app, version, things int
	err := q.QueryRowContext(ctx, `SELECT (SELECT application_id FROM pragma_application_id), (SELECT user_version FROM pragma_user_version),
		(SELECT count(*) FROM sqlite_schema)`).Scan(&app, &version, &things)
	switch {
	case err != nil:
		return 0, err
	case app == 0 && version == 0 && things == 0:
		return 0, nil
	case app != application:
		return 0, fmt.Errorf("%w: the file is a database of another program (application_id %#x); name another file", book.ErrForeign, uint32(app))
	case version < 1 || version > len(steps):
		return 0, fmt.Errorf("%w: its form has version %d, this program knows 1 to %d; use the version of kernbook that wrote it, or a later one", book.ErrForeign, version, len(steps))
	}
	return version, nil
}

// migrate brings the file to the last version, in one transaction that another
// opening waits for.
func migrate(ctx context.Context, db *sql.DB) error {
	version, err := identify(ctx, db)
	if err != nil || version == len(steps) {
		return err
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if version, err = identify(ctx, tx); err != nil {
		return err
	}
	for ; version < len(steps); version++ {
		for _, statement := range steps[version] {
			if _, err := tx.ExecContext(ctx, statement); err != nil {
				return err
			}
		}
	}
	if _, err := tx.ExecContext(ctx, fmt.Sprintf(`PRAGMA application_id = %d; PRAGMA user_version = %d`, application, version)); err != nil {
		return err
	}
	return tx.Commit()
}

// intact sees that the tables and the triggers which guard them stand in the
// file as they were made, and no other trigger beside them.
func intact(ctx context.Context, db *sql.DB) error {
	want := map[string]bool{}
	for _, step := range steps {
		for _, statement := range step {
			want[statement] = true
		}
	}
	rows, err := db.QueryContext(ctx, `SELECT name, sql FROM sqlite_schema WHERE tbl_name IN ('leaves', 'hashes', 'heads') AND sql IS NOT NULL`)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var name, text string
		if err := rows.Scan(&name, &text); err != nil {
			return err
		}
		if !want[text] {
			return fmt.Errorf("%w: %s in the file is not as kernbook made it; somebody has worked on the file with another tool: put back a copy", book.ErrBroken, name)
		}
		delete(want, text)
	}
	if err := rows.Err(); err != nil {
		return err
	}
	if len(want) > 0 {
		return fmt.Errorf("%w: %d tables or triggers that guard it are gone from the file; somebody has worked on it with another tool: put back a copy", book.ErrBroken, len(want))
	}
	return nil
}
