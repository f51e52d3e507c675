package paper

import (
	"bytes"
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"kernbook/internal/core/kit"
)

//go:embed fonts/SourceSans3-Regular.ttf
var regular []byte

//go:embed fonts/SourceSans3-Semibold.ttf
var strong []byte

// The page, in millimetres.
const (
	family = "sans"
	left   = 20.0
	width  = 172.0
	top    = 17.0
	bottom = 26.0 // kept free for the foot
	refW   = 13.0
	labelW = 56.0
	gap    = 3.0
)

// writer writes one paper.
type writer struct {
	p       *fpdf.Fpdf
	missing bool // a character was written that the font does not have
	refs    bool // particulars have numbers: all labels stand beside them
}

// PDF writes a paper on A4. The same paper made at the same time gives the same bytes.
func PDF(d *Doc, made time.Time) ([]byte, error) {
	w := &writer{p: fpdf.New("P", "mm", "A4", "")}
	p := w.p
	p.SetCreationDate(made)
	p.SetModificationDate(made)
	p.SetCatalogSort(true)
	p.SetTitle(d.Title+": "+d.Sub, true)
	p.SetLang("en")
	p.AddUTF8FontFromBytes(family, "", regular)
	p.AddUTF8FontFromBytes(family, "B", strong)
	p.SetLineWidth(0.1)
	p.SetMargins(left, top, left-2)
	p.SetCellMargin(0)
	p.SetAutoPageBreak(false, 0)
	p.AliasNbPages("{pages}")
	p.SetFooterFunc(func() { w.foot(d) })
	if len(d.Attach) > 0 {
		p.SetAttachments([]fpdf.Attachment{{Content: d.Attach, Filename: d.Name, Description: "The machine-readable record"}})
	}
	p.AddPage()
	w.font("B", 21)
	w.text(d.Title, width, 9.5)
	w.font("", 11)
	w.text(d.Sub, width, 5.6)
	p.Ln(1.6)
	p.SetLineWidth(0.6)
	p.Line(left, p.GetY(), left+width, p.GetY())
	p.SetLineWidth(0.1)
	p.Ln(2)
	if d.Key != "" {
		w.font("", 8)
		w.text(d.Key, width, 3.7)
	}
	for i := range d.Sections {
		for _, r := range d.Sections[i].Rows {
			w.refs = w.refs || r.Ref != ""
		}
	}
	w.verdict(d.Alert)
	w.verdict(d.Verdict)
	for i := range d.Sections {
		w.section(&d.Sections[i])
	}
	if w.missing {
		p.Ln(3)
		w.font("", 8)
		w.text(string(box)+" stands for a character that the font of this paper does not have; the book and the attached record hold the text as it was written.", width, 3.8)
	}
	var b bytes.Buffer
	if err := p.Output(&b); err != nil {
		return nil, fmt.Errorf("the paper cannot be written: %w", err)
	}
	return b.Bytes(), nil
}

// foot writes which paper this is and which of its pages.
func (w *writer) foot(d *Doc) {
	p := w.p
	_, page := p.GetPageSize()
	y := page - 20
	p.SetLineWidth(0.1)
	p.Line(left, y, left+width, y)
	w.font("B", 8.5)
	number := "Page " + strconv.Itoa(p.PageNo()) + " of {pages}"
	running, _ := printable(d.Running)
	running = w.wrap(running, width-30)[0]
	p.Text(left, y+4, running)
	p.Text(left+width-p.GetStringWidth("Page 00 of 00"), y+4, number)
	w.font("", 7)
	p.SetXY(left, y+5.4)
	for i, l := range w.wrap(d.Foot, width) {
		p.Text(left, y+8+3*float64(i), l)
	}
}

func (w *writer) font(style string, size float64) { w.p.SetFont(family, style, size) }

// room begins a new page where less than so much is left on this one.
func (w *writer) room(h float64) {
	_, page := w.p.GetPageSize()
	if w.p.GetY()+h > page-bottom && w.p.GetY() > top+1 {
		w.p.AddPage()
	}
}

// wrap breaks a text into lines of a width in the font that is set. A word that
// is longer than a line is broken where the line ends. There is always a line.
func (w *writer) wrap(text string, width float64) []string {
	text, missing := printable(text)
	w.missing = w.missing || missing
	var out []string
	for _, part := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(part) {
			if next := strings.TrimLeft(line+" "+word, " "); w.p.GetStringWidth(next) <= width {
				line = next
				continue
			}
			if line != "" {
				out = append(out, line)
			}
			line = ""
			for _, c := range word {
				if line != "" && w.p.GetStringWidth(line+string(c)) > width {
					out, line = append(out, line), ""
				}
				line += string(c)
			}
		}
		out = append(out, line)
	}
	return out
}

// text writes lines over the page, on a new one where this one is full.
func (w *writer) text(t string, width, lineH float64) {
	for _, l := range w.wrap(t, width) {
		w.room(lineH)
		w.p.SetX(left)
		w.p.CellFormat(width, lineH, l, "", 1, "L", false, 0, "")
	}
}

