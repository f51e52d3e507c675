package record

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// fixture gives small invented tables, so that messages and records to fill in
// can be tested word for word whatever becomes of the real ones.
func fixture() *table.Tables {
	ends := []table.Part{
		{ID: "end A", Words: "end A with its eye", End: "A", Extent: 60 * qty.Millimetre},
		{ID: "end B", Words: "end B with its eye", End: "B", Extent: 60 * qty.Millimetre},
	}
	eyeHand := []kit.LookID{kit.Eye, kit.Hand}
	need := func(exam kit.ExamKind, looks ...kit.LookID) (out []table.Need) {
		for _, l := range looks {
			out = append(out, table.Need{Exam: exam, Look: l, Cover: 1})
		}
		return out
	}
	t := &table.Tables{
		Kinds: []table.Kind{
			{
				ID: kit.Bridge, Words: "rope bridge on a harness", Group: "textile", Axis: "length",
				Length: 900 * qty.Millimetre, Sides: []string{"top", "under"}, Fitted: true, Doubt: true,
				Layers: []string{"cover", "intermediate", "core"}, Must: [][]string{{"cover", "core"}},
				Zones: []table.Zone{{ID: "bend", Words: "the bend at each fitting", Most: .5}, {ID: "travel", Words: "the travel of the ring", Most: .9},
					{ID: "free", Words: "what lies between", Where: "rest"}},
				Parts: ends,
				Signs: []table.Sign{
					{ID: "melted", Words: "melted or glazed hard patch", Class: table.Absolute, Looks: eyeHand},
					{ID: "knot-wrong", Words: "knot not as its maker ties it", Class: table.Aside, Looks: []kit.LookID{kit.Ends}},
					{ID: "stiffer", Words: "stiffer all along than last time", Class: table.Weigh, Whole: true, Looks: []kit.LookID{kit.Bight}},
					{ID: "grey", Words: "grey of metal rubbed into the cover", Class: table.Weigh, Looks: []kit.LookID{kit.Eye},
						Causes: []table.CauseLink{{Cause: "metal-rub", R: .95}}},
					{ID: "light-fuzz", Words: "fuzz of use on the cover, light and even", Class: table.Observation, Looks: eyeHand},
				},
				Needs: append(need(kit.PreUse, kit.Ask, kit.Eye, kit.Hand), need(kit.Thorough, kit.Ask, kit.Read, kit.Eye, kit.Hand, kit.Gauge, kit.Ends)...),
				Reads: []table.Quantity{{ID: "diameter", Words: "diameter of the rope", Mode: "core", Sign: "stiffer"}},
				Asks: []table.Ask{
					{ID: "fall", Words: "Did it hold a fall, or a load that dropped half a metre or more before it was caught?", Yes: "fall"},
					{ID: "spill", Words: "Did anything get on it, or could it have?", Yes: "spill"},
				},
			},
			{
				ID: kit.Connector, Words: "karabiner or other connector", Group: "metal", Axis: "parts", Doubt: true,
				Parts: []table.Part{{ID: "body", Words: "the body"}, {ID: "gate", Words: "gate, hinge and lock"}},
				Signs: []table.Sign{
					{ID: "cracked", Words: "crack anywhere", Class: table.Absolute, Looks: []kit.LookID{kit.Eye}},
					{ID: "gate-stuck", Words: "cleaned, the gate still does not shut of itself", Class: table.Absolute, Looks: []kit.LookID{kit.Work}},
					{ID: "scratched", Words: "surface scratches", Class: table.Weigh, Looks: eyeHand},
				},
				Needs: need(kit.Thorough, kit.Ask, kit.Read, kit.Eye, kit.Gauge, kit.Work),
				Reads: []table.Quantity{{ID: "groove", Words: "depth of the groove a rope has worn", Mode: "groove"}},
			},
		},
		Looks: []table.Look{
			{ID: kit.Ask, Words: "asking what happened to it", How: "Ask the person who used it, and read the record."},
			{ID: kit.Read, Words: "reading marking and identity", How: "Read every marking, and compare it with the record."},
			{ID: kit.Eye, Words: "looking at it", How: "In good light, cleaned, a stretch at a time, all round; slide rings and fittings away and look beneath."},
			{ID: kit.Hand, Words: "feeling it", How: "Without gloves, run all of it between finger and thumb."},
			{ID: kit.Gauge, Words: "measuring it", How: "At the same tension and places as the first record."},
			{ID: kit.Ends, Words: "examining ends, knots, splices and stitching", How: "Inside and outside of every eye, and every stitch."},
			{ID: kit.Work, Words: "working every moving part", How: "Through its whole travel, several times."},
		},
		Causes:       []table.Cause{{ID: "metal-rub", Words: "grey rubbed off a ring"}, {ID: "sap", Words: "sap or resin from trees"}},
		Fibres:       []table.Fibre{{ID: "pa"}, {ID: "pes"}, {ID: "steel", Metal: true}, {ID: "aluminium", Metal: true}, {ID: "unknown"}},
		Contaminants: []table.Contaminant{{ID: "chain-oil", Words: "chain oil"}, {ID: "fuel", Words: "petrol, two-stroke mix"}, {ID: "unknown", Words: "nobody knows what"}},
		Countries:    []table.Country{{Code: "GB"}, {Code: "IE"}, {Code: "other"}},
		Events:       []table.Event{{ID: "fall", Words: "it held a fall"}, {ID: "sudden-load", Words: "a sudden load, short of a fall"}, {ID: "spill", Words: "something got on it"}},
		Dirt:         []table.Level{{ID: "clean", Words: "clean"}, {ID: "sandy", Words: "sand or dust"}},
		Hardware:     []table.Level{{ID: "ring", Words: "a smooth ring"}, {ID: "rough", Words: "something rough"}},
		Rules:        table.Rules{Limit: 1000, LimitMost: 10_000, Cautious: table.Use{Week: 80 * qty.Hour, Day: 16 * qty.Hour, Days: 7, Mass: 200 * qty.Kilogram}},
	}
	t.Index()
	return t
}

