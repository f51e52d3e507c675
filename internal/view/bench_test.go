package view

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"kernbook/internal/book"
	"kernbook/internal/book/sqlite"
	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// many is how many entries the book has that is folded.
const many = 250_000

// book250000 is a book without decisions: 12 people, 500 pieces with their use and
// holder, and then examinations, events, runs, answers, washings and now and then a
// role, with every field of the envelope filled in.
func book250000(b *testing.B) []book.Line {
	b.Helper()
	const pieces, people = 500, 12
	p, err := qty.ParseDate("2026-02-01")
	if err != nil {
		b.Fatal(err)
	}
	day := p.Earliest()
	lines := make([]book.Line, 0, many)
	add := func(k entry.Kind, piece string, v any) {
		e := &entry.Entry{Yard: "0190c0de-0000-7000-8000-000000000000", ID: entry.MakeID(int64(len(lines)), [10]byte{}), Kind: k, Version: 1, Day: day,
			Wall: "2026-06-01T07:31:00+01:00", Author: "p1", Device: "computer in the store", Base: fmt.Sprintf("%d:%s", len(lines)+1, strings.Repeat("ab", 32)),
			Tables: "2026-11-01", Core: "kernbook core 1", Piece: piece, Body: fold.Encode(v)}
		l, err := book.NewLine(e, "2026-06-01T06:31:02.123Z")
		if err != nil {
			b.Fatal(err)
		}
		lines = append(lines, l)
	}
	role := func(n int) {
		p := kit.Person{ID: fmt.Sprintf("p%d", n%people), Role: "climber"}
		add(entry.Person, "", &fold.Person{Person: record.EncodePerson(&p)})
	}
	for n := range people {
		role(n)
	}
	looks := []kit.Look{{Look: kit.Eye, By: "p1", Covers: []kit.Stretch{{All: true}}}, {Look: kit.Hand, By: "p1", Covers: []kit.Stretch{{All: true}}}}
	use := kit.Use{From: day, Week: 25 * qty.Hour, Weekdays: [8]bool{1: true, 3: true}, Dirt: "clean"}
	id := func(n int) string { return fmt.Sprintf("BR-%d", n%pieces) }
	for n := range pieces {
		add(entry.Piece, id(n), &kit.Piece{ID: id(n), Kind: kit.Bridge, Marking: "readable", Origin: "new", History: "known", Length: 900 * qty.Millimetre})
		add(entry.Use, id(n), &fold.Use{Use: json.RawMessage(record.EncodeUse(&use)), Of: "p1"})
		add(entry.Hang, id(n), &fold.Hang{Holder: "p1"})
	}
	kinds := []struct {
		kind entry.Kind
		body any
	}{
		{entry.Examination, &kit.Examination{Kind: kit.PreUse, Day: day, By: "p1", WouldClimb: kit.SaidYes, Looks: looks}},
		{entry.Event, &kit.Event{Day: day, Event: "dropped", Travel: -1, Peak: -1, Words: "onto the lawn"}},
		{entry.Run, &kit.Run{Kind: kit.PreUse, By: "p1", From: day, To: day + 28, Weekdays: [8]bool{1: true}, Looks: looks}},
		{entry.Answer, &kit.Answer{Day: day, To: "x", Verified: "seen", By: "p1"}},
		{entry.Washing, &fold.Washing{With: "water", Clean: kit.SaidYes}},
	}
	for n := 0; len(lines) < many; n++ {
		if n%1000 == 999 {
			role(n)
		}
		k := kinds[n%len(kinds)]
		add(k.kind, id(n), k.body)
	}
	return lines
}

// used is how much memory is held.
func used() uint64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// BenchmarkFold250000 folds the book without deciding anything: each leaf is parsed
// and taken. "of-json" is how fast that is beside encoding/json, which reads the
// same lines, turn by turn; "least-s" is the fastest of the rounds, which a busy
// machine disturbs least; "state-MB" is what the state holds, the lines apart.
func BenchmarkFold250000(b *testing.B) {
	lines := book250000(b)
	size := 0
	for i := range lines {
		size += len(lines[i].Bytes)
	}
	var s *fold.State
	var ours, theirs time.Duration
	least := time.Hour
	before, after := uint64(0), uint64(0)
	for b.Loop() {
		s = nil
		before = used()
		began := time.Now()
		s = fold.New()
		for i := range lines {
			l, err := entry.ParseLeaf(lines[i].Bytes)
			if err != nil {
				b.Fatal(err)
			}
			s.Apply(&l)
		}
		took := time.Since(began)
		ours, least = ours+took, min(least, took)
		if s.Size != many || len(s.Faulty) > 0 {
			b.Fatal(s.Size, s.Faulty)
		}
		after = used()
		began = time.Now()
		for i := range lines {
			var l struct {
				Recorded string
				Entry    struct {
					ID, Kind, Day, Wall, Author, Piece string
					Body                               json.RawMessage
				}
			}
			if err := json.Unmarshal(lines[i].Bytes, &l); err != nil {
				b.Fatal(err)
			}
		}
		theirs += time.Since(began)
	}
	b.ReportMetric(ours.Seconds()/float64(b.N), "s/fold")
	b.ReportMetric(least.Seconds(), "least-s")
	b.ReportMetric(float64(theirs)/float64(ours), "of-json")
	b.ReportMetric(float64(after-before)/1e6, "state-MB")
	b.ReportMetric(float64(size)/1e6, "lines-MB")
	b.ReportMetric(0, "ns/op")
	runtime.KeepAlive(s)
}

// BenchmarkOpen250000 opens the book in a file and follows it to its end: each line
// is read, held against its hash, parsed and taken. "held-MB" is what all of that
// holds in the end.
func BenchmarkOpen250000(b *testing.B) {
	lines := book250000(b)
	file := filepath.Join(b.TempDir(), "yard.book")
	s, err := sqlite.Open(file, sqlite.Options{})
	if err != nil {
		b.Fatal(err)
	}
	head := book.Head{Root: book.Empty}
	for from := 0; from < len(lines); from += 10_000 {
		if _, head, err = s.Append(ctx, head, lines[from:min(from+10_000, len(lines))]); err != nil {
			b.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	lines = nil
	before, after := used(), uint64(0)
	least := time.Hour
	for b.Loop() {
		began := time.Now()
		s, err := sqlite.Open(file, sqlite.Options{})
		if err != nil {
			b.Fatal(err)
		}
		f := New(s)
		if err := f.Catch(ctx); err != nil {
			b.Fatal(err)
		}
		if f.state.Size != many || len(f.state.Faulty) > 0 {
			b.Fatal(f.state.Size, f.state.Faulty)
		}
		least = min(least, time.Since(began))
		b.StopTimer()
		after = used()
		runtime.KeepAlive(f)
		b.StartTimer()
		if err := s.Close(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/open")
	b.ReportMetric(least.Seconds(), "least-s")
	b.ReportMetric(float64(after-before)/1e6, "held-MB")
	b.ReportMetric(0, "ns/op")
}
