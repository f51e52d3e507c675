package decide

import (
	"kernbook/internal/core/course"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
	"strings"
)

// The groups of rows that an outcome leans on, in the order they are told.
const (
	GroupRules      = "rules"          // limit, thresholds, spans of the forecast
	GroupLife       = "life"           // ends of life, storage
	GroupIntervals  = "intervals"      // the country's examinations
	GroupNeeds      = "needs"          // looks required, questions answered with yes
	GroupEvents     = "events"         // what events mean, and do to each mode
	GroupSubstances = "substances"     // what substances mean for the fibres
	GroupPiece      = "piece"          // cells, zones, parts
	GroupUse        = "use"            // reference and cautious use, dirt, hardware
	GroupWear       = "wear"           // rates of the modes
	GroupLooks      = "looks"          // quality of the looks made, and what conditions leave of it
	GroupUnseen     = "signs not seen" // how likely damage would have shown in the looks made
	GroupSigns      = "signs"          // signs on record: class, links, leak
	GroupCauses     = "causes"         // harmless causes of signs on record
	GroupReadings   = "readings"       // what readings say, and their limits
	GroupFurther    = "further looks"  // looks not yet made: what they could show
)

// Groups lists them in order.
var Groups = [...]string{GroupRules, GroupLife, GroupIntervals, GroupNeeds, GroupEvents, GroupSubstances, GroupPiece, GroupUse, GroupWear, GroupLooks,
	GroupUnseen, GroupSigns, GroupCauses, GroupReadings, GroupFurther}

// leaning gathers the rows of the tables that an outcome rests on.
type leaning struct {
	*judge
	told  *Told
	rests criteria.Rests
	live  []bool // per mode of the kind: it lives on this piece
	made  [len(kit.Looks)]bool
	out   []Leaned
	at    map[rowKey]int
}

// rowKey is what makes a row one row: its place in the tables, and what of it
// is leaned on.
type rowKey struct {
	group, what, file string
	row               int
}

// leaned lists the rows of the tables that the outcome rests on, each once in
// its group, with the values that counted.
func (j *judge) leaned(told *Told) []Leaned {
	l := &leaning{judge: j, told: told, rests: criteria.RestsOn(j.t, j.r, j.out.Reasons), out: make([]Leaned, 0, 160), at: make(map[rowKey]int, 160)}
	l.rules()
	l.dates()
	l.happened()
	if j.k == nil {
		return l.out
	}
	if j.c == nil {
		l.readings()
		l.plainSigns()
		return l.out
	}
	m := j.c.Model()
	l.live = make([]bool, len(m.Kind.Modes))
	for _, k := range m.Whole {
		l.live[k] = true
	}
	for i := range m.Local {
		l.live[m.Local[i].Mode] = true
	}
	l.kernels()
	l.piece()
	l.use()
	l.wear()
	l.looks()
	l.signs()
	l.readings()
	l.further()
	return l.out
}

// put adds a row with values; a row that is there already gets the name added
// that it is known by here too.
func (l *leaning) put(group, what, id string, c *table.Cite, values ...Value) {
	key := rowKey{group, what, c.File, c.Row}
	if i, ok := l.at[key]; ok {
		l.out[i].also(id)
		return
	}
	l.at[key] = len(l.out)
	l.out = append(l.out, Leaned{Group: group, What: what, ID: id, Values: values, Status: c.Status, Source: c.Source, Place: c.Place, File: c.File, Row: c.Row})
}

// also adds a name to a row.
func (x *Leaned) also(id string) {
	if x.ID == id {
		return
	}
	for _, n := range x.Also {
		if n == id {
			return
		}
	}
	x.Also = append(x.Also, id)
}

// figure is a number with its unit.
func figure(name string, v float64, unit string) Value {
	return Value{Name: name, Number: v, Unit: unit}
}

// of is a value of one item of a row: a mode, a zone, a cause, a state.
func of(item, name string, v float64, unit string) Value {
	return Value{Of: item, Name: name, Number: v, Unit: unit}
}