// verdict shows the decision: the stricter, the heavier.
func (w *writer) verdict(v *Verdict) {
	if v == nil {
		return
	}
	p := w.p
	p.Ln(2.5)
	y := p.GetY()
	fill := "D"
	p.SetLineWidth(0.3)
	switch {
	case v.Level >= kit.Withdraw:
		fill = "F"
	case v.Level >= kit.SetAside:
		p.SetLineWidth(1.2)
	case v.Level >= kit.KeepSooner:
		p.SetLineWidth(0.7)
	}
	p.Rect(left, y, width, 12, fill)
	if fill == "F" {
		p.SetTextColor(255, 255, 255)
	}
	w.font("", 9.5)
	p.Text(left+4, y+7.4, v.Label)
	w.font("B", 15)
	p.Text(left+refW+labelW+gap, y+7.9, strings.ToUpper(v.Words))
	p.SetTextColor(0, 0, 0)
	p.SetLineWidth(0.1)
	p.SetXY(left, y+13.5)
}

func (w *writer) section(s *Section) {
	p := w.p
	need := 24.0
	if s.Strip != nil {
		need += s.Strip.height()
	}
	w.room(need)
	p.Ln(3.6)
	if s.Apart {
		p.SetDashPattern([]float64{1.5, 1}, 0)
		p.SetLineWidth(0.4)
		p.Line(left, p.GetY(), left+width, p.GetY())
		p.SetDashPattern(nil, 0)
		p.Ln(1.2)
	}
	w.font("B", 12)
	w.text(s.Heading, width, 5.8)
	p.SetLineWidth(0.3)
	p.Line(left, p.GetY()+.2, left+width, p.GetY()+.2)
	p.SetLineWidth(0.1)
	p.Ln(1)
	if s.Strip != nil {
		w.strip(s.Strip)
	}
	for _, r := range s.Rows {
		w.row(r)
	}
	if len(s.Head) > 0 {
		w.grid(s)
	}
	if s.Note != "" {
		w.font("", 8.5)
		p.Ln(1)
		w.text(s.Note, width, 4)
	}
	for _, t := range s.Sign {
		w.room(17)
		y := p.GetY() + 11
		p.SetLineWidth(0.2)
		p.Line(left, y, left+110, y)
		p.Line(left+118, y, left+width, y)
		p.SetLineWidth(0.1)
		w.font("", 8)
		p.Text(left, y+3.6, t)
		p.Text(left+118, y+3.6, "date")
		p.SetXY(left, y+5)
	}
}

// cell is a column of a band of text.
type cell struct {
	x, w  float64
	lines []string
	style string
	size  float64
	frame bool
}

// band writes columns of lines beside each other, over as many pages as they take.
func (w *writer) band(cells []cell, lineH float64, again func()) {
	p := w.p
	n := 1
	for i := range cells {
		n = max(n, len(cells[i].lines))
	}
	_, page := p.GetPageSize()
	if h := lineH * float64(n); h < page-top-bottom-20 || n < 4 {
		if p.GetY()+h+1.2 > page-bottom {
			p.AddPage()
			again()
		}
	}
	for from := 0; from < n; {
		fits := int((page - bottom - p.GetY() - 1) / lineH)
		if fits < 1 {
			p.AddPage()
			again()
			continue
		}
		to := min(from+fits, n)
		y := p.GetY() + .5
		for _, c := range cells {
			w.font(c.style, c.size)
			for k := from; k < min(to, len(c.lines)); k++ {
				p.SetXY(c.x, y+lineH*float64(k-from))
				p.CellFormat(c.w, lineH, c.lines[k], "", 0, "L", false, 0, "")
				if c.frame {
					p.SetLineWidth(0.25)
					p.Rect(c.x-1, y+lineH*float64(k-from)+.3, p.GetStringWidth(c.lines[k])+2, lineH-.6, "D")
					p.SetLineWidth(0.1)
				}
			}
		}
		p.SetXY(left, y+lineH*float64(to-from)+.5)
		from = to
	}
	p.Line(left, p.GetY(), left+width, p.GetY())
}

// row writes a particular: what asks for it, its name, what it says.
func (w *writer) row(r Row) {
	label, value := cell{x: left, w: labelW, size: 9}, cell{x: left + refW + labelW + gap, w: width - refW - labelW - gap, style: "B", size: 9.5, frame: r.Missing()}
	cells := []cell{}
	if w.refs {
		w.font("", 8)
		cells = append(cells, cell{x: left, w: refW, size: 8, lines: w.wrap(r.Ref, refW-1)})
		label.x += refW
	} else {
		label.w += refW
	}
	w.font(label.style, label.size)
	label.lines = w.wrap(r.Label, label.w)
	if len(r.Value) > 120 { // a long text in the plain weight
		value.style = ""
	}
	for _, word := range strings.Fields(r.Value) {
		if len(word) > 60 { // a sum
			value.style, value.size = "", 8
		}
	}
	w.font(value.style, value.size)
	value.lines = w.wrap(r.Value, value.w)
	w.band(append(cells, label, value), 4.6, func() {})
}

// grid writes a table; its head is written again on each page.
func (w *writer) grid(s *Section) {
	p := w.p
	cells := func(texts []string, style string, size float64) []cell {
		out, x := make([]cell, len(texts)), left
		w.font(style, size)
		for i, t := range texts {
			cw := width * s.Widths[i]
			out[i] = cell{x: x, w: cw - 2.5, style: style, size: size, lines: w.wrap(t, cw-2.5)}
			x += cw
		}
		return out
	}
	head := func() {
		w.band(cells(s.Head, "B", 8.5), 4.2, func() {})
		p.SetLineWidth(0.3)
		p.Line(left, p.GetY(), left+width, p.GetY())
		p.SetLineWidth(0.1)
	}
	w.room(16)
	head()
	for _, texts := range s.Table {
		w.band(cells(texts, "", 9), 4.3, head)
	}
}
