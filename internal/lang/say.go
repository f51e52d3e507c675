package lang

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
)

// thin keeps the thousands of a number together and apart: U+202F.
const thin = "\u202f"

// Say gives the sentence for a key with its values. Of two values of one name
// the first counts; an empty value is none. What lacks words or a value shows
// between ⟦ and ⟧.
func (c *Catalogue) Say(key string, args ...Arg) string {
	m, ok := c.messages[key]
	if !ok {
		return "⟦no words for " + key + "⟧"
	}
	var b strings.Builder
	c.fill(&b, m, args)
	return b.String()
}

// fill writes a message; ok is false where a value is missing.
func (c *Catalogue) fill(b *strings.Builder, m message, args []Arg) (ok bool) {
	ok = true
	for i := range m {
		p := &m[i]
		switch {
		case p.name != "":
			text, found := c.value(p, args)
			ok = ok && found
			if p.upper {
				text = Upper(text)
			}
			b.WriteString(text)
		case p.maybe != nil:
			var part strings.Builder
			if c.fill(&part, p.maybe, args) {
				b.WriteString(part.String())
			}
		default:
			b.WriteString(p.text)
		}
	}
	return ok
}

// value gives the words for one place.
func (c *Catalogue) value(p *piece, args []Arg) (text string, ok bool) {
	for i := range args {
		if args[i].Name == p.name {
			text = args[i].Value
			break
		}
	}
	switch p.how {
	case "":
	case "date":
		if d, err := qty.ParseDate(text); text != "" && text != "unknown" && err == nil {
			return d.Words(), true
		}
	case "count":
		if n, err := whole(text); err == nil {
			return Count(n), true
		}
	case "chance":
		if n, err := whole(text); err == nil {
			return c.Chance(n), true
		}
	default: // a group of keys; a value not said has a key of its own there
		word := text
		if word == "" {
			word = "not-said"
		}
		if key := p.how + "." + strings.ReplaceAll(word, " ", "-"); c.Has(key) {
			return c.Say(key), true
		}
		if key := p.how + ".any"; text != "" && c.Has(key) {
			return c.Say(key, Arg{Name: "n", Value: text}), true
		}
		if text != "" {
			return "⟦no words for " + p.how + " “" + text + "”⟧", true
		}
	}
	if text == "" {
		return "⟦no value for " + p.name + "⟧", false
	}
	return text, true
}

// whole reads a whole number whose thousands may stand apart.
func whole(text string) (int64, error) {
	return strconv.ParseInt(strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, text), 10, 64)
}

// Upper gives a text with its first letter as a capital.
func Upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// Count prints a whole number with its thousands apart: "45 000".
func Count(n int64) string {
	s := strconv.FormatInt(n, 10)
	sign := ""
	if n < 0 {
		sign, s = "−", s[1:]
	}
	out := s
	for at := len(s) - 3; at > 0; at -= 3 {
		out = out[:at] + thin + out[at:]
	}
	return sign + out
}

// Chance prints the N of "1 in N"; 0 is none to speak of.
func (c *Catalogue) Chance(n int64) string {
	if n == 0 {
		return c.Say("chance.none")
	}
	if n == 1 {
		return c.Say("chance.most") // a doubt of more than a half
	}
	return c.Say("chance.one-in", Arg{Name: "n", Value: Count(n)})
}

// List puts items in a row: "a, b and c".
func (c *Catalogue) List(items []string) string {
	if len(items) == 0 {
		return ""
	}
	out := items[0]
	for i, next := range items[1:] {
		key := "list.more"
		if i == len(items)-2 {
			key = "list.last"
		}
		out = c.Say(key, Arg{Name: "list", Value: out}, Arg{Name: "next", Value: next})
	}
	return out
}

// Place says where on a piece: "from 430 mm to 480 mm from end A, in the ring's
// travel". part is how the named part is called; zone is the id of the zone, or
// its words where the catalogue has none for it. Either may be "". A place that
// names nothing gives "".
func (c *Catalogue) Place(p kit.Place, part, zone string) string {
	var where string
	switch {
	case p.Part != "":
		where = c.Say("place.part", Arg{Name: "part", Value: part})
	case p.Whole:
		where = c.Say("place.whole")
	case p.Gone:
		where = c.Say("place.gone")
	case p.To == 0 && p.From == 0:
		return ""
	case p.From == p.To:
		where = c.Say("place.point", Arg{Name: "at", Value: p.From.String()})
	default:
		from, to := lengths(p.From, p.To)
		where = c.Say("place.stretch", Arg{Name: "from", Value: from}, Arg{Name: "to", Value: to})
	}
	args := []Arg{{Name: "where", Value: where}}
	if zone != "" && p.Part == "" && !p.Whole && !p.Gone {
		if c.Has("zone." + zone) {
			zone = c.Say("zone." + zone)
		}
		args = append(args, Arg{Name: "zone", Value: zone})
	}
	sides := make([]string, len(p.Sides))
	for i, s := range p.Sides {
		sides[i] = s
		if c.Has("side." + s) {
			sides[i] = c.Say("side." + s)
		}
	}
	args = append(args, Arg{Name: "sides", Value: c.List(sides)}, Arg{Name: "layer", Value: p.Layer})
	return c.Say("place", args...)
}

// lengths prints two lengths in one unit: millimetres where both are below two
// metres, else metres.
func lengths(a, b qty.Length) (string, string) {
	if a >= 2*qty.Metre || b >= 2*qty.Metre {
		return metres(a), metres(b)
	}
	return millimetres(a), millimetres(b)
}

func millimetres(l qty.Length) string {
	return strconv.FormatFloat(l.Millimetres(), 'f', -1, 64) + " mm"
}

func metres(l qty.Length) string {
	return strconv.FormatFloat(l.Metres(), 'f', -1, 64) + " m"
}