// said is a value in words.
func said(name, text string) Value { return Value{Name: name, Text: text} }

// rules adds the constants of the decision that came into play.
func (l *leaning) rules() {
	r := &l.t.Rules
	doubt := l.c != nil
	signs := doubt && len(l.c.Open()) > 0
	ahead := doubt && l.outcome().Doubt != nil && !l.ask.Figures
	for i := range r.Cites {
		c := &r.Cites[i]
		var v Value
		on := false
		switch c.Name {
		case "limit":
			v, on = figure("value", float64(r.Limit), "millionths"), doubt // a yard's own is told against it
		case "limit_most":
			v, on = figure("value", float64(r.LimitMost), "millionths"), doubt && l.r.Yard.Limit > 0
		case "explained":
			v, on = figure("value", float64(r.Explained), "share"), signs
		case "observation":
			v, on = figure("value", float64(r.Observation), "share"), signs
		case "cause_floor":
			v, on = figure("value", float64(r.CauseFloor), "share"), signs
		case "half_usual":
			v, on = figure("value", float64(r.HalfUsual), "share"), l.rests.HalfOfUsual
		case "run_share":
			v, on = figure("value", float64(r.RunShare), "share"), ahead
		case "run_days":
			v, on = figure("value", float64(r.RunDays), "days"), ahead
		case "horizon":
			v, on = figure("value", float64(r.Horizon), "days"), ahead
		case "fall_travel":
			v, on = figure("value", r.FallTravel.Millimetres(), "mm"), l.rests.FallOrLoad
		case "fall_peak":
			v, on = figure("value", float64(r.FallPeak), "share"), l.rests.FallOrLoad
		case "usual_months":
			v, on = figure("value", float64(r.UsualMonths), "months"), l.rests.HalfOfUsual && len(l.rests.Intervals) == 0
		case "declared_months":
			v, on = figure("value", float64(r.DeclaredMonths), "months"), l.r.Piece.Origin == "new" && l.r.Piece.Declared.Known()
		case "label_far":
			v, on = figure("value", float64(r.LabelFar), "per mille"), l.measured() && l.r.Piece.Diameter > 0
		case "gauge_reach":
			v, on = figure("value", r.GaugeReach.Millimetres(), "mm"), doubt && l.measured()
		case "repeat_se":
			v, on = figure("value", float64(r.RepeatSE), "hundredths"), doubt && l.measured()
		case "store_share":
			v, on = figure("value", float64(r.StoreShare), "share"), doubt && l.stored()
		}
		if on {
			l.put(GroupRules, "rule", c.Name, &c.Cite, v)
		}
	}
}

// measured says whether a reading is on record up to the day asked for.
func (l *leaning) measured() bool {
	for i := range l.r.Examinations {
		if x := &l.r.Examinations[i]; x.Day <= l.r.AsOf && len(x.Readings) > 0 {
			return true
		}
	}
	return false
}

// outcome is the outcome that is being explained.
func (l *leaning) outcome() *Outcome { return &l.judge.out }

// stored says whether the piece lay in store on some of its days.
func (l *leaning) stored() bool {
	if d, ok := criteria.FirstUse(l.r); ok && Born(l.t, l.r) < d {
		return true
	}
	for i := range l.r.Uses {
		if l.r.Uses[i].Store {
			return true
		}
	}
	return false
}

