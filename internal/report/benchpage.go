package report

import (
	"bytes"
	"html"
	"strings"

	"kernbook/internal/bench"
	"kernbook/internal/core/table"
	"kernbook/internal/report/draw"
)

// BenchPage writes a sheet of the bench as the part of a page: figures, cautions, the
// drawing twice (wide, and for a phone), the series, notes, what was taken, and the
// sources to be opened. A server writes it and the core in a page does, byte for byte
// the same; it has no script, no style of its own and no address.
func BenchPage(s *bench.Sheet, t *table.Tables, c Words) []byte {
	p := &benchPage{c: c}
	p.open("figures", "bench.heading.figures")
	p.b.WriteString(`<table class="figures"><tbody>`)
	for i := range s.Figures {
		f := &s.Figures[i]
		p.b.WriteString(`<tr><th scope="row">`)
		p.text(benchName(c, f))
		p.lines(f.Lines)
		p.b.WriteString(`</th><td>`)
		p.text(benchShown(c, f))
		p.b.WriteString("</td></tr>\n")
	}
	p.b.WriteString("</tbody></table></section>\n")
	p.notes("caution", "bench.heading.cautions", s.Cautions)
	p.drawing(s)
	p.series(s.Series)
	p.notes("note", "bench.heading.notes", s.Notes)
	p.open("given", "bench.heading.given")
	p.b.WriteString("<ul>\n")
	for _, g := range s.Given {
		v := g.Typed
		if g.Usual {
			v = c.Say("bench.heading.usual", arg{Name: "value", Value: v})
		}
		p.b.WriteString("<li>")
		p.text(BenchField(c, s.Calculator, g.Name) + ": ")
		p.b.WriteString("<strong>")
		p.text(v)
		p.b.WriteString("</strong></li>\n")
	}
	p.b.WriteString("</ul></section>\n")
	p.sources(s, t)
	return p.b.Bytes()
}

// benchPage is a part of a page that is being written.
type benchPage struct {
	b bytes.Buffer
	c Words
}

func (p *benchPage) text(s string) { p.b.WriteString(html.EscapeString(s)) }

func (p *benchPage) open(class, heading string) {
	p.b.WriteString(`<section class="` + class + `"><h2>`)
	p.text(p.c.Say(heading))
	p.b.WriteString("</h2>\n")
}

// lines tells the lines that something rests on.
func (p *benchPage) lines(list []string) {
	if len(list) == 0 {
		return
	}
	p.b.WriteString(` <span class="small nowrap">`)
	p.text(strings.TrimSpace(cited(list)))
	p.b.WriteString("</span>")
}

func (p *benchPage) notes(group, heading string, list []bench.Note) {
	if len(list) == 0 {
		return
	}
	p.open(group+"s", heading)
	p.b.WriteString("<ul>\n")
	for i := range list {
		p.b.WriteString("<li>")
		p.text(p.c.Say("bench."+group+"."+list[i].Key, benchArgs(&list[i])...))
		p.lines(list[i].Lines)
		p.b.WriteString("</li>\n")
	}
	p.b.WriteString("</ul></section>\n")
}

// drawing puts the drawing in, each of its two forms where it fits.
func (p *benchPage) drawing(s *bench.Sheet) {
	title, about := BenchShort(p.c, s.Calculator), BenchAbout(p.c, s.Calculator)
	var wide, narrow []byte
	switch {
	case s.Scene != nil:
		wide, narrow = draw.SceneInPage(s.Scene, title, about, benchLabels(p.c))
	case s.Bars != nil:
		wide, narrow = draw.BarsInPage(s.Bars, title, about, benchBars(s.Bars, p.c))
	default:
		return
	}
	p.scroll("scroll sheet", p.c.Say("bench.heading.drawing"))
	p.b.WriteString(`<div class="desk">`)
	p.b.Write(wide)
	p.b.WriteString(`</div><div class="phone">`)
	p.b.Write(narrow)
	p.b.WriteString("</div></div>\n")
}

// scroll begins what can be moved sideways where it is wider than the page.
func (p *benchPage) scroll(class, called string) {
	p.b.WriteString(`<div class="` + class + `" tabindex="0" role="group" aria-label="`)
	p.text(called)
	p.b.WriteString(`">`)
}

func (p *benchPage) series(x *bench.Series) {
	if x == nil {
		return
	}
	p.open("series", "bench.series."+x.Key)
	p.scroll("scroll", p.c.Say("bench.series."+x.Key))
	p.b.WriteString("<table><thead><tr>")
	for _, k := range x.Columns {
		p.b.WriteString(`<th scope="col">`)
		p.text(p.c.Say("bench.figure." + k))
		p.b.WriteString("</th>")
	}
	p.b.WriteString("</tr></thead><tbody>\n")
	for _, row := range x.Rows {
		p.b.WriteString("<tr>")
		for i, v := range row {
			cell := [2]string{"<td>", "</td>"}
			if i == 0 {
				cell = [2]string{`<th scope="row">`, "</th>"}
			}
			p.b.WriteString(cell[0])
			p.text(bench.Print(v, x.Units[i], x.Rounds[i]))
			p.b.WriteString(cell[1])
		}
		p.b.WriteString("</tr>\n")
	}
	p.b.WriteString("</tbody></table></div></section>\n")
}

// sources tells every line the sheet rests on, with what it says.
func (p *benchPage) sources(s *bench.Sheet, t *table.Tables) {
	lines := benchLines(s)
	if len(lines) == 0 {
		return
	}
	p.b.WriteString("<details><summary>")
	p.text(p.c.Say("bench.heading.sources"))
	p.b.WriteString("</summary><ul>\n")
	for _, id := range lines {
		if l := t.Line(id); l != nil {
			p.b.WriteString("<li>")
			p.text(benchSource(p.c, l))
			p.b.WriteString(`<br><span class="small">`)
			p.text(l.Says)
			p.b.WriteString("</span></li>\n")
		}
	}
	p.b.WriteString("</ul></details>\n")
}
