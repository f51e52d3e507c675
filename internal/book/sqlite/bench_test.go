package sqlite

import (
	"context"
	"database/sql"
	"path/filepath"
	"testing"
	"time"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
)

// line400 makes a line of an invented book with about 400 bytes.
func line400(n int) book.Line {
	const rest = 354 // what an invented line has beside its words
	return booktest.Line(n, 400-rest)
}

// bare is the least that can be done: two tables, and the same bytes and the
// same hashes put in by prepared statements, one transaction a line, with the
// settings of the store. The hashes are worked out beforehand.
type bare struct {
	db         *sql.DB
	leaf, hash *sql.Stmt
	next       int64 // index of the next hash
}

func newBare(b *testing.B) *bare {
	b.Helper()
	db, err := sql.Open("sqlite", (&Store{path: filepath.Join(b.TempDir(), "bare.db")}).address([]string{"synchronous(FULL)", "journal_mode(WAL)"}))
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { db.Close() })
	db.SetMaxOpenConns(1)
	if _, err := db.Exec(`CREATE TABLE leaves (idx INTEGER PRIMARY KEY, line BLOB NOT NULL) STRICT;
		CREATE TABLE hashes (idx INTEGER PRIMARY KEY, hash BLOB NOT NULL) STRICT`); err != nil {
		b.Fatal(err)
	}
	w := &bare{db: db}
	if w.leaf, err = db.Prepare(`INSERT INTO leaves (idx, line) VALUES (?, ?)`); err != nil {
		b.Fatal(err)
	}
	if w.hash, err = db.Prepare(`INSERT INTO hashes (idx, hash) VALUES (?, ?)`); err != nil {
		b.Fatal(err)
	}
	return w
}

func (w *bare) put(n int, line []byte, hashes []tlog.Hash) error {
	tx, err := w.db.BeginTx(context.Background(), nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if _, err := tx.Stmt(w.leaf).Exec(n, line); err != nil {
		return err
	}
	for i := range hashes {
		if _, err := tx.Stmt(w.hash).Exec(w.next, hashes[i][:]); err != nil {
			return err
		}
		w.next++
	}
	return tx.Commit()
}

// BenchmarkDurable appends lines of 400 bytes, one a transaction, to the store
// and, turn by turn in the same run, to bare tables. "of-bare" is how fast the
// store is beside them: demanded is 0.7 or more.
func BenchmarkDurable(b *testing.B) {
	s, w := open(b, filepath.Join(b.TempDir(), "yard.book")), newBare(b)
	head := book.Head{Root: book.Empty}
	edge := book.Edge{Head: head}
	var ours, theirs time.Duration
	n := 0
	for b.Loop() {
		const turn = 50
		lines, hashes := make([]book.Line, turn), make([][]tlog.Hash, turn)
		for i := range lines {
			lines[i] = line400(n + i)
			var err error
			if hashes[i], edge, err = edge.Grow(lines[i : i+1]); err != nil {
				b.Fatal(err)
			}
		}
		began := time.Now()
		for i := range lines {
			var err error
			if _, head, err = s.Append(ctx, head, lines[i:i+1]); err != nil {
				b.Fatal(err)
			}
		}
		ours += time.Since(began)
		began = time.Now()
		for i := range lines {
			if err := w.put(n+i, lines[i].Bytes, hashes[i]); err != nil {
				b.Fatal(err)
			}
		}
		theirs += time.Since(began)
		n += turn
	}
	if head != edge.Head {
		b.Fatalf("the store stands at %s, the lines give %s", head, edge.Head)
	}
	b.ReportMetric(float64(theirs)/float64(ours), "of-bare")
	b.ReportMetric(float64(n)/ours.Seconds(), "appends/s")
	b.ReportMetric(float64(n)/theirs.Seconds(), "bare/s")
	b.ReportMetric(float64(len(line400(0).Bytes)), "bytes/line")
}

// BenchmarkAppend10000 appends 10,000 lines at once, BenchmarkRead10000 reads
// them, each held against its hash.
func BenchmarkAppend10000(b *testing.B) {
	var lines []book.Line
	for n := range 10_000 {
		lines = append(lines, line400(n))
	}
	for b.Loop() {
		b.StopTimer()
		s := open(b, filepath.Join(b.TempDir(), "yard.book"))
		b.StartTimer()
		if _, _, err := s.Append(ctx, book.Head{Root: book.Empty}, lines); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(10_000*b.N)/b.Elapsed().Seconds(), "lines/s")
}

func BenchmarkRead10000(b *testing.B) {
	s := open(b, filepath.Join(b.TempDir(), "yard.book"))
	var lines []book.Line
	for n := range 10_000 {
		lines = append(lines, line400(n))
	}
	if _, _, err := s.Append(ctx, book.Head{Root: book.Empty}, lines); err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if got, err := s.Read(ctx, 0, 10_000); err != nil || len(got) != len(lines) {
			b.Fatal(len(got), err)
		}
	}
	b.ReportMetric(float64(10_000*b.N)/b.Elapsed().Seconds(), "lines/s")
}
