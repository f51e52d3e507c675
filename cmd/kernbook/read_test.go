package main

import (
	"bytes"
	"strings"
	"testing"

	"kernbook/internal/record"
	"kernbook/internal/tables"
)

// TestReadStops: of an input without end no more is read than shows that it is
// too large for a record, and that is its fault.
func TestReadStops(t *testing.T) {
	b, err := read(bytes.NewReader(bytes.Repeat([]byte("#"), record.MaxSize+1000)), "-")
	if err != nil {
		t.Fatal(err)
	}
	if len(b) != record.MaxSize+1 {
		t.Errorf("read %d bytes, want %d", len(b), record.MaxSize+1)
	}
	if _, faults := record.Decode("-", b, tables.Default()); len(faults) != 1 || !strings.Contains(faults.Error(), "is larger than 8 MB") {
		t.Errorf("faults %v, want that it is too large", faults)
	}
}
