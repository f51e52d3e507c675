package kit

import "kernbook/internal/core/qty"

// Yard says where the piece is used and under which rules.
type Yard struct {
	Name    string
	Country string // code of the interval table; "" or "unknown" means the strictest of all
	Limit   int64  // limit of doubt in whole millionths; 0 means the table's
	Scheme  Scheme
}

// Scheme is a written examination scheme by a competent person.
type Scheme struct {
	Every    qty.Months // 0 means there is none
	Document string     // where the written scheme is to be found
	By       string     // the competent person who drew it up
}

// Piece is what a record is about.
type Piece struct {
	ID      string
	Kind    KindID
	Words   string // the yard's own description
	Maker   string
	MakerAt string // its address
	Trade   string // name under which the maker sells it
	Model   string
	Serial  string
	Batch   string
	Marking string // "readable", "partly", "unreadable"
	Proof   string // how identity is proved where the marking is not readable; "" means it is not
	Origin  string // "new", "other yard", "second-hand", "found"
	History string // "known", "not wholly known"
	Traced  string // document that traces an unknown manufacture or history through maker or seller

	Made     qty.PartialDate
	Declared qty.PartialDate // declaration of conformity
	Bought   qty.PartialDate
	FirstUse qty.PartialDate
	Obsolete qty.PartialDate // marked on the piece by its maker

	MakerFromMade qty.Months // maker's life from manufacture; 0 means nothing is said
	MakerFromUse  qty.Months // maker's life from first use; 0 means nothing is said
	MakerDocument string     // the maker's document that says so

	Examined        qty.PartialDate // last thorough examination before this record begins
	ExaminedBefore  bool            // thoroughly examined before first use, or its last report came with it
	ExaminationFrom string          // document of that examination

	Length   qty.Length // along the piece; 0 means not measured
	Diameter qty.Length // nominal; 0 means not known
	Layers   []Layer
	EndA     End
	EndB     End
	Zones    []ZoneAt // empty means the table's usual layout
	Fitted   Fitted
	StoredIn string // "used" or "store"
}

// Layer is one layer of a construction, from outside in.
type Layer struct {
	Name  string // "cover", "intermediate", "core", "wire core", "webbing", "body"
	Fibre string // fibre or metal, id of the fibre table; "unknown" is a fact, NoLayer says that there is no such layer
}

// NoLayer stands for the fibre of a layer that a construction does not have.
const NoLayer = "none"

// End is how one end of a piece is made.
type End struct {
	How    string // "knot", "splice", "stitched", "moulded", "none"; "" means not said
	Tail   qty.Length
	Stitch string // stitch that holds or locks the end: "whole", "cut", "missing", "none"; "" means not said
}

// ZoneAt is a stretch of a piece that belongs to a zone from a day on.
type ZoneAt struct {
	Zone     string
	From, To qty.Length
}

// Fitted says which assembly the piece is part of, and whether its maker allows it there.
type Fitted struct {
	In       string // the other piece, "" when on its own
	Allowed  Yes
	Document string
}

// Person is somebody who looks, examines or answers.
type Person struct {
	ID    string
	Role  string          // "climber", "storekeeper", "examiner", "competent person"
	Since qty.Day         // from which day on the role is held; 0 is not said, and then a competent role never counts
	Until qty.Day         // up to which day; 0 means still
	Kappa map[LookID]Rate // own detection rates, from practice boards; nil means the table's
	Holds bool            // the piece is this person's own kit, or this person repaired it
}

// Competent says whether the role is one of a competent person: that, or an
// examiner (D-04, D-71: the one who examines is competent).
func (p *Person) Competent() bool { return p.Role == "competent person" || p.Role == "examiner" }

// CompetentOn says whether somebody held such a role on a day. Without a word
// of since when they never did.
func (p *Person) CompetentOn(day qty.Day) bool {
	return p.Competent() && p.Since != 0 && day >= p.Since && (p.Until == 0 || day <= p.Until)
}

// Rate is a person's own detection rate for one look, and where it was measured.
type Rate struct {
	Share qty.Share
	From  string
}
