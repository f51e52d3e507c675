package paper

import "kernbook/internal/core/kit"

// NotStated stands where a particular was not given.
const NotStated = "not stated"

// Doc is a paper on its way: the same for every form it is given.
type Doc struct {
	Title    string
	Sub      string
	Key      string   // what the numbers beside the particulars are; "" where there are none
	Alert    *Verdict // how the piece stands when printed, where it is out of use
	Verdict  *Verdict
	Sections []Section
	Running  string // names the paper on each of its pages
	Foot     string // on every page, smaller
	Attach   []byte // machine-readable record
	Name     string // file name of what is attached
}

// Verdict is a decision, shown before all else: by weight and frame, so that it
// reads in black and white.
type Verdict struct {
	Label, Words string
	Level        kit.Verdict
}

// Section is a heading with rows, a table, a drawing, lines to sign on, or more
// than one of them.
type Section struct {
	Heading string
	Strip   *Strip
	Rows    []Row
	Head    []string   // heads of the columns of Table
	Table   [][]string // each as long as Head
	Widths  []float64  // of the columns, as shares
	Note    string
	Sign    []string // what is to be signed or written by hand
	Apart   bool     // no part of what is signed: set off from it
}

// Row is one particular: the paragraph that asks for it, what it is, what it says.
type Row struct {
	Ref, Label, Value string
}

// Missing says that the particular was not given.
func (r Row) Missing() bool { return r.Value == NotStated }

// Missing gives the labels of the particulars that were not given.
func (d *Doc) Missing() []string {
	var out []string
	for i := range d.Sections {
		for _, r := range d.Sections[i].Rows {
			if r.Missing() {
				out = append(out, r.Label)
			}
		}
	}
	return out
}
