package browser

import (
	"context"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// window is what a page is shown in.
type window struct {
	name          string
	width, height int64
	phone         bool
}

var windows = []window{{"phone", 390, 844, true}, {"desk", 1280, 800, false}}

// chromium gives the path of the browser.
func chromium(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("needs a browser")
	}
	for _, name := range []string{os.Getenv("KERNBOOK_CHROMIUM"), "chromium", "chromium-browser"} {
		if path, err := exec.LookPath(name); name != "" && err == nil {
			return path
		}
	}
	t.Fatal("Chromium is not here: apt-get install chromium, or run make test, which installs it where it may; go test -short leaves these tests out")
	return ""
}

// open starts a browser with a profile of its own; each tab of it is a window.
func open(t *testing.T) context.Context {
	t.Helper()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(chromium(t)), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.UserDataDir(t.TempDir()), chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true), chromedp.Flag("lang", "en-GB"),
		chromedp.Flag("force-color-profile", "srgb"), chromedp.Flag("disable-dev-shm-usage", true))
	alone, stop := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(stop)
	browser, end := chromedp.NewContext(alone)
	t.Cleanup(end)
	if err := chromedp.Do(browser, chromedp.Navigate("about:blank")); err != nil { // a deadline on the first call would end the browser with it
		t.Fatal(err)
	}
	return browser
}

// of gives the window a height.
func (w window) of(height int64) chromedp.Action[chromedp.Void] {
	if w.phone {
		return chromedp.EmulateViewport(w.width, height, chromedp.EmulateMobile, chromedp.EmulateTouch, chromedp.EmulatePortrait)
	}
	return chromedp.EmulateViewport(w.width, height)
}

// tab opens a window of a size.
func tab(t *testing.T, browser context.Context, w window) context.Context {
	t.Helper()
	ctx, end := chromedp.NewContext(browser)
	t.Cleanup(end)
	if err := chromedp.Do(ctx, w.of(w.height)); err != nil {
		t.Fatal(err)
	}
	return ctx
}

// inTheDark shows what follows in a tab as on a device with a dark theme.
func inTheDark(t *testing.T, tab context.Context) {
	t.Helper()
	dark := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: "dark"}}}
	if _, err := chromedp.Call(tab, emulation.SetEmulatedMedia, dark); err != nil {
		t.Fatal(err)
	}
	if !ask[bool](t, tab, `matchMedia('(prefers-color-scheme: dark)').matches`) {
		t.Fatal("the theme is not dark")
	}
}

// patience is how long one page may take on a machine that is busy.
const patience = 90 * time.Second

// do runs steps in a tab.
func do(t *testing.T, tab context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	ctx, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// ask evaluates an expression in a tab.
func ask[T any](t *testing.T, tab context.Context, expression string, opts ...chromedp.EvaluateOption) T {
	t.Helper()
	ctx, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, opts...))
	if err != nil {
		t.Fatalf("%.80s: %v", expression, err)
	}
	return v
}

// settled waits until an expression is true; while one page goes and another
// comes there is none to ask.
func settled(t *testing.T, tab context.Context, expression string) {
	t.Helper()
	ctx, cancel := context.WithTimeout(tab, patience)
	defer cancel()
	var last error
	for ctx.Err() == nil {
		done, err := chromedp.Run(ctx, chromedp.Evaluate[bool](expression))
		if done && err == nil {
			return
		}
		last = err
		time.Sleep(30 * time.Millisecond)
	}
	t.Fatalf("%s never came: %v", expression, last)
}
