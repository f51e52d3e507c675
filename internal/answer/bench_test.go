package answer_test

import (
	"strings"
	"testing"

	"kernbook/internal/answer"
	"kernbook/internal/tables"
)

// TestBench: a call gives a sheet, a wrong one its faults by field.
func TestBench(t *testing.T) {
	for _, c := range []struct {
		in       string
		ok       bool
		in1, in2 string
	}{
		{`{"calculator":"bridge","typed":{"apart":"40cm","length":"60cm","load":"1kN"}}`, true, `"format":"kernbook bench 1"`, `"shown":"671 N"`},
		{`{"calculator":"bridge","typed":{"apart":"40","load":"1kN"}}`, false, `"field":"apart"`, `has no unit`},
		{`{"calculator":"kite","typed":{}}`, false, `"faults"`, `there is no calculator`},
		{`{"calculator":"bridge","colour":1}`, false, `"faults"`, `no call of the bench`},
		{`NaN`, false, `"faults"`, `no call of the bench`},
	} {
		out, ok := answer.Bench(tables.Default(), []byte(c.in))
		if s := string(out); ok != c.ok || !strings.Contains(s, c.in1) || !strings.Contains(s, c.in2) {
			t.Errorf("%s: %v, %s", c.in, ok, s)
		}
	}
}
