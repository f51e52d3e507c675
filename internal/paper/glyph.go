package paper

import (
	"encoding/binary"
	"sync"
)

// Box stands on paper for a character that the embedded font does not have.
const box = '□'

var has = sync.OnceValue(func() map[rune]bool { return glyphs(regular) })

// glyphs gives the characters a TrueType font has, up to U+FFFF, as its table
// "cmap" of format 4 tells; nil where it has none.
func glyphs(font []byte) map[rune]bool {
	u16 := func(at int) int { return int(binary.BigEndian.Uint16(font[at:])) }
	u32 := func(at int) int { return int(binary.BigEndian.Uint32(font[at:])) }
	out := map[rune]bool{}
	for i := range u16(4) {
		at := 12 + 16*i
		if string(font[at:at+4]) != "cmap" {
			continue
		}
		cmap := u32(at + 8)
		for k := range u16(cmap + 2) {
			sub := cmap + u32(cmap+4+8*k+4)
			if u16(sub) != 4 {
				continue
			}
			n := u16(sub+6) / 2
			end, start, delta, offset := sub+14, sub+16+2*n, sub+16+4*n, sub+16+6*n
			for s := range n {
				from, to, shift := u16(start+2*s), u16(end+2*s), u16(offset+2*s)
				for c := from; c <= to && c != 0xFFFF; c++ {
					g := c
					if shift != 0 {
						g = u16(offset + 2*s + shift + 2*(c-from))
					}
					if shift != 0 && g == 0 {
						continue
					}
					if (g+u16(delta+2*s))&0xFFFF != 0 {
						out[rune(c)] = true
					}
				}
			}
		}
	}
	return out
}

// printable gives a text with a box for each character that the font does not
// have, and whether there was any.
func printable(s string) (string, bool) {
	missing := false
	out := make([]rune, 0, len(s))
	for _, c := range s {
		switch {
		case c == '\n':
		case c == '\r':
			continue
		case c < ' ' || c == 0x7f:
			c = ' '
		case !has()[c]:
			c, missing = box, true
		}
		out = append(out, c)
	}
	return string(out), missing
}
