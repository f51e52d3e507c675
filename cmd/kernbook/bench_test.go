package main

import (
	"os"
	"strings"
	"testing"

	"kernbook/internal/bench"
	"kernbook/internal/tables"
)

// TestBenchExamples runs the example in the help of each calculator.
func TestBenchExamples(t *testing.T) {
	seen := 0
	for _, c := range bench.All(tables.Default()) {
		args := strings.Fields(c.Name)
		for _, pair := range examples[c.Name] {
			args = append(args, "--"+pair[0], pair[1])
		}
		var out, errs writer
		if code := run(args, os.Stdin, &out, &errs); code != 0 || len(out) < 200 {
			t.Errorf("%v: exit status %d: %s%s", args, code, out, errs)
		}
		seen++
	}
	if seen != len(examples) {
		t.Errorf("%d calculators, %d examples", seen, len(examples))
	}
}
