// Package kit holds the nouns of the trade: pieces, places on them, people,
// looks, signs, readings, events, answers and examinations. It knows no rule
// and no table; it is what a record says, and nothing more.
package kit

// KindID names what sort of piece it is. The words are those of the tables.
type KindID string

// The kinds of piece a yard keeps.
const (
	Bridge    KindID = "bridge"
	Harness   KindID = "harness"
	Line      KindID = "line"
	Lanyard   KindID = "lanyard"
	HitchCord KindID = "hitch-cord"
	Sling     KindID = "sling"
	Connector KindID = "connector"
	Ring      KindID = "ring"
	Swivel    KindID = "swivel"
	Pulley    KindID = "pulley"
	Device    KindID = "device"
	Helmet    KindID = "helmet"
	Rescue    KindID = "rescue"
	Rigging   KindID = "rigging"
	Ascender  KindID = "ascender"
	Absorber  KindID = "absorber"
	Other     KindID = "other"
)

// LookID names one kind of attention given to a piece.
type LookID string

// The looks, in the fixed order in which drops of doubt are told.
const (
	Ask   LookID = "ask"
	Read  LookID = "read"
	Eye   LookID = "eye"
	Hand  LookID = "hand"
	Bight LookID = "bight"
	Gauge LookID = "gauge"
	Ends  LookID = "ends"
	Work  LookID = "work"
)

// Looks lists every look in the fixed order of telling.
var Looks = [...]LookID{Ask, Read, Eye, Hand, Bight, Gauge, Ends, Work}

// Order gives the place of a look in the fixed order of telling, or
// len(Looks) for a word that is no look.
func (l LookID) Order() int {
	for i, k := range Looks {
		if k == l {
			return i
		}
	}
	return len(Looks)
}

// ExamKind is the sort of attention that law and standards name.
type ExamKind string

// The kinds of examination.
const (
	PreUse   ExamKind = "pre-use"
	Partner  ExamKind = "partner"
	Interim  ExamKind = "interim"
	Thorough ExamKind = "thorough"
)

// ExamKinds lists the kinds of examination by how much they ask for.
var ExamKinds = [...]ExamKind{PreUse, Partner, Interim, Thorough}

// Rank gives the place of a kind in ExamKinds; one not known is no examination
// at all: -1.
func (k ExamKind) Rank() int {
	for i, x := range ExamKinds {
		if x == k {
			return i
		}
	}
	return -1
}

// Yes is an answer that can also be missing: unknown never counts as good.
type Yes string

// The answers to a question of fact. The zero value means that nothing was said.
const (
	NotSaid  Yes = ""
	SaidYes  Yes = "yes"
	SaidNo   Yes = "no"
	NotKnown Yes = "not known"
)

// SignState says how a sign stands against the record before.
type SignState string

// The states of a sign. FirstSeen is a new fact; the others speak of one on record.
const (
	FirstSeen SignState = "first seen"
	Same      SignState = "same"
	Grown     SignState = "grown"
	GoneWash  SignState = "gone after washing"
	Gone      SignState = "gone"
)

// Verdict is the outcome for a piece, from loosest to strictest.
type Verdict int

// The four outcomes. A larger value is stricter.
const (
	Keep Verdict = iota
	KeepSooner
	SetAside
	Withdraw
)

// String gives the outcome in the words shown to a person.
func (v Verdict) String() string {
	switch v {
	case Keep:
		return "keep"
	case KeepSooner:
		return "keep, look sooner"
	case SetAside:
		return "set aside"
	default:
		return "withdraw"
	}
}

// Stricter gives the stricter of two outcomes.
func Stricter(a, b Verdict) Verdict {
	if b > a {
		return b
	}
	return a
}

// ParseVerdict reads the words of String back; ok is false for any other text.
func ParseVerdict(s string) (v Verdict, ok bool) {
	for v := Keep; v <= Withdraw; v++ {
		if v.String() == s {
			return v, true
		}
	}
	return Withdraw, false
}
