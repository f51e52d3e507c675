package tables

import (
	"strings"
	"testing"

	"kernbook/internal/core/kit"
)

// TestRefused breaks the small set by one change at a time: each is refused
// in the file and line it stands in, by a sentence that says what is wrong and
// how to mend it. One change can break eight looks, but no more follows from it.
func TestRefused(t *testing.T) {
	const bridge = "kinds/bridge.toml"
	for _, c := range []struct {
		name, file, old, new string
		at                   string // text that begins the line of the fault; "" for the new text's own line, "-" for the file as a whole
		says                 string
	}{
		// where a value comes from
		{"no source", bridge, "minutes = 3\nsource = [\"X-1\"]\n", "minutes = 3\n", "[[time]]", "has no source"},
		{"no place", bridge, "minutes = 3\n" + cited, "minutes = 3\nsource = [\"X-1\"]\nstatus = \"published\"\n", "[[time]]", "place: is missing"},
		{"no status", bridge, "minutes = 3\n" + cited, "minutes = 3\nsource = [\"X-1\"]\nplace = \"p\"\n", "[[time]]", "status: is missing"},
		{"unknown status", bridge, "minutes = 3\n" + cited, "minutes = 3\nsource = [\"X-1\"]\nplace = \"p\"\nstatus = \"sure\"\n", "status = \"sure\"", "“sure” is not a word"},
		{"source that is no line", "causes.toml", `"X-1"`, `"X-2"`, "", "names the line “X-2”"},
		{"published without a source", "causes.toml", `["X-1"]`, `[]`, "", "is empty on a row that is published"},
		{"line resting on nothing", "lines.toml", `["X-1"]`, `["X-9"]`, "", "names the line “X-9”"},
		{"line resting on itself", "lines.toml", `["X-1"]`, `["W-1"]`, "", "names the line itself"},
		{"line whose status is not its mark's", "lines.toml", "mark = \"seen\"\nstatus = \"published\"", "mark = \"seen\"\nstatus = \"assumed\"", "status = \"assumed\"", "on a line marked “seen”"},
		{"caution without its text", "lines.toml", "caution = \"Mind this.\"\n", "", "[[line]]\nid = \"W-1\"", "has no caution"},
		// keys, rows, units
		{"unknown key", bridge, "minutes = 3\n", "minutes = 3\nhours = 1\n", "hours = 1", "unknown key “hours”"},
		{"unknown table", "causes.toml", "[[cause]]", "[[reason]]\n[[cause]]", "[[reason]]", "unknown key “reason”"},
		{"no [unit]", "causes.toml", "[unit]\n", "", "[[cause]]", "unit: is missing"},
		{"unit missing", bridge, "minutes = \"minutes\"\n", "", "[unit]", "no unit for the column “minutes”"},
		{"wrong unit", bridge, "t01 = \"1/year\"", "t01 = \"1/month\"", "", "“1/month” where “1/year” is wanted"},
		{"unit of no column", bridge, "extent = \"share\"\n", "extent = \"share\"\ncolour = \"nm\"\n", "colour =", "is no column of numbers"},
		{"unit of no rule", "rules.toml", "limit = \"millionths\"\n", "", "[unit]", "no unit for the rule “limit”"},
		{"length without unit", bridge, `cell = "50 mm"`, `cell = "50"`, "", "has no unit"},
		{"not finite", bridge, "minutes = 3", "minutes = inf", "", "minutes"},
		{"not a number", bridge, "minutes = 3", "minutes = nan", "", "minutes"},
		{"number as a text", bridge, "minutes = 3", "minutes = \"3\"", "", "is a text"},
		{"same id twice", "causes.toml", "[[cause]]", "[[cause]]\nid = \"dirt\"\nwords = \"w\"\nwashable = true\n" + cited + "[[cause]]", "id = \"dirt\"\nwords = \"dirt\"", "is the same row as in line"},
		{"same key columns twice", bridge, "[[time]]", "[[time]]\nlook = \"eye\"\nminutes = 1\n" + cited + "[[time]]", "look = \"eye\"\nminutes = 3", "is the same row as in line"},
		{"same step of a stroke twice", bridge, "[[kernel]]", "[[kernel]]\nevent = \"fall\"\nmode = \"cut\"\nfrom_peak = 0\nj01 = 0\nj02 = 0\nj12 = 0\n" + cited + "[[kernel]]", "event = \"fall\"\nmode = \"cut\"\nfrom_peak = 0\nj01 = 0.1", "is the same row as in line"},
		{"same prior twice", bridge, "[[prior]]", "[[prior]]\ncause = \"dirt\"\np = 0.2\n" + cited + "[[prior]]", "cause = \"dirt\"\np = 0.1", "is the same row as in line"},
		{"same effect twice", "contaminants.toml", "[[effect]]", "[[effect]]\ncontaminant = \"oil\"\nfibre = [\"any\"]\namount = [\"any\"]\noutcome = \"keep\"\nwash = true\n" + cited + "[[effect]]", "contaminant = \"oil\"\nfibre = [\"any\"]\namount = [\"any\"]\noutcome = \"withdraw\"", "is the same row as in line"},
		{"no sides", bridge, "sides = [\"top\", \"under\"]\n", "", "[kind]", "sides: is missing"},
		{"missing file", "use.toml", small["use.toml"], "", "-", "the file is missing"},
		{"unknown file", "usage.toml", "", "[unit]\n", "-", "is no file that the tables know"},
		{"other file", "kinds/notes.txt", "", "hello", "-", "does not belong to the tables"},
		{"file named after another kind", bridge, `id = "bridge"`, `id = "line"`, "", "in the file of “bridge”"},
		{"unknown kind", bridge, `id = "bridge"`, `id = "bride"`, "", "“bride” is not a word"},
		// the bench
		{"bend that begins above 1", "bench.toml", "ratio = 1\n", "ratio = 2\n", "", "is not 1 in the first row"},
		{"bends that do not rise", "bench.toml", "ratio = 40", "ratio = 1", "ratio = 1\nleft = \"95", "does not rise"},
		{"wider bend that leaves less", "bench.toml", "left = \"95 %\"", "left = \"45 %\"", "ratio = 40", "does not rise"},
		{"bend without a figure", "bench.toml", "ratio = 40\nleft = \"95 %\"\n", "ratio = 40\n", "[[bend]]\nratio = 40", "left: is missing"},
		{"share above 1 on the bench", "bench.toml", "left_high = \"70 %\"", "left_high = \"170 %\"", "", "is not between 0 and 1"},
		{"share of nought on the bench", "bench.toml", "left_low = \"60 %\"\nleft_high = \"70 %\"", "left_low = \"0 %\"\nleft_high = \"70 %\"", "left_low = \"0 %\"", "is nought"},
		{"knot with its range turned round", "bench.toml", "left_high = \"70 %\"", "left_high = \"50 %\"", "", "is less than left_low"},
		{"knot of a fibre nobody knows", "bench.toml", "words = \"bowline\"\nfibre = [\"pes\"]", "words = \"bowline\"\nfibre = [\"silk\"]", "fibre = [\"silk\"]", "names the fibre “silk”"},
		{"knot without its mark", "bench.toml", "left_high = \"70 %\"\nmark = \"seen\"\n", "left_high = \"70 %\"\n", "[[knot]]", "mark: is missing"},
		{"knot by a mark nobody knows", "bench.toml", "left_high = \"70 %\"\nmark = \"seen\"\n", "left_high = \"70 %\"\nmark = \"sure\"\n", "mark = \"sure\"", "“sure” is not a word"},
		{"damage with one end of its range", "bench.toml", "left_low = \"60 %\"\nleft_high = \"95 %\"\n", "left_low = \"60 %\"\n", "[[damage]]", "left_high: is missing"},
		{"friction with its range turned round", "bench.toml", "mu_low = 0.1", "mu_low = 0.3", "", "are no range of coefficients"},
		{"no specific heat", "bench.toml", "capacity = 900", "capacity = 9", "", "is no specific heat"},
		{"no tension", "bench.toml", "coefficient = 1.25", "coefficient = 0", "", "is no coefficient of a tension"},
		{"bench without its unit", "bench.toml", "mu_low = \"1\"\n", "", "[unit]", "no unit for the column “mu_low”"},
		// shares and chances
		{"share above 1", bridge, "hidden = 0.1\nbeta_dirt = 0\nbeta_mass = 0\nbeta_hardware = 0\nnew1 = 0\nnew2 = 0\nfloor_h = 0.01", "hidden = 1.1\nbeta_dirt = 0\nbeta_mass = 0\nbeta_hardware = 0\nnew1 = 0\nnew2 = 0\nfloor_h = 0.01", "hidden = 1.1", "is not between 0 and 1"},
		{"share below 0", bridge, "cover = 1\n" + cited + "[[read]]", "cover = -0.5\n" + cited + "[[read]]", "cover = -0.5", "is not between 0 and 1"},
		{"negative rate", bridge, "h01 = 0.1", "h01 = -0.1", "", "is negative"},
		{"q1 above q2", bridge, "q1 = 0.4, q2 = 0.6 }]\nleak = 0.002\n" + cited, "q1 = 0.7, q2 = 0.6 }]\nleak = 0.002\n" + cited, "links = [{ mode = \"cut\", q1 = 0.7", "milder damage would show more"},
		{"q1 of 0", bridge, "q1 = 0.4, q2 = 0.6 }]\nleak = 0.002\n" + cited, "q1 = 0, q2 = 0.6 }, { mode = \"age\", q1 = 0.1, q2 = 0.2 }]\nleak = 0.002\n" + cited, "links = [{ mode = \"cut\", q1 = 0,", "is not above 0"},
		{"q2 above 1", bridge, "q1 = 0.4, q2 = 0.6 }]\nleak = 0.002\n" + cited, "q1 = 0.4, q2 = 1.6 }]\nleak = 0.002\n" + cited, "links = [{ mode = \"cut\", q1 = 0.4, q2 = 1.6", "is above 1"},
		{"shares that are not all", bridge, "free = 0.7", "free = 0.6", "", "add up to 0.9 and not to 1"},
		{"new pieces that are more than all", bridge, "new1 = 0\nnew2 = 0\nfloor_h = 0.01", "new1 = 0.7\nnew2 = 0.7\nfloor_h = 0.01", "new2 = 0.7", "add up to more than 1"},
		{"stroke that is more than all", bridge, "j01 = 0.1\nj02 = 0.1", "j01 = 0.6\nj02 = 0.6", "j02 = 0.6", "add up to more than 1"},
		{"prior of 0", bridge, "p = 0.1", "p = 0", "p = 0\nsource", "is not between 0 and 1"},
		{"link of a cause of 0", bridge, "r = 0.5", "r = 0", "causes = [", "is not above 0"},
		{"zones that are too long", bridge, "extent = 0.1", "extent = 0.6", "[[zone]]", "add up to 1.2"},
		{"zones that leave a rest", bridge, "where = \"rest\"", "where = \"middle\"\nextent = 0.1", "[[zone]]", "add up to 0.3 of"},
		{"two rests", bridge, "where = \"ends\"\nextent = 0.1", "where = \"rest\"", "where = \"rest\"\nsource = [\"X-1\"]\nplace = \"page 1\"\nstatus = \"published\"\n[[part]]", "for a second time"},
		// names
		{"link to no mode", bridge, `mode = "age", q1`, `mode = "rot", q1`, "links = [{ mode = \"rot\"", "names the mode “rot”"},
		{"cause that is not", bridge, `cause = "dirt", r`, `cause = "mud", r`, "causes = [", "names the cause “mud”"},
		{"zone that is not", bridge, "{ bend = 0.3", "{ bent = 0.3", "", "is no zone or part"},
		{"prior in no zone", bridge, "cause = \"dirt\"\np", "cause = \"dirt\"\nzone = \"middle\"\np", "zone = \"middle\"", "no zone or part of this kind"},
		{"look that is not", bridge, "looks = [\"eye\"]\nlinks = [{ mode = \"cut\"", "looks = [\"eye\", \"nose\"]\nlinks = [{ mode = \"cut\"", "looks = [\"eye\", \"nose\"]", "“nose”"},
		{"event that is not", bridge, `yes = "fall"`, `yes = "flood"`, "", "names the event “flood”"},
		{"stroke in no mode", bridge, "mode = \"cut\"\nfrom_peak", "mode = \"rot\"\nfrom_peak", "mode = \"rot\"\nfrom_peak", "names the mode “rot”"},
		{"reading of no mode", bridge, "mode = \"cut\"\nbasis", "mode = \"rot\"\nbasis", "mode = \"rot\"\nbasis", "names the mode “rot”"},
		{"reading of no sign", bridge, "sign = \"thin\"", "sign = \"thick\"", "", "names “thick”"},
		{"limit of no quantity", bridge, "of = \"diameter\"", "of = \"weight\"", "", "names “weight”"},
		{"contaminant that is not", "contaminants.toml", "contaminant = \"oil\"\nfibre", "contaminant = \"tar\"\nfibre", "contaminant = \"tar\"", "names the contaminant “tar”"},
		{"fibre that is not", "contaminants.toml", `fibre = ["any"]`, `fibre = ["silk"]`, "", "names the fibre “silk”"},
		{"any beside others", "contaminants.toml", `fibre = ["any"]`, `fibre = ["any", "pes"]`, "", "“any” beside other words"},
		{"country that is not", "life.toml", "country:GB", "country:FR", "", "names the country “FR”"},
		{"country that takes over none", "intervals.toml", `also = ["GB"]`, `also = ["FR"]`, "", "names the country “FR”"},
		{"group that is not", "intervals.toml", "group = \"lifts persons\"", "group = \"lifts cats\"", "", "names the group “lifts cats”"},
		{"dirt that is not", "use.toml", `dirt = "sandy"`, `dirt = "salty"`, "", "names the dirt “salty”"},
		{"observation by no cause of it", bridge, "causes = [{ cause = \"dirt\", r = 0.5 }]\n", "causes = [{ cause = \"dirt\", r = 0.5 }]\nobserve = [\"rub\"]\n", "observe =", "is no cause of this sign"},
		{"sign together with none", bridge, "question = \"Why?\"\n", "question = \"Why?\"\nwith = [\"none\"]\n", "with =", "is no other sign"},
		// chains
		{"damage that mends", bridge, "h12 = 0.1\n", "h12 = 0.1\nt10 = 0.1\n", "t10 = 0.1", "which no piece does"},
		{"damage that turns milder", bridge, "h12 = 0.1\n", "h12 = 0.1\nh21 = 0.1\n", "h21 = 0.1", "which no piece does"},
		{"stroke that mends", bridge, "j12 = 0.1\n", "j12 = 0.1\nj21 = 0.1\n", "j21 = 0.1", "which no piece does"},
		{"mode that never begins", bridge, "t01 = 0.1\nt02 = 0\nt12 = 0.1\nh01 = 0.1", "t01 = 0\nt02 = 0\nt12 = 0.1\nh01 = 0", "[[mode]]", "never begins"},
		{"mode that never gets worse", bridge, "t12 = 0.1\nh01 = 0.1\nh02 = 0\nh12 = 0.1", "t12 = 0\nh01 = 0.1\nh02 = 0\nh12 = 0", "[[mode]]", "never gets worse"},
		{"mode without a floor", bridge, "floor_h = 0.01\nfloor_t = 0.01", "floor_h = 0\nfloor_t = 0", "[[mode]]", "has no floor"},
		{"harder use that wears less", bridge, "beta_dirt = 0\nbeta_mass = 0\nbeta_hardware = 0\nnew1 = 0\nnew2 = 0\nfloor_h = 0.01", "beta_dirt = -1\nbeta_mass = 0\nbeta_hardware = 0\nnew1 = 0\nnew2 = 0\nfloor_h = 0.01", "[[mode]]", "would wear less"},
		{"shares of a mode of the whole piece", bridge, "floor_h = 0\n", "shares = { bend = 1 }\nfloor_h = 0\n", "shares = { bend = 1 }", "no meaning on a mode of scope “whole”"},
		// signs, rows that a kind needs
		{"absolute sign without a line", bridge, "leak = 0.002\n" + cited + "[[sign]]\nid = \"thin\"", "leak = 0.002\nsource = []\nplace = \"p\"\nstatus = \"assumed\"\n[[sign]]\nid = \"thin\"", "source = []", "is empty on an absolute sign"},
		{"limit without a line", bridge, "words = \"too thin\"\n" + cited, "words = \"too thin\"\nsource = []\nplace = \"p\"\nstatus = \"assumed\"\n", "source = []", "is empty on a limit that withdraws"},
		{"event that withdraws without a line", "events.toml", "verdict = \"withdraw\"\n" + cited, "verdict = \"withdraw\"\nsource = []\nplace = \"p\"\nstatus = \"assumed\"\n", "source = []", "is empty on a row that withdraws"},
		{"sign that sets aside without a question", bridge, "question = \"Why?\"\n", "", "[[sign]]\nid = \"long\"", "is missing on a sign that sets aside"},
		{"sign to be weighed with nothing behind it", bridge, "class = \"set aside\"\nlooks = [\"eye\"]\nlinks = [{ mode = \"stretch\", q1 = 0.4, q2 = 0.6 }]", "class = \"to be weighed\"\nlooks = [\"eye\"]", "[[sign]]\nid = \"long\"", "is missing on a sign to be weighed"},
		{"two modes of the whole piece behind a sign", bridge, `{ mode = "age", q1 = 0.4, q2 = 0.6 }`, `{ mode = "age", q1 = 0.4, q2 = 0.6 }, { mode = "stretch", q1 = 0.1, q2 = 0.1 }`, "", "more than one mode of the whole piece"},
		{"observation with a leak", bridge, "class = \"observation\"\n", "class = \"observation\"\nleak = 0.1\n", "[[sign]]\nid = \"fuzz\"", "is an observation with"},
		{"mode that no look can show", bridge, "exam = \"thorough\"\nlook = \"eye\"", "exam = \"thorough\"\nlook = \"read\"", "[[mode]]", "shows in no look"},
		{"examination that asks for nothing", bridge, "exam = \"interim\"", "exam = \"partner\"", "[[need]]", "no look in the examination “interim”"},
		{"required look without a time", bridge, "look = \"eye\"\nminutes", "look = \"hand\"\nminutes", "[[time]]", "nothing of the look “eye”"},
		{"no sign at all", "kinds/ring.toml", "", strings.Replace(smallRing(), "[[sign]]", "[[signs]]", 1), "[unit]", "sign: is missing"},
		{"no question asked", bridge, "[[ask]]\nid = \"fall\"\nwords = \"A fall?\"\nyes = \"fall\"\n" + cited, "", "[unit]", "ask: is missing"},
		{"cause without a prior", bridge, "[[prior]]\ncause = \"dirt\"\np = 0.1\n" + cited, "", "causes = [", "whose prior is not said everywhere"},
		{"prior in some zones only", bridge, "cause = \"dirt\"\np = 0.1", "cause = \"dirt\"\nzone = \"bend\"\np = 0.1", "causes = [", "whose prior is not said everywhere"},
		{"one end only", bridge, "end = \"B\"\n", "", "[[part]]", "both ends"},
		{"modes without a doubt figure", bridge, "doubt = true", "doubt = false", "[[mode]]", "without a doubt figure"},
		{"contaminant without an effect", "contaminants.toml", "[[effect]]", "[[contaminant]]\nid = \"tar\"\nwords = \"tar\"\nharmless_everywhere = false\nsplash = \"s\"\nsoaked = \"s\"\n" + cited + "[[effect]]", "[[effect]]", "says nothing of the contaminant “tar”"},
		{"row that sets aside without a question", "events.toml", `"withdraw"`, `"set aside"`, "[[effect]]", "is missing on a row that sets aside"},
		// readings
		{"two numbers of three", bridge, "mu = [0, -0.1, -0.2]", "mu = [0, -0.1]", "", "is not three numbers"},
		{"no spread", bridge, "sigma = [0.1, 0.1, 0.1]", "sigma = [0.1, 0, 0.1]", "", "is not above 0"},
		{"slip that cannot be", bridge, "slip = 0.02", "slip = 0", "", "one slip cannot decide alone"},
		{"no freedom", bridge, "nu = 4", "nu = 0", "", "degrees of freedom"},
		{"limit both ways", bridge, "per_mille = -100", "per_mille = -100\nat = \"1 mm\"", "[[limit]]", "needs one of at and per_mille"},
		// where a gauge must have a reading
		{"range on no whole thousandth", bridge, "out = -0.06", "out = -0.0605", "", "no whole number of thousandths"},
		{"gauge that need not read", bridge, "exam = \"thorough\"\nlook = \"eye\"", "exam = \"thorough\"\nlook = \"gauge\"", "[[need]]\nexam = \"thorough\"", "must say where to measure"},
		{"reading asked of the eye", bridge, "exam = \"thorough\"\nlook = \"eye\"", "exam = \"thorough\"\nlook = \"eye\"\nplaces = 3", "[[need]]\nexam = \"thorough\"", "asks for readings where nothing is measured"},
		{"one stretch", bridge, "exam = \"thorough\"\nlook = \"eye\"", "exam = \"thorough\"\nlook = \"eye\"\nplaces = 1", "places = 1", "no number of stretches"},
		{"zone that may take less than it usually does", bridge, "most = 0.2", "most = 0.1", "", "less than the usual layout"},
		{"zone without the most it may take", bridge, "most = 0.2\n", "", "[[zone]]", "is missing"},
		{"layer that none has", bridge, `layers = ["cover", "core"]`, `layers = ["cover", "crust", "core"]`, "", "no layer of a construction"},
		{"layer it must have and cannot", bridge, `must = ["cover or core"]`, `must = ["webbing"]`, "", "no layer of this kind"},
		// silence must not loosen
		{"silence better than speech", "looks.toml", "f = 0.5", "f = 0.95", "[[look]]", "is better with light “not said”"},
		{"state without a factor", "looks.toml", `state = ["good", "poor", "dark"]`, `state = ["good", "poor"]`, "[[look]]", "has no factor for light “dark”"},
		{"examination without a quality", "looks.toml", `"partner", `, ``, "[[look]]", "has no kappa for the examination “partner”"},
		{"look without a row", "looks.toml", "[[look]]\nid = \"work\"\nwords = \"w\"\nhow = \"h\"\nbeta = 0.5\n" + cited, "", "[[look]]", "no row for the look “work”"},
		{"cautious use that is light", "use.toml", "week = \"40 h\"", "week = \"4 h\"", "[[use]]\nid = \"cautious\"", "is a lighter use"},
		{"cautious day too short for its week", "use.toml", "day = \"16 h\"", "day = \"5 h\"", "", "too little for the week"},
		{"cautious week with a day off", "use.toml", "days = 7", "days = 6", "", "so that silence would loosen"},
		{"cautious dirt that is clean", "use.toml", `dirt = "sandy"`, `dirt = "clean" #`, "", "silence would loosen"},
		// rules, life, intervals
		{"rule left out", "rules.toml", "[[rule]]\nname = \"horizon\"\nvalue = 1000\nwords = \"w\"\n" + cited, "", "[[rule]]", "has no row “horizon”"},
		{"limit looser than the loosest", "rules.toml", "name = \"limit\"\nvalue = 1000", "name = \"limit\"\nvalue = 2000", "value = 2000", "looser than limit_most"},
		{"rule that is no share", "rules.toml", "name = \"half_usual\"\nvalue = 0.5", "name = \"half_usual\"\nvalue = 5", "value = 5\n", "is not a share"},
		{"end set by how often it is used", "life.toml", `"country:GB"`, `"used daily"`, "", "a fact that need not be recorded"},
		{"condition that is none", "life.toml", `"country:GB"`, `"on Mondays"`, "", "is no condition taken here"},
		{"life of no length", "life.toml", `"5 years"`, `"0 years"`, "", "does not go with counts_from"},
		{"neither time nor occasion", "intervals.toml", "every = \"6 months\"\n", "", "[[interval]]", "needs exactly one of"},
		{"both time and occasion", "intervals.toml", "every = \"6 months\"\n", "every = \"6 months\"\nwhen = \"each use\"\n", "[[interval]]", "needs exactly one of"},
		{"kind outside its group", "intervals.toml", "group = \"lifts persons\"\n", "group = \"lifts persons\"\nkinds = [\"helmet\"]\n", "kinds = [\"helmet\"]", "not in the group"},
		{"outcome that is none", "intervals.toml", `["keep"]`, `["burn"]`, "", "is no outcome"},
		{"figure that is upside down", "fibres.toml", `low = "250 C"`, `low = "270 C"`, "", "is more than high"},
		{"density without unit", "fibres.toml", "low = \"1.38 g/cm3\"", "low = \"1.38\"", "", "is no density"},
		{"not TOML", "causes.toml", "washable = true", "washable == true", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := small[c.file]
			text := c.new
			if before != "" {
				if strings.Count(before, c.old) < 1 {
					t.Fatalf("the small set has no %q in %s", c.old, c.file)
				}
				text = strings.Replace(before, c.old, c.new, 1)
			}
			tt, faults := Load(set(c.file, text))
			if tt != nil || len(faults) == 0 {
				t.Fatalf("%s was not refused", c.name)
			}
			line := 0
			switch c.at {
			case "-":
			case "":
				line = lineOf(text, c.new)
			default:
				line = lineOf(text, c.at)
			}
			found := false
			for _, f := range faults {
				found = found || f.File == c.file && f.Line == line && strings.Contains(f.Error(), c.says) && f.What != "" && f.Mend != ""
			}
			if !found || len(faults) > len(kit.Looks) {
				t.Errorf("refused as\n%v\nwanted a fault in %s:%d that says %q and how to mend it", faults, c.file, line, c.says)
			}
		})
	}
}

// lineOf gives the line in which a text first stands, from 1; 0 if nowhere.
func lineOf(text, part string) int {
	i := strings.Index(text, part)
	if i < 0 {
		return 0
	}
	return 1 + strings.Count(text[:i], "\n")
}
