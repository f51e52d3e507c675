package criteria

import (
	"kernbook/internal/core/kit"
	"kernbook/internal/core/qty"
	"kernbook/internal/core/table"
)

// Arg is one named value of a message, already printed: a day as ISO 8601, a
// length by qty, anything else as the id the record or the tables use.
type Arg struct{ Name, Value string }

// Reason is one rule that applies to a record.
type Reason struct {
	Row      string       // row of the decision: "1", "2", "3", "4" or "6a"
	Verdict  kit.Verdict  // what this reason asks for by itself
	ID       string       // the line that demands it
	Lines    []string     // every line that it rests on, ID first
	Key      string       // key of the message
	Args     []Arg        // values for the message, in a fixed order
	Words    string       // the table's own words of the rule or sign; "" where the message says all
	Question string       // what must be answered or done, one of the Q words; "" when nothing
	To       string       // what an answer has to name: a ref of the record, else the Q word
	Asked    string       // the table's own words of the question; "" where Question says all
	Fact     bool         // no answer lifts it: what it asks for has to be said of the piece itself
	Until    qty.Day      // last day of a "keep, look sooner"; 0 when there is none
	At       []kit.Place  // where on the piece; empty for the piece as a whole
	Status   table.Status // how far the rule is to be trusted
}

// Question is something open, with what lifts it.
type Question struct {
	ID    string // one of the Q words
	To    string // what an answer has to name
	Asked string // the table's words, "" where ID says all
	Row   string
	Lines []string
}

// Bound is one rule that sets a day.
type Bound struct {
	Day    qty.Day
	Known  bool         // false where the day it counts from is not known, or there is no rule
	Counts bool         // false for a rule that is only shown
	Line   string       // the line that demands it
	Lines  []string     // every line that it rests on, Line first
	Key    string       // key of the message
	Args   []Arg        // values for the message
	Words  string       // the table's own words
	Status table.Status // how far the rule is to be trusted
}

// Due is the day that the strictest rule sets, with all that were looked at.
// Known is false where no rule sets a day or the day to count from is missing.
type Due struct {
	Bound
	Others []Bound // every rule, the one that holds among them, in a fixed order
}

// Result is everything that the criteria say of a record.
type Result struct {
	Reasons  []Reason // strictest first, then by row and line; never in the order of entry
	LifeEnd  Due
	Thorough Due // when the next thorough examination is due at the latest
	Held     bool
}

// Verdict gives the strictest outcome of all reasons, Keep when there is none.
func (r Result) Verdict() kit.Verdict {
	v := kit.Keep
	for i := range r.Reasons {
		v = kit.Stricter(v, r.Reasons[i].Verdict)
	}
	return v
}

// The Q words: what a reason asks for. An answer on record names one of them,
// or the ref of the sign or event, in its To.
const (
	QIdentity    = "identity"         // prove identity, in writing
	QAssembly    = "assembly"         // the maker's word that it may be used in this assembly
	QHistory     = "history"          // trace its history through maker or seller
	QManufacture = "manufacture"      // trace when it was made
	QDeclaration = "declaration"      // the declaration of conformity and its date
	QProof       = "last-examination" // the report of its last thorough examination
	QStorage     = "storage"          // the maker's word on first use after long storage
	QThorough    = "thorough"         // a complete thorough examination
	QExamine     = "examine"          // an examination after what happened
	QLook        = "look"             // make the look that is missing
	QAsk         = "ask"              // answer a question about its history
	QSign        = "sign"             // settle a sign
	QEvent       = "event"            // settle an event
	QRelease     = "release"          // a competent person's written release
	QSubstance   = "substance"        // name the substance, with the maker's word on it
	QWash        = "wash"             // wash, dry and examine again
	QMeasure     = "measure"          // measure again
	QSay         = "say"              // write in the record what it leaves out of the piece; no answer stands for it
	QKind        = "kind"             // say what kind of piece it is
)

