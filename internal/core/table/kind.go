package table

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// Kind is a sort of piece: its parts, zones, cells, modes, signs and duties.
type Kind struct {
	ID     kit.KindID
	Words  string
	Group  string     // "textile", "metal", "device", "helmet"
	Axis   string     // "length": cells along it and ends; "parts": named parts only
	Cell   qty.Length // length of a cell
	Length qty.Length // usual length, for property tests and where none is given
	Sides  []string
	Strict bool       // a doubt withdraws instead of setting aside: bridge, hitch cord
	Doubt  bool       // there is a doubt figure for this kind
	Fitted bool       // belongs in an assembly: which part is allowed there must be known
	Layers []string   // names a layer of its construction can have; empty means any
	Must   [][]string // of each group at least one layer is there, whatever a record says
	Zones  []Zone
	Parts  []Part
	Modes  []Mode
	Signs  []Sign
	Needs  []Need
	Reads  []Quantity
	Asks   []Ask
	Times  []Time
	Cite
}

// Sign gives the sign with that id, or nil.
func (k *Kind) Sign(id string) *Sign {
	for i := range k.Signs {
		if k.Signs[i].ID == id {
			return &k.Signs[i]
		}
	}
	return nil
}

// Quantity gives the quantity with that id, or nil.
func (k *Kind) Quantity(id string) *Quantity {
	for i := range k.Reads {
		if k.Reads[i].ID == id {
			return &k.Reads[i]
		}
	}
	return nil
}

// Zone gives the zone with that id, or nil.
func (k *Kind) Zone(id string) *Zone {
	for i := range k.Zones {
		if k.Zones[i].ID == id {
			return &k.Zones[i]
		}
	}
	return nil
}

// Part gives the part with that id, or nil.
func (k *Kind) Part(id string) *Part {
	for i := range k.Parts {
		if k.Parts[i].ID == id {
			return &k.Parts[i]
		}
	}
	return nil
}

// Zone is a stretch with wear of its own. The usual layout: at both ends, in
// the middle, from end A, or the rest.
type Zone struct {
	ID     string
	Words  string
	Where  string    // "ends", "middle", "from A", "rest"
	Extent qty.Share // share of the length (of each end for "ends"); unused for "rest"
	Most   qty.Share // share of the length that a record may give to all its stretches together; 0 means the usual one
	Cite
}

// Part is a named part: an end, or on pieces without cells any part.
type Part struct {
	ID     string
	Words  string
	End    string     // "A" or "B" for the ends of a rope-like piece, else ""
	Extent qty.Length // for leaks, which are per metre
	Cite
}

// Mode is one way in which a piece can come to harm.
//
// T rates are per year, H rates per 100 hours, of the whole zone of the kind.
// Source of the form: continuous-time Markov chain over 0, 1f, 1h, 2f, 2h.
type Mode struct {
	ID            string
	Words         string
	Scope         string // "cells", "whole", "ends", "parts"
	Layer         string // needed in the construction; "" means any
	T01, T02, T12 float64
	H01, H02, H12 float64
	Hidden        float64 // share of what begins that no look shows
	BetaDirt      float64
	BetaMass      float64 // per unit of log(mass / reference mass)
	BetaHardware  float64
	New1, New2    float64 // P(1), P(2) of a new piece
	FloorH        float64 // least 0→1 per 100 hours in service
	FloorT        float64 // least 0→1 per year in service
	FloorStore    float64 // least 0→1 per year in store
	Shares        []ZoneShare
	Cite
}

// ZoneShare is the share of a mode's beginnings that falls in a zone or part.
type ZoneShare struct {
	Zone  string
	Share float64
}

// Class is what a sign means by itself.
type Class string

// The classes of a sign.
const (
	Absolute    Class = "absolute"
	Aside       Class = "set aside"
	Weigh       Class = "to be weighed"
	Observation Class = "observation"
)

// Sign is something that a look can show on a piece of this kind.
type Sign struct {
	ID       string
	Words    string
	Class    Class
	Looks    []kit.LookID
	Whole    bool // said of the piece as a whole, not of a place
	Links    []Link
	Leak     float64 // per metre (or part): chance of the sign with nothing behind it
	Causes   []CauseLink
	Spread   float64  // share of q that reaches into the neighbouring cells
	Observe  []string // causes that, once they explain it well, make it an observation
	Question string   // what has to be answered when it sets aside
	ByFibre  []string // counts only with one of these fibres; empty means any
	AfterUse qty.Months
	With     []string // counts only together with these signs at one place
	Lines    []string
	Figures  Status // standing of links, leak, causes and spread; Cite speaks of the sign and its class
	Cite
}

// Link says how likely damage of a mode shows this sign.
type Link struct {
	Mode   string
	Q1, Q2 float64 // for findable impaired and findable unfit, at a perfect look
}

// CauseLink says how likely a harmless cause, when there, shows this sign.
type CauseLink struct {
	Cause string
	R     float64
}

// Cause is something harmless that explains signs away.
type Cause struct {
	ID       string
	Words    string
	Washable bool
	Priors   []Prior
	Cite
}

// Prior is how often a cause is there, by kind and zone. Zone "" means anywhere on it.
type Prior struct {
	Kind kit.KindID
	Zone string
	P    float64
	Cite
}

// Look is one kind of attention: how to do it, how good it is.
type Look struct {
	ID      kit.LookID
	Words   string
	How     string
	Beta    float64  // share of what two persons miss together (common cause)
	Kappa   []Kappa  // quality by kind of examination
	Factors []Factor // what conditions leave of it
	Cite
}

