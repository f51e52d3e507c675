// Package booktest is the one suite that every engine of the book must pass.
package booktest

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"golang.org/x/mod/sumdb/tlog"

	"kernbook/internal/book"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/qty"
)

// Engine is a storage engine on trial.
type Engine struct {
	// Fresh gives a place where no book is yet, in whatever words Open takes.
	Fresh func(t testing.TB) string
	// Open opens the book at a place, and makes it where there is none. It is
	// called again for the same place after Close, and beside another opening
	// of it where Shared.
	Open func(place string) (book.Store, error)
	// Full gives a book with little room: no more than a few megabytes. Nil
	// where the engine cannot be brought to that on this machine; then Why says so.
	Full func(t testing.TB) book.Store
	Why  string
	// Durable says that what was acknowledged outlives the process.
	Durable bool
	// Shared says that two openings of one place see each other.
	Shared bool
}

// Run runs the whole suite.
func Run(t *testing.T, e Engine) {
	for _, c := range []struct {
		name string
		run  func(*testing.T, Engine)
	}{
		{"empty", empty}, {"order", order}, {"tree", tree}, {"conflict at the head", conflict}, {"same id twice", twice},
		{"same id with other content", other}, {"cancel", cancelled}, {"large", large}, {"reopen", reopen}, {"many writers", writers},
		{"two openings", openings}, {"killed", killed}, {"disk full", full}, {"closed", closed},
	} {
		t.Run(c.name, func(t *testing.T) { c.run(t, e) })
	}
}

var ctx = context.Background()

func fresh(t *testing.T, e Engine) book.Store {
	t.Helper()
	return open(t, e, e.Fresh(t))
}

