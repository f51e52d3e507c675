package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"sort"
	"strconv"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/entry"
	"kernbook/internal/fold"
)

// correct takes that an entry should not be there, or, where no form holds it, what
// stands instead. The entry itself stays in the book.
func (s *Site) correct(w http.ResponseWriter, r *http.Request) error {
	f, err := s.posted(r)
	if err != nil {
		return err
	}
	id, err := entry.ParseID(r.PathValue("entry"))
	if err != nil {
		return s.refuse(app.NotFound, "entries.none")
	}
	l, err := s.app.Entry(r.Context(), r.PathValue("id"), id)
	if err != nil {
		return err
	}
	typed := cloned(f.v)
	if f.V("again") != "" { // to go on writing
		f.v.Del("again")
		return s.showEntry(w, r, http.StatusOK, f)
	}
	why := f.need("why", s.say("correct.no-why"))
	var instead any
	switch f.choose("how", s.say("correct.how")) {
	case "gone":
	case "instead":
		if instead, err = fold.Read(l.Kind, []byte(f.text("instead"))); err != nil {
			f.fault("instead", s.say("correct.cannot", "error", err.Error()))
		} else if string(fold.Encode(instead)) == string(l.Body) && !s.mine(r, f) {
			f.fault("instead", s.say("correct.same"))
		}
	}
	return s.fix(w, r, f, typed, &l, instead, why, func(status int) error { return s.showEntry(w, r, status, f) })
}

// tryBody is what a correction would change, before it is entered.
type tryBody struct {
	F      *form
	Piece  string
	Number int64
	Kind   string
	Gone   bool
	Why    string
	Rows   []changed
	Before string
	After  string
	Typed  []typed
}

// changed is one thing that an entry would say otherwise; "" is nothing.
type changed struct{ What, Before, After string }

// typed is one field as it was handed in.
type typed struct{ Name, Value string }

// fix enters a correction, once what it changes was seen.
func (s *Site) fix(w http.ResponseWriter, r *http.Request, f *form, sent url.Values, l *fold.Line, instead any, why string, show func(status int) error) error {
	piece := r.PathValue("id")
	if f.V("sure") != "" {
		return s.enter(w, r, f, func(who app.Who) (app.Written, error) {
			c, err := s.app.Correct(r.Context(), who, l.ID, instead, why)
			return c.Written, err
		}, show, func(written app.Written) error {
			return back(w, r, "/piece/"+url.PathEscape(piece)+"/entry/"+written.ID.String())(written)
		})
	}
	who, err := s.whoFor(w, r, f)
	if err != nil {
		return err
	}
	if f.Bad() {
		return show(http.StatusUnprocessableEntity)
	}
	tried, err := s.app.TryCorrect(r.Context(), who, l.ID, instead, why)
	if err != nil {
		status, err := f.take(err)
		if err != nil {
			return err
		}
		return show(status)
	}
	t := teller{s: s}
	b := tryBody{F: f, Piece: piece, Number: l.Index + 1, Kind: s.word("entry", string(l.Kind)), Gone: instead == nil, Why: why, Before: t.now(&tried.Before), After: t.now(&tried.After)}
	if instead != nil {
		b.Rows = differences(l.Body, fold.Encode(instead))
	}
	for _, name := range slices.Sorted(maps.Keys(sent)) {
		for _, v := range sent[name] {
			b.Typed = append(b.Typed, typed{name, v})
		}
	}
	return s.show(w, r, http.StatusOK, "try", s.say("correct.try", "n", b.Number, "piece", piece), &b)
}

// differences gives what two bodies say otherwise, each by the way to it.
func differences(before, after []byte) []changed {
	a, b := leaves(before), leaves(after)
	all := maps.Clone(a)
	maps.Copy(all, b)
	var out []changed
	for _, what := range slices.Sorted(maps.Keys(all)) {
		if a[what] != b[what] {
			out = append(out, changed{what, a[what], b[what]})
		}
	}
	return out
}

// leaves gives all that a body says, by the way to it: "looks 2, conditions, light".
func leaves(body []byte) map[string]string {
	d := json.NewDecoder(bytes.NewReader(body))
	d.UseNumber()
	var v any
	out := map[string]string{}
	if d.Decode(&v) != nil {
		return out
	}
	var walk func(way string, v any)
	walk = func(way string, v any) {
		step := func(next string) string {
			if way == "" {
				return next
			}
			return way + ", " + next
		}
		switch v := v.(type) {
		case map[string]any:
			for k, x := range v {
				walk(step(strings.ReplaceAll(k, "_", " ")), x)
			}
		case []any:
			if list, plain := words(v); plain {
				out[way] = strings.Join(list, ", ")
				return
			}
			for i, x := range v {
				walk(way+" "+strconv.Itoa(i+1), x)
			}
		default:
			if t := fmt.Sprint(v); t != "" && v != nil {
				out[way] = t
			}
		}
	}
	walk("", v)
	return out
}

// words gives a list of single values.
func words(list []any) ([]string, bool) {
	out := make([]string, 0, len(list))
	for _, x := range list {
		switch x.(type) {
		case map[string]any, []any:
			return nil, false
		}
		out = append(out, fmt.Sprint(x))
	}
	sort.Strings(out)
	return out, true
}
