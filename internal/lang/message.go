package lang

import (
	"errors"
	"strings"
)

// message is a text with places, as parsed: pieces one after the other.
type message []piece

// piece is a text, a place for a value, or a stretch that is left out where one
// of its values is missing.
type piece struct {
	text  string
	name  string // of the value; "" for a text or a stretch
	how   string // "" as it is; "date", "count", "chance"; else the group of keys that words it, see value
	upper bool   // the first letter becomes a capital
	maybe message
}

// names adds the names of a piece to all, and to needed where it cannot be left
// out, once each.
func (p *piece) names(all, needed []string, inside bool) ([]string, []string) {
	once := func(list []string) []string {
		for _, n := range list {
			if n == p.name {
				return list
			}
		}
		return append(list, p.name)
	}
	if p.name != "" {
		all = once(all)
		if !inside {
			needed = once(needed)
		}
	}
	for i := range p.maybe {
		all, needed = p.maybe[i].names(all, needed, true)
	}
	return all, needed
}

// parse reads the text of a message.
func parse(text string) (message, error) {
	m, rest, err := stretch(text, 0)
	if err == nil && rest != "" {
		err = errors.New("has a ] without its [")
	}
	return m, err
}

// deepest is how far stretches that may be left out may lie inside each other.
const deepest = 4

// stretch reads up to the end or to a ] that is not its own; rest begins with
// that ].
func stretch(text string, depth int) (m message, rest string, err error) {
	if depth > deepest {
		return nil, "", errors.New("has too many [ inside each other")
	}
	for text != "" {
		i := strings.IndexAny(text, "{}[]")
		if i < 0 {
			return append(m, piece{text: text}), "", nil
		}
		if i > 0 {
			m = append(m, piece{text: text[:i]})
		}
		switch text[i] {
		case ']':
			return m, text[i:], nil
		case '}':
			return nil, "", errors.New("has a } without its {")
		case '[':
			inner, after, err := stretch(text[i+1:], depth+1)
			switch {
			case err != nil:
				return nil, "", err
			case after == "":
				return nil, "", errors.New("has a [ without its ]")
			}
			p := piece{maybe: inner}
			if all, _ := p.names(nil, nil, false); len(all) == 0 {
				return nil, "", errors.New("has a [ ] without a place in it")
			}
			m, text = append(m, p), after[1:]
		case '{':
			j := strings.IndexByte(text[i:], '}')
			if j < 0 {
				return nil, "", errors.New("has a { without its }")
			}
			p, err := place(text[i+1 : i+j])
			if err != nil {
				return nil, "", err
			}
			m, text = append(m, p), text[i+j+1:]
		}
	}
	return m, "", nil
}

// place reads what stands between { and }.
func place(s string) (piece, error) {
	p := piece{}
	if p.upper = strings.HasPrefix(s, "^"); p.upper {
		s = s[1:]
	}
	p.name, p.how, _ = strings.Cut(s, ":")
	if !isName(p.name) || (p.how != "" || strings.Contains(s, ":")) && !isName(p.how) {
		return p, errors.New("has the place {" + s + "}, which is no name")
	}
	return p, nil
}

func isName(s string) bool {
	for i := range len(s) {
		if c := s[i]; (c < 'a' || c > 'z') && (c < '0' || c > '9') && c != '-' {
			return false
		}
	}
	return s != ""
}
