package tables

import (
	"maps"
	"strings"
	"testing/fstest"
)

// small is a set of data files that is as small as one can be and loads. Its
// figures mean nothing.
var small = map[string]string{
	"lines.toml": `[unit]
[[line]]
id = "X-1"
says = "Something."
source = "a book"
place = "page 1"
mark = "seen"
status = "published"
[[line]]
id = "W-1"
says = "Mind this."
source = "a book"
place = "page 2"
mark = "proposed"
status = "assumed"
caution = "Mind this."
rests_on = ["X-1"]
`,
	"fibres.toml": `[unit]
low = "g/cm3|C"
high = "g/cm3|C"
low_share = "share"
high_share = "share"
[[fibre]]
id = "pes"
words = "polyester"
textile = true
melts = true
` + cited + `[[property]]
fibre = "pes"
property = "melt"
low = "250 C"
high = "260 C"
mark = "seen"
` + cited + `[[property]]
fibre = "pes"
property = "density"
low = "1.38 g/cm3"
high = "1.38 g/cm3"
mark = "seen"
` + cited + `[[property]]
fibre = "pes"
property = "regain"
low_share = 0.005
high_share = 0.005
mark = "seen"
` + cited,
	"contaminants.toml": `[unit]
[[contaminant]]
id = "oil"
words = "oil"
harmless_everywhere = false
splash = "a drop"
soaked = "more"
` + cited + `[[effect]]
contaminant = "oil"
fibre = ["any"]
amount = ["any"]
outcome = "withdraw"
wash = false
` + cited,
	"causes.toml": `[unit]
[[cause]]
id = "dirt"
words = "dirt"
washable = true
` + cited,
	"looks.toml": smallLooks(),
	"events.toml": `[unit]
[[event]]
id = "fall"
words = "a fall"
` + cited + `[[effect]]
event = "fall"
groups = ["textile"]
verdict = "withdraw"
` + cited,
	"use.toml": `[unit]
z = "1"
days = "days a week"
[[dirt]]
id = "clean"
words = "clean"
z = 0
` + cited + `[[dirt]]
id = "sandy"
words = "sand"
z = 1
` + cited + `[[hardware]]
id = "ring"
words = "a ring"
z = 0
` + cited + `[[use]]
id = "reference"
week = "25 h"
mass = "80 kg"
days = 5
dirt = "clean"
hardware = "ring"
` + cited + `[[use]]
id = "cautious"
week = "40 h"
mass = "120 kg"
day = "16 h"
days = 7
dirt = "sandy"
hardware = "ring"
` + cited,
	"rules.toml": smallRules(),
	"life.toml": `[unit]
limit = "years"
[[life]]
id = "use"
kinds = ["bridge"]
counts_from = "first use"
limit = "5 years"
applies = ["country:GB", "when the maker says nothing"]
binding = true
outcome = "withdraw"
words = "Five years."
` + cited,
	"intervals.toml": `[unit]
every = "months"
[[group]]
id = "lifts persons"
words = "lifts persons"
kinds = ["bridge"]
` + cited + `[[country]]
id = "GB"
words = "Great Britain"
also = []
` + cited + `[[country]]
id = "XX"
words = "elsewhere"
also = ["GB"]
` + cited + `[[interval]]
id = "six"
country = "GB"
group = "lifts persons"
examination = "thorough"
every = "6 months"
scheme_may = "shorten or lengthen"
arduous = false
force = "law"
words = "Every six months."
` + cited + `[[law]]
id = "law"
country = "GB"
when = "always"
shown_with = ["keep"]
words = "A law."
` + cited,
	"bench.toml": `[unit]
ratio = "D/d"
left = "share"
left_low = "share"
left_high = "share"
mu_low = "1"
mu_high = "1"
capacity = "J/(kg K)"
coefficient = "N/mm2"
[[bend]]
ratio = 1
left = "50 %"
mark = "seen"
` + cited + `[[bend]]
ratio = 40
left = "95 %"
mark = "seen"
` + cited + `[[knot]]
knot = "bowline"
words = "bowline"
fibre = ["pes"]
rope = "new"
left_low = "60 %"
left_high = "70 %"
mark = "seen"
` + cited + `[[damage]]
id = "cut"
what = "a cut"
item = "tape"
fibre = ["pes"]
pieces = "1"
found = "much"
left_low = "60 %"
left_high = "95 %"
mark = "seen"
` + cited + `[[friction]]
id = "bar"
surface = "a bar"
rope = "any"
mu_low = 0.1
mu_high = 0.2
mark = "seen"
` + cited + `[[capacity]]
id = "bar"
words = "a bar"
capacity = 900
mark = "seen"
` + cited + `[[tension]]
id = "rule"
words = "a rule"
coefficient = 1.25
mark = "seen"
` + cited,
	"kinds/bridge.toml": smallBridge,
}

