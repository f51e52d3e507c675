// Package answer is the judgement as bytes in, bytes out: a record as JSON goes
// in, its outcome as JSON comes out. Both WebAssembly forms go through it: the one
// for a page and the one that recomputes. The command line, which reads TOML as
// well and also writes text and drawings, calls the packages below by itself; the
// corpus holds that both ways give the same outcome.
package answer

import (
	"encoding/json"

	"kernbook/internal/core/decide"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	"kernbook/internal/lang"
	"kernbook/internal/record"
	"kernbook/internal/report"
)

// FaultsFormat names the form of an answer to a record that cannot be read.
const FaultsFormat = "kernbook faults 1"

// Faults is the answer to a record that cannot be read: every fault of it.
type Faults struct {
	Format string  `json:"format"`
	Faults []Fault `json:"faults"`
}

// Fault is one thing wrong with a record: where, what, and how to mend it.
type Fault struct {
	File  string `json:"file,omitempty"`
	Line  int    `json:"line,omitempty"`
	Field string `json:"field,omitempty"`
	What  string `json:"what"`
	Mend  string `json:"mend,omitempty"`
}

// Decide reads a record written as JSON and gives the outcome with its
// explanation as JSON on one line; ok is false when the answer is a list of faults instead.
func Decide(t *table.Tables, file string, request []byte) (out []byte, ok bool) {
	r, faults := record.DecodeJSON(file, request, t)
	if len(faults) > 0 || r == nil {
		return Refuse(faults), false
	}
	o := decide.Decide(t, r, decide.Ask{Explain: true})
	line, err := report.JSONLine(&o, t, r, lang.English())
	if err != nil {
		return Refuse(doc.Faults{{File: file, What: err.Error()}}), false
	}
	return line, true
}

// Refuse gives faults as JSON.
func Refuse(faults doc.Faults) []byte {
	f := Faults{Format: FaultsFormat, Faults: []Fault{}}
	for _, x := range faults {
		f.Faults = append(f.Faults, Fault{x.File, x.Line, x.Field, x.What, x.Mend})
	}
	b, err := json.Marshal(f)
	if err != nil { // strings and numbers always marshal
		panic(err)
	}
	return b
}
