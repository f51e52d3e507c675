package record

import (
	"strings"

	"kernbook/internal/doc"
)

// suggest gives the id that was most likely meant, or "". Beside slips of the
// hand it finds ids of which only a part was typed, and other ways of joining
// words: "glazed" and "Glazed_hard" for "glazed-hard".
func suggest(typed string, ids []string) string {
	t := plain(typed)
	best, most := "", 0.5
	for _, id := range ids {
		w := plain(id)
		score := alike(t, w)
		switch {
		case t == w:
			score = 2
		case len(t) >= 3 && len(w) >= 3 && (strings.Contains(w, t) || strings.Contains(t, w)):
			score++ // among those that contain it, the one that has least besides
		}
		if score > most {
			best, most = id, score
		}
	}
	return best
}

func plain(s string) string {
	return strings.NewReplacer(" ", "-", "_", "-").Replace(strings.ToLower(s))
}

// alike is the share of neighbouring letter pairs that two words have in common
// (Dice's coefficient), their first and last letters counted as pairs too.
func alike(a, b string) float64 {
	pairs := map[string]int{}
	x, y := " "+a+" ", " "+b+" "
	for i := 0; i+1 < len(x); i++ {
		pairs[x[i:i+2]]++
	}
	same := 0
	for i := 0; i+1 < len(y); i++ {
		if pairs[y[i:i+2]] > 0 {
			pairs[y[i:i+2]]--
			same++
		}
	}
	return 2 * float64(same) / float64(len(x)+len(y)-2)
}

// oneOf writes words as a choice: one of “a” or “b”, or “a” alone.
func oneOf(words []string) string {
	if len(words) == 1 {
		return doc.List(words)
	}
	return "one of " + doc.List(words)
}
