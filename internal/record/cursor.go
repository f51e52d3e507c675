package record

import (
	"slices"
	"strconv"
	"strings"

	"kernbook/internal/core/qty"
	"kernbook/internal/doc"
)

// cursor is a table of the record: the strict reader's, and the node itself for
// values that may be of more than one kind.
type cursor struct {
	doc.T
	n *doc.Node
	d *decoder
}

func (c cursor) sub(key string) cursor {
	return c.below(c.Sub(key, doc.Optional), c.value(key))
}

func (c cursor) needed(key string) cursor {
	return c.below(c.Sub(key, doc.Required), c.value(key))
}

func (c cursor) list(key string) []cursor {
	var out []cursor
	for i, t := range c.List(key, doc.Optional) {
		out = append(out, c.below(t, c.n.Fields[key].Items[i]))
	}
	return out
}

func (c cursor) below(t doc.T, n *doc.Node) cursor {
	if !t.Present() {
		n = nil
	}
	return cursor{T: t, n: n, d: c.d}
}

// value gives the node under a key, or nil, and counts the key as known.
func (c cursor) value(key string) *doc.Node {
	if !c.Has(key) {
		return nil
	}
	return c.n.Fields[key]
}

// Fault is the strict reader's, silent too where a key has been faulted here.
func (c cursor) Fault(key, what, mend string) {
	if !c.d.failed[c.at(key)] {
		c.T.Fault(key, what, mend)
	}
}

// at gives the path of a key.
func (c cursor) at(key string) string {
	if p := c.Path(); p != "" {
		return p + "." + key
	}
	return key
}

// line gives the line of a key, or of the table where it has none.
func (c cursor) line(key string) int {
	if n := c.value(key); n != nil {
		return n.Line
	}
	line, _ := c.Pos()
	return line
}

// filled reports whether a required key has something to read, and faults it
// where it is missing or an empty text, as in a record not yet filled in.
func (c cursor) filled(key, mend string) bool {
	n := c.value(key)
	switch {
	case !c.Present() || n != nil && n.Kind == doc.Bad:
		return false
	case n == nil:
		c.d.fault(c.n, c.at(key), "is missing", "add it: "+mend)
		return false
	case blank(n):
		c.d.fault(n, c.at(key), "is not filled in", mend)
		return false
	}
	return true
}

// begun is filled for a key that may be left out.
func (c cursor) begun(key, mend string) bool { return c.value(key) == nil || c.filled(key, mend) }

func blank(n *doc.Node) bool {
	return n.Kind == doc.String && strings.TrimSpace(n.Text) == ""
}

// says reports whether the value is exactly that text.
func (c cursor) says(key, text string) bool {
	n := c.value(key)
	return n != nil && n.Kind == doc.String && n.Text == text
}

// text reads a text; one that is needed has the sentence that says how to mend it.
func (c cursor) text(key string) string { return c.Str(key, doc.Optional) }

func (c cursor) needText(key, mend string) string {
	if !c.filled(key, mend) {
		return ""
	}
	return c.Str(key, doc.Optional)
}

func (c cursor) word(key string, words []string) string {
	return c.wordOr(key, words, ", or take the key out")
}

// asked is a word that the outcome asks for where the key is taken out.
func (c cursor) asked(key string, words []string) string {
	return c.wordOr(key, words, "; taken out, it sets the piece aside until it is said")
}

func (c cursor) wordOr(key string, words []string, out string) string {
	if n := c.value(key); n != nil && blank(n) {
		c.d.fault(n, c.at(key), "is not filled in", "write "+oneOf(words)+out)
		return ""
	}
	return c.OneOf(key, doc.Optional, words...)
}

// takes reports whether the value is one of these words, as a rule it is: then no
// sentence about it need be put together.
func (c cursor) takes(key string, words []string) bool {
	n := c.value(key)
	return n != nil && n.Kind == doc.String && !blank(n) && slices.Contains(words, n.Text)
}

func (c cursor) needWord(key string, words []string) string {
	if c.takes(key, words) {
		return c.n.Fields[key].Text
	}
	if !c.filled(key, "write "+key+" = "+oneOf(words)) {
		return ""
	}
	return c.OneOf(key, doc.Optional, words...)
}

// needDate reads a date that must be there; "unknown" is an answer.
func (c cursor) needDate(key string) qty.PartialDate {
	if !c.filled(key, "write "+key+` = "2026-06-01", "2026-06", "2026" or "unknown"`) {
		return qty.PartialDate{}
	}
	return c.Date(key, doc.Optional)
}

const dayMend = "write the day itself, such as 2026-06-01"

// needDay reads a day that must be there, known to the day.
func (c cursor) needDay(key string) (qty.Day, bool) {
	if !c.filled(key, dayMend) {
		return 0, false
	}
	return c.day(key)
}

func (c cursor) day(key string) (qty.Day, bool) {
	if n := c.value(key); n != nil && n.Kind == doc.String {
		if _, err := qty.ParseDate(n.Text); err != nil {
			c.d.fault(n, c.at(key), "“"+doc.Short(n.Text)+"” is no day of the calendar", dayMend)
			return 0, false
		}
	}
	p := c.Date(key, doc.Optional)
	if !p.Exact() {
		if n := c.value(key); n != nil {
			c.Fault(key, "“"+n.Text+"” is not known to the day", dayMend)
		}
		return 0, false
	}
	return p.Earliest(), true
}

