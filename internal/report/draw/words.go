package draw

import (
	"maps"
	"strconv"
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
)

// Words are what the sheet says. Every field may be left empty.
type Words struct {
	Outcome string   // the outcome; empty: the core's own words
	Main    string   // the main reason, one sentence
	Reasons []string // every reason, one sentence each, in the order of the outcome
	Kind    string   // the kind of piece; empty: its id

	// Say gives a phrase by its key (see Phrases) with {name} filled in from
	// args; nil, or an empty answer, means English.
	Say func(key string, args ...criteria.Arg) string
	// Name gives the short name of a thing of the tables: what is "look",
	// "exam", "part", "zone" or "sign"; nil, or an empty answer, means the
	// outcome's own word for it.
	Name func(what, id string) string
}

// Phrases gives the English text of every phrase that a sheet can need, by key,
// for catalogues to translate and for their tests to check against.
func Phrases() map[string]string { return maps.Clone(english) }

var english = map[string]string{
	"draw.title":         "{piece}, {kind}: {outcome}",
	"draw.desc":          "One sheet, judged for {day}: the outcome, the doubt over time, its fall look by look, and where along the piece it sits. The text report says the same.",
	"draw.judged":        "judged for {day}",
	"draw.exam":          "{exam} examination of {day}",
	"draw.exam-none":     "no examination on record",
	"draw.reasons":       "first of {n} reasons",
	"draw.doubt":         "doubt",
	"draw.doubt-sub":     "{n} in a million",
	"draw.limit":         "limit of doubt",
	"draw.limit-loose":   "limit, looser than default",
	"draw.limit-in":      "the doubt is within it",
	"draw.limit-over":    "the doubt is over it",
	"draw.next":          "look again by",
	"draw.next-hours":    "{hours} of use",
	"draw.why-doubt":     "forecast of doubt",
	"draw.why-exam":      "examination due",
	"draw.why-life":      "end of life",
	"draw.why-reason":    "date of a reason",
	"draw.why-half":      "half the interval",
	"draw.next-none":     "no date known",
	"draw.next-aside":    "set aside until answered",
	"draw.next-withdraw": "withdrawn from use",
	"draw.life":          "end of life",
	"draw.life-none":     "no date known",
	"draw.exam-due":      "examination due {day}",
	"draw.no-due":        "no examination date known",
	"draw.one-in":        "1 in {n}",
	"draw.none":          "none",
	"draw.not":           "—",

	"draw.line":         "The doubt line",
	"draw.line-desc":    "Doubt from {from} to {to}, between 1 in {low} and 1 in {high}; now 1 in {now}, of which 1 in {hidden} is hidden; the limit is 1 in {limit}.",
	"draw.untold":       "No explanation was asked for, so this is not drawn.",
	"draw.line-means":   "“1 in N”: of N pieces with a record like this, one would be unfit. Dotted: forecasts, drawn straight to their end.",
	"draw.now":          "now",
	"draw.hidden":       "hidden",
	"draw.limit-short":  "limit",
	"draw.hidden-key":   "hidden from every look",
	"draw.looks":        "pre-use looks",
	"draw.looks-kept":   "on {share} % of days",
	"draw.looks-none":   "none on record",
	"draw.with":         "over, if kept up",
	"draw.without":      "over, if not",
	"draw.over-on":      "on {day}",
	"draw.within-to":    "not by {day}",
	"draw.life-lane":    "life",
	"draw.life-to":      "to {day}",
	"draw.look-by":      "look again by {day}",
	"draw.last-before":  "before",
	"draw.first-after":  "after",
	"draw.fall":         "The fall, look by look",
	"draw.fall-of":      "{exam} examination of {day}",
	"draw.fall-desc":    "From {before} in a million before the looks to {after} after them: {steps}.",
	"draw.fall-step":    "{look} {by}",
	"draw.fall-note":    "Figures are millionths and add up: {before} before, {after} after. “<1” is less than one.",
	"draw.fall-none":    "There is no fall to draw: no look is on record for an examination at hand.",
	"draw.under-one":    "<1",
	"draw.along":        "Doubt along the piece",
	"draw.parts":        "Doubt part by part",
	"draw.along-desc":   "Most doubt: {place}, at most {share} in one stretch or part.",
	"draw.along-signs":  "Signs on record: {n}.",
	"draw.whole":        "Damage of the piece as a whole, at no one place: {n} millionths.",
	"draw.per-cell":     "Millionths per stretch of {length}.",
	"draw.per-part":     "Millionths per part.",
	"draw.most":         "most doubt",
	"draw.worst":        "most doubt: {place}",
	"draw.stretch":      "{from} to {to}",
	"draw.place-whole":  "the whole piece",
	"draw.look-not":     "{look}: not made",
	"draw.sign":         "{words}, {place}, since {day}",
	"draw.sign-why":     "{share} % explained",
	"draw.sign-abs":     "an absolute reason",
	"draw.signs-more":   "and {n} more, in the text report",
	"draw.signs-none":   "No sign is on record.",
	"draw.not-felt":     "not felt",
	"draw.findable":     "a look can show it",
	"draw.foot":         "The text report says the same in words and tables.",
	"draw.made-by":      "core {core} · tables {tables}",
	"draw.why-title":    "Reasons",
	"draw.more-reasons": "and {n} more, in the text report",
	"draw.time-title":   "Life and examinations",
	"draw.time-desc":    "Judged for {day}. End of life: {life}. Thorough examination by: {due}.",
	"draw.no-kind":      "There is no figure of doubt for this kind of piece: its rules alone decide.",
	"draw.no-many":      "The signs on record can be explained in too many ways for an exact figure of doubt; none is guessed.",
	"draw.no-bad":       "What is on record cannot all be so by the tables; there is no figure of doubt.",
	"draw.made":         "made",
	"draw.first-use":    "first use",
	"draw.today":        "judged",
	"draw.due":          "examination",

	"draw.day":    "{day} {month} {year}",
	"draw.month":  "{month} {year}",
	"draw.mon-1":  "Jan",
	"draw.mon-2":  "Feb",
	"draw.mon-3":  "Mar",
	"draw.mon-4":  "Apr",
	"draw.mon-5":  "May",
	"draw.mon-6":  "Jun",
	"draw.mon-7":  "Jul",
	"draw.mon-8":  "Aug",
	"draw.mon-9":  "Sep",
	"draw.mon-10": "Oct",
	"draw.mon-11": "Nov",
	"draw.mon-12": "Dec",
}

