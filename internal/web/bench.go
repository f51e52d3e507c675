package web

import (
	"html/template"
	"net/http"
	"net/url"
	"strings"

	"kernbook/internal/app"
	"kernbook/internal/artefact"
	"kernbook/internal/bench"
	"kernbook/internal/core/table"
	"kernbook/internal/lang"
	"kernbook/internal/report"
)

// benchPolicy is what a page of the bench may do besides: run the scripts it is served
// with and the core they fetch.
const benchPolicy = policy + "; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'"

// benchItem is one calculator in the list of them.
type benchItem struct{ Path, Words, About string }

// benchBody is one calculator, with what was typed into it and the sheet that gives.
type benchBody struct {
	F       *form
	Name    string
	Path    string // of the page, without what was typed
	About   string
	Method  string
	Private bool // takes a person's mass
	Fields  []field
	Sheet   template.HTML
	Live    *artefact.Live
}

// benchPath gives the address of a calculator's page.
func benchPath(name string) string { return "/bench/" + strings.ReplaceAll(name, " ", "-") }

// benches lists the calculators.
func (s *Site) benches(w http.ResponseWriter, r *http.Request) error {
	var list []benchItem
	for _, c := range bench.All(s.app.Tables()) {
		list = append(list, benchItem{benchPath(c.Name), report.BenchShort(s.words, c.Name), report.BenchAbout(s.words, c.Name)})
	}
	return s.show(w, r, http.StatusOK, "benches", s.say("bench.title"), list)
}

// calculator gives the calculator that an address names.
func (s *Site) calculator(r *http.Request) (*bench.Calculator, error) {
	all := bench.All(s.app.Tables())
	for i := range all {
		if benchPath(all[i].Name) == "/bench/"+r.PathValue("name") {
			return &all[i], nil
		}
	}
	return nil, s.refuse(app.NotFound, "fail.nowhere")
}

// calculate shows a calculator, and the sheet of what its address says. A person's mass
// in an address is taken out of it, not used.
func (s *Site) calculate(w http.ResponseWriter, r *http.Request) error {
	c, err := s.calculator(r)
	if err != nil {
		return err
	}
	q := r.URL.Query()
	for i := range c.Fields {
		if c.Fields[i].Person && q.Has(c.Fields[i].Name) {
			http.Redirect(w, r, benchAddress(c, benchTyped(c, q)), http.StatusSeeOther)
			return nil
		}
	}
	typed := benchTyped(c, q)
	if len(typed) == 0 {
		return s.benchPage(w, r, http.StatusOK, c, s.form(url.Values{}), nil)
	}
	sheet, faults := bench.Run(s.app.Tables(), c.Name, typed)
	return s.benchSheet(w, r, c, typed, sheet, faults)
}