const cited = `source = ["X-1"]
place = "page 1"
status = "published"
`

func smallLooks() string {
	return `[unit]
beta = "share"
k = "share"
f = "share"
` + each("ask read eye hand bight gauge ends work", `[[look]]
id = "%"
words = "w"
how = "h"
beta = 0.5
`) + `[[kappa]]
look = ["ask", "read", "eye", "hand", "bight", "gauge", "ends", "work"]
exam = ["pre-use", "partner", "interim", "thorough"]
k = 0.8
` + cited + `[[factor]]
look = ["any"]
condition = "light"
state = ["good", "poor", "dark"]
f = 0.9
` + cited + `[[factor]]
look = ["any"]
condition = "light"
state = ["not said"]
f = 0.5
` + cited + each("cleaned wet frozen muddy gloves hurried", `[[factor]]
look = ["any"]
condition = "%"
state = ["yes", "no", "not known", "not said"]
f = 0.9
`)
}

func smallRules() string {
	return `[unit]
limit = "millionths"
limit_most = "millionths"
run_days = "days"
horizon = "days"
label_far = "per mille"
repeat_se = "hundredths"
` + strings.ReplaceAll("explained observation half_usual run_share fall_peak cause_floor store_share ", " ", " = \"share\"\n") +
		each("limit limit_most run_days horizon label_far repeat_se", `[[rule]]
name = "%"
value = 1000
words = "w"
`) + each("explained observation half_usual run_share fall_peak cause_floor store_share", `[[rule]]
name = "%"
value = 0.5
words = "w"
`) + each("fall_travel gauge_reach", `[[rule]]
name = "%"
value = "500 mm"
words = "w"
`) + each("usual_months declared_months", `[[rule]]
name = "%"
value = "6 months"
words = "w"
`)
}

// each writes a row for every word, with its citation.
func each(list, row string) string {
	s := ""
	for _, w := range strings.Fields(list) {
		s += strings.ReplaceAll(row, "%", w) + cited
	}
	return s
}