// dates adds the rows of life, intervals and required looks.
func (l *leaning) dates() {
	for _, x := range l.rests.Lives {
		what, name := "life", "limit"
		if x.Store {
			what, name = "storage", "allowance"
		}
		l.put(GroupLife, what, x.ID, &x.Cite, figure(name, float64(x.Months), "months"), said("outcome", x.Verdict.String()))
	}
	if l.c != nil && !l.r.Piece.Made.Known() { // how long it may have lain in store
		for i := range l.t.Lives {
			if x := &l.t.Lives[i]; x.Store && x.For(l.r.Piece.Kind) {
				l.put(GroupLife, "storage", x.ID, &x.Cite, figure("allowance", float64(x.Months), "months"), said("outcome", x.Verdict.String()))
			}
		}
	}
	for _, x := range l.rests.NoLimits {
		l.put(GroupLife, "no_limit", x.ID, &x.Cite)
	}
	for _, x := range l.rests.Intervals {
		v := figure("every", float64(x.Months), "months")
		if x.Months == 0 {
			v = figure("days", float64(x.Days), "days")
		}
		l.put(GroupIntervals, "interval", x.ID, &x.Cite, v)
	}
	for _, x := range l.rests.Needs {
		v := make([]Value, 0, 2)
		if x.Cover > 0 {
			v = append(v, figure("cover", x.Cover, "share"))
		}
		if x.Places > 0 {
			v = append(v, figure("places", float64(x.Places), ""))
		}
		if len(x.Parts) > 0 {
			v = append(v, said("parts", strings.Join(x.Parts, ", ")))
		}
		l.put(GroupNeeds, "need", string(x.Exam)+" "+string(x.Look), &x.Cite, v...)
	}
	for _, x := range l.rests.Asks {
		l.put(GroupNeeds, "ask", x.ID, &x.Cite, said("yes", x.Yes))
	}
}

// happened adds what events and substances mean by themselves.
func (l *leaning) happened() {
	for _, x := range l.rests.Effects {
		l.put(GroupEvents, "effect", x.Event, &x.Effect.Cite, said("verdict", x.Effect.Verdict.String()))
	}
	for _, x := range l.rests.Substances {
		l.put(GroupSubstances, "contaminant", x.ID, &x.Cite, said("harmless_everywhere", truth(x.Harmless)))
	}
	for _, x := range l.rests.OnFibres {
		l.put(GroupSubstances, "effect", x.Contaminant, &x.Cite, said("outcome", x.Verdict.String()), said("wash", truth(x.Wash)))
	}
}

func truth(b bool) string {
	if b {
		return "true"
	}
	return "false"
}

// kernels adds what each event did to the modes at one stroke.
func (l *leaning) kernels() {
	for i := range l.rests.Events {
		e := &l.rests.Events[i]
		def := l.t.Event(e.Event)
		if def == nil || (e.Substance != "" && criteria.Harmless(l.t, l.r, e)) {
			continue
		}
		for k := range l.k.Modes {
			if !l.live[k] {
				continue
			}
			if x := def.KernelFor(l.k.ID, l.k.Modes[k].ID, e.Peak); x != nil {
				l.put(GroupEvents, "kernel", e.Event+", "+x.Mode, &x.Cite, figure("from_peak", x.FromPeak, "share"),
					figure("j01", x.J01, "share"), figure("j02", x.J02, "share"), figure("j12", x.J12, "share"))
			}
		}
	}
}

// piece adds how the piece is divided.
func (l *leaning) piece() {
	k := l.k
	v := []Value{said("strict", truth(k.Strict)), said("sides", strings.Join(k.Sides, ", "))}
	if k.Axis == "length" {
		v = append(v, figure("cell", k.Cell.Millimetres(), "mm"))
		if l.r.Piece.Length <= 0 {
			v = append(v, figure("length", k.Length.Millimetres(), "mm"))
		}
	}
	for i := range l.r.Piece.Layers {
		if l.r.Piece.Layers[i].Fibre == kit.NoLayer {
			v = append(v, said("must", mustHave(k)))
			break
		}
	}
	l.put(GroupPiece, "kind", string(k.ID), &k.Cite, v...)
	usual, own := l.usualZones(), len(l.r.Piece.Zones) > 0
	for i := range l.r.Changes {
		own = own || len(l.r.Changes[i].Zones) > 0
	}
	for i := range k.Zones {
		z := &k.Zones[i]
		if z.Where == "rest" || k.Axis != "length" {
			continue
		}
		if usual {
			l.put(GroupPiece, "zone", z.ID, &z.Cite, figure("extent", float64(z.Extent), "share"))
		}
		if own {
			l.put(GroupPiece, "zone", z.ID, &z.Cite, figure("most", float64(z.Most), "share"))
		}
	}
	for i := range k.Parts {
		l.put(GroupPiece, "part", k.Parts[i].ID, &k.Parts[i].Cite, figure("extent", k.Parts[i].Extent.Millimetres(), "mm"))
	}
}

