package doc

import (
	"bytes"
	"unicode/utf8"
)

// places turns offsets of a file into lines and columns. It remembers the last
// answer, so that asking in the order of the file costs one pass in all.
type places struct {
	src            []byte
	off, line, col int
}

func newPlaces(src []byte) *places { return &places{src: src, line: 1, col: 1} }

func (p *places) at(off int) (line, col int) {
	off = min(max(off, 0), len(p.src))
	if off < p.off {
		p.off, p.line, p.col = 0, 1, 1
	}
	part := p.src[p.off:off]
	if i := bytes.LastIndexByte(part, '\n'); i >= 0 {
		p.line += bytes.Count(part, []byte{'\n'})
		p.col = 1
		part = part[i+1:]
	}
	p.col += utf8.RuneCount(part)
	p.off = off
	return p.line, p.col
}

// notText gives the offset of the first byte that is no UTF-8, or -1.
func notText(b []byte) int {
	for i := 0; i < len(b); {
		r, n := utf8.DecodeRune(b[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

// trail is the way from the root to a value.
type trail []step

type step struct {
	key string
	i   int // index into a list, when key is not used
	isI bool
}

func (t trail) key(k string) trail { return append(t[:len(t):len(t)], step{key: k}) }
func (t trail) item(i int) trail   { return append(t[:len(t):len(t)], step{i: i, isI: true}) }

func (t trail) String() string {
	s := ""
	for _, st := range t {
		if st.isI {
			s = index(s, st.i)
		} else {
			s = join(s, st.key)
		}
	}
	return s
}

const utf8Mend = "save the file as UTF-8, not as UTF-16 or “Unicode”"
