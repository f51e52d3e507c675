package web

import (
	"context"
	"fmt"
	"net/http"
	"path/filepath"
	"testing"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/book/mem"
	"kernbook/internal/core/kit"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
)

// BenchmarkPage500 shows the two pages that hold every piece, for a yard of 500
// pieces: each example again and again under another name, with all its history.
// "first-ms" is the first page of a program that has just begun, which reads and
// judges all of them; "ms" one after that; "after-ms" the first after another entry
// about one; "day-ms" the first of the next day, of which all are judged; "person-ms"
// the first after somebody came, after which all are judged; "role-ms" the first after
// it is said anew how well somebody looks, who looked at all of them.
func BenchmarkPage500(b *testing.B) {
	const pieces = 500
	at := time.Date(2026, 6, 2, 17, 0, 0, 0, time.UTC)
	keys, err := seal.NewFolder(filepath.Join(b.TempDir(), "keys"))
	if err != nil {
		b.Fatal(err)
	}
	c := app.Config{Store: mem.New(), Keys: keys, Tables: tables.Default(), Yard: "quillbrook", Device: "bench", Clock: func() time.Time { return at }}
	a := app.New(c)
	ctx, who := context.Background(), app.Who{Person: "p1"}
	if _, err := a.EnterPerson(ctx, who, app.Member{Person: kit.Person{ID: "p1", Role: "competent person"}, From: examples(b)[0].AsOf - 500}); err != nil {
		b.Fatal(err)
	}
	if _, err := a.NameYard(ctx, who, kit.Yard{Name: "Quillbrook Tree Care", Country: "GB"}); err != nil {
		b.Fatal(err)
	}
	all := examples(b)
	for n := range pieces {
		r := *all[n%len(all)]
		r.Piece.ID = fmt.Sprintf("%s-%d", r.Piece.ID, n)
		if _, err := a.Take(ctx, who, &r); err != nil {
			b.Fatal(err)
		}
	}
	one := fmt.Sprintf("%s-0", all[0].Piece.ID)
	for _, path := range []string{"/", "/wall"} {
		b.Run(map[string]string{"/": "today", "/wall": "wall"}[path], func(b *testing.B) {
			var first, after, next, person, role, size int
			get := func(v *client) int {
				began := time.Now()
				w := v.get(path)
				if w.Code != http.StatusOK {
					b.Fatal(w.Code)
				}
				size = w.Body.Len()
				return int(time.Since(began).Microseconds())
			}
			v := visit(b, app.New(c), "")
			first = get(v)
			entered := visit(b, a, "")
			get(entered)
			if _, err := a.Happen(ctx, who, one, kit.Event{Day: a.Today(), Event: "dropped", Travel: -1, Peak: -1, Words: path}); err != nil {
				b.Fatal(err)
			}
			after = get(entered)
			at = at.AddDate(0, 0, 1)
			next = get(entered)
			put := func(m app.Member) int {
				if _, err := a.EnterPerson(ctx, who, m); err != nil {
					b.Fatal(err)
				}
				return get(entered)
			}
			person = put(app.Member{Person: kit.Person{ID: "new" + path, Role: "climber"}})
			role = put(app.Member{Person: kit.Person{ID: "p1", Role: "competent person", Kappa: map[kit.LookID]kit.Rate{kit.Eye: {Share: 0.4, From: "practice board " + path}}}})
			get(v)
			for b.Loop() {
				get(v)
			}
			b.ReportMetric(b.Elapsed().Seconds()*1e3/float64(b.N), "ms")
			b.ReportMetric(float64(first)/1e3, "first-ms")
			b.ReportMetric(float64(after)/1e3, "after-ms")
			b.ReportMetric(float64(next)/1e3, "day-ms")
			b.ReportMetric(float64(person)/1e3, "person-ms")
			b.ReportMetric(float64(role)/1e3, "role-ms")
			b.ReportMetric(float64(size)/1e3, "kB")
			b.ReportMetric(0, "ns/op")
		})
	}
}
