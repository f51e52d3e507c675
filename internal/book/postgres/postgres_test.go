//go:build unix

package postgres

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"kernbook/internal/book"
	"kernbook/internal/book/booktest"
	"kernbook/internal/book/postgres/pgtest"
)

// started starts the one server of these tests, when the first asks for it.
var started = sync.OnceValues(pgtest.Start)

var running atomic.Bool

func TestMain(m *testing.M) {
	status := m.Run()
	if running.Load() {
		s, _ := started()
		if err := s.Stop(); err != nil {
			fmt.Fprintln(os.Stderr, err)
			status = 1
		}
	}
	os.Exit(status)
}

var ctx = context.Background()

func server(t testing.TB) *pgtest.Server {
	t.Helper()
	if testing.Short() {
		t.Skip("starts a PostgreSQL server, which is not short")
	}
	s, err := started()
	if err != nil {
		t.Fatal(err)
	}
	running.Store(true)
	return s
}

// run runs statements as the owner, outside of our code.
func run(t testing.TB, address string, statements ...string) {
	t.Helper()
	c, err := pgx.Connect(ctx, address)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close(ctx)
	for _, s := range statements {
		if _, err := c.Exec(ctx, s); err != nil {
			t.Fatalf("%s: %v", s, err)
		}
	}
}

var count atomic.Int64

// database makes a new database and gives its address.
func database(t testing.TB) string {
	t.Helper()
	s := server(t)
	name := fmt.Sprintf("t%d", count.Add(1))
	run(t, s.Address("postgres"), "CREATE DATABASE "+name)
	return s.Address(name)
}

// engine is what the suite tries: all its books are yards of one database. A
// place is an address and a yard.
func engine(t testing.TB) booktest.Engine {
	var address string
	if t != nil {
		address = database(t)
	}
	return booktest.Engine{
		Fresh: func(testing.TB) string { return fmt.Sprintf("%s|yard %d", address, count.Add(1)) },
		Open: func(place string) (book.Store, error) {
			address, yard, _ := strings.Cut(place, "|")
			return Open(ctx, address, yard)
		},
		Durable: true,
		Shared:  true,
		Full:    fullOr(t),
		Why:     "needs root and a mount: only then can a server be given a small disk",
	}
}

func fullOr(t testing.TB) func(testing.TB) book.Store {
	if t == nil || !pgtest.CanMount() {
		return nil
	}
	return func(t testing.TB) book.Store {
		s := server(t)
		small := s.Small(t, "8m")
		run(t, s.Address("postgres"), fmt.Sprintf("CREATE TABLESPACE small LOCATION '%s'", small))
		address := database(t)
		t.Cleanup(func() {
			name := address[strings.LastIndex(address, "=")+1:]
			run(t, s.Address("postgres"), "DROP DATABASE "+name+" WITH (FORCE)", "DROP TABLESPACE small")
		})
		b, err := Open(ctx, address+" default_tablespace=small", "small")
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
}

func TestSuite(t *testing.T) { booktest.Run(t, engine(t)) }

func TestChild(t *testing.T) { booktest.Child(t, engine(nil)) }

func open(t testing.TB, address, yard string) *Store {
	t.Helper()
	s, err := Open(ctx, address, yard)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// TestYards: the books of two yards in one database keep apart, on one set of
// connections and written at once.
func TestYards(t *testing.T) {
	d, err := Connect(ctx, database(t)+" pool_max_conns=2")
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	var wg sync.WaitGroup
	stores := make([]*Store, 6)
	for i := range stores {
		if stores[i], err = d.Book(ctx, fmt.Sprint("yard ", i/2)); err != nil { // each yard opened twice
			t.Fatal(err)
		}
	}
	for i, s := range stores {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for n := range 8 {
				for {
					h, err := s.Head(ctx)
					if err == nil {
						_, _, err = s.Append(ctx, h, []book.Line{booktest.Line(8*(i%2)+n, 5)})
					}
					if errors.Is(err, book.ErrMoved) {
						continue
					}
					if err != nil {
						t.Error(err)
						return
					}
					break
				}
			}
		}()
	}
	wg.Wait()
	for i, s := range stores {
		if lines, err := s.Read(ctx, 0, 100); err != nil || len(lines) != 16 {
			t.Errorf("opening %d reads %d lines, %v", i, len(lines), err)
		}
	}
	if err := stores[0].Close(); err != nil {
		t.Fatal(err)
	}
	booktest.Add(t, stores[1], 16, 18)
}

// TestSettings: an append is acknowledged on disk also where the database says otherwise.
func TestSettings(t *testing.T) {
	address := database(t)
	name := address[strings.LastIndex(address, "=")+1:]
	run(t, address, "ALTER DATABASE "+name+" SET synchronous_commit = off", "ALTER DATABASE "+name+" SET default_transaction_isolation = serializable")
	s := open(t, address, "a")
	for what, want := range map[string]string{"synchronous_commit": "on", "fsync": "on", "listen_addresses": ""} {
		var got string
		if err := s.pool.QueryRow(ctx, "SHOW "+what).Scan(&got); err != nil || got != want {
			t.Errorf("%s is %q (%v), want %q", what, got, err, want)
		}
	}
	booktest.Add(t, s, 0, 3)
}

// TestAppendOnly: whoever works on the tables, their triggers keep what is in them.
func TestAppendOnly(t *testing.T) {
	address := database(t)
	s := open(t, address, "a")
	booktest.Add(t, s, 0, 5)
	for _, sql := range []string{
		`UPDATE kernbook.leaves SET line = '' WHERE idx = 2`,
		`DELETE FROM kernbook.leaves WHERE idx = 4`,
		`TRUNCATE kernbook.leaves`,
		`UPDATE kernbook.hashes SET idx = idx + 100`,
		`DELETE FROM kernbook.hashes`,
		`TRUNCATE kernbook.hashes`,
		`UPDATE kernbook.heads SET size = 4`,
		`DELETE FROM kernbook.heads`,
		`TRUNCATE kernbook.heads`,
		`DELETE FROM kernbook.yards`,
		`UPDATE kernbook.yards SET name = 'b'`,
		`DELETE FROM kernbook.version`,
		`INSERT INTO kernbook.heads SELECT yard, 6, root FROM kernbook.heads`,
		`INSERT INTO kernbook.heads SELECT yard, 4, root FROM kernbook.heads`,
		`INSERT INTO kernbook.leaves SELECT yard, 1, gen_random_uuid(), sum, line FROM kernbook.leaves WHERE idx = 1
			ON CONFLICT (yard, idx) DO UPDATE SET line = ''`,
	} {
		c, err := pgx.Connect(ctx, address)
		if err != nil {
			t.Fatal(err)
		}
		_, err = c.Exec(ctx, sql)
		var e *pgconn.PgError
		if !errors.As(err, &e) || e.Code != "23001" && e.Code != "0A000" { // restrict_violation; truncating what others refer to
			t.Errorf("%s: %v", sql, err)
		}
		c.Close(ctx)
	}
	booktest.Add(t, s, 5, 7)
	if lines, err := s.Read(ctx, 0, 100); err != nil || len(lines) != 7 {
		t.Errorf("%d lines, %v", len(lines), err)
	}
}

// TestForeign: what is not ours, or newer, is refused in a sentence.
func TestForeign(t *testing.T) {
	other, newer := database(t), database(t)
	run(t, other, `CREATE SCHEMA kernbook; CREATE TABLE kernbook.birds (name text)`)
	open(t, newer, "a").Close()
	run(t, newer, fmt.Sprintf(`INSERT INTO kernbook.version VALUES (%d)`, len(steps)+1))
	for address, says := range map[string]string{other: "another program", newer: "use the version of kernbook that wrote it"} {
		if _, err := Open(ctx, address, "a"); !errors.Is(err, book.ErrForeign) || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", address, err)
		}
	}
}

