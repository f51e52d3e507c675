package browser

import (
	"context"
	_ "embed"
	"flag"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

var (
	screens = flag.Bool("screens", false, "keep a picture of every sort of page in docs/screens")
	tall    = flag.Int64("tall", 0, "how much of a long page the picture shows, in `pixels`; 0 is the window")
)

//go:embed testdata/axe.min.js
var axe string

// found is what axe-core finds wrong with a page.
type found struct {
	ID    string
	Help  string
	Nodes []struct {
		HTML           string
		FailureSummary string
	}
}

// sorts of pages are told apart by their address with ids taken out.
var ids = regexp.MustCompile(`/(piece|set|people|do|entry)/[^/?]+`)

// sort gives the sort of page that an address shows.
func sortOf(path string) string {
	s := ids.ReplaceAllString(path, "/$1")
	if u, err := url.Parse(s); err == nil {
		s = u.Path
	}
	return s
}

// each is how many pages of a sort are looked at: pieces differ by their kind
// and by what is open on them.
const each = 3

// TestPages follows every link from the first page and looks at the pages of
// every sort, on the phone and on the desk.
func TestPages(t *testing.T) {
	browser := open(t)
	_, base := serve(t)
	pages := crawl(t, tab(t, browser, windows[1]), base)
	if len(pages) < 5 {
		t.Fatalf("only %d pages are linked: %v", len(pages), pages)
	}
	for _, w := range append(slices.Clone(windows), window{"phone in the dark", windows[0].width, windows[0].height, true}) {
		t.Run(w.name, func(t *testing.T) {
			ctx := tab(t, browser, w)
			choose(t, ctx, base)
			dark := !slices.Contains(windows, w)
			if dark {
				inTheDark(t, ctx)
			}
			pictured := map[string]int64{}
			for _, p := range pages {
				do(t, ctx, chromedp.Navigate(base+p))
				look(t, ctx, p, w)
				if sort, high := sortOf(p), ask[int64](t, ctx, `document.documentElement.scrollHeight`); *screens && !dark && high > pictured[sort] {
					pictured[sort] = high // of the page of a sort that has most to show
					keep(t, ctx, sort, w)
				}
			}
		})
	}
}

// choose says who acts, as the pages ask for it, so that forms are shown whole.
func choose(t *testing.T, ctx context.Context, base string) {
	t.Helper()
	do(t, ctx, chromedp.Navigate(base+"/"))
	ask[bool](t, ctx, `(() => { window.here = true; setTimeout(() => { const s = document.querySelector('form[action="/person"] select');
		s.value = 'p1'; s.form.requestSubmit() }, 0); return true })()`)
	settled(t, ctx, `!window.here && document.readyState == 'complete'`)
}

// crawl gives the addresses of the pages that are linked, from the first on, a
// few of each sort, in a fixed order.
func crawl(t *testing.T, ctx context.Context, base string) []string {
	t.Helper()
	choose(t, ctx, base)
	seen, many := map[string]bool{"/": true}, map[string]int{}
	var out []string
	for queue := []string{"/"}; len(queue) > 0; queue = queue[1:] {
		p := queue[0]
		out = append(out, p)
		do(t, ctx, chromedp.Navigate(base+p))
		links := ask[[]string](t, ctx, `Array.from(document.querySelectorAll('a[href]'), a => a.href)`)
		sort.Strings(links)
		for _, l := range links {
			u, err := url.Parse(l)
			if err != nil {
				t.Errorf("%s links to %q: %v", p, l, err)
				continue
			}
			at := u.Path
			if u.RawQuery != "" {
				at += "?" + u.RawQuery
			}
			if !strings.HasPrefix(l, base+"/") || seen[at] || strings.HasSuffix(u.Path, ".pdf") || many[sortOf(at)] >= each {
				continue
			}
			seen[at] = true
			many[sortOf(at)]++
			queue = append(queue, at)
		}
	}
	sort.Strings(out)
	return out
}

// touch is how high and wide at least is what a finger has to meet, in pixels: the
// project's own, for gloves; WCAG 2.2, success criterion 2.5.5 (from memory), asks
// for 44 and takes links within a sentence out.
const touch = 48

// targets gives what is smaller than that.
var targets = strings.ReplaceAll(`Array.from(document.querySelectorAll('a[href], button, select, textarea, summary, input:not([type=hidden])'))
	.map(e => ['radio', 'checkbox'].includes(e.type) ? e.closest('label') || e : e)
	.filter(e => { const r = e.getBoundingClientRect(); return e.checkVisibility() && r.right > 0 && r.width > 0 && (r.height < TOUCH || r.width < TOUCH) })
	.filter(e => !(e.tagName === 'A' && getComputedStyle(e).display === 'inline' && e.parentElement.textContent.trim().length > e.textContent.trim().length + 1))
	.slice(0, 5).map(e => e.outerHTML.slice(0, 120) + ' ' + JSON.stringify(e.getBoundingClientRect()))`, "TOUCH", fmt.Sprint(touch))

// look holds that a page is sound: no fault that axe-core knows of, no wider than
// its window, a title and one first heading of its own.
func look(t *testing.T, ctx context.Context, page string, w window) {
	t.Helper()
	if wide := ask[int64](t, ctx, `document.documentElement.scrollWidth`); wide > w.width {
		t.Errorf("%s: %d px wide in a window of %d", page, wide, w.width)
	}
	if n := ask[int](t, ctx, `document.querySelectorAll('h1').length`); n != 1 {
		t.Errorf("%s: %d first headings", page, n)
	}
	if title := ask[string](t, ctx, `document.title`); strings.TrimSpace(title) == "" {
		t.Errorf("%s: no title", page)
	}
	for _, small := range ask[[]string](t, ctx, targets) {
		t.Errorf("%s on the %s: less than %d px to touch: %s", page, w.name, touch, small)
	}
	for _, f := range wrongs(t, ctx) {
		var at []string
		for _, n := range f.Nodes {
			at = append(at, n.HTML+"\n\t\t"+strings.ReplaceAll(n.FailureSummary, "\n", "\n\t\t"))
		}
		t.Errorf("%s on the %s: %s (%s)\n\t%s", page, w.name, f.Help, f.ID, strings.Join(at, "\n\t"))
	}
}

// wrongs gives what axe-core finds wrong with a page; text is to stand at 7:1.
func wrongs(t *testing.T, ctx context.Context) []found {
	t.Helper()
	ask[bool](t, ctx, axe+`; true`)
	return ask[[]found](t, ctx, `axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'], rules: {'color-contrast-enhanced': {enabled: true}}})
		.then(r => r.violations.map(v => ({ID: v.id, Help: v.help, Nodes: v.nodes.slice(0, 3).map(n => ({HTML: n.html.slice(0, 200), FailureSummary: n.failureSummary}))})))`,
		chromedp.EvalAwaitPromise)
}

// TestGreyTextIsFound: text that stands at less than 7:1 is found, though it stands
// at more than 4.5:1, and so are targets that are too small.
func TestGreyTextIsFound(t *testing.T) {
	browser := open(t)
	_, base := serve(t)
	ctx := tab(t, browser, windows[0])
	do(t, ctx, chromedp.Navigate(base+"/yard"))
	sheet := func(rule string) { // the pages' policy forbids a style of its own, and this is one
		ask[bool](t, ctx, `(() => { const s = new CSSStyleSheet(); s.replaceSync('`+rule+`'); document.adoptedStyleSheets = [s]; return true })()`)
	}
	if f, small := wrongs(t, ctx), ask[[]string](t, ctx, targets); len(f) > 0 || len(small) > 0 {
		t.Fatalf("before: %v, %v", f, small)
	}
	sheet(`main p { color: #666 !important } main button.main { min-height: 0; height: 40px; padding: 0 }`)
	f := wrongs(t, ctx)
	if len(f) != 1 || f[0].ID != "color-contrast-enhanced" {
		t.Errorf("found %v", f)
	}
	if small := ask[[]string](t, ctx, targets); len(small) != 1 || !strings.Contains(small[0], `class="main"`) {
		t.Errorf("too small: %v", small)
	}
}

// keep keeps a picture of a page as it comes into the window, or of more of it.
func keep(t *testing.T, ctx context.Context, sort string, w window) {
	t.Helper()
	high := max(w.height, min(ask[int64](t, ctx, `document.documentElement.scrollHeight`), *tall))
	do(t, ctx, w.of(high))
	limit, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	picture, err := chromedp.Run(limit, chromedp.CaptureScreenshot())
	if err != nil {
		t.Fatal(err)
	}
	do(t, ctx, w.of(w.height))
	name := strings.ReplaceAll(strings.Trim(sort, "/"), "/", "-")
	if name == "" {
		name = "today"
	}
	dir := filepath.Join("..", "..", "docs", "screens")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%s-%s.png", name, w.name)), picture, 0o644); err != nil {
		t.Fatal(err)
	}
}