// filled is a record that says something under every key of the format.
const filled = `format = "kernbook record 1"
as_of = 2026-06-01

[yard]
name = "Quillbrook Tree Care"
country = "GB"
limit = "1 in 3000"
[yard.scheme]
every = "6 months"
document = "scheme 3"
by = "Hedda Lund"

[piece]
id = "B7"
kind = "bridge"
words = "orange"
maker = "M"
model = "N"
serial = "s 1"
batch = "b 2"
marking = "partly"
proof = "photo of the purchase"
origin = "new"
history = "known"
traced = "letter 4"
made = "2025-01"
first_use = 2025-04-01
bought = 2025
declared = "2025-02-03"
obsolete = "2031"
maker_life_from_made = "8 years"
maker_life_from_use = "5 years"
maker_document = "leaflet 2"
examined = "2025-03-30"
examined_before_use = true
examination_document = "report 9"
length = "90cm"
diameter = "11,7mm"
stored = "used"
end_a = {how = "knot", tail = "90mm", stitch = "whole"}
end_b = {how = "splice"}

[[piece.layer]]
name = "cover"
fibre = "pes"

[[piece.zone]]
zone = "bend"
from = "0mm"
to = "60mm"

[[piece.zone]]
zone = "travel"
from = "200mm"
to = "70cm"

[piece.fitted]
in = "H2"
allowed = "yes"
document = "leaflet 2"
[[person]]
id = "kim"
role = "competent person"
since = 2020-01-01
holds = true
[person.kappa]
eye = {share = 0.4, from = "practice board 2026-03"}
hand = {share = "35%", from = "practice board 2026-03"}

[[person]]
id = "lee"

[[use]]
from = 2025-03-01
store = true

[[use]]
from = 2025-04-01
week = "25h"
weekdays = ["mon", "wed"]
mass = "92kg"
dirt = "sandy"
hardware = "ring"

[[examination]]
ref = "E1"
kind = "interim"
day = 2025-10-01
by = "lee"
look = [{look = "eye", covers = "all"}]

[[examination.sign]]
ref = "g1"
sign = "grey"
at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}

[[examination]]
ref = "E2"
kind = "thorough"
day = "2026-06-01"
by = "kim"
signed = "kim"
would_climb = "yes"
latest = "2026-12"
after_event = "X1"
conditions = {light = "good", cleaned = "yes", wet = "no", frozen = "no", muddy = "no", gloves = "not known", hurried = "no"}

[[examination.look]]
look = "ask"

[[examination.look]]
look = "eye"
by = "lee"
covers = [{from = "0mm", to = "450mm", sides = ["top", "under"]}, {part = "end A", sides = "all"}]
conditions = {light = "poor"}
after_washing = true

[[examination.look]]
look = "hand"
covers = []

[examination.asked]
fall = "no"
spill = "not known"

[[examination.sign]]
ref = "g1"
state = "same"

[[examination.sign]]
sign = "stiffer"
look = "bight"
by = "lee"
after_washing = true
words = "a little"

[[examination.sign]]
sign = "knot-wrong"
at = {part = "end A"}

[[examination.reading]]
ref = "r1"
quantity = "diameter"
at = {at = "450mm"}
values = ["11.2mm", "11.3mm"]
again = ["11.2mm"]
gauge = "calliper 2"
error = "0.1mm"
tension = "200N"
method = "at rest"
wet = "no"

[[run]]
ref = "P1"
kind = "pre-use"
by = "lee"
from = 2025-04-01
to = 2025-09-30
weekdays = ["mon", "wed"]
looks = ["eye", "hand"]

[[run]]
kind = "partner"
by = "kim"
from = 2025-04-01
to = 2025-09-30
weekdays = ["mon"]
conditions = {light = "poor"}

[[run.look]]
look = "eye"
covers = [{from = "1/2in", to = "450mm", sides = "all"}]
conditions = {gloves = "no"}

[[event]]
ref = "X1"
day = 2026-01-15
event = "sudden-load"
travel = "300mm"
peak = "12%"
words = "slipped off a limb"

[[event]]
ref = "X2"
day = 2026-02-15
event = "spill"
at = {at = "100mm"}
substance = "fuel"
amount = "suspected"
washed = "no"
injury = true

[[answer]]
day = 2026-06-01
to = "g1"
cause = "metal-rub"
verified = "matched to the ring"
by = "kim"
document = "sheet 8"

[[answer]]
day = 2026-06-01
to = "X2"
cause = "fuel"
verified = "laboratory"
by = "kim"
unfit = true

[[answer]]
day = 2026-06-01
to = "identity"
verified = "maker's letter"
by = "kim"

[[change]]
day = 2025-12-01
what = "zones"
by = "kim"
words = "turned end for end"
[[change.zones]]
zone = "travel"
from = "200mm"
to = "700mm"

[[change]]
day = 2026-06-02
what = "shortened at end B"
length = "120mm"
by = "kim"
`
