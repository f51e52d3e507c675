package draw

import (
	"strconv"
	"strings"

	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
)

// Words are what the sheet says. The drawing has no words of its own: Say, Name
// and Share must be there.
type Words struct {
	Reasons []string // every reason, one sentence each, in the order of the outcome
	Unsaid  bool     // what withdraws it could still be lifted by what its record does not say
	Open    bool     // or by an answer to what it asks

	// Say gives the words of a key of the catalogue with its values. Days come
	// as ISO 8601, whole numbers as digits, the outcome as the core calls it,
	// or "held".
	Say func(key string, args ...criteria.Arg) string
	// Name gives the short name of a thing: what is "kind", "look", "mark" (of
	// an examination, or "event"), "part", "sign" or "zone".
	Name func(what, id string) string
	// Share gives a share from 0 to 1 in per cent, rounded down.
	Share func(p float64) string
}

// say gives a phrase of the drawing; pairs are names and values in turn. The
// key stands in the catalogue's section for the drawing.
func (sh *sheet) say(key string, pairs ...string) string { return sh.shared("draw."+key, pairs...) }

// shared gives a phrase that the drawing has in common with the text.
func (sh *sheet) shared(key string, pairs ...string) string {
	args := make([]criteria.Arg, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		args = append(args, criteria.Arg{Name: pairs[i], Value: pairs[i+1]})
	}
	return sh.w.Say(key, args...)
}

func (sh *sheet) date(d qty.Day) string { return sh.say("date", "day", d.String()) }

// month says a month of a year, for the scale of days.
func (sh *sheet) month(year, month int) string {
	return sh.say("date", "day", qty.PartialDate{Year: year, Month: month}.String())
}

// digits gives a whole number as the catalogue takes it.
func digits(n int64) string { return strconv.FormatInt(n, 10) }

// oneInOf gives the N of "1 in N" for whole millionths, as the catalogue takes
// it; 0 is none.
func oneInOf(millions int64) string { return digits(num.OneIn(millions)) }

func (sh *sheet) count(n int64) string { return sh.shared("count", "n", digits(n)) }

// oneIn says whole millionths as "1 in N".
func (sh *sheet) oneIn(millions int64) string { return sh.shared("chance", "n", oneInOf(millions)) }

func (sh *sheet) millionths(n int64) string { return sh.shared("millionths", "n", digits(n)) }

// verdict gives the outcome as the catalogue takes it.
func (sh *sheet) verdict() string {
	if sh.o.Held {
		return "held"
	}
	return sh.o.Verdict.String()
}

// outcome says the outcome with a capital first letter.
func (sh *sheet) outcome() string { return sh.say("outcome", "outcome", sh.verdict()) }

// main gives the main reason, or that there is none.
func (sh *sheet) main() string {
	if len(sh.w.Reasons) == 0 {
		return sh.shared("because.none")
	}
	return sh.w.Reasons[0]
}

func (sh *sheet) kind() string { return sh.w.Name("kind", string(sh.o.Kind)) }

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
		return sh.shared("place.whole")
	case p.Part != "":
		return sh.w.Name("part", p.Part)
	}
	from, to := sh.length(p.From, whole), sh.length(p.To, whole)
	if from == to {
		return from
	}
	return sh.say("stretch", "from", strings.TrimSuffix(strings.TrimSuffix(from, " mm"), " m"), "to", to)
}
