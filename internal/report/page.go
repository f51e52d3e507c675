package report

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// page is text of a fixed width under way.
type page struct {
	b     strings.Builder
	width int
}

// title begins a section.
func (p *page) title(s string) {
	if p.b.Len() > 0 {
		p.b.WriteByte('\n')
	}
	p.b.WriteString(s)
	p.b.WriteByte('\n')
}

// under begins a part of a section.
func (p *page) under(s string) { p.wrap("  ", s) }

// wrap writes a paragraph. The first line begins with lead, the others with as
// many spaces. Lines break at spaces, never behind a bare number, which belongs
// to the unit after it; a word longer than a line stands alone.
func (p *page) wrap(lead, text string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(lead))
	line, used := lead, utf8.RuneCountInString(lead)
	fresh := true
	for _, word := range glued(text) {
		n := utf8.RuneCountInString(word)
		if !fresh && used+1+n > p.width {
			p.b.WriteString(line)
			p.b.WriteByte('\n')
			line, used, fresh = indent, len(indent), true
		}
		if !fresh {
			line += " "
			used++
		}
		line += word
		used += n
		fresh = false
	}
	p.b.WriteString(strings.TrimRight(line, " "))
	p.b.WriteByte('\n')
}

// glued splits a text into words, a bare number together with the next one.
func glued(text string) []string {
	var out []string
	bare := false
	for _, word := range strings.Split(text, " ") {
		if bare {
			out[len(out)-1] += " " + word
		} else {
			out = append(out, word)
		}
		bare = word != "" && strings.Trim(word, "0123456789.") == "" && !strings.HasSuffix(word, ".")
	}
	return out
}

// item writes one of a list.
func (p *page) item(text string) { p.wrap("- ", text) }

// note writes what belongs to the item above.
func (p *page) note(text string) { p.wrap("    ", text) }

// para writes a paragraph of a section.
func (p *page) para(text string) { p.wrap("  ", text) }

// table writes rows of cells: the first column to the left, the others to the
// right. The first row is the head. A first column too wide is cut.
func (p *page) table(rows [][]string) {
	var wide []int
	for _, row := range rows {
		for i, cell := range row {
			if i == len(wide) {
				wide = append(wide, 0)
			}
			wide[i] = max(wide[i], utf8.RuneCountInString(cell))
		}
	}
	rest := 2
	for _, w := range wide[1:] {
		rest += w + 2
	}
	wide[0] = max(8, min(wide[0], p.width-rest))
	for _, row := range rows {
		line := "  " + pad(cut(row[0], wide[0]), wide[0], false)
		for i, cell := range row[1:] {
			line += "  " + pad(cell, wide[i+1], true)
		}
		p.b.WriteString(strings.TrimRight(line, " "))
		p.b.WriteByte('\n')
	}
}

func pad(s string, width int, left bool) string {
	fill := strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s)))
	if left {
		return fill + s
	}
	return s + fill
}

func cut(s string, width int) string {
	if utf8.RuneCountInString(s) <= width {
		return s
	}
	return string([]rune(s)[:width-1]) + "…"
}

func number(n int64) string { return strconv.FormatInt(n, 10) }
