package fold

import (
	"fmt"
	"runtime"
	"strings"
	"testing"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/record"
)

// many is how many entries the folded book has.
const many = 250_000

// book250000 is a book without decisions: 12 people, 500 pieces with their use and
// holder, and then looks, events, runs, answers, washings and changes of role in
// turn, every field of the envelope filled in.
func book250000() [][]byte {
	all := bodies()
	w := &teller{}
	lines := make([][]byte, 0, many)
	add := func(k entry.Kind, piece, on string, v any) {
		l := w.leaf(k, piece, on, v)
		e := &l.Entry
		e.Yard, e.Device = "0190c0de-0000-7000-8000-000000000000", "computer in the store"
		e.Base, e.Tables, e.Core = fmt.Sprintf("%d:%s", w.n, strings.Repeat("ab", 32)), "2026-11-01", "kernbook core 1"
		lines = append(lines, l.Append(nil))
	}
	role := func(n int) {
		p := kit.Person{ID: fmt.Sprintf("p%d", n%12), Role: "climber"}
		add(entry.Person, "", "2026-01-05", &Person{Person: record.EncodePerson(&p)})
	}
	for n := range 12 {
		role(n)
	}
	const pieces = 500
	id := func(n int) string { return fmt.Sprintf("BR-%d", n%pieces) }
	for n := range pieces {
		p := bridge
		p.ID = id(n)
		add(entry.Piece, p.ID, "2026-01-05", &p)
		add(entry.Use, p.ID, "2026-01-05", all[entry.Use])
		add(entry.Hang, p.ID, "2026-01-05", all[entry.Hang])
	}
	kinds := []entry.Kind{entry.Examination, entry.Event, entry.Run, entry.Answer, entry.Examination, entry.Washing, entry.Run}
	for n := 0; len(lines) < many; n++ {
		if n%1000 == 999 {
			role(n)
		}
		k := kinds[n%len(kinds)]
		add(k, id(n), "2026-02-01", all[k])
	}
	return lines
}

// BenchmarkFold250000 folds it without deciding anything: each leaf is parsed and
// taken. "state-MB" is what the state holds, the lines it shares apart.
func BenchmarkFold250000(b *testing.B) {
	lines := book250000()
	size := 0
	for _, l := range lines {
		size += len(l)
	}
	used := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before := used()
	var s *State
	b.ReportAllocs()
	for b.Loop() {
		s = New()
		for _, l := range lines {
			leaf, err := entry.ParseLeaf(l)
			if err != nil {
				b.Fatal(err)
			}
			s.Apply(&leaf)
		}
		if len(s.Faulty) > 0 {
			b.Fatal(s.Faulty[0])
		}
	}
	b.ReportMetric(b.Elapsed().Seconds()/float64(b.N), "s/250000")
	b.ReportMetric(float64(used()-before)/1e6, "state-MB")
	b.ReportMetric(float64(size)/1e6, "lines-MB")
	runtime.KeepAlive(s)
	runtime.KeepAlive(lines)
}