var smallBridge = `[unit]
extent = "share"
most = "share"
t01 = "1/year"
t02 = "1/year"
t12 = "1/year"
h01 = "1/100 h"
h02 = "1/100 h"
h12 = "1/100 h"
hidden = "share"
beta_dirt = "1"
beta_mass = "1"
beta_hardware = "1"
new1 = "share"
new2 = "share"
floor_h = "1/100 h"
floor_t = "1/year"
floor_store = "1/year"
shares = "share"
q1 = "share"
q2 = "share"
leak = "1/m"
r = "share"
cover = "share"
mu = "share|mm"
sigma = "share|mm"
nu = "1"
slip = "share"
slip_c = "1/share|1/mm"
shared = "share|mm"
out = "share|mm"
per_mille = "1/1000"
minutes = "minutes"
p = "share"
from_peak = "share"
j01 = "share"
j02 = "share"
j12 = "share"
[kind]
id = "bridge"
words = "bridge"
group = "textile"
axis = "length"
cell = "50 mm"
length = "900 mm"
sides = ["top", "under"]
strict = true
doubt = true
fitted = true
layers = ["cover", "core"]
must = ["cover or core"]
` + cited + `[[zone]]
id = "bend"
words = "bend"
where = "ends"
extent = 0.1
most = 0.2
` + cited + `[[zone]]
id = "free"
words = "free"
where = "rest"
` + cited + `[[part]]
id = "end A"
words = "end A"
end = "A"
extent = "60 mm"
` + cited + `[[part]]
id = "end B"
words = "end B"
end = "B"
extent = "60 mm"
` + cited + `[[mode]]
id = "cut"
words = "cut"
scope = "cells"
t01 = 0.1
t02 = 0
t12 = 0.1
h01 = 0.1
h02 = 0
h12 = 0.1
hidden = 0.1
beta_dirt = 0
beta_mass = 0
beta_hardware = 0
new1 = 0
new2 = 0
floor_h = 0.01
floor_t = 0.01
floor_store = 0.001
shares = { bend = 0.3, free = 0.7 }
` + cited + `[[mode]]
id = "age"
words = "age"
scope = "whole"
t01 = 0.1
t02 = 0
t12 = 0.1
h01 = 0
h02 = 0
h12 = 0
hidden = 0.1
beta_dirt = 0
beta_mass = 0
beta_hardware = 0
new1 = 0
new2 = 0
floor_h = 0
floor_t = 0.01
floor_store = 0.001
` + cited + `[[mode]]
id = "stretch"
words = "stretch"
scope = "whole"
t01 = 0.1
t02 = 0
t12 = 0.1
h01 = 0
h02 = 0
h12 = 0
hidden = 0.1
beta_dirt = 0
beta_mass = 0
beta_hardware = 0
new1 = 0
new2 = 0
floor_h = 0
floor_t = 0.01
floor_store = 0.001
` + cited + `[[sign]]
id = "cut-seen"
words = "a cut"
class = "absolute"
looks = ["eye"]
links = [{ mode = "cut", q1 = 0.4, q2 = 0.6 }]
leak = 0.002
` + cited + `[[sign]]
id = "thin"
words = "thin"
class = "to be weighed"
looks = ["eye"]
links = [{ mode = "age", q1 = 0.4, q2 = 0.6 }]
leak = 0.002
causes = [{ cause = "dirt", r = 0.5 }]
` + cited + `[[sign]]
id = "long"
words = "long"
class = "set aside"
looks = ["eye"]
links = [{ mode = "stretch", q1 = 0.4, q2 = 0.6 }]
leak = 0.002
question = "Why?"
` + cited + `[[sign]]
id = "fuzz"
words = "fuzz"
class = "observation"
looks = ["eye"]
` + cited + each("pre-use interim thorough", `[[need]]
exam = "%"
look = "eye"
cover = 1
`) + `[[read]]
id = "diameter"
words = "diameter"
mode = "cut"
basis = "own"
mu = [0, -0.1, -0.2]
sigma = [0.1, 0.1, 0.1]
nu = 4
slip = 0.02
slip_c = 2
error = "0.1 mm"
shared = 0.01
out = -0.06
sign = "thin"
grows = false
` + cited + `[[limit]]
of = "diameter"
per_mille = -100
below = true
verdict = "withdraw"
words = "too thin"
` + cited + `[[ask]]
id = "fall"
words = "A fall?"
yes = "fall"
` + cited + `[[time]]
look = "eye"
minutes = 3
` + cited + `[[prior]]
cause = "dirt"
p = 0.1
` + cited + `[[kernel]]
event = "fall"
mode = "cut"
from_peak = 0
j01 = 0.1
j02 = 0.1
j12 = 0.1
` + cited

// set gives the small set as a file system, with one file replaced.
func set(name, text string) fstest.MapFS {
	files := maps.Clone(small)
	if name != "" {
		files[name] = text
	}
	out := fstest.MapFS{}
	for n, s := range files {
		if s != "" {
			out[n] = &fstest.MapFile{Data: []byte(s)}
		}
	}
	return out
}