// TestTampered: with the guards off, what was done to the rows is noticed.
func TestTampered(t *testing.T) {
	for _, c := range []struct{ name, table, do string }{
		{"guards off", "leaves", ""},
		{"a line gone", "leaves", `DELETE FROM kernbook.leaves WHERE idx = 11`},
		{"last line gone", "leaves", `DELETE FROM kernbook.leaves WHERE idx = 39`},
		{"a line altered", "leaves", `UPDATE kernbook.leaves SET line = set_byte(line, 100, 7) WHERE idx = 7`},
		{"a leaf's hash altered", "hashes", `UPDATE kernbook.hashes SET hash = set_byte(hash, 3, 255 - get_byte(hash, 3)) WHERE idx = 0`},
		{"the peak altered", "hashes", `UPDATE kernbook.hashes SET hash = set_byte(hash, 3, 255 - get_byte(hash, 3)) WHERE idx = 62`},
		{"a hash gone", "hashes", `DELETE FROM kernbook.hashes WHERE idx = 3`},
		{"last head gone", "heads", `DELETE FROM kernbook.heads`},
		{"the root altered", "heads", `UPDATE kernbook.heads SET root = set_byte(root, 3, 255 - get_byte(root, 3))`},
	} {
		t.Run(c.name, func(t *testing.T) {
			address := database(t)
			s := open(t, address, "a")
			booktest.Add(t, s, 0, 40)
			s.Close()
			try := func() error {
				s, err := Open(ctx, address, "a")
				if err != nil {
					return err
				}
				defer s.Close()
				_, err = s.Read(ctx, 0, 100)
				return err
			}
			run(t, address, `ALTER TABLE kernbook.`+c.table+` DISABLE TRIGGER USER`, c.do)
			if err := try(); !errors.Is(err, book.ErrBroken) {
				t.Errorf("guards off: %v", err)
			}
			run(t, address, `ALTER TABLE kernbook.`+c.table+` ENABLE TRIGGER USER`)
			if err := try(); errors.Is(err, book.ErrBroken) != (c.do != "") || c.do == "" && err != nil {
				t.Errorf("guards on again: %v", err)
			}
		})
	}
}

// BenchmarkAppend10000 appends 10,000 lines at once.
func BenchmarkAppend10000(b *testing.B) {
	address := database(b)
	var lines []book.Line
	for n := range 10_000 {
		lines = append(lines, booktest.Line(n, 84))
	}
	for i := 0; b.Loop(); i++ {
		b.StopTimer()
		s := open(b, address, fmt.Sprint("yard ", i))
		b.StartTimer()
		if _, _, err := s.Append(ctx, book.Head{Root: book.Empty}, lines); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(10_000*b.N)/b.Elapsed().Seconds(), "lines/s")
}