func open(t *testing.T, e Engine, place string) book.Store {
	t.Helper()
	s, err := e.Open(place)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// Line makes the n-th line of an invented book, with a body of so many bytes.
func Line(n, size int) book.Line { return line(n, strings.Repeat("x", size)) }

// Add appends the lines of an invented book from a number up to another, each with
// words of 150 letters, where the book stands.
func Add(t testing.TB, s book.Store, from, to int) {
	t.Helper()
	h, err := s.Head(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Append(context.Background(), h, lines(from, to, 150)); err != nil {
		t.Fatal(err)
	}
}

// noisy makes a line of so many bytes that no engine can press together.
func noisy(n, size int) book.Line {
	var b []byte
	for h := sha256.Sum256([]byte{byte(n), byte(n >> 8)}); len(b) < size; h = sha256.Sum256(h[:]) {
		b = append(b, h[:]...)
	}
	return line(n, base64.RawStdEncoding.EncodeToString(b)[:size])
}

func line(n int, words string) book.Line {
	d, err := qty.ParseDate("2026-06-01")
	if err != nil {
		panic(err)
	}
	e := entry.Entry{Yard: "trial", ID: id(n), Kind: entry.Event, Version: 1, Day: d.Earliest() + qty.Day(n%700), Wall: "2026-06-01T07:31:00+01:00",
		Author: "p1", Device: "bench", Piece: fmt.Sprintf("BR-%d", n%30), Body: []byte(fmt.Sprintf(`{"event":"shock","n":%d,"words":"%s"}`, n, words))}
	l, err := book.NewLine(&e, "2026-06-01T06:31:02.123Z")
	if err != nil {
		panic(err)
	}
	return l
}

func id(n int) entry.ID {
	return entry.MakeID(1_780_000_000_000+int64(n), [10]byte{byte(n), byte(n >> 8)})
}

func lines(from, to, size int) []book.Line {
	var out []book.Line
	for n := from; n < to; n++ {
		out = append(out, Line(n, size))
	}
	return out
}

func head(t *testing.T, s book.Store) book.Head {
	t.Helper()
	h, err := s.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	return h
}

func put(t *testing.T, s book.Store, l ...book.Line) []int64 {
	t.Helper()
	at, h, err := s.Append(ctx, head(t, s), l)
	if err != nil {
		t.Fatal(err)
	}
	if got := head(t, s); got != h {
		t.Fatalf("Append says head %s, Head says %s", h, got)
	}
	return at
}

// all reads the whole book, in steps of its own.
func all(t *testing.T, s book.Store, step int) [][]byte {
	t.Helper()
	var out [][]byte
	for {
		b, err := s.Read(ctx, int64(len(out)), step)
		if err != nil {
			t.Fatal(err)
		}
		if len(b) == 0 {
			return out
		}
		if len(b) > step {
			t.Fatalf("asked for %d, got %d", step, len(b))
		}
		out = append(out, b...)
	}
}

// whole holds the book against its lines: each in its place, found by its id,
// and proven by the stored hashes under the root of the head.
func whole(t *testing.T, s book.Store, want []book.Line) {
	t.Helper()
	got := all(t, s, 97)
	h := head(t, s)
	if int64(len(got)) != h.Size || len(got) != len(want) {
		t.Fatalf("read %d lines, the head says %d, want %d", len(got), h.Size, len(want))
	}
	r := s.Hashes(ctx)
	for i, l := range want {
		if !bytes.Equal(got[i], l.Bytes) {
			t.Fatalf("line %d: got %.80s, want %.80s", i, got[i], l.Bytes)
		}
		if n, err := s.Find(ctx, l.ID); err != nil || n != int64(i) {
			t.Fatalf("found %s at %d (%v), want %d", l.ID, n, err, i)
		}
		if i%31 != 0 && i != len(want)-1 {
			continue
		}
		proof, err := tlog.ProveRecord(h.Size, int64(i), r)
		if err != nil {
			t.Fatal(err)
		}
		if err := tlog.CheckRecord(proof, h.Size, h.Root, int64(i), tlog.RecordHash(l.Bytes)); err != nil {
			t.Fatalf("line %d is not proven: %v", i, err)
		}
	}
}

func empty(t *testing.T, e Engine) {
	s := fresh(t, e)
	if h := head(t, s); h.Size != 0 || h.Root != book.Empty || h.String() != "" {
		t.Errorf("head of an empty book: %+v", h)
	}
	if b, err := s.Read(ctx, 0, 10); err != nil || len(b) != 0 {
		t.Errorf("read %d lines, %v", len(b), err)
	}
	if _, err := s.Find(ctx, id(1)); !errors.Is(err, book.ErrNone) {
		t.Errorf("Find: %v", err)
	}
	if at, h, err := s.Append(ctx, book.Head{Root: book.Empty}, nil); err != nil || len(at) != 0 || h.Size != 0 {
		t.Errorf("appending nothing: %v %v %v", at, h, err)
	}
}

func order(t *testing.T, e Engine) {
	s := fresh(t, e)
	want := lines(0, 250, 10)
	for i := 0; i < len(want); {
		n := min(1+i%7, len(want)-i)
		for k, at := range put(t, s, want[i:i+n]...) {
			if at != int64(i+k) {
				t.Fatalf("line %d came to stand at %d", i+k, at)
			}
		}
		i += n
	}
	whole(t, s, want)
	for _, c := range []struct {
		from int64
		most int
		n    int
	}{{249, 10, 1}, {250, 10, 0}, {1000, 10, 0}, {0, 0, 0}, {-1, 10, 0}, {100, 50, 50}} {
		if b, err := s.Read(ctx, c.from, c.most); err != nil || len(b) != c.n {
			t.Errorf("Read(%d, %d) gives %d lines, %v; want %d", c.from, c.most, len(b), err, c.n)
		}
	}
}

// tree holds every head against a tree made of the lines alone, and each head
// as consistent with the one before.
func tree(t *testing.T, e Engine) {
	s := fresh(t, e)
	want := lines(0, 70, 5)
	var hashes []tlog.Hash
	mine := tlog.HashReaderFunc(func(x []int64) ([]tlog.Hash, error) {
		out := make([]tlog.Hash, len(x))
		for i := range x {
			out[i] = hashes[x[i]]
		}
		return out, nil
	})
	var before book.Head
	for i, l := range want {
		h, err := tlog.StoredHashes(int64(i), l.Bytes, mine)
		if err != nil {
			t.Fatal(err)
		}
		hashes = append(hashes, h...)
		put(t, s, l)
		root, err := tlog.TreeHash(int64(i+1), mine)
		if err != nil {
			t.Fatal(err)
		}
		now := head(t, s)
		if now.Root != root || now.Size != int64(i+1) {
			t.Fatalf("after %d lines the head is %s, want root %x", i+1, now, root)
		}
		if back, err := book.ParseHead(now.String()); err != nil || back != now {
			t.Fatalf("%s reads back as %v, %v", now, back, err)
		}
		if i > 0 {
			proof, err := tlog.ProveTree(now.Size, before.Size, s.Hashes(ctx))
			if err != nil {
				t.Fatal(err)
			}
			if err := tlog.CheckTree(proof, now.Size, now.Root, before.Size, before.Root); err != nil {
				t.Fatalf("%s does not follow %s: %v", now, before, err)
			}
		}
		before = now
	}
}

func conflict(t *testing.T, e Engine) {
	s := fresh(t, e)
	old := head(t, s)
	put(t, s, Line(0, 1))
	_, now, err := s.Append(ctx, old, lines(1, 3, 1))
	if !errors.Is(err, book.ErrMoved) || now != head(t, s) {
		t.Fatalf("got %v and head %s", err, now)
	}
	_, _, err = s.Append(ctx, book.Head{Size: 1, Root: book.Empty}, lines(1, 3, 1))
	if !errors.Is(err, book.ErrMoved) {
		t.Fatalf("another root at the same size: %v", err)
	}
	whole(t, s, lines(0, 1, 1))
	put(t, s, lines(1, 3, 1)...)
	whole(t, s, lines(0, 3, 1))
}

func twice(t *testing.T, e Engine) {
	s := fresh(t, e)
	old := head(t, s)
	put(t, s, lines(0, 5, 1)...)
	again := lines(3, 7, 1)
	late := again[0]
	late.Bytes = bytes.Replace(late.Bytes, []byte("06:31:02.123Z"), []byte("07:00:00.000Z"), 1) // recorded later: still the same entry
	at, h, err := s.Append(ctx, head(t, s), []book.Line{late, again[1], again[2], again[3], again[2]})
	if err != nil || fmt.Sprint(at) != "[3 4 5 6 5]" || h.Size != 7 {
		t.Fatalf("%v %v %v", at, h, err)
	}
	// A line that is in the book already needs no head.
	if at, _, err = s.Append(ctx, old, again[:2]); err != nil || fmt.Sprint(at) != "[3 4]" {
		t.Fatalf("%v %v", at, err)
	}
	whole(t, s, lines(0, 7, 1))
}

func other(t *testing.T, e Engine) {
	s := fresh(t, e)
	put(t, s, lines(0, 5, 1)...)
	bad := Line(3, 2)
	if _, _, err := s.Append(ctx, head(t, s), []book.Line{Line(9, 1), bad}); !errors.Is(err, book.ErrOther) {
		t.Fatalf("got %v", err)
	}
	if _, _, err := s.Append(ctx, head(t, s), []book.Line{Line(9, 1), Line(9, 2)}); !errors.Is(err, book.ErrOther) {
		t.Fatalf("twice in one go: got %v", err)
	}
	whole(t, s, lines(0, 5, 1))
}

func cancelled(t *testing.T, e Engine) {
	s := fresh(t, e)
	put(t, s, lines(0, 3, 1)...)
	h := head(t, s)
	gone, stop := context.WithCancel(ctx)
	stop()
	if _, _, err := s.Append(gone, h, lines(3, 5, 1)); !errors.Is(err, context.Canceled) {
		t.Errorf("Append: %v", err)
	}
	if _, err := s.Head(gone); !errors.Is(err, context.Canceled) {
		t.Errorf("Head: %v", err)
	}
	if _, err := s.Read(gone, 0, 10); !errors.Is(err, context.Canceled) {
		t.Errorf("Read: %v", err)
	}
	whole(t, s, lines(0, 3, 1))
	put(t, s, lines(3, 5, 1)...)
	whole(t, s, lines(0, 5, 1))
}

func large(t *testing.T, e Engine) {
	s := fresh(t, e)
	want := append(lines(0, 3000, 200), Line(3000, entry.Largest-2000))
	put(t, s, want...)
	whole(t, s, want)
}

func reopen(t *testing.T, e Engine) {
	place := e.Fresh(t)
	s := open(t, e, place)
	put(t, s, lines(0, 40, 20)...)
	h := head(t, s)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	s = open(t, e, place)
	if got := head(t, s); got != h {
		t.Fatalf("head %s, want %s", got, h)
	}
	put(t, s, lines(40, 60, 20)...)
	whole(t, s, lines(0, 60, 20))
}

// writers append at once, each until its lines are in; none is lost, none twice.
func writers(t *testing.T, e Engine) {
	s := fresh(t, e)
	const n, each = 4, 15
	var wg sync.WaitGroup
	for w := range n {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range each {
				if err := insist(s, Line(w*each+i, 10)); err != nil {
					t.Error(err)
					return
				}
			}
		}()
	}
	wg.Wait()
	seen(t, s, n*each)
}

func insist(s book.Store, l book.Line) error {
	for range 10_000 {
		h, err := s.Head(ctx)
		if err != nil {
			return err
		}
		if _, _, err = s.Append(ctx, h, []book.Line{l}); !errors.Is(err, book.ErrMoved) {
			return err
		}
	}
	return errors.New("never got a turn")
}

// seen holds that the book has exactly the first n lines, in whatever order.
func seen(t *testing.T, s book.Store, n int) {
	t.Helper()
	h := head(t, s)
	if h.Size != int64(n) {
		t.Fatalf("%d lines, want %d", h.Size, n)
	}
	want := make([]book.Line, n)
	for i := range n {
		at, err := s.Find(ctx, id(i))
		if err != nil {
			t.Fatalf("line %d: %v", i, err)
		}
		want[at] = Line(i, 10)
	}
	whole(t, s, want)
}

func openings(t *testing.T, e Engine) {
	if !e.Shared {
		t.Skip("this engine is opened once at a time")
	}
	place := e.Fresh(t)
	a, b := open(t, e, place), open(t, e, place)
	var wg sync.WaitGroup
	for w, s := range []book.Store{a, b} {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range 15 {
				if err := insist(s, Line(w*15+i, 10)); err != nil {
					t.Error(err)
					return
				}
			}
		}()
	}
	wg.Wait()
	seen(t, a, 30)
	seen(t, b, 30)
}

