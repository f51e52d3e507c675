package web

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"kernbook/internal/artefact"
	"kernbook/internal/bench"
	"kernbook/internal/lang"
	"kernbook/internal/report"
	"kernbook/internal/tables"
)

// TestBenchPages: the bench lists each calculator, each has a form with every field of
// its declaration, and what is typed gives the sheet that the command gives.
func TestBenchPages(t *testing.T) {
	c := visit(t, yard(t), "p1")
	list := c.get("/bench")
	if w := c.get("/"); !strings.Contains(w.Body.String(), `href="/bench"`) {
		t.Error("the first page does not lead to the bench")
	}
	for _, k := range bench.All(tables.Default()) {
		path := benchPath(k.Name)
		has(t, "/bench", list, 200, `href="`+path+`"`, report.BenchShort(lang.English(), k.Name))
		w := c.get(path)
		has(t, path, w, 200, "What comes of it stands here.")
		for i := range k.Fields {
			f := &k.Fields[i]
			has(t, path, w, 200, ` id="`+f.Name+`"`)
			for _, word := range f.Words {
				has(t, path, w, 200, `<option value="`+word+`"`)
			}
		}
		if want := map[bool]string{true: `method="post"`, false: `method="get"`}[k.Private()]; !strings.Contains(w.Body.String(), `<form id="bench" `+want) {
			t.Errorf("%s: the form has no %s", path, want)
		}
	}
	typed := map[string]string{"overhang": "30cm", "angle": "41.5deg", "weight": "80g/m"}
	sheet, faults := bench.Run(tables.Default(), "stiffness overhang", typed)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	has(t, "overhang", c.get("/bench/stiffness-overhang?overhang=30cm&angle=41.5deg&weight=80g/m"), 200,
		"26.46 N cm²", string(report.BenchPage(sheet, tables.Default(), lang.English())), `value="41.5deg"`, `class="desk"`, `class="phone"`, "<details><summary>Sources")
	has(t, "no calculator", c.get("/bench/kite"), 404, "There is no such page.")
}

// TestBenchFaults: what is wrong stands beside its field, with what was typed kept.
func TestBenchFaults(t *testing.T) {
	c := visit(t, yard(t), "")
	w := c.get("/bench/stiffness-overhang?overhang=30&angle=41.5deg&weight=%3Cb%3E")
	has(t, "faults", w, 422, "Nothing was worked out.", `value="30"`, `id="overhang-fault"`, `id="weight-fault"`, "has no unit", `value="41.5deg"`, "&lt;b&gt;")
	if strings.Contains(w.Body.String(), "<b>") || strings.Contains(w.Body.String(), "angle-fault") {
		t.Error("a fault too many, or what was typed is not escaped")
	}
	has(t, "no field of its own", c.get("/bench/stiffness-overhang?colour=red"), 200, "What comes of it stands here.")
}

