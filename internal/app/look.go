package app

import (
	"bytes"
	"context"
	"fmt"
	"slices"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/fold"
)

// Examine enters an examination of a piece: its looks, what was seen and
// measured, and what was asked. An interim or thorough one without a name (ref)
// gets one, so that it can be decided on.
func (a *App) Examine(ctx context.Context, who Who, piece string, e kit.Examination) (Written, error) {
	a = a.still()
	d := draft{kind: entry.Examination, piece: piece, day: e.Day, body: &e, check: a.examinable(piece, &e)}
	if nameless(&e) {
		with := func(ref string) *kit.Examination {
			x := e
			x.Ref = ref
			return &x
		}
		d.body, d.make = nil, func(s *fold.State, _ entry.ID) (any, error) {
			ref, err := a.free(s, piece, NameOf(&e))
			return with(ref), err
		}
		d.same = func(old any) bool {
			x, ok := old.(*kit.Examination)
			return ok && bytes.Equal(fold.Encode(x), fold.Encode(with(x.Ref)))
		}
	}
	return a.put(ctx, who, d)
}

// NameOf gives the name that an examination has where nobody gives it another.
func NameOf(e *kit.Examination) string { return string(e.Kind) + " " + e.Day.String() }

// free gives a name that nothing on record of a piece has: the one given, or that
// with a number behind it.
func (a *App) free(s *fold.State, piece, name string) (string, error) {
	p, err := pieceOf(s, piece)
	if err != nil {
		return "", err
	}
	r, err := s.Record(p, a.Today(), a)
	if err != nil {
		return "", err
	}
	return freeOf(refs(r), name), nil
}

func freeOf(taken map[string]bool, name string) string {
	ref := name
	for n := 2; taken[ref]; n++ {
		ref = fmt.Sprintf("%s, %d", name, n)
	}
	return ref
}

// nameless says whether an examination is one that is decided on, and has no name.
func nameless(e *kit.Examination) bool {
	return e.Ref == "" && (e.Kind == kit.Interim || e.Kind == kit.Thorough)
}

// named gives the examinations of a record, each that is decided on with a name.
func named(r *kit.Record) []kit.Examination {
	out, taken := slices.Clone(r.Examinations), refs(r)
	for i := range out {
		if e := &out[i]; nameless(e) {
			e.Ref = freeOf(taken, NameOf(e))
			taken[e.Ref] = true
		}
	}
	return out
}

// refs gives every name that a record gives to something in it.
func refs(r *kit.Record) map[string]bool {
	taken := map[string]bool{}
	for i := range r.Examinations {
		e := &r.Examinations[i]
		taken[e.Ref] = true
		for k := range e.Signs {
			taken[e.Signs[k].Ref] = true
		}
		for k := range e.Readings {
			taken[e.Readings[k].Ref] = true
		}
	}
	for i := range r.Events {
		taken[r.Events[i].Ref] = true
	}
	for i := range r.Runs {
		taken[r.Runs[i].Ref] = true
	}
	return taken
}

// runAhead refuses a run of looks that have not been made.
func runAhead(to qty.Day) error {
	return fail(Invalid, "The run ends on %s: enter looks that were made, not those still to come.", to.Words())
}

// KeepRun enters a run of like looks: each working day between two days.
func (a *App) KeepRun(ctx context.Context, who Who, piece string, r kit.Run) (Written, error) {
	a = a.still()
	if r.To > a.Today() {
		return Written{}, runAhead(r.To)
	}
	return a.put(ctx, who, draft{kind: entry.Run, piece: piece, day: r.From, body: &r, check: a.usable(piece, r.To)})
}
