package app

import (
	"context"

	"kernbook/internal/core/entry"
	"kernbook/internal/core/kit"
	"kernbook/internal/fold"
	"kernbook/internal/record"
)

// NameYard says what the yard is called, whose law holds there, and what
// written scheme it examines by. It can be said anew.
func (a *App) NameYard(ctx context.Context, who Who, y kit.Yard) (Written, error) {
	a = a.still()
	y.Limit = 0
	if err := record.Country(y.Country, a.tables); err != nil {
		return Written{}, fail(Invalid, "%v.", err)
	}
	return a.put(ctx, who, draft{kind: entry.Yard, day: a.Today(), body: &y})
}

// SetLimit changes the yard's limit of doubt from today on: "1 in 2000", or ""
// for the tables' own.
func (a *App) SetLimit(ctx context.Context, who Who, limit, why string) (Written, error) {
	a = a.still()
	l := fold.Limit{Limit: limit, Why: why}
	n, err := l.Millions()
	switch {
	case err != nil:
		return Written{}, fail(Invalid, "%v.", err)
	case n > a.tables.Rules.LimitMost:
		return Written{}, fail(Invalid, "%s is looser than any yard may set.", limit)
	case why == "":
		return Written{}, fail(Invalid, "Say why the limit is changed.")
	}
	return a.put(ctx, who, draft{kind: entry.Limit, day: a.Today(), body: &l})
}
