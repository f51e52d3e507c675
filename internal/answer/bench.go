package answer

import (
	"bytes"
	"encoding/json"

	"kernbook/internal/bench"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// Asked is a call of the bench: a calculator, and what was typed into its fields.
type Asked struct {
	Calculator string            `json:"calculator"`
	Typed      map[string]string `json:"typed"`
}

// Bench works out a call of the bench, written as JSON, and gives its sheet as JSON
// on one line; ok is false when the answer is a list of faults instead.
func Bench(t *table.Tables, request []byte) (out []byte, ok bool) {
	var a Asked
	d := json.NewDecoder(bytes.NewReader(request))
	d.DisallowUnknownFields()
	if err := d.Decode(&a); err != nil {
		return Refuse(doc.Faults{{What: "the call is no call of the bench: " + err.Error(), Mend: `send {"calculator": "bridge", "typed": {"apart": "40cm", …}}`}}), false
	}
	s, faults := bench.Run(t, a.Calculator, a.Typed)
	if len(faults) > 0 {
		var list doc.Faults
		for _, f := range faults {
			list = append(list, doc.Fault{Field: f.Field, What: f.Says})
		}
		return Refuse(list), false
	}
	line, err := report.BenchJSON(s, t, lang.English())
	if err != nil {
		return Refuse(doc.Faults{{What: err.Error()}}), false
	}
	return line, true
}

// Part is the answer to a call of the bench for a page: the sheet as the part of a page
// that report.BenchPage writes, or what is wrong, by field.
type Part struct {
	Sheet  string  `json:"sheet,omitempty"`
	Faults []Fault `json:"faults,omitempty"`
}

// BenchPart works out a call of the bench, written as JSON, for a page. A person's mass
// counts as the load it is, in whole newtons, and is not in the answer.
func BenchPart(t *table.Tables, request []byte) []byte {
	var a Asked
	var p Part
	d := json.NewDecoder(bytes.NewReader(request))
	d.DisallowUnknownFields()
	if err := d.Decode(&a); err != nil {
		p.Faults = []Fault{{What: "the call is no call of the bench: " + err.Error()}}
	} else {
		s, faults := bench.Run(t, a.Calculator, bench.Loaded(t, a.Calculator, a.Typed))
		for _, f := range faults {
			p.Faults = append(p.Faults, Fault{Field: f.Field, What: f.Says})
		}
		if len(faults) == 0 {
			p.Sheet = string(report.BenchPage(s, t, lang.English()))
		}
	}
	b, err := json.Marshal(p)
	if err != nil { // strings always marshal
		panic(err)
	}
	return b
}
