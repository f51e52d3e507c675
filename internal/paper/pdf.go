package paper

import (
	"bytes"
	_ "embed"
	"fmt"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

//go:embed fonts/SourceSans3-Regular.ttf
var regular []byte

//go:embed fonts/SourceSans3-Semibold.ttf
var strong []byte

const (
	font   = "sans"
	left   = 18.0
	width  = 174.0
	labelW = 62.0
	refW   = 14.0
	lineH  = 4.9
)

// PDF writes a paper on A4. The same paper made at the same time gives the same bytes.
func PDF(d *Doc, made time.Time) ([]byte, error) {
	p := fpdf.New("P", "mm", "A4", "")
	p.SetCreationDate(made)
	p.SetModificationDate(made)
	p.SetCatalogSort(true)
	p.SetTitle(d.Title+": "+d.Sub, true)
	p.SetLang("en")
	p.AddUTF8FontFromBytes(font, "", regular)
	p.AddUTF8FontFromBytes(font, "B", strong)
	p.SetLineWidth(0.1)
	p.SetMargins(left, 16, left)
	p.SetAutoPageBreak(true, 24)
	p.AliasNbPages("{pages}")
	p.SetFooterFunc(func() {
		p.SetY(-20)
		p.SetFont(font, "", 7.5)
		p.MultiCell(width, 3.4, d.Foot, "T", "L", false)
		p.SetFont(font, "", 8)
		p.CellFormat(width, 4, "Page "+strconv.Itoa(p.PageNo())+" of {pages}", "", 0, "R", false, 0, "")
	})
	if len(d.Attach) > 0 {
		p.SetAttachments([]fpdf.Attachment{{Content: d.Attach, Filename: d.Name, Description: "The machine-readable record"}})
	}
	p.AddPage()
	p.SetFont(font, "B", 19)
	p.CellFormat(width, 9, d.Title, "", 1, "L", false, 0, "")
	p.SetFont(font, "", 11)
	p.MultiCell(width, 6, d.Sub, "B", "L", false)
	p.Ln(2)
	if d.Strip != nil {
		strip(p, d.Strip)
	}
	for i := range d.Sections {
		section(p, &d.Sections[i])
	}
	var b bytes.Buffer
	if err := p.Output(&b); err != nil {
		return nil, fmt.Errorf("the paper cannot be written: %w", err)
	}
	return b.Bytes(), nil
}

// room begins a new page where less than so much is left on this one.
func room(p *fpdf.Fpdf, h float64) {
	_, page := p.GetPageSize()
	if p.GetY()+h > page-26 {
		p.AddPage()
	}
}

func section(p *fpdf.Fpdf, s *Section) {
	room(p, 22)
	p.Ln(2.5)
	p.SetFont(font, "B", 12)
	p.MultiCell(width, 6, s.Heading, "", "L", false)
	for _, r := range s.Rows {
		row(p, r)
	}
	if len(s.Head) > 0 {
		grid(p, s)
	}
	if s.Note != "" {
		p.SetFont(font, "", 9)
		p.Ln(0.8)
		p.MultiCell(width, 4.4, s.Note, "", "L", false)
	}
}

// row writes a particular: what asks for it, its name, what it says.
func row(p *fpdf.Fpdf, r Row) {
	p.SetFont(font, "", 9.5)
	label := p.SplitText(r.Label, labelW-2)
	value := p.SplitText(r.Value, width-refW-labelW-2)
	h := lineH * float64(max(len(label), len(value), 1))
	room(p, h+1)
	y := p.GetY()
	p.SetFont(font, "", 8)
	p.SetXY(left, y)
	p.CellFormat(refW, lineH, r.Ref, "", 0, "L", false, 0, "")
	p.SetFont(font, "", 9.5)
	for i, l := range label {
		p.SetXY(left+refW, y+lineH*float64(i))
		p.CellFormat(labelW, lineH, l, "", 0, "L", false, 0, "")
	}
	p.SetFont(font, "B", 9.5)
	for i, l := range value {
		p.SetXY(left+refW+labelW, y+lineH*float64(i))
		p.CellFormat(width-refW-labelW, lineH, l, "", 0, "L", false, 0, "")
	}
	p.SetXY(left, y+h)
	p.Line(left, y+h, left+width, y+h)
	p.SetY(y + h + 0.6)
}

func grid(p *fpdf.Fpdf, s *Section) {
	head := func() {
		p.SetFont(font, "B", 8.5)
		for i, h := range s.Head {
			p.CellFormat(width*s.Widths[i], 5.2, h, "B", 0, "L", false, 0, "")
		}
		p.Ln(5.6)
	}
	head()
	for _, cells := range s.Table {
		p.SetFont(font, "", 8.5)
		lines, n := make([][]string, len(cells)), 1
		for i, c := range cells {
			lines[i] = p.SplitText(c, width*s.Widths[i]-2)
			n = max(n, len(lines[i]))
		}
		h := 4.2 * float64(n)
		if _, page := p.GetPageSize(); p.GetY()+h > page-26 {
			p.AddPage()
			head()
			p.SetFont(font, "", 8.5)
		}
		y, x := p.GetY(), left
		for i := range cells {
			for k, l := range lines[i] {
				p.SetXY(x, y+4.2*float64(k))
				p.CellFormat(width*s.Widths[i], 4.2, l, "", 0, "L", false, 0, "")
			}
			x += width * s.Widths[i]
		}
		p.Line(left, y+h+0.4, left+width, y+h+0.4)
		p.SetXY(left, y+h+0.9)
	}
}

// strip draws the piece along the page, end A on the left, each mark with its
// number; solid for what was seen, so that it reads in black and white.
func strip(p *fpdf.Fpdf, s *Strip) {
	y := p.GetY() + 8
	p.SetLineWidth(0.3)
	p.Rect(left, y, width, 4, "D")
	p.SetFont(font, "", 8)
	p.Text(left, y+8.5, "end A")
	end := fmt.Sprintf("end B, %.0f mm", s.Length)
	p.Text(left+width-p.GetStringWidth(end), y+8.5, end)
	last := -10.0
	level := 0.0
	for _, m := range s.Marks {
		x0, x1 := left+width*m.From/s.Length, left+width*m.To/s.Length
		if x1-x0 < 0.8 {
			x1 = x0 + 0.8
		}
		p.Rect(x0, y, x1-x0, 4, "F")
		if x0-last < 5 {
			level = 3 - level
		} else {
			level = 0
		}
		last = x0
		p.Text(x0, y-1-level, strconv.Itoa(m.Number))
	}
	p.SetLineWidth(0.1)
	p.SetY(y + 11)
}
