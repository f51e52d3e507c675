package tables

import (
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

func (l *loader) causes(f *file) {
	for _, t := range f.root.List("cause", doc.Required) {
		l.t.Causes = append(l.t.Causes, table.Cause{
			ID: l.know(f, t, "cause"), Words: t.Str("words", doc.Required), Washable: t.Bool("washable", doc.Required), Cite: l.cite(f, t),
		})
	}
}

var unitsLooks = map[string]string{"beta": "share", "k": "share", "f": "share"}

// notSaid is how the file of looks writes the state of a silent record, "".
const notSaid = "not said"

// conditions gives the states of each condition: what can be said, then what
// stands for not knowing.
var conditions = []struct {
	id     string
	said   []string
	silent []string
}{
	{"light", []string{"good", "poor", "dark"}, []string{notSaid}},
	{"cleaned", yesNo, silentYesNo}, {"wet", yesNo, silentYesNo}, {"frozen", yesNo, silentYesNo},
	{"muddy", yesNo, silentYesNo}, {"gloves", yesNo, silentYesNo}, {"hurried", yesNo, silentYesNo},
}

var (
	yesNo       = []string{string(kit.SaidYes), string(kit.SaidNo)}
	silentYesNo = []string{string(kit.NotKnown), notSaid}
)

func (l *loader) looks(f *file) {
	at := map[kit.LookID]doc.T{}
	for _, t := range f.root.List("look", doc.Required) {
		id := t.OneOf("id", doc.Required, lookIDs...)
		f.once(t, "id", id)
		at[kit.LookID(id)] = t
		l.t.Looks = append(l.t.Looks, table.Look{
			ID: kit.LookID(id), Words: t.Str("words", doc.Required), How: t.Str("how", doc.Required),
			Beta: f.share(t, "beta", doc.Required), Cite: l.cite(f, t),
		})
	}
	for _, id := range lookIDs {
		if _, ok := at[kit.LookID(id)]; !ok {
			f.root.Fault("look", "has no row for the look “"+id+"”", "add it")
		}
	}
	for _, t := range f.root.List("kappa", doc.Required) {
		looks, k, c := words(t, "look", doc.Required, lookIDs...), f.share(t, "k", doc.Required), l.cite(f, t)
		for _, e := range words(t, "exam", doc.Required, exams...) {
			for _, id := range looks {
				f.once(t, "look", id, e)
				l.look(id, func(x *table.Look) { x.Kappa = append(x.Kappa, table.Kappa{Exam: kit.ExamKind(e), K: k, Cite: c}) })
			}
		}
	}
	l.factors(f)
	for i := range l.t.Looks {
		l.completeLook(at[l.t.Looks[i].ID], &l.t.Looks[i])
	}
}

func (l *loader) look(id string, do func(*table.Look)) {
	for i := range l.t.Looks {
		if string(l.t.Looks[i].ID) == id {
			do(&l.t.Looks[i])
		}
	}
}

// factors reads what conditions leave of looks. A row for "any" goes to every
// look that has no row of its own for that condition and state.
func (l *loader) factors(f *file) {
	own := map[string]bool{}
	rest := []table.Factor{}
	names := make([]string, len(conditions))
	for i, c := range conditions {
		names[i] = c.id
	}
	for _, t := range f.root.List("factor", doc.Required) {
		cond := t.OneOf("condition", doc.Required, names...)
		x := table.Factor{Condition: cond, F: f.share(t, "f", doc.Required), Cite: l.cite(f, t)}
		looks := words(t, "look", doc.Required, append([]string{"any"}, lookIDs...)...)
		var states []string
		if i := slices.Index(names, cond); i >= 0 {
			states = words(t, "state", doc.Required, append(slices.Clone(conditions[i].said), conditions[i].silent...)...)
		} else {
			t.Has("state")
		}
		for _, state := range states {
			x.State = strings.TrimSuffix(state, notSaid)
			for _, id := range looks {
				f.once(t, "look", id, cond, state)
				if id == "any" {
					rest = append(rest, x)
					continue
				}
				own[id+"\x00"+cond+"\x00"+x.State] = true
				l.look(id, func(k *table.Look) { k.Factors = append(k.Factors, x) })
			}
		}
	}
	for i := range l.t.Looks {
		k := &l.t.Looks[i]
		for _, x := range rest {
			if !own[string(k.ID)+"\x00"+x.Condition+"\x00"+x.State] {
				k.Factors = append(k.Factors, x)
			}
		}
	}
}

// completeLook refuses a look without a quality for every examination and a factor for
// every state, and one that silence would make better.
func (l *loader) completeLook(t doc.T, k *table.Look) {
	for _, e := range exams {
		if !slices.ContainsFunc(k.Kappa, func(x table.Kappa) bool { return string(x.Exam) == e }) {
			t.Fault("", "has no kappa for the examination “"+e+"”", "add a [[kappa]] row for it")
		}
	}
	for _, c := range conditions {
		least := 1.0
		for i, state := range append(slices.Clone(c.said), c.silent...) {
			n := slices.IndexFunc(k.Factors, func(x table.Factor) bool {
				return x.Condition == c.id && x.State == strings.TrimSuffix(state, notSaid)
			})
			switch {
			case n < 0:
				t.Fault("", "has no factor for "+c.id+" “"+state+"”", "add a [[factor]] row for it")
			case i < len(c.said):
				least = min(least, k.Factors[n].F)
			case k.Factors[n].F > least:
				t.Fault("", "is better with "+c.id+" “"+state+"” than with the worst that can be said", "give “"+state+"” at most "+number(least))
			}
		}
	}
}

func (l *loader) events(f *file) {
	for _, t := range f.root.List("event", doc.Required) {
		l.t.Events = append(l.t.Events, table.Event{ID: l.know(f, t, "event"), Words: t.Str("words", doc.Required), Cite: l.cite(f, t)})
	}
	for _, t := range f.root.List("effect", doc.Required) {
		id := t.Str("event", doc.Required)
		e := table.EventEffect{
			Groups: words(t, "groups", doc.Required, groups...), Kinds: kinds(t, "kinds", doc.Optional),
			Verdict: verdict(t, "verdict", doc.Required), Cite: l.cite(f, t),
		}
		e.Question, e.Lines = question(t, e.Verdict), e.Source
		l.ref(t, "event", "event", id)
		if e.Verdict == kit.Withdraw && len(e.Lines) == 0 {
			t.Fault("source", "is empty on a row that withdraws", "name the line that demands it")
		}
		f.once(t, "event", id, strings.Join(e.Groups, ","), strings.Join(asWords(e.Kinds), ",")+".")
		if i := slices.IndexFunc(l.t.Events, func(x table.Event) bool { return x.ID == id }); i >= 0 {
			l.t.Events[i].Effects = append(l.t.Events[i].Effects, e)
		}
	}
}

var groups = []string{"textile", "metal", "device", "helmet"}

func asWords(ks []kit.KindID) []string {
	out := make([]string, len(ks))
	for i, k := range ks {
		out[i] = string(k)
	}
	return out
}

var unitsUse = map[string]string{"z": "1", "days": "days a week"}

func (l *loader) use(f *file) {
	l.t.Dirt = l.levels(f, "dirt")
	l.t.Hardware = l.levels(f, "hardware")
	seen := map[string]doc.T{}
	for _, t := range f.root.List("use", doc.Required) {
		id := t.OneOf("id", doc.Required, "reference", "cautious")
		f.once(t, "id", id)
		u := table.Use{
			Week: t.Hours("week", doc.Required), Mass: t.Mass("mass", doc.Required), Days: int(f.whole(t, "days", doc.Required)),
			Dirt: t.Str("dirt", doc.Required), Hardware: t.Str("hardware", doc.Required), Cite: l.cite(f, t),
		}
		if id == "cautious" {
			u.Day = t.Hours("day", doc.Required)
			if u.Day > 24*qty.Hour || u.Day*qty.Duration(u.Days) < u.Week {
				t.Fault("day", "is more than a day has, or too little for the week", "write the most hours of use on one day, at least the week over its days")
			}
			if u.Days != 7 {
				t.Fault("days", "leaves days of the week out, so that silence would loosen", "write 7")
			}
		}
		if u.Days < 1 || u.Days > 7 {
			t.Fault("days", "is no number of days in a week", "write 1 to 7")
		}
		if u.Mass == 0 || u.Week == 0 {
			t.Fault("", "has a week or a mass of nothing", "write hours and kilograms above 0")
		}
		l.ref(t, "dirt", "dirt", u.Dirt)
		l.ref(t, "hardware", "hardware", u.Hardware)
		seen[id] = t
		if id == "reference" {
			l.t.Rules.Reference = u
		} else {
			l.t.Rules.Cautious = u
		}
	}
	ct, ok := seen["cautious"]
	if _, both := seen["reference"]; !ok || !both {
		f.root.Fault("use", "needs one row “reference” and one row “cautious”", "add the missing one")
		return
	}
	c, r := l.t.Rules.Cautious, l.t.Rules.Reference
	if c.Week < r.Week || c.Mass < r.Mass || c.Days < r.Days {
		ct.Fault("", "is a lighter use than the reference", "let the cautious week, mass and days be at least those of the reference")
	}
	cautious(ct, "dirt", l.t.Dirt, c.Dirt)
	cautious(ct, "hardware", l.t.Hardware, c.Hardware)
}

// cautious refuses a level for silence that wears less than another.
func cautious(t doc.T, key string, levels []table.Level, id string) {
	i := slices.IndexFunc(levels, func(x table.Level) bool { return x.ID == id })
	for _, x := range levels {
		if i >= 0 && x.Z > levels[i].Z {
			t.Fault(key, "wears less than “"+x.ID+"”, so that silence would loosen", "name the level with the largest z")
		}
	}
}

func (l *loader) levels(f *file, sort string) []table.Level {
	var out []table.Level
	for _, t := range f.root.List(sort, doc.Required) {
		out = append(out, table.Level{ID: l.know(f, t, sort), Words: t.Str("words", doc.Required), Z: f.num(t, "z", doc.Required), Cite: l.cite(f, t)})
	}
	return out
}

var unitsRules = map[string]string{
	"limit": "millionths", "limit_most": "millionths", "explained": "share", "observation": "share", "half_usual": "share", "run_share": "share",
	"run_days": "days", "fall_peak": "share", "cause_floor": "share", "store_share": "share", "horizon": "days",
	"label_far": "per mille", "repeat_se": "hundredths",
}

func (l *loader) rules(f *file) {
	r := &l.t.Rules
	shares := map[string]*qty.Share{
		"explained": &r.Explained, "observation": &r.Observation, "half_usual": &r.HalfUsual, "run_share": &r.RunShare,
		"fall_peak": &r.FallPeak, "cause_floor": &r.CauseFloor, "store_share": &r.StoreShare,
	}
	ints := map[string]func(int64){
		"limit": func(v int64) { r.Limit = v }, "limit_most": func(v int64) { r.LimitMost = v },
		"run_days": func(v int64) { r.RunDays = int(v) }, "horizon": func(v int64) { r.Horizon = int(v) },
		"label_far": func(v int64) { r.LabelFar = v }, "repeat_se": func(v int64) { r.RepeatSE = v },
	}
	names := []string{"limit", "limit_most", "explained", "observation", "half_usual", "run_share", "run_days", "fall_travel", "fall_peak", "cause_floor", "store_share", "horizon", "usual_months", "declared_months",
		"label_far", "gauge_reach", "repeat_se"}
	months := map[string]*qty.Months{"usual_months": &r.UsualMonths, "declared_months": &r.DeclaredMonths}
	lengths := map[string]*qty.Length{"fall_travel": &r.FallTravel, "gauge_reach": &r.GaugeReach}
	at := map[string]doc.T{}
	for _, t := range f.root.List("rule", doc.Required) {
		name := t.OneOf("name", doc.Required, names...)
		f.once(t, "name", name)
		at[name] = t
		c := table.RuleCite{Name: name, Words: t.Str("words", doc.Required), Cite: l.cite(f, t)}
		if name != "" && f.want[name] != "" && !f.said[name] {
			f.root.Fault("unit", "has no unit for the rule “"+name+"”", "write "+name+" = \""+f.want[name]+"\" under [unit]")
		}
		switch {
		case shares[name] != nil:
			v := t.Float("value", doc.Required)
			if v <= 0 || v > 1 {
				t.Fault("value", "is not a share above 0 and at most 1", "write a number such as 0.9")
			}
			*shares[name], c.Value = qty.Share(v), number(v)
		case ints[name] != nil:
			v := t.Int("value", doc.Required)
			if v < 1 || v > 1_000_000 {
				t.Fault("value", "is not between 1 and 1000000", "write a whole number above 0")
			}
			ints[name](v)
			c.Value = strconv.FormatInt(v, 10) + " " + f.want[name]
		case months[name] != nil:
			*months[name] = t.Months("value", doc.Required)
			c.Value = months[name].String()
		case lengths[name] != nil:
			*lengths[name] = t.Length("value", doc.Required)
			c.Value = lengths[name].String()
		}
		r.Cites = append(r.Cites, c)
	}
	for _, name := range names {
		if _, ok := at[name]; !ok {
			f.root.Fault("rule", "has no row “"+name+"”", "add it")
		}
	}
	if r.Limit > r.LimitMost {
		at["limit"].Fault("value", "is looser than limit_most allows", "let limit be at most limit_most")
	}
	if r.Observation < r.Explained {
		at["observation"].Fault("value", "is below explained", "let observation be at least explained")
	}
}

// number writes a number of a table as short as it can be said exactly.
func number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
