package paper

// Doc is a paper on its way: the same for every form it is given.
type Doc struct {
	Title    string
	Sub      string
	Sections []Section
	Strip    *Strip // the piece drawn to scale, with what lies on it
	Foot     string // on every page
	Attach   []byte // machine-readable record
	Name     string // file name of what is attached
}

// Section is a heading with rows, a table, or both.
type Section struct {
	Heading string
	Rows    []Row
	Head    []string   // heads of the columns of Table
	Table   [][]string // each as long as Head
	Widths  []float64  // of the columns, as shares
	Note    string
}

// Row is one particular: what asks for it, what it is, what it says.
type Row struct{ Ref, Label, Value string }

// Strip is a piece drawn along the page.
type Strip struct {
	Length float64 // millimetres
	Marks  []Mark
}

// Mark is something at a place, with the number under which a table tells it.
type Mark struct {
	Number   int
	From, To float64 // millimetres from end A
	Words    string
}