// calculated takes what was typed where a person's mass may be among it, and leads to
// the address that says the same with the load instead of the mass.
func (s *Site) calculated(w http.ResponseWriter, r *http.Request) error {
	c, err := s.calculator(r)
	if err != nil {
		return err
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	typed := bench.Loaded(s.app.Tables(), c.Name, benchTyped(c, r.PostForm))
	sheet, faults := bench.Run(s.app.Tables(), c.Name, typed)
	if len(faults) == 0 {
		http.Redirect(w, r, benchAddress(c, typed)+"#sheet", http.StatusSeeOther)
		return nil
	}
	return s.benchSheet(w, r, c, typed, sheet, faults)
}

// benchTyped gives what was typed into the fields of a calculator.
func benchTyped(c *bench.Calculator, v url.Values) map[string]string {
	out := map[string]string{}
	for i := range c.Fields {
		if t := strings.TrimSpace(v.Get(c.Fields[i].Name)); t != "" {
			out[c.Fields[i].Name] = t
		}
	}
	return out
}

// benchAddress gives the address of what was typed; a person's mass is not in it.
func benchAddress(c *bench.Calculator, typed map[string]string) string {
	q := url.Values{}
	for name, v := range typed {
		if f := c.Field(name); f != nil && !f.Person {
			q.Set(name, v)
		}
	}
	if len(q) == 0 {
		return benchPath(c.Name)
	}
	return benchPath(c.Name) + "?" + q.Encode()
}

// benchSheet shows a sheet below what was typed, or what is wrong beside it.
func (s *Site) benchSheet(w http.ResponseWriter, r *http.Request, c *bench.Calculator, typed map[string]string, sheet *bench.Sheet, faults []bench.Fault) error {
	f := s.form(url.Values{})
	for name, v := range typed {
		if !c.Field(name).Person {
			f.v.Set(name, v)
		}
	}
	status := http.StatusOK
	for _, x := range faults {
		status = http.StatusUnprocessableEntity
		if x.Field == "" {
			f.Top = append(f.Top, lang.Upper(x.Says))
			continue
		}
		f.fault(x.Field, s.say("bench.fault", "field", lang.Upper(benchName(x.Field)), "says", x.Says))
	}
	return s.benchPage(w, r, status, c, f, sheet)
}

func (s *Site) benchPage(w http.ResponseWriter, r *http.Request, status int, c *bench.Calculator, f *form, sheet *bench.Sheet) error {
	b := benchBody{F: f, Name: c.Name, Path: benchPath(c.Name), About: report.BenchAbout(s.words, c.Name), Method: "get", Private: c.Private(), Live: s.live}
	if b.Private {
		b.Method = "post"
	}
	for i := range c.Fields {
		b.Fields = append(b.Fields, s.benchField(c, &c.Fields[i], f))
	}
	if sheet != nil {
		// BenchPage escapes every text it is given.
		b.Sheet = template.HTML(report.BenchPage(sheet, s.app.Tables(), s.words))
	}
	if b.Live != nil {
		w.Header().Set("Content-Security-Policy", benchPolicy)
	}
	return s.show(w, r, status, "bench", report.BenchShort(s.words, c.Name), &b)
}

// benchName gives the name of a field, or a word of the tables, as the page calls it.
func benchName(name string) string {
	if end, ok := strings.CutPrefix(name, "end-"); ok {
		return "end " + strings.ToUpper(end)
	}
	return strings.ReplaceAll(name, "-", " ")
}

// benchField makes a field of a form from its declaration.
func (s *Site) benchField(c *bench.Calculator, d *bench.Field, f *form) field {
	words := report.BenchField(s.words, c.Name, d.Name)
	label := lang.Upper(benchName(d.Name))
	if d.Kind == bench.Word {
		x := makeChoice(f, d.Name, label, s.benchOptions(d))
		x.Hint = s.say("bench.hint", "words", lang.Upper(words))
		if x.Empty = s.say("bench.not-chosen"); d.Default != "" {
			x.Empty = s.say("bench.usual", "value", benchName(d.Default))
		}
		return x
	}
	key := s.say("bench.hint-take", "words", lang.Upper(words), "example", d.Example)
	switch {
	case d.Must:
		key = s.say("bench.hint-must", "words", lang.Upper(words), "example", d.Example)
	case d.Default != "":
		key = s.say("bench.hint-usual", "words", lang.Upper(words), "value", d.Default)
	case d.Person:
		key = s.say("bench.hint-person", "words", lang.Upper(words), "example", d.Example)
	}
	return makeField(f, d.Name, label, key)
}

// benchOptions gives what a field of words takes, in words of the tables where they
// have some.
func (s *Site) benchOptions(d *bench.Field) []option {
	t := s.app.Tables()
	var out []option
	for _, id := range d.Words {
		out = append(out, option{id, lang.Upper(benchWords(t, d.Name, id))})
	}
	return out
}

// benchWords gives a word that a field takes as the tables say it; as it is where they
// have no other.
func benchWords(t *table.Tables, field, id string) string {
	switch field {
	case "fibre":
		for i := range t.Fibres {
			if t.Fibres[i].ID == id {
				return t.Fibres[i].Words
			}
		}
	case "end-a", "end-b":
		for i := range t.Bench.Knots {
			if t.Bench.Knots[i].Knot == id {
				return t.Bench.Knots[i].Words
			}
		}
	case "tension":
		for i := range t.Bench.Tensions {
			if t.Bench.Tensions[i].ID == id {
				return t.Bench.Tensions[i].Words
			}
		}
	}
	return benchName(id)
}