// usualZones says whether the tables' layout of zones was taken at some time.
func (l *leaning) usualZones() bool {
	usual := len(l.r.Piece.Zones) == 0
	for _, a := range l.c.Model().Assume {
		usual = usual || a == "zones"
	}
	for i := range l.r.Changes {
		c := &l.r.Changes[i]
		usual = usual || c.What == "shortened at end A" || c.What == "shortened at end B" || (c.What == "zones" && len(c.Zones) == 0)
	}
	return usual
}

// mustHave gives the layers that a kind must have: of each group, one.
func mustHave(k *table.Kind) string {
	var out []string
	for _, group := range k.Must {
		one := ""
		for i, l := range group {
			if i > 0 {
				one += " or "
			}
			one += l
		}
		out = append(out, one)
	}
	return strings.Join(out, ", ")
}

// use adds the use that the rates stand for, the words of the record for dirt
// and hardware, and the cautious values of what was not said.
func (l *leaning) use() {
	r := &l.t.Rules
	l.put(GroupUse, "use", "reference", &r.Reference.Cite, figure("mass", r.Reference.Mass.Kilograms(), "kg"))
	var v []Value
	day := false
	for _, fact := range l.c.Assumed {
		switch fact {
		case "hours":
			v = append(v, figure("week", r.Cautious.Week.Hours(), "h"))
			day = true
		case "mass":
			v = append(v, figure("mass", r.Cautious.Mass.Kilograms(), "kg"))
		case "weekdays":
			day = true
		case "dirt":
			v = append(v, said("dirt", r.Cautious.Dirt))
			l.level("dirt", l.t.Dirt, r.Cautious.Dirt)
		case "hardware":
			v = append(v, said("hardware", r.Cautious.Hardware))
			l.level("hardware", l.t.Hardware, r.Cautious.Hardware)
		}
	}
	if day {
		v = append(v, figure("day", r.Cautious.Day.Hours(), "h"))
	}
	if len(v) > 0 {
		l.put(GroupUse, "use", "cautious", &r.Cautious.Cite, v...)
	}
	for i := range l.r.Uses {
		if u := &l.r.Uses[i]; u.From <= l.r.AsOf && !u.Store {
			l.level("dirt", l.t.Dirt, u.Dirt)
			l.level("hardware", l.t.Hardware, u.Hardware)
		}
	}
}

func (l *leaning) level(what string, levels []table.Level, id string) {
	for i := range levels {
		if x := &levels[i]; x.ID == id {
			l.put(GroupUse, what, x.ID, &x.Cite, figure("z", x.Z, "1"))
		}
	}
}

// wear adds the rates of every mode that lives on the piece.
func (l *leaning) wear() {
	stored := l.stored()
	for i := range l.k.Modes {
		if !l.live[i] {
			continue
		}
		m := &l.k.Modes[i]
		v := make([]Value, 0, 15+len(m.Shares))
		v = append(v, figure("t01", m.T01, perYear), figure("t02", m.T02, perYear), figure("t12", m.T12, perYear),
			figure("h01", m.H01, perHours), figure("h02", m.H02, perHours), figure("h12", m.H12, perHours), figure("hidden", m.Hidden, "share"),
			figure("beta_dirt", m.BetaDirt, "1"), figure("beta_mass", m.BetaMass, "1"), figure("beta_hardware", m.BetaHardware, "1"),
			figure("new1", m.New1, "share"), figure("new2", m.New2, "share"), figure("floor_h", m.FloorH, perHours), figure("floor_t", m.FloorT, perYear))
		if stored {
			v = append(v, figure("floor_store", m.FloorStore, perYear))
		}
		for _, s := range m.Shares {
			v = append(v, of(s.Zone, "shares", s.Share, "share"))
		}
		l.put(GroupWear, "mode", m.ID, &m.Cite, v...)
	}
}