// TestMassIsNotShown: a person's mass that is typed leads to an address with the load
// it is; neither page nor address has it, whatever is wrong beside it.
func TestMassIsNotShown(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	_, before, err := a.About(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	const mass = "87.3" // 87.3 kg are 856.12 N
	absent := func(where string, w *httptest.ResponseRecorder) {
		t.Helper()
		for name, s := range map[string]string{"page": w.Body.String(), "address": w.Header().Get("Location")} {
			if strings.Contains(s, mass) {
				t.Errorf("%s: the %s shows the mass", where, name)
			}
		}
	}
	for path, others := range map[string]url.Values{
		"/bench/bridge": {"apart": {"40cm"}, "length": {"60cm"}, "friction": {"0.15"}},
		"/bench/fall":   {"drop": {"30cm"}, "rope": {"1m"}, "elongation": {"3.5%"}, "strength": {"24kN"}},
		"/bench/heat":   {"height": {"15m"}, "part": {"200g"}, "material": {"aluminium"}},
	} {
		v := url.Values{"mass": {mass + "kg"}}
		for k, x := range others {
			v[k] = x
		}
		w := c.post(path, v)
		absent(path, w)
		at, _, _ := strings.Cut(w.Header().Get("Location"), "#")
		if u, err := url.Parse(at); err != nil || w.Code != http.StatusSeeOther || u.Path != path || u.Query().Get("load") != "857N" || u.Query().Has("mass") {
			t.Fatalf("%s leads to %q with status %d", path, at, w.Code)
		}
		sheet := c.get(at)
		absent(at, sheet)
		has(t, at, sheet, 200, "857N", "<svg")

		// In an address it is taken out; with a fault elsewhere the load is kept; unread it is not shown.
		w = c.get(path + "?mass=" + mass + "kg&rope=1m")
		absent("in the address", w)
		if w.Code != http.StatusSeeOther || strings.Contains(w.Header().Get("Location"), "mass") {
			t.Errorf("%s with a mass in the address: %d to %q", path, w.Code, w.Header().Get("Location"))
		}
		w = c.post(path, url.Values{"mass": {mass + "kg"}})
		absent("a fault elsewhere", w)
		has(t, path, w, 422, `value="857N"`, "Nothing was worked out.")
		for _, wrong := range []string{mass, mass + "furlong", "x" + mass + "kg", mass + "kg " + mass, "-" + mass + "kg", mass + "e99kg"} {
			v.Set("mass", wrong)
			w = c.post(path, v)
			absent(wrong, w)
			has(t, path+" "+wrong, w, 422, `id="mass-fault"`)
		}
		v.Set("mass", mass+"kg")
		v.Set("load", "1kN")
		absent("both", c.post(path, v))
	}
	if _, after, _ := a.About(t.Context()); after != before {
		t.Errorf("the book grew from %d to %d entries", before, after)
	}
}

// TestBenchAlone may run a script: only the pages of calculators have one, only with a
// core to run, and only they have a policy for it.
func TestBenchAlone(t *testing.T) {
	a := yard(t)
	c := visit(t, a, "p1")
	live := artefact.NewLive([]byte("packed"), []byte("run"))
	for name, x := range map[string]struct {
		site   http.Handler
		script bool
	}{"with a core": {New(a).Live(live).Handler(), true}, "without": {New(a).Live(nil).Handler(), false}} {
		c.h = x.site
		for _, p := range []string{"/", "/wall", "/bench", "/piece/BR-07", "/piece/BR-07/examine", "/people", "/bench/kite", "/static/bench.js", "/bench/bridge", "/bench/section?one=11mm", "/bench/section?one=11mm&two=11mm"} {
			w := c.get(p)
			runs := x.script && w.Code != 404 && strings.HasPrefix(p, "/bench/")
			want := map[bool]string{true: benchPolicy, false: policy}[runs]
			if got := w.Header().Get("Content-Security-Policy"); got != want {
				t.Errorf("%s, %s: policy %q", name, p, got)
			}
			if p != "/static/bench.js" && strings.Contains(w.Body.String(), "<script") != runs {
				t.Errorf("%s, %s: a script there: %v", name, p, !runs)
			}
			for _, no := range []string{" style=", "<style", " onclick=", "unsafe-inline"} {
				if strings.Contains(w.Body.String(), no) {
					t.Errorf("%s, %s holds %s, which the policy forbids", name, p, no)
				}
			}
		}
		w := c.get("/static/core.wasm?" + live.Sum)
		if x.script {
			has(t, "the core", w, 200, "packed")
			if w.Header().Get("Content-Type") != "application/wasm" || w.Header().Get("Content-Encoding") != "gzip" {
				t.Errorf("the core comes as %v", w.Header())
			}
			has(t, "its script", c.get("/static/wasm_exec.js"), 200, "run")
		} else {
			has(t, "no core", w, 404)
		}
	}
	if extra := strings.TrimPrefix(benchPolicy, policy); extra != "; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'" {
		t.Errorf("the policy of the bench allows besides: %s", extra)
	}
}
