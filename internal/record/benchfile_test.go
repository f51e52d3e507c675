package record

import (
	"os"
	"testing"

	"kernbook/internal/tables"
)

// TestWriteAsJSON writes an example as JSON where KERNBOOK_JSON names a file,
// for the benchmark of the core as WebAssembly.
func TestWriteAsJSON(t *testing.T) {
	to := os.Getenv("KERNBOOK_JSON")
	b, err := os.ReadFile("../../examples/bridge-daily.toml")
	if err != nil {
		t.Fatal(err)
	}
	r, faults := DecodeTOML("bridge-daily.toml", b, tables.Default())
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	line := Encode(r)
	if _, faults := DecodeJSON("again", line, tables.Default()); len(faults) > 0 {
		t.Fatal(faults)
	}
	if to == "" {
		return
	}
	if err := os.WriteFile(to, line, 0o644); err != nil {
		t.Fatal(err)
	}
}