// say gives a phrase; pairs are names and values in turn.
func (sh *sheet) say(key string, pairs ...string) string {
	args := make([]criteria.Arg, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		args = append(args, criteria.Arg{Name: pairs[i], Value: pairs[i+1]})
	}
	if sh.w.Say != nil {
		if t := sh.w.Say("draw."+key, args...); t != "" {
			return t
		}
	}
	return fill(english["draw."+key], args)
}

// fill puts the values of args in place of their {name}s, in one pass, so that
// a value is never read as a name.
func fill(text string, args []criteria.Arg) string {
	pairs := make([]string, 0, 2*len(args))
	for _, a := range args {
		pairs = append(pairs, "{"+a.Name+"}", a.Value)
	}
	return strings.NewReplacer(pairs...).Replace(text)
}

// name gives the short name of a thing of the tables.
func (sh *sheet) name(what, id string) string {
	if sh.w.Name != nil {
		if t := sh.w.Name(what, id); t != "" {
			return t
		}
	}
	return id
}

func (sh *sheet) date(d qty.Day) string {
	y, m, day := d.Date()
	return sh.say("day", "day", strconv.Itoa(day), "month", sh.say("mon-"+strconv.Itoa(m)), "year", strconv.Itoa(y))
}

func (sh *sheet) month(d qty.Day) string {
	y, m, _ := d.Date()
	return sh.say("month", "month", sh.say("mon-"+strconv.Itoa(m)), "year", strconv.Itoa(y))
}

// oneIn says a share in whole millionths as "1 in N".
func (sh *sheet) oneIn(millions int64) string {
	n := num.OneIn(millions)
	if n <= 0 {
		return sh.say("none")
	}
	return sh.say("one-in", "n", count(n))
}

// outcome says the outcome with a capital first letter.
func (sh *sheet) outcome() string {
	t := sh.w.Outcome
	if t == "" {
		t = sh.o.Verdict.String()
		if sh.o.Held && sh.o.Verdict == kit.Withdraw {
			t += ", held"
		}
	}
	for i, r := range t {
		return strings.ToUpper(string(r)) + t[i+len(string(r)):]
	}
	return t
}

func (sh *sheet) kind() string {
	if sh.w.Kind != "" {
		return sh.w.Kind
	}
	return string(sh.o.Kind)
}

// length says a place along a piece: in millimetres on a short one, in metres
// on a long one.
func (sh *sheet) length(l, whole qty.Length) string {
	if whole <= 3*qty.Metre {
		return strconv.FormatInt(int64((l+500)/1000), 10) + " mm"
	}
	cm := int64((l + 5000) / 10000)
	t := strconv.FormatFloat(float64(cm)/100, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(t, "0"), ".") + " m"
}

// place says where something is.
func (sh *sheet) place(p kit.Place, whole qty.Length) string {
	switch {
	case p.Whole:
		return sh.say("place-whole")
	case p.Part != "":
		return sh.name("part", p.Part)
	}
	from, to := sh.length(p.From, whole), sh.length(p.To, whole)
	if from == to {
		return from
	}
	return sh.say("stretch", "from", strings.TrimSuffix(strings.TrimSuffix(from, " mm"), " m"), "to", to)
}

// count prints a whole number with its thousands held apart.
func count(n int64) string {
	t := strconv.FormatInt(n, 10)
	sign := ""
	if n < 0 {
		sign, t = "−", t[1:]
	}
	for i := len(t) - 3; i > 0; i -= 3 {
		t = t[:i] + string(narrow) + t[i:]
	}
	return sign + t
}
