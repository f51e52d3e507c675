package entry

import (
	"errors"
	"strconv"
	"unicode/utf8"
)

const (
	deepest  = 16  // how far values may lie within one another
	mostKeys = 256 // of one object
)

// Canonical says what keeps a JSON value from being in canonical form, or nil:
// no space, keys each once, strings with the fewest escapes, numbers as the
// shortest that reads back the same, no null, no empty text for a key.
func Canonical(b []byte) error {
	n, err := scan(b, 0)
	if err == nil && n != len(b) {
		err = errors.New("something follows the value")
	}
	return err
}

var (
	errEnd    = errors.New("ends too early")
	errValue  = errors.New("holds something that is no value in canonical form")
	errText   = errors.New("holds a text that is not in canonical form")
	errNumber = errors.New("holds a number that is not in canonical form")
	errTwice  = errors.New("holds a key twice")
	errMany   = errors.New("holds an object with too many keys")
	errDeep   = errors.New("is too deep")
)

// scan gives how many bytes the value at the beginning takes.
func scan(b []byte, depth int) (int, error) {
	switch {
	case len(b) == 0:
		return 0, errEnd
	case depth > deepest:
		return 0, errDeep
	case b[0] == '{':
		return scanObject(b, depth)
	case b[0] == '[':
		return scanList(b, depth)
	case b[0] == '"':
		n, _ := scanText(b)
		if n < 0 {
			return 0, errText
		}
		return n, nil
	}
	for _, w := range [...]string{"true", "false"} {
		if len(b) >= len(w) && string(b[:len(w)]) == w {
			return len(w), nil
		}
	}
	return scanNumber(b)
}

func scanObject(b []byte, depth int) (int, error) {
	at := 1
	if len(b) > 1 && b[1] == '}' {
		return 2, nil
	}
	var room [24]string
	keys := room[:0]
	for {
		n, _ := scanText(b[at:])
		if n < 3 {
			return 0, errText
		}
		key := string(b[at : at+n])
		for _, k := range keys {
			if k == key {
				return 0, errTwice
			}
		}
		if keys = append(keys, key); len(keys) > mostKeys {
			return 0, errMany
		}
		if at += n; at >= len(b) || b[at] != ':' {
			return 0, errValue
		}
		n, err := scan(b[at+1:], depth+1)
		if err != nil {
			return 0, err
		}
		if at += 1 + n; at >= len(b) {
			return 0, errEnd
		}
		switch b[at] {
		case ',':
			at++
		case '}':
			return at + 1, nil
		default:
			return 0, errValue
		}
	}
}

func scanList(b []byte, depth int) (int, error) {
	at := 1
	if len(b) > 1 && b[1] == ']' {
		return 2, nil
	}
	for {
		n, err := scan(b[at:], depth+1)
		if err != nil {
			return 0, err
		}
		if at += n; at >= len(b) {
			return 0, errEnd
		}
		switch b[at] {
		case ',':
			at++
		case ']':
			return at + 1, nil
		default:
			return 0, errValue
		}
	}
}

// scanText gives how many bytes the string at the beginning takes, its quotes
// included, and whether it is free of escapes; -1 where it is not canonical.
func scanText(b []byte) (n int, plain bool) {
	if len(b) == 0 || b[0] != '"' {
		return -1, false
	}
	plain = true
	for i := 1; i < len(b); {
		switch c := b[i]; {
		case c == '"':
			return i + 1, plain
		case c < 0x20:
			return -1, false
		case c == '\\':
			plain = false
			k := escape(b[i:])
			if k == 0 {
				return -1, false
			}
			i += k
		case c < utf8.RuneSelf:
			i++
		default:
			r, size := utf8.DecodeRune(b[i:])
			if r == utf8.RuneError && size == 1 {
				return -1, false
			}
			i += size
		}
	}
	return -1, false
}

// escape gives the length of the escape at the beginning, 0 where it is none of
// those that appendText writes.
func escape(b []byte) int {
	if len(b) < 2 {
		return 0
	}
	switch b[1] {
	case '"', '\\', 'n':
		return 2
	case 'u':
		if len(b) < 6 || b[2] != '0' || b[3] != '0' || b[4] != '0' && b[4] != '1' || !hexadecimal(string(b[5:6]), 1) || b[4] == '0' && b[5] == 'a' {
			return 0
		}
		return 6
	}
	return 0
}

// scanNumber takes a number that strconv would write the same.
func scanNumber(b []byte) (int, error) {
	n := 0
	for n < len(b) && n < 32 {
		c := b[n]
		if (c < '0' || c > '9') && c != '-' && c != '+' && c != '.' && c != 'e' {
			break
		}
		n++
	}
	if n == 0 {
		return 0, errValue
	}
	text := string(b[:n])
	if v, err := strconv.ParseInt(text, 10, 64); err == nil {
		if strconv.FormatInt(v, 10) != text {
			return 0, errNumber
		}
		return n, nil
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || strconv.FormatFloat(v, 'g', -1, 64) != text {
		return 0, errNumber
	}
	return n, nil
}
