package web

import (
	"fmt"
	"html/template"
	"net/url"
	"strconv"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/core/criteria"
	"kernbook/internal/core/kit"
	"kernbook/internal/core/num"
	"kernbook/internal/core/qty"
	"kernbook/internal/lang"
)

// say gives a phrase of the pages; pairs are names and values in turn. The key
// stands in the catalogue's section for the pages.
func (s *Site) say(key string, pairs ...any) string { return s.shared("web."+key, pairs...) }

// told gives the words in which the pages tell an outcome.
func (s *Site) told() onPage { return onPage{s.words} }

// shared gives a phrase that the pages have in common with the reports.
func (s *Site) shared(key string, pairs ...any) string {
	args := make([]criteria.Arg, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		args = append(args, criteria.Arg{Name: fmt.Sprint(pairs[i]), Value: printed(pairs[i+1])})
	}
	return s.words.Say(key, args...)
}

// printed gives a value as the catalogue takes it.
func printed(v any) string {
	switch v := v.(type) {
	case int:
		return strconv.Itoa(v)
	case int64:
		return strconv.FormatInt(v, 10)
	case fmt.Stringer:
		return v.String()
	}
	return fmt.Sprint(v)
}

// word gives one word of a group of the pages: "web.role.climber"; the id where
// it has none.
func (s *Site) word(group, id string) string {
	key := "web." + group + "." + strings.ReplaceAll(id, " ", "-")
	if !s.words.Has(key) { // a word that only the tables know
		return id
	}
	return s.shared(key)
}

// called gives how somebody is called: the name where it is known.
func (s *Site) called(people []app.Somebody, id string) string {
	for i := range people {
		if p := &people[i]; p.ID == id && p.Name != "" {
			return s.say("person.named", "name", p.Name, "id", id)
		}
	}
	return id
}

// verdict gives an outcome in words.
func (s *Site) verdict(v kit.Verdict) string {
	return s.shared("verdict." + strings.ReplaceAll(v.String(), " ", "-"))
}

// chance says whole millionths as "1 in N".
func (s *Site) chance(millions int64) string { return s.words.Chance(num.OneIn(millions)) }

// kind gives a kind by its short name.
func (s *Site) kind(id kit.KindID) string {
	if key := "draw.kind." + string(id); s.words.Has(key) {
		return s.shared(key)
	}
	return string(id)
}

// funcs are what the templates call.
func (s *Site) funcs() template.FuncMap {
	return template.FuncMap{
		"say":     s.say,
		"shared":  s.shared,
		"word":    s.word,
		"called":  s.called,
		"verdict": s.verdict,
		"kind":    s.kind,
		"upper":   lang.Upper,
		"date":    func(d qty.Day) string { return d.Words() },
		"chance":  s.chance,
		"path":    url.PathEscape,
		"field":   makeField,
		"choice":  makeChoice,
		"join":    func(sep string, list []string) string { return strings.Join(list, sep) },
		"seq": func(n int) []int {
			out := make([]int, n)
			for i := range out {
				out[i] = i
			}
			return out
		},
		"add": func(a, b int) int { return a + b },
		"key": func(parts ...any) string {
			out := make([]string, len(parts))
			for i, p := range parts {
				out[i] = fmt.Sprint(p)
			}
			return strings.Join(out, ".")
		},
	}
}

// key gives the name of a field of a row.
func key(name string, row int) string { return name + "." + strconv.Itoa(row) }
