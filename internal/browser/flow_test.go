package browser

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestFromRegisterToReport goes the whole way that a piece goes, by hand, on the
// phone: a sling is registered; a climber's look at it is entered; the competent
// person examines it and finds a nick, sees the outcome and its explanation,
// decides, and reads the report on the page and in the PDF.
func TestFromRegisterToReport(t *testing.T) {
	browser := open(t)
	_, base := serve(t)
	p := &walker{t: t, ctx: tab(t, browser, windows[0]), base: base}

	p.to("/")
	p.act("p1")
	p.to("/new/piece")
	p.follow("/new/piece?kind=sling")
	p.write("piece", "SL-77")
	p.write("words", "round sling, 1.2 m")
	p.write("serial", "0815")
	p.pick("marking", "readable")
	p.pick("origin", "new")
	p.pick("history", "known")
	p.write("made", "2025-11-10")
	p.write("first_use", "2026-05-04")
	p.write("bought", "2026-01-12")
	p.write("declared", "2025-11-12")
	p.write("length", "1,2 m")
	p.write("diameter", "11mm")
	p.enter()
	p.says("SL-77")

	p.to("/piece/SL-77/look")
	for _, look := range p.values("looks") {
		p.pick("looks", look)
	}
	p.pick("kind", "pre-use")
	p.pick("where", "all")
	p.choose("by", "p2")
	p.everyQuestion("no")
	p.pick("would", "yes")
	p.enter()
	p.says("SL-77")

	p.to("/piece/SL-77/examine?kind=thorough")
	p.everyLook()
	p.everyQuestion("no")
	p.choose("sign.0.sign", "cut")
	p.write("sign.0.from", "600mm")
	p.write("sign.0.to", "610mm")
	p.choose("by", "p1")
	p.pick("would", "no")
	p.choose("signed", "p1")
	p.enter()
	p.says("Withdraw")

	p.to("/piece/SL-77/why")
	p.says("would not climb")
	p.says("Doubt")

	p.to("/piece/SL-77/decide")
	p.chooseFirst("examination")
	p.choose("occasion", "first")
	p.pick("verdict", "withdraw")
	p.write("why", "a nick through half the webbing; nobody would climb on it")
	p.leave(`document.querySelector('main form button.main').click()`)
	p.says("The report would not state") // told before it is made
	p.pick("lacking", "yes")
	p.enter()
	p.to("/piece/SL-77")
	p.says("a nick through half the webbing")

	p.to("/piece/SL-77/report")
	p.says("SL-77")
	p.says("a nick through half the webbing")
	text := p.pdf("/piece/SL-77/report.pdf")
	for _, particular := range []string{"SL-77", "0815", "a nick through half the webbing", "2 Jun 2026"} {
		if !strings.Contains(text, particular) {
			t.Errorf("the report does not say %q:\n%s", particular, text)
		}
	}
}

// walker is somebody who fills in pages.
type walker struct {
	t    *testing.T
	ctx  context.Context
	base string
}

func (p *walker) to(path string) {
	p.t.Helper()
	do(p.t, p.ctx, chromedp.Navigate(p.base+path))
	p.sound()
}

// sound holds that a page is there and is no page of faults.
func (p *walker) sound() {
	p.t.Helper()
	if n := ask[int](p.t, p.ctx, `document.querySelectorAll('h1').length`); n != 1 {
		p.t.Fatalf("%s: %d first headings", p.where(), n)
	}
	if wrong := ask[string](p.t, p.ctx, `Array.from(document.querySelectorAll('.fault, .faults li'), e => e.innerText).join('; ')`); wrong != "" {
		p.t.Fatalf("%s: %s", p.where(), wrong)
	}
}

func (p *walker) where() string {
	return ask[string](p.t, p.ctx, `location.pathname + location.search`)
}

// act chooses who acts.
func (p *walker) act(person string) {
	p.t.Helper()
	p.leave(fmt.Sprintf(`(() => { const s = document.querySelector('form[action="/person"] select'); s.value = %q; s.form.requestSubmit() })()`, person))
}

// follow clicks a link.
func (p *walker) follow(path string) {
	p.t.Helper()
	p.leave(fmt.Sprintf(`document.querySelector('a[href=%q]').click()`, path))
	p.sound()
}

// write types into a field.
func (p *walker) write(name, text string) {
	p.t.Helper()
	do(p.t, p.ctx, chromedp.SendKeys(chromedp.CSS(fmt.Sprintf(`main [name=%q]`, name)), text))
}

