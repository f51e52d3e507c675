package record

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Every fault of a record: one change to a record without fault, and all that
// is said of it, with its line.
func TestFaults(t *testing.T) {
	tables := fixture()
	for _, c := range []struct {
		old, new string
		want     []string
	}{
		{
			old: `format = "kernbook record 1"`,
			new: `format = "kernbook record 2"`,
			want: []string{
				`1: format: “kernbook record 2” is not the format read here — write "kernbook record 1"`,
			},
		},
		{
			old: `format = "kernbook record 1"`,
			new: `format = "notes"`,
			want: []string{
				`1: format: “notes” is not the format read here — write "kernbook record 1"`,
			},
		},
		{
			old: `format = "kernbook record 1"`,
			new: ``,
			want: []string{
				`1: format: is missing — add it: write format = "kernbook record 1" as the first line`,
			},
		},
		{
			old: `as_of = 2026-06-01`,
			new: `as_of = "2026-06"`,
			want: []string{
				`2: as_of: “2026-06” is not known to the day — write the day itself, such as 2026-06-01`,
			},
		},
		{
			old: `as_of = 2026-06-01`,
			new: `as_of = 2024-06-01`,
			want: []string{
				`2: as_of: 1 Jun 2024 lies before the piece was made (Jan 2025) — correct one of the two`,
			},
		},
		{
			old: `country = "GB"`,
			new: `country = "UK"`,
			want: []string{
				`6: yard.country: “UK” is no country of the tables — write one of “GB”, “IE”, “other” or “unknown”`,
			},
		},
		{
			old: `country = "GB"`,
			new: `country = ""`,
			want: []string{
				`6: yard.country: is not filled in — write the country whose law holds, one of “GB”, “IE”, “other” or “unknown”`,
			},
		},
		{
			old: `limit = "1 in 3000"`,
			new: `limit = "1 in 50"`,
			want: []string{
				`7: yard.limit: “1 in 50” is looser than any yard may set — write “1 in 100” or stricter`,
			},
		},
		{
			old: `limit = "1 in 3000"`,
			new: `limit = "1 in 1,000"`,
			want: []string{
				`7: yard.limit: “1 in 1,000” is not a limit of doubt: “1,000” is no whole number in plain figures — write it as “1 in 1000”`,
			},
		},
		{
			old: `limit = "1 in 3000"`,
			new: `limit = "0.1%"`,
			want: []string{
				`7: yard.limit: “0.1%” is not a limit of doubt — write it as “1 in 1000”`,
			},
		},
		{
			old: `limit = "1 in 3000"`,
			new: `limit = "1 in 2000000"`,
			want: []string{
				`7: yard.limit: “1 in 2000000” is finer than doubt is reckoned — write “1 in 1000000” at the strictest`,
			},
		},
		{
			old: `every = "6 months"`,
			new: `every = "six"`,
			want: []string{
				`9: yard.scheme.every: “six” does not begin with a number — write a span of time with its unit (months, years), such as “6 months”`,
			},
		},
		{
			old: `by = "Hedda Lund"`,
			new: ``,
			want: []string{
				`8: yard.scheme.by: is missing — add it: write the competent person who drew it up`,
			},
		},
		{
			old: `id = "B7"`,
			new: ``,
			want: []string{
				`13: piece.id: is missing — add it: write the yard's own number or name for the piece`,
			},
		},
		{
			old: `kind = "bridge"`,
			new: `kind = "brige"`,
			want: []string{
				`15: piece.kind: “brige” is no kind of piece; did you mean “bridge”? — write one of “bridge” or “connector”`,
			},
		},
		{
			old: `kind = "bridge"`,
			new: `kind = "connector"`,
			want: []string{
				`48: piece.zone[0].zone: “bend” is no zone of the kind “connector” — take it out: there is none`,
				`53: piece.zone[1].zone: “travel” is no zone of the kind “connector” — take it out: there is none`,
				`94: examination[0].sign[0].sign: “grey” is a sign of “bridge” but not of the kind “connector” — write one of “cracked”, “gate-stuck” or “scratched”`,
				`95: examination[0].sign[0].at: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of “body” or “gate”`,
				`95: examination[0].sign[0].at.sides[0]: “top” is no side of the kind “connector” — take it out: there is none`,
				`114: examination[1].look[1].covers[0]: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of “body” or “gate”`,
				`114: examination[1].look[1].covers[0].sides[0]: “top” is no side of the kind “connector” — take it out: there is none`,
				`114: examination[1].look[1].covers[0].sides[1]: “under” is no side of the kind “connector” — take it out: there is none`,
				`114: examination[1].look[1].covers[1].part: “end A” is no part of the kind “connector” — write one of “body” or “gate”`,
				`123: examination[1].asked.fall: “fall” is no question of the kind “connector” — take it out: there is none`,
				`124: examination[1].asked.spill: “spill” is no question of the kind “connector” — take it out: there is none`,
				`130: examination[1].sign[1].at: is missing — add it: write where it is: {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`,
				`131: examination[1].sign[1].sign: “stiffer” is a sign of “bridge” but not of the kind “connector” — write one of “cracked”, “gate-stuck” or “scratched”`,
				`138: examination[1].sign[2].sign: “knot-wrong” is a sign of “bridge” but not of the kind “connector” — write one of “cracked”, “gate-stuck” or “scratched”`,
				`139: examination[1].sign[2].at.part: “end A” is no part of the kind “connector” — write one of “body” or “gate”`,
				`143: examination[1].reading[0].quantity: “diameter” is no quantity of the kind “connector” — write “groove”`,
				`144: examination[1].reading[0].at: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of “body” or “gate”`,
				`172: run[1].look[0].covers[0]: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of “body” or “gate”`,
				`187: event[1].at: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of “body” or “gate”`,
				`221: change[0].zones[0].zone: “travel” is no zone of the kind “connector” — take it out: there is none`,
			},
		},
		{
			old: `marking = "partly"`,
			new: `marking = "partially"`,
			want: []string{
				`21: piece.marking: “partially” is not a word taken here — write one of “readable”, “partly” or “unreadable”`,
			},
		},
		{
			old: `origin = "new"`,
			new: ``,
			want: []string{
				`13: piece.origin: is missing — add it: write origin = one of “new”, “other yard”, “second-hand” or “found”`,
			},
		},
		{
			old: `made = "2025-01"`,
			new: `made = "1/2/2025"`,
			want: []string{
				`26: piece.made: “1/2/2025” is not a date in the form taken here — write year-month-day “2026-06-01”, year-month “2026-06”, the year “2026”, or “unknown”`,
			},
		},
		{
			old: `made = "2025-01"`,
			new: `made = 2025-13`,
			want: []string{
				`26: piece.made: “2025-13” has no month 01 to 12 — write year-month-day “2026-06-01”, year-month “2026-06”, the year “2026”, or “unknown”`,
			},
		},
		{
			old: `made = "2025-01"`,
			new: `made = "2025-06"`,
			want: []string{
				`27: piece.first_use: 1 Apr 2025 lies before it was made (Jun 2025) — correct one of the two`,
				`34: piece.examined: 30 Mar 2025 lies before it was made (Jun 2025) — correct one of the two`,
				`74: use[0].from: 1 Mar 2025 lies before the piece was made (Jun 2025) — correct one of the two`,
				`78: use[1].from: 1 Apr 2025 lies before the piece was made (Jun 2025) — correct one of the two`,
				`157: run[0].from: 1 Apr 2025 lies before the piece was made (Jun 2025) — correct one of the two`,
				`165: run[1].from: 1 Apr 2025 lies before the piece was made (Jun 2025) — correct one of the two`,
			},
		},
		{
			old: `first_use = 2025-04-01`,
			new: `first_use = "2025-05"`,
			want: []string{
				`78: use[1].from: 1 Apr 2025 lies before its first use (May 2025) — correct one of the two, or write store = true while it lay unused`,
			},
		},
		{
			old: `maker_life_from_use = "5 years"`,
			new: `maker_life_from_use = "5"`,
			want: []string{
				`32: piece.maker_life_from_use: “5” has no unit — write a span of time with its unit (months, years), such as “6 months”`,
			},
		},
		{
			old: `maker_life_from_use = "5 years"`,
			new: `maker_life_from_use = "0 months"`,
			want: []string{
				`32: piece.maker_life_from_use: is nought — write the span, such as "5 years", or leave the key out where nothing is said`,
			},
		},
		{
			old: `examined_before_use = true`,
			new: `examined_before_use = "yes"`,
			want: []string{
				`35: piece.examined_before_use: is a text (“yes”) where true or false is wanted — write true or false, without quotes`,
			},
		},
		{
			old: `length = "90cm"`,
			new: `length = 900`,
			want: []string{
				`37: piece.length: is a whole number (900) where a length with its unit is wanted — write the number with its unit in quotes, such as "11.2 mm"`,
			},
		},
		{
			old: `length = "90cm"`,
			new: `length = "9km"`,
			want: []string{
				`37: piece.length: “9km” has a unit that is not taken here: “km” — write a length with its unit (mm, cm, m, in, ft), such as “11.2 mm”`,
			},
		},
		{
			old: `length = "90cm"`,
			new: ``,
			want: []string{
				`13: piece.length: is missing — add it: write its length between its ends, such as length = "900mm"`,
			},
		},
		{
			old: `length = "90cm"`,
			new: `length = "65cm"`,
			want: []string{
				`55: piece.zone[1].to: 700 mm lies beyond the end of the piece, which is 650 mm long — write the distance from end A`,
				`223: change[0].zones[0].to: 700 mm lies beyond the end of the piece, which is 650 mm long — write the distance from end A`,
			},
		},
		{
			old: `diameter = "11,7mm"`,
			new: `diameter = "11,700mm"`,
			want: []string{
				`38: piece.diameter: “11,700mm” could mean thousands or a decimal — write “11.700” or “11700”`,
			},
		},
		{
			old: `stored = "used"`,
			new: `stord = "used"`,
			want: []string{
				`39: piece.stord: unknown key “stord”; did you mean “stored”? — correct the key, or take it out`,
			},
		},
		{
			old: `end_b = {how = "splice"}`,
			new: `end_b = {how = "spliced"}`,
			want: []string{
				`41: piece.end_b.how: “spliced” is not a word taken here; did you mean “splice”? — write one of “knot”, “splice”, “stitched”, “moulded” or “none”`,
			},
		},
		{
			old: `fibre = "pes"`,
			new: `fibre = "polyester"`,
			want: []string{
				`45: piece.layer[0].fibre: “polyester” is no fibre or metal of the tables — write one of “pa”, “pes”, “steel”, “aluminium” or “unknown”`,
			},
		},
		{
			old: `zone = "bend"`,
			new: `zone = "bends"`,
			want: []string{
				`48: piece.zone[0].zone: “bends” is no zone of the kind “bridge”; did you mean “bend”? — write one of “bend”, “travel” or “free”`,
			},
		},
		{
			old: `to = "60mm"`,
			new: `to = "250mm"`,
			want: []string{
				`52: piece.zone[1]: overlaps the zone “bend” in line 48 — let one end where the next begins`,
			},
		},
		{
			old: `to = "60mm"`,
			new: `to = "0mm"`,
			want: []string{
				`50: piece.zone[0].to: is the same as from, which leaves nothing between them — correct one of the two`,
			},
		},
		{
			old: `[piece.fitted]
in = "H2"
allowed = "yes"
document = "leaflet 2"`,
			new: ``,
			want: []string{
				`13: piece.fitted: is missing — add it: a table [piece.fitted] with in = the piece it is fitted to and allowed = one of “yes”, “no” or “not known”`,
			},
		},
		{
			old: `allowed = "yes"`,
			new: `allowed = true`,
			want: []string{
				`59: piece.fitted.allowed: is true or false (true) where a word is wanted — write one of “yes”, “no” or “not known”`,
			},
		},
		{
			old: `id = "lee"`,
			new: `id = "kim"`,
			want: []string{
				`71: person[1].id: “kim” is the id of another person too — give each person an id of their own`,
				`89: examination[0].by: “lee” is no person of this record — write “kim”, or add a [[person]] with this id`,
				`113: examination[1].look[1].by: “lee” is no person of this record — write “kim”, or add a [[person]] with this id`,
				`133: examination[1].sign[1].by: “lee” is no person of this record — write “kim”, or add a [[person]] with this id`,
				`156: run[0].by: “lee” is no person of this record — write “kim”, or add a [[person]] with this id`,
			},
		},
		{
			old: `hand = {share = "35%", from = "practice board 2026-03"}`,
			new: `hands = {share = "35%", from = "practice board 2026-03"}`,
			want: []string{
				`68: person[0].kappa.hands: “hands” is no look; did you mean “hand”? — write one of “ask”, “read”, “eye”, “hand”, “bight”, “gauge”, “ends” or “work”`,
			},
		},
		{
			old: `hand = {share = "35%", from = "practice board 2026-03"}`,
			new: `hand = {share = "35"}`,
			want: []string{
				`68: person[0].kappa.hand.from: is missing — add it: write where it was measured, such as "practice board 2026-03"`,
				`68: person[0].kappa.hand.share: “35” is not between 0 and 1 (0% and 100%) — write a percentage such as “12%”, or a share between 0 and 1 such as “0.12”`,
			},
		},
		{
			old: `from = 2025-03-01
store = true`,
			new: `from = 2025-03-01
week = "3h"
store = true`,
			want: []string{
				`75: use[0].week: is given for a piece in store, which is not used — take it out, or take out store`,
			},
		},
		{
			old: `from = 2025-03-01
store = true`,
			new: `from = 2025-03-01
week = "3h"`,
			want: []string{
				`74: use[0].from: 1 Mar 2025 lies before its first use (1 Apr 2025) — correct one of the two, or write store = true while it lay unused`,
			},
		},
		{
			old: `week = "25h"`,
			new: ``,
			want: []string{
				`77: use[1].week: is missing — add it: write the hours of use in a week, such as "25h", or "unknown"`,
			},
		},
		{
			old: `week = "25h"`,
			new: `week = "170h"`,
			want: []string{
				`79: use[1].week: 170 h is more than a week has — write the hours of one week`,
			},
		},
		{
			old: `from = 2025-04-01
week = "25h"`,
			new: `from = 2025-03-01
week = "25h"
store = true`,
			want: []string{
				`78: use[1].from: is the same day as that of the use in line 74 — keep one of the two`,
				`79: use[1].week: is given for a piece in store, which is not used — take it out, or take out store`,
			},
		},
		{
			old: `mass = "92kg"`,
			new: `mass = "92"`,
			want: []string{
				`81: use[1].mass: “92” has no unit — write a mass with its unit (g, kg, lb, st), such as “92 kg”`,
			},
		},
		{
			old: `dirt = "sandy"`,
			new: `dirt = "sand"`,
			want: []string{
				`82: use[1].dirt: “sand” is no word for site and dirt; did you mean “sandy”? — write one of “clean”, “sandy” or “unknown”`,
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
				`89: examination[0].by: “le” is no person of this record; did you mean “lee”? — write one of “kim” or “lee”, or add a [[person]] with this id`,
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
				`88: examination[0].day: “2025-02-30” is not in the calendar: Feb 2025 has days 1 to 28 — write year-month-day “2026-06-01”, year-month “2026-06”, the year “2026”, or “unknown”`,
			},
		},
		{
			old: `look = [{look = "eye", covers = "all"}]`,
			new: `look = [{look = "eye"}]`,
			want: []string{
				`90: examination[0].look[0].covers: is missing — add it: write covers = "all", or a list such as [{from = "0mm", to = "450mm"}, {part = "…"}]`,
			},
		},
		{
			old: `look = [{look = "eye", covers = "all"}]`,
			new: `look = [{look = "eyes", covers = "everywhere"}]`,
			want: []string{
				`90: examination[0].look[0].look: “eyes” is no look; did you mean “eye”? — write one of “ask”, “read”, “eye”, “hand”, “bight”, “gauge”, “ends” or “work”`,
				`90: examination[0].look[0].covers: “everywhere” is no word taken here — write covers = "all", or a list such as [{from = "0mm", to = "450mm"}, {part = "…"}]`,
			},
		},
		{
			old: `ref = "g1"
sign = "grey"`,
			new: `ref = "g2"
sign = "gray"`,
			want: []string{
				`94: examination[0].sign[0].sign: “gray” is no sign of the kind “bridge”; did you mean “grey”? — write one of “melted”, “knot-wrong”, “stiffer”, “grey” or “light-fuzz”`,
				`127: examination[1].sign[0].ref: no sign “g1” is on record before this, so it cannot be “same” — correct the ref, or leave state out where the sign is new`,
				`195: answer[0].to: “g1” is no entry on record and no question — write the ref of an entry, or the word that the outcome names for its question`,
			},
		},
		{
			old: `sign = "grey"`,
			new: `sign = "gate-stuck"`,
			want: []string{
				`94: examination[0].sign[0].sign: “gate-stuck” is a sign of “connector” but not of the kind “bridge” — write one of “melted”, “knot-wrong”, “stiffer”, “grey” or “light-fuzz”`,
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
				`95: examination[0].sign[0].at.sides[0]: “bottom” is no side of the kind “bridge” — write one of “top” or “under”`,
				`95: examination[0].sign[0].at.layer: “core” is no layer of this piece — write “cover”`,
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
			old: `signed = "kim"`,
			new: `signed = "Kim Lund"`,
			want: []string{
				`102: examination[1].signed: “Kim Lund” is no person of this record; did you mean “kim”? — write one of “kim” or “lee”, or add a [[person]] with this id`,
			},
		},
		{
			old: `gloves = "not known"`,
			new: `gloves = "maybe"`,
			want: []string{
				`106: examination[1].conditions.gloves: “maybe” is not a word taken here — write one of “yes”, “no” or “not known”`,
			},
		},
		{
			old: `covers = [{from = "0mm", to = "450mm", sides = ["top", "under"]}, {part = "end A"}]`,
			new: `covers = [{from = "0mm", to = "950mm", sides = ["top", "top"]}, {part = "end C"}, {}, 3]`,
			want: []string{
				`114: examination[1].look[1].covers[0].to: 950 mm lies beyond the end of the piece, which is 900 mm long — write the distance from end A`,
				`114: examination[1].look[1].covers[0].sides[1]: “top” is there twice — write it once`,
				`114: examination[1].look[1].covers[1].part: “end C” is no part of the kind “bridge”; did you mean “end A”? — write one of “end A” or “end B”`,
				`114: examination[1].look[1].covers[2]: says no place — write {from = "0mm", to = "450mm"} or {part = "…"}`,
				`114: examination[1].look[1].covers[3]: is a whole number (3) where a table is wanted — write it as a table`,
			},
		},
		{
			old: `spill = "not known"`,
			new: `spil = "no"`,
			want: []string{
				`124: examination[1].asked.spil: “spil” is no question of the kind “bridge”; did you mean “spill”? — write one of “fall” or “spill”`,
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
				`126: examination[1].sign[0].ref: is missing — add it: write the ref of the sign on record that is “grown”`,
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
				`127: examination[1].sign[0].ref: “g1” is the ref of the sign in line 93 too — give each entry a ref of its own; where it is the same sign, say so: state = “same”, “grown” or “gone”`,
			},
		},
		{
			old: `sign = "stiffer"
look = "bight"`,
			new: `sign = "stiffer"
look = "eye"`,
			want: []string{
				`132: examination[1].sign[1].look: “eye” cannot show the sign “stiffer” — write “bight”, or leave the key out`,
			},
		},
		{
			old: `quantity = "diameter"`,
			new: `quantity = "diametre"`,
			want: []string{
				`143: examination[1].reading[0].quantity: “diametre” is no quantity of the kind “bridge”; did you mean “diameter”? — write “diameter”`,
			},
		},
		{
			old: `values = ["11.2mm", "11.3mm"]`,
			new: `values = ["11.2", "11.3mm"]`,
			want: []string{
				`145: examination[1].reading[0].values[0]: “11.2” has no unit — write a length with its unit (mm, cm, m, in, ft), such as “11.2 mm”`,
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
				`149: examination[1].reading[0].tension: “20kg” has a unit that is not taken here: “kg” — write a force with its unit (N, kN, lbf), such as “15 kN”`,
			},
		},
		{
			old: `ref = "P1"
kind = "pre-use"`,
			new: `ref = "X1"
kind = "interim"`,
			want: []string{
				`154: run[0].ref: “X1” is the ref of the event in line 176 too — give each entry a ref of its own`,
				`155: run[0].kind: “interim” is not a word taken here — write one of “pre-use” or “partner”`,
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
				`160: run[0].looks[1]: “hands” is no look; did you mean “hand”? — write one of “ask”, “read”, “eye”, “hand”, “bight”, “gauge”, “ends” or “work”`,
			},
		},
		{
			old: `weekdays = ["mon", "wed"]
looks = ["eye", "hand"]`,
			new: `weekdays = ["monday"]`,
			want: []string{
				`153: run[0].looks: is missing — add it: write looks = ["eye", "hand"] for looks that go all over it, or a [[run.look]] for each`,
				`159: run[0].weekdays[0]: “monday” is no day of the week; did you mean “mon”? — write one of “mon”, “tue”, “wed”, “thu”, “fri”, “sat” or “sun”`,
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
				`178: event[0].event: “shock” is no event of the tables — write one of “fall”, “sudden-load” or “spill”`,
			},
		},
		{
			old: `substance = "fuel"`,
			new: `substance = "petrol"`,
			want: []string{
				`188: event[1].substance: “petrol” is no contaminant of the tables — write one of “chain-oil”, “fuel” or “unknown”`,
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
				`196: answer[0].cause: “sap” is no harmless cause of the sign “grey” — write “metal-rub”`,
			},
		},
		{
			old: `cause = "fuel"`,
			new: `cause = "sap"`,
			want: []string{
				`204: answer[1].cause: “sap” is no contaminant of the tables — write one of “chain-oil”, “fuel” or “unknown”`,
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
				`201: answer[1].verified: is missing — add it: write how it was verified: washed off, matched to the fitting, maker's letter`,
			},
		},
		{
			old: `to = "identity"`,
			new: `to = "identify"`,
			want: []string{
				`211: answer[2].to: “identify” is no entry on record and no question — write the ref of an entry, or the word that the outcome names for its question; did you mean “identity”?`,
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
			old: `[yard]`,
			new: `[yards]`,
			want: []string{
				`4: yards: unknown key “yards”; did you mean “yard”? — correct the key, or take it out`,
				`8: yard.country: is missing — add it: write the country whose law holds, one of “GB”, “IE”, “other” or “unknown”`,
			},
		},
		{
			old: `[[event]]
ref = "X1"`,
			new: `[event]
ref = "X1"`,
			want: []string{
				`105: examination[1].after_event: no event “X1” is on record — write the ref of an [[event]]`,
				`175: event: is a table where a list of tables is wanted — write a list of tables “event”`,
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
			old: `limit = "1 in 3000"`,
			new: `limit = "1 in 0"`,
			want: []string{
				`7: yard.limit: “1 in 0” is not a limit of doubt — write it as “1 in 1000”`,
			},
		},
		{
			old: `every = "6 months"`,
			new: `every = "200 years"`,
			want: []string{
				`9: yard.scheme.every: 200 years is longer than any life of kit — correct the number or its unit`,
			},
		},
		{
			old: `[piece]
id = "B7"`,
			new: `[piece]
id = ""`,
			want: []string{
				`14: piece.id: is not filled in — write the yard's own number or name for the piece`,
			},
		},
		{
			old: `[[person]]
id = "kim"`,
			new: `[[person]]`,
			want: []string{
				`62: person[0].id: is missing — add it: write the name or short sign by which entries speak of this person`,
				`100: examination[1].by: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
				`101: examination[1].signed: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
				`163: run[1].by: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
				`197: answer[0].by: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
				`205: answer[1].by: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
				`212: answer[2].by: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
				`217: change[0].by: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
				`228: change[1].by: “kim” is no person of this record — write “lee”, or add a [[person]] with this id`,
			},
		},
		{
			old: `role = "competent person"`,
			new: `role = "boss"`,
			want: []string{
				`64: person[0].role: “boss” is not a word taken here — write one of “climber”, “storekeeper”, “examiner” or “competent person”`,
			},
		},
		{
			old: `weekdays = ["mon", "wed"]
mass`,
			new: `weekdays = ["mon", "mon", 3]
mass`,
			want: []string{
				`80: use[1].weekdays[1]: “mon” is there twice — write it once`,
				`80: use[1].weekdays[2]: is a whole number (3) where a text is wanted — correct it, or take it out`,
			},
		},
		{
			old: `mass = "92kg"`,
			new: `mass = "0kg"`,
			want: []string{
				`81: use[1].mass: is nought — write the body mass with kit, such as "92kg", or "unknown"`,
			},
		},
		{
			old: `mass = "92kg"`,
			new: `mass = "9200kg"`,
			want: []string{
				`81: use[1].mass: 9200 kg is more than any climber with kit — correct the number or its unit`,
			},
		},
		{
			old: `week = "25h"`,
			new: `week = 25`,
			want: []string{
				`79: use[1].week: is a whole number (25) where a time of use with its unit is wanted — write the number with its unit in quotes, such as "25 h"`,
			},
		},
		{
			old: `from = 2025-03-01
store = true`,
			new: `store = true`,
			want: []string{
				`73: use[0].from: is missing — add it: write the day itself, such as 2026-06-01`,
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
				`145: examination[1].reading[0].values[0]: “11km” has a unit that is not taken here: “km” — write a length with its unit (mm, cm, m, in, ft), such as “11.2 mm”`,
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
				`137: examination[1].sign[2].sign: is missing — add it: write what was seen or felt, the id of a sign, one of “melted”, “knot-wrong”, “stiffer”, “grey” or “light-fuzz”`,
			},
		},
		{
			old: `sign = "knot-wrong"`,
			new: `sign = ""`,
			want: []string{
				`138: examination[1].sign[2].sign: is not filled in — write what was seen or felt, the id of a sign, one of “melted”, “knot-wrong”, “stiffer”, “grey” or “light-fuzz”`,
			},
		},
		{
			old: `state = "same"`,
			new: `state = "worse"`,
			want: []string{
				`128: examination[1].sign[0].state: “worse” is not a word taken here — write one of “first seen”, “same”, “grown”, “gone after washing” or “gone”`,
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
				`179: event[0].travel: “300” has no unit — write a length with its unit (mm, cm, m, in, ft), such as “11.2 mm”`,
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
				`217: change[0].what: “turned” is not a word taken here — write one of “zones”, “re-tied end A”, “re-tied end B”, “shortened at end A” or “shortened at end B”`,
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
				`120: examination[1].look[2].covers: is no list of stretches — write covers = "all", or a list such as [{from = "0mm", to = "450mm"}, {part = "…"}]`,
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
				`103: examination[1].would_climb: is not filled in — write one of “yes”, “no” or “not known”, or take the key out`,
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
				`127: examination[1].sign[0].ref: no sign “g11” is on record before this, so it cannot be “same” — correct the ref, or leave state out where the sign is new; did you mean “g1”?`,
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
				`212: answer[2].cause: “sap” is no contaminant of the tables — write one of “chain-oil”, “fuel” or “unknown”`,
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
	} {
		if strings.Count(filled, c.old) != 1 {
			t.Fatalf("%q is not there once", c.old)
		}
		changed := strings.Replace(filled, c.old, c.new, 1)
		r, faults := Decode("r.toml", []byte(changed), tables)
		if r != nil {
			t.Errorf("%q for %q: a record came back", c.new, c.old)
		}
		var got []string
		for _, f := range faults {
			got = append(got, strings.TrimPrefix(f.Error(), "r.toml:"))
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q for %q (-want +got):\n%s", c.new, c.old, diff)
		}
	}
}
