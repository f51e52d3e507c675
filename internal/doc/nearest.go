package doc

import "strings"

// nearest gives the word closest to the one typed, if it is close enough to be
// a slip of the hand: at most two edits, and fewer than half its letters.
func nearest(typed string, words []string) (string, bool) {
	best, bestWord := 3, ""
	for _, w := range words {
		if strings.EqualFold(typed, w) {
			return w, true
		}
		if d := edits(typed, w); d < best && 2*d < len([]rune(w)) {
			best, bestWord = d, w
		}
	}
	return bestWord, bestWord != ""
}

// edits counts insertions, deletions, replacements and swaps of neighbours
// (optimal string alignment) that turn a into b.
func edits(a, b string) int {
	x, y := []rune(a), []rune(b)
	if d := len(x) - len(y); d > 2 || d < -2 {
		return 3 // no need to know how many more
	}
	before, last := make([]int, len(y)+1), make([]int, len(y)+1)
	row := make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(y)]
}
