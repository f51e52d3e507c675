package record

// faultsOfPiece are those of the yard, the piece, its people and its use.
var faultsOfPiece = []faultCase{
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
			`6: yard.country: “UK” is no country of the tables; did you mean “GB”? — write one of "GB", "IE", "other" or "unknown"`,
		},
	},
	{
		old: `country = "GB"`,
		new: `country = ""`,
		want: []string{
			`6: yard.country: is not filled in — write the country whose law holds, one of "GB", "IE", "other" or "unknown"`,
		},
	},
	{
		old: `limit = "1 in 3000"`,
		new: `limit = "1 in 50"`,
		want: []string{
			`7: yard.limit: “1 in 50” is looser than any yard may set — write "1 in 100" or stricter`,
		},
	},
	{
		old: `limit = "1 in 3000"`,
		new: `limit = "1 in 99"`,
		want: []string{
			`7: yard.limit: “1 in 99” is looser than any yard may set — write "1 in 100" or stricter`,
		},
	},
	{
		old: `limit = "1 in 3000"`,
		new: `limit = "1 in 1,000"`,
		want: []string{
			`7: yard.limit: “1 in 1,000” is not a limit of doubt: “1,000” is no whole number in plain figures — write it as "1 in 1000"`,
		},
	},
	{
		old: `limit = "1 in 3000"`,
		new: `limit = "0.1%"`,
		want: []string{
			`7: yard.limit: “0.1%” is not a limit of doubt — write it as "1 in 1000"`,
		},
	},
	{
		old: `limit = "1 in 3000"`,
		new: `limit = "1 in 2000000"`,
		want: []string{
			`7: yard.limit: “1 in 2000000” is finer than doubt is reckoned — write "1 in 1000000" at the strictest`,
		},
	},
	{
		old: `every = "6 months"`,
		new: `every = "six"`,
		want: []string{
			`9: yard.scheme.every: “six” does not begin with a number — write a span of time with its unit (months, years), such as "6 months"`,
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
			`15: piece.kind: “brige” is no kind of piece; did you mean “bridge”? — write one of "bridge" or "connector"`,
		},
	},
	{
		old: `kind = "bridge"`,
		new: `kind = "connector"`,
		want: []string{
			`40: piece.end_a: tells of an end, and a piece of the kind “connector” has none — take it out; enter what was seen there as a sign at its part`,
			`41: piece.end_b: tells of an end, and a piece of the kind “connector” has none — take it out; enter what was seen there as a sign at its part`,
			`48: piece.zone[0].zone: “bend” is no zone of the kind “connector” — take it out: there is none`,
			`53: piece.zone[1].zone: “travel” is no zone of the kind “connector” — take it out: there is none`,
			`94: examination[0].sign[0].sign: “grey” is a sign of “bridge” but not of the kind “connector” — write one of "cracked", "gate-stuck" or "scratched"`,
			`95: examination[0].sign[0].at: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of "body" or "gate"`,
			`95: examination[0].sign[0].at.sides[0]: “top” is no side of the kind “connector” — take it out: there is none`,
			`114: examination[1].look[1].covers[0]: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of "body" or "gate"`,
			`114: examination[1].look[1].covers[0].sides[0]: “top” is no side of the kind “connector” — take it out: there is none`,
			`114: examination[1].look[1].covers[0].sides[1]: “under” is no side of the kind “connector” — take it out: there is none`,
			`114: examination[1].look[1].covers[1].part: “end A” is no part of the kind “connector” — write one of "body" or "gate"`,
			`123: examination[1].asked.fall: “fall” is no question of the kind “connector” — take it out: there is none`,
			`124: examination[1].asked.spill: “spill” is no question of the kind “connector” — take it out: there is none`,
			`130: examination[1].sign[1].at: is missing — add it: write where it is: {at = "450mm"}, {from = "420mm", to = "460mm"}, {part = "…"} or "whole"`,
			`131: examination[1].sign[1].sign: “stiffer” is a sign of “bridge” but not of the kind “connector” — write one of "cracked", "gate-stuck" or "scratched"`,
			`138: examination[1].sign[2].sign: “knot-wrong” is a sign of “bridge” but not of the kind “connector” — write one of "cracked", "gate-stuck" or "scratched"`,
			`139: examination[1].sign[2].at.part: “end A” is no part of the kind “connector” — write one of "body" or "gate"`,
			`143: examination[1].reading[0].quantity: “diameter” is no quantity of the kind “connector” — write "groove"`,
			`144: examination[1].reading[0].at: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of "body" or "gate"`,
			`172: run[1].look[0].covers[0]: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of "body" or "gate"`,
			`187: event[1].at: is told by length, but places on the kind “connector” are told by part — write part = the part's id, one of "body" or "gate"`,
			`221: change[0].zones[0].zone: “travel” is no zone of the kind “connector” — take it out: there is none`,
		},
	},
	{
		old: `marking = "partly"`,
		new: `marking = "partially"`,
		want: []string{
			`21: piece.marking: “partially” is not a word taken here — write one of "readable", "partly" or "unreadable"`,
		},
	},
	{
		old: `origin = "new"`,
		new: ``,
		want: []string{
			`13: piece.origin: is missing — add it: write origin = one of "new", "other yard", "second-hand" or "found"`,
		},
	},
	{
		old: `made = "2025-01"`,
		new: `made = "1/2/2025"`,
		want: []string{
			`26: piece.made: “1/2/2025” is not a date in the form taken here — write year-month-day "2026-06-01", year-month "2026-06", the year "2026", or "unknown"`,
		},
	},
	{
		old: `made = "2025-01"`,
		new: `made = 2025-13`,
		want: []string{
			`26: piece.made: “2025-13” has no month 01 to 12 — write year-month-day "2026-06-01", year-month "2026-06", the year "2026", or "unknown"`,
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
			`157: run[0].from: there is a look before use on 2 Apr 2025, which lies before its first use (May 2025) — correct one of the two`,
			`165: run[1].from: there is a look before use on 7 Apr 2025, which lies before its first use (May 2025) — correct one of the two`,
		},
	},
	{
		old: `maker_life_from_use = "5 years"`,
		new: `maker_life_from_use = "5"`,
		want: []string{
			`32: piece.maker_life_from_use: “5” has no unit — write a span of time with its unit (months, years), such as "6 months"`,
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
			`37: piece.length: “9km” has a unit that is not taken here: “km” — write a length with its unit (mm, cm, m, in, ft), such as "11.2 mm"`,
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
			`38: piece.diameter: “11,700mm” could mean thousands or a decimal — write "11.700" or "11700"`,
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
			`41: piece.end_b.how: “spliced” is not a word taken here; did you mean “splice”? — write one of "knot", "splice", "stitched", "moulded" or "none"`,
		},
	},
	{
		old: `fibre = "pes"`,
		new: `fibre = "polyester"`,
		want: []string{
			`45: piece.layer[0].fibre: “polyester” is no fibre or metal of the tables; did you mean “pes”? — write one of "pa", "pes", "steel", "aluminium", "unknown" or "none"`,
		},
	},
	{
		old: `zone = "bend"`,
		new: `zone = "bends"`,
		want: []string{
			`48: piece.zone[0].zone: “bends” is no zone of the kind “bridge”; did you mean “bend”? — write one of "bend", "travel" or "free"`,
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
			`13: piece.fitted: is missing — add it: a table [piece.fitted] with in = the piece it is fitted to and allowed = one of "yes", "no" or "not known"`,
		},
	},
	{
		old: `allowed = "yes"`,
		new: `allowed = true`,
		want: []string{
			`59: piece.fitted.allowed: is true or false (true) where a word is wanted — write one of "yes", "no" or "not known"`,
		},
	},
	{
		old: `id = "lee"`,
		new: `id = "kim"`,
		want: []string{
			`71: person[1].id: “kim” is the id of another person too — give each person an id of their own`,
			`89: examination[0].by: “lee” is no person of this record — write "kim", or add a [[person]] with this id`,
			`113: examination[1].look[1].by: “lee” is no person of this record — write "kim", or add a [[person]] with this id`,
			`133: examination[1].sign[1].by: “lee” is no person of this record — write "kim", or add a [[person]] with this id`,
			`156: run[0].by: “lee” is no person of this record — write "kim", or add a [[person]] with this id`,
		},
	},
	{
		old: `hand = {share = "35%", from = "practice board 2026-03"}`,
		new: `hands = {share = "35%", from = "practice board 2026-03"}`,
		want: []string{
			`68: person[0].kappa.hands: “hands” is no look; did you mean “hand”? — write one of "ask", "read", "eye", "hand", "bight", "gauge", "ends" or "work"`,
		},
	},
	{
		old: `hand = {share = "35%", from = "practice board 2026-03"}`,
		new: `hand = {share = "35"}`,
		want: []string{
			`68: person[0].kappa.hand.from: is missing — add it: write where it was measured, such as "practice board 2026-03"`,
			`68: person[0].kappa.hand.share: “35” is not between 0 and 1 (0% and 100%) — write a percentage such as "12%", or a share between 0 and 1 such as "0.12"`,
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
week = "3h"
weekdays = ["mon"]`,
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
		old: `weekdays = ["mon", "wed"]
mass = "92kg"`,
		new: `mass = "201kg"`,
		want: []string{
			`77: use[1].weekdays: is missing — add it: write the working days, such as weekdays = ["mon", "tue", "wed", "thu", "fri"]`,
			`80: use[1].mass: 201 kg is more than any climber with kit, which is 200 kg at most — correct the number or its unit`,
		},
	},
	{
		old: `weekdays = ["mon", "wed"]
mass`,
		new: `weekdays = "mon–wed"
mass`,
		want: []string{
			`80: use[1].weekdays: is a text (“mon–wed”) where a list is wanted — write each day by itself, such as ["mon", "tue", "wed", "thu", "fri"]`,
		},
	},
	{
		old: `weekdays = ["mon", "wed"]
mass`,
		new: `weekdays = []
mass`,
		want: []string{
			`80: use[1].weekdays: names no day — write the working days, such as weekdays = ["mon", "tue", "wed", "thu", "fri"]`,
		},
	},
	{
		old: `week = "25h"`,
		new: `week = "33h"`,
		want: []string{
			`79: use[1].week: 33 h are more than 16 h on each of its working days — correct the hours, or name all working days`,
		},
	},
	{
		old: `week = "25h"`,
		new: `week = "170h"`,
		want: []string{
			`79: use[1].week: 170 h is more than a piece is used in a week, which is 80 h at most — write the hours for which this piece is in use in one week`,
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
			`158: run[0].from: there is a look before use on 2 Apr 2025, while the piece lies in store from 1 Mar 2025 on (line 74) — correct one of the two, or add a [[use]] from the day on which it came out of store`,
			`166: run[1].from: there is a look before use on 7 Apr 2025, while the piece lies in store from 1 Mar 2025 on (line 74) — correct one of the two, or add a [[use]] from the day on which it came out of store`,
		},
	},
	{
		old: "week = \"25h\"\nweekdays = [\"mon\", \"wed\"]",
		new: "\nstore = true",
		want: []string{
			`157: run[0].from: there is a look before use on 2 Apr 2025, while the piece lies in store from 1 Apr 2025 on (line 78) — correct one of the two, or add a [[use]] from the day on which it came out of store`,
			`165: run[1].from: there is a look before use on 7 Apr 2025, while the piece lies in store from 1 Apr 2025 on (line 78) — correct one of the two, or add a [[use]] from the day on which it came out of store`,
		},
	},
	{
		old: `week = "25h"`,
		new: `week = "0h"`,
		want: []string{
			`157: run[0].from: there is a look before use on 2 Apr 2025, while the piece is used for 0h a week from 1 Apr 2025 on (line 78) — write the hours of that use, or week = "unknown"`,
			`165: run[1].from: there is a look before use on 7 Apr 2025, while the piece is used for 0h a week from 1 Apr 2025 on (line 78) — write the hours of that use, or week = "unknown"`,
		},
	},
	{
		old: "kind = \"interim\"\nday = 2025-10-01",
		new: "kind = \"pre-use\"\nday = 2025-03-31",
		want: []string{
			`88: examination[0].day: there is a look before use on 31 Mar 2025, which lies before its first use (1 Apr 2025) — correct one of the two`,
		},
	},
	{
		old: "kind = \"interim\"\nday = 2025-10-01\nby = \"lee\"",
		new: "kind = \"partner\"\nday = 2025-10-01\nby = \"lee\"\n[[use]]\nfrom = 2025-10-01\nstore = true\n[[examination]]\nkind = \"pre-use\"\nday = 2025-10-02\nby = \"lee\"",
		want: []string{
			`88: examination[0].day: there is a look before use on 1 Oct 2025, while the piece lies in store from 1 Oct 2025 on (line 91) — correct one of the two, or add a [[use]] from the day on which it came out of store`,
			`95: examination[1].day: there is a look before use on 2 Oct 2025, while the piece lies in store from 1 Oct 2025 on (line 91) — correct one of the two, or add a [[use]] from the day on which it came out of store`,
		},
	},
	{
		old: `mass = "92kg"`,
		new: `mass = "92"`,
		want: []string{
			`81: use[1].mass: “92” has no unit — write a mass with its unit (g, kg, lb, st), such as "92 kg"`,
		},
	},
	{
		old: `dirt = "sandy"`,
		new: `dirt = "sand"`,
		want: []string{
			`82: use[1].dirt: “sand” is no word for site and dirt; did you mean “sandy”? — write one of "clean", "sandy" or "unknown"`,
		},
	},
	{
		old: `[yard]`,
		new: `[yards]`,
		want: []string{
			`4: yards: unknown key “yards”; did you mean “yard”? — correct the key, or take it out`,
			`8: yard.country: is missing — add it: write the country whose law holds, one of "GB", "IE", "other" or "unknown"`,
		},
	},
	{
		old: `limit = "1 in 3000"`,
		new: `limit = "1 in 0"`,
		want: []string{
			`7: yard.limit: “1 in 0” is not a limit of doubt — write it as "1 in 1000"`,
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
			`61: person[0].id: is missing — add it: write the name or short sign by which entries speak of this person`,
			`100: examination[1].by: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
			`101: examination[1].signed: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
			`163: run[1].by: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
			`197: answer[0].by: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
			`205: answer[1].by: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
			`212: answer[2].by: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
			`217: change[0].by: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
			`228: change[1].by: “kim” is no person of this record — write "lee", or add a [[person]] with this id`,
		},
	},
	{
		old: `since = 2020-01-01
`,
		want: []string{
			`61: person[0].since: is missing — add it: write the day from which this person has held the role, such as 2025-03-01: only what they did from that day on counts as a competent person's`,
		},
	},
	{
		old: `since = 2020-01-01`,
		new: `since = ""`,
		want: []string{
			`64: person[0].since: is not filled in — write the day from which this person has held the role, such as 2025-03-01: only what they did from that day on counts as a competent person's`,
		},
	},
	{
		old: `since = 2020-01-01`,
		new: `since = "2020"`,
		want: []string{
			`64: person[0].since: “2020” is not known to the day — write the day itself, such as 2026-06-01`,
		},
	},
	{
		old: `since = 2020-01-01`,
		new: `since = 1970-01-01`,
		want: []string{
			`64: person[0].since: 1 Jan 1970 cannot be told from a day that nobody wrote — write the day after it`,
		},
	},
	{
		old: `since = 2020-01-01
holds = true`,
		new: `since = 2020-01-01
until = ""`,
		want: []string{
			`65: person[0].until: is not filled in — write the last day on which this person held the role, or take the key out where they still hold it`,
		},
	},
	{
		old: `since = 2020-01-01
holds = true`,
		new: `since = 2020-01-01
until = 2019-12-31`,
		want: []string{
			`65: person[0].until: 31 Dec 2019 lies before since (1 Jan 2020) — correct one of the two`,
		},
	},
	{
		old: `role = "competent person"`,
		new: `role = "boss"`,
		want: []string{
			`63: person[0].role: “boss” is not a word taken here — write one of "climber", "storekeeper", "examiner" or "competent person"`,
		},
	},
	{
		old: `weekdays = ["mon", "wed"]
mass`,
		new: `weekdays = ["mon", "mon", 3]
mass`,
		want: []string{
			`80: use[1].weekdays[1]: “mon” is there twice — write it once`,
			`80: use[1].weekdays[2]: is a whole number (3) where a text is wanted — write a text there, or take it out`,
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
			`81: use[1].mass: 9200 kg is more than any climber with kit, which is 200 kg at most — correct the number or its unit`,
		},
	},
	{
		old: `mass = "92kg"`,
		new: `mass = "92g"`,
		want: []string{
			`81: use[1].mass: 92 g is less than any climber with kit — correct the number or its unit`,
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
}
