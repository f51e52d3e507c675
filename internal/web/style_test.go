package web

import (
	"fmt"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"kernbook/internal/core/kit"
	"kernbook/internal/report/draw"
	"kernbook/internal/tables"
)

var themeBlock = regexp.MustCompile(`--paper:[^}]*`)
var colourOf = regexp.MustCompile(`--([a-z]+): #([0-9a-f]{6});`)

// luminance is the relative luminance of a colour, as WCAG 2.2 defines it under
// "relative luminance" (https://www.w3.org/TR/WCAG22/, from memory).
func luminance(rgb uint64) float64 {
	part := func(shift uint) float64 {
		c := float64(rgb>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}

func contrast(a, b uint64) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestDrawingsFollowTheTheme: each colour of a drawing has its counterpart in the
// page, which in the light theme is that very colour.
func TestDrawingsFollowTheTheme(t *testing.T) {
	b, err := os.ReadFile("static/style.css")
	if err != nil {
		t.Fatal(err)
	}
	light := map[string]string{}
	for _, m := range colourOf.FindAllStringSubmatch(themeBlock.FindString(string(b)), -1) {
		light[m[1]] = "#" + m[2]
	}
	for name, c := range map[string]draw.Colour{"paper": draw.Paper, "floor": draw.Floor, "ink": draw.Ink, "soft": draw.Soft, "deep": draw.Doubt, "ahead": draw.Ahead, "rule": draw.Rule, "line": draw.Grid} {
		if light[name] != string(c) {
			t.Errorf("--%s is %s, in a drawing %s", name, light[name], c)
		}
		for _, what := range []string{"fill", "stroke"} {
			if rule := fmt.Sprintf(`.sheet [%s="%s"] { %s: var(--%s); }`, what, c, what, name); !strings.Contains(string(b), rule) {
				t.Errorf("no rule %s", rule)
			}
		}
	}
}

// TestEachKindItsOwnDrawing: no two kinds of the tables hang as the same drawing,
// and each drawing is there.
func TestEachKindItsOwnDrawing(t *testing.T) {
	parts, err := os.ReadFile("page/parts.html")
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]kit.KindID{}
	for i := range tables.Default().Kinds {
		id := tables.Default().Kinds[i].ID
		shape := shapeOf(id)
		if other, twice := seen[shape]; twice {
			t.Errorf("%s and %s both hang as %s", id, other, shape)
		}
		seen[shape] = id
		if shape != "other" && !strings.Contains(string(parts), `eq .Shape "`+shape+`"`) {
			t.Errorf("there is no drawing %s", shape)
		}
	}
}

// TestContrast: text stands at 7:1 or more on every ground it stands on, in the
// light theme and in the dark one, and so do the bars that carry a figure.
func TestContrast(t *testing.T) {
	if c := contrast(0, 0xffffff); math.Abs(c-21) > 1e-9 { // black on white is 21:1 by that definition
		t.Fatalf("black on white is %v", c)
	}
	b, err := os.ReadFile("static/style.css")
	if err != nil {
		t.Fatal(err)
	}
	themes := themeBlock.FindAllString(string(b), 2)
	if len(themes) != 2 {
		t.Fatalf("%d themes", len(themes))
	}
	for i, theme := range themes {
		colours := map[string]uint64{}
		for _, m := range colourOf.FindAllStringSubmatch(theme, -1) {
			colours[m[1]], _ = strconv.ParseUint(m[2], 16, 32)
		}
		for _, ground := range []string{"paper", "floor"} {
			for _, text := range []string{"ink", "soft", "deep", "ahead"} {
				g, ok1 := colours[ground]
				c, ok2 := colours[text]
				if got := contrast(g, c); !ok1 || !ok2 || got < 7 {
					t.Errorf("theme %d: %s on %s is %.2f:1", i, text, ground, got)
				}
			}
		}
	}
}
