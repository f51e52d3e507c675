package doc_test

import (
	"fmt"

	"kernbook/internal/core/qty"
	"kernbook/internal/doc"
)

// One go finds the faults of form and of meaning together.
func Example() {
	const file = "record.toml"
	root, faults := doc.ParseTOML(file, []byte(`
[piece]
kind = "brigde"
lenght = "90cm"
made = 2024-03
diameter = "11.2"
hours = 25
`))
	r := doc.NewReader(file, root)
	piece := r.Root().Sub("piece", doc.Required)
	piece.OneOf("kind", doc.Required, "bridge", "harness", "connector")
	piece.Date("made", doc.Required)
	piece.Hours("hours", doc.Optional)
	piece.Length("diameter", doc.Required)
	if l := piece.Length("length", doc.Optional); piece.Has("length") && l > 2*qty.Metre {
		piece.Fault("length", l.String()+" is too long for a bridge", "measure it again")
	}
	faults = append(faults, r.Faults()...)
	faults.Sort()
	fmt.Println(faults.Err())
	// Output:
	// record.toml:3: piece.kind: “brigde” is not a word taken here; did you mean “bridge”? — write one of "bridge", "harness" or "connector"
	// record.toml:4: piece.lenght: unknown key “lenght”; did you mean “length”? — correct the key, or take it out
	// record.toml:5: piece.made: 2024-03 is not in quotes — write "2024-03", or the whole day where a day is wanted, such as 2026-06-01
	// record.toml:6: piece.diameter: “11.2” has no unit — write a length with its unit (mm, cm, m, in, ft), such as "11.2 mm"
	// record.toml:7: piece.hours: is a whole number (25) where a time of use with its unit is wanted — write the number with its unit in quotes, such as "25 h"
}
