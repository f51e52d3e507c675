// Package record reads and writes "kernbook record 1": one piece of kit with
// its history and the examination at hand, as TOML or JSON. Reading is strict:
// unknown keys and words, missing units, dates in the wrong order and entries
// that speak of nothing are faults, all found in one go, each with its line and
// how to mend it. docs/record.md explains the format.
package record

import (
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
)

// Format is what the first key of every record says.
const Format = "kernbook record 1"

// MaxSize is the largest record read, in bytes, by whatever program; a larger
// one has that as its fault.
const MaxSize = 8 << 20

// The closed lists of words; the open ones (kinds, signs, zones …) are those of
// the tables. The order is that of the messages and of the schema.
var (
	markings    = []string{"readable", "partly", "unreadable"}
	origins     = []string{"new", "other yard", "second-hand", "found"}
	histories   = []string{"known", "not wholly known"}
	storedIn    = []string{"used", "store"}
	layerNames  = []string{"cover", "intermediate", "core", "wire core", "webbing", "body"}
	endHows     = []string{"knot", "splice", "stitched", "moulded", "none"}
	endStitches = []string{"whole", "cut", "missing", "none"}
	roles       = []string{"climber", "storekeeper", "examiner", "competent person"}
	answers     = []string{string(kit.SaidYes), string(kit.SaidNo), string(kit.NotKnown)}
	lights      = []string{"good", "poor", "dark"}
	amounts     = []string{"suspected", "splash", "soaked"}
	changes     = kit.Changes[:]
	weekdays    = []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}
	examKinds   = []string{string(kit.PreUse), string(kit.Partner), string(kit.Interim), string(kit.Thorough)}
	runKinds    = examKinds[:2]
	states      = []string{string(kit.FirstSeen), string(kit.Same), string(kit.Grown), string(kit.GoneWash), string(kit.Gone)}
)

// questions are the words under which an outcome asks for an answer that
// belongs to no entry of the record.
var questions = []string{
	criteria.QIdentity, criteria.QAssembly, criteria.QHistory, criteria.QManufacture, criteria.QDeclaration,
	criteria.QProof, criteria.QStorage, criteria.QThorough, criteria.QExamine, criteria.QLook, criteria.QAsk,
	criteria.QSign, criteria.QEvent, criteria.QRelease, criteria.QSubstance, criteria.QWash, criteria.QMeasure,
	criteria.QSay, criteria.QKind,
}

// calledKinds are other words of the trade for a kind of piece, in small letters.
var calledKinds = map[string]string{
	"rope": "line", "climbing rope": "line", "climbing line": "line",
	"karabiner": "connector", "carabiner": "connector", "krab": "connector", "biner": "connector", "maillon": "connector",
	"rope bridge": "bridge", "flip line": "lanyard", "flipline": "lanyard", "positioning lanyard": "lanyard",
	"split-tail": "hitch-cord", "split tail": "hitch-cord", "prusik": "hitch-cord", "strop": "sling", "friction saver": "sling",
}

// calledSubstances are other words for a contaminant of the tables, in small letters.
var calledSubstances = map[string]string{
	"bar-oil": "chain-oil", "bar oil": "chain-oil", "saw oil": "chain-oil", "oil": "chain-oil", "lubricant": "chain-oil",
	"petrol": "fuel", "gasoline": "fuel", "gas": "fuel", "diesel": "fuel", "two-stroke": "fuel", "acid": "battery-acid",
	"caustic": "alkali", "caustic soda": "alkali", "lye": "alkali", "chlorine": "bleach", "peroxide": "oxidiser", "weed killer": "herbicide", "weedkiller": "herbicide",
	"insect spray": "repellent", "deet": "repellent", "thinner": "solvent", "acetone": "solvent", "paint": "solvent", "mould": "mildew", "mold": "mildew",
	"sea water": "salt-water", "seawater": "salt-water", "sap": "resin", "pitch": "resin", "dirt": "mud", "rain": "water",
}

// calledFibres are other names of a fibre or metal of the tables, calledLooks of
// a look, in small letters.
var (
	calledFibres = map[string]string{
		"polyester": "pes", "pet": "pes", "polyamide": "pa", "nylon": "pa", "uhmwpe": "hmpe", "polypropylene": "pp",
		"aluminum": "aluminium", "alu": "aluminium",
	}
	calledLooks = map[string]string{
		"look": "eye", "visual": "eye", "feel": "hand", "touch": "hand", "tactile": "hand", "measure": "gauge", "calliper": "gauge", "caliper": "gauge",
		"function": "work", "knots": "ends", "splices": "ends", "bend": "bight", "label": "read", "marking": "read",
	}
)

// calledCountries are other names of a country of the tables, in small letters.
var calledCountries = map[string][]string{
	"GB": {"uk", "united kingdom", "england", "scotland", "wales", "northern ireland", "great britain"},
	"IE": {"eire", "republic of ireland"},
	"US": {"usa", "america"}, "US-CA": {"california"}, "US-WA": {"washington"},
	"DE": {"deutschland", "d"},
}

// yesKeys are the conditions of a look that are answered with yes or no.
var yesKeys = []string{"cleaned", "wet", "frozen", "muddy", "gloves", "hurried"}

const (
	unknown  = "unknown"
	everyone = "all"
	wholeIt  = "whole"
	zoneMove = "zones"
)

// shortens reports whether a change cuts something off.
func shortens(what string) bool { return strings.HasPrefix(what, "shortened") }