func closed(t *testing.T, e Engine) {
	s := fresh(t, e)
	put(t, s, Line(0, 1))
	h := head(t, s)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Append(ctx, h, lines(1, 2, 1)); err == nil {
		t.Error("a closed book took a line")
	}
	if _, err := s.Head(ctx); err == nil {
		t.Error("a closed book gave its head")
	}
}

func full(t *testing.T, e Engine) {
	if e.Full == nil {
		t.Skip(e.Why)
	}
	s := e.Full(t)
	t.Cleanup(func() { s.Close() })
	Fill(t, s)
}

// Fill appends to an empty book until it says ErrFull, sees that it then holds
// what was acknowledged and nothing else, and gives those lines.
func Fill(t *testing.T, s book.Store) []book.Line {
	t.Helper()
	var in []book.Line
	for n := 0; ; n++ {
		if n > 2000 {
			t.Fatal("it never was full")
		}
		l := noisy(n, 20_000)
		_, _, err := s.Append(ctx, head(t, s), []book.Line{l})
		if err != nil {
			if !errors.Is(err, book.ErrFull) {
				t.Fatalf("got %v, want ErrFull", err)
			}
			break
		}
		in = append(in, l)
	}
	if len(in) == 0 {
		t.Fatal("nothing went in")
	}
	whole(t, s, in) // what was acknowledged is there, and nothing of what was not
	return in
}

