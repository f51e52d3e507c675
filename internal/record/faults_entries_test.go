package record

// faultsOfEntries are those of examinations, runs, events, answers and changes.
var faultsOfEntries = []faultCase{
	{
		old: `kind = "interim"
day = 2025-10-01
by = "lee"`,
		new: `kind = "interim"
day = "2025-13-01"
by = "lee"`,
		want: []string{
			`88: examination[0].day: “2025-13-01” is no day of the calendar — write the day itself, such as 2026-06-01`,
		},
	},
	{
		old: `kind = "interim"
day = 2025-10-01
by = "lee"`,
		new: `kind = “interim”
day = 2025-10-01
by = "lee"`,
		want: []string{
			`87: examination[0].kind: a text stands in curly quotes (“interim”) — write straight ones, as "new"`,
		},
	},
	{
		old: `kind = "interim"
day = 2025-10-01
by = "lee"`,
		new: `kind = "interim"
day = 2024-10-01
by = "le"`,
		want: []string{
			`88: examination[0].day: 1 Oct 2024 lies before the piece was made (Jan 2025) — correct one of the two`,
			`89: examination[0].by: “le” is no person of this record; did you mean “lee”? — write one of "kim" or "lee", or add a [[person]] with this id`,
		},
	},
	{
		old: `kind = "interim"
day = 2025-10-01
by = "lee"`,
		new: `kind = "interim"
day = 2025-02-30
by = "lee"`,
		want: []string{
			`88: examination[0].day: “2025-02-30” is not in the calendar: Feb 2025 has days 1 to 28 — write a day of the calendar, such as 2026-06-01`,
		},
	},
	{
		old: `look = [{look = "eye", covers = "all"}]`,
		new: `look = [{look = "eye"}]`,
		want: []string{
			`90: examination[0].look[0].covers: is missing — add it: write covers = "all", or a list such as [{from = "0mm", to = "450mm", sides = "all"}, {part = "…", sides = "all"}]`,
		},
	},
	{
		old: `look = [{look = "eye", covers = "all"}]`,
		new: `look = [{look = "eyes", covers = "everywhere"}]`,
		want: []string{
			`90: examination[0].look[0].look: “eyes” is no look; did you mean “eye”? — write one of "ask", "read", "eye", "hand", "bight", "gauge", "ends" or "work"`,
			`90: examination[0].look[0].covers: “everywhere” is no word taken here — write covers = "all", or a list such as [{from = "0mm", to = "450mm", sides = "all"}, {part = "…", sides = "all"}]`,
		},
	},
	{
		old: `ref = "g1"
sign = "grey"`,
		new: `ref = "g2"
sign = "gray"`,
		want: []string{
			`94: examination[0].sign[0].sign: “gray” is no sign of the kind “bridge”; did you mean “grey”? — write one of "melted", "knot-wrong", "stiffer", "grey" or "light-fuzz"`,
			`127: examination[1].sign[0].ref: no sign “g1” is on record before this, so it cannot be “same” — correct the ref, or leave state out where the sign is new`,
			`195: answer[0].to: “g1” is no entry on record and no question — write the ref of an entry, or the word that the outcome names for its question`,
		},
	},
	{
		old: `sign = "grey"`,
		new: `sign = "gate-stuck"`,
		want: []string{
			`94: examination[0].sign[0].sign: “gate-stuck” is a sign of “connector” but not of the kind “bridge” — write one of "melted", "knot-wrong", "stiffer", "grey" or "light-fuzz"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: ``,
		want: []string{
			`92: examination[0].sign[0].at: is missing — add it: write where it is: {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: `at = "300mm"`,
		want: []string{
			`95: examination[0].sign[0].at: “300mm” is no place — write {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: `at = {from = "400mm", to = "300mm", sides = ["bottom"], layer = "core"}`,
		want: []string{
			`95: examination[0].sign[0].at.to: 300 mm lies before from (400 mm) — write the smaller one as from: both count from end A`,
			`95: examination[0].sign[0].at.sides[0]: “bottom” is no side of the kind “bridge” — write one of "top" or "under"`,
			`95: examination[0].sign[0].at.layer: “core” is no layer of this piece — write "cover"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: `at = {at = "950mm", part = "end A"}`,
		want: []string{
			`95: examination[0].sign[0].at: tells a place in two ways — write {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: `at = {at = "950mm"}`,
		want: []string{
			`95: examination[0].sign[0].at.at: 950 mm lies beyond the end of the piece, which is 900 mm long — write the distance from end A`,
		},
	},
	{
		old: `latest = "2026-12"`,
		new: `latest = "2025-12"`,
		want: []string{
			`104: examination[1].latest: lies before the examination itself (1 Jun 2026) — write the day by which the next one is due`,
		},
	},
	{
		old: `after_event = "X1"`,
		new: `after_event = "X3"`,
		want: []string{
			`105: examination[1].after_event: no event “X3” is on record — write the ref of an [[event]]`,
		},
	},
	{
		old: `after_event = "X1"`,
		new: `after_event = "X1"
held_by = ["kim", "jo"]`,
		want: []string{
			`106: examination[1].held_by: names “jo”, who is no [[person]] of the record — write the id of a [[person]], or add one with this id`,
		},
	},
	{
		old: `signed = "kim"`,
		new: `signed = "Kim Lund"`,
		want: []string{
			`102: examination[1].signed: “Kim Lund” is no person of this record; did you mean “kim”? — write one of "kim" or "lee", or add a [[person]] with this id`,
		},
	},
	{
		old: `gloves = "not known"`,
		new: `gloves = "maybe"`,
		want: []string{
			`106: examination[1].conditions.gloves: “maybe” is not a word taken here — write one of "yes", "no" or "not known"`,
		},
	},
	{
		old: `covers = [{from = "0mm", to = "450mm", sides = ["top", "under"]}, {part = "end A", sides = "all"}]`,
		new: `covers = [{from = "0mm", to = "950mm", sides = ["top", "top"]}, {part = "end C", sides = "all"}, {}, 3]`,
		want: []string{
			`114: examination[1].look[1].covers[0].to: 950 mm lies beyond the end of the piece, which is 900 mm long — write the distance from end A`,
			`114: examination[1].look[1].covers[0].sides[1]: “top” is there twice — write it once`,
			`114: examination[1].look[1].covers[1].part: “end C” is no part of the kind “bridge”; did you mean “end A”? — write one of "end A" or "end B"`,
			`114: examination[1].look[1].covers[2]: says no place — write {from = "0mm", to = "450mm"} or {part = "…"}`,
			`114: examination[1].look[1].covers[3]: is a whole number (3) where a table is wanted — write it as a table`,
		},
	},
	{
		old: `spill = "not known"`,
		new: `spil = "no"`,
		want: []string{
			`124: examination[1].asked.spil: “spil” is no question of the kind “bridge”; did you mean “spill”? — write one of "fall" or "spill"`,
		},
	},
	{
		old: `ref = "g1"
state = "same"`,
		new: `ref = "g7"
state = "same"`,
		want: []string{
			`127: examination[1].sign[0].ref: no sign “g7” is on record before this, so it cannot be “same” — correct the ref, or leave state out where the sign is new`,
		},
	},
	{
		old: `ref = "g1"
state = "same"`,
		new: `state = "grown"`,
		want: []string{
			`126: examination[1].sign[0].ref: is missing — add it: write the ref of the sign on record that is "grown"`,
		},
	},
	{
		old: `ref = "g1"
state = "same"`,
		new: `ref = "g1"
state = "same"
sign = "melted"`,
		want: []string{
			`129: examination[1].sign[0].sign: “melted” is not what “g1” was on record as: “grey” (line 93) — leave the key out, or enter a new sign with a ref of its own`,
		},
	},
	{
		old: `ref = "g1"
state = "same"`,
		new: `ref = "g1"
sign = "melted"
at = "whole"`,
		want: []string{
			`127: examination[1].sign[0].ref: “g1” is the ref of the sign in line 93 too — give each entry a ref of its own; where it is the same sign, say so: state = "same", "grown" or "gone"`,
		},
	},
	{
		old: `sign = "stiffer"
look = "bight"`,
		new: `sign = "stiffer"
look = "eye"`,
		want: []string{
			`132: examination[1].sign[1].look: “eye” cannot show the sign “stiffer” — write "bight", or leave the key out`,
		},
	},
	{
		old: `quantity = "diameter"`,
		new: `quantity = "diametre"`,
		want: []string{
			`143: examination[1].reading[0].quantity: “diametre” is no quantity of the kind “bridge”; did you mean “diameter”? — write "diameter"`,
		},
	},
	{
		old: `values = ["11.2mm", "11.3mm"]`,
		new: `values = ["11.2", "11.3mm"]`,
		want: []string{
			`145: examination[1].reading[0].values[0]: “11.2” has no unit — write a length with its unit (mm, cm, m, in, ft), such as "11.2 mm"`,
		},
	},
	{
		old: `values = ["11.2mm", "11.3mm"]`,
		new: `values = []`,
		want: []string{
			`145: examination[1].reading[0].values: is an empty list — write a list in square brackets, each item a length with its unit in quotes`,
		},
	},
	{
		old: `tension = "200N"`,
		new: `tension = "20kg"`,
		want: []string{
			`149: examination[1].reading[0].tension: “20kg” has a unit that is not taken here: “kg” — write a force with its unit (N, kN, lbf), such as "15 kN"`,
		},
	},
	{
		old: `ref = "P1"
kind = "pre-use"`,
		new: `ref = "X1"
kind = "interim"`,
		want: []string{
			`154: run[0].ref: “X1” is the ref of the event in line 176 too — give each entry a ref of its own`,
			`155: run[0].kind: “interim” is not a word taken here — write one of "pre-use" or "partner"`,
		},
	},
	{
		old: `to = 2025-09-30
weekdays = ["mon", "wed"]
looks = ["eye", "hand"]`,
		new: `to = 2025-03-30
weekdays = []
looks = ["eye", "hands"]`,
		want: []string{
			`158: run[0].to: 30 Mar 2025 lies before from (1 Apr 2025) — write the first day as from and the last as to`,
			`159: run[0].weekdays: names no day — write the days on which the looks were made`,
			`160: run[0].looks[1]: “hands” is no look; did you mean “hand”? — write one of "ask", "read", "eye", "hand", "bight", "gauge", "ends" or "work"`,
		},
	},
	{
		old: `weekdays = ["mon", "wed"]
looks = ["eye", "hand"]`,
		new: `weekdays = ["monday"]`,
		want: []string{
			`153: run[0].looks: is missing — add it: write looks = ["eye", "hand"] for looks that go all over it, or a [[run.look]] for each`,
			`159: run[0].weekdays[0]: “monday” is no day of the week; did you mean “mon”? — write one of "mon", "tue", "wed", "thu", "fri", "sat" or "sun"`,
		},
	},
	{
		old: `weekdays = ["mon", "wed"]
looks`,
		new: `weekdays = "mon-wed"
looks`,
		want: []string{
			`159: run[0].weekdays: is a text (“mon-wed”) where a list is wanted — write each day by itself, such as ["mon", "tue", "wed", "thu", "fri"]`,
		},
	},
	{
		old: `weekdays = ["mon", "wed"]
looks`,
		new: `weekdays = ["mon-wed"]
looks`,
		want: []string{
			`159: run[0].weekdays[0]: “mon-wed” is no day of the week — write each day by itself, such as ["mon", "tue", "wed", "thu", "fri"]`,
		},
	},
	{
		old: `kind = "partner"
by = "kim"`,
		new: `kind = "pre-use"
by = "lee"`,
		want: []string{
			`165: run[1].from: the look “eye” of 7 Apr 2025 is counted by the run in line 157 too — let one run end before the next begins`,
		},
	},
	{
		old: `event = "sudden-load"`,
		new: `event = "shock"`,
		want: []string{
			`178: event[0].event: “shock” is no event of the tables — write one of "fall", "sudden-load" or "spill"`,
		},
	},
	{
		old: `substance = "fuel"`,
		new: `substance = "petrol"`,
		want: []string{
			`188: event[1].substance: “petrol” is no contaminant of the tables; did you mean “fuel”? — write one of "chain-oil", "fuel" or "unknown"`,
		},
	},
	{
		old: `peak = "12%"`,
		new: `peak = 12`,
		want: []string{
			`180: event[0].peak: 12 is not between 0 and 1 — write "12%", or a number between 0 and 1`,
		},
	},
	{
		old: `to = "g1"
cause`,
		new: `to = "g9"
cause`,
		want: []string{
			`195: answer[0].to: “g9” is no entry on record and no question — write the ref of an entry, or the word that the outcome names for its question`,
		},
	},
	{
		old: `cause = "metal-rub"`,
		new: `cause = "sap"`,
		want: []string{
			`196: answer[0].cause: “sap” is no harmless cause of the sign “grey” — write "metal-rub"`,
		},
	},
	{
		old: `cause = "fuel"`,
		new: `cause = "sap"`,
		want: []string{
			`204: answer[1].cause: “sap” is no contaminant of the tables — write one of "chain-oil", "fuel" or "unknown"`,
		},
	},
	{
		old: `day = 2026-06-01
to = "X2"`,
		new: `day = 2026-01-01
to = "X2"`,
		want: []string{
			`202: answer[1].day: 1 Jan 2026 lies before the event “X2” (15 Feb 2026) — correct one of the two`,
		},
	},
	{
		old: `verified = "laboratory"`,
		new: ``,
		want: []string{
			`201: answer[1].verified: is missing — add it: write how it was verified: that it washed off, that it fits the fitting, what its maker wrote`,
		},
	},
	{
		old: `to = "identity"`,
		new: `to = "identify"`,
		want: []string{
			`211: answer[2].to: “identify” is no entry on record and no question — write the ref of an entry, or the word that the outcome names for its question; did you mean "identity"?`,
		},
	},
	{
		old: `what = "zones"`,
		new: `what = "re-tied end A"`,
		want: []string{
			`220: change[0].zones: is given where what is “re-tied end A” — take it out, or write what = "zones" in an entry of its own`,
		},
	},
	{
		old: `[[change.zones]]
zone = "travel"
from = "200mm"
to = "700mm"`,
		new: ``,
		want: []string{
			`215: change[0].zones: is missing — add it: write where the zones lie from that day on: zones = [{zone = "…", from = "0mm", to = "60mm"}]`,
		},
	},
	{
		old: `[[event]]
ref = "X1"`,
		new: `[event]
ref = "X1"`,
		want: []string{
			`105: examination[1].after_event: no event “X1” is on record — write the ref of an [[event]]`,
			`175: event: is a table where a list of tables is wanted — write each as [[event]], in double brackets`,
			`183: event: is already a table, which a header cannot add to; the first is in line 175 — write it in one place`,
			`203: answer[1].to: “X2” is no entry on record and no question — write the ref of an entry, or the word that the outcome names for its question`,
		},
	},
	{
		old: `words = "a little"`,
		new: `words = "  "`,
		want: []string{
			`135: examination[1].sign[1].words: is an empty text — write something, or leave the key out`,
		},
	},
	{
		old: `words = "a little"`,
		new: `words = a little`,
		want: []string{
			`135: examination[1].sign[1].words: a little is not in quotes — write "a little"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: `at = {from = "300mm"}`,
		want: []string{
			`95: examination[0].sign[0].at.to: is missing — add it: write where it ends, from end A, such as to = "460mm"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: `at = 300`,
		want: []string{
			`95: examination[0].sign[0].at: is a whole number where a place is wanted — write {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`,
		},
	},
	{
		old: `at = {from = "300mm", to = "400mm", sides = ["top"], layer = "cover"}`,
		new: `at = ""`,
		want: []string{
			`95: examination[0].sign[0].at: is not filled in — write {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`,
		},
	},
	{
		old: `values = ["11.2mm", "11.3mm"]`,
		new: `values = ["11km"]`,
		want: []string{
			`145: examination[1].reading[0].values[0]: “11km” has a unit that is not taken here: “km” — write a length with its unit (mm, cm, m, in, ft), such as "11.2 mm"`,
		},
	},
	{
		old: `values = ["11.2mm", "11.3mm"]`,
		new: `values = ["11200m"]`,
		want: []string{
			`145: examination[1].reading[0].values: 11200 m is longer than any piece of kit — correct the number or its unit`,
		},
	},
	{
		old: `quantity = "diameter"
at = {at = "450mm"}`,
		new: `quantity = "diameter"`,
		want: []string{
			`141: examination[1].reading[0].at: is missing — add it: write where it was measured: {at = "450mm"}, {part = "…"} or "whole"`,
		},
	},
	{
		old: `error = "0.1mm"`,
		new: `error = "0mm"`,
		want: []string{
			`148: examination[1].reading[0].error: is nought — write what was measured, or leave the key out`,
		},
	},
	{
		old: `tension = "200N"`,
		new: `tension = "2000kN"`,
		want: []string{
			`149: examination[1].reading[0].tension: 2000 kN is more than any reference tension — correct the number or its unit`,
		},
	},
	{
		old: `sign = "knot-wrong"
at = {part = "end A"}`,
		new: `at = {part = "end A"}`,
		want: []string{
			`137: examination[1].sign[2].sign: is missing — add it: write what was seen or felt, the id of a sign, one of "melted", "knot-wrong", "stiffer", "grey" or "light-fuzz"`,
		},
	},
	{
		old: `sign = "knot-wrong"`,
		new: `sign = ""`,
		want: []string{
			`138: examination[1].sign[2].sign: is not filled in — write what was seen or felt, the id of a sign, one of "melted", "knot-wrong", "stiffer", "grey" or "light-fuzz"`,
		},
	},
	{
		old: `state = "same"`,
		new: `state = "worse"`,
		want: []string{
			`128: examination[1].sign[0].state: “worse” is not a word taken here — write one of "first seen", "same", "grown", "gone after washing" or "gone"`,
		},
	},
	{
		old: `conditions = {light = "poor"}

[[run.look]]`,
		new: `conditions = {light = "poor"}
looks = ["eye"]

[[run.look]]`,
		want: []string{
			`169: run[1].looks: stands beside [[run.look]], so the looks are said twice — keep one of the two`,
		},
	},
	{
		old: `day = 2026-01-15`,
		new: `day = 2024-12-31`,
		want: []string{
			`177: event[0].day: 31 Dec 2024 lies before the piece was made (Jan 2025) — correct one of the two`,
		},
	},
	{
		old: `travel = "300mm"`,
		new: `travel = "300"`,
		want: []string{
			`179: event[0].travel: “300” has no unit — write a length with its unit (mm, cm, m, in, ft), such as "11.2 mm"`,
		},
	},
	{
		old: `day = 2025-12-01
what = "zones"
by = "kim"`,
		new: `day = 2024-12-01
what = "turned"`,
		want: []string{
			`215: change[0].by: is missing — add it: write who it was, by the id of a [[person]]`,
			`216: change[0].day: 1 Dec 2024 lies before the piece was made (Jan 2025) — correct one of the two`,
			`217: change[0].what: “turned” is not a word taken here — write one of "zones", "re-tied end A", "re-tied end B", "shortened at end A", "shortened at end B" or "turned end for end"`,
		},
	},
	{
		old: `[[change.zones]]
zone = "travel"
from = "200mm"
to = "700mm"`,
		new: `zones = []`,
		want: []string{
			`220: change[0].zones: names no zone — write where the zones lie from that day on: zones = [{zone = "…", from = "0mm", to = "60mm"}]`,
		},
	},
	{
		old: `covers = []`,
		new: `covers = 3`,
		want: []string{
			`120: examination[1].look[2].covers: is no list of stretches — write covers = "all", or a list such as [{from = "0mm", to = "450mm", sides = "all"}, {part = "…", sides = "all"}]`,
		},
	},
	{
		old: `to = "g1"
cause`,
		new: `to = "E1"
cause`,
		want: []string{
			`196: answer[0].cause: is given, but what is answered is neither a sign nor a substance — take it out; verified says how it was settled`,
		},
	},
	{
		old: `to = "identity"`,
		new: `to = "fall"
cause = "sap"`,
		want: []string{
			`212: answer[2].cause: is given, but what is answered is neither a sign nor a substance — take it out; verified says how it was settled`,
		},
	},
	{
		old: `would_climb = "yes"`,
		new: `would_climb = ""`,
		want: []string{
			`103: examination[1].would_climb: is not filled in — write one of "yes", "no" or "not known"; taken out, it sets the piece aside until it is said`,
		},
	},
	{
		old: `day = "2026-06-01"`,
		new: `day = ""`,
		want: []string{
			`100: examination[1].day: is not filled in — write the day itself, such as 2026-06-01`,
		},
	},
	{
		old: `ref = "g1"
state = "same"`,
		new: `ref = "g11"
state = "same"`,
		want: []string{
			`127: examination[1].sign[0].ref: no sign “g11” is on record before this, so it cannot be “same” — correct the ref, or leave state out where the sign is new; did you mean "g1"?`,
		},
	},
	{
		old: `after_event = "X1"`,
		new: `after_event = "X"`,
		want: []string{
			`105: examination[1].after_event: no event “X” is on record — write the ref of an [[event]]`,
		},
	},
	{
		old: `kind = "partner"
by = "kim"
from = 2025-04-01`,
		new: `kind = "pre-use"
by = "lee"
from = 2025-10-01`,
		want: []string{
			`166: run[1].to: 30 Sep 2025 lies before from (1 Oct 2025) — write the first day as from and the last as to`,
		},
	},
	{
		old: `to = "identity"`,
		new: `to = "release"
cause = "sap"`,
		want: []string{
			`212: answer[2].cause: is given, but what is answered is neither a sign nor a substance — take it out; verified says how it was settled`,
		},
	},
	{
		old: `to = "identity"`,
		new: `to = "knot-wrong"
cause = "sap"`,
		want: []string{
			`212: answer[2].cause: “sap” is no harmless cause of the sign “knot-wrong” — take it out: there is none`,
		},
	},
	{
		old: `to = "identity"`,
		new: `to = "substance"
cause = "sap"`,
		want: []string{
			`212: answer[2].cause: “sap” is no contaminant of the tables — write one of "chain-oil", "fuel" or "unknown"`,
		},
	},
	{
		old: `to = "identity"`,
		new: `to = "r1"
cause = "sap"`,
		want: []string{
			`212: answer[2].cause: “sap” is no harmless cause of the sign “stiffer” — take it out: there is none`,
		},
	},
	{
		old: `length = "120mm"`,
		new: ``,
		want: []string{
			`225: change[1].length: is missing — add it: write how much was cut off, such as length = "120mm"`,
		},
	},
	{
		old: `length = "120mm"`,
		new: `length = "0mm"`,
		want: []string{
			`228: change[1].length: is nought — write how much was cut off, such as length = "120mm"`,
		},
	},
	{
		old: `length = "120mm"`,
		new: `length = "900mm"`,
		want: []string{
			`228: change[1].length: 900 mm is all there is left of it (900 mm) — write how much was cut off`,
		},
	},
	{
		old: `day = 2026-06-02
what = "shortened at end B"
length = "120mm"`,
		new: `day = 2026-05-02
what = "shortened at end A"
length = "600mm"`,
		want: []string{
			`114: examination[1].look[1].covers[0].to: 450 mm lies beyond the end of the piece, which is 300 mm long — write the distance from end A`,
			`144: examination[1].reading[0].at.at: 450 mm lies beyond the end of the piece, which is 300 mm long — write the distance from end A`,
		},
	},
	{
		old: `day = 2026-06-02
what = "shortened at end B"`,
		new: `day = 2026-06-02
what = "re-tied end B"`,
		want: []string{
			`228: change[1].length: is given where what is “re-tied end B” — take it out, or say at which end it was shortened`,
		},
	},
}
