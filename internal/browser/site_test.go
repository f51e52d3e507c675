package browser

import (
	"context"
	"net/http/httptest"
	"path/filepath"
	"testing"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/book/mem"
	"kernbook/internal/demo"
	"kernbook/internal/seal"
	"kernbook/internal/tables"
	"kernbook/internal/web"
)

// now is the moment at which the pages are looked at: the last day of the
// invented yard, so that the pictures do not change with the calendar.
var now = time.Date(2026, 6, 2, 17, 0, 0, 0, time.UTC)

// serve serves the invented yard and gives its address.
func serve(t *testing.T) (*app.App, string) {
	t.Helper()
	keys, err := seal.NewFolder(filepath.Join(t.TempDir(), "keys"))
	if err != nil {
		t.Fatal(err)
	}
	store := mem.New()
	if err := demo.Build(context.Background(), store, keys, "invented", demo.Seed, now); err != nil {
		t.Fatal(err)
	}
	a := app.New(app.Config{Store: store, Keys: keys, Tables: tables.Default(), Yard: "invented", Device: "bench", Clock: func() time.Time { return now }})
	server := httptest.NewServer(web.New(a).Handler())
	t.Cleanup(server.Close)
	return a, server.URL
}
