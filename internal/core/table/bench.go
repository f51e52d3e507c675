package table

import "kernbook/internal/core/qty"

// Bench is what publications and tests give for the bench of rope mechanics. The
// judgement does not read it.
type Bench struct {
	Bends      []Bend // rising by Ratio, from 1
	Knots      []Knot
	Damages    []Damage
	Frictions  []Friction
	Capacities []Capacity
	Tensions   []Tension
}

// GeneralFibre is the fibre of figures whose source names none, NaturalFibre that
// of hemp, manila and their like; AnyKnot stands for a knot of whatever sort.
const (
	GeneralFibre = "general"
	NaturalFibre = "natural"
	AnyKnot      = "any"
)

// Bend is what wire rope keeps of its strength over a pin or sheave.
type Bend struct {
	Ratio float64 // diameter of the pin over that of the rope, D/d
	Left  qty.Share
	Mark  string
	Cite
}

// Knot is what a knot or end left of the straight strength, in the fibre and rope
// of its source and in no other.
type Knot struct {
	Knot   string // id
	Words  string
	Fibres []string // ids of fibres, GeneralFibre or NaturalFibre
	Rope   string
	Low    qty.Share
	High   qty.Share // 0 where the source gives no upper figure
	Note   string
	Mark   string
	Cite
}

// Damage is what a test found on its pieces. It is never the strength of another.
type Damage struct {
	ID     string
	What   string
	Item   string
	Fibres []string
	Pieces string
	Found  string
	Given  bool // Low and High are given
	Low    qty.Share
	High   qty.Share
	Mark   string
	Cite
}

// Friction is a coefficient of friction that was seen.
type Friction struct {
	ID            string
	Surface, Rope string
	Low, High     float64
	Mark          string
	Cite
}

// Capacity is a specific heat in J/(kg K).
type Capacity struct {
	ID    string
	Words string
	Heat  float64
	Mark  string
	Cite
}

// Tension is a rule for the pull under which a rope is measured: so many newtons for
// each square millimetre of the diameter squared.
type Tension struct {
	ID          string
	Words       string
	Coefficient float64 // N/mm²
	Mark        string
	Cite
}