// Beyond these a value is a slip of the hand. They also keep every value within
// what its printed form can be read back from.
const (
	mostLength = 2000 * qty.Metre
	mostMass   = 300 * qty.Kilogram
	leastMass  = 25 * qty.Kilogram
	mostForce  = 1000 * qty.Kilonewton
	mostMonths = 100 * qty.Year
	hoursAWeek = 168 * qty.Hour
)

// length reads a length; 0 stands for one that is absent or refused.
func (c cursor) length(key string) qty.Length {
	l := c.Length(key, doc.Optional)
	if l > mostLength {
		c.Fault(key, l.String()+" is longer than any piece of kit", "correct the number or its unit")
		return 0
	}
	return l
}

func (c cursor) needLength(key, mend string) qty.Length {
	if !c.filled(key, mend) {
		return 0
	}
	return c.length(key)
}

// moreThanNone faults a length of nought that was typed.
func (c cursor) moreThanNone(key string, l qty.Length) {
	if l == 0 && c.Has(key) {
		c.Fault(key, "is nought", "write what was measured, or leave the key out")
	}
}

func (c cursor) lengths(key string, required bool) []qty.Length {
	if required && !c.filled(key, `write what was measured, in a list: `+key+` = ["11.2mm"]`) {
		return nil
	}
	ls := c.Lengths(key, required)
	for i, l := range ls {
		if l > mostLength {
			c.Fault(key, l.String()+" is longer than any piece of kit", "correct the number or its unit")
			ls[i] = 0
		}
	}
	return ls
}

func (c cursor) months(key string) qty.Months {
	m := c.Months(key, doc.Optional)
	switch {
	case m > mostMonths:
		c.Fault(key, m.String()+" is longer than any life of kit", "correct the number or its unit")
	case m == 0 && c.Has(key):
		c.Fault(key, "is nought", "write the span, such as \"5 years\", or leave the key out where nothing is said")
	}
	return m
}

// words reads a list of words, each with its place, for checks word by word.
func (c cursor) words(key string) []item {
	if c.value(key) == nil {
		return nil
	}
	c.Strings(key, doc.Optional)
	var out []item
	for i, n := range c.n.Fields[key].Items {
		if n.Kind == doc.String && !blank(n) {
			out = append(out, item{n, c.at(key) + "[" + strconv.Itoa(i) + "]"})
		}
	}
	return out
}

type item struct {
	n    *doc.Node
	path string
}

// set is a list of ids, with what one of them is called.
type set struct {
	noun  string // "sign of the kind “bridge”"
	ids   []string
	where string            // where they are listed, when they are too many for a line
	any   bool              // nothing can be said, as the kind is not known
	named map[string]string // other names of ids, in small letters
}

func (s set) has(id string) bool { return s.any || slices.Contains(s.ids, id) }

// choice ends a sentence that asks for one of the ids.
func (s set) choice() string {
	const few = 24
	switch {
	case s.any:
		return ""
	case len(s.ids) == 0:
		return "; but the tables have none"
	case len(s.ids) <= few || s.where == "":
		return ", " + oneOf(s.ids)
	}
	return "; " + s.where
}

// wrong says that an id is not in the set, and how to mend it.
func (s set) wrong(id string) (what, mend string) {
	what = "“" + doc.Short(id) + "” is no " + s.noun
	w := s.named[strings.ToLower(strings.TrimSpace(id))]
	if w == "" || !slices.Contains(s.ids, w) {
		w = suggest(id, s.ids)
	}
	if w != "" {
		what += "; did you mean “" + w + "”?"
	}
	if len(s.ids) == 0 {
		return what, "take it out: there is none"
	}
	return what, strings.Replace("correct it"+s.choice(), "correct it, ", "write ", 1)
}

// id reads the id of a set.
func (c cursor) id(key string, s set) string {
	id := c.text(key)
	if id != "" && !s.has(id) {
		what, mend := s.wrong(id)
		c.Fault(key, what, mend)
		return ""
	}
	return id
}

// needID asks for an id; what says what it stands for: "which zone it is".
func (c cursor) needID(key string, s set, what string) string {
	if c.takes(key, s.ids) {
		return c.n.Fields[key].Text
	}
	if !c.filled(key, "write "+what+s.choice()) {
		return ""
	}
	return c.id(key, s)
}

// idList reads a list of ids of a set.
func (c cursor) idList(key string, s set) []string {
	var out []string
	for _, it := range c.words(key) {
		switch {
		case !s.has(it.n.Text):
			what, mend := s.wrong(it.n.Text)
			c.d.fault(it.n, it.path, what, mend)
		case slices.Contains(out, it.n.Text):
			c.d.fault(it.n, it.path, "“"+it.n.Text+"” is there twice", "write it once")
		default:
			out = append(out, it.n.Text)
		}
	}
	return out
}