// pick ticks a box, or one of several.
func (p *walker) pick(name, value string) {
	p.t.Helper()
	if !ask[bool](p.t, p.ctx, fmt.Sprintf(`(() => { const i = document.querySelector('main input[name=%q][value=%q]'); if (!i) return false; if (!i.checked) i.click(); return i.checked })()`, name, value)) {
		p.t.Fatalf("%s: no %s to be %s", p.where(), name, value)
	}
}

// choose takes one of a list.
func (p *walker) choose(name, value string) {
	p.t.Helper()
	if !ask[bool](p.t, p.ctx, fmt.Sprintf(`(() => { const s = document.querySelector('main select[name=%q]'); if (!s) return false; s.value = %q; return s.value == %q })()`, name, value, value)) {
		p.t.Fatalf("%s: no %s to be %s", p.where(), name, value)
	}
}

// chooseFirst takes the first of a list that says anything.
func (p *walker) chooseFirst(name string) {
	p.t.Helper()
	p.choose(name, ask[string](p.t, p.ctx, fmt.Sprintf(`Array.from(document.querySelectorAll('main select[name=%q] option'), o => o.value).find(v => v) || ''`, name)))
}

// values gives what a field of boxes can be.
func (p *walker) values(name string) []string {
	p.t.Helper()
	v := ask[[]string](p.t, p.ctx, fmt.Sprintf(`Array.from(document.querySelectorAll('main input[name=%q]'), e => e.value)`, name))
	if len(v) == 0 {
		p.t.Fatalf("%s: nothing to pick as %s", p.where(), name)
	}
	return v
}

// everyLook makes every look that is asked for, everywhere, in good light.
func (p *walker) everyLook() {
	p.t.Helper()
	n := ask[int](p.t, p.ctx, `(() => { let n = 0; for (const l of document.querySelectorAll('#looks > fieldset.look')) for (const i of l.querySelectorAll('legend input, .covers input')) { if (!i.checked) i.click(); n++ }
		for (const s of document.querySelectorAll('main select[name^="all."]')) s.value = {'all.light': 'good', 'all.cleaned': 'yes'}[s.name] || 'no'; return n })()`)
	if n == 0 {
		p.t.Fatalf("%s: no look to make", p.where())
	}
}

// everyQuestion answers all questions alike.
func (p *walker) everyQuestion(answer string) {
	p.t.Helper()
	if n := ask[int](p.t, p.ctx, fmt.Sprintf(`(() => { let n = 0; for (const i of document.querySelectorAll('main input[name^="ask."][value=%q]')) { i.click(); n++ } return n })()`, answer)); n == 0 {
		p.t.Fatalf("the page puts no question that can be answered “%s”", answer)
	}
}

// enter hands the form in.
func (p *walker) enter() {
	p.t.Helper()
	p.leave(`document.querySelector('main form button.main').click()`)
	p.sound()
}

// leave does what leads to another page, and waits for it.
func (p *walker) leave(expression string) {
	p.t.Helper()
	ask[bool](p.t, p.ctx, `(() => { window.here = true; return true })()`)
	ask[bool](p.t, p.ctx, `(() => { setTimeout(() => { `+expression+` }, 0); return true })()`)
	settled(p.t, p.ctx, `!window.here && document.readyState == 'complete'`)
}

// says holds that the page says something.
func (p *walker) says(words string) {
	p.t.Helper()
	if text := ask[string](p.t, p.ctx, `document.body.innerText`); !strings.Contains(strings.ToLower(text), strings.ToLower(words)) {
		p.t.Fatalf("%s does not say %q:\n%s", p.where(), words, text)
	}
}

// pdf fetches a paper and gives its text as poppler reads it.
func (p *walker) pdf(path string) string {
	p.t.Helper()
	answer, err := http.Get(p.base + path)
	if err != nil {
		p.t.Fatal(err)
	}
	defer answer.Body.Close()
	b, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		p.t.Fatalf("%s: %s, %v", path, answer.Status, err)
	}
	file := filepath.Join(p.t.TempDir(), "report.pdf")
	if err := os.WriteFile(file, b, 0o600); err != nil {
		p.t.Fatal(err)
	}
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	if err != nil {
		p.t.Fatalf("pdftotext (Debian's poppler-utils): %v", err)
	}
	return string(text)
}