// At gives the quality of the look in a kind of examination; 0 where the table
// names none, or there is no such look.
func (l *Look) At(exam kit.ExamKind) float64 {
	if row := l.KappaRow(exam); row != nil {
		return row.K
	}
	return 0
}

// KappaRow gives the row with that quality, or nil.
func (l *Look) KappaRow(exam kit.ExamKind) *Kappa {
	if l == nil {
		return nil
	}
	for i := range l.Kappa {
		if l.Kappa[i].Exam == exam {
			return &l.Kappa[i]
		}
	}
	return nil
}

// Kappa is the quality of a look in a kind of examination.
type Kappa struct {
	Exam kit.ExamKind
	K    float64
	Cite
}

// Factor is what a condition leaves of a look's quality. State "" is "not said".
type Factor struct {
	Condition string // "light", "cleaned", "wet", "frozen", "muddy", "gloves", "hurried"
	State     string
	F         float64
	Cite
}

// Need is a look that a kind of examination requires, with the share to be covered.
type Need struct {
	Exam   kit.ExamKind
	Look   kit.LookID
	Cover  float64  // share of every cell and side that must have been gone over; 0 for a gauge with Places
	Places int      // gauge along the piece: into so many equal stretches it is divided, and each needs a reading
	Parts  []string // gauge on a piece of parts: those that each need a reading
	Cite
}

// Ask is a question that the look "ask" puts for this kind.
type Ask struct {
	ID    string
	Words string
	Yes   string // event meant by a yes
	Cite
}

// Time is how long a look takes on a piece of this kind.
type Time struct {
	Look    kit.LookID
	Minutes float64
	Cite
}

// Quantity is something measured and what it says of a mode.
//
// Mu and Sigma are relative to the piece's own first record (share of it, a
// fall is negative), for sound, findable impaired and findable unfit.
type Quantity struct {
	ID     string
	Words  string
	Mode   string
	Basis  string // "own" relative to first record or own median; "absolute" against nothing
	Mu     [3]float64
	Sigma  [3]float64
	Nu     int
	Slip   float64    // share of slips
	SlipC  float64    // density of a slip
	Error  qty.Length // standard error of one value where the record gives none
	Shared float64    // shared calibration error, relative
	Out    int64      // a change of this or more is out of range (negative: a fall): parts per thousand of the base, for "absolute" micrometres
	Sign   string     // the sign that an out-of-range reading is
	Limits []Limit    // absolute figures, on integers
	Grows  bool       // wear that grows toward a limit: rate of growth gives a date
	Cite
}

// Limit is an absolute figure for a quantity.
type Limit struct {
	At      qty.Length // value at or beyond which it applies; 0 means not this way
	Share   int64      // change against the first record in parts per thousand; 0 means not this way
	Below   bool       // applies at or below (else at or above)
	Verdict kit.Verdict
	Lines   []string
	Words   string
	Cite
}

// Event is something that can happen to a piece.
type Event struct {
	ID      string
	Words   string
	Effects []EventEffect
	Kernels []Kernel
	Cite
}

// EventEffect is what an event means by itself for a group of kinds.
type EventEffect struct {
	Groups   []string     // "textile", "metal", "device", "helmet"
	Kinds    []kit.KindID // narrower than Groups when not empty
	Verdict  kit.Verdict
	Question string
	Lines    []string
	Cite
}

// Kernel is the one-stroke step an event makes in a mode.
type Kernel struct {
	Kinds         []kit.KindID
	Mode          string
	FromPeak      float64 // applies from this share of minimum strength on
	J01, J02, J12 float64
	Cite
}

// KernelFor gives the step the event makes in a mode of a kind: the row with the
// highest peak that was reached. A peak that is not known (negative) reaches
// every row. nil means that the event does nothing to the mode.
func (e *Event) KernelFor(kind kit.KindID, mode string, peak qty.Share) *Kernel {
	var best *Kernel
	for i := range e.Kernels {
		k := &e.Kernels[i]
		if k.Mode != mode || !k.isFor(kind) || (peak >= 0 && k.FromPeak > float64(peak)) {
			continue
		}
		if best == nil || k.FromPeak > best.FromPeak {
			best = k
		}
	}
	return best
}

func (k *Kernel) isFor(kind kit.KindID) bool {
	for _, x := range k.Kinds {
		if x == kind {
			return true
		}
	}
	return len(k.Kinds) == 0
}

// Fibre is a fibre or metal and its figures, as text with marks.
type Fibre struct {
	ID    string
	Words string
	Metal bool
	Melts bool
	Facts []Fact
	Cite
}

// Fact is one published property of a fibre, or a trait in words (then Unit is
// "" and Value says it).
type Fact struct {
	Property  string
	Value     string // as printed: "255 °C to 256 °C"
	Low, High float64
	Unit      string // "g/cm³", "°C", "share"
	Mark      string
	Cite
}

// Contaminant is a substance that can touch a piece.
type Contaminant struct {
	ID       string
	Words    string
	Harmless bool   // not a contaminant in the sense of the rules: water, soil, resin, salt water, sweat
	Splash   string // what "splash" means for it
	Soaked   string // what "soaked" means for it
	Cite
}

// Washing says how to wash.
type Washing struct {
	ID      string
	Words   string
	MaxTemp qty.Temp // 0 means not said
	PHLow   float64  // 0 means not said
	PHHigh  float64
	Cite
}

// Effect is what a contaminant means for a fibre.
type Effect struct {
	Contaminant string
	Fibres      []string // empty means any
	Kinds       []kit.KindID
	Amounts     []string // empty means any
	Verdict     kit.Verdict
	Wash        bool
	Question    string
	Lines       []string
	Cite
}
