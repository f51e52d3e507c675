package draw

import "strings"

// advance holds the widths of the characters from space to "~" in thousandths
// of the size, as in DejaVu Sans: the widest of the fonts asked for, so that a
// text that fits here fits with any of them.
var advance = [95]int16{
	318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337,
	636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531,
	1000, 684, 686, 698, 770, 632, 575, 775, 752, 295, 295, 656, 557, 863, 748, 787,
	603, 787, 695, 635, 611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500,
	500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612,
	635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838,
}

const boldWider = 1.12 // bold against regular, of the same font, over running text

// width gives the width of a text in units of the sheet, a little too large
// rather than too small.
func width(text string, size float64, bold bool) float64 {
	n := 0
	for _, r := range text {
		switch {
		case r >= ' ' && r <= '~':
			n += int(advance[r-' '])
		case r == narrow || r == thin:
			n += 200
		case r < 0x2000:
			n += 700
		default:
			n += 1000
		}
	}
	w := float64(n) * size / 1000
	if bold {
		w *= boldWider
	}
	return w
}

const (
	narrow   = '\u202f' // keeps the groups of a figure together
	thin     = '\u2009'
	ellipsis = "…"
)

// cut shortens a text to a width, with an ellipsis in place of what is lost.
func cut(text string, size float64, bold bool, most float64) string {
	if width(text, size, bold) <= most {
		return text
	}
	most -= width(ellipsis, size, bold)
	runes := []rune(text)
	for len(runes) > 0 && width(string(runes), size, bold) > most {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ,;:") + ellipsis
}

// wrap breaks a text into lines of a width; what does not go into so many
// lines is cut.
func wrap(text string, size float64, bold bool, most float64, lines int) []string {
	var out []string
	line := ""
	words := strings.Fields(text)
	for i, w := range words {
		next := w
		if line != "" {
			next = line + " " + w
		}
		if line == "" || width(next, size, bold) <= most {
			line = next
			continue
		}
		if len(out) == lines-1 {
			line += " " + strings.Join(words[i:], " ")
			break
		}
		out = append(out, cut(line, size, bold, most))
		line = w
	}
	if line != "" {
		out = append(out, cut(line, size, bold, most))
	}
	return out
}

// spread moves places apart until each is at least gap from the next and all
// lie from lo to hi, if there is room. It keeps their order.
func spread(at []float64, gap, lo, hi float64) []float64 {
	order := make([]int, len(at))
	for i := range order {
		order[i] = i
	}
	for i := 1; i < len(order); i++ {
		for k := i; k > 0 && at[order[k]] < at[order[k-1]]; k-- {
			order[k], order[k-1] = order[k-1], order[k]
		}
	}
	out := make([]float64, len(at))
	low := lo
	for _, i := range order {
		out[i] = max(at[i], low)
		low = out[i] + gap
	}
	high := hi
	for k := len(order) - 1; k >= 0; k-- {
		i := order[k]
		out[i] = min(out[i], high)
		high = out[i] - gap
	}
	return out
}
