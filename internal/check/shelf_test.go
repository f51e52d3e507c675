package check

import (
	"bytes"
	"compress/gzip"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/app"
	"kernbook/internal/artefact"
	"kernbook/internal/book"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/fold"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

var ctx = context.Background()

// shelf is a book whose lines and hashes can be tampered with.
type shelf struct {
	lines  [][]byte
	hashes []tlog.Hash
	head   book.Head
}

var _ book.Store = (*shelf)(nil)

func (s *shelf) Head(context.Context) (book.Head, error) { return s.head, nil }

func (s *shelf) Read(_ context.Context, from int64, most int) ([][]byte, error) {
	return s.lines[from:min(from+int64(most), int64(len(s.lines)))], nil
}

func (s *shelf) Hashes(context.Context) tlog.HashReader {
	return tlog.HashReaderFunc(func(indexes []int64) ([]tlog.Hash, error) {
		out := make([]tlog.Hash, len(indexes))
		for i, x := range indexes {
			out[i] = s.hashes[x]
		}
		return out, nil
	})
}

var errReadOnly = errors.New("a shelf is only read")

func (s *shelf) Find(context.Context, entry.ID) (int64, error) { return 0, errReadOnly }

func (s *shelf) Append(context.Context, book.Head, []book.Line) ([]int64, book.Head, error) {
	return nil, book.Head{}, errReadOnly
}

func (s *shelf) Close() error { return nil }

// rehash works out all hashes and the head anew, as somebody would who writes
// the whole book again. It uses the tree of the stores, not that of this package.
func (s *shelf) rehash(t testing.TB) *shelf {
	t.Helper()
	lines := make([]book.Line, len(s.lines))
	for i := range lines {
		lines[i].Bytes = s.lines[i]
	}
	var err error
	if s.hashes, s.head, err = book.Grow(0, lines, tlog.HashReaderFunc(func([]int64) ([]tlog.Hash, error) { return nil, book.ErrBroken })); err != nil {
		t.Fatal(err)
	}
	return s
}

func (s *shelf) clone() *shelf {
	c := &shelf{hashes: slices.Clone(s.hashes), head: s.head}
	for _, l := range s.lines {
		c.lines = append(c.lines, slices.Clone(l))
	}
	return c
}

// leaves reads the lines.
func (s *shelf) leaves(t testing.TB) []entry.Leaf {
	t.Helper()
	var out []entry.Leaf
	for _, b := range s.lines {
		l, err := entry.ParseLeaf(slices.Clone(b))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

// rewritten makes a book of leaves that fits together: each is made on top of
// those before it.
func rewritten(t testing.TB, leaves []entry.Leaf) *shelf {
	t.Helper()
	s := &shelf{}
	for i := range leaves {
		leaves[i].Entry.Base = s.head.String()
		s.lines = append(s.lines, leaves[i].Append(nil))
		s.rehash(t)
	}
	return s
}

// theCore builds the core's artefact once, keeps it in a folder of cores, and
// gives the folder, its hash, and the cores of that folder, which run on.
var theCore = sync.OnceValues(func() (*built, error) {
	dir, err := os.MkdirTemp("", "kernbook-check")
	if err != nil {
		return nil, err
	}
	b := &built{dir: dir}
	file := filepath.Join(dir, "core.wasm")
	if folder := os.Getenv("KERNBOOK_BUILD"); folder != "" {
		file = filepath.Join(folder, "kernbook.wasi.wasm")
	} else {
		c := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w", "-o", file, "kernbook/cmd/kernbook-wasm")
		c.Env = append(os.Environ(), "GOOS=wasip1", "GOARCH=wasm")
		if out, err := c.CombinedOutput(); err != nil {
			return b, fmt.Errorf("the artefact cannot be built: %w\n%s", err, out)
		}
	}
	wasm, err := os.ReadFile(file)
	if err != nil {
		return b, err
	}
	var packed bytes.Buffer
	z := gzip.NewWriter(&packed)
	_, err = z.Write(wasm)
	if err = errors.Join(err, z.Close()); err != nil {
		return b, err
	}
	b.hash = sum(wasm)
	if err := os.WriteFile(artefact.File(dir, b.hash), packed.Bytes(), 0o600); err != nil {
		return b, err
	}
	b.cores, err = NewCores(dir)
	return b, err
})

type built struct {
	dir, hash string
	cores     *Cores
}

func mustCore(t testing.TB) *built {
	t.Helper()
	b, err := theCore()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestMain(m *testing.M) {
	code := m.Run()
	if b, _ := theCore(); b != nil {
		if b.cores != nil {
			b.cores.Close()
		}
		os.RemoveAll(b.dir)
	}
	os.Exit(code)
}

// small is a book of eight entries, the last of them a decision, made by the use
// cases, with its keys and tables.
type small struct {
	*shelf
	keys *seal.Folder
	t    *table.Tables
}

// smallDay is the last day of the small book.
const smallDay = "2026-06-30"

var when = time.Date(2026, 6, 30, 9, 0, 0, 0, time.FixedZone("", 3600))

func day(t testing.TB, s string) qty.Day {
	t.Helper()
	d, err := dayOf(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func makeSmall(t testing.TB) *small {
	t.Helper()
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	b := &small{&shelf{}, keys, tables.Default()}
	now := when
	a := app.New(app.Config{Store: store, Keys: keys, Tables: b.t, Yard: "small", Device: "test “1”", Artefact: mustCore(t).hash,
		Clock: func() time.Time { now = now.Add(time.Second); return now }})
	must := func(_ app.Written, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	who := app.Who{Person: "p1"}
	date := func(s string) qty.PartialDate {
		d, err := qty.ParseDate(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	must(a.EnterPerson(ctx, who, app.Member{Person: kit.Person{ID: "p1", Role: "competent person"}, Private: fold.Private{Name: "Maud Ferrant", Mass: "82kg"}, From: day(t, "2026-01-05")}))
	must(a.NameYard(ctx, who, kit.Yard{Name: "Small", Country: "GB"}))
	must(a.AddPiece(ctx, who, kit.Piece{ID: "BR-1", Kind: "bridge", Marking: "readable", Origin: "new", History: "known", Made: date("2025-11"), FirstUse: date("2026-02-01"),
		Length: 900 * qty.Millimetre, StoredIn: "used", Fitted: kit.Fitted{In: "H-1", Allowed: kit.SaidYes, Document: "maker's sheet"}}))
	must(a.PlanUse(ctx, who, "BR-1", kit.Use{From: day(t, "2026-02-01"), Week: 20 * qty.Hour, Weekdays: [8]bool{1: true, 2: true, 3: true, 4: true, 5: true}}, "p1"))
	look := kit.Look{Look: "eye", By: "p1", Covers: []kit.Stretch{{All: true}}}
	must(a.Wash(ctx, who, "BR-1", day(t, smallDay), fold.Washing{With: "water", Clean: kit.SaidYes}))
	must(a.Examine(ctx, who, "BR-1", kit.Examination{Ref: "E1", Kind: kit.Thorough, Day: day(t, smallDay), By: "p1", SignedBy: "p1", WouldClimb: kit.SaidYes, Looks: []kit.Look{look}}))
	must(a.Hang(ctx, who, "BR-1", day(t, smallDay), fold.Hang{Holder: "p1"}))
	must(a.Decide(ctx, who, "BR-1", app.Decision{Examination: "E1", Verdict: kit.Withdraw, Why: "the owner asks for a new one"}))
	if b.head, err = store.Head(ctx); err != nil {
		t.Fatal(err)
	}
	if b.lines, err = store.Read(ctx, 0, int(b.head.Size)); err != nil {
		t.Fatal(err)
	}
	places := make([]int64, tlog.StoredHashCount(b.head.Size))
	for i := range places {
		places[i] = int64(i)
	}
	if b.hashes, err = store.Hashes(ctx).ReadHashes(places); err != nil {
		t.Fatal(err)
	}
	return b
}

// read has a book read with everything that the small one has beside it.
func (b *small) read(t testing.TB, s *shelf, change ...func(*Options)) *Result {
	t.Helper()
	o := Options{Store: s, Keys: b.keys, Cores: mustCore(t).cores, Tables: b.t, Yard: "small"}
	for _, c := range change {
		c(&o)
	}
	r, err := Run(ctx, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
