package kit

import "kernbook/internal/core/qty"

// Record is one piece with its history and the examination at hand: all that
// the judgement is made from.
type Record struct {
	Yard         Yard
	Piece        Piece
	People       []Person
	Uses         []Use
	Examinations []Examination
	Runs         []Run
	Events       []Event
	Answers      []Answer
	Changes      []Change
	AsOf         qty.Day // the day for which the outcome is asked
	Said         *Record // the record as it was said, where AsNow moved places; else nil
}

// Place is where on a piece something is: a stretch in mm from end A, or a named part.
type Place struct {
	Part     string     // id of a named part; "" means the stretch below
	From, To qty.Length // From <= To
	Whole    bool       // the piece as a whole
	Gone     bool       // a stretch that was cut off since it was spoken of
	Sides    []string   // empty means not told, which is taken as all
	Layer    string
}

// Conditions are what a look was made under. A value not said is taken as the worse.
type Conditions struct {
	Light   string // "good", "poor", "dark"
	Cleaned Yes
	Wet     Yes
	Frozen  Yes
	Muddy   Yes
	Gloves  Yes
	Hurried Yes
}

// Stretch is a part of the piece that a look went over.
type Stretch struct {
	All      bool
	Part     string
	From, To qty.Length
	Sides    []string // empty means every side
}

// Look is one kind of attention really given, where, how and by whom.
type Look struct {
	Look       LookID
	By         string
	Covers     []Stretch // empty: it went nowhere
	Conditions Conditions
	AfterWash  bool // made after a washing on the same day
}

// Maker gives who made the look, where the whole it is part of is by somebody:
// that person, unless the look says otherwise.
func (l *Look) Maker(whole string) string {
	if l.By != "" {
		return l.By
	}
	return whole
}

// Sign is something seen or felt at a place.
type Sign struct {
	Ref       string // the yard's name for it, by which later entries speak of it
	Sign      string // id of the kind's table of signs; "" when State speaks of one on record
	State     SignState
	At        Place
	Look      LookID // the look that showed it; "" means the first look of the table that could
	By        string
	AfterWash bool
	Words     string
}

// Reading is something measured at a place, in one examination.
type Reading struct {
	Quantity string // id of the table of quantities
	At       Place
	Values   []qty.Length // every value taken; the mean enters
	Again    []qty.Length // values of a second measurement after an out-of-range one
	Ref      string
	Gauge    string
	Error    qty.Length // standard error of one value of this gauge and hand; 0 means the table's
	Tension  qty.Force  // reference tension; 0 means not said
	Method   string
	Wet      Yes
}

// Examination is one attention of a kind that law and standards name.
type Examination struct {
	Ref        string
	Kind       ExamKind
	Day        qty.Day
	By         string
	Looks      []Look
	Asked      map[string]Yes // question id → answer, of the look "ask"
	Signs      []Sign
	Readings   []Reading
	WouldClimb Yes // "no" is an absolute reason; of an interim or thorough one NotSaid counts as NotKnown
	SignedBy   string
	Latest     qty.PartialDate // the latest date the examiner sets for the next one
	AfterEvent string          // ref of the event that this examination answers
	HeldBy     []string        // whose own kit the piece was on that day, or who repaired it before; their thorough examination does not count
}

// Maker gives who made the examination: whoever signed it where nobody is named.
func (e *Examination) Maker() string {
	if e.By != "" {
		return e.By
	}
	return e.SignedBy
}

// Run is a series of like looks, signed by one person.
type Run struct {
	Ref      string
	Kind     ExamKind // PreUse or Partner
	By       string
	From, To qty.Day
	Weekdays [8]bool // 1 Monday … 7 Sunday
	Looks    []Look
}

// Use is how the piece is used from a day on, until the next such entry.
type Use struct {
	From     qty.Day
	Week     qty.Duration // hours per week; negative means not known
	Weekdays [8]bool      // working days; none set means not known
	Mass     qty.Mass     // body mass with kit; 0 means not known
	Dirt     string       // site and dirt; "" means not known
	Hardware string       // what runs on the piece; "" means not known
	Store    bool         // in store, unused
}

// Event is something that happened to a piece.
type Event struct {
	Ref       string
	Day       qty.Day
	Event     string // id of the table of events
	At        Place
	PlaceSaid bool
	Travel    qty.Length // free travel until it was caught; negative means not known
	Peak      qty.Share  // top of the computed peak's range as a share of minimum strength; negative means not known
	Substance string     // id of the table of contaminants
	Amount    string     // "suspected", "splash", "soaked"
	Washed    Yes        // washed out and nothing left to see or feel
	Injury    bool       // an injury, dangerous event or claim goes with it
	Words     string
}

// Answer is a question settled on record: by whom, how verified.
type Answer struct {
	Day      qty.Day
	To       string // ref of a sign or event, or id of a question
	Cause    string // id of the cause found, for a sign
	Verified string // how: it washed off, it fits the fitting, the maker wrote so
	By       string
	Document string
	Unfit    bool // the answer says that it is not fit
}

// Change moves zones or the datum: shifted, re-tied, shortened, turned.
type Change struct {
	Day    qty.Day
	What   string     // one of Changes
	Zones  []ZoneAt   // for "zones": where they lie from now on
	Length qty.Length // for "shortened …": what was cut off
	By     string
	Words  string
}

// Changes lists what a change can be. After end A was shortened, places are
// measured from the new end A; after the piece was turned end for end, from what
// was end B before, which is end A from then on.
var Changes = [...]string{"zones", "re-tied end A", "re-tied end B", CutA, CutB, Turned}
