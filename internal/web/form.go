package web

import (
	"net/http"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"time"

	"kernbook/internal/app"
	"kernbook/internal/core/qty"
)

// form is what was typed, with what is wrong about it. A page that is shown
// again shows it as it was typed.
type form struct {
	v       url.Values
	faults  map[string]string // by field, one sentence each
	Top     []string          // what has no field of its own
	Fix     *fixing           // the entry that it corrects; nil for a new one
	order   []string
	lacking []string // what a report made from it would not state
	s       *Site
}

func (s *Site) form(v url.Values) *form {
	return &form{v: v, faults: map[string]string{}, s: s}
}

// posted reads a form that was handed in.
func (s *Site) posted(r *http.Request) (*form, error) {
	if err := r.ParseForm(); err != nil {
		return nil, unread{err}
	}
	return s.form(r.PostForm), nil
}

// V gives what stands in a field.
func (f *form) V(name string) string { return f.v.Get(name) }

// Is says whether a field holds a value, among others.
func (f *form) Is(name, value string) bool {
	for _, v := range f.v[name] {
		if v == value {
			return true
		}
	}
	return false
}

// Fault gives what is wrong with a field.
func (f *form) Fault(name string) string { return f.faults[name] }

// Bad says whether anything is wrong.
func (f *form) Bad() bool { return len(f.order) > 0 || len(f.Top) > 0 }

// Wrong lists the fields with something wrong, in the order they were found.
func (f *form) Wrong() []string { return f.order }

// fault says what is wrong with a field; the first thing counts.
func (f *form) fault(name, sentence string) {
	if _, twice := f.faults[name]; !twice {
		f.faults[name] = sentence
		f.order = append(f.order, name)
	}
}

// take puts an error of a use case beside the form; one that is not about what
// was entered comes back.
func (f *form) take(err error) (int, error) {
	status, e := f.s.sentence(err)
	if status >= http.StatusInternalServerError || e.Code == app.NotFound {
		return status, err
	}
	for _, x := range e.Faults {
		if name := f.field(x.Own); name != "" {
			f.fault(name, f.s.say("form.fault", "field", "", "what", x.What, "mend", x.Mend))
			continue
		}
		f.Top = append(f.Top, f.s.say("form.fault", "field", x.Field, "what", x.What, "mend", x.Mend))
	}
	if len(f.Top) > 0 || len(e.Faults) == 0 {
		f.Top = append([]string{e.Say}, f.Top...)
	}
	return status, nil
}

var rowOf = regexp.MustCompile(`^(zone|layer)s?\[([0-9]+)\]\.`)

// field gives the field of the form in which a part of an entry was typed; ""
// where there is none.
func (f *form) field(own string) string {
	name := rowOf.ReplaceAllString(own, "$1.$2.")
	if _, typed := f.v[name]; typed && name != "id" {
		return name
	}
	switch name {
	case "id":
		if _, typed := f.v["piece"]; typed {
			return "piece"
		}
	case "from": // of a use, which the form calls its day
		if _, typed := f.v["week"]; typed {
			return "day"
		}
	}
	return ""
}

// text gives a field without the spaces around it.
func (f *form) text(name string) string { return strings.TrimSpace(f.v.Get(name)) }

// day reads a day: "3 Feb 2027" or "2027-02-03".
func (f *form) day(name string) qty.Day {
	d, err := parseDate(f.text(name))
	if err != nil || !d.Exact() {
		f.fault(name, f.s.say("form.day", "typed", f.text(name)))
		return f.s.app.Today()
	}
	return d.Earliest()
}

// date reads a date known to the day or month; empty is none.
func (f *form) date(name string) qty.PartialDate {
	t := f.text(name)
	if t == "" {
		return qty.PartialDate{}
	}
	d, err := parseDate(t)
	if err != nil {
		f.fault(name, f.s.say("form.date", "typed", t))
	}
	return d
}

// parseDate reads a date as people write it, or as the book does.
func parseDate(t string) (qty.PartialDate, error) {
	for layout, iso := range map[string]string{"2 Jan 2006": "2006-01-02", "2 January 2006": "2006-01-02", "Jan 2006": "2006-01", "January 2006": "2006-01"} {
		if at, err := time.Parse(layout, t); err == nil {
			t = at.Format(iso)
			break
		}
	}
	return qty.ParseDate(t)
}

// bare makes a number without a unit one of millimetres.
func bare(t string) string {
	if t = strings.TrimSpace(t); digits(t) {
		return t + "mm"
	}
	return t
}

// digits says whether a text is a bare number.
func digits(t string) bool { return t != "" && strings.Trim(t, "0123456789.") == "" }

// length reads a length; a bare number is in millimetres, empty is 0.
func (f *form) length(name string) qty.Length {
	t := bare(f.v.Get(name))
	if t == "" {
		return 0
	}
	l, err := qty.ParseLength(t)
	if err != nil {
		f.fault(name, f.s.say("form.cannot", "error", err.Error()))
	}
	return l
}

// lengths reads lengths kept apart by commas, semicolons or lines.
func (f *form) lengths(name string) []qty.Length {
	var out []qty.Length
	for _, t := range strings.FieldsFunc(f.v.Get(name), func(r rune) bool { return r == ',' || r == ';' || r == '\n' || r == '\r' }) {
		if t = bare(t); t == "" {
			continue
		}
		l, err := qty.ParseLength(t)
		if err != nil {
			f.fault(name, f.s.say("form.cannot", "error", err.Error()))
		}
		out = append(out, l)
	}
	return out
}

// count reads how many rows a part of the form has, and adds some where they
// were asked for.
func (f *form) count(name string, least int) int {
	const most = 40
	n, err := strconv.Atoi(f.v.Get(name))
	if err != nil || n < least {
		n = least
	}
	if f.v.Get("more") == name {
		n++
	}
	n = min(n, most)
	f.v.Set(name, strconv.Itoa(n))
	return n
}

// rows sets how many rows a part of the form shows at first.
func (f *form) rows(name string, n int) { f.v.Set(name, strconv.Itoa(n)) }

// choose gives what was chosen, and says that something must be; label is what
// the form calls it.
func (f *form) choose(name, label string) string {
	v := f.V(name)
	if v == "" {
		f.fault(name, f.s.say("form.choose", "what", strings.TrimRight(label, "?")))
	}
	return v
}

// need gives a text that must not be empty; says is what to do about it.
func (f *form) need(name, says string) string {
	t := f.text(name)
	if t == "" {
		f.fault(name, says)
	}
	return t
}

// parsed reads a text by a parser of its quantity; empty is the zero value.
func parsed[V any](f *form, name string, parse func(string) (V, error)) V {
	var none V
	t := f.text(name)
	if t == "" {
		return none
	}
	v, err := parse(t)
	if err != nil {
		f.fault(name, f.s.say("form.cannot", "error", err.Error()))
	}
	return v
}

// weekdayNames are the days of a week as a form knows them, Monday first.
var weekdayNames = []string{"mon", "tue", "wed", "thu", "fri", "sat", "sun"}

// weekdays reads which days of the week were ticked.
func (f *form) weekdays(name string) (out [8]bool) {
	for i, d := range weekdayNames {
		out[i+1] = f.Is(name, d)
	}
	return out
}