// add enters a reason; its main line is put first among its lines.
func (j *judge) add(x Reason) {
	x.Lines = withFirst(x.ID, x.Lines)
	if x.To == "" {
		x.To = x.Question
	}
	if x.Status == "" {
		x.Status = table.Published
	}
	j.out = append(j.out, x)
}

// withFirst gives the lines of all lists without repeats, the main one first.
func withFirst(id string, lists ...[]string) []string {
	if len(lists) == 1 && len(lists[0]) > 0 && lists[0][0] == id && !repeats(lists[0]) {
		return lists[0][:len(lists[0]):len(lists[0])]
	}
	n := 1
	for _, lines := range lists {
		n += len(lines)
	}
	out := make([]string, 0, n)
	if id != "" {
		out = append(out, id)
	}
	for _, lines := range lists {
		for _, l := range lines {
			if !has(out, l) {
				out = append(out, l)
			}
		}
	}
	return out
}

// repeats says whether a list has an entry twice.
func repeats(list []string) bool {
	for i := range list {
		if has(list[:i], list[i]) {
			return true
		}
	}
	return false
}

func has(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// hasAny reports whether the two lists share an entry.
func hasAny(list []string, wanted ...string) bool {
	for _, w := range wanted {
		if has(list, w) {
			return true
		}
	}
	return false
}

// sorted puts reasons in their fixed order and drops repeats.
func sorted(in []Reason) []Reason {
	if len(in) < 2 {
		return in
	}
	for i := 1; i < len(in); i++ { // few, and nearly in order
		for k := i; k > 0 && compare(&in[k], &in[k-1]) < 0; k-- {
			in[k], in[k-1] = in[k-1], in[k]
		}
	}
	out := in[:0]
	for i := range in {
		if i > 0 && compare(&out[len(out)-1], &in[i]) == 0 {
			continue
		}
		out = append(out, in[i])
	}
	return out
}

// compare orders two reasons: stricter first, then row, line, key, values.
func compare(a, b *Reason) int {
	switch {
	case a.Verdict != b.Verdict:
		return int(b.Verdict) - int(a.Verdict)
	case a.Row != b.Row:
		return order(a.Row, b.Row)
	case a.ID != b.ID:
		return order(a.ID, b.ID)
	case a.Key != b.Key:
		return order(a.Key, b.Key)
	}
	for i := 0; i < len(a.Args) && i < len(b.Args); i++ {
		if c := order(a.Args[i].Value, b.Args[i].Value); c != 0 {
			return c
		}
	}
	switch {
	case len(a.Args) != len(b.Args):
		return len(a.Args) - len(b.Args)
	case a.Until != b.Until:
		return int(a.Until - b.Until)
	case a.To != b.To:
		return order(a.To, b.To)
	}
	return order(a.Asked, b.Asked)
}

func order(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// Questions lists what the reasons ask for, once each, in their order.
func Questions(reasons []Reason) []Question {
	n := 0
	for i := range reasons {
		if reasons[i].Question != "" {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	out := make([]Question, 0, n)
	for i := range reasons {
		x := &reasons[i]
		if x.Question == "" {
			continue
		}
		q := Question{ID: x.Question, To: x.To, Asked: x.Asked, Row: x.Row, Lines: x.Lines}
		seen := false
		for _, o := range out {
			seen = seen || o.ID == q.ID && o.To == q.To && o.Asked == q.Asked
		}
		if !seen {
			out = append(out, q)
		}
	}
	return out
}

// cited gives the lines of a row of the tables and the main one: the first that
// ends in one of the wanted endings, else the first.
func cited(c table.Cite, lines []string, ending ...string) (string, []string) {
	all := c.Source[:len(c.Source):len(c.Source)]
	if len(lines) > 0 || repeats(all) {
		all = withFirst("", lines, c.Source)
	}
	for _, l := range all {
		for _, e := range ending {
			if len(l) >= len(e) && l[len(l)-len(e):] == e {
				return l, all
			}
		}
	}
	if len(all) == 0 {
		return "", nil
	}
	return all[0], all
}