const (
	perYear  = "1/year"
	perHours = "1/100 h"
)

// lookUse is a look as its quality depends on it.
type lookUse struct {
	look kit.LookID
	exam kit.ExamKind
	c    kit.Conditions
}

// looks adds the quality of every look on record up to the day asked for.
func (l *leaning) looks() {
	var done []lookUse
	add := func(looks []kit.Look, exam kit.ExamKind, whole string, day qty.Day, readings int) {
	next:
		for i := range looks {
			if looks[i].Look == kit.Gauge && readings == 0 && len(l.k.Reads) > 0 {
				continue // a gauge went only where a reading is on record
			}
			u := lookUse{looks[i].Look, criteria.QualityAs(l.r, exam, looks[i].Maker(whole), day), looks[i].Conditions}
			for k := range done {
				if done[k] == u {
					continue next
				}
			}
			done = append(done, u)
			if o := u.look.Order(); o >= 0 {
				l.made[o] = true
			}
			l.quality(GroupLooks, &u)
		}
	}
	for i := range l.r.Runs {
		if x := &l.r.Runs[i]; x.From <= l.r.AsOf {
			add(x.Looks, x.Kind, x.By, x.From, 0)
		}
	}
	for i := range l.r.Examinations {
		x := &l.r.Examinations[i]
		if x.Day > l.r.AsOf {
			continue
		}
		add(x.Looks, x.Kind, x.By, x.Day, len(x.Readings))
		for k := range x.Signs {
			l.lookedFor(l.k.Sign(x.Signs[k].Sign))
		}
		for k := range x.Readings { // one out of range is a sign of the gauge
			if q := l.k.Quantity(x.Readings[k].Quantity); q != nil {
				l.lookedFor(l.k.Sign(q.Sign))
			}
		}
	}
}

// lookedFor adds the quality with which a sign is weighed: of every look that
// can show it, and that can show the other signs of its harmless causes.
func (l *leaning) lookedFor(def *table.Sign) {
	if def == nil {
		return
	}
	for _, look := range def.Looks {
		l.kappa(look, kit.Thorough)
	}
	for i := range l.k.Signs {
		other := &l.k.Signs[i]
		for _, x := range other.Causes {
			for _, y := range def.Causes {
				if x.Cause == y.Cause {
					for _, look := range other.Looks {
						l.kappa(look, kit.Thorough)
					}
				}
			}
		}
	}
}

// kappa adds a look's quality in a kind of examination.
func (l *leaning) kappa(look kit.LookID, exam kit.ExamKind) {
	if def := l.t.Look(look); def != nil {
		if row := def.KappaRow(exam); row != nil {
			l.put(GroupLooks, "kappa", string(look)+" "+string(exam), &row.Cite, figure("k", row.K, "share"))
		}
	}
}

// quality adds the rows that make up the quality of one look.
func (l *leaning) quality(group string, u *lookUse) {
	def := l.t.Look(u.look)
	if def == nil {
		return
	}
	if group == GroupLooks {
		l.put(group, "look", string(def.ID), &def.Cite, figure("beta", def.Beta, "share"))
	}
	if row := def.KappaRow(u.exam); row != nil {
		l.put(group, "kappa", string(def.ID)+" "+string(u.exam), &row.Cite, figure("k", row.K, "share"))
	}
	for _, row := range course.FactorRows(def, &u.c) {
		if row != nil {
			state := row.State
			if state == "" {
				state = "not said"
			}
			l.put(group, "factor", string(def.ID)+" "+row.Condition+" "+state, &row.Cite, figure("f", row.F, "share"))
		}
	}
}