// childEnv tells a test binary that it is to be the child of the killed test.
const childEnv = "KERNBOOK_BOOKTEST_CHILD"

// Child is the part of the killed test that runs in a process of its own. The
// engine's package has a test named TestChild that calls it.
func Child(t *testing.T, e Engine) {
	place := os.Getenv(childEnv)
	if place == "" {
		t.Skip("runs only as a child of the suite")
	}
	s, err := e.Open(place)
	if err != nil {
		t.Fatal(err)
	}
	h, err := s.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for n := int(h.Size); ; n += 2 {
		var err error
		if _, h, err = s.Append(ctx, h, lines(n, n+2, 300)); err != nil {
			t.Fatal(err)
		}
		fmt.Printf("acknowledged %d\n", n+2)
	}
}

// killed starts a child that appends without end and says what was
// acknowledged, kills it in the middle, and looks for every line.
func killed(t *testing.T, e Engine) {
	if !e.Durable {
		t.Skip("this engine does not outlive its process")
	}
	place := e.Fresh(t)
	for round := range 4 {
		cmd := exec.Command(os.Args[0], "-test.run=^TestChild$", "-test.v")
		cmd.Env = append(os.Environ(), childEnv+"="+place)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		said := make(chan int, 1<<16)
		go func() {
			defer close(said)
			sc := bufio.NewScanner(out)
			for sc.Scan() {
				var n int
				if _, err := fmt.Sscanf(sc.Text(), "acknowledged %d", &n); err == nil {
					said <- n
				}
			}
		}()
		last, acks := 0, 0
		for n := range said {
			last = n
			if acks++; acks == 10+7*round {
				time.Sleep(time.Duration(round) * time.Millisecond)
				if err := cmd.Process.Kill(); err != nil { // SIGKILL: nothing can be tidied up
					t.Fatal(err)
				}
			}
		}
		cmd.Wait()
		if acks < 10+7*round {
			t.Fatalf("the child ended by itself after %d acknowledgements", acks)
		}
		s := open(t, e, place)
		h := head(t, s)
		if h.Size < int64(last) || h.Size%2 != 0 {
			t.Fatalf("%d lines were acknowledged, %d are there (two at a time)", last, h.Size)
		}
		whole(t, s, lines(0, int(h.Size), 300))
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
